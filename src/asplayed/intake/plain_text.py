"""The text of a list as it is read: without what cannot be seen, what only adorns it and what a mail's width made."""

from __future__ import annotations

import html
import re

from asplayed.errors import BadInput
from asplayed.intake.language import other_language
from asplayed.intake.tokens import Source, Token
from asplayed.intake.vocabulary import own_vocabulary
from asplayed.intake.wording import ordinary_words

_QUOTED = re.compile(r'^"[^"\n]*"(?:,"[^"\n]*"){2,}$', re.MULTILINE)
_DATE = re.compile(r"\b(\d{1,2})[-/]([A-Za-z]{3,9})[-/](\d{4})\b")  # 14-Jun-2026
_HTML = re.compile(r"</?(?:b|br|li|p|ul|ol|div|span|td|th|tr|table|strong|em|h\d)\b[^<>\n]{0,80}>", re.IGNORECASE)
_COUNTED_COLUMN = re.compile(r"^#(?=\t)", re.MULTILINE)  # the heading of a column that counts the rows
_IRONS = re.compile(r"\bI(?=\d-(?:PW?|GW?|AW?|SW?|\d)\b)|^i(?=\d-(?:pw|gw|aw|sw|\d)\b)", re.MULTILINE)  # I5-P, i5-pw
_MARKS = {
    "comma": ",", "full stop": ".", "semicolon": ";", "colon": ":", "new line": "\n", "new paragraph": "\n\n",
    "open bracket": " (", "close bracket": ")",
}  # fmt: skip
_SPOKEN_MARK = (
    re.compile(  # with all the white space before it, which is looked at once and not from each of its blanks
        rf"(?:(?<!\s)\s+)?\b(?P<mark>{'|'.join(_MARKS)})\b".replace(" ", r"\s+"), re.IGNORECASE
    )
)
_NAMED = re.compile(r'(?<=[=:])"([^\W\d_][^"\n,=]{0,60})"(?=[\s,;]|$)', re.MULTILINE)  # head="Whimbrel 9"
_QUOTED_FIGURE = re.compile(r'(?:(?<=[\s,:=(])|^)"(\d{1,3}(?:[.,]\d+)?)"(?=[\s,;)]|$)', re.MULTILINE)  # driver "9.0"
_LABELLED = re.compile(  # "ITEM 2 ....... wedges": a label led to all that stands behind it
    r"^([ \t]*[A-Za-z][A-Za-z/]*(?:[ ][A-Za-z/]+){0,2}(?: \d{1,2})?)([ ]?[.…_]{4,})(?![.…_])(?=[ ]?\S)(?!.*[.…_]{4})",
    re.MULTILINE,
)
_DOTS_AND_COLON = re.compile(r"(?<=\w)[ ]?[.…_]{3,}(?=[ ]?:)")  # "Toe hang......: 45"
_LEADERS = re.compile(r"(?<=\S)[ ]?[.…]{4,}(?=[ ]?\S)|(?<=\S) ?_{3,} ?(?=\S)")  # "Driver.....Gannet 10.5"
_BOARD = re.compile(r"\[/?(?:b|i|u|s|size|color|colour|url|img|quote|list|center)(?:=[^\]\n]{0,40})?\]", re.IGNORECASE)
# what UTF-8 becomes when it is taken for Windows-1252
_BROKEN = {
    "Â°": "°",
    "Â½": "½",
    "Â¼": "¼",
    "Â¾": "¾",
    "â€“": "–",
    "â€”": "—",
    "â€™": "’",
    "â€œ": "“",
    "â€�": "”",
    "Ã—": "×",
}
_DOUBLED, _SINGLE = re.compile(r"(?<=\S)  (?=\S)"), re.compile(r"(?<=\S) (?=\S)")
_NARROWEST, _WIDEST = 55, 90  # characters to a line of a mail
LONGEST = 40_000  # characters: many times the longest spoken walk-through of one set
_MARGIN = re.compile(r"(?m)^([ \t]*)[>*•-]")
_COUNTED = re.compile(r"[ \t]*(?:\d{1,2}[.)][ \t]|\[?\d{1,2}:\d\d)")
_EMPHASIS = re.compile(r"\*\*(?=\S)([^*\n]{1,80}?)\*\*|(?<![\w*_])([*_])(?=[A-Za-z])([^*_\n]{1,24}?:?)\2(?![\w*_])")
_CELLS = re.compile(r"  |[\t|]|\S[,;]\S.*[,;]\S| / .* / ")  # a row, as long as the others of itself
_NUMBERED = re.compile(r"\(?\d{1,2}[.)]")
_JOINING = {"with", "and", "in", "on", "to", "through", "at", "from", "of", "for", "by", "or"}
_PICTURES = re.compile(r"[\U0001F000-\U0001FAFF\u2600-\u260F\u2613-\u2704\u2706-\u2712\u2719-\u27BF\uFE0F\u200D]")
_TICKED = re.compile(r"[\u274C\u2610-\u2612]")  # boxes beside ticks: what is in and what is out
# Marks that say how text runs but are no part of it: direction marks, zero-width joiners, the byte order mark.
_UNSEEN = dict.fromkeys([*range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2060, 0x206A), 0xFEFF, 0x00AD])
_LINE_ENDS = {0x0B: "\n", 0x0C: "\n", 0x1C: "\n", 0x1D: "\n", 0x1E: "\n", 0x85: "\n", 0x2028: "\n", 0x2029: "\n"}
_DEGREES = dict.fromkeys([0x2DA, 0x2218, 0x1D52], "°")  # rings that stand for a degree
_BLANKS = dict.fromkeys([0xA0, 0x2007, 0x2009, 0x202F], " ")  # blanks that no line may end at
_CONTROLS = dict.fromkeys([*range(9), *range(14, 28), 31, 127], " ")


