"""From a decision to an order: the set as it will be, and for each club the work that makes it so.

The changes are made in the order of work (head and shaft before length, balance last) and the set settled against the
catalogue; `steps` then writes each club's operations. Everything that cannot be done is refused at once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

import msgspec
from msgspec.structs import replace

from asplayed.catalogue.changes import apply_settled, settle_part
from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.settling import settle
from asplayed.clubs import Change, Club, GolfSet, Question, Shaft, from_parts, played_set
from asplayed.clubs.assembly import points_of
from asplayed.clubs.changes import changed_club, in_turn, place_of
from asplayed.clubs.names import labels
from asplayed.errors import BadInput, Refused
from asplayed.quantities import Figure, Source, plain, to_si
from asplayed.workshop.bench import held_to
from asplayed.workshop.cuts import tip_kind
from asplayed.workshop.job import Job, is_joint, is_regrip, work_in_words
from asplayed.workshop.matching import match
from asplayed.workshop.records import Bench, ClubOrder, Order, PartNeeded
from asplayed.workshop.steps import steps_of
from asplayed.workshop.stiffness import Beam, plan

if TYPE_CHECKING:
    from asplayed.catalogue import Part

_ONCE = ("head", "shaft", "length", "grip", "sleeve", "weights", "swing weight", "butt inertia")
_MEANT = {"swing weight": "balance", "butt inertia": "balance"}


class _Pair(NamedTuple):
    """A club of the set as it was (None: added) and which changes it takes."""

    before: Club | None
    club: Club
    changes: tuple[Change, ...]


def order(
    golf_set: GolfSet,
    changes: Sequence[Change] = (),
    *,
    parts: Sequence[Part] = (),
    bench: Sequence[Bench] = (),
    shafts: Sequence[Figure] = (),
    slope: float | None = None,
    set_name: str | None = None,
    set_version: int | None = None,
    made: str | None = None,
) -> Order:
    """The order that makes these changes; without any, the order that builds the whole set as listed.

    `bench` holds what was measured of the parts; `shafts` the raw masses at hand of the shafts ordered, to be shared
    out so that the least mass is added; `slope` (cpm per inch of shorter club) asks for a frequency plan over the
    clubs that get a shaft. What crosses a limit is refused, every fault named with its club.

    >>> from asplayed.clubs import Head
    >>> from asplayed.quantities import figure
    >>> bag = GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(56, "deg", "stated"))),))
    >>> weak = Change(club="sand wedge", what="loft", by=True, figure=figure(1, "deg", "stated"))
    >>> [step.operation for step in order(bag, [weak]).clubs[0].steps][:3]
    ['loft and lie', 'clean', 'measure']
    """
    if not golf_set.clubs and not any(change.what == "add" for change in changes):
        raise BadInput("there is no club in this set to order work on")
    faults = _said_twice(golf_set, changes)
    measured = _by_place(golf_set, bench)
    if faults:
        raise _refused(faults)
    whole = not changes
    pairs = _pairs(golf_set, changes, measured)
    heads = [measured.get(place, ()) for place in range(len(golf_set.clubs))]
    jobs, questions = _jobs(golf_set, pairs, heads, whole, parts, faults)
    if not faults and slope is not None:
        jobs = _planned(jobs, slope, faults)
    if not faults and shafts:
        jobs = _shared_out(jobs, shafts, faults)
    outcome = _outcome(golf_set, jobs, changes, parts)
    names = labels(outcome.clubs)
    orders = []
    for name, job, club in zip(names, jobs, outcome.clubs, strict=True):
        if not (whole or job.changes or job.before is None):
            continue
        try:
            steps, chance, asked = steps_of(job._replace(club=club), whole=whole, hand=golf_set.set.hand)
        except BadInput as fault:
            faults.append(f"{name}: {fault}")
            continue
        questions += [Question(line=None, club=name, about=about, text=text) for about, text in asked]
        work = work_in_words(job.changes) or "built as listed"
        orders.append(ClubOrder(club=name, hand=golf_set.set.hand, work=work, steps=steps, chance=chance))
    if faults:
        raise _refused(faults)
    found = Order(
        order="",
        set_name=set_name,
        set_version=set_version,
        player=golf_set.set.player,
        hand=golf_set.set.hand,
        made=made,
        changes=tuple(changes),
        clubs=tuple(orders),
        parts=_parts(names, jobs, outcome, whole),
        questions=tuple(questions),
        outcome=outcome,
    )
    return replace(found, order=_name(found))


def _refused(faults: Sequence[str]) -> BadInput:
    return BadInput(f"this order cannot be made: {faults[0]}") if len(faults) == 1 else Refused(
        "this order cannot be made", faults
    )  # fmt: skip


def _name(found: Order) -> str:
    """The order's name: the set's, and a mark that only the same order of the same set has."""
    content = msgspec.json.encode(plain(replace(found, made=None)))
    return f"{found.set_name or 'order'}-{hashlib.sha256(content).hexdigest()[:8]}"


def _said_twice(golf_set: GolfSet, changes: Iterable[Change]) -> list[str]:
    said: dict[tuple[int, str], Change] = {}
    faults = []
    for change in changes:
        if change.what not in _ONCE or change.by:
            continue
        key = (place_of(golf_set, change.club), _MEANT.get(change.what, change.what))
        if key in said and replace(said[key], text="") != replace(change, text=""):
            both = f"{said[key].text!r} and {change.text!r}"
            faults.append(f"{change.club}: two changes of {key[1]} for one club ({both}); keep one")
        said[key] = change
    return faults


def _by_place(golf_set: GolfSet, bench: Iterable[Bench]) -> dict[int, tuple[Bench, ...]]:
    """What was measured, by the club's place: several rows of one club are several heads at hand."""
    found: dict[int, tuple[Bench, ...]] = {}
    for row in bench:
        place = place_of(golf_set, row.club)
        found[place] = (*found.get(place, ()), row)
    for rows in found.values():
        for field in ("raw_length", "raw_mass", "tip"):
            values = {
                getattr(row, field).in_unit("g" if field == "raw_mass" else "in").number
                for row in rows
                if getattr(row, field)
            }
            if len(values) > 1:
                raise BadInput(
                    f"{rows[0].club}: two shafts for one club in the bench's table "
                    f"({field.replace('_', ' ')} {' and '.join(f'{value:g}' for value in sorted(values))}); keep one"
                )
    return found


