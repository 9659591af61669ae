"""The usual figures and tolerances of the trade: what is taken when nothing better is known, always marked so."""

from __future__ import annotations

import csv
import re
import tomllib
from collections.abc import Mapping
from functools import cache, lru_cache
from importlib import resources
from typing import Any, NamedTuple

import msgspec

from asplayed.clubs.records import Club
from asplayed.quantities import Figure, Parent, Source, convert

_UNITS = {"loft": "deg", "lie": "deg", "bounce": "deg", "length": "in", "head": "g"}
_SINGLE = {"head_height": "in", "shaft_length": "in"}


class Tolerance(NamedTuple):
    """How far off one kind of figure may be: as made, and as gauged, in `unit`."""

    unit: str
    made: float
    gauge: float


def _text(name: str) -> str:
    return resources.files("asplayed.clubs").joinpath("data", name).read_text(encoding="utf-8")


@cache
def tolerances() -> Mapping[str, Tolerance]:
    """The tolerances of `data/tolerances.toml` by the name of what they bound.

    >>> tolerances()["loft"]
    Tolerance(unit='deg', made=1.0, gauge=0.25)
    """
    return {name: Tolerance(**entry) for name, entry in tomllib.loads(_text("tolerances.toml")).items()}


@cache
def parts() -> Mapping[str, Any]:
    """The usual shafts, grips and fittings of `data/usual_parts.toml`."""
    return tomllib.loads(_text("usual_parts.toml"))


@cache
def _rows() -> Mapping[str, Mapping[str, str]]:
    lines = [line for line in _text("usual_clubs.csv").splitlines() if not line.startswith("#")]
    return {row["club"]: row for row in csv.DictReader(lines)}


@lru_cache(maxsize=1024)
def usual_row(club: str, kind: str) -> str:
    """The name of the row of usual figures that serves this club: its own, or its nearest relative's.

    >>> usual_row("7 iron", "iron"), usual_row("10 wood", "fairway wood"), usual_row("gap wedge", "iron")
    ('7 iron', '9 wood', 'gap wedge')
    """
    rows = _rows()
    if club in rows:
        return club
    number = re.match(r"\d+", club)
    relatives = [name for name, row in rows.items() if row["kind"] == kind]
    if number is None:
        return {"fairway wood": "3 wood", "hybrid": "4 hybrid", "driving iron": "3 driving iron", "iron": "7 iron"}.get(
            kind, "sand wedge" if kind == "wedge" else relatives[0]
        )
    numbered = [name for name in relatives if name[0].isdigit()] or relatives
    return min(numbered, key=lambda name: abs(int(re.sub(r"\D", "", name) or 0) - int(number[0])))


def usual(club: Club, what: str) -> Figure | None:
    """The usual figure for this club (`loft, lie, bounce, length, head, head_height, shaft_length`), or None.

    The band is the spread met in the trade; the source is always `common practice`.

    >>> seven = usual(Club(club="7 iron", kind="iron"), "length")
    >>> seven.value, seven.unit, seven.source.value
    (37.0, 'in', 'common practice')
    """
    name = usual_row(club.club, club.kind)
    row = _rows()[name]
    if not row[what]:
        return None
    why = f"usual for a {name}; nothing better is known"
    if what in _SINGLE:
        made = Figure(value=float(row[what]), unit=_SINGLE[what], source=Source.COMMON_PRACTICE, why=why)
        return made.within(0.1 if what == "head_height" else 1.0)
    low, value, high = (float(row[f"{what}{end}"]) for end in ("_low", "", "_high"))
    return Figure(value=value, unit=_UNITS[what], source=Source.COMMON_PRACTICE, low=low, high=high, why=why)


def common(entry: Mapping[str, Any], why: str) -> Figure:
    """A figure from a table entry `{value, low, high, unit}`, marked common practice."""
    return Figure(
        value=float(entry["value"]),
        unit=entry["unit"],
        source=Source.COMMON_PRACTICE,
        low=float(entry["low"]),
        high=float(entry["high"]),
        why=why,
    )


def settled(entry: Figure | None) -> Figure | None:
    """The figure with a number to reckon with: a bare range stands for its middle; nothing known stays None.

    >>> settled(Figure(value=None, unit="g", source=Source.STATED, low=105, high=120)).value
    112.5
    """
    if entry is None or entry.has_number:
        return entry
    if entry.value is not None or entry.low is None or entry.high is None:
        return None
    return Figure(
        value=(entry.low + entry.high) / 2,
        unit=entry.unit,
        source=Source.COMPUTED,
        low=entry.low,
        high=entry.high,
        why="middle of the range given",
        parents=(Parent("range", entry),),
    )


def banded(entry: Figure | None, what: str) -> Figure | None:
    """The figure with the band of its tolerance where it has none: the gauge's when measured, else as made.

    >>> stamp = Figure(value=56, unit="deg", source=Source.STATED)
    >>> banded(stamp, "loft").low
    55.0
    """
    entry = settled(entry)
    if entry is None or entry.low is not None:
        return entry
    bound = tolerances()[what]
    width = bound.gauge if entry.source is Source.MEASURED else bound.made
    if entry.unit != bound.unit:
        # a tolerance is a difference: scaled, never shifted
        width = convert(width, bound.unit, entry.unit) - convert(0.0, bound.unit, entry.unit)
    return msgspec.structs.replace(entry, low=entry.number - width, high=entry.number + width)
