"""Length, lie and shaft mass from one club to the next."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from asplayed.clubs.hand import side
from asplayed.clubs.records import Club, Hand
from asplayed.clubs.usual import banded, usual
from asplayed.judgement.findings import Finding, called, degrees, graded, grams, inches, limit, weigh
from asplayed.judgement.gaps import difference, number_of
from asplayed.mechanics.head import lie_error
from asplayed.quantities import Figure, Source, derive

_POSSIBLE = 20.0  # degrees off the usual lie beyond which no start line is worth working out
_WOODS = (("driver", "fairway wood"), ("hybrid",))
_LADDER = ("gap wedge", "sand wedge", "lob wedge")


def numbered(clubs: Sequence[Club]) -> list[tuple[int, Club]]:
    """The irons with their numbers, lowest first; of two with one number the first stands."""
    found: dict[int, Club] = {}
    for club in clubs:
        number = number_of(club)
        if number is not None:
            found.setdefault(number, club)
    return sorted(found.items())


def single_length(clubs: Sequence[Club]) -> bool:
    """True when three irons or more were all built to one length: a choice, not an accident."""
    lengths = [club.as_played.length for _, club in numbered(clubs) if number_of(club) != 10]
    values = [entry.in_unit("in").number for entry in lengths if entry is not None]
    return len(values) > 2 and max(values) - min(values) < 0.1


def judge_progressions(clubs: Sequence[Club], hand: Hand) -> list[Finding]:
    """Findings about progressions: `single-length`, `length-…`, `wood-length-order`, `lie-…`, `shaft-mass-…`."""
    found: list[Finding] = []
    if single_length(clubs):
        found += _single_length([club for _, club in numbered(clubs) if number_of(club) != 10])
    else:
        found += _length_steps(clubs)
        found += _lie_steps(clubs)
    return found + _wedge_lengths(clubs) + _wood_lengths(clubs) + _lies(clubs, hand) + _shaft_masses(clubs)


def _single_length(irons: Sequence[Club]) -> list[Finding]:
    length = irons[0].as_played.length
    assert length is not None  # a single length is only seen where there are lengths
    return graded(
        "unusual",
        code="single-length",
        clubs=irons,
        sentence=f"All these irons are built to one length, {inches(length)}.",
        why="One length means one posture and one swing; the gaps must then come from loft and head mass alone.",
        remedy="Nothing, if it is meant; look at the carries of the longest and the shortest iron.",
        figures={"length": length},
        source="common practice: irons step by ½ in; one length for all is a choice",
    )


def _length_steps(clubs: Sequence[Club]) -> list[Finding]:
    found: list[Finding] = []
    bound = limit("length_step")
    for (low, longer), (high, shorter) in pairwise(numbered(clubs)):
        one, two = longer.as_played.length, shorter.as_played.length
        if one is None or two is None:
            continue
        places = high - low
        step = derive(
            lambda longer, shorter, places=places: (longer - shorter) / places,
            "in",
            "shorter by so much for each number of iron",
            longer=one,
            shorter=two,
        )
        if weighed := weigh(step, bound):
            words = "longer than" if step.number < 0 else "as long as" if abs(step.number) < 0.03 else None
            sentence = (
                f"The {shorter.club} ({inches(two)}) is {words} the {longer.club} ({inches(one)})."
                if words
                else f"From the {longer.club} ({inches(one)}) to the {shorter.club} ({inches(two)}) the length steps "
                f"by {inches(step)} a club."
            )
            found += graded(
                "flaw",
                code="length-step",
                clubs=(longer, shorter),
                sentence=sentence,
                why="Length sets posture, speed and balance: an uneven step shows as an uneven gap and another feel.",
                remedy="Measure both against a 60° plane; cut or lengthen the one out of step, and balance it again.",
                figures={"longer": one, "shorter": two, "step": step},
                source=bound.source,
                sure=weighed.sure,
            )
    return found


def _wedge_lengths(clubs: Sequence[Club]) -> list[Finding]:
    found: list[Finding] = []
    bound = limit("wedge_length")
    wedges = sorted((c for c in clubs if c.club in _LADDER), key=lambda c: _LADDER.index(c.club))
    for longer, shorter in pairwise(wedges):
        one, two = longer.as_played.length, shorter.as_played.length
        if one is None or two is None:
            continue
        step = derive(lambda longer, shorter: longer - shorter, "in", "length step", longer=one, shorter=two)
        if weighed := weigh(step, bound):
            word = "longer" if weighed.side == "under" else "shorter"
            found += graded(
                "flaw",
                code="length-order",
                clubs=(longer, shorter),
                sentence=(
                    f"The {shorter.club} ({inches(two)}) is {inches(_size(step))} {word} than the {longer.club} "
                    f"({inches(one)})."
                ),
                why="The wedge with more loft is swung shorter and softer; a jump in length upsets touch and lie.",
                remedy="Measure both, and cut or lengthen the one that is out of step.",
                figures={"longer": one, "shorter": two, "step": step},
                source=bound.source,
                sure=weighed.sure,
            )
    return found


def _wood_lengths(clubs: Sequence[Club]) -> list[Finding]:
    # Hybrids apart: they are built shorter than a wood of their loft, so a 7 wood may well be longer than a 3 hybrid.
    return [found for kinds in _WOODS for found in _woods_out_of_order([club for club in clubs if club.kind in kinds])]


def _woods_out_of_order(clubs: Sequence[Club]) -> list[Finding]:
    known = [(loft, length, c) for c in clubs if (loft := c.as_played.loft) and (length := c.as_played.length)]
    known.sort(key=lambda entry: (entry[0].number, -entry[1].in_unit("in").number))
    found: list[Finding] = []
    bound = limit("wood_length")
    for (_, one, stronger), (_, two, weaker) in pairwise(known):
        step = derive(lambda longer, shorter: longer - shorter, "in", "length step", longer=one, shorter=two)
        weighed = weigh(step, bound)
        if weighed is None or weighed.side == "over":
            continue
        found += graded(
            "flaw",
            code="wood-length-order",
            clubs=(stronger, weaker),
            sentence=(
                f"The {weaker.club} ({inches(two)}) is {inches(_size(step))} longer than the {stronger.club} "
                f"({inches(one)}), which has less loft."
            ),
            why="More length is more speed: the weaker loft wins back its distance, and the two carry nearly as far.",
            remedy="Measure both; cut the longer one and balance it again, unless the stronger was cut for control.",
            figures={"longer": one, "shorter": two, "step": step},
            source=bound.source,
            sure=weighed.sure,
        )
    return found


def _size(entry: Figure) -> Figure:
    return Figure(value=abs(entry.number), unit=entry.unit, source=entry.source)


def _lie_steps(clubs: Sequence[Club]) -> list[Finding]:
    found: list[Finding] = []
    bound = limit("lie_step")
    for (low, longer), (high, shorter) in pairwise(numbered(clubs)):
        one, two = longer.as_played.lie, shorter.as_played.lie
        if one is None or two is None:
            continue
        places = high - low
        step = derive(
            lambda longer, shorter, places=places: (shorter - longer) / places,
            "deg",
            "more upright by so much for each number of iron",
            longer=one,
            shorter=two,
        )
        if weighed := weigh(step, bound):
            word = "flatter" if step.number < 0 else "more upright"
            found += graded(
                "flaw",
                code="lie-step",
                clubs=(longer, shorter),
                sentence=(
                    f"The {shorter.club} ({degrees(two)}) is {degrees(_size(step))} {word} a club than the "
                    f"{longer.club} ({degrees(one)}); lies usually rise by ½ to 1°."
                ),
                why=(
                    "A lie that is out of step starts the ball aside by about the tangent of the loft for each degree: "
                    "more with every shorter club."
                ),
                remedy="Gauge both and bend the one that is out of step, within what its head allows.",
                figures={"longer": one, "shorter": two, "step": step},
                source=bound.source,
                sure=weighed.sure,
            )
    return found


def _lies(clubs: Sequence[Club], hand: Hand) -> list[Finding]:
    found: list[Finding] = []
    bound = limit("lie_from_usual")
    for club in clubs:
        lie, loft, common = club.as_played.lie, club.as_played.loft, usual(club, "lie")
        if club.kind not in ("iron", "wedge") or club.club == "chipper" or lie is None or loft is None:
            continue
        if common is None or lie.source is Source.COMMON_PRACTICE:
            continue
        off = difference(common, lie, "deg", "lie as played less the usual one")
        weighed = weigh(off, bound)
        if weighed is None:
            continue
        if abs(off.number) > _POSSIBLE:
            continue
        start = derive(
            lambda loft, off: lie_error(loft, off).direction,
            "deg",
            "start line if the usual lie would sole flat, the player's own side: closed −",
            loft=loft,
            off=off,
        )
        found += graded(
            "unusual",
            code="lie-unusual",
            clubs=(club,),
            sentence=(
                f"The {called(club)} is {degrees(_size(off))} {'upright' if off.number > 0 else 'flat'} of the usual; "
                f"on a player of usual build it starts the ball {degrees(_size(start))} {side(start.number, hand)}."
            ),
            why="So far from the usual, the lie fits a tall, short or very steep player, or nobody.",
            remedy="Watch the sole's mark on a board or the ball's start line before bending it back.",
            figures={"lie": lie, "off": off, "start": start},
            source=bound.source,
            sure=weighed.sure,
        )
    return found


def _shaft_masses(clubs: Sequence[Club]) -> list[Finding]:
    # In the order of the trade's usual lengths, so that one club built long does not change its neighbours.
    swung = [club for club in clubs if club.kind != "putter" and club.club != "chipper"]
    ladder = sorted(swung, key=lambda club: -(length.number if (length := usual(club, "length")) else 0.0))
    known = [
        (place, club, mass)
        for place, club in enumerate(ladder)
        if (mass := banded(club.shaft.mass, "shaft_mass")) is not None
    ]
    found: list[Finding] = []
    for (here, longer, one), (there, shorter, two) in pairwise(known):
        into_irons = shorter.kind == "iron" and longer.kind in ("driver", "fairway wood", "hybrid")
        bound = limit("shaft_mass_bridge" if into_irons else "shaft_mass_step")
        step = difference(one, two, "g", "shaft of the shorter club less the longer's")
        weighed = weigh(step, bound)
        if weighed is None:
            continue
        falls = weighed.side == "under"
        if not falls and there - here > 1:
            continue  # what stands between them may climb gently
        found += graded(
            "flaw",
            code="shaft-mass-falls" if falls else "shaft-mass-jump",
            clubs=(longer, shorter),
            sentence=(
                f"The shaft of the {shorter.club} ({grams(two)}) is {grams(_size(step))} "
                f"{'lighter' if falls else 'heavier'} than that of the {longer.club} ({grams(one)})."
            ),
            why=(
                "Shaft mass is what hands and tempo notice first: "
                + ("a shorter club with a lighter shaft is swung too quickly." if falls else "such a step is felt.")
            ),
            remedy="Choose shafts whose masses climb gently as the clubs shorten; this is the pair to look at first.",
            figures={"longer": one, "shorter": two, "step": step},
            source=bound.source,
            sure=weighed.sure,
        )
    return found
