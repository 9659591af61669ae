"""What differs between two sets, two versions of one, or one at two dates, club by club and field by field."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, NamedTuple

import msgspec

from asplayed.clubs import GolfSet
from asplayed.clubs.names import labels
from asplayed.errors import BadInput
from asplayed.keeping import sets
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.versions import find
from asplayed.quantities import Figure

WORKED_OUT = frozenset({"lines", "as_played"})
"""Fields of a club that are no fact of it: where it was read, and what is worked out from the rest."""


class Difference(NamedTuple):
    """One field that differs; `club` is None for what is said of the whole set, a missing side is None."""

    club: str | None
    field: str
    before: str | None
    after: str | None


def find_at(read: Read, called: str) -> sets.StoredSet:
    """The set behind NAME, NAME@VERSION, or NAME@YYYY-MM-DD (as it stood at the end of that day, UTC)."""
    name, mark, when = called.rpartition("@")
    if not mark or not re.fullmatch(r"\d+|\d{4}-\d\d-\d\d", when) or find(read, sets.KIND, sets.proper_name(called)):
        return sets.load(read, called)
    if "-" not in when:
        return sets.load(read, name, int(when[:9]))
    entries = [entry for entry in sets.history(read, name) if entry.at[:10] <= when]
    if not entries:
        raise BadInput(f"{name} was not stored yet on {when}; asplayed keep history {name!r} shows when it was")
    if entries[0].hidden:
        raise BadInput(f"{name} was out of use on {when}; asplayed keep history {name!r} shows when it was not")
    return sets.load(read, name, entries[0].version)


def compare(before: str, after: str, where: Where = None) -> tuple[Difference, ...]:
    """What differs between two stored sets, each NAME, NAME@VERSION or NAME@YYYY-MM-DD."""
    with reading(where) as read:
        return differences(find_at(read, before).golf_set, find_at(read, after).golf_set)


def differences(before: GolfSet, after: GolfSet) -> tuple[Difference, ...]:
    """What differs between two sets: what is said of the whole first, then club by club.

    >>> from asplayed.clubs import Club, Shaft
    >>> one, two = (GolfSet(clubs=(Club(club="7 iron", kind="iron", shaft=Shaft(flex=flex)),)) for flex in "SX")
    >>> differences(one, two)
    (Difference(club='7 iron', field='shaft.flex', before='S', after='X'),)
    """
    found: list[Difference] = []
    told = [{**dict(facts("", each.set)), **dict(facts("ball", each.ball))} for each in (before, after)]
    sides: list[tuple[str | None, dict[str, str], dict[str, str]]] = [(None, told[0], told[1])]
    clubs = [dict(zip(labels(each.clubs), each.clubs, strict=True)) for each in (before, after)]
    for label in dict.fromkeys([*clubs[0], *clubs[1]]):
        if label in clubs[0] and label in clubs[1]:
            sides.append((label, dict(facts("", clubs[0][label])), dict(facts("", clubs[1][label]))))
        else:
            there = [label if label in side else None for side in clubs]
            found.append(Difference(label, "club", there[0], there[1]))
    for called, first, second in sides:
        for field in dict.fromkeys([*first, *second]):
            if first.get(field) != second.get(field):
                found.append(Difference(called, field, first.get(field), second.get(field)))
    return tuple(sorted(found, key=lambda each: each.club is not None))


def facts(path: str, value: Any) -> Iterator[tuple[str, str]]:
    """Every fact in a record that says something, as its path and its text."""
    if value is None or value == ():
        return
    if isinstance(value, Figure):
        if value.value is not None:
            unit = "" if value.unit == "1" else f" {value.unit}"
            yield path, f"{value.value:g}{unit}" if value.has_number else str(value.value)
        elif value.low is not None and value.high is not None:
            yield path, f"{value.low:g} to {value.high:g} {value.unit}"
    elif isinstance(value, msgspec.Struct):
        for field in value.__struct_fields__:
            if path or field not in WORKED_OUT:
                yield from facts(f"{path}.{field}" if path else field, getattr(value, field))
    elif isinstance(value, tuple):
        for number, entry in enumerate(value, start=1):
            yield from facts(f"{path} {number}", entry)
    else:
        yield path, str(value)
