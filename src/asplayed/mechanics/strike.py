"""Club meets ball off centre: a rigid head with its inertia tensor, a curved face, gear effect, sticking or sliding.

Work is done in the face's own axes, (out of the face, up along it, toe-ward along it) at the face centre, for a
right-hander; a left-hander is the mirror image, handled by the caller.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from asplayed.mechanics.checks import Numbers, accept, choose, refuse_no_body, refuse_where
from asplayed.mechanics.flight_equations import BALL_MASS, BALL_RADIUS
from asplayed.mechanics.impact import BALL_INERTIA_FACTOR, Triple, axis_turn, cross, dot, looking

BALL_INERTIA = BALL_INERTIA_FACTOR * BALL_MASS * BALL_RADIUS**2


class Strike(NamedTuple):
    """How the ball leaves an off-centre strike; as `Impact`, with `backspin` about the horizontal axis square to the
    launch and `sidespin` about the vertical (rad/s, + curving right), and how the head turns (rad/s, its own axes)."""

    ball_speed: Numbers
    launch_angle: Numbers
    launch_direction: Numbers
    spin_rate: Numbers
    spin_axis: Numbers
    spin_loft: Numbers
    smash: Numbers
    slides: Any
    backspin: Numbers
    sidespin: Numbers
    head_turn: Triple


Rows = tuple[Triple, Triple, Triple]


def _inverse(a: Rows) -> Rows:
    """The inverse of a 3 × 3 matrix by its cofactors."""
    (p, q, r) = a
    qr, rp, pq = cross(q, r), cross(r, p), cross(p, q)
    d = dot(p, qr)
    return (
        (qr[0] / d, rp[0] / d, pq[0] / d),
        (qr[1] / d, rp[1] / d, pq[1] / d),
        (qr[2] / d, rp[2] / d, pq[2] / d),
    )


def _times(a: Rows, x: Triple) -> Triple:
    return (dot(a[0], x), dot(a[1], x), dot(a[2], x))


def strike(
    *,
    club_speed: Numbers,
    head_mass: Numbers,
    restitution: Numbers,
    attack_angle: Numbers,
    dynamic_loft: Numbers,
    cg_depth: Numbers,
    inertia_up: Numbers,
    inertia_heel_toe: Numbers,
    inertia_normal: Numbers,
    strike_toe: Numbers = 0.0,
    strike_high: Numbers = 0.0,
    cg_toe: Numbers = 0.0,
    cg_up: Numbers = 0.0,
    bulge_radius: Numbers | None = None,
    roll_radius: Numbers | None = None,
    tangential_restitution: Numbers = 0.0,
    friction: Numbers | None = None,
    club_path: Numbers = 0.0,
    face_angle: Numbers = 0.0,
    products: tuple[Numbers, Numbers, Numbers] = (0.0, 0.0, 0.0),
) -> Strike:
    """An oblique blow of a free rigid head anywhere on its face, for a right-hander; SI and radians, broadcasting.

    `strike_toe`, `strike_high`: the point struck, from the face centre. `cg_depth` behind the face, `cg_toe`, `cg_up`:
    the head's centre of gravity from the face centre. Inertias about that centre in the face's axes; `products` are the
    tensor's off-diagonal entries as they stand in the matrix: (normal–up, normal–toe, up–toe). Radii None: flat.
    `face_angle` is that of the face centre. Source: rigid-body impact with Coulomb friction (Penner 2001; Iwatsubo et
    al. 2000); the shaft is left out.

    >>> from math import degrees, radians
    >>> toe = strike(club_speed=45.0, head_mass=0.204, restitution=0.83, attack_angle=0.0, dynamic_loft=radians(9.8),
    ...     cg_depth=0.0423, inertia_up=5.679e-4, inertia_heel_toe=4.085e-4, inertia_normal=2.843e-4,
    ...     strike_toe=0.0127)
    >>> round(degrees(toe.launch_direction), 2), toe.sidespin < 0  # starts right, hooks back
    (0.65, True)
    """
    flat = 1e3
    m, speed, mass, restitution, attack, loft, *rest = accept(
        club_speed=club_speed,
        head_mass=head_mass,
        restitution=restitution,
        attack_angle=attack_angle,
        dynamic_loft=dynamic_loft,
        cg_depth=cg_depth,
        inertia_up=inertia_up,
        inertia_heel_toe=inertia_heel_toe,
        inertia_normal=inertia_normal,
        strike_toe=strike_toe,
        strike_high=strike_high,
        cg_toe=cg_toe,
        cg_up=cg_up,
        bulge_radius=flat if bulge_radius is None else bulge_radius,
        roll_radius=flat if roll_radius is None else roll_radius,
        tangential_restitution=tangential_restitution,
        club_path=club_path,
        face_angle=face_angle,
    )
    depth, up_inertia, toe_inertia, normal_inertia, toe, high, cg_toe, cg_up, bulge, roll, *rest = rest
    tangential, path, face = rest
    bulge_curve = 0.0 if bulge_radius is None else 1 / bulge
    roll_curve = 0.0 if roll_radius is None else 1 / roll

    # The face's axes in the ground's (target, up, right).
    out = looking(m, loft, face)
    along_up = (-m.sin(loft) * m.cos(face), m.cos(loft), -m.sin(loft) * m.sin(face))
    along_toe = (-m.sin(face), 0.0 * face, m.cos(face))
    heading = looking(m, attack, path)
    velocity = (speed * dot(heading, out), speed * dot(heading, along_up), speed * dot(heading, along_toe))

    steep = m.sqrt(1 + (high * roll_curve) ** 2 + (toe * bulge_curve) ** 2)
    normal = (1 / steep, high * roll_curve / steep, toe * bulge_curve / steep)
    set_back = (high * high * roll_curve + toe * toe * bulge_curve) / 2
    arm = (depth - set_back, high - cg_up, toe - cg_toe)

    closing = dot(velocity, normal)
    refuse_where(
        m, closing <= 0, "the face looks away from where the club goes; bring loft, attack, face and path nearer"
    )
    a, b, c = (accept(product_of_inertia=entry, club_speed=speed)[1] for entry in products)
    refuse_no_body(m, normal_inertia, up_inertia, toe_inertia, (a, b, c))
    looseness = _inverse(((normal_inertia, a, b), (a, up_inertia, c), (b, c, toe_inertia)))

    # K J = change of relative velocity at the contact: translation of both, turning of head and ball.
    columns = []
    for i in range(3):
        unit = (float(i == 0), float(i == 1), float(i == 2))
        turning = cross(_times(looseness, cross(arm, unit)), arm)
        radial = normal[i] * BALL_RADIUS**2 / BALL_INERTIA
        columns.append(
            tuple(
                turning[j] + unit[j] * (1 / mass + 1 / BALL_MASS + BALL_RADIUS**2 / BALL_INERTIA) - radial * normal[j]
                for j in range(3)
            )
        )
    k: Rows = (columns[0], columns[1], columns[2])  # symmetric, so columns are rows
    across = tuple(v - closing * n for v, n in zip(velocity, normal, strict=True))
    change = tuple((1 + restitution) * closing * n + (1 + tangential) * t for n, t in zip(normal, across, strict=True))
    impulse = _times(_inverse(k), change)
    pressed = dot(impulse, normal)
    dragged = tuple(j - pressed * n for j, n in zip(impulse, normal, strict=True))
    drag = m.sqrt(dot(dragged, dragged))
    slides = drag < 0 * drag
    if friction is not None:
        _, friction, _ = accept(friction=friction, club_speed=speed)
        slides = drag > friction * pressed
        scale = friction / choose(m, drag > 0, drag, 1.0)
        pushed = tuple(n + scale * t for n, t in zip(normal, dragged, strict=True))
        slid = (1 + restitution) * closing / dot(normal, _times(k, pushed))
        impulse = tuple(choose(m, slides, slid * p, j) for p, j in zip(pushed, impulse, strict=True))

    ball = tuple(j / BALL_MASS for j in impulse)
    spin = tuple(-BALL_RADIUS / BALL_INERTIA * x for x in cross(normal, impulse))
    turn = tuple(-x for x in _times(looseness, cross(arm, impulse)))

    def ground(v: Any) -> Triple:
        return (
            v[0] * out[0] + v[1] * along_up[0] + v[2] * along_toe[0],
            v[0] * out[1] + v[1] * along_up[1] + v[2] * along_toe[1],
            v[0] * out[2] + v[1] * along_up[2] + v[2] * along_toe[2],
        )

    flown, spun = ground(ball), ground(spin)
    ball_speed = m.sqrt(dot(flown, flown))
    level = m.hypot(flown[0], flown[2])
    return Strike(
        ball_speed,
        m.asin(flown[1] / ball_speed),
        m.atan2(flown[2], flown[0]),
        m.sqrt(dot(spun, spun)),
        axis_turn(m, flown, spun),
        m.acos(dot(heading, ground(normal))),
        ball_speed / speed,
        slides,
        (spun[2] * flown[0] - spun[0] * flown[2]) / level,
        0.0 - spun[1],
        turn,
    )
