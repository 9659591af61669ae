"""The books balance: a club weighs and measures what its parts come to, an order and its check say the same.

Each rule has a code that does not change; `keep verify` tells it with the fault. The sums are made here on their own,
and not by the functions whose figures they check.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.assembly import head_mass, parts_without_head
from asplayed.clubs.names import labels
from asplayed.quantities import Figure, Source, convert, to_si
from asplayed.workshop.records import Check, Order

INCH = 0.0254
WITHIN = 1e-6
"""How far two sums of the same parts may differ, as a share."""


ROUNDED = {"deg": 6e-4, "in": 6e-4, "1": 0.06}
"""How far a target that was rounded to be measured may lie from the figure it came from, by its unit."""


class Imbalance(NamedTuple):
    """Where the books do not balance: the code of the rule, and a sentence."""

    code: str
    sentence: str


def of_set(played: GolfSet) -> Iterator[Imbalance]:
    """The clubs of a set, its figures worked out, whose mass or length is not that of their parts.

    >>> from msgspec.structs import replace
    >>> from asplayed.clubs import Club, played_set
    >>> bag = played_set(GolfSet(clubs=(Club(club="7 iron", kind="iron"),)))
    >>> list(of_set(bag))
    []
    >>> wrong = replace(bag.clubs[0].as_played.mass, value=500.0)
    >>> heavier = replace(bag.clubs[0], as_played=replace(bag.clubs[0].as_played, mass=wrong))
    >>> [found.code for found in of_set(GolfSet(clubs=(heavier,)))]
    ['mass-of-parts']
    """
    for label, club in zip(labels(played.clubs), played.clubs, strict=True):
        mass, length = club.as_played.mass, club.as_played.length
        if length is None or not length.has_number:
            continue
        end, parts = summed(club, length)
        if abs(end - in_si(length)) > WITHIN * end:
            said = f"the parts of the {label} are {end / INCH:.3f} in and the club {length.value} {length.unit} long"
            yield Imbalance("length-of-parts", said)
        if mass is None or mass.source is not Source.COMPUTED or not mass.has_number:
            continue  # weighed or stated: it stands by itself
        if abs(parts - in_si(mass)) > WITHIN * parts:
            said = f"the parts of the {label} come to {1000 * parts:.2f} g and the club to {mass.value} {mass.unit}"
            yield Imbalance("mass-of-parts", said)


def summed(club: Club, length: Figure) -> tuple[float, float]:
    """How long (m) and how heavy (kg) the parts of a club are together."""
    figures = parts_without_head(club, length)
    part = {name: in_si(figure) for name, figure in figures.items()}
    tip = part.get("tip_trim", 0.0)
    wanted = part["length"] - part["shaft_reach"]
    raw = max(part["shaft_length"], wanted + tip)  # a shaft that was extended goes on as it is
    raw_mass = part["shaft_mass"] * raw / part["shaft_length"]
    butt = raw - tip - wanted
    # The mass along the shaft lies on a straight line, from one end of what is left to the other.
    middle = (butt + raw - tip) / 2
    slope = 12 * raw_mass * ((1 - part["shaft_balance"]) * raw - raw / 2) / raw**3
    shaft = wanted * (raw_mass / raw + slope * (middle - raw / 2))
    others = sum(value for name, value in part.items() if name.endswith("_mass") and name != "shaft_mass")
    added = sum(value for name, value in part.items() if name.startswith("added_at_"))
    head = in_si(head_mass(club, figures))
    return (raw - butt - tip) + part["shaft_reach"], head + shaft + others + added


def in_si(figure: Figure) -> float:
    """A figure's number in SI."""
    return to_si(figure.number, figure.unit)


def of_order(order: Order) -> Iterator[Imbalance]:
    """Where an order aims at something else than the set it is to make."""
    outcome = dict(zip(labels(order.outcome.clubs), order.outcome.clubs, strict=True))
    for each in order.clubs:
        for step in each.steps:
            if step.operation != "measure" or step.figure is None or step.target is None:
                continue
            wanted = getattr(outcome[each.club].as_played, step.figure, None) if each.club in outcome else None
            if wanted is None or apart(wanted, step.target):
                said = f"the order {order.order} aims the {step.figure.replace('_', ' ')} of the {each.club} elsewhere"
                yield Imbalance("order-of-outcome", f"{said} than the set it makes")


def apart(wanted: Figure, target: Figure) -> bool:
    """True when a target is not the figure it was rounded from; a swing weight's text stands for its points."""
    if not (wanted.has_number and target.has_number):
        return False
    rounded = ROUNDED.get(target.unit, ROUNDED["1"])
    return abs(convert(wanted.number, wanted.unit, target.unit) - target.number) > rounded


def of_check(check: Check, order: Order | None) -> Iterator[Imbalance]:
    """Where a signed check is of no order that is kept, or holds the club against another target than the order's."""
    if order is None:
        yield Imbalance("check-of-order", f"the check of {check.order} is of no order that is kept")
        return
    wanted = {
        (each.club, step.figure): step.target for each in order.clubs for step in each.steps if step.figure is not None
    }
    for figure in check.clubs:
        target = wanted.get((figure.club, figure.figure))
        if target is not None and apart(target, figure.target):
            said = f"the check of {check.order} holds the {figure.figure.replace('_', ' ')} of the {figure.club}"
            yield Imbalance("check-of-order", f"{said} against another target than the order's")
