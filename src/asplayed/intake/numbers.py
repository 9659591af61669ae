"""Numbers in words ("forty-four and three quarters", "fifty-two oh eight", "a degree") folded into number tokens."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.tokens import Token, along_sentences, spanning

_ONES = {
    "nought": 0, "naught": 0,
    "zero": 0, "oh": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
    "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
    "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9,  # "the sixes to eights"
}  # fmt: skip
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
_PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
    "eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16,
}  # fmt: skip
_LEAST_WITH_PART = 20  # "44 3 quarters" is one number, "the 5 1 quarter inch long" a club and a figure
_DIGITS_OF = {"half": "1", "quarter": "13", "quarters": "3", "eighth": "1357", "eighths": "357", "sixteenths": "3579"}
_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9,
    "tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16,
    "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "thirtieth": 30,
}  # fmt: skip
MONTHS = {
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
}  # fmt: skip
_UNITS = {
    "degree", "degrees", "inch", "inches", "gram", "grams", "click", "clicks", "notch", "notches", "wrap", "wraps",
    "point", "points", "layer", "layers", "mil", "step", "steps", "deg", "g", "in", "centimetre", "centimetres",
    "centimeter", "centimeters", "millimetre", "millimetres", "cm", "mm",
}  # fmt: skip
_FULL = {"full", "whole", "good"}  # between a number and its unit
_COUNTING = {*_ONES, *_TENS, *_PARTS, "and", "point", "hundred", "a"}
_CLUBS = {"iron", "irons", "wood", "woods", "hybrid", "hybrids", "rescue", "wedge"}
_GOES_ON = {"a", "an", "the", "is", "are", "of", "with", "in", "at", "to", "and", "his", "her", "its", "that's", "it's"}
_BENDS = {"weak", "weaker", "strong", "stronger", "flat", "flatter", "upright"}  # "the sixty one degree strong"
_POINTING = {
    "this", "that", "the", "new", "newer", "old", "older", "other", "which", "last", "first", "every", "same",
    "only", "another", "previous", "no", "next", "any", "some", "longer", "shorter", "stronger", "weaker", "my",
    "spare",
}  # fmt: skip
_COUNTED = {"all", "the", "these", "those", "my", "his", "her", "our"}  # before how many clubs, or a club's number
_AFTER_ONE = {
    "iron", "wood", "extra", "up", "down", "flat", "upright", "weak", "strong", "wrap", "wraps",
    "and",
    "click", "long", "over", "short", "point", "more",
}  # fmt: skip


def _plain(token: Token) -> bool:
    return token.kind == "word"


def _singular(word: str) -> str:
    """The number in "the fifty-two's", "the one-twenties", "two nines"; any other word as it is."""
    if not word.endswith("s"):
        return word
    if word.endswith("'s") and word != "one's" and (word[:-2] in _ONES or word[:-2] in _TENS):
        return word[:-2]
    if word.endswith("ies") and f"{word[:-3]}y" in _TENS:
        return f"{word[:-3]}y"
    return word[:-1] if _ONES.get(word[:-1], 0) >= 5 else word


class _Reader:
    """Walks the words of one stretch of tokens; `at` is the next token to look at."""

    def __init__(self, tokens: list[Token]) -> None:
        self.tokens = tokens
        self.words = [_singular(token.lower) if token.kind == "word" else "" for token in tokens]
        self.at = 0

    def word(self, ahead: int = 0) -> str:
        """The lower-case word at `at + ahead`, or "" when there is none; a hyphen between words is no word."""
        position = self.at + ahead
        return self.words[position] if position < len(self.words) else ""

    def skip_hyphen(self) -> bool:
        """Step over a hyphen glued between two words."""
        if self.at + 1 < len(self.tokens):
            here, after = self.tokens[self.at], self.tokens[self.at + 1]
            if here.kind == "mark" and here.text in "-‐–" and here.glued and after.glued and _plain(after):
                self.at += 1
                return True
        return False

    def small(self) -> int | None:
        """An integer under a hundred in words, or None with nothing consumed."""
        start = self.at
        word = self.word()
        if word in _TENS:
            self.at += 1
            mark = self.at
            hyphen = self.skip_hyphen()
            ones = self.word()
            bent = not hyphen and self.word(1) in ("degree", "degrees") and self.word(2) in _BENDS
            if 0 < _ONES.get(ones, 0) < 10 and self.word(1) not in _PARTS and not bent:
                self.at += 1
                return _TENS[word] + _ONES[ones]
            self.at = mark
            return _TENS[word]
        if word in _ONES:
            self.at += 1
            return _ONES[word]
        self.at = start
        return None

    def integer(self) -> int | None:
        """An integer in words up to 999: "one hundred and twenty", "one twenty", "a hundred", "two fifty-five"."""
        start = self.at
        if self.word() in ("a", "one") and self.word(1) == "hundred":
            self.at += 2
            return 100 + self._rest()
        onward = self.word(1)
        if self.word() == "hundred" and (onward in ("and", "gram", "grams", "g") or onward in {**_TENS, **_ONES}):
            self.at += 1
            return 100 + self._rest()
        first = self.small()
        if first is None:
            self.at = start
            return None
        if self.word() == "hundred" and first < 10:
            self.at += 1
            return 100 * first + self._rest()
        if first in (1, 2):
            mark = self.at
            self.skip_hyphen()
            if self.word() in ("oh", "zero"):
                self.at += 1
                self.skip_hyphen()
                ones = self.small()
                if ones is not None and ones < 10:
                    return 100 * first + ones
            else:
                rest = self.small()
                angle = self.word() in ("degree", "degrees") or (
                    self.word() == "and" and self.word(1) in ("a", *_PARTS)
                )
                angle = angle and rest is not None and (rest < 20 or self.word() != "and")
                if rest is not None and rest >= 10 and not angle:  # "gannet two, ten and a half", "two twenty five deg"
                    return 100 * first + rest
            self.at = mark
        return first

    def _rest(self) -> int:
        mark = self.at
        if self.word() == "and" and self.word(1) in {**_ONES, **_TENS} and self.word(2) not in _PARTS:
            self.at += 1
        rest = self.small()
        if rest is None:
            self.at = mark
            return 0
        return rest

    def digit_of_part(self) -> int:
        """The 3 of "3 quarters", the 1 of "and 1 half"; 0 where no such fraction stands."""
        token = self.tokens[self.at] if self.at < len(self.tokens) else None
        if token is None or token.kind != "number" or token.text not in _DIGITS_OF.get(self.word(1), ""):
            return 0
        led = self.at > 0 and self.tokens[self.at - 1].lower == "and"
        return int(token.text) if len(token.text) == 1 and (led or self.word(1) != "half") else 0

    def part(self) -> float | None:
        """A fraction in words: "three quarters", "a half", "half a", "five eighths"; None with nothing consumed."""
        start = self.at
        top = 1
        if (digit := self.digit_of_part()) > 0:
            self.at += 2
            return digit / _PARTS[self.word(-1)]  # "44 and 3 quarters", as telephones write it
        if self.word() in ("a", "an") and self.word(1) in _PARTS:
            self.at += 1
        elif self.word() in _ONES:
            ones = _ONES[self.word()]
            self.at += 1
            self.skip_hyphen()
            if self.word() not in _PARTS or ones == 0 or (ones > 1 and self.word() == "half"):
                self.at = start  # "all three half an inch short"
                return None
            top = ones
        if (self.word() in _PARTS and self.word() not in ("third", "fourth", "eighth")) or (
            self.word() in _PARTS and self.at > start
        ):
            bottom = _PARTS[self.word()]
            self.at += 1
            return top / bottom
        self.at = start
        return None


def _day(reader: _Reader, previous: str) -> float | None:
    """The day of "the twelfth of June", "June the twenty-first"; None with nothing consumed."""
    start = reader.at
    tens = _TENS.get(reader.word(), 0) if reader.word() in ("twenty", "thirty") else 0
    if tens:
        reader.at += 1
        reader.skip_hyphen()
    ordinal = _ORDINALS.get(reader.word(), 0)
    behind = reader.word(2) if reader.word(1) == "of" else reader.word(1)
    if ordinal and (not tens or ordinal < 10) and (behind in MONTHS or previous in MONTHS):
        reader.at += 1
        return float(tens + ordinal)
    reader.at = start
    return None


def _year(reader: _Reader, folded: list[Token]) -> float | None:
    """The year of "the third of May, twenty twenty-six", "two thousand and nineteen" behind a month; else None."""
    start = reader.at
    near = [token.lower for token in folded[-4:]]
    if not set(near) & MONTHS:
        return None
    if [reader.word(), reader.word(1)] == ["two", "thousand"]:
        reader.at += 2
        return 2000.0 + reader._rest()
    if reader.word() == "twenty":
        reader.at += 1
        reader.skip_hyphen()
        rest = reader.small()
        if rest is not None and 10 <= rest <= 99:
            return 2000.0 + rest
    reader.at = start
    return None


def _following_unit(reader: _Reader) -> int:
    """How many tokens ("of a", "an", "a") stand between a fraction and the unit word behind it; −1 for no unit."""
    skip = 0
    reader.skip_hyphen()
    while reader.word(skip) in ("of", "a", "an") and skip < 2:
        skip += 1
    return skip if reader.word(skip) in _UNITS else -1


def _decimals(reader: _Reader) -> str:
    digits = ""
    while 0 <= _ONES.get(reader.word(), 99) < 10:
        digits += str(_ONES[reader.word()])
        reader.at += 1
    if not digits and reader.word() in _ONES:
        digits = str(_ONES[reader.word()])
        reader.at += 1
    if not digits and reader.word() in _TENS:
        value = reader.small()
        digits = str(value) if value is not None else ""
    return digits


def _read(reader: _Reader, previous: str) -> tuple[float | tuple[float, float], str] | None:
    """One number in words from `reader.at`, as (value or code, kind), or None."""
    start = reader.at
    word = reader.word()
    if word in ("a", "an") and reader.word(1) == "couple":
        reader.at += 3 if reader.word(2) == "of" else 2
        return 2.0, "number"
    if word in ("a", "an", "one", "single") and reader.word(1) in _UNITS and word != "one":
        if reader.word(1) in ("point", "g", "in"):
            return None
        reader.at += 1
        return 1.0, "number"
    if word in {"a", "another", *_ONES} and reader.word(1) in _FULL and reader.word(2) in _UNITS:
        reader.at += 2  # "a full degree", "two whole degrees"
        return float(_ONES.get(word, 1)), "number"
    fraction = reader.part()
    if fraction is not None:
        if reader.word() == "set" or (reader.word() == "way"):
            reader.at = start
            return None
        skip = _following_unit(reader)
        if skip > 0:
            reader.at += skip
        return fraction, "number"
    if word == "point" and reader.word(1) in {**_ONES, **_TENS} and not _closes_name(reader.tokens, start):
        reader.at += 1
        digits = _decimals(reader)
        return float("0." + digits), "number"
    whole = reader.integer()
    if whole is None:
        reader.at = start
        return None
    if word == "oh" and whole == 0:
        reader.at = start
        return None
    if (
        whole in (0, 1)
        and reader.at == start + 1
        and previous not in ("by", "bent", "number", "plus", "minus", "c", "d", "e")
    ):
        nearby = reader.word()
        turned = previous in ("up", "down") and not (nearby.isalpha() and nearby not in ("and", "with", "from"))
        led = [token.lower for token in reader.tokens[max(0, start - 2) : start]]
        told = led[-1:] == ["that"] and led[0] in ("make", "scratch", "strike", "forget")
        more = nearby in ("more", "extra", "other") and reader.word(1) in {
            *_CLUBS,
            "club",
            "wedges",
        }  # "one more wedge"
        if (more and not told) or (
            not (turned or told)
            and (
                (nearby not in _UNITS and nearby not in _AFTER_ONE)
                or (previous in _POINTING and nearby in ("long", "and"))
            )
        ):
            reader.at = start
            return None
    read = _tail(reader, float(whole), counted=previous in _COUNTED)
    if isinstance(read[0], float) and read[0] != int(read[0]):
        skip = _following_unit(reader)  # "forty-four and three quarters of an inch"
        reader.at += max(0, skip)
    return read


def _closes_name(tokens: list[Token], at: int) -> bool:
    """True for the Point of "Yew Point seventy-five gram": a capital word behind another."""
    return at > 0 and tokens[at].text[:1].isupper() and tokens[at - 1].text[:1].isupper() and _plain(tokens[at - 1])


def _tail(reader: _Reader, whole: float, *, counted: bool) -> tuple[float | tuple[float, float], str]:
    """What may follow a whole number: a point and digits, a fraction, the bounce of a wedge's code."""
    mark = reader.at
    if reader.word() == "point":
        reader.at += 1
        digits = _decimals(reader)
        if digits:
            return float(f"{int(whole)}.{digits}"), "number"
        reader.at = mark
    if reader.word() == "and":
        reader.at += 1
        fraction = reader.part()
        if fraction is not None:
            return whole + fraction, "number"
        reader.at = mark
    if reader.word() in ("a", "three", "one", "five", "seven", *_PARTS):
        own = reader.word() == "half" and (whole <= 9 or (reader.word(1) in ("a", "an") and reader.word(2) in _UNITS))
        own = own or (whole <= 9 and counted)
        fraction = None if own else reader.part()  # "the fifty half a degree strong": two figures
        single = whole <= 9 and _following_unit(reader) > 0  # "eight and nine three quarters of an inch long"
        if fraction is not None and whole >= 4 and not single:
            return whole + fraction, "number"
        reader.at = mark
    if 44 <= whole <= 64:
        reader.skip_hyphen()
        oh = reader.word() in ("oh", "zero", "o")
        if oh:
            reader.at += 1
        bounce = reader.small()
        following = reader.word()
        fits = bounce is not None and (1 <= bounce <= 9 if oh else 4 <= bounce <= 16)
        if fits and bounce is not None and following not in _UNITS | {"iron", "wood", "hybrid", "irons", "wedge"}:
            return (whole, float(bounce)), "code"
        reader.at = mark
    return whole, "number"


