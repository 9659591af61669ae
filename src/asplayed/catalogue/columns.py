"""Columns with meanings: a table of text becomes rows of checked values, whatever the columns are called.

The kinds of columns stand in a TOML table, so one reader serves every table that comes in.
"""

from __future__ import annotations

import datetime
import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

from asplayed.catalogue.tables import Table, split_unit
from asplayed.errors import BadInput, Refused
from asplayed.quantities import convert, find_unit, read_quantity

MOST_FAULTS = 1_000  # rows at fault after which a refused table is not read further

_NOTHING = frozenset({"", "-", "–", "—", "−", "n/a", "na", "none", "null", "?", "tbc"})
_DATE = re.compile(r"^(\d{4})(?:[-/.](\d{1,2})(?:[-/.](\d{1,2}))?)?(?:[T ]00:00(?::00)?)?$")
_INVISIBLE = re.compile("[\u00ad\u061c\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]")
_GUARDED = re.compile(r"^'+(?=[=+\-@\t\r\n\0])")
_RISKY = re.compile(r"^'*[=+\-@\t\r\n\0]")
_PLAIN_NUMBER = re.compile(r"^[+-]?\d+(?:\.\d+)?$")


class Column(NamedTuple):
    """One known column: its kind, the units it is kept in, what it can be at all, other names for it."""

    name: str
    kind: str  # text, list, choice, number, date
    about: str
    units: tuple[str, ...] = ()
    possible: tuple[float, float] | None = None
    also: tuple[str, ...] = ()
    choices: Mapping[str, str] = {}
    open: bool = False


class Measure(NamedTuple):
    """A number as a cell gives it, in one of the units its column is kept in."""

    value: float
    unit: str


Value = str | Measure | tuple[str, ...]


class Entry(NamedTuple):
    """One row understood: its values by column, its notes (unknown columns), and what is wrong with it."""

    line: int
    values: dict[str, Value]
    notes: dict[str, str]
    faults: list[str]


@cache
def known_columns(table: str) -> Mapping[str, Column]:
    """The columns a kind of table may carry, by name.

    >>> known_columns("parts")["balance"].units
    ('percent', 'in')
    """
    found = {}
    for name, entry in _tables()[table].items():
        choices = {word: kept for kept, others in entry.get("choices", {}).items() for word in (kept.lower(), *others)}
        possible = entry.get("possible")
        found[name] = Column(
            name=name,
            kind=entry["kind"],
            about=entry["about"],
            units=tuple(entry.get("units", ())),
            possible=tuple(possible) if possible else None,
            also=tuple(entry.get("also", ())),
            choices=choices,
            open=entry.get("open", False),
        )
    return found


@cache
def ranges() -> Mapping[str, Any]:
    """What narrows the possible figures, and what is usual, by kind of part."""
    narrowed: Mapping[str, Any] = _tables()["ranges"]
    return narrowed


@cache
def _tables() -> dict[str, Any]:
    return tomllib.loads(resources.files("asplayed.catalogue").joinpath("data/columns.toml").read_text("utf-8"))


def _bare(name: str) -> str:
    return " ".join(re.sub(r"[\W_]+", " ", name.casefold()).split())


def assign(table: Table, known: Mapping[str, Column], column_map: Mapping[str, str]) -> dict[int, Column]:
    """Which known column each column of the table is: by the user's map, by name, or by another name for it.

    `column_map` leads from the table's name to a known one, with the unit behind it where the table names none
    (`ball speed [mph]`), or to "" for a column to keep as a note. All faults of the header come at once.
    """
    column_map, units = _map_of(table, column_map), units_of(table, column_map)
    by_name = {_bare(name): column for column in known.values() for name in (*column.also, column.name)}
    wanted = {_bare(theirs): ours for theirs, ours in column_map.items()}
    present = {_bare(name) for name in table.columns}
    faults = [
        f"the column map names a column {theirs[:60]!r} that the table does not have"
        for theirs in column_map
        if _bare(theirs) not in present
    ]
    nowhere = [repr(ours[:60]) for ours in dict.fromkeys(wanted.values()) if ours and _bare(ours) not in by_name]
    if nowhere:
        faults.append(f"the column map leads to {' and to '.join(nowhere[:20])}; known columns are {', '.join(known)}")
    faults += [
        f"column {index + 1}, {name!r}: the column map says {unit[:20]!r} where the table says {table.units[index]!r}"
        for index, (name, unit) in enumerate(zip(table.columns, units, strict=True))
        if table.units[index] and unit != table.units[index] and find_unit(unit) != find_unit(table.units[index])
    ]
    claims: dict[str, list[tuple[bool, int]]] = {}
    for index, name in enumerate(table.columns):
        target = wanted.get(_bare(name), name)
        column = by_name.get(_bare(target)) if target else None
        if column is not None:
            by_another_name = _bare(name) not in wanted and _bare(name) != column.name
            claims.setdefault(column.name, []).append((by_another_name, index))
    found = {}
    for name, claimants in claims.items():
        best = min(claimants)
        rivals = [index for weaker, index in claimants if weaker == best[0]]
        if len(rivals) > 1:
            places = " and ".join(str(index + 1) for index in rivals[:5])
            faults.append(f'columns {places} could all be {name!r}; keep one, or map the others to ""')
        found[best[1]] = known[name]
    for index, column in found.items():
        unit = units[index]
        if unit and column.units and not _keeps(column, unit):
            faults.append(
                f"column {index + 1}, {table.columns[index]!r}: {unit[:20]!r} is not a unit of {column.name}; "
                f"use {' or '.join(column.units)}"
            )
    if faults:
        raise Refused(f"{table.name}: the columns cannot be used", faults)
    return found


