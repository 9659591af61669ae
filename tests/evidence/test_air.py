"""Air and gravity held against the published formulas' figures and four independent libraries."""

from __future__ import annotations

import math
import warnings
from typing import Any

import ambiance
import boule
import CoolProp.CoolProp
import fluids.atmosphere
import pytest
from ledger import Ledger, Row, data

from asplayed.mechanics.air import (
    geopotential_height,
    gravity,
    moist_air,
    saturation_pressure,
    standard_atmosphere,
    viscosity,
)
from asplayed.quantities import to_si

LEDGER = Ledger("air.csv", "Air and gravity", "Moist air, the standard atmosphere, viscosity and gravity.")
ZERO = 273.15


@LEDGER.gives("2.1", "2.1 z", "2.1 x")
def _() -> Any:
    return moist_air(20 + ZERO, 101325.0, 0.5)


@LEDGER.gives("2.2", "2.3", "2.4", "2.5", "2.6")
def _() -> tuple[float, ...]:
    return (
        moist_air(15 + ZERO, 101325.0, 0.0).density,
        moist_air(0 + ZERO, 101325.0, 0.0).density,
        moist_air(30 + ZERO, 101325.0, 0.8).density,
        moist_air(10 + ZERO, 83000.0, 0.3).density,
        saturation_pressure(20 + ZERO),
    )


@LEDGER.gives("2.7 t", "2.7 p", "2.7 d", "2.8 p", "2.8 d")
def _() -> tuple[float, ...]:
    mile, high = standard_atmosphere(1609.344), standard_atmosphere(3000.0)
    return (*mile, high.pressure, high.density)


@LEDGER.gives("2.9 15", "2.9 30", "2.10 0", "2.10 45", "2.10 90")
def _() -> tuple[float, ...]:
    degrees = (0, 45, 90)
    return viscosity(15 + ZERO), viscosity(30 + ZERO), *(gravity(math.radians(latitude)) for latitude in degrees)


@LEDGER.gives("2.11")
def _() -> bool:
    return all(
        moist_air(t + ZERO, 101325.0, wet).density > moist_air(t + ZERO, 101325.0, wet + 0.1).density
        for t in range(-10, 46, 5)
        for wet in (0.0, 0.3, 0.6, 0.9)
    )


@LEDGER.compares(*(f"humid {i}" for i in range(1, 7)))
def _() -> tuple[tuple[float, float], ...]:
    cases = [
        (20, 101325, 0.5),
        (0, 101325, 0.0),
        (20, 83437, 0.5),
        (30, 101325, 0.8),
        (40, 95000, 0.2),
        (5, 102500, 0.9),
    ]
    return tuple(
        (_coolprop(t + ZERO, float(p), wet), moist_air(t + ZERO, float(p), wet).density) for t, p, wet in cases
    )


def _coolprop(temperature: float, pressure: float, humidity: float) -> float:
    """Density from CoolProp's volume of a kilogram of humid air."""
    return 1 / float(CoolProp.CoolProp.HAPropsSI("Vha", "T", temperature, "P", pressure, "R", humidity))


@LEDGER.compares("sticky 1", "sticky 2")
def _() -> tuple[tuple[float, float], ...]:
    ours = viscosity(15 + ZERO)
    theirs = float(CoolProp.CoolProp.PropsSI("V", "T", 15 + ZERO, "P", 101325, "Air"))
    return (theirs, ours), (float(fluids.atmosphere.ATMOSPHERE_1976.viscosity(15 + ZERO)), ours)


@LEDGER.compares("column 1", "column 2", "column 3", "column 4")
def _() -> tuple[tuple[float, float], ...]:
    other = fluids.atmosphere.ATMOSPHERE_1976(1609.344)
    mile = standard_atmosphere(geopotential_height(1609.344))
    high = standard_atmosphere(geopotential_height(3000.0))
    return (
        (float(other.T), mile.temperature),
        (float(other.P), mile.pressure),
        (float(ambiance.Atmosphere(1609.344).density[0]), mile.density),
        (float(ambiance.Atmosphere(3000.0).pressure[0]), high.pressure),
    )


@LEDGER.compares("earth 1", "earth 2", "earth 3", "earth 4")
def _() -> tuple[tuple[float, float], ...]:
    def pair(latitude: float, height: float) -> tuple[float, float]:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            theirs = boule.WGS84.normal_gravity((0.0, latitude, height), si_units=True)
        return float(theirs), gravity(math.radians(latitude), height)

    return pair(45, 0.0), pair(0, 0.0), pair(90, 0.0), pair(45, 1609.344)


@LEDGER.gives("table")
def _() -> bool:
    rows = data("standard_atmosphere_1976.csv")
    return len(rows) == 18 and all(
        math.floor(standard_atmosphere(float(row["geopotential_m"])).pressure + 1e-6)
        == round(float(row["pressure_hPa_truncated"]) * 100)
        for row in rows
    )


@LEDGER.gives("ratio 5000", "ratio 5280", "ratio 7800", "ratio 15000")
def _() -> tuple[float, ...]:
    heights = [geopotential_height(feet * 0.3048) for feet in (5000, 5280, 7800, 15000)]
    return tuple(standard_atmosphere(height).pressure / 101325 for height in heights)


@LEDGER.gives("dew 0", "dew 20", "dew 40")
def _() -> tuple[float, ...]:
    vapour = saturation_pressure(10 + ZERO)
    pressure = to_si(760, "mmHg")
    return tuple(moist_air(t + ZERO, pressure, vapour / saturation_pressure(t + ZERO)).density for t in (10, 20, 40))


@LEDGER.gives("W39")
def _() -> float:
    return to_si(1, "inHg")


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
