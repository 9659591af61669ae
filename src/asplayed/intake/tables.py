"""Tables: pasted with bars or tabs, kept with commas, or set out with spaces; rows of clubs or columns of clubs."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from itertools import pairwise

from asplayed.clubs import Passage
from asplayed.intake.phrases import phrase_at
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
    "SOLEWORD", "HANDWORD", "SOLE",
}  # fmt: skip
_TENDENCIES = {"launch": "LAUNCHLEVEL", "spin": "SPINLEVEL"}
_KINDS = {"HYBRID", "WOOD", "DRIVER", "DIRON", "IRON"}  # of clubs, which models are also named with: "Skua DR"
_SMALL_FLEXES = {"l", "a", "r", "s", "x", "tx", "sr", "xs"}
_NOTHING = {"null", "nan", "nil", "none", "n/a", "na"}
_KEPT = {"unchanged", "same", "no change", "as before", "ditto", "as was", "kept", "stays", "no changes"}
_OWNERS = {"member", "owner", "player", "name", "client", "customer", "golfer"}
# What a figure of a bench's sheet was made, behind its name; a loft that was set stands beside its stamp.
_SETTLED = (" set to", " set at", " bent to", " set", " made", " as set", " as made", " as built", " finished")
_DITTO = {'"', "〃", "″", "“", "”", "do.", "do", "ditto", "dto.", "''"}
_UNITS = {"", "deg", "degrees", "in", "inches", "inch", "g", "grams", "mm", "cm"}
_MOST_COLUMNS = 60  # of a table set out with spaces: a club each, and its labels
_GAP = 2  # spaces that part two cells of a table set out with spaces


@cache
def _columns() -> dict[str, str]:
    """Names of columns with the zone each opens (`data/columns.toml`)."""
    text = resources.files("asplayed.intake").joinpath("data/columns.toml").read_text(encoding="utf-8")
    return {name: zone for zone, names in tomllib.loads(text).items() for name in names}


def find_tables(scene: Scene) -> None:
    """Find header rows; the rows under one are read column by column."""
    lines = _line_spans(scene)
    _across(scene, lines)
    index = 0
    while index < len(lines):
        start, end = lines[index]
        columns, units, mark = _header(scene.tokens[start:end])
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
            if not row:
                if index + 1 < len(lines) and _cells(scene.tokens[slice(*lines[index + 1])], mark) >= 2:
                    index += 1
                    continue
                break
            if all(token.text in "-–—=:+|" for token in row):
                for at in range(start, end):
                    scene.claims[at] = "silent"
                index += 1
                continue
            if _cells(row, mark) < 1:
                break
            if _of_the_ball(row, mark):
                index += 1
                continue
            scene.rows[start] = columns
            if row[0].text == "|":
                scene.claims[start] = "silent"
            for token in row:
                if _is(token, mark) or (mark == "COMMA" and token.text == ","):
                    token.terminal = "PIPE"
            _first_cell(row, columns)
            for new, cell in zip(unknown, _cells_of(row), strict=False):
                if new and len(cell) == 1 and cell[0].terminal in ("FLEXCODE", "LETTER"):
                    cell[0].terminal, cell[0].kind = "OTHER", "word"  # a letter of a column nobody knows is no flex
            for zone, cell in zip(columns, _cells_of(row), strict=False):
                small = zone == "shaft" and len(cell) == 1 and cell[0].terminal == "WORD"
                if small and cell[0].text in _SMALL_FLEXES and "FLEXWORD" in told:
                    cell[0].terminal, cell[0].value = "FLEXCODE", cell[0].text.upper()
                if zone == "head" and "maker" in columns and cell and cell[0].text[:1].isupper():
                    _model_of_maker(cell)
                if zone == "head" and "loft" in columns:
                    kinds = _KINDS if "first" in columns else set()
                    _whole_name(cell, _IN_MODELS | kinds, _first_text(row, columns.index("loft")))
                if zone in _TENDENCIES and len(cell) == 1 and cell[0].terminal == "LEVEL":
                    cell[0].terminal = _TENDENCIES[zone]
                if zone == "shaft" and {"SHAFTWORD", "FLEXWORD"} <= told:
                    _whole_name(cell, {"FLEXCODE", "LETTER"})
            for cell in _cells_of(row):
                if len(cell) == 1 and cell[0].lower in _NOTHING:
                    cell[0].terminal, cell[0].kind = "BULLET", "mark"
                if cell and "".join(token.lower for token in cell) in _DITTO:
                    cell[0].terminal = "SAME"
                    for token in cell[1:]:
                        token.terminal = "SILENT"
            _old_cells(scene, start, columns)
            models += [cell for zone, cell in zip(columns, _cells_of(row), strict=False) if zone == "head"]
            for zone, unit, cell in zip(columns, units, _cells_of(row), strict=False):
                _measure(cell, unit, zone)
            index += 1
        _alike(models)


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
        if len(row) < 3 or not _is(row[1], mark) or _cells(row, mark) != 1:
            return
        if row[0].lower in _OWNERS:
            row[0].terminal, row[1].terminal = "PLAYERWORD", "EQ"


def _of_the_ball(row: list[Token], mark: str) -> bool:
    """True for "| Ball | Gannet X | | |", which is then told as "Ball: Gannet X": no column speaks of a ball."""
    cells = [token for token in row if token.text != "|" or token is not row[0]]
    if len(cells) < 3 or cells[0].terminal != "BALLWORD" or not (_is(cells[1], mark) or cells[1].terminal == "PIPE"):
        return False
    cells[1].terminal, cells[1].text = "EQ", ":"
    for token in row:
        if _is(token, mark) or token.terminal == "PIPE":
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
    return sum(_is(token, mark) or token.terminal == "PIPE" for token in row)


def _is(token: Token, mark: str) -> bool:
    """True for the mark between a table's cells."""
    if mark == "SEMICOLON":
        return token.text == ";"
    tight = mark == "SLASH" and token.glued  # "club / head / loft", and in a cell "56/12"
    return token.terminal == mark and not tight


