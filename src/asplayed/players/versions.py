"""Very many versions of a player's clubs flown at once: other lofts, lies, lengths, heads, and clubs he never struck.

`hands_of` works the player out once, over today's set; `fly_versions` then flies any number of versions as arrays. A
version of a club flies as `fly_set` would fly it: a measured carry moves as the flown one does, and what the shots show
of spread goes along. A lie is taken as fitted where nobody watched the start line: only a change of it turns the shot.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.records import Kind
from asplayed.mechanics.ground import run as run_on
from asplayed.mechanics.head import lie_error
from asplayed.players.delivery import (
    DEGREE,
    INCH,
    Delivery,
    Norm,
    Usual,
    by_handicap,
    norms,
    speed_with,
    usual_delivery,
)
from asplayed.players.flown import FlownSet
from asplayed.players.flying import KnownPlayer, fly_set, known_player
from asplayed.players.inference import Weather, delivered, flown, struck
from asplayed.players.measured import aims
from asplayed.players.places import place_of
from asplayed.players.records import Conditions, Player, player_of
from asplayed.players.summaries import Session, summarise
from asplayed.quantities import Source, to_si

Numbers = NDArray[np.float64]

_UNSEEN = "club never struck"
# Steps of the finite differences that make the spread, in standard deviations of the single shot.
_STEP = 0.25


class Versions(NamedTuple):
    """Versions of clubs as arrays, one place a version; SI and radians.

    `label` is today's club it is a version of, None for a club the player never struck; `club` and `kind` name its row
    of the norms; `lie_change` is against today's club (upright +).
    """

    label: tuple[str | None, ...]
    club: tuple[str, ...]
    kind: tuple[Kind, ...]
    loft: Numbers
    length: Numbers
    head_mass: Numbers
    lie_change: Numbers


class Patterns(NamedTuple):
    """What versions do in the player's hands, one place a version; metres and radians.

    `carry` and `run` are of the typical shot, `side` its place off the line (+ right); `depth` and `width` one standard
    deviation of single shots, `correlation` between them (far and right +).
    """

    carry: Numbers
    run: Numbers
    side: Numbers
    depth: Numbers
    width: Numbers
    correlation: Numbers
    descent: Numbers
    apex: Numbers
    ball_speed: Numbers
    launch: Numbers
    spin: Numbers


class Hands(NamedTuple):
    """A player worked out over today's set: the set as flown, the estimate, and how his own shots lie to the flown."""

    golf_set: GolfSet
    flown: FlownSet
    known: KnownPlayer
    weather: Weather
    seats: Mapping[str | None, int]
    lines: Mapping[str, tuple[float, float]]


def hands_of(
    golf_set: GolfSet,
    player: Player | None = None,
    sessions: Sequence[Session] = (),
    *,
    conditions: Conditions | None = None,
    shots: int = 2000,
    seed: int = 0,
) -> Hands:
    """The player over today's set, ready to fly versions of its clubs; arguments as those of `fly_set`.

    >>> hands = hands_of(GolfSet(clubs=(Club(club="7 iron", kind="iron"),)), shots=100)
    >>> sorted(hands.seats, key=str), hands.flown.clubs[0].label
    (['7 iron', None], '7 iron')
    """
    player = player_of(golf_set) if player is None else player
    today = fly_set(golf_set, player, sessions, conditions=conditions, shots=shots, seed=seed)
    summaries = [
        (place_of(session.facts.conditions, [], player.home), summarise(session.shots)) for session in sessions
    ]
    wider = replace(golf_set, clubs=(*golf_set.clubs, Club(club=_UNSEEN, kind="iron")))
    known = known_player(wider, golf_set, player, summaries)
    seats: dict[str | None, int] = dict(zip(known.asked.labels, known.seats, strict=True))
    seats[None] = seats.pop(_UNSEEN)
    lines = dict(zip(known.asked.labels, aims(summaries, known.asked, player), strict=True))
    return Hands(
        golf_set,
        today,
        known,
        today.place.weather,
        seats,
        {label: line for label, line in lines.items() if line is not None},
    )


