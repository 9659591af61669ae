"""Laws of bounce, run and putt: no energy from nowhere, everything comes to rest, refusals in words."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import scipy.stats
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics.flight_equations import BALL_RADIUS
from asplayed.mechanics.ground import bounce, green, run
from asplayed.mechanics.putter import (
    HOLE_RADIUS,
    SLIDING_FRICTION,
    StruckPutt,
    capture_speed,
    make_rate,
    putt,
    start_speed_for,
    struck_putt,
)
from asplayed.mechanics.scoring import baselines, strokes, surely_remembered

LANDINGS = (st.floats(0.5, 90), st.floats(0.02, 1.57), st.floats(-500, 1500))
TURF = st.sampled_from(["yielding", "hard"])


@given(*LANDINGS, TURF, st.floats(0, 2))
def test_a_bounce_makes_no_energy_and_leaves_upward_of_the_turf(
    speed: float, angle: float, spin: float, turf: str, friction: float
) -> None:
    after = bounce(speed, angle, spin, turf=turf, friction=friction)  # type: ignore[arg-type]
    turning = 0.4 * BALL_RADIUS**2
    before = speed**2 + turning * spin**2
    left = after.forward_speed**2 + after.upward_speed**2 + turning * after.spin_rate**2
    assert left <= before * (1 + 1e-9)


@given(*LANDINGS, TURF)
def test_every_run_ends(speed: float, angle: float, spin: float, turf: str) -> None:
    found = run(speed, angle, spin, rolling_resistance=0.08, turf=turf)  # type: ignore[arg-type]
    assert math.isfinite(found.run)
    assert found.bounces < 200


# Some seven metres of spin-back were measured (Haake 1991 and 1994, by Penner 2003), and any run is unsure by 30 %.
MOST_SPIN_BACK = 7.0 * 1.3


@given(st.floats(2, 50), st.floats(0.02, math.pi / 2), st.floats(0, 1.25), st.floats(0.078, 0.3), TURF)
def test_no_ball_spins_back_further_than_was_measured(
    speed: float, angle: float, turning: float, resistance: float, turf: str
) -> None:
    spin = min(turning * speed / BALL_RADIUS, 12000 * math.pi / 30)
    assert run(speed, angle, spin, rolling_resistance=resistance, turf=turf).run > -MOST_SPIN_BACK  # type: ignore[arg-type]


@given(*LANDINGS, TURF)
def test_a_ball_blown_back_runs_as_its_mirror_does(speed: float, angle: float, spin: float, turf: str) -> None:
    back = run(speed, math.pi - angle, spin, rolling_resistance=0.1, turf=turf)  # type: ignore[arg-type]
    on = run(speed, angle, -spin, rolling_resistance=0.1, turf=turf)  # type: ignore[arg-type]
    assert back.run == pytest.approx(-on.run, rel=1e-6, abs=1e-3)


def test_a_run_says_where_no_ball_was_measured() -> None:
    spin = np.array([-2.0, -1.2, 0.0, 1.2, 1.3]) * 10.0 / BALL_RADIUS
    found = run(10.0, 1.3, spin, rolling_resistance=0.1)
    assert found.outside_model.tolist() == [True, False, False, False, True]
    assert run(10.0, 1.3, float(spin[-1]), rolling_resistance=0.1).outside_model is True


@given(*LANDINGS[:2], st.floats(0, 1400), st.floats(0, 300), TURF, st.floats(0, 1))
def test_more_backspin_never_sends_a_ball_further_forward(
    speed: float, angle: float, spin: float, more: float, turf: str, friction: float
) -> None:
    less, much = (bounce(speed, angle, each, turf=turf, friction=friction) for each in (spin, spin + more))  # type: ignore[arg-type]
    assert much.forward_speed <= less.forward_speed + 1e-6


@given(st.floats(1, 45), st.floats(0, 1400), TURF)
def test_dropped_straight_down_topspin_runs_as_far_as_backspin(speed: float, spin: float, turf: str) -> None:
    back, on = (run(speed, math.pi / 2, each, rolling_resistance=0.1, turf=turf).run for each in (spin, -spin))  # type: ignore[arg-type]
    assert back == pytest.approx(-on, abs=1e-3)


@given(st.floats(5, 40), st.floats(0.3, 1.2), st.floats(0, 500))
def test_only_the_roll_depends_on_resistance_and_goes_as_its_inverse(speed: float, angle: float, spin: float) -> None:
    least, middle, most = (run(speed, angle, spin, rolling_resistance=r).run for r in (0.05, 0.1, 0.2))
    assert least - middle == pytest.approx(2 * (middle - most), abs=1e-9)


@given(st.floats(0.1, 6), st.floats(1.5, 4.5), st.floats(0.1, 1))
def test_a_putt_rolls_as_far_as_it_was_asked_to(distance: float, green: float, grip: float) -> None:
    start = start_speed_for(distance, green, sliding_friction=grip)
    found = putt(start, green, sliding_friction=grip)
    assert found.distance == pytest.approx(distance, rel=1e-12)
    assert found.roll_speed == pytest.approx(5 / 7 * start, rel=1e-12)


def test_loft_above_the_attack_gives_backspin_and_below_it_topspin() -> None:
    def struck(loft: float) -> StruckPutt:
        return struck_putt(
            club_speed=1.6, head_mass=0.35, restitution=0.75, dynamic_loft=loft, attack_angle=0.03, green_speed=3.0
        )

    lofted, square, hooded = struck(0.06), struck(0.03), struck(0.01)
    assert lofted.topspin < 0 < hooded.topspin
    assert square.topspin == pytest.approx(0.0, abs=1e-9)
    assert lofted.hop_distance > square.hop_distance > hooded.hop_distance


def test_the_hole_is_as_wide_as_it_is() -> None:
    assert capture_speed(HOLE_RADIUS) == 0.0
    assert capture_speed(-0.02) == capture_speed(0.02) > capture_speed(0.03)
    assert make_rate(1.0, 0.03) > make_rate(2.0, 0.03) > make_rate(2.0, 0.04)


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: run(20.0, 0.7, 100.0), "green_speed or rolling_resistance"),
        (lambda: run(20.0, 0.7, 100.0, green_speed=3.0, rolling_resistance=0.1), "one of them"),
        (lambda: bounce(20.0, 0.7, 100.0, turf="bog"), "yielding, hard"),  # type: ignore[arg-type]
        (lambda: putt(1.0, 3.0, topspin=100.0), "more than rolling"),
        (lambda: putt(1.0, 3.0, topspin=-200.0), "bring the putt back"),
        (lambda: strokes("tee", 20.0), "100 to 500 yd"),
        (lambda: strokes("bunker", 20.0), "tee, fairway, rough, sand, green"),  # type: ignore[arg-type]
        (lambda: strokes("green", 30.0), "1 to 60 ft"),
    ],
)
def test_refusals_say_what_would_do(call: object, sentence: str) -> None:
    with pytest.raises(BadInput, match=sentence):
        call()  # type: ignore[operator]


def test_doubtful_rows_are_known() -> None:
    assert surely_remembered("fairway", 300.0)
    assert not surely_remembered("sand", 400 * 0.9144)


@pytest.mark.parametrize("spin", [0.0, -40.0, 30.0])
def test_a_putt_goes_as_far_and_as_long_as_step_by_step(spin: float) -> None:
    # Sliding friction slows the ball and turns it (2/5 m r²) until it rolls; then the green's own deceleration.
    speed, turning, travelled, passed, step = 2.0, spin, 0.0, 0.0, 2e-5
    deceleration = green(3.0).deceleration
    while speed > 0:
        sliding = speed > BALL_RADIUS * turning
        loss = SLIDING_FRICTION * 9.80665 if sliding else deceleration
        travelled += speed * step - loss * step * step / 2
        turning += (
            2.5 * SLIDING_FRICTION * 9.80665 / BALL_RADIUS * step if sliding else -deceleration / BALL_RADIUS * step
        )
        speed -= loss * step
        passed += step
    found = putt(2.0, 3.0, topspin=spin)
    assert (found.distance, found.time) == pytest.approx((travelled, passed), rel=1e-3)


def test_a_struck_putt_goes_its_hop_and_then_as_a_putt() -> None:
    found = struck_putt(
        club_speed=1.6, head_mass=0.35, restitution=0.75, dynamic_loft=0.06, attack_angle=0.02, green_speed=3.0
    )
    level = found.ball_speed * math.cos(found.launch_angle)
    assert found.hop_distance > 0
    rolled = putt(level, 3.0, topspin=found.topspin).distance
    assert found.distance == pytest.approx(found.hop_distance + rolled, rel=1e-12)


@pytest.mark.parametrize("feet", [3, 8, 20])
def test_putts_are_holed_as_the_normal_law_says(feet: float) -> None:
    # Berry 1995: p = 2Φ(asin((R − r)/x)/σ) − 1, the hole 4.25 in and the ball 1.68 in across.
    room = (4.25 - 1.68) * 0.0254 / 2
    spread = math.radians(1.527)
    expected = 2 * scipy.stats.norm.cdf(math.asin(room / (feet * 0.3048)) / spread) - 1
    assert make_rate(feet * 0.3048, spread) == pytest.approx(expected, rel=1e-3)
    assert make_rate(np.array([feet * 0.3048]), spread)[0] == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("lie", ["tee", "fairway", "rough", "sand", "green"])
def test_between_the_last_two_rows_strokes_lie_on_their_line(lie: Any) -> None:
    table = baselines()[lie]
    middle = sum(table.distances[-2:]) / 2
    expected = sum(table.strokes[-2:]) / 2
    assert strokes(lie, middle) == pytest.approx(expected, rel=1e-12)
    assert strokes(lie, np.array([middle]))[0] == pytest.approx(expected, rel=1e-12)
