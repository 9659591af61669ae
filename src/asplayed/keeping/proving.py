"""Proving a store, or a backup of one, whole: file, keys, chain, hashes, every record read, every figure worked out."""

from __future__ import annotations

import importlib
import math
import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path
from typing import Any, NamedTuple

import msgspec

from asplayed.clubs import GolfSet, played_set
from asplayed.errors import AsplayedError, BadInput, StoreUnusable
from asplayed.keeping import balancing, chain, files, searching, seasons
from asplayed.keeping.places import (
    PATIENCE,
    Place,
    Read,
    Where,
    can_write,
    engine_named,
    explain,
    find_place,
    looking,
    schema_of,
)
from asplayed.keeping.results import read_place
from asplayed.keeping.versions import find, fingerprint
from asplayed.quantities import Figure
from asplayed.workshop.records import Check, Order

CHAINED = "0002"
"""The first schema with a chain."""

TOLD = "0003"
"""The first schema in which the words of sets are told beside them."""

TALLIED = "0004"
"""The first schema with the tallies and the list of sets as they are now."""

SERVED = "0005"
"""The first schema with the accounts of a shop."""

WRONGLY_LISTED = """
SELECT r.name, r.version FROM records AS r JOIN sets AS s ON s.record_id = r.id WHERE s.version <> r.version
OR (r.hidden = 0 AND COALESCE(s.name, '') <> r.name) OR (r.hidden = 1 AND s.name IS NOT NULL)
"""

RECORDS = {
    "set": "asplayed.clubs:GolfSet",
    "part": "asplayed.catalogue.parts:Part",
    "session": "asplayed.keeping.shots:StoredShots",
    "player": "asplayed.players.records:Player",
    "order": "asplayed.workshop.records:Order",
    "check": "asplayed.workshop.records:Check",
    "progress": "asplayed.workshop.records:Progress",
    "stock": "asplayed.workshop.stock:StockLine",
    "attachment": "asplayed.keeping.attaching:Attachment",
    "erasure": "asplayed.keeping.erasing:Erasure",
}
"""What the JSON of each kind of record is read as."""

AT_A_TIME = 500
MOST_FAULTS = 200


class Proof(NamedTuple):
    """What was looked at, how much of it, and every fault found, one sentence each."""

    place: Place
    checked: dict[str, int | str]
    faults: tuple[str, ...]

    @property
    def ok(self) -> bool:
        """True when nothing was found wrong."""
        return not self.faults


def prove(where: Where = None, *, figures: bool = True, head: str | None = None) -> Proof:
    """Look at all of a store or backup, changing nothing.

    `figures` also works every computed figure of the newest sets out. `head` is a hash of the chain that was noted
    down before: a past that has lost or rewritten it is a fault.
    """
    place = find_place(where)
    if isinstance(place, Path) and not place.exists():
        raise BadInput(f"there is no store {place}; check the path")
    checked: Counter[str] = Counter(dict.fromkeys(("actions", "records", "versions", "originals"), 0))
    told: dict[str, int | str] = {}
    faults: list[str] = []
    try:
        schema = schema_of(place)
        if schema is None:
            raise StoreUnusable(f"{place} is empty: no store has been made in it yet")
        told["schema"] = schema
        with looking(place) as read:
            if schema >= CHAINED:
                told["head"] = chain.head(read)[1]
            for fault in found(read, checked, schema=schema, figures=figures, head=head):
                faults.append(fault)
                if len(faults) >= MOST_FAULTS:
                    faults.append("there may be more; looking stopped here")
                    break
        if schema >= TOLD and isinstance(place, Path) and can_write(place):
            faults.extend(bad_search(place))
    except AsplayedError as fault:
        faults.append(str(fault))
    except (OSError, ValueError, OverflowError, MemoryError, TypeError) as fault:
        faults.append(explain(place, fault))
    return Proof(place, {**told, **checked}, tuple(faults))


