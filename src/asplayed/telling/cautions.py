"""The cautions a set calls for, from one table (`data/cautions.toml`)."""

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
def _table() -> tuple[Caution, ...]:
    text = resources.files("asplayed.telling").joinpath("data/cautions.toml").read_text(encoding="utf-8")
    return tuple(Caution(entry["when"], entry["sentence"]) for entry in tomllib.loads(text)["caution"])


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
    return found


def cautions(golf_set: GolfSet) -> list[str]:
    """The sentences of every caution that something in the set calls for, and those that always stand.

    >>> len(cautions(GolfSet())) < len(_table())
    True
    """
    called = {"always"}.union(*(_calls(club) for club in golf_set.clubs))
    return [caution.sentence for caution in _table() if caution.when in called]