def _pairs(golf_set: GolfSet, changes: Sequence[Change], measured: dict[int, tuple[Bench, ...]]) -> list[_Pair]:
    """Every club that the set will have, with the changes it takes in the order of work."""
    taken: dict[int, list[Change]] = {}
    added = []
    for change in in_turn(changes):
        if change.what == "add" and change.added is not None:
            added.append(_Pair(None, change.added, (change,)))
        elif change.what != "ball":
            taken.setdefault(place_of(golf_set, change.club), []).append(change)
    pairs = []
    for place, club in enumerate(golf_set.clubs):
        own = tuple(taken.get(place, ()))
        if any(change.what == "drop" for change in own):
            continue
        pairs.append(_Pair(club, _weighed(club, measured.get(place, ())), own))
    return pairs + added


def _weighed(club: Club, rows: Sequence[Bench]) -> Club:
    """The club with what was measured of its head put into it."""
    masses = [row.head_mass for row in rows if row.head_mass is not None]
    return club if not masses else replace(club, head=replace(club.head, mass=masses[0].in_unit("g")))


def _with_shaft(club: Club, rows: Sequence[Bench]) -> Club:
    for row in rows:
        fields = {
            name: entry
            for name, entry in (
                ("mass", row.raw_mass),
                ("length", row.raw_length),
                ("tip", row.tip),
                ("butt", row.butt),
            )
            if entry is not None
        }
        club = replace(club, shaft=replace(club.shaft, **fields))
    return club


def _jobs(
    golf_set: GolfSet,
    pairs: Sequence[_Pair],
    heads: Sequence[Sequence[Bench]],
    whole: bool,
    parts: Sequence[Part],
    faults: list[str],
) -> tuple[list[Job], list[Question]]:
    catalogue = Catalogue(parts)
    names = labels([pair.club for pair in pairs])
    places = {id(club): place for place, club in enumerate(golf_set.clubs)}
    jobs: list[Job] = []
    questions: list[Question] = []
    for name, pair in zip(names, pairs, strict=True):
        rows = tuple(heads[places[id(pair.before)]]) if pair.before is not None else ()
        club = pair.club if pair.before is not None and not whole else _with_shaft(pair.club, rows)
        questions += _head_against_balance(pair, name)
        try:
            for change in pair.changes:
                if change.what == "add":
                    continue
                club, remarks = settle_part(golf_set, changed_club(club, change), change.what, catalogue)
                questions += [Question(line=None, club=name, about=change.what, text=remark) for remark in remarks]
                if change.what == "shaft":
                    club = _with_shaft(club, rows)
            if pair.before is None:
                [club] = settle(replace(golf_set, clubs=(club,), ball=None), catalogue).clubs
            if whole:
                club = _as_listed(club, name, questions)
        except BadInput as fault:
            faults.append(f"{name}: {fault}")
        jobs.append(Job(pair.before, club, pair.changes, rows))
    return jobs, questions


