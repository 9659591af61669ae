"""Units, figures and trade notation. This room knows nothing of golf."""

from asplayed.quantities.figures import (
    Figure,
    Parent,
    Source,
    chain,
    clash,
    derive,
    figure,
    stronger,
)
from asplayed.quantities.notation import Quantity, read_number, read_quantity, write_fraction, write_quantity
from asplayed.quantities.plain import plain
from asplayed.quantities.units import Unit, convert, find_unit, from_si, to_si, unit_named, units_of

__all__ = [
    "Figure",
    "Parent",
    "Quantity",
    "Source",
    "Unit",
    "chain",
    "clash",
    "convert",
    "derive",
    "figure",
    "find_unit",
    "from_si",
    "plain",
    "read_number",
    "read_quantity",
    "stronger",
    "to_si",
    "unit_named",
    "units_of",
    "write_fraction",
    "write_quantity",
]
