"""Tables as rows of cells: boxed in lines, with their clubs across the top, with cells that repeat the one above.

Whatever a table looks like, it leaves here as a row of names and below it a row for each club, with a mark between
their cells; `tables.py` reads those column by column.
"""

from __future__ import annotations

from copy import copy
from typing import NamedTuple

from asplayed.intake.bare import WOOD_LOFTS
from asplayed.intake.columns import OF_CLUBS, header, is_mark, words_of, zone_of
from asplayed.intake.phrases import phrase_at
from asplayed.intake.spaced import with_columns
from asplayed.intake.tokens import Line, Token, lines_of, made, said
from asplayed.intake.wedge_words import LETTERED, WEDGE_WORDS

Cell = list[Token]

_RULED = set("-–—=:+|_")
_DITTO = {
    '"', "〃", "″", "“", "”", "''", '-"-', "do.", "do", "ditto", "ditto.", "dto.", "dto", "same", "asabove",
    "sameasabove",
}  # fmt: skip
_CORNERS = {
    "", "club", "clubs", "no", "nr", "#", "number", "iron", "irons", "wedge", "wedges", "wood", "woods", "spec",
}  # fmt: skip
_CLUB_RULES = ("club", "named", "span", "dashed", "family", "code")
_REPEATED = {"head", "maker", "shaft", "shaft.mass", "grip", "grip.mass"}  # what clubs of one make have alike
_LONG = {"DRIVER", "MINIDRIVER", "WOOD", "HYBRID", "DIRON"}  # kinds of club that models are shared among
_FEWEST = 3  # cells of a row of clubs, with its corner


def laid_out(tokens: list[Token]) -> list[Token]:
    """The tokens with every table in its common form."""
    lines = _turned(_unboxed(_slashed(lines_of(with_columns(tokens)))))
    _fill(lines)
    return [token for line in lines for token in line]


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


def _copied(cell: Cell) -> Cell:
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
                    cells[place] = _copied(above[place])
        above, ruling = cells, []
        kept.append(_row(cells, line))
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


def _row(cells: list[Cell], line: Line) -> Line:
    """The cells as a row with marks between them, which ends where `line` ends."""
    row: Line = []
    for place, cell in enumerate(cells):
        if place:
            row.append(made("\t", "mark", "PIPE", cell[0] if cell else (row or line)[-1]))
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
        if zone_of(corner) not in OF_CLUBS:
            club = made("", "word", "SILENT", corner[0] if corner else end)
            club.lower = "wedge" if zone_of(corner) == "loft" else "club"
            corner = [club]
        turned = [[corner, *(row[0] for row in table.rows)]]
        for place in range(1, len(table.head)):
            turned.append([table.head[place], *(row[place] if place < len(row) else [] for row in table.rows)])
        for cells in turned:
            kept.append([*_row(cells, []), made("\n", "newline", "NEWLINE", end)])
        kept.append([end])
        index = table.end
    return kept


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
    if words not in _CORNERS and not (words in ("loft", "lofts") and len(stamps) == len(clubs)):
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
        word = made("", "word", "IRON", token)
        word.lower, word.value = "iron", "iron"
        cell.append(word)


def _is_club(cell: Cell) -> bool:
    if len(cell) == 1 and (cell[0].lower in WEDGE_WORDS or cell[0].lower == "attack" or cell[0].text == "D"):
        return True
    phrase = phrase_at(cell, 0)
    return phrase is not None and phrase.rule in _CLUB_RULES and phrase.end >= len(cell)


# ------------------------------------------------------------------------------------------ cells that repeat others


def _fill(lines: list[Line]) -> None:
    """Cells with ditto marks, and open cells of clubs of one make, get what stands above them."""
    index = 0
    while index < len(lines):
        zones, _units, mark = header(said(lines[index])) if said(lines[index]) else (None, [], "")
        if zones is not None and mark == "PIPE" and zones[0] in OF_CLUBS:
            rows = rows_below(lines, index)
            if "loft" in zones and any(_of_woods_and_hybrids(line) for line in lines[max(0, index - 2) : index]):
                _by_their_lofts(lines, rows, zones.index("loft"))
            _repeat(lines, rows, zones)
            _told_of_weights(lines, rows, zones, cells_of(lines[index]))
            index = max([index, *rows])
        index += 1


