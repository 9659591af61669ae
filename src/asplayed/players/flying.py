"""The flight of a set in a player's hands: every club's carry, total, height, descent and spread, with bands.

One function, `fly_set`. Sessions say what the player does with the clubs they were struck with (`struck_with`); the
departures they show are then carried to the clubs of the set asked about, so that a changed loft, length or head flies
as the same player would fly it. A measured carry stands before a flown one, and moves with the air, the wind and the
club as the flown one does.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import msgspec
import numpy as np

from asplayed.clubs import GolfSet
from asplayed.clubs.usual import usual
from asplayed.mechanics.ground import run as run_on
from asplayed.mechanics.head import lie_error
from asplayed.mechanics.statistics import ellipse, pooled_toward
from asplayed.players.delivery import DEGREE, OF_90, Skill, norms, skill_of
from asplayed.players.flown import Ellipse, FlightFit, FlownClub, FlownSet, Numbers, PartSwing
from asplayed.players.inference import READINGS, Estimate, Readings, delivered, estimate
from asplayed.players.measured import STANDING, Measured, Shifted, aims, measured_clubs, readings_of, struck_before
from asplayed.players.places import Place, place_of
from asplayed.players.records import Conditions, Player, player_of
from asplayed.players.summaries import ClubSummary, Session, Typical, summarise
from asplayed.players.typical import (
    Bag,
    Flights,
    Simulated,
    Swing,
    bag_of,
    band_of,
    figure_of,
    norm_of,
    simulate,
    typical_flights,
    with_parents,
)
from asplayed.quantities import Figure, Source, figure, from_si, to_si

HELD = 0.5  # the share of shots the reported ellipse holds
_MOST_LIE_ERROR = 20.0  # degrees: past that no club is swung flat on its sole


def fly_set(
    golf_set: GolfSet,
    player: Player | None = None,
    sessions: Sequence[Session] = (),
    *,
    struck_with: GolfSet | None = None,
    conditions: Conditions | None = None,
    shots: int = 2000,
    seed: int = 0,
) -> FlownSet:
    """Fly every club of a set but the putter as this player swings it.

    `player` None takes what the list says of him. `sessions` are shots struck with the clubs of `struck_with` (None: of
    this very set). `conditions` is the air, wind and ground asked for; what it leaves open is that of the newest
    session, else 70 °F at sea level, humidity 50 %, no wind. `shots` single shots a club make the spread, from `seed`
    and the club's place, whatever else is asked. Refused with `BadInput`: figures no air or player can have.

    >>> from asplayed.clubs import Club
    >>> tour = Player(driver_speed=figure(112, "mph", "stated"), handicap=figure(-5, "1", "stated"))
    >>> flown_club = fly_set(GolfSet(clubs=(Club(club="7 iron", kind="iron"),)), tour, shots=200).clubs[0]
    >>> flown_club.club, 162 < flown_club.carry.value < 178, flown_club.carry.low < flown_club.carry.value
    ('7 iron', True, True)
    """
    player = player_of(golf_set) if player is None else player
    summaries = [
        (place_of(session.facts.conditions, [], player.home), summarise(session.shots)) for session in sessions
    ]
    known = known_player(golf_set, golf_set if struck_with is None else struck_with, player, summaries)
    skill, asked, before, found, seats = known.skill, known.asked, known.before, known.found, known.seats
    place = place_of(conditions, [session.facts.conditions for session in sessions], player.home)
    assumed = (*_unsaid(skill), *place.assumed, *_left_out(summaries, before))
    if not asked.labels:
        return FlownSet((), player, skill, place, None, assumed, {}, seed)
    lines = aims(summaries, asked, player)
    swings = [
        Swing(base, seat, place.weather, 1.0, *(line or (0.0, 0.0)))
        for base, seat, line in zip(asked.norms, seats, lines, strict=True)
    ]
    simulated = simulate(swings, found, skill, shots, seed)
    shares = norms()["part_swings"]
    parts = [(n, words) for n, club in enumerate(asked.clubs) if club.kind == "wedge" for words in shares]
    swings += [swings[number]._replace(share=float(shares[words])) for number, words in parts]
    old, pairs = struck_before(summaries, before, asked, seats, place)
    flights = typical_flights(swings + old, found)
    measured = measured_clubs(summaries, asked, flights, {pair: len(swings) + n for n, pair in enumerate(pairs)})
    part_rows: dict[int, list[tuple[str, int]]] = {}
    for n, (number, words) in enumerate(parts):
        part_rows.setdefault(number, []).append((words, len(asked.labels) + n))
    starts = _starts(asked, before, measured, lines, flights, player)
    view = View(asked, seats, found, flights, starts, place, skill)
    clubs = tuple(
        answer_for(view, number, simulated[number], measured.get(label), part_rows.get(number, ()))
        for number, label in enumerate(asked.labels)
    )
    landings = {each.label: _landings(each, one) for each, one in zip(clubs, simulated, strict=True)}
    return FlownSet(clubs, player, skill, place, fit_of(found, known.readings), assumed, landings, seed)


class KnownPlayer(NamedTuple):
    """The player as sessions and words leave him, over every club anybody asks about."""

    skill: Skill
    asked: Bag
    before: Bag
    readings: Readings | None
    found: Estimate
    seats: tuple[int, ...]


def known_player(
    golf_set: GolfSet, struck_with: GolfSet, player: Player, summaries: Sequence[tuple[Place, Sequence[ClubSummary]]]
) -> KnownPlayer:
    """The estimate of the player; where nobody said his driver speed, from norms at the speed his shots imply."""
    skill = skill_of(player)
    asked = bag_of(golf_set, skill)
    before = asked if struck_with is golf_set else bag_of(struck_with, skill)
    union = before.labels + tuple(label for label in asked.labels if label not in before.labels)
    bases = [norm_of(before if label in before.labels else asked, label) for label in union]
    readings = readings_of(summaries, union, before, player)
    found = estimate(bases, skill.driver_speed, readings)
    if readings is not None and player.driver_speed is None and np.isfinite(readings.values).any():
        share = float(np.exp(np.mean([found.departures(place)[0] for place in set(readings.club.tolist())])))
        speed = round(skill.driver_speed.number * share, 1)
        implied = figure(speed, "mph", Source.COMPUTED, tolerance=0.04 * speed, why="as the shots imply")
        return known_player(golf_set, struck_with, msgspec.structs.replace(player, driver_speed=implied), summaries)
    return KnownPlayer(skill, asked, before, readings, found, tuple(union.index(label) for label in asked.labels))


def _left_out(summaries: Sequence[tuple[Place, Sequence[ClubSummary]]], before: Bag) -> list[str]:
    """Shots with clubs that the set does not have: said, and left out."""
    missing = dict.fromkeys(each.club for _, clubs in summaries for each in clubs if each.club not in before.labels)
    return [f"shots with a {label} are left out: the set has none now" for label in missing]


def _landings(club: FlownClub, simulated: Simulated) -> Numbers:
    """Simulated landings (carry, side) in metres around the club's own typical shot, with its own spread."""
    middle = np.array([to_si(club.carry.number, club.carry.unit), to_si(club.side.number, club.side.unit)])
    spread = np.array([to_si(club.depth.number, club.depth.unit), to_si(club.width.number, club.width.unit)])
    here = simulated.landings - simulated.landings.mean(axis=0)
    scaled: Numbers = middle + here * spread / np.maximum([simulated.depth, simulated.width], 1e-9)
    return scaled


