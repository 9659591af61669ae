"""What the newest versions say, repeated in tables so that lists and questions need not open every record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet
from asplayed.keeping import parts, results, seasons, sets
from asplayed.keeping.seasons import Tally
from asplayed.keeping.versions import Version

if TYPE_CHECKING:
    from asplayed.keeping.store import Action

AT_A_TIME = 500

NEWEST = """
SELECT r.name, v.record_id, v.version, v.hidden, v.restores, v.content, v.content_sha256, v.original_sha256
FROM records AS r JOIN versions AS v ON v.record_id = r.id AND v.version = r.version
WHERE r.kind = :kind AND r.id > :last ORDER BY r.id LIMIT :most
"""

TOLD = ("tallies", "clubs", "search", "sets", "parts")


def tell_all(action: Action) -> None:
    """Tell everything anew from the newest versions, whatever the tables said before."""
    for table in TOLD:
        action.connection.exec_driver_sql(f"DELETE FROM {table}")
    won = {
        name: place.number
        for name, version in all_newest(action, results.KIND)
        if (place := results.read_place(version.content)) is not None and not version.hidden
    }
    counted: Counter[Tally] = Counter()
    for name, version in all_newest(action, sets.KIND):
        golf_set = sets.decode(version) if version.content else GolfSet()
        words = sets.original(action.read, version) if version.content else b""
        counted.update(seasons.tell_new(action, version, name, golf_set, words, won.get(name)))
    seasons.count(action, counted, 1)
    for _, version in all_newest(action, parts.KIND):
        parts.note_facts(action, version, parts.decode(version.content), new=True)


def all_newest(action: Action, kind: str) -> Iterator[tuple[str, Version]]:
    """The newest version of every record of a kind, with its name, in the order the names came."""
    last = 0
    while rows := action.read(NEWEST, kind=kind, last=last, most=AT_A_TIME):
        last = rows[-1][1]
        for row in rows:
            yield row[0], (Version._make(row[1:]).checked() if row[5] else Version._make(row[1:]))
