"""The shaft as a beam: frequency, compliance, torsion, bend at impact, and what trimming leaves.

A frequency belongs to the free length beyond the clamp (`beam_length`): the same club clamped 2½ inches reads some nine
per cent lower than clamped 5 inches. State the clamp with every frequency.

The beam is cut into elements. Each carries the consistent mass matrix of cubic (Hermite) shapes; because a cantilever
is statically determinate, the displacements under its inertia loads follow by summing shears and moments from the tip
and curvatures from the clamp, with the flexibility of a linearly tapered element. Repeating that sweep is inverse
iteration without a matrix to factor: every sum is of like terms, so nothing cancels, and the Rayleigh quotient settles
to machine precision in a few sweeps. The equations are written once; one club runs them plainly, many run compiled.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept, refuse_where

FOOT_POUND = 1.3558179483  # N·m in the torque test
ELEMENTS = 60


class FrequencyResult(NamedTuple):
    """The fundamental frequency (Hz) of a clamped beam with a mass at its tip, and its static tip compliance (m/N)."""

    frequency: Numbers
    compliance: Numbers


class Section(NamedTuple):
    """A stretch of shaft from the clamp on, SI: length, bending stiffness and mass per length at both of its ends."""

    length: float
    stiffness_start: float
    stiffness_end: float
    mass_per_length_start: float
    mass_per_length_end: float


def vibrate(
    lengths: Any,
    stiffness: Any,
    line_mass: Any,
    tip_mass: float,
    tip_inertia: float,
    tip_offset: float,
    work: Any,
) -> tuple[float, float]:
    """Angular frequency squared and tip compliance of a beam of tapered elements, clamp to tip.

    `stiffness` and `line_mass` hold two values an element, start and end; `work` holds four values a node.
    Written in the part of the language that both the interpreter and the compiler run.
    """
    elements = len(lengths)
    flexibility = work[: 3 * elements]
    shape = work[3 * elements : 5 * elements + 2]
    load = work[5 * elements + 2 : 7 * elements + 4]
    low, high = 0.5 - math.sqrt(0.15), 0.5 + math.sqrt(0.15)
    for i in range(elements):
        length, start, change = lengths[i], stiffness[2 * i], stiffness[2 * i + 1] - stiffness[2 * i]
        near = 5 / (18 * (start + change * high))  # the Gauss point nearest the element's outer end
        middle = 8 / (18 * (start + change * 0.5))
        far = 5 / (18 * (start + change * low))
        flexibility[3 * i] = length * (near + middle + far)
        flexibility[3 * i + 1] = length * length * (near * low + middle * 0.5 + far * high)
        flexibility[3 * i + 2] = length**3 * (near * low * low + middle * 0.25 + far * high * high)
    for j in range(2 * elements + 2):
        load[j] = 0.0
    load[2 * elements] = 1.0
    squared, compliance = 0.0, 0.0
    for sweep in range(40):
        # Shears and moments from the tip; displacements from the clamp.
        shear, moment = 0.0, 0.0
        for i in range(elements - 1, -1, -1):
            shear += load[2 * i + 2]
            moment += load[2 * i + 3]
            shape[2 * i + 2] = shear
            shape[2 * i + 3] = moment
            moment += shear * lengths[i]
        deflection, slope = 0.0, 0.0
        shape[0], shape[1] = 0.0, 0.0
        work_done = 0.0
        for i in range(elements):
            shear, moment = shape[2 * i + 2], shape[2 * i + 3]
            deflection += slope * lengths[i] + moment * flexibility[3 * i + 1] + shear * flexibility[3 * i + 2]
            slope += moment * flexibility[3 * i] + shear * flexibility[3 * i + 1]
            shape[2 * i + 2] = deflection
            shape[2 * i + 3] = slope
            work_done += deflection * load[2 * i + 2] + slope * load[2 * i + 3]
        if sweep == 0:
            compliance = deflection
        # Inertia loads of that shape, and its kinetic energy.
        for j in range(2 * elements + 2):
            load[j] = 0.0
        for i in range(elements):
            length, one, two = lengths[i], line_mass[2 * i] / 840, line_mass[2 * i + 1] / 840
            w1, t1 = shape[2 * i], shape[2 * i + 1] * length
            w2, t2 = shape[2 * i + 2], shape[2 * i + 3] * length
            load[2 * i] += length * (
                (240 * one + 72 * two) * w1
                + (30 * one + 14 * two) * t1
                + 54 * (one + two) * w2
                - (14 * one + 12 * two) * t2
            )
            load[2 * i + 1] += (
                length
                * length
                * (
                    (30 * one + 14 * two) * w1
                    + (5 * one + 3 * two) * t1
                    + (12 * one + 14 * two) * w2
                    - 3 * (one + two) * t2
                )
            )
            load[2 * i + 2] += length * (
                54 * (one + two) * w1
                + (12 * one + 14 * two) * t1
                + (72 * one + 240 * two) * w2
                - (14 * one + 30 * two) * t2
            )
            load[2 * i + 3] += (
                length
                * length
                * (
                    -(14 * one + 12 * two) * w1
                    - 3 * (one + two) * t1
                    - (14 * one + 30 * two) * w2
                    + (3 * one + 5 * two) * t2
                )
            )
        load[2 * elements] += tip_mass * (deflection + tip_offset * slope)
        load[2 * elements + 1] += tip_mass * tip_offset * (deflection + tip_offset * slope) + tip_inertia * slope
        motion = 0.0
        for j in range(2, 2 * elements + 2):
            motion += shape[j] * load[j]
        before, squared = squared, work_done / motion
        if sweep > 0 and abs(squared - before) <= 1e-14 * squared:
            break
        scale = 1 / math.sqrt(motion)
        for j in range(2 * elements + 2):
            load[j] *= scale
    return squared, compliance


def frequency(
    *,
    beam_length: Numbers,
    tip_mass: Numbers,
    mass_per_length: Numbers,
    stiffness_clamp: Numbers,
    stiffness_tip: Numbers,
    tip_inertia: Numbers = 0.0,
    tip_offset: Numbers = 0.0,
) -> FrequencyResult:
    """Frequency (Hz) and compliance (m/N) of a shaft clamped at its butt with a head at its tip, SI, broadcasting.

    `beam_length` is the free length beyond the clamp; the stiffness (N·m²) runs linearly from clamp to tip.
    `tip_inertia` is the head's own, about its centre of gravity, in the plane that swings; `tip_offset` is how far that
    centre lies beyond the end of the beam along the shaft. Source: Blevins, Formulas for Natural Frequency and Mode
    Shape, for the uniform beam with a tip mass.

    >>> inch = 0.0254
    >>> found = frequency(beam_length=40 * inch, tip_mass=0.2, mass_per_length=0.06 / (46 * inch),
    ...     stiffness_clamp=50.0, stiffness_tip=50.0)
    >>> round(60 * found.frequency, 3), round(found.compliance, 6)
    (247.846, 0.006992)
    """
    m, *values = accept(
        beam_length=beam_length,
        tip_mass=tip_mass,
        mass_per_length=mass_per_length,
        stiffness_clamp=stiffness_clamp,
        stiffness_tip=stiffness_tip,
        tip_inertia=tip_inertia,
        tip_offset=tip_offset,
    )
    if m is math:
        length, mass, line_mass, clamp, tip, inertia, offset = values
        section = Section(length, clamp, tip, line_mass, line_mass)
        return frequency_of_sections((section,), tip_mass=mass, tip_inertia=inertia, tip_offset=offset)
    from asplayed.mechanics.shaft_batch import vibrate_many

    return FrequencyResult(*vibrate_many(*values))


def frequency_of_sections(
    sections: Sequence[Section], *, tip_mass: float, tip_inertia: float = 0.0, tip_offset: float = 0.0
) -> FrequencyResult:
    """Frequency (Hz) and compliance (m/N) of a stepped or tapered shaft, its sections named from the clamp to the tip.

    A step is two sections whose stiffness differs where they meet. Other arguments as for `frequency`.

    >>> halves = [Section(0.5, 60.0, 40.0, 0.055, 0.055), Section(0.5, 40.0, 20.0, 0.055, 0.055)]
    >>> whole = [Section(1.0, 60.0, 20.0, 0.055, 0.055)]
    >>> one, two = (frequency_of_sections(s, tip_mass=0.2).frequency for s in (halves, whole))
    >>> abs(one - two) < 1e-9
    True
    """
    if not sections:
        raise BadInput("give at least one section of shaft")
    _, tip_mass, tip_inertia, tip_offset = accept(tip_mass=tip_mass, tip_inertia=tip_inertia, tip_offset=tip_offset)
    total = math.fsum(section.length for section in sections)
    accept(beam_length=total)
    lengths: list[float] = []
    stiffness: list[float] = []
    line_mass: list[float] = []
    for section in sections:
        length = section.length
        for end in (section.stiffness_start, section.stiffness_end):
            accept(stiffness=end)
        for end in (section.mass_per_length_start, section.mass_per_length_end):
            accept(mass_per_length=end)
        if not length > 0:
            raise BadInput(f"a section of shaft is {length} m long; give a length above 0")
        parts = max(1, round(ELEMENTS * length / total))
        for i in range(parts):
            near, far = i / parts, (i + 1) / parts
            lengths.append(length / parts)
            for at in (near, far):
                stiffness.append(section.stiffness_start + at * (section.stiffness_end - section.stiffness_start))
                line_mass.append(
                    section.mass_per_length_start + at * (section.mass_per_length_end - section.mass_per_length_start)
                )
    work = [0.0] * (7 * len(lengths) + 4)
    squared, compliance = vibrate(lengths, stiffness, line_mass, tip_mass, tip_inertia, tip_offset, work)
    return FrequencyResult(math.sqrt(squared) / (2 * math.pi), compliance)


class CutShaft(NamedTuple):
    """What is left of a shaft after trimming, SI: mass, length, balance point from the butt."""

    mass: Numbers
    length: Numbers
    balance: Numbers


def cut_shaft(
    *,
    raw_mass: Numbers,
    raw_length: Numbers,
    raw_balance: Numbers | None = None,
    tip_trim: Numbers = 0.0,
    butt_trim: Numbers = 0.0,
) -> CutShaft:
    """Mass, length and balance (from the new butt) of a shaft cut at tip and butt, SI, broadcasting.

    The raw shaft's mass is spread along it in the straight line that gives its mass and its balance point
    (`raw_balance` from the butt; the middle when it is not known).

    >>> cut = cut_shaft(raw_mass=0.065, raw_length=1.168, raw_balance=0.55, tip_trim=0.025, butt_trim=0.025)
    >>> round(cut.mass, 5), round(cut.length, 3), round(cut.balance, 4)
    (0.06222, 1.118, 0.5278)
    """
    m, mass, length, balance, tip, butt = accept(
        raw_mass=raw_mass,
        raw_length=raw_length,
        raw_balance=raw_length / 2 if raw_balance is None else raw_balance,
        tip_trim=tip_trim,
        butt_trim=butt_trim,
    )
    refuse_where(m, tip + butt >= length, "the trims leave no shaft; they must be shorter than raw_length together")
    fault = "raw_balance lies outside the middle third of the shaft; measure it from the butt"
    refuse_where(m, abs(balance - length / 2) >= length / 6, fault)
    gradient = 12 * mass * (balance - length / 2) / length**3
    at_butt = mass / length - gradient * length / 2
    start, end = butt, length - tip
    left = at_butt * (end - start) + gradient * (end * end - start * start) / 2
    first = at_butt * (end * end - start * start) / 2 + gradient * (end**3 - start**3) / 3
    return CutShaft(left, end - start, first / left - start)


def torsional_stiffness(torque: Numbers, span: Numbers) -> Numbers:
    """Torsional stiffness GJ (N·m²) of a shaft that twists by `torque` (rad) under 1 lbf·ft over `span` (m).

    The trade's torque is a twist; clamp spans differ between makers, so compare only within one maker's figures.

    >>> round(torsional_stiffness(math.radians(3.5), 1.0), 3)
    22.195
    """
    _, torque, span = accept(torque=torque, span=span)
    return FOOT_POUND * span / torque


class TipBend(NamedTuple):
    """How a pull through an offset centre of gravity bends the tip: slope (rad) and deflection (m)."""

    slope: Numbers
    deflection: Numbers


def tip_bend(*, pull: Numbers, stiffness: Numbers, beam_length: Numbers, cg_offset: Numbers) -> TipBend:
    """Static bend of a shaft's tip when the head pulls along it with its centre of gravity `cg_offset` to one side.

    SI, broadcasting. The pull (mass times speed squared over the radius of the swing) straightens the shaft while its
    moment bends it: EI y'' = F (y − y_tip + c). Offset behind the face gives lead, offset to the toe gives droop.

    >>> bent = tip_bend(pull=250.0, stiffness=45.0, beam_length=1.0, cg_offset=0.03)
    >>> round(math.degrees(bent.slope), 2), round(1000 * bent.deflection, 2)
    (3.98, 24.37)
    """
    m, pull, stiffness, length, offset = accept(
        pull=pull, stiffness=stiffness, beam_length=beam_length, cg_offset=cg_offset
    )
    k = m.sqrt(pull / stiffness)
    return TipBend(offset * k * m.tanh(k * length), offset * (m.cosh(k * length) - 1) / m.cosh(k * length))


class ImpactBend(NamedTuple):
    """What the shaft's bend does to the head at impact, rad: loft +, face closed −, lie flatter −."""

    loft: Numbers
    face: Numbers
    lie: Numbers


