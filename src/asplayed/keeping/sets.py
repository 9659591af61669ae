"""Sets kept by name: the record, the words it was read from, and every version there has been."""

from __future__ import annotations

import difflib
import unicodedata
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput, Missing, Stale, StoreUnusable
from asplayed.keeping import seasons
from asplayed.keeping.reading import Read, in_bulk
from asplayed.keeping.versions import Addition, Version, append, find, fingerprint
from asplayed.quantities import plain

if TYPE_CHECKING:
    from asplayed.keeping.store import Action

KIND = "set"
LONGEST_NAME = 100


class StoredSet(NamedTuple):
    """A set as stored: its record, and the words it was read from."""

    name: str
    version: int
    golf_set: GolfSet
    original: bytes


class Saved(NamedTuple):
    """What saving did: the version that now stands, and whether it is new."""

    name: str
    version: int
    new: bool
    hidden: bool = False


class SetEntry(NamedTuple):
    """One line of the list of sets."""

    name: str
    player: str | None
    date: str | None
    clubs: int
    version: int


class VersionEntry(NamedTuple):
    """One line of a set's history."""

    version: int
    at: str
    who: str
    what: str
    why: str | None
    restores: int | None
    hidden: bool


def proper_name(name: str) -> str:
    """The name as it is stored; one that could not be typed back is refused.

    >>> proper_name("  Ada 2026 ")
    'Ada 2026'
    """
    tidy = " ".join(unicodedata.normalize("NFC", name).split())
    fault = (
        "is empty"
        if not tidy
        else f"is longer than {LONGEST_NAME} characters"
        if len(tidy) > LONGEST_NAME
        else "begins with -"
        if tidy.startswith("-")
        else "holds a character that cannot be shown"
        if not tidy.isprintable()
        else "holds / or \\"
        if "/" in tidy or "\\" in tidy
        else None
    )
    if fault:
        raise BadInput(f"the name {tidy[:40]!r} {fault}; give a plain one, such as ada-2026")
    return tidy


def save(action: Action, name: str, golf_set: GolfSet, words: str | bytes, based_on: int | None) -> Saved:
    """Add a version of the set, unless the newest one is the very same."""
    name = proper_name(name)
    newest = find(action.read, KIND, name)
    refuse_late(action.read, name, newest, based_on)
    content = msgspec.json.encode(plain(golf_set)).decode()
    spoken = words.encode() if isinstance(words, str) else words
    if newest and not newest.hidden and (newest.content, newest.original_sha256) == (content, fingerprint(spoken)):
        return Saved(name, newest.version, new=False)
    [added] = append(action, KIND, [Addition(name, content, newest, spoken)])
    seasons.tell(action, added, name, golf_set, spoken)
    return Saved(name, added.version, new=True)


def refuse_late(read: Read, name: str, newest: Version | None, based_on: int | None) -> None:
    """Refuse what was begun from a version that is no longer the newest (None: nobody said which was seen)."""
    if based_on is not None and (newest.version if newest else 0) != based_on:
        raise Stale(stale(read, name, based_on, newest))


def stale(read: Read, name: str, based_on: int, newest: Version | None) -> str:
    """The sentence for a save that came too late, naming both versions."""
    if newest is None:
        return f"{name} is not stored any more, though version {based_on} was given as seen; nothing was stored"
    last = history(read, name)[0]
    seen = f"version {based_on}" if based_on else "when it was not stored yet"
    return (
        f"{name} has moved on: you began from {seen}, and {last.who} stored version {newest.version} at {last.at}; "
        f"nothing was stored: look at it (asplayed show {name!r}) and try again"
    )


def undo(action: Action, name: str, based_on: int | None = None) -> Saved:
    """Add a version that is what stood before the one that stands now."""
    name = proper_name(name)
    newest = find(action.read, KIND, name)
    if newest is None:
        raise Missing(missing(action.read, name))
    refuse_late(action.read, name, newest, based_on)
    back_to = (newest.version if newest.restores is None else newest.restores) - 1
    if back_to < 0:
        raise BadInput(f"there is nothing left to undo of {name}: it stands as it was before its first version")
    return go_to(action, name, newest, back_to)


