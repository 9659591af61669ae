"""Impact held against worked blows, the governing bodies' formula, and published measurements."""

from __future__ import annotations

import itertools
import math
from math import degrees, radians
from typing import Any

import pytest
from ledger import Ledger, Row

from asplayed.mechanics.flight_equations import BALL_MASS, BALL_RADIUS
from asplayed.mechanics.impact import (
    Impact,
    dplane,
    impact,
    restitution_of_smash,
    speed_with_head_mass,
)
from asplayed.mechanics.strike import Strike, strike

LEDGER = Ledger(
    "impact.csv",
    "Impact",
    "Planar blows, a published rigid driver head, the D-plane, and measured effects. Here sidespin + curves right.",
)
MPH, RPM, GCM2 = 0.44704, math.pi / 30, 1e-7


def blow(speed: float, loft: float, mass: float, restitution: float, **more: Any) -> Impact:
    return impact(
        club_speed=speed,
        head_mass=mass,
        restitution=restitution,
        attack_angle=0.0,
        dynamic_loft=radians(loft),
        **more,
    )


def told(found: Impact) -> tuple[float, float, float]:
    return found.ball_speed / MPH, degrees(found.launch_angle), found.spin_rate / RPM


@LEDGER.gives("3.1")
def _() -> float:
    return blow(45.0, 0.0, 0.2, 0.83).smash


@LEDGER.gives("3.2 ball", "3.2 launch", "3.2 spin", "3.3 ball", "3.3 launch", "3.3 spin")
def _() -> tuple[float, ...]:
    return (*told(blow(113 * MPH, 12, 0.2, 0.83)), *told(blow(90 * MPH, 24, 0.27, 0.78)))


@LEDGER.gives("3.4 ball", "3.4 launch", "3.4 spin", "3.5 ball", "3.5 launch", "3.5 spin")
def _() -> tuple[float, ...]:
    return (*told(blow(83 * MPH, 40, 0.285, 0.76)), *told(blow(75 * MPH, 50, 0.3, 0.74)))


@LEDGER.gives("3.5 grip")
def _() -> float:
    low, high = 0.1, 0.4
    while high - low > 1e-9:
        middle = (low + high) / 2
        if blow(75 * MPH, 50, 0.3, 0.74, friction=middle).slides:
            low = middle
        else:
            high = middle
    return low


@LEDGER.gives("3.6 ball", "3.6 launch", "3.6 spin", "3.6 slides")
def _() -> tuple[Any, ...]:
    found = blow(30.0, 50, 0.3, 0.74, friction=0.15)
    return (*told(found), found.slides)


@LEDGER.gives("3.7 along", "3.7 spin")
def _() -> tuple[float, float]:
    """The tangential part of the ball's velocity, from its speed and its angle below the face normal."""
    found = blow(40.0, 30, 3.0, 0.8)
    sideways = found.ball_speed * math.sin(radians(30) - found.launch_angle)
    tangential = 40.0 * math.sin(radians(30))
    # A head of 3 kg falls short of the limit by m/(M (1 + 5/2) + m).
    short = 1 + BALL_MASS / 3.0 / 3.5
    return sideways / tangential * short, found.spin_rate * BALL_RADIUS / tangential * short


def off_centre(offset: float, inertia: float) -> float:
    """Smash against a centre hit of a head whose centre of gravity lies at the face, rolling nothing along the face."""
    found = strike(
        club_speed=45.0,
        head_mass=0.2,
        restitution=0.83,
        attack_angle=0.0,
        dynamic_loft=0.0,
        cg_depth=0.0,
        inertia_up=inertia * GCM2,
        inertia_heel_toe=inertia * GCM2,
        inertia_normal=inertia * GCM2,
        strike_toe=offset,
    )
    return found.smash / blow(45.0, 0.0, 0.2, 0.83).smash


@LEDGER.gives("3.8 12", "3.8 25", "3.9")
def _() -> tuple[float, ...]:
    return off_centre(0.0127, 5000), off_centre(0.0254, 5000), off_centre(0.0254, 2500)


PUBLISHED_HEAD: dict[str, Any] = {
    "cg_depth": 0.0423,
    "cg_up": 0.0029,
    "cg_toe": 0.001,
    "inertia_normal": 2843 * GCM2,
    "inertia_up": 5679 * GCM2,
    "inertia_heel_toe": 4085 * GCM2,
    "products": (-733 * GCM2, 530.2 * GCM2, 0.5 * GCM2),
    "roll_radius": 0.305,
    "bulge_radius": 0.305,
}
PLAIN_HEAD: dict[str, Any] = {
    "cg_depth": 0.0423,
    "inertia_normal": 2843 * GCM2,
    "inertia_up": 5679 * GCM2,
    "inertia_heel_toe": 4085 * GCM2,
}
SWING: dict[str, Any] = {
    "club_speed": 45.0,
    "head_mass": 0.204,
    "restitution": 0.83,
    "attack_angle": 0.0,
    "dynamic_loft": radians(9.8),
}