def _head_against_balance(pair: _Pair, name: str) -> list[Question]:
    """Asked where the head as weighed and the swing weight stated of a club that stays as it is cannot both be so."""
    club, stated = pair.club, pair.club.stated.swing_weight
    weighed = pair.before is not None and pair.club.head.mass is not pair.before.head.mass
    turned = {change.what for change in pair.changes} <= {"loft", "lie", "sleeve"}
    wanted = points_of(stated)
    read = club.as_played.swing_weight
    on_scale = read is not None and read.source is Source.MEASURED
    if not weighed or turned or on_scale or stated is None or wanted is None or club.head.mass is None:
        return []
    made = from_parts(club).swing_weight
    points = points_of(made)
    if made is None or points is None or abs(points.number - wanted.number) <= held_to("swing_weight").within:
        return []
    text = (
        f"with its head weighed at {club.head.mass.number:g} g the parts read {made.value}, and {stated.value} is "
        "stated of the club: the head as weighed is taken; read the club on the scale before mass is added"
    )
    return [Question(line=None, club=name, about="stated.swing_weight", text=text)]


def _as_listed(club: Club, name: str, questions: list[Question]) -> Club:
    """The club with the mass that brings its parts to the swing weight the list states of it, where that can be."""
    stated = club.stated.swing_weight
    if stated is None or not isinstance(stated.value, str):
        return club
    try:
        return changed_club(replace(club, stated=replace(club.stated, swing_weight=None)), Change(
            club=club.club, what="swing weight", figure=stated
        ))  # fmt: skip
    except BadInput as fault:
        questions.append(
            Question(line=None, club=name, about="stated.swing_weight", text=f"{fault}; is {stated.value} meant?")
        )
        return club


# ------------------------------------------------------------------------------------------- plans over several clubs


def _planned(jobs: Sequence[Job], slope: float, faults: list[str]) -> list[Job]:
    """The jobs with the tip trims that bring their clubs onto one line of frequencies."""
    if not 0 < slope < 40:
        faults.append(f"a slope of {slope:g} cpm an inch cannot be; usual are 8 to 9 (give one between 0 and 40)")
        return list(jobs)
    chosen = [place for place, job in enumerate(jobs) if any(row.frequency for row in job.bench)]
    if not chosen:
        faults.append("a frequency plan needs each club's frequency with its tip uncut; give it in the bench's table")
        return list(jobs)
    beams, lengths, clamps = [], [], set()
    for place in chosen:
        job = jobs[place]
        row = next(row for row in job.bench if row.frequency)
        tip = job.club.shaft.tip
        if tip_kind(tip.in_unit("in").number if tip is not None and tip.has_number else None) == "taper":
            faults.append(f"{job.club.club}: its taper tip is not trimmed, so it cannot take part in a frequency plan")
            return list(jobs)
        played = played_set(GolfSet(clubs=(job.club,))).clubs[0].as_played
        assert row.frequency is not None and played.length is not None and played.mass is not None
        clamp = row.clamp or Figure(value=5.0, unit="in", source=Source.COMMON_PRACTICE)
        clamps.add(round(clamp.in_unit("in").number, 3))
        from asplayed.clubs import assembly

        given = assembly.parts_without_head(job.club, played.length)
        mass, raw = (to_si(given[name].number, given[name].unit) for name in ("shaft_mass", "shaft_length"))
        head = assembly.head_mass(job.club, given)
        length = to_si(played.length.number, played.length.unit)
        beams.append(
            Beam(
                length - to_si(clamp.number, clamp.unit),
                to_si(head.number, head.unit),
                mass / raw,
                to_si(row.frequency.number, row.frequency.unit),
            )
        )
        lengths.append(length)
    if len(clamps) > 1:
        held = " and ".join(f"{clamp:g} in" for clamp in sorted(clamps))
        faults.append(f"the frequencies were read with clamps of {held}; read all with one")
        return list(jobs)
    try:
        trims = plan(beams, lengths, slope / 60 / 0.0254)
    except BadInput as fault:
        faults.append(str(fault))
        return list(jobs)
    found = list(jobs)
    for place, trimmed in zip(chosen, trims, strict=True):
        job = found[place]
        why = f"butt clamped {clamps and min(clamps):g} in; planned on a slope of {slope:g} cpm an inch"
        target = Figure(value=round(60 * trimmed.frequency, 1), unit="cpm", source=Source.COMPUTED, why=why).within(2.0)
        trim = Figure(value=round(trimmed.trim / 0.0254, 3), unit="in", source=Source.COMPUTED, why=why)
        shaft = replace(job.club.shaft, tip_trim=trim if trim.number > 0 else None)
        club = replace(job.club, shaft=shaft, stated=replace(job.club.stated, frequency=target))
        planned = Change(
            club=job.club.club, what="tip trim", figure=trim, text=f"frequency plan, {slope:g} cpm an inch"
        )
        found[place] = Job(job.before, club, (*job.changes, planned), job.bench)
    return found


