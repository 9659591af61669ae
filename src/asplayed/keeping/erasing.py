"""Lawful erasure: what is kept of a person is taken out of every version, and that it was is itself kept.

The chain still holds afterwards: it is made of hashes, and of seals whose salt goes too.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import msgspec

from asplayed.clubs import GolfSet
from asplayed.clubs.records import Record
from asplayed.errors import BadInput
from asplayed.keeping import searching, seasons, sets
from asplayed.keeping.orders import ORDER
from asplayed.keeping.places import Read
from asplayed.keeping.versions import Addition, append, find
from asplayed.quantities import plain

if TYPE_CHECKING:
    from asplayed.keeping.store import Action, Store

KIND = "erasure"
BELONGING = ("session", "player", "attachment", "result")
"""Kinds that are named by the set they belong to, alone or before a slash."""

CONTENTS = """
SELECT r.id, r.name, v.content FROM records AS r JOIN versions AS v ON v.record_id = r.id
WHERE r.kind = :kind AND v.content <> '' AND r.id > :last AND r.id <= :last + :most ORDER BY r.id
"""

AT_A_TIME = 500

OTHERS = """
SELECT words.sha256 FROM originals AS words WHERE words.sha256 IN
    (SELECT original_sha256 FROM versions WHERE record_id = :number)
AND NOT EXISTS (SELECT 1 FROM versions AS v WHERE v.original_sha256 = words.sha256 AND v.content <> '')
"""


class Facts(msgspec.Struct):
    """Whom a set is of."""

    player: str | None = None


class Named(msgspec.Struct):
    """As much of a set as tells whom it is of."""

    set: Facts = msgspec.field(default_factory=Facts)


class Ordered(msgspec.Struct):
    """As much of an order as tells which set it is of."""

    set_name: str | None = None


class Erasure(Record, frozen=True, kw_only=True):
    """Which records lost their contents and names, and which actions their reasons."""

    records: tuple[int, ...]
    actions: tuple[int, ...]


class Erasable(Record, frozen=True, kw_only=True):
    """A record to be erased."""

    number: int
    kind: str
    name: str


def erase_player(store: Store, player: str, *, who: str, why: str | None = None) -> tuple[Erasable, ...]:
    """Erase for good all sets in which `player` was named in any version, and all that belongs to them.

    Left is that something was done, when, and by whom. What is kept is written anew, so that nothing stays in free
    pages; a server's own logs and copies are its keeper's to clear. Backups and exports made before still hold it.
    """
    with store.acting("erasure", who=who, why=why) as action:
        found = of_player(action.read, player)
        erase(action, found)
    store.write_anew()
    return found


def of_player(read: Read, player: str) -> tuple[Erasable, ...]:
    """The records of a player: sets, and what belongs to them. A player nobody named is refused."""
    wanted = " ".join(player.split()).casefold()
    named = {}
    for number, name, content in contents(read, sets.KIND):
        told = msgspec.json.decode(content, type=Named).set.player
        if told and " ".join(told.split()).casefold() == wanted:
            named[number] = name
    if not named:
        raise BadInput(f"no set of a player {player!r} is stored; asplayed keep list shows the players")
    names = set(named.values())
    orders = {
        name: number
        for number, name, content in contents(read, ORDER)
        if msgspec.json.decode(content, type=Ordered).set_name in names
    }
    found = [Erasable(number=number, kind=sets.KIND, name=name) for number, name in named.items()]
    found += [Erasable(number=number, kind=ORDER, name=name) for name, number in orders.items()]
    for number, kind, name in read("SELECT id, kind, name FROM records WHERE kind <> 'set'"):
        if (kind in BELONGING and name.split("/")[0] in names) or (kind in ("check", "progress") and name in orders):
            found.append(Erasable(number=number, kind=kind, name=name))
    return tuple(found)


def contents(read: Read, kind: str) -> Iterator[tuple[int, str, str]]:
    """Every version of every record of a kind that was not erased: its record's number and name, and its text."""
    [(end,)] = read("SELECT COALESCE(MAX(id), 0) FROM records") or [(0,)]
    for last in range(0, end, AT_A_TIME):
        yield from read(CONTENTS, kind=kind, last=last, most=AT_A_TIME)


def erase(action: Action, found: tuple[Erasable, ...]) -> None:
    """Take contents, words, names and reasons out, and add what says so."""
    import sqlalchemy

    def write(command: str, **values: object) -> None:
        action.connection.execute(sqlalchemy.text(command), values)

    actions: set[int] = set()
    for record in found:
        rows = action.read("SELECT action_id FROM versions WHERE record_id = :number", number=record.number)
        actions.update(row[0] for row in rows)
        newest = find(action.read, record.kind, record.name)
        [emptied] = append(action, record.kind, [Addition(record.name, "", newest, hidden=True)])
        write("UPDATE versions SET content = '' WHERE record_id = :number", number=record.number)
        write("UPDATE records SET name = :name, salt = '' WHERE id = :number",
              name=f"erased {record.number}", number=record.number)  # fmt: skip
        if record.kind == sets.KIND:
            seasons.tell(action, emptied, record.name, GolfSet(), b"")
            write("UPDATE sets SET result = NULL WHERE record_id = :number", number=record.number)
    for record in found:  # words that another record was read from too stay with that one
        for (words,) in action.read(OTHERS, number=record.number):
            write("UPDATE originals SET words = :nothing WHERE sha256 = :words", nothing=b"", words=words)
    searching.forget(action)
    for number in sorted(actions):
        write("UPDATE actions SET why = NULL WHERE id = :number", number=number)
        write("UPDATE links SET salt = '' WHERE action_id = :number", number=number)
    told = Erasure(records=tuple(record.number for record in found), actions=tuple(sorted(actions)))
    append(action, KIND, [Addition(f"erasure {action.id}", msgspec.json.encode(plain(told)).decode(), None)])
