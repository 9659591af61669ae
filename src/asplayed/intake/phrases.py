"""Phrases: at each token the longest stretch that the grammar takes and that makes sense."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from contextlib import suppress
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Any

from lark import Lark
from lark import Token as LarkToken
from lark.exceptions import UnexpectedInput
from lark.lexer import Lexer

from asplayed.intake.tokens import Token, gap

LONGEST = 12
TRANSPARENT = {"SILENT", "HYPHEN"}
# Words for a figure or a part that a dash may stand behind like a colon.
TOLD = {
    "LOFT", "LIE", "BOUNCE", "LENGTH", "TORQUE", "FREQUENCY", "TOTALMASS", "TOEHANG", "HEADMASS", "SHAFTWORD",
    "GRIPWORD", "HEADWORD", "SLEEVE", "SWINGWEIGHT", "FLEXWORD", "SOLEWORD", "NECKWORD", "WRAP", "BALLWORD",
    "PLAYERWORD",
}  # fmt: skip
CLUBS_NAMED = ("club", "named", "span", "dashed", "amounts", "code")  # rules of phrases that name clubs
CLUB_RULES = (*CLUBS_NAMED, "family")  # and those that open a heading
UNITS = {"DEG", "INCH", "MM", "CM", "GRAM"}  # what stands behind a club's figure
# Flexes that some makers number: behind a shaft's name, "5.5", "6.0", "6.5" is one of these.
_FLEX_NUMBER = re.compile(r"[4-6]\.[05]|7\.0")
_DIRECTIONS = {"WEAK", "STRONG", "UPRIGHT", "FLAT", "UP", "DOWN", "LONG", "SHORT", "OPEN", "CLOSED"}
_OF = {"of", "from", "on"}
_UNITS = {"DEG": "deg", "INCH": "in", "MM": "mm", "CM": "cm", "METRE": "m", "GRAM": "g", "CPM": "cpm"}


def flex_number(token: Token) -> str:
    """The flex that some makers give as a number, "5.5" or "six point five", in digits; "" for any other figure."""
    spoken = " point " in token.lower and isinstance(token.value, float)
    digits = f"{token.value:.1f}" if spoken else token.text
    return digits if _FLEX_NUMBER.fullmatch(digits) else ""


class Amount:
    """A number as written, with its unit ("" for none) and whether a sign was written."""

    __slots__ = ("signed", "token", "unit", "value")

    def __init__(self, token: Token, unit: str = "") -> None:
        self.token = token
        self.value = float(token.value) if isinstance(token.value, int | float) else 0.0
        self.unit = unit
        self.signed = bool(token.sign)

    @property
    def whole(self) -> bool:
        """True for an integer written without a point, a fraction or a unit."""
        return self.value == int(self.value) and not self.unit and "." not in self.token.text


class Phrase:
    """A recognised stretch: the grammar's rule, its telling tokens, and where it lies in the token list."""

    __slots__ = ("amounts", "end", "rule", "start", "tokens")

    def __init__(self, rule: str, tokens: list[Token], start: int, end: int) -> None:
        self.rule = rule
        self.tokens = tokens
        self.start = start
        self.end = end
        self.amounts: list[Amount] = []
        for index, token in enumerate(tokens):
            if token.terminal in ("NUM", "SNUM"):
                following = tokens[index + 1].terminal if index + 1 < len(tokens) else ""
                self.amounts.append(Amount(token, _UNITS.get(following, "") or token.unit))
        if self.amounts and len(self.amounts) > 1:
            # "95 to 115 g": the last unit is the unit of all that have none
            unit = self.amounts[-1].unit
            for amount in self.amounts:
                amount.unit = amount.unit or unit

    def first(self, *terminals: str) -> Token | None:
        """The first token of one of these terminals."""
        for token in self.tokens:
            if token.terminal in terminals:
                return token
        return None

    def all(self, *terminals: str) -> list[Token]:
        """All tokens of these terminals."""
        return [token for token in self.tokens if token.terminal in terminals]

    def has(self, *terminals: str) -> bool:
        """True when a token of one of these terminals is in the phrase."""
        return self.first(*terminals) is not None

    @property
    def directions(self) -> list[Token]:
        """The tokens that say which way: weak, upright, long …"""
        return [token for token in self.tokens if token.terminal in _DIRECTIONS]

    @property
    def line(self) -> int:
        """The line the phrase begins on."""
        return self.tokens[0].line


