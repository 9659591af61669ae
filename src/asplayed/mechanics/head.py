"""The head as geometry: sleeves, bends, lie error, delivered bounce, opened face, toe hang, movable mass.

Axes of this module, from the player's own side: x to the target, toe-ward second, z up. The shaft leans towards the
player, so its direction is (0, −cos lie, sin lie); a square face of loft L looks along (cos L, 0, sin L). Turning the
club about its shaft keeps the angle between shaft and face normal: most of what follows is that one fact.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept, refuse_no_body, refuse_where


class SleeveEffect(NamedTuple):
    """Changes (rad) a tilted bore makes, by the way the club is then held; face closed −."""

    held_loft: Numbers
    held_face: Numbers
    squared_loft: Numbers
    soled_face: Numbers


def sleeve(lie: Numbers, tilt: Numbers, loft: Numbers) -> SleeveEffect:
    """What a bore tilted fore and aft by `tilt` (+ adds loft) does to a head of this lie and loft; rad, broadcasting.

    *Held*: the shaft stays as it was, loft and face both change. *Squared*: then turned about the shaft until the face
    is square. *Soled*: turned about the shaft until the loft is back at its old value, only the face has changed.
    Exact rotations.

    >>> from math import degrees, radians
    >>> [round(degrees(change), 3) for change in sleeve(radians(58), radians(1), radians(10.5))]
    [0.848, -0.531, 1.18, -1.885]
    """
    m, lie, tilt, loft = accept(lie=lie, tilt=tilt, loft=loft)
    x = m.cos(loft) * m.cos(tilt) - m.sin(loft) * m.sin(lie) * m.sin(tilt)
    # The part of the normal along the shaft, and along the axis square to it in the heel–toe plane.
    along = m.sin(loft) * m.sin(lie) * m.cos(tilt) + m.cos(loft) * m.sin(tilt)
    across = m.sin(loft) * m.cos(lie)
    up = along * m.sin(lie) + across * m.cos(lie)
    toe = across * m.sin(lie) - along * m.cos(lie)
    squared, soled = _turned_about_shaft(m, along, lie, loft)
    return SleeveEffect(m.asin(up) - loft, m.atan2(toe, x), squared - loft, soled)


def _turned_about_shaft(m: Any, along: Numbers, lie: Numbers, loft: Numbers) -> tuple[Numbers, Numbers]:
    """Loft with the face square, and face with the loft kept, for a normal whose part along the shaft is `along`."""
    sine = along / m.sin(lie)
    refuse_where(m, abs(sine) > 1, "no turn about the shaft squares this face; loft and tilt together pass the lie")
    to_heel = (along - m.sin(loft) * m.sin(lie)) / m.cos(lie) / m.cos(loft)
    refuse_where(m, abs(to_heel) > 1, "no turn about the shaft brings this loft back; tilt is too large for the lie")
    return m.asin(sine), -m.asin(to_heel)


class SleeveSetting(NamedTuple):
    """Changes (rad) a sleeve setting makes: loft with the face squared, lie, face with the club soled (closed −)."""

    loft_change_squared: Numbers
    lie_change: Numbers
    face_change_soled: Numbers


def sleeve_setting(lie: Numbers, loft: Numbers, tilt: Numbers, turn: Numbers) -> SleeveSetting:
    """What a sleeve whose bore leans by `tilt` does when turned by `turn` about the shaft; rad, broadcasting.

    `turn` counts from the most upright position; a quarter turn on adds the whole tilt to the loft, half a turn is the
    flattest position. Exact rotations.

    >>> from math import degrees, radians
    >>> [round(degrees(x), 3) for x in sleeve_setting(radians(58), radians(10.5), radians(1.5), radians(90))]
    [1.77, 0.0, -2.826]
    """
    m, lie, loft, tilt, turn = accept(lie=lie, loft=loft, tilt=tilt, turn=turn)
    # The shaft as the head sees it: it leans off its old direction by `tilt`, towards the target for loft and away
    # from the player for lie.
    fore = m.sin(tilt) * m.sin(turn)
    upright = m.sin(tilt) * m.cos(turn)
    heel = m.cos(lie) * m.cos(tilt) - m.sin(lie) * upright
    up = m.sin(lie) * m.cos(tilt) + m.cos(lie) * upright
    played_lie = m.atan2(up, heel)
    squared, soled = _turned_about_shaft(m, m.cos(loft) * fore + m.sin(loft) * up, played_lie, loft)
    return SleeveSetting(squared - loft, played_lie - lie, soled)


class LieErrorEffect(NamedTuple):
    """Where a face looks when the sole is not flat, rad: direction (right +) and loft."""

    direction: Numbers
    loft: Numbers


def lie_error(loft: Numbers, lie_error: Numbers) -> LieErrorEffect:
    """Direction and loft of a square face rolled about the target line by `lie_error` (toe up +); rad, broadcasting.

    Use dynamic loft and dynamic lie. Toe up sends a right-hander's ball left (direction −); mirror for a left-hander.

    >>> from math import degrees, radians
    >>> [round(degrees(x), 4) for x in lie_error(radians(30), radians(2))]
    [-1.1543, 29.9799]
    """
    m, loft, error = accept(loft=loft, lie_error=lie_error)
    return LieErrorEffect(-m.atan(m.tan(loft) * m.sin(error)), m.asin(m.sin(loft) * m.cos(error)))


class Sole(NamedTuple):
    """A sole as delivered, rad: loft and bounce as bent, bounce to the ground, incidence to the sole's own path."""

    loft: Numbers
    bounce: Numbers
    ground_bounce: Numbers
    incidence: Numbers


