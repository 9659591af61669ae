"""Orders and their checks kept by name: an order never changes; every check of it that was signed is a version."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from asplayed.errors import BadInput, Missing
from asplayed.keeping import sets
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.sets import proper_name
from asplayed.keeping.versions import Addition, append, find
from asplayed.quantities import plain
from asplayed.workshop.records import Check, Order

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.keeping.store import Store

ORDER = "order"
CHECK = "check"

FIND_NAMES = """
SELECT r.name FROM records AS r WHERE r.kind = :kind AND r.hidden = 0 ORDER BY r.id
"""


class OrderSaved(NamedTuple):
    """What keeping an order did: its name, and whether it was not there before."""

    name: str
    new: bool


def save_order(store: Store, order: Order, *, who: str) -> OrderSaved:
    """Keep an order under its own name; the same order again changes nothing."""
    name = proper_name(order.order)
    with store.acting("order", who=who) as action:
        newest = find(action.read, ORDER, name)
        if newest is not None and not newest.hidden:
            return OrderSaved(name, False)
        append(action, ORDER, [Addition(name, msgspec.json.encode(plain(order)).decode(), newest)])
    return OrderSaved(name, True)


def stored_order(name: str, where: Where = None) -> Order:
    """The order kept under a name; a missing one is refused with the nearest names."""
    with reading(where) as read:
        return order_in(read, name)


def order_in(read: Read, name: str) -> Order:
    """The order kept under a name in a store that is being read."""
    name = proper_name(name)
    found = find(read, ORDER, name)
    if found is None or found.hidden:
        raise Missing(_missing(read, name))
    return decode_order(found.content, f"the order {name}")


def decode_order(content: str | bytes, called: str) -> Order:
    """The order in the JSON that `order --json` writes."""
    try:
        return msgspec.json.decode(content, type=Order)
    except msgspec.ValidationError as fault:
        raise BadInput(f"{called} is JSON, but not an order's: {fault}; give what order --json wrote") from None
    except (msgspec.DecodeError, RecursionError) as fault:
        raise BadInput(f"{called} cannot be read as an order ({fault}); give what order --json wrote") from None


def save_signed(store: Store, order: Order, checked: Check, outcome: GolfSet, *, who: str) -> sets.Saved | None:
    """Keep a signed check and, where the order came from a stored set, that set as it was built and measured.

    Both happen in one action. An order that is signed already, and a set that has moved on since the order was written
    (`Stale`), are refused.
    """
    content = msgspec.json.encode(plain(checked)).decode()
    with store.acting("sign-off", who=who, why=f"order {order.order}") as action:
        newest = find(action.read, CHECK, order.order)
        if newest is not None:
            before = msgspec.json.decode(newest.content, type=Check)
            raise BadInput(
                f"this order is signed already: {order.order}, by {before.signed_by} at {before.signed_at}; "
                "nothing was stored. Work done since is a new order (asplayed order)"
            )
        append(action, CHECK, [Addition(order.order, content, newest)])
        if order.set_name is None:
            return None
        words = sets.load(action.read, order.set_name, order.set_version).original
        return sets.save(action, order.set_name, outcome, words, order.set_version)


def _missing(read: Read, name: str) -> str:
    known = [row[0] for row in read(FIND_NAMES, kind=ORDER)]
    if not known:
        return f"there is no order {name!r}, and no file of that name: none is kept yet (asplayed order SET)"
    near = difflib.get_close_matches(name.casefold(), [entry.casefold() for entry in known], n=3)
    hint = f"did you mean {' or '.join(near)}?" if near else f"stored are {', '.join(known[-5:])}"
    return f"there is no order {name!r}, and no file of that name; {hint}"