class _OurTokens(Lexer):
    """Stands where lark wants a lexer: the tokens are fed one by one."""

    def __init__(self, conf: Any) -> None:
        del conf

    def lex(self, lexer_state: Any, parser_state: Any) -> Iterator[LarkToken]:
        """No tokens of its own."""
        return iter(())


@cache
def _grammar() -> Lark:
    text = resources.files("asplayed.intake").joinpath("grammar.lark").read_text(encoding="utf-8")
    return Lark(text, parser="lalr", lexer=_OurTokens, start="start")


class _Place:
    """Where the grammar stands behind some terminals: the rule they are a whole phrase of, and the places ahead."""

    __slots__ = ("ahead", "parser", "rule")

    def __init__(self, parser: Any) -> None:  # lark leaves parts of its parser untyped
        self.parser = parser
        self.ahead: dict[str, _Place | None] = {}
        self.rule = ""
        if "$END" in parser.choices():
            with suppress(UnexpectedInput):
                self.rule = str(parser.copy().feed_eof().children[0].data)

    def step(self, terminal: str) -> _Place | None:
        """The place behind one more terminal, or None when no phrase goes on so."""
        if terminal not in self.ahead:
            self.ahead[terminal] = self._fed(terminal)
        return self.ahead[terminal]

    def _fed(self, terminal: str) -> _Place | None:
        if terminal not in self.parser.choices():
            return None
        parser = self.parser.copy()
        try:
            parser.feed_token(LarkToken(terminal, ""))
        except UnexpectedInput:
            return None
        return _Place(parser)


@cache
def _beginning() -> _Place:
    return _Place(_grammar().parse_interactive())


_STARTS = {
    "STOP", "NEWLINE", "PIPE", "LPAR", "RPAR", "BULLET", "WORD", "MARK", "SILENT", "HYPHEN", "COMMA", "SLASH", "AND",
    "EQ", "AT", "BY", "IN", "WITH", "THAN", "OR", "UNSURE", "CORRECTION", "ASIDE", "HAND", "PLAYERWORD", "EVENTWORD",
    "EVENTKIND", "TITLEWORD", "COLOUR", "NOTE", "BALLWORD", "SIZE", "DASH", "RANGE", "BREAK", "FOOT", "PCT",
}  # fmt: skip

_ENDS = {"WORD", "STOP", "NEWLINE", "PIPE", "LPAR", "RPAR", "BULLET", "MARK", "BREAK"}
_FIGURES = {"labelled", "change", "turned", "sleeve", "bent", "playing"}
_CONTINUES = {"RANGE", "WOOD", "HYBRID", "IRON", "DIRON", "WEDGE", "NAMEDWEDGE"}


def _continues(tokens: list[Token], at: int) -> bool:
    """True when the last number of a row goes on into a range or names a club with the next word."""
    token = tokens[at]
    if token.terminal == "DASH":
        return token.glued and at + 1 < len(tokens) and tokens[at + 1].glued
    if token.terminal in ("COMMA", "SLASH", "AND"):
        return False
    if token.terminal in ("UP", "DOWN"):
        return at + 1 < len(tokens) and tokens[at + 1].terminal == "RANGE"  # "… and the five, then six down to PW"
    return token.terminal in _CONTINUES


def _end_of(told: list[int], length: int) -> int:
    """The place behind the first `length` telling tokens."""
    return told[length - 1] + 1


def _closes(tokens: list[Token], at: int) -> bool:
    """True where a stretch ends."""
    return at >= len(tokens) or tokens[at].terminal in ("COMMA", "STOP", "NEWLINE", "SLASH", "PIPE", "RPAR")


