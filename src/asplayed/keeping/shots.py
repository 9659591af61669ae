"""Shots and players kept with a set: every session as it was imported, and what is known of the player."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import msgspec

from asplayed.clubs.records import Record
from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.versions import Addition, Version, append, find, fingerprint
from asplayed.players.records import Player, SessionFacts
from asplayed.quantities import plain

if TYPE_CHECKING:
    from asplayed.keeping.store import Store
    from asplayed.players.summaries import Session

SESSION = "session"
PLAYER = "player"

# A set's name never holds a slash, so that its sessions can be found by what stands before it.
FIND_SESSIONS = """
SELECT v.record_id, v.version, v.hidden, v.restores, v.content, v.content_sha256, v.original_sha256
FROM records AS r JOIN versions AS v ON v.record_id = r.id AND v.version = r.version
WHERE r.kind = :kind AND r.hidden = 0 AND substr(r.name, 1, length(:before)) = :before ORDER BY r.id
"""


class StoredShots(Record, frozen=True, kw_only=True):
    """A session as stored: SI columns as long as `row`, null where nothing was read."""

    facts: SessionFacts
    clubs: tuple[str, ...]
    row: tuple[int, ...]
    club: tuple[int, ...]
    columns: dict[str, tuple[float | None, ...]]
    notes: tuple[tuple[int, str, str], ...] = ()


class SessionSaved(msgspec.Struct, frozen=True):
    """What saving a session did: its name, and whether it was not there before."""

    name: str
    new: bool


def save_session(
    store: Store,
    set_name: str,
    session: Session,
    words: bytes,
    *,
    who: str,
    notes: tuple[tuple[int, str, str], ...] = (),
) -> SessionSaved:
    """Keep a session with a set, and the file it came from; the same shots of the same session again change nothing."""
    shots = session.shots
    stored = {
        "facts": plain(session.facts),
        "clubs": list(shots.clubs),
        "row": shots.row.tolist(),
        "club": shots.club.tolist(),
        "columns": {name: column.tolist() for name, column in shots.columns.items()},
        "notes": [list(note) for note in notes],
    }
    content = msgspec.json.encode(stored).decode()
    name = f"{set_name}/{fingerprint(content)[:16]}"
    with store.acting("shots import", who=who) as action:
        newest = find(action.read, SESSION, name)
        if newest is not None and not newest.hidden:
            return SessionSaved(name, False)
        append(action, SESSION, [Addition(name, content, newest, words)])
    return SessionSaved(name, True)


def hide_session(store: Store, set_name: str, number: int, *, who: str) -> str:
    """Take the session of that number (from 1, as `stored_sessions` lists them) out of use; its history stays."""
    with store.acting("shots hide", who=who) as action:
        versions = _sessions(action.read, set_name)
        if not 1 <= number <= len(versions):
            there = f"there are sessions 1 to {len(versions)}" if versions else "no shots are stored for it"
            raise BadInput(f"{set_name} has no session {number}; {there}")
        chosen = versions[number - 1]
        [(name,)] = action.read("SELECT name FROM records WHERE id = :id", id=chosen.record_id)
        append(action, SESSION, [Addition(name, chosen.content, chosen, hidden=True)])
    return str(name)


def stored_sessions(set_name: str, where: Where = None) -> tuple[Session, ...]:
    """The sessions kept with a set, oldest first."""
    import numpy as np

    from asplayed.players.shots import Shots
    from asplayed.players.summaries import Session

    found = []
    with reading(where) as read:
        versions = _sessions(read, set_name)
    for version in versions:
        stored: StoredShots = _decoded(version.content, StoredShots)
        columns = {name: np.array(values, dtype=np.float64) for name, values in stored.columns.items()}
        shots = Shots(
            np.array(stored.row, dtype=np.int64), np.array(stored.club, dtype=np.int64), stored.clubs, columns
        )
        found.append(Session(stored.facts, shots))
    return tuple(found)


def _sessions(read: Read, set_name: str) -> list[Version]:
    rows = read(FIND_SESSIONS, kind=SESSION, before=f"{set_name}/")
    return [Version._make(row).checked() for row in rows]


def _decoded(content: str, kind: type[Any]) -> Any:
    try:
        return msgspec.json.decode(content, type=kind)
    except msgspec.MsgspecError as fault:
        raise StoreUnusable(f"the store is damaged: a record of shots or a player cannot be read ({fault})") from None


def save_player(store: Store, set_name: str, player: Player, *, who: str) -> bool:
    """Keep what is known of the player of a set; True where that is new."""
    content = msgspec.json.encode(plain(player)).decode()
    with store.acting("player", who=who) as action:
        newest = find(action.read, PLAYER, set_name)
        if newest is not None and newest.content == content:
            return False
        append(action, PLAYER, [Addition(set_name, content, newest)])
    return True


def stored_player(set_name: str, where: Where = None) -> Player | None:
    """What is kept of the player of a set, or None."""
    with reading(where) as read:
        found = find(read, PLAYER, set_name)
    return None if found is None or found.hidden else _decoded(found.content, Player)
