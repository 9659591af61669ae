"""A session's table becomes columns of shots in SI, each row checked; nothing is corrected in silence."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.catalogue.columns import Column, assign, clean, units_of
from asplayed.catalogue.tables import Table
from asplayed.clubs import Club
from asplayed.clubs.names import club_meant, labels
from asplayed.errors import BadInput, Refused
from asplayed.quantities import convert, find_unit, from_si, read_quantity, unit_named

Column1D = NDArray[np.float64]

_NOTHING = frozenset({"", "-", "–", "—", "−", "n/a", "na", "nan", "none", "null", "?"})
_SMASH = (0.3, 1.62)  # ball speed over club speed; a free head of 300 g with restitution 0.9 gives 1.64 at zero loft
_FEW = 5  # shots of a club from which a lone value in another unit can be told from a mis-hit
# What the same speed reads in another unit, as a multiple: metres a second, kilometres an hour and feet a second
# against miles an hour and one another.
_SPEEDS = ("mph", "m/s", "km/h", "ft/s")


class Shots(NamedTuple):
    """Shots as columns in SI (spin in rad/s), NaN where a cell was empty.

    `row` is each shot's line in its table, `club` the place of its club in `clubs` (labels as of `clubs.names`).
    Directions, path, face and spin axis are + to the right.
    """

    row: NDArray[np.int64]
    club: NDArray[np.int64]
    clubs: tuple[str, ...]
    columns: dict[str, Column1D]

    def of(self, club: int) -> Shots:
        """The shots of one club."""
        return self.where(self.club == club)

    def where(self, kept: NDArray[np.bool_]) -> Shots:
        """The shots for which `kept` is true."""
        return Shots(
            self.row[kept], self.club[kept], self.clubs, {name: column[kept] for name, column in self.columns.items()}
        )


class ImportedShots(NamedTuple):
    """What an import found: the good shots, the faults of the others, and remarks on what was kept aside."""

    shots: Shots
    faults: tuple[str, ...]
    faulty_rows: int
    remarks: tuple[str, ...]
    notes: tuple[tuple[int, str, str], ...]  # line, unknown column, its text


@cache
def shot_columns() -> Mapping[str, Column]:
    """The columns a table of shots may carry besides `club`, by name.

    >>> shot_columns()["carry"].units
    ('yd',)
    """
    table = tomllib.loads(resources.files("asplayed.players").joinpath("data/columns.toml").read_text(encoding="utf-8"))
    columns = {
        "club": Column("club", "text", "the club it was struck with", also=("clubs", "club name")),
    }
    for name, entry in table.items():
        columns[name] = Column(
            name=name,
            kind="number",
            about=name,
            units=tuple(entry["units"]),
            possible=(entry["possible"][0], entry["possible"][1]),
            also=tuple(entry.get("also", ())),
            open=entry.get("plain", False),
        )
    return columns


def shots_of(
    table: Table,
    clubs: Sequence[Club],
    *,
    column_map: Mapping[str, str] | None = None,
    keep_good_rows: bool = False,
) -> ImportedShots:
    """The shots of a table struck with the clubs of a set.

    `column_map` leads from the table's own column names to those of `shot_columns`. A row with an impossible value, a
    club the set does not have, a figure in another unit than its column, or the very figures of an earlier row is at
    fault, and named by line and column. A table with a faulty row is refused (`Refused`), unless `keep_good_rows`.

    >>> from asplayed.catalogue.tables import read_table
    >>> seven = Club(club="7 iron", kind="iron")
    >>> found = shots_of(read_table(b"club,carry [yd]\\n7i,151\\n7i,148\\n"), [seven])
    >>> [round(float(x), 2) for x in found.shots.columns["carry"]], found.shots.clubs
    ([138.07, 135.33], ('7 iron',))
    """
    name = table.name
    assigned = assign(table, shot_columns(), column_map or {})
    places = {column.name: index for index, column in assigned.items()}
    if "club" not in places:
        there = ", ".join(repr(each[:40]) for each in table.columns[:12])
        raise BadInput(
            f"{name} has no column 'club'; its first row names {there}; rename one, or map it with --columns"
        )
    if len(places) == 1:
        raise BadInput(f"{name} has no figures of shots; it may carry {', '.join(list(shot_columns())[1:])}")
    remarks = list(table.remarks)
    units = _units(table, units_of(table, column_map or {}), assigned, remarks)
    rows = list(table.rows)
    if not rows:
        raise BadInput(f"{name} names its columns but has no rows; there is no shot to import")
    lines = np.array([row.line for row in rows], dtype=np.int64)
    faults: dict[int, list[str]] = {}
    width = len(table.columns)
    for place, row in enumerate(rows):
        if len(row.cells) > width and any(cell.strip() for cell in row.cells[width:]):
            _blame(faults, place, f"it has {len(row.cells)} cells where the first row names {width} columns")
    club = _clubs(_cells(rows, places["club"]), clubs, faults)
    found: dict[str, Column1D] = {}
    for column_name, index in places.items():
        if column_name != "club":
            column = assigned[index]
            found[column_name] = _numbers(_cells(rows, index), column, units[column_name], faults)
    _check_empty(found, len(rows), faults)
    _check_together(found, club, units, faults)
    _check_twice(found, club, lines, units, faults)
    notes = tuple(
        (int(lines[place]), table.columns[index], text)
        for index in range(width)
        if index not in assigned
        for place, text in enumerate(map(clean, _cells(rows, index)))
        if text
    )
    said = [f"line {lines[place]}, {fault}" for place in sorted(faults) for fault in faults[place]]
    if faults and not keep_good_rows:
        raise Refused(
            f"{name}: {len(faults)} of {len(rows)} rows cannot be used, and nothing was stored "
            "(--keep-good-rows keeps the others)",
            said,
        )
    if len(faults) == len(rows):
        raise Refused(f"{name}: no row can be used, and nothing was stored", said)
    shots = Shots(lines, club, labels(clubs), found)
    kept = np.ones(len(rows), dtype=np.bool_)
    kept[list(faults)] = False
    return ImportedShots(shots.where(kept), tuple(said), len(faults), tuple(remarks), notes)


def _blame(faults: dict[int, list[str]], place: int, fault: str) -> None:
    faults.setdefault(place, []).append(fault)


def _cells(rows: Sequence[tuple[int, tuple[str, ...]]], index: int) -> list[str]:
    return [cells[index] if index < len(cells) else "" for _, cells in rows]


def _units(table: Table, said: Sequence[str], assigned: Mapping[int, Column], remarks: list[str]) -> dict[str, str]:
    """The unit of every column; a speed or a distance without one refuses the table."""
    units, missing = {}, []
    for index, column in assigned.items():
        if not column.units:
            continue
        written = said[index]
        if written and (unit := find_unit(written)) is not None:
            units[column.name] = unit.name
        elif column.open:
            units[column.name] = column.units[0]
            remarks.append(f"column {index + 1}, {table.columns[index]!r}, has no unit; taken as {column.units[0]}")
        else:
            missing.append(
                f"column {index + 1}, {table.columns[index]!r}, has no unit; write it in brackets behind the name, "
                f"here or in a column map, such as {column.name} [{column.units[0]}]"
            )
    if missing:
        raise Refused(f"{table.name}: the columns cannot be used", missing)
    return units


def _clubs(cells: list[str], clubs: Sequence[Club], faults: dict[int, list[str]]) -> NDArray[np.int64]:
    known: dict[str, int | str] = {}
    names = labels(clubs)
    has = ", ".join(names[:20]) or "no club at all"
    found = np.full(len(cells), -1, dtype=np.int64)
    for place, cell in enumerate(cells):
        if cell not in known:
            text = clean(cell)
            meant = club_meant(text[:60], clubs)
            if not text:
                known[cell] = "club: it is empty; every shot needs its club"
            elif len(meant) == 1:
                known[cell] = meant[0]
            elif meant:
                known[cell] = f"club: {text[:40]!r} can be {' or '.join(names[each] for each in meant)}; say which"
            else:
                known[cell] = f"club: {text[:40]!r} is not in the set, which has {has}"
        answer = known[cell]
        if isinstance(answer, str):
            _blame(faults, place, answer)
        else:
            found[place] = answer
    return found


def _numbers(cells: list[str], column: Column, unit: str, faults: dict[int, list[str]]) -> Column1D:
    """A column in SI; plain numbers go through in one piece, everything else is read cell by cell."""
    values = np.full(len(cells), math.nan)
    rest = []
    for place, cell in enumerate(cells):
        try:
            values[place] = float(cell)
        except ValueError:
            rest.append(place)
    odd = np.flatnonzero(~np.isfinite(values))
    seen: dict[str, float | str] = {}
    for place in odd.tolist():
        cell = cells[place]
        if cell not in seen:
            seen[cell] = _cell(clean(cell), unit)
        answer = seen[cell]
        if isinstance(answer, str):
            _blame(faults, place, f"{column.name}: {answer}")
            answer = math.nan
        values[place] = answer
    assert column.possible is not None
    low, high = (convert(end, column.units[0], unit) for end in column.possible)
    for place in np.flatnonzero((values < min(low, high)) | (values > max(low, high))).tolist():
        _blame(
            faults,
            place,
            f"{column.name}: {clean(cells[place])[:40]} {unit} cannot be; it lies from {low:.4g} to {high:.4g} {unit}",
        )
    scale = unit_named(unit)
    si: Column1D = values * scale.si + scale.offset
    return si


def _cell(text: str, unit: str) -> float | str:
    """One cell that is not a plain number: its value in the column's unit, NaN when empty, or what is wrong."""
    if text.casefold() in _NOTHING:
        return math.nan
    try:
        quantity = read_quantity(text[:60])
    except BadInput as fault:
        return str(fault)
    if quantity.unit and quantity.unit != unit:
        return f"{text[:40]!r} is in {quantity.unit} where the column is in {unit}; write one unit in a column"
    value = float(quantity.value)
    return value if math.isfinite(value) else f"{text[:40]!r} is too large to be a figure"


