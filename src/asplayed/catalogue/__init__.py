"""Published parts: what makers say, when each was offered, and which part a list means.

`read_parts` takes tables in, `find` looks a name up, `settle` settles a whole set.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from asplayed.catalogue.matching import Catalogue, find
    from asplayed.catalogue.parts import ImportedParts, Part, read_parts, write_parts
    from asplayed.catalogue.settling import settle

__all__ = ["Catalogue", "ImportedParts", "Part", "find", "read_parts", "settle", "write_parts"]

_HOMES = {"Catalogue": "matching", "find": "matching", "settle": "settling"}


def __getattr__(name: str) -> Any:
    """Each name from its module when first asked for, so that reading one part does not load the matcher."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    import importlib

    return getattr(importlib.import_module(f"asplayed.catalogue.{_HOMES.get(name, 'parts')}"), name)