def _number_behind(tokens: list[Token], told: list[int], length: int) -> bool:
    """True when a number stands right behind the first `length` telling tokens."""
    return length < len(told) and tokens[told[length]].terminal == "NUM"


def _numbers_clubs(tokens: list[Token], told: list[int], length: int) -> bool:
    """True when the number behind a label is the first of a row of irons' numbers, or stands before "iron"."""
    last = tokens[told[length - 1]]
    small = last.terminal == "NUM" and isinstance(last.value, float) and 1 <= last.value <= 9 and last.text.isalnum()
    row = phrase_at(tokens, told[length - 1]) if small else None
    if row is None or row.rule not in ("amounts", "dashed", "span", "club"):
        return False
    if tokens[told[0]].terminal == "BENT":  # "bent 6 to 9 one strong": how far is told behind them
        far = phrase_at(tokens, row.end)
        return far is not None and far.rule in ("change", "labelled", "bent") and bool(far.amounts and far.directions)
    clubs = row.has("IRON", "WOOD", "HYBRID", "NAMEDWEDGE", "LETTER")
    return clubs or all(amount.whole and amount.value <= 9 for amount in row.amounts)


def _goes_on(tokens: list[Token], at: int) -> bool:
    """True at a dash or a "to" between two numbers."""
    behind = tokens[at + 1] if at + 1 < len(tokens) else None
    return tokens[at].terminal in ("DASH", "RANGE") and behind is not None and behind.terminal == "NUM"


def _row_goes_on(tokens: list[Token], at: int) -> bool:
    """True when the next loft of a set stands in the row behind the one whose degree is at `at`."""
    behind = at + 1
    while behind < len(tokens) and tokens[behind].terminal in ("COMMA", "SLASH", "AND"):
        behind += 1
    last, following = tokens[at - 1].value, tokens[behind].value if behind + 1 < len(tokens) else None
    if not isinstance(last, float) or not isinstance(following, float) or last >= 44:
        return False
    return tokens[behind + 1].terminal == "DEG" and 1 <= following - last <= 9


def phrase_at(tokens: list[Token], position: int) -> Phrase | None:
    """The longest sensible phrase that begins at `position`, or None; behind the last token there is none."""
    if position >= len(tokens) or tokens[position].terminal in _STARTS:
        return None
    known = tokens[position].phrase
    if known:
        return known[0]
    phrase = _longest(tokens, position)
    if known is not None:
        tokens[position].phrase = (phrase,)
    return phrase


