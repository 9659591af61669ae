"""Items of a list: parted by double slashes or counted on one line; pointed to where they are counted ("as item 2")."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.tokens import Line, Token, line_end, lines_of, made, repeated

_CLUBS = {*FAMILIES, "NAMEDWEDGE"}
_FEWEST = 3  # lines that make a count
_LABELS = {"item", "line", "row", "entry"}  # words of nothing but counted lines
_POINTING = {"as", "like", "but", "except", "bar", "not", "excluding", "save", "in", "on", "of", "for", "at", "with"}
_COUNTED = (")", ".")  # behind the figure that counts an item
_OPENING, _CLOSING = ("(", "["), (")", "]", ".")


class Mark(NamedTuple):
    """What counts a line, and the place behind it."""

    text: str
    end: int


def items_on_lines(tokens: list[Token]) -> list[Token]:
    """The tokens with a line for each item of "Dr Gannet 9 // 3w Gannet 15" and of "1. Dr Gannet 9 2. 3w Gannet 15"."""
    counts, slashes = set(_counts_inside(tokens)), set(_slashes_between(tokens))
    found: list[Token] = []
    for at, token in enumerate(tokens):
        if at in counts or at in slashes:
            found.append(made("\n", "newline", "NEWLINE", token))
        if at in counts:
            token.terminal = "BULLET"
        elif at in slashes or at - 1 in slashes or at - 1 in counts:
            continue  # the mark itself
        found.append(token)
    return found


def _slashes_between(tokens: list[Token]) -> list[int]:
    """Where "//" parts items, three of which at least tell of a club: elsewhere it parts what is told of one club."""
    found: list[int] = []
    start = 0
    while start < len(tokens):
        end = line_end(tokens, start)
        parting = [at for at in range(start + 1, end - 2) if _two_slashes(tokens, at)]
        items = pairwise([start, *parting, end])
        if sum(any(token.terminal in _CLUBS for token in tokens[one:other]) for one, other in items) >= _FEWEST:
            found += parting
        start = end + 1
    return found


def _two_slashes(tokens: list[Token], at: int) -> bool:
    """True for "//" with a blank on each side."""
    here = tokens[at : at + 3]
    return [token.text for token in here[:2]] == ["/", "/"] and [token.glued for token in here] == [False, True, False]


def _counts_inside(tokens: list[Token]) -> list[int]:
    """Where the figures stand that count a line's items, one by one, from 1 or from the line's own count on."""
    found: list[int] = []
    last = items = 0
    for at in range(len(tokens) - 2):
        token, mark, behind = tokens[at : at + 3]
        if token.terminal == "BULLET":
            last, items = (int(count), items + 1) if (count := token.text.rstrip(".)")).isdigit() else (0, 0)
            continue
        apart = not token.glued and mark.glued and not behind.glued and behind.kind != "newline"
        if apart and token.text.isdigit() and int(token.text) == last + 1 and mark.text in _COUNTED:
            last, items = last + 1, items + 1
            found.append(at)
    labels = [tokens[at - 1].lower for at in found if at and tokens[at - 1].kind == "word"]
    labelled = len(set(labels)) < len(labels) == len(found)  # "Item 1. Driver … Item 2. 3 wood"
    return found if items >= _FEWEST and not labelled else []


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