_RUNS_ON = {"and", "with", "in", "at", "of", "but", "that's", "which", "or", "shaft"}  # never a sentence's first word
_SENTENCE = 25  # words: hardly any sentence of speech is longer
_ENDS = {".", "?", "!", ":", ";", "…"}
_TELLERS = {"he", "she", "we", "they", "i", "it", "that", "you"}


def join_lines(tokens: list[Token], captions: bool) -> list[Token]:
    """The tokens of speech without the line ends that cut a sentence: a cue ends with its time, not its sense.

    Captions that mark their sentences cut them wherever no mark stands; in those that mark none a capital that opens
    a cue goes on with a name ("… the Wexcombe", "Plain in ten and a half").
    """
    marked = captions and _sentences_marked(tokens)
    small = captions and not marked and _cues_open_small(tokens)
    joined: list[Token] = []
    ends: list[Token] = []
    for token, following in zip(tokens, [*tokens[1:], None], strict=True):
        if token.kind == "newline":
            ends.append(token)
            continue
        before = joined[-1] if joined else None
        club = following is not None and following.lower in _CLUBS
        cut = before is not None and (
            (marked and before.text not in _ENDS)
            or (small and (_name_goes_on(before, token) or token.lower in _RUNS_ON))
            or (not club and _cut_short(before, token))  # "but in seventy / four hybrid …"
        )
        if ends and not cut:
            joined += ends
        ends = []
        joined.append(token)
    return along_sentences(joined + ends) if marked else joined + ends


