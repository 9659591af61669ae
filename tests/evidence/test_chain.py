"""Impact, flight and run together, held against what is known of driver loft, bulge and lie."""

from __future__ import annotations

from functools import cache
from math import radians
from typing import Any

import numpy as np
import pytest
from ledger import Ledger, Row

from asplayed.mechanics.flight import fly
from asplayed.mechanics.ground import run
from asplayed.mechanics.head import lie_error
from asplayed.mechanics.impact import impact
from asplayed.mechanics.strike import strike

LEDGER = Ledger(
    "chain.csv", "Impact to rest", "Best driver loft by head speed, bulge and lie, through the whole chain."
)
YARD = 0.9144
LOFTS = np.arange(6.0, 27.0, 0.5)


@cache
def distances(speed: float) -> tuple[Any, Any]:
    """Carry and total (yd) of a driver over the lofts, at a head speed (m/s)."""
    blow = impact(club_speed=speed, head_mass=0.2, restitution=0.83, attack_angle=0.0, dynamic_loft=np.radians(LOFTS))
    landed = fly(blow.ball_speed, blow.launch_angle, blow.spin_rate, density=1.194)
    rolled = run(landed.landing_speed, landed.descent_angle, landed.landing_spin, rolling_resistance=0.131)
    return landed.carry / YARD, (landed.carry + rolled.run) / YARD


def best(speed: float) -> float:
    return float(LOFTS[distances(speed)[0].argmax()])


@LEDGER.gives("3.6 30", "3.6 35", "3.6 40", "3.6 45", "3.6 50", "3.6 55")
def _() -> tuple[float, ...]:
    return tuple(best(speed) for speed in (30.0, 35.0, 40.0, 45.0, 50.0, 55.0))


@LEDGER.gives("3.6 total 30", "3.6 total 40", "3.6 total 50")
def _() -> tuple[float, ...]:
    return tuple(float(LOFTS[distances(speed)[1].argmax()]) for speed in (30.0, 40.0, 50.0))


@LEDGER.gives("Penner", "flat")
def _() -> tuple[Any, ...]:
    carries = distances(45.0)[0]
    top = int(carries.argmax())
    return best(47.0), bool(carries[top] - min(carries[top - 4], carries[top + 4]) <= 2)


@LEDGER.gives("bulge")
def _() -> bool:
    def offline(bulge: float | None) -> float:
        blow = strike(
            club_speed=45.0,
            head_mass=0.204,
            restitution=0.83,
            attack_angle=0.0,
            dynamic_loft=radians(12),
            cg_depth=0.0423,
            inertia_up=5.679e-4,
            inertia_heel_toe=4.085e-4,
            inertia_normal=2.843e-4,
            strike_toe=0.020,
            bulge_radius=bulge,
        )
        landed = fly(
            blow.ball_speed,
            blow.launch_angle,
            blow.spin_rate,
            launch_direction=blow.launch_direction,
            spin_axis=blow.spin_axis,
            density=1.194,
        )
        return float(landed.side) / YARD

    return abs(offline(0.305)) < abs(offline(None))


@LEDGER.gives("lie")
def _() -> bool:
    error = lie_error(radians(27), radians(2))
    blow = impact(
        club_speed=38.0,
        head_mass=0.262,
        restitution=0.78,
        attack_angle=radians(-4),
        dynamic_loft=error.loft,
        face_angle=error.direction,
        tangential_restitution=0.25,
    )
    landed = fly(
        blow.ball_speed,
        blow.launch_angle,
        blow.spin_rate,
        launch_direction=blow.launch_direction,
        spin_axis=blow.spin_axis,
        density=1.194,
    )
    return blow.launch_direction < 0 and -10 < float(landed.side) / float(landed.carry) * 160 < -3


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
