"""Backups: a copy counts only once it was opened and proved; old ones go by age and count; the way back.

A backup is a whole store in one file, named `STORE-YYYYMMDDTHHMMSSZ-HEAD.db` after the moment it was made and the
last hash of its chain. It opens like any store.
"""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import closing, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, NamedTuple

from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping import chain
from asplayed.keeping.places import PATIENCE, connect, explain, find_place, schema_of, told_plainly
from asplayed.keeping.proving import CHAINED, prove

EVERY = timedelta(days=1)
"""How old the newest backup may be before one is made when a store is opened to write."""

KEPT = 14
"""How many of the newest backups stay; of older ones, the last of each month stays, for `MONTHS` months."""

MONTHS = 12
STAMP = "%Y%m%dT%H%M%SZ"


class Backup(NamedTuple):
    """A backup: its file, when it was made, and how its name tells the end of its chain."""

    file: Path
    at: datetime
    head: str


def back_up(where: str | Path | None = None, folder: Path | None = None, *, figures: bool = True) -> Backup:
    """Copy the store, in use or not, into `folder` (None: `backups` beside it), and prove the copy.

    Only a copy that was opened and found whole gets the name of a backup; of a damaged store none is made.
    """
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        raise BadInput(f"there is no store {place} to make a backup of yet")
    folder = folder or place.parent / "backups"
    part = folder / f".{place.stem}.{os.getpid()}.part"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        part.unlink(missing_ok=True)
        with told_plainly(place), closing(connect(place)) as source:
            source.execute("BEGIN")
            head = schema_and_head(source, schema)
            counts = count(source)
            copy(source, part)
        with told_plainly(part), closing(connect(part)) as copied:
            if (schema_and_head(copied, schema), count(copied)) != (head, counts):
                raise StoreUnusable(f"the backup of {place} is not the same as the store; it was not kept: try again")
        proof = prove(part, figures=figures)
        if not proof.ok:
            raise StoreUnusable(
                f"no backup was made of {place}, because what was copied is not whole: {proof.faults[0]}; "
                "asplayed keep verify tells all; older backups were left alone"
            )
        at = datetime.now(UTC).replace(microsecond=0)
        file = folder / f"{place.stem}-{at.strftime(STAMP)}-{head[:12]}.db"
        part.replace(file)
        flush(folder)
    except OSError as fault:
        raise StoreUnusable(f"no backup could be made in {folder}: {fault.strerror or fault}") from None
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return Backup(file, at, head[:12])


def copy(source: sqlite3.Connection, target: Path) -> None:
    """One moment of an open store as a single new file, flushed to the disk."""
    with closing(sqlite3.connect(target, timeout=PATIENCE)) as made:
        source.backup(made)
        made.execute("PRAGMA journal_mode = DELETE")
    flush(target)


def flush(path: Path) -> None:
    """Make sure that a file, or a folder's list of names, is on the disk."""
    opened = os.open(path, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)


def schema_and_head(connection: sqlite3.Connection, schema: str) -> str:
    """The last hash of the chain; of a store without one, its schema."""
    if schema < CHAINED:
        return f"schema{schema}"

    def read(question: str, **values: Any) -> list[Any]:
        return connection.execute(question, values).fetchall()

    return chain.head(read)[1]


def count(connection: sqlite3.Connection) -> tuple[int, ...]:
    """How many rows stand in the tables that everything else is told from."""
    tables = ("actions", "records", "versions", "originals", "imports")
    return tuple(connection.execute(f"SELECT COUNT(*) FROM {table}").fetchone()[0] for table in tables)


def backups_of(place: Path, folder: Path | None = None) -> tuple[Backup, ...]:
    """The backups of a store, newest first, by what their names tell."""
    pattern = re.compile(re.escape(place.stem) + r"-(\d{8}T\d{6}Z)-(\w{10,12})\.db")
    found = []
    with suppress(OSError):
        for file in (folder or place.parent / "backups").iterdir():
            told = pattern.fullmatch(file.name)
            if told:
                with suppress(ValueError):
                    found.append(Backup(file, datetime.strptime(told[1], STAMP).replace(tzinfo=UTC), told[2]))
    return tuple(sorted(found, key=lambda backup: (backup.at, backup.file.name), reverse=True))


