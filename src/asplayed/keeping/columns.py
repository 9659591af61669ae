"""What the columns of a table mean, remembered from the first time somebody said so."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from asplayed.keeping.reading import Read
from asplayed.keeping.versions import Addition, append, find

if TYPE_CHECKING:
    from asplayed.keeping.store import Action

KIND = "columns"


def key(header: Sequence[str]) -> str:
    """The header as one name: its cells in their order, letter case and outer blanks aside."""
    return json.dumps([" ".join(cell.split()).casefold() for cell in header], ensure_ascii=False)


def remember(action: Action, header: Sequence[str], mapping: Mapping[str, str]) -> None:
    """Remember the mapping for this header; the same one again changes nothing."""
    content = json.dumps(dict(mapping), ensure_ascii=False, sort_keys=True)
    newest = find(action.read, KIND, key(header))
    if newest is None or newest.content != content:
        append(action, KIND, [Addition(key(header), content, newest)])


def recall(read: Read, header: Sequence[str]) -> dict[str, str] | None:
    """The mapping remembered for this header, or None."""
    found = find(read, KIND, key(header))
    return None if found is None else dict(json.loads(found.content))
