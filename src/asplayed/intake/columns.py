"""What a table's columns are headed with, and the part of a club each speaks of (`data/columns.toml`)."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from asplayed.intake.own_tables import own_table
from asplayed.intake.tokens import Token

# What a figure of a bench's sheet was made, behind its name; a loft that was set stands beside its stamp.
_SETTLED = (" set to", " set at", " bent to", " set", " made", " as set", " as made", " as built", " finished")
_UNITS = {"", "deg", "degrees", "in", "inches", "inch", "g", "grams", "mm", "cm", "cpm"}
OF_CLUBS = ("first", "iron", "wedge")  # zones of the columns that name the clubs
_NUMBERS = {"no", "nr", "#", "number"}  # where no other column names the clubs, their numbers do


@cache
def zones() -> dict[str, str]:
    """Names of columns with the zone each opens."""
    return {name: zone for zone, names in own_table("columns").items() for name in names}


def words_of(cell: Sequence[Token]) -> list[str]:
    """The words of a cell in small letters."""
    return [word for token in cell if token.kind == "word" for word in token.lower.replace("_", " ").split()]


def zone_of(cell: Sequence[Token]) -> str | None:
    """The zone that a cell opens as a column's name; None for anything else."""
    return zones().get(without_unit(words_of(cell))) if not any(token.kind == "number" for token in cell) else None


def two_names(cell: Sequence[Token]) -> list[list[Token]]:
    """The two names of "Loft/lie", a column of two figures; [] for a column that has one name."""
    strokes = [at for at, token in enumerate(cell) if token.text in ("/", "&") or token.terminal == "AND"]
    if len(strokes) != 1 or zone_of(cell) is not None:
        return []
    halves = [list(cell[: strokes[0]]), list(cell[strokes[0] + 1 :])]
    return halves if all(zone_of(half) for half in halves) else []


def is_mark(token: Token, mark: str) -> bool:
    """True for the mark between a table's cells."""
    if mark == "SEMICOLON":
        return token.text == ";"
    tight = mark == "SLASH" and token.glued  # "club / head / loft", and in a cell "56/12"
    return token.terminal == mark and not tight


def header(row: list[Token]) -> tuple[list[str] | None, list[str], str]:
    """The zones of a header row's columns, their units, the mark between them; (None, [], "") for any other row."""
    for mark in ("PIPE", "COMMA", "SEMICOLON", "SLASH"):
        marks = sum(is_mark(token, mark) for token in row)
        if marks < (1 if mark == "PIPE" else 2):
            continue
        if mark == "COMMA" and any(token.text == ":" for token in row):
            continue  # "Shaft, length, lie: as the irons"
        cells: list[list[str]] = [[]]
        signs = False  # "bend (+ = weak)": the bracket tells what a sign means
        for token in row:
            signs = (signs or token.text in "+±") and token.terminal != "RPAR" and not is_mark(token, mark)
            if signs:
                cells[-1] = _of_sign(cells[-1], token.terminal)
                continue
            if is_mark(token, mark):
                cells.append([])
            elif token.kind == "word":
                cells[-1] += token.lower.replace("_", " ").split()
            elif token.kind == "number" and not _year(token):
                return None, [], ""
            elif token.kind == "number":
                cells[-1].append(token.text)
        if row[0].text == "|":
            cells = cells[1:]
        names = _of_years([_of_now(without_unit(words)) for words in cells])
        if not any(name in zones() and name not in _UNITS for name in names):
            continue  # "Units: inches, degrees, grams" is no row of columns
        if found := _zones_of(names, pair=marks == 1):
            return found, [*map(unit_of, cells)], mark
    return None, [], ""


def _zones_of(names: list[str], *, pair: bool) -> list[str]:
    """The zones of columns so named; [] where too few of them are known. A `pair` is "Club | Loft" alone."""
    if names[0] == "name":
        names[0] = "club"
    known = sum(name in zones() for name in names if name)
    found = [zones().get(name, "unknown" if name else "") for name in names]
    wedges = found == ["loft", "bounce"]
    if pair and not wedges and not (known == 2 and found[0] in OF_CLUBS and found[1] not in ("", "left", "old", "now")):
        return []
    if not (known >= 3 or (known >= 2 and known >= len([name for name in names if name]) - 1)):
        return []
    both = {"old", "now"} <= set(found)
    found = [zone if both or zone not in ("old", "now") else "" for zone in found]
    if "loft" in found and "target" not in found:  # beside the lofts a bend is of the loft: "+1" is weaker
        found = ["target" if zone == "bend" else zone for zone in found]
    if not set(found) & {*OF_CLUBS, "player"}:
        if names[0] in ("", *_NUMBERS):
            found[0] = "first"  # "No. | Loft | Lie"
        elif found[0] == "loft" and "bounce" in found:
            found[0] = "wedge"  # "Loft | Bounce | Sole": wedges, each named by its loft
    return found


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
    for tail in () if name in zones() else _SETTLED:
        if (what := name.removesuffix(tail)) != name and what in zones():
            return "bent to" if what == "loft" else what
    what, _, when = name.rpartition(" ")
    if what not in zones() or when not in zones():
        return name
    return {"now": what, "old": "no"}.get(zones()[when], name)


def without_unit(words: list[str]) -> str:
    """A column's name as the table of columns writes it: "loft (deg)" is "loft", "head (g)" its mass."""
    if " ".join(words) in zones():
        return " ".join(words)
    while len(words) > 1 and words[-1] in _UNITS:
        words = words[:-1]
    return " ".join(words)


def unit_of(words: list[str]) -> str:
    """The unit of length a column's name ends with ("length cm"), where it is not the trade's inch."""
    return words[-1] if words and words[-1] in ("mm", "cm") else ""
