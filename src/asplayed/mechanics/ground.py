"""Bounce and run on turf: a rigid bounce with friction, hops, and a roll; ± 30 % on any run.

Turf yields under the ball, so the bounce is reckoned on a plane tilted towards the incoming ball, by an angle that
grows with its speed and its angle from the vertical. Constants from Penner 2002, "The run of a golf ball" (from memory;
the angle taken from the vertical is a reading of the text, and matters away from 44°). On the hard preset the plane
does not tilt. A ball with much backspin then keeps some of it on hard turf and leaves yielding turf with topspin, as
Haake's photographs of 1987 show of two kinds of green.

Penner's balls left their pits forward, as they had come. A steep ball with much backspin is driven back against the
far wall of its pit, and that wall is taken to yield as the near one does: by the same constant, for the speed that dug
it, with the angle at which friction drives the ball out; on hard turf too, for that gives as little of the speed back.
This is derived, not published. It leaves as it was every bounce that goes on forward, and holds spin-back to what was
measured (some seven metres, Haake 1991 and 1994) for balls whose surface turns up to 1.25 times as fast as they land.
A blow by a rigid head of up to 75° lands no ball that turns faster (1.21 at the most), and past that nothing was
measured: a run there says that it lies outside the model. Thirty metres and more may come out on a green, for friction
cannot change a ball's angular momentum about the point of touch, and one that brings nothing but spin ends rolling back
at two sevenths of the speed its surface had.

By the same law the strength of friction settles the hops, not the roll at the end: that follows from what the ball
brought, 5 v − 2 r ω, less five times what turf took by pushing through its centre.
"""

from __future__ import annotations

import math
from typing import Any, Literal, NamedTuple, get_args

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept, choose
from asplayed.mechanics.flight_equations import BALL_RADIUS

GRAVITY = 9.80665
RAMP_SPEED = 1.83  # m/s, a ball leaving the green-speed ramp (Holmes 1986, from memory)
AVERAGE_ROLLING_RESISTANCE = 0.131

TILT = math.radians(15.4) / 18.6 / math.radians(44.4)  # of the plane, for each m/s and each radian from the vertical
FASTEST_TILT = 40.0  # m/s; the straight line is not carried beyond this, where it nears the ball's own angle
MOST_TURNING = 1.25  # surface speed over landing speed; beyond it no ball was measured
STEEPEST_TILT = math.radians(45)  # full carries stay below 27°; a skimming ball lies outside what was fitted

Turf = Literal["yielding", "hard"]
MOST_BOUNCES = 500
HALVINGS = 30  # of the right angle in which the far wall's tilt is sought


class Rebound(NamedTuple):
    """How a ball leaves the ground: forward and upward speed (m/s), spin (rad/s, backspin +)."""

    forward_speed: Numbers
    upward_speed: Numbers
    spin_rate: Numbers


def ground_restitution(m: Any, normal_speed: Numbers) -> Numbers:
    """The share of its normal speed (m/s) a ball keeps on turf; 0.12 above 20 m/s."""
    falling = 0.510 - 0.0375 * normal_speed + 0.000903 * normal_speed * normal_speed
    return choose(m, normal_speed <= 20.0, falling, 0.120)


def _on_plane(
    m: Any, speed: Numbers, angle: Numbers, spin: Numbers, friction: Numbers, tilt: Numbers
) -> tuple[Numbers, Numbers, Numbers, Numbers]:
    """Speed along the tilted plane before and after, speed away from it, and spin, of one rigid bounce."""
    along, into = speed * m.sin(angle - tilt), speed * m.cos(angle - tilt)
    kept = ground_restitution(m, into)
    # The contact slides while the ground's grip is less than rolling would need.
    slip = along + BALL_RADIUS * spin
    way = choose(m, slip < 0, -1.0, 1.0)
    grip = friction * into * (1 + kept)
    slides = 2 * abs(slip) / 7 > grip
    along_after = choose(m, slides, along - way * grip, (5 * along - 2 * BALL_RADIUS * spin) / 7)
    spin_after = choose(m, slides, spin - way * 5 * grip / (2 * BALL_RADIUS), -along_after / BALL_RADIUS)
    return along, along_after, kept * into, spin_after


def _held(m: Any, tilt: Numbers) -> Numbers:
    return choose(m, tilt > STEEPEST_TILT, STEEPEST_TILT, choose(m, tilt < -STEEPEST_TILT, -STEEPEST_TILT, tilt))


def _rebound(m: Any, forward: Numbers, down: Numbers, spin: Numbers, friction: Numbers, tilting: bool) -> Rebound:
    """A bounce of a ball moving forward (− when spun back) and down; its angle from the vertical carries the sign."""
    speed = m.hypot(forward, down)
    angle = m.atan2(forward, down)
    yields = TILT * choose(m, speed < FASTEST_TILT, speed, FASTEST_TILT)
    near = yields * angle if tilting else 0.0 * angle
    tilt = _held(m, near)
    along, along_after, up_after, spin_after = _on_plane(m, speed, angle, spin, friction, tilt)
    # What friction gives a ball beyond the motion it brought drives it against the far wall of its pit.
    way = choose(m, along_after < along, -1.0, 1.0)
    brought = 2.0 * choose(m, way * along > 0.0, way * along, 0.0)
    driven = way * along_after > brought
    if driven if m is math else driven.any():
        least, most = 0.0 * tilt, 0.0 * tilt + math.pi / 2
        for _ in range(HALVINGS):
            out = 0.5 * (least + most)
            _, after, up, _ = _on_plane(m, speed, angle, spin, friction, _held(m, near + way * yields * out))
            further = m.atan2(way * after - brought, up) > out
            least, most = choose(m, further, out, least), choose(m, further, most, out)
        tilt = choose(m, driven, _held(m, near + way * yields * least), tilt)
        _, along_after, up_after, spin_after = _on_plane(m, speed, angle, spin, friction, tilt)
    return Rebound(
        along_after * m.cos(tilt) - up_after * m.sin(tilt),
        along_after * m.sin(tilt) + up_after * m.cos(tilt),
        spin_after,
    )


