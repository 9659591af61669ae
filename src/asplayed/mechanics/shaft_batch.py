"""Many shafts at once: the sweep of `shaft.vibrate` compiled, several beams side by side in the registers."""

from __future__ import annotations

import hashlib
import math
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from asplayed.mechanics import shaft
from asplayed.mechanics.compiling import numba
from asplayed.mechanics.shaft import ELEMENTS, LANES, rows, vibrate

TOGETHER = 32
# A kernel on disk is found again only while the source it was made from is the same, whatever the clocks say.
SOURCE = hashlib.blake2b(Path(__file__).read_bytes() + Path(shaft.__file__).read_bytes(), digest_size=8).hexdigest()
# Sums may be regrouped and multiply-adds contracted; NaN and infinity keep their meaning.
OPTIONS: dict[str, Any] = {"fastmath": {"contract", "reassoc", "arcp", "nsz"}, "error_model": "numpy", "nogil": True}


def sweep_all(table: Any, frequency: Any, compliance: Any) -> None:
    """Fill frequency (Hz) and compliance of linearly tapered beams; a column of `table` holds one beam's seven figures,
    in the order of `shaft.frequency`. To be compiled, with `LANES` beams side by side."""
    lengths, stiffness, line_mass = rows(ELEMENTS), rows(2 * ELEMENTS), rows(2 * ELEMENTS)
    beam, answers = rows(7), rows(2)
    count = table.shape[1]
    for first in range(0, count, LANES):
        for figure in range(7):
            for k in range(LANES):
                beam[figure][k] = table[figure, min(first + k, count - 1)]
        for i in range(ELEMENTS):
            length, start, end = lengths[i], stiffness[2 * i], stiffness[2 * i + 1]
            mass_start, mass_end = line_mass[2 * i], line_mass[2 * i + 1]
            for k in range(LANES):
                length[k] = beam[0][k] / ELEMENTS
                step = (beam[4][k] - beam[3][k]) / ELEMENTS
                start[k] = beam[3][k] + step * i
                end[k] = beam[3][k] + step * (i + 1)
                mass_start[k] = beam[2][k]
                mass_end[k] = beam[2][k]
        vibrate(lengths, stiffness, line_mass, beam[1], beam[5], beam[6], answers[0], answers[1])
        for k in range(min(LANES, count - first)):
            frequency[first + k] = math.sqrt(answers[0][k]) / (2 * math.pi)
            compliance[first + k] = answers[1][k]


@cache
def kernel(lanes: int) -> Any:
    """`sweep_all` compiled for so many beams side by side, kept on disk where there is a place for it."""

    @numba.njit(inline="always")
    def room(count: int) -> Any:
        return np.zeros((count, lanes))

    def twin(function: Any, **callees: Any) -> Any:
        bound = FunctionType(function.__code__, {**function.__globals__, "LANES": lanes, "rows": room, **callees})
        bound.__qualname__ = f"{function.__name__}_{lanes}_{SOURCE}"
        return bound

    compiled = numba.njit(**OPTIONS)(twin(vibrate))
    whole = twin(sweep_all, vibrate=compiled)
    try:
        return numba.njit(cache=True, **OPTIONS)(whole)
    except RuntimeError:  # nowhere to keep it: compile it in every run
        return numba.njit(**OPTIONS)(whole)


def vibrate_many(*columns: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Frequency (Hz) and compliance (m/N) of linearly tapered shafts, seven arrays of one shape in the order of
    `shaft.frequency`."""
    shape = columns[0].shape
    table = np.array([column.ravel() for column in columns])
    frequency, compliance = np.empty(table.shape[1]), np.empty(table.shape[1])
    kernel(TOGETHER if table.shape[1] > 4 else 1)(table, frequency, compliance)
    return frequency.reshape(shape), compliance.reshape(shape)
