"""The one mirror: angles and offsets of a club are from the player's own side, directions on the ground are not."""

from __future__ import annotations

from asplayed.clubs.records import Hand


def to_the_right(own_side: float, hand: Hand) -> float:
    """A face, path or curve from the player's own side (open +) as the ground sees it: + to the right of the target.

    >>> to_the_right(-1.5, "right"), to_the_right(-1.5, "left")
    (-1.5, 1.5)
    """
    return own_side if hand == "right" else -own_side


def side(own_side: float, hand: Hand) -> str:
    """The side of the target, in words.

    >>> side(-1.5, "right"), side(-1.5, "left"), side(0, "left")
    ('left', 'right', 'straight')
    """
    ground = to_the_right(own_side, hand)
    return "straight" if ground == 0 else "right" if ground > 0 else "left"
