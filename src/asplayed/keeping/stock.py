"""Stock kept part by part: every movement a version of its line, with who, when and for which order."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

import msgspec

from asplayed.errors import StoreUnusable
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.versions import Addition, append, find_all
from asplayed.quantities import plain
from asplayed.workshop.stock import StockLine

if TYPE_CHECKING:
    from asplayed.keeping.store import Store

KIND = "stock"

Movement = Callable[[Mapping[str, StockLine]], Mapping[str, StockLine]]


def move(store: Store, movement: Movement, *, what: str, who: str, why: str | None = None) -> dict[str, StockLine]:
    """Let a movement make the lines anew, and keep those that it changed; what was read cannot change meanwhile."""
    with store.acting(what, who=who, why=why) as action:
        standing = find_all(action.read, KIND)
        before = _lines(action.read)
        after = movement(before)
        additions = [
            Addition(name, msgspec.json.encode(plain(line)).decode(), standing.get(name))
            for name, line in after.items()
            if before.get(name) != line
        ]
        append(action, KIND, additions)
    return dict(after)


def stored_stock(where: Where = None) -> dict[str, StockLine]:
    """Every line of the stock by its key."""
    with reading(where) as read:
        return _lines(read)


def _lines(read: Read) -> dict[str, StockLine]:
    try:
        return {
            name: msgspec.json.decode(version.content, type=StockLine)
            for name, version in find_all(read, KIND).items()
            if not version.hidden
        }
    except msgspec.MsgspecError as fault:
        raise StoreUnusable(f"the store is damaged: a line of the stock cannot be read ({fault})") from None
