"""Air and gravity: moist air's density, the standard atmosphere, viscosity, gravity by latitude and height.

Sources: Picard, Davis, Gläser and Fujii, "Revised formula for the density of moist air (CIPM-2007)", Metrologia 45
(2008); ISO 2533 standard atmosphere, the same up to 11 km as the U.S. Standard Atmosphere 1976, and its form of
Sutherland's law; Somigliana's formula with the constants of GRS80. The constants are from memory.
"""

from __future__ import annotations

from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept

GAS_CONSTANT = 8.314472  # J/(mol K), as CIPM-2007 takes it
WATER = 18.01528e-3  # kg/mol

SEA_LEVEL_TEMPERATURE = 288.15
SEA_LEVEL_PRESSURE = 101325.0
LAPSE = 0.0065  # K/m
AIR_GAS_CONSTANT = 287.05287  # J/(kg K)
PRESSURE_POWER = 9.80665 * 0.0289644 / (8.31432 * LAPSE)
EARTH_RADIUS = 6356766.0  # m, of the standard atmosphere


class MoistAir(NamedTuple):
    """Density of moist air (kg/m³), its compressibility, and the molar share of water vapour."""

    density: Numbers
    compressibility: Numbers
    vapour: Numbers


def saturation_pressure(temperature: Numbers) -> Numbers:
    """Saturation pressure of water vapour (Pa) at `temperature` (K), as CIPM-2007 gives it; broadcasting.

    >>> round(saturation_pressure(293.15), 1)
    2339.2
    """
    m, t = accept(temperature=temperature)
    return m.exp(1.2378847e-5 * t * t - 1.9121316e-2 * t + 33.93711047 - 6.3431645e3 / t)


def moist_air(temperature: Numbers, pressure: Numbers, humidity: Numbers, carbon_dioxide: Numbers = 0.0004) -> MoistAir:
    """Moist air by CIPM-2007: `temperature` in K, station `pressure` in Pa, relative `humidity` 0 to 1; broadcasting.

    Stated for 600 to 1100 hPa and 15 to 27 °C; over the temperatures of golf it stays within 0.1 %.

    >>> round(moist_air(293.15, 101325.0, 0.5).density, 5)
    1.19931
    """
    _, kelvin, p, h, co2 = accept(
        temperature=temperature, pressure=pressure, humidity=humidity, carbon_dioxide=carbon_dioxide
    )
    t = kelvin - 273.15
    enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t
    x = h * enhancement * saturation_pressure(kelvin) / p
    virial = 1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t
    virial = virial + (5.707e-6 - 2.051e-8 * t) * x + (1.9898e-4 - 2.376e-6 * t) * x * x
    ratio = p / kelvin
    z = 1 - ratio * virial + ratio * ratio * (1.83e-11 - 0.765e-8 * x * x)
    dry = 28.96546e-3 + 12.011e-3 * (co2 - 0.0004)
    return MoistAir(p * dry / (z * GAS_CONSTANT * kelvin) * (1 - x * (1 - WATER / dry)), z, x)


class Atmosphere(NamedTuple):
    """The standard atmosphere at a height, SI: temperature (K), pressure (Pa), density (kg/m³) of its dry air."""

    temperature: Numbers
    pressure: Numbers
    density: Numbers


def standard_atmosphere(altitude: Numbers) -> Atmosphere:
    """The standard atmosphere at a geopotential height (m), from sea level to 11 km; broadcasting.

    >>> round(standard_atmosphere(1609.344).pressure, 1)
    83427.6
    """
    _, height = accept(altitude=altitude)
    temperature = SEA_LEVEL_TEMPERATURE - LAPSE * height
    pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** PRESSURE_POWER
    return Atmosphere(temperature, pressure, pressure / (AIR_GAS_CONSTANT * temperature))


def geopotential_height(altitude: Numbers) -> Numbers:
    """The geopotential height (m) of a height above sea level (m); 2 m less at 3,500 m.

    >>> round(geopotential_height(3500.0), 1)
    3498.1
    """
    _, height = accept(altitude=altitude)
    return EARTH_RADIUS * height / (EARTH_RADIUS + height)


def station_pressure(sea_level_pressure: Numbers, altitude: Numbers) -> Numbers:
    """Pressure (Pa) at a course's height (m) from a reading reduced to sea level, by the standard atmosphere's ratio.

    >>> round(station_pressure(101325.0, 1609.344), 1)
    83427.6
    """
    _, reading, height = accept(sea_level_pressure=sea_level_pressure, altitude=altitude)
    return reading * standard_atmosphere(height).pressure / SEA_LEVEL_PRESSURE


def viscosity(temperature: Numbers) -> Numbers:
    """Dynamic viscosity of air (Pa s) at `temperature` (K) by Sutherland's law; broadcasting.

    >>> f"{viscosity(288.15):.5e}"
    '1.78938e-05'
    """
    _, t = accept(temperature=temperature)
    return 1.458e-6 * t**1.5 / (t + 110.4)


def gravity(latitude: Numbers, altitude: Numbers = 0.0) -> Numbers:
    """Acceleration of gravity (m/s²) at a latitude (rad) and a height (m); broadcasting.

    >>> round(gravity(0.7853981634), 6)
    9.806199
    """
    m, latitude, height = accept(latitude=latitude, altitude=altitude)
    square = m.sin(latitude) ** 2
    at_sea = 9.7803267715 * (1 + 0.001931851353 * square) / m.sqrt(1 - 0.0066943800229 * square)
    return at_sea - 3.086e-6 * height


class Air(NamedTuple):
    """What a ball flies through, SI: density (kg/m³), viscosity (Pa s), pressure (Pa)."""

    density: Numbers
    viscosity: Numbers
    pressure: Numbers


def air(
    temperature: Numbers,
    humidity: Numbers,
    *,
    pressure: Numbers | None = None,
    altitude: Numbers | None = None,
    sea_level_pressure: Numbers | None = None,
) -> Air:
    """The air at a course, SI: from the station's pressure, or from its altitude (with a sea-level reading if known).

    >>> round(air(294.26, 0.5, altitude=0.0).density, 4)
    1.1944
    """
    if (pressure is None) == (altitude is None):
        raise BadInput("give pressure (at the course) or altitude, one of them")
    if pressure is None:
        reading = SEA_LEVEL_PRESSURE if sea_level_pressure is None else sea_level_pressure
        pressure = station_pressure(reading, altitude)
    elif sea_level_pressure is not None:
        raise BadInput("sea_level_pressure goes with altitude; give pressure alone when it was read at the course")
    _, kelvin, p, h = accept(temperature=temperature, pressure=pressure, humidity=humidity)
    return Air(moist_air(kelvin, p, h).density, viscosity(kelvin), p)
