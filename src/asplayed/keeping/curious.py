"""Read-only SQL for the curious: one question, bounded in time and rows, that can change nothing and open nothing."""

from __future__ import annotations

import re
import sqlite3
import time
from contextlib import closing
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.keeping import files
from asplayed.keeping.places import ACCOUNTS, SCHEMA, Server, Where, find_place, schema_of

ALLOWED = frozenset({sqlite3.SQLITE_SELECT, sqlite3.SQLITE_READ, sqlite3.SQLITE_FUNCTION, sqlite3.SQLITE_RECURSIVE})
MOST_ROWS = 10_000
LONGEST = 10.0
"""How long a question may take [s]."""


class Answer(NamedTuple):
    """The columns and rows of an answer; `cut` when there were more rows than are shown."""

    columns: tuple[str, ...]
    rows: tuple[tuple[object, ...], ...]
    cut: bool


def ask(question: str, where: Where = None, *, most: int = MOST_ROWS, longest: float = LONGEST) -> Answer:
    """Ask a store one question in SQL. Only SELECT is taken; what takes too long is ended."""
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        raise BadInput(f"there is no store {place} to ask yet")
    if schema != SCHEMA:
        raise BadInput(f"the store {place} has the older schema {schema}; asplayed keep list migrates it")
    if isinstance(place, Path):
        columns, rows = ask_file(place, question, most + 1, longest)
    else:
        columns, rows = ask_server(place, question, most + 1, longest)
    return Answer(columns, tuple(rows[:most]), len(rows) > most)


Answered = tuple[tuple[str, ...], list[tuple[object, ...]]]


def ask_file(place: Path, question: str, most: int, longest: float) -> Answered:
    """Ask SQLite, which is allowed to look and nothing else."""
    end = time.monotonic() + longest
    with closing(files.connect(place)) as connection:
        connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, 16_000_000)
        connection.set_authorizer(allowed)
        connection.set_progress_handler(lambda: int(time.monotonic() > end), 10_000)
        try:
            answered = connection.execute(question)
            rows = answered.fetchmany(most)
        except (sqlite3.Error, sqlite3.Warning, ValueError, UnicodeError, MemoryError) as fault:
            if "interrupted" in str(fault):
                raise BadInput(TOOK_LONGER.format(longest)) from None
            if "not authorized" in str(fault) or "prohibited" in str(fault):
                raise BadInput(ONLY_SELECT) from None
            raise BadInput(f"the question could not be answered: {fault}") from None
        return tuple(column[0] for column in answered.description or ()), rows


def allowed(action: int, name: str | None, *_: str | None) -> int:
    """Whether SQLite may do this: look, but not at the accounts."""
    secret = action == sqlite3.SQLITE_READ and (name or "").lower() in ACCOUNTS
    return sqlite3.SQLITE_OK if action in ALLOWED and not secret else sqlite3.SQLITE_DENY


TOOK_LONGER = "the question took longer than {:g} s and was ended; ask for less"
ONLY_SELECT = "only SELECT is taken here: a question that changes nothing, and looks into no account"

OWN_BUSINESS = re.compile(
    r"U&\s*[\"']|\b\"?(pg_|lo_|dblink|set_config|query_to|table_to|schema_to|database_to|cursor_to)\w*\"?\s*\(",
    re.IGNORECASE,
)
"""Functions of the server by which a SELECT does more than look, such as ending what others ask."""

OF_ACCOUNTS = re.compile("|".join(ACCOUNTS), re.IGNORECASE)
"""The accounts' tables: no function that is left lets a SELECT name a table other than by its very letters."""

ALMIGHTY = """
SELECT rolsuper OR pg_has_role('pg_read_server_files', 'MEMBER') OR pg_has_role('pg_execute_server_program', 'MEMBER')
FROM pg_roles WHERE rolname = current_user
"""


def ask_server(place: Server, question: str, most: int, longest: float) -> Answered:
    """Ask PostgreSQL, in a transaction that changes nothing, by a cursor, which takes nothing but one SELECT.

    A user who could read the server's files is not let, as a SELECT could do it.
    """
    import psycopg

    from asplayed.keeping import servers

    if OF_ACCOUNTS.search(question):
        raise BadInput(ONLY_SELECT)
    if OWN_BUSINESS.search(question):
        raise BadInput(f"{ONLY_SELECT}, and calls no function of the server's own business")
    with servers.told_plainly(place), closing(servers.connect(place)) as connection:
        if connection.execute(ALMIGHTY).fetchone() == (True,):
            raise BadInput(
                f"the user of {place} may read the server's own files, and so could any question: "
                "ask as a user with fewer rights"
            )
        connection.execute(servers.READABLE)
        connection.execute(f"SET LOCAL statement_timeout TO {int(longest * 1000)}".encode())
        try:
            # Prepared, so that the server takes one statement and no more.
            connection.execute(b"DECLARE answer NO SCROLL CURSOR FOR " + question.encode(), prepare=True)
            answered = connection.execute(f"FETCH {most} FROM answer".encode())
            rows = answered.fetchall()
        except psycopg.errors.QueryCanceled:
            raise BadInput(TOOK_LONGER.format(longest)) from None
        except psycopg.errors.ReadOnlySqlTransaction:
            raise BadInput(ONLY_SELECT) from None
        except psycopg.errors.SyntaxError as fault:
            raise BadInput(f"{ONLY_SELECT} ({str(fault).splitlines()[0]})") from None
        except (psycopg.Error, ValueError, UnicodeError, MemoryError) as fault:
            said = (str(fault) or type(fault).__name__).splitlines()[0]
            raise BadInput(f"the question could not be answered: {said}") from None
        columns = tuple(column.name for column in answered.description or ())
    return columns, [tuple(map(simple, row)) for row in rows]


def simple(value: object) -> object:
    """A cell as a text, a number or bytes, whatever type the server gives it."""
    if value is None or isinstance(value, str | int | float | bytes):
        return value
    return float(value) if isinstance(value, Decimal) else str(value)
