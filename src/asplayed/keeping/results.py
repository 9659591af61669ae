"""The place that a set's player took with it in its event."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput
from asplayed.keeping import seasons, sets
from asplayed.keeping.versions import Addition, append, find

if TYPE_CHECKING:
    from asplayed.keeping.store import Action, Store

KIND = "result"


_PLACE = re.compile(r"(?P<tied>[Tt=])?(?P<place>[0-9]{1,5})")


class Place(NamedTuple):
    """A place in an event, 1 for the winner, alone or shared."""

    number: int
    tied: bool = False

    def __str__(self) -> str:
        """As a table of results writes it.

        >>> str(Place(3, tied=True)), str(Place(12))
        ('T3', '12')
        """
        return f"{'T' if self.tied else ''}{self.number}"


def read_place(text: str) -> Place | None:
    """The place that a text says, `T3` or `=3` where it was shared; None where it says none.

    >>> read_place("T3"), read_place("1"), read_place("cut")
    (Place(number=3, tied=True), Place(number=1, tied=False), None)
    """
    found = _PLACE.fullmatch(text.strip())
    return Place(int(found["place"]), bool(found["tied"])) if found else None


def save_result(
    store: Store, set_name: str, place: int, *, who: str, why: str | None = None, tied: bool = False
) -> bool:
    """Keep the place (1 is the winner's) with a stored set, `tied` where it was shared; True where that is new."""
    content = str(Place(place, tied))
    if not 1 <= place <= 10_000:
        raise BadInput(f"a place is a number from 1, not {place}")
    with store.acting("result", who=who, why=why) as action:
        name = sets.load(action.read, set_name).name
        newest = find(action.read, KIND, name)
        if newest is not None and newest.content == content:
            return False
        append(action, KIND, [Addition(name, content, newest)])
        note(action, name, content)
    return True


def note(action: Action, set_name: str, content: str) -> None:
    """Let the tallies know of a set's stored result."""
    version = find(action.read, sets.KIND, set_name)
    place = read_place(content)
    if version is not None and place is not None:
        seasons.note_result(action, version.record_id, place.number)
