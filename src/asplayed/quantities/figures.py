"""A figure knows where it came from: value, unit, band, source, and the figures it was worked out from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from enum import StrEnum

import msgspec

from asplayed.quantities.units import convert, from_si, to_si


class Source(StrEnum):
    """Where a figure came from, strongest first."""

    MEASURED = "measured"
    STATED = "stated"
    PUBLISHED = "published"
    COMPUTED = "computed"
    COMMON_PRACTICE = "common practice"
    ASSUMED = "assumed"

    @property
    def rank(self) -> int:
        """0 for the strongest source; a stronger source replaces a weaker one."""
        return _RANK[self]


_RANK = {source: rank for rank, source in enumerate(Source)}


class Parent(msgspec.Struct, frozen=True):
    """One figure that another was worked out from, under the name it had in that working."""

    name: str
    figure: Figure


class Figure(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A value with its unit, band, source and reason.

    `low` and `high` bound where the truth may lie (None: not known). A figure may have a band and no value
    (the middle of a stated range) or a text for a value (a swing weight, `"D3"`). `parents` is the chain it
    was worked out from; it lives in memory and is worked out anew, never stored.
    """

    value: float | str | None
    unit: str
    source: Source
    low: float | None = None
    high: float | None = None
    why: str | None = None
    parents: tuple[Parent, ...] = ()

    @property
    def number(self) -> float:
        """The value as a number; a text or a missing value is an error of the caller's."""
        if isinstance(self.value, bool) or not isinstance(self.value, int | float):
            raise TypeError(f"a figure of value {self.value!r} is not a number")
        return float(self.value)

    @property
    def has_number(self) -> bool:
        """True when the value is a number."""
        return isinstance(self.value, int | float)

    @property
    def half_width(self) -> float:
        """Half the width of the band; 0 where no band is known."""
        if self.low is None or self.high is None:
            return 0.0
        return (self.high - self.low) / 2

    @property
    def weakest(self) -> Source:
        """The weakest source anywhere in the chain behind this figure."""
        sources = [figure.source for _, _, figure in chain(self)]
        return max(sources, key=lambda source: source.rank)

    def within(self, tolerance: float) -> Figure:
        """This figure with a band of ± `tolerance` (in its own unit) where it has none yet."""
        if self.low is not None or not self.has_number:
            return self
        return msgspec.structs.replace(self, low=self.number - tolerance, high=self.number + tolerance)

    def in_unit(self, unit: str) -> Figure:
        """This figure in another unit of the same dimension; its chain is kept."""
        if unit == self.unit or not self.has_number:
            return self
        scale = [None if x is None else convert(x, self.unit, unit) for x in (self.number, self.low, self.high)]
        return msgspec.structs.replace(self, value=scale[0], low=scale[1], high=scale[2], unit=unit)


def figure(
    value: float | str | None,
    unit: str,
    source: Source | str,
    *,
    tolerance: float | None = None,
    why: str | None = None,
) -> Figure:
    """A figure, with a band of ± `tolerance` where one is given.

    >>> figure(56, "deg", "stated", tolerance=1).low
    55.0
    """
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError(f"a figure cannot be {value}")
    made = Figure(value=value, unit=unit, source=Source(source), why=why)
    return made if tolerance is None else made.within(tolerance)


def stronger(one: Figure | None, other: Figure | None) -> Figure | None:
    """The figure with the stronger source; the first of two equals; a figure with nothing in it loses.

    >>> stronger(figure(8, "deg", "common practice"), figure(9, "deg", "stated")).value
    9
    """
    if one is None or (one.value is None and other is not None and other.value is not None):
        return other
    if other is None or other.value is None:
        return one
    return other if other.source.rank < one.source.rank else one


def clash(one: Figure, other: Figure) -> bool:
    """True when two figures for the same thing differ by more than their bands allow.

    >>> clash(figure(56, "deg", "stated", tolerance=1), figure(57, "deg", "published", tolerance=1))
    False
    """
    if not (one.has_number and other.has_number):
        return one.value != other.value
    there = other.in_unit(one.unit)
    return abs(one.number - there.number) > one.half_width + there.half_width + 1e-9


def derive(function: Callable[..., float], unit: str, why: str, /, **inputs: Figure) -> Figure:
    """The figure that `function` gives for these figures, with its band and its chain.

    `function` takes and gives SI floats under the same names. Bands are taken as independent and combined in
    quadrature, each side on its own: every input is moved to either end of its band while the others stay.

    >>> loft = figure(56, "deg", "stated", tolerance=1)
    >>> bend = figure(1, "deg", "stated", tolerance=0.25)
    >>> played = derive(lambda loft, bend: loft + bend, "deg", "stamp plus bend", loft=loft, bend=bend)
    >>> round(played.value, 6), round(played.high, 3)
    (57.0, 58.031)
    """
    middle = {name: to_si(entry.number, entry.unit) for name, entry in inputs.items()}
    centre = function(**middle)
    below = above = 0.0
    for name, entry in inputs.items():
        moved = [
            function(**{**middle, name: to_si(end, entry.unit)}) - centre
            for end in (entry.low, entry.high)
            if end is not None
        ]
        if moved:
            below += min(0.0, *moved) ** 2
            above += max(0.0, *moved) ** 2
    banded = any(entry.low is not None for entry in inputs.values())
    return Figure(
        value=_settled(from_si(centre, unit)),
        unit=unit,
        source=Source.COMPUTED,
        low=_settled(from_si(centre - math.sqrt(below), unit)) if banded else None,
        high=_settled(from_si(centre + math.sqrt(above), unit)) if banded else None,
        why=why,
        parents=tuple(Parent(name, entry) for name, entry in inputs.items()),
    )


def _settled(value: float) -> float:
    """Without the last digits that the way through radians or metres leaves behind: 57, not 56.99999999999999."""
    return float(f"{value:.12g}")


def chain(last: Figure, name: str = "", depth: int = 0) -> Iterator[tuple[int, str, Figure]]:
    """The figure and everything it was worked out from, depth first, as (depth, name, figure)."""
    yield depth, name, last
    for parent in last.parents:
        yield from chain(parent.figure, parent.name, depth + 1)