def _unquoted(text: str) -> str:
    """The text without the quotes around names and cells and the commas inside them; each place is kept."""
    text = _NAMED.sub(lambda found: f" {found[1]},", text)
    if not _QUOTED.search(text):
        return _QUOTED_FIGURE.sub(r" \1 ", text)
    kept: list[str] = []
    inside = False
    for character in text:
        inside = (inside != (character == '"')) and character != "\n"
        kept.append(" " if character == '"' or (inside and character == ",") else character)
    return "".join(kept)


def _led(text: str) -> str:
    """The text with a mark for each row of dots or dashes that leads on; each place is kept.

    A colon stands behind a line's label ("HEADS ....... Gannet"), a comma between cells ("Gannet.....10.5.....65 S").
    """
    text = _DOTS_AND_COLON.sub(lambda found: " " * len(found[0]), text)
    text = _LABELLED.sub(lambda found: found[1] + ":".ljust(len(found[2])), text)
    return _LEADERS.sub(lambda found: ", ".ljust(len(found[0])), text)


def plain_text(text: str) -> str:
    """The text with one kind of line end and without what cannot be seen; refused when it cannot be a list."""
    if len(text) > LONGEST:
        line = text.count("\n", 0, LONGEST) + 1
        column = LONGEST - text.rfind("\n", 0, LONGEST)
        raise BadInput(
            f"line {line}, column {column}: the text goes on beyond {LONGEST:,} characters, "
            "which no list of one set does; give the list alone"
        )
    if not text.strip():
        raise BadInput("line 1, column 1: the list is empty; write one club a line, such as “driver 10.5° 44¾”")
    if language := other_language(text):
        raise BadInput(
            f"line 1, column 1: the list seems to be in {language}; lists are read in English, so write it so"
        )
    text = (
        text.replace("\r\n", "\n").replace("\r", "\n").translate(_UNSEEN | _LINE_ENDS | _DEGREES | _BLANKS | _CONTROLS)
    )
    text = _BOARD.sub("", text)
    if any(broken in text for broken in _BROKEN):
        for broken, whole in _BROKEN.items():
            text = text.replace(broken, whole)
    if _HTML.search(text):
        text = html.unescape(_HTML.sub(" ", text))
    if len(_DOUBLED.findall(text)) > 4 * len(_SINGLE.findall(text)):
        text = _DOUBLED.sub(" ", text)  # every gap is doubled: none parts columns
    text = _IRONS.sub(" ", text)
    text = _COUNTED_COLUMN.sub("No", text)
    text = _DATE.sub(r"\1 \2 \3", text)
    return _unquoted(_led(_punctuated(_without_margin(_without_emphasis(text)))))


