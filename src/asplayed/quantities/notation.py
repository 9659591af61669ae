"""Trade notation: 44¾, 44 3/4 in, 44-3/4", 1130 mm, −0.75°, 44,5, and back to text."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.quantities.units import convert, find_unit

_MINUS = "−–—‒"  # the minus sign and the dashes people type for it
_NUMBER = re.compile(
    r"""(?P<sign>[+-])?\s*
    (?:
        (?:(?P<whole>\d{1,12})(?:\s+|\s*-\s*))?(?P<top>\d{1,6})\s*[/⁄]\s*(?P<bottom>\d{1,6})
      | (?P<plain>\d{1,12})(?P<vulgar>[¼½¾⅐-⅞])
      | (?P<decimal>(?:\d{1,12}(?:[.,]\d{1,12})?|[.,]\d{1,12})(?:[eE][+-]?\d{1,2})?)
      | (?P<alone>[¼½¾⅐-⅞])
    )""",
    re.VERBOSE,
)


class Quantity(NamedTuple):
    """A number as written: its exact value, its unit ("" when none was written), the digits of its last place."""

    value: Fraction
    unit: str
    step: Fraction


def _clean(text: str) -> str:
    for dash in _MINUS:
        text = text.replace(dash, "-")
    return text.replace("\u00a0", " ").replace("\u202f", " ").strip()


def _from_match(match: re.Match[str]) -> tuple[Fraction, Fraction] | None:
    sign = -1 if match["sign"] == "-" else 1
    if match["bottom"]:
        if int(match["bottom"]) == 0:
            return None
        part = Fraction(int(match["top"]), int(match["bottom"]))
        return sign * (int(match["whole"] or 0) + part), Fraction(1, int(match["bottom"]))
    if match["vulgar"] or match["alone"]:
        part = _vulgar(match["vulgar"] or match["alone"])
        return sign * (int(match["plain"] or 0) + part), Fraction(1, part.denominator)
    written = match["decimal"].replace(",", ".")
    mantissa, _, power = written.lower().partition("e")
    scale = Fraction(10) ** int(power or 0)
    step = scale / 10 ** len(mantissa.partition(".")[2])
    return sign * Fraction(mantissa if not mantissa.startswith(".") else "0" + mantissa) * scale, step


def _vulgar(character: str) -> Fraction:
    return Fraction(unicodedata.numeric(character)).limit_denominator(64)


def read_number(text: str) -> Fraction:
    """The exact value of a number in trade notation; a decimal comma is a decimal point.

    >>> read_number("44 3/4"), read_number("44¾"), read_number("44-3/4") == Fraction(179, 4)
    (Fraction(179, 4), Fraction(179, 4), True)
    >>> read_number("−0,75")
    Fraction(-3, 4)
    """
    quantity = read_quantity(text)
    if quantity.unit:
        raise BadInput(f"{text.strip()!r} carries a unit where a bare number is wanted")
    return quantity.value


def read_quantity(text: str) -> Quantity:
    """A number with the unit behind it, the unit being any spelling of `units.toml`.

    >>> q = read_quantity("44 3/4 in")
    >>> float(q.value), q.unit
    (44.75, 'in')
    >>> read_quantity("145mph").unit
    'mph'
    >>> read_quantity("1.2kg/m3").step
    Fraction(1, 10)
    """
    clean = _clean(text)
    match = _NUMBER.match(clean)
    found = _from_match(match) if match else None
    if match is None or found is None:
        raise BadInput(f"{text.strip()!r} is not a number; write it as 44.75, 44 3/4 or 44¾, with its unit behind it")
    spelling = clean[match.end() :].strip()
    unit = find_unit(spelling) if spelling else None
    if spelling and unit is None:
        raise BadInput(f"{text.strip()!r}: {spelling!r} is not a unit that is known here")
    return Quantity(found[0], unit.name if unit and spelling else "", found[1])


_GLYPHS = {Fraction(unicodedata.numeric(c)).limit_denominator(64): c for c in "¼½¾⅛⅜⅝⅞"}


def write_fraction(value: float, denominator: int = 16) -> str:
    """`value` as a whole number and a fraction, to the nearest 1/`denominator`.

    >>> write_fraction(44.75), write_fraction(35.8125), write_fraction(-0.5)
    ('44¾', '35 13/16', '−½')
    """
    exact = Fraction(round(abs(value) * denominator), denominator)
    whole, part = divmod(exact, 1)
    sign = "−" if value < 0 and exact else ""
    if not part:
        return f"{sign}{whole}"
    glyph = _GLYPHS.get(part)
    if glyph:
        return f"{sign}{whole or ''}{glyph}"
    return f"{sign}{f'{whole} ' if whole else ''}{part.numerator}/{part.denominator}"


def write_quantity(value: float, unit: str, *, places: int = 2, into: str | None = None) -> str:
    """`value` in `unit` as text with a true minus sign and no trailing zeros.

    >>> write_quantity(-0.75, "deg"), write_quantity(45.5, "in", into="mm", places=0)
    ('−0.75°', '1156 mm')
    """
    if into is not None:
        value, unit = convert(value, unit, into), into
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    if float(text) == 0:
        text = "0"
    text = text.replace("-", "−")
    if unit == "1":
        return text
    return f"{text}°" if unit == "deg" else f"{text} %" if unit == "percent" else f"{text} {unit}"
