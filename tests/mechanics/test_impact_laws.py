"""What no impact may break: momentum, angular momentum, energy, friction, and left against right."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics.checks import refuse_no_body
from asplayed.mechanics.flight_equations import BALL_MASS, BALL_RADIUS
from asplayed.mechanics.impact import dplane, impact, restitution_of_smash
from asplayed.mechanics.strike import BALL_INERTIA, strike

SWINGS = st.fixed_dictionaries(
    {
        "club_speed": st.floats(5, 60),
        "head_mass": st.floats(0.15, 0.4),
        "restitution": st.floats(0, 1),
        "attack_angle": st.floats(-0.15, 0.15),
        "dynamic_loft": st.floats(0.02, 1.0),
        "tangential_restitution": st.floats(-1, 1),
        "friction": st.one_of(st.none(), st.floats(0, 1)),
        "club_path": st.floats(-0.15, 0.15),
        "face_angle": st.floats(-0.15, 0.15),
    }
)
HEADS = st.fixed_dictionaries(
    {
        "cg_depth": st.floats(0, 0.05),
        "cg_toe": st.floats(-0.01, 0.01),
        "cg_up": st.floats(-0.01, 0.01),
        "inertia_up": st.floats(2e-4, 6e-4),
        "inertia_heel_toe": st.floats(2e-4, 5e-4),
        "inertia_normal": st.floats(2e-4, 4e-4),
        "strike_toe": st.floats(-0.03, 0.03),
        "strike_high": st.floats(-0.02, 0.02),
        "bulge_radius": st.one_of(st.none(), st.floats(0.2, 0.5)),
        "roll_radius": st.one_of(st.none(), st.floats(0.2, 0.5)),
        "products": st.tuples(*[st.floats(-7e-5, 7e-5)] * 3),
    }
)


def face_axes(swing: dict[str, Any]) -> np.ndarray:
    """Rows: out of the face, up it, toe-ward, in (target, up, right)."""
    loft, face = swing["dynamic_loft"], swing["face_angle"]
    return np.array(
        [
            [math.cos(loft) * math.cos(face), math.sin(loft), math.cos(loft) * math.sin(face)],
            [-math.sin(loft) * math.cos(face), math.cos(loft), -math.sin(loft) * math.sin(face)],
            [-math.sin(face), 0.0, math.cos(face)],
        ]
    )


def direction(elevation: float, azimuth: float) -> np.ndarray:
    return np.array(
        [
            math.cos(elevation) * math.cos(azimuth),
            math.sin(elevation),
            math.cos(elevation) * math.sin(azimuth),
        ]
    )


def spin_vector(found: Any) -> np.ndarray:
    """The spin as a vector in (target, up, right), from its rate and the turn of its axis about the launch."""
    velocity = direction(found.launch_angle, found.launch_direction)
    back = np.array([-velocity[2], 0.0, velocity[0]]) / math.hypot(velocity[0], velocity[2])
    upward = np.cross(back, velocity)
    return found.spin_rate * (math.cos(found.spin_axis) * back - math.sin(found.spin_axis) * upward)


@given(st.lists(st.tuples(*[st.floats(-0.1, 0.1)] * 3), min_size=2, max_size=5), st.floats(1.01, 3.0))
def test_the_inertia_of_any_masses_is_accepted_and_none_that_a_body_cannot_have(
    places: list[tuple[float, float, float]], more: float
) -> None:
    about = np.array(places) - np.mean(places, axis=0)
    spread = about.T @ about
    tensor = np.trace(spread) * np.eye(3) - spread
    refuse_no_body(math, *np.diag(tensor).tolist(), (tensor[0, 1], tensor[0, 2], tensor[1, 2]))
    moments, axes = np.linalg.eigh(tensor)
    moments[2] = more * (moments[0] + moments[1]) + 1e-6
    beyond = axes @ np.diag(moments) @ axes.T
    with pytest.raises(BadInput, match="no body has"):
        refuse_no_body(math, *np.diag(beyond).tolist(), (beyond[0, 1], beyond[0, 2], beyond[1, 2]))


@given(SWINGS, HEADS)
def test_a_strike_keeps_angular_momentum_and_makes_no_energy(swing: dict[str, Any], head: dict[str, Any]) -> None:
    try:
        found = strike(**swing, **head)
    except BadInput:
        return
    axes = face_axes(swing)
    a, b, c = head["products"]
    inertia = np.array([[head["inertia_normal"], a, b], [a, head["inertia_up"], c], [b, c, head["inertia_heel_toe"]]])
    velocity = swing["club_speed"] * direction(swing["attack_angle"], swing["club_path"])
    ball = found.ball_speed * direction(found.launch_angle, found.launch_direction)
    head_after = velocity - BALL_MASS / swing["head_mass"] * ball
    spin = spin_vector(found)
    turn = axes.T @ np.array(found.head_turn)

    # Where things are, from the face centre, in the ground's axes.
    bulge = 0.0 if head["bulge_radius"] is None else 1 / head["bulge_radius"]
    roll = 0.0 if head["roll_radius"] is None else 1 / head["roll_radius"]
    toe, high = head["strike_toe"], head["strike_high"]
    point = np.array([-(high * high * roll + toe * toe * bulge) / 2, high, toe])
    normal = np.array([1.0, high * roll, toe * bulge])
    normal /= np.linalg.norm(normal)
    centre = np.array([-head["cg_depth"], head["cg_up"], head["cg_toe"]])
    ball_at, head_at = axes.T @ (point + BALL_RADIUS * normal), axes.T @ centre
    ground_inertia = axes.T @ inertia @ axes

    before = np.cross(head_at, swing["head_mass"] * velocity)
    after = (
        np.cross(head_at, swing["head_mass"] * head_after)
        + ground_inertia @ turn
        + np.cross(ball_at, BALL_MASS * ball)
        + BALL_INERTIA * spin
    )
    assert after == pytest.approx(before, abs=1e-9 * swing["club_speed"])

    energy = 0.5 * (
        swing["head_mass"] * head_after @ head_after
        + turn @ ground_inertia @ turn
        + BALL_MASS * ball @ ball
        + BALL_INERTIA * spin @ spin
    )
    assert energy <= 0.5 * swing["head_mass"] * velocity @ velocity * (1 + 1e-9)


@given(SWINGS)
def test_a_planar_blow_makes_no_energy_and_drags_no_more_than_friction(swing: dict[str, Any]) -> None:
    try:
        found = impact(**swing)
    except BadInput:
        return
    velocity = swing["club_speed"] * direction(swing["attack_angle"], swing["club_path"])
    ball = found.ball_speed * direction(found.launch_angle, found.launch_direction)
    after = velocity - BALL_MASS / swing["head_mass"] * ball
    energy = swing["head_mass"] * after @ after + BALL_MASS * ball @ ball + BALL_INERTIA * found.spin_rate**2
    assert energy <= swing["head_mass"] * velocity @ velocity * (1 + 1e-9)
    if swing["friction"] is not None:
        normal = face_axes(swing)[0]
        pressed = ball @ normal
        dragged = np.linalg.norm(ball - pressed * normal)
        assert dragged <= swing["friction"] * pressed + 1e-9 * found.ball_speed


@given(SWINGS, HEADS)
def test_a_left_handers_strike_is_the_mirror_image(swing: dict[str, Any], head: dict[str, Any]) -> None:
    a, b, c = head["products"]
    mirrored = {**swing, "club_path": -swing["club_path"], "face_angle": -swing["face_angle"]}
    reflected = {
        **head,
        "cg_toe": -head["cg_toe"],
        "strike_toe": -head["strike_toe"],
        "products": (a, -b, -c),
    }
    try:
        one = strike(**swing, **head)
    except BadInput:
        return
    other = strike(**mirrored, **reflected)
    assert other.ball_speed == pytest.approx(one.ball_speed, rel=1e-9)
    assert other.launch_angle == pytest.approx(one.launch_angle, abs=1e-9)
    assert other.launch_direction == pytest.approx(-one.launch_direction, abs=1e-9)
    assert other.sidespin == pytest.approx(-one.sidespin, abs=1e-7 * one.spin_rate + 1e-9)
    assert other.backspin == pytest.approx(one.backspin, abs=1e-7 * one.spin_rate + 1e-9)


@given(SWINGS)
def test_turning_the_whole_swing_turns_the_shot(swing: dict[str, Any]) -> None:
    turned = {
        **swing,
        "club_path": swing["club_path"] + 0.1,
        "face_angle": swing["face_angle"] + 0.1,
    }
    try:
        one = impact(**swing)
    except BadInput:
        return
    other = impact(**turned)
    assert other.launch_direction - one.launch_direction == pytest.approx(0.1, abs=1e-9)
    assert other.ball_speed == pytest.approx(one.ball_speed, rel=1e-12)
    if one.spin_rate > 1e-6:
        assert math.remainder(other.spin_axis - one.spin_axis, 2 * math.pi) == pytest.approx(0, abs=1e-6)


@given(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1), st.floats(0.15, 0.9), st.floats(-0.1, 0.1))
def test_the_spin_axis_of_an_impact_lies_in_the_dplane(face: float, path: float, loft: float, attack: float) -> None:
    blow = impact(
        club_speed=40.0,
        head_mass=0.25,
        restitution=0.8,
        attack_angle=attack,
        dynamic_loft=loft,
        face_angle=face,
        club_path=path,
    )
    plane = dplane(face_angle=face, club_path=path, dynamic_loft=loft, attack_angle=attack)
    assert plane.spin_loft == pytest.approx(blow.spin_loft, abs=1e-12)
    height = -spin_vector(blow)[1] / blow.spin_rate
    assert math.sin(plane.tilt) == pytest.approx(height, abs=1e-9)


@given(st.floats(0.15, 0.35), st.floats(0, 0.9), st.floats(0.4, 0.95), st.floats(-0.3, 0.4))
def test_a_smash_gives_back_the_restitution_behind_it(
    mass: float, loft: float, restitution: float, tangential: float
) -> None:
    blow = impact(
        club_speed=40.0,
        head_mass=mass,
        restitution=restitution,
        attack_angle=0.0,
        dynamic_loft=loft,
        tangential_restitution=tangential,
    )
    found = restitution_of_smash(
        smash=blow.smash, head_mass=mass, spin_loft=blow.spin_loft, tangential_restitution=tangential
    )
    assert found == pytest.approx(restitution, abs=1e-9)


def test_a_face_that_looks_away_is_refused() -> None:
    with pytest.raises(BadInput, match="looks away"):
        impact(
            club_speed=40.0,
            head_mass=0.2,
            restitution=0.8,
            attack_angle=-1.0,
            dynamic_loft=1.2,
        )


@pytest.mark.parametrize("tangential", [0.0, 0.25, 0.6])
def test_a_strike_right_on_the_centre_of_gravity_is_a_planar_blow(tangential: float) -> None:
    swing = {"club_speed": 38.0, "head_mass": 0.27, "restitution": 0.8, "attack_angle": -0.07, "dynamic_loft": 0.45}
    # Nothing of the blow has an arm about a centre of gravity that lies where the ball is struck.
    thin = {"cg_depth": 0.0, "inertia_up": 4e-4, "inertia_heel_toe": 2e-4, "inertia_normal": 3e-4}
    struck = strike(**swing, **thin, tangential_restitution=tangential)
    planar = impact(**swing, tangential_restitution=tangential)
    for figure in ("ball_speed", "launch_angle", "spin_rate", "smash"):
        assert getattr(struck, figure) == pytest.approx(getattr(planar, figure), rel=1e-6)
