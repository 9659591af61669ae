"""Where shots are struck: the air, the wind and the ground of a place, and what was taken for what nobody said."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any, Literal, NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.air import air
from asplayed.mechanics.ground import AVERAGE_ROLLING_RESISTANCE
from asplayed.players.inference import Weather
from asplayed.players.records import Conditions, Ground
from asplayed.quantities import Figure, Source, figure, from_si, read_quantity, to_si, unit_named

# What the figures of a place may be, and what is taken where none is given.
_RANGES = {
    "temperature": ("degF", -20.0, 130.0),
    "humidity": ("percent", 0.0, 100.0),
    "altitude": ("ft", -1500.0, 15000.0),
    "pressure": ("hPa", 550.0, 1100.0),
    "wind_along": ("mph", -60.0, 60.0),
    "wind_across": ("mph", -60.0, 60.0),
    "landing_height": ("yd", -60.0, 60.0),
}
_WRITTEN = {"degF": "°F", "percent": "%"}
_USUAL = {"temperature": (70.0, "degF"), "humidity": (50.0, "percent"), "altitude": (0.0, "ft")}
# Rolling resistance and turf by how the ground plays: Penner 2002 gives 0.065 (fast) to 0.196 (slow), 0.131 between.
_GROUNDS: dict[Ground, tuple[float, Literal["yielding", "hard"]]] = {
    "soft": (0.196, "yielding"),
    "normal": (AVERAGE_ROLLING_RESISTANCE, "yielding"),
    "firm": (0.098, "yielding"),
}


class Place(NamedTuple):
    """A place as a ball meets it: weather in SI, the ground, the figures it was made from, and what was assumed."""

    weather: Weather
    rolling_resistance: float
    turf: Literal["yielding", "hard"]
    conditions: Conditions
    assumed: tuple[str, ...]


def conditions_said(
    said: Mapping[str, str | None], called: Mapping[str, tuple[str, str]], ground: Ground | None = None
) -> Conditions:
    """The conditions in texts, each figure with its unit; what no air can be is refused.

    `said` leads from a field of `Conditions` to its text, `called` to how the asker names it and an example.

    >>> conditions_said({"temperature": "15 degC"}, {"temperature": ("the air", "70degF")}).temperature.value
    15.0
    """
    found: dict[str, Any] = {}
    for field, (name, example) in called.items():
        if (text := said.get(field)) is None:
            continue
        quantity = read_quantity(text)
        if not quantity.unit:
            raise BadInput(f"{name} {text[:60]!r} has no unit; write it as {example}")
        found[field] = figure(float(quantity.value), quantity.unit, Source.STATED)
    made = Conditions(**found, ground=ground)
    place_of(made, [])
    return made


def place_of(asked: Conditions | None, known: Sequence[Conditions], home: Conditions | None = None) -> Place:
    """The place asked about; what it leaves open is that of the newest session, else of the player's home, else usual.

    A session's wind and landing height are its own and carry over like its air.

    >>> from asplayed.quantities import figure
    >>> round(place_of(Conditions(temperature=figure(20, "degC", "stated")), []).weather.density, 3)
    1.199
    """
    given = [each for each in (asked, *reversed(known[-1:]), home) if each is not None]
    found: dict[str, Figure] = {}
    ground: Ground | None = None
    for each in given:
        # an altitude and a pressure both say how thick the air is: the nearer record's one stands
        for name in _RANGES:
            entry = getattr(each, name)
            rival = {"altitude": "pressure", "pressure": "altitude"}.get(name)
            if (
                entry is not None
                and name not in found
                and (rival not in found or getattr(each, rival or "") is not None)
            ):
                found[name] = _checked(name, entry)
        ground = ground or each.ground
    assumed = []
    for name, (value, unit) in _USUAL.items():
        if name not in found and not (name == "altitude" and "pressure" in found):
            found[name] = figure(value, unit, Source.ASSUMED, why="nobody said; the usual air of such figures")
            assumed.append(f"{name} not said: {value:g} {_WRITTEN.get(unit, unit)}")
    made = air(
        to_si(found["temperature"].number, found["temperature"].unit),
        to_si(found["humidity"].number, found["humidity"].unit),
        altitude=to_si(found["altitude"].number, found["altitude"].unit) if "pressure" not in found else None,
        pressure=to_si(found["pressure"].number, found["pressure"].unit) if "pressure" in found else None,
    )
    wind_along, wind_across, height = (
        to_si(found[name].number, found[name].unit) if name in found else 0.0
        for name in ("wind_along", "wind_across", "landing_height")
    )
    resistance, turf = _GROUNDS[ground or "normal"]
    return Place(
        Weather(float(made.density), float(made.viscosity), wind_along, wind_across, height),
        resistance,
        turf,
        Conditions(**found, ground=ground),
        tuple(assumed),
    )


def _checked(name: str, entry: Figure) -> Figure:
    unit, low, high = _RANGES[name]
    words = name.replace("_", " ")
    if unit_named(entry.unit).dimension != unit_named(unit).dimension:
        raise BadInput(f"{words} is given in {entry.unit or 'no unit'}; write it in {unit} or the like")
    here = from_si(to_si(entry.number, entry.unit), unit)
    if not (math.isfinite(here) and low - 1e-9 <= here <= high + 1e-9):
        raise BadInput(f"{words} {here:.4g} {unit} cannot be; give {low:g} to {high:g} {unit}")
    return entry
