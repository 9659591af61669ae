"""What the sessions say of the clubs: readings for the estimate, and shots brought to the club and the air asked."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.clubs import AsPlayed
from asplayed.players.delivery import OF_90
from asplayed.players.inference import READINGS, Readings, Weather
from asplayed.players.places import Place
from asplayed.players.records import Player
from asplayed.players.summaries import ClubSummary, Typical, typical
from asplayed.players.typical import Bag, Flights, Swing, norm_of
from asplayed.quantities import to_si

Numbers = NDArray[np.float64]

_WIDEST = math.radians(15)  # of a typical face or path: what lies beyond is no swing at the target


def readings_of(
    summaries: Sequence[tuple[Place, Sequence[ClubSummary]]],
    union: Sequence[str],
    before: Bag,
    player: Player,
) -> Readings | None:
    """Typical readings of every club and session, and what the player says he usually delivers."""
    club, values, errors, weather = [], [], [], []
    for place, session in summaries:
        for each in session:
            if each.club not in union:
                continue
            found = [each.typical(name) for name in READINGS]
            club.append(union.index(each.club))
            values.append([math.nan if one is None else one.value for one in found])
            errors.append([0.0 if one is None else one.error for one in found])
            weather.append(place.weather)
    for said in player.delivery:
        for label, one, figures in zip(before.labels, before.clubs, before.played, strict=True):
            if one.kind != said.kind:
                continue
            row = np.full(len(READINGS), math.nan)
            error = np.zeros(len(READINGS))
            for name, entry, base in (
                ("attack", said.attack, 0.0),
                ("dynamic loft", said.added_loft, loft_of(figures)),
            ):
                if entry is not None and entry.has_number:
                    row[READINGS.index(name)] = base + to_si(entry.number, entry.unit)
                    error[READINGS.index(name)] = to_si(entry.half_width, entry.unit) / OF_90
            club.append(union.index(label))
            values.append(row.tolist())
            errors.append(error.tolist())
            weather.append(Weather(1.2, 1.8e-5))
    if not club:
        return None
    air = Weather(*(np.array(each, dtype=np.float64) for each in zip(*weather, strict=True)))
    return Readings(np.array(club), np.array(values), np.array(errors), air)


def loft_of(played: AsPlayed) -> float:
    """The loft as played (rad)."""
    assert played.loft is not None  # filled by as_played
    return to_si(played.loft.number, played.loft.unit)


def aims(
    summaries: Sequence[tuple[Place, Sequence[ClubSummary]]], asked: Bag, player: Player
) -> list[tuple[float, float] | None]:
    """Typical face and path (rad, + right) of every club: as measured, else as the player says; None: nobody knows."""
    found: list[tuple[float, float] | None] = []
    for label, club in zip(asked.labels, asked.clubs, strict=True):
        seen = [
            (each.typical("face"), each.typical("path"))
            for _, clubs in summaries
            for each in clubs
            if each.club == label
        ]
        both = [(face.value, path.value) for face, path in seen if face is not None and path is not None]
        said = next((each for each in player.delivery if each.kind == club.kind), None)
        if both:
            face, path = (min(max(each, -_WIDEST), _WIDEST) for each in both[-1])
            found.append((face, path))
        elif said is not None and (said.face is not None or said.path is not None):
            face, path = (0.0 if each is None else to_si(each.number, each.unit) for each in (said.face, said.path))
            found.append((face, path))
        else:
            found.append(None)
    return found


# Readings that stand before the figures worked out for the club they were read of: the figure, and the unit shown.
STANDING = {
    "club speed": ("club_speed", "mph"), "attack": ("attack", "deg"), "dynamic loft": ("dynamic_loft", "deg"),
    "ball speed": ("ball_speed", "mph"), "launch": ("launch", "deg"), "spin": ("spin", "rpm"),
    "apex": ("apex", "ft"), "descent": ("descent", "deg"), "time": ("time", "s"),
}  # fmt: skip


class Shifted(NamedTuple):
    """A typical reading brought to the club and the air asked for, and what was added for that (SI; 0: as read)."""

    found: Typical
    by: float


class Measured(NamedTuple):
    """A club's shots, brought to the club and the air asked for: distances by the factor `moved`, the figures of
    `STANDING` each by what the flown one changes by."""

    shots: int
    flagged: int
    carry: Typical | None
    total: Typical | None
    side: Typical | None
    direction: Typical | None
    moved: float
    standing: Mapping[str, Shifted]


def struck_before(
    summaries: Sequence[tuple[Place, Sequence[ClubSummary]]],
    before: Bag,
    asked: Bag,
    seats: Sequence[int],
    place: Place,
) -> tuple[list[Swing], list[tuple[int, str]]]:
    """The swings as they were when measured, where club or weather has changed since: with (session, label) of each."""
    swings, pairs = [], []
    for session, (air, clubs) in enumerate(summaries):
        for each in clubs:
            if each.club not in asked.labels or each.club not in before.labels:
                continue
            number = asked.labels.index(each.club)
            base = norm_of(before, each.club)
            if air.weather != place.weather or base != asked.norms[number]:
                swings.append(Swing(base, seats[number], air.weather))
                pairs.append((session, each.club))
    return swings, pairs


def measured_clubs(
    summaries: Sequence[tuple[Place, Sequence[ClubSummary]]],
    asked: Bag,
    flights: Flights,
    old: Mapping[tuple[int, str], int],
) -> dict[str, Measured]:
    """Every measured club's shots, those of another air or an altered club moved as the flown typical shot moves."""
    answer = {}
    for number, label in enumerate(asked.labels):
        here = [(n, each) for n, (_, clubs) in enumerate(summaries) for each in clubs if each.club == label]
        if not here:
            continue
        found: dict[str, list[Numbers]] = {"carry": [], "total": [], "side": [], "launch direction": []}
        factors = []
        standing: dict[str, list[tuple[Numbers, float]]] = {name: [] for name in STANDING}
        for session, each in here:
            row = old.get((session, label))
            factor = 1.0 if row is None else float(flights.carry[number, 0] / flights.carry[row, 0])
            shift = 0.0 if row is None else float(flights.side[number, 0] - flights.side[row, 0])
            factors.append(factor)
            for name, column in found.items():
                values = each.values(name)
                column.append(values + shift if name == "side" else values if name[0] == "l" else values * factor)
            for name, (figure, _) in STANDING.items():
                flown = getattr(flights, figure)
                by = 0.0 if row is None else float(flown[number, 0] - flown[row, 0])
                standing[name].append((each.values(name) + by, by if abs(by) > 1e-9 else 0.0))
        carry, total, side, direction = (typical(np.hstack(column), name) for name, column in found.items())
        answer[label] = Measured(
            shots=sum(each.shots for _, each in here),
            flagged=sum(each.flagged for _, each in here),
            carry=carry,
            total=total,
            side=side,
            direction=direction,
            moved=float(np.mean(factors)),
            standing={
                STANDING[name][0]: Shifted(one, max((by for _, by in parts), key=abs))
                for name, parts in standing.items()
                if (one := typical(np.hstack([values for values, _ in parts]), name)) is not None
            },
        )
    return answer