def _check_empty(found: Mapping[str, Column1D], rows: int, faults: dict[int, list[str]]) -> None:
    empty = np.ones(rows, dtype=np.bool_)
    for column in found.values():
        empty &= np.isnan(column)
    for place in np.flatnonzero(empty).tolist():
        if place not in faults:
            _blame(faults, place, "it has no figure of a shot; fill it in or leave the row out")


def _check_together(
    found: Mapping[str, Column1D], club: NDArray[np.int64], units: Mapping[str, str], faults: dict[int, list[str]]
) -> None:
    """What no figure shows alone: a ball faster than a club can send it, a total short of its carry, mixed units."""
    suspects: dict[int, str] = {}
    for name in ("club speed", "ball speed"):
        if name in found:
            suspects |= _other_unit(name, found[name], club, units[name])
    for place, fault in suspects.items():
        _blame(faults, place, fault)
    if "ball speed" in found and "club speed" in found:
        smash = found["ball speed"] / found["club speed"]
        for place in np.flatnonzero((smash < _SMASH[0]) | (smash > _SMASH[1])).tolist():
            if place not in suspects:
                _blame(
                    faults,
                    place,
                    f"ball speed: it is {smash[place]:.3g} of the club speed; struck balls leave at "
                    f"{_SMASH[0]:g} to {_SMASH[1]:g} of it, so one of the two is wrong or in another unit",
                )
    if "carry" in found and "total" in found:
        short = found["carry"] - found["total"]
        for place in np.flatnonzero(short > 0.35 * found["carry"] + 10.0).tolist():
            _blame(faults, place, "total: it is far shorter than the carry; one of the two is wrong or in another unit")
    if "carry" in found and "ball speed" in found:
        # Without air, 45 degrees up is the longest flight; lift does not make good what drag takes.
        farthest = np.square(found["ball speed"]) / 9.80665
        for place in np.flatnonzero(found["carry"] > farthest).tolist():
            if place in faults:
                continue
            carried = f"{from_si(float(found['carry'][place]), units['carry']):.4g} {units['carry']}"
            _blame(
                faults,
                place,
                f"carry: {carried} is farther than its ball speed can send a ball; "
                "one of the two is wrong or in another unit",
            )