def delivered_bounce(
    loft: Numbers, bounce: Numbers, bend: Numbers = 0.0, lean: Numbers = 0.0, attack_angle: Numbers = 0.0
) -> Sole:
    """Loft and bounce after a loft bend (weak +), and the bounce a swing delivers; rad, broadcasting.

    A degree of bend moves loft and bounce alike. Forward shaft lean takes bounce off; a downward attack (−) adds to the
    angle at which the sole meets its path. Planar, the sole flat where it touches.

    >>> from math import degrees, radians
    >>> sole = delivered_bounce(radians(56), radians(10), lean=radians(6), attack_angle=radians(-5))
    >>> round(degrees(sole.ground_bounce), 9), round(degrees(sole.incidence), 9)
    (4.0, 9.0)
    """
    _, loft, bounce, bend, lean, attack = accept(
        loft=loft, bounce=bounce, bend=bend, lean=lean, attack_angle=attack_angle
    )
    ground = bounce + bend - lean
    return Sole(loft + bend, bounce + bend, ground, ground - attack)


def bend_offset(hosel_height: Numbers, bend: Numbers) -> Numbers:
    """Change of offset (m, + more) that a loft bend (rad, weak +) makes, `hosel_height` (m) above the leading edge.

    About a millimetre a degree; strengthening adds offset. The height of the bend is 50 to 60 mm as a rule (common
    practice).

    >>> from math import radians
    >>> round(1000 * bend_offset(0.055, radians(-1)), 2)
    0.96
    """
    m, height, bend = accept(hosel_height=hosel_height, bend=bend)
    return -height * m.sin(bend)


class OpenedFace(NamedTuple):
    """Loft and bounce (rad) of a club turned about its shaft."""

    loft: Numbers
    bounce: Numbers


