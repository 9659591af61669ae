"""What should be in the bag, set how: the best set among every club the player could have, with its proof and reasons.

One function, `choose`. It flies every candidate in the player's hands, in the winds of the course; reckons what each
costs in every shot a round asks for; lets the solver choose the set; reads its own changes back through the words that
an order takes; and says why, what is given up, and how sure it is.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from typing import NamedTuple

import msgspec
import numpy as np
from numpy.typing import NDArray

from asplayed.catalogue.changes import apply_settled
from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.choosing.candidates import EVERYTHING, Candidate, Candidates, What, candidates
from asplayed.choosing.choice import best_set
from asplayed.choosing.choice_model import Against, Choice, Entrant, Limits, Progress
from asplayed.choosing.choice_problem import is_forbidden
from asplayed.choosing.cost import Pattern, expected_strokes
from asplayed.choosing.demand import Course, Situation, default_demand, demand_of
from asplayed.choosing.explaining import Told, explain, served_words
from asplayed.choosing.prices import Prices
from asplayed.choosing.sureness import Sure, compare, worlds_of
from asplayed.clubs import Club, GolfSet, angles
from asplayed.clubs.names import labels
from asplayed.clubs.records import Kind, Record
from asplayed.errors import BadInput
from asplayed.players.records import Conditions, Player
from asplayed.players.summaries import Session
from asplayed.players.versions import Hands, Patterns, Versions, fly_versions, hands_of
from asplayed.quantities import Figure, Source, figure, from_si, to_si

Numbers = NDArray[np.float64]

CHANGE_WORTH = 0.05
"""Strokes a round that a change must bring to be made where nobody says otherwise: one in twenty rounds; assumed."""
_MOST_ALTERNATIVES = 10
_READ = 0.06  # degrees that a club read back from its words may differ from the one flown: charts are rounded so


class ChosenClub(Record, frozen=True, kw_only=True):
    """One club of the set chosen: what is changed of it, what it does then, what for, and why.

    `worth` is what a round costs more when no version of it may be had (None where no set is left without it, as for
    the putter); `replaces` the club of today's whose place it takes; `serves` the shots it plays.
    """

    club: str
    label: str
    kind: Kind
    changes: tuple[str, ...]
    parts: str | None = None
    loft: Figure | None = None
    carry: Figure | None = None
    total: Figure | None = None
    descent: Figure | None = None
    depth: Figure | None = None
    width: Figure | None = None
    worth: Figure | None = None
    price: Figure | None = None
    shots: Figure | None = None
    serves: str | None = None
    replaces: str | None = None
    why: str | None = None


class Alternative(Record, frozen=True, kw_only=True):
    """Another set: what it costs, how much more than the best, all its changes, and how sure the best is better.

    One that costs fewer strokes has a `remark` that says why it was not chosen.
    """

    objective: Figure
    more: Figure
    changes: tuple[str, ...]
    dropped: tuple[str, ...]
    differs: str
    remark: str | None = None
    sure: Sure | None = None
    optimal: bool


class OnFront(Record, frozen=True, kw_only=True):
    """The best set within a limit on changes or on price: the limit, its strokes, what it saves, its changes."""

    limit: Figure
    objective: Figure
    saved: Figure
    changes: tuple[str, ...]
    optimal: bool


class Chosen(Record, frozen=True, kw_only=True):
    """The set chosen, its proof and its reasons.

    `objective` is what the shots of a round cost with it, `today` with today's set; `proof_gap` how far below it the
    best set may still lie (0: proven best among the candidates). `changes` make it, in the words of `try` and `order`.
    """

    objective: Figure
    today: Figure
    saved: Figure
    proof_gap: Figure
    proven: bool
    candidates: int
    chosen: tuple[ChosenClub, ...]
    changes: tuple[str, ...]
    dropped: tuple[str, ...]
    alternatives: tuple[Alternative, ...]
    front_by_changes: tuple[OnFront, ...]
    front_by_price: tuple[OnFront, ...]
    sure: Sure | None
    price: Figure | None
    words: tuple[str, ...]
    assumed: tuple[str, ...]
    situations: int
    error: Figure
    seed: int
    stopped: bool = False


class _Reckoned(NamedTuple):
    """Everything that stands before the choice: who could be in the bag and what each costs in each shot, by world."""

    hands: Hands
    found: Candidates
    flown: Patterns
    situations: tuple[Situation, ...]
    weights: Numbers
    costs: Numbers  # world, entrant, situation
    odds: Numbers
    entrants: tuple[Entrant, ...]  # candidates, then the putters
    putters: tuple[tuple[str, Club], ...]
    error: float
    remarks: tuple[str, ...]
    idle: tuple[int, ...] = ()  # today's clubs that may stay where they cost nothing
    most: int = 0  # clubs of a set


def choose(
    golf_set: GolfSet,
    *,
    player: Player | None = None,
    sessions: Sequence[Session] = (),
    parts: Sequence[Part] | Catalogue = (),
    limits: Limits | None = None,
    course: Course | None = None,
    situations: Sequence[Situation] | None = None,
    conditions: Conditions | None = None,
    tried: Collection[What] = EVERYTHING,
    prices: Prices | None = None,
    against: Against = "average",
    worlds: int = 200,
    seconds: float = 30.0,
    seed: int = 0,
    on_progress: Callable[[Progress], None] | None = None,
) -> Chosen:
    """The best set this player could have, from today's clubs, their settings and the catalogue's heads.

    `limits` None: fourteen clubs, one driver at most, every change worth 0.05 strokes a round. `situations` are the
    shots to serve, else those of the `course`, else what a round usually asks; `conditions` stand before the course's
    own winds. `tried` says what may be tried. `against` the average of the winds or the worst of them. `seconds` bound
    the search, which then answers with its gap; an interrupt does the same. Refused with `BadInput`: limits that clash,
    clubs nobody has.

    >>> from asplayed.clubs import Head
    >>> wedges = (Club(club=name, kind="wedge", head=Head(loft=figure(loft, "deg", "stated")))
    ...     for name, loft in (("gap wedge", 50), ("sand wedge", 51)))
    >>> bag = GolfSet(clubs=(*wedges, Club(club="putter", kind="putter")))
    >>> answer = choose(bag, situations=[Situation("fairway", 80.0, 5.0), Situation("fairway", 95.0, 5.0)], worlds=20)
    >>> answer.proven, answer.saved.value >= 0, len(answer.chosen)
    (True, True, 3)
    """
    limits = Limits(change_worth=CHANGE_WORTH) if limits is None else limits
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    reckoned = _reckoned(golf_set, player, sessions, catalogue, course, situations, conditions, tried, prices, seed)
    reckoned = reckoned._replace(idle=_idle(reckoned, limits), most=limits.clubs)
    choice = best_set(
        reckoned.costs,
        reckoned.weights,
        reckoned.entrants,
        limits,
        against=against,
        odds=reckoned.odds,
        alternatives=_MOST_ALTERNATIVES,
        seconds=seconds,
        on_progress=on_progress,
    )
    return _answer(golf_set, catalogue, reckoned, choice, prices, worlds, seed)


def situations_for(
    hands: Hands, course: Course | None, situations: Sequence[Situation] | None = None
) -> tuple[Situation, ...]:
    """The shots to serve: as given, else of the course, else as a round usually asks a player of this reach."""
    if situations is not None:
        return tuple(situations)
    reach = max((to_si(each.total.number, each.total.unit) for each in hands.flown.clubs), default=0.0)
    reach = min(max(reach, 60.0), 400.0)
    handicap = hands.known.skill.handicap.number
    return demand_of(course, reach, handicap) if course is not None else default_demand(reach, handicap)


def pattern_of(flown: Patterns, versions: Versions) -> Pattern:
    """What flies as the costs take it."""
    nothing = np.zeros(len(versions.loft))
    return Pattern(
        flown.carry, flown.run, flown.side, flown.depth, flown.width, flown.correlation, nothing, versions.loft
    )


def _reckoned(
    golf_set: GolfSet,
    player: Player | None,
    sessions: Sequence[Session],
    catalogue: Catalogue,
    course: Course | None,
    situations: Sequence[Situation] | None,
    conditions: Conditions | None,
    tried: Collection[What],
    prices: Prices | None,
    seed: int,
) -> _Reckoned:
    if not any(club.kind != "putter" for club in golf_set.clubs):
        raise BadInput("the set holds no club that is swung in full, so there is nothing to choose beside; add one")
    first, *others = _conditions(course, conditions)
    hands = hands_of(golf_set, player, sessions, conditions=first[0], seed=seed)
    found = candidates(hands, catalogue, tried=tried, prices=prices)
    flown = fly_versions(hands, found.versions)
    asked = situations_for(hands, course, situations)
    costs, error = [], 0.0
    for patterns in (flown, *(fly_versions(hands, found.versions, each) for each, _ in others)):
        reckoned = expected_strokes(pattern_of(patterns, found.versions), asked)
        costs.append(reckoned.strokes)
        error = max(error, reckoned.error)
    names = labels(golf_set.clubs)
    putters = tuple((name, club) for name, club in zip(names, golf_set.clubs, strict=True) if club.kind == "putter")
    remarks = list(found.remarks)
    entrants = [_entrant(each, float(carry)) for each, carry in zip(found.entries, flown.carry, strict=True)]
    entrants += [Entrant(name, club.club, "putter", model=club.head.model) for name, club in putters]
    if not putters:
        entrants.append(Entrant("putter", "putter", "putter"))
        remarks.append("the list has no putter: one of the clubs is kept for it")
    nothing = np.full((len(costs), len(entrants) - len(found.entries), len(asked)), np.inf)
    return _Reckoned(
        hands, found, flown, asked, np.array([each.weight for each in asked]),
        np.concatenate([np.array(costs), nothing], axis=1), np.array([odds for _, odds in (first, *others)]),
        tuple(entrants), putters, error, tuple(remarks),
    )  # fmt: skip


def _conditions(course: Course | None, asked: Conditions | None) -> list[tuple[Conditions | None, float]]:
    """The conditions to play in with their odds: the course's, in each of its winds, under what was asked for."""
    if course is None:
        return [(asked, 1.0)]
    found: dict[Conditions, float] = {}
    for own, odds in course.worlds():
        given = {} if asked is None else {
            name: entry for name in Conditions.__struct_fields__ if (entry := getattr(asked, name)) is not None
        }  # fmt: skip
        merged = msgspec.structs.replace(own, **given)
        found[merged] = found.get(merged, 0.0) + odds
    return list(found.items())


