"""A list's text as tokens: words, numbers and marks, each with its line, column and the user's own writing."""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from copy import copy
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from asplayed.intake.phrases import Phrase

_VULGAR = "¼½¾⅐-⅞"
_TOKEN = re.compile(
    rf"""
    (?P<date>\d{{4}}[-/.]\d{{2}}[-/.]\d{{2}}(?!\d)|\d{{1,2}}[-./]\d{{1,2}}[-./]\d{{4}}(?!\d))
  | (?P<mixed>\d{{1,3}}(?:[ \u00a0]+|[ ]?-[ ]?)\d{{1,2}}[/⁄](?:2|3|4|8|16|32)(?![\d/]))
  | (?P<vulgar>\d{{1,3}}[ ]?[{_VULGAR}]|[{_VULGAR}])
  | (?P<fraction>\d{{1,2}}[/⁄](?:2|3|4|8|16|32)(?![\d/]|[.]\d))
  | (?P<number>\d+(?:[.,]\d+)?|(?<![^\W\d_])[.,]\d+)
  | (?P<prime>''|′′)
  | (?P<abbreviated>\b(?:Mrs?|Ms|Prof)\.(?=[ ]+[A-Z][a-z])|\b[Pp]\.[ ]?[Ss]\b\.?)
  | (?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*(?:\d+(?:[.]\d+|,5(?=\s|$))?[{_VULGAR}]?[^\W\d_]*)?)
  | (?P<mark>->|\S|\t)
    """,
    re.VERBOSE,
)
_STAMP = re.compile(
    r"(?i)[ \t]*[\[(]?(?:(?:mon|tues?|wed|thu|fri|sat|sun)[a-z]*,? |\d{1,4}[./-]\d{1,2}[./-]\d{2,4},? )?"
    r"\d{1,2}:\d{2}(?::\d{2})?(?:[.,]\d{1,3})?(?: ?[ap]m)?[\])]?[ \t]*(?:[-–:]+[ \t]+)?(?=\S|$)"
)
_NAMED_CLOCK = re.compile(
    r"[ \t]*[^\W\d_][\w .'-]{0,30}(?P<clock>[ \t,]*[(\[]\d{1,2}:\d{2}(?::\d{2})?[)\]])(?=[ \t]*:)"
)
_OF_THE_DAY = re.compile(
    r"(?i)[ \t\[(]*(?:[a-z]+,? |\d{1,4}[./-]\d{1,2}[./-]\d{2,4},? )?"
    r"(?:[6-9]|0[6-9]|1\d|2[0-3]):\d{2}(?!\d|[:.,])"
)  # a message's clock
_ARROW = re.compile(r"[ \t]*(?:\d{1,2}:)?\d{1,2}:\d{2}[.,]\d{1,3}[ \t]*-->.*")
_INSIDE = re.compile(r"\[\d{1,2}:\d{2}(?::\d{2})?\]")  # timing between the sentences of a line
_FAMILY = re.compile(r"(?:fwys?|fw|woods?|fairways?|hybrids?|hyb|irons?)[ :]*$", re.IGNORECASE)
_VOICE = re.compile(r"<v(?:\.[^ >]+)? ([^<>\n]{1,60})>")
_TAG = re.compile(r"</?[A-Za-z][^<>\n]{0,80}>|<\d{2}:\d{2}[^<>\n]{0,12}>")
_BULLET = re.compile(
    r"[ \t]*(?:>+[ \t]*\d{1,2}[.)][ \t]+(?=\S)|"
    r"[-–—*•·‣◦▪o>#]+[ \t]+|[-–—](?=\d+[a-z ]|[A-Za-z])|[*•·‣◦▪](?=\S)|\d{1,2}[.)][ \t]+(?=\S))"
)
_SENTENCE_ENDS = {".", "?", "!", "…"}
_FEWEST_LINES = 4  # of a text that is set with empty lines throughout
_RUN = 80  # marks: no row of a set has so many empty cells
DASHES = "-–—‒−"