def opened_face(loft: Numbers, lie: Numbers, bounce: Numbers, opening: Numbers) -> OpenedFace:
    """Loft and bounce along the target line when the face is opened by `opening` (closed −); rad, broadcasting.

    The club is turned about its shaft, the hands where they were: a degree of face costs 1/tan(lie) of a degree of loft
    at first. The bounce is that of the flat of the sole, turned with the head.

    >>> from math import degrees, radians
    >>> [round(degrees(x), 2) for x in opened_face(radians(56), radians(64), radians(10), radians(20))]
    [64.33, 17.93]
    """
    m, loft, lie, bounce, opening = accept(loft=loft, lie=lie, bounce=bounce, opening=opening)
    share = m.sin(opening) / m.tan(lie)
    scale = m.sqrt(1 + share * share)
    opened = m.atan(share) + m.asin(m.sin(loft) / scale)
    # The turn about the shaft that did it, from the normals' parts square to the shaft.
    across = m.sin(loft) * m.cos(lie)
    before = m.atan2(across, m.cos(loft))
    toe, up = m.cos(opened) * m.sin(opening), m.sin(opened)
    turned = m.atan2(toe * m.sin(lie) + up * m.cos(lie), m.cos(opened) * m.cos(opening)) - before
    # The sole's upward normal (−sin B, 0, cos B), turned the same way.
    x, across, along = -m.sin(bounce), m.cos(bounce) * m.cos(lie), m.cos(bounce) * m.sin(lie)
    x, across = x * m.cos(turned) - across * m.sin(turned), x * m.sin(turned) + across * m.cos(turned)
    return OpenedFace(opened, m.atan2(-x, along * m.sin(lie) + across * m.cos(lie)))


def toe_hang(cg_behind: Numbers, cg_toe: Numbers, cg_up: Numbers, lie: Numbers) -> Numbers:
    """How far a putter's toe hangs below level when the shaft is balanced flat (rad): 0 face balanced, π/2 toe down.

    Offsets (m) of the head's centre of gravity from where the shaft's axis meets the plane of the sole: behind the
    axis, toe-ward, up. Broadcasting.

    >>> from math import degrees, radians
    >>> round(degrees(toe_hang(0.020, 0.015, 0.012, radians(70))), 2)
    42.3
    """
    m, behind, toe, up, lie = accept(cg_behind=cg_behind, cg_toe=cg_toe, cg_up=cg_up, lie=lie)
    return m.atan2(toe * m.sin(lie) + up * m.cos(lie), behind)


Vector = tuple[float, float, float]
Tensor = tuple[Vector, Vector, Vector]


class HeadMass(NamedTuple):
    """A head as a rigid body, SI: mass, centre of gravity and inertia tensor about it.

    Offsets are (behind the face, toe-ward, up) from the face centre; the tensor is in the same axes.
    """

    mass: float
    centre: Vector
    inertia: Tensor


def with_point_masses(head: HeadMass, point_masses: Sequence[tuple[float, Vector]]) -> HeadMass:
    """The head with point masses added at places (m from the face centre); a negative mass takes one away.

    Moving a weight is taking it away here and adding it there. Mass, first and second moments add; the tensor is about
    the new centre of gravity.

    >>> bare = HeadMass(0.19, (0.04, 0.0, 0.0), ((2.5e-4, 0, 0), (0, 3e-4, 0), (0, 0, 5e-4)))
    >>> heavy = with_point_masses(bare, [(0.01, (0.09, 0.0, -0.01))])
    >>> round(heavy.mass, 3), [round(1000 * x, 2) for x in heavy.centre], heavy.inertia[2][2] > bare.inertia[2][2]
    (0.2, [42.5, 0.0, -0.5], True)
    """
    accept(head_mass=head.mass)
    (behind, a, b), (_, across, c), (_, _, upright) = head.inertia
    refuse_no_body(math, behind, across, upright, (a, b, c))
    mass, first = head.mass, [head.mass * x for x in head.centre]
    for point, place in point_masses:
        accept(point_mass=point, cg_behind=place[0], cg_toe=place[1], cg_up=place[2])
        mass += point
        first = [a + point * x for a, x in zip(first, place, strict=True)]
    if mass <= 0:
        raise BadInput("the head without those masses weighs nothing; take away less")
    centre = (first[0] / mass, first[1] / mass, first[2] / mass)
    tensor = [list(row) for row in head.inertia]
    for point, place in ((head.mass, head.centre), *point_masses):
        x = [a - b for a, b in zip(place, centre, strict=True)]
        square = x[0] * x[0] + x[1] * x[1] + x[2] * x[2]
        for i in range(3):
            for j in range(3):
                tensor[i][j] += point * ((square if i == j else 0.0) - x[i] * x[j])
    rows = [(row[0], row[1], row[2]) for row in tensor]
    return HeadMass(mass, centre, (rows[0], rows[1], rows[2]))