def _speed(entry: Figure) -> str:
    return f"{entry.number:g} {entry.unit}"


def _handicap(entry: Figure) -> str:
    """A handicap as it is written: one better than scratch with a plus."""
    return f"+{-entry.number:g}" if entry.number < 0 else f"{entry.number:g}"


def _unsaid(skill: Skill) -> list[str]:
    """What was taken of the player because nobody said it."""
    weak = (Source.COMPUTED, Source.COMMON_PRACTICE, Source.ASSUMED)
    return [
        f"{words} not said: {written(entry)}, {entry.why}"
        for words, entry, written in (
            ("driver speed", skill.driver_speed, _speed),
            ("handicap", skill.handicap, _handicap),
        )
        if entry.source in weak
    ]


class View(NamedTuple):
    """What the answer for one club is made from."""

    bag: Bag
    seats: Sequence[int]
    found: Estimate
    flights: Flights
    starts: Sequence[tuple[float, float]]
    place: Place
    skill: Skill


def answer_for(
    view: View, number: int, simulated: Simulated, measured: Measured | None, parts: Sequence[tuple[str, int]]
) -> FlownClub:
    bag, found, new, skill = view.bag, view.found, view.flights, view.skill
    club, played, base, seat = bag.clubs[number], bag.played[number], bag.norms[number], view.seats[number]
    rows = [*range(seat * 5, seat * 5 + 5), len(found.mean) - 2, len(found.mean) - 1]
    spread = found.covariance[np.ix_(rows, rows)]
    flight = norms()["flight"]
    struck_by = "from the player's shots" if len(found.unexplained) else base.why

    delivery = delivered(np.array(base.delivery), found.departures(seat))
    speed_error = float(delivery.club_speed) * math.sqrt(spread[0, 0])
    parents = {
        "club_speed": figure_of(float(delivery.club_speed), speed_error, "mph", struck_by),
        "attack": figure_of(float(delivery.attack), math.sqrt(spread[1, 1]), "deg", struck_by),
        "dynamic_loft": figure_of(float(delivery.dynamic_loft), math.sqrt(spread[2, 2]), "deg", struck_by),
    }
    parents["club_speed"] = with_parents(parents["club_speed"], driver_speed=skill.driver_speed, length=played.length)
    parents["dynamic_loft"] = with_parents(parents["dynamic_loft"], loft=played.loft)
    ball = {
        name: with_parents(new.figure(name, number, spread, 0.0, unit, "club meets ball"), **parents)
        for name, unit in (("ball_speed", "mph"), ("launch", "deg"), ("spin", "rpm"))
    }

    def of_flight(name: str, unit: str, off: float) -> Figure:
        return with_parents(new.figure(name, number, spread, off, unit, "flown"), **ball)

    extreme = club.kind in ("driver", "wedge")
    flown_carry = float(new.carry[number, 0])
    carry = of_flight("carry", "yd", flown_carry * flight["carry_of_extremes" if extreme else "carry"])
    depth, width = simulated.depth, simulated.width
    depth_why = width_why = f"of simulated single shots of a {skill.handicap.number:g} handicap"
    depth_source = width_source = Source.COMPUTED
    prior = norms()["fitting"]["prior_shots"]
    start, unsure = view.starts[number]
    line = float(new.side[number, 0]) + flown_carry * math.tan(start)
    line_error = math.hypot(max(2.0, 0.01 * flown_carry), flown_carry * math.tan(unsure))
    side = figure_of(line, line_error, "yd", "wind, lie and start line; + right")
    if measured is not None and (seen := measured.carry) is not None:
        carry = _measured_figure(seen, measured, carry)
        if seen.shots > 1:
            depth = pooled_toward(seen.spread, seen.shots, depth, prior)
            depth_why, depth_source = f"from {seen.shots} shots, drawn towards the usual spread", Source.MEASURED
    if measured is not None and (seen := measured.side) is not None:
        side = band_of(seen, "yd", Source.MEASURED, f"median of {seen.shots} shots; + right")
        if seen.shots > 1:
            width = pooled_toward(seen.spread, seen.shots, width, prior)
            width_why, width_source = f"from {seen.shots} shots, drawn towards the usual spread", Source.MEASURED
    run = with_parents(_run(view, number), **ball)
    total = _total(carry, run)
    if measured is not None and measured.total is not None:
        total = _measured_figure(measured.total, measured, total)
    worked_out = {
        **parents,
        **ball,
        "apex": of_flight("apex", "ft", float(new.apex[number, 0]) * flight["apex"]),
        "descent": of_flight("descent", "deg", flight["descent"] * DEGREE),
        "time": of_flight("time", "s", 0.03 * float(new.time[number, 0])),
    }
    if measured is not None:
        for name, unit in STANDING.values():
            if (read := measured.standing.get(name)) is not None:
                worked_out[name] = _standing(read, unit, worked_out[name])
    depth_figure = _spread_figure(depth, depth_source, depth_why)
    width_figure = _spread_figure(width, width_source, width_why)
    return FlownClub(
        club=club.club,
        label=bag.labels[number],
        loft=played.loft,
        carry=carry,
        total=total,
        run=run,
        side=side,
        depth=depth_figure,
        width=width_figure,
        ellipse=_ellipse(simulated, depth, width),
        **worked_out,
        shots=0 if measured is None else measured.shots,
        flagged=0 if measured is None else measured.flagged,
        part_swings=tuple(_part_swing(view, words, row, carry, flown_carry) for words, row in parts),
    )


