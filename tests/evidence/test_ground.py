"""Bounce, run and greens held against Penner's equations, Haake's photographs and the ramp's booklet."""

from __future__ import annotations

import itertools
import math
from math import radians
from typing import Any

import numpy as np
import pytest
from ledger import Ledger, Row

from asplayed.mechanics.flight_equations import BALL_RADIUS
from asplayed.mechanics.ground import bounce, green, ground_restitution, level_green_speed, run
from asplayed.mechanics.putter import capture_speed, holes, putt

LEDGER = Ledger(
    "ground.csv",
    "Bounce, run and green",
    "Bounces and runs by Penner's equations (± 30 % on a run), green speed, the roll of a putt and the hole.",
)
RPM, FOOT, YARD = math.pi / 30, 0.3048, 0.9144
TEN_FEET = 10 * FOOT
NINE_IRON = {"landing_speed": 22.7, "descent_angle": radians(48.5)}


@LEDGER.gives("4.1 2", "4.1 5", "4.1 10", "4.1 15", "4.1 20", "W27 1", "W27 20")
def _() -> tuple[float, ...]:
    return tuple(ground_restitution(math, speed) for speed in (2.0, 5.0, 10.0, 15.0, 20.0, 0.5, 20.0))


@LEDGER.gives("4.2 forward", "4.2 up", "4.2 spin", "4.3 forward", "4.3 up")
def _() -> tuple[float, ...]:
    plain, spun = (bounce(18.6, radians(45.6), spin * RPM) for spin in (0, 5000))
    return (
        plain.forward_speed,
        plain.upward_speed,
        plain.spin_rate / RPM,
        spun.forward_speed,
        spun.upward_speed,
    )


@LEDGER.gives("4.4 forward", "4.4 up", "4.5 forward", "4.5 up", "4.6 forward", "4.6 up")
def _() -> tuple[float, ...]:
    found = (
        bounce(20.0, radians(40), 2500 * RPM),
        bounce(15.0, radians(60), 4000 * RPM),
        bounce(27.5, radians(38.6), 2100 * RPM, turf="hard"),
    )
    return tuple(speed for each in found for speed in (each.forward_speed, each.upward_speed))


@LEDGER.gives("4.7", "4.7 bounces", "4.7 20", "4.7 50", "4.8")
def _() -> tuple[float, ...]:
    def drive(stop: float) -> Any:
        return run(27.5, radians(38.6), 2100 * RPM, rolling_resistance=0.131, stop_height=stop)

    steep = run(23.0, radians(46), 6000 * RPM, rolling_resistance=0.131)
    return (
        drive(0.005).run / YARD,
        drive(0.005).bounces,
        drive(0.020).run / YARD,
        drive(0.050).run / YARD,
        steep.run / YARD,
    )


@LEDGER.gives("4.9", "4.9 6", "4.9 12")
def _() -> tuple[float, ...]:
    return (
        green(TEN_FEET).deceleration,
        green(6 * FOOT).rolling_resistance,
        green(12 * FOOT).rolling_resistance,
    )


@LEDGER.gives("4.10")
def _() -> bool:
    speeds = [bounce(18.6, radians(45.6), spin * RPM).forward_speed for spin in range(0, 7001, 250)]
    return all(after <= before for before, after in itertools.pairwise(speeds))


@LEDGER.gives("W12", "W13", "W14")
def _() -> tuple[float, ...]:
    # A ball that leaves the ramp rolling: topspin of its own speed, so no skid.
    rolled = putt(1.83, TEN_FEET, topspin=1.83 / 0.021335).distance
    return level_green_speed(6 * FOOT, 12 * FOOT) / FOOT, rolled / TEN_FEET, capture_speed(0.0)


@LEDGER.gives("skid 57", "skid share")
def _() -> tuple[float, float]:
    found = putt(2.0, TEN_FEET)
    return found.roll_speed / 2.0, found.skid_distance / found.distance


@LEDGER.gives("W28 forward", "W28 back")
def _() -> tuple[bool, bool]:
    ends = {rate: run(**NINE_IRON, spin_rate=rate * 2 * math.pi, green_speed=TEN_FEET).run for rate in (129, 159, 191)}
    first = bounce(**NINE_IRON, spin_rate=129 * 2 * math.pi)
    return first.forward_speed > 0, ends[129] > 0 > ends[159] > ends[191]


@LEDGER.gives("W29")
def _() -> float:
    return run(**NINE_IRON, spin_rate=148 * 2 * math.pi, green_speed=TEN_FEET).run


@LEDGER.gives("W28 W29")
def _() -> float:
    speed, angle, friction = np.meshgrid(
        np.linspace(12, 30, 19), np.radians(np.linspace(35, 70, 36)), np.geomspace(0.05, 1, 14)
    )

    def runs(rate: float, turf: Any) -> Any:
        spin = rate * 2 * math.pi
        return run(speed, angle, spin, green_speed=TEN_FEET, turf=turf, friction=friction).run

    return float(min(runs(148, turf)[runs(129, turf) >= 0].min() for turf in ("yielding", "hard")))


@LEDGER.gives("W28 kept", "W28 kept most")
def _() -> tuple[float, float]:
    speed, angle, spin, friction = np.meshgrid(
        np.linspace(10, 30, 5), np.radians(np.linspace(20, 50, 4)), np.linspace(-100, 400, 6), np.linspace(0.05, 1, 5)
    )
    after = bounce(speed, angle, spin, friction=friction, turf="hard")
    before = 5 * speed * np.cos(angle) - 2 * BALL_RADIUS * spin
    # Where the ball is driven back against its pit, which hard turf has too, the turf pushes through its centre.
    fair = after.forward_speed > 0
    kept = (5 * after.forward_speed - 2 * BALL_RADIUS * after.spin_rate)[fair] / before[fair]
    return float(kept.min()), float(kept.max())


@LEDGER.gives("W29 most")
def _() -> float:
    speed, angle, share = np.meshgrid(
        np.linspace(8, 45, 38), np.radians(np.linspace(45, 90, 46)), np.linspace(0, 1.25, 6)
    )
    spin = np.minimum(share * speed / BALL_RADIUS, 12000 * RPM)
    runs = (run(speed, angle, spin, green_speed=TEN_FEET, turf=turf).run.min() for turf in ("yielding", "hard"))
    return float(min(runs))


@LEDGER.gives("W30", "W31")
def _() -> tuple[bool, bool]:
    yielding = bounce(21.0, radians(47), 900.0, turf="yielding").spin_rate
    hard = bounce(21.0, radians(47), 900.0, turf="hard").spin_rate
    runs = [run(27.5, radians(angle), 2100 * RPM, rolling_resistance=0.131).run for angle in (32, 38, 44)]
    return yielding < 0 < hard, runs[0] > runs[1] > runs[2]


def test_the_hole_takes_what_it_says_it_takes() -> None:
    assert holes(capture_speed(0.03), 0.03)
    assert not holes(capture_speed(0.03) + 1e-9, 0.03)


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
