"""The work on shaft, joint, balance and grip: pull, prepare, trim, fit, cut, weight, bond, cure, grip."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from msgspec.structs import replace

from asplayed.clubs import from_parts
from asplayed.clubs.records import AddedAt, AddedMass
from asplayed.errors import BadInput
from asplayed.quantities import Figure, Source
from asplayed.workshop.bench import entry, held_to, usual
from asplayed.workshop.cuts import check_tip, cuts, tip_kind
from asplayed.workshop.job import (
    WOODEN,
    Work,
    ask,
    at,
    inches,
    is_joint,
    is_regrip,
    longer,
    new_shaft,
    number,
    shop_inches,
    step,
    text,
    tolerance_of,
)
from asplayed.workshop.records import Step


def _insertion(work: Work) -> Figure:
    least = usual("insertion", work.club.kind, "the least depth; the bore was not measured")
    depth = work.measured("bore_depth")
    if depth is None:
        return least
    if depth.in_unit("in").number < least.number - 1e-9:
        raise BadInput(
            f"its bore of {depth.in_unit('in').number:g} in is shallower than the {least.number:g} in a joint needs; "
            "a head on so short a joint can fly off: ask the maker, or take another head"
        )
    return depth.in_unit("in")


def pull(work: Work) -> list[Step]:
    if work.whole or work.job.before is None or not is_joint(work.job, whole=work.whole):
        return []
    words = "Warm the hosel, break the bond, pull straight; keep head and ferrule side for this club."
    return [step(work, "pull", words, target=text("head off, shaft and hosel whole"))]


def prepare(work: Work) -> list[Step]:
    if not is_joint(work.job, whole=work.whole):
        return []
    depth = _insertion(work)
    words = f"Abrade the tip over {shop_inches(depth.number)}, clean the bore, wipe both with solvent."
    if work.club.shaft.ascending:
        words += f" Ascending set: take the shaft marked for the {work.club.club}, and keep the set in sequence."
    if new_shaft(work.job, whole=work.whole) and tip_kind(number(work.club.shaft.tip, "in")) == "taper":
        words += f" Taper tip: the blank made for the {work.club.club}, its tip uncut."
    check_tip(number(work.club.shaft.tip, "in"), number(work.measured("bore"), "in"), _trim(work))
    target = replace(depth, why="abraded, from the tip")
    return [step(work, "prepare", words, target=target, tolerance=tolerance_of("cut"))]


def _trim(work: Work) -> float:
    return number(work.club.shaft.tip_trim, "in") or 0.0


def tip_trim(work: Work) -> list[Step]:
    trim = _trim(work)
    already = number(work.job.before.shaft.tip_trim, "in") or 0.0 if work.job.before is not None else 0.0
    more_off = trim if new_shaft(work.job, whole=work.whole) else trim - already
    if more_off <= 0 or not is_joint(work.job, whole=work.whole):
        return []
    bound = entry("limit", "tip_trim")
    if trim > bound["refuse"] + 1e-9:
        raise BadInput(
            f"a tip trim of {trim:g} in is beyond the {bound['refuse']:g} in that is safe without the maker's trimming "
            "chart; take a stiffer blank"
        )
    kind = tip_kind(number(work.club.shaft.tip, "in"))
    if kind is None and work.club.kind not in WOODEN:
        ask(work, "shaft.tip", f"is the tip of the {work.club.club}'s shaft parallel? A taper tip is not trimmed")
    words = f"Cut {shop_inches(more_off)} off the tip."
    more = ["thin-trim"] if trim > bound["caution"] else []
    target = inches(more_off, "off the tip")
    return [step(work, "tip trim", words, more=more, target=target, tolerance=tolerance_of("cut"))]


class _Fit(NamedTuple):
    """The lengths of a raw shaft's fit [in] and whether any of them is only a usual figure."""

    raw: float
    bore_to_sole: float
    depth: float
    cap: float
    usual: tuple[str, ...]


