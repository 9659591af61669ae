"""The typical shot with every club, its slopes along what the estimate leaves unsure, and single shots around it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

import msgspec
import numpy as np
from numpy.typing import NDArray

from asplayed.clubs import AsPlayed, Club, GolfSet, angles
from asplayed.clubs.names import labels
from asplayed.players.delivery import DEGREE, OF_90, Norm, Skill, by_handicap, norm, norms
from asplayed.players.inference import STEPS, Estimate, Weather, delivered, flown, struck
from asplayed.players.summaries import Typical
from asplayed.quantities import Figure, Parent, Source, from_si

Numbers = NDArray[np.float64]


class Bag(NamedTuple):
    """Clubs side by side: labels, records, figures as played and norms."""

    labels: tuple[str, ...]
    clubs: tuple[Club, ...]
    played: tuple[AsPlayed, ...]
    norms: tuple[Norm, ...]


def bag_of(golf_set: GolfSet, skill: Skill) -> Bag:
    """The clubs of a set that are swung in full (no putter), with what a player of this skill usually delivers."""
    names = labels(golf_set.clubs)
    kept = [(name, club) for name, club in zip(names, golf_set.clubs, strict=True) if club.kind != "putter"]
    played = tuple(
        AsPlayed(loft=angles.loft(club), lie=angles.lie(club), length=angles.length(club)) for _, club in kept
    )
    usual_ones = tuple(norm(club, figures, skill) for (_, club), figures in zip(kept, played, strict=True))
    return Bag(tuple(name for name, _ in kept), tuple(club for _, club in kept), played, usual_ones)


def norm_of(bag: Bag, label: str) -> Norm:
    """The norm of the club of that label."""
    return bag.norms[bag.labels.index(label)]


class Swing(NamedTuple):
    """One typical swing to fly: norm, the club's seat in the estimate, weather, share of the full speed, and the line:
    face and path (rad, + right)."""

    base: Norm
    seat: int
    weather: Weather
    share: float = 1.0
    face: float = 0.0
    path: float = 0.0


def figure_of(value: float, error: float, unit: str, why: str) -> Figure:
    """A computed figure from SI, with the 90 % band of one standard deviation `error`.

    >>> [round(x, 2) for x in (figure_of(91.44, 0.9144, "yd", "").low, figure_of(91.44, 0.9144, "yd", "").value)]
    [98.36, 100.0]
    """
    low, high = (from_si(value + way * OF_90 * error, unit) for way in (-1, 1))
    return Figure(value=from_si(value, unit), unit=unit, source=Source.COMPUTED, low=low, high=high, why=why)


def with_parents(made: Figure, **parents: Figure | None) -> Figure:
    """The figure with those it was worked out from."""
    known = tuple(Parent(name, entry) for name, entry in parents.items() if entry is not None)
    return msgspec.structs.replace(made, parents=known)


def band_of(found: Typical, unit: str, source: Source, why: str) -> Figure:
    """A typical value in SI as a figure with its band."""
    value, low, high = (from_si(each, unit) for each in (found.value, found.low, found.high))
    return Figure(value=value, unit=unit, source=source, low=low, high=high, why=why)


class Flights(NamedTuple):
    """Flights of typical shots, SI: a row for each club, the first column at the estimate, the others a step away."""

    carry: Numbers
    side: Numbers
    apex: Numbers
    descent: Numbers
    time: Numbers
    ball_speed: Numbers
    launch: Numbers
    spin: Numbers
    landing_speed: Numbers
    landing_spin: Numbers
    club_speed: Numbers
    attack: Numbers
    dynamic_loft: Numbers

    def figure(self, name: str, row: int, spread: Numbers, off: float, unit: str, why: str) -> Figure:
        """A figure of one club with its band: the covariance of its numbers, and how far the model may be `off`."""
        column = getattr(self, name)[row]
        slope = (column[1:] - column[0]) / STEPS
        error = math.sqrt(max(0.0, float(slope @ spread @ slope)) + off * off)
        return figure_of(float(column[0]), error, unit, why)


def typical_flights(swings: Sequence[Swing], found: Estimate) -> Flights:
    """Typical flights and their slopes."""
    middle = np.array([each.base.delivery for each in swings])
    middle[:, 0] *= [each.share for each in swings]
    heads = np.array([each.base.head_mass for each in swings])[:, None]
    moved = np.repeat(np.array([found.departures(each.seat) for each in swings])[:, None, :], 6, axis=1)
    for number in range(5):
        moved[:, number + 1, number] += STEPS[number]
    weather = Weather(*(np.array(each)[:, None] for each in zip(*(swing.weather for swing in swings), strict=True)))
    face, path = (np.array([getattr(each, name) for each in swings])[:, None] for name in ("face", "path"))
    delivery = delivered(middle[:, None, :], moved)
    ball = struck(delivery, heads, face, path)
    first = type(ball)(*(np.asarray(each)[:, :1] for each in ball))
    drag, lift = 1.0 + float(found.mean[-2]), 1.0 + float(found.mean[-1])
    parts = [
        (ball, flown(ball, weather, drag, lift)),
        (first, flown(first, weather, drag + STEPS[5], lift)),
        (first, flown(first, weather, drag, lift + STEPS[6])),
    ]

    def joined(of: int, name: str) -> Numbers:
        return np.hstack([np.asarray(getattr(part[of], name)) for part in parts])

    return Flights(
        joined(1, "carry"),
        joined(1, "side"),
        joined(1, "apex"),
        joined(1, "descent_angle"),
        joined(1, "flight_time"),
        joined(0, "ball_speed"),
        joined(0, "launch_angle"),
        joined(0, "spin_rate"),
        joined(1, "landing_speed"),
        joined(1, "landing_spin"),
        *(np.hstack([each, each[:, :1], each[:, :1]]) for each in delivery[:3]),
    )


class Simulated(NamedTuple):
    """Single shots of one club, in metres: (carry, side), and their standard deviations along and across the line."""

    landings: Numbers
    depth: float
    width: float


@lru_cache(maxsize=128)
def _chance(seed: int, seat: int, shots: int) -> Numbers:
    """A club's stream of chance, seven draws a shot: the same for every what-if, and drawn once."""
    found: Numbers = np.random.default_rng([seed, seat]).standard_normal((7, shots))
    found.setflags(write=False)
    return found


