"""Loft from one club to the next: holes, overlaps, clubs out of order, and where models and kinds meet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from asplayed.clubs.records import Club
from asplayed.judgement.findings import Finding, Limit, called, degrees, graded, limit, weigh
from asplayed.quantities import Figure, derive

WEDGES = ("pitching wedge", "gap wedge", "sand wedge", "lob wedge")
_WOODEN = ("driver", "fairway wood", "hybrid", "driving iron")
_BENDABLE = ("iron", "wedge")


def number_of(club: Club) -> int | None:
    """The number of an iron, 10 for the set's pitching wedge; None for every other club.

    >>> number_of(Club(club="7 iron", kind="iron")), number_of(Club(club="gap wedge", kind="wedge"))
    (7, None)
    """
    if club.kind == "iron" and club.club[:1].isdigit():
        return int(club.club.split()[0])
    return 10 if club.club == "pitching wedge" else None


def _is_wedge(club: Club) -> bool:
    return club.kind == "wedge" or club.club in WEDGES


def zone(longer: Club, shorter: Club) -> str:
    """Where in the bag two neighbours meet, by the names of `data/limits.toml`.

    >>> zone(Club(club="5 wood", kind="fairway wood"), Club(club="5 iron", kind="iron"))
    'bridge'
    """
    if _is_wedge(shorter):
        return "wedges" if _is_wedge(longer) else "to_wedges"
    if longer.kind == "driver":
        return "driver"
    if longer.kind in _WOODEN:
        return "woods" if shorter.kind in _WOODEN else "bridge"
    number = number_of(shorter)
    return "long_irons" if number is not None and number <= 5 else "irons"


def full_swing(clubs: Sequence[Club]) -> list[Club]:
    """The clubs of the full swing, strongest loft first; putters and chippers stand apart."""
    swung = [club for club in clubs if club.kind != "putter" and club.club != "chipper"]
    return sorted(swung, key=_loft)


def _loft(club: Club) -> float:
    loft = club.as_played.loft
    return loft.number if loft is not None else 0.0


def difference(longer: Figure, shorter: Figure, unit: str, why: str) -> Figure:
    """How much more the shorter club has of a figure than the longer one, with its band and chain."""
    return derive(lambda longer, shorter: shorter - longer, unit, why, longer=longer, shorter=shorter)


def judge_gaps(clubs: Sequence[Club]) -> list[Finding]:
    """Findings about loft: `loft-order`, `loft-hole`, `loft-overlap`, `model-bridge`."""
    found: list[Finding] = []
    crossed: set[frozenset[int]] = set()
    for longer, shorter in pairwise(_numbered(clubs)):
        one, two = longer.as_played.loft, shorter.as_played.loft
        if one is None or two is None or two.number >= one.number - 1e-9:
            continue
        crossed.add(frozenset((id(longer), id(shorter))))
        found += _order(longer, shorter, difference(one, two, "deg", "loft of the higher number less the lower's"))
    ladder = full_swing(clubs)
    for longer, shorter in pairwise(ladder):
        one, two = longer.as_played.loft, shorter.as_played.loft
        if one is None or two is None or frozenset((id(longer), id(shorter))) in crossed:
            continue
        gap = difference(one, two, "deg", "as-played loft of the shorter club less the longer's")
        bound = limit(f"gap.{zone(longer, shorter)}")
        weighed = weigh(gap, bound)
        if weighed is None:
            found += _bridge(longer, shorter, gap)
        elif weighed.side == "over":
            found += _hole(longer, shorter, gap, bound, weighed.sure)
        else:
            found += _overlap(longer, shorter, gap, bound, weighed.sure)
    return found


def _numbered(clubs: Sequence[Club]) -> list[Club]:
    irons = [club for club in clubs if number_of(club) is not None]
    return sorted(irons, key=lambda club: number_of(club) or 0)


def _lofts(longer: Club, shorter: Club, gap: Figure) -> dict[str, Figure]:
    one, two = longer.as_played.loft, shorter.as_played.loft
    assert one is not None and two is not None  # gaps are only taken between clubs with a loft
    return {"longer": one, "shorter": two, "gap": gap}


def _order(longer: Club, shorter: Club, gap: Figure) -> list[Finding]:
    return graded(
        "flaw",
        code="loft-order",
        clubs=(longer, shorter),
        sentence=f"The {called(shorter)} is stronger than the {called(longer)} by {degrees(_minus(gap))} as played.",
        why="The shorter club will go as far as the longer one or farther, so one of the two has no job.",
        remedy="Gauge both and bend them back into order, within what the heads allow.",
        figures=_lofts(longer, shorter, gap),
        source="common practice: loft rises with the number of the iron",
        sure=(gap.high if gap.high is not None else gap.number) < 0,
    )


def _minus(entry: Figure) -> Figure:
    return Figure(value=-entry.number, unit=entry.unit, source=entry.source)


def _hole(longer: Club, shorter: Club, gap: Figure, bound: Limit, sure: bool) -> list[Finding]:
    one, two = _loft(longer), _loft(shorter)
    middle = degrees(Figure(value=round(2 * (one + two) / 2) / 2, unit="deg", source=gap.source))
    ways = []
    # A club in between helps only where it does not overlap with both, and where there is a number left for it.
    one_number, two_number = number_of(longer), number_of(shorter)
    between = two_number - one_number - 1 if one_number is not None and two_number is not None else None
    if between and one_number is not None:
        names = [f"{number} iron" for number in range(one_number + 1, one_number + 1 + between)]
        ways.append(f"the {' and the '.join(names)} would fill it")
    elif gap.number / 2 >= bound.low and between is None:
        ways.append(f"a club near {middle} would fill it")
    if longer.kind in _BENDABLE and shorter.kind in _BENDABLE:
        ways.append("bend the two a degree towards each other, if their heads allow it")
    elif longer.kind in _WOODEN and longer.sleeve is not None:
        ways.append(f"turn the {longer.club}'s sleeve to add loft")
    elif shorter.kind in _BENDABLE:
        ways.append(f"bend the {shorter.club} a degree strong, if its head allows it")
    ways = ways or ["choose one of the two in another loft"]
    remedy = "; or ".join(ways)
    remedy = remedy[:1].upper() + remedy[1:]
    return graded(
        "flaw",
        code="loft-hole",
        clubs=(longer, shorter),
        sentence=(
            f"From the {called(longer)} to the {called(shorter)} there are {degrees(gap)} of loft as played; "
            f"up to {bound.high:g}° is usual there."
        ),
        why="No full shot covers the distances in between: they must be played with part swings.",
        remedy=remedy + ".",
        figures=_lofts(longer, shorter, gap),
        source=bound.source,
        sure=sure,
    )


def _overlap(longer: Club, shorter: Club, gap: Figure, bound: Limit, sure: bool) -> list[Finding]:
    apart = "no loft apart" if abs(gap.number) < 0.05 else f"only {degrees(gap)} of loft apart"
    return graded(
        "flaw",
        code="loft-overlap",
        clubs=(longer, shorter),
        sentence=f"The {called(longer)} and the {called(shorter)} are {apart}; at least {bound.low:g}° is usual there.",
        why="Two clubs do the same job, and the place of one of them could serve a distance that is missing.",
        remedy="Drop one of the two, or bend or set them apart if they are meant for different lies.",
        figures=_lofts(longer, shorter, gap),
        source=bound.source,
        sure=sure,
    )


def _family(club: Club) -> str | None:
    head = club.head
    return head.model or head.name


def _bridge(longer: Club, shorter: Club, gap: Figure) -> list[Finding]:
    """A word on the place where two iron models meet well; where they meet badly the gap itself is the finding."""
    one, two = _family(longer), _family(shorter)
    if not (longer.kind == shorter.kind == "iron" and one and two and one != two):
        return []
    return graded(
        "note",
        code="model-bridge",
        clubs=(longer, shorter),
        sentence=f"{one} gives way to {two} between the {longer.club} and the {shorter.club}, {degrees(gap)} apart.",
        why="Where two models meet, lofts, lengths and speed off the face can jump; the lofts here do not.",
        remedy="Compare the two clubs' carries: the model with the livelier face may still leave a step.",
        figures=_lofts(longer, shorter, gap),
        source="common practice: look hardest where two models of iron meet",
    )