def thin_out(backups: tuple[Backup, ...], now: datetime, *, keep: int = KEPT) -> tuple[Backup, ...]:
    """Which backups may go: all but the newest `keep`, and the last of each of the past months."""
    months: dict[str, Backup] = {}
    for backup in backups:  # newest first, so that the first of a month is its last
        if now - backup.at < timedelta(days=31 * MONTHS):
            months.setdefault(backup.at.strftime("%Y%m"), backup)
    standing = {*backups[: max(keep, 1)], *months.values()}
    return tuple(backup for backup in backups if backup not in standing)


def remove_old(place: Path, folder: Path | None = None, *, keep: int = KEPT) -> tuple[Path, ...]:
    """Remove the backups that have had their time; only files that are named as backups of this store."""
    gone = []
    for backup in thin_out(backups_of(place, folder), datetime.now(UTC), keep=keep):
        with suppress(OSError):
            backup.file.unlink()
            gone.append(backup.file)
    return tuple(gone)


def back_up_when_due(place: Path, now: datetime | None = None) -> Backup | None:
    """Make a backup when the store holds something that is older than a day and in none yet."""
    now = now or datetime.now(UTC)
    newest = next(iter(backups_of(place)), None)
    with told_plainly(place), closing(connect(place)) as connection:
        first = connection.execute("SELECT at FROM actions ORDER BY id LIMIT 1").fetchone()
        head = schema_and_head(connection, CHAINED)
    if first is None or (newest and newest.head == head[:12]):
        return None
    since = newest.at if newest else datetime.fromisoformat(first[0])
    if now - since < EVERY:
        return None
    made = back_up(place, figures=False)
    remove_old(place)
    return made


class Restored(NamedTuple):
    """What a restore did: where the store stands now, and where what stood there before is kept."""

    place: Path
    kept: Path | None


def restore(backup: str | Path, where: str | Path) -> Restored:
    """Put a proved copy of a backup at `where`; what stood there is kept beside it under another name.

    Whatever interrupts it leaves the old store or the new one at `where`, and nothing lost.
    """
    source, place = find_place(backup), find_place(where)
    if place.exists() and place.samefile(source):
        raise BadInput("the backup and the place to restore it to are the same file; give another place")
    if not place.parent.is_dir():
        raise BadInput(f"there is no folder {place.parent} to restore into; make it first")
    proof = prove(source)
    if not proof.ok:
        raise StoreUnusable(
            f"the backup {source} is not whole ({proof.faults[0]}); nothing was restored: try an older one"
        )
    part = place.with_name(f".{place.name}.{os.getpid()}.part")
    try:
        part.unlink(missing_ok=True)
        with told_plainly(source), closing(connect(source)) as connection:
            connection.execute("BEGIN")
            copy(connection, part)
        again = prove(part)
        if again.checked != proof.checked or not again.ok:
            raise StoreUnusable(f"what was restored of {source} is not the same as the backup; {place} was left alone")
        kept = set_aside(place) if place.exists() else None
        part.replace(place)
        flush(place.parent)
    except OSError as fault:
        raise StoreUnusable(f"{source} could not be restored to {place}: {fault.strerror or fault}") from None
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return Restored(place, kept)


def set_aside(place: Path) -> Path:
    """Keep what stands at `place` under a second name, and fold its log into it, so that it can be replaced."""
    stamp = datetime.now(UTC).strftime(STAMP)
    number = 0
    while (kept := place.with_name(f"{place.stem}-replaced-{stamp}{f'-{number}' if number else ''}.db")).exists():
        number += 1
    log, memory = (place.with_name(place.name + ending) for ending in ("-wal", "-shm"))
    try:
        with closing(sqlite3.connect(place, timeout=1, isolation_level=None)) as old:
            # Leaving write-ahead logging takes being alone with the file: so nobody goes on writing into the old one.
            old.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.OperationalError as fault:
        if "locked" in str(fault):
            raise StoreUnusable(
                f"{place} is in use; end what is using it, or restore to another place; nothing was changed"
            ) from None
        if "disk I/O" not in str(fault):
            raise StoreUnusable(explain(place, fault)) from None
    except sqlite3.DatabaseError:
        pass  # damaged: kept as it is, with its log
    os.link(place, kept)
    if log.exists():
        os.link(log, kept.with_name(kept.name + "-wal"))
    flush(place.parent)
    log.unlink(missing_ok=True)  # an old log must never be played into the new store
    memory.unlink(missing_ok=True)
    return kept
