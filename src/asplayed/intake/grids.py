"""Tables as rows of cells: boxed in lines, with their clubs across the top, with cells that repeat the one above.

Whatever a table looks like, it leaves here as a row of names and below it a row for each club, with a mark between
their cells; `tables.py` reads those column by column.
"""

from __future__ import annotations

from copy import copy
from typing import NamedTuple

from asplayed.intake.columns import OF_CLUBS, header, is_mark, words_of, zone_of
from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import phrase_at
from asplayed.intake.spaced import with_columns
from asplayed.intake.tokens import Line, Token, lines_of, made, said, unsaid
from asplayed.intake.wedge_words import LETTERED, WEDGE_WORDS

Cell = list[Token]

_RULED = set("-–—=:+|_")
_MARKS = {"PIPE": "\t", "COMMA": ",", "SEMICOLON": ";"}  # between the cells of a row
_CORNERS = {
    "", "club", "clubs", "no", "nr", "#", "number", "iron", "irons", "wedge", "wedges", "wood", "woods", "spec",
}  # fmt: skip
_CLUB_RULES = ("club", "named", "span", "dashed", "family", "code")
_FEWEST = 3  # cells of a row of clubs, with its corner


def laid_out(tokens: list[Token]) -> list[Token]:
    """The tokens with every table in its common form."""
    return [token for line in _turned(_unboxed(_slashed(lines_of(with_columns(tokens))))) for token in line]


def cells_of(line: Line, mark: str = "PIPE", *, led: bool = True) -> list[Cell]:
    """The cells of a row; a bar before the first of them and one behind the last only frame it."""
    row = said(line)
    if led and row and row[0].text == "|":
        row = row[1:]
    cells: list[Cell] = [[]]
    for token in row:
        if is_mark(token, mark):
            cells.append([])
        else:
            cells[-1].append(token)
    return cells[:-1] if len(cells) > 1 and not cells[-1] and row[-1].text == "|" else cells


def _rule(line: Line) -> bool:
    """True for a line that only rules: "+----+----+", "|---|---|"."""
    row = said(line)
    return len(row) > 2 and all(set(token.text) <= _RULED for token in row)


def copied(cell: Cell) -> Cell:
    """The cell once more, for the club below."""
    copies = [copy(token) for token in cell]
    for token in copies:
        token.again = True
    return copies


# ---------------------------------------------------------------------------------------------------- boxed in lines


def _unboxed(lines: list[Line]) -> list[Line]:
    """Tables drawn with "+---+---+": a cell without a line above it is the cell above once more."""
    kept: list[Line] = []
    bounds: list[int] = []  # the columns at which the bars of the table's first row stand
    above: list[Cell] = []
    ruling: Line | None = None
    for line in lines:
        row = said(line)
        if _rule(line) and row[0].text in "+|" and any(token.text == "+" for token in row):
            ruling = row
            continue
        bars = [token.column for token in row if token.text == "|"]
        if ruling is None or len(bars) < 2 or row[0].text != "|":
            ruling, bounds, above = None, [], []
            kept.append(line)
            continue
        if not bounds:
            bounds = bars
        if not set(bars) <= set(bounds):
            kept.append(line)  # drawn askew
            continue
        if len(bars) == 2 and len(bounds) > 3:
            kept.append([token for token in line if token.text != "|"])  # words across the whole width
            continue
        cells = _by_bounds(row, bounds)
        if ruling:
            for place, cell in enumerate(cells):
                opened = not any(
                    bounds[place] < token.column < bounds[place + 1] and token.text != "|" for token in ruling
                )
                if opened and not cell and place < len(above):
                    cells[place] = copied(above[place])
        above, ruling = cells, []
        kept.append(row_of(cells, line))
    return kept


def _by_bounds(row: Line, bounds: list[int]) -> list[Cell]:
    """The cells of a row by the columns of the bars; a cell across several is in the first of them."""
    cells: list[Cell] = [[] for _ in bounds[1:]]
    place = 0
    for token in row[1:]:
        if token.text == "|":
            place = bounds.index(token.column)
        elif place < len(cells):
            cells[place].append(token)
    return cells


def row_of(cells: list[Cell], line: Line, mark: str = "PIPE") -> Line:
    """The cells as a row with marks between them, which ends where `line` ends."""
    row: Line = []
    for place, cell in enumerate(cells):
        if place:
            row.append(made(_MARKS[mark], "mark", mark, cell[0] if cell else (row or line)[-1]))
        row += cell
    return row + [token for token in line if token.kind == "newline"]