def _longest(tokens: list[Token], position: int) -> Phrase | None:
    told: list[int] = []
    whole: list[tuple[int, str]] = []  # every length at which the terminals are a phrase, with its rule
    place = _beginning()
    at = position
    size = len(tokens)
    while at < size and len(told) < LONGEST:
        terminal = tokens[at].terminal
        if terminal in TRANSPARENT:
            if at - (told[-1] if told else at) > 3:
                break
        elif terminal in _ENDS:
            break
        else:
            told.append(at)
            ahead = place.step(terminal)
            if ahead is None:
                break
            place = ahead
            if place.rule:
                whole.append((len(told), place.rule))
        at += 1
    for length, rule in reversed(whole):
        if length < len(told) and tokens[told[length]].terminal in _UNITS and tokens[told[length - 1]].kind == "number":
            continue
        last = tokens[told[length - 1]]
        rows = (rule == "amounts" and last.terminal not in ("WOOD", "HYBRID")) or (
            rule == "club" and last.kind == "number"
        )
        if rule == "labelled" and last.kind == "number" and length < len(told) and _goes_on(tokens, told[length]):
            continue  # "shafts 110-122 g": the label is of both ends
        nouns = {"labelled": ("LIE", "LENGTH"), "bent": ("BENT",)}.get(rule, ())
        if tokens[told[0]].terminal in nouns and _numbers_clubs(tokens, told, length):
            continue  # "Lies: 5, 6 and 7 iron 1 up", "lie: 6, 7, 8 one upright"
        if rule == "labelled" and last.lower.endswith((" to", " at")) and tokens[told[0]].kind == "number":
            continue  # "10.5 cut to 44": the label is of what stands behind it
        if rule == "bent" and last.terminal == "BENT" and not _closes(tokens, _end_of(told, length)):
            continue  # "58 bent 1 weak"
        behind = tokens[told[length]].terminal if length < len(told) else ""
        taken = (rule == "group" and behind in _DIRECTIONS | {"BOUNCE", "WRAP", "GRIPWORD"}) or (
            rule == "change" and behind == "WRAP"
        )
        if last.kind == "number" and taken:
            continue  # "bend all 2 flat", "std +1 wrap"
        clubbed = length < len(told) and tokens[told[length]].terminal in ("IRON", "WOOD", "HYBRID")
        if rule in _FIGURES and last.kind == "number" and clubbed and length > 1:
            continue  # "frequency 7 iron 325"
        if rule == "playing" and last.terminal == "PLAYING" and _number_behind(tokens, told, length):
            continue  # "33 measured 33.4"
        first = tokens[told[0]].value
        stamped = last.terminal == "BOUNCE" and isinstance(first, float) and first >= 40
        if rule == "labelled" and stamped and _number_behind(tokens, told, length):
            continue  # "52° bounce 8"
        leads = last.terminal == "TOEHANG" or (last.terminal == "LOFT" and last.lower.startswith("stamp"))
        if rule == "labelled" and leads and length > 1 and _number_behind(tokens, told, length):
            continue  # "34 toe hang 75", "Gannet 3 stamped 9.5"
        if rows and length < len(told) and _continues(tokens, told[length]):
            continue  # "a 3 and a 4, five iron through nine": the last number begins a range of its own
        if rows and last.terminal == "DEG" and _row_goes_on(tokens, told[length - 1]):
            continue  # "24°, 28°, 32°, 36.5° and 41°": the lofts of irons, and no hybrids
        if rule == "change" and last.terminal == "STD" and tokens[told[length - 1] - 1].lower not in _OF:
            directed = length > 1 and tokens[told[length - 2]].terminal in _DIRECTIONS
            if directed and length > 2:
                continue  # "1 up standard length": not "½ short of standard"
        onward = length < len(told) and tokens[told[length]].terminal in ("NUM", "SNUM")
        listed = length > 1 and tokens[told[length - 2]].terminal in ("COMMA", "SLASH", "AND")
        onward = onward or (last.terminal == "GRIPWORD" and not _closes(tokens, _end_of(told, length)))
        if rule == "plainly" and onward and listed and last.terminal != "STD":
            continue  # "std lie, loft 1 weak", "std lie, regripped": the last noun belongs to what follows
        end = told[length - 1] + 1
        phrase = Phrase(rule, [tokens[index] for index in told[:length]], position, end)
        if _sensible(phrase):
            return phrase
    return None


def _increasing(values: list[float]) -> bool:
    return all(one < other for one, other in pairwise(values))


def names_clubs(phrase: Phrase) -> bool:
    """True for a phrase that names clubs; a range of masses or lengths only looks like one."""
    figured = bool(phrase.amounts) and (phrase.amounts[0].value >= 66 or phrase.amounts[0].unit not in ("", "deg"))
    return phrase.rule in CLUB_RULES and not figured


def says(tokens: list[Token], start: int, end: int, rules: Collection[str]) -> bool:
    """True when a phrase of one of these rules stands anywhere from `start` up to `end`."""
    found = (phrase_at(tokens, at) for at in range(start, end))
    return any(phrase is not None and phrase.rule in rules for phrase in found)


def wedge_loft(value: float) -> bool:
    """True for a number that can stand for a wedge by its loft: 44–64 in whole or half degrees."""
    return 44 <= value <= 64 and (value * 2) == int(value * 2)


_STAMPS = {
    "pitching wedge": (38.0, 50.5), "gap wedge": (45.0, 55.0), "sand wedge": (51.0, 60.0), "lob wedge": (55.0, 68.0),
}  # fmt: skip


def stamp_fits(name: str | None, loft: float) -> bool:
    """True when a wedge of this name can be of this loft; any loft fits a wedge without a name."""
    low, high = _STAMPS.get(name or "", (0.0, 90.0))
    return low <= loft <= high


