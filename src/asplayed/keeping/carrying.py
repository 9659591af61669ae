"""Carrying a whole store over to another place, row by row, whichever engine either has.

Every table is carried that is not told from the others; those are told anew at the other end. Nobody stays signed in.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from asplayed.errors import StoreUnusable
from asplayed.keeping import chain, facts, proving
from asplayed.keeping.places import SCHEMA, Place, Read, looking

if TYPE_CHECKING:
    import sqlalchemy

    from asplayed.keeping.store import Action

AT_A_TIME = 200

COLUMNS = {
    "sqlite": "SELECT name FROM pragma_table_info(:table)",
    "postgresql": "SELECT CAST(attname AS text) FROM pg_attribute WHERE attrelid = to_regclass(:table) "
    "AND attnum > 0 AND NOT attisdropped",
}


class Contents(NamedTuple):
    """By what two stores are told apart: the end of the chain, and the number of rows that nothing else tells."""

    head: str
    rows: tuple[int, ...]


def contents(read: Read, schema: str) -> Contents:
    """What a store of that schema holds; one without a chain is told by its schema."""
    head = chain.head(read)[1] if schema >= proving.CHAINED else f"schema{schema}"
    tables = ["actions", "records", "versions", "originals", "imports"]
    if schema >= proving.SERVED:
        tables += ["web_accounts", "web_trail"]
    return Contents(head, tuple(read(f"SELECT COUNT(*) FROM {table}")[0][0] for table in tables))


def carry(source: Place, action: Action) -> None:
    """Put everything that `source` holds into the new store that the action writes, and prove it there."""
    from asplayed.keeping import schema

    with looking(source) as read:
        wanted = contents(read, SCHEMA)
        for table in schema.metadata.sorted_tables:
            if table.name not in facts.TOLD and table is not schema.sessions:
                for batch in rows(read, table):
                    action.connection.execute(table.insert(), batch)
    facts.tell_all(action)
    faults = list(proving.found(action.read, Counter(), schema=SCHEMA, figures=False, head=None))
    if contents(action.read, SCHEMA) != wanted:
        faults.append("it does not hold the same actions")
    if faults:
        raise StoreUnusable(f"what was carried over from {source} is not whole, and was not kept: {faults[0]}")


def rows(read: Read, table: sqlalchemy.Table) -> Iterator[list[dict[str, Any]]]:
    """All rows of a table in the order of their keys, some at a time; none where an older store has no such table."""
    there = {row[0] for row in read(COLUMNS[read.engine], table=table.name)}
    names = [column.name for column in table.columns if column.name in there]
    keys = [column.name for column in table.primary_key]
    if not names:
        return
    ask = f"SELECT {', '.join(names)} FROM {table.name} {{}} ORDER BY {', '.join(keys)} LIMIT {AT_A_TIME}"
    after = f"WHERE ({', '.join(keys)}) > ({', '.join(f':{key}' for key in keys)})"
    found = read(ask.format(""))
    while found:
        batch = [dict(zip(names, row, strict=True)) for row in found]
        yield batch
        found = read(ask.format(after), **{key: batch[-1][key] for key in keys})
