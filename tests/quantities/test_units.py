"""Units held against an independent registry, and the door in and out of SI."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.quantities import convert, find_unit, from_si, to_si, unit_named, units_of
from asplayed.quantities.units import _by_spelling

UREG = pint.UnitRegistry()

# Our name, and how the independent registry (pint) writes the same unit with its SI counterpart.
ELSEWHERE = {
    "deg": ("degree", "radian"),
    "in": ("inch", "meter"),
    "mm": ("millimeter", "meter"),
    "cm": ("centimeter", "meter"),
    "ft": ("foot", "meter"),
    "yd": ("yard", "meter"),
    "km": ("kilometer", "meter"),
    "mi": ("mile", "meter"),
    "g": ("gram", "kilogram"),
    "oz": ("ounce", "kilogram"),
    "lb": ("pound", "kilogram"),
    "mph": ("mile / hour", "meter / second"),
    "km/h": ("kilometer / hour", "meter / second"),
    "ft/s": ("foot / second", "meter / second"),
    "kn": ("knot", "meter / second"),
    "ms": ("millisecond", "second"),
    "us": ("microsecond", "second"),
    "rpm": ("revolution / minute", "radian / second"),
    "rps": ("revolution / second", "radian / second"),
    "cpm": ("1 / minute", "1 / second"),
    "g/cm3": ("gram / centimeter ** 3", "kilogram / meter ** 3"),
    "hPa": ("hectopascal", "pascal"),
    "kPa": ("kilopascal", "pascal"),
    "bar": ("bar", "pascal"),
    "inHg": ("inch_Hg", "pascal"),
    "mmHg": ("mmHg", "pascal"),
    "mm/N": ("millimeter / newton", "meter / newton"),
    "lbf": ("pound_force", "newton"),
    "lbf*ft": ("pound_force * foot", "newton * meter"),
    "in*oz": ("inch * ounce", "meter * kilogram"),
    "g*in": ("gram * inch", "kilogram * meter"),
    "kg*cm2": ("kilogram * centimeter ** 2", "kilogram * meter ** 2"),
    "g*cm2": ("gram * centimeter ** 2", "kilogram * meter ** 2"),
    "lbf*in2": ("pound_force * inch ** 2", "newton * meter ** 2"),
    "g/m": ("gram / meter", "kilogram / meter"),
    "g/in": ("gram / inch", "kilogram / meter"),
    "mm2": ("millimeter ** 2", "meter ** 2"),
    "in2": ("inch ** 2", "meter ** 2"),
    "mm2/mm": ("millimeter ** 2 / millimeter", "meter"),
    "in2/in": ("inch ** 2 / inch", "meter"),
    "cm3": ("centimeter ** 3", "meter ** 3"),
    "percent": ("percent", "dimensionless"),
}


@pytest.mark.parametrize("name", sorted(ELSEWHERE))
def test_factor_agrees_with_pint(name: str) -> None:
    theirs, si = ELSEWHERE[name]
    expected = UREG.Quantity(1.0, theirs).to(si).magnitude
    # pint's inHg is the density-of-mercury figure and ours the conventional one: they part in the sixth digit.
    assert unit_named(name).si == pytest.approx(expected, rel=2e-5)


def test_every_scaled_unit_has_a_counterpart_elsewhere() -> None:
    scaled = {u.name for u in _by_spelling().values() if u.si != 1.0 and u.dimension != "temperature"}
    assert scaled == set(ELSEWHERE)


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(0, 32), (100, 212), (-40, -40), (21.11111111, 70)])
def test_fixed_points_of_the_temperature_scales(celsius: float, fahrenheit: float) -> None:
    assert convert(fahrenheit, "degF", "degC") == pytest.approx(celsius, abs=1e-6)


@given(st.floats(-1e6, 1e6), st.sampled_from(sorted(ELSEWHERE)))
def test_there_and_back(value: float, name: str) -> None:
    assert from_si(to_si(value, name), name) == pytest.approx(value, rel=1e-12, abs=1e-9)


def test_unknown_unit_offers_the_nearest() -> None:
    with pytest.raises(BadInput, match="did you mean"):
        unit_named("inchs")


def test_two_dimensions_do_not_convert() -> None:
    with pytest.raises(BadInput, match=r"measures mass and cannot be turned into deg"):
        convert(1, "g", "deg")


def test_spellings_and_lists() -> None:
    assert find_unit(" Yards ") is unit_named("yd")
    assert find_unit("smoot") is None
    assert units_of("angle") == ("deg", "rad")
