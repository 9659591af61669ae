"""Boxes to tick: of the choices that a form offers, the ticked ones are told and the others are not.

The boxes are "[ ]", "( )", "☐" and their like, before what they choose or behind it; the choices stand on one line
or below each other.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.phrases import TOLD, UNITS, phrase_at
from asplayed.intake.tokens import Line, Token, gap, lines_of, made, said

_TICKS = {"x", "✓", "✔", "✗", "✘", "v", "*", "•", "●", "xx"}
_TICKED, _EMPTY = {"☑", "☒", "■", "●", "◉", "⦿"}, {"☐", "□", "○", "◯"}
_PAIRS = {"[": "]", "(": ")"}
# Words of a form for the clubs or their numbers, which are to be chosen.
WHICH = {"which", "number", "numbers", "no", "nos", "#", "clubs", "club", "make-up", "makeup", "make up", "set"}
_FAR = 3  # blanks that part a choice from the next label of its line


class _Box(NamedTuple):
    """A box on its line: where it begins, the place behind it, whether it is ticked."""

    start: int
    end: int
    ticked: bool


def chosen(tokens: list[Token]) -> list[Token]:
    """The tokens with what was not ticked hidden at its line's end."""
    lines = lines_of(tokens)
    found = [_boxes_of(said(line)) for line in lines]
    if not any(box.ticked for boxes in found for box in boxes):
        return tokens  # an empty form, or marks of another sort
    kept: list[Line] = []
    for line, boxes in zip(lines, found, strict=True):
        kept.append(_settled(line, boxes) if _offers(line, boxes) else line)
    return [token for line in _below_labels(lines, kept, found) for token in line]


def _boxes_of(row: Line) -> list[_Box]:
    """The boxes of a line."""
    found: list[_Box] = []
    at = 0
    while at < len(row):
        token = row[at]
        if token.text in _TICKED or token.text in _EMPTY:
            found.append(_Box(at, at + 1, token.text in _TICKED))
        elif token.text in _PAIRS and at + 1 < len(row):
            inside = row[at + 1]
            roman = token.text == "(" and inside.lower == "v"  # "(iv)", "(v)" count
            closing = at + 1 + (inside.lower in _TICKS or inside.text == "_")
            if closing < len(row) and not roman and row[closing].text == _PAIRS[token.text]:
                found.append(_Box(at, closing + 1, inside.lower in _TICKS))
                at = closing
        at += 1
    return found


def _offers(line: Line, boxes: list[_Box]) -> bool:
    """True for a line of several choices, or of one behind its label: no box that only opens a line."""
    return len(boxes) > 1 or (len(boxes) == 1 and (boxes[0].start > 0 and not _opens(line, boxes[0])))


def _opens(line: Line, box: _Box) -> bool:
    return all(token.terminal == "BULLET" for token in line[: box.start])


def _settled(line: Line, boxes: list[_Box]) -> Line:
    """The line with its ticked choices, a comma between those of one label, and the others hidden behind them."""
    row = said(line)
    hidden: set[int] = set()
    commas: set[int] = set()
    closing = boxes[-1].end
    ends = closing == len(row) or gap(row[closing - 1], row[closing]) > 1
    behind = ends and boxes[0].start > 0 and not _labelled(row, boxes[0].start)
    if _refused(row, boxes):
        return _hidden(row, set(range(len(row)))) + [token for token in line if token.kind == "newline"]
    last = -1  # the ticked box before, where nothing but choices stands since
    for number, box in enumerate(boxes):
        hidden |= set(range(box.start, box.end))
        if behind:
            low = boxes[number - 1].end if number else 0
            start = box.start
            while start > low and not _begins(row, start):
                start -= 1
            choice = range(start, box.start)
        else:
            high = boxes[number + 1].start if number + 1 < len(boxes) else len(row)
            end = box.end
            while end < high and not _parts(row, box.end, end):
                end += 1
            choice = range(box.end, end)
        if not box.ticked:
            hidden |= set(choice)
            last = -1 if not behind and end < high else last
            continue
        if last >= 0:
            commas.add(choice.start - 1 if behind else box.start)
        last = box.start if behind or choice.stop == (boxes[number + 1].start if number + 1 < len(boxes) else 0) else -1
    kept: Line = []
    for at, token in enumerate(row):
        if at in commas and not behind:
            kept.append(made(",", "mark", "COMMA", token))
        if at not in hidden:
            kept.append(token)
    _flexes(kept)
    for at in range(len(kept) - 2, 0, -1):
        if kept[at].lower == "model" and kept[at + 1].text[:1].isupper() and kept[at].terminal == "WORD":
            kept[at].terminal = "HEADWORD"  # "[x] PW   Model Gannet"
            kept.insert(at + 1, made(":", "mark", "EQ", kept[at]))
            label = next((place for place in range(at + 2, len(kept)) if kept[place].terminal in TOLD), 0)
            if label and gap(kept[label - 1], kept[label]) >= _FAR:
                kept.insert(label, made(",", "mark", "COMMA", kept[label]))
    return kept + _hidden(row, hidden) + [token for token in line if token.kind == "newline"]


