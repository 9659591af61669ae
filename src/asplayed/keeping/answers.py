"""What somebody answered about a part, remembered for the next list that leaves the same open about it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TYPE_CHECKING

from asplayed.clubs import Club
from asplayed.keeping.reading import Read
from asplayed.keeping.versions import Addition, append, find, storable

if TYPE_CHECKING:
    from asplayed.keeping.store import Action

KIND = "answer"

# Fields that are the same wherever the part turns up. A flex, a loft or a length is one set's own.
OF_THE_PART = {
    "head.name", "head.bounce", "head.lie", "head.mass", "sleeve.loft_change", "sleeve.lie_change",
    "shaft.name", "shaft.mass", "shaft.torque", "grip.name", "grip.mass",
}  # fmt: skip


def key(club: Club, about: str) -> str | None:
    """The field and the words by which the part would be known again; None for what is this set's own.

    >>> from asplayed.clubs import Head, Sleeve
    >>> driver = Club(club="driver", kind="driver", head=Head(name="Dunlin"), sleeve=Sleeve(position="B3"))
    >>> key(driver, "sleeve.loft_change"), key(driver, "length")
    ('["sleeve.loft_change", "dunlin", "B3"]', None)
    """
    owner = about.partition(".")[0]
    part = {"head": club.head, "sleeve": club.head, "shaft": club.shaft, "grip": club.grip}.get(owner)
    if about not in OF_THE_PART or part is None or not part.name:
        return None
    variant: object = None
    if owner == "sleeve":
        variant = club.sleeve and club.sleeve.position
    elif owner == "head":
        variant = club.head.loft and club.head.loft.value
    elif owner == "shaft":
        variant = club.shaft.flex
    return json.dumps([about, " ".join(part.name.split()).casefold(), variant], ensure_ascii=False)


def remember(action: Action, answers: Mapping[str, str]) -> None:
    """Remember each answer under its key; the same one again changes nothing."""
    additions = []
    for name, value in ((storable(each), storable(answers[each])) for each in answers):
        newest = find(action.read, KIND, name)
        if newest is None or newest.content != value:
            additions.append(Addition(name, value, newest))
    append(action, KIND, additions)


def recall(read: Read, club: Club, about: str) -> str | None:
    """The answer remembered for this field of this club's part, or None."""
    name = key(club, about)
    found = None if name is None else find(read, KIND, name)
    return found and found.content
