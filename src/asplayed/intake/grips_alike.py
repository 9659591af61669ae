"""A grip told by pointing at another club's: "Grip: as item 1, but three extra wraps", "same grip as the driver"."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.grip_parts import ROW_WORDS, Part, Pieces, Reach

_POINTS = {"SILENT", "IN", "AT", "BY"}
_TURNS = {"but", "with", "and", "plus", "only", "just", "though", ",", "("}
_AHEAD = 6  # tokens before the club pointed at


class Alike(NamedTuple):
    """The club whose grip it is, the wraps that differ, and where all of it ends."""

    club: Reach
    wraps: Part | None
    end: int


def alike_at(pieces: Pieces, at: int, end: int) -> Alike | None:
    """What is said here to be gripped like another club, or None."""
    tokens = pieces.tokens
    stop = at + (tokens[at].terminal == "SAME")
    if stop >= end or tokens[stop].terminal != "GRIPWORD":
        return None
    stop += 1
    said = False
    while stop < min(end, at + _AHEAD) and (
        tokens[stop].terminal in ("EQ", "SAME") or tokens[stop].terminal in _POINTS
    ):
        said = said or tokens[stop].lower in ("as", "like")
        stop += 1
        if said and tokens[stop - 1].lower == "like":
            break
    while said and stop < end and (tokens[stop].terminal in _POINTS or tokens[stop].lower in ROW_WORDS):
        stop += 1
    if not said or stop >= end:
        return None
    club = pieces.reach(stop, end)
    if club is None or not isinstance(club.value, Reach) or club.value.whole not in (None, "rows"):
        return None
    stop = club.end
    if stop < end and tokens[stop].kind != "mark" and tokens[stop].lower not in _TURNS:
        return None  # "grip as the driver's shaft"
    turn = stop
    while turn < end and turn < stop + 3 and (tokens[turn].lower in _TURNS or tokens[turn].terminal == "WITH"):
        turn += 1
    wraps = pieces.wraps(turn, end, {"grip"}) if turn < end else None
    if wraps is None:
        return Alike(club.value, None, stop)
    stop = wraps.end + (wraps.end < end and tokens[wraps.end].text == ")")
    return Alike(club.value, wraps, stop)