class Token:
    """One token. `terminal` and `value` are its meaning once the vocabulary has looked at it."""

    __slots__ = (
        "again",
        "column",
        "end",
        "glued",
        "kind",
        "line",
        "lower",
        "named",
        "phrase",
        "sign",
        "start",
        "terminal",
        "text",
        "unit",
        "value",
        "written",
    )

    def __init__(self, text: str, line: int, column: int, start: int, end: int, kind: str, glued: bool) -> None:
        self.text = text
        self.line = line  # the one that its sentence begins in, where a mail's width or a cue's time cut the sentence
        self.written = line  # the one that it stands in
        self.column = column
        self.start = start
        self.end = end
        self.kind = kind  # "number", "word", "mark" or "newline"
        self.glued = glued  # no white space before it on its line
        self.lower = text.lower().replace("’", "'")
        self.named = False  # settled to be a word of a name, whatever else it says
        self.terminal = ""
        self.value: float | str | tuple[float, float] | None = None
        self.sign = 0
        self.again = False  # nobody wrote it here: a cell repeated, a mark between cells
        self.unit = ""  # the unit that a table's heading gives to the column of this number
        # None while tokens may change; then empty until it is asked which phrase begins here, and the answer behind it
        self.phrase: tuple[Phrase | None, ...] | None = None

    def __copy__(self) -> Token:
        told = Token.__new__(Token)
        for name in Token.__slots__:
            setattr(told, name, getattr(self, name))
        return told

    def __repr__(self) -> str:
        return f"<{self.line}:{self.column} {self.text!r} {self.terminal} {self.value!r}>"


Line = list[Token]


def made(text: str, kind: str, terminal: str, near: Token) -> Token:
    """A token that nobody wrote: a mark between cells, the end of a row or of a sentence."""
    token = Token(text, near.line, near.column, near.start, near.start, kind, True)
    token.written = near.written
    token.terminal, token.again = terminal, True
    return token


def unsaid(word: str, terminal: str, near: Token) -> Token:
    """A word that nobody wrote and that is read as if it stood there: it shows in nothing that is given back."""
    token = made("", "word", terminal, near)
    token.lower = token.value = word
    return token


def spanning(text: str, kind: str, first: Token, last: Token) -> Token:
    """One token in place of all from `first` to `last`."""
    token = Token(text, first.line, first.column, first.start, last.end, kind, first.glued)
    token.written = first.written
    return token


def repeated(token: Token, near: Token) -> Token:
    """The token once more, as if it stood at another's place."""
    told = copy(token)
    told.line, told.written, told.column, told.again = near.line, near.written, near.column, True
    return told


class Source:
    """The text as its lines, with what is not speech or list (timing, cue numbers, tags) set apart."""

    __slots__ = ("captions", "lines", "spoken", "stamps", "text", "voices")

    def __init__(self, text: str) -> None:
        self.text = text
        self.lines = text.split("\n")
        self.spoken = False
        self.captions = False  # timed by arrows, as the makers of captions write
        self.voices: list[str] = []  # who speaks, cue by cue, where the tags of captions say so
        self.stamps: list[tuple[int, int]] = []  # spans of timing, as offsets into the text
        self._find_timing()

    def _find_timing(self) -> None:
        offset = 0
        stamped = 0
        filled = 0
        messages = False
        arrows = any("-->" in line for line in self.lines)
        spans: list[tuple[int, int]] = []
        for number, line in enumerate(self.lines):
            bare = line.strip()
            filled += bool(bare)
            span: tuple[int, int] | None = None
            if (
                arrows
                and (_ARROW.fullmatch(line.rstrip()) or (number == 0 and bare.lstrip("\ufeff").startswith("WEBVTT")))
            ) or (arrows and bare.isdigit() and number + 1 < len(self.lines) and "-->" in self.lines[number + 1]):
                span = (offset, offset + len(line))
            elif match := _STAMP.match(line):
                span = (offset + match.start(), offset + match.end())
                stamped += 1
                messages = messages or (stamped == 1 and _OF_THE_DAY.match(line) is not None)
                spans.extend((offset + one.start(), offset + one.end()) for one in _INSIDE.finditer(line, match.end()))
            elif named := _NAMED_CLOCK.match(line):  # "Ada (19:02): driver Gannet"
                span = (offset + named.start("clock"), offset + named.end())
                stamped += 1
                messages = True
            if span:
                spans.append(span)
            if arrows:
                spans.extend((offset + tag.start(), offset + tag.end()) for tag in _TAG.finditer(line))
                self.voices += [voice.strip() for voice in _VOICE.findall(line)]
            offset += len(line) + 1
        if arrows or (stamped and stamped * 3 >= filled):
            self.spoken, self.captions = arrows or not messages, arrows
            self.stamps = sorted(spans)
        else:
            self.stamps = [span for span in spans if "[" in self.text[span[0] : span[1]]]

    def timed(self, start: int) -> bool:
        """True when the character at `start` belongs to timing."""
        at = bisect_right(self.stamps, (start, len(self.text) + 1)) - 1
        return any(low <= start < high for low, high in self.stamps[max(0, at - 2) : at + 1])

    def timing_end(self, start: int) -> int:
        """Where the timing ends that a line at `start` opens with; `start` for a line without."""
        at = bisect_right(self.stamps, (start, len(self.text) + 1)) - 1
        return self.stamps[at][1] if at >= 0 and self.stamps[at][0] == start else start