def units_of(table: Table, column_map: Mapping[str, str]) -> tuple[str, ...]:
    """The unit of every column: as the column map says, else as the table does; "" where neither does.

    >>> from asplayed.catalogue.tables import read_table
    >>> units_of(read_table(b"Ball V,Carry [m]\\n140,200\\n"), {"Ball V": "ball speed [mph]"})
    ('mph', 'm')
    """
    said = {_bare(theirs): split_unit(ours)[1] for theirs, ours in _map_of(table, column_map, whole=True).items()}
    return tuple(said.get(_bare(name)) or unit for name, unit in zip(table.columns, table.units, strict=True))


def _map_of(table: Table, column_map: Mapping[str, str], *, whole: bool = False) -> dict[str, str]:
    """The column map by the table's names without their units, leading to names without theirs unless `whole`."""
    present = {_bare(name) for name in table.columns}
    return {
        theirs if _bare(theirs) in present else split_unit(theirs)[0]: ours if whole else split_unit(ours)[0]
        for theirs, ours in column_map.items()
    }


def _keeps(column: Column, unit: str) -> str | None:
    """The unit a figure in `unit` is kept in, or None when the column does not measure such a thing."""
    given = find_unit(unit)
    for kept in column.units:
        if given is not None and (there := find_unit(kept)) is not None and there.dimension == given.dimension:
            return kept
    return None


def clean(cell: str) -> str:
    """A cell's text on one line, without invisible marks and without the guard of a spreadsheet export.

    >>> clean("'=1+1"), clean(" two\\nlines ")
    ('=1+1', 'two lines')
    """
    if not cell.isprintable():
        cell = _INVISIBLE.sub("", cell)
    cell = " ".join(cell.split())
    return cell[1:] if cell.startswith("'") and _GUARDED.match(cell) else cell


def guard(text: str) -> str:
    """A cell that no spreadsheet runs: text that begins like a formula gets an apostrophe; numbers stay numbers.

    >>> guard("=1+1"), guard("-0.75"), guard("N-")
    ("'=1+1", '-0.75', 'N-')
    """
    return f"'{text}" if _RISKY.match(text) and not _PLAIN_NUMBER.match(text) else text


def _number(column: Column, text: str, unit: str) -> Measure | str:
    if text.casefold() in _NOTHING:
        return ""
    try:
        quantity = read_quantity(text)
    except BadInput as fault:
        return str(fault) if len(text) < 40 else f"{text[:40]!r}… is not a number"
    given = quantity.unit or unit or column.units[0]
    kept = _keeps(column, given)
    if kept is None:
        return f"{text!r} is not in {' or '.join(column.units)}"
    value = float(quantity.value)
    value = round(value if find_unit(given) == find_unit(kept) else convert(value, given, kept), 9)
    if column.possible and not column.possible[0] <= value <= column.possible[1]:
        low, high = column.possible
        return f"{text} {'' if quantity.unit else given} cannot be; it lies from {low:g} to {high:g} {kept}"
    return Measure(value, kept)


def _date(text: str) -> str | None:
    """An ISO date as precise as it was written, or None."""
    match = _DATE.match(text)
    if match is None:
        return None
    year, month, day = match.groups()
    try:
        datetime.date(int(year), int(month or 1), int(day or 1))
    except ValueError:
        return None
    return "-".join([year, *(f"{int(part):02}" for part in (month, day) if part)])


