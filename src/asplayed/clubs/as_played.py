"""What each club is once settings and alterations are counted: every figure with its band and its chain."""

from __future__ import annotations

from asplayed.clubs import angles
from asplayed.clubs.records import AsPlayed, Club


def as_read(club: Club) -> AsPlayed:
    """What the words alone settle of a club: loft, lie, bounce and length.

    >>> from asplayed.clubs import Head
    >>> from asplayed.quantities import figure
    >>> as_read(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(56, "deg", "stated")))).loft.value
    56
    """
    return AsPlayed(
        loft=angles.loft(club, fill=False),
        lie=angles.lie(club, fill=False),
        bounce=angles.bounce(club, fill=False),
        length=angles.length(club, fill=False),
    )
