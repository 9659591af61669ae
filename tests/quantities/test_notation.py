"""Trade notation read and written; pint misreads `44 3/4 in` (its issue 329), so it is no oracle here."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.quantities import read_number, read_quantity, write_fraction, write_quantity


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("44¾", Fraction(179, 4), ""),
        ("44 3/4 in", Fraction(179, 4), "in"),
        ('44-3/4"', Fraction(179, 4), "in"),
        ("44.75", Fraction(179, 4), ""),
        ("44,75 in", Fraction(179, 4), "in"),
        ("1130 mm", Fraction(1130), "mm"),
        ("−0.75°", Fraction(-3, 4), "deg"),
        ("-¾ deg", Fraction(-3, 4), "deg"),
        ("+1", Fraction(1), ""),
        ("½", Fraction(1, 2), ""),
        (".5in", Fraction(1, 2), "in"),
        ("7/8 inch", Fraction(7, 8), "in"),
        ("65g", Fraction(65), "g"),
        ("70 °F", Fraction(70), "degF"),
        ("50 %", Fraction(50), "percent"),
        ("1.82e-5Pa*s", Fraction(182, 10**7), "Pa*s"),
    ],
)
def test_read(text: str, value: Fraction, unit: str) -> None:
    found = read_quantity(text)
    assert (found.value, found.unit) == (value, unit)


@pytest.mark.parametrize("text", ["", "abc", "4 furlongs", "44 3/0", "3 wood", "--4", "1/"])
def test_what_is_no_quantity_is_refused_by_its_own_words(text: str) -> None:
    with pytest.raises(BadInput):
        read_quantity(text)


def test_a_bare_number_carries_no_unit() -> None:
    with pytest.raises(BadInput, match="carries a unit"):
        read_number("4 in")


@given(st.integers(-90 * 64, 90 * 64), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_written_are_read_back(sixty_fourths: int, denominator: int) -> None:
    exact = Fraction(round(Fraction(sixty_fourths, 64) * denominator), denominator)
    assert read_number(write_fraction(float(exact), denominator)) == exact


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        read_quantity(text)
    except BadInput as fault:
        assert str(fault)


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [(-0.75, "deg", "−0.75°"), (100.0, "g", "100 g"), (-0.001, "deg", "0°"), (3.0, "1", "3"), (50, "percent", "50 %")],
)
def test_write(value: float, unit: str, text: str) -> None:
    assert write_quantity(value, unit) == text
