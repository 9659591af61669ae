"""Rows that are set out in columns without a row of names: what a cell says is told by its column.

"5 iron   27   1 strong   1 up" above "6 iron   30   std   std": the loft and the lie are left as they are.
"""

from __future__ import annotations

from asplayed.intake.columns import header
from asplayed.intake.tokens import Line, Token, gap, lines_of, made, said, unsaid

_GAP = 2  # blanks that part two cells
_FEWEST = 3  # cells of a row
_LIES = (58.5, 67.0)
_OF = {
    "WEAK": "LOFT", "STRONG": "LOFT", "UP": "LIE", "UPRIGHT": "LIE", "FLAT": "LIE", "DOWN": "LIE", "LONG": "LENGTH",
    "SHORT": "LENGTH",
}  # fmt: skip
_WORDS = {"LOFT": "loft", "LIE": "lie", "LENGTH": "length", "BENT": "bent", "RANGE": "to"}
_LEFT = {"as stamped", "left alone", "as is", "untouched", "no change", "unchanged", "leave", "as found", "ok"}
_ARROWS = {"→", "->", "=>", "➔", "➜", "⇒", ">", ">>"}
_OF_CLUBS = {"IRON", "NAMEDWEDGE", "WEDGE", "CODE"}
_OTHERS = {"DRIVER", "WOOD", "HYBRID", "PUTTER", "DASH", "RANGE", "EQ", "STOP"}


def columns_told(tokens: list[Token]) -> list[Token]:
    """The tokens with the noun of each cell that leaves its column's unsaid."""
    lines = lines_of(tokens)
    for split in (_by_gaps, _by_marks):
        index = 0
        while index < len(lines):
            end = index
            size = len(split(lines[index]))
            while end < len(lines) and len(split(lines[end])) == size >= _FEWEST:
                end += 1
            if end - index > 1 and header(said(lines[index]))[0] is None:
                grid = [split(line) for line in lines[index:end]]
                _tell(lines, grid, index)
                if split is _by_gaps and index:
                    _head(lines[index - 1], grid)
            index = max(end, index + 1)
    return [token for line in lines for token in line]


def _by_gaps(line: Line) -> list[Line]:
    """The line's stretches between wide gaps; none for a line with bars or tabs."""
    cells: list[Line] = []
    for token in said(line):
        if token.terminal == "PIPE":
            return []
        named = len(cells) == 1 and token.kind == "number" and cells[0][-1].terminal == "NAMEDWEDGE"  # "PW 35 3/4"
        if not cells or named or gap(cells[-1][-1], token) >= _GAP or token.terminal == "SWV":
            cells.append([])
        cells[-1].append(token)
    return cells


def _by_marks(line: Line) -> list[Line]:
    """The line's stretches between commas, loose strokes or dots."""
    cells: list[Line] = [[]]
    for token in said(line):
        dot = token.text == "•" and bool(cells[0])
        if token.terminal == "COMMA" or dot or (token.text == "/" and not token.glued):
            cells.append([])
        else:
            cells[-1].append(token)
    return cells


def _tell(lines: list[Line], grid: list[list[Line]], first: int) -> None:
    """Say in each column what its cells say in other words, or leave unsaid."""
    if not all(_bent_club(cells[0]) for cells in grid):
        return
    for place in range(1, len(grid[0])):
        column = [cells[place] for cells in grid]
        nouns = {noun for cell in column if (noun := _noun(cell))}
        changed = nouns.pop() if len(nouns) == 1 else ""
        figures = all(_in_lies(cell) for cell in column)
        lies = all(_lie(cell) for cell in column)
        for row, cell in enumerate(column, first):
            line = lines[row]
            if changed and _left(cell):
                for token in cell:
                    token.terminal = "BULLET"
                cell[0].terminal, cell[0].value = "STD", "standard"
                _insert(line, cell[0], changed)
                at = line.index(cell[0])
                if (behind := at + len(cell) + 1) < len(line) and line[behind].kind == "number":
                    line.insert(behind, made(",", "mark", "COMMA", cell[-1]))  # "std loft, 35.5"
                if line[at - 1].kind == "word":
                    line.insert(at, made(",", "mark", "COMMA", cell[0]))  # "1 weak, std lie"
            elif cell and cell[0].terminal == "RANGE" and len(cell) == 2 and changed == "LOFT":
                _insert(line, cell[0], "BENT", before=True)
            elif lies and len(cell) == 1:
                _insert(line, cell[0], "LIE", before=True)
            elif _arrow(cell):
                _was_and_is(line, cell, lies=figures)