def _entrant(candidate: Candidate, carry: float) -> Entrant:
    return Entrant(
        place=candidate.place,
        club=candidate.club,
        kind=candidate.kind,
        loft=to_si(candidate.loft, "deg"),
        carry=carry,
        model=candidate.model or None,
        changes=len(candidate.words),
        price=candidate.price,
    )


# --------------------------------------------------------------------------------------------------------- the answer


class _Made(NamedTuple):
    """A set of candidates as changes to today's, and the clubs left at home."""

    places: tuple[int, ...]
    changes: tuple[str, ...]
    dropped: tuple[str, ...]


def _idle(reckoned: _Reckoned, limits: Limits) -> tuple[int, ...]:
    """Today's clubs as they are, but those that must not be in the bag; none where gaps are asked for."""
    if limits.least_gap is not None or limits.most_gap is not None:
        return ()
    return tuple(
        place
        for place, each in enumerate(reckoned.found.entries)
        if each.label is not None
        and not each.words
        and not any(is_forbidden(reckoned.entrants[place], word) for word in limits.forbidden)
    )


def _made(golf_set: GolfSet, reckoned: _Reckoned, chosen: Sequence[int]) -> _Made:
    """The changes that make a choice: settings and heads first, then what stays at home, then what comes in."""
    entries = reckoned.found.entries
    places = tuple(place for place in chosen if place < len(entries))
    kept = {entries[place].label for place in places}
    kept |= {reckoned.entrants[place].place for place in chosen if place >= len(entries)}
    # What plays no shot here is no reason to take a club out of a bag that has room for it.
    stay = [place for place in reckoned.idle if entries[place].label not in kept]
    places = tuple(sorted((*places, *stay[: max(0, reckoned.most - len(chosen))])))
    kept |= {entries[place].label for place in places}
    dropped = tuple(name for name in labels(golf_set.clubs) if name not in kept)
    altered = [words for place in places if entries[place].label is not None for words in entries[place].words]
    added = [words for place in places if entries[place].label is None for words in entries[place].words]
    return _Made(places, (*altered, *(f"drop {name}" for name in dropped), *added), dropped)