@LEDGER.gives("3.10 ball", "3.10 launch", "3.10 back", "3.10 azimuth", "3.10 side")
def _() -> tuple[float, ...]:
    found = strike(**SWING, **PUBLISHED_HEAD)
    return (
        found.ball_speed / MPH,
        degrees(found.launch_angle),
        found.backspin / RPM,
        degrees(found.launch_direction),
        found.sidespin / RPM,
    )


@LEDGER.gives("3.11 ball", "3.11 launch", "3.11 azimuth", "3.11 back", "3.11 side")
def _() -> tuple[float, ...]:
    found = strike(**SWING, **PUBLISHED_HEAD, strike_toe=0.020)
    return (
        found.ball_speed / MPH,
        degrees(found.launch_angle),
        degrees(found.launch_direction),
        found.backspin / RPM,
        found.sidespin / RPM,
    )


@LEDGER.gives("3.12 high launch", "3.12 low launch", "3.12 high back", "3.12 low back")
def _() -> tuple[float, ...]:
    high = strike(**SWING, **PUBLISHED_HEAD, strike_high=0.012)
    low = strike(**SWING, **PUBLISHED_HEAD, strike_high=-0.012)
    return degrees(high.launch_angle), degrees(low.launch_angle), high.backspin / RPM, low.backspin / RPM


@LEDGER.gives("3.13 azimuth 12", "3.13 azimuth 25", "3.13 side 12", "3.13 side 25", "3.13 smash 12", "3.13 smash 25")
def _() -> tuple[float, ...]:
    near, far = (strike(**SWING, **PLAIN_HEAD, strike_toe=toe) for toe in (0.0127, 0.0254))
    return (
        degrees(near.launch_direction),
        degrees(far.launch_direction),
        near.sidespin / RPM,
        far.sidespin / RPM,
        near.smash,
        far.smash,
    )


@LEDGER.gives("3.14 azimuth", "3.14 side")
def _() -> tuple[float, ...]:
    found = strike(**SWING, **PLAIN_HEAD, strike_toe=0.0127, bulge_radius=0.305)
    return degrees(found.launch_direction), found.sidespin / RPM


def three(found: Impact | Strike) -> tuple[float, float, float]:
    return found.ball_speed / MPH, degrees(found.launch_angle), found.spin_rate / RPM


@LEDGER.gives(
    "3.15 deep ball",
    "3.15 deep launch",
    "3.15 deep spin",
    "3.15 flush ball",
    "3.15 flush launch",
    "3.15 flush spin",
    "3.15 planar",
)
def _() -> tuple[Any, ...]:
    deep, flush = strike(**SWING, **PLAIN_HEAD), strike(**SWING, **{**PLAIN_HEAD, "cg_depth": 0.0})
    alike = all(abs(a - b) <= 1e-9 * abs(b) for a, b in zip(three(flush), three(impact(**SWING)), strict=True))
    return (*three(deep), *three(flush), alike)


@LEDGER.gives("3.16 loft", "3.16 tilt", "3.17 loft", "3.17 tilt", "3.18")
def _() -> tuple[Any, ...]:
    one = dplane(face_angle=radians(2), club_path=0.0, dynamic_loft=radians(12), attack_angle=0.0)
    two = dplane(face_angle=0.0, club_path=radians(-4), dynamic_loft=radians(12), attack_angle=radians(-1))
    level = dplane(face_angle=0.05, club_path=0.05, dynamic_loft=0.2, attack_angle=-0.05)
    return (*(degrees(angle) for angle in (*one, *two)), level.tilt == 0.0)


@LEDGER.gives("gear")
def _() -> bool:
    near, far = (strike(**SWING, **PLAIN_HEAD, strike_toe=toe, bulge_radius=0.305) for toe in (0.00635, 0.0127))
    hooks = [-found.sidespin / RPM for found in (near, far)]
    return 0 < hooks[0] < hooks[1] and 100 < hooks[1] < 1000


@LEDGER.gives("W08")
def _() -> float:
    """A ball fired at a head at rest is the same blow seen from the ball: speeds shift by the head's."""
    head, speed = 0.2, 48.0
    struck = blow(speed, 0.0, head, 0.83).ball_speed
    rebound = struck - speed
    return (rebound / speed * (head + BALL_MASS) + BALL_MASS) / head


