"""The rules held against a set as played: a breach is only what the figures are sure of."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from asplayed.clubs.records import Club, GolfSet
from asplayed.judgement.findings import Finding, Level, graded
from asplayed.judgement.rules import Verdict, check
from asplayed.quantities import Figure, Source, figure

_REMEDY = "Change it before it is played in a competition; the committee in charge has the last word."


def judge_rules(golf_set: GolfSet, local_rules: Sequence[str] = (), medical: bool = False) -> list[Finding]:
    """Findings about the rules: `clubs-over-fourteen`, `rule-<item>`, `local-rule-length`."""
    found: list[Finding] = []
    count = figure(float(len(golf_set.clubs)), "1", Source.COMPUTED, why="clubs in the set, none set aside")
    if golf_set.clubs:
        for verdict in check({"clubs": count}, local_rules):
            if verdict.verdict == "breach":
                found += _too_many(golf_set, verdict, count)
    exception = _exception(golf_set.clubs) if medical else {}
    for club in golf_set.clubs:
        found += _club(club, tuple(local_rules), tuple(exception.items()))
    return found


def _exception(clubs: Sequence[Club]) -> dict[str, Figure]:
    """What a medical exception is judged by: that it is asked for, and the shortest and longest club but the putter."""
    lengths = [club.as_played.length for club in clubs if club.kind != "putter" and club.as_played.length is not None]
    if not lengths:
        return {}
    inches = sorted((entry.in_unit("in") for entry in lengths), key=lambda entry: entry.number)
    return {"medical": figure("yes", "1", Source.STATED), "shortest": inches[0], "longest": inches[-1]}


def _too_many(golf_set: GolfSet, verdict: Verdict, count: Figure) -> list[Finding]:
    over = len(golf_set.clubs) - 14
    return graded(
        "breach",
        code="clubs-over-fourteen",
        clubs=golf_set.clubs,
        sentence=f"There are {len(golf_set.clubs)} clubs in the set; at most 14 may be carried.",
        why="Every hole begun with too many clubs costs the general penalty, in stroke play four strokes at most.",
        remedy=f"Leave {'one' if over == 1 else over} at home, and say which in the list.",
        figures={"clubs": count},
        source=verdict.section,
    )


def _entered(club: Club) -> dict[str, Figure]:
    played, head = club.as_played, club.head
    entries = {"loft": played.loft, "lie": played.lie, "length": played.length, "volume": head.volume}
    return {name: entry for name, entry in entries.items() if entry is not None and entry.has_number}


@lru_cache(maxsize=256)  # asked again for every slight change of another club
def _club(club: Club, local_rules: tuple[str, ...], exception: tuple[tuple[str, Figure], ...]) -> tuple[Finding, ...]:
    found: list[Finding] = []
    entered = _entered(club)
    context = {"kind": figure(club.kind, "1", Source.STATED), **dict(exception)}
    kind = context["kind"]
    for verdict in check({**context, **entered}, local_rules):
        if verdict.item not in entered or verdict.verdict not in ("breach", "within tolerance"):
            continue
        entry = entered[verdict.item]
        breach = verdict.verdict == "breach"
        level: Level = "breach" if breach else "note"
        found += graded(
            level,
            code=f"rule-{verdict.item}",
            clubs=(club,),
            sentence=(
                f"By the figures entered the {club.club} is outside the rules: {verdict.sentence}."
                if breach
                else f"The {club.club} is past a limit, within its test tolerance: {verdict.sentence}."
            ),
            why="A club outside the rules may not be played."
            if breach
            else "A test tolerance is not there to be used.",
            remedy=_REMEDY,
            figures={verdict.item: entry},
            source=verdict.section,
            sure=not breach or _whole_band(context, verdict.item, entered, local_rules),
        )
    if "G-10" not in local_rules:
        found += _local_length(club, kind, entered)
    return tuple(found)


def _whole_band(context: dict[str, Figure], item: str, entered: dict[str, Figure], local_rules: Sequence[str]) -> bool:
    """True when both ends of the figure's band are a breach too."""
    entry = entered[item]
    for end in (entry.low, entry.high):
        if end is None:
            continue
        moved = {**entered, item: figure(end, entry.unit, entry.source)}
        if not any(v.item == item and v.verdict == "breach" for v in check({**context, **moved}, local_rules)):
            return False
    return True


def _local_length(club: Club, kind: Figure, entered: dict[str, Figure]) -> list[Finding]:
    if "length" not in entered:
        return []
    length = {"kind": kind, "length": entered["length"]}

    def verdict(rules: Sequence[str]) -> Verdict:
        return next(each for each in check(length, rules) if each.item == "length")

    local = verdict(("G-10",))
    if local.verdict != "breach" or verdict(()).verdict == "breach":
        return []
    return graded(
        "note",
        code="local-rule-length",
        clubs=(club,),
        sentence=f"The {club.club} is within the rules' length but not within a local rule's: {local.sentence}.",
        why="Where a competition has adopted that local rule, this club may not be played.",
        remedy="Ask the committee whether the local rule is in force.",
        figures={"length": entered["length"]},
        source=local.section,
    )
