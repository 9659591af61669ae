"""Tables that are set out with spaces: a tab between the cells that wide gaps part."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.columns import OF_CLUBS, two_names, without_unit, words_of, zone_of, zones
from asplayed.intake.phrases import phrase_at
from asplayed.intake.tokens import Token, gap, lines_of, said
from asplayed.intake.wedge_words import LETTERED

_MOST_COLUMNS = 60  # a club each, and their labels
_GAP = 2  # spaces that part two cells


def with_columns(tokens: list[Token]) -> list[Token]:
    """The tokens with a tab between the cells of tables that are set out with spaces under a row of names."""
    lines = lines_of(tokens)
    kept: list[Token] = []
    starts: list[int] = []
    for index, line in enumerate(lines):
        cells = _by_gaps(line)
        if starts and len(cells) >= 2:
            kept += _placed(cells, starts, line)
            continue
        starts = []
        if (len(cells) >= 4 and _counts_irons(cells)) or _names_columns(cells, lines[index + 1 : index + 2]):
            starts = [cell[0].column for cell in cells]
            below = _by_gaps(lines[index + 1]) if index + 1 < len(lines) else []
            if len(below) > 1 and below[0][0].column + _GAP < starts[0] and below[1][0].column >= starts[0] - _GAP:
                starts = [below[0][0].column, *starts]  # the column of clubs has no name
            kept += _placed(cells, starts, line)
        elif len(cells) >= 2 and (left := _names_clubs(cells, lines[index + 1 : index + 2])) > 0:
            starts = [left, *(cell[0].column for cell in cells if cell[0].column > left)]
            kept += _placed(cells, starts, line)
        else:
            kept += line
    return kept


def _by_gaps(line: list[Token]) -> list[list[Token]]:
    """The line's stretches between wide gaps; none for a line with bars, tabs or commas between figures."""
    cells: list[list[Token]] = []
    for token in said(line):
        if token.terminal == "PIPE":
            return []
        last = cells[-1][-1] if cells else None
        if last is None or gap(last, token) >= _GAP:
            cells.append([])
        cells[-1].append(token)
    return cells if len(cells) <= _MOST_COLUMNS else []


def _names_columns(cells: list[list[Token]], below: list[list[Token]]) -> bool:
    """True for a row of columns' names; two alone, "Club   Loft", stand above a row of two cells."""
    if len(cells) < 2 or any(token.kind == "number" for cell in cells for token in cell):
        return False
    if len(cells) == 2:
        pair = [zone_of(cell) for cell in cells]
        told = pair == ["loft", "bounce"] or (pair[0] in OF_CLUBS and bool(pair[1]))
        return told and bool(below) and len(_by_gaps(below[0])) == 2
    known = sum(without_unit(words_of(cell)) in zones() or bool(two_names(cell)) for cell in cells)
    return known >= max(3, len(cells) - 1)


def _names_clubs(cells: list[list[Token]], below: list[list[Token]]) -> int:
    """Where the labels stand of rows below a row of clubs ("Driver   3W   7i", and below it "Loft   9.5   15   33").

    0 for any other row: the row below begins with a column's name and has a cell for each club.
    """
    under = _by_gaps(below[0]) if below else []
    words = [token.lower for token in under[0] if token.kind == "word"] if under else []
    clubs = []
    for cell in cells:
        club = phrase_at(cell, 0)
        lettered = len(cell) == 1 and cell[0].text in LETTERED  # the P of "5   6   7   8   9   P"
        corner = (
            bool(under) and cell[0].column <= under[0][0].column
        )  # "WOODS   driver   3 wood" names its columns' kind
        rules = ("club", "named") if corner else ("club", "named", "family")
        if lettered or (club is not None and club.rule in rules and club.end == len(cell)):
            clubs.append(cell)
    figures = [cell[0].value for cell in cells if len(cell) == 1 and isinstance(cell[0].value, float)]
    rising = figures == sorted(set(figures)) and all(44 <= value <= 64 or value in range(1, 10) for value in figures)
    corner = (
        cells[0] not in clubs and cells[0][0].kind == "word"
    )  # "Gannet X   6   7   8   9   PW": the model of them all
    if figures and rising and len(figures) + len(clubs) == len(cells) - corner:
        clubs = cells[
            corner:
        ]  # "50   54   58" above "Bounce   10   12   6", "6   7   8   9   PW" above "Loft   28   32 …"
    enough = len(clubs) >= max(2, len(cells) - 1) and len(under) == len(clubs) + 1
    if not enough or not words or without_unit(words) not in zones():
        return 0
    left = under[0][0].column
    return left if left < clubs[0][0].column else 0


def _counts_irons(cells: list[list[Token]]) -> bool:
    """True for "Club  5  6  7  8  9  PW": a row of the numbers of irons, which the rows below it tell of."""
    if len(cells[0]) != 1 or cells[0][0].lower not in ("club", "clubs", "iron", "irons", "no", "#"):
        return False
    numbers = [cell[0].value for cell in cells[1:] if len(cell) == 1 and cell[0].text.isdigit()]
    rising = all(isinstance(one, float) and isinstance(two, float) and one + 1 == two for one, two in pairwise(numbers))
    return len(numbers) >= 3 and rising and len(numbers) >= len(cells) - 4 and numbers[-1] in (7.0, 8.0, 9.0)


def _at_starts(cell: list[Token], starts: list[int]) -> list[list[Token]]:
    """The cell parted where the next column begins: one blank alone parts a long label from it."""
    parts = [cell[:1]]
    for token in cell[1:]:
        if token.column in starts and not token.glued:
            parts.append([])
        parts[-1].append(token)
    return parts


def _placed(cells: list[list[Token]], starts: list[int], line: list[Token]) -> list[Token]:
    """The cells with as many tabs between them as columns lie between their places."""
    placed: list[Token] = []
    here = 0
    cells = [part for cell in cells for part in _at_starts(cell, starts)]
    for cell in cells:
        left = cell[0].column
        right = left + cell[-1].end - cell[0].start
        column = max(
            range(len(starts)),
            key=lambda at: (
                min(right, starts[at + 1] if at + 1 < len(starts) else 10_000) - max(left, starts[at]),
                -abs(left - starts[at]),
            ),
        )
        for _ in range(max(0, column - here)):
            tab = Token("\t", cell[0].line, left, cell[0].start, cell[0].start, "mark", False)
            tab.terminal = "PIPE"
            placed.append(tab)
        here = max(here, column)
        placed += cell
    return placed + [token for token in line if token.kind == "newline"]
