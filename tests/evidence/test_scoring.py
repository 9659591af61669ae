"""Strokes to hole out and putts held against published figures."""

from __future__ import annotations

import math
from math import radians
from typing import Any

import pytest
from ledger import Ledger, Row

from asplayed.mechanics.putter import make_rate
from asplayed.mechanics.scoring import baselines, strokes, strokes_gained
from asplayed.mechanics.statistics import offline_spread

LEDGER = Ledger("scoring.csv", "Scoring and putting", "Strokes to hole out, strokes gained, and putts holed.")
YARD, FOOT = 0.9144, 0.3048

# Make rates by feet, single figures from Broadie 2018, "Two simple putting models in golf".
MAKE_RATES = {3: 0.9565, 4: 0.8689, 5: 0.7595, 6: 0.6513, 8: 0.4963, 10: 0.3841} | {
    15: 0.2274,
    20: 0.1496,
    30: 0.0718,
    40: 0.0420,
    50: 0.0265,
    60: 0.0210,
}


@LEDGER.gives("9.1", "fairway", "rough 80", "rough 180", "9.2", "green 8", "green 33")
def _() -> tuple[float, ...]:
    return (
        strokes("tee", 400 * YARD),
        strokes("fairway", 160 * YARD),
        strokes("rough", 80 * YARD),
        strokes("rough", 180 * YARD),
        strokes("sand", 50 * YARD),
        strokes("green", 8 * FOOT),
        strokes("green", 33 * FOOT),
    )


@LEDGER.gives("9.3", "9.4", "9.5 one", "9.5 two", "9.6")
def _() -> tuple[float, ...]:
    return (
        strokes_gained("tee", 400 * YARD, "fairway", 160 * YARD),
        strokes_gained("tee", 400 * YARD, "rough", 180 * YARD),
        strokes_gained("green", 8 * FOOT, None),
        strokes_gained("green", 8 * FOOT, None) - 1,
        offline_spread(250 * YARD, radians(3.4)) / YARD,
    )


@LEDGER.gives("9.8")
def _() -> bool:
    def falls(lie: str) -> list[float]:
        table = baselines()[lie]
        steps = zip(table.distances[1:], table.strokes, table.strokes[1:], strict=False)
        return [round(distance / YARD) for distance, before, after in steps if after < before]

    return (falls("fairway"), falls("rough"), falls("green"), falls("tee"), falls("sand")) == (
        [],
        [],
        [],
        [140],
        [100, 120],
    )


@LEDGER.gives("floor", "excess 20", "excess 40", "excess 60")
def _() -> tuple[Any, ...]:
    excess = {feet: strokes("green", feet * FOOT) - (2 - rate) for feet, rate in MAKE_RATES.items()}
    return all(more >= -0.003 for more in excess.values()), excess[20], excess[40], excess[60]


@LEDGER.gives("aim 5", "aim 10", "aim 20", "aim order")
def _() -> tuple[Any, ...]:
    professional = {feet: make_rate(feet * FOOT, radians(1.527)) for feet in (3, 5, 10, 20)}
    amateur = {feet: make_rate(feet * FOOT, radians(1.55)) for feet in professional}
    fewer = all(amateur[feet] < professional[feet] for feet in professional)
    return professional[5], professional[10], professional[20], fewer


def test_a_putt_of_no_length_is_holed() -> None:
    assert make_rate(0.0, radians(1.5)) == pytest.approx(1.0)
    assert math.isclose(make_rate(3.0, 0.0), 1.0)


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