def _value(kind: str, text: str) -> float | None:
    text = text.replace("⁄", "/").replace("\u00a0", " ")
    if kind in ("mixed", "fraction"):
        head, _, bottom = text.rpartition("/")
        parts = [part for part in re.split(r"[ -]+", head) if part]
        top = int(parts[-1])
        if kind == "fraction" and not (0 < top < int(bottom)):
            return None
        if kind == "mixed" and not (0 < top < int(bottom)):
            return None
        return (int(parts[0]) if len(parts) > 1 else 0) + top / int(bottom)
    if kind == "vulgar":
        whole = text[:-1].strip()
        return (int(whole) if whole else 0) + round(unicodedata.numeric(text[-1]), 6)
    digits = text.replace(",", ".")
    if len(digits) > 15:
        return None
    return float("0" + digits if digits.startswith(".") else digits)


def _split_comma(text: str, line: str, at: int, decimal_comma: bool) -> bool:
    """True when the comma in `text` ("52,56") separates two numbers rather than being a decimal comma."""
    whole, _, part = text.partition(",")
    after = line[at + len(text) : at + len(text) + 2]
    before = line[max(0, at - 1) : at]
    if not whole:
        return bool(before.strip())  # "50°,54°", and not a lone ",5"
    if len(whole) <= 2 and len(part) == 2 and int(part) % 5 and not decimal_comma:
        return True  # "52-10,58-08"
    if before == "," or (after[:1] == "," and after[1:2].isdigit()):
        return True
    if len(part) > 3 or (len(part) == 3 and not decimal_comma):
        return len(part) > 3 or part not in ("125", "375", "625", "875")
    if decimal_comma:
        return False
    if len(whole) == len(part) == 1 and whole < part and _FAMILY.search(line[:at]):
        return True  # "fwy 5,7"
    return (44 <= int(whole) <= 64 and len(part) == 2 and 44 <= int(part) <= 64) or (
        len(whole) == 1 and len(part) == 1 and int(part) == int(whole) + 1
    )


def tokens_of(source: Source) -> list[Token]:
    """The tokens of the text in order, with a newline token at each line's end."""
    found: list[Token] = []
    decimal_comma = len(re.findall(r"(?<![\d,])\d{1,3},(?:5|25|75|0|125|375)(?![\d,])", source.text[:200_000])) > 0
    offset = 0
    comma_table = blank = False
    for number, line in enumerate(source.lines, 1):
        ends = not line.strip() and blank  # one empty line between rows ends no table
        comma_table = not ends and (comma_table or _comma_header(line))
        blank = not line.strip()
        last_end = -1
        position = 0
        if match := _BULLET.match(line, source.timing_end(offset) - offset):
            head = match.group().strip()
            start = line.index(head, match.start())
            if head:
                mark = Token(head, number, start + 1, offset + start, offset + start + len(head), "mark", False)
                mark.terminal = "BULLET"
                if not source.timed(offset + start):
                    found.append(mark)
            position = match.end()
        for kind, text, start, end in _pieces(line, position, decimal_comma, comma_table):
            if source.stamps and source.timed(offset + start):
                last_end = end
                continue
            glued = start == last_end
            token = Token(text, number, start + 1, offset + start, offset + end, kind, glued)
            last_end = end
            if kind == "date":
                token.terminal = "DATE"
            elif kind == "abbreviated":
                token.kind, token.lower = "word", re.sub(r"\W", "", token.lower)  # "Mr. Brandt", "P.S."
            elif kind not in ("word", "mark"):
                token.value = _value(kind, text)
                token.kind = "number" if token.value is not None else "word"
            if text in ("''", "′′"):
                token.kind = "mark"
            _sign(found, token)
            found.append(token)
        end_of_line = Token("\n", number, len(line) + 1, offset + len(line), offset + len(line), "newline", False)
        found.append(end_of_line)
        offset += len(line) + 1
    return found


def _comma_header(line: str) -> bool:
    """True for a row of three or more words and commas without a figure: a table's header."""
    return (
        line.count(",") >= 2
        and re.fullmatch(r"[^\W\d][^\d,.;:]{0,30}(?:,[^\d,.;:]{0,30}){2,}", line.strip()) is not None
    )


def _pieces(line: str, position: int, decimal_comma: bool, comma_table: bool) -> Iterator[tuple[str, str, int, int]]:
    length = len(line)
    while position < length:
        match = _TOKEN.search(line, position)
        if match is None:
            return
        kind = match.lastgroup or "mark"
        text, start, end = match.group(), match.start(), match.end()
        if kind == "prime":
            kind = "mark"
        elif kind in ("mixed", "fraction") and _value(kind, text) is None:
            # 44-52/8 or 60/8: not a fraction; take its first number alone
            end = start + len(re.match(r"\d+", text).group())  # type: ignore[union-attr]
            kind, text = "number", line[start:end]
        elif kind == "mixed" and "-" in text and re.match(r"\d[ ]?-", text):
            # 5-1/2 is ambiguous with a range; lengths have two digits
            end = start + 1
            kind, text = "number", line[start:end]
        elif kind == "number" and "," in text:
            if re.fullmatch(r"\d,\d{3}", text) and re.match(r"\s*(mm|millim)", line[end:]):
                yield "number", text.replace(",", ""), start, end
                position = end
                continue
            if comma_table or _split_comma(text, line, start, decimal_comma):
                end = start + max(text.index(","), 1)
                text = line[start:end]
                kind = "mark" if text == "," else "number"
        yield kind, text, start, end
        position = end