def _answer(
    golf_set: GolfSet,
    catalogue: Catalogue,
    reckoned: _Reckoned,
    choice: Choice,
    prices: Prices | None,
    worlds: int,
    seed: int,
) -> Chosen:
    entries = reckoned.found.entries
    made = _made(golf_set, reckoned, choice.chosen)
    today = [place for place, each in enumerate(entries) if each.label is not None and not each.words]
    per_shot = np.tensordot(reckoned.odds / reckoned.odds.sum(), reckoned.costs, axes=1)
    before, after = per_shot[today].min(axis=0), per_shot[list(made.places)].min(axis=0)
    cost_before, cost_after = float(before @ reckoned.weights), float(after @ reckoned.weights)
    read = _read_back(golf_set, reckoned, made, catalogue)
    # With the clubs that stay anyway, two sets of the solver's may be one and the same in the bag.
    found = {_made(golf_set, reckoned, each.chosen): each for each in reversed(choice.alternatives)}
    choice = choice._replace(alternatives=tuple(each for other, each in reversed(found.items()) if other != made))
    others = [_made(golf_set, reckoned, each.chosen) for each in choice.alternatives]
    union = sorted({*today, *made.places, *(place for each in others for place in each.places)})
    seat = {place: number for number, place in enumerate(union)}
    drawn = None
    if worlds:
        picked = np.array(union)
        versions = _picked(reckoned.found.versions, picked)
        some = Patterns(*(each[picked] for each in reckoned.flown))
        drawn = worlds_of(reckoned.hands, versions, some, reckoned.situations, worlds=worlds, seed=seed)

    def sure(one: Sequence[int], other: Sequence[int]) -> Sure | None:
        if drawn is None:
            return None
        return compare(drawn, [seat[place] for place in one], [seat[place] for place in other], seed)

    # worlds stand side by side in what serves: a club plays a shot where it does so in any of them
    many = len(reckoned.situations)
    served = {
        place: sorted({seat % many for seat, player in enumerate(choice.served) if player == place})
        for place in made.places
    }
    told = Told(
        hands=reckoned.hands,
        entries=entries,
        flown=reckoned.flown,
        situations=reckoned.situations,
        before=before * reckoned.weights,
        after=after * reckoned.weights,
        today=tuple(today),
        chosen=made.places,
        labels=read.labels,
        dropped=made.dropped,
        served=served,
        worth={place: choice.worth[place] for place in made.places if np.isfinite(choice.worth.get(place, np.inf))},
    )
    against_today = sure(made.places, today) if made.changes else None
    fronts = [
        tuple(
            _on_front(golf_set, reckoned, each.chosen, each.limit, unit, each.optimal, per_shot, cost_before)
            for each in points
        )
        for points, unit in ((choice.by_changes, "1"), (choice.by_price, "1"))
    ]
    # nothing beats the best candidate for every shot: what an interrupt leaves when it comes before any other bound
    gap = min(choice.gap, cost_after - float(per_shot.min(axis=0) @ reckoned.weights))
    choice = choice._replace(gap=gap)
    words, reasons = explain(told, cost_before - cost_after, against_today, choice, fronts[0], len(reckoned.entrants))
    clubs = tuple(_club(reckoned, told, reasons, place, prices) for place in made.places)
    spent = [entries[place].price for place in made.places]
    currency = prices.currency if prices is not None else None
    price = None
    if currency is not None and all(each is not None for each in spent):
        price = figure(round(sum(each for each in spent if each is not None), 2), "1", Source.COMPUTED, why=currency)
    why = "strokes a round to hole out, the shot played counted, putts from the green included; to compare, no score"
    return Chosen(
        objective=_strokes(cost_after, why),
        today=_strokes(cost_before, why),
        saved=_strokes(cost_before - cost_after, "today's set less the set chosen"),
        proof_gap=_strokes(gap, "how far below it the best set of these candidates may still lie"),
        proven=choice.optimal,
        candidates=len(reckoned.entrants),
        chosen=(*clubs, *(_putter(name, club) for name, club in reckoned.putters
                          if any(reckoned.entrants[place].place == name for place in choice.chosen))),
        changes=made.changes,
        dropped=made.dropped,
        alternatives=tuple(
            _alternative(reckoned, made, other, each.optimal, per_shot, cost_after, sure)
            for other, each in zip(others, choice.alternatives, strict=True)
        ),
        front_by_changes=fronts[0],
        front_by_price=fronts[1],
        sure=against_today,
        price=price,
        words=words,
        assumed=(*reckoned.hands.flown.assumed, *reckoned.remarks, *read.faults),
        situations=len(reckoned.situations),
        error=_strokes(reckoned.error, "how far off the strokes of one shot may be by the way they are summed"),
        seed=seed,
        stopped=choice.stopped,
    )  # fmt: skip


