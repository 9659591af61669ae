"""What each club is once settings and alterations are counted: every figure with its band and its chain."""

from __future__ import annotations

import msgspec

from asplayed.clubs import angles, assembly, head_as_played
from asplayed.clubs.records import AsPlayed, Club, GolfSet, Stated
from asplayed.errors import BadInput


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


def as_played(club: Club) -> AsPlayed:
    """Every figure of a club as the ball meets it, with band, source and chain.

    What was measured on the club stands; what was stated of the whole club comes next; the rest is worked out from the
    parts, and a part nobody named is taken from common practice and marked so.

    >>> from asplayed.clubs import Bend, Head
    >>> from asplayed.quantities import figure
    >>> head = Head(loft=figure(56, "deg", "stated"), bounce=figure(12, "deg", "stated"))
    >>> bent = as_played(Club(club="sand wedge", kind="wedge", head=head, bend=Bend(loft=figure(1, "deg", "stated"))))
    >>> bent.loft.value, round(bent.loft.high - bent.loft.value, 2), bent.bounce.value, bent.length.source.value
    (57.0, 1.03, 13.0, 'common practice')
    """
    loft, lie, length = angles.loft(club), angles.lie(club), angles.length(club)
    assert length is not None  # every row of the usual figures carries a length
    others = assembly.parts_without_head(club, length)
    head_mass = assembly.head_mass(club, others)
    everything = {"head_mass": head_mass, **others}
    return AsPlayed(
        loft=loft,
        lie=lie,
        face=head_as_played.face(club, loft, lie),
        bounce=angles.bounce(club),
        offset=head_as_played.offset(club),
        length=length,
        mass=assembly.mass(club, everything),
        balance_point=assembly.balance_point(club, everything),
        swing_weight=assembly.swing_weight(club, everything),
        butt_inertia=assembly.butt_inertia(club, everything),
        frequency=assembly.frequency(club, everything),
        grip_size=assembly.grip_size(club),
        cg_toeward=head_as_played.centre_shift(club, head_mass, "toeward"),
        cg_backward=head_as_played.centre_shift(club, head_mass, "backward"),
        toe_hang=head_as_played.toe_hang(club),
    )


def from_parts(club: Club) -> AsPlayed:
    """The figures of a club from its parts alone, whatever was stated or measured of the whole: for comparing."""
    return as_played(msgspec.structs.replace(club, stated=Stated(), as_played=AsPlayed()))


def played_set(golf_set: GolfSet) -> GolfSet:
    """The set with every club's figures as played filled in; an impossible part is refused with its club's name.

    >>> played_set(GolfSet(clubs=(Club(club="7 iron", kind="iron"),))).clubs[0].as_played.loft.value
    32.5
    """
    clubs = []
    for club in golf_set.clubs:
        try:
            clubs.append(msgspec.structs.replace(club, as_played=as_played(club)))
        except BadInput as fault:
            raise BadInput(f"the {club.club} cannot be worked out: {fault}") from fault
    return msgspec.structs.replace(golf_set, clubs=tuple(clubs))