def _sign(found: list[Token], token: Token) -> None:
    """Join a sign to the number it belongs to: written tight before it and not between two numbers."""
    if token.kind != "number" or not found:
        return
    mark = found[-1]
    apart = mark.text == "+" and len(found) > 1 and found[-2].lower in ("standard", "std", "stock", "all")
    if not (token.glued or apart):  # "standard + 0.5", "all + 10 mm"
        return
    if mark.kind != "mark" or mark.text not in ("+", "±", *DASHES):
        return
    before = found[-2] if len(found) > 1 else None
    if mark.glued and before is not None and not (before.kind == "mark" and before.text in "([,:;=/|@~\t"):
        return
    if before is not None and before.kind == "number" and not mark.glued and mark.text in "–—":
        return
    found.pop()
    token.sign = 1 if mark.text in "+±" else -1
    if isinstance(token.value, float | int):
        token.value = token.value * token.sign
    token.text = mark.text + token.text
    token.start, token.column, token.glued = mark.start, mark.column, mark.glued


def gap(before: Token, token: Token) -> int:
    """The blanks between two tokens; the end of a line that cut a sentence counts as one."""
    cut = token.written != before.written and before.kind != "newline"
    return 1 if cut else token.start - before.end


def behind_capitals(tokens: list[Token], at: int, longest: int = 1_000) -> int:
    """The place behind the words with capitals that begin at `at`, so many at most; `at` where none does."""
    end = at
    while end < len(tokens) and end - at < longest and tokens[end].kind == "word" and tokens[end].text[:1].isupper():
        end += 1
    return end


def lines_of(tokens: list[Token]) -> list[Line]:
    """The tokens line by line, each with its newline."""
    lines: list[Line] = [[]]
    for token in tokens:
        lines[-1].append(token)
        if token.kind == "newline":
            lines.append([])
    return lines if lines[-1] else lines[:-1]


def along_sentences(tokens: list[Token]) -> list[Token]:
    """The tokens of a text whose line ends have been taken out: a sentence stands in the line that it begins in."""
    row, before = 0, None
    for token in tokens:
        if before is None or before.kind == "newline" or (before.text in _SENTENCE_ENDS and not token.glued):
            row = token.line
        token.line, before = row, token
    return tokens


def without_runs(tokens: list[Token]) -> list[Token]:
    """The tokens without what a run of one mark, of empty cells or of empty lines has beyond what any table needs."""
    run = 0
    kept: list[Token] = []
    for token in tokens:
        again = bool(kept) and token.kind in ("mark", "newline") and token.text == kept[-1].text
        run = run + 1 if again else 0
        if run < _RUN:
            kept.append(token)
    return kept


def single_spaced(tokens: list[Token]) -> list[Token]:
    """The tokens without the empty lines of a text that has one behind each of its lines, as a mail sets it."""
    ends = [at for at, token in enumerate(tokens) if token.kind == "newline" and token.column > 1]
    doubled = len(ends) > _FEWEST_LINES and all(_empty(tokens, at + 1) for at in ends[:-1])
    kept: list[Token] = []
    run = 0
    for at, token in enumerate(tokens):
        run = run + 1 if _empty(tokens, at) else 0
        if not doubled or run % 2 == 0:
            kept.append(token)
    return kept


def _empty(tokens: list[Token], at: int) -> bool:
    """True for the end of an empty line."""
    return at < len(tokens) and tokens[at].kind == "newline" and tokens[at].column == 1


def said(line: Line) -> Line:
    """The line without its newline."""
    return [token for token in line if token.kind != "newline"]


def line_end(tokens: list[Token], at: int) -> int:
    """Where the line ends that `at` stands in: its newline, or behind the last token."""
    while at < len(tokens) and tokens[at].kind != "newline":
        at += 1
    return at


def told_by_number(tokens: list[Token], at: int) -> bool:
    """True for the figure of "number 4", "no. 4", "nr 4", "#4", which counts clubs or names one."""
    before = at - 1 - (at > 1 and tokens[at - 1].text == ".")
    return before >= 0 and tokens[before].lower in ("number", "no", "nr", "#")
