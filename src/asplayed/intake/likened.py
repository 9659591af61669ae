"""Parts told by pointing at another club: "shaft, length and lie as the irons", "on the irons' shaft"."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.phrases import CLUB_RULES, Phrase, phrase_at
from asplayed.intake.tokens import Token

PARTS = {"SHAFTWORD", "GRIPWORD", "LENGTH", "FLEXWORD", "SWINGWEIGHT", "HEADWORD", "LOFT", "LIE"}
APOSTROPHES = ("'", "’")
_APART = {"COMMA", "AND", "SLASH"}
_POINTING = {"SILENT", "IN", "AT", "WITH", "EQ", "OR"}
_GAP = 4  # tokens between two parts of a row
_ENDS = {"COMMA", "STOP", "NEWLINE", "AND", "PIPE", "RPAR", "LPAR", "SLASH", "DASH", "THAN"}
_ALIKE = {"is", "are", "just", "exactly", "the same", "the", "same"}
_ALSO = {"too", "also", "again", "as well", "throughout", "both", "in", "on", "at", "standard"}


class Likeness(NamedTuple):
    """The parts that are like another club's, the phrase that names it, and where all of it ends."""

    parts: list[str]
    club: Phrase
    end: int


def likeness_at(tokens: list[Token], at: int) -> Likeness | None:
    """What is said here to be like another club's, or None."""
    if tokens[at].terminal in PARTS:
        return _as_the_club(tokens, at)
    if tokens[at].terminal == "SAME" and at + 1 < len(tokens):
        return _as_the_club(tokens, at + 1) if tokens[at + 1].terminal in PARTS else _same_of_the_club(tokens, at + 1)
    if tokens[at].lower in ("everything", "all"):
        return _all_as_the_club(tokens, at)
    return _of_the_club(tokens, at)


def _parts(tokens: list[Token], at: int) -> tuple[list[str], int]:
    """The parts in a row from here, and the place behind the last."""
    parts: list[str] = []
    end = at
    while at < len(tokens) and len(parts) < len(PARTS) and at - end < _GAP:
        if tokens[at].terminal in PARTS:
            parts.append(tokens[at].terminal)
            end = at + 1
        elif not parts or (tokens[at].terminal not in _APART and tokens[at].lower not in ("the", "same")):
            break
        at += 1
    return parts, end


def parts_alike(tokens: list[Token], at: int) -> tuple[list[str], int]:
    """The parts of "same shaft, length and lie" behind "same", and the place behind them; none if more follows."""
    parts, end = _parts(tokens, at)
    return (parts, end) if parts and _closes(tokens, end) else ([], at)


def _as_the_club(tokens: list[Token], at: int) -> Likeness | None:
    """ "Shaft, length and lie (are) as (in) the irons": two parts or more, then "as" or "like", then a club."""
    parts, end = _parts(tokens, at)
    said = False
    while end < len(tokens) and tokens[end].terminal in _POINTING and not (said and tokens[end].lower == "as"):
        said = said or tokens[end].lower in ("as", "like")
        end += 1
    club = phrase_at(tokens, end) if said and len(parts) > 1 and end < len(tokens) else None
    if club is None or club.rule not in CLUB_RULES or not _closes(tokens, club.end):
        return None
    return Likeness(parts, club, club.end)


def _same_of_the_club(tokens: list[Token], at: int) -> Likeness | None:
    """ "That same iron shaft", "the same driver shaft": the club stands between."""
    club = phrase_at(tokens, at)
    if club is None or club.rule not in ("club", "family", "named") or club.end >= len(tokens):
        return None
    parts, end = _parts(tokens, club.end)
    return Likeness(parts, club, end) if parts and _closes(tokens, end) else None


def _all_as_the_club(tokens: list[Token], at: int) -> Likeness | None:
    """ "Everything as the 3 wood except 42¼ long": all that is not said of the club itself."""
    end = at + 1
    while end < len(tokens) and tokens[end].lower in _ALIKE:
        end += 1
    if end >= len(tokens) or tokens[end].lower not in ("as", "like"):
        return None
    club = club_behind(tokens, end + 1)
    if club is None:
        return None
    stop = club.end
    if stop < len(tokens) and tokens[stop].lower in ("except", "but", "bar"):
        stop += 1
    return Likeness(["WHOLE_SPEC"], club, stop)


def club_behind(tokens: list[Token], at: int) -> Phrase | None:
    """The club of "(as) in the irons", behind the small words that stand before it; None where another word stands."""
    while at < len(tokens) and tokens[at].terminal in ("SILENT", "IN", "AT", "WITH"):
        at += 1
    club = phrase_at(tokens, at)
    return club if club is not None and club.rule in CLUB_RULES else None


def _of_the_club(tokens: list[Token], at: int) -> Likeness | None:
    """ "(On) the irons' shaft", "the driver's shaft and grip": nothing that the parts would be given follows."""
    led = tokens[at - 1].lower if at else ""
    club = phrase_at(tokens, at) if led in ("the", "his", "her", "my") else None
    if club is None or club.rule not in CLUB_RULES or club.end >= len(tokens):
        return None
    marked = tokens[club.end].text in APOSTROPHES
    owned = marked or club.tokens[-1].lower.endswith(("'s", "’s", "s'", "s’"))
    given = at > 1 and tokens[at - 2].terminal in ("WITH", "AT")  # "with the driver shaft"
    parts, end = _parts(tokens, club.end + marked)
    again = end < len(tokens) and tokens[end].lower == "again"  # "the iron shafts again in both"
    if not owned and not given and not again:
        return None
    return Likeness(parts, club, end) if parts and _closes(tokens, end) else None


def _closes(tokens: list[Token], at: int) -> bool:
    """True where nothing more is said of a part: its figure does not follow."""
    while at < len(tokens) and tokens[at].terminal == "SILENT" and tokens[at].lower not in _ALSO:
        at += 1
    return at >= len(tokens) or tokens[at].terminal in _ENDS or tokens[at].lower in _ALSO
