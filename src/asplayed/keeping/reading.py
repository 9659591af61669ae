"""Reading the store: every question is plain SQL in named parameters, asked the same way of either engine.

Reading goes straight to the engine: bringing in SQLAlchemy takes half a second, more than all the rest of
`asplayed show`. Writing goes through SQLAlchemy (`store.py`).
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

from asplayed.keeping.places import SCHEMA, Read, Where, find_place, looking, schema_of

__all__ = ["NOTHING", "Read", "in_bulk", "reading"]

NOTHING = Read("", lambda _question, _values: ())
"""What a store that has not been made yet answers to every question."""


@contextmanager
def reading(where: Where) -> Iterator[Read]:
    """A way to ask the store questions; where there is no store yet, every answer is empty.

    What is asked together is answered of one moment. A store of an older schema is migrated first.
    """
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        yield NOTHING
        return
    if schema != SCHEMA:
        from asplayed.keeping.store import open_store

        open_store(place).close()
    with looking(place) as read:
        yield read


@contextmanager
def in_bulk() -> Iterator[None]:
    """While very many rows are taken in: without the collector, which would look at all of them again and again."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()
