"""Club meets ball: the planar blow through the head's centre of gravity, the D-plane, and what was measured of it.

The head is free (the shaft is slow to feel the blow) and meets the ball with the velocity of attack and path. Along the
face normal the ball leaves by restitution; along the face it is dragged by friction: either it sticks, and leaves with
the tangential speed `tangential_restitution` allows (0: rolling on the face as it goes; > 0: over-spun), or it slides
throughout, when friction is too little for that.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from asplayed.mechanics.checks import Numbers, accept, choose, refuse_where
from asplayed.mechanics.flight_equations import BALL_MASS, BALL_RADIUS

BALL_INERTIA_FACTOR = 0.4  # of a uniform sphere; a measured ball is within 0.1 % of it


class Impact(NamedTuple):
    """How the ball leaves; SI and radians. Direction + right, `spin_axis` the turn of the spin axis about the launch
    velocity, + curving right; `smash` ball speed over club speed; `slides` true where friction gave out."""

    ball_speed: Numbers
    launch_angle: Numbers
    launch_direction: Numbers
    spin_rate: Numbers
    spin_axis: Numbers
    spin_loft: Numbers
    smash: Numbers
    slides: Any


# Vectors below are (target, up, right) triples: right-handed, and the way directions are reported.
Triple = tuple[Numbers, Numbers, Numbers]


def dot(a: Triple, b: Triple) -> Numbers:
    """The scalar product of two triples."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Triple, b: Triple) -> Triple:
    """The vector product of two (target, up, right) triples."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def looking(m: Any, elevation: Numbers, direction: Numbers) -> Triple:
    """The unit triple at an elevation, so far right of the target."""
    return (m.cos(elevation) * m.cos(direction), m.sin(elevation), m.cos(elevation) * m.sin(direction))


def axis_turn(m: Any, velocity: Triple, spin: Triple) -> Numbers:
    """The turn of a spin axis about the launch velocity from the horizontal backspin axis, + curving right.

    A ball that does not spin, or leaves straight up or down, has none: 0.
    """
    level = m.hypot(velocity[0], velocity[2])
    speed = m.sqrt(dot(velocity, velocity))
    safe = choose(m, level > 0, level, 1.0)
    back = (-velocity[2] / safe, 0.0 * safe, velocity[0] / safe)
    upward = cross(back, velocity)
    scale = choose(m, speed > 0, speed, 1.0)
    turn = m.atan2(-dot(spin, upward) / scale, dot(spin, back))
    return choose(m, (level > 0) & (dot(spin, spin) > 0), turn + 0.0, 0.0)


def impact(
    *,
    club_speed: Numbers,
    head_mass: Numbers,
    restitution: Numbers,
    attack_angle: Numbers,
    dynamic_loft: Numbers,
    tangential_restitution: Numbers = 0.0,
    friction: Numbers | None = None,
    club_path: Numbers = 0.0,
    face_angle: Numbers = 0.0,
    restitution_slope: Numbers = 0.0,
    restitution_speed: Numbers = 0.0,
) -> Impact:
    """A blow through the head's centre of gravity; SI and radians, broadcasting.

    `friction` None means the ball always sticks. `tangential_restitution`: about 0.25 for irons and wedges on a dry
    clean face, 0 for fairway woods and drivers. `club_path` and `face_angle` + right of the target. Restitution falls
    by `restitution_slope` per m/s of normal speed above `restitution_speed` (0.0029 per m/s: Penner 2001, from memory).
    Sources: Penner 2003, "The physics of golf", for the launch speed; Cochran and Stobbs, Search for the Perfect Swing.

    >>> from math import degrees, radians
    >>> driver = impact(club_speed=113 * 0.44704, head_mass=0.2, restitution=0.83, attack_angle=0.0,
    ...     dynamic_loft=radians(12))
    >>> round(driver.ball_speed / 0.44704, 2), round(degrees(driver.launch_angle), 3)
    (164.62, 9.807)
    """
    m, speed, mass, restitution, attack, loft, tangential, path, face, slope, reference = accept(
        club_speed=club_speed,
        head_mass=head_mass,
        restitution=restitution,
        attack_angle=attack_angle,
        dynamic_loft=dynamic_loft,
        tangential_restitution=tangential_restitution,
        club_path=club_path,
        face_angle=face_angle,
        restitution_slope=restitution_slope,
        restitution_speed=restitution_speed,
    )
    normal = looking(m, loft, face)
    heading = looking(m, attack, path)
    cosine = dot(normal, heading)
    refuse_where(
        m, cosine <= 0, "the face looks away from where the club goes; bring loft, attack, face and path nearer"
    )
    along = tuple(h - cosine * n for h, n in zip(heading, normal, strict=True))
    sine = m.sqrt(dot(along, along))
    normal_speed, tangential_speed = speed * cosine, speed * sine
    restitution = restitution - slope * (normal_speed - reference)
    refuse_where(m, (restitution < 0) | (restitution > 1), "restitution leaves 0 to 1 at this speed; lower its slope")
    pressed = (1 + restitution) * normal_speed / (1 / mass + 1 / BALL_MASS)
    stuck = (1 + tangential) * tangential_speed / (1 / mass + (1 + 1 / BALL_INERTIA_FACTOR) / BALL_MASS)
    if friction is None:
        slides, dragged = stuck < 0 * pressed, stuck
    else:
        _, friction, _ = accept(friction=friction, club_speed=speed)
        slides = stuck > friction * pressed
        dragged = choose(m, slides, friction * pressed, stuck)
    per_sine = dragged / BALL_MASS / choose(m, sine > 0, sine, 1.0)
    velocity = tuple(pressed / BALL_MASS * n + per_sine * a for n, a in zip(normal, along, strict=True))
    ball_speed = m.hypot(pressed / BALL_MASS, dragged / BALL_MASS)
    return Impact(
        ball_speed,
        m.asin(velocity[1] / ball_speed),
        m.atan2(velocity[2], velocity[0]),
        dragged / (BALL_INERTIA_FACTOR * BALL_MASS * BALL_RADIUS),
        axis_turn(m, velocity, cross(along, normal)),
        m.atan2(sine, cosine),
        ball_speed / speed,
        slides,
    )


class DPlane(NamedTuple):
    """Spin loft (rad), and the height of the spin axis above the horizon (rad, + curving right)."""

    spin_loft: Numbers
    tilt: Numbers


def dplane(*, face_angle: Numbers, club_path: Numbers, dynamic_loft: Numbers, attack_angle: Numbers) -> DPlane:
    """The plane of face normal and club path; radians, broadcasting; face and path + right.

    `tilt` is the height of the spin axis above the horizon, not its turn about the launch: feed a flight with the
    `spin_axis` of `impact`. Source: Jorgensen, The Physics of Golf.

    >>> from math import degrees, radians
    >>> plane = dplane(face_angle=radians(2), club_path=0.0, dynamic_loft=radians(12), attack_angle=0.0)
    >>> round(degrees(plane.spin_loft), 3), round(degrees(plane.tilt), 3)
    (12.163, 9.324)
    """
    m, face, path, loft, attack = accept(
        face_angle=face_angle, club_path=club_path, dynamic_loft=dynamic_loft, attack_angle=attack_angle
    )
    normal, heading = looking(m, loft, face), looking(m, attack, path)
    axis = cross(heading, normal)
    sine = m.sqrt(dot(axis, axis))
    rise = m.cos(attack) * m.cos(loft) * m.sin(face - path)
    flat = choose(m, sine > 0, sine, 1.0)
    return DPlane(m.atan2(sine, dot(normal, heading)), m.asin(choose(m, sine > 0, rise / flat, 0.0 * rise)))


def restitution_of_smash(
    *, smash: Numbers, head_mass: Numbers, spin_loft: Numbers, tangential_restitution: Numbers = 0.0
) -> Numbers:
    """The effective restitution that a measured smash factor means, per club and player; broadcasting.

    Reported club speed is not the speed of the impact point, so the answer may lie above what the rules allow a face;
    it calibrates `impact` to the launch monitor it came from and says nothing of the head's legality.

    >>> from math import radians
    >>> round(restitution_of_smash(smash=1.457, head_mass=0.2, spin_loft=radians(12)), 3)
    0.83
    """
    m, smash, mass, loft, tangential = accept(
        smash=smash, head_mass=head_mass, spin_loft=spin_loft, tangential_restitution=tangential_restitution
    )
    sideways = (1 + tangential) * m.sin(loft) / (BALL_MASS / mass + 1 + 1 / BALL_INERTIA_FACTOR)
    square = smash * smash - sideways * sideways
    refuse_where(m, square < 0, "smash is too low for this spin loft; check club speed and loft")
    found = m.sqrt(square) * (1 + BALL_MASS / mass) / m.cos(loft) - 1
    refuse_where(m, (found < 0) | (found > 1), "this smash needs a restitution outside 0 to 1; check both speeds")
    return found


def speed_with_head_mass(
    *, club_speed: Numbers, mass_before: Numbers, mass_after: Numbers, exponent: float = 0.18
) -> Numbers:
    """Club speed once the head's mass has changed: it goes as mass to the power −`exponent`; SI, broadcasting.

    0.18 ± 0.05: heads of 174 to 200 g swung by 18 players (MacKenzie, Ryan and Rice 2015), and Daish's 1/5.3 (The
    Physics of Ball Games, from memory). One study with other things changed has 0.70.

    >>> round(speed_with_head_mass(club_speed=110.0 * 0.44704, mass_before=0.174, mass_after=0.2) / 0.44704, 1)
    107.3
    """
    _, speed, before = accept(club_speed=club_speed, head_mass=mass_before)
    _, after, exponent = accept(head_mass=mass_after, exponent=exponent)
    return speed * (before / after) ** exponent
