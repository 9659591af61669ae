"""Tables: pasted with bars or tabs, kept with commas, or set out with spaces; rows of clubs or columns of clubs."""

from __future__ import annotations

from itertools import pairwise

from asplayed.clubs import Passage
from asplayed.intake.columns import header, is_mark
from asplayed.intake.grids import heads_section
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_WEDGES = {
    "pitching": "pitching wedge", "gap": "gap wedge", "approach": "gap wedge", "attack": "gap wedge",
    "sand": "sand wedge", "lob": "lob wedge",
}  # fmt: skip
_LETTERS = {"D": ("DRIVER", "driver"), "P": ("PUTTER", "putter")}
_GONE = {"none", "out", "gone", "nothing", "no", "dropped", "sold", "removed"}
# Words of the trade and plain words that models are named with too.
_IN_MODELS = {
    "SILENT", "NOTE", "PLACE", "LEVEL", "UP", "DOWN", "EVENTKIND", "FLEXCODE", "LETTER", "SIZE", "SPIN", "SWV", "LOFT",
    "SOLEWORD", "HANDWORD", "SOLE", "BENT",
}  # fmt: skip
_TENDENCIES = {"launch": "LAUNCHLEVEL", "spin": "SPINLEVEL"}
_KINDS = {"HYBRID", "WOOD", "DRIVER", "DIRON", "IRON", "WEDGE"}  # of clubs, which models are also named with: "Skua DR"
_SMALL_FLEXES = {"l", "a", "r", "s", "x", "tx", "sr", "xs"}
_UNITS = {"DEG", "INCH", "MM", "CM", "GRAM", "CPM", "IN", "LPAR", "RPAR"}
_NOTHING = {"null", "nan", "nil", "none", "n/a", "na"}
_KEPT = {"unchanged", "same", "no change", "as before", "ditto", "as was", "kept", "stays", "no changes"}
_OWNERS = {"member", "owner", "player", "name", "client", "customer", "golfer"}


def find_tables(scene: Scene) -> None:
    """Find header rows; the rows under one are read column by column."""
    lines = _line_spans(scene)
    index = 0
    while index < len(lines):
        start, end = lines[index]
        columns, units, mark = header(scene.tokens[start:end])
        if columns is None:
            index += 1
            continue
        unknown = [zone == "unknown" for zone in columns]
        columns = ["" if zone == "unknown" else zone for zone in columns]
        columns = [zone if zone != "maker" or "head" in columns else "head" for zone in columns]
        told = {token.terminal for token in scene.tokens[start:end]}
        models: list[list[Token]] = []
        _labels_above(scene, lines[:index], mark)
        for at in range(start, end + 1):
            scene.claims[at] = "set" if at < end else "silent"
        index += 1
        while index < len(lines):
            start, end = lines[index]
            row = scene.tokens[start:end]
            onward = index + 1 < len(lines) and _cells(scene.tokens[slice(*lines[index + 1])], mark) >= 2
            if (not row or heads_section(row)) and onward:
                index += 1  # an empty line, or "IRONS" between the rows
                continue
            if row and all(token.text in "-–—=:+|" for token in row):
                scene.claims[start:end] = ["silent"] * (end - start)
                index += 1
                continue
            if not row or _cells(row, mark) < 1 or header(row)[0] is not None:
                break
            index += 1
            if _of_the_ball(row, mark) or _of_units(scene, start, row):
                continue
            scene.rows[start] = columns
            if row[0].text == "|":
                scene.claims[start] = "silent"
            for token in row:
                if is_mark(token, mark) or (mark == "COMMA" and token.text == ","):
                    token.terminal = "PIPE"
            for new, cell in zip(unknown, _cells_of(row), strict=False):
                if new and len(cell) == 1 and cell[0].terminal in ("FLEXCODE", "LETTER"):
                    cell[0].terminal, cell[0].kind = "OTHER", "word"  # a letter of a column nobody knows is no flex
            _read_row(row, columns, told)
            _old_cells(scene, start, columns)
            models += [cell for zone, cell in zip(columns, _cells_of(row), strict=False) if zone == "head"]
            for zone, unit, cell in zip(columns, units, _cells_of(row), strict=False):
                _measure(cell, unit, zone)
        _alike(models)


