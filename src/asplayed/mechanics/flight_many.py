"""Very many shots: flown in blocks through the compiled equations, so that memory stays flat. Brings in numba."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any, NamedTuple

import numpy as np

from asplayed.errors import BadInput
from asplayed.mechanics.flight import Flight
from asplayed.mechanics.flight_compiled import as_arrays, kernel
from asplayed.mechanics.flight_equations import FINE, GRAZING, LANDED, Law, PowerLaw, SteadyWind, WindProfile, smooth

# The error a step may have, in metres, so that no landing is off by more than 0.01 yd: see the benchmarks' long sweep.
# The kinks of a table, and wind near the ground, hide from the estimate of a step's error.
TOLERANCE = 1e-3
TOLERANCE_OF_KINKS = 3e-6
BLOCK = 16_384
# From so many shots on the lanes are worth their own start; a fit to so many of them guesses the length of their paths.
MANY = 100_000
SAMPLE = 800


class Block(NamedTuple):
    """Shots `start` to `stop`: seven rows of figures in the order of `Flight`, and how each shot ended."""

    start: int
    stop: int
    figures: Any
    ends: Any


def fly_blocks(
    law: Law, profile: WindProfile, shots: Sequence[Any], tolerance: float | None = None, precision: str = "double"
) -> Iterator[Block]:
    """Fly the shots whose eleven figures stand in flat arrays (or views of one number repeated), block by block.

    The order is that of the arguments of `fly` up to `landing_height`, then gravity. Each block has arrays of its own.
    Very many shots of a kind go through the lanes of `flight_lanes` unless a tolerance is asked for; what these hand
    back, and everything else, is flown with adaptive steps. `precision` single halves the figures' memory.
    """
    fly_with_care = _careful(law, profile, tolerance)
    count = shots[0].shape[0]
    kind = {"double": np.float64, "single": np.float32}[precision]
    quick = None if tolerance is not None or count < MANY else _quick(law, profile, shots, fly_with_care, kind)
    for start in range(0, count, BLOCK):
        stop = min(start + BLOCK, count)
        packed = np.stack([each[start:stop] for each in shots])
        if quick is None:
            figures, ends = fly_with_care(packed)
            yield Block(start, stop, figures.astype(kind, copy=False), ends)
            continue
        figures, ends = quick(packed)
        again = np.flatnonzero(ends == GRAZING)
        if len(again):
            figures[:, again], ends[again] = fly_with_care(np.ascontiguousarray(packed[:, again]))
        yield Block(start, stop, figures, ends)


def _careful(law: Law, profile: WindProfile, tolerance: float | None) -> Callable[[Any], tuple[Any, Any]]:
    """How packed shots are flown with adaptive steps; those that graze their target once more, finely."""
    if tolerance is None:
        tolerance = TOLERANCE if smooth(law, profile) else TOLERANCE_OF_KINKS
    kinds: Any = type(law), type(profile)
    fly_each = kernel(*kinds)
    plain_law, plain_profile = as_arrays(law), as_arrays(profile)

    def fly_with_care(packed: Any, within: float = tolerance) -> tuple[Any, Any]:
        figures = np.empty((7, packed.shape[1]))
        ends = np.empty(packed.shape[1], dtype=np.int8)
        fly_each(packed, plain_law, plain_profile, within, figures, ends)
        again = np.flatnonzero(ends == GRAZING)
        if len(again):
            figures[:, again], ends[again] = fly_with_care(np.ascontiguousarray(packed[:, again]), FINE)
        return figures, ends

    return fly_with_care


def _quick(
    law: Law, profile: WindProfile, shots: Sequence[Any], fly_with_care: Callable[[Any], tuple[Any, Any]], kind: Any
) -> Callable[[Any], tuple[Any, Any]] | None:
    """How packed shots are flown in lanes, or None where these would not do: another law or wind, or unlike shots."""
    if not (isinstance(law, PowerLaw) and isinstance(profile, SteadyWind) and law.lift_power > 0.0):
        return None
    from asplayed.mechanics.flight_lanes import LANES, fitted_guess, lanes

    step = shots[0].shape[0] // SAMPLE
    sample = np.stack([each[::step][:SAMPLE] for each in shots])
    figures, ends = fly_with_care(sample)
    known = (ends == LANDED) & (figures[6] < 0.9999 * sample[2])
    guess = fitted_guess(sample[:, known], law, figures[6, known]) if known.sum() > SAMPLE // 2 else None
    if guess is None:
        return None
    fly_lanes = lanes(kind)

    def fly_quickly(packed: Any) -> tuple[Any, Any]:
        figures = np.empty((7, packed.shape[1]), kind)
        ends = np.full(packed.shape[1], GRAZING, dtype=np.int8)
        fly_lanes(packed, tuple(law), guess, figures, ends[: packed.shape[1] // LANES * LANES])
        return figures, ends

    return fly_quickly


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
