"""Balance and inertia of the irons, the line of their frequencies, and stated figures that the parts contradict."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from statistics import median

from asplayed.clubs import from_parts
from asplayed.clubs.assembly import points_of
from asplayed.clubs.records import Club
from asplayed.judgement.findings import Finding, graded, grams, limit, weigh
from asplayed.judgement.progressions import numbered
from asplayed.mechanics.balance import swing_weight_text
from asplayed.quantities import Figure, Source, clash, derive, write_quantity

_OF_THE_CLUB = (Source.MEASURED, Source.STATED)


def judge_balance(clubs: Sequence[Club]) -> list[Finding]:
    """Findings about balance: `balance-uneven`, `balance-unusual`, `frequency-off`, `frequency-slope`, `stated-…`."""
    return _uneven(clubs) + _unusual(clubs) + _frequencies(clubs) + _clashes(clubs)


def _uneven(clubs: Sequence[Club]) -> list[Finding]:
    known = [
        (club, points)
        for _, club in numbered(clubs)
        if _is_its_own(club) and (points := points_of(club.as_played.swing_weight)) is not None
    ]
    if len(known) < 3:
        return []
    middle = median(points.number for _, points in known)
    inertias = [club.as_played.butt_inertia for club, _ in known]
    values = [entry.number for entry in inertias if entry is not None]
    matched = len(values) == len(known) and (
        100 * (max(values) - min(values)) / (sum(values) / len(values)) <= limit("inertia_matched").high
    )
    bound = limit("balance_within_irons")
    found: list[Finding] = []
    for club, points in known:
        off = derive(lambda points: points - middle, "1", "points away from the middle of the irons", points=points)
        weighed = weigh(off, bound)
        if weighed is None:
            continue
        word = "heavier" if weighed.side == "over" else "lighter"
        text = swing_weight_text(points.number, 1)
        why = "The head is felt differently from its neighbours', and timing with it."
        remedy = (
            "Tape under the grip or a lighter head weight brings it down, a point for about 2 g at an iron's head."
            if weighed.side == "over"
            else "A point wants about 2 g at an iron's head: tape, a tip weight, or a heavier plug."
        )
        if matched:
            why = "The irons are alike in inertia about the butt, so this may well be meant: matched by inertia."
            remedy = "Nothing, if the set was matched by inertia; else as for any uneven balance."
        found += graded(
            "note" if matched else "flaw",
            code="balance-uneven",
            clubs=(club,),
            sentence=(
                f"The {club.club} reads {text}, {abs(off.number):.1f} points {word} than the middle of the irons "
                f"({swing_weight_text(middle, 1)})."
            ),
            why=why,
            remedy=remedy,
            figures=_with_inertia(club, {"swing_weight": points, "off": off}),
            source=bound.source,
            sure=weighed.sure,
        )
    return found


def _is_its_own(club: Club) -> bool:
    """True when the swing weight was read or stated, or its head and shaft were weighed: a usual head says nothing."""
    played = club.as_played.swing_weight
    weighed = club.head.mass is not None and club.head.mass.has_number and club.shaft.mass is not None
    return weighed or (played is not None and played.source in _OF_THE_CLUB)


def _with_inertia(club: Club, figures: dict[str, Figure]) -> dict[str, Figure]:
    inertia = club.as_played.butt_inertia
    own = inertia is not None and inertia.source in _OF_THE_CLUB
    return {**figures, "butt_inertia": inertia} if own and inertia is not None else figures


def _unusual(clubs: Sequence[Club]) -> list[Finding]:
    bound = limit("balance_usual")
    found: list[Finding] = []
    for club in clubs:
        stated = club.as_played.swing_weight
        if club.kind == "putter" or stated is None or stated.source not in _OF_THE_CLUB:
            continue
        points = points_of(stated)
        weighed = weigh(points, bound) if points is not None else None
        if points is None or weighed is None:
            continue
        found += graded(
            "unusual",
            code="balance-unusual",
            clubs=(club,),
            sentence=(
                f"The {club.club} reads {stated.value}: very head-{'heavy' if weighed.side == 'over' else 'light'} "
                "for a club of its kind."
            ),
            why="Far outside the usual, the scale may have been misread, or a weight put at the other end.",
            remedy="Weigh and balance it again; if it is meant, write down why.",
            figures={"swing_weight": points},
            source=bound.source,
            sure=weighed.sure,
        )
    return found


def _frequencies(clubs: Sequence[Club]) -> list[Finding]:
    known = [
        (club, entry, length.in_unit("in").number)
        for _, club in numbered(clubs)
        if (entry := club.as_played.frequency) is not None
        and (length := club.as_played.length) is not None
        and entry.source in _OF_THE_CLUB
    ]
    slopes = [
        (one.number - two.number) / (2 * (b - a))
        for i, (_, one, a) in enumerate(known)
        for _, two, b in known[i + 1 :]
        if abs(b - a) > 0.1
    ]
    if len(known) < 3 or not slopes:
        return []
    # The median of all pairs' slopes: one odd club does not turn the line.
    slope = median(slopes)
    level = median(entry.number + 2 * slope * at for _, entry, at in known)
    source = known[0][1].source
    found: list[Finding] = []
    bound = limit("frequency_slope")
    line = Figure(value=slope, unit="cpm", source=Source.COMPUTED, why="median slope, for every ½ in shorter")
    weighed = weigh(line, bound)
    if weighed is not None:
        found += graded(
            "unusual",
            code="frequency-slope",
            clubs=[club for club, _, _ in known],
            sentence=(
                f"The irons stiffen by {write_quantity(slope, 'cpm', places=1)} for every ½ in shorter; "
                f"{bound.low:g} to {bound.high:g} cpm are usual."
            ),
            why="A flatter line leaves the short irons soft beside the long ones, a steeper one leaves them boardy.",
            remedy="Look at how the tips were trimmed: an inch of tip is worth 3 to 5 cpm.",
            figures={"slope": line},
            source=bound.source,
        )
    bound = limit("frequency_residual")
    for club, entry, at in known:
        expected = level - 2 * slope * at
        off = derive(
            lambda frequency, expected=expected: frequency - expected / 60,
            "cpm",
            "off the line through the irons",
            frequency=entry,
        )
        weighed = weigh(off, bound)
        if weighed is None:
            continue
        found += graded(
            "flaw",
            code="frequency-off",
            clubs=(club,),
            sentence=(
                f"The {club.club} reads {write_quantity(entry.number, 'cpm', places=0)}, "
                f"{write_quantity(abs(off.number), 'cpm', places=0)} {'stiffer' if off.number > 0 else 'softer'} "
                "than the line through the irons."
            ),
            why="One club that loads differently from its neighbours flies higher or lower for no visible reason.",
            remedy="Clamp it again, the same length in the clamp; then look at its tip trim and its shaft.",
            figures={"frequency": entry, "off": off},
            source=f"{bound.source}; frequencies {source}",
            sure=weighed.sure,
        )
    return found


# Asked again for every slight change of another club.
_made_of = lru_cache(maxsize=256)(from_parts)


def _clashes(clubs: Sequence[Club]) -> list[Finding]:
    found: list[Finding] = []
    told = [(club, _made_of(club)) for club in clubs if club.stated.mass or club.stated.swing_weight]
    masses = [(club, club.as_played.mass, parts.mass) for club, parts in told if club.stated.mass]
    # A usual head says nothing about a balance, so only a known one can contradict it.
    balances = [
        (club, points_of(club.as_played.swing_weight), points_of(parts.swing_weight))
        for club, parts in told
        if club.stated.swing_weight and club.head.mass is not None and club.head.mass.has_number
    ]
    for code, words, pairs, write in (
        ("mass", "total mass", masses, grams),
        ("swing-weight", "swing weight", balances, lambda entry: swing_weight_text(entry.number, 1)),
    ):
        apart = [(c, said, made) for c, said, made in pairs if said is not None and made is not None]
        apart = [(c, said, made) for c, said, made in apart if clash(said, made)]
        if not apart:
            continue
        told_so = ", ".join(f"{c.club} {write(said)} against {write(made)}" for c, said, made in apart)
        club, said, made = apart[0]
        alone = len(apart) == 1
        figures = {"stated": said, "computed": made}
        if not alone:
            figures = {
                f"{c.club} {name}": entry for c, *both in apart for name, entry in zip(figures, both, strict=True)
            }
        found += graded(
            "unusual",
            code=f"stated-{code}-clash",
            clubs=[c for c, _, _ in apart],
            sentence=(
                f"The {club.club}'s {words} is stated as {write(said)}; its parts make {write(made)}."
                if alone
                else f"The parts do not make the {words} that is stated: {told_so}."
            ),
            why="One of the two is wrong: the reading, or a part: its mass, the length, a weight nobody sees.",
            remedy="Put the club on the scale and check the part least sure of its figure.",
            figures=figures,
            source="the build-up of the club from its parts",
        )
    return found