def _read_row(row: list[Token], columns: list[str], told: set[str]) -> None:
    """Settle what the words of a row's cells mean under their columns; `told` are the kinds of the header's words."""
    _first_cell(row, columns)
    for zone, cell in zip(columns, _cells_of(row), strict=False):
        alone = cell[0] if len(cell) == 1 else None
        small = zone == "shaft" and alone is not None and alone.terminal == "WORD" and alone.text in _SMALL_FLEXES
        if alone is not None and small and "FLEXWORD" in told:
            alone.terminal, alone.value = "FLEXCODE", alone.text.upper()
        if zone == "sleeve" and cell:
            _position_in_cell(cell)
        if zone == "sole" and alone is not None and alone.terminal in ("FLEXCODE", "WORD") and len(alone.text) < 3:
            alone.terminal, alone.value = "LETTER", alone.text  # the S of a column of soles is no flex
        if zone in ("head", "shaft", "grip") and len(cell) > 1 and cell[0].terminal == "NOTE" and _named(cell[:2]):
            cell[0].terminal, cell[0].value = "WORD", cell[0].lower  # a shaft called "Ferrule Teal"
        if zone == "head" and "maker" in columns and cell and cell[0].text[:1].isupper():
            _model_of_maker(cell)
        if zone == "head" and "loft" in columns:
            kinds = _KINDS if "first" in columns else set()
            _whole_name(cell, _IN_MODELS | kinds, _first_text(row, columns.index("loft")))
        if zone == "shaft" and len(cell) > 1 and cell[-1].terminal == "WEDGE":
            cell[-1].terminal, cell[-1].value = "FLEX", "wedge"  # "Knotgrass 105 wedge"
        if zone == "shaft" and "shaft.mass" not in columns and len(cell) > 1:
            _mass_behind_name(cell)
        if zone in _TENDENCIES and alone is not None and alone.terminal == "LEVEL":
            alone.terminal = _TENDENCIES[zone]
        if zone == "shaft" and {"SHAFTWORD", "FLEXWORD"} <= told:
            _whole_name(cell, {"FLEXCODE", "LETTER"})
        if alone is not None and alone.lower in _NOTHING:
            alone.terminal, alone.kind = "BULLET", "mark"


def _named(cell: list[Token]) -> bool:
    """True for capital words."""
    return all(token.kind == "word" and token.text[:1].isupper() for token in cell)


def _position_in_cell(cell: list[Token]) -> None:
    """The D2 of a column of positions is no swing weight, and its 2H no hybrid."""
    first = cell[0]
    letter = len(cell) == 1 and len(first.text) == 1 and first.text.isupper()
    if first.terminal in ("SWV", "POSCODE") or letter:
        first.terminal, first.kind = "WORD", "word"
    if len(cell) > 1 and first.text.isdigit() and cell[1].glued and len(cell[1].text) == 1 and cell[1].text.isupper():
        first.text, first.end = first.text + cell[1].text, cell[1].end
        first.terminal, first.kind = "WORD", "word"
        cell[1].terminal, cell[1].kind, cell[1].text = "SILENT", "mark", ""


def _mass_behind_name(cell: list[Token]) -> None:
    """The 115 of "Pell 115" in a column of shafts, where no other column tells their masses."""
    name, mass = cell[-2:]
    if name.terminal == "WORD" and mass.text.isdigit() and 40 <= int(mass.text) <= 140 and not mass.glued:
        mass.unit = "g"


def _of_units(scene: Scene, start: int, row: list[Token]) -> bool:
    """True for the row "| | deg | in | g |" below the columns' names, which tells no club."""
    words = [token for token in row if token.terminal != "PIPE"]
    units = bool(words) and all(
        token.terminal in ("DEG", "INCH", "GRAM", "CPM", "IN", "LPAR", "RPAR") for token in words
    )
    if units:
        scene.claims[start : start + len(row)] = ["silent"] * len(row)
    return units


def _alike(models: list[list[Token]]) -> None:
    """The 40 of the 9 iron's "Gannet 40" is its model's and no loft where the 8 iron is a "Gannet 40" too."""
    named = {tuple(token.lower for token in cell) for cell in models if cell and cell[-1].kind == "word"}
    for cell in models:
        if len(cell) > 1 and cell[-1].text.isdigit() and tuple(token.lower for token in cell) in named:
            cell[-1].terminal, cell[-1].kind, cell[-1].value = "WORD", "word", cell[-1].lower