def _standing(read: Shifted, unit: str, flown_one: Figure) -> Figure:
    """A measured figure; brought to another air or club it is computed, and a fifth of the way there is unsure."""
    found, by = read
    words = f"median of {found.shots} shot{'' if found.shots == 1 else 's'}"
    if by == 0.0:
        return band_of(found, unit, Source.MEASURED, words)
    unsure = 0.2 * abs(by)
    wide = found._replace(
        low=found.value - math.hypot(found.value - found.low, unsure),
        high=found.value + math.hypot(found.high - found.value, unsure),
    )
    original = found._replace(value=found.value - by, low=found.low - by, high=found.high - by)
    made = band_of(wide, unit, Source.COMPUTED, f"{words}, moved as the flown one for the air or club asked about")
    return with_parents(made, measured=band_of(original, unit, Source.MEASURED, words), flown=flown_one)


def _run(view: View, row: int) -> Figure:
    ran = run_on(
        float(view.flights.landing_speed[row, 0]),
        float(view.flights.descent[row, 0]),
        float(view.flights.landing_spin[row, 0]),
        rolling_resistance=view.place.rolling_resistance,
        turf=view.place.turf,
    ).run
    return figure_of(ran, abs(ran) * norms()["flight"]["run"] / OF_90, "yd", "bounce and run, good to about 30 %")


