"""Footnotes: what stands below a list behind a mark ("¹ bent one degree strong") is read where its mark stands."""

from __future__ import annotations

import re
from typing import NamedTuple

from asplayed.intake.tokens import Token

_SMALL = "¹²³⁴⁵⁶⁷⁸⁹⁰"
_MARK = rf"[{_SMALL}]{{1,2}}|\[\d{{1,2}}\]|\*{{1,3}}|[†‡§]"
_NOTE = re.compile(rf"^[ \t]*(?P<mark>{_MARK})[ \t]*(?=\S)", re.MULTILINE)
_REFERENCE = re.compile(rf"(?<=[\w°\"”+'’.)])[ ]?(?P<mark>{_MARK})(?![\w*])")


_BLANK = dict.fromkeys(map(ord, _SMALL), " ")  # a small digit that is no footnote's is no figure


class Footnote(NamedTuple):
    """A note below the list: where its mark stands in the text, and the line that tells it."""

    at: int
    line: int


def without_marks(text: str) -> tuple[str, list[Footnote]]:
    """The text with blanks for the marks of its footnotes (each place is kept), and the footnotes.

    >>> without_marks("driver 9¹, 45\\nputter 34\\n¹ half a degree down\\n")
    ('driver 9 , 45\\nputter 34\\n  half a degree down\\n', [Footnote(at=8, line=3)])
    """
    notes = {}
    for found in _NOTE.finditer(text):
        if found["mark"] in notes:
            return text.translate(_BLANK), []  # the marks only count the lines
        notes[found["mark"]] = found
    first = min((found.start() for found in notes.values()), default=0)
    told: dict[str, list[re.Match[str]]] = {}
    for found in _REFERENCE.finditer(text, 0, first):
        told.setdefault(found["mark"], []).append(found)
    pairs = [(told[mark][0], found) for mark, found in notes.items() if len(told.get(mark, ())) == 1]
    if not pairs or len(pairs) < len(notes):
        return text.translate(_BLANK), []
    kept = list(text)
    for pair in pairs:
        for found in pair:
            kept[found.start("mark") : found.end("mark")] = " " * len(found["mark"])
    return "".join(kept).translate(_BLANK), [
        Footnote(mark.start("mark"), text.count("\n", 0, note.start("mark")) + 1) for mark, note in pairs
    ]


def where_marked(tokens: list[Token], notes: list[Footnote]) -> list[Token]:
    """The tokens with those of each footnote in brackets behind the word that its mark stood behind."""
    for note in sorted(notes, reverse=True):  # from the last, so that the places before it stay in order
        told = [token for token in tokens if token.line == note.line and token.kind != "newline"]
        while told and told[-1].text in (".", ";", ","):
            told.pop()
        moved = set(map(id, told))
        rest = [token for token in tokens if id(token) not in moved]
        at = next((index for index, token in enumerate(rest) if token.start >= note.at), 0)
        if not told or at == 0:
            continue
        opening, closing = _bracket("(", told[0]), _bracket(")", told[-1])
        tokens = [*rest[:at], opening, *told, closing, *rest[at:]]
    return tokens


def _bracket(mark: str, beside: Token) -> Token:
    return Token(mark, beside.line, beside.column, beside.start, beside.start, "mark", False)
