"""The few-shot rules: what is flagged, what is not, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics.statistics import (
    covariance,
    ellipse,
    ellipse_factor,
    gap,
    location,
    mean_interval,
    median,
    median_interval,
    pooled_toward,
    shots_needed,
    spread,
)

SHOTS = st.lists(st.floats(-300, 300), min_size=1, max_size=40)


@given(SHOTS)
def test_at_least_three_fifths_of_the_shots_are_kept(shots: list[float]) -> None:
    found = spread(shots)
    assert len(found.flagged) <= 0.4 * len(shots)
    if len(shots) < 5 or found.mad == 0:
        assert found.flagged == ()
        assert found.note is not None


@given(SHOTS, st.floats(-50, 50), st.floats(0.5, 20))
def test_spread_moves_and_scales_with_the_shots(shots: list[float], move: float, factor: float) -> None:
    one, other = spread(shots), spread([factor * shot + move for shot in shots])
    assert other.median == pytest.approx(factor * one.median + move, abs=1e-6)
    assert other.scale == pytest.approx(factor * one.scale, abs=1e-6)


@given(SHOTS)
def test_the_order_of_shots_does_not_matter(shots: list[float]) -> None:
    assert median(shots) == median(shots[::-1])
    assert spread(shots).scale == spread(shots[::-1]).scale


def test_more_outliers_than_may_be_flagged_are_said() -> None:
    shots = [100.0, 100.1, 100.2, 100.3, 100.4, 100.5, 160.0, 40.0, 170.0, 30.0, 180.0]
    found = spread(shots)
    assert len(found.flagged) == 4
    assert set(found.flagged) == {7, 8, 9, 10}
    assert found.note is not None and "only the farthest 4" in found.note


@given(st.floats(-30, 30), st.floats(0.1, 30), st.floats(0.1, 30))
def test_gaps_are_chances(separation: float, long: float, short: float) -> None:
    found = gap(separation, long, short)
    assert 0 <= found.swap_probability <= 1
    assert -1e-12 <= found.overlap <= 1 + 1e-12
    mirrored = gap(-separation, short, long)
    assert mirrored.swap_probability == pytest.approx(1 - found.swap_probability, abs=1e-12)
    assert mirrored.overlap == pytest.approx(found.overlap, abs=1e-9)


def test_spreads_of_nothing_are_certain() -> None:
    assert gap(5.0, 0.0, 0.0) == (0.0, 0.0)
    assert gap(-5.0, 0.0, 0.0).swap_probability == 1.0
    assert gap(0.0, 0.0, 0.0).swap_probability == 0.5


@given(st.lists(st.tuples(st.floats(-30, 30), st.floats(-30, 30)), min_size=3, max_size=30), st.floats(0.1, 0.99))
def test_an_ellipse_for_the_next_shot_is_wider_than_one_for_known_spreads(
    places: list[tuple[float, float]], share: float
) -> None:
    spreads = covariance([x for x, _ in places], [y for _, y in places])
    known, predicted = ellipse(spreads, share), ellipse(spreads, share, len(places))
    assert predicted.long_radius >= known.long_radius
    assert known.area == pytest.approx(math.pi * known.long_radius * known.short_radius)


def test_half_the_shots_lie_within_the_half_ellipse() -> None:
    # A circle of radius √(−2 ln ½) σ: the circular error probable, 1.1774 σ.
    assert math.sqrt(ellipse_factor(0.5)) == pytest.approx(1.1774, abs=1e-4)


def test_pooling_pulls_towards_the_set() -> None:
    assert pooled_toward(10, 1, 6) == pytest.approx(6)
    assert 6 < pooled_toward(10, 5, 6) < pooled_toward(10, 50, 6) < 10


@pytest.mark.parametrize(
    "call",
    [
        lambda: spread([]),
        lambda: spread([1.0, float("nan")]),
        lambda: median([1e9]),
        lambda: mean_interval([1.0]),
        lambda: median_interval([1.0, 2.0], 1.5),
        lambda: shots_needed(0, 5),
        lambda: pooled_toward(-1, 5, 3),
        lambda: ellipse(((1.0, 2.0), (2.0, 1.0)), 0.5),
        lambda: ellipse(((1.0, 0.5), (0.4, 1.0)), 0.5),
        lambda: ellipse_factor(0.9, 2),
        lambda: covariance([1.0, 2.0], [1.0]),
    ],
)
def test_what_cannot_be_reckoned_is_refused(call: object) -> None:
    with pytest.raises(BadInput):
        call()  # type: ignore[operator]


def test_a_long_run_without_mishits_uses_the_trimmed_mean() -> None:
    shots = [float(x) for x in range(20)]
    assert location(shots, mishits=False) == pytest.approx(9.5)
    assert location([1.0, 2.0, 60.0]) == 2.0