def found(read: Read, checked: Counter[str], *, schema: str, figures: bool, head: str | None) -> Iterator[str]:
    """Every fault of a store, while counting what was looked at."""
    yield from engine_named(read.engine).faults(read)
    erased, erased_actions = erasures(read)
    if schema >= CHAINED:
        checked["links"] = read("SELECT COUNT(*) FROM links")[0][0]
        yield from chain.broken(read, erased_actions)
        if head and not read("SELECT 1 FROM links WHERE sha256 = :head", head=head):
            yield f"the past that ended in {head[:12]}… is not part of this store's: actions were lost or rewritten"
    checked["actions"] = read("SELECT COUNT(*) FROM actions")[0][0]
    yield from bad_records(read, checked, erased, chained=schema >= CHAINED, figures=figures)
    yield from bad_originals(read, checked, erased)
    if schema >= TOLD:
        yield from searching.wrong_words(read)
    if schema >= TALLIED:
        checked["tallies"] = read("SELECT COUNT(*) FROM tallies")[0][0]
        yield from seasons.wrong_tallies(read)
        for name, version in read(WRONGLY_LISTED):
            yield f"the list of sets does not tell {name} as its version {version} stands"
    for kind, table in (("set", "sets"), ("part", "parts")):
        for (name,) in read(
            f"SELECT name FROM records WHERE kind = :kind AND id NOT IN (SELECT record_id FROM {table})", kind=kind
        ):
            yield f"the {kind} {name} is missing from the list of {table}"


def bad_search(place: Path) -> list[str]:
    """The fault of the full-text index, if any. SQLite looks at it only where it could write; it writes nothing."""
    with closing(
        sqlite3.connect(files.address(place, writing=True), uri=True, timeout=PATIENCE, isolation_level=None)
    ) as made:
        files.guard(made)
        try:
            made.execute("BEGIN IMMEDIATE")
            made.execute("INSERT INTO search (search) VALUES ('integrity-check')")
            made.execute("ROLLBACK")
        except sqlite3.DatabaseError as fault:
            if "locked" in str(fault):
                return [explain(place, fault)]
            return [f"the index of words is damaged ({fault}); what was stored is judged by the other faults alone"]
    return []


def erasures(read: Read) -> tuple[frozenset[int], frozenset[int]]:
    """The records and the actions that were lawfully erased."""
    rows = read("SELECT v.content FROM versions AS v JOIN records AS r ON r.id = v.record_id WHERE r.kind = 'erasure'")
    records: set[int] = set()
    actions: set[int] = set()
    for (content,) in rows:
        try:
            told = msgspec.json.decode(content)
            records.update(told["records"])
            actions.update(told["actions"])
        except (msgspec.MsgspecError, KeyError, TypeError):
            continue  # told as a record that cannot be read
    return frozenset(records), frozenset(actions)


def bad_records(
    read: Read, checked: Counter[str], erased: frozenset[int], *, chained: bool, figures: bool
) -> Iterator[str]:
    """Faults of records and their versions: hashes, numbering, what cannot be read or worked out."""
    sealed = "salt, seal" if chained else "NULL, NULL"
    last = 0
    while rows := read(
        f"SELECT id, kind, name, version, hidden, {sealed} FROM records WHERE id > :last ORDER BY id LIMIT :most",
        last=last, most=AT_A_TIME,
    ):  # fmt: skip
        first, last = rows[0][0], rows[-1][0]
        versions: dict[int, list[Any]] = {}
        for row in read(
            "SELECT record_id, version, hidden, content, content_sha256, original_sha256 FROM versions "
            "WHERE record_id BETWEEN :first AND :last ORDER BY record_id, version",
            first=first, last=last,
        ):  # fmt: skip
            versions.setdefault(row[0], []).append(row[1:])
        for record_id, kind, name, version, hidden, salt, seal in rows:
            checked["records"] += 1
            called = f"the {kind} {name}"
            its = versions.get(record_id, [])
            if [row[0] for row in its] != list(range(1, version + 1)):
                yield f"{called} should have versions 1 to {version} and has {len(its)} of them"
            elif its[-1][1] != hidden:
                yield f"{called} is not hidden or shown as its newest version says"
            if chained and record_id not in erased and seal != chain.seal(str(salt), kind, name):
                yield f"{called} is not under the name it was stored with"
            for number, _, content, sha256, original in its:
                checked["versions"] += 1
                if record_id in erased and not content:
                    checked["erased"] += 1
                    continue
                if fingerprint(content) != sha256:
                    yield f"version {number} of {called} is not what was written"
                elif kind == "set" and original is None:
                    yield f"version {number} of {called} has lost the words it was read from"
                else:
                    newest = figures and number == version and not hidden
                    yield from unreadable(f"version {number} of {called}", kind, content, checked, figures=newest)
                    if kind == "check" and newest:
                        yield from unlike_its_order(read, content)