def _sentences_marked(tokens: list[Token]) -> bool:
    """True for captions that mark their sentences' ends: in a third of the lines, or once in so many words."""
    said = [token for token in tokens if token.kind != "newline"]
    marks = [token for token in said if token.text in _ENDS]
    lines, marked = {token.line for token in said}, {token.line for token in marks}
    often = 3 * len(marked) >= len(lines) or _SENTENCE * len(marks) >= len(said)
    return len(lines) > 2 and len(marked) > 1 and often


def _cues_open_small(tokens: list[Token]) -> bool:
    """True where captions begin as no sentence does: half of them, at least, with a small letter."""
    opens = [token for before, token in pairwise(tokens) if before.kind == "newline" and token.kind == "word"]
    return len(opens) > 2 and 2 * sum(token.text[:1].islower() for token in opens) >= len(opens)


def _name_goes_on(before: Token, after: Token) -> bool:
    """True for the "Plain" of "the Wexcombe / Plain in ten and a half", the "Lisk" of "with the / Lisk"."""
    named = before.text[:1].isupper() or before.lower in _GOES_ON
    return named and before.kind == after.kind == "word" and after.text[:1].isupper()


def _cut_short(before: Token, after: Token) -> bool:
    """True when a sentence, or a number in it, goes on from the end of one line to the beginning of the next."""
    last = before.lower.rsplit("-", 1)[-1]
    if last in _COUNTING and after.lower.split("-")[0] in _COUNTING | _UNITS:
        return True
    if last in _COUNTING and after.lower.split("'")[0] in _TELLERS:
        return False  # "… bent to sixty-one", and on the next line "he did try a seven wood"
    return before.kind == "word" and after.kind == "word" and after.text[:1].islower() and last in _GOES_ON | _COUNTING


