"""A store in a schema of its own of a PostgreSQL database, for a shop with several benches.

Reading goes straight through psycopg, writing through SQLAlchemy over the same driver. Everything runs with nothing
but the store's own schema to look names up in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import psycopg
from psycopg import sql

from asplayed.errors import StoreUnusable
from asplayed.keeping.places import PATIENCE, VERSION_TABLE, Read, Server, newer

if TYPE_CHECKING:
    import sqlalchemy

DURABLE = {"fsync": "on", "full_page_writes": "on", "synchronous_commit": "on", "server_encoding": "UTF8"}
"""What the server must be set to. https://www.postgresql.org/docs/15/runtime-config-wal.html"""

OLDEST = 130000
"""The oldest server that is taken: PostgreSQL 13."""

APPEND_ONLY = ("actions", "imports", "links", "originals", "versions")
"""The tables whose rows a trigger keeps from being changed or taken away, but for a lawful erasure."""

READABLE = "BEGIN ISOLATION LEVEL REPEATABLE READ, READ ONLY"


def connect(place: Server) -> psycopg.Connection[tuple[Any, ...]]:
    """A connection to the database, with the store's schema and nothing else in sight."""
    connection = psycopg.connect(
        place.url, autocommit=True, connect_timeout=int(PATIENCE), application_name="asplayed", client_encoding="UTF8"
    )
    connection.execute(sql.SQL("SET search_path TO {}").format(sql.Identifier(place.schema)))
    return connection


@contextmanager
def told_plainly(place: Server) -> Iterator[None]:
    """Turn what the server says inside into one sentence about the store at `place`."""
    try:
        yield
    except (psycopg.Error, UnicodeError) as fault:
        raise StoreUnusable(explain(place, fault)) from fault


BUSY = "the store {} is being written by somebody else; nothing was stored: try again in a moment"

SENTENCES = (
    (psycopg.errors.LockNotAvailable, BUSY),
    (psycopg.errors.QueryCanceled, "the store {} took too long to answer; nothing was stored: try again in a moment"),
    (psycopg.errors.ReadOnlySqlTransaction, "the store {} can be read but not written: its server takes no changes"),
    (psycopg.errors.InsufficientPrivilege, "the store {} can be read but not written: its user lacks the right to"),
    (psycopg.errors.DiskFull, "the disk is full: nothing was stored in {}; make room on the server and try again"),
    (psycopg.errors.DataCorrupted, "the store {} is damaged: bring it back from a backup; nothing was changed in it"),
    (psycopg.errors.IndexCorrupted, "the store {} is damaged: bring it back from a backup; nothing was changed in it"),
    (psycopg.errors.UndefinedTable, "the store {} is damaged: a table is missing; bring it back from a backup"),
    (psycopg.errors.InvalidPassword, "the server of {} does not take this user or password; check the address"),
)  # fmt: skip


def explain(place: Server, fault: BaseException) -> str:
    """One sentence for a fault of the store: what happened and what to do next. No password is ever in it."""
    for kind, sentence in SENTENCES:
        if isinstance(fault, kind):
            return sentence.format(place)
    said = str(fault).strip().splitlines()[0] if str(fault).strip() else type(fault).__name__
    if "NUL" in said:
        return f"{place} cannot keep a text with a NUL character in it, as PostgreSQL has none; nothing was stored"
    if isinstance(fault, psycopg.OperationalError) and getattr(fault, "sqlstate", None) is None:
        said = re.sub(r"password=\S+", "password=…", said)
        return f"the server of {place} does not answer ({said}); nothing was stored: check the address and the server"
    return f"the store {place} cannot be used: {said}; nothing was stored"


FOUND = """
SELECT c.relname, c.relkind, c.relrowsecurity OR (c.relhasrules AND c.relkind <> 'v') FROM pg_class AS c
JOIN pg_namespace AS n ON n.oid = c.relnamespace WHERE n.nspname = %s AND c.relkind NOT IN ('i', 'S', 't')
"""

TRIGGERS = """
SELECT t.tgname FROM pg_trigger AS t JOIN pg_class AS c ON c.oid = t.tgrelid
JOIN pg_namespace AS n ON n.oid = c.relnamespace WHERE n.nspname = %s AND NOT t.tgisinternal
"""