def _other_unit(name: str, column: Column1D, club: NDArray[np.int64], unit: str) -> dict[int, str]:
    """Values of a speed that fit their club's others only when read in another unit."""
    said: dict[int, str] = {}
    here = unit_named(unit).si
    for place in np.unique(club[club >= 0]).tolist():
        rows = np.flatnonzero((club == place) & np.isfinite(column))
        if len(rows) < _FEW:
            continue
        middle = float(np.median(column[rows]))
        spread = float(np.median(np.abs(column[rows] - middle)))
        ratio = column[rows] / middle
        for other in _SPEEDS:
            factor = here / unit_named(other).si if other != unit else 1.0
            if abs(factor - 1.0) < 0.2:
                continue
            near = np.abs(ratio - factor) < 0.08 * factor
            far = np.abs(column[rows] - middle) > 8.0 * max(spread, 0.01 * middle)
            for row in rows[near & far].tolist():
                said[row] = (
                    f"{name}: {from_si(float(column[row]), unit):.4g} looks like {other} in a column of {unit}; "
                    "write one unit in a column"
                )
    return said


def _check_twice(
    found: Mapping[str, Column1D],
    club: NDArray[np.int64],
    lines: NDArray[np.int64],
    units: Mapping[str, str],
    faults: dict[int, list[str]],
) -> None:
    """A row with the very figures of an earlier one is that shot written twice.

    Two shots can share one or two whole numbers by chance, hardly three, nor two with decimals.
    """
    stack = np.column_stack([club.astype(np.float64), *found.values()])
    written = np.column_stack([column / unit_named(units[name]).si for name, column in found.items()])
    fine = np.abs(written - np.round(written)) > 1e-6
    told = (np.count_nonzero(np.isfinite(written), axis=1) >= 3) | (np.count_nonzero(fine, axis=1) >= 2)
    exact = np.ascontiguousarray(np.nan_to_num(stack, nan=-1e30))
    keys = exact.view(np.dtype((np.void, exact.dtype.itemsize * exact.shape[1]))).ravel()
    _, first, group = np.unique(keys, return_index=True, return_inverse=True)
    original = lines[first[group.ravel()]]
    for place in np.flatnonzero(told & (original != lines)).tolist():
        if place not in faults:
            _blame(faults, place, f"it is the shot of line {original[place]} again; leave one of them out")