def _shared_out(jobs: Sequence[Job], shafts: Sequence[Figure], faults: list[str]) -> list[Job]:
    """The jobs with the shafts and heads at hand shared out so that the least mass is added to reach the balances."""
    chosen, targets = [], []
    for place, job in enumerate(jobs):
        target = next((change.figure for change in reversed(job.changes) if change.what in _MEANT), None)
        if target is not None and any(change.what == "shaft" for change in job.changes):
            chosen.append(place)
            targets.append(target)
    if not chosen:
        faults.append(
            "shafts at hand are shared out by swing weight or inertia; order a shaft and a target for those clubs"
        )
        return list(jobs)
    ascending = [jobs[place].club.club for place in chosen if jobs[place].club.shaft.ascending]
    if ascending:
        faults.append(
            f"the shafts of {', '.join(ascending)} are an ascending set: each belongs to its own club and is kept in "
            "sequence, so they are not shared out"
        )
        return list(jobs)
    clubs = [replace(jobs[place].club, added=()) for place in chosen]
    heads = [
        [row.head_mass for row in jobs[place].bench if row.head_mass is not None] or [_head_of(jobs[place].club)]
        for place in chosen
    ]
    try:
        matched = match(clubs, targets, shafts, heads)
    except BadInput as fault:
        faults.append(str(fault))
        return list(jobs)
    found = list(jobs)
    for place, club, target, one, masses in zip(chosen, clubs, targets, matched, heads, strict=True):
        fitted = replace(
            club,
            shaft=replace(club.shaft, mass=shafts[one.shaft]),
            head=replace(club.head, mass=masses[one.head]),
        )
        what = "swing weight" if target.unit == "1" else "butt inertia"
        job = found[place]
        found[place] = job._replace(club=changed_club(fitted, Change(club=club.club, what=what, figure=target)))  # type: ignore[arg-type]
    return found


def _head_of(club: Club) -> Figure:
    from asplayed.clubs import angles, assembly

    length = angles.length(club)
    assert length is not None  # every row of the usual figures carries a length
    return assembly.head_mass(club, assembly.parts_without_head(club, length))


# ----------------------------------------------------------------------------------------------------- what comes out


def _outcome(golf_set: GolfSet, jobs: Sequence[Job], changes: Iterable[Change], parts: Sequence[Part]) -> GolfSet:
    made = replace(golf_set, clubs=tuple(job.club for job in jobs))
    others = [change for change in changes if change.what == "ball"]
    return played_set(apply_settled(made, others, parts))


def _parts(names: Sequence[str], jobs: Sequence[Job], outcome: GolfSet, whole: bool) -> tuple[PartNeeded, ...]:
    """The parts that the order takes, each with its clubs."""
    wanted: dict[tuple[str, str], list[str]] = {}
    for name, job, club in zip(names, jobs, outcome.clubs, strict=True):
        built = whole or job.before is None
        whats = {change.what for change in job.changes}
        if not (built or whats):
            continue
        if built or "head" in whats:
            loft = club.head.loft
            stamp = f" {loft.value:g}°" if loft is not None and isinstance(loft.value, int | float) else ""
            wanted.setdefault(("head", f"{_called(club.head) or club.club}{stamp}"), []).append(name)
        if built or "shaft" in whats:
            flex = f" {club.shaft.flex}" if club.shaft.flex else ""
            wanted.setdefault(("shaft", f"{_shaft_called(club.shaft)}{flex}"), []).append(name)
        if is_joint(job, whole=whole):
            wanted.setdefault(("ferrule", "ferrule"), []).append(name)
        if is_regrip(job, whole=whole):
            wanted.setdefault(("grip", _called(club.grip) or "grip"), []).append(name)
    return tuple(
        PartNeeded(part=part, name=name, clubs=tuple(clubs), count=len(clubs))  # type: ignore[arg-type]
        for (part, name), clubs in wanted.items()
    )


def _shaft_called(shaft: Shaft) -> str:
    """Maker and the words given for a shaft: they hold its class of mass, which the model's name does not."""
    if not shaft.name:
        return _called(shaft) or "shaft"
    maker = shaft.maker or ""
    return shaft.name if shaft.name.casefold().startswith(maker.casefold()) else f"{maker} {shaft.name}"


def _called(part: object) -> str:
    settled = [word for word in (getattr(part, "maker", None), getattr(part, "model", None)) if word]
    return " ".join(settled) or getattr(part, "name", None) or ""
