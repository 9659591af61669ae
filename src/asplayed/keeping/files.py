"""A store in one SQLite file: where it may be opened, what it holds, and how its connections are kept safe."""

from __future__ import annotations

import os
import re
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from asplayed.errors import StoreUnusable
from asplayed.keeping.places import PATIENCE, VERSION_TABLE, Read, newer

if TYPE_CHECKING:
    import sqlalchemy

SEARCH_TABLE = "CREATE VIRTUAL TABLE search USING fts5(name, words, tokenize = 'unicode61 remove_diacritics 2')"
"""The one virtual table that a store has, as it was made; any other is a stranger's."""

MAGIC = b"SQLite format 3\0"

DURABLE: dict[str, int | str] = {"foreign_keys": 1, "trusted_schema": 0, "synchronous": 2}
"""What every connection that may write is set to and found at: keys enforced, nothing of the file's own run, every
commit flushed. https://www.sqlite.org/pragma.html#pragma_synchronous: 2 is FULL."""

BOUNDS = {
    sqlite3.SQLITE_LIMIT_LENGTH: 256_000_000,  # bytes of one cell; inputs end at 64 MB unless the user raises that
    sqlite3.SQLITE_LIMIT_EXPR_DEPTH: 100,
    sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH: 1,
    sqlite3.SQLITE_LIMIT_LIKE_PATTERN_LENGTH: 1000,
}
"""What no question may go beyond. https://www.sqlite.org/security.html tells how to read a stranger's file."""

INDEX = re.compile(r"CREATE (UNIQUE )?INDEX \w+ ON \w+ \([\w, ]+\)")
HARMLESS = re.compile(r"CHECK \(\w+ IN \([\w', ]*\)\)")
CODE = re.compile(r"\b(generated|as|check|default|collate|using)\b", re.IGNORECASE)
"""What lets a table work something out by itself, where it is no plain list of the values a column may have."""


def can_write(place: Path) -> bool:
    """True when the file, and the folder beside which its log stands, may be written."""
    return os.access(place.parent, os.W_OK) and (not place.exists() or os.access(place, os.W_OK))


def address(place: Path, *, writing: bool) -> str:
    """The file as the SQLite address that opens it; reading never makes a file."""
    from urllib.parse import quote

    path = quote(str(place.absolute()))
    if writing:
        return f"file:{path}?mode=rwc"
    if can_write(place):
        return f"file:{path}?mode=rw"  # so that the last to leave can tidy the log away
    # In a folder that may not be written, the log's shared memory cannot be made: with no log left behind, the
    # file alone is whole, and nobody can be changing it there.
    log = place.with_name(place.name + "-wal")
    still = not (log.exists() and log.stat().st_size)
    return f"file:{path}?mode=ro{'&immutable=1' if still else ''}"


@contextmanager
def told_plainly(place: Path) -> Iterator[None]:
    """Turn what SQLite says inside into one sentence about the store at `place`."""
    try:
        yield
    except (sqlite3.Error, UnicodeDecodeError) as fault:
        raise StoreUnusable(explain(place, fault)) from fault


def explain(place: Path, fault: BaseException) -> str:
    """One sentence for a fault of the store: what happened and what to do next."""
    damaged = f"the store {place} is damaged: bring it back from a backup; nothing was changed in it"
    said = str(fault).splitlines()[0] if str(fault) else type(fault).__name__
    for sign, sentence in (
        ("not a database", f"{place} is not an asplayed store; nothing was changed in it"),
        ("codec can't decode", damaged),
        ("malformed", damaged),
        ("corrupt", damaged),
        ("readonly", f"the store {place} can be read but not written: its file or folder is read-only"),
        ("locked", f"the store {place} is being written by somebody else; nothing was stored: try again in a moment"),
        ("is full", f"the disk is full: nothing was stored in {place}; make room and try again"),
        ("unable to open", f"the store {place} cannot be opened: check that its folder exists and may be read"),
    ):
        if sign in said:
            return sentence
    return f"the store {place} cannot be used: {said}; nothing was stored"


def schema_of(place: Path) -> str | None:
    """The number of the schema found at `place`; None where no store has been made yet.

    What is not a store, is damaged, or comes from a newer release is refused; the file is left as it is.
    """
    try:
        if not place.exists() or place.stat().st_size == 0:
            return None
        with place.open("rb") as stream:
            beginning = stream.read(len(MAGIC))
    except OSError as fault:
        raise StoreUnusable(f"the store {place} cannot be opened: {fault.strerror}") from None
    if beginning != MAGIC:
        raise StoreUnusable(f"{place} is not an asplayed store; nothing was changed in it")
    with told_plainly(place), closing(connect(place)) as connection:
        made = connection.execute("SELECT type, name, sql FROM sqlite_master").fetchall()
        if not made:
            return None
        if any(kind in {"view", "trigger"} for kind, _, _ in made):
            raise StoreUnusable(f"{place} has views or triggers, as no store of asplayed has; nothing was changed")
        if any(runs_code(kind, sql) for kind, _, sql in made):
            raise StoreUnusable(f"{place} has a table that runs code, as no store of asplayed has; nothing was changed")
        tables = {name for kind, name, _ in made if kind == "table"}
        if VERSION_TABLE not in tables:
            raise StoreUnusable(f"{place} holds something else than an asplayed store; nothing was changed in it")
        found = connection.execute(f"SELECT version_num FROM {VERSION_TABLE}").fetchone()
    if found is None:
        raise StoreUnusable(f"the store {place} is damaged: it does not say which schema it has; nothing was changed")
    return newer(place, str(found[0]))


