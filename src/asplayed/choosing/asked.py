"""What is asked of a choice, in words, as limits: clubs by any name, gaps with units, a purse, a span of irons."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet
from asplayed.clubs.names import club_meant, club_name, labels
from asplayed.errors import BadInput
from asplayed.quantities import read_quantity, to_si, unit_named

if TYPE_CHECKING:
    from asplayed.choosing.choice_model import Limits
    from asplayed.choosing.prices import Prices


def limits_asked(
    golf_set: GolfSet,
    *,
    clubs: int = 14,
    changes: int | None = None,
    price: str | None = None,
    prices: Prices | None = None,
    require: Iterable[str] = (),
    forbid: Iterable[str] = (),
    least_gap: str | None = None,
    most_gap: str | None = None,
    same_irons: str | None = None,
    worth: float | None = None,
) -> Limits:
    """The limits that these words set on a choice; what cannot be is refused in one sentence.

    `worth` is what a change must save a round; 0.05 strokes unless said.

    >>> found = limits_asked(GolfSet(), clubs=12, require=["7i"], least_gap="8yd", same_irons="5-PW")
    >>> found.clubs, found.required, round(found.least_gap, 2), found.same_irons
    (12, ('7 iron',), 7.32, ('5 iron', 'pitching wedge'))
    """
    from asplayed.choosing.choice_model import Limits
    from asplayed.choosing.choose import CHANGE_WORTH
    from asplayed.choosing.prices import money

    most = None
    if price:
        purse = money(price)
        if prices is None:
            raise BadInput("a price limits what may be spent, but no price is known; give a table of them")
        if purse.currency != prices.currency:
            raise BadInput(
                f"the purse is in {purse.currency}, the prices are in {prices.currency}; give both in one currency"
            )
        most = purse.value
    return Limits(
        clubs=clubs,
        required=tuple(club_asked(word, golf_set) for word in require),
        forbidden=tuple(club_asked(word, golf_set) for word in forbid),
        most_changes=changes,
        most_price=most,
        currency=prices.currency if prices is not None else None,
        least_gap=_distance(least_gap, "the least gap"),
        most_gap=_distance(most_gap, "the most gap"),
        same_irons=_span(same_irons),
        change_worth=CHANGE_WORTH if worth is None else worth,
    )


def club_asked(word: str, golf_set: GolfSet) -> str:
    """A club as the set calls it where it has it, else by the trade's name, else as written: a kind or a model.

    >>> club_asked("PW", GolfSet()), club_asked("Kittiwake", GolfSet())
    ('pitching wedge', 'Kittiwake')
    """
    found = club_meant(word, golf_set.clubs)
    if len(found) == 1:
        return labels(golf_set.clubs)[found[0]]
    return club_name(word) or word


def _distance(text: str | None, what: str) -> float | None:
    if not text:
        return None
    quantity = read_quantity(text)
    if not quantity.unit or unit_named(quantity.unit).dimension != "length":
        raise BadInput(f"{what} {text!r} is no distance with a unit; write it as 12yd")
    return to_si(float(quantity.value), quantity.unit)


def _span(text: str | None) -> tuple[str, str] | None:
    if not text:
        return None
    ends = [part.strip() for part in re.split(r"\s*(?:-|–|\bto\b)\s*", text) if part.strip()]
    names = [f"{part} iron" if part.isdigit() else club_name(part) or part for part in ends]
    if len(names) != 2:
        raise BadInput(f"{text!r} is no span of irons; write it as 5-PW")
    return names[0], names[1]