def _labels_above(scene: Scene, lines: list[tuple[int, int]], mark: str) -> None:
    """ "Member | Ada Brandt" in the rows above the columns' names: whose clubs they are."""
    for start, end in reversed(lines):
        row = scene.tokens[start:end]
        if len(row) < 3 or not is_mark(row[1], mark) or _cells(row, mark) != 1:
            return
        if row[0].lower in _OWNERS:
            row[0].terminal, row[1].terminal = "PLAYERWORD", "EQ"


def _of_the_ball(row: list[Token], mark: str) -> bool:
    """True for "| Ball | Gannet X | | |", which is then told as "Ball: Gannet X": no column speaks of a ball."""
    cells = [token for token in row if token.text != "|" or token is not row[0]]
    if (
        len(cells) < 3
        or cells[0].terminal != "BALLWORD"
        or not (is_mark(cells[1], mark) or cells[1].terminal == "PIPE")
    ):
        return False
    cells[1].terminal, cells[1].text = "EQ", ":"
    for token in row:
        if is_mark(token, mark) or token.terminal == "PIPE":
            token.terminal, token.text = "COMMA", ","
    return True


def _line_spans(scene: Scene) -> list[tuple[int, int]]:
    spans, start = [], 0
    for at, token in enumerate(scene.tokens):
        if token.terminal == "NEWLINE":
            spans.append((start, at))
            start = at + 1
    return spans


def _cells(row: list[Token], mark: str) -> int:
    return sum(is_mark(token, mark) or token.terminal == "PIPE" for token in row)


def _measure(cell: list[Token], unit: str, zone: str) -> None:
    """Give the numbers of a cell the unit of its column; "all lengths in cm" is said of no column of masses."""
    for token in cell:
        if token.kind == "number" and token.unit != "g" and (unit or zone not in ("length", "")):
            token.unit = unit


def _cells_of(row: list[Token]) -> list[list[Token]]:
    """The tokens of each cell of a row."""
    cells: list[list[Token]] = [[]]
    for token in row[1:] if row[0].text == "|" else row:
        if token.terminal == "PIPE":
            cells.append([])
        else:
            cells[-1].append(token)
    return cells


def _first_text(row: list[Token], column: int) -> str:
    """What the cell of this column begins with."""
    cells = _cells_of(row)
    return cells[column][0].text if column < len(cells) and cells[column] else ""


def _model_of_maker(cell: list[Token]) -> None:
    """The "Mallet", "Plate 5", "Nine 2 F" of a column of models beside one of makers: names, whatever else they say."""
    for token in cell if cell[0].kind == "number" else cell[:1]:
        token.terminal, token.kind, token.value = "WORD", "word", token.lower


def _whole_name(cell: list[Token], tails: set[str], loft: str = "") -> None:
    """Where lofts and flexes have columns of their own, "Scaup 10", "Dunlin Start", "Burr X" are names."""
    for before, token in pairwise(cell):
        short = token.terminal in ("HYBRID", "WOOD", "IRON") and len(token.text) <= 3  # "Knot Hy", "Lapwing FW"
        capital = token.text[:1].isupper() and (token.terminal in tails or short)
        number = token.text.isdigit() and token.text != loft and "SILENT" in tails
        if token.kind == "number" and token.sign and token.glued and before.terminal == "WORD" and "SILENT" in tails:
            token.terminal, token.kind, token.value = "WORD", "word", token.lower  # "Gannet DR-2"
            continue
        lettered = (
            token.glued and before.text.isdigit() and len(token.text) == 1 and token.text.isupper()
        )  # "Gannet 2F"
        if before.terminal == "WORD" and ((not token.glued and (capital or number)) or lettered):
            token.terminal, token.kind, token.value = "WORD", "word", token.lower