def _measured_figure(found: Typical, measured: Measured, flown_one: Figure) -> Figure:
    """A measured distance; carried to another air or club it is computed, and a fifth of the way there is unsure."""
    aside = f", {measured.flagged} flagged aside" if measured.flagged else ""
    words = f"median of {found.shots} shot{'' if found.shots == 1 else 's'}{aside}"
    if measured.moved == 1.0:
        return band_of(found, "yd", Source.MEASURED, words)
    unsure = 0.2 * abs(measured.moved - 1.0) * found.value
    wide = found._replace(
        low=found.value - math.hypot(found.value - found.low, unsure),
        high=found.value + math.hypot(found.high - found.value, unsure),
    )
    original = band_of(
        found._replace(
            value=found.value / measured.moved, low=found.low / measured.moved, high=found.high / measured.moved
        ),
        "yd",
        Source.MEASURED,
        words,
    )
    made = band_of(
        wide, "yd", Source.COMPUTED, f"{words}, × {measured.moved:.3f} for the air, wind or club asked about"
    )
    return with_parents(made, measured=original, flown=flown_one)


def _total(carry: Figure, run: Figure) -> Figure:
    low = carry.number + run.number - math.hypot(carry.number - (carry.low or 0.0), run.half_width)
    high = carry.number + run.number + math.hypot((carry.high or 0.0) - carry.number, run.half_width)
    value = carry.number + run.number
    made = Figure(value=value, unit="yd", source=Source.COMPUTED, low=low, high=high, why="carry plus run")
    return with_parents(made, carry=carry, run=run)


def _spread_figure(value: float, source: Source, why: str) -> Figure:
    return figure(from_si(value, "yd"), "yd", source, why=f"one standard deviation {why}")


def _ellipse(simulated: Simulated, depth: float, width: float) -> Ellipse:
    scale = np.array([depth / max(simulated.depth, 1e-9), width / max(simulated.width, 1e-9)])
    (a, b), (_, d) = np.cov((simulated.landings * scale).T).tolist()
    shape = ellipse(((a, b), (b, d)), HELD)
    why = "holds half the shots"
    return Ellipse(
        long=figure(from_si(shape.long_radius, "yd"), "yd", Source.COMPUTED, why=why),
        short=figure(from_si(shape.short_radius, "yd"), "yd", Source.COMPUTED, why=why),
        turn=figure(from_si(shape.angle, "deg"), "deg", Source.COMPUTED, why="from the target line, + right"),
    )


