"""Refusals and laws of air and head that no published figure covers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics.air import air, moist_air, standard_atmosphere, station_pressure
from asplayed.mechanics.head import (
    HeadMass,
    lie_error,
    opened_face,
    sleeve,
    sleeve_setting,
    toe_hang,
    with_point_masses,
)


@pytest.mark.parametrize(
    ("given_air", "sentence"),
    [
        ({}, "pressure .* or altitude"),
        ({"pressure": 1e5, "altitude": 0.0}, "one of them"),
        ({"pressure": 1e5, "sea_level_pressure": 1e5}, "goes with altitude"),
        ({"altitude": -2000.0}, "altitude is -2000 m"),
    ],
)
def test_air_wants_its_pressure_once(given_air: dict[str, float], sentence: str) -> None:
    with pytest.raises(BadInput, match=sentence):
        air(293.15, 0.5, **given_air)


@given(st.floats(-10, 40), st.floats(0, 1), st.floats(0, 3000), st.floats(9.8e4, 1.04e5))
def test_a_sea_level_reading_is_brought_to_the_course(
    celsius: float, humidity: float, altitude: float, reading: float
) -> None:
    found = air(celsius + 273.15, humidity, altitude=altitude, sea_level_pressure=reading)
    assert found.pressure == pytest.approx(reading * standard_atmosphere(altitude).pressure / 101325, rel=1e-12)
    assert found.density == moist_air(celsius + 273.15, found.pressure, humidity).density
    assert station_pressure(reading, 0.0) == pytest.approx(reading, rel=1e-12)


ANGLES = {"lie": st.floats(0.9, 1.2), "loft": st.floats(0.05, 0.6), "tilt": st.floats(1e-4, 0.05)}


@given(**ANGLES)
def test_more_loft_goes_with_a_closed_face(lie: float, loft: float, tilt: float) -> None:
    effect = sleeve(lie, tilt, loft)
    assert effect.held_loft >= 0 >= effect.held_face
    assert effect.squared_loft >= effect.held_loft
    assert effect.soled_face <= effect.held_face


@given(**ANGLES)
def test_a_quarter_turn_of_the_sleeve_is_the_tilt_itself(lie: float, loft: float, tilt: float) -> None:
    quarter, effect = sleeve_setting(lie, loft, tilt, math.pi / 2), sleeve(lie, tilt, loft)
    assert quarter.loft_change_squared == pytest.approx(effect.squared_loft, abs=1e-12)
    assert quarter.face_change_soled == pytest.approx(effect.soled_face, abs=1e-12)
    assert quarter.lie_change == pytest.approx(0.0, abs=1e-12)
    upright, flat = (sleeve_setting(lie, loft, tilt, turn) for turn in (0.0, math.pi))
    assert upright.lie_change == pytest.approx(tilt, abs=1e-12)
    assert flat.lie_change == pytest.approx(-tilt, abs=1e-12)
    assert upright.loft_change_squared == pytest.approx(0.0, abs=1e-12)


@given(st.floats(0.1, 1.1), st.floats(-0.2, 0.2))
def test_toe_up_looks_left_and_toe_down_right_and_both_lose_loft(loft: float, error: float) -> None:
    found = lie_error(loft, error)
    assert found.direction * error <= 0
    assert found.loft <= loft + 1e-12
    assert lie_error(loft, -error).direction == -found.direction


@given(st.floats(0.7, 1.1), st.floats(1.0, 1.15), st.floats(0.05, 0.25), st.floats(0.01, 0.6))
def test_opening_adds_loft_and_bounce(loft: float, lie: float, bounce: float, opening: float) -> None:
    found = opened_face(loft, lie, bounce, opening)
    assert found.loft > loft
    assert found.bounce > bounce
    square = opened_face(loft, lie, bounce, 0.0)
    assert square == pytest.approx((loft, bounce), abs=1e-12)


def test_a_centre_of_gravity_ahead_of_the_shaft_hangs_the_other_way() -> None:
    assert toe_hang(-0.01, 0.02, 0.01, 1.2) > math.pi / 2


def test_a_sleeve_that_cannot_be_squared_is_refused() -> None:
    with pytest.raises(BadInput, match="squares this face"):
        sleeve(0.4, 0.1, 1.4)


NOTHING = ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))


def test_moving_a_weight_and_moving_it_back_leaves_the_head() -> None:
    head = HeadMass(0.2, (0.04, 0.0, 0.0), ((3e-4, 0.0, 0.0), (0.0, 3e-4, 0.0), (0.0, 0.0, 5e-4)))
    toe, heel = (0.05, 0.05, -0.01), (0.05, -0.05, -0.01)
    moved = with_point_masses(head, [(-0.01, heel), (0.01, toe)])
    back = with_point_masses(moved, [(-0.01, toe), (0.01, heel)])
    assert moved.centre[1] == pytest.approx(0.01 * 0.1 / 0.2)
    assert back.mass == pytest.approx(head.mass)
    assert back.centre == pytest.approx(head.centre, abs=1e-15)
    for one, other in zip(back.inertia, head.inertia, strict=True):
        assert one == pytest.approx(other, abs=1e-15)


@pytest.mark.parametrize(
    ("head", "masses", "sentence"),
    [
        (HeadMass(-0.2, (0.0, 0.0, 0.0), NOTHING), [], "head_mass is -200 g"),
        (HeadMass(0.2, (0.0, 0.0, 0.0), NOTHING), [(-0.3, (0.0, 0.0, 0.0))], "take away less"),
        (HeadMass(0.2, (0.0, 0.0, 0.0), NOTHING), [(0.01, (0.0, 9.0, 0.0))], "cg_toe is 9000 mm"),
    ],
)
def test_heads_that_cannot_be_are_refused(head: HeadMass, masses: list[object], sentence: str) -> None:
    with pytest.raises(BadInput, match=sentence):
        with_point_masses(head, masses)  # type: ignore[arg-type]