def _of_woods_and_hybrids(line: Line) -> bool:
    """True for the heading "Fairways & hybrids"."""
    return heads_section(line) and {"WOOD", "HYBRID"} <= {token.terminal for token in line}


def _by_their_lofts(lines: list[Line], rows: list[int], loft: int) -> None:
    """The 5 of "5 | Gannet | 18" below "Fairways & hybrids" as the wood or the hybrid that its loft makes it."""
    for row in rows:
        cells = cells_of(lines[row])
        told = cells[loft][0].value if len(cells) > loft and cells[loft] else None
        if len(cells[0]) != 1 or not cells[0][0].text.isdigit() or not isinstance(told, float):
            continue
        low, high = WOOD_LOFTS.get(cells[0][0].text, (0.0, 0.0))
        kind = "WOOD" if low <= told <= high else "HYBRID"
        word = made("", "word", kind, cells[0][0])
        word.lower = word.value = kind.lower()
        lines[row].insert(lines[row].index(cells[0][0]) + 1, word)


def _told_of_weights(lines: list[Line], rows: list[int], zones: list[str], names: list[Cell]) -> None:
    """The 12 in a column "Heel" as "12 heel": how heavy what lies there is."""
    for place, name in enumerate(names[: len(zones)]):
        port = next((token for token in name if token.terminal == "PLACE"), None)
        for row in rows if zones[place] == "weights" and port is not None else ():
            cells = cells_of(lines[row])
            cell = cells[place] if place < len(cells) else []
            if port is not None and cell and cell[0].kind == "number" and cell[-1].terminal in ("NUM", "GRAM"):
                word = made("", "word", "PLACE", cell[-1])
                word.lower, word.value = port.lower, port.value
                lines[row].insert(lines[row].index(cell[-1]) + 1, word)


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


def _repeat(lines: list[Line], rows: list[int], zones: list[str]) -> None:
    grid = [[*cells_of(lines[row]), *([[]] * len(zones))][: max(len(zones), len(cells_of(lines[row])))] for row in rows]
    was = [[list(cell) for cell in cells] for cells in grid]
    kinds = [_kind(cells[0]) for cells in grid]
    head = zones.index("head") if "head" in zones else -1
    changed: set[int] = set()
    for at in range(1, len(grid)):
        cells, above = grid[at], grid[at - 1]
        alike = kinds[at] == kinds[at - 1] and kinds[at] != "" and bool(cells[0])
        unsaid = alike and head > 0 and not was[at][head] and bool(above[head])
        for place in range(1, min(len(zones), len(cells), len(above))):
            cell, zone = cells[place], zones[place]
            told = "".join(token.lower for token in cell)
            ditto = bool(cell) and told in _DITTO and zone not in ("old", "now") and bool(above[place])
            open_cell = not cell and bool(above[place]) and zone in _REPEATED and alike
            if ditto or (open_cell and (unsaid or _opens_group(was, kinds, at, place))):
                cells[place] = _copied([token for token in above[place] if token.kind != "newline"])
                changed.add(at)
    for at in changed:
        lines[rows[at]] = _row(grid[at], lines[rows[at]])


def _opens_group(was: list[list[Cell]], kinds: list[str], at: int, place: int) -> bool:
    """True where the first club of a kind has this cell and none of the others below it."""
    first = at
    while first and kinds[first - 1] == kinds[at]:
        first -= 1
    last = at
    while last + 1 < len(kinds) and kinds[last + 1] == kinds[at]:
        last += 1
    group = [was[row][place] if place < len(was[row]) else [] for row in range(first, last + 1)]
    return bool(group[0]) and not any(group[1:]) and last - first > 1


def _kind(cell: Cell) -> str:
    """The kind of club that a row tells of, as far as models are shared: long clubs, irons, wedges; "" for others."""
    if not cell:
        return ""
    terminals = {token.terminal for token in cell}
    if terminals & _LONG:
        return "long"
    if "PUTTER" in terminals or "CHIPPER" in terminals or "BALLWORD" in terminals:
        return ""
    if "IRON" in terminals:
        return "iron"
    if terminals & {"NAMEDWEDGE", "WEDGE", "CODE"}:
        return "wedge"
    value = cell[0].value
    return ("iron" if value < 10 else "wedge" if value >= 44 else "") if isinstance(value, float) else ""
