"""Footnotes: what stands below a list behind a mark ("¹ bent one degree strong") is read where its mark stands."""

from __future__ import annotations

import re
from copy import copy
from typing import NamedTuple

from asplayed.intake.tokens import Token

_SMALL = "¹²³⁴⁵⁶⁷⁸⁹⁰"
_MARK = rf"[{_SMALL}]{{1,2}}|\[\d{{1,2}}\]|\([a-e]\)|\*{{1,3}}|[†‡§]"
_NOTE = re.compile(rf"^[ \t]*(?P<mark>{_MARK})[ \t]*(?=\S)", re.MULTILINE)
_REFERENCE = re.compile(rf"(?<=[\w°\"”+'’.)])(?:[ ]?|[ ]*(?=\([a-e]\)))(?P<mark>{_MARK})(?![\w*])")


_FEW = 3  # marks of one footnote
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
    if not notes or not all(told.get(mark) for mark in notes):
        return text.translate(_BLANK), []
    # a note that many marks stand for tells of them all: it stays where it is
    pairs = [(one, found) for mark, found in notes.items() for one in told[mark] if len(told[mark]) <= _FEW]
    many = [one for mark in notes for one in (*told[mark], notes[mark]) if len(told[mark]) > _FEW]
    kept = list(text)
    for pair in (*pairs, many):
        for found in pair:
            kept[found.start("mark") : found.end("mark")] = " " * len(found["mark"])
    return "".join(kept).translate(_BLANK), [
        Footnote(mark.start("mark"), text.count("\n", 0, note.start("mark")) + 1) for mark, note in pairs
    ]


def where_marked(tokens: list[Token], notes: list[Footnote]) -> list[Token]:
    """The tokens with those of each footnote in brackets behind the word that its mark stood behind."""
    lines = {note.line: [token for token in tokens if token.line == note.line] for note in notes}
    seen: set[int] = set()
    for note in sorted(notes, reverse=True):  # from the last, so that the places before it stay in order
        told = [token for token in lines[note.line] if token.kind != "newline"]
        if note.line in seen:
            told = [copy(token) for token in told]  # the note of two marks is read at both
            for token in told:
                token.again = True
        seen.add(note.line)
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
