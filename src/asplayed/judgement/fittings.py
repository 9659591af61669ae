"""Shafts, grips, putters and the ball: what one part says against another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from statistics import median

from asplayed.clubs.records import Club, GolfSet
from asplayed.clubs.usual import banded
from asplayed.judgement.findings import Finding, degrees, graded, inches, limit, rests_on_usual, weigh
from asplayed.judgement.progressions import numbered
from asplayed.quantities import Figure, Source

_FLEXES = ("L", "A", "R", "S", "X", "TX")
_STIFF, _SOFT = ("X", "TX"), ("A", "L")


def judge_fittings(golf_set: GolfSet) -> list[Finding]:
    """Findings about parts: `flex-…`, `torque-against-flex`, `shaft-tendencies`, `grip-sizes`, `putter-…`, ball."""
    clubs = golf_set.clubs
    found = _flexes(clubs) + _flexes_apart(clubs) + _grips(clubs) + _count_putters(clubs) + _ball(golf_set)
    for club in clubs:
        found += _torque(club) + _tendencies(club)
        if club.kind == "putter":
            found += _putter(club)
    return found


def _flexes(clubs: Sequence[Club]) -> list[Finding]:
    known = [(club, club.shaft.flex.strip().upper()) for _, club in numbered(clubs) if club.shaft.flex]
    counts = Counter(flex for _, flex in known)
    if len(known) < 3 or len(counts) < 2:
        return []
    usual = counts.most_common(1)[0][0]
    odd = [club for club, flex in known if flex != usual]
    named = ", ".join(f"{club.club} {flex}" for club, flex in known if flex != usual)
    return graded(
        "unusual",
        code="flex-mixed",
        clubs=odd,
        sentence=f"The irons are not all of one flex: most are {usual}, but {named}.",
        why="Neighbouring irons that load differently feel like two sets; sometimes it is meant, at the long end.",
        remedy="Ask whether it is on purpose; measure the frequencies if nobody knows.",
        figures={},
        source="common practice: one flex through the irons, trimmed to a line",
    )


def _flexes_apart(clubs: Sequence[Club]) -> list[Finding]:
    """Woods and hybrids two flexes or more away from the irons."""
    steps = {letter: step for step, letter in enumerate(_FLEXES)}

    def step_of(club: Club) -> int | None:
        return steps.get((club.shaft.flex or "").strip().upper().rstrip("+-"))

    irons = [step for _, club in numbered(clubs) if (step := step_of(club)) is not None]
    if not irons:
        return []
    middle = round(median(irons))
    odd = [
        (club, step)
        for club in clubs
        if club.kind in ("driver", "fairway wood", "hybrid", "driving iron")
        and (step := step_of(club)) is not None
        and abs(step - middle) > 1
    ]
    if not odd:
        return []
    named = ", ".join(f"{club.club} {club.shaft.flex}" for club, _ in odd)
    return graded(
        "unusual",
        code="flex-apart",
        clubs=[club for club, _ in odd],
        sentence=f"The irons are built in {_FLEXES[middle]}, but {named}: two flexes away or more.",
        why="One player loads all the clubs; so wide a step asks for two swings, unless the letters mean little.",
        remedy="Measure the frequencies: no standard defines a flex, and two makers' letters can be one stiffness.",
        figures={},
        source="common practice: neighbouring flexes through the bag; no standard defines a flex",
    )


def _torque(club: Club) -> list[Finding]:
    torque, flex = club.shaft.torque, (club.shaft.flex or "").strip().upper().rstrip("+-")
    if torque is None or not torque.has_number or flex not in _STIFF + _SOFT:
        return []
    bound = limit("torque_stiff" if flex in _STIFF else "torque_soft")
    weighed = weigh(torque, bound)
    if weighed is None:
        return []
    over = weighed.side == "over"
    return graded(
        "unusual",
        code="torque-against-flex",
        clubs=(club,),
        sentence=(
            f"The {club.club}'s shaft is of flex {flex} but has {degrees(torque)} of torque: "
            f"{'more' if over else 'less'} than goes with that flex as a rule."
        ),
        why="Stiff along and soft in twist (or the other way) sends mixed signals to the hands and to the face.",
        remedy="Check both figures against the maker's specification; they may belong to two different shafts.",
        figures={"torque": torque},
        source=bound.source,
        sure=weighed.sure,
    )


def _tendencies(club: Club) -> list[Finding]:
    shaft = club.shaft
    if {shaft.launch, shaft.spin} != {"low", "high"}:
        return []
    return graded(
        "unusual",
        code="shaft-tendencies",
        clubs=(club,),
        sentence=f"The {club.club}'s shaft is said to launch {shaft.launch} and to spin {shaft.spin}.",
        why="The two usually go together: what lowers launch lowers spin as well, so one of the words may be wrong.",
        remedy="Look the shaft up again, or let shots decide.",
        figures={},
        source="common practice: launch and spin tendencies of a shaft go together",
    )


def _grips(clubs: Sequence[Club]) -> list[Finding]:
    known = [(c, c.grip.wraps) for c in clubs if c.kind != "putter" and c.grip is not None and c.grip.wraps is not None]
    counts = Counter(wraps for _, wraps in known)
    if len(counts) < 2:
        return []
    usual = counts.most_common(1)[0][0]
    odd = [(club, wraps) for club, wraps in known if wraps != usual]
    figures = {c.club: c.as_played.grip_size for c, _ in odd if c.as_played.grip_size is not None}
    return graded(
        "unusual",
        code="grip-sizes",
        clubs=[club for club, _ in odd],
        sentence=(
            f"The grips are not all of one size: most have {usual:g} extra layers, but "
            + ", ".join(f"the {club.club} {wraps:g}" for club, wraps in odd)
            + "."
        ),
        why="A thicker or thinner grip changes how the hands close the face, club by club.",
        remedy="Build them alike, unless the player asked for it.",
        figures={name: entry for name, entry in figures.items() if entry.source is not Source.COMMON_PRACTICE},
        source="common practice: one grip size through the bag, putter apart",
    )


def _count_putters(clubs: Sequence[Club]) -> list[Finding]:
    putters = [club for club in clubs if club.kind == "putter"]
    if len(putters) > 1:
        return graded(
            "unusual",
            code="several-putters",
            clubs=putters,
            sentence=f"There are {len(putters)} putters in the set.",
            why="Each counts towards the fourteen, and a second one costs a club from the long end or the wedges.",
            remedy="Say which one plays, and keep the others aside.",
            figures={},
            source="common practice: one putter in the bag",
        )
    if putters or len(clubs) < 5:
        return []
    return graded(
        "unusual",
        code="no-putter",
        clubs=(),
        sentence="There is no putter in the set.",
        why="A list without a putter is usually a list that is not finished.",
        remedy="Ask for the putter: its length, lie, loft and toe hang.",
        figures={},
        source="common practice: one putter in the bag",
    )


def _putter(club: Club) -> list[Finding]:
    found: list[Finding] = []
    played = club.as_played
    for what, entry, words, remedy in (
        (
            "length",
            played.length,
            "Length sets the eyes over the line, or not.",
            "Watch where the eyes are at address; cut or lengthen, and bring the balance back.",
        ),
        (
            "loft",
            played.loft,
            "Too much loft lifts the ball at the start of its roll, too little drives it into the turf.",
            "Gauge it, and bend it if the head allows; look at the hands at impact first.",
        ),
        (
            "lie",
            played.lie,
            "A putter that does not sit flat aims the eye wrong, though at so little loft it hardly turns the ball.",
            "Watch where heel and toe sit at address; bend it if the head allows, or move the hands.",
        ),
    ):
        if entry is None:
            continue
        bound = limit(f"putter_{what}")
        weighed = weigh(entry, bound)
        if weighed is None:
            continue
        text = inches(entry) if what == "length" else degrees(entry)
        found += graded(
            "unusual",
            code=f"putter-{what}",
            clubs=(club,),
            sentence=f"The putter's {what} of {text} is outside what is usual.",
            why=words,
            remedy=remedy,
            figures={what: entry},
            source=bound.source,
            sure=weighed.sure,
        )
    return found + _toe_hang(club)


def _toe_hang(club: Club) -> list[Finding]:
    hang = banded(club.putter.toe_hang, "toe_hang") if club.putter else None
    played = club.as_played.toe_hang
    shown: Figure | None = played or hang
    if shown is None:
        return []
    arc = "a strong arc"
    if shown.number < limit("toe_hang.straight").high:
        arc = "a straight-back stroke"
    elif shown.number <= limit("toe_hang.moderate").high:
        arc = "a moderate arc"
    words = "It is face balanced" if shown.number == 0 else f"Its toe hangs {degrees(shown, 0)}"
    if rests_on_usual([shown]):
        words = f"By its neck its toe hangs about {degrees(shown, 0)}"
    return graded(
        "note",
        code="putter-toe-hang",
        clubs=(club,),
        sentence=f"{words}: a putter for {arc}.",
        why="Toe hang should follow the stroke: a toe that wants to open suits a face that opens and closes.",
        remedy="Watch the stroke; if it does not match, try another neck before another head.",
        figures={"toe_hang": shown},
        source=limit("toe_hang.straight").source,
    )


def _ball(golf_set: GolfSet) -> list[Finding]:
    if golf_set.ball is not None or not golf_set.clubs:
        return []
    return graded(
        "note",
        code="ball-unknown",
        clubs=(),
        sentence="No ball is named.",
        why="The ball decides spin around the green and some of the distance of every club.",
        remedy="Ask which ball is played, and fit with that ball.",
        figures={},
        source="common practice: fit with the ball that is played",
    )
