"""A day at the bench: several orders as one cut list, one parts list, blanks shared between clubs, cost and time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from asplayed.clubs.records import Record
from asplayed.errors import BadInput
from asplayed.workshop.bench import entry
from asplayed.workshop.records import ClubOrder, Order
from asplayed.workshop.stock import StockLine, key

KERF = 0.125  # inches that a saw takes with each cut


class Cut(Record, frozen=True, kw_only=True):
    """One shaft to cut: for which club of which order, and what comes off it [in]."""

    order: str
    club: str
    shaft: str
    raw: float
    tip: float
    butt: float
    left: float


class DayPart(Record, frozen=True, kw_only=True):
    """A part that the day takes: how many, how many are free in stock (or reserved for it), how many are missing."""

    part: str
    name: str
    needed: int
    free: int
    short: int
    cost: float | None = None


class Blank(Record, frozen=True, kw_only=True):
    """One blank cut into the shafts of several clubs: its length, the clubs with what each takes, what is left [in]."""

    shaft: str
    length: float
    clubs: tuple[tuple[str, str, float], ...]
    waste: float


class Cost(Record, frozen=True, kw_only=True):
    """What one order costs: minutes of hand work, hours the resin cures, the parts (None: no price known), the work."""

    order: str
    minutes: float
    cure_hours: float
    parts: float | None
    work: float


class Day(Record, frozen=True, kw_only=True):
    """The plan of a day: cuts in the order of the saw, parts, shared blanks, and each order's cost and time."""

    cuts: tuple[Cut, ...] = ()
    parts: tuple[DayPart, ...] = ()
    blanks: tuple[Blank, ...] = ()
    costs: tuple[Cost, ...] = ()

    @property
    def minutes(self) -> float:
        """Minutes of hand work over all orders."""
        return sum(cost.minutes for cost in self.costs)


def plan_day(
    orders: Sequence[Order], stock: Mapping[str, StockLine] | None = None, *, hour: float | None = None
) -> Day:
    """The plan of several orders; `stock` is by key, `hour` what an hour of work costs.

    Cuts are told shaft by shaft, longest first, so that the saw is set as seldom as can be. Shafts of one section
    throughout (tubes in stock) are nested: each blank serves as many clubs as it is long enough for.
    """
    if not orders:
        raise BadInput("no order is named for the day; name at least one")
    twice = {order.order for order in orders if sum(other.order == order.order for other in orders) > 1}
    if twice:
        raise BadInput(f"{', '.join(sorted(twice))} is named twice for one day; name each order once")
    lines = stock or {}
    cuts = sorted(
        (cut for order in orders for cut in _cuts(order)), key=lambda cut: (cut.shaft.casefold(), -cut.left, cut.order)
    )
    blanks = nested(cuts, lines)
    rate = entry("work", "hour") if hour is None else hour
    return Day(
        cuts=tuple(cuts),
        parts=_parts(orders, lines, blanks),
        blanks=blanks,
        costs=tuple(_cost(order, lines, rate) for order in orders),
    )


def _cuts(order: Order) -> list[Cut]:
    shafts = {club: part.name for part in order.parts if part.part == "shaft" for club in part.clubs}
    found = []
    for club in order.clubs:
        butt = next((step for step in club.steps if step.operation == "butt cut"), None)
        if club.club not in shafts or butt is None or butt.start is None or butt.target is None:
            continue
        tip = sum(step.target.number for step in club.steps if step.operation == "tip trim" and step.target is not None)
        raw, off = butt.start.in_unit("in").number, butt.target.in_unit("in").number
        found.append(
            Cut(
                order=order.order,
                club=club.club,
                shaft=shafts[club.club],
                raw=raw,
                tip=tip,
                butt=off,
                left=round(raw - tip - off, 4),
            )
        )
    return found


def nested(cuts: Sequence[Cut], stock: Mapping[str, StockLine]) -> tuple[Blank, ...]:
    """The blanks of one section throughout, each cut into as many shafts as it is long enough for, the saw's way off.

    The longest shaft goes into the first blank with room for it: that never takes more than 11/9 of the fewest
    blanks and four more (Johnson 1973, from memory). A tapered or stepped shaft serves one club and is not nested.
    """
    found: list[Blank] = []
    for shaft in dict.fromkeys(cut.shaft for cut in cuts):
        line = stock.get(key("shaft", shaft))
        if line is None or not line.tube or line.length is None:
            continue
        whole = line.length.number
        blanks: list[list[Cut]] = []
        room: list[float] = []
        for cut in sorted((cut for cut in cuts if cut.shaft == shaft), key=lambda cut: -cut.left):
            if cut.left > whole + 1e-9:
                raise BadInput(
                    f"the {cut.club} of {cut.order} needs {cut.left:g} in of {shaft}; its blank is {whole:g} in long"
                )
            place = next((place for place, left in enumerate(room) if left >= cut.left + KERF - 1e-9), None)
            if place is None:
                blanks.append([cut])
                room.append(whole - cut.left)
            else:
                blanks[place].append(cut)
                room[place] -= cut.left + KERF
        found += [
            Blank(
                shaft=shaft,
                length=whole,
                clubs=tuple((cut.order, cut.club, cut.left) for cut in mine),
                waste=round(left, 4),
            )
            for mine, left in zip(blanks, room, strict=True)
        ]
    return tuple(found)


def _parts(orders: Sequence[Order], stock: Mapping[str, StockLine], blanks: Sequence[Blank]) -> tuple[DayPart, ...]:
    wanted: dict[str, tuple[str, str, int]] = {}
    for order in orders:
        for one in order.parts:
            name = key(one.part, one.name)
            wanted[name] = (one.part, one.name, wanted.get(name, ("", "", 0))[2] + one.count)
    today = {order.order for order in orders}
    shared = dict.fromkeys((key("shaft", blank.shaft) for blank in blanks), 0)
    for blank in blanks:
        shared[key("shaft", blank.shaft)] += 1
    found = []
    for name, (part, called, count) in wanted.items():
        needed = shared.get(name, count)
        line = stock.get(name)
        ours = 0 if line is None else sum(number for order, number in line.reserved.items() if order in today)
        free = 0 if line is None else line.free + ours
        cost = None if line is None or line.price is None else round(line.price * needed, 2)
        found.append(DayPart(part=part, name=called, needed=needed, free=free, short=max(0, needed - free), cost=cost))
    return tuple(found)


def minutes_of(club: ClubOrder) -> float:
    """Minutes of hand work on one club, the resin's cure aside."""
    return sum(float(entry("operation", step.operation, "minutes")) for step in club.steps)


def _cost(order: Order, stock: Mapping[str, StockLine], hour: float) -> Cost:
    minutes = sum(minutes_of(club) for club in order.clubs)
    cures = [
        step.target.number for club in order.clubs for step in club.steps if step.operation == "cure" and step.target
    ]
    prices = []
    for part in order.parts:
        line = stock.get(key(part.part, part.name))
        prices.append(None if line is None or line.price is None else line.price * part.count)
    known = [price for price in prices if price is not None]
    return Cost(
        order=order.order,
        minutes=minutes,
        cure_hours=max(cures, default=0.0) / 3600,
        parts=round(sum(known), 2) if len(known) == len(prices) else None,
        work=round(minutes / 60 * hour, 2),
    )