def go_to(action: Action, name: str, newest: Version, number: int) -> Saved:
    """Add a version that is what stood as version `number`; 0: before the first, when there was none to be seen."""
    wanted = find(action.read, KIND, name, number) if number else newest
    assert wanted is not None  # versions are numbered without gaps
    hidden = number == 0 or bool(wanted.hidden)
    words = original(action.read, wanted)
    [added] = append(action, KIND, [Addition(name, wanted.content, newest, words, hidden, number)])
    seasons.tell(action, added, name, decode(added), words)
    return Saved(name, added.version, new=True, hidden=hidden)


def redo(action: Action, name: str, based_on: int | None = None) -> Saved:
    """Add a version that is what stood before the last undo."""
    name = proper_name(name)
    newest = find(action.read, KIND, name)
    if newest is None:
        raise Missing(missing(action.read, name))
    refuse_late(action.read, name, newest, based_on)
    own = [entry.version for entry in history(action.read, name) if entry.restores is None]
    if newest.restores is None or newest.restores >= own[0]:
        raise BadInput(f"there is nothing to redo of {name}: the last thing done to it was no undo")
    return go_to(action, name, newest, newest.restores + 1)


def hide(action: Action, name: str) -> Saved:
    """Add a version that takes the set out of use."""
    stored = load(action.read, name)
    newest = find(action.read, KIND, stored.name)
    assert newest is not None
    [added] = append(action, KIND, [Addition(stored.name, newest.content, newest, stored.original, hidden=True)])
    seasons.tell(action, added, stored.name, stored.golf_set, stored.original)
    return Saved(stored.name, added.version, new=True, hidden=True)


def load(read: Read, name: str, version: int | None = None) -> StoredSet:
    """The set stored as `name`; a missing or hidden one is refused with the nearest names."""
    name = proper_name(name)
    found = find(read, KIND, name, version)
    if found is None and version is not None and find(read, KIND, name):
        raise Missing(f"{name} has no version {version}; asplayed keep history {name!r} shows those there are")
    if found is None:
        raise Missing(missing(read, name))
    if found.hidden and version is None:
        raise Missing(f"{name} was taken out of use; asplayed keep history {name!r} shows when, and by whom")
    return StoredSet(name, found.version, decode(found), original(read, found))


def decode(version: Version) -> GolfSet:
    """The set in a stored version."""
    try:
        return msgspec.json.decode(version.content, type=GolfSet)
    except msgspec.MsgspecError as fault:
        raise StoreUnusable(f"the store is damaged: a set in it cannot be read ({fault})") from None


def original(read: Read, version: Version) -> bytes:
    """The words a version was read from, byte for byte."""
    rows = read("SELECT words FROM originals WHERE sha256 = :sha256", sha256=version.original_sha256)
    if not rows or fingerprint(rows[0][0]) != version.original_sha256:
        raise StoreUnusable("the store is damaged: the words of a set are not what was written; nothing was changed")
    return bytes(rows[0][0])


ENTRIES = "SELECT name, player, date, clubs, version FROM sets WHERE name IS NOT NULL ORDER BY name"


def entries(read: Read) -> tuple[SetEntry, ...]:
    """Every set that is not hidden, by name."""
    with in_bulk():
        return tuple(map(partial(tuple.__new__, SetEntry), read(ENTRIES)))


def history(read: Read, name: str) -> tuple[VersionEntry, ...]:
    """Every version of a set, newest first."""
    name = proper_name(name)
    rows = read(
        "SELECT v.version, a.at, a.who, a.what, a.why, v.restores, v.hidden FROM records AS r "
        "JOIN versions AS v ON v.record_id = r.id JOIN actions AS a ON a.id = v.action_id "
        "WHERE r.kind = :kind AND r.name = :name ORDER BY v.version DESC",
        kind=KIND,
        name=name,
    )
    if not rows:
        raise Missing(missing(read, name))
    return tuple(VersionEntry._make((*row[:-1], bool(row[-1]))) for row in rows)


def missing(read: Read, name: str) -> str:
    """The sentence for a name under which nothing is stored, with the nearest names that are."""
    known = [entry.name for entry in entries(read)]
    if not known:
        return f"there is no set {name!r}, and no file of that name: nothing is stored yet (asplayed take LIST stores)"
    folded = {entry.casefold(): entry for entry in known}
    near = difflib.get_close_matches(name.casefold(), folded, n=3)
    hint = f"did you mean {' or '.join(folded[entry] for entry in near)}?" if near else "asplayed keep list shows all"
    return f"there is no set {name!r}, and no file of that name; {hint}"