def _fit(work: Work) -> _Fit:
    kind = work.club.kind
    missing = []
    raw = number(work.measured("raw_length"), "in") or number(work.club.shaft.length, "in")
    if work.measured("raw_length") is None:
        missing.append("raw length")
    if raw is None:
        from asplayed.clubs.usual import usual as usual_of_club

        found = usual_of_club(work.club, "shaft_length")
        assert found is not None  # every row of the usual figures carries one
        raw = found.number
    sole = number(work.measured("bore_to_sole"), "in")
    if sole is None:
        missing.append("bottom of bore to sole")
        sole = usual("bore_to_sole", kind, "usual").number
    cap = number(work.measured("cap"), "in")
    if cap is None:
        missing.append("cap")
        cap = usual("cap", kind, "usual").number
    return _Fit(raw, sole, _insertion(work).number, cap, tuple(missing))


def _length_of(work: Work) -> float:
    assert work.will.length is not None  # every club as played has a length
    return work.will.length.in_unit("in").number


def _new_cuts(work: Work) -> tuple[_Fit, float, float]:
    fit = _fit(work)
    found = cuts(
        raw_length=fit.raw,
        length=_length_of(work),
        bore_to_sole=fit.bore_to_sole,
        bore_depth=fit.depth,
        cap=fit.cap,
        tip_trim=_trim(work),
    )
    if fit.usual:
        ask(
            work,
            "length",
            f"measure {', '.join(fit.usual)} of the {work.club.club} before cutting; usual figures are taken here",
        )
    return fit, found.butt, found.left


def dry_fit(work: Work) -> list[Step]:
    if not is_joint(work.job, whole=work.whole):
        return []
    if not new_shaft(work.job, whole=work.whole):
        depth = _insertion(work)
        words = f"Push the shaft to the bottom of the bore and mark it at the hosel: {shop_inches(depth.number)} go in."
        return [
            step(work, "dry fit", words, target=replace(depth, why="depth in the bore"), tolerance=tolerance_of("cut"))
        ]
    _, _, left = _new_cuts(work)
    into = "the sleeve, seated," if work.club.sleeve is not None else "the head,"
    words = (
        f"Ferrule on, shaft to the bottom of the bore of {into} sole on the 60° plane. Mark the cut "
        f"{shop_inches(left)} up from the bottom of the bore; with the cap on, the club is "
        f"{shop_inches(_length_of(work))}."
    )
    target = inches(left, "from the bottom of the bore to the cut")
    return [step(work, "dry fit", words, target=target, tolerance=tolerance_of("cut"))]


def _grown(work: Work) -> float:
    """How much longer [in] at its butt a shaft that stays in its club must become; less than nothing: shorter."""
    if new_shaft(work.job, whole=work.whole) or work.job.before is None:
        return 0.0
    more = longer(work.job)
    return 0.0 if abs(more) < held_to("length").within - 1e-9 else more


def butt_cut(work: Work) -> list[Step]:
    if new_shaft(work.job, whole=work.whole):
        fit, butt, left = _new_cuts(work)
        words = f"Cut {shop_inches(butt)} off the butt of the raw {shop_inches(fit.raw)}; {shop_inches(left)} are left."
        return [
            step(
                work,
                "butt cut",
                words,
                more=["usual-figure"] if fit.usual else [],
                target=inches(butt, f"off the butt; {left:.3f} in are left"),
                tolerance=tolerance_of("cut"),
                start=inches(fit.raw, "the raw shaft"),
            )
        ]
    off = -_grown(work)
    if off <= 0:
        return []
    words = f"Grip off; cut {shop_inches(off)} off the butt."
    return [
        step(
            work,
            "butt cut",
            words,
            target=inches(off, "off the butt"),
            tolerance=tolerance_of("cut"),
            start=work.was.length,
        )
    ]


