"""What-ifs: today's set beside the set with changes made, in other air or wind if asked: club, delivery, flight,
findings and strokes.

Changes compose: all of them are made, in the order of work (balance last), before anything is compared. Nothing is
stored.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from typing import Any, Literal, NamedTuple

import msgspec

from asplayed.catalogue.changes import apply_settled, settle_part
from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.clubs import AsPlayed, Change, Club, GolfSet, played_set
from asplayed.clubs.assembly import points_of
from asplayed.clubs.names import labels
from asplayed.clubs.records import Record
from asplayed.errors import BadInput
from asplayed.judgement import Finding, judge_played
from asplayed.judgement.heads import refuse_bend
from asplayed.judgement.stakes import strokes_of
from asplayed.players.delivery import norms
from asplayed.players.flown import FlownClub, FlownSet
from asplayed.players.flown import as_plain as flown_as_plain
from asplayed.players.flying import fly_set
from asplayed.players.places import place_of
from asplayed.players.records import Conditions, Player
from asplayed.players.summaries import Session
from asplayed.quantities import Figure, Parent, Source, figure, plain, read_quantity, to_si, unit_named

About = Literal["club", "delivery", "flight", "finding", "strokes"]

# Figures compared, and the least change worth a line, in the unit shown.
_CLUB = {
    "loft": 0.05, "lie": 0.05, "face": 0.05, "bounce": 0.05, "length": 0.01, "mass": 0.1, "swing_weight": 0.05,
    "butt_inertia": 1.0, "frequency": 0.3, "grip_size": 0.001, "cg_toeward": 0.05, "cg_backward": 0.05,
    "toe_hang": 0.5,
}  # fmt: skip
_DELIVERY = {
    "club_speed": 0.05, "attack": 0.05, "dynamic_loft": 0.05, "ball_speed": 0.05, "launch": 0.05, "spin": 10.0,
}  # fmt: skip
_FLIGHT = {"carry": 0.1, "total": 0.1, "apex": 0.3, "descent": 0.1, "side": 0.2, "depth": 0.1, "width": 0.1}
# Differences are surer than figures: published sensitivities to air and wind, and rules of thumb for clubs, lie within
# about a quarter of the computed ones. Trials of length and head mass differ as below.
_UNSURE = 0.25
# What the model does not resolve of a difference however small, as the half-width of a 90 % band in the unit shown;
# joined to the share above in quadrature, so that a change that crosses zero is not called exact. All assumed.
_UNRESOLVED = {
    "club_speed": 0.1, "attack": 0.1, "dynamic_loft": 0.1, "ball_speed": 0.2, "launch": 0.1, "spin": 30.0,
    "carry": 0.5, "total": 1.0, "apex": 0.5, "descent": 0.2, "side": 0.5, "depth": 0.5, "width": 0.5,
}  # fmt: skip
_PER_INCH = (0.007, 0.013)  # of the speed: Kenny, Wallace & Otto 2008; the arm-and-club rule 1.2 to 1.5 %
_MASS_POWER = (-0.23, -0.13)  # 0.18 ± 0.05: Daish; MacKenzie, Ryan & Rice 2015
_AIRS = {
    "air": "temperature", "temperature": "temperature", "humidity": "humidity", "altitude": "altitude",
    "height": "altitude", "pressure": "pressure", "wind": "wind_along", "target": "landing_height",
}  # fmt: skip
_WINDS = {
    "head": ("wind_along", -1), "into": ("wind_along", -1), "tail": ("wind_along", 1), "down": ("wind_along", 1),
    "behind": ("wind_along", 1), "from the left": ("wind_across", 1), "from the right": ("wind_across", -1),
    "left to right": ("wind_across", 1), "right to left": ("wind_across", -1), "across": ("wind_across", 1),
}  # fmt: skip

_SPEED = re.compile(r"[-+]?\d+(?:\.\d+)?\s*(?:mph|m/s|km/h|kph|kt|knots?)?", re.IGNORECASE)


BEYOND = "beyond the limit"  # the figure of a difference that says what no order takes


class Difference(Record, frozen=True, kw_only=True):
    """One thing that the changes change: a figure before and after, or a finding that comes or goes.

    `club` is the club's label, nothing for the set as a whole; a club added has no before, one dropped no after.
    """

    about: About
    club: str | None = None
    figure: str
    before: Figure | None = None
    after: Figure | None = None
    change: Figure | None = None
    sentence: str | None = None


class Seen(NamedTuple):
    """A set as played, flown and judged, with the strokes its full shots cost a round."""

    golf_set: GolfSet
    flown: FlownSet
    findings: tuple[Finding, ...]
    strokes: Figure | None


class WhatIf(NamedTuple):
    """Today's set, the set as it would be, what differs, and the changed set as it could be stored."""

    before: Seen
    after: Seen
    differences: tuple[Difference, ...]
    changed: GolfSet


