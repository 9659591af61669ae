"""Append-only versions: a change adds one, a removal hides, nothing is ever written over."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping.reading import Read

if TYPE_CHECKING:
    from asplayed.keeping.store import Action


class Version(NamedTuple):
    """One version of a record, as stored."""

    record_id: int
    version: int
    hidden: int
    restores: int | None
    content: str
    content_sha256: str
    original_sha256: str | None

    def checked(self) -> Version:
        """This version, once its content is proved to be what was written."""
        whole = isinstance(self.content, str)  # not so where one table was laid over another
        if not whole or fingerprint(self.content) != self.content_sha256:
            if self.content == "":
                raise BadInput(
                    f"version {self.version} of this record was erased at the request of the person it is of"
                )
            raise StoreUnusable(
                f"the store is damaged: version {self.version} of record {self.record_id} is not what was written; "
                "bring it back from a backup; nothing was changed"
            )
        return self


class Addition(NamedTuple):
    """A version to be added after `newest` (None: the first of its name)."""

    name: str
    content: str
    newest: Version | None
    words: bytes | None = None
    hidden: bool = False
    restores: int | None = None


FIND = """
SELECT v.record_id, v.version, v.hidden, v.restores, v.content, v.content_sha256, v.original_sha256
FROM records AS r JOIN versions AS v ON v.record_id = r.id
WHERE r.kind = :kind AND r.name = :name AND v.version = COALESCE(:version, r.version)
"""

FIND_ALL = """
SELECT r.name, v.record_id, v.version, v.hidden, v.restores, v.content, v.content_sha256, v.original_sha256
FROM records AS r JOIN versions AS v ON v.record_id = r.id AND v.version = r.version
WHERE r.kind = :kind ORDER BY r.id
"""


def find(read: Read, kind: str, name: str, version: int | None = None) -> Version | None:
    """The newest version of a record, or the one asked for; hidden ones too."""
    rows = read(FIND, kind=kind, name=name, version=version)
    return Version._make(rows[0]).checked() if rows else None


def find_all(read: Read, kind: str) -> dict[str, Version]:
    """The newest version of every record of a kind, by name, in the order the names came; hidden ones too."""
    return {row[0]: Version._make(row[1:]).checked() for row in read(FIND_ALL, kind=kind)}


def storable(text: str) -> str:
    """A text as every engine keeps it: what is half a character, or none, is shown as one that is missing.

    >>> storable("a\\0b\\ud800"), storable("Zo\u00eb")
    ('a\ufffdb?', 'Zo\u00eb')
    """
    return text.encode("utf-8", "replace").decode().replace("\0", "\N{REPLACEMENT CHARACTER}")


def fingerprint(content: str | bytes) -> str:
    """The SHA-256 of a text (as UTF-8) or of bytes, in hexadecimal.

    >>> fingerprint("")[:16]
    'e3b0c44298fc1c14'
    """
    return sha256(content.encode() if isinstance(content, str) else content).hexdigest()


def append(action: Action, kind: str, additions: Sequence[Addition]) -> list[Version]:
    """Add the versions, and let each record point at its newest one."""
    from asplayed.keeping import chain, schema

    if not additions:
        return []
    write, table = action.connection.execute, schema.records
    made: dict[str, int] = {}
    if new := [a for a in additions if a.newest is None]:
        rows = []
        for a in new:
            salt = chain.new_salt()
            sealed = {"salt": salt, "seal": chain.seal(salt, kind, a.name)}
            rows.append({"kind": kind, "name": a.name, "version": 1, "hidden": int(a.hidden), **sealed})
        made = {name: record_id for record_id, name in write(table.insert().returning(table.c.id, table.c.name), rows)}
    added = []
    for name, content, newest, words, hidden, restores in additions:
        original = None if words is None else fingerprint(words)
        if original and not action.read("SELECT 1 FROM originals WHERE sha256 = :sha256", sha256=original):
            write(schema.originals.insert().values(sha256=original, words=words))
        if newest is None:
            record_id, number = made[name], 1
        else:
            record_id, number = newest.record_id, newest.version + 1
            write(table.update().where(table.c.id == record_id).values(version=number, hidden=int(hidden)))
        added.append(Version(record_id, number, int(hidden), restores, content, fingerprint(content), original))
    write(schema.versions.insert(), [{"action_id": action.id, **version._asdict()} for version in added])
    return added
