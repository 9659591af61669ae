"""Very many shots: flown in blocks through the compiled equations, so that memory stays flat. Brings in numba."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

import numpy as np

from asplayed.errors import BadInput
from asplayed.mechanics.flight import Flight
from asplayed.mechanics.flight_compiled import as_arrays, kernel
from asplayed.mechanics.flight_equations import FINE, GRAZING, Law, PowerLaw, SteadyWind, WindProfile

# The error a step may have, in metres, so that no landing is off by more than 0.01 yd: see the benchmarks' long sweep.
# The kinks of a table, and wind near the ground, hide from the estimate of a step's error.
TOLERANCE = 5e-4
TOLERANCE_OF_KINKS = 1e-5
BLOCK = 16_384


class Block(NamedTuple):
    """Shots `start` to `stop`: seven rows of figures in the order of `Flight`, and how each shot ended."""

    start: int
    stop: int
    figures: Any
    ends: Any


def fly_blocks(law: Law, profile: WindProfile, shots: Sequence[Any], tolerance: float | None = None) -> Iterator[Block]:
    """Fly the shots whose eleven figures stand in flat arrays (or views of one number repeated), block by block.

    The order is that of the arguments of `fly` up to `landing_height`, then gravity. Each block has arrays of its own.
    """
    if tolerance is None:
        smooth = isinstance(law, PowerLaw) and isinstance(profile, SteadyWind)
        tolerance = TOLERANCE if smooth else TOLERANCE_OF_KINKS
    kinds: Any = type(law), type(profile)
    fly_each = kernel(*kinds)
    plain_law, plain_profile = as_arrays(law), as_arrays(profile)
    count = shots[0].shape[0]
    for start in range(0, count, BLOCK):
        stop = min(start + BLOCK, count)
        packed = np.stack([each[start:stop] for each in shots])
        figures = np.empty((7, stop - start))
        ends = np.empty(stop - start, dtype=np.int8)
        fly_each(packed, plain_law, plain_profile, tolerance, figures, ends)
        again = np.flatnonzero(ends == GRAZING)
        if len(again):
            finely, ended = np.empty((7, len(again))), np.empty(len(again), dtype=np.int8)
            fly_each(np.ascontiguousarray(packed[:, again]), plain_law, plain_profile, FINE, finely, ended)
            figures[:, again] = finely
            ends[again] = ended
        yield Block(start, stop, figures, ends)


class Landings(NamedTuple):
    """Very many landings in a few numbers, m: how many, mean place, standard deviation each way, correlation."""

    shots: int
    carry: float
    side: float
    carry_spread: float
    side_spread: float
    correlation: float


def summarise(flights: Iterable[Flight]) -> Landings:
    """The landings of any number of blocks of shots, which are flown one after another and not kept.

    >>> from asplayed.mechanics.flight import fly
    >>> tilts = np.linspace(-0.1, 0.1, 500)
    >>> found = summarise(fly(70.0, 0.2, 280.0, density=1.2, spin_axis=tilts) for _ in range(3))
    >>> found.shots, abs(round(found.side, 6)), found.side_spread > 5.0
    (1500, 0.0, True)
    """
    count, mean, scatter = 0, np.zeros(2), np.zeros((2, 2))
    for flight in flights:
        places = np.stack([np.ravel(flight.carry), np.ravel(flight.side)])
        many = places.shape[1]
        if not many:
            continue
        here = places.mean(axis=1)
        places -= here[:, None]
        step = here - mean
        # Means and scatters of two groups join exactly (Chan, Golub and LeVeque 1979), without losing digits.
        scatter += places @ places.T + np.outer(step, step) * (count * many / (count + many))
        mean += step * (many / (count + many))
        count += many
    if count < 2:
        raise BadInput(f"{count} shots have no spread; give at least 2")
    spread = np.sqrt(np.diag(scatter) / (count - 1))
    product = float(spread[0] * spread[1]) * (count - 1)
    correlation = float(scatter[0, 1]) / product if product else 0.0
    return Landings._make((count, *mean.tolist(), *spread.tolist(), correlation))
