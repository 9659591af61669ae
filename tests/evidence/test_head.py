"""The head's geometry held against independent rotations, worked angles and workshop rules."""

from __future__ import annotations

import math
from math import degrees, radians

import numpy as np
import pytest
import scipy.optimize
from ledger import Ledger, Row
from scipy.spatial.transform import Rotation

from asplayed.mechanics.head import (
    HeadMass,
    bend_offset,
    delivered_bounce,
    lie_error,
    opened_face,
    sleeve,
    sleeve_setting,
    toe_hang,
    with_point_masses,
)

LEDGER = Ledger(
    "head.csv",
    "Head",
    "Lie errors, sleeves, bends, soles and putters against exact rotations, worked angles and the workshop's rules.",
)


@LEDGER.gives("7.1", "7.1 loft", "7.2", "7.2 loft", "7.3", "7.4", "7.5", "7.6", "7.6 miss", "chart")
def _() -> tuple[float, ...]:
    def found(loft: float, error: float) -> tuple[float, float]:
        effect = lie_error(radians(loft), radians(error))
        return degrees(effect.direction), degrees(effect.loft)

    six = found(34, 3)[0]
    return (
        *found(30, 2),
        *found(46, 4),
        found(60, 2)[0],
        found(10, 1)[0],
        found(4, 2)[0],
        six,
        150 * math.tan(radians(-six)),
        -found(30, 2)[0],
    )


@LEDGER.gives("7.7 loft", "7.7 face", "7.8 loft", "7.8 face", "7.9 loft", "7.9 face")
def _() -> tuple[float, ...]:
    one = [degrees(x) for x in sleeve(radians(58), radians(1), radians(10.5))]
    two = [degrees(x) for x in sleeve(radians(55), radians(2), radians(10.5))]
    return (*one, two[2], two[3])


@LEDGER.gives("ratio 55", "ratio 58", "ratio 60")
def _() -> tuple[float, ...]:
    def ratio(lie: float) -> float:
        small = radians(0.001)
        return small / float(opened_face(radians(0.0), radians(lie), 0.0, small).loft)

    return ratio(55), ratio(58), ratio(60)


# Ground axes for the references: x to the target, y to the left, z up; a right-hander's shaft leans to the left.
X = np.array([1.0, 0.0, 0.0])


def shaft_axis(lie: float) -> np.ndarray:
    return np.array([0.0, math.cos(lie), math.sin(lie)])


def normal(loft: float) -> np.ndarray:
    return np.array([math.cos(loft), 0.0, math.sin(loft)])


def turned(vector: np.ndarray, axis: np.ndarray, angle: float) -> np.ndarray:
    return Rotation.from_rotvec(angle * axis / np.linalg.norm(axis)).apply(vector)


def face(vector: np.ndarray) -> float:
    """Open (to the right) positive."""
    return math.atan2(-vector[1], vector[0])


def squared(vector: np.ndarray, axis: np.ndarray) -> float:
    """The loft once turned about the axis until the face is square."""
    angle = scipy.optimize.brentq(lambda a: face(turned(vector, axis, a)), -0.6, 0.6, xtol=1e-15)
    return math.asin(turned(vector, axis, angle)[2])


def loft_kept(vector: np.ndarray, axis: np.ndarray, loft: float) -> float:
    """The face once turned about the axis until the loft is as it was."""
    angle = scipy.optimize.brentq(lambda a: turned(vector, axis, a)[2] - math.sin(loft), -0.6, 0.6, xtol=1e-15)
    return face(turned(vector, axis, angle))


def random_heads(count: int) -> np.ndarray:
    generator = np.random.default_rng(7)
    return np.radians(generator.uniform([50, -2.5, 5], [65, 2.5, 30], size=(count, 3)))


@LEDGER.compares("rotation held", "rotation squared")
def _() -> tuple[tuple[float, float], ...]:
    held = others = 0.0
    for lie, tilt, loft in random_heads(200):
        axis = shaft_axis(lie)
        tilted = turned(normal(loft), np.cross(X, axis), tilt)
        got = sleeve(float(lie), float(tilt), float(loft))
        held = max(held, abs(math.asin(tilted[2]) - loft - got.held_loft), abs(face(tilted) - got.held_face))
        others = max(others, abs(squared(tilted, axis) - loft - got.squared_loft))
        others = max(others, abs(loft_kept(tilted, axis, loft) - got.soled_face))
    return (0.0, held), (0.0, others)


