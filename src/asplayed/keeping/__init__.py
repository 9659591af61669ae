"""The store: sets, parts and what was learned, every version of each, with who, when and why.

`open_store` opens it to write. `read_set` and `stored_parts` read without the half second that takes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from asplayed.keeping.places import Where, find_place
from asplayed.keeping.reading import reading

if TYPE_CHECKING:
    from asplayed.catalogue.parts import Part
    from asplayed.keeping.sets import SetEntry, StoredSet, VersionEntry
    from asplayed.keeping.store import Store, open_store

__all__ = [
    "SetEntry",
    "Store",
    "StoredSet",
    "VersionEntry",
    "Where",
    "find_place",
    "list_sets",
    "open_store",
    "read_set",
    "set_history",
    "stored_parts",
]


def read_set(name: str, where: Where = None, version: int | None = None) -> StoredSet:
    """The set stored as `name`, in its newest version or the one asked for."""
    from asplayed.keeping import sets

    with reading(where) as read:
        return sets.load(read, name, version)


def list_sets(where: Where = None) -> tuple[SetEntry, ...]:
    """Every stored set that is not hidden, by name."""
    from asplayed.keeping import sets

    with reading(where) as read:
        return sets.entries(read)


def set_history(name: str, where: Where = None) -> tuple[VersionEntry, ...]:
    """Every version of a set, newest first."""
    from asplayed.keeping import sets

    with reading(where) as read:
        return sets.history(read, name)


def stored_parts(where: Where = None) -> tuple[Part, ...]:
    """Every part of the stored catalogue, in the order they came; none where there is no store yet."""
    from asplayed.keeping import parts

    with reading(where) as read:
        return parts.load(read)


def __getattr__(name: str) -> Any:
    """The writing side, brought in when first asked for."""
    if name in {"Store", "open_store"}:
        from asplayed.keeping import store

        return getattr(store, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
