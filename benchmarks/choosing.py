"""Choosing: expected strokes of many clubs, and the best set of them beside SciPy's HiGHS on the same instance.

Costs are smooth as computed, and rough as by 400 drawn shots a club and situation (an evenly drawn error up to 0.1
strokes). HiGHS gets the whole program at 500 clubs, with a column for each club and situation.
"""

from __future__ import annotations

import resource
import time
from typing import Any

import numpy as np

from asplayed.choosing.choice import Entrant, Limits, Progress, best_set
from asplayed.choosing.cost import Pattern, expected_strokes
from asplayed.choosing.demand import Situation, default_demand
from benchmarks import Line, best_time

TITLE = "Choosing"
SITUATIONS = 60


def clubs(count: int, seed: int = 0) -> Pattern:
    """Clubs from driver to wedge, with spreads of their own."""
    chance = np.random.default_rng(seed)
    loft = chance.uniform(9, 60, count)
    carry = np.interp(loft, [9, 60], [225, 75]) + chance.normal(0, 4, count)
    depth, width = carry * chance.uniform(0.04, 0.07, count), carry * chance.uniform(0.03, 0.07, count)
    nothing = np.zeros(count)
    return Pattern(
        carry, carry * 0.08, nothing, depth, width, chance.uniform(-0.6, 0.6, count), nothing, np.radians(loft)
    )


def asked() -> list[Situation]:
    """The sixty situations that a usual round asks for most."""
    return sorted(default_demand(230.0, 8.0), key=lambda each: -each.weight)[:SITUATIONS]


def entrants(patterns: Pattern) -> list[Entrant]:
    """The clubs and a putter, five settings to a club."""
    names: Any = ("driver", "fairway wood", "iron", "wedge")
    kinds = [names[int(np.searchsorted([13, 20, 47], loft))] for loft in np.degrees(patterns.loft)]
    made = [
        Entrant(f"club {n // 5}", f"club {n // 5}", kind, carry=float(patterns.carry[n]))
        for n, kind in enumerate(kinds)
    ]
    return [*made, Entrant("putter", "putter", "putter")]


def whole(costs: Any, weights: Any, entered: list[Entrant]) -> float:
    """The best set by SciPy's HiGHS on the plain program: strokes a round."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array, csr_array, eye_array, hstack, kron, vstack

    count, situations = len(entered) - 1, len(weights)
    served = (costs[:count] * weights).ravel()
    pairs = count * situations
    once = kron(np.ones((1, count)), eye_array(situations))
    chosen = coo_array((-np.ones(pairs), (np.arange(pairs), np.repeat(np.arange(count), situations))))
    play = csr_array(vstack([
        coo_array(np.hstack([np.ones((1, count)), np.zeros((1, pairs))])),
        coo_array(np.hstack([[[float(e.kind == "driver") for e in entered[:count]]], np.zeros((1, pairs))])),
    ]))  # fmt: skip
    places = np.array([n // 5 for n in range(count)])
    versions = coo_array((np.ones(count), (places, np.arange(count))), shape=(places.max() + 1, count + pairs))
    matrix = vstack(
        [play, versions, hstack([coo_array((situations, count)), once]), hstack([chosen, eye_array(pairs)])]
    )
    high = np.concatenate([[13, 1], np.ones(places.max() + 1), np.ones(situations), np.zeros(pairs)])
    low = np.concatenate([np.full(3 + places.max(), -np.inf), np.ones(situations), np.full(pairs, -np.inf)])
    answer = milp(
        np.concatenate([np.zeros(count), served]),
        integrality=np.concatenate([np.ones(count, dtype=np.int64), np.zeros(pairs, dtype=np.int64)]),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(csr_array(matrix), low, high),
        options={"mip_rel_gap": 0.0, "time_limit": 120.0},
    )
    return float(answer.fun)


def measure() -> list[Line]:
    """Costs, then best sets smooth and rough, with the first answer, the gap and the memory."""
    situations = asked()
    weights = np.array([each.weight for each in situations])
    memory = 0.0
    many = clubs(5000)
    expected_strokes(many.where(slice(10)), situations)
    found = expected_strokes(many, situations, part_swings=False)
    full = best_time(lambda: expected_strokes(many, situations, part_swings=False), 3)
    both = best_time(lambda: expected_strokes(many, situations), 3)
    lines = [
        Line("5,000 clubs × 60 situations, full shots", full, "s", "≤ 0.2", full <= 0.2, "correlated spread"),
        Line("with part swings", both, "s"),
        Line("stated error", found.error, "strokes", "≤ 1e-3", found.error <= 1e-3),
    ]
    for count in (5000, 500):
        patterns = clubs(count)
        smooth = expected_strokes(patterns, situations).strokes
        for words, rough, goal in (("smooth", 0.0, 0.5), ("rough", 0.1, 30.0)):
            costs = smooth + np.random.default_rng(1).uniform(0, rough, smooth.shape) if rough else smooth
            table = np.vstack([costs, np.full(SITUATIONS, np.inf)])
            entered = entrants(patterns)
            told: list[tuple[float, Progress]] = []
            start = time.perf_counter()
            choice = best_set(
                table, weights, entered, Limits(), alternatives=0, worth=False, fronts=False, seconds=60.0,
                on_progress=lambda each, told=told: told.append((time.perf_counter(), each)),  # type: ignore[misc]
            )  # fmt: skip
            taken = time.perf_counter() - start
            what = f"best of {count:,}, {words}"
            lines.append(Line(what, taken, "s", f"≤ {goal:g}", taken <= goal and choice.optimal))
            lines.append(Line("its gap", choice.gap, "strokes", "0", choice.optimal))
            first = told[0][0] - start
            lines.append(
                Line(
                    "its first answer",
                    first,
                    "s",
                    "≤ 0.1",
                    first <= 0.1,
                    f"{told[0][1].strokes - choice.strokes:.4f} strokes off",
                )
            )
            if count == 500:
                memory = memory or resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
                start = time.perf_counter()
                theirs = whole(table, weights, entered)
                plain = time.perf_counter() - start
                lines.append(
                    Line("SciPy's HiGHS on the same", plain, "s", note=f"{theirs - choice.strokes:+.1e} strokes")
                )
                lines.append(Line("ratio", plain / taken, "×"))
    lines.append(Line("memory, at the most", memory, "MB", "< 300", memory < 300, "before HiGHS is handed the whole"))
    return lines
