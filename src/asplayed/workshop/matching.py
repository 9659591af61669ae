"""Which shaft goes to which head so that a set comes to its balance with the least mass added."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from msgspec.structs import replace

from asplayed.clubs import Club
from asplayed.clubs.changes import MOST_ADDED, missing_mass
from asplayed.clubs.records import AddedAt
from asplayed.errors import BadInput
from asplayed.quantities import Figure


class Matched(NamedTuple):
    """One club of a matched set: which shaft and which head of those at hand, and the mass to add, where."""

    shaft: int
    head: int
    grams: float
    place: AddedAt


def match(
    clubs: Sequence[Club], targets: Sequence[Figure], shafts: Sequence[Figure], heads: Sequence[Sequence[Figure]]
) -> tuple[Matched, ...]:
    """For every club the shaft (raw mass) and head (mass) of those at hand that together need the least mass added.

    `targets` are swing weights (text) or butt inertias; `heads` holds the masses at hand for each club, one at least;
    a shaft serves one club, so there must be as many as clubs. A set that cannot come to its targets is refused.

    >>> from asplayed.quantities import figure
    >>> from asplayed.clubs import Head
    >>> irons = [Club(club=f"{n} iron", kind="iron") for n in (6, 7)]
    >>> found = match(irons, [figure("D2", "1", "stated")] * 2, [figure(g, "g", "measured") for g in (112, 118)],
    ...     [[figure(262, "g", "measured")], [figure(269, "g", "measured")]])
    >>> [club.shaft for club in found]
    [1, 0]
    """
    if len(shafts) < len(clubs):
        raise BadInput(
            f"{len(shafts)} shafts at hand cannot serve {len(clubs)} clubs; weigh {len(clubs) - len(shafts)} more"
        )
    best: list[list[Matched | None]] = []
    for club, target, masses in zip(clubs, targets, heads, strict=True):
        row = []
        for number, shaft in enumerate(shafts):
            fitted = replace(club, shaft=replace(club.shaft, mass=shaft))
            tried = [_need(fitted, target, mass, number, place) for place, mass in enumerate(masses)]
            row.append(min((one for one in tried if one is not None), key=lambda one: one.grams, default=None))
        best.append(row)
    chosen = least([[None if one is None else one.grams for one in row] for row in best])
    found = []
    for club, row, column in zip(clubs, best, chosen, strict=True):
        one = row[column]
        if one is None:
            raise BadInput(
                f"no shaft and head at hand bring the {club.club} to its target with {MOST_ADDED:g} g or less; "
                "weigh other heads, or set another target"
            )
        found.append(one)
    return tuple(found)


def _need(club: Club, target: Figure, head: Figure, shaft: int, number: int) -> Matched | None:
    fitted = replace(club, head=replace(club.head, mass=head))
    grams, place = missing_mass(fitted, target)
    return Matched(shaft, number, grams, place) if 0 <= grams <= MOST_ADDED else None


def least(costs: Sequence[Sequence[float | None]]) -> tuple[int, ...]:
    """The column for each row that makes the sum least; None is what cannot be, taken only where nothing else is left.

    >>> least([[4.0, 1.0, 3.0], [2.0, 0.0, 5.0], [3.0, 2.0, 2.0]])
    (1, 0, 2)
    """
    import numpy as np
    from scipy.optimize import linear_sum_assignment

    known = [cost for row in costs for cost in row if cost is not None]
    never = 1 + 2 * len(costs) * max((abs(cost) for cost in known), default=1.0)
    table = np.array([[never if cost is None else cost for cost in row] for row in costs], dtype=np.float64)
    _, columns = linear_sum_assignment(table)
    return tuple(int(column) for column in columns)
