"""Very many shots: flown in blocks through the compiled equations, so that memory stays flat. Brings in numba."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

import numpy as np

from asplayed.mechanics.flight_compiled import as_arrays, kernel
from asplayed.mechanics.flight_equations import Law, PowerLaw, SteadyWind, WindProfile

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
    packed = np.empty((len(shots), min(BLOCK, max(count, 1))))
    for start in range(0, count, BLOCK):
        stop = min(start + BLOCK, count)
        for row, each in zip(packed, shots, strict=True):
            row[: stop - start] = each[start:stop]
        figures = np.empty((7, stop - start))
        ends = np.empty(stop - start, dtype=np.int8)
        fly_each(packed[:, : stop - start], plain_law, plain_profile, tolerance, figures, ends)
        yield Block(start, stop, figures, ends)
