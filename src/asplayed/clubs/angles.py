"""Loft, lie, bounce and length as played: what was made, what was set, what was bent.

Every function takes `fill`: with it, what nobody said is taken from common practice and marked so; without it,
only the words count and None is answered where they do not settle a figure.
"""

from __future__ import annotations

import msgspec

from asplayed.clubs.records import Club
from asplayed.clubs.usual import banded, usual
from asplayed.quantities import Figure, Source, derive

STRONG = (Source.MEASURED, Source.STATED)


def gauged(entry: Figure | None) -> Figure | None:
    """The figure when it was measured on this very club; such a figure stands against every computation."""
    return entry if entry is not None and entry.source is Source.MEASURED and entry.has_number else None


def said(entry: Figure | None) -> Figure | None:
    """The figure when it was measured or stated of the club itself; such a figure is not worked out again."""
    return entry if entry is not None and entry.source in STRONG and entry.has_number else None


def carried(entry: Figure, why: str, weaken: tuple[Source, ...] = (Source.MEASURED,)) -> Figure:
    """A figure of a part as the figure of the club when nothing changed it.

    A source in `weaken` becomes `computed`, so that a reading of the part never stands in the way of a later bend.
    """
    if entry.source in weaken:
        return derive(lambda as_given: as_given, entry.unit, f"as {entry.source}; {why}", as_given=entry)
    return entry if entry.why else msgspec.structs.replace(entry, why=why)


def changed(made: Figure, words: str, changes: dict[str, Figure | None], what: str) -> Figure:
    """The sum of a figure as made and its changes, with the chain; without any change, the figure as made."""
    known = {name: entry for name, entry in changes.items() if entry is not None}
    if not any(entry.value or entry.half_width > 0.5 for entry in known.values()):
        return carried(made, f"{words}; nothing is known to have changed it")
    said_so = " plus ".join([words, *(name.replace("_", " ") for name in known)])
    return derive(lambda **figures: sum(figures.values()), made.unit, said_so, **{what: made, **known})


def _sleeve_loft(club: Club) -> Figure | None:
    sleeve = club.sleeve
    if sleeve is None:
        return None
    if sleeve.loft_change is not None and sleeve.loft_change.has_number:
        return banded(sleeve.loft_change, "sleeve_change")
    if sleeve.position is None:
        return None
    why = f"no chart says what position {sleeve.position} does to the loft; sleeves reach about 1.5° either way"
    return Figure(value=0.0, unit="deg", source=Source.ASSUMED, low=-1.5, high=1.5, why=why)


def loft(club: Club, *, fill: bool = True) -> Figure | None:
    """The loft as played: the stamp, the sleeve's change with the face squared, and the bend.

    >>> from asplayed.quantities import figure
    >>> from asplayed.clubs import Bend, Head
    >>> wedge = Club(club="sand wedge", kind="wedge", head=Head(loft=figure(56, "deg", "stated")),
    ...              bend=Bend(loft=figure(1, "deg", "stated")))
    >>> round(loft(wedge).value, 6), loft(wedge).why
    (57.0, 'stamped loft plus bend')
    """
    if measured := gauged(club.as_played.loft):
        return banded(measured, "loft")
    if said(club.head.loft) is None and (stated := said(club.as_played.loft)):
        return banded(stated, "loft")  # "plays at 9", and nobody said what is stamped on it
    made = banded(club.head.loft, "loft") or (usual(club, "loft") if fill else None)
    if made is None:
        return None
    changes = {"sleeve_with_the_face_squared": _sleeve_loft(club), "bend": banded(club.bend.loft, "bend")}
    return changed(made, "stamped loft", changes, "stamped_loft")


def lie(club: Club, *, fill: bool = True) -> Figure | None:
    """The lie as played: as stated of the club, else as made plus the sleeve's change and the bend.

    >>> from asplayed.quantities import figure
    >>> from asplayed.clubs import Bend, Head
    >>> upright = Club(club="7 iron", kind="iron", bend=Bend(lie=figure(2, "deg", "stated")))
    >>> lie(upright, fill=False) is None, round(lie(upright).value, 6)
    (True, 64.25)
    """
    if stated := said(club.as_played.lie):
        return banded(stated, "lie")
    made = banded(club.head.lie, "lie") or (usual(club, "lie") if fill else None)
    if made is None:
        return None
    sleeve = banded(club.sleeve.lie_change, "sleeve_change") if club.sleeve else None
    changes = {"sleeve": sleeve, "bend": banded(club.bend.lie, "bend")}
    played = changed(made, "lie as made", changes, "lie_as_made")
    # the lie of the head as made is no statement about the club as played
    return carried(played, played.why or "lie as made", (Source.STATED,))


def bounce(club: Club, *, fill: bool = True) -> Figure | None:
    """The bounce as played: as stamped plus the loft bend, a degree for a degree and of the same sign.

    >>> from asplayed.quantities import figure
    >>> from asplayed.clubs import Bend, Head
    >>> strong = Club(club="sand wedge", kind="wedge", head=Head(bounce=figure(12, "deg", "stated")),
    ...               bend=Bend(loft=figure(-2, "deg", "stated")))
    >>> round(bounce(strong).value, 6)
    10.0
    """
    if measured := gauged(club.as_played.bounce):
        return banded(measured, "bounce")
    made = banded(club.head.bounce, "bounce") or (usual(club, "bounce") if fill else None)
    if made is None:
        return None
    return changed(made, "stamped bounce", {"loft_bend": banded(club.bend.loft, "bend")}, "stamped_bounce")


def length(club: Club, *, fill: bool = True) -> Figure | None:
    """The built length: as stated, else the usual one plus the change stated.

    >>> from asplayed.quantities import figure
    >>> long = Club(club="7 iron", kind="iron", length_change=figure(0.5, "in", "stated"))
    >>> length(long, fill=False).value
    37.5
    """
    if measured := gauged(club.as_played.length):
        return banded(measured, "length")
    stated = banded(club.length, "length")
    if stated is not None:
        return carried(stated, "as built")
    change = club.length_change
    standard = usual(club, "length")
    if change is not None and change.has_number and standard is not None:
        built = banded(change, "length") or change
        return derive(
            lambda usual_length, change: usual_length + change,
            change.unit,
            "usual length plus the change",
            usual_length=standard,
            change=built,
        )
    return standard if fill else None