def _strokes(value: float, why: str | None = None) -> Figure:
    return figure(round(value, 4) + 0.0, "strokes", Source.COMPUTED, why=why)


def _picked(versions: Versions, places: NDArray[np.int64]) -> Versions:
    return Versions(
        *(
            tuple(column[place] for place in places.tolist()) if isinstance(column, tuple) else column[places]
            for column in versions
        )  # type: ignore[arg-type]
    )


class _ReadBack(NamedTuple):
    """The set that the words make: what each chosen place is called in it, and what does not come out as flown."""

    labels: dict[int, str]
    faults: tuple[str, ...]


def _read_back(golf_set: GolfSet, reckoned: _Reckoned, made: _Made, catalogue: Catalogue) -> _ReadBack:
    """The words read as a workshop's order reads them, and each club they make held against the one that was flown."""
    from asplayed.intake.changes import read_changes

    parts = [row for model in catalogue.models for row in model.rows]
    changes = read_changes(made.changes, golf_set, parts)
    changed = apply_settled(golf_set, changes, catalogue) if changes else golf_set
    stay = [name for name in labels(golf_set.clubs) if name not in made.dropped]
    names = labels(changed.clubs)
    entries = reckoned.found.entries
    added = [place for place in made.places if entries[place].label is None]
    seats: dict[str | int, int] = {name: number for number, name in enumerate(stay)}
    seats |= {place: len(stay) + number for number, place in enumerate(added)}
    called, faults = {}, []
    for place in made.places:
        entry = entries[place]
        seat = seats[place if entry.label is None else entry.label]
        called[place] = names[seat]
        loft = angles.loft(changed.clubs[seat])
        if entry.words and (loft is None or abs(loft.in_unit("deg").number - entry.loft) > _READ):
            got = "no loft" if loft is None else f"{loft.in_unit('deg').number:g}°"
            faults.append(
                f"{names[seat]}: its words make {got}, {entry.loft:g}° was flown; look at it before it is made"
            )
    return _ReadBack(called, tuple(faults))


