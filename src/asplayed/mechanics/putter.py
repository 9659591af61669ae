"""A putt: from skid to roll, how fast it must start, and what the hole takes at which speed."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from asplayed.mechanics.checks import Numbers, accept, choose, refuse_where
from asplayed.mechanics.flight_equations import BALL_RADIUS
from asplayed.mechanics.ground import GRAVITY, green
from asplayed.mechanics.impact import impact

HOLE_RADIUS = 4.25 * 0.0254 / 2
CAPTURE_SPEED = 1.63  # m/s, dead centre on a level green (Holmes 1991, quoted by Penner 2003)
# Grip of the green on a skidding ball. Chosen so that the skid takes 15 to 20 % of a putt (common practice).
SLIDING_FRICTION = 0.25


class Putt(NamedTuple):
    """A putt on a level green, SI: length and end speed of the skid, whole length, whole time."""

    skid_distance: Numbers
    roll_speed: Numbers
    distance: Numbers
    time: Numbers


def putt(
    start_speed: Numbers,
    green_speed: Numbers,
    *,
    topspin: Numbers = 0.0,
    sliding_friction: Numbers = SLIDING_FRICTION,
) -> Putt:
    """How a putt skids, rolls and stops on a level green; SI, broadcasting; `topspin` at the start (rad/s, backspin −).

    A ball that starts without spin rolls at 5/7 of its speed, whatever the grip.

    >>> stroke = putt(2.0, 10 * 0.3048)
    >>> round(stroke.roll_speed / 2.0, 4), round(stroke.distance, 2), round(stroke.skid_distance / stroke.distance, 2)
    (0.7143, 2.26, 0.18)
    """
    m, speed, length, spin, friction = accept(
        start_speed=start_speed, green_speed=green_speed, topspin=topspin, sliding_friction=sliding_friction
    )
    deceleration = green(length).deceleration
    slip = speed - BALL_RADIUS * spin
    refuse_where(m, slip < 0, "topspin is more than rolling; give at most start_speed over the ball's radius")
    skidding = 2 * slip / (7 * friction * GRAVITY)
    roll = speed - friction * GRAVITY * skidding
    refuse_where(m, roll < 0, "so much backspin would bring the putt back; give less")
    skid = (speed + roll) / 2 * skidding
    return Putt(skid, roll, skid + roll * roll / (2 * deceleration), skidding + roll / deceleration)


class StruckPutt(NamedTuple):
    """A putt from the face on, SI: start and launch of the ball, topspin at the start, the hop, and all the way."""

    ball_speed: Numbers
    launch_angle: Numbers
    topspin: Numbers
    hop_distance: Numbers
    distance: Numbers


def struck_putt(
    *,
    club_speed: Numbers,
    head_mass: Numbers,
    restitution: Numbers,
    dynamic_loft: Numbers,
    attack_angle: Numbers,
    green_speed: Numbers,
    sliding_friction: Numbers = SLIDING_FRICTION,
) -> StruckPutt:
    """A putt from the putter's speed, loft and attack to where it stops on a level green; SI and radians, broadcasting.

    The ball hops as its launch has it, falls without a bounce, skids and rolls. Loft above the attack gives backspin,
    attack above the loft topspin.

    >>> from math import degrees, radians
    >>> putt = struck_putt(club_speed=1.6, head_mass=0.35, restitution=0.75, dynamic_loft=radians(3),
    ...     attack_angle=radians(2), green_speed=10 * 0.3048)
    >>> round(putt.ball_speed, 2), round(degrees(putt.launch_angle), 1), putt.topspin < 0, round(putt.distance, 1)
    (2.47, 2.8, True, 3.5)
    """
    blow = impact(
        club_speed=club_speed,
        head_mass=head_mass,
        restitution=restitution,
        attack_angle=attack_angle,
        dynamic_loft=dynamic_loft,
    )
    m, speed, launch = accept(start_speed=blow.ball_speed, launch_angle=blow.launch_angle)
    level, up = speed * m.cos(launch), speed * m.sin(launch)
    topspin = -blow.spin_rate * m.cos(blow.spin_axis)
    hop = level * 2 * choose(m, up > 0, up, 0.0) / GRAVITY
    rolled = putt(level, green_speed, topspin=topspin, sliding_friction=sliding_friction)
    return StruckPutt(speed, launch, topspin, hop, hop + rolled.distance)


def start_speed_for(
    putt_distance: Numbers, green_speed: Numbers, *, sliding_friction: Numbers = SLIDING_FRICTION
) -> Numbers:
    """The speed (m/s) at which a putt without spin must start to stop after `putt_distance` (m); broadcasting.

    >>> round(putt(start_speed_for(3.0, 3.0), 3.0).distance, 9)
    3.0
    """
    m, distance, length, friction = accept(
        putt_distance=putt_distance, green_speed=green_speed, sliding_friction=sliding_friction
    )
    each = 12 / (49 * friction * GRAVITY) + 25 / (98 * green(length).deceleration)
    return m.sqrt(distance / each)


def capture_speed(offset: Numbers) -> Numbers:
    """The fastest speed (m/s) at which the hole takes a ball passing `offset` (m) from its centre; broadcasting.

    1.63 m/s dead centre (Holmes 1991, quoted by Penner 2003), falling with the square of the offset to 0 at the hole's
    edge (Penner, from memory).

    >>> capture_speed(0.0), capture_speed(0.06)
    (1.63, 0.0)
    """
    m, offset = accept(offset=offset)
    share = offset / HOLE_RADIUS
    return choose(m, abs(share) < 1, CAPTURE_SPEED * (1 - share * share), 0.0)


def holes(speed_at_hole: Numbers, offset: Numbers) -> Any:
    """Whether a ball that passes `offset` (m) from the hole's centre at `speed_at_hole` (m/s) drops; broadcasting.

    >>> holes(1.2, 0.02), holes(1.2, 0.04)
    (True, False)
    """
    _, speed, offset = accept(speed_at_hole=speed_at_hole, offset=offset)
    fastest = capture_speed(offset)
    return (speed <= fastest) & (fastest > 0)


def make_rate(putt_distance: Numbers, direction_spread: Numbers) -> Numbers:
    """The share of level putts of a length (m) that find the hole, for a spread of direction (rad); broadcasting.

    Direction alone: speed is taken as right. p = 2Φ(asin((R − r)/x)/σ) − 1, the hole's radius less the ball's over the
    length. Fitted to 5,988 professional putts of 2 to 20 ft (Berry 1995) the spread is 1.527°.

    >>> from math import radians
    >>> round(make_rate(8 * 0.3048, radians(1.527)), 2)
    0.38
    """
    m, distance, spread = accept(putt_distance=putt_distance, direction_spread=direction_spread)
    room = HOLE_RADIUS - BALL_RADIUS
    sine = room / choose(m, distance > room, distance, room)
    turns = m.asin(sine) / choose(m, spread > 0, spread, 1e-9)
    if m is math:
        return math.erf(turns / math.sqrt(2))
    from scipy.special import erf

    return erf(turns / math.sqrt(2))
