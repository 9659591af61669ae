"""What a choice is made from and under: the entrants, the limits, and what a choice says of itself."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.clubs.records import Kind, Record

Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]
Against = Literal["average", "worst"]

# Irons in their order, as `same_irons` counts from one to another.
IRON_ORDER = (*(f"{number} iron" for number in range(1, 10)), "pitching wedge", "gap wedge", "sand wedge", "lob wedge")


class Entrant(NamedTuple):
    """One club that could be in the bag, in one setting.

    `place` is the club it is a version of: at most one version of a club is chosen. `loft` in rad, `carry` in m (0 for
    a putter); `changes` is how many changes make it from what the player has; `price` is None where nobody said.
    """

    place: str
    club: str
    kind: Kind
    loft: float = 0.0
    carry: float = 0.0
    model: str | None = None
    changes: int = 0
    price: float | None = None


class Limits(Record, frozen=True, kw_only=True):
    """What a choice must keep to.

    `required` and `forbidden` name a place or a club (`forbidden` a kind or a model too). Gaps are in m of carry
    between neighbours, driver and putter aside. `same_irons` are the first and the last iron that must be of one model.
    `change_worth` is how many strokes a round every change must bring to be made. An entrant without a price counts as
    too dear for any `most_price`, unless it has no changes.
    """

    clubs: int = 14
    drivers: int = 1
    required: tuple[str, ...] = ()
    forbidden: tuple[str, ...] = ()
    most_changes: int | None = None
    most_price: float | None = None
    currency: str | None = None
    least_gap: float | None = None
    most_gap: float | None = None
    same_irons: tuple[str, str] | None = None
    change_worth: float = 0.0


class Progress(NamedTuple):
    """How far a search has come: the best strokes so far, what no set can beat, the set, and what is being done."""

    strokes: float
    bound: float
    chosen: tuple[int, ...]
    words: str


class SetFound(NamedTuple):
    """A set and what it costs: strokes a round, and whether that is proven."""

    chosen: tuple[int, ...]
    strokes: float
    optimal: bool


class FrontPoint(NamedTuple):
    """The best set within a limit: the limit, what of it is used, the set, its strokes, whether proven best."""

    limit: float
    used: float
    chosen: tuple[int, ...]
    strokes: float
    optimal: bool


class Choice(NamedTuple):
    """The best set found and how sure it is.

    `chosen` are indices of entrants, rising; `strokes` a round, the worth of changes included; no set within the limits
    does better than `bound`; `gap` is their difference and `optimal` whether it is closed. `served` is the index of the
    club that plays each situation. `worth` is what each chosen club is worth: strokes a round lost when no version of
    it may be had, the rest chosen anew (infinite where no set is left).
    """

    chosen: tuple[int, ...]
    strokes: float
    bound: float
    gap: float
    optimal: bool
    served: tuple[int, ...]
    alternatives: tuple[SetFound, ...] = ()
    worth: Mapping[int, float] = {}
    by_changes: tuple[FrontPoint, ...] = ()
    by_price: tuple[FrontPoint, ...] = ()
    stopped: bool = False
    seconds: float = 0.0