def schema_of(place: Server) -> str | None:
    """The number of the schema found at `place`; None where no store has been made yet."""
    with told_plainly(place), closing(connect(place)) as connection:
        made = connection.execute(FOUND, [place.schema]).fetchall()
        if not made:
            return None
        triggers = {row[0] for row in connection.execute(TRIGGERS, [place.schema])}
        if any(kind != "r" or strange for _, kind, strange in made) or triggers - {"append_only", "never_emptied"}:
            raise StoreUnusable(
                f"{place} has views, rules or triggers, as no store of asplayed has; nothing was changed"
            )
        if VERSION_TABLE not in {name for name, _, _ in made}:
            raise StoreUnusable(f"{place} holds something else than an asplayed store; nothing was changed in it")
        found = connection.execute(
            sql.SQL("SELECT version_num FROM {}").format(sql.Identifier(VERSION_TABLE))
        ).fetchone()
    if found is None:
        raise StoreUnusable(f"the store {place} is damaged: it does not say which schema it has; nothing was changed")
    return newer(place, str(found[0]))


def can_write(place: Server) -> bool:
    """True when the server takes changes and this user may make them."""
    with told_plainly(place), closing(connect(place)) as connection:
        [(still, makes, writes)] = connection.execute(
            "SELECT pg_is_in_recovery() OR current_setting('default_transaction_read_only') = 'on', "
            "has_database_privilege(current_database(), 'CREATE'), "
            "has_table_privilege(to_regclass('actions'), 'INSERT')"
        ).fetchall()
    return not still and bool(makes if writes is None else writes)


@lru_cache(maxsize=1000)
def in_psycopg(question: str) -> str:
    """A question with `:named` parameters, as psycopg takes it.

    >>> in_psycopg("SELECT ':', name FROM sets WHERE name LIKE :like || '%'")
    "SELECT ':', name FROM sets WHERE name LIKE %(like)s || '%%'"
    """
    return re.sub(r"(?<![:\w]):([a-z_]\w*)", r"%(\1)s", question.replace("%", "%%"))


@contextmanager
def looking(place: Server) -> Iterator[Read]:
    """A way to ask questions of one moment of the store."""
    with told_plainly(place), closing(connect(place)) as connection:
        connection.execute(READABLE)

        def ask(question: str, values: Mapping[str, Any]) -> Sequence[Any]:
            return connection.execute(in_psycopg(question).encode(), values or None).fetchall()

        yield Read("postgresql", ask)


def make_engine(place: Server, *, writing: bool) -> sqlalchemy.Engine:
    """The way SQLAlchemy opens the database; every connection is found to be durable."""
    import sqlalchemy

    def open_one() -> psycopg.Connection[tuple[Any, ...]]:
        with told_plainly(place):
            connection = connect(place)
            connection.execute("SET synchronous_commit TO on")
            rows = connection.execute("SELECT name, setting FROM pg_settings WHERE name = ANY(%s)", [list(DURABLE)])
            found = dict(rows.fetchall())
            if connection.info.server_version < OLDEST:
                found["server_encoding"] = f"that of version {connection.info.server_version // 10000}"
            for name, value in DURABLE.items():
                if writing and found[name] != value:
                    connection.close()
                    raise StoreUnusable(
                        f"the store {place} cannot be kept safe on this server ({name} is {found[name]}, not {value}); "
                        "let its keeper set it"
                    )
            connection.autocommit = False
            return connection

    return sqlalchemy.create_engine(
        "postgresql+psycopg://", creator=open_one, poolclass=sqlalchemy.pool.QueuePool, pool_pre_ping=True
    )


def begin(connection: sqlalchemy.Connection, *, writing: bool) -> None:
    """Begin a transaction: one that reads sees one moment, one that writes is the only one that does until it ends."""
    if writing:
        connection.exec_driver_sql(f"SET LOCAL lock_timeout TO '{PATIENCE:g}s'")
        connection.exec_driver_sql("LOCK TABLE actions IN EXCLUSIVE MODE")
    else:
        connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")


def set_aside(connection: sqlalchemy.Connection, place: Server, aside: Server) -> bool:
    """Keep what stands at `place` as `aside`, and leave an empty schema there; False where nothing stood."""
    held = "SELECT 1 FROM pg_class AS c JOIN pg_namespace AS n ON n.oid = c.relnamespace WHERE n.nspname = %s LIMIT 1"
    stood = connection.exec_driver_sql(held, (place.schema,)).first() is not None
    if stood:
        connection.exec_driver_sql(f'ALTER SCHEMA "{place.schema}" RENAME TO "{aside.schema}"')
        connection.exec_driver_sql(f'CREATE SCHEMA "{place.schema}"')
    return stood


