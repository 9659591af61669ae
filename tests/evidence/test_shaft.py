"""The shaft held against the frequency equation, a general frame program, a dense eigen-solver and workshop figures."""

from __future__ import annotations

import math
from typing import Any

import pytest
import scipy.integrate
import scipy.optimize
from ledger import Ledger, Row

from asplayed.mechanics.shaft import FrequencyResult, frequency, tip_bend, torsional_stiffness

LEDGER = Ledger(
    "shaft.csv",
    "Shaft",
    "The clamped beam with a head at its tip against the frequency equation, other programs and the bench.",
)
INCH = 0.0254
DRIVER_LINE_MASS = 0.060 / (46 * INCH)


def beam(length: float, mass: float, line_mass: float, clamp: float, tip: float | None = None) -> FrequencyResult:
    return frequency(
        beam_length=length,
        tip_mass=mass,
        mass_per_length=line_mass,
        stiffness_clamp=clamp,
        stiffness_tip=clamp if tip is None else tip,
    )


def cpm(length: float, mass: float, line_mass: float, clamp: float, tip: float | None = None) -> float:
    return 60 * float(beam(length, mass, line_mass, clamp, tip).frequency)


def beta(ratio: float, line_mass: float = 0.05) -> float:
    """β L of a uniform beam 1 m long, 40 N·m², from its frequency."""
    omega = 2 * math.pi * float(beam(1.0, line_mass * ratio, line_mass, 40.0).frequency)
    return (omega**2 * line_mass / 40.0) ** 0.25


for _ratio in (0, 0.1, 0.5, 1, 2, 3, 5, 10):
    LEDGER.gives(f"6.1 a{_ratio}")(lambda ratio=_ratio: beta(ratio))  # type: ignore[misc]
for _ratio in ("0", "0.2", "0.4", "0.6", "0.8", "1.0"):
    LEDGER.gives(f"W38 {_ratio}")(lambda ratio=float(_ratio): beta(ratio))  # type: ignore[misc]


@LEDGER.gives("6.2", "6.3 39", "6.3 41", "6.4 190", "6.4 210", "6.5", "6.6")
def _() -> tuple[float, ...]:
    return (
        cpm(40 * INCH, 0.2, DRIVER_LINE_MASS, 50.0),
        cpm(39 * INCH, 0.2, DRIVER_LINE_MASS, 50.0),
        cpm(41 * INCH, 0.2, DRIVER_LINE_MASS, 50.0),
        cpm(40 * INCH, 0.19, DRIVER_LINE_MASS, 50.0),
        cpm(40 * INCH, 0.21, DRIVER_LINE_MASS, 50.0),
        cpm(33 * INCH, 0.256, 0.110 / (37 * INCH), 60.0),
        cpm(1.016, 0.2, 0.055, 55.0),
    )


@LEDGER.gives("6.7", "6.7 compliance", "6.7 equivalent", "6.8", "6.9")
def _() -> tuple[float, ...]:
    tapered = beam(40 * INCH, 0.2, DRIVER_LINE_MASS, 75.0, 25.0)
    uniform = cpm(40 * INCH, 0.2, DRIVER_LINE_MASS, 50.0, 50.0)
    equivalent = (40 * INCH) ** 3 / 3 / tapered.compliance
    return 60 * tapered.frequency, tapered.compliance, equivalent, cpm(1.0, 0.2, 0.05, 60.0, 20.0), uniform


@LEDGER.gives("6.10", "6.11", "6.12")
def _() -> tuple[float, float, float]:
    return (
        1000 * beta(1000, line_mass=0.002) ** 4 / 3,
        torsional_stiffness(math.radians(3.5), 1.0),
        cpm(1.0, 0.2, 0.05, 80.0) / cpm(1.0, 0.2, 0.05, 40.0),
    )


@LEDGER.gives("6.13 slope", "6.13 deflection")
def _() -> tuple[float, float]:
    bent = tip_bend(pull=250.0, stiffness=45.0, beam_length=1.0, cg_offset=0.03)
    return math.degrees(bent.slope), 1000 * bent.deflection


@LEDGER.gives("clamp", "irons 39", "irons 35.5")
def _() -> tuple[float, float, float]:
    line_mass = 0.110 / (37 * INCH)
    return (
        cpm(42.5 * INCH, 0.2, DRIVER_LINE_MASS, 50.0),
        cpm(34 * INCH, 0.242, line_mass, 60.0),
        cpm(30.5 * INCH, 0.291, line_mass, 60.0),
    )