def _refused(row: Line, boxes: list[_Box]) -> bool:
    """True for "PUTTER   [ ] yes   [x] no": a club that is not ordered."""
    club = phrase_at(row, 0)
    named = (
        club is not None
        and club.rule in ("club", "family", "named")
        and club.end in (boxes[0].start, boxes[0].start - 1)
    )
    ticked = [box for box in boxes if box.ticked]
    if not named or len(ticked) != 1:
        return False
    before = boxes[-1].end < len(row)  # the boxes stand before what they choose
    beside = row[ticked[0].end : ticked[0].end + 1] if before else row[ticked[0].start - 1 : ticked[0].start]
    return beside[0].lower in ("no", "none")


def _flexes(kept: Line) -> None:
    """The A of "flex [x] A": a letter that else says nothing."""
    for label, letter in pairwise(kept):
        if label.terminal == "FLEXWORD" and letter.text.isupper() and len(letter.text) == 1:
            letter.terminal, letter.value = "FLEXCODE", letter.text


def _hidden(row: Line, places: set[int]) -> Line:
    """What was not chosen, as marks that tell nothing."""
    rest = [row[at] for at in sorted(places)]
    for token in rest:
        token.terminal, token.value = "BULLET", None
        if token.text == "#":
            token.text = "-"
    return rest


def _labelled(row: Line, at: int) -> bool:
    """True where a label, its colon or a mark stands right before a box: the box is before its choice."""
    before = row[at - 1]
    wide = gap(before, row[at]) >= _FAR
    unit = before.terminal in UNITS  # the inch of '45" ( )'
    return (before.kind == "mark" and not unit) or before.terminal in TOLD or wide or before.lower in WHICH


def _begins(row: Line, at: int) -> bool:
    """True where a choice begins that has its box behind it: behind a label, a mark or a wide gap."""
    before = row[at - 1]
    return before.terminal in TOLD or before.text in ":|\t,/" or gap(before, row[at]) >= _FAR


def _parts(row: Line, start: int, at: int) -> bool:
    """True where a choice ends that has its box before it: at a mark between groups, or a label far behind it."""
    token = row[at]
    apart = token.text in ("/", "|", "\t", ";") and not token.glued
    far = at > start and gap(row[at - 1], token) >= _FAR
    labelled = token.terminal in TOLD or token.lower == "model" or any(one.text == ":" for one in row[at : at + 4])
    return apart or (far and labelled)


def _below_labels(lines: list[Line], kept: list[Line], found: list[list[_Box]]) -> list[Line]:
    """ "Loft:", and below it "[ ] 9", "[x] 10.5": choices below each other, told behind their label."""
    joined: list[Line] = []
    index = 0
    while index < len(lines):
        label, end = said(lines[index]), index + 1
        while end < len(lines) and len(found[end]) == 1 and _opens(lines[end], found[end][0]):
            end += 1
        group = found[index + 1 : end]
        ticked = [box for boxes in group for box in boxes if box.ticked]
        headed = bool(label) and not found[index] and len(label) < 6
        headed = headed and (label[-1].text in ":?" or label[0].terminal in TOLD or label[0].lower in WHICH)
        if not (headed and len(group) > 1 and ticked):
            joined.append(kept[index])
            index += 1
            continue
        told: Line = list(label)
        rest: Line = []
        first = True
        for place in range(index + 1, end):
            row, box = said(lines[place]), found[place][0]
            rest += _hidden(row, set(range(box.end if box.ticked else len(row))))
            if box.ticked:
                told += ([] if first else [made(",", "mark", "COMMA", row[0])]) + row[box.end :]
                first = False
        joined.append([*told, *rest, *(token for token in lines[end - 1] if token.kind == "newline")])
        index = end
    return joined
