"""Strokes to hole out by lie and distance, and what a shot gained (`data/strokes_to_hole_out.csv` names the source)."""

from __future__ import annotations

import csv
import math
from bisect import bisect_right
from functools import cache
from importlib import resources
from typing import Any, Literal, NamedTuple, get_args

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept, refuse_where
from asplayed.quantities.units import from_si, to_si

Lie = Literal["tee", "fairway", "rough", "sand", "green"]


class Baseline(NamedTuple):
    """Strokes to hole out from one lie: distances (m, rising), strokes, and whether each is surely remembered."""

    distances: tuple[float, ...]
    strokes: tuple[float, ...]
    sure: tuple[bool, ...]
    unit: str


@cache
def baselines() -> dict[str, Baseline]:
    """The table, by lie."""
    text = resources.files("asplayed.mechanics").joinpath("data/strokes_to_hole_out.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
    found = {}
    for lie in get_args(Lie):
        here = [row for row in rows if row["lie"] == lie]
        found[lie] = Baseline(
            tuple(to_si(float(row["distance"]), row["unit"]) for row in here),
            tuple(float(row["strokes"]) for row in here),
            tuple(row["sure"] == "yes" for row in here),
            here[0]["unit"],
        )
    return found


def strokes(lie: Lie, distance: Numbers) -> Numbers:
    """Expected strokes to hole out for a tour professional, from a lie at a distance (m); straight lines between rows.

    Outside the table's distances it is refused with its range.

    >>> strokes("tee", 400 * 0.9144), round(strokes("sand", 50 * 0.9144), 3)
    (3.99, 2.985)
    """
    table = baselines().get(lie)
    if table is None:
        raise BadInput(f"lie is {lie!r}; give one of {', '.join(get_args(Lie))}")
    m, distance = accept(distance=distance)
    first, last = table.distances[0], table.distances[-1]
    slack = 1e-9 * last
    low, high = from_si(first, table.unit), from_si(last, table.unit)
    outside = (distance < first - slack) | (distance > last + slack)
    refuse_where(m, outside, f"distance is outside the table for {lie}; give {low:g} to {high:g} {table.unit}")
    if m is not math:
        return m.interp(distance, table.distances, table.strokes)
    i = min(max(bisect_right(table.distances, distance), 1), len(table.distances) - 1)
    (x1, x2), (y1, y2) = table.distances[i - 1 : i + 1], table.strokes[i - 1 : i + 1]
    share = (distance - x1) / (x2 - x1)
    return y1 * (1 - share) + y2 * share


def surely_remembered(lie: Lie, distance: float) -> bool:
    """Whether the rows behind an expectation at this distance (m) are surely remembered.

    >>> surely_remembered("rough", 350 * 0.9144)
    False
    """
    strokes(lie, distance)
    table = baselines()[lie]
    i = min(max(bisect_right(table.distances, distance), 1), len(table.distances) - 1)
    ends: Any = table.sure[i - 1 : i + 1]
    return all(ends)


def strokes_gained(lie: Lie, distance: Numbers, next_lie: Lie | None, next_distance: Numbers = 0.0) -> Numbers:
    """Strokes gained by one shot from one place to the next (m); `next_lie` None when it is holed; broadcasting.

    >>> yard = 0.9144
    >>> round(strokes_gained("tee", 400 * yard, "rough", 180 * yard), 2)
    -0.32
    """
    left = 0.0 if next_lie is None else strokes(next_lie, next_distance)
    return strokes(lie, distance) - left - 1