def simulate(swings: Sequence[Swing], found: Estimate, skill: Skill, shots: int, seed: int) -> list[Simulated]:
    """Single shots of every swing around its typical one, in one weather, each club from its own stream of chance."""
    table = norms()["shot_to_shot"]
    handicap = skill.handicap.number
    depth, *line = (by_handicap(name, handicap) for name in ("depth", "face", "path", "aim"))
    face_spread, path_spread, aim_spread = (each * DEGREE for each in line)
    streams = [_chance(seed, each.seat, shots) for each in swings]
    swing, strike, loft, attack, face, path, aim = np.stack(streams, axis=1)
    scatter = np.zeros((len(swings), shots, 5))
    scatter += np.array([found.departures(each.seat) for each in swings])[:, None, :]
    scatter[..., 0] += swing * depth / 100 * table["swing_share"]
    scatter[..., 1] += attack * depth * table["attack_per_percent"] * DEGREE
    scatter[..., 2] += loft * depth * table["loft_per_percent"] * DEGREE
    # ball speed goes with 1 + restitution
    base = np.array([each.base.delivery for each in swings])[:, None, :]
    scatter[..., 3] += strike * depth / 100 * table["strike_share"] * (1 + base[..., 3])
    heads = np.array([each.base.head_mass for each in swings])[:, None]
    ball = struck(
        delivered(base, scatter),
        heads,
        np.array([each.face for each in swings])[:, None] + face * face_spread,
        np.array([each.path for each in swings])[:, None] + path * path_spread,
    )
    aimed = ball.launch_direction + aim * aim_spread
    ball = ball._replace(launch_direction=aimed)
    flight = flown(ball, swings[0].weather, 1.0 + float(found.mean[-2]), 1.0 + float(found.mean[-1]))
    return [
        Simulated(np.column_stack([carry, side]), float(np.std(carry)), float(np.std(side)))
        for carry, side in zip(flight.carry, flight.side, strict=True)
    ]
