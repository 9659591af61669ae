"""How far the work on kept orders is: every tick and every reading is kept at once, with who and when.

What is told is one step or one reading, never the whole state, so that two people at one order lose nothing of each
other's.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping.orders import CHECK, FIND_NAMES, ORDER, order_in, stored_order
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.versions import Addition, append, find
from asplayed.quantities import plain
from asplayed.workshop.gauges import read_lines
from asplayed.workshop.records import Check, Order, Progress, Reading, TakenReading, Tick

if TYPE_CHECKING:
    from asplayed.keeping.store import Store

PROGRESS = "progress"


class Underway(NamedTuple):
    """A kept order, how far it is, and its newest signed check."""

    order: Order
    progress: Progress
    checked: Check | None

    @property
    def steps(self) -> int:
        """How many steps there are to do; measuring is not ticked but read."""
        return sum(step.operation != "measure" for club in self.order.clubs for step in club.steps)

    @property
    def done(self) -> int:
        """How many of them are done."""
        return len(self.progress.ticks)


def _read(read: Read, name: str) -> Underway:
    order = order_in(read, name)
    try:
        progress = find(read, PROGRESS, name)
        checked = find(read, CHECK, name)
        return Underway(
            order,
            msgspec.json.decode(progress.content, type=Progress) if progress else Progress(order=name),
            msgspec.json.decode(checked.content, type=Check) if checked else None,
        )
    except msgspec.MsgspecError as fault:
        raise StoreUnusable(
            f"the store is damaged: what is kept of the order {name} cannot be read ({fault})"
        ) from None


def underway(name: str, where: Where = None) -> Underway:
    """One kept order and how far it is; a missing one is refused with the nearest names."""
    with reading(where) as read:
        return _read(read, name)


def all_underway(where: Where = None) -> tuple[Underway, ...]:
    """Every kept order, the newest first."""
    with reading(where) as read:
        return tuple(_read(read, row[0]) for row in reversed(read(FIND_NAMES, kind=ORDER)))


def tick(store: Store, name: str, club: str, step: int, *, who: str, done: bool = True) -> Progress:
    """Tick one step of an order, or take the tick back; what others ticked meanwhile stays."""
    order = stored_order(name, store.place)
    work = next((each for each in order.clubs if each.club == club), None)
    if work is None or not 1 <= step <= len(work.steps):
        raise BadInput(f"the order {name} has no step {step} of {club[:60]!r}; its clubs are " + _clubs(order))
    if work.steps[step - 1].operation == "measure":
        raise BadInput(f"step {step} of the {club} is a measurement: it is done by a reading")

    def told(progress: Progress) -> Progress:
        others = tuple(each for each in progress.ticks if (each.club, each.step) != (club, step))
        mine = (Tick(club=club, step=step, by=who, at=_now()),) if done else ()
        return msgspec.structs.replace(progress, ticks=(*others, *mine))

    return _tell(store, name, who, f"{'did' if done else 'took back'} step {step} of the {club}", told)


def take_reading(store: Store, name: str, line: str, *, who: str) -> Progress:
    """Keep a reading, a line such as `7 iron loft 33.5 deg`; a second one of the same figure replaces the first."""
    clubs = stored_order(name, store.place).outcome.clubs
    taken = read_lines(line, "the reading", clubs)
    if not taken:
        raise BadInput(f"{line[:80]!r} is no reading; write it as 7 iron loft 33.5 deg")
    about = {(each.club, each.figure) for each in taken}

    def told(progress: Progress) -> Progress:
        others = tuple(
            each
            for each in progress.readings
            if not about & {(one.club, one.figure) for one in read_lines(each.line, "a reading", clubs)}
        )
        mine = TakenReading(line=" ".join(line.split()), by=who, at=_now())
        return msgspec.structs.replace(progress, readings=(*others, mine))

    return _tell(store, name, who, f"read {' '.join(line.split())[:120]}", told)


def readings_of(found: Underway) -> tuple[Reading, ...]:
    """The readings taken so far, as `check` weighs them."""
    lines = "\n".join(each.line for each in found.progress.readings)
    return read_lines(lines, "the readings", found.order.outcome.clubs) if lines else ()


def _tell(store: Store, name: str, who: str, what: str, told: Callable[[Progress], Progress]) -> Progress:
    with store.acting("bench", who=who, why=f"order {name}: {what}") as action:
        newest = find(action.read, PROGRESS, name)
        before = msgspec.json.decode(newest.content, type=Progress) if newest else Progress(order=name)
        after = told(before)
        append(action, PROGRESS, [Addition(name, msgspec.json.encode(plain(after)).decode(), newest)])
    return after


def _clubs(order: Order) -> str:
    return ", ".join(each.club for each in order.clubs)


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")