def _header(row: list[Token]) -> tuple[list[str] | None, list[str], str]:
    """The zones of a header row's columns, their units, the mark between them; (None, [], "") for any other row."""
    for mark in ("PIPE", "COMMA", "SEMICOLON", "SLASH"):
        if sum(_is(token, mark) for token in row) < 2:
            continue
        if mark == "COMMA" and any(token.text == ":" for token in row):
            continue  # "Shaft, length, lie: as the irons"
        cells: list[list[str]] = [[]]
        signs = False  # "bend (+ = weak)": the bracket tells what a sign means
        for token in row:
            signs = (signs or token.text in "+±") and token.terminal != "RPAR" and not _is(token, mark)
            if signs:
                cells[-1] = _of_sign(cells[-1], token.terminal)
                continue
            if _is(token, mark):
                cells.append([])
            elif token.kind == "word":
                cells[-1] += token.lower.replace("_", " ").split()
            elif token.kind == "number" and not _year(token):
                return None, [], ""
            elif token.kind == "number":
                cells[-1].append(token.text)
        if _is(row[0], mark):
            cells = cells[1:]
        names = _of_years([_of_now(_without_unit(words)) for words in cells])
        known = sum(name in _columns() for name in names if name)
        if not any(name in _columns() and name not in _UNITS for name in names):
            continue  # "Units: inches, degrees, grams" is no row of columns
        if names[0] == "name":
            names[0] = "club"
        if known >= 3 or (known >= 2 and known >= len([name for name in names if name]) - 1):
            zones = [_columns().get(name, "unknown" if name else "") for name in names]
            both = {"old", "now"} <= set(zones)
            zones = [zone if both or zone not in ("old", "now") else "" for zone in zones]
            for at, (before, zone) in enumerate(pairwise(zones), start=1):
                if (before, zone) == ("loft", "bend"):
                    zones[at] = "target"  # beside the lofts a bend is of the loft: "+1" is weaker, as the sum tells
            return zones, [*map(_unit, cells)], mark
    return None, [], ""


def _of_sign(words: list[str], terminal: str) -> list[str]:
    """ "bend (+ = weak)" is a column of lofts' changes, "bend (+ = upright)" one of lies'."""
    ways = {"WEAK": "loft adj", "STRONG": "loft adj", "UPRIGHT": "lie adj", "FLAT": "lie adj"}
    return ways[terminal].split() if words == ["bend"] and terminal in ways else words