def _is_fraction(token: Token) -> bool:
    """True for a fraction written in digits ("3/4", "¾")."""
    written = token.kind == "number" and not token.sign and "." not in token.text
    return written and isinstance(token.value, float | int) and token.value < 1


def fold(tokens: list[Token]) -> list[Token]:
    """The tokens with every number in words folded into one number token that spans those words."""
    folded: list[Token] = []
    reader = _Reader(tokens)
    while reader.at < len(tokens):
        start = reader.at
        token = tokens[start]
        if token.kind == "number":
            reader.at += 1
            if _is_fraction(token) and reader.word() == "of" and (skip := _following_unit(reader)) > 0:
                reader.at += skip  # "3/8 of an inch"
                folded.append(_join(tokens[start : reader.at], float(token.value), "number"))  # type: ignore[arg-type]
                continue
            reader.at = start
            if (fraction := reader.part()) is not None:
                reader.at += max(0, _following_unit(reader))  # "3 quarters of an inch"
                folded.append(_join(tokens[start : reader.at], fraction, "number"))
                continue
            reader.at = start + 1
            whole = token.value if isinstance(token.value, float | int) and "." not in token.text else None
            if whole is not None and reader.word() == "point" and (digit := _digits_behind_point(reader)):
                folded.append(_join(tokens[start : reader.at], float(f"{whole:g}.{digit}"), "number"))
                continue
            parted = reader.digit_of_part() > 0 and whole is not None and whole > _LEAST_WITH_PART
            if whole is not None and (reader.word() == "and" or parted):
                reader.at += not parted
                fraction = reader.part()
                behind = tokens[reader.at] if reader.at < len(tokens) else None
                if fraction is None and behind is not None and _is_fraction(behind):
                    fraction = float(behind.value)  # type: ignore[arg-type]
                    reader.at += 1
                if fraction is not None:
                    folded.append(_join(tokens[start : reader.at], whole + fraction, "number"))
                    continue
                reader.at = start + 1
            behind = tokens[start + 1] if start + 1 < len(tokens) else None
            cut = behind is not None and behind.kind == "number" and behind.written != token.written
            if whole is not None and cut and behind is not None and _is_fraction(behind):
                reader.at += 1  # "34" at a cue's end and "1/2 inches" in the next
                folded.append(_join(tokens[start : reader.at], whole + float(behind.value), "number"))  # type: ignore[arg-type]
                continue
            folded.append(token)
            continue
        if token.kind != "word" or (token.glued and folded and folded[-1].kind == "number"):
            folded.append(token)
            reader.at += 1
            continue
        previous = folded[-1].lower if folded else ""
        date = _day(reader, previous) or _year(reader, folded)
        read = (date, "number") if date is not None else _read(reader, previous)
        coded = _coded_before(folded)
        if read is not None and coded and isinstance(read[0], float) and 62 < read[0] < 70 and read[0] == int(read[0]):
            read = ((60.0, read[0] - 60), "code")  # "fifty-six twelve, sixty eight"
        if read is None:
            reader.at = start + 1
            folded.append(token)
            continue
        made = _join(tokens[start : reader.at], read[0], read[1])
        folded.append(made)
        _and_a_half(reader, made, folded)
    return folded


