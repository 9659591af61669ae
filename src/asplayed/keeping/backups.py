"""Backups: a copy counts only once it was opened and proved; old ones go by age and count; the way back.

A backup is a whole store in one SQLite file, whichever engine the store itself has. It opens like any store, and is
named `STORE-YYYYMMDDTHHMMSSZ-HEAD.db` after the moment it was made and the last hash of its chain.
"""

from __future__ import annotations

import os
import re
import sqlite3
import tempfile
from contextlib import closing, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping import chain, files
from asplayed.keeping.carrying import carry, contents
from asplayed.keeping.places import (
    PATIENCE,
    SCHEMA,
    Place,
    Read,
    Server,
    Where,
    backups_folder,
    find_place,
    looking,
    schema_of,
    told_plainly,
)
from asplayed.keeping.proving import SERVED, Proof, prove

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


def back_up(where: Where = None, folder: Path | None = None) -> Backup:
    """Copy the store, in use or not, into `folder` (None: the usual one), and prove the copy, figures aside.

    Only a copy that was opened and found whole gets the name of a backup; of a damaged store none is made.
    """
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        raise BadInput(f"there is no store {place} to make a backup of yet")
    folder = folder or backups_folder(place)
    part = folder / f".{place.stem}.{os.getpid()}.part"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        remove(part)
        head = copy(place, part)
        proof = prove(part, figures=False)
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
            remove(part)
    return Backup(file, at, head[:12])


def copy(place: Place, part: Path) -> str:
    """One moment of a store as a single new file, flushed to the disk; answers how its chain ends."""
    if isinstance(place, Path):
        schema = schema_of(place) or SCHEMA
        with told_plainly(place), closing(files.connect(place)) as source:
            source.execute("BEGIN")
            wanted = contents(Read("sqlite", lambda asked, values: source.execute(asked, values).fetchall()), schema)
            copy_file(source, part, signed_in=schema < SERVED)
        with looking(part) as read:
            if contents(read, schema) != wanted:
                raise StoreUnusable(f"the copy of {place} is not the same as the store; it was not kept: try again")
        return wanted.head
    from asplayed.keeping.store import Store

    with Store(part) as store:
        store.migrate(None)
        with store.remaking() as action:
            carry(place, action)
    with told_plainly(part), closing(sqlite3.connect(part, timeout=PATIENCE)) as made:
        made.execute("PRAGMA journal_mode = DELETE")
    flush(part)
    with looking(part) as read:
        return contents(read, SCHEMA).head


def copy_file(source: sqlite3.Connection, target: Path, *, signed_in: bool) -> None:
    """One moment of an open file as another, flushed to the disk; unless `signed_in`, with nobody's session in it."""
    with closing(sqlite3.connect(target, timeout=PATIENCE)) as made:
        source.backup(made)
        made.execute("PRAGMA journal_mode = DELETE")
        if not signed_in:
            made.execute("DELETE FROM web_sessions")
            made.commit()
    flush(target)


def remove(part: Path) -> None:
    """Take a half-made copy away, with the log it may have."""
    for ending in ("", "-wal", "-shm"):
        part.with_name(part.name + ending).unlink(missing_ok=True)


def flush(path: Path) -> None:
    """Make sure that a file, or a folder's list of names, is on the disk."""
    opened = os.open(path, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)


def backups_of(place: Place, folder: Path | None = None) -> tuple[Backup, ...]:
    """The backups of a store, newest first, by what their names tell."""
    pattern = re.compile(re.escape(place.stem) + r"-(\d{8}T\d{6}Z)-(\w{10,12})\.db")
    found = []
    with suppress(OSError):
        for file in (folder or backups_folder(place)).iterdir():
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


def remove_old(place: Place, folder: Path | None = None, *, keep: int = KEPT) -> tuple[Path, ...]:
    """Remove the backups that have had their time; only files that are named as backups of this store."""
    gone = []
    for backup in thin_out(backups_of(place, folder), datetime.now(UTC), keep=keep):
        with suppress(OSError):
            backup.file.unlink()
            gone.append(backup.file)
    return tuple(gone)


