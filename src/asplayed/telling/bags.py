"""What many players carried, as plain rows, and how often one thing stands in them: a field, and a season's winners.

A player counts once, with the newest of the bags given, so that one who is seen every week weighs no more than one
seen once; a bag without a player's name counts by itself.
"""

from __future__ import annotations

import math
import statistics
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from asplayed.telling.words import clean

WINNER = 1
ABOUT = ("clubs carried", "heads", "shafts", "soles and grips", "ball")
"""What traits are about, in the order they are told."""

# How a kind of club is spoken of where several of one kind may be carried.
_ONE_OF_A_KIND = ("driver", "putter")
_MANY = {"fairway wood": "fairway woods", "hybrid": "hybrids", "driving iron": "driving irons", "iron": "irons",
         "wedge": "wedges"}  # fmt: skip
_COUNTED = ("fairway wood", "hybrid", "driving iron", "wedge")  # kinds of which the number is a choice
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six")


class Carried(NamedTuple):
    """One club of a bag: loft in degrees, length in inches; None for what is not known."""

    club: str
    kind: str
    head: str = ""
    shaft: str = ""
    flex: str = ""
    loft: float | None = None
    length: float | None = None
    sole: str = ""
    grip: str = ""


class Bag(NamedTuple):
    """What one player carried on one day, and the place it came in at (1 for the winner's), where that is known."""

    name: str
    player: str = ""
    date: str = ""
    event: str = ""
    place: int | None = None
    clubs: tuple[Carried, ...] = ()
    ball: str = ""
    colour: str = ""


class Trait(NamedTuple):
    """Something a bag has or lacks: what it is about, and what its player did, in the past tense."""

    about: str
    did: str


class Spread(NamedTuple):
    """Numbers summed up: how many, the lowest, the quarter below, the middle, the quarter above, the highest."""

    number: int
    low: float
    lower: float
    middle: float
    upper: float
    high: float


def newest(bags: Iterable[Bag]) -> list[Bag]:
    """One bag a player, the newest by its date; a bag without a player's name stands for itself.

    >>> [bag.name for bag in newest([Bag("a", "Ada", "2026-01-01"), Bag("b", "Ada", "2026-02-01"), Bag("c"), Bag("d")])]
    ['c', 'd', 'b']
    """
    found: dict[tuple[str, str], Bag] = {}
    for bag in sorted(bags, key=lambda bag: (bag.date, bag.name)):
        found[("", bag.name) if not bag.player else (bag.player.casefold(), "")] = bag
    return sorted(found.values(), key=lambda bag: (bag.date, bag.name))


def with_article(name: str) -> str:
    """A name of a thing with its indefinite article.

    >>> with_article("8 iron"), with_article("7 wood"), with_article("orange ball"), with_article("X flex")
    ('an 8 iron', 'a 7 wood', 'an orange ball', 'an X flex')
    """
    first = (name.split(maxsplit=1)[0] if name.split() else "").rstrip("°")
    lettered = len(first) == 1 and first in "AEFHILMNORSX"
    numbered = first.isdigit() and (first.startswith("8") or first in ("11", "18"))
    return f"{'an' if lettered or numbered or name[:1].casefold() in tuple('aeiou') else 'a'} {name}"


def where(kind: str) -> str:
    """Where in a bag a kind of club stands: `the driver`, `the irons`."""
    return f"the {_MANY.get(kind, kind)}"


def traits(bag: Bag) -> Iterator[Trait]:
    """Everything that can be said of a bag and compared with another, once each.

    >>> [trait.did for trait in traits(Bag("a", clubs=(Carried("7 wood", "fairway wood"),), colour="orange"))][:2]
    ['carried a 7 wood', 'carried one fairway wood']
    """
    found: dict[Trait, None] = {}

    def enter(about: str, did: str) -> None:
        found.setdefault(Trait(about, clean(did)))

    for club in bag.clubs:
        if club.kind not in _ONE_OF_A_KIND:
            enter("clubs carried", f"carried {with_article(club.club)}")
    kinds = Counter(club.kind for club in bag.clubs)
    for kind in _COUNTED if bag.clubs else ():
        many = kinds[kind]
        number = _NUMBERS[many] if many < len(_NUMBERS) else str(many)
        enter("clubs carried", f"carried {number} {kind if many == 1 else _MANY[kind]}")
    for club in bag.clubs:
        among = where(club.kind)
        if club.head:
            enter("heads", f"had the {club.head} {'as' if club.kind in _ONE_OF_A_KIND else 'among'} {among}")
        if club.shaft and club.kind != "putter":
            enter("shafts", f"had the {club.shaft} shaft in {among}")
        if club.flex and club.kind != "putter":
            enter("shafts", f"had {with_article(club.flex)} flex in {among}")
        if club.sole and club.kind == "wedge":
            enter("soles and grips", f"had a wedge with {with_article(club.sole.removesuffix(' sole'))} sole")
        if club.grip:
            enter("soles and grips", f"had the {club.grip} grip on {among}")
    if bag.ball:
        enter("ball", f"played the {bag.ball} ball")
    if bag.colour:
        enter("ball", f"played {with_article(bag.colour)} ball")
    yield from found


def spread(numbers: Sequence[float]) -> Spread:
    """Numbers summed up; quarters by linear interpolation, the lowest and highest counted in.

    >>> spread([9, 10, 10.5, 12])
    Spread(number=4, low=9, lower=9.75, middle=10.25, upper=10.875, high=12)
    """
    ordered = sorted(numbers)
    if len(ordered) == 1:
        return Spread(1, *(ordered * 5))
    lower, middle, upper = statistics.quantiles(ordered, n=4, method="inclusive")
    return Spread(len(ordered), ordered[0], lower, middle, upper, ordered[-1])


def chance(won: int, winners: int, having: int, everybody: int) -> float:
    """How likely so many of the winners, or more, would have something that `having` of `everybody` have, were the
    winners drawn by lot: the upper tail of the hypergeometric distribution (Fisher's exact test, one-sided).

    Fisher's own case: all four cups told apart of eight, four of them poured milk first, 1 in 70 (The Design of
    Experiments, 1935, chapter II; from memory).

    >>> round(1 / chance(4, 4, 4, 8))
    70
    """
    ways = sum(
        math.comb(having, number) * math.comb(everybody - having, winners - number)
        for number in range(won, min(having, winners) + 1)
    )
    return ways / math.comb(everybody, winners)


def sizes(bags: Iterable[Bag], club: str, field: str) -> list[float]:
    """Every known loft or length (`field`) of the clubs of one name."""
    values = (getattr(each, field) for bag in bags for each in bag.clubs if each.club == club)
    return [value for value in values if value is not None]
