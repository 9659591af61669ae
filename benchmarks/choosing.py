"""Choosing: expected strokes of many clubs, and the best set of them beside SciPy's HiGHS on the same instance.

Costs are smooth as computed, and rough as by 400 drawn shots a club and situation (an evenly drawn error up to 0.1
strokes). HiGHS gets the whole program, with a column for each club and situation; at 5,000 clubs it is left after a
minute. With an error up to 0.3 strokes, as by fifty drawn shots, 5,000 clubs are not proven within a minute; the gap is
then what is measured.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import numpy as np

from asplayed.choosing.choice import Entrant, Limits, Progress, best_set
from asplayed.choosing.cost import Pattern, expected_strokes
from asplayed.choosing.demand import Situation, default_demand
from benchmarks import Line, best_time

TITLE = "Choosing"
SITUATIONS = 60
PATIENCE = 60.0  # s, for either solver


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


def whole(costs: Any, weights: Any, entered: list[Entrant]) -> float | None:
    """The best set by SciPy's HiGHS on the plain program: strokes a round; None where it has not proven one in time."""
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
        options={"mip_rel_gap": 0.0, "time_limit": PATIENCE},
    )
    return float(answer.fun) if answer.status == 0 else None


def peak() -> float:
    """The most memory this process has had, in MB; what its parent had when it was begun is not counted."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return int(status.split("VmHWM:")[1].split()[0]) / 1024


def alone(words: str) -> None:
    """Prove the best of 5,000 and print the most memory before and after, in MB: for a process of its own."""
    situations, patterns = asked(), clubs(5000)
    costs = expected_strokes(patterns, situations).strokes
    if words == "rough":
        costs = costs + np.random.default_rng(1).uniform(0, 0.1, costs.shape)
    table = np.vstack([costs, np.full(SITUATIONS, np.inf)])
    before = peak()
    weights = np.array([each.weight for each in situations])
    best_set(table, weights, entrants(patterns), Limits(), alternatives=0, worth=False, fronts=False, seconds=PATIENCE)
    print(before, peak())


def memory_alone(words: str) -> tuple[float, float]:
    """The most memory of a process that does nothing else, in MB: with the costs reckoned, and with the set proven."""
    code = f"from benchmarks.choosing import alone; alone({words!r})"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    before, after = done.stdout.split()
    return float(before), float(after)


def measure() -> list[Line]:
    """Costs, then best sets smooth and rough, with the first answer, the gap and the memory."""
    situations = asked()
    weights = np.array([each.weight for each in situations])
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
        for words, rough, goal in (("smooth", 0.0, 0.5), ("rough", 0.1, 30.0), ("rougher", 0.3, None)):
            if count == 500 and goal is None:
                continue
            costs = smooth + np.random.default_rng(1).uniform(0, rough, smooth.shape) if rough else smooth
            table = np.vstack([costs, np.full(SITUATIONS, np.inf)])
            entered = entrants(patterns)
            told: list[tuple[float, Progress]] = []
            start, worked = time.perf_counter(), time.process_time()
            choice = best_set(
                table, weights, entered, Limits(), alternatives=0, worth=False, fronts=False, seconds=PATIENCE,
                on_progress=lambda each, told=told: told.append((time.perf_counter(), each)),  # type: ignore[misc]
            )  # fmt: skip
            taken, worked = time.perf_counter() - start, time.process_time() - worked
            what = f"best of {count:,}, {words}"
            if goal is None:
                lines.append(Line(what, taken, "s", note=f"errors up to 0.3 strokes; {worked:.2f} s of processor time"))
                lines.append(Line("its gap", choice.gap, "strokes", note="proven" if choice.optimal else "not proven"))
                continue
            lines.append(
                Line(
                    what,
                    taken,
                    "s",
                    f"≤ {goal:g}",
                    taken <= goal and choice.optimal,
                    f"{worked:.2f} s of processor time",
                )
            )
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
            if count == 5000:
                before, most = memory_alone(words)
                lines.append(
                    Line(
                        "its memory in a process of its own", most, "MB", "< 300", most < 300, f"{before:.0f} before it"
                    )
                )
            if count == 500:
                start = time.perf_counter()
                theirs = whole(table, weights, entered)
                plain = time.perf_counter() - start
                said = "not proven in a minute" if theirs is None else f"{theirs - choice.strokes:+.1e} strokes"
                lines.append(Line("SciPy's HiGHS on the same", plain, "s", note=said))
                lines.append(Line("ratio", plain / taken, "×"))
    costs = np.vstack([expected_strokes(many, situations).strokes, np.full(SITUATIONS, np.inf)])
    start = time.perf_counter()
    theirs = whole(costs, weights, entrants(many))
    plain = time.perf_counter() - start
    said = "not proven in a minute" if theirs is None else "proven"
    lines.append(Line("SciPy's HiGHS on 5,000, smooth", plain, "s", note=said))
    lines.append(Line("memory with that, at the most", peak(), "MB"))
    return lines
