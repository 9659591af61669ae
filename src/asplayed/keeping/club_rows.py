"""What is told of each club in tables: a row a club, from the record and what its words settle."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.clubs import AsPlayed, Club, GolfSet, as_read
from asplayed.keeping.versions import storable
from asplayed.quantities import Figure, convert


class ClubRow(NamedTuple):
    """One club of a set; angles in degrees, the length in inches, masses in grams."""

    position: int
    club: str
    kind: str
    maker: str | None
    model: str | None
    shaft: str | None
    flex: str | None
    loft: float | None
    lie: float | None
    bounce: float | None
    length: float | None
    sole: str | None
    grip: str | None


def club_rows(golf_set: GolfSet) -> list[ClubRow]:
    """A row for each club of a set, in its order.

    >>> from asplayed.clubs import Club, Head, Shaft
    >>> built = Shaft(name="Lindrake", flex="S")
    >>> wedge = Club(club="sand wedge", kind="wedge", head=Head(name="Turnstone"), shaft=built)
    >>> club_rows(GolfSet(clubs=(wedge,)))[0][:7]
    (1, 'sand wedge', 'wedge', None, 'Turnstone', 'Lindrake', 'S')
    """
    rows = []
    for position, club in enumerate(golf_set.clubs, start=1):
        read = settled(club)
        row = ClubRow(
            position=position,
            club=storable(club.club),
            kind=club.kind,
            maker=text(club.head.maker),
            model=text(club.head.model or club.head.name),
            shaft=text(club.shaft.model or club.shaft.name),
            flex=text(club.shaft.flex),
            loft=number(read.loft, "deg"),
            lie=number(read.lie, "deg"),
            bounce=number(read.bounce, "deg"),
            length=number(read.length, "in"),
            sole=text(club.head.sole),
            grip=None if club.grip is None else text(club.grip.model or club.grip.name),
        )
        rows.append(row)
    return rows


def text(said: str | None) -> str | None:
    """A text as a table keeps it."""
    return said and storable(said)


def settled(club: Club) -> AsPlayed:
    """What the words settle of a club; nothing where they cannot be worked out, which `keep verify` tells."""
    try:
        return as_read(club)
    except (ValueError, TypeError, ArithmeticError):
        return AsPlayed()


def number(figure: Figure | None, unit: str) -> float | None:
    """A figure as a number of that unit, to four decimals; None where there is none.

    A minus nothing is nothing: SQLite keeps no sign of a zero, so that a tally of it would never come out again.

    >>> from asplayed.quantities import figure
    >>> number(figure(-0.0, "in", "stated"), "in"), number(figure(-0.000001, "deg", "stated"), "deg")
    (0.0, 0.0)
    """
    if figure is None or not figure.has_number:
        return None
    try:
        return round(convert(figure.number, figure.unit, unit), 4) + 0.0
    except (ValueError, ArithmeticError):
        return None