def _slashed(lines: list[Line]) -> list[Line]:
    """ "Clubs: 3W / 5W / 4H" above "Loft: 15 / 18 / 22": a table with its clubs across the top, told by strokes."""
    for index, line in enumerate(lines):
        cells = _strokes(line)
        if len(cells) < _FEWEST or words_of(cells[0]) not in (["club"], ["clubs"]) or not all(map(_is_club, cells[1:])):
            continue
        end = index + 1
        while end < len(lines) and len(_strokes(lines[end])) == len(cells) and zone_of(_strokes(lines[end])[0]):
            end += 1
        for row in lines[index:end] if end > index + 2 else ():
            for token in row:
                if token.text == ":" or is_mark(token, "SLASH"):
                    token.terminal, token.text, token.kind = "PIPE", "\t", "mark"
    return lines


def _strokes(line: Line) -> list[Cell]:
    """The label of a line and what stands between its strokes; [] for a line without a label."""
    row = said(line)
    colons = [at for at, token in enumerate(row) if token.text == ":"]
    if len(colons) != 1 or not 0 < colons[0] < 4:
        return []
    return [row[: colons[0]], *cells_of(row[colons[0] + 1 :], "SLASH", led=False)]


# ---------------------------------------------------------------------------------------------- clubs across the top


class _Turning(NamedTuple):
    """A table with its clubs across the top: where it ends, its rows of cells, the label of each first."""

    end: int
    head: list[Cell]
    rows: list[list[Cell]]


def _turned(lines: list[Line]) -> list[Line]:
    """Tables with their clubs across the top, with a row for each club instead."""
    kept: list[Line] = []
    index = 0
    while index < len(lines):
        table = next((one for mark in ("PIPE", "SEMICOLON", "COMMA") if (one := _across(lines, index, mark))), None)
        if table is None:
            kept.append(lines[index])
            index += 1
            continue
        end = lines[index][-1]
        corner = table.head[0]
        if model := _model_in_corner(table):
            table.rows.insert(
                0, [[unsaid("head", "HEADWORD", corner[0])], model, *(copied(model) for _club in table.head[2:])]
            )
            corner = []
        if zone_of(corner) not in OF_CLUBS:
            club = made("", "word", "SILENT", corner[0] if corner else end)
            club.lower = "wedge" if zone_of(corner) == "loft" else "club"
            corner = [club]
        turned = [[corner, *(row[0] for row in table.rows)]]
        for place in range(1, len(table.head)):
            turned.append([table.head[place], *(row[place] if place < len(row) else [] for row in table.rows)])
        for cells in turned:
            kept.append([*row_of(cells, []), made("\n", "newline", "NEWLINE", end)])
        kept.append([end])
        index = table.end
    return kept


def _model_in_corner(table: _Turning) -> Cell:
    """The "Gannet X" of "Gannet X irons | 6 | 7 | 8", where no row tells their heads: the model of all these clubs."""
    kinds = {_family(cell) for cell in table.head[1:]}
    headed = any(zone_of(row[0]) in ("head", "maker") for row in table.rows)
    return _model(table.head[0]) if len(kinds) == 1 and not headed else []


def _model(corner: Cell) -> Cell:
    """The name in a corner, without the kind of club and the marks behind it or before it; [] for other words."""
    name = [token for token in corner if token.terminal not in FAMILIES and token.text not in (":", "(", ")")]
    whole = bool(name) and all(token.kind == "word" for token in name) and zone_of(corner) is None
    return name if whole and name[0].terminal == "WORD" and name[0].text[:1].isupper() else []


def _family(cell: Cell) -> str:
    """ "iron" for irons and the wedges that a set of irons has, else the kind of club that a cell names."""
    kinds = {token.terminal for token in cell} & set(FAMILIES)
    return "iron" if kinds and kinds <= {"IRON", "NAMEDWEDGE"} else "".join(sorted(kinds))


def _across(lines: list[Line], index: int, mark: str) -> _Turning | None:
    """The table whose row of clubs this line is; None for any other line."""
    row = said(lines[index])
    if sum(is_mark(token, mark) for token in row) < 1:
        return None
    below = next((said(line) for line in lines[index + 1 : index + 3] if said(line) and not _rule(line)), [])
    led = row[0].text == "|" and bool(below) and below[0].text == "|"  # else the bar stands behind an empty corner
    head = cells_of(lines[index], mark, led=led)
    while len(head) > _FEWEST and not head[-1]:
        head.pop()
    united = len(head) > 1 and words_of(head[1]) in (["unit"], ["units"])  # " | unit | Driver | 3W"
    head = _with_unit(head) if united else head
    if not _names_clubs(head):
        return None
    rows: list[list[Cell]] = []
    end = at = index + 1
    known = 0
    kinds = all(not any(token.kind == "number" for token in cell) for cell in head[1:])
    own = False  # "Clubs | driver, 3 wood | 7-PW" below "| Woods | Irons": which clubs they are
    while at < len(lines):
        line = said(lines[at])
        if not line or _rule(lines[at]):
            at += 1
            if at - end > 2:
                break
            continue
        cells = cells_of(lines[at], mark, led=led)
        cells = _with_unit(cells) if united else cells
        named = zone_of(cells[0]) is not None and zone_of(cells[0]) not in OF_CLUBS
        if not own and kinds and zone_of(cells[0]) == "first" and len(cells) == len(head):
            own, head = True, _with_their_clubs(head, cells)
            end = at = at + 1
            continue
        if not 2 <= len(cells) <= len(head) + 1 or (not named and _names_clubs(cells)):
            break
        if not named and (mark != "PIPE" or not known or not cells[0] or len(cells) < len(head)):
            break
        known += named
        rows.append(cells)
        at += 1
        end = at
    enough = known >= (1 if len(head) >= _FEWEST else 2)
    return _Turning(end, head, rows) if enough else None