def _club(reckoned: _Reckoned, told: Told, reasons: dict[int, str], place: int, prices: Prices | None) -> ChosenClub:
    entry, flown = reckoned.found.entries[place], reckoned.flown

    def far(value: float, unit: str = "yd") -> Figure:
        return figure(round(from_si(float(value), unit), 1), unit, Source.COMPUTED)

    worth = told.worth.get(place)
    shots = sum(reckoned.weights[d] for d in told.served[place])
    currency = prices.currency if prices is not None else None
    return ChosenClub(
        club=entry.club,
        label=told.labels[place],
        kind=entry.kind,
        changes=entry.words,
        parts=entry.parts or None,
        loft=figure(entry.loft, "deg", Source.COMPUTED),
        carry=far(flown.carry[place]),
        total=far(flown.carry[place] + flown.run[place]),
        descent=far(flown.descent[place], "deg"),
        depth=far(flown.depth[place]),
        width=far(flown.width[place]),
        worth=None if worth is None else _strokes(worth, "a round, when no version of it may be had"),
        price=figure(entry.price, "1", Source.STATED, why=currency) if entry.price is not None and currency else None,
        shots=figure(round(float(shots), 2), "1", Source.COMPUTED, why="shots a round"),
        serves=served_words([reckoned.situations[d] for d in told.served[place]]),
        replaces=told.replaces().get(place),
        why=reasons.get(place),
    )


