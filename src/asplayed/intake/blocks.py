"""Blocks of a laid-out list: the lines of a form below the clubs they tell of, the lines around a table.

Each block is put in the order in which it is read, clubs first, and says which lines tell of all its clubs.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.boxes import WHICH
from asplayed.intake.columns import header, zone_of
from asplayed.intake.grids import heads_section, rows_below
from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, CLUBS_NAMED, TOLD, phrase_at, says
from asplayed.intake.tokens import DASHES, Line, Token, gap, lines_of, made, said, unsaid

_PARTS = TOLD - {"BALLWORD", "PLAYERWORD"}
_MODEL = {"model", "name", "type", "make"}
_OF_A_CLUB = {
    "NUM", "CODE", "COMMA", "SLASH", "AND", "DASH", "RANGE", "NAMEDWEDGE", "WOOD", "HYBRID", "IRON", "DEG", "SILENT",
    "LETTER", "BULLET", "DIRON", "WEDGE", "DRIVER", "PUTTER",
}  # fmt: skip
_SHARED = {"HEADWORD", "SHAFTWORD", "GRIPWORD", "FLEX", "FLEXCODE", "WRAP"}
_OF_THE_SET = {"PLAYERWORD", "HANDWORD", "DATEWORD", "EVENTWORD"}  # labels between those of a table's clubs
_OF_ALL_CLUBS = {"COMMA", "ALL", "EQ", "SILENT", "AT", "DASH", "LPAR", "RPAR", "NUM"}  # "GRIPS (all 14)"
_FRAMES = set("-–—=*~_<>[]#|•·")
_WIDE = 2  # blanks between a label and what it tells
_LONGEST = 80  # tokens of a line of a form
_MOST = 8  # labels of one entry of a form, and lines around a table that tell of it


class Block(NamedTuple):
    """Clubs and what is told of them: the lines that name them, the lines that tell of all of them."""

    naming: frozenset[int]
    telling: frozenset[int]


def in_blocks(tokens: list[Token]) -> tuple[list[Token], list[Block]]:
    """The tokens with each block in the order it is read, and the blocks."""
    lines = [_clubs_first(_unframed(_with_colon(_of_group(line)))) for line in lines_of(tokens)]
    blocks: list[Block] = []
    lines = _parts_below(_entries(lines, blocks))
    lines = _around_tables(lines, blocks)
    return [token for line in lines for token in line], blocks


def _with_colon(line: Line) -> Line:
    """ "Head<tab>Gannet One, 270 g": a label and what it tells, with a tab between them, are told with a colon."""
    row = said(line)
    if len(row) > 2 and row[1].text == "·" and row[0].terminal in ("GRIPWORD", "BALLWORD"):
        row[1].terminal, row[1].text = "EQ", ":"  # "Grips · Tack Cord 50 g"
        for token in row:
            token.text = "," if token.text == "·" else token.text
    tabs = [at for at, token in enumerate(row) if token.terminal == "PIPE" and token.text in "\t|"]
    if len(tabs) != 1 or tabs[0] == 0 or tabs[0] + 1 == len(row) or header(row)[0] is not None:
        return line
    label, tab = row[: tabs[0]], row[tabs[0]]
    told = label[-1].text == ":" or _is_label(label)
    if not told:
        return line
    if label[-1].text == ":":
        tab.terminal = "SILENT"
    else:
        tab.terminal, tab.text = "EQ", ":"
    return line


def _unframed(line: Line) -> Line:
    """ "-- DRIVER --", "== IRONS ==": a heading without the marks that only frame it."""
    row = said(line)
    first = next((at for at, token in enumerate(row) if token.kind in ("word", "number")), len(row))
    phrase = phrase_at(row, first) if first < len(row) and row[-1].kind == "mark" else None
    marks = row[:first] + (row[phrase.end :] if phrase is not None else [])
    framing = len(marks) > 1 and all(token.kind == "mark" and set(token.text) <= _FRAMES for token in marks)
    if phrase is not None and phrase.rule in (*CLUBS_NAMED, "family") and framing and row[-1].text != ":":
        for token in marks:
            token.terminal = "BULLET"
        return [*marks, *row[first : phrase.end], *(token for token in line if token.kind == "newline")]
    return line


def _of_group(line: Line) -> Line:
    """ "Woods (driver 10.5, 3W 15)   Gannet": the clubs in the bracket, with a colon before what is told of them.

    And "Heads Gannet, 5-PW, shafts …", "Set: Gannet 5-PW, …": the clubs that the heads' name stands before come first.
    """
    row = said(line)
    close = [token for token in line if token.kind == "newline"]
    at = next((place for place, token in enumerate(row) if token.terminal == "RPAR"), 0)
    if len(row) > 4 and row[0].terminal in FAMILIES and row[1].terminal == "LPAR" and 3 < at < len(row) - 1:
        clubs = row[2:at]
        several = sum(token.terminal in FAMILIES for token in clubs) > 1
        if several and all(token.terminal in (*_OF_A_CLUB, "MINIDRIVER") for token in clubs):
            for token in (row[0], row[1]):
                token.terminal = "BULLET"
            for token in clubs:
                token.terminal = "AND" if token.terminal == "COMMA" else token.terminal
            row[at].terminal, row[at].text = "EQ", ":"
        return line
    if len(row) > 2 and row[0].terminal == "TITLEWORD" and row[0].lower == "set" and row[1].text == ":":
        ranged = says(row, 2, len(row), ("span", "dashed"))
        if ranged and any(token.terminal in ("GRAM", "FLEXCODE", "FLEX", "SHAFTWORD") for token in row):
            row[0].terminal = row[1].terminal = "BULLET"
    if len(row) > 4 and row[0].terminal == "HEADWORD" and row[0].lower.endswith("s") and row[1].terminal == "WORD":
        comma = next((place for place, token in enumerate(row) if token.terminal == "COMMA"), len(row))
        span = phrase_at(row, comma + 1) if comma + 1 < len(row) else None
        if span is not None and span.rule in ("span", "dashed") and all(one.terminal == "WORD" for one in row[1:comma]):
            colon = made(":", "mark", "EQ", row[0])
            return [*row[comma + 1 : span.end], row[0], colon, *row[1:comma], *row[span.end :], row[comma], *close]
    return line


def _clubs_first(line: Line) -> Line:
    """ "Irons  Model: Gannet  Set: 7, 8, PW  Shaft: …" with its clubs behind the kind, before what is told of them."""
    row = said(line)
    kind = next((at for at, token in enumerate(row) if token.terminal != "BULLET"), len(row))
    if kind >= len(row) or row[kind].terminal not in ("IRON", "WOOD", "HYBRID", "WEDGE") or len(row) > _LONGEST:
        return line
    labels = [at for at in range(kind + 1, len(row) - 2) if row[at].lower in WHICH and row[at + 1].text in (":", "=")]
    if len(labels) != 1 or row[labels[0] - 1].kind == "number" or labels[0] == kind + 1:
        return line
    first = end = labels[0] + 2
    while end < len(row) and (
        row[end].terminal in ("NUM", "COMMA", "AND", "DASH", "RANGE", "NAMEDWEDGE", "SLASH", "LETTER")
    ):
        end += 1
    closed = end == len(row) or row[end].terminal in (*TOLD, "STOP", "PIPE") or row[end].lower in _MODEL
    while end > first and row[end - 1].terminal == "COMMA":
        end -= 1
    if end == first or not closed or any(isinstance(one.value, float) and one.value > 11 for one in row[first:end]):
        return line
    for token in row[labels[0] : first]:
        token.terminal = "BULLET"
    return [*row[: kind + 1], *row[first:end], *row[kind + 1 : first], *row[end:]] + [
        token for token in line if token.kind == "newline"
    ]


def _is_label(cell: Line) -> bool:
    """True for "Head", "Swing weight", "Customer" in a cell of its own."""
    if any(token.kind not in ("word", "mark") for token in cell):
        return False
    words = [token for token in cell if token.kind == "word"]
    return len(words) == 1 and (words[0].terminal in TOLD or words[0].terminal in ("HANDWORD", "EVENTWORD", "DATEWORD"))


def _label_of(row: Line) -> int:
    """The place behind the label that a line of a form opens with ("Lie:", "  shaft   ", "Length"); 0 for none."""
    at = 0
    while at < len(row) and row[at].terminal == "BULLET":
        at += 1
    if at + 1 >= len(row) or row[at].kind != "word":
        return 0
    label = row[at]
    if label.terminal not in _PARTS and label.lower not in (WHICH | _MODEL):
        return 0
    behind = at + 1 + (row[at + 1].text == "." and row[at + 1].glued)
    if behind < len(row) and (row[behind].text in (":", "=", *DASHES) or gap(label, row[behind]) >= _WIDE):
        return behind + (row[behind].text in (":", "=", *DASHES))
    return at + 1 if label.terminal in _PARTS else 0


# --------------------------------------------------------------------------------------------------- entries of a form


def _entries(lines: list[Line], blocks: list[Block]) -> list[Line]:
    """ "IRONS  Gannet CB", and below it "which 5, 6, 7": the clubs stand in the heading and its lines tell of them."""
    kept: list[Line] = []
    index = 0
    while index < len(lines):
        heading = said(lines[index])
        end = index + 1
        phrase = _heading(heading)
        end += phrase > 0 and end < len(lines) and _of_clubs_alone(said(lines[end]))
        while end < len(lines) and end - index <= _MOST and said(lines[end]) and _label_of(said(lines[end])):
            end += 1
        if (phrase == 0 and not _several_behind(heading)) or end == index + 1:
            kept.append(lines[index])
            index += 1
            continue
        below = lines[index + 1 : end]
        if _several_behind(heading):
            _whole_model([], below)
            blocks.append(Block(frozenset({heading[0].line}), frozenset(said(line)[0].line for line in below)))
            kept += lines[index:end]
            index = end
            continue
        told = [line for line in below if _clubs_behind(said(line))]
        which = told[0] if len(told) == 1 and not _item(told[0], below) else None
        plain = phrase_at(heading, 0)
        if which is not None and plain is not None and not plain.amounts:
            kept += _with_clubs(lines[index], phrase, which)
            kept += [line for line in below if line is not which]
            blocks.append(
                Block(
                    frozenset({heading[0].line}),
                    frozenset(said(line)[0].line for line in below if line is not which),
                )
            )
        else:
            _whole_model(heading[phrase:], below)
            kept += lines[index:end]
        index = end
    return kept


def _whole_model(named: Line, below: list[Line]) -> None:
    """The "Tithe 10" of "DRIVER   Tithe 10" above a line that tells the loft: all of it is the model."""
    labels = {token.terminal for line in below for token in said(line)[:1]}
    if "LOFT" not in labels:
        return
    for line in below:
        row = said(line)
        at = _label_of(row)
        if at and row[0].lower in _MODEL and at < len(row) and not any(one.kind == "mark" for one in row[at:]):
            for token in row[at + 1 :]:
                token.terminal, token.kind, token.value = "WORD", "word", token.lower
    if len(named) < 2 or named[-2].terminal != "WORD" or not named[-1].text.isdigit():
        return
    if not any(token.kind == "mark" for token in named[1:]):
        named[-1].terminal, named[-1].kind, named[-1].value = "WORD", "word", named[-1].lower


def _item(line: Line, below: list[Line]) -> bool:
    """True for the "- club: 3 wood" that opens an item of its own below "woods:", with its lines behind it."""
    marked = [one for one in below if said(one)[0].terminal == "BULLET" and said(one)[0].text in "-*•"]
    return line in marked and len(marked) < len(below)


def _heading(row: Line) -> int:
    """The place behind the kind of club that a heading opens with ("IRONS", "FAIRWAYS   Gannet"); 0 for any other."""
    phrase = phrase_at(row, 0) if row and row[0].kind == "word" else None
    if phrase is None or phrase.rule not in ("family", "club") or phrase.end > len(row):
        return 0
    if phrase.end == len(row):
        return phrase.end
    behind = row[phrase.end]
    marked = behind.text in (":", *DASHES) or gap(row[phrase.end - 1], behind) >= _WIDE
    named = behind.terminal == "WORD" and behind.text[:1].isupper()
    return phrase.end if marked or named else 0


def _clubs_behind(row: Line) -> bool:
    """True for "which 5, 6, 7, PW", "Number: 3", "which 50-10, 54-12": a line that tells which clubs."""
    at = _label_of(row)
    if not at and _of_clubs_alone(row):
        return True
    label = next((token for token in row if token.terminal != "BULLET"), None)
    if not at or label is None or label.lower not in WHICH:
        return False
    told = [token for token in row[at:] if token.terminal != "BULLET"]
    return any(token.kind == "number" or token.terminal == "NAMEDWEDGE" for token in told) and all(
        token.terminal in _OF_A_CLUB for token in told
    )


def _several_behind(row: Line) -> bool:
    """True for "Clubs: driver 12, 5 wood 19", "HYBRIDS  4, 5" above the lines that tell of all of them."""
    told = [token for token in row if token.terminal != "BULLET"]
    if told and told[0].terminal in ("HYBRID", "WOOD") and sum(token.kind == "number" for token in told) > 1:
        return all(token.terminal in ("NUM", "COMMA", "AND", "SLASH") or token.text == ":" for token in told[1:])
    label = next((token for token in row if token.terminal != "BULLET"), None)
    kinds = [token for token in row if token.terminal in FAMILIES]
    return label is not None and label.lower in ("clubs", "which") and len(kinds) > 1 and _clubs_behind(row)


def _of_clubs_alone(row: Line) -> bool:
    """True for the line "3H 19, 4H 22" of ticked clubs below "Hybrid: Gannet"."""
    phrase = phrase_at(row, 0) if row else None
    named = phrase is not None and phrase.rule in ("club", "named") and bool(phrase.amounts)
    return named and all(token.terminal in _OF_A_CLUB for token in row) and any(one.terminal == "BULLET" for one in row)


def _with_clubs(line: Line, end: int, which: Line) -> list[Line]:
    """The heading with its clubs, and below it its model."""
    heading, row = said(line), said(which)
    at = _label_of(row)
    clubs = [token for token in row[at:] if token.terminal != "BULLET"]
    rest = [token for token in row if token.terminal == "BULLET"] + [
        token for token in row[:at] if token.terminal != "BULLET"
    ]
    for token in rest:
        token.terminal = "BULLET"
    own = any(token.terminal in FAMILIES and token.terminal != "NAMEDWEDGE" for token in clubs)
    if own:
        for token in heading[:end]:
            token.terminal = "BULLET"
    close = [token for token in line if token.kind == "newline"]
    named = heading[end:]
    while named and (named[0].text in (":", ",") or named[0].text in DASHES):
        named[0].terminal = "BULLET"
        rest.append(named.pop(0))
    first = [*heading[:end], *clubs, *rest]
    if not named:
        return [[*first, *close]]
    head, colon = unsaid("head", "HEADWORD", named[0]), made(":", "mark", "EQ", named[0])
    for before, token in pairwise(named):
        if before.terminal == "WORD" and token.terminal in FAMILIES and token.text[:1].isupper():
            token.terminal, token.value = "WORD", token.lower  # "IRONS   Solace Iron": all of it is the model
    return [[*first, made("\n", "newline", "NEWLINE", named[0])], [head, colon, *named, *close]]


def _parts_below(lines: list[Line]) -> list[Line]:
    """ "GRIPS, all clubs", and below it "Model: Plait", "Wraps: 1 extra": the part, told in one line."""
    kept: list[Line] = []
    index = 0
    while index < len(lines):
        row = said(lines[index])
        alone = bool(row) and row[0].terminal in ("GRIPWORD", "SHAFTWORD")
        alone = alone and all(one.terminal in _OF_ALL_CLUBS for one in row[1:])
        end = index + 1
        while alone and end < len(lines) and end - index <= 4 and _label_of(said(lines[end])):
            end += 1
        first = said(lines[index + 1]) if end > index + 1 else []
        if not first or first[0].lower not in _MODEL:
            kept.append(lines[index])
            index += 1
            continue
        line = [*row] + ([] if row[-1].text == ":" else [made(":", "mark", "EQ", row[-1])])
        for place in range(index + 1, end):
            told = said(lines[place])
            if place > index + 1:
                line.append(made(",", "mark", "COMMA", told[0]))
                told = _figure_first(told)
            elif told:
                for token in told[: _label_of(told)]:
                    token.terminal = "BULLET"
            line += told
        kept.append(line + [token for token in lines[end - 1] if token.kind == "newline"])
        index = end
    return kept


def _figure_first(row: Line) -> Line:
    """ "Wraps: 1 extra" as "1 wraps": a figure before what it counts, which can stand in a line with others."""
    at = _label_of(row)
    if row[0].terminal != "WRAP" or at >= len(row) or row[at].kind != "number":
        return row
    rest = row[1:at] + row[at + 1 :]
    for token in rest:
        token.terminal = "BULLET"
    return [row[at], row[0], *rest]


# ------------------------------------------------------------------------------------------------------ around a table


def _around_tables(lines: list[Line], blocks: list[Block]) -> list[Line]:
    """What is told of a table's clubs in the lines above it is heard below it, with what the lines below it tell."""
    kept: list[Line] = []
    index = 0
    while index < len(lines):
        zones = header(said(lines[index]))[0] if said(lines[index]) else None
        rows = rows_below(lines, index) if zones is not None else []
        if not rows:
            kept.append(lines[index])
            index += 1
            continue
        above = _labels_above(kept)
        moved = [kept[place] for place in above]
        kept = [line for place, line in enumerate(kept) if place not in above]
        kept += [*lines[index : rows[-1] + 1], *moved]
        end = rows[-1] + 1
        while end < len(lines) and not said(lines[end]) and end - rows[-1] < 3:
            end += 1
        below: list[Line] = []
        while end + len(below) < len(lines) and len(below) < _MOST and _of_all(said(lines[end + len(below)])):
            below.append(lines[end + len(below)])
        naming = frozenset(token.line for row in rows for token in lines[row] if token.kind == "newline")
        telling = frozenset(said(line)[0].line for line in [*moved, *below])
        if telling:
            blocks.append(Block(naming, telling))
        index = rows[-1] + 1
    return kept