def air_asked(texts: Iterable[str], given: Conditions | None = None) -> tuple[Conditions, tuple[str, ...]]:
    """The air, wind and ground that changes ask for, and the changes that are about clubs.

    >>> asked, clubs = air_asked(["air: 95 degF", "wind: 10 mph head", "sand wedge: bend 2 weak"])
    >>> asked.temperature.value, asked.wind_along.value, clubs
    (95.0, -10.0, ('sand wedge: bend 2 weak',))
    """
    found: dict[str, Figure] = {}
    ground = None
    clubs = []
    for text in texts:
        about, mark, words = (part.strip() for part in text.partition(":"))
        name = about.casefold()
        if mark and name == "ground":
            ground = words.casefold()
            if ground not in ("soft", "normal", "firm"):
                raise BadInput(f"{text.strip()[:100]!r}: the ground is soft, normal or firm")
        elif mark and name in _AIRS:
            field, entry = _air(name, words, text.strip()[:100])
            found[field] = entry
        else:
            clubs.append(text)
    made = msgspec.structs.replace(given or Conditions(), **found)
    if ground is not None:
        made = msgspec.structs.replace(made, ground=ground)
    place_of(made, [])  # refuses what no air can be
    return made, tuple(clubs)


def _air(name: str, words: str, shown: str) -> tuple[str, Figure]:
    field, sign = _AIRS[name], 1
    if name == "wind":
        way = next((way for way in _WINDS if re.search(rf"\b{way}\b", words.casefold())), None)
        if way is None:
            raise BadInput(
                f"{shown!r} does not say where the wind goes; write wind: 10 mph head, tail or left to right"
            )
        field, sign = _WINDS[way]
        speed = _SPEED.match(words)
        words = speed[0] if speed else words
    quantity = read_quantity(words)
    if not quantity.unit:
        raise BadInput(f"{shown!r} has no unit; write it as air: 95 degF, wind: 10 mph head or altitude: 5000 ft")
    if name == "air" and unit_named(quantity.unit).dimension != unit_named("degF").dimension:
        raise BadInput(f"{shown!r} is no temperature; write air: 95 degF, or altitude: 5000 ft for thinner air")
    return field, figure(sign * float(quantity.value), quantity.unit, Source.STATED)


def what_if(
    golf_set: GolfSet,
    changes: Sequence[Change],
    *,
    parts: Sequence[Part] | Catalogue = (),
    player: Player | None = None,
    sessions: Sequence[Session] = (),
    conditions: Conditions | None = None,
    local_rules: Sequence[str] = (),
    shots: int = 2000,
    seed: int = 0,
    before: Seen | None = None,
) -> WhatIf:
    """Today's set beside the set with the changes made and the air asked for.

    `sessions` are shots with today's set; `conditions` hold for the what-if alone. Single shots of both sides come from
    the same chance, so that what differs is the change. A change that cannot be made is refused with its reason.
    `before` is today's side where it is at hand already: what `today` answers for the same set, player and shots.

    >>> from asplayed.clubs import Head
    >>> bag = GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(56, "deg", "stated"))),))
    >>> weak = Change(club="sand wedge", what="loft", by=True, figure=figure(2, "deg", "stated"))
    >>> told = {(each.about, each.figure): each.change for each in what_if(bag, [weak], shots=50).differences}
    >>> round(told["club", "loft"].value, 6), told["flight", "carry"].value < -3
    (2.0, True)
    """
    changed = apply_settled(golf_set, changes, parts) if changes else golf_set
    if changes and not changed.clubs:
        raise BadInput("these changes leave no club in the set; keep one at least")
    if before is None:
        before = today(golf_set, player=player, sessions=sessions, local_rules=local_rules, shots=shots, seed=seed)
    then = fly_set(changed, player, sessions, struck_with=golf_set, conditions=conditions, shots=shots, seed=seed)
    after = _seen(_played_again(changed, golf_set, before.golf_set), then, local_rules)
    differences = (*_beyond(changed, changes), *_differences(before, after), *_remarks(changed, changes, parts))
    return WhatIf(before, after, differences, changed)


def _beyond(changed: GolfSet, changes: Sequence[Change]) -> list[Difference]:
    """What is worked out all the same and no order takes: bends beyond what the head may be bent."""
    by_label = dict(zip(labels(changed.clubs), changed.clubs, strict=True))
    found: dict[tuple[str, str], Difference] = {}
    about: Literal["loft", "lie"]
    for about in ("loft", "lie"):
        for change in changes:
            club = by_label.get(change.club)
            if club is None or change.what != about:
                continue
            try:
                refuse_bend(club, about)
            except BadInput as fault:
                sentence = f"No order takes this. {change.club.capitalize()}: {fault}."
                found[change.club, about] = Difference(about="club", club=change.club, figure=BEYOND, sentence=sentence)
    return list(found.values())