def _reader(column: Column, unit: str) -> Callable[[str], tuple[Value | None, str | None]]:
    """What reads one cell of a column, remembering what it has read: (value, None), (None, fault) or (None, None)."""
    seen: dict[str, tuple[Value | None, str | None]] = {}

    def understood(text: str) -> tuple[Value | None, str | None]:
        if not text:
            return None, None
        if not text.isprintable():
            return None, f"{text[:40]!r} holds characters that cannot be shown; remove them"
        if column.kind == "number":
            found = _number(column, text[:200], unit)
            return (found, None) if isinstance(found, Measure) else (None, found or None)
        if column.kind == "date":
            if text.casefold() in _NOTHING:
                return None, None
            date = _date(text)
            return (date, None) if date else (None, f"{text[:40]!r} is not a date; write it as 2024-03 or 2024-03-15")
        if column.kind == "list":
            return tuple(filter(None, (" ".join(piece.split()) for piece in text.split(";")))) or None, None
        if column.kind == "choice":
            kept = column.choices.get(text.casefold())
            if kept is None and text.casefold() in _NOTHING:
                return None, None
            if kept is None and not column.open:
                return None, f"{text[:40]!r} is not known; use {', '.join(dict.fromkeys(column.choices.values()))}"
            return kept or text, None
        return text, None

    def read(cell: str) -> tuple[Value | None, str | None]:
        if cell in seen:
            return seen[cell]
        answer = understood(clean(cell))
        if len(seen) < 50_000:
            seen[cell] = answer
        return answer

    return read


def understand(
    table: Table,
    known: Mapping[str, Column],
    *,
    column_map: Mapping[str, str] | None = None,
    needed: tuple[str, ...] = (),
    fill: Mapping[str, str] | None = None,
) -> Iterator[Entry]:
    """The rows of a table with their values checked; an unknown column becomes a note of its row.

    `fill` gives a value to rows whose cell is empty or whose column is missing. A needed column that is neither
    there nor filled refuses the table; a needed cell that is empty is a fault of its row.
    """
    assigned = assign(table, known, column_map or {})
    units = units_of(table, column_map or {})
    readers = {index: (column.name, _reader(column, units[index])) for index, column in assigned.items()}
    filled: dict[str, Value] = {}
    for name, text in (fill or {}).items():
        if name not in known:
            raise BadInput(f"there is no column {name[:60]!r} to fill; known columns are {', '.join(known)}")
        value, fault = _reader(known[name], "")(text)
        if fault:
            raise BadInput(f"{name}: {fault}")
        if value is not None:
            filled[name] = value
    missing = [name for name in needed if name not in filled and name not in {c.name for c in assigned.values()}]
    if missing:
        there = ", ".join(repr(name[:40]) for name in table.columns[:12])
        raise BadInput(
            f"{table.name} has no column {' and no column '.join(map(repr, missing))}; its first row names {there}; "
            "rename a column, or say which is which with a column map"
        )
    notes = {
        index: clean(f"{name} [{table.units[index]}]" if table.units[index] else name) or f"column {index + 1}"
        for index, name in enumerate(table.columns)
        if index not in assigned
    }
    return _entries(table, readers, notes, filled, needed)


def _entries(
    table: Table,
    readers: Mapping[int, tuple[str, Callable[[str], tuple[Value | None, str | None]]]],
    notes: Mapping[int, str],
    filled: Mapping[str, Value],
    needed: tuple[str, ...],
) -> Iterator[Entry]:
    width = len(table.columns)
    for line, cells in table.rows:
        values: dict[str, Value] = dict(filled)
        kept: dict[str, str] = {}
        faults: list[str] = []
        for index, cell in enumerate(cells[:width]):
            if not cell:
                continue
            if index in readers:
                name, read = readers[index]
                value, fault = read(cell)
                if fault:
                    faults.append(f"{name}: {fault}")
                elif value is not None:
                    values[name] = value
            elif text := clean(cell):
                name = notes[index]
                if text.isprintable():
                    kept[name] = f"{kept[name]}; {text}" if name in kept else text
                else:
                    faults.append(f"{name[:40]}: {text[:40]!r} holds characters that cannot be shown; remove them")
        if any(clean(cell) for cell in cells[width:]):
            faults.append(f"it has {len(cells)} cells where the first row names {width} columns")
        faults.extend(f"{name} is empty; every row needs it" for name in needed if name not in values)
        yield Entry(line, values, kept, faults)