def _labels_above(lines: list[Line]) -> list[int]:
    """The places of the lines right above a table that tell a part or a figure of all its clubs."""
    found: list[int] = []
    place = len(lines) - 1
    while place >= 0 and not said(lines[place]) and len(lines) - place < 3:
        place -= 1
    while place >= 0 and len(found) < _MOST and said(lines[place]):
        row = said(lines[place])
        label = next((token for token in row if token.terminal != "BULLET"), None)
        at = _label_of(row)
        part = at > 0 and label is not None and label.terminal in _PARTS
        of_all = label is not None and label.terminal == "ALL" and any(token.terminal in _SHARED for token in row)
        if (part or of_all) and not says(row, at, len(row), CLUB_RULES):
            found.append(place)
        elif heads_section(lines[place]) or label is None or label.terminal not in _OF_THE_SET:
            break
        place -= 1
    if place >= 0 and said(lines[place]) and not heads_section(lines[place]):
        phrase = phrase_at(said(lines[place]), 0)
        if phrase is not None and phrase.rule in ("club", "named") and not phrase.has("IRON"):
            return []  # "DRIVER", and below it lines that tell of the driver alone
    return found


def _of_all(row: Line) -> bool:
    """True for a line below a table that tells a part of its clubs and names none: "Heads Burr, shafts Reed 60 S"."""
    if not row or row[0].terminal in ("PIPE", "NOTE") or says(row, 0, len(row), CLUB_RULES):
        return False
    if zone_of(row) is not None and len(row) == 1:
        return False
    return any(token.terminal in _SHARED for token in row)