def _with_their_clubs(head: list[Cell], clubs: list[Cell]) -> list[Cell]:
    """The row of kinds with the clubs below it in their place; bare numbers stand behind their kind: "Woods 3, 5"."""
    told = [head[0]]
    for kind, own in zip(head[1:], clubs[1:], strict=True):
        said_so = any(token.terminal in FAMILIES for token in own)
        told.append(own if said_so else [*kind, *own])
    return told


def _with_unit(cells: list[Cell]) -> list[Cell]:
    """The cells with the unit told behind the label: "Loft deg | 10.5 | 15"."""
    return [[*cells[0], *(cells[1] if zone_of(cells[0]) else [])], *cells[2:]]


def _names_clubs(cells: list[Cell]) -> bool:
    """True for the cells of a row of clubs: a corner, and behind it clubs, stamps of wedges or numbers of irons.

    Such numbers are told as the irons' and wedges' that they are.
    """
    corner, clubs = cells[0], cells[1:]
    if not clubs or not all(clubs) or (len(cells) < _FEWEST and corner):
        return False
    words = " ".join(token.lower for token in corner if token.kind == "word")
    bare = [cell for cell in clubs if len(cell) == 1 and (cell[0].text.isdigit() or cell[0].text in LETTERED)]
    others = [cell for cell in clubs if cell not in bare]
    if not all(map(_is_club, others)) or any(token.kind == "number" for token in corner):
        return False
    if not bare:
        return zone_of(corner) is None or zone_of(corner) in OF_CLUBS
    values = [float(cell[0].text) for cell in bare if cell[0].text.isdigit()]
    stamps = [value for value in values if 44 <= value <= 64]
    irons = [value for value in values if 1 <= value <= 9]
    if len(stamps) + len(irons) < len(values) or not values or values != sorted(set(values)):
        return False
    plain = words in _CORNERS or bool(_model(corner))
    if not plain and not (words in ("loft", "lofts") and len(stamps) == len(clubs)):
        return False
    if irons and len(irons) > 1 and (irons[-1] >= 8 or any(cell[0].terminal == "NAMEDWEDGE" for cell in clubs)):
        for cell in bare:
            _told_as_iron(cell, irons)
    return True


def _told_as_iron(cell: Cell, irons: list[float]) -> None:
    """The 5 and the P of "Club | 5 | 6 | 7 | 8 | 9 | P" as the irons that they are."""
    token = cell[0]
    if token.text in LETTERED:
        token.terminal, token.value, token.kind = "NAMEDWEDGE", LETTERED[token.text], "word"
    elif float(token.text) in irons:
        cell.append(unsaid("iron", "IRON", token))


def _is_club(cell: Cell) -> bool:
    if len(cell) == 1 and (cell[0].lower in WEDGE_WORDS or cell[0].lower == "attack" or cell[0].text == "D"):
        return True
    phrase = phrase_at(cell, 0)
    return phrase is not None and phrase.rule in _CLUB_RULES and phrase.end >= len(cell)


def rows_below(lines: list[Line], index: int) -> list[int]:
    """Where the rows of clubs stand below the row of names at `index`."""
    mark = header(said(lines[index]))[2]
    rows: list[int] = []
    index += 1
    while index < len(lines):
        line = said(lines[index])
        cells = len(cells_of(lines[index], mark))
        if line and not _rule(lines[index]):
            if header(line)[0] is not None or (cells < 2 and not heads_section(lines[index])):
                break
            if cells > 1:
                rows.append(index)
        elif not line and (index + 1 >= len(lines) or len(cells_of(lines[index + 1], mark)) < 2):
            break
        index += 1
    return rows


def heads_section(line: Line) -> bool:
    """True for the line "IRONS", "Wedges:" between the rows of a table."""
    row = [token for token in said(line) if token.kind == "word"]
    marks = all(token.kind == "word" or token.terminal == "AND" or token.text in ":-–—|\t=*" for token in said(line))
    families = all(token.terminal in ("WOOD", "HYBRID", "IRON", "WEDGE", "DIRON", "AND") for token in row)
    return bool(row) and marks and families and row[-1].lower.endswith("s")