def today(
    golf_set: GolfSet,
    *,
    player: Player | None = None,
    sessions: Sequence[Session] = (),
    local_rules: Sequence[str] = (),
    shots: int = 2000,
    seed: int = 0,
) -> Seen:
    """Today's side of a what-if: the set as played, flown and judged."""
    flown = fly_set(golf_set, player, sessions, shots=shots, seed=seed)
    return _seen(played_set(golf_set), flown, local_rules)


def _remarks(changed: GolfSet, changes: Sequence[Change], parts: Sequence[Part] | Catalogue) -> list[Difference]:
    """What the catalogue has to say of the parts that come in, and sleeves turned where no chart says what it does."""
    found: dict[tuple[str, str], list[str]] = {}
    by_label = dict(zip(labels(changed.clubs), changed.clubs, strict=True))
    about_parts = [change for change in changes if change.what in ("head", "shaft", "grip", "sleeve")]
    if not about_parts:
        return []
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    for change in about_parts:
        club = by_label.get(change.club)
        if club is None:
            continue
        said = list(settle_part(changed, club, change.what, catalogue).remarks) if catalogue.models else []
        sleeve = club.sleeve
        if change.what == "sleeve" and sleeve is not None and sleeve.loft_change is None and sleeve.lie_change is None:
            said.append(f"what position {sleeve.position} does to loft and lie no chart entered says, so both stay")
        found[change.club, change.what] = said
    return [
        Difference(about="club", club=label, figure=what, sentence=f"{label.capitalize()}: {text.rstrip('.')}.")
        for (label, what), texts in found.items()
        for text in texts
    ]


def _played_again(changed: GolfSet, golf_set: GolfSet, played: GolfSet) -> GolfSet:
    """The changed set as played; a club the changes left alone is not worked out a second time."""
    known = {id(club): done for club, done in zip(golf_set.clubs, played.clubs, strict=True)}
    fresh = msgspec.structs.replace(changed, clubs=tuple(club for club in changed.clubs if id(club) not in known))
    again = iter(played_set(fresh).clubs)
    return msgspec.structs.replace(changed, clubs=tuple(known.get(id(club)) or next(again) for club in changed.clubs))


def _seen(played: GolfSet, flown: FlownSet, local_rules: Sequence[str]) -> Seen:
    known = flown.player.driver_speed is not None or any(each.shots for each in flown.clubs)
    findings = judge_played(played, local_rules, flown=flown if known else None)
    strokes = None
    if flown.clubs:
        runs = {each.label: to_si(each.run.number, each.run.unit) for each in flown.clubs}
        why = "full shots of a round, by professionals' strokes to hole out; to compare, not a score"
        strokes = figure(round(strokes_of(flown.landings, runs), 3), "strokes", Source.COMPUTED, why=why)
    return Seen(played, flown, findings, strokes)


# ---------------------------------------------------------------------------------------------------- what differs


def _differences(before: Seen, after: Seen) -> list[Difference]:
    old, new = (dict(zip(labels(each.golf_set.clubs), each.golf_set.clubs, strict=True)) for each in (before, after))
    old_flown, new_flown = ({each.label: each for each in seen.flown.clubs} for seen in (before, after))
    found: list[Difference] = []
    for label in dict.fromkeys([*old, *new]):
        if label not in old or label not in new:
            came = label in new
            sentence = f"The {label} {'comes into' if came else 'leaves'} the set."
            flown = (new_flown if came else old_flown).get(label)
            carry = flown.carry if flown is not None else None
            found.append(
                Difference(
                    about="club",
                    club=label,
                    figure="carry",
                    before=None if came else carry,
                    after=carry if came else None,
                    sentence=sentence,
                )
            )
            continue
        found += _of_club(label, old[label].as_played, new[label].as_played)
        if label in old_flown and label in new_flown:
            found += _of_flight(label, old[label], new[label], old_flown[label], new_flown[label])
    if before.golf_set.ball != after.golf_set.ball and after.golf_set.ball is not None:
        name = after.golf_set.ball.model or after.golf_set.ball.name
        found.append(
            Difference(
                about="club",
                figure="ball",
                sentence=f"The ball becomes {name}; how it flies otherwise no published figure says: hit it.",
            )
        )
    return found + _of_findings(before, after) + _of_strokes(before, after)


def _number(name: str, entry: Figure) -> Figure | None:
    return points_of(entry) if name == "swing_weight" else entry if entry.has_number else None


