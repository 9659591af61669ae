"""A table's columns as its rows are read: the clubs first, one figure in each, cells that repeat others filled."""

from __future__ import annotations

from asplayed.intake.bare import WOOD_LOFTS
from asplayed.intake.columns import OF_CLUBS, header, two_names
from asplayed.intake.grids import Cell, cells_of, copied, heads_section, row_of, rows_below
from asplayed.intake.tokens import Line, Token, lines_of, made, said, unsaid

_DITTO = {
    '"', "〃", "″", "“", "”", "''", '"-"', "do.", "do", "ditto", "ditto.", "dto.", "dto", "same", "asabove",
    "sameasabove",
}  # fmt: skip
_REPEATED = {"head", "maker", "shaft", "shaft.mass", "grip", "grip.mass"}  # what clubs of one make have alike
_LONG = {"DRIVER", "MINIDRIVER", "WOOD", "HYBRID", "DIRON"}  # kinds of club that models are shared among
_BLANK = {"blank", "blanks", "empty", "gap", "gaps"}
_ABOVE = {"above", "previous", "before"}
_NOT_OF_CLUBS = {"", "unknown", "left", "old", "now", "player"}  # columns that may stand before that of the clubs
_BETWEEN = {"/", ",", ";", "&"}  # what parts two figures of one cell


def with_settled_columns(tokens: list[Token]) -> list[Token]:
    """The tokens with every table's columns as `tables.py` reads them."""
    lines = lines_of(tokens)
    blanks = _blanks_repeat(lines)
    index = 0
    while index < len(lines):
        pairs = _parted_names(lines, index)
        zones, _units, mark = header(said(lines[index])) if said(lines[index]) else (None, [], "")
        if zones is None:
            index += 1
            continue
        rows = rows_below(lines, index)
        for row in rows if pairs else ():
            lines[row] = row_of(_parted_cells(cells_of(lines[row], mark), pairs), lines[row], mark)
        zones = _clubs_foremost(lines, [index, *rows], zones, mark)
        if mark != "SLASH" and zones[0] in OF_CLUBS:
            if "loft" in zones and any(_of_woods_and_hybrids(line) for line in lines[max(0, index - 2) : index]):
                _by_their_lofts(lines, rows, zones.index("loft"), mark)
            _repeat(lines, rows, zones, mark, blanks=blanks)
            _told_of_weights(lines, rows, zones, mark, cells_of(lines[index], mark))
        index = max([index, *rows]) + 1
    return [token for line in lines for token in line]


def _parted_names(lines: list[Line], index: int) -> set[int]:
    """Part the columns of two figures ("Loft/lie") in a row of names; where those columns stood."""
    for mark in ("PIPE", "SEMICOLON", "COMMA"):
        names = cells_of(lines[index], mark)
        halves = [two_names(cell) for cell in names] if len(names) > 1 else []
        pairs = {place for place, two in enumerate(halves) if two}
        if not pairs:
            continue
        parted = [part for cell, two in zip(names, halves, strict=True) for part in (two or [cell])]
        line = row_of(parted, lines[index], mark)
        if header(said(line))[0] is not None:
            lines[index] = line
            return pairs
    return set()


def _parted_cells(cells: list[Cell], pairs: set[int]) -> list[Cell]:
    """The cells of a row with those of two figures parted: "46/64", "46, 64"."""
    return [part for place, cell in enumerate(cells) for part in (_halves(cell) if place in pairs else [cell])]


def _halves(cell: Cell) -> list[Cell]:
    """What stands before and behind the mark between two figures of a cell; one figure alone is the first."""
    marks = [at for at, token in enumerate(cell) if token.text in _BETWEEN or token.terminal == "AND"]
    return [cell[: marks[0]], cell[marks[0] + 1 :]] if len(marks) == 1 else [cell, []]


def _clubs_foremost(lines: list[Line], places: list[int], zones: list[str], mark: str) -> list[str]:
    """Move the column of clubs before those that tell of them ("Length | Head | Club"); the zones as they stand."""
    club = next((place for place, zone in enumerate(zones) if zone in OF_CLUBS), 0)
    if set(zones[:club]) <= _NOT_OF_CLUBS or mark == "SLASH":
        return zones
    for place in places:
        cells = cells_of(lines[place], mark)
        if club < len(cells):
            lines[place] = row_of([cells[club], *cells[:club], *cells[club + 1 :]], lines[place], mark)
    return [zones[club], *zones[:club], *zones[club + 1 :]]


def _blanks_repeat(lines: list[Line]) -> bool:
    """True where a line says "(blank = same as the row above)", which is then heard."""
    told = False
    for line in lines:
        row = said(line)
        words = {token.lower for token in row if token.kind == "word"}
        if words & _BLANK and words & _ABOVE and not any(token.kind == "number" for token in row):
            told = True
            for token in row:
                token.terminal, token.value = "BULLET", None
    return told


def _of_woods_and_hybrids(line: Line) -> bool:
    """True for the heading "Fairways & hybrids"."""
    return heads_section(line) and {"WOOD", "HYBRID"} <= {token.terminal for token in line}


def _by_their_lofts(lines: list[Line], rows: list[int], loft: int, mark: str) -> None:
    """The 5 of "5 | Gannet | 18" below "Fairways & hybrids" as the wood or the hybrid that its loft makes it."""
    for row in rows:
        cells = cells_of(lines[row], mark)
        told = cells[loft][0].value if len(cells) > loft and cells[loft] else None
        if len(cells[0]) != 1 or not cells[0][0].text.isdigit() or not isinstance(told, float):
            continue
        low, high = WOOD_LOFTS.get(cells[0][0].text, (0.0, 0.0))
        kind = "WOOD" if low <= told <= high else "HYBRID"
        lines[row].insert(lines[row].index(cells[0][0]) + 1, unsaid(kind.lower(), kind, cells[0][0]))


def _told_of_weights(lines: list[Line], rows: list[int], zones: list[str], mark: str, names: list[Cell]) -> None:
    """The 12 in a column "Heel" as "12 heel": how heavy what lies there is."""
    for place, name in enumerate(names[: len(zones)]):
        port = next((token for token in name if token.terminal == "PLACE"), None)
        for row in rows if zones[place] == "weights" and port is not None else ():
            cells = cells_of(lines[row], mark)
            cell = cells[place] if place < len(cells) else []
            if port is not None and cell and cell[0].kind == "number" and cell[-1].terminal in ("NUM", "GRAM"):
                word = made("", "word", "PLACE", cell[-1])
                word.lower, word.value = port.lower, port.value
                lines[row].insert(lines[row].index(cell[-1]) + 1, word)


def _repeat(lines: list[Line], rows: list[int], zones: list[str], mark: str, *, blanks: bool) -> None:
    """Fill cells that repeat the one above: ditto marks, open cells of clubs of one make, all where a list says so."""
    told = [cells_of(lines[row], mark) for row in rows]
    grid = [[*cells, *([[]] * (len(zones) - len(cells)))] for cells in told]
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
            ditto = (
                bool(cell)
                and "".join(token.lower for token in cell) in _DITTO
                and zone not in ("old", "now")
                and bool(above[place])
            )
            open_cell = not cell and bool(above[place]) and zone in _REPEATED and alike
            said_so = blanks and not cell and bool(above[place])
            if ditto or said_so or (open_cell and (unsaid or _opens_group(was, kinds, at, place))):
                cells[place] = copied([token for token in above[place] if token.kind != "newline"])
                changed.add(at)
    for at in changed:
        lines[rows[at]] = row_of(grid[at], lines[rows[at]], mark)


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
