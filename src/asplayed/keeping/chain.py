"""The chain: each user action carries a hash of the one before it and of all it did, so that no past can be altered.

What names a person (a record's name, who did something and why) enters the chain only as a salted hash, its seal: the
salt stands beside it, so that anybody can check the seal, and a lawful erasure that removes both leaves a chain that
still holds and a hash that nobody can guess the name from. Contents enter by their SHA-256.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from asplayed.keeping.reading import Read
from asplayed.keeping.versions import fingerprint

BEGINNING = "0" * 64
"""What the first action has instead of a hash before it."""


Rows = Sequence[Sequence[object]]


class Link(NamedTuple):
    """One action's place in the chain."""

    action_id: int
    salt: str
    seal: str
    sha256: str


def new_salt() -> str:
    """A salt that nobody can guess."""
    return secrets.token_hex(16)


def seal(salt: str, *said: str | None) -> str:
    """The salted hash of some texts.

    >>> seal("salt", "set", "ada") == seal("salt", "set", "ada") != seal("pepper", "set", "ada")
    True
    """
    return fingerprint(json.dumps([salt, *said]))


def link_hash(before: str, action_id: int, sealed: str, versions: Rows, file: Sequence[object]) -> str:
    """The hash of one action: of the link before it, its own seal, the versions it added and the file it came from."""
    return fingerprint(json.dumps([before, action_id, sealed, [list(each) for each in versions], list(file)]))


ACTIONS = "SELECT id, at, who, what, why FROM actions WHERE id > :after ORDER BY id"

VERSIONS = """
SELECT v.action_id, v.record_id, v.version, r.seal, v.hidden, v.restores, v.content_sha256, v.original_sha256
FROM versions AS v JOIN records AS r ON r.id = v.record_id
WHERE v.action_id > :after ORDER BY v.action_id, v.record_id, v.version
"""

FILES = "SELECT action_id, file, sha256, size FROM imports WHERE action_id > :after ORDER BY action_id"

LAST = "SELECT action_id, sha256 FROM links ORDER BY action_id DESC LIMIT 1"


def head(read: Read) -> tuple[int, str]:
    """The last linked action and its hash."""
    rows = read(LAST)
    return (int(rows[0][0]), str(rows[0][1])) if rows else (0, BEGINNING)


class Done(NamedTuple):
    """All one action did, as the chain takes it."""

    action: Sequence[str | None]
    versions: list[Sequence[object]]
    file: Sequence[object]


def done(read: Read, after: int) -> Iterator[tuple[int, Done]]:
    """Every action after the numbered one, in order, with what it did."""
    did: dict[int, Done] = {row[0]: Done(tuple(row[1:]), [], ()) for row in read(ACTIONS, after=after)}
    for row in read(VERSIONS, after=after):
        if row[0] in did:
            did[row[0]].versions.append(tuple(row[1:]))
    for row in read(FILES, after=after):
        if row[0] in did:
            did[row[0]] = did[row[0]]._replace(file=tuple(row[1:]))
    yield from did.items()


def new_links(read: Read) -> list[Link]:
    """The links still missing at the end of the chain."""
    last, before = head(read)
    found = []
    for action_id, did in done(read, last):
        salt = new_salt()
        sealed = seal(salt, *did.action)
        before = link_hash(before, action_id, sealed, did.versions, did.file)
        found.append(Link(action_id, salt, sealed, before))
    return found


def broken(read: Read, erased_actions: frozenset[int]) -> Iterator[str]:
    """Every place where the chain does not hold, one sentence each."""
    links = {row[0]: Link._make(row) for row in read("SELECT action_id, salt, seal, sha256 FROM links")}
    before = BEGINNING
    for action_id, did in done(read, 0):
        link = links.pop(action_id, None)
        if link is None:
            yield f"action {action_id} is not in the chain"
            continue
        if action_id not in erased_actions and link.seal != seal(link.salt, *did.action):
            yield f"action {action_id} is not what was written: who, when, what or why was altered"
        if link.sha256 != link_hash(before, action_id, link.seal, did.versions, did.file):
            yield f"the chain breaks at action {action_id}: it, what it did, or the action before it was altered"
        before = link.sha256
    for action_id in links:
        yield f"action {action_id} is in the chain but not in the store"
