"""The ground around a hole, as strokes: what is left to play from wherever a ball comes to rest.

Places are in metres from the hole: x along the line of play (− short of the hole), y across it (+ right). On the green
a ball is putted; short of it the fairway is a strip of one width; elsewhere lies rough; a share of the ground around
the green is sand; hazards are strips. Strokes to hole out are touring professionals', of `mechanics.scoring`.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Any, Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.mechanics.scoring import baselines

Numbers = NDArray[np.float64]
HazardKind = Literal["water", "out", "sand"]
YARD = 0.9144


class Hazard(NamedTuple):
    """A strip beside or across the line: its ends along the line (m from the hole, − short), its edges (m, + right)."""

    kind: HazardKind
    start: float
    end: float
    left: float
    right: float


class Ground(NamedTuple):
    """The ground of a hole: width of the fairway, radius of the green (m), share of sand around it, and hazards."""

    fairway: float = 30 * YARD
    green: float = 12.5 * YARD
    sand: float = 0.2
    hazards: tuple[Hazard, ...] = ()


@cache
def figures() -> dict[str, Any]:
    """The figures of `data/ground.toml`."""
    return tomllib.loads(resources.files("asplayed.choosing").joinpath("data/ground.toml").read_text(encoding="utf-8"))


@cache
def _lines() -> dict[str, tuple[Numbers, Numbers]]:
    """Distances (m) and strokes by lie, drawn on to the hole and far beyond the published table."""
    found = {}
    for lie in ("fairway", "rough", "sand", "green"):
        table = baselines()[lie]
        distances, strokes = list(table.distances), list(table.strokes)
        if lie != "green":
            nearest = figures()["nearest"]
            distances.insert(0, nearest["distance"] * YARD)
            strokes.insert(0, nearest[lie])
            slope = (strokes[1] - strokes[0]) / (distances[1] - distances[0])
            strokes.insert(0, strokes[0] - slope * distances[0])
        else:
            strokes.insert(0, 1.0)
        distances.insert(0, 0.0)
        slope = (strokes[-1] - strokes[-2]) / (distances[-1] - distances[-2])
        strokes.append(strokes[-1] + slope * (2000.0 - distances[-1]))
        distances.append(2000.0)
        found[lie] = np.array(distances), np.array(strokes)
    return found


def strokes_from(lie: Literal["fairway", "rough", "sand", "green"], distance: Any) -> Numbers:
    """Strokes to hole out from a lie at a distance (m); beyond the published table its end lines are drawn on.

    >>> round(float(strokes_from("fairway", 160 * YARD)), 2), round(float(strokes_from("rough", 10 * YARD)), 2)
    (2.98, 2.34)
    """
    found: Numbers = np.interp(distance, *_lines()[lie])
    return found


def strokes_left(ground: Ground, x: Any, y: Any, *, cell: float = 0.0) -> Numbers:
    """Strokes to hole out from places on the ground of a hole (m from the hole: x − short, y + right), broadcasting.

    With a `cell` (m), the edges of green, fairway and hazards are drawn over so much: each place stands for the square
    around it.

    >>> usual = Ground()
    >>> [round(float(strokes_left(usual, -yards * YARD, 0.0)), 2) for yards in (5, 100)]
    [1.79, 2.8]
    >>> round(float(strokes_left(usual, -100 * YARD, 40.0)), 2)
    3.05
    """
    x, y = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    away = np.hypot(x, y)
    rough = strokes_from("rough", away)
    mown = _within(y, -ground.fairway / 2, ground.fairway / 2, cell) * _within(x, -np.inf, 0.0, cell)
    unmown = rough
    if ground.sand > 0:
        around = _within(away, -np.inf, ground.green + figures()["around"]["sand"] * YARD, cell)
        unmown = rough + ground.sand * around * (strokes_from("sand", away) - rough)
    found = unmown + mown * (strokes_from("fairway", away) - unmown)
    found += _within(away, -np.inf, ground.green, cell) * (strokes_from("green", away) - found)
    for hazard in ground.hazards:
        inside = _within(x, hazard.start, hazard.end, cell) * _within(y, hazard.left, hazard.right, cell)
        there = strokes_from("sand", away) if hazard.kind == "sand" else rough
        found += inside * (figures()["penalty"][hazard.kind] + there - found)
    return found


def _within(at: Numbers, low: float, high: float, cell: float) -> Numbers:
    """How much of a cell around each place lies between two edges, from 0 to 1."""
    if cell == 0.0:
        return ((at >= low) & (at <= high)).astype(np.float64)
    covered: Numbers = np.clip((np.minimum(at + cell / 2, high) - np.maximum(at - cell / 2, low)) / cell, 0.0, 1.0)
    return covered
