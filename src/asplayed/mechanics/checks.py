"""What a function of this room accepts: one table of ranges (`data/ranges.toml`), one way of refusing.

A formula is written once. `accept` hands back the functions to write it with (`math` for plain numbers, `numpy` where
any argument is an array) and the arguments, checked: plain numbers as floats, arrays broadcast to one shape.
"""

from __future__ import annotations

import math
import tomllib
from functools import cache
from importlib import resources
from typing import Any, NamedTuple, TypeAlias

from asplayed.errors import BadInput
from asplayed.quantities.units import from_si, to_si

# A float, or an array of floats: what the functions of this room take and give.
Numbers: TypeAlias = Any


class Range(NamedTuple):
    """The accepted range of one argument, in SI, and the unit it is spoken of in."""

    low: float
    high: float
    unit: str

    def __str__(self) -> str:
        """The range in words, in its own unit."""
        unit = "" if self.unit == "1" else f" {self.unit}"
        return f"{from_si(self.low, self.unit):.6g} to {from_si(self.high, self.unit):.6g}{unit}"


@cache
def ranges() -> dict[str, Range]:
    """The accepted range of every argument name.

    >>> str(ranges()["loft"])
    '-15 to 85 deg'
    """
    text = resources.files("asplayed.mechanics").joinpath("data/ranges.toml").read_text(encoding="utf-8")
    return {
        name: Range(to_si(entry["low"], entry["unit"]), to_si(entry["high"], entry["unit"]), entry["unit"])
        for name, entry in tomllib.loads(text).items()
    }


def _written(value: float, unit: str) -> str:
    if not math.isfinite(value):
        return str(value)
    return f"{from_si(value, unit):.6g}{'' if unit == '1' else f' {unit}'}"


@cache
def range_of(name: str, room: str = "") -> Range:
    """The accepted range of an argument; a `room` may have its own (a spin on the ground may be topspin).

    >>> range_of("spin_rate").low, range_of("spin_rate", "ground").low < 0
    (0.0, True)
    """
    table = ranges()
    return table.get(f"{room} {name}") or table[name]


def accept(room: str = "", /, **arguments: Numbers) -> tuple[Any, ...]:
    """The functions to compute with, then the arguments in the order given, each within its range.

    The first item is `math` when every argument is a plain number and `numpy` otherwise; they share the names used in
    this room (`sin`, `asin`, `atan2`, `sqrt`, `exp`). A value that is no number, not finite or outside its range is
    refused by name; an array's faulty elements are listed.

    >>> m, loft = accept(loft=0.5)
    >>> m.__name__, loft
    ('math', 0.5)
    >>> accept(loft=3.0)
    Traceback (most recent call last):
    asplayed.errors.BadInput: loft is 171.887 deg; give a value from -15 to 85 deg
    """
    plain: list[float] = []
    for name, given in arguments.items():
        if isinstance(given, bool) or not isinstance(given, int | float):
            return _accept_arrays(room, arguments)
        value = float(given)
        allowed = range_of(name, room)
        if not allowed.low <= value <= allowed.high:
            raise BadInput(f"{name} is {_written(value, allowed.unit)}; give a value from {allowed}")
        plain.append(value)
    return (math, *plain)


def _accept_arrays(room: str, arguments: dict[str, Numbers]) -> tuple[Any, ...]:
    import numpy as np

    arrays = []
    for name, value in arguments.items():
        allowed = range_of(name, room)
        try:
            found = np.asarray(value)
            if found.dtype.kind not in "iuf":
                raise ValueError
            found = found.astype(np.float64)
        except (TypeError, ValueError):
            raise BadInput(f"{name} is {value!r:.60}; give a number or an array from {allowed}") from None
        faulty = np.argwhere(~((found >= allowed.low) & (found <= allowed.high)))
        if found.ndim and len(faulty):
            where = ", ".join(str(index[0] if found.ndim == 1 else tuple(index.tolist())) for index in faulty[:10])
            more = f" … ({len(faulty)} in all)" if len(faulty) > 10 else ""
            first = _written(float(found[tuple(faulty[0])]), allowed.unit)
            raise BadInput(f"{name} at {where}{more}: the first is {first}; give values from {allowed}")
        arrays.append(found)
    if all(found.ndim == 0 for found in arrays):
        return accept(room, **{name: float(found) for name, found in zip(arguments, arrays, strict=True)})
    try:
        return (np, *np.broadcast_arrays(*arrays))
    except ValueError:
        shapes = ", ".join(f"{name} {found.shape}" for name, found in zip(arguments, arrays, strict=True))
        raise BadInput(f"the arrays cannot be brought to one shape: {shapes}") from None


def choose(m: Any, condition: Any, one: Numbers, other: Numbers) -> Numbers:
    """`one` where the condition holds, else `other`, for a plain number or an array.

    >>> choose(math, 2 > 1, 10.0, 20.0)
    10.0
    """
    if m is math:
        return one if condition else other
    return m.where(condition, one, other)


def refuse_no_body(
    m: Any, one: Numbers, two: Numbers, three: Numbers, products: tuple[Numbers, Numbers, Numbers]
) -> None:
    """Refuse an inertia tensor (diagonal, then its entries 12, 13 and 23) that no spread of mass has.

    Half the trace less the tensor is the spread of the mass about the centre: no moment passes the sum of the other two
    about any axes, so every principal minor of it is positive, or nought for a flat body.

    >>> refuse_no_body(math, 1.0, 2.0, 4.0, (0.0, 0.0, 0.0))
    Traceback (most recent call last):
    asplayed.errors.BadInput: no body has these moments of inertia: each is at most the sum of the other two
    """
    a, b, c = products
    half = (one + two + three) / 2
    x, y, z = half - one, half - two, half - three
    least = -1e-9 * half
    beyond = (x < least) | (y < least) | (z < least)
    refuse_where(m, beyond, "no body has these moments of inertia: each is at most the sum of the other two")
    pairs = (x * y - a * a < half * least) | (x * z - b * b < half * least) | (y * z - c * c < half * least)
    whole = x * y * z - x * c * c - y * b * b - z * a * a - 2 * a * b * c
    beyond = pairs | (whole < half * half * least)
    refuse_where(m, beyond, "no body has this inertia tensor; its products are too large")


def refuse_where(m: Any, condition: Any, sentence: str) -> None:
    """Refuse with `sentence` where the condition holds; for an array the elements are named."""
    if m is math:
        if condition:
            raise BadInput(sentence)
        return
    faulty = m.flatnonzero(condition)
    if len(faulty):
        where = ", ".join(str(int(index)) for index in faulty[:10])
        raise BadInput(f"{sentence} (elements {where}{' …' if len(faulty) > 10 else ''}, counted flat)")
