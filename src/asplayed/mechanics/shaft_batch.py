"""Many shafts at once: the sweep of `shaft.vibrate`, compiled and run over arrays."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np
from numpy.typing import NDArray

from asplayed.mechanics.shaft import ELEMENTS, vibrate

_vibrate = numba.njit(cache=True, fastmath=False)(vibrate)


@numba.njit(cache=True)
def _tapered(table: Any, frequency: Any, compliance: Any) -> None:
    n = ELEMENTS
    lengths, stiffness, line_mass = np.empty(n), np.empty(2 * n), np.empty(2 * n)
    work = np.empty(7 * n + 4)
    for k in range(table.shape[1]):
        length, tip_mass, mass_per_length, clamp, tip, inertia, offset = table[:, k]
        for i in range(n):
            lengths[i] = length / n
            stiffness[2 * i] = clamp + (tip - clamp) * i / n
            stiffness[2 * i + 1] = clamp + (tip - clamp) * (i + 1) / n
            line_mass[2 * i] = mass_per_length
            line_mass[2 * i + 1] = mass_per_length
        squared, compliance[k] = _vibrate(lengths, stiffness, line_mass, tip_mass, inertia, offset, work)
        frequency[k] = np.sqrt(squared) / (2 * np.pi)


def vibrate_many(*columns: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Frequency (Hz) and compliance (m/N) of linearly tapered shafts, seven arrays of one shape in the order of
    `shaft.frequency`."""
    shape = columns[0].shape
    table = np.array([column.ravel() for column in columns])
    frequency, compliance = np.empty(table.shape[1]), np.empty(table.shape[1])
    _tapered(table, frequency, compliance)
    return frequency.reshape(shape), compliance.reshape(shape)
