"""The frequency plan: how much to take off each tip so that a set's frequencies lie on one line over length.

The shaft counts as a beam whose stiffness falls in a straight line from clamp to tip, to a third of it at the tip, as
the trade's shafts do roughly; its scale is set by the frequency read with the tip uncut. Taking the tip off leaves the
stiffer rest at the same length of club.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.shaft import frequency
from asplayed.workshop.bench import entry

TAPER = 1 / 3  # stiffness at the tip over stiffness at the clamp
_INCH = 0.0254


class Beam(NamedTuple):
    """One club for the plan, SI: free length beyond the clamp, head mass, shaft mass per length, frequency as read."""

    free_length: float
    head_mass: float
    mass_per_length: float
    frequency: float


class Trimmed(NamedTuple):
    """What the plan asks of one club: tip trim (m), and the frequency it comes to (Hz)."""

    trim: float
    frequency: float


def trimmed_frequency(beam: Beam, trim: float) -> float:
    """Frequency (Hz) of a club once `trim` (m) is taken off its tip and its length is kept at the butt.

    The reference is a beam of 75 N·m² at the clamp and 25 at the tip, whose inch of tip is worth nearly 3 cpm.

    >>> driver = Beam(40 * 0.0254, 0.2, 0.06 / (46 * 0.0254), 273.54 / 60)
    >>> [round(60 * (trimmed_frequency(driver, n * 0.0254) - driver.frequency), 2) for n in (1, 2)]
    [2.89, 5.75]
    """
    shape = _of_taper(beam, 0.0)
    return beam.frequency * _of_taper(beam, trim) / shape


def _of_taper(beam: Beam, trim: float) -> float:
    # The raw taper runs over the untrimmed free length; the trimmed shaft has moved towards the head by the trim.
    drop = (1 - TAPER) / beam.free_length
    clamp = 1 + drop * trim
    found = frequency(
        beam_length=beam.free_length,
        tip_mass=beam.head_mass,
        mass_per_length=beam.mass_per_length,
        stiffness_clamp=75.0 * clamp,
        stiffness_tip=75.0 * (clamp - drop * beam.free_length),
    )
    return float(found.frequency)


def plan(beams: Sequence[Beam], lengths: Sequence[float], slope: float) -> tuple[Trimmed, ...]:
    """The least tip trims that bring every club onto one line, `slope` in Hz per metre of shorter club; SI.

    Trimming only stiffens, so the line runs through the club that is stiffest for its length. A club that would need
    more than the trade trims without a maker's chart is refused.

    >>> inch = 0.0254
    >>> beams = [Beam((n - 5) * inch, m, 0.003, f / 60) for n, m, f in ((38, 0.256, 316), (37, 0.270, 321))]
    >>> [round(60 * club.frequency, 1) for club in plan(beams, [38 * inch, 37 * inch], 8.5 / 60 / inch)]
    [316.0, 324.5]
    """
    if not beams:
        return ()
    most = entry("limit", "tip_trim", "refuse") * _INCH
    line = max(beam.frequency + slope * length for beam, length in zip(beams, lengths, strict=True))
    found = []
    for place, (beam, length) in enumerate(zip(beams, lengths, strict=True)):
        target = line - slope * length
        if trimmed_frequency(beam, most) < target - 1e-9:
            raise BadInput(
                f"the club of {length / _INCH:g} in (number {place + 1} of the plan) would need more than "
                f"{most / _INCH:g} in off its tip to reach {60 * target:.0f} cpm; take a stiffer blank for it"
            )
        trim = _trim_to(beam, target, most)
        found.append(Trimmed(trim, trimmed_frequency(beam, trim)))
    return tuple(found)


def _trim_to(beam: Beam, target: float, most: float) -> float:
    """The trim (m) that brings a club to a frequency (Hz), by false position: the way between is almost straight."""
    low, high = 0.0, most
    below, above = beam.frequency - target, trimmed_frequency(beam, most) - target
    if below >= -1e-9:
        return 0.0
    for _ in range(30):
        middle = low - below * (high - low) / (above - below)
        off = trimmed_frequency(beam, middle) - target
        if abs(off) < 1e-7:
            break
        if off < 0:
            low, below = middle, off
        else:
            high, above = middle, off
    return middle