def begin_making(connection: sqlalchemy.Connection, place: Server) -> None:
    """Begin the transaction in which the schema is made or migrated, alone with it."""
    connection.exec_driver_sql(f"SET LOCAL lock_timeout TO '{PATIENCE:g}s'")
    connection.exec_driver_sql("SELECT pg_advisory_xact_lock(hashtext(%s))", (f"asplayed {place.schema}",))
    connection.exec_driver_sql(f'CREATE SCHEMA IF NOT EXISTS "{place.schema}"')
    if connection.exec_driver_sql("SELECT to_regclass('actions')").scalar() is not None:
        connection.exec_driver_sql("LOCK TABLE actions IN ACCESS EXCLUSIVE MODE")


def end_remaking(connection: sqlalchemy.Connection) -> None:
    """Let new rows be numbered after those that were put in under numbers of their own."""
    for table in ("actions", "records", "web_accounts", "web_trail"):
        connection.exec_driver_sql(
            f"SELECT setval(pg_get_serial_sequence('{table}', 'id'), GREATEST(MAX(id), 1), MAX(id) IS NOT NULL) "
            f"FROM {table}"
        )


def write_anew(engine: sqlalchemy.Engine) -> None:
    """Write the tables anew without the rows that were replaced: what was erased stands nowhere in them."""
    with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        for table in (*APPEND_ONLY, "records", "sets", "clubs", "tallies", "search", "parts"):
            connection.exec_driver_sql(f"VACUUM (FULL, ANALYZE) {table}")


def remove(place: Server) -> None:
    """Take away the schema of a store that was only just made, and holds nothing."""
    with told_plainly(place), closing(connect(place)) as connection, connection.transaction():
        if connection.execute("SELECT to_regclass('actions')").fetchone() != (None,):
            connection.execute("LOCK TABLE actions IN ACCESS EXCLUSIVE MODE")
            if connection.execute("SELECT 1 FROM actions LIMIT 1").fetchone():
                return
        connection.execute(sql.SQL("DROP SCHEMA IF EXISTS {} CASCADE").format(sql.Identifier(place.schema)))


KEYS = """
SELECT c.conname, c.conrelid::regclass::text, c.confrelid::regclass::text, c.convalidated,
    (SELECT a.attname FROM pg_attribute AS a WHERE a.attrelid = c.conrelid AND a.attnum = c.conkey[1]),
    (SELECT a.attname FROM pg_attribute AS a WHERE a.attrelid = c.confrelid AND a.attnum = c.confkey[1])
FROM pg_constraint AS c JOIN pg_namespace AS n ON n.oid = c.connamespace
WHERE n.nspname = current_schema() AND c.contype = 'f' ORDER BY c.conname
"""

DOUBTFUL = """
SELECT 'the index ' || c.relname || ' is not valid' FROM pg_index AS i JOIN pg_class AS c ON c.oid = i.indexrelid
JOIN pg_namespace AS n ON n.oid = c.relnamespace WHERE n.nspname = current_schema() AND NOT i.indisvalid
UNION ALL SELECT 'a key of ' || c.conrelid::regclass::text || ' was not checked' FROM pg_constraint AS c
JOIN pg_namespace AS n ON n.oid = c.connamespace WHERE n.nspname = current_schema() AND NOT c.convalidated
UNION ALL SELECT 'the past of ' || wanted.name || ' may be altered: its trigger is gone or off'
FROM unnest(ARRAY['actions', 'imports', 'links', 'originals', 'versions']) AS wanted(name)
WHERE (SELECT COUNT(*) FROM pg_trigger AS t WHERE t.tgrelid = to_regclass(wanted.name)
       AND t.tgname IN ('append_only', 'never_emptied') AND t.tgenabled IN ('O', 'A')) < 2
"""


def faults(read: Read) -> Iterator[str]:
    """What is wrong with the tables themselves and their keys, one sentence each."""
    for (said,) in read(DOUBTFUL):
        yield said
    for _, table, other, _, column, key in read(KEYS):
        if read(f"SELECT 1 FROM {table} AS t WHERE t.{column} IS NOT NULL AND NOT EXISTS "
                f"(SELECT 1 FROM {other} AS o WHERE o.{key} = t.{column}) LIMIT 1"):  # fmt: skip
            yield f"a row of {table} points at a row of {other} that is not there"