def _starts(
    asked: Bag,
    before: Bag,
    measured: Mapping[str, Measured],
    lines: Sequence[tuple[float, float] | None],
    flights: Flights,
    player: Player,
) -> list[tuple[float, float]]:
    """The direction each club's ball starts in beside its face and path (rad, + right), and one standard deviation.

    A club measured starts as measured, any other as its lie has it. What the measured ones start off that line by, a
    club between two of them in carry shares; one longer or shorter than all of them may share it, which widens it.
    """
    carries = flights.carry[: len(asked.labels), 0]
    off: dict[int, tuple[float, float]] = {}  # by place: off the line of the lie, and its error
    for number, label in enumerate(asked.labels):
        seen = measured.get(label)
        if seen is None or label not in before.labels:
            continue
        by_lie = _lie_start(before, before.labels.index(label), player)
        carry, line = float(carries[number]), lines[number]
        if seen.side is not None and carry > 0:
            start = math.atan((seen.side.value - float(flights.side[number, 0])) / carry) + (line[0] if line else 0.0)
            off[number] = start - by_lie, seen.side.error / carry
        elif seen.direction is not None:
            off[number] = seen.direction.value - by_lie, seen.direction.error
    made = []
    for number, label in enumerate(asked.labels):
        seen = measured.get(label)
        if lines[number]:
            made.append((0.0, 0.0))
        elif seen is not None and seen.direction is not None:
            made.append((seen.direction.value, 0.0))
        elif number in off:
            made.append((_lie_start(asked, number, player), 0.0))
        else:
            shared, unsure = _shared(float(carries[number]), [(float(carries[n]), *each) for n, each in off.items()])
            made.append((_lie_start(asked, number, player) + shared, unsure))
    return made


def _shared(carry: float, known: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """What a club of this carry shares of the starts (carry, off, error) of others, and one standard deviation."""
    longer = min((each for each in known if each[0] >= carry), default=None)
    shorter = max((each for each in known if each[0] <= carry), default=None)
    if longer is not None and shorter is not None:
        share = (carry - shorter[0]) / (longer[0] - shorter[0]) if longer[0] > shorter[0] else 0.5
        off = shorter[1] + share * (longer[1] - shorter[1])
        return off, math.hypot(max(longer[2], shorter[2]), (longer[1] - shorter[1]) / 2)
    nearest = longer or shorter
    return (0.0, 0.0) if nearest is None else (0.0, math.hypot(nearest[2], nearest[1] / OF_90))


def _lie_start(bag: Bag, number: int, player: Player) -> float:
    """The direction the ball starts in by the lie against the usual one (rad, + right)."""
    club, played = bag.clubs[number], bag.played[number]
    usual_lie, usual_length = usual(club, "lie"), usual(club, "length")
    if played.lie is None or played.length is None or usual_lie is None or usual_length is None:
        return 0.0
    per_inch = norms()["lie"]["degrees_per_inch"]
    longer = played.length.in_unit("in").number - usual_length.number
    error = played.lie.in_unit("deg").number - usual_lie.number + per_inch * longer
    error = min(max(error, -_MOST_LIE_ERROR), _MOST_LIE_ERROR)
    direction = lie_error(float(bag.norms[number].delivery.dynamic_loft), error * DEGREE).direction
    return -float(direction) if player.hand == "left" else float(direction)


def _part_swing(view: View, words: str, row: int, full: Figure, flown_full: float) -> PartSwing:
    """A part swing: the full one at a share of its speed; a measured full carry moves it alike."""
    share = norms()["part_swings"][words]
    # A club so strong that its ball never rises has no carry to take a share of.
    moved = to_si(full.number, full.unit) / flown_full if flown_full > 0 else 1.0
    unsure = full.half_width / full.number / OF_90 if full.number > 0 else 0.0
    goes = float(view.flights.carry[row, 0]) * moved
    error = goes * math.hypot(unsure, norms()["flight"]["part_swing"])
    carry = with_parents(figure_of(goes, error, "yd", f"{share:.0%} of the full swing's speed"), full_swing=full)
    return PartSwing(swing=words, carry=carry, total=_total(carry, _run(view, row)))


def fit_of(found: Estimate, readings: Readings | None) -> FlightFit | None:
    """Drag and lift as the player's flights have them, where ball and carry were both read, and what is left over."""
    if not found.fitted or readings is None:
        return None
    made = []
    for place, name in ((-2, "drag"), (-1, "lift")):
        value, error = 1.0 + float(found.mean[place]), math.sqrt(found.covariance[place, place])
        why = f"{name} against the house law, drawn towards 1"
        made.append(figure_of(value, error, "1", why))
    left = found.unexplained[:, READINGS.index("carry")]
    left = left[np.isfinite(readings.values[:, READINGS.index("carry")])]
    rest = figure(
        from_si(float(np.sqrt(np.mean(np.square(left)))), "yd"),
        "yd",
        Source.COMPUTED,
        why=f"carry the fit leaves unexplained, root mean square over {len(left)} clubs",
    )
    return FlightFit(drag=made[0], lift=made[1], unexplained=rest)