def back_up_when_due(place: Place, now: datetime | None = None) -> Backup | None:
    """Make a backup when the store holds something that is older than a day and in none yet."""
    now = now or datetime.now(UTC)
    newest = next(iter(backups_of(place)), None)
    with looking(place) as read:
        first = read("SELECT at FROM actions ORDER BY id LIMIT 1")
        head = chain.head(read)[1]
    if not first or (newest and newest.head == head[:12]):
        return None
    since = newest.at if newest else datetime.fromisoformat(first[0][0])
    if now - since < EVERY:
        return None
    made = back_up(place)
    remove_old(place)
    return made


class Restored(NamedTuple):
    """What a restore did: where the store stands now, and where what stood there before is kept."""

    place: Place
    kept: Place | None


def restore(backup: Where, where: Where) -> Restored:
    """Put a proved copy of a backup at `where`; what stood there is kept beside it under another name.

    Whatever interrupts it leaves the old store or the new one at `where`, and nothing lost. A file may be restored to
    a server, and the other way round.
    """
    source, place = find_place(backup), find_place(where)
    if place == source or (isinstance(source, Path) and isinstance(place, Path) and same_file(source, place)):
        raise BadInput("the backup and the place to restore it to are the same; give another place")
    if isinstance(place, Path) and not place.parent.is_dir():
        raise BadInput(f"there is no folder {place.parent} to restore into; make it first")
    proof = prove(source, figures=False)
    if not proof.ok:
        raise StoreUnusable(
            f"the backup {source} is not whole ({proof.faults[0]}); nothing was restored: try an older one"
        )
    if isinstance(place, Path):
        return restore_file(source, place, proof)
    if proof.checked["schema"] == SCHEMA:
        return restore_server(source, place)
    from asplayed.keeping.store import open_store

    assert isinstance(source, Path)  # no release older than this schema kept a store on a server
    with tempfile.TemporaryDirectory() as folder:
        newer = Path(folder) / "newer.db"
        copy(source, newer)
        open_store(newer).close()
        return restore_server(newer, place)


def same_file(source: Path, place: Path) -> bool:
    """True when both names are of one file."""
    return source.exists() and place.exists() and place.samefile(source)


def restore_file(source: Place, place: Path, proof: Proof) -> Restored:
    """Put a proved copy into a file."""
    part = place.with_name(f".{place.name}.{os.getpid()}.part")
    told = ("schema", "head", "actions", "records", "versions", "originals")
    try:
        remove(part)
        copy(source, part)
        again = prove(part, figures=False)
        if not again.ok or any(again.checked.get(what) != proof.checked.get(what) for what in told):
            raise StoreUnusable(f"what was restored of {source} is not the same as the backup; {place} was left alone")
        kept = set_aside(place) if place.exists() else None
        part.replace(place)
        flush(place.parent)
    except OSError as fault:
        raise StoreUnusable(f"{source} could not be restored to {place}: {fault.strerror or fault}") from None
    finally:
        with suppress(OSError):
            remove(part)
    return Restored(place, kept)


def restore_server(source: Place, place: Server) -> Restored:
    """Put a proved copy into a schema; what stood there is renamed in the same transaction."""
    from asplayed.keeping.store import Store

    stamp = datetime.now(UTC).strftime("%Y%m%dt%H%M%S%fz")
    aside = Server(place.url, f"{place.schema[:20]}_replaced_{stamp[:17]}")
    with Store(place) as store, store.making(aside) as (action, renamed):
        carry(source, action)
    return Restored(place, aside if renamed else None)


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
            raise StoreUnusable(files.explain(place, fault)) from None
    except sqlite3.DatabaseError:
        pass  # damaged: kept as it is, with its log
    os.link(place, kept)
    if log.exists():
        os.link(log, kept.with_name(kept.name + "-wal"))
    flush(place.parent)
    log.unlink(missing_ok=True)  # an old log must never be played into the new store
    memory.unlink(missing_ok=True)
    return kept