@LEDGER.compares("rotation setting")
def _() -> tuple[float, float]:
    worst = 0.0
    generator = np.random.default_rng(11)
    for lie, tilt, loft in random_heads(100):
        turn = generator.uniform(0, 2 * math.pi)
        axis = shaft_axis(lie)
        # The head is rolled toe up for lie (about −x) and tipped back for loft, on one axis square to the shaft.
        about = math.sin(turn) * np.cross(X, axis) - math.cos(turn) * X
        # Seen from the head the shaft moves the other way.
        seen = turned(axis, about, -tilt)
        lie_now = math.atan2(seen[2], seen[1])
        played = shaft_axis(lie_now)
        # Set the head down with the shaft back in the plane square to the target.
        back = turned(normal(loft), np.cross(seen, played), math.asin(float(np.linalg.norm(np.cross(seen, played)))))
        got = sleeve_setting(float(lie), float(loft), float(tilt), float(turn))
        worst = max(worst, abs(got.lie_change - (lie_now - lie)))
        worst = max(worst, abs(got.loft_change_squared - (squared(back, played) - loft)))
        worst = max(worst, abs(got.face_change_soled - loft_kept(back, played, loft)))
    return 0.0, worst


@LEDGER.compares("rotation opened")
def _() -> tuple[float, float]:
    worst = 0.0
    generator = np.random.default_rng(5)
    for loft, lie, bounce, opening in np.radians(generator.uniform([46, 60, 2, -10], [62, 66, 15, 40], size=(100, 4))):
        axis = shaft_axis(lie)
        angle = scipy.optimize.brentq(
            lambda a, axis=axis, loft=loft, opening=opening: face(turned(normal(loft), axis, a)) - opening,
            -1.5,
            1.5,
            xtol=1e-15,
        )
        got = opened_face(float(loft), float(lie), float(bounce), float(opening))
        sole = turned(np.array([-math.sin(bounce), 0.0, math.cos(bounce)]), axis, angle)
        worst = max(worst, abs(got.loft - math.asin(turned(normal(loft), axis, angle)[2])))
        worst = max(worst, abs(got.bounce - math.atan2(-sole[0], sole[2])))
    return 0.0, worst


@LEDGER.gives("7.10", "7.11", "7.12", "7.13")
def _() -> tuple[float, ...]:
    return (
        degrees(toe_hang(0.020, 0.015, 0.012, radians(70))),
        degrees(toe_hang(0.010, 0.030, 0.012, radians(70))),
        degrees(toe_hang(0.010, -0.012 / math.tan(radians(70)), 0.012, radians(70))),
        degrees(toe_hang(0.0, 0.030, 0.012, radians(70))),
    )


@LEDGER.gives("7.14 ground", "7.14 path", "7.15 loft", "7.15 bounce", "offset")
def _() -> tuple[float, ...]:
    leaning = delivered_bounce(radians(56), radians(10), lean=radians(6), attack_angle=radians(-5))
    bent = delivered_bounce(radians(56), radians(12), bend=radians(-2))
    return (
        degrees(leaning.ground_bounce),
        degrees(leaning.incidence),
        degrees(bent.loft),
        degrees(bent.bounce),
        1000 * float(bend_offset(0.055, radians(-1))),
    )


@LEDGER.gives("hosel")
def _() -> float:
    head = HeadMass(0.270, (0.0, 0.0, 0.0), ((1e-4, 0, 0), (0, 2e-4, 0), (0, 0, 2e-4)))
    return -1000 * with_point_masses(head, [(0.008, (0.0, -0.055, 0.0))]).centre[1]


@LEDGER.compares("box")
def _() -> tuple[float, float]:
    generator = np.random.default_rng(3)
    masses, places = generator.uniform(0.01, 0.04, 8), generator.uniform(-0.06, 0.06, (8, 3))
    first = HeadMass(float(masses[0]), tuple(places[0]), ((0.0,) * 3,) * 3)
    rest = [(float(mass), tuple(map(float, place))) for mass, place in zip(masses[1:], places[1:], strict=True)]
    got = with_point_masses(first, rest)
    arms = places - (masses[:, None] * places).sum(axis=0) / masses.sum()
    wanted = sum(mass * (arm @ arm * np.eye(3) - np.outer(arm, arm)) for mass, arm in zip(masses, arms, strict=True))
    return 1.0, 1.0 + float(np.abs(np.array(got.inertia) - wanted).max() / np.abs(wanted).max())


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