@LEDGER.gives("trim")
def _() -> float:
    """An inch off the tip at the same free length moves the whole taper an inch down the beam."""
    an_inch = 50.0 / 41.0
    before = cpm(40 * INCH, 0.2, DRIVER_LINE_MASS, 75.0 - an_inch, 25.0)
    return cpm(40 * INCH, 0.2, DRIVER_LINE_MASS, 75.0, 25.0 + an_inch) - before


@LEDGER.compares("frame")
def _() -> tuple[float, float]:
    from Pynite import FEModel3D

    parts, length, gravity = 60, 40 * INCH, 9.80665
    model: Any = FEModel3D()
    model.add_material("shaft", 1e6, 4e5, 0.3, DRIVER_LINE_MASS * gravity / 1e-4)  # its density is a weight
    model.add_section("tube", 1e-4, 50e-6, 50e-6, 1e-4)
    for i in range(parts + 1):
        model.add_node(f"N{i}", length * i / parts, 0, 0)
        if i:
            model.add_member(f"M{i}", f"N{i - 1}", f"N{i}", "shaft", "tube")
            model.def_support(f"N{i}", True, False, True, True, True, False)
    model.def_support("N0", True, True, True, True, True, True)
    model.add_member_self_weight("FX", -1.0, case="Case 1")
    model.add_node_load(f"N{parts}", "FY", -0.2 * gravity, case="Case 1")
    model.add_load_combo("Combo 1", {"Case 1": 1.0})
    model.analyze_modal(num_modes=1, mass_direction="Y", gravity=gravity)
    return 60 * float(model.frequencies[0]), cpm(length, 0.2, DRIVER_LINE_MASS, 50.0)


@LEDGER.compares("ode")
def _() -> tuple[float, float]:
    """The tapered beam's own equation, integrated from the clamp; the tip's conditions give the frequency."""
    length, line_mass, mass = 1.0, 0.05, 0.2

    def slope_of(x: float, state: Any, squared: float) -> list[float]:
        y, turn, moment, shear = state
        return [turn, moment / (60.0 - 40.0 * x / length), shear, squared * line_mass * y]

    def determinant(squared: float) -> float:
        ends = [
            scipy.integrate.solve_ivp(
                slope_of, (0, length), start, args=(squared,), method="DOP853", rtol=1e-12, atol=1e-13
            ).y[:, -1]
            for start in ((0.0, 0.0, 1.0, 0.0), (0.0, 0.0, 0.0, 1.0))
        ]
        # Moment free; the shear accelerates the mass.
        rows = [(end[2], end[3] + squared * mass * end[0]) for end in ends]
        return float(rows[0][0] * rows[1][1] - rows[0][1] * rows[1][0])

    squared = scipy.optimize.brentq(determinant, 500.0, 900.0, xtol=1e-9)
    return 60 * math.sqrt(squared) / (2 * math.pi), cpm(length, mass, line_mass, 60.0, 20.0)


@LEDGER.compares("lateral")
def _() -> tuple[float, float]:
    """Shear and moment at the tip of a uniform beam in terms of the head's motion, both conditions at once."""
    length, line_mass, stiffness, mass, inertia, offset = 1.0, 0.055, 45.0, 0.2, 4.0e-4, 0.025

    def determinant(omega: float) -> float:
        b = (omega**2 * line_mass / stiffness) ** 0.25
        x = b * length
        c, s, ch, sh = math.cos(x), math.sin(x), math.cosh(x), math.sinh(x)
        # y = A (cosh − cos) + B (sinh − sin) meets the clamp.
        y = (ch - c, sh - s)
        slope = (b * (sh + s), b * (ch - c))
        curvature = (b * b * (ch + c), b * b * (sh + s))
        third = (b**3 * (sh - s), b**3 * (ch + c))
        # The head: force −EI y''' on it from the beam, moment EI y'' about the beam's end.
        rows = [
            [
                stiffness * third[i] + omega**2 * mass * (y[i] + offset * slope[i]),
                stiffness * curvature[i] - omega**2 * (inertia * slope[i] + mass * offset * (y[i] + offset * slope[i])),
            ]
            for i in range(2)
        ]
        return rows[0][0] * rows[1][1] - rows[0][1] * rows[1][0]

    omega = scipy.optimize.brentq(determinant, 15.0, 35.0, xtol=1e-12)
    found = frequency(
        beam_length=length,
        tip_mass=mass,
        mass_per_length=line_mass,
        stiffness_clamp=stiffness,
        stiffness_tip=stiffness,
        tip_inertia=inertia,
        tip_offset=offset,
    )
    return 60 * omega / (2 * math.pi), 60 * found.frequency


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