def extend(work: Work) -> list[Step]:
    more = _grown(work)
    if more <= 0:
        return []
    bound = entry("limit", "extension")
    if more > bound["refuse"] + 1e-9:
        raise BadInput(
            f"{more:g} in longer is beyond the {bound['refuse']:g} in an extension takes; order a longer shaft for it"
        )
    words = f"Grip off; bond an extension of {shop_inches(more)} into the butt."
    target = inches(more, "extension")
    return [step(work, "extend", words, target=target, tolerance=tolerance_of("cut"), start=work.was.length)]


def tip_mass(work: Work) -> list[Step]:
    grams = at(work.club, "tip")
    if grams <= 0 or not is_joint(work.job, whole=work.whole):
        return []
    bound = entry("limit", "tip_mass")
    if grams > bound["refuse"] + 1e-9:
        raise BadInput(
            f"{grams:g} g in the tip is beyond the {bound['refuse']:g} g that is safe; add it at the head, or take a "
            "heavier head"
        )
    words = f"Tip weight of {grams:.1f} g, bonded; with it in place the shaft must still reach the bottom of the bore."
    target = Figure(value=round(grams, 2), unit="g", source=Source.COMPUTED)
    return [step(work, "tip mass", words, target=target, tolerance=tolerance_of("added"))]


def balance(work: Work) -> list[Step]:
    job = work.job
    target = next(
        (change.figure for change in reversed(job.changes) if change.what in ("swing weight", "butt inertia")), None
    )
    listed = work.whole and any(added.mass.why and "brings the club to" in added.mass.why for added in work.club.added)
    moved = [
        place
        for place in ("head", "tip", "butt")
        if abs(at(work.club, place) - (at(job.before, place) if job.before is not None and not work.whole else 0.0))
        > 1e-6
    ]
    if target is None and not moved and not listed:
        return []
    head = work.club.head.mass
    scale = job.before.as_played.swing_weight if job.before is not None else None
    known_masses = (head, scale, work.measured("head_mass"), job.before.head.mass if job.before is not None else None)
    weighed = any(known is not None and known.source is Source.MEASURED for known in known_masses)
    if (target is not None or listed) and not weighed:
        known = f"{head.number:.1f} g, {head.source.value}" if head is not None and head.has_number else "not known"
        ask(work, "head.mass", f"weigh the head of the {work.club.club} before mass is added (taken: {known})")
    if target is not None and new_shaft(job, whole=work.whole) and work.measured("raw_mass") is None:
        mass = work.club.shaft.mass
        taken = f"{mass.number:g} g, {mass.source.value}" if mass is not None and mass.has_number else "a usual one"
        ask(work, "shaft.mass", f"weigh the raw shaft of the {work.club.club} before mass is added (taken: {taken})")
    # a club that stays in one piece keeps what it has on it: the work is what comes on top
    whole_club = not work.whole and job.before is not None and not is_joint(job, whole=work.whole)
    has = job.before.added if whole_club and job.before is not None else ()
    bare = from_parts(replace(work.club, added=has))
    by_inertia = target is not None and target.unit != "1"
    will = from_parts(work.club)
    reads, starts = (will.butt_inertia, bare.butt_inertia) if by_inertia else (will.swing_weight, bare.swing_weight)
    assert reads is not None and starts is not None  # a club from its parts always has both
    before = f"The club as it is, all else done, reads {_read(starts)}. "
    if not has:
        before = f"Dry, with ferrule, tape and grip laid on: parts alone read {_read(starts)}. "
    words = f"{before}{_mass_work(work, has)}; it reads {_read(reads)}."
    return [
        step(
            work,
            "swing-weight plan",
            words,
            more=[] if weighed else ["head-unweighed"],
            target=target or reads,
            tolerance=tolerance_of("butt_inertia" if by_inertia else "swing_weight"),
            start=starts,
        )
    ]