def _turf(turf: str) -> bool:
    if turf not in get_args(Turf):
        raise BadInput(f"turf is {turf!r}; give one of {', '.join(get_args(Turf))}")
    return turf == "yielding"


def bounce(
    landing_speed: Numbers,
    descent_angle: Numbers,
    spin_rate: Numbers,
    *,
    friction: Numbers = 0.4,
    turf: Turf = "yielding",
) -> Rebound:
    """One bounce; SI and radians, broadcasting: speed, angle below the horizon, spin (backspin +).

    An angle past 90° is that of a ball coming back, as `Flight.descent_angle` gives it; forward is still away.

    >>> from math import pi, radians
    >>> up = bounce(18.6, radians(45.6), 0.0)
    >>> round(up.forward_speed, 3), round(up.upward_speed, 3), round(up.spin_rate * 30 / pi)
    (5.61, 3.889, -2883)
    """
    tilting = _turf(turf)
    m, speed, angle, spin, friction = accept(
        "ground", landing_speed=landing_speed, descent_angle=descent_angle, spin_rate=spin_rate, friction=friction
    )
    return _rebound(m, speed * m.cos(angle), speed * m.sin(angle), spin, friction, tilting)


class Run(NamedTuple):
    """Distance from the first landing to rest (m, − when the ball comes back), and how often it bounced.

    `outside_model` is true where the ball's surface turns so much faster than it lands that nothing was measured.
    """

    run: Numbers
    bounces: Any
    outside_model: Any


def run(
    landing_speed: Numbers,
    descent_angle: Numbers,
    spin_rate: Numbers,
    *,
    green_speed: Numbers | None = None,
    rolling_resistance: Numbers | None = None,
    friction: Numbers = 0.4,
    stop_height: Numbers = 0.005,
    turf: Turf = "yielding",
) -> Run:
    """Hops and roll after landing; SI and radians, broadcasting. Give `green_speed` (m of ramp roll) or
    `rolling_resistance`.

    Hops are plain projectiles. Once a hop would rise less than `stop_height` the ball rolls; the choice matters (28.0,
    25.2 and 23.4 yd for 5, 20 and 50 mm in one case). The whole is good to ± 30 %, less where the ball's surface turns
    more than 1.25 times as fast as it lands: there `outside_model` is true.

    >>> from math import pi, radians
    >>> drive = run(27.5, radians(38.6), 2100 * pi / 30, rolling_resistance=0.131)
    >>> round(drive.run / 0.9144), drive.bounces
    (28, 40)
    """
    tilting = _turf(turf)
    if (green_speed is None) == (rolling_resistance is None):
        raise BadInput("give green_speed or rolling_resistance, one of them")
    if rolling_resistance is None:
        rolling_resistance = green(green_speed).rolling_resistance
    m, speed, angle, spin, resistance, friction, stop = accept(
        "ground",
        landing_speed=landing_speed,
        descent_angle=descent_angle,
        spin_rate=spin_rate,
        rolling_resistance=rolling_resistance,
        friction=friction,
        stop_height=stop_height,
    )
    outside_model = BALL_RADIUS * abs(spin) > MOST_TURNING * speed
    forward, down = speed * m.cos(angle), speed * m.sin(angle)
    travelled, bounces = 0.0 * forward, 0 * forward
    hopping = down * down / (2 * GRAVITY) >= stop
    for _ in range(MOST_BOUNCES):
        if not (hopping if m is math else hopping.any()):
            break
        after = _rebound(m, forward, down, spin, friction, tilting)
        forward = choose(m, hopping, after.forward_speed, forward)
        down = choose(m, hopping, after.upward_speed, down)
        spin = choose(m, hopping, after.spin_rate, spin)
        bounces = bounces + choose(m, hopping, 1, 0)
        hopping = hopping & (down * down / (2 * GRAVITY) >= stop)
        travelled = travelled + choose(m, hopping, 2 * forward * down / GRAVITY, 0.0)
    rolling = (5 * forward - 2 * BALL_RADIUS * spin) / 7  # once what is left of the slip is gone
    rolled = 7 * rolling * abs(rolling) / (10 * resistance * GRAVITY)
    return Run(travelled + rolled, int(bounces) if m is math else bounces.astype(int), outside_model)


class Green(NamedTuple):
    """A green's deceleration of a rolling ball (m/s²) and its rolling resistance."""

    deceleration: Numbers
    rolling_resistance: Numbers


def green(green_speed: Numbers) -> Green:
    """What a green speed (the ramp's roll, in m) means: v²/2S and 7a/5g, broadcasting.

    >>> round(green(10 * 0.3048).deceleration, 4), round(green(10 * 0.3048).rolling_resistance, 3)
    (0.5494, 0.078)
    """
    _, length = accept(green_speed=green_speed)
    deceleration = RAMP_SPEED**2 / (2 * length)
    return Green(deceleration, 7 * deceleration / (5 * GRAVITY))


def level_green_speed(green_speed_up: Numbers, green_speed_down: Numbers) -> Numbers:
    """The green speed (m) of a sloped green from the ramp's roll up and down the same slope; exact, broadcasting.

    Source: the USGA course rating manual, p. 31.

    >>> round(level_green_speed(6.0, 12.0), 3)
    8.0
    """
    _, up, down = accept(green_speed_up=green_speed_up, green_speed_down=green_speed_down)
    return 2 * up * down / (up + down)
