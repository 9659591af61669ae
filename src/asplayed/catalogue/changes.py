"""Changes made to a set, each new part settled against the catalogue and everything else left as it is."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.catalogue.settling import settle
from asplayed.clubs import Change, Club, GolfSet, apply
from asplayed.clubs.changes import changed_club, place_of

_PARTS = {"head": "head", "shaft": "shaft", "grip": "grip", "sleeve": "sleeve"}


def settle_part(golf_set: GolfSet, club: Club, what: str, parts: Sequence[Part] | Catalogue) -> Club:
    """The club with the part that a change named settled (`what`: head, shaft, grip or sleeve); the rest untouched.

    >>> from asplayed.clubs import Shaft
    >>> level = Part(part="shaft", maker="Brunholt", model="Level 120")
    >>> iron = Club(club="7 iron", kind="iron", shaft=Shaft(name="level 120"))
    >>> settle_part(GolfSet(), iron, "shaft", [level]).shaft.maker
    'Brunholt'
    """
    field = _PARTS.get(what)
    if field is None:
        return club
    [found] = settle(replace(golf_set, clubs=(club,), ball=None), parts).clubs
    settled = replace(club, **{field: getattr(found, field)})
    return replace(settled, sleeve=found.sleeve) if field == "head" else settled


def apply_settled(golf_set: GolfSet, changes: Sequence[Change], parts: Sequence[Part]) -> GolfSet:
    """The set with the changes made in their order, every part they name settled as it comes.

    A figure that the change carried through (a head's mass in effect, say) is not put back to the published one.
    """
    catalogue = Catalogue(parts)
    for change in changes:
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
            clubs[place] = settle_part(golf_set, changed_club(clubs[place], change), change.what, catalogue)
            golf_set = replace(golf_set, clubs=tuple(clubs))
    return golf_set
