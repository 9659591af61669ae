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
# A sweep leaves at most 1/1500 of the last one's error (a bare beam; a head leaves far less).
SETTLED = 1e-8
MOST_SWEEPS = 40


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


# Beams side by side in one sweep: one here; the compiled twin takes as many as fit the processor's registers.
LANES = 1


def rows(count: int) -> Any:
    """Room for `count` rows of one number a lane."""
    return [[0.0] * LANES for _ in range(count)]


def vibrate(
    lengths: Any,
    stiffness: Any,
    line_mass: Any,
    tip_mass: Any,
    tip_inertia: Any,
    tip_offset: Any,
    squared: Any,
    compliance: Any,
) -> None:
    """Angular frequency squared and tip compliance of beams of tapered elements, clamp to tip, one beam a lane.

    `lengths` has a row an element, `stiffness` and `line_mass` two, start and end; the rest are single rows, the last
    two for the answers. Written in the part of the language that both the interpreter and the compiler run.
    """
    elements = len(lengths)
    flexibility, shape, load = rows(3 * elements), rows(2 * elements + 2), rows(2 * elements + 2)
    deflections, slopes, works, motions = rows(1)[0], rows(1)[0], rows(1)[0], rows(1)[0]
    low, high = 0.5 - math.sqrt(0.15), 0.5 + math.sqrt(0.15)  # Gauss–Legendre on 0 to 1, with 0.5
    for i in range(elements):
        length, start, end = lengths[i], stiffness[2 * i], stiffness[2 * i + 1]
        turn, cross, sag = flexibility[3 * i], flexibility[3 * i + 1], flexibility[3 * i + 2]
        for k in range(LANES):
            change = end[k] - start[k]
            near = 5 / (18 * (start[k] + change * high))  # the point nearest the element's outer end
            middle = 8 / (18 * (start[k] + change * 0.5))
            far = 5 / (18 * (start[k] + change * low))
            turn[k] = length[k] * (near + middle + far)
            cross[k] = length[k] * length[k] * (near * low + middle * 0.5 + far * high)
            sag[k] = length[k] * length[k] * length[k] * (near * low * low + middle * 0.25 + far * high * high)
    tip_force, tip_moment = load[2 * elements], load[2 * elements + 1]
    for k in range(LANES):
        tip_force[k] = 1.0
        squared[k] = 0.0
    for sweep in range(MOST_SWEEPS):
        # Shears and moments, summed from the tip.
        for k in range(LANES):
            deflections[k] = 0.0
            slopes[k] = 0.0
        for i in range(elements - 1, -1, -1):
            force, moment, length = load[2 * i + 2], load[2 * i + 3], lengths[i]
            shears, moments = shape[2 * i + 2], shape[2 * i + 3]
            for k in range(LANES):
                shear = deflections[k] + force[k]
                bending = slopes[k] + moment[k]
                shears[k] = shear
                moments[k] = bending
                deflections[k] = shear
                slopes[k] = bending + shear * length[k]
        # Deflections and slopes, summed from the clamp, and the work the loads do on them.
        for k in range(LANES):
            deflections[k] = 0.0
            slopes[k] = 0.0
            works[k] = 0.0
            motions[k] = 0.0
        for i in range(elements):
            force, moment, length = load[2 * i + 2], load[2 * i + 3], lengths[i]
            turn, cross, sag = flexibility[3 * i], flexibility[3 * i + 1], flexibility[3 * i + 2]
            deflected, turned = shape[2 * i + 2], shape[2 * i + 3]
            for k in range(LANES):
                shear = deflected[k]
                bending = turned[k]
                deflection = deflections[k] + slopes[k] * length[k] + bending * cross[k] + shear * sag[k]
                slope = slopes[k] + bending * turn[k] + shear * cross[k]
                works[k] += deflection * force[k] + slope * moment[k]
                deflections[k] = deflection
                slopes[k] = slope
                deflected[k] = deflection
                turned[k] = slope
        if sweep == 0:
            for k in range(LANES):
                compliance[k] = deflections[k]
        # The inertia loads of that shape, and the motion they stand for.
        force, moment = load[0], load[1]
        for k in range(LANES):
            force[k] = 0.0
            moment[k] = 0.0
        for i in range(elements):
            length, start, end = lengths[i], line_mass[2 * i], line_mass[2 * i + 1]
            w_in, t_in, w_out, t_out = shape[2 * i], shape[2 * i + 1], shape[2 * i + 2], shape[2 * i + 3]
            force_in, moment_in, force_out, moment_out = load[2 * i], load[2 * i + 1], load[2 * i + 2], load[2 * i + 3]
            for k in range(LANES):
                one, two = start[k] * (length[k] / 840), end[k] * (length[k] / 840)
                w1, t1, w2, t2 = w_in[k], t_in[k] * length[k], w_out[k], t_out[k] * length[k]
                f1 = (
                    force_in[k]
                    + (240 * one + 72 * two) * w1
                    + (30 * one + 14 * two) * t1
                    + 54 * (one + two) * w2
                    - (14 * one + 12 * two) * t2
                )
                m1 = moment_in[k] + length[k] * (
                    (30 * one + 14 * two) * w1
                    + (5 * one + 3 * two) * t1
                    + (12 * one + 14 * two) * w2
                    - 3 * (one + two) * t2
                )
                force_out[k] = (
                    54 * (one + two) * w1
                    + (12 * one + 14 * two) * t1
                    + (72 * one + 240 * two) * w2
                    - (14 * one + 30 * two) * t2
                )
                moment_out[k] = length[k] * (
                    (3 * one + 5 * two) * t2
                    - (14 * one + 12 * two) * w1
                    - 3 * (one + two) * t1
                    - (14 * one + 30 * two) * w2
                )
                motions[k] += w1 * f1 + t_in[k] * m1
                force_in[k] = f1
                moment_in[k] = m1
        settled = True
        for k in range(LANES):
            head = tip_mass[k] * (deflections[k] + tip_offset[k] * slopes[k])
            tip_force[k] += head
            tip_moment[k] += tip_offset[k] * head + tip_inertia[k] * slopes[k]
            found = works[k] / (motions[k] + deflections[k] * tip_force[k] + slopes[k] * tip_moment[k])
            settled &= abs(found - squared[k]) <= SETTLED * found
            squared[k] = found
        if settled:
            break


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
    lengths: list[list[float]] = []
    stiffness: list[list[float]] = []
    line_mass: list[list[float]] = []
    for section in sections:
        length, stiff, stiff_end, heavy, heavy_end = section
        accept(stiffness=stiff)
        accept(stiffness=stiff_end)
        accept(mass_per_length=heavy)
        accept(mass_per_length=heavy_end)
        if not length > 0:
            raise BadInput(f"a section of shaft is {length} m long; give a length above 0")
        parts = max(1, round(ELEMENTS * length / total))
        for i in range(parts):
            lengths.append([length / parts])
            for share in (i / parts, (i + 1) / parts):
                stiffness.append([stiff + share * (stiff_end - stiff)])
                line_mass.append([heavy + share * (heavy_end - heavy)])
    squared, compliance = rows(2)
    vibrate(lengths, stiffness, line_mass, [tip_mass], [tip_inertia], [tip_offset], squared, compliance)
    return FrequencyResult(math.sqrt(squared[0]) / (2 * math.pi), compliance[0])


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