def _year(token: Token) -> bool:
    return token.text.isdigit() and len(token.text) == 4 and 1950 <= int(token.text) <= 2100


def _of_years(names: list[str]) -> list[str]:
    """ "Club | 2024 | 2025": the earlier year's column tells what was, the later one's what is."""
    years = sorted(name for name in names if name.isdigit())
    if len(years) != 2 or years[0] == years[1]:
        return names
    return [{years[0]: "was", years[1]: "now"}.get(name, name) for name in names]


def _of_now(name: str) -> str:
    """ "length now" and "lie set to" are what the club has, and "length was" nothing of it."""
    for tail in () if name in _columns() else _SETTLED:
        if (what := name.removesuffix(tail)) != name and what in _columns():
            return "bent to" if what == "loft" else what
    what, _, when = name.rpartition(" ")
    if what not in _columns() or when not in _columns():
        return name
    return {"now": what, "old": "no"}.get(_columns()[when], name)


def _without_unit(words: list[str]) -> str:
    """A column's name as the table of columns writes it: "loft (deg)" is "loft", "head (g)" its mass."""
    if " ".join(words) in _columns():
        return " ".join(words)
    while len(words) > 1 and words[-1] in _UNITS:
        words = words[:-1]
    return " ".join(words)


def _unit(words: list[str]) -> str:
    """The unit of length a column's name ends with ("length cm"), where it is not the trade's inch."""
    return words[-1] if words and words[-1] in ("mm", "cm") else ""


def _measure(cell: list[Token], unit: str, zone: str) -> None:
    """Give the numbers of a cell the unit of its column; "all lengths in cm" is said of no column of masses."""
    for token in cell:
        if token.kind == "number" and (unit or zone not in ("length", "")):
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
    cells = _split(scene.tokens, start, scene.clause_end(start))
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


# ------------------------------------------------------------------------------------------- clubs across the top


def _across(scene: Scene, lines: list[tuple[int, int]]) -> None:
    """A row of clubs, and under it rows that each begin with the name of a column: lofts, shafts, lengths."""
    for index, (start, end) in enumerate(lines[:-1]):
        cells = _split(scene.tokens, start, end)
        if len(cells) < 3 or not all(_is_club(scene, *cell) for cell in cells[1:]):
            continue
        for low, high in cells[1:]:
            _short_wedge(scene.tokens[low:high])
        rows = []
        for first, last in lines[index + 1 :]:
            if first < last and all(token.text in "-–—=:+|" for token in scene.tokens[first:last]):
                scene.claims[first:last] = ["silent"] * (last - first)
                continue
            under = _split(scene.tokens, first, last)
            if first == last:
                continue  # an empty line between the rows
            if len(under) < 2:
                break
            words = [token.lower for token in scene.tokens[slice(*under[0])] if token.kind == "word"]
            if not words or _without_unit(words) not in _columns():
                break
            zone = _columns()[_without_unit(words)]
            rows.append((first, under[0], zone))
            for low, high in under[1:]:
                _measure(scene.tokens[low:high], _unit(words), "")
                if zone == "head":
                    _whole_name(scene.tokens[low:high], _IN_MODELS)
        if not rows:
            continue
        first_cell = start + (scene.tokens[start].text == "|")
        scene.across_heads[first_cell] = (first_cell, end)
        scene.across_rows |= {first: zone for first, _label, zone in rows}
        for low, high in [cells[0], *(label for _first, label, _zone in rows)]:
            scene.claims[low:high] = ["set"] * (high - low)


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


def _is_club(scene: Scene, start: int, end: int) -> bool:
    if start >= end:
        return False
    if end == start + 1 and scene.tokens[start].lower in _WEDGES:
        return True
    phrase = phrase_at(scene.tokens, start)
    named = phrase is not None and phrase.rule in ("club", "named", "span", "family", "code")
    return named and phrase is not None and phrase.end >= end


# ------------------------------------------------------------------------------------------- set out with spaces


