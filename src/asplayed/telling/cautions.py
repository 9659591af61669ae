"""The cautions, the care and the next visit that a set calls for, from `data/cautions.toml` and `data/care.toml`."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.telling.words import changed


class Caution(NamedTuple):
    """A caution: what calls for it, and its sentence."""

    when: str
    sentence: str


@cache
def _table(name: str = "cautions", part: str = "caution") -> tuple[Caution, ...]:
    text = resources.files("asplayed.telling").joinpath(f"data/{name}.toml").read_text(encoding="utf-8")
    return tuple(Caution(entry["when"], entry["sentence"]) for entry in tomllib.loads(text)[part])


def _calls(club: Club) -> set[str]:
    found = set()
    if changed(club.bend.loft) or changed(club.bend.lie):
        found.add("bent")
        if club.kind in {"driver", "fairway wood"}:
            found.add("bent wood")
    if changed(club.length_change):
        found.add("length changed")
    if club.weights:
        found.add("weights")
    if club.sleeve is not None:
        found.add("sleeve")
    if club.grip is not None and club.grip.wraps:
        found.add("gripped")
    if club.kind == "wedge":
        found.add("wedges")
    return found


def cautions(golf_set: GolfSet) -> list[str]:
    """The sentences of every caution that something in the set calls for, and those that always stand.

    >>> len(cautions(GolfSet())) < len(_table())
    True
    """
    called = _called(golf_set)
    return [caution.sentence for caution in _table() if caution.when in called]


def advice(golf_set: GolfSet) -> tuple[list[str], list[str]]:
    """How to care for the clubs of a set, and when to come again.

    >>> care, again = advice(GolfSet())
    >>> len(care), len(again)
    (2, 1)
    """
    called = _called(golf_set)
    care, again = (
        [entry.sentence for entry in _table("care", part) if entry.when in called] for part in ("care", "again")
    )
    return care, again


def _called(golf_set: GolfSet) -> set[str]:
    return {"always"}.union(*(_calls(club) for club in golf_set.clubs))
