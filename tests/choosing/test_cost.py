"""Expected strokes held against sums and draws written out here, and against published figures.

Broadie, Every Shot Counts (2014), table 5.2, gives touring professionals' strokes by lie and distance (from memory);
a touring professional's spread is 3 to 5 % of the distance each way (common practice).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.choosing.cost import Pattern, expected_strokes
from asplayed.choosing.demand import Situation
from asplayed.choosing.ground import YARD, Ground, Hazard, strokes_left
from asplayed.errors import BadInput

WET = Ground(hazards=(Hazard("water", -30.0, 20.0, 12.0, 40.0), Hazard("out", -150.0, 30.0, -90.0, -35.0)))


def pattern(**given: Any) -> Pattern:
    usual = {
        "carry": 150.0, "run": 4.0, "side": 0.0, "depth": 8.0, "width": 7.0, "correlation": 0.0, "curvature": 0.0,
        "loft": math.radians(34),
    }  # fmt: skip
    return Pattern(**{name: np.atleast_1d(np.asarray(value, float)) for name, value in {**usual, **given}.items()})


def summed(
    ground: Ground, distance: float, along: float, side: float, depth: float, width: float, tilt: float, half: int = 600
) -> float:
    """The expectation by a plain sum over 1,200 by 1,200 points or more, shot by shot, without any smoothing."""
    u = (np.arange(-half, half) + 0.5) * (5.5 / half)
    weight = np.exp(-0.5 * u * u)
    weight /= weight.sum()
    found = 1.0
    for some in np.array_split(np.arange(len(u)), half // 300):
        x = along + depth * u[some, None] - distance
        y = side + width * (tilt * u[some, None] + math.sqrt(1 - tilt * tilt) * u)
        found += float(weight[some] @ strokes_left(ground, x, y) @ weight)
    return found


@settings(max_examples=25, deadline=None)
@given(st.floats(-40, 40), st.floats(-15, 15), st.floats(3, 22), st.floats(3, 22), st.floats(-0.8, 0.8), st.booleans())
def test_within_a_thousandth_of_a_plain_sum(
    off: float, side: float, depth: float, width: float, tilt: float, wet: bool
) -> None:
    ground = WET if wet else Ground()
    clubs = pattern(side=side, depth=depth, width=width, correlation=tilt, run=0.0)
    found = expected_strokes(clubs, [Situation("fairway", 150.0 - off, 1.0, ground)], part_swings=False)
    plain = summed(ground, 150.0 - off, 150.0, side, depth, width, tilt)
    # the plain sum itself misplaces an edge by half a step: with two strokes at it, by as much as 0.0046 * 0.4 * 2
    assert found.strokes[0, 0] == pytest.approx(plain, abs=1e-3 + (0.0037 if wet else 0.0))


@pytest.mark.slow
@pytest.mark.parametrize(("off", "depth", "width", "tilt"), [(6.0, 9.0, 11.0, 0.5), (-15.0, 14.0, 6.0, -0.3)])
def test_beside_water_within_a_thousandth_of_a_finer_sum(off: float, depth: float, width: float, tilt: float) -> None:
    clubs = pattern(side=4.0, depth=depth, width=width, correlation=tilt, run=0.0)
    found = expected_strokes(clubs, [Situation("fairway", 150.0 - off, 1.0, WET)], part_swings=False)
    plain = summed(WET, 150.0 - off, 150.0, 4.0, depth, width, tilt, half=2400)
    assert found.strokes[0, 0] == pytest.approx(plain, abs=1e-3)


def test_within_chance_of_drawn_shots_bent_by_curvature() -> None:
    clubs = pattern(depth=12.0, width=9.0, correlation=0.4, curvature=0.01, run=0.0)
    found = expected_strokes(clubs, [Situation("fairway", 146.0, 1.0, WET)], part_swings=False)
    u, v = np.random.default_rng(4).standard_normal((2, 400_000))
    x = 12.0 * u
    y = 9.0 * (0.4 * u + math.sqrt(1 - 0.16) * v) + 0.01 * (x * x - 144.0)
    drawn = 1.0 + strokes_left(WET, x + 4.0, y)
    assert found.strokes[0, 0] == pytest.approx(drawn.mean(), abs=1e-3 + 4 * drawn.std() / math.sqrt(len(drawn)))


def test_the_stated_error_is_an_error_and_small() -> None:
    chance = np.random.default_rng(2)
    clubs = pattern(**{name: chance.uniform(4, 15, 30) for name in ("depth", "width")}, **{
        name: np.full(30, value) for name, value in
        {"carry": 150.0, "run": 4.0, "side": 0.0, "correlation": 0.5, "curvature": 0.0, "loft": 0.6}.items()
    })  # fmt: skip
    found = expected_strokes(clubs, [Situation("fairway", yards * YARD, 1.0) for yards in (100, 150, 168, 250)])
    assert 0 < found.error < 1e-3


@pytest.mark.parametrize(("yards", "spread"), [(120, 0.05), (140, 0.05), (160, 0.05), (180, 0.05), (200, 0.055)])
def test_a_professional_costs_about_what_professionals_do(yards: int, spread: float) -> None:
    """Within 0.1 strokes of the published figures, from fairway and rough, with a club of the very distance."""
    published = {"fairway": {120: 2.85, 140: 2.91, 160: 2.98, 180: 3.08, 200: 3.19},
                 "rough": {120: 3.08, 140: 3.15, 160: 3.23, 180: 3.31, 200: 3.42}}  # fmt: skip
    kept = {"fairway": 1.0, "rough": 0.95}
    for lie, table in published.items():
        away = yards * YARD
        clubs = pattern(
            carry=away / kept[lie], run=0.0, depth=spread * away, width=spread * away, loft=math.radians(36)
        )
        found = expected_strokes(clubs, [Situation(lie, away, 1.0)])  # type: ignore[arg-type]
        assert found.strokes[0, 0] == pytest.approx(table[yards], abs=0.1)


def test_more_spread_costs_more_and_mirrors_cost_alike() -> None:
    spreads = np.array([3.0, 5.0, 8.0, 12.0, 18.0])
    usual = {"carry": 150.0, "run": 0.0, "side": 0.0, "correlation": 0.3, "curvature": 0.0, "loft": 0.6}
    same = {name: np.full(5, value) for name, value in usual.items()}
    asked = [Situation("fairway", 150.0, 1.0)]
    costs = expected_strokes(pattern(**same, depth=spreads, width=spreads), asked).strokes[:, 0]
    assert (np.diff(costs) > 0).all()
    turned = same | {"correlation": np.full(5, -0.3)}
    assert expected_strokes(pattern(**turned, depth=spreads, width=spreads), asked).strokes[:, 0] == pytest.approx(
        costs, abs=1e-4
    )


def test_a_club_too_long_is_swung_short_and_one_too_short_lays_up() -> None:
    asked = [Situation("fairway", 60.0, 1.0), Situation("fairway", 210.0, 1.0)]
    full = expected_strokes(pattern(), asked, part_swings=False).strokes[0]
    part = expected_strokes(pattern(), asked).strokes[0]
    assert part[0] < full[0] - 0.3 and part[1] == full[1]
    # a lay-up of 154 m leaves 56 m from the fairway: 2.69 strokes, and a little for the shots that miss it
    assert 3.69 < full[1] < 3.85


def test_part_swings_agree_with_a_full_shot_of_their_spread() -> None:
    asked = [Situation("fairway", 75.0, 1.0)]
    part = expected_strokes(pattern(loft=math.radians(50), run=0.0), asked).strokes[0, 0]
    share, more = 75.0 / 150.0, np.interp(50, [45, 60], [0.6, 0.4])
    depth, width = (math.hypot(spread * share * (1 + more * (1 - share)), 1.0) for spread in (8.0, 7.0))
    assert part == pytest.approx(summed(Ground(), 0.0, 0.0, 0.0, depth, width, 0.0), abs=1e-3)


def test_a_putter_serves_no_full_shot() -> None:
    assert expected_strokes(pattern(carry=math.nan), [Situation("fairway", 60.0, 1.0)]).strokes[0, 0] == math.inf


@pytest.mark.parametrize("wrong", [{"depth": 0.0}, {"carry": 4000.0}, {"correlation": 0.99}, {"width": math.nan}])
def test_shots_nobody_has_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(BadInput):
        expected_strokes(pattern(**wrong), [Situation("fairway", 60.0, 1.0)])