def fly_versions(hands: Hands, versions: Versions, conditions: Conditions | None = None) -> Patterns:
    """The versions flown in the hands' own air, or in the air and wind of `conditions`.

    >>> hands = hands_of(GolfSet(clubs=(Club(club="7 iron", kind="iron"),)), shots=200)
    >>> seven = versions_of(hands, ["7 iron"] * 2, loft_change=np.radians([0.0, 2.0]))
    >>> both = fly_versions(hands, seven)
    >>> bool(abs(both.carry[0] / 0.9144 - hands.flown.clubs[0].carry.value) < 0.01 and both.carry[1] < both.carry[0])
    True
    """
    place = hands.flown.place if conditions is None else place_of(conditions, [hands.flown.place.conditions])
    today = hands.flown.clubs
    own = versions_of(hands, [each.label for each in today])
    whole = _joined(own, versions)
    flight = _fly(hands, whole, place.weather, place.rolling_resistance, place.turf)
    many = len(today)
    seen = {
        name: np.array([to_si(getattr(each, name).number, getattr(each, name).unit) for each in today])
        for name in ("carry", "run", "side", "depth", "width")
    }
    elsewhere = flight if conditions is None else _fly(hands, own, hands.weather, place.rolling_resistance, place.turf)
    row = {each.label: number for number, each in enumerate(today)}
    base = np.array([row[label] if label is not None else -1 for label in versions.label], dtype=np.int64)
    new = base < 0

    def scaled(name: str) -> Numbers:
        """A version's figure: today's as known, times what the flown one changes by; of a new club the set's usual.

        A spread that nobody measured stays as flown here, to first order: the chance of simulated shots would tell
        versions apart by the order of the list.
        """
        was, now = getattr(elsewhere, name)[:many], getattr(flight, name)[many:]
        share = np.where(was > 1e-9, seen[name] / np.maximum(was, 1e-9), 1.0)
        known = np.array([getattr(each, name).source is Source.MEASURED for each in today], dtype=bool)
        if name != "carry":
            share = np.where(known, share, 1.0)
        usual_share = float(np.median(share[known])) if known.any() else 1.0
        made: Numbers = now * np.where(new, usual_share, share[base] if many else usual_share)
        return made

    moved = flight.side[many:] - np.where(new, 0.0, flight.side[base] if many else 0.0)
    if conditions is not None and many:
        moved += np.where(new, 0.0, (flight.side[:many] - elsewhere.side[:many])[base])
    watched = np.array([label in hands.lines for label in row], dtype=bool)
    # the side that only an unusual lie is made answerable for is none: a lie nobody watched is taken as fitted
    side = np.where(watched, seen["side"], elsewhere.side[:many]) if many else np.zeros(0)
    return flight._replace(
        **{name: getattr(flight, name)[many:] for name in ("run", "descent", "apex", "ball_speed", "launch", "spin")},
        carry=scaled("carry"),
        depth=scaled("depth"),
        width=scaled("width"),
        side=moved + np.where(new, 0.0, side[base] if many else 0.0),
        correlation=np.clip(flight.correlation[many:], -0.95, 0.95),
    )


def versions_of(
    hands: Hands,
    labels: Sequence[str],
    *,
    loft_change: Numbers | float = 0.0,
    length_change: Numbers | float = 0.0,
    lie_change: Numbers | float = 0.0,
    head_mass: Numbers | None = None,
) -> Versions:
    """Versions of today's clubs by what is changed of them (rad, m; `head_mass` in kg, NaN where it stays)."""
    places = [hands.known.asked.labels.index(label) for label in labels]
    bag = hands.known.asked
    clubs = [bag.clubs[place] for place in places]
    lofts, lengths = (
        np.array([_si(getattr(bag.played[place], name)) for place in places]) for name in ("loft", "length")
    )
    heads = np.array([bag.norms[place].head_mass for place in places])
    if head_mass is not None:
        heads = np.where(np.isnan(head_mass), heads, head_mass)
    return Versions(
        tuple(labels),
        tuple(club.club for club in clubs),
        tuple(club.kind for club in clubs),
        lofts + loft_change,
        lengths + length_change,
        heads,
        np.zeros(len(labels)) + lie_change,
    )


def norms_of(hands: Hands, versions: Versions) -> list[Norm]:
    """The usual delivery with every version, one record each: what `typical_flights` takes."""
    base, heads = _deliveries(hands, versions)
    return [Norm(Delivery(*row), head, "") for row, head in zip(base.tolist(), heads.tolist(), strict=True)]


def _si(entry: object) -> float:
    assert hasattr(entry, "number") and hasattr(entry, "unit")  # a bag's figures as played are always filled
    return to_si(entry.number, entry.unit)


def _joined(one: Versions, other: Versions) -> Versions:
    return Versions(
        (*one.label, *other.label),
        (*one.club, *other.club),
        (*one.kind, *other.kind),
        np.hstack([one.loft, other.loft]),
        np.hstack([one.length, other.length]),
        np.hstack([one.head_mass, other.head_mass]),
        np.hstack([one.lie_change, other.lie_change]),
    )


def _deliveries(hands: Hands, versions: Versions) -> tuple[Numbers, Numbers]:
    """The five numbers of the usual delivery of every version, and the masses of the heads."""
    skill = hands.known.skill
    rows: dict[tuple[str, Kind], int] = {}
    which = np.array([rows.setdefault(pair, len(rows)) for pair in zip(versions.club, versions.kind, strict=True)])
    table = np.array([usual_delivery(Club(club=club, kind=kind), skill) for club, kind in rows]).reshape(-1, 8)
    usual_ones = Usual(*table[which].T) if len(which) else Usual(*np.zeros((8, 0)))
    base = np.column_stack(
        [
            speed_with(usual_ones, versions.length, versions.head_mass),
            usual_ones.attack,
            versions.loft + usual_ones.added_loft,
            usual_ones.restitution,
            usual_ones.tangential_restitution,
        ]
    )
    return base, versions.head_mass