def _first_cell(row: list[Token], columns: list[str]) -> None:
    """In the column of clubs "Gap", "Sand", "D" are clubs without more words."""
    for zone, cell in zip(columns, _cells_of(row), strict=False):
        bracketed = len(cell) > 2 and cell[1].text == "(" and any(one.terminal == "IRON" for one in cell)
        if zone == "first" and bracketed and cell[0].terminal == "NAMEDWEDGE":
            for one in cell[1:]:
                one.terminal = "SILENT"  # "PW (of the iron set)"
        if (
            cell
            and cell[0].lower in _WEDGES
            and [one.lower for one in cell[1:]] in (["w"], ["w", "."], ["wdg"], ["wdg", "."])
        ):
            _short_wedge(cell[:1])  # "Sand w."
            for one in cell[1:]:
                one.terminal = "SILENT"
        if zone != "first" or len(cell) != 1:
            continue
        token = cell[0]
        _short_wedge(cell)
        if token.text in _LETTERS and token.terminal == "LETTER":
            token.terminal, token.value = _LETTERS[token.text]


def _short_wedge(cell: list[Token]) -> None:
    """ "Gap", "Sand" alone in a cell where a club stands: the wedge."""
    if len(cell) == 1 and cell[0].lower in _WEDGES:
        cell[0].terminal, cell[0].value = "NAMEDWEDGE", _WEDGES[cell[0].lower]


def _old_cells(scene: Scene, start: int, columns: list[str]) -> None:
    """Keep aside what a club was; and all of a row whose club is said to be out."""
    cells = cells_of_row(scene, start)
    now = next((cell for cell, zone in zip(cells, columns, strict=False) if zone == "now"), (0, 0))
    kept = " ".join(token.lower for token in scene.tokens[slice(*now)]) in _KEPT  # "Driver | Gannet 9 | unchanged"
    if not kept and (same := _same_club(scene.tokens[slice(*now)])):  # "same putter, cut to 33.5"
        scene.claims[now[0] : now[0] + same] = ["silent"] * same
        kept, now = True, (now[0] + same, now[1])
    status = [scene.tokens[low:high] for (low, high), zone in zip(cells, columns, strict=False) if zone == "left"]
    if any(token.terminal == "ASIDE" or token.lower in ("not", "no") for said in status for token in said):
        scene.set_aside(cells[0][0], cells[-1][1])  # "reserve - not in bag" in a column of its own
        return
    for (low, high), zone in zip(cells, columns, strict=False):
        said = scene.tokens[low:high]
        gone = zone == "now" and (not said or said[0].lower in _GONE or said[0].text in "-–—")
        first, last = (cells[0][0], cells[-1][1]) if gone else (low, high)
        if zone == "old" and kept:
            continue
        if zone == "now" and kept:
            if now[0] == low:
                scene.claims[low:high] = ["silent"] * (high - low)
            continue
        if (zone == "old" and said and said[0].lower not in _GONE) or gone:
            scene.aside.append(Passage(line=scene.tokens[start].line, text=scene.words(first, last)))
        flown = zone in _TENDENCIES and not any(token.terminal in _TENDENCIES.values() for token in said)
        if zone == "left" or flown:
            scene.claims[low:high] = [scene.claims[at] or "left" for at in range(low, high)]
        if zone == "old" or gone:
            scene.claims[first:last] = [scene.claims[at] or "aside" for at in range(first, last)]


def _same_club(cell: list[Token]) -> int:
    """How many tokens of a cell say that the club is the one it was, before what was done to it; 0 for none."""
    if not cell or cell[0].lower not in ("same", "unchanged", "kept", "ditto"):
        return 0
    comma = next((at for at, token in enumerate(cell) if token.terminal in ("COMMA", "LPAR", "DASH")), 0)
    return comma + 1 if 0 < comma < 4 else 0


def cells_of_row(scene: Scene, start: int) -> list[tuple[int, int]]:
    """Where the cells of the row that begins here begin and end."""
    return _split(scene.tokens, start, scene.clause_end(start))


def _split(tokens: list[Token], start: int, end: int) -> list[tuple[int, int]]:
    """Where the cells of a row with bars or tabs begin and end."""
    if start < end and tokens[start].text == "|":
        start += 1
    cells = []
    low = start
    for at in range(start, end + 1):
        if at == end or tokens[at].terminal == "PIPE":
            cells.append((low, at))
            low = at + 1
    return cells[:-1] if cells and cells[-1][0] == cells[-1][1] else cells
