"""How sure a choice is: the two sets played again in many worlds that are as likely as the one reckoned with.

A world is drawn from what is not known: the player's delivery with every club as his shots (or, without any, the norms)
leave it, drag and lift of his ball, what a flight model leaves over, what a change of a club really brings, how wide he
scatters, how far the ball runs, and how often each shot is asked for. In each world both sets are played by somebody
who knows it: he takes the best club there. Draws are numbered by a seed, and both sets live in the same worlds.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.cost import Pattern, expected_strokes
from asplayed.choosing.demand import Situation
from asplayed.clubs.records import Record
from asplayed.players.delivery import norms
from asplayed.players.inference import STEPS
from asplayed.players.typical import Swing, typical_flights
from asplayed.players.versions import Hands, Patterns, Versions, norms_of
from asplayed.quantities import Figure, Source, figure

Numbers = NDArray[np.float64]


class Sure(Record, frozen=True, kw_only=True):
    """How sure one set is better than another: the share of worlds in which it is, and the 90 % band of what it saves.

    `saved` is in strokes a round, with its median; `worlds` and `seed` repeat the draw.
    """

    better: Figure
    saved: Figure
    worlds: int
    seed: int


@cache
def unsure() -> dict[str, Any]:
    """The figures of `data/sureness.toml`."""
    text = resources.files("asplayed.choosing").joinpath("data/sureness.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


class Worlds(NamedTuple):
    """Clubs in many worlds: strokes by world, club and situation, and how often each situation comes in each world."""

    strokes: Numbers
    weights: Numbers


def worlds_of(
    hands: Hands,
    versions: Versions,
    flown: Patterns,
    situations: Sequence[Situation],
    *,
    worlds: int = 200,
    seed: int = 0,
) -> Worlds:
    """Strokes of every version in every world, as `compare` takes them; `flown` are the versions as reckoned with."""
    count = len(versions.label)
    chance = np.random.default_rng([seed, 7])
    carry = flown.carry[None] * np.exp(_carry(hands, versions, flown, worlds, chance))
    table = unsure()
    wider = np.exp(table["spread"] * chance.standard_normal((worlds, 2)))
    run = np.exp(norms()["flight"]["run"] / 1.645 * chance.standard_normal((worlds, 1)))
    nothing = np.zeros(worlds * count)

    def all_of(values: Numbers) -> Numbers:
        return np.broadcast_to(values, (worlds, count)).ravel()

    patterns = Pattern(
        carry.ravel(),
        all_of(flown.run[None] * run),
        all_of(flown.side[None]),
        all_of(flown.depth[None] * wider[:, :1]),
        all_of(flown.width[None] * wider[:, 1:]),
        all_of(flown.correlation[None]),
        nothing,
        all_of(versions.loft[None]),
    )
    strokes = expected_strokes(patterns, situations).strokes.reshape(worlds, count, len(situations))
    usual = np.array([each.weight for each in situations])
    asked = usual * np.exp(table["demand"] * chance.standard_normal((worlds, len(usual))))
    return Worlds(strokes, asked * (usual.sum() / asked.sum(axis=1, keepdims=True)))


def _carry(hands: Hands, versions: Versions, flown: Patterns, worlds: int, chance: np.random.Generator) -> Numbers:
    """The logarithm of what each version's carry is in each world against the one reckoned with."""
    known = hands.known
    flight = typical_flights(
        [
            Swing(base, hands.seats[label], hands.weather, 1.0, *hands.lines.get(label or "", (0.0, 0.0)))
            for base, label in zip(norms_of(hands, versions), versions.label, strict=True)
        ],
        known.found,
    )
    slopes = (flight.carry[:, 1:] - flight.carry[:, :1]) / STEPS / np.maximum(flight.carry[:, :1], 1.0)
    drawn = chance.multivariate_normal(np.zeros(len(known.found.mean)), known.found.covariance, worlds, method="svd")
    rows = np.array([[*range(5 * hands.seats[label], 5 * hands.seats[label] + 5), -2, -1] for label in versions.label])
    off = np.einsum("wvk,vk->wv", drawn[:, rows], slopes)
    # What a flight model leaves over belongs to the club, whatever its setting; a club's own measured carry has it.
    owners = {label: place for place, label in enumerate(dict.fromkeys(versions.label))}
    left = chance.standard_normal((worlds, len(owners)))
    fresh = chance.standard_normal((worlds, len(versions.label)))
    model = norms()["flight"]["carry"]
    measured = {each.label for each in hands.flown.clubs if each.carry.source is Source.MEASURED}
    today = {each.label: each.carry.in_unit("m").number for each in hands.flown.clubs}
    for place, label in enumerate(versions.label):
        if label is None:
            off[:, place] += model * fresh[:, place]
            continue
        if label not in measured:
            off[:, place] += model * left[:, owners[label]]
        moved = math.log(max(flown.carry[place], 1.0) / max(today[label], 1.0))
        off[:, place] += unsure()["change"] / 1.645 * abs(moved) * fresh[:, place]
    found: Numbers = np.clip(off, -0.4, 0.4)
    return found


def compare(worlds: Worlds, chosen: Sequence[int], other: Sequence[int], seed: int) -> Sure:
    """How sure the clubs of `chosen` are better than those of `other`, both places among the versions.

    >>> strokes = np.array([[[3.0], [3.2]], [[3.0], [2.9]], [[3.0], [3.1]], [[3.0], [3.1]]])
    >>> compare(Worlds(strokes, np.ones((4, 1))), [0], [1], 0).better.value
    75.0
    """
    one, two = (
        (worlds.strokes[:, list(places)].min(axis=1) * worlds.weights).sum(axis=1) for places in (chosen, other)
    )
    saved = two - one
    low, middle, high = (round(float(each), 3) for each in np.quantile(saved, [0.05, 0.5, 0.95]))
    share = 100.0 * float(np.mean(saved > 0.0) + 0.5 * np.mean(saved == 0.0))
    many = len(saved)
    off = round(164.5 * math.sqrt(max(share / 100 * (1 - share / 100), 1 / many) / many), 1)
    return Sure(
        better=figure(round(share, 1), "percent", Source.COMPUTED, tolerance=off, why=f"of {many} worlds drawn"),
        saved=Figure(
            value=middle, unit="strokes", source=Source.COMPUTED, low=low, high=high,
            why="a round; the middle of the worlds drawn and what nine of ten of them hold",
        ),
        worlds=many,
        seed=seed,
    )  # fmt: skip