def _mass_work(work: Work, has: Sequence[AddedMass]) -> str:
    """What is put on or taken off, place by place, beside the mass that the club has on it already."""
    told = []
    places: tuple[AddedAt, ...] = ("head", "tip", "butt")
    for place in places:
        there = sum(added.mass.number for added in has if added.place == place)
        more = at(work.club, place) - there
        in_all = f", {at(work.club, place):.1f} g in all" if there else ""
        if more > 1e-6:
            told.append(f"Add {more:.1f} g{' more' if there else ''} at the {place}{in_all}")
        elif more < -1e-6:
            told.append(f"Take {-more:.1f} g of the {there:.1f} g at the {place} off")
    return ", ".join([*told[:1], *(words[0].lower() + words[1:] for words in told[1:])]) or "Add nothing"


def _read(figure: Figure) -> str:
    return f"{figure.number:.0f} kg·cm²" if figure.has_number else str(figure.value)


def bond(work: Work) -> list[Step]:
    if not is_joint(work.job, whole=work.whole):
        return []
    depth = _insertion(work)
    gap = entry("bond_line")
    words = (
        "Mix to the sheet; wet bore and tip, turn the shaft home to the bottom of the bore, "
        f"{shop_inches(depth.number)} deep, ferrule down, wipe off. "
        f"The bond line is {gap['low']:g} to {gap['high']:g} in all round."
    )
    return [step(work, "bond", words, target=replace(depth, why="depth of the joint"), tolerance=tolerance_of("cut"))]


def cure(work: Work) -> list[Step]:
    if not (is_joint(work.job, whole=work.whole) or _grown(work) > 0):
        return []
    table = entry("cure")
    why = "where the resin's sheet says nothing else; at 20 °C or warmer"
    target = Figure(
        value=float(table["value"]), unit=table["unit"], source=Source.COMMON_PRACTICE, low=86400.0, why=why
    )
    return [
        step(work, "cure", "At least 24 h at 20 °C or warmer, unless the resin's sheet asks for more.", target=target)
    ]


def wraps_and_grip(work: Work) -> list[Step]:
    if not is_regrip(work.job, whole=work.whole):
        return []
    grip = work.club.grip
    wraps = grip.wraps if grip is not None and grip.wraps is not None else 0.0
    bound = entry("limit", "wraps")
    if wraps > bound["refuse"]:
        raise BadInput(
            f"{wraps:g} extra layers of tape are more than the {bound['refuse']} a grip goes over; take a larger grip"
        )
    more = ["thick-wraps"] if wraps > bound["caution"] else []
    name = " ".join(
        word for word in ((grip.maker, grip.model) if grip and grip.model else (grip.name,) if grip else ()) if word
    )
    butt, core = (
        number(work.measured("butt"), "in") or number(work.club.shaft.butt, "in"),
        number(work.measured("core"), "in"),
    )
    target = work.will.grip_size
    words = f"{name or 'Grip'} over one layer of tape and {wraps:g} extra."
    if butt is not None and core is not None and target is not None:
        target = Figure(
            value=round(target.number + butt - core, 4),
            unit="in",
            source=Source.COMPUTED,
            low=None if target.low is None else target.low + butt - core,
            high=None if target.high is None else target.high + butt - core,
            why=f"core of {core:g} in on a butt of {butt:g} in",
        )
        way = "larger" if butt >= core else "smaller"
        words += f" A core of {core:g} in on a butt of {butt:g} in comes out {abs(butt - core):.3f} in {way}."
    if at(work.club, "butt"):
        words += f" Counterweight of {at(work.club, 'butt'):.1f} g under the cap, fixed."
    if target is None:
        return [step(work, "wraps and grip", words, more=more, target=text("grip straight, cap home"))]
    words += f" Two inches below the cap it measures {shop_inches(target.number)}."
    return [
        step(
            work,
            "wraps and grip",
            words,
            more=more,
            target=target,
            tolerance=tolerance_of("grip_size"),
            figure="grip_size",
        )
    ]