def _of_club(label: str, old: AsPlayed, new: AsPlayed) -> list[Difference]:
    found = []
    for name, least in _CLUB.items():
        one, two = getattr(old, name), getattr(new, name)
        if one is None or two is None:
            if one is not two:
                found.append(Difference(about="club", club=label, figure=name, before=one, after=two))
            continue
        first, second = _number(name, one), _number(name, two)
        if first is None or second is None:
            continue
        by = second.in_unit(first.unit).number - first.number
        if abs(by) >= least - 1e-9:
            why = "points" if name == "swing_weight" else None
            change = Figure(value=by, unit=first.unit, source=Source.COMPUTED, why=why, parents=_parents(one, two))
            found.append(Difference(about="club", club=label, figure=name, before=one, after=two, change=change))
    return found


def _parents(before: Figure, after: Figure) -> tuple[Parent, ...]:
    return Parent("before", before), Parent("after", after)


def _of_flight(label: str, was: Club, will_be: Club, old: FlownClub, new: FlownClub) -> list[Difference]:
    found = []
    groups: tuple[tuple[About, dict[str, float]], ...] = (("delivery", _DELIVERY), ("flight", _FLIGHT))
    for about, names in groups:
        for name, least in names.items():
            one, two = getattr(old, name), getattr(new, name)
            by = two.in_unit(one.unit).number - one.number
            if abs(by) < least - 1e-9:
                continue
            change = Figure(value=by, unit=one.unit, source=Source.COMPUTED, parents=_parents(one, two))
            if name == "club_speed":
                change = _speed_band(change, was, will_be, one)
            else:
                change = change.within(math.hypot(_UNSURE * by, _UNRESOLVED[name]))
            found.append(Difference(about=about, club=label, figure=name, before=one, after=two, change=change))
    return found


def _speed_band(change: Figure, was: Club, will_be: Club, speed: Figure) -> Figure:
    """The change of club speed with the band of the trials: what length and head mass do to speed is not well known."""
    one, two = was.as_played.length, will_be.as_played.length
    longer = two.in_unit("in").number - one.in_unit("in").number if one is not None and two is not None else 0.0
    heads = [each.head.mass for each in (was, will_be)]
    masses = [each.in_unit("g").number for each in heads if each is not None and each.has_number]
    ratio = masses[1] / masses[0] if len(masses) == 2 else 1.0
    reckoned = norms()["club_speed"]
    by_length = [longer * share * speed.number for share in _PER_INCH]
    by_mass = [speed.number * (ratio**power - 1) for power in _MASS_POWER]
    off_length = max(abs(each - longer * reckoned["per_inch"] * speed.number) for each in by_length)
    off_mass = max(abs(each - speed.number * (ratio ** reckoned["head_mass_power"] - 1)) for each in by_mass)
    made = change.within(math.hypot(off_length, off_mass, _UNRESOLVED["club_speed"]))
    return msgspec.structs.replace(made, why="band by trials of length and head mass, which differ")


def _of_findings(before: Seen, after: Seen) -> list[Difference]:
    old, new = ({(each.code, each.clubs): each for each in seen.findings} for seen in (before, after))
    found = []
    for key, finding in {**old, **new}.items():
        if key in old and key in new:
            if old[key].level != new[key].level:
                sentence = f"Now {new[key].level}, before {old[key].level}: {new[key].sentence}"
                found.append(_told(new[key], sentence))
            continue
        found.append(_told(finding, f"{'New' if key in new else 'Gone'}: {finding.sentence}"))
    return found


def _told(finding: Finding, sentence: str) -> Difference:
    return Difference(about="finding", club=", ".join(finding.clubs) or None, figure=finding.code, sentence=sentence)


def _of_strokes(before: Seen, after: Seen) -> list[Difference]:
    one, two = before.strokes, after.strokes
    if one is None or two is None or abs(two.number - one.number) < 0.01:
        return []
    change = Figure(value=round(two.number - one.number, 3), unit="strokes", source=Source.COMPUTED)
    return [Difference(about="strokes", figure="strokes", before=one, after=two, change=change)]


# ------------------------------------------------------------------------------------------------------- as JSON


def as_plain(answer: WhatIf) -> dict[str, Any]:
    """A what-if as JSON values."""
    return {
        "before": side_as_plain(answer.before),
        "after": side_as_plain(answer.after),
        "differences": [plain(each) for each in answer.differences],
    }


def side_as_plain(seen: Seen) -> dict[str, Any]:
    flown = flown_as_plain(seen.flown)
    flights = {each["label"]: each for each in flown.pop("clubs")}
    clubs = [
        {"club": club.club, "label": label, "as_played": plain(club.as_played), "flight": flights.get(label)}
        for label, club in zip(labels(seen.golf_set.clubs), seen.golf_set.clubs, strict=True)
    ]
    return {
        "clubs": clubs,
        "ball": plain(seen.golf_set.ball),
        **flown,
        "findings": [plain(finding) for finding in seen.findings],
        "strokes": plain(seen.strokes),
    }