def runs_code(kind: str, sql: str | None) -> bool:
    """True for a table or index that works something out by itself whenever it is looked at or written.

    >>> runs_code("table", "CREATE TABLE t (a TEXT, CHECK (a IN ('x', 'y')))"), runs_code("table", SEARCH_TABLE)
    (False, False)
    >>> runs_code("table", "CREATE TABLE t (a TEXT, b TEXT GENERATED ALWAYS AS (printf('%999d', a)))")
    True
    """
    if sql is None or sql == SEARCH_TABLE:  # an index that a key makes by itself has no text of its own
        return False
    if kind == "index":
        return not INDEX.fullmatch(sql.strip())
    return bool(CODE.search(HARMLESS.sub("", sql)))


def connect(place: Path) -> sqlite3.Connection:
    """A plain connection that can only read, and runs nothing the file itself brings along."""
    connection = sqlite3.connect(address(place, writing=False), uri=True, timeout=PATIENCE)
    guard(connection)
    connection.execute("PRAGMA query_only = ON")
    connection.setlimit(sqlite3.SQLITE_LIMIT_ATTACHED, 0)
    return connection


def guard(connection: sqlite3.Connection) -> None:
    """Let a connection take nothing of the file on trust. https://www.sqlite.org/security.html"""
    for pragma in ("trusted_schema = OFF", "cell_size_check = ON", "mmap_size = 0"):
        connection.execute(f"PRAGMA {pragma}")
    for limit, most in BOUNDS.items():
        connection.setlimit(limit, most)
    if sys.version_info >= (3, 12):
        connection.setconfig(sqlite3.SQLITE_DBCONFIG_DEFENSIVE, True)


@contextmanager
def looking(place: Path) -> Iterator[Read]:
    """A way to ask questions of one moment of the store."""
    with told_plainly(place), closing(connect(place)) as connection:
        connection.execute("BEGIN")
        yield Read("sqlite", lambda question, values: connection.execute(question, values).fetchall())


def make_engine(place: Path, *, writing: bool) -> sqlalchemy.Engine:
    """The way SQLAlchemy opens the file; every connection is set to be durable, and found so."""
    import sqlalchemy

    def connect() -> sqlite3.Connection:
        # No isolation level: the store says itself when a transaction begins.
        return sqlite3.connect(
            address(place, writing=writing), uri=True, timeout=PATIENCE, isolation_level=None, check_same_thread=False
        )

    def prepare(connection: Any, _entry: object) -> None:
        guard(connection)
        for pragma, value in {**DURABLE, **({"journal_mode": "wal"} if writing else {})}.items():
            connection.execute(f"PRAGMA {pragma} = {value}")
            found = connection.execute(f"PRAGMA {pragma}").fetchone()[0]
            if found != value:
                raise StoreUnusable(
                    f"the store {place} cannot be kept safe here ({pragma} is {found}, not {value}); "
                    "put it on a local disk"
                )

    engine = sqlalchemy.create_engine("sqlite://", creator=connect, poolclass=sqlalchemy.pool.QueuePool)
    sqlalchemy.event.listen(engine, "connect", prepare)
    return engine


def begin(connection: sqlalchemy.Connection, *, writing: bool) -> None:
    """Begin a transaction; one that writes is alone with the file from here on."""
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


def begin_making(connection: sqlalchemy.Connection, place: Path) -> None:  # noqa: ARG001 a file needs no other beginning
    """Begin the transaction in which the tables are made or changed, alone with the file."""
    begin(connection, writing=True)


def end_remaking(connection: sqlalchemy.Connection) -> None:
    """Nothing more is to be done when rows were put in under numbers of their own."""


def write_anew(engine: sqlalchemy.Engine) -> None:
    """Write the file anew without its free pages, and empty the log: what was erased stands nowhere in them."""
    with engine.connect() as connection:
        connection.exec_driver_sql("VACUUM")
        connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")


def faults(read: Read) -> Iterator[str]:
    """What is wrong with the file itself and its keys, one sentence each."""
    for (said,) in read("PRAGMA integrity_check"):
        if said != "ok":
            yield f"the file is damaged: {' '.join(said.split())}"
    for row in read("PRAGMA foreign_key_check"):
        yield f"a row of {row[0]} points at a row of {row[2]} that is not there"