def _digits_behind_point(reader: _Reader) -> str:
    """The digits of "44 point 5", stepped over; "" with nothing consumed."""
    at = reader.at + 1
    behind = reader.tokens[at] if at < len(reader.tokens) else None
    if behind is None or behind.kind != "number" or not behind.text.isdigit():
        return ""
    reader.at = at + 1
    return behind.text


def _coded_before(folded: list[Token]) -> bool:
    """True when a wedge's loft and bounce were said as one just before, in the same sentence."""
    for token in reversed(folded[-14:]):
        if token.terminal == "CODE":
            return True
        if token.kind == "newline" or token.text in ".;?!":
            return False
    return False


def _and_a_half(reader: _Reader, made: Token, folded: list[Token]) -> None:
    """ "A degree and a half": the fraction behind the unit belongs to the number before it."""
    if not isinstance(made.value, float) or reader.word() not in _UNITS or reader.word(1) != "and":
        return
    unit = reader.tokens[reader.at]
    mark = reader.at
    reader.at += 2
    fraction = reader.part()
    anew = reader.word() in ("a", "an") and reader.word(1) in _UNITS  # "up one degree and half a degree upright"
    if fraction is None or anew or reader.word() in _UNITS:
        reader.at = mark
        return
    made.value += fraction
    folded.append(unit)


def _join(tokens: list[Token], value: float | tuple[float, float], kind: str) -> Token:
    first, last = tokens[0], tokens[-1]
    text = first.text if first is last else " ".join(token.text for token in tokens)
    made = spanning(text, "number", first, last)
    made.value = value
    made.sign = first.sign
    if kind == "code":
        made.terminal = "CODE"
    return made