def _sensible(phrase: Phrase) -> bool:
    check = _CHECKS.get(phrase.rule)
    return True if check is None else check(phrase)


def _numbers_of(values: list[float], word: str) -> bool:
    """True when these are numbers (or lofts) of clubs of this word, in order."""
    if word == "IRON" and len(values) == 2 and values[0] > values[1]:
        values = values[::-1]  # "9-5 irons"
    if not _increasing(values):
        return False
    whole = all(value == int(value) for value in values)
    if word == "IRON":
        return whole and values[0] >= 1 and values[-1] <= 9
    if word == "WOOD":
        return (whole and values[0] >= 2 and values[-1] <= 11) or (values[0] >= 13 and values[-1] <= 30)
    if word in ("HYBRID", "DIRON"):
        return (whole and values[0] >= 1 and values[-1] <= 9) or (values[0] >= 14 and values[-1] <= 36)
    return all(wedge_loft(value) for value in values)


def _check_amounts(phrase: Phrase) -> bool:
    values = [amount.value for amount in phrase.amounts]
    units = {amount.unit for amount in phrase.amounts}
    if units - {"", "deg"} or any(amount.signed for amount in phrase.amounts):
        return False
    closing = phrase.first("NAMEDWEDGE")
    if closing is not None:  # "6, 8 and PW"
        return closing.value == "pitching wedge" and "deg" not in units and _numbers_of(values, "IRON")
    word = phrase.first("WOOD", "HYBRID", "IRON", "DIRON", "WEDGE")
    if word is not None:
        falling = len(values) == 2 and values[0] > values[1] and phrase.has("COMMA") and word.lower == "iron"
        return not falling and _numbers_of(values, word.terminal)  # not the "9, 7 iron" of "driver Gannet 9, 7 iron"
    if phrase.has("SLASH") and len(values) == 2 and wedge_loft(values[0]) and 2 <= values[1] <= 18:
        return not flex_number(phrase.amounts[1].token)  # "Quellon Black 60 / 6.5"
    if len(values) == 2 and values[1] > 60 and values[1] % 1 and phrase.has("SLASH"):
        return False  # "PW 45/63.5": a loft and a lie
    if all(wedge_loft(value) for value in values):
        falling = len(values) == 2 and values[0] > values[1] and phrase.has("AND")  # "a fifty-six and a fifty-two"
        return falling or _increasing(values)
    if units == {"deg"} and phrase.has("COMMA", "SLASH", "AND"):
        return values[0] >= 12 and values[-1] <= 36 and _increasing(values)  # fairway woods or hybrids by their lofts
    return (
        "deg" not in units
        and all(amount.whole for amount in phrase.amounts)
        and values[0] >= 1
        and values[-1] <= 9
        and _increasing(values)
        and (len(values) > 2 or phrase.has("AND"))
    )


def _check_dashed(phrase: Phrase) -> bool:
    values = [amount.value for amount in phrase.amounts]
    if any(amount.signed for amount in phrase.amounts):
        return False
    units = {amount.unit for amount in phrase.amounts}
    if units == {"g"}:
        return len(values) == 2 and 30 <= values[0] < values[1] <= 200
    if units - {"", "deg"}:
        return False
    word = phrase.first("WOOD", "HYBRID", "IRON", "DIRON", "WEDGE")
    if word is not None:
        return _numbers_of(values, word.terminal)
    if len(values) == 2 and wedge_loft(values[0]) and 2 <= values[1] <= 18:
        return True
    if all(wedge_loft(value) for value in values):
        return _increasing(values)
    if len(values) == 2 and all(amount.whole for amount in phrase.amounts):
        return (
            (1 <= values[0] < values[1] <= 9)
            or (9 >= values[0] > values[1] + 1 >= 3)
            or (75 <= values[0] < values[1] <= 150)
        )
    return False


