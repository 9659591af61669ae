"""Mass, balance point, swing weight and inertia of a club from its parts.

The swing-weight scale balances the club 14 inches from the butt: A0 is 161.0 in·oz, a point 1.75 in·oz, ten points a
letter. The arm is widely printed; offset and step are from memory (Maltby, Golf Club Design, Fitting, Alteration and
Repair). The scale reads ounce-inches of mass, so a moment here is a mass times a length, kg·m.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept, refuse_where

FULCRUM = 14 * 0.0254
A0 = 161.0
POINT = 1.75
_INCH_OUNCE = 0.0254 * 0.028349523125
_SWING_WEIGHT = re.compile(r"\s*([A-Za-z])\s*(-?\d{1,4}(?:[.,]\d{1,6})?)\s*")


class Build(NamedTuple):
    """A club from its parts, SI: total mass, balance point from the butt, moment about the 14-inch fulcrum,
    swing-weight points above A0, inertia about the butt."""

    mass: Numbers
    balance_point: Numbers
    moment: Numbers
    swing_weight_points: Numbers
    butt_inertia: Numbers


def build(
    *,
    length: Numbers,
    head_mass: Numbers,
    head_height: Numbers,
    shaft_mass: Numbers,
    shaft_length: Numbers,
    shaft_balance: Numbers,
    grip_mass: Numbers,
    grip_balance: Numbers,
    grip_length: Numbers,
    head_inertia: Numbers = 0.0,
    point_masses: Sequence[tuple[Numbers, Numbers]] = (),
) -> Build:
    """Mass, balance, swing weight and butt inertia of a club, SI, scalars or arrays that broadcast.

    The head's centre of gravity lies `head_height` above the sole line along the shaft, so `length - head_height`
    from the butt. Balances are distances from the butt. `head_inertia` is the head's own, about its centre of gravity.
    `point_masses` are (mass, distance from the butt) of anything else: tape, ferrule, epoxy, tip weight, a plug in the
    butt (distance near 0); a negative mass takes something away. Shaft and grip count as slender rods.

    >>> inch = 0.0254
    >>> driver = build(length=45.5 * inch, head_mass=0.2, head_height=1.2 * inch, shaft_mass=0.062,
    ...     shaft_length=44 * inch, shaft_balance=21.5 * inch, grip_mass=0.05, grip_balance=4.3 * inch,
    ...     grip_length=10.5 * inch)
    >>> swing_weight_text(driver.swing_weight_points), round(driver.butt_inertia * 1e4)
    ('C9.75', 2791)
    """
    m, length, head_mass, head_height, shaft_mass, shaft_length, shaft_balance, *rest = accept(
        length=length,
        head_mass=head_mass,
        head_height=head_height,
        shaft_mass=shaft_mass,
        shaft_length=shaft_length,
        shaft_balance=shaft_balance,
        grip_mass=grip_mass,
        grip_balance=grip_balance,
        grip_length=grip_length,
        head_inertia=head_inertia,
    )
    grip_mass, grip_balance, grip_length, head_inertia = rest
    refuse_where(m, shaft_balance > shaft_length, "shaft_balance lies beyond the shaft; measure it from the butt")
    head_at = length - head_height
    mass = head_mass + shaft_mass + grip_mass
    first = head_mass * head_at + shaft_mass * shaft_balance + grip_mass * grip_balance
    second = (
        head_mass * head_at * head_at
        + head_inertia
        + shaft_mass * (shaft_length * shaft_length / 12 + shaft_balance * shaft_balance)
        + grip_mass * (grip_length * grip_length / 12 + grip_balance * grip_balance)
    )
    for extra, place in point_masses:
        _, point, distance = accept(point_mass=extra, distance_from_butt=place)
        mass = mass + point
        first = first + point * distance
        second = second + point * distance * distance
    refuse_where(m, mass <= 0, "the parts together weigh nothing; give the masses of head, shaft and grip")
    moment = first - mass * FULCRUM
    return Build(mass, first / mass, moment, _points(moment), second)


def _points(moment: Numbers) -> Numbers:
    return (moment / _INCH_OUNCE - A0) / POINT


def swing_weight_moment(mass: Numbers, balance_point: Numbers) -> Numbers:
    """Moment about the 14-inch fulcrum in kg·m, from total mass (kg) and balance point from the butt (m).

    >>> round(swing_weight_moment(0.325, 33 * 0.0254) / 0.000720077887375, 2)  # in·oz
    217.82
    """
    _, mass, balance_point = accept(mass=mass, balance_point=balance_point)
    return mass * (balance_point - FULCRUM)


def swing_weight_points(moment: Numbers) -> Numbers:
    """Points above A0 of a moment (kg·m) about the 14-inch fulcrum.

    >>> round(swing_weight_points(213.5 * 0.000720077887375), 9)  # D0
    30.0
    """
    _, moment = accept(moment=moment)
    return _points(moment)


def moment_of_points(points: Numbers) -> Numbers:
    """The moment (kg·m) that reads as so many points above A0; the inverse of `swing_weight_points`.

    >>> round(moment_of_points(30.0) / 0.000720077887375, 9)
    213.5
    """
    _, points = accept(points=points)
    return (A0 + POINT * points) * _INCH_OUNCE


def swing_weight_text(points: float, places: int = 2) -> str:
    """Points above A0 as the scale reads them: a letter for every ten; below A0 the number is negative.

    >>> swing_weight_text(28.55), swing_weight_text(32, 1), swing_weight_text(9.999), swing_weight_text(-3)
    ('C8.55', 'D2.0', 'B0.00', 'A-3.00')
    """
    _, points = accept(points=points)
    rounded = round(points, places)
    letter = min(max(int(rounded // 10), 0), 25)
    return f"{chr(ord('A') + letter)}{rounded - 10 * letter:.{places}f}"


def swing_weight_points_of(text: str) -> float:
    """Points above A0 of a swing weight as written; the inverse of `swing_weight_text`.

    >>> swing_weight_points_of("D2.5"), swing_weight_points_of("c8")
    (32.5, 28.0)
    """
    match = _SWING_WEIGHT.fullmatch(text)
    points = float(match[2].replace(",", ".")) if match else 0.0
    if match is None or points > 10 or (points < 0 and match[1] not in "aA"):
        raise BadInput(f"{text!r} is not a swing weight; write a letter and points from 0 to 10, such as D2 or C8.5")
    return 10 * (ord(match[1].upper()) - ord("A")) + points


def matching_head_mass(
    *,
    length: Numbers,
    head_height: Numbers,
    shaft_mass: Numbers,
    shaft_length: Numbers,
    shaft_balance: Numbers,
    grip_mass: Numbers,
    grip_balance: Numbers,
    grip_length: Numbers,
    swing_weight_points: Numbers | None = None,
    butt_inertia: Numbers | None = None,
    head_inertia: Numbers = 0.0,
    point_masses: Sequence[tuple[Numbers, Numbers]] = (),
) -> Numbers:
    """The head mass (kg) that brings a club to a swing weight (points above A0) or to a butt inertia (kg·m²).

    Arguments as for `build`; give exactly one target. Both are linear in the head's mass, so the answer is exact.

    >>> inch = 0.0254
    >>> round(matching_head_mass(length=37 * inch, head_height=0.6 * inch, shaft_mass=0.115, shaft_length=35.5 * inch,
    ...     shaft_balance=17.4 * inch, grip_mass=0.05, grip_balance=4.3 * inch, grip_length=10.5 * inch,
    ...     swing_weight_points=28.0119), 4)
    0.27
    """
    if (swing_weight_points is None) == (butt_inertia is None):
        raise BadInput("give one target: a swing weight or a butt inertia")
    trial = 0.2
    made = build(
        length=length,
        head_mass=trial,
        head_height=head_height,
        shaft_mass=shaft_mass,
        shaft_length=shaft_length,
        shaft_balance=shaft_balance,
        grip_mass=grip_mass,
        grip_balance=grip_balance,
        grip_length=grip_length,
        head_inertia=head_inertia,
        point_masses=point_masses,
    )
    m, length, head_height = accept(length=length, head_height=head_height)
    head_at = length - head_height
    if butt_inertia is None:
        per_mass = head_at - FULCRUM
        refuse_where(m, per_mass <= 0, "the head would hang over the 14 inch fulcrum; give the club's whole length")
        missing = moment_of_points(swing_weight_points) - made.moment
    else:
        per_mass = head_at * head_at
        missing = accept(butt_inertia=butt_inertia)[1] - made.butt_inertia
    head_mass = trial + missing / per_mass
    m = accept(moment=0 * head_mass)[0]
    refuse_where(m, head_mass <= 0, "no head is that light: shaft and grip alone already pass the target")
    return head_mass


def inertia_about(made: Build, distance_from_butt: Numbers) -> Numbers:
    """Inertia (kg·m²) of a built club about a point on its axis, `distance_from_butt` down the shaft (m; − above it).

    >>> club = build(length=0.94, head_mass=0.27, head_height=0.0152, shaft_mass=0.115, shaft_length=0.9,
    ...     shaft_balance=0.442, grip_mass=0.05, grip_balance=0.11, grip_length=0.267)
    >>> inertia_about(club, 0.0) == club.butt_inertia, inertia_about(club, -0.1) > club.butt_inertia
    (True, True)
    """
    _, distance = accept(distance_from_butt=distance_from_butt)
    return made.butt_inertia - made.mass * distance * (2 * made.balance_point - distance)
