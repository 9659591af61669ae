"""Laws of the balance: the fulcrum, the butt, parts that add up, words that read back."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics.balance import (
    FULCRUM,
    Build,
    build,
    inertia_about,
    matching_head_mass,
    swing_weight_points_of,
    swing_weight_text,
)

PARTS = st.fixed_dictionaries(
    {
        "length": st.floats(0.8, 1.25),
        "head_height": st.floats(0, 0.04),
        "shaft_mass": st.floats(0.03, 0.13),
        "shaft_length": st.floats(0.75, 1.2),
        "shaft_balance": st.floats(0.3, 0.6),
        "grip_mass": st.floats(0.02, 0.15),
        "grip_balance": st.floats(0.08, 0.15),
        "grip_length": st.floats(0.2, 0.4),
    }
)
HEADS = st.floats(0.15, 0.4)


@given(PARTS, HEADS, st.floats(0.001, 0.1))
def test_a_mass_at_the_fulcrum_changes_no_swing_weight(parts: dict[str, float], head: float, mass: float) -> None:
    bare, more = (build(**parts, head_mass=head, point_masses=p) for p in ([], [(mass, FULCRUM)]))
    assert more.moment == pytest.approx(bare.moment, abs=1e-15)
    assert more.mass == pytest.approx(bare.mass + mass)


@given(PARTS, HEADS, st.floats(0.001, 0.1), st.floats(0.0, 0.3))
def test_a_mass_above_the_fulcrum_lowers_the_swing_weight_and_never_the_inertia(
    parts: dict[str, float], head: float, mass: float, place: float
) -> None:
    bare, more = (build(**parts, head_mass=head, point_masses=p) for p in ([], [(mass, place)]))
    assert more.swing_weight_points < bare.swing_weight_points
    assert more.butt_inertia >= bare.butt_inertia


@given(PARTS, HEADS)
def test_the_matching_head_mass_is_the_one_that_matches(parts: dict[str, float], head: float) -> None:
    made = build(**parts, head_mass=head)
    for target in (
        {"swing_weight_points": made.swing_weight_points},
        {"butt_inertia": made.butt_inertia},
    ):
        assert matching_head_mass(**parts, **target) == pytest.approx(head, rel=1e-9)


@given(PARTS, HEADS, st.floats(-0.4, 0.8))
def test_inertia_is_least_about_the_balance_point(parts: dict[str, float], head: float, place: float) -> None:
    made: Build = build(**parts, head_mass=head)
    least = inertia_about(made, made.balance_point)
    assert 0 < least <= inertia_about(made, place) + 1e-12
    moved = inertia_about(made, place) - made.mass * (made.balance_point - place) ** 2
    assert moved == pytest.approx(least, abs=1e-12)


@given(st.floats(0, 99.994))
def test_a_swing_weight_reads_back(points: float) -> None:
    assert swing_weight_points_of(swing_weight_text(points)) == pytest.approx(points, abs=0.00501)


@pytest.mark.parametrize("text", ["", "D", "2", "D-1", "D11", "DD2", "D2 in", "Ä2"])
def test_what_is_no_swing_weight_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="write a letter and points"):
        swing_weight_points_of(text)


CLUB: dict[str, Any] = {
    "length": 0.94,
    "head_height": 0.015,
    "shaft_mass": 0.115,
    "shaft_length": 0.9,
    "shaft_balance": 0.44,
    "grip_mass": 0.05,
    "grip_balance": 0.11,
    "grip_length": 0.27,
}


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({}, "give one target"),
        ({"swing_weight_points": 32.0, "butt_inertia": 0.27}, "give one target"),
        ({"butt_inertia": 0.02}, "shaft and grip alone already pass"),
        ({"swing_weight_points": 32.0, "length": 0.3}, "over the 14 inch fulcrum"),
        ({"swing_weight_points": 32.0, "shaft_balance": 0.95}, "measure it from the butt"),
        ({"swing_weight_points": 32.0, "point_masses": [(9.0, 0.1)]}, "point_mass is 9000 g"),
    ],
)
def test_builds_that_cannot_be_are_refused(change: dict[str, Any], sentence: str) -> None:
    with pytest.raises(BadInput, match=sentence):
        matching_head_mass(**{**CLUB, **change})


def test_taking_away_more_than_there_is_is_refused() -> None:
    with pytest.raises(BadInput, match="weigh nothing"):
        build(**{**CLUB, "head_mass": 0.2}, point_masses=[(-0.5, 0.9)])
