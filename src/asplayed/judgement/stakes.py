"""Strokes at stake: what a miss costs by professionals' strokes to hole out, and what a finding costs a round."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from typing import Any

import numpy as np
from numpy.typing import NDArray

from asplayed.mechanics.scoring import baselines, strokes
from asplayed.quantities import Figure, Source, figure

Numbers = NDArray[np.float64]
YARD = 0.9144


@cache
def frequencies() -> dict[str, float]:
    """The figures of `data/stakes.toml`."""
    text = resources.files("asplayed.judgement").joinpath("data/stakes.toml").read_text(encoding="utf-8")
    return {name: float(value) for name, value in tomllib.loads(text).items()}


@cache
def _left() -> tuple[Numbers, Numbers]:
    green, rough = baselines()["green"], baselines()["rough"]
    near = [
        (d, s) for d, s in zip(green.distances, green.strokes, strict=True) if d <= frequencies()["green"] * YARD + 1e-9
    ]
    far = list(zip(rough.distances, rough.strokes, strict=True))
    distances, expected = zip(*near, *far, strict=True)
    return np.array(distances), np.array(expected)


def strokes_left(distance: Any) -> Any:
    """Strokes to hole out from so far away (m): putts near the hole, then out of the rough; straight lines between.

    Source: Broadie 2011 and 2014, by `mechanics.scoring`; outside the tables their ends hold.

    >>> round(float(strokes_left(30 * 0.3048)), 3), round(float(strokes_left(20 * 0.9144)), 2)
    (1.978, 2.59)
    """
    distances, expected = _left()
    return np.interp(distance, distances, expected)


def cost_of_aim(landings: Numbers, along: float, across: float = 0.0) -> float:
    """Strokes a shot more when the middle of these landings (carry, side; m) lies so far off the target than on it."""
    here = landings - landings.mean(axis=0)
    off = np.hypot(here[:, 0] + along, here[:, 1] + across)
    on = np.hypot(here[:, 0], here[:, 1])
    return float(np.mean(strokes_left(off)) - np.mean(strokes_left(on)))


def cost_of_hole(longer: Numbers, shorter: Numbers, gap: float) -> float:
    """Strokes a shot lost, on average over the distances of a gap (m), for want of a club in its middle."""
    steps: Sequence[float] = np.linspace(0.0, gap, 9).tolist()

    def nearest(clubs: Sequence[tuple[float, Numbers]], at: float) -> float:
        away, landings = min(clubs, key=lambda pair: abs(pair[0] - at))
        return cost_of_aim(landings, away - at)

    two = [(0.0, shorter), (gap, longer)]
    three = [*two, (gap / 2, shorter)]
    return float(np.mean([nearest(two, at) - nearest(three, at) for at in steps]))


def share_of_approaches(width: float) -> float:
    """How many approach shots a round are left at the distances of a stretch so wide (m)."""
    table = frequencies()
    return table["approaches"] * min(1.0, width / YARD / (table["farthest"] - table["nearest"]))


def cost_of_drive(lost: float) -> float:
    """Strokes a drive lost with so much length (m), on a usual hole from the fairway."""
    rest = frequencies()["hole"] * YARD - 230 * YARD
    return float(strokes("fairway", rest + min(lost, rest)) - strokes("fairway", rest))


_SHOTS = 400  # of the single shots of a club, as many as the strokes of a whole set are taken over
_WIDE = 15.0 * YARD  # half of a usual fairway


def strokes_of(landings: Mapping[str, Numbers], runs: Mapping[str, float]) -> float:
    """Strokes a round that full shots of a set cost: drives with its longest club, approaches with the best club each.

    `landings` are (carry, side) in m by club, `runs` how far each runs (m). Comparable between what-ifs of one player,
    no score: short game, putting and trouble are the table's. Source of the strokes: as `strokes_left`.
    """
    table = frequencies()
    shots = {name: each[:_SHOTS] + np.array([max(0.0, runs[name]), 0.0]) for name, each in landings.items()}
    targets = np.arange(table["nearest"], table["farthest"] + 1, 10.0) * YARD
    costs = []
    for each in shots.values():
        # The player aims so that the middle of his shots lies on the target, as near as full shots allow.
        off = each[None, :, 0] - targets[:, None]
        costs.append(np.mean(strokes_left(np.hypot(off, each[None, :, 1])), axis=1))
    approaches = float(np.mean(np.min(np.array(costs), axis=0)))
    longest = max(shots.values(), key=lambda each: float(np.median(each[:, 0])))
    rest = np.maximum(table["hole"] * YARD - longest[:, 0], 20 * YARD)
    straight = np.abs(longest[:, 1]) <= _WIDE
    drives = float(np.mean(np.where(straight, strokes("fairway", rest), strokes("rough", rest))))
    return table["drives"] * drives + table["approaches"] * approaches


def a_round(value: float) -> Figure:
    """Strokes a round as a figure."""
    why = "strokes a round by professionals' strokes to hole out; how often it is asked for is assumed"
    return figure(round(max(0.0, value), 3), "strokes", Source.COMPUTED, why=why)
