"""A list in anybody's words as records with questions; every word is accounted for."""

from __future__ import annotations

import html
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput
from asplayed.intake.assemble import assemble
from asplayed.intake.beforehand import heard_last
from asplayed.intake.clauses import prepare
from asplayed.intake.known import Known
from asplayed.intake.language import other_language
from asplayed.intake.numbers import fold, join_lines
from asplayed.intake.scene import Scene, Word
from asplayed.intake.tables import with_columns
from asplayed.intake.tagging import tag
from asplayed.intake.tokens import Source, tokens_of
from asplayed.intake.vocabulary import load_vocabulary
from asplayed.intake.walk import Walk

if TYPE_CHECKING:
    from asplayed.catalogue import Part


_QUOTED = re.compile(r'^"[^"\n]*"(?:,"[^"\n]*"){2,}$', re.MULTILINE)
_DATE = re.compile(r"\b(\d{1,2})[-/]([A-Za-z]{3,9})[-/](\d{4})\b")  # 14-Jun-2026
_HTML = re.compile(r"</?(?:b|br|li|p|ul|ol|div|span|td|th|tr|table|strong|em|h\d)\b[^<>\n]{0,80}>", re.IGNORECASE)
_IRONS = re.compile(r"\bI(?=\d-(?:PW?|GW?|AW?|SW?|\d)\b)|^i(?=\d-(?:pw|gw|aw|sw|\d)\b)", re.MULTILINE)  # I5-P, i5-pw
_MARKS = {
    "comma": ",", "full stop": ".", "semicolon": ";", "colon": ":", "new line": "\n", "new paragraph": "\n\n",
    "open bracket": " (", "close bracket": ")",
}  # fmt: skip
_SPOKEN_MARK = re.compile(rf"[ \t]*\b(?P<mark>{'|'.join(_MARKS)})\b".replace(" ", r"\s+"), re.IGNORECASE)
_NAMED = re.compile(r'(?<=[=:])"([^\W\d_][^"\n,=]{0,60})"(?=[\s,;]|$)', re.MULTILINE)  # head="Whimbrel 9"
_QUOTED_FIGURE = re.compile(r'(?:(?<=[\s,:=(])|^)"(\d{1,3}(?:[.,]\d+)?)"(?=[\s,;)]|$)', re.MULTILINE)  # driver "9.0"
_LEADERS = re.compile(r"(?<=\S)[ ]?[.…]{4,}(?=[ ]?\S)|(?<=\S) ?_{3,} ?(?=\S)")  # "Driver.....Gannet 10.5"
LONGEST = 40_000  # characters: many times the longest spoken walk-through of one set
# Marks that say how text runs but are no part of it: direction marks, zero-width joiners, the byte order mark.
_UNSEEN = dict.fromkeys([*range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2060, 0x206A), 0xFEFF, 0x00AD])
_LINE_ENDS = {0x0B: "\n", 0x0C: "\n", 0x1C: "\n", 0x1D: "\n", 0x1E: "\n", 0x85: "\n", 0x2028: "\n", 0x2029: "\n"}
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
    """The text with a comma for each row of dots that leads from one cell to the next; each place is kept."""
    return _LEADERS.sub(lambda found: ", ".ljust(len(found[0])), text)


def _plain_text(text: str) -> str:
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
    text = text.replace("\r\n", "\n").replace("\r", "\n").translate(_UNSEEN | _LINE_ENDS | _CONTROLS)
    if _HTML.search(text):
        text = html.unescape(_HTML.sub(" ", text))
    text = _IRONS.sub(" ", text)
    text = _DATE.sub(r"\1 \2 \3", text)
    return _unquoted(_led(_punctuated(text)))


def _punctuated(text: str) -> str:
    """A dictated text whose marks are spoken ("driver comma nine degrees full stop new line") with the marks."""
    spoken = [" ".join(mark.lower().split()) for mark in _SPOKEN_MARK.findall(text)]
    if len(spoken) < 3 and "full stop" not in spoken:
        return text
    return _SPOKEN_MARK.sub(lambda mark: _MARKS[" ".join(mark["mark"].lower().split())], text)


def read(text: str, *, vocabulary: Path | None = None, parts: Sequence[Part] = ()) -> GolfSet:
    """The set that a list's words tell of, with questions for what they leave open.

    `vocabulary` is a TOML file of words added to the trade's own; `parts` are catalogue parts whose names are then
    known. Text that is no list is refused with a sentence (BadInput); figures no club can have are refused together.

    >>> golf_set = read("driver Kittiwake 10.5, Lindrake 65 TX, 44¾")
    >>> club = golf_set.clubs[0]
    >>> club.head.name, club.head.loft.value, club.shaft.flex, club.length.value
    ('Kittiwake', 10.5, 'TX', 44.75)
    """
    return assemble(_walked(text, vocabulary, parts))


def ledger(text: str) -> list[tuple[str, str]]:
    """Every word and number of a list with who took it: club, set, ball, aside, note, question, phrase, not understood.

    "phrase" are the function words inside what was understood; the rest of a list's words lie in a record or are kept
    word for word.

    >>> [taker for word, taker in ledger("the driver is lovely, 44¾")]
    ['phrase', 'club', 'phrase', 'not understood', 'club']
    """
    return _walked(text, None, ()).ledger()


def marked(text: str, *, parts: Sequence[Part] = ()) -> tuple[str, list[Word]]:
    """The text as it is read, and every word and number in it with its place and who took it (as in `ledger`).

    >>> text, words = marked("driver 10.5, lovely")
    >>> [(text[word.start : word.end], word.taker) for word in words]
    [('driver', 'club'), ('10.5', 'club'), ('lovely', 'not understood')]
    """
    scene = _walked(text, None, parts)
    return scene.source.text, scene.placed()


def _walked(text: str, vocabulary: Path | None, parts: Sequence[Part]) -> Scene:
    source = Source(_plain_text(text))
    tokens = tokens_of(source)
    words = load_vocabulary(vocabulary)
    tagged, beforehand = heard_last(with_columns(tag(fold(join_lines(tokens) if source.spoken else tokens), words)))
    known = Known()
    known.learn_parts(parts)
    first = Scene(source, tagged, beforehand)
    prepare(first)
    Walk(first, known).run()
    if not (first.drafts or first.headers or first.aside):
        raise BadInput(
            "line 1, column 1: no golf club was found in this text; write one club a line, such as “driver 10.5° 44¾”"
        )
    known.learn(first)
    scene = Scene(source, tagged, beforehand)
    prepare(scene)
    Walk(scene, known).run()
    return scene
