"""Where the store is and in what state: looked at without changing it, and without the heavier libraries."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from asplayed.errors import StoreUnusable

SCHEMA = "0003"
"""The number of the schema this release reads and writes: the newest step in `migrations/versions`."""

SEARCH_TABLE = "CREATE VIRTUAL TABLE search USING fts5(name, words, tokenize = 'unicode61 remove_diacritics 2')"
"""The one virtual table that a store has, as it was made; any other is a stranger's."""

VERSION_TABLE = "asplayed_schema"
MAGIC = b"SQLite format 3\0"
PATIENCE = 10.0
"""How long to wait for another writer [s]."""


def find_place(where: str | Path | None) -> Path:
    """The file of the store: as given, or the usual one in the user's data folder."""
    if where is None or where == "":
        import platformdirs

        return Path(platformdirs.user_data_dir("asplayed", appauthor=False)) / "store.db"
    if "://" in str(where):
        raise StoreUnusable(f"{where.__str__().split('://')[0]}:// stores cannot be used yet; give the path of a file")
    place = Path(where).expanduser()
    if place.is_dir():
        raise StoreUnusable(f"{place} is a folder, not a store; give the path of a file in it")
    return place


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
        strange = [name for _, name, sql in made if "virtual" in (sql or "").casefold() and sql != SEARCH_TABLE]
        if strange:
            raise StoreUnusable(f"{place} has a table that runs code, as no store of asplayed has; nothing was changed")
        tables = {name for kind, name, _ in made if kind == "table"}
        if VERSION_TABLE not in tables:
            raise StoreUnusable(f"{place} holds something else than an asplayed store; nothing was changed in it")
        found = connection.execute(f"SELECT version_num FROM {VERSION_TABLE}").fetchone()
    if found is None:
        raise StoreUnusable(f"the store {place} is damaged: it does not say which schema it has; nothing was changed")
    schema = str(found[0])
    if schema > SCHEMA or not schema.isdecimal():
        raise StoreUnusable(
            f"the store {place} has schema {schema}, newer than schema {SCHEMA} of this release; "
            "update asplayed to open it; nothing was changed in it"
        )
    return schema


def connect(place: Path) -> sqlite3.Connection:
    """A plain connection that can only read, and runs nothing the file itself brings along."""
    connection = sqlite3.connect(address(place, writing=False), uri=True, timeout=PATIENCE)
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA query_only = ON")
    return connection
