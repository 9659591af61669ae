"""Wedge soles, what was bent, and what sleeves and movable masses do together."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from asplayed.clubs.hand import side
from asplayed.clubs.records import Club, Hand
from asplayed.clubs.usual import banded
from asplayed.errors import BadInput
from asplayed.judgement.findings import Finding, Limit, called, degrees, graded, limit, rests_on_usual, weigh
from asplayed.judgement.gaps import WEDGES
from asplayed.quantities import Figure, derive

_BENT = {"loft": ("strong", "weak"), "lie": ("flat", "upright")}
_WOODEN = ("driver", "fairway wood", "hybrid")
_CARE = "Eye protection at the bending bar; count the bends of each hosel, and look for cracks."


def judge_heads(clubs: Sequence[Club], hand: Hand) -> list[Finding]:
    """Findings about heads: `sole-low`, `sole-high`, `soles-alike`, `bend-limit`, `bend-bounce`, `face-at-address` …"""
    found = _soles(clubs)
    for club in clubs:
        found += _bends(club) + _face(club, hand)
    return found


def _own_bounce(club: Club) -> Figure | None:
    bounce = club.as_played.bounce
    return None if bounce is None or rests_on_usual([bounce]) else bounce


def _soles(clubs: Sequence[Club]) -> list[Finding]:
    bound = limit("bounce")
    found: list[Finding] = []
    wedges = [club for club in clubs if club.kind == "wedge" and club.club in WEDGES]
    known = [(club, bounce) for club in wedges if (bounce := _own_bounce(club)) is not None]
    for club, bounce in known:
        weighed = weigh(bounce, bound)
        if weighed is None:
            continue
        low = weighed.side == "under"
        found += graded(
            "flaw" if low else "unusual",
            code="sole-low" if low else "sole-high",
            clubs=(club,),
            sentence=f"The {called(club)} is left with {degrees(bounce)} of bounce as played.",
            why=(
                "With the hands ahead at impact the leading edge meets the turf first and digs."
                if low
                else "On firm turf and tight lies so much sole bounces the leading edge into the ball."
            ),
            remedy=(
                "Bend it weak again, or take a head with more bounce for this loft."
                if low
                else "Keep it for soft sand, or bend it strong by a degree or two if its loft allows."
            ),
            figures={"bounce": bounce},
            source=bound.source,
            sure=weighed.sure,
        )
    if len(known) > 2:
        least = min(known, key=lambda pair: pair[1].number)
        most = max(known, key=lambda pair: pair[1].number)
        spread = derive(lambda least, most: most - least, "deg", "most less least bounce", least=least[1], most=most[1])
        bound = limit("bounce_spread")
        if spread.number < bound.low - 1e-9:
            found += graded(
                "unusual",
                code="soles-alike",
                clubs=[club for club, _ in known],
                sentence=(
                    f"All {len(known)} wedges have nearly the same bounce, {degrees(least[1])} to {degrees(most[1])} "
                    "as played."
                ),
                why="Soft sand and firm turf ask for different soles; here every wedge answers the same lie.",
                remedy="Give one wedge a fuller sole for sand and one a lower sole with relief for firm lies.",
                figures={"spread": spread, "least": least[1], "most": most[1]},
                source=bound.source,
            )
    return found


def refuse_bend(club: Club, about: Literal["loft", "lie"]) -> None:
    """Refuse a bend of loft or lie, counted from the angle as made, that goes beyond what the head may be bent."""
    bent = getattr(club.bend, about)
    total = bent.in_unit("deg").number if bent is not None and bent.has_number else 0.0
    bound = bend_limit(club)
    if abs(total) > bound.high + 1e-9:
        way = _BENT[about][total > 0]
        most = "it may not be bent at all" if bound.high == 0 else f"its limit is {bound.high:g}°"
        raise BadInput(
            f"a bend of {abs(total):g}° {way} from the angle as made cannot be ordered: {most} ({bound.source}); "
            "start from another stamp, or get the maker's own limit for this head"
        )


def bend_limit(club: Club) -> Limit:
    """How far a head may be bent either way from the angle as made: the maker's limit, else that of its construction.

    >>> bend_limit(Club(club="driver", kind="driver")).high
    0.0
    """
    head = club.head
    if head.bend_limit is not None and head.bend_limit.has_number:
        most = abs(head.bend_limit.in_unit("deg").number)
        return Limit(-most, most, "deg", f"the maker's limit ({head.bend_limit.source})")
    if club.kind in _WOODEN:
        return limit("bend.wood")
    words = (head.construction or "").lower()
    for word in ("titanium", "zinc", "hollow", "multi", "17-4", "forged", "cast"):
        if word in words:
            return limit(f"bend.{word}")
    return limit("bend.unknown")


def _bends(club: Club) -> list[Finding]:
    found: list[Finding] = []
    bound = bend_limit(club)
    ceiling = limit("bend_ceiling")
    for about, entry in (("loft", club.bend.loft), ("lie", club.bend.lie)):
        if entry is None or not entry.has_number or not entry.number:
            continue
        bend = banded(entry, "bend") or entry
        if abs(entry.in_unit("deg").number) <= bound.high + 1e-9:
            continue
        never = bound.high == 0 or bound.source.startswith("the maker")
        beyond = abs(entry.in_unit("deg").number) > ceiling.high + 1e-9
        size = degrees(Figure(value=abs(entry.number), unit=entry.unit, source=entry.source))
        way = _way(about, entry.number)
        most = "not be bent at all" if bound.high == 0 else f"take {bound.high:g}° at most"
        found += graded(
            "flaw" if never or beyond else "unusual",
            code="bend-limit",
            clubs=(club,),
            sentence=f"The {called(club)} was bent {size} {way}; such a head should {most}.",
            why="A head bent beyond its limit can crack at the hosel and come off in the swing.",
            remedy=f"Ask the maker for the limit of this head, or start from another stamp. {_CARE}",
            figures={f"{about}_bend": bend},
            source=bound.source,
        )
    return found + _bend_bounce(club)


def _way(about: str, bend: float) -> str:
    words = {"loft": ("strong", "weak"), "lie": ("flat", "upright")}[about]
    return words[bend > 0]


def _bend_bounce(club: Club) -> list[Finding]:
    bend, bounce, loft = club.bend.loft, _own_bounce(club), club.as_played.loft
    if bend is None or not bend.has_number or not bend.number or bounce is None or loft is None:
        return []
    more = "more" if bend.number > 0 else "less"
    size = degrees(Figure(value=abs(bend.number), unit=bend.unit, source=bend.source))
    return graded(
        "note",
        code="bend-bounce",
        clubs=(club,),
        sentence=(
            f"Bent {size} {_way('loft', bend.number)}, the {club.club} plays at {degrees(loft)} with "
            f"{degrees(bounce)} of bounce: {size} {more} than its stamp."
        ),
        why="Loft and bounce move together; the sole that meets the turf is not the one stamped on it.",
        remedy="Judge the sole by the bounce as played, and gauge the loft now and again: bent heads creep back.",
        figures={"loft": loft, "bounce": bounce},
        source="geometry: a degree of loft bend is a degree of bounce",
    )


def _face(club: Club, hand: Hand) -> list[Finding]:
    face = club.as_played.face
    change = club.sleeve.loft_change if club.sleeve else None
    if face is None or change is None or not change.has_number:
        return []
    bound = limit("face_change")
    if abs(face.number) <= bound.high:
        return []
    closed = face.number < 0
    size = degrees(Figure(value=abs(face.number), unit="deg", source=face.source))
    found = graded(
        "note",
        code="face-at-address",
        clubs=(club,),
        sentence=(
            f"Soled and not turned square, the {club.club}'s face sits {size} {'closed' if closed else 'open'}, "
            f"looking {side(face.number, hand)}; squared, the sleeve shows as loft."
        ),
        why="Turning a sleeve trades face for loft about the shaft: what the player does with it at address decides.",
        remedy="Watch how the player soles the club, then choose the setting for what he or she really does.",
        figures={"face": face, "loft_change": change},
        source=bound.source,
    )
    shift = club.as_played.cg_toeward
    if shift is not None and abs(shift.number) > 0.3 and (shift.number > 0) == closed:
        found += graded(
            "unusual",
            code="bias-against-itself",
            clubs=(club,),
            sentence=(
                f"The {club.club}'s sleeve {'closes' if closed else 'opens'} the face while its movable mass sits in "
                f"the {'toe' if shift.number > 0 else 'heel'}: the one asks for a "
                f"{'draw' if closed else 'fade'}, the other for a {'fade' if closed else 'draw'}."
            ),
            why="The two largely undo one another, and the settings no longer say what the player needs.",
            remedy="Set one of them neutral and let the other do the work, unless the pair was tried and chosen.",
            figures={"face": face, "cg_toeward": shift},
            source="geometry of a tilted bore; moved mass by rigid-body arithmetic",
        )
    return found