@LEDGER.compares("W15")
def _() -> tuple[float, float]:
    return 1.8 * 41.0 / (1 + BALL_MASS / 0.21), blow(41.0, 0.0, 0.21, 0.8).ball_speed


@LEDGER.gives("W16", "W17", "W19")
def _() -> tuple[float, ...]:
    livelier = blow(45.0, 0.0, 0.2, 0.8736).ball_speed / blow(45.0, 0.0, 0.2, 0.78).ball_speed
    lighter = blow(45.0 * 1.085, 0.0, 0.170, 0.8).ball_speed / blow(45.0, 0.0, 0.191, 0.8).ball_speed
    return 100 * (livelier - 1), 100 * (lighter - 1), blow(40.0, 24, 0.248, 0.78).ball_speed


@LEDGER.gives("W18")
def _() -> float:
    heavier = {**PLAIN_HEAD, "inertia_up": 1.19 * PLAIN_HEAD["inertia_up"]}
    one, two = (strike(**SWING, **head, strike_toe=0.010) for head in (PLAIN_HEAD, heavier))
    return two.sidespin / one.sidespin


@LEDGER.gives("W20")
def _() -> float:
    """The restitution behind a ball speed at 45 m/s of normal speed."""
    found = blow(45.0, 0.0, 0.2, 0.85, restitution_slope=0.0028, restitution_speed=20.0)
    return found.smash * (1 + BALL_MASS / 0.2) - 1


@LEDGER.gives("3.19")
def _() -> bool:
    def left(share: float, loft: float, restitution: float, grip: float) -> float:
        """The energy of ball and head after a blow at 40 m/s, as a share of the head's before it."""
        mass = BALL_MASS / share
        found = blow(40.0, loft, mass, restitution, tangential_restitution=grip)
        ball = [found.ball_speed * each for each in (math.cos(found.launch_angle), math.sin(found.launch_angle))]
        head = [40.0 - share * ball[0], -share * ball[1]]
        turning = 0.4 * BALL_MASS * (BALL_RADIUS * found.spin_rate) ** 2
        after = mass * math.hypot(*head) ** 2 + BALL_MASS * math.hypot(*ball) ** 2 + turning
        return after / (mass * 40.0**2)

    blows = itertools.product((0.15, 0.25), (2, 12, 30, 50, 65), (0.0, 0.5, 0.83, 1.0), (-1.0, -0.3, 0.0, 0.5, 1.0))
    return all(left(*each) <= 1 + 1e-12 for each in blows)


@LEDGER.gives("W21")
def _() -> float:
    normal = 29.0 * math.cos(radians(20))
    found = blow(normal, 0.0, 0.2, 0.86, restitution_slope=0.0029, restitution_speed=0.0)
    return found.smash * (1 + BALL_MASS / 0.2) - 1


@LEDGER.gives("W23")
def _() -> bool:
    wedges = [blow(35.0, 50, 0.3, 0.74, friction=friction).slides for friction in (0.075, 0.16)]
    return all(wedges) and not blow(45.0, 10, 0.2, 0.83, friction=0.16).slides


@LEDGER.gives("W24")
def _() -> bool:
    return all(
        blow(speed, loft, 0.3, 0.74, friction=0.1).spin_rate * BALL_RADIUS <= speed * math.sin(radians(loft))
        for speed in (15.0, 30.0, 45.0, 61.0)
        for loft in (35, 45, 55)
        if blow(speed, loft, 0.3, 0.74, friction=0.1).slides
    )


@LEDGER.gives("W26 driver", "W26 iron", "W26 wedge", "W26 order")
def _() -> tuple[Any, ...]:
    def share(loft: float, tangential: float) -> float:
        small = radians(0.5)
        return blow(40.0, loft, 0.25, 0.8, tangential_restitution=tangential, face_angle=small).launch_direction / small

    shares = share(13, 0.0), share(27, 0.25), share(45, 0.25)
    return (*shares, shares[0] > shares[1] > shares[2])


@LEDGER.gives("9.7", "9.7 Daish")
def _() -> tuple[float, float]:
    import inspect

    slower = speed_with_head_mass(club_speed=110 * MPH, mass_before=0.174, mass_after=0.2, exponent=0.178)
    return slower / MPH, float(inspect.signature(speed_with_head_mass).parameters["exponent"].default)


@LEDGER.gives("smash")
def _() -> float:
    return restitution_of_smash(smash=167 / 112, head_mass=0.2, spin_loft=radians(14.0), tangential_restitution=-0.26)


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
