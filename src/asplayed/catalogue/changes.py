"""Changes made to a set, each new part settled against the catalogue and everything else left as it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from msgspec.structs import replace

from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.catalogue.settling import settle
from asplayed.catalogue.sleeves import refuse_off_chart
from asplayed.clubs import Change, Club, GolfSet, apply
from asplayed.clubs.changes import changed_club, in_turn, place_of

_PARTS = ("head", "shaft", "grip", "sleeve")


class Settled(NamedTuple):
    """A club whose new part is settled, and what the catalogue has to say or to ask about that part."""

    club: Club
    remarks: tuple[str, ...]


def settle_part(golf_set: GolfSet, club: Club, what: str, parts: Sequence[Part] | Catalogue) -> Settled:
    """The club with the part that a change named settled (`what`: head, shaft, grip or sleeve); the rest untouched.

    A sleeve position that its chart does not have is refused.

    >>> from asplayed.clubs import Shaft
    >>> level = Part(part="shaft", maker="Brunholt", model="Level 120")
    >>> iron = Club(club="7 iron", kind="iron", shaft=Shaft(name="level 120"))
    >>> settle_part(GolfSet(), iron, "shaft", [level]).club.shaft.maker
    'Brunholt'
    """
    if what not in _PARTS:
        return Settled(club, ())
    if what == "sleeve":
        refuse_off_chart(club, parts if isinstance(parts, Catalogue) else Catalogue(parts))
    alone = replace(golf_set, clubs=(club,), ball=None, questions=(), disagreements=())
    found = settle(alone, parts)
    settled = replace(club, **{what: getattr(found.clubs[0], what)})
    if what == "head":
        settled = replace(settled, sleeve=found.clubs[0].sleeve)
    remarks = [entry.sentence for entry in found.disagreements if entry.about.startswith(what)]
    remarks += [entry.text for entry in found.questions if entry.about.startswith(what)]
    return Settled(settled, tuple(dict.fromkeys(remarks)))


def apply_settled(golf_set: GolfSet, changes: Sequence[Change], parts: Sequence[Part] | Catalogue) -> GolfSet:
    """The set with the changes made in the order of work, every part they name settled as it comes.

    A figure that the change carried through (a head's mass in effect, say) is not put back to the published one.
    """
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    for change in in_turn(changes):
        if change.what in ("ball", "add"):
            before = len(golf_set.clubs)
            made = apply(golf_set, change)
            fresh = settle(replace(made, clubs=made.clubs[before:]), catalogue)
            golf_set = replace(fresh, clubs=(*made.clubs[:before], *fresh.clubs))
        elif change.what == "drop":
            golf_set = apply(golf_set, change)
        else:
            place = place_of(golf_set, change.club)
            clubs = list(golf_set.clubs)
            clubs[place] = settle_part(golf_set, changed_club(clubs[place], change), change.what, catalogue).club
            golf_set = replace(golf_set, clubs=tuple(clubs))
    return golf_set