def _putter(name: str, club: Club) -> ChosenClub:
    return ChosenClub(
        club=club.club, label=name, kind="putter", changes=(), loft=angles.loft(club),
        why="a putter is chosen by eye and stroke; this one stays",
    )  # fmt: skip


def _alternative(
    reckoned: _Reckoned,
    best: _Made,
    other: _Made,
    optimal: bool,
    per_shot: Numbers,
    cost: float,
    sure: Callable[[Sequence[int], Sequence[int]], Sure | None],
) -> Alternative:
    strokes = float(per_shot[list(other.places)].min(axis=0) @ reckoned.weights)
    entries = reckoned.found.entries
    there, here = ({entries[place].place: place for place in each.places} for each in (other, best))
    said = []
    for name, place in there.items():
        if here.get(name) != place:
            beside = entries[here[name]].words if name in here else ()
            said.append(f"{entries[place].called}: {_what_differs(entries[place].words, beside)}")
    said += [f"without {entries[place].called}" for name, place in here.items() if name not in there]
    return Alternative(
        objective=_strokes(strokes),
        more=_strokes(strokes - cost),
        changes=other.changes,
        dropped=other.dropped,
        differs=", ".join(said),
        remark=_remark(entries, best, other) if round(strokes - cost, 4) < 0 else None,
        sure=sure(best.places, other.places),
        optimal=optimal,
    )


def _what_differs(words: Sequence[str], others: Sequence[str]) -> str:
    """What is done to a club; of two versions of a new club what the one has that the other has not."""
    known = [piece for each in others if each.startswith("add:") for piece in each.split(", ")]
    said = []
    for each in words:
        if not each.startswith("add:"):
            said.append(each.partition(": ")[2])
            continue
        own = each.split(", ")
        fresh = [piece for piece in own[1:] if known and piece not in known]
        missing = [f"not {piece}" for piece in known[1:] if piece not in own and not fresh]
        said.append(", ".join(["new", *fresh, *missing]))
    return "; ".join(said) or "as it is"


def _remark(entries: Sequence[Candidate], best: _Made, other: _Made) -> str:
    """Why a set that costs fewer strokes is not the one chosen."""
    here, there = (sum(len(entries[place].words) for place in each.places) for each in (best, other))
    if there > here:
        return f"it saves more, but with {there} changes for {here}, and too little more for that"
    return "it saves more, and was found late: give the search more time"


def _on_front(
    golf_set: GolfSet,
    reckoned: _Reckoned,
    chosen: Sequence[int],
    limit: float,
    unit: str,
    optimal: bool,
    per_shot: Numbers,
    before: float,
) -> OnFront:
    made = _made(golf_set, reckoned, chosen)
    strokes = float(per_shot[list(made.places)].min(axis=0) @ reckoned.weights)
    return OnFront(
        limit=figure(limit, unit, Source.STATED),
        objective=_strokes(strokes),
        saved=_strokes(before - strokes),
        changes=made.changes,
        optimal=optimal,
    )