def _without_margin(text: str) -> str:
    """The text of a mail that is quoted whole ("> " before each line), or of numbered or timed lines with bullets.

    Each place is kept: the mark becomes a blank.
    """
    lines = [line.lstrip() for line in text.split("\n") if line.strip()]
    marks = {line[0] for line in lines}
    if len(lines) < 3 or len(marks) > 1 or not marks <= set(">*•-"):
        return text
    counted = sum(_COUNTED.match(line[1:]) is not None for line in lines)
    return _MARGIN.sub(r"\1 ", text) if marks == {">"} or 2 * counted > len(lines) else text


def _punctuated(text: str) -> str:
    """A dictated text whose marks are spoken ("driver comma nine degrees full stop new line") with the marks."""
    spoken = [" ".join(mark.lower().split()) for mark in _SPOKEN_MARK.findall(text)]
    if len(spoken) < 3 and "full stop" not in spoken:
        return text
    return _SPOKEN_MARK.sub(lambda mark: _MARKS[" ".join(mark["mark"].lower().split())], text)


def _without_emphasis(text: str) -> str:
    """The text without pictures at its lines' beginnings and between its words, and without the marks of bold type."""
    if not _TICKED.search(text):
        text = text.replace("\u2705", " ")
    return _EMPHASIS.sub(lambda found: found[1] or found[3], _PICTURES.sub(" ", text))


def unwrapped(source: Source, tokens: list[Token]) -> list[Token]:
    """The tokens without the line ends that a mail's width made: each line is as full as its next word allowed."""
    lines = source.lines
    width = max((len(line) for line in lines if len(line) <= _WIDEST), default=0)  # a longer one was not wrapped
    if width < _NARROWEST or source.spoken:
        return tokens
    soft: set[int] = set()
    run: list[int] = []
    for number in range(1, len(lines) + 1):
        line, following = lines[number - 1], lines[number] if number < len(lines) else ""
        if line.strip() and following.strip() and len(line) <= _WIDEST and _full(line, following, width):
            run.append(number)
            continue
        telling = sum(_talk(lines[last].split()[0]) or _talk(lines[last - 1].split()[-1]) for last in run)
        alone = bool(run) and (run[0] == 1 or not lines[run[0] - 2].strip()) and not following.strip()
        whole = alone and any(lines[last][:1].islower() for last in run)  # a paragraph of lines as full as could be
        if (whole and telling) or (len(run) > 2 and 3 * telling >= len(run)):
            soft.update(run)
        run = []
    return [token for token in tokens if token.kind != "newline" or token.line not in soft]


def _talk(word: str) -> bool:
    """True for a small word of talk, which neither ends nor begins a row of a list."""
    plain = word.strip(",.")
    return plain.islower() and (plain in _JOINING or plain in ordinary_words() or plain in own_vocabulary().silent)


def _full(line: str, following: str, width: int) -> bool:
    """True where the next line's first word had no place on this one; false where the next line opens an item."""
    word = following.split(maxsplit=1)[0]
    opens = word[0] in "-*•>[|" or word.endswith(":") or _NUMBERED.fullmatch(word) or following[0].isspace()
    return (
        not line.rstrip().endswith(":")
        and len(line) + 1 + len(word) > width
        and not opens
        and _CELLS.search(line.strip()) is None
    )
