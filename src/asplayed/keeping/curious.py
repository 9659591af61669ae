"""Read-only SQL for the curious: one question, bounded in time and rows, that can change nothing and open nothing."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.keeping.places import SCHEMA, connect, find_place, schema_of

ALLOWED = frozenset({sqlite3.SQLITE_SELECT, sqlite3.SQLITE_READ, sqlite3.SQLITE_FUNCTION, sqlite3.SQLITE_RECURSIVE})
MOST_ROWS = 10_000
LONGEST = 10.0
"""How long a question may take [s]."""


class Answer(NamedTuple):
    """The columns and rows of an answer; `cut` when there were more rows than are shown."""

    columns: tuple[str, ...]
    rows: tuple[tuple[object, ...], ...]
    cut: bool


def ask(question: str, where: str | Path | None = None, *, most: int = MOST_ROWS, longest: float = LONGEST) -> Answer:
    """Ask a store one question in SQL. Only SELECT is taken; what takes too long is ended."""
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        raise BadInput(f"there is no store {place} to ask yet")
    if schema != SCHEMA:
        raise BadInput(f"the store {place} has the older schema {schema}; asplayed keep list migrates it")
    end = time.monotonic() + longest
    with closing(connect(place)) as connection:
        connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, 16_000_000)
        connection.set_authorizer(lambda action, *_: sqlite3.SQLITE_OK if action in ALLOWED else sqlite3.SQLITE_DENY)
        connection.set_progress_handler(lambda: int(time.monotonic() > end), 10_000)
        try:
            answered = connection.execute(question)
            rows = answered.fetchmany(most + 1)
        except (sqlite3.Error, sqlite3.Warning, ValueError, UnicodeError, MemoryError) as fault:
            if "interrupted" in str(fault):
                raise BadInput(f"the question took longer than {longest:g} s and was ended; ask for less") from None
            if "not authorized" in str(fault) or "prohibited" in str(fault):
                raise BadInput("only SELECT is taken here: a question that changes nothing") from None
            raise BadInput(f"the question could not be answered: {fault}") from None
        columns = tuple(column[0] for column in answered.description or ())
    return Answer(columns, tuple(rows[:most]), len(rows) > most)
