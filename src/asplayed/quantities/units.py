"""Units: one table (`data/units.toml`), and the two ways through the door, to SI and back."""

from __future__ import annotations

import tomllib
from functools import cache, lru_cache
from importlib import resources
from typing import NamedTuple

from asplayed.errors import BadInput


class Unit(NamedTuple):
    """A unit: its name, the dimension it measures, its size in SI and its zero (temperatures only)."""

    name: str
    dimension: str
    si: float
    offset: float


@cache
def _by_spelling() -> dict[str, Unit]:
    text = resources.files("asplayed.quantities").joinpath("data/units.toml").read_text(encoding="utf-8")
    found: dict[str, Unit] = {}
    for dimension, units in tomllib.loads(text).items():
        for name, entry in units.items():
            unit = Unit(name, dimension, entry["si"], entry.get("offset", 0.0))
            for spelling in (name, *entry.get("also", ())):
                if spelling in found:
                    raise AssertionError(f"units.toml spells both {found[spelling]} and {unit} as {spelling!r}")
                found[spelling] = unit
    return found


def find_unit(spelling: str) -> Unit | None:
    """The unit written as `spelling`, or None.

    >>> find_unit("°").name
    'deg'
    >>> find_unit("furlong") is None
    True
    """
    spelling = spelling.strip()
    table = _by_spelling()
    return table.get(spelling) or table.get(spelling.lower())


@lru_cache(maxsize=512)
def unit_named(spelling: str) -> Unit:
    """The unit written as `spelling`; an unknown one is refused with the nearest spellings.

    >>> unit_named("inches").si
    0.0254
    """
    found = find_unit(spelling)
    if found is None:
        import difflib

        near = difflib.get_close_matches(spelling.strip(), list(_by_spelling()), n=3)
        hint = f"; did you mean {' or '.join(near)}?" if near else ""
        raise BadInput(f"there is no unit {spelling.strip()!r}{hint}")
    return found


def units_of(dimension: str) -> tuple[str, ...]:
    """The names of the units of one dimension, as the table lists them.

    >>> units_of("speed")
    ('m/s', 'mph', 'km/h', 'ft/s', 'kn')
    """
    return tuple(dict.fromkeys(u.name for u in _by_spelling().values() if u.dimension == dimension))


def to_si(value: float, unit: str) -> float:
    """`value` in `unit` as SI (angles in radians, temperatures in kelvin).

    >>> round(to_si(145, "mph"), 4)
    64.8208
    >>> to_si(0, "degC")
    273.15
    """
    entry = unit_named(unit)
    return value * entry.si + entry.offset


def from_si(value: float, unit: str) -> float:
    """An SI `value` in `unit`; the inverse of `to_si`.

    >>> round(from_si(0.9398, "in"), 6)
    37.0
    """
    entry = unit_named(unit)
    return (value - entry.offset) / entry.si


def convert(value: float, unit: str, into: str) -> float:
    """`value` in `unit` as `into`; units of two dimensions are refused.

    >>> round(convert(1130, "mm", "in"), 4)
    44.4882
    """
    here, there = unit_named(unit), unit_named(into)
    if here.dimension != there.dimension:
        raise BadInput(
            f"{unit} measures {here.dimension.replace('_', ' ')} and cannot be turned into {into}; "
            f"use one of {', '.join(units_of(there.dimension))}"
        )
    if here == there:
        return value
    return from_si(to_si(value, here.name), there.name)