def impact_bend(
    *, pull: Numbers, stiffness: Numbers, beam_length: Numbers, cg_behind: Numbers, cg_toe: Numbers, lie: Numbers
) -> ImpactBend:
    """Change of loft, face and lie when the pull of the swing brings the head's centre of gravity into line.

    SI, broadcasting; `cg_behind` and `cg_toe` are the offsets of the centre of gravity from the shaft's axis. Lead
    turns the head about the axis square to the shaft in the heel–toe plane, so it adds loft by sin(lie) of its slope
    and closes the face by cos(lie); droop flattens the lie. Static: vibration and the twist of the shaft are left out.

    >>> bent = impact_bend(pull=250.0, stiffness=45.0, beam_length=1.0, cg_behind=0.03, cg_toe=0.04, lie=1.0)
    >>> [round(math.degrees(x), 2) for x in bent]
    [3.35, -2.15, -5.31]
    """
    lead = tip_bend(pull=pull, stiffness=stiffness, beam_length=beam_length, cg_offset=cg_behind).slope
    droop = tip_bend(pull=pull, stiffness=stiffness, beam_length=beam_length, cg_offset=cg_toe).slope
    m, lie, _ = accept(lie=lie, cg_offset=cg_toe)
    return ImpactBend(lead * m.sin(lie), -lead * m.cos(lie), -droop)
