"""Lines counted by figures or letters, which the list then points to: "shaft as item 2", "length as (d)", "but (f)"."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.tokens import Line, Token, lines_of, repeated

_FEWEST = 3  # lines that make a count
_LABELS = {"item", "line", "row", "entry"}  # words of nothing but counted lines
_POINTING = {"as", "like", "but", "except", "bar", "not", "excluding", "save", "in", "on", "of", "for", "at", "with"}
_OPENING, _CLOSING = ("(", "["), (")", "]", ".")


class Mark(NamedTuple):
    """What counts a line, and the place behind it."""

    text: str
    end: int


def named_where_pointed(tokens: list[Token]) -> list[Token]:
    """The tokens with the club of a counted line wherever the list points to that line; its mark stays, unheard."""
    clubs = _clubs_of_lines(lines_of(tokens))
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        end = _pointer_at(tokens, at, clubs) if clubs else 0
        if end:
            label = next(token.text.lower() for token in tokens[at:end] if token.text.lower() in clubs)
            found += [repeated(token, tokens[at]) for token in clubs[label]]
            for token in tokens[at:end]:
                token.terminal, token.lower = "SILENT", "as"
            found += tokens[at:end]
        else:
            found.append(tokens[at])
        at = max(end, at + 1)
    return found


def _clubs_of_lines(lines: list[Line]) -> dict[str, Line]:
    """The words that name each counted line's club; letters that count lines are stepped over."""
    counted = [(line, mark) for line in lines if (mark := _mark_of(line)) is not None]
    texts = [mark.text for _line, mark in counted]
    rising = all(_place(one) < _place(other) for one, other in pairwise(texts))
    if len(texts) < _FEWEST or texts[0] not in ("1", "a") or not rising:
        return {}
    clubs: dict[str, Line] = {}
    for line, mark in counted:
        for token in line[: mark.end]:
            token.terminal = "BULLET"
        phrase = phrase_at(line, mark.end)
        if phrase is not None and phrase.rule in CLUB_RULES:
            clubs[mark.text] = line[phrase.start : phrase.end]
    return clubs


def _place(text: str) -> int:
    """The place of a figure or a letter in its count."""
    return int(text) if text.isdigit() else ord(text[0])


def _mark_of(line: Line) -> Mark | None:
    """The count that opens a line: "2.", "(b)", "b)"; None for a line without."""
    if not line:
        return None
    if line[0].terminal == "BULLET" and line[0].text.rstrip(".)").isdigit():
        return Mark(line[0].text.rstrip(".)"), 1)
    return _letter_at(line, 0)


def _letter_at(tokens: list[Token], at: int) -> Mark | None:
    """The letter or figure in brackets, or before a closing mark: "(b)", "b)", "b."."""
    opened = at < len(tokens) and tokens[at].text in _OPENING
    letter = at + opened
    if letter + 1 >= len(tokens) or tokens[letter + 1].text not in _CLOSING[: 2 if opened else 3]:
        return None
    text = tokens[letter].text.lower()
    single = (len(text) == 1 and text.isalpha()) or (opened and text.isdigit())
    return Mark(text, letter + 2) if single and tokens[letter + 1].glued else None


def _pointer_at(tokens: list[Token], at: int, clubs: dict[str, Line]) -> int:
    """The place behind "item 2", "no. 2", "(d)" that points to a counted line; 0 where nothing points."""
    if at == 0 or tokens[at - 1].kind == "newline":
        return 0
    label, led = tokens[at].text.lower(), tokens[at - 1].text.lower() in _POINTING
    if label in _LABELS or (led and label == "no"):
        number = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].text == ".")
        return number + 1 if number < len(tokens) and tokens[number].text.lower() in clubs else 0
    mark = _letter_at(tokens, at) if led else None
    return mark.end if mark is not None and mark.text in clubs and tokens[mark.end - 1].text != "." else 0