def _fly(hands: Hands, versions: Versions, weather: Weather, resistance: float, turf: str) -> Patterns:
    """Typical flight of every version, and the spread of single shots to first order in what makes it."""
    found = hands.known.found
    base, heads = _deliveries(hands, versions)
    count = len(versions.label)
    departure = np.array([found.departures(hands.seats[label]) for label in versions.label]).reshape(count, 5)
    face, path = (
        np.array([0.0 if label is None else hands.lines.get(label, (0.0, 0.0))[way] for label in versions.label])
        for way in (0, 1)
    )
    scatter, turn, aim = _scatter(hands, base)
    moved = np.repeat(departure[:, None, :], 1 + 2 * len(scatter) + len(turn), axis=1)
    faces = np.repeat(face[:, None], moved.shape[1], axis=1)
    paths = np.repeat(path[:, None], moved.shape[1], axis=1)
    for number, change in enumerate(scatter):
        moved[:, 1 + 2 * number] += _STEP * change
        moved[:, 2 + 2 * number] -= _STEP * change
    for number, (of_face, of_path) in enumerate(turn):
        place = 1 + 2 * len(scatter) + number
        faces[:, place] += _STEP * of_face
        paths[:, place] += _STEP * of_path
    delivery = delivered(base[:, None, :], moved)
    ball = struck(delivery, heads[:, None], faces, paths)
    flight = flown(ball, weather, 1.0 + float(found.mean[-2]), 1.0 + float(found.mean[-1]))
    both = [slice(1, 1 + 2 * len(scatter), 2), slice(2, 2 + 2 * len(scatter), 2)]
    last = slice(1 + 2 * len(scatter), None)

    def slopes(values: Numbers) -> Numbers:
        middle = (values[:, both[0]] - values[:, both[1]]) / (2 * _STEP)
        turned: Numbers = np.hstack([middle, (values[:, last] - values[:, :1]) / _STEP])
        return turned

    carry, side = flight.carry[:, 0], flight.side[:, 0]
    along = np.hstack([slopes(flight.carry), np.zeros((count, 1))])
    across = np.hstack([slopes(flight.side), (carry * aim)[:, None]])
    depth, width = np.sqrt((along**2).sum(axis=1)), np.sqrt((across**2).sum(axis=1))
    lie_turn = _turned_by_lie(hands, versions, delivery.dynamic_loft[:, 0])
    ran = run_on(
        flight.landing_speed[:, 0],
        np.clip(flight.descent_angle[:, 0], 0.0, None),
        flight.landing_spin[:, 0],
        rolling_resistance=resistance,
        turf=turf,  # type: ignore[arg-type]
    ).run
    return Patterns(
        carry,
        np.asarray(ran),
        side + carry * np.tan(lie_turn),
        depth,
        width,
        (along * across).sum(axis=1) / np.maximum(depth * width, 1e-9),
        flight.descent_angle[:, 0],
        flight.apex[:, 0],
        ball.ball_speed[:, 0],
        ball.launch_angle[:, 0],
        ball.spin_rate[:, 0],
    )


def _scatter(hands: Hands, base: Numbers) -> tuple[list[Numbers], list[tuple[float, float]], float]:
    """One standard deviation of what single shots differ by: departures (club, 5) each, (face, path) each, and aim."""
    table = norms()["shot_to_shot"]
    handicap = hands.known.skill.handicap.number
    depth, face, path, aim = (by_handicap(name, handicap) for name in ("depth", "face", "path", "aim"))
    found = []
    for place, size in (
        (0, depth / 100 * table["swing_share"]),
        (1, depth * table["attack_per_percent"] * DEGREE),
        (2, depth * table["loft_per_percent"] * DEGREE),
        (3, depth / 100 * table["strike_share"]),
    ):
        change = np.zeros_like(base)
        change[:, place] = size * (1 + base[:, 3] if place == 3 else 1.0)  # ball speed goes with 1 + restitution
        found.append(change)
    return found, [(face * DEGREE, 0.0), (0.0, path * DEGREE)], aim * DEGREE


def _turned_by_lie(hands: Hands, versions: Versions, dynamic_loft: Numbers) -> Numbers:
    """The direction (rad, + right) that a change of lie or length against today's club turns the start line by."""
    bag = hands.known.asked
    today = dict(zip(bag.labels, bag.played, strict=True))
    was = np.array(
        [
            length if label is None else _si(today[label].length)
            for label, length in zip(versions.label, versions.length, strict=True)
        ]
    )
    per_metre = norms()["lie"]["degrees_per_inch"] * DEGREE / INCH
    error = versions.lie_change + per_metre * (versions.length - was)
    turned: Numbers = np.asarray(lie_error(dynamic_loft, error).direction)
    return -turned if hands.flown.player.hand == "left" else turned