def _head(line: Line, grid: list[list[Line]]) -> None:
    """ "Gannet Forged, Reed 115 S" right above rows of irons that name nothing: the irons' heads and shafts."""
    row = said(line)
    told = {token.terminal for token in row}
    named = bool(row) and row[0].terminal == "WORD" and row[0].text[:1].isupper() and "COMMA" in told
    bare = all(token.kind != "word" or token.terminal != "WORD" for cells in grid for cell in cells for token in cell)
    irons = all(cells[0][-1].terminal in ("IRON", "NAMEDWEDGE", "NUM") for cells in grid)
    irons = irons and all(_bent_club(cells[0]) for cells in grid) and grid[0][0][-1].terminal != "NAMEDWEDGE"
    if named and bare and irons and told & {"FLEXCODE", "FLEX", "GRAM"} and not told & (_OF_CLUBS | _OTHERS):
        first = row[0]
        line.insert(0, made(":", "mark", "EQ", first))
        word = made("", "word", "IRON", first)
        word.lower, word.value = "irons", "iron"
        line.insert(0, word)


def _insert(line: Line, token: Token, terminal: str, *, before: bool = False) -> None:
    """A word that nobody wrote, beside a token of the line."""
    line.insert(line.index(token) + (not before), unsaid(_WORDS[terminal], terminal, token))


def _noun(cell: Line) -> str:
    """What a change in a cell is of: "1 strong" and "to 55" of the loft; "" where the cell says anything else."""
    terminals = {token.terminal for token in cell}
    if terminals & {"INCH", "CM", "MM"} and len(cell) < 4 and any(token.sign for token in cell):
        return "LENGTH"
    if len(cell) == 2 and cell[0].terminal == "RANGE" and cell[1].terminal == "NUM":
        return "LOFT"
    nouns = {_OF[terminal] for terminal in terminals & set(_OF)}
    return nouns.pop() if len(nouns) == 1 and len(cell) < 4 else ""


def _left(cell: Line) -> bool:
    """True for "std", "left alone", "as stamped"."""
    return (len(cell) == 1 and cell[0].terminal == "STD") or " ".join(token.lower for token in cell) in _LEFT


def _bent_club(cell: Line) -> bool:
    """True for the cell of an iron or a wedge: "5 iron", "6", "PW"."""
    number = len(cell) == 1 and cell[0].text.isdigit() and int(cell[0].text) <= 9
    return number or (0 < len(cell) < 4 and cell[-1].terminal in _OF_CLUBS)


def _lie(cell: Line) -> bool:
    """True for a figure alone that is a club's lie."""
    value = cell[0].value if len(cell) == 1 and cell[0].terminal == "NUM" and not cell[0].unit else None
    return isinstance(value, float) and _LIES[0] <= value <= _LIES[1]


def _in_lies(cell: Line) -> bool:
    figures = [token for token in cell if token.kind == "number"]
    return bool(figures) and all(_lie([token]) for token in figures)


def _arrow(cell: Line) -> bool:
    """True for "29 -> 28": two figures with an arrow between them."""
    figures = [at for at, token in enumerate(cell) if token.terminal == "NUM"]
    if len(figures) != 2 or figures != [0, len(cell) - 1] or len(cell) < 3:
        return False
    between = "".join(token.text for token in cell[1:-1])
    return between in _ARROWS and not cell[-1].sign


def _was_and_is(line: Line, cell: Line, *, lies: bool) -> None:
    """ "29 -> 28" is a stamp and what it was bent to; of "62 -> 63" the second is the lie."""
    for token in cell[1:-1]:
        token.terminal = "BULLET"
    if lies:
        cell[0].terminal = "BULLET"
        _insert(line, cell[-1], "LIE", before=True)
    else:
        _insert(line, cell[-1], "BENT", before=True)
        _insert(line, cell[-1], "RANGE", before=True)