def unreadable(called: str, kind: str, content: str, checked: Counter[str], *, figures: bool) -> Iterator[str]:
    """The faults of one stored text: it cannot be read as its kind, or what it says cannot be worked out."""
    if kind == "result":
        if read_place(content) is None:
            yield f"{called} is no place in an event"
        return
    if kind == "answer":  # the very words of the answer
        return
    if kind != "columns" and kind not in RECORDS:
        yield f"{called} is of a kind that this release does not know"
        return
    try:
        record = msgspec.json.decode(content, type=dict[str, str] if kind == "columns" else record_type(kind))
    except (msgspec.MsgspecError, RecursionError) as fault:
        yield f"{called} cannot be read: {fault}"
        return
    if figures and isinstance(record, Order):
        yield from (f"{each.sentence} ({each.code})" for each in balancing.of_order(record))
    if figures and isinstance(record, GolfSet):
        try:
            worked_out = played_set(record)
        except Exception as fault:  # whatever a rule trips over is what is asked here
            yield f"{called} cannot be worked out: {type(fault).__name__}: {fault}"
            return
        yield from (f"{called}: {each.sentence} ({each.code})" for each in balancing.of_set(worked_out))
        for club in worked_out.clubs:
            for field in club.as_played.__struct_fields__:
                entry = getattr(club.as_played, field)
                if isinstance(entry, Figure) and entry.value is not None:
                    checked["figures"] += 1
                    if isinstance(entry.value, float) and not math.isfinite(entry.value):
                        yield f"{called}: the {field} of the {club.club} is not a finite number"


def unlike_its_order(read: Read, content: str) -> Iterator[str]:
    """The faults of a signed check that does not hold the clubs against its order; what cannot be read is told of."""
    with suppress(msgspec.MsgspecError, AsplayedError):
        check = msgspec.json.decode(content, type=Check)
        kept = find(read, "order", check.order)
        order = None if kept is None or kept.hidden else msgspec.json.decode(kept.content, type=Order)
        yield from (f"{each.sentence} ({each.code})" for each in balancing.of_check(check, order))


def record_type(kind: str) -> Any:
    """The type that a kind of record is read as."""
    module, _, name = RECORDS[kind].partition(":")
    return getattr(importlib.import_module(module), name)


def bad_originals(read: Read, checked: Counter[str], erased: frozenset[int]) -> Iterator[str]:
    """Words and files that are not what was written, told by their own hash."""
    last = ""
    while rows := read(
        "SELECT sha256, words FROM originals WHERE sha256 > :last ORDER BY sha256 LIMIT :most",
        last=last, most=AT_A_TIME,
    ):  # fmt: skip
        last = rows[-1][0]
        for sha256, words in rows:
            checked["originals"] += 1
            if fingerprint(words) == sha256:
                continue
            owners = read("SELECT record_id FROM versions WHERE original_sha256 = :sha256", sha256=sha256)
            if words or not erased.issuperset(row[0] for row in owners):
                yield f"the original {sha256[:12]}… is not what was written"