def _check_span(phrase: Phrase) -> bool:
    amounts = phrase.amounts
    if any(amount.signed for amount in amounts):
        return False
    ends = phrase.first("NAMEDWEDGE", "LETTER")
    if ends is not None and phrase.tokens[0] is ends:  # "PW-5"
        return ends.value == "pitching wedge" and amounts[0].whole and 1 <= amounts[0].value <= 9
    if ends is None and phrase.tokens[-1].terminal == "WEDGE" and len(amounts) == 1:
        ends = phrase.tokens[-1]
    if ends is not None:
        if ends.terminal == "LETTER" and ends.text not in "PWGAS":
            return False
        word = phrase.first("WOOD", "HYBRID", "DIRON")
        return word is None and amounts[0].whole and 1 <= amounts[0].value <= 9
    if len(amounts) != 2:
        return False
    low, high = amounts[0].value, amounts[1].value
    if low > high and low <= 9 and amounts[0].whole and not amounts[0].unit:
        return amounts[1].whole and high >= 1 and not phrase.has("WOOD", "HYBRID", "DIRON")
    if amounts[0].unit == "g":
        return 30 <= low < high <= 200
    if amounts[0].unit:
        return False
    if phrase.has("WOOD", "HYBRID", "DIRON"):
        return amounts[0].whole and amounts[1].whole and 1 <= low < high <= 11
    return amounts[0].whole and amounts[1].whole and (1 <= low < high <= 9 or 75 <= low < high <= 150)


def _check_club(phrase: Phrase) -> bool:
    if not phrase.amounts:
        return True
    amount = phrase.amounts[0]
    value = amount.value
    if amount.signed or amount.unit not in ("", "deg"):
        return phrase.has("PUTTER") and amount.unit == "in" and value > 25
    word = phrase.tokens[-1] if phrase.tokens[0] is amount.token else phrase.tokens[0]
    terminal = word.terminal
    if phrase.tokens[-1] is amount.token and terminal in ("WOOD", "IRON"):
        return amount.whole and not word.lower.endswith("s") and 1 <= value <= (11 if terminal == "WOOD" else 9)
    loft = amount.unit == "deg"
    if terminal == "IRON":
        return not loft and amount.whole and 1 <= value <= 9
    if terminal == "WOOD" and word.lower.endswith("s"):
        return amount.whole and 2 <= value <= 4
    if terminal == "WOOD" and value == 1 and phrase.amounts[0].token.text == "1":
        return True  # the driver, numbered as a wood
    if terminal == "WOOD":
        return 12 <= value <= 30 if loft or not amount.whole else 2 <= value <= 11 or value in (13, 15, 18, 21)
    if terminal == "HYBRID" and value == 1:
        return False
    if terminal in ("HYBRID", "DIRON"):
        return 13 <= value <= 36 if loft or not amount.whole else 1 <= value <= 9 or 14 <= value <= 36
    if terminal == "WEDGE":
        return 28 <= value <= 66 or (amount.whole and 2 <= value <= 5)
    if terminal in ("DRIVER", "MINIDRIVER"):
        return 6 <= value <= 15 or (value == 1 and terminal == "DRIVER")
    if terminal == "CHIPPER":
        return 25 <= value <= 50
    return False


def _check_named(phrase: Phrase) -> bool:
    return not phrase.amounts or (phrase.amounts[0].unit in ("", "deg") and 28 <= phrase.amounts[0].value <= 66)


def _check_change(phrase: Phrase) -> bool:
    way = phrase.directions
    if not way:
        return bool(phrase.amounts) and (phrase.amounts[0].signed or phrase.amounts[0].unit == "in")
    if not phrase.amounts:
        strong = {"UPRIGHT", "FLAT", "WEAK", "STRONG"}
        return all(token.terminal in strong for token in way) or (len(way) > 1 and way[-1].terminal in strong)
    if phrase.has("RANGE") and not phrase.has("STD"):
        return 5 <= abs(phrase.amounts[0].value) <= 75
    value = abs(phrase.amounts[0].value)
    unit = phrase.amounts[0].unit
    lead = way[0].terminal
    if lead in ("LONG", "SHORT"):
        if phrase.tokens[0] is way[0]:
            return value <= 3 and unit in ("", "in")
        return unit in ("", "in", "mm", "cm")
    if unit not in ("", "deg", "in", "cm", "mm"):
        return False
    return value <= (6 if unit != "mm" else 80)