def with_columns(tokens: list[Token]) -> list[Token]:
    """The tokens with a tab between the cells of tables that are set out with spaces under a row of names."""
    lines: list[list[Token]] = [[]]
    for token in tokens:
        lines[-1].append(token)
        if token.kind == "newline":
            lines.append([])
    kept: list[Token] = []
    starts: list[int] = []
    for index, line in enumerate(lines):
        cells = _by_gaps(line)
        if starts and len(cells) >= 2:
            kept += _placed(cells, starts, line)
            continue
        starts = []
        if len(cells) >= 4 and _counts_irons(cells):
            cells = [cells[0], *(_as_iron(cell) for cell in cells[1:])]
            starts = [cell[0].column for cell in cells]
            kept += _placed(cells, starts, line)
        elif len(cells) >= 3 and _names_columns(cells):
            starts = [cell[0].column for cell in cells]
            kept += _placed(cells, starts, line)
        elif len(cells) >= 3 and (left := _names_clubs(cells, lines[index + 1 : index + 2])) > 0:
            starts = [left, *(cell[0].column for cell in cells if cell[0].column > left)]
            kept += _placed(cells, starts, line)
        else:
            kept += _barred_irons(line)
    return kept


def _barred_irons(line: list[Token]) -> list[Token]:
    """The line with the word "iron" behind each number of "Club | 5 | 6 | 7 | 8 | 9 | PW"."""
    bars = [at for at, token in enumerate(line) if token.terminal == "PIPE"]
    if len(bars) < 3:
        return line
    ends = [*bars, len([token for token in line if token.kind != "newline"])]
    cells = [line[low:high] for low, high in zip([0, *(at + 1 for at in bars)], ends, strict=True)]
    filled = [cell for cell in cells if cell]
    if len(filled) < 4 or not _counts_irons(filled):
        return line
    numbers = {id(cell[0]) for cell in filled[1:] if cell[0].text.isdigit()}
    return [one for token in line for one in (_as_iron([token]) if id(token) in numbers else [token])]


def _by_gaps(line: list[Token]) -> list[list[Token]]:
    """The line's stretches between wide gaps; none for a line with bars, tabs or commas between figures."""
    cells: list[list[Token]] = []
    for token in line:
        if token.kind == "newline":
            break
        if token.terminal == "PIPE":
            return []
        last = cells[-1][-1] if cells else None
        if last is None or token.start - last.end >= _GAP:
            cells.append([])
        cells[-1].append(token)
    return cells if len(cells) <= _MOST_COLUMNS else []


def _names_columns(cells: list[list[Token]]) -> bool:
    if any(token.kind == "number" for cell in cells for token in cell):
        return False
    names = [_without_unit([token.lower for token in cell if token.kind == "word"]) for cell in cells]
    return sum(name in _columns() for name in names) >= max(3, len(names) - 1)


def _names_clubs(cells: list[list[Token]], below: list[list[Token]]) -> int:
    """Where the labels stand of rows below a row of clubs ("Driver   3W   7i", and below it "Loft   9.5   15   33").

    0 for any other row: the row below begins with a column's name and has a cell for each club.
    """
    under = _by_gaps(below[0]) if below else []
    words = [token.lower for token in under[0] if token.kind == "word"] if under else []
    clubs = []
    for cell in cells:
        club = phrase_at(cell, 0)
        if club is not None and club.rule in ("club", "named") and club.end == len(cell):
            clubs.append(cell)
    enough = len(clubs) >= max(2, len(cells) - 1) and len(under) == len(clubs) + 1
    if not enough or not words or _without_unit(words) not in _columns():
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


def _as_iron(cell: list[Token]) -> list[Token]:
    """A cell's number as that of an iron."""
    if not cell[0].text.isdigit():
        return cell
    word = Token("", cell[0].line, cell[0].column, cell[0].end, cell[0].end, "word", True)
    word.terminal, word.lower, word.value = "IRON", "iron", "iron"
    return [cell[0], word]


def _placed(cells: list[list[Token]], starts: list[int], line: list[Token]) -> list[Token]:
    """The cells with as many tabs between them as columns lie between their places."""
    placed: list[Token] = []
    here = 0
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
