"""The place that a set's player took with it in its event."""

from __future__ import annotations

from typing import TYPE_CHECKING

from asplayed.errors import BadInput
from asplayed.keeping import seasons, sets
from asplayed.keeping.versions import Addition, append, find

if TYPE_CHECKING:
    from asplayed.keeping.store import Action, Store

KIND = "result"


def save_result(store: Store, set_name: str, place: int, *, who: str, why: str | None = None) -> bool:
    """Keep the place (1 is the winner's) with a stored set; True where that is new."""
    if not 1 <= place <= 10_000:
        raise BadInput(f"a place is a number from 1, not {place}")
    with store.acting("result", who=who, why=why) as action:
        name = sets.load(action.read, set_name).name
        newest = find(action.read, KIND, name)
        if newest is not None and newest.content == str(place):
            return False
        append(action, KIND, [Addition(name, str(place), newest)])
        note(action, name, str(place))
    return True


def note(action: Action, set_name: str, content: str) -> None:
    """Let the tallies know of a set's stored result."""
    version = find(action.read, sets.KIND, set_name)
    if version is not None and content:
        seasons.note_result(action, version.record_id, int(content))
