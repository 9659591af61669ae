"""Shaft frequencies a second beside SciPy's banded solver on the same elements, to equal accuracy."""

from __future__ import annotations

import inspect
import math
from typing import Any

import numpy as np
import scipy.linalg

from asplayed.mechanics.shaft import ELEMENTS, frequency
from asplayed.mechanics.shaft_batch import TOGETHER, kernel
from benchmarks import Line, best_time

TITLE = "Shaft frequency"
NAMES = tuple(inspect.signature(frequency).parameters)


def beams(count: int, seed: int = 3) -> np.ndarray[Any, Any]:
    """Driver to wedge: seven rows in the order of `shaft.frequency`."""
    low = [0.75, 0.19, 0.05, 50.0, 20.0, 1e-4, 0.0]
    high = [1.05, 0.31, 0.13, 110.0, 40.0, 5e-4, 0.03]
    return np.random.default_rng(seed).uniform(low, high, (count, 7)).T.copy()


def matrices(beam: Any) -> tuple[Any, Any]:
    """Stiffness and mass of textbook Hermite elements, clamped, in lower bands."""
    length, tip_mass, line_mass, clamp, tip, tip_inertia, offset = beam
    h = length / ELEMENTS
    stiffness, mass = np.zeros((4, 2 * ELEMENTS + 2)), np.zeros((4, 2 * ELEMENTS + 2))
    m = np.array(
        [[156, 22 * h, 54, -13 * h], [0, 4 * h * h, 13 * h, -3 * h * h], [0, 0, 156, -22 * h], [0, 0, 0, 4 * h * h]]
    )
    for i in range(ELEMENTS):
        a, b = (clamp + (tip - clamp) * (i + end) / ELEMENTS for end in (0, 1))
        k = [
            [6 * (a + b), h * (4 * a + 2 * b), -6 * (a + b), h * (2 * a + 4 * b)],
            [0, h * h * (3 * a + b), -h * (4 * a + 2 * b), h * h * (a + b)],
            [0, 0, 6 * (a + b), -h * (2 * a + 4 * b)],
            [0, 0, 0, h * h * (a + 3 * b)],
        ]
        for row in range(4):
            for column in range(row, 4):
                stiffness[column - row, 2 * i + row] += k[row][column] / h**3
                mass[column - row, 2 * i + row] += m[row, column] * line_mass * h / 420
    mass[0, -2] += tip_mass
    mass[1, -2] += tip_mass * offset
    mass[0, -1] += tip_inertia + tip_mass * offset * offset
    return stiffness[:, 2:], mass[:, 2:]


def banded(stiffness: Any, mass: Any) -> float:
    """The lowest frequency by inverse iteration with a banded Cholesky factor."""
    factor = scipy.linalg.cholesky_banded(stiffness, lower=True)
    shape = np.linspace(0, 1, stiffness.shape[1])
    squared = 0.0
    while True:
        load = mass[0] * shape
        for row in (1, 2, 3):
            load[row:] += mass[row, :-row] * shape[:-row]
            load[:-row] += mass[row, :-row] * shape[row:]
        after = scipy.linalg.cho_solve_banded((factor, True), load)
        before, squared = squared, (shape @ load) / (after @ load)
        if abs(squared - before) <= 1e-12 * squared:
            return math.sqrt(squared) / (2 * math.pi)
        shape = after / np.abs(after).max()


def measure() -> list[Line]:
    """Together, alone, and beside SciPy."""
    many, few = beams(20_000), beams(200)
    found = {}
    for lanes in (TOGETHER, 1):
        answers = np.empty(many.shape[1]), np.empty(many.shape[1])
        kernel(lanes)(many, *answers)
        found[lanes] = best_time(lambda lanes=lanes, answers=answers: kernel(lanes)(many, *answers)) / many.shape[1]
    made = [matrices(beam) for beam in few.T]
    theirs = best_time(lambda: [banded(*each) for each in made]) / few.shape[1]
    ours = frequency(**dict(zip(NAMES, few, strict=True))).frequency
    apart = float(np.abs(ours / np.array([banded(*each) for each in made]) - 1).max())
    plain = best_time(lambda: frequency(**dict(zip(NAMES, few[:, 0].tolist(), strict=True))))
    together, alone = found[TOGETHER], found[1]
    return [
        Line("together", 1e6 * together, "µs a beam", "≤ 1", together <= 1e-6, f"{TOGETHER} side by side"),
        Line("alone, compiled", 1e6 * alone, "µs", "≤ 5", alone <= 5e-6),
        Line("SciPy, banded factor and inverse iteration", 1e6 * theirs, "µs", note="matrices made beforehand"),
        Line("ratio of SciPy to together", theirs / together, "×"),
        Line("one without a compiler", 1e6 * plain, "µs"),
        Line("largest difference from SciPy", apart, "relative", "≤ 1e-8", apart <= 1e-8),
    ]
