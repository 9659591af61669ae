"""Reading the store: every question is plain SQL in named parameters, asked the same way of any engine.

Reading goes straight to SQLite where that is what the store is: bringing in SQLAlchemy takes half a second, more
than all the rest of `asplayed show`. Writing goes through SQLAlchemy (`store.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from asplayed.keeping.places import SCHEMA, connect, find_place, schema_of, told_plainly

Read = Callable[..., Sequence[Any]]
"""Asks one question: SQL with `:named` parameters, and their values; answers the rows as tuples."""


@contextmanager
def reading(where: str | Path | None) -> Iterator[Read]:
    """A way to ask the store questions; where there is no store yet, every answer is empty.

    A store of an older schema is migrated first.
    """
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        yield no_answer
        return
    if schema != SCHEMA:
        from asplayed.keeping.store import open_store

        open_store(where).close()
    with told_plainly(place), closing(connect(place)) as connection:
        connection.execute("BEGIN")  # one look: what is read together belongs together
        yield lambda question, **values: connection.execute(question, values).fetchall()


def no_answer(_question: str, **_values: Any) -> Sequence[Any]:
    """What a store that has not been made yet answers to every question."""
    return ()
