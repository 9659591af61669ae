"""Few-shot statistics held against worked figures, a published table of drives, and SciPy and statsmodels."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import scipy.integrate
import scipy.stats
import statsmodels.robust
from ledger import Ledger, Row, data

from asplayed.mechanics.statistics import (
    covariance,
    ellipse,
    ellipse_factor,
    gap,
    location,
    mean_interval,
    median_interval,
    modified_z,
    shots_needed,
    spread,
)

LEDGER = Ledger("statistics.csv", "Statistics of few shots", "Robust spread, gaps, ellipses and intervals.")
FIVE = [151, 148, 153, 150, 118]
EIGHT = [231, 233, 229, 234, 150, 232, 236, 228]


def drives() -> list[float]:
    return [float(row["distance_yd"]) for row in data("drives.csv")]


@LEDGER.gives("10.1 median", "10.1 mad", "10.1 scale", "10.1 z", "10.1 flagged")
def _() -> tuple[Any, ...]:
    found = spread(FIVE)
    return found.median, found.mad, found.scale, modified_z(FIVE)[4], found.flagged == (4,)


@LEDGER.gives("10.2 swap", "10.2 overlap", "10.3")
def _() -> tuple[float, ...]:
    return (*gap(12.0, 6.0, 6.0), gap(10.0, 5.0, 7.0).swap_probability)


@LEDGER.gives("10.4", "10.5 50", "10.5 90", "10.5 95", "10.6")
def _() -> tuple[Any, ...]:
    plain = ellipse(((64.0, 0.0), (0.0, 144.0)), 0.95)
    alike = True
    for turn in (0.3, 1.1, 2.5):
        c, s = math.cos(turn), math.sin(turn)
        xy = c * s * (144.0 - 64.0)
        turned = ellipse(((64 * c * c + 144 * s * s, xy), (xy, 64 * s * s + 144 * c * c)), 0.95)
        alike &= all(abs(a - b) < 1e-9 * b for a, b in zip(turned[:2], plain[:2], strict=True))
        alike &= abs(turned.area - plain.area) < 1e-9 * plain.area
    return (plain.area, *(ellipse_factor(share) for share in (0.5, 0.9, 0.95)), alike)


@LEDGER.gives("10.7")
def _() -> bool:
    found = spread([160.0] * 6)
    return found.flagged == () and found.scale == 0 and found.note is not None and modified_z([160.0] * 6) == (0.0,) * 6


@LEDGER.gives("order 5", "order 6", "needed")
def _() -> tuple[float, ...]:
    return median_interval(FIVE).coverage, median_interval([*FIVE, 149]).coverage, shots_needed(5, 8)


@LEDGER.gives("drives mean", "drives sd", "drives median", "drives mad", "drives z", "drives needed")
def _() -> tuple[float, ...]:
    shots = drives()
    found = spread(shots)
    middle = sum(mean_interval(shots)[:2]) / 2
    return (
        middle,
        math.sqrt(covariance(shots, shots)[0][0]),
        found.median,
        found.mad,
        min(modified_z(shots)),
        shots_needed(10, _within_cells()),
    )


def _within_cells() -> float:
    """Standard deviation within golfer and ball, 30 degrees of freedom."""
    cells: dict[tuple[str, str], list[float]] = {}
    for row in data("drives.csv"):
        cells.setdefault((row["golfer"], row["ball"]), []).append(float(row["distance_yd"]))
    squares = sum(covariance(shots, shots)[0][0] * (len(shots) - 1) for shots in cells.values())
    return math.sqrt(squares / 30)


@LEDGER.compares("mad library", "mean library", "hotelling", "overlap library", "trimmed")
def _() -> tuple[tuple[float, float], ...]:
    kept = [shot for shot in EIGHT if shot != 150]
    low, high, _ = mean_interval(kept)
    student = scipy.stats.t.interval(0.95, len(kept) - 1, np.mean(kept), scipy.stats.sem(kept))
    n = 8
    hotelling = 2 * (n - 1) * (n + 1) / (n * (n - 2)) * scipy.stats.f.ppf(0.9, 2, n - 2)
    both = scipy.integrate.quad(
        lambda x: min(scipy.stats.norm.pdf(x, 11, 5), scipy.stats.norm.pdf(x, 0, 9)), -70, 80, limit=500, epsabs=1e-12
    )[0]
    twelve = [*EIGHT, 240, 221, 233, 230]
    return (
        (float(statsmodels.robust.mad(EIGHT)), spread(EIGHT).scale),
        ((student[1] - student[0]) / 2, (high - low) / 2),
        (hotelling, ellipse_factor(0.9, n)),
        (both, gap(11.0, 5.0, 9.0).overlap),
        (float(scipy.stats.trim_mean(twelve, 0.2)), location(twelve, mishits=False)),
    )


@LEDGER.gives("covers")
def _() -> float:
    samples = np.random.default_rng(19).normal(0, 1, (4000, 7))
    intervals = [median_interval(list(sample), 0.97) for sample in samples]
    return sum(low <= 0 <= high for low, high, _ in intervals) / len(intervals)


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
