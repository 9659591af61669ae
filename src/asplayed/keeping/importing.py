"""Making a store from an export: the same store again, proved before it counts."""

from __future__ import annotations

import os
import re
import stat
from collections import Counter
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import msgspec

from asplayed.errors import BadInput, Refused
from asplayed.keeping import chain, facts, proving
from asplayed.keeping.places import SCHEMA, Place, Where, find_place, schema_of
from asplayed.keeping.plain_files import FORMAT, HISTORY, MANIFEST, ORIGINALS, ActionLine, Manifest, VersionLine

if TYPE_CHECKING:
    from asplayed.keeping.store import Action, Store

MEGABYTE = 1_000_000
HASH = re.compile(r"[0-9a-f]{64}")


class Imported(NamedTuple):
    """What an import made: how many actions, records and versions, and the end of their chain."""

    actions: int
    records: int
    versions: int
    head: str


def import_folder(folder: Path, where: Where = None, *, max_size: int = 64) -> Imported:
    """Make the store that an export was written from, at a place where nothing is stored yet.

    No more than `max_size` megabytes are read. Only the names this format has are opened, and no links followed. What
    is not whole is refused, and nothing is stored.
    """
    from asplayed.keeping.store import open_store

    reader = Folder(folder, max_size * MEGABYTE)
    told = decoded(reader.read(MANIFEST), Manifest, f"{folder / MANIFEST}")
    if told.format > FORMAT or told.schema > SCHEMA:
        raise BadInput(
            f"{folder} has format {told.format} and schema {told.schema}, newer than format {FORMAT} and schema "
            f"{SCHEMA} of this release; update asplayed to read it"
        )
    history = reader.read(HISTORY)
    if sha256(history).hexdigest() != told.files.get(HISTORY):
        raise BadInput(f"{folder / HISTORY} is not as it was exported (its SHA-256 differs); nothing was stored")
    place = find_place(where)
    new = schema_of(place) is None
    try:
        with open_store(where) as store:
            return fill(store, reader, told, history)
    except BaseException:
        if new:  # leave no empty store behind
            remove(place)
        raise


def remove(place: Place) -> None:
    """Take away a store that was only just made, and holds nothing."""
    if isinstance(place, Path):
        for ending in ("", "-wal", "-shm"):
            place.with_name(place.name + ending).unlink(missing_ok=True)
    else:
        from asplayed.keeping import servers

        servers.remove(place)


class Folder:
    """The files of an export: named ones only, no links, and in all no more than a number of bytes."""

    def __init__(self, path: Path, most: int) -> None:
        self.path, self.left, self.most = path, most, most

    def read(self, name: str) -> bytes:
        """All of one file."""
        path = self.path / name
        try:
            opened = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK | os.O_CLOEXEC)
        except (OSError, ValueError) as fault:
            reason = fault.strerror if isinstance(fault, OSError) else "its name cannot be a file's"
            raise BadInput(f"{path} cannot be read ({reason}); give the folder that keep export wrote") from None
        if not stat.S_ISREG(os.fstat(opened).st_mode):
            os.close(opened)
            raise BadInput(f"{path} is not a plain file; give the folder that keep export wrote")
        with os.fdopen(opened, "rb") as stream:
            found = stream.read(self.left + 1)
        if len(found) > self.left:
            raise BadInput(f"{self.path} holds more than {self.most // MEGABYTE} MB; raise --max-size if it is meant")
        self.left -= len(found)
        return found


def decoded(content: bytes, kind: Any, called: str) -> Any:
    """JSON as the record it should be."""
    try:
        return msgspec.json.decode(content, type=kind)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError) as fault:
        raise BadInput(f"{called} is not what keep export writes: {fault}; nothing was stored") from None


def fill(store: Store, reader: Folder, told: Manifest, history: bytes) -> Imported:
    """Write all that was done into an empty store, in one transaction, and prove it before that is done."""
    with store.remaking() as action:
        if action.read("SELECT 1 FROM actions LIMIT 1"):
            raise BadInput(f"{store.place} holds something already; import into a new place: --store PATH")
        replay(action, reader, history)
        checked: Counter[str] = Counter()
        faults = list(proving.found(action.read, checked, schema=SCHEMA, figures=False, head=None))
        head = chain.head(action.read)[1]
        if head != told.head or checked["actions"] != told.actions:
            faults.append("the chain does not end as export.json says")
        if faults:
            raise Refused(f"{reader.path} is not a whole export; nothing was stored", faults)
        return Imported(checked["actions"], checked["records"], checked["versions"], head)


def replay(action: Action, reader: Folder, history: bytes) -> None:
    """Do what was done, line by line."""
    from asplayed.keeping import schema

    write = action.connection.execute
    newest: dict[int, VersionLine] = {}
    originals: set[str] = set()
    try:
        for number, line in enumerate(history.splitlines(), start=1):
            did: ActionLine = decoded(line, ActionLine, f"{reader.path / HISTORY}, line {number},")
            write(schema.actions.insert().values(id=did.id, at=did.at, who=did.who, what=did.what, why=did.why))
            for version in did.versions:
                if version.record not in newest:
                    write(schema.records.insert().values(
                        id=version.record, kind=version.kind, name=version.name, salt=version.salt, seal=version.seal,
                        version=version.version, hidden=version.hidden,
                    ))  # fmt: skip
                newest[version.record] = version
                if version.original and version.original not in originals:
                    originals.add(version.original)
                    words = original(reader, version.original)
                    write(schema.originals.insert().values(sha256=version.original, words=words))
                write(schema.versions.insert().values(
                    record_id=version.record, version=version.version, action_id=did.id, hidden=version.hidden,
                    restores=version.restores, content=content_of(version), content_sha256=version.sha256,
                    original_sha256=version.original,
                ))  # fmt: skip
            if did.file:
                write(schema.imports.insert().values(action_id=did.id, **msgspec.structs.asdict(did.file)))
            link = chain.Link(did.id, did.salt, did.seal, did.sha256)
            write(schema.links.insert().values(**link._asdict()))
    except (OverflowError, UnicodeEncodeError) as fault:
        raise BadInput(f"{reader.path / HISTORY} holds what no store does: {fault}; nothing was stored") from None
    table = schema.records
    for record, version in newest.items():
        write(table.update().where(table.c.id == record).values(version=version.version, hidden=version.hidden))
    facts.tell_all(action)


def original(reader: Folder, name: str) -> bytes:
    """The words under a hash; a name that is no hash is never opened."""
    if not HASH.fullmatch(name):
        raise BadInput(
            f"{reader.path / HISTORY} names an original {name[:40]!r} that is no SHA-256; nothing was stored"
        )
    return reader.read(f"{ORIGINALS}/{name}")


def content_of(version: VersionLine) -> str:
    """The stored text of a version, byte for byte."""
    return bytes(version.content).decode() if version.text is None else version.text
