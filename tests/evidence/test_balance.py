"""Swing weight, balance and inertia of whole clubs, held against the worked clubs and the workshop's rules."""

from __future__ import annotations

import pytest
from ledger import Ledger, Row

from asplayed.mechanics.balance import (
    Build,
    build,
    moment_of_points,
    swing_weight_moment,
    swing_weight_points,
)

LEDGER = Ledger("balance.csv", "Balance and build", "Three worked clubs, the balance scale, and the workshop's rules.")

INCH = 0.0254
INCH_OUNCE = INCH * 0.028349523125


def made(name: str, *, head: float = 0.0, shaft: float = 0.0, grip: float = 0.0) -> Build:
    """One of the worked clubs (inches and grams), with so many grams more in a part."""
    length, head_mass, height, shaft_mass, shaft_length, shaft_balance = {
        "driver": (45.5, 200, 1.2, 62, 44.0, 21.5),
        "5-iron": (38.0, 256, 0.6, 117, 36.5, 17.8),
        "7-iron": (37.0, 270, 0.6, 115, 35.5, 17.4),
        "wedge": (35.75, 285, 0.6, 115, 34.25, 16.8),
    }[name]
    return build(
        length=length * INCH,
        head_mass=(head_mass + head) / 1000,
        head_height=height * INCH,
        shaft_mass=(shaft_mass + shaft) / 1000,
        shaft_length=shaft_length * INCH,
        shaft_balance=shaft_balance * INCH,
        grip_mass=(50 + grip) / 1000,
        grip_balance=4.3 * INCH,
        grip_length=10.5 * INCH,
    )


def gain(name: str, **more: float) -> float:
    return made(name, **more).swing_weight_points - made(name).swing_weight_points


@LEDGER.gives("5.1")
def _() -> float:
    return swing_weight_points(213.5 * INCH_OUNCE)


@LEDGER.gives("5.2 moment", "5.2", "5.3 moment", "5.3", "5.4 moment", "5.4")
def _() -> tuple[float, ...]:
    moments = [
        swing_weight_moment(0.3498, 0.824),
        swing_weight_moment(0.325, 33 * INCH),
        swing_weight_moment(0.430, 27.9 * INCH),
    ]
    return tuple(figure for moment in moments for figure in (moment / INCH_OUNCE, swing_weight_points(moment)))


@LEDGER.gives("5.5 driver", "5.5 driver inertia", "5.5 driver balance")
def _() -> tuple[float, float, float]:
    club = made("driver")
    return club.swing_weight_points, club.butt_inertia * 1e4, club.balance_point / INCH


@LEDGER.gives("5.5 iron", "5.5 iron inertia", "5.5 wedge", "5.5 wedge inertia")
def _() -> tuple[float, ...]:
    iron, wedge = made("7-iron"), made("wedge")
    return iron.swing_weight_points, iron.butt_inertia * 1e4, wedge.swing_weight_points, wedge.butt_inertia * 1e4


@LEDGER.gives("5.6 driver", "5.6 iron", "5.6 wedge")
def _() -> tuple[float, float, float]:
    return gain("driver", head=1), gain("7-iron", head=1), gain("wedge", head=1)


@LEDGER.gives("5.6 trade")
def _() -> float:
    return 1000 * moment_of_step() / (39 * INCH - 0.6 * INCH - 14 * INCH)


def moment_of_step() -> float:
    return float(moment_of_points(1) - moment_of_points(0))


@LEDGER.gives("5.7", "5.7 trade")
def _() -> tuple[float, float]:
    five = gain("driver", grip=5)
    return five, -5 / five


@LEDGER.gives("5.8 driver", "5.8 iron", "5.8 wedge")
def _() -> tuple[float, float, float]:
    return gain("driver", shaft=9), gain("5-iron", shaft=9), gain("wedge", shaft=9)


def weighted(mass: float, distance: float) -> Build:
    return build(
        length=0.94,
        head_mass=0.27,
        head_height=0.015,
        shaft_mass=0.115,
        shaft_length=0.9,
        shaft_balance=0.442,
        grip_mass=0.05,
        grip_balance=0.11,
        grip_length=0.267,
        point_masses=[(mass, distance)],
    )


@LEDGER.gives("5.9")
def _() -> bool:
    return abs(weighted(0.03, 14 * INCH).moment - weighted(0.0, 14 * INCH).moment) < 1e-15


@LEDGER.gives("5.10")
def _() -> bool:
    heavy, bare = weighted(0.03, 0.0), weighted(0.0, 0.0)
    return heavy.swing_weight_points < bare.swing_weight_points and heavy.butt_inertia == bare.butt_inertia


@LEDGER.gives("5.11")
def _() -> bool:
    club = made("7-iron")
    again = swing_weight_points(swing_weight_moment(club.mass, club.balance_point))
    return abs(again - club.swing_weight_points) < 1e-9 and abs(moment_of_points(again) - club.moment) < 1e-12


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