def _check_weight(phrase: Phrase) -> bool:
    place = phrase.first("PLACE")
    assert place is not None
    explicit = phrase.has("WEIGHT", "TURNED", "CLICK")
    if not phrase.amounts:
        return explicit or place.value in ("draw", "fade", "toe", "heel")
    amount = phrase.amounts[0]
    if amount.unit not in ("", "g") or amount.value > 60 or amount.signed:
        return False
    if explicit or amount.unit == "g":
        return True
    return amount.whole and amount.value <= 25 and place.value in ("toe", "heel", "front", "back")


def _check_date(phrase: Phrase) -> bool:
    if not phrase.has("MONTH"):
        return True
    values = [amount.value for amount in phrase.amounts]
    return any(1 <= value <= 31 for value in values) and all(value <= 31 or 1950 <= value <= 2100 for value in values)


def _check_group(phrase: Phrase) -> bool:
    return not phrase.amounts or (phrase.amounts[0].whole and 2 <= phrase.amounts[0].value <= 14)


_LABEL_UNITS = {
    "LOFT": ("deg",), "LIE": ("deg",), "BOUNCE": ("deg",), "TOEHANG": ("deg",), "TORQUE": ("deg",),
    "LENGTH": ("in", "mm", "cm", "m"), "TOTALMASS": ("g",), "HEADMASS": ("g",), "FREQUENCY": ("cpm",),
}  # fmt: skip


def _check_labelled(phrase: Phrase) -> bool:
    label = phrase.first(*_LABEL_UNITS)
    if label is not None and any(amount.unit not in ("", *_LABEL_UNITS[label.terminal]) for amount in phrase.amounts):
        return False  # "34.5 in  lie 71": the label is of what follows
    noun = phrase.first("SHAFTWORD", "GRIPWORD", "HEADWORD")
    if noun is not None and phrase.amounts:
        if noun is phrase.tokens[-1] and gap(phrase.tokens[-2], noun) > 1:
            return False  # "Harebell 55  shaft Catkin 60 L": the noun, wide apart, is of what follows
        return (
            phrase.amounts[0].unit == "g"
            or (
                noun.terminal == "SHAFTWORD"
                and phrase.amounts[0].unit == ""
                and 35 <= phrase.amounts[0].value <= 150
                and not phrase.directions
            )
            or (noun.terminal == "HEADWORD" and phrase.amounts[0].value > 150)
        )
    return noun is None


def _check_sleeve(phrase: Phrase) -> bool:
    first = phrase.tokens[0]
    return first.terminal != "NUM" or bool(phrase.directions)


def _check_playing(phrase: Phrase) -> bool:
    word = phrase.tokens[-1]
    return word.terminal != "PLAYING" or word.value == "measured" or word.lower == "played"


def _check_bent(phrase: Phrase) -> bool:
    if phrase.directions and phrase.amounts and wedge_loft(phrase.amounts[0].value) and not phrase.has("RANGE"):
        return False  # "bent the 58 weak by one degree": the club that is bent
    if phrase.amounts and not phrase.directions and not phrase.has("STD"):
        return phrase.amounts[0].unit in ("", "deg")
    return True


def _check_turned(phrase: Phrase) -> bool:
    if phrase.amounts and phrase.directions and not phrase.has("RANGE", "STD", "CLICK"):
        return abs(phrase.amounts[0].value) <= 6 or phrase.amounts[0].unit == "mm"
    return True


_CHECKS = {
    "turned": _check_turned,
    "amounts": _check_amounts,
    "dashed": _check_dashed,
    "span": _check_span,
    "club": _check_club,
    "named": _check_named,
    "change": _check_change,
    "weight": _check_weight,
    "date": _check_date,
    "group": _check_group,
    "labelled": _check_labelled,
    "bent": _check_bent,
    "playing": _check_playing,
    "sleeve": _check_sleeve,
}
