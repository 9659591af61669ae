"""The functions of `flight_equations`, compiled: the same source for many shots. Importing this brings in numba."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import Any

import numba
import numpy as np
from llvmlite import ir
from numba.extending import intrinsic

from asplayed.mechanics import flight_equations as equations
from asplayed.mechanics.flight_equations import (
    FLYING,
    LANDED,
    STEPS,
    STILL_UP,
    TOO_LONG,
    advance,
    first_step,
    follow,
    grounded,
    launch,
    rates,
    reported,
    stretch,
)

# Sums may be regrouped and multiply-adds contracted; NaN and infinity keep their meaning, so a lost shot is noticed.
RELAXED = {"contract", "reassoc", "arcp", "nsz"}
# A kernel on disk is found again only while the source it was made from is the same, whatever the clocks say.
SOURCE = hashlib.blake2b(Path(__file__).read_bytes() + Path(equations.__file__).read_bytes(), digest_size=8).hexdigest()


def _cast(source: Any, target: Any, shape: Any) -> Any:
    """A compiled function that reads the bits of one kind of number as another kind of the same width."""

    def cast(_context: Any, _given: Any) -> Any:
        return target(source), lambda _, builder, __, given: builder.bitcast(given[0], shape)

    return intrinsic(cast)


_bits = _cast(numba.float64, numba.int64, ir.IntType(64))
_number = _cast(numba.int64, numba.float64, ir.DoubleType())


def fitted(function: Any, low: float, high: float, degree: int) -> tuple[float, ...]:
    """The polynomial through the Chebyshev points of the interval, in powers of the argument."""
    near = np.polynomial.Chebyshev.interpolate(function, degree, domain=[low, high])
    return tuple(near.convert(kind=np.polynomial.Polynomial).coef.tolist())


_ROOT_HALF = int(np.float64(np.sqrt(0.5)).view(np.int64))
_L0, _L1, _L2, _L3, _L4, _L5, _L6, _L7, _L8, _L9, _L10, _L11 = fitted(
    lambda f: np.where(f == 0.0, np.log2(np.e), np.log1p(f) / np.where(f == 0.0, 1.0, f) * np.log2(np.e)),
    np.sqrt(0.5) - 1.0,
    np.sqrt(2.0) - 1.0,
    11,
)
_E0, _E1, _E2, _E3, _E4, _E5, _E6, _E7 = fitted(np.exp2, -0.5, 0.5, 7)


@numba.njit(fastmath=RELAXED, error_model="numpy", nogil=True, forceinline=True)
def power(base: float, exponent: float) -> Any:
    """2^(exponent · log2 base) by two polynomials, without a call that would spill the registers."""
    if not base > 1e-200:
        return 0.0 if exponent > 0.0 else 1.0
    bits = _bits(base)
    whole = (bits - _ROOT_HALF) >> 52
    f = _number(bits - (whole << 52)) - 1.0
    g = f * f
    h = g * g
    low = (_L0 + f * _L1) + g * (_L2 + f * _L3)
    middle = (_L4 + f * _L5) + g * (_L6 + f * _L7)
    high = (_L8 + f * _L9) + g * (_L10 + f * _L11)
    wanted = exponent * (whole + f * (low + h * (middle + h * high)))
    nearest = np.floor(wanted + 0.5)
    f = wanted - nearest
    g = f * f
    share = ((_E0 + f * _E1) + g * (_E2 + f * _E3)) + g * g * ((_E4 + f * _E5) + g * (_E6 + f * _E7))
    return share * _number((np.int64(nearest) + 1023) << 52)


def _compiled(function: Any, **options: Any) -> Any:
    return numba.njit(fastmath=RELAXED, error_model="numpy", nogil=True, **options)(function)


def twin(function: Any, named: str | None = None, cached: bool = False, **callees: Any) -> Any:
    """`function` compiled, calling the compiled `callees` in place of the plain functions of those names."""
    bound = FunctionType(function.__code__, {**function.__globals__, **callees}, named or function.__name__)
    if not cached:
        return _compiled(bound, forceinline=True, no_cpython_wrapper=True, no_cfunc_wrapper=True)
    bound.__qualname__ = f"{bound.__name__}_{SOURCE}"
    try:
        return _compiled(bound, cache=True, no_cfunc_wrapper=True)
    except RuntimeError:  # nowhere to keep it: compile it in every run
        return _compiled(bound)


def _three(b: Any, row: int, lane: int) -> Any:
    return b[row, lane], b[row + 1, lane], b[row + 2, lane]


def _five(b: Any, row: int, lane: int) -> Any:
    return b[row, lane], b[row + 1, lane], b[row + 2, lane], b[row + 3, lane], b[row + 4, lane]


def _seven(b: Any, row: int, lane: int) -> Any:
    return (
        b[row, lane],
        b[row + 1, lane],
        b[row + 2, lane],
        b[row + 3, lane],
        b[row + 4, lane],
        b[row + 5, lane],
        b[row + 6, lane],
    )


def _keep(b: Any, row: int, lane: int, values: Any) -> None:
    for number in range(len(values)):
        b[row + number, lane] = values[number]


LANES = 32
# Rows of the lanes' table: state, rates, the same after the step, axis, air, and one row each for the rest.
OLD, RATE, NEW, NEW_RATE, AXIS, AIR = 0, 7, 12, 19, 24, 27
STEP, FAULT, TIME, APEX, HEIGHT, LONGER, ROWS = 32, 33, 34, 35, 36, 37, 38


def fly_each(shots: Any, law: Any, profile: Any, tolerance: float, figures: Any, ends: Any) -> None:
    """Fly the columns of `shots` (11 × n) into the columns of `figures` (7 × n) and into `ends` (n).

    Lanes take their steps together, each of its own length: the arithmetic of a step has no branch, so it fills the
    processor's vectors. What a step came to is settled lane by lane; a lane that is done takes up the next shot.
    """
    shot_of = np.empty(LANES, np.int64)
    for j in range(LANES):
        shot_of[j] = -1
    tries = np.zeros(LANES, np.int64)
    b = np.zeros((ROWS, LANES))
    taken = 0
    flying = 0
    while True:
        for j in range(LANES):
            while shot_of[j] < 0 and taken < len(ends):
                i = taken
                taken += 1
                velocity, spin, axis, air = launch(_seven(shots, 0, i), shots[7, i], shots[8, i], shots[10, i])
                state = (0.0, 0.0, 0.0, velocity[0], velocity[1], velocity[2], spin)
                rate = rates(0.0, velocity[0], velocity[1], velocity[2], spin, axis, air, law, profile)
                if grounded(velocity, rate, shots[9, i]):
                    ends[i] = LANDED
                    _keep(figures, 0, i, reported(0.0, (0.0, 0.0, 0.0, velocity[0], velocity[1], velocity[2], spin)))
                    continue
                _keep(b, OLD, j, state)
                _keep(b, RATE, j, rate)
                _keep(b, AXIS, j, axis)
                _keep(b, AIR, j, air)
                _keep(b, STEP, j, (first_step(tolerance), 0.0, 0.0, 0.0, shots[9, i]))
                tries[j] = 0
                shot_of[j] = i
                flying += 1
        if flying == 0:
            return
        for j in range(LANES):
            new, new_rate, fault = advance(
                b[STEP, j], _seven(b, OLD, j), _five(b, RATE, j), _three(b, AXIS, j), _five(b, AIR, j), law, profile
            )
            _keep(b, NEW, j, new)
            _keep(b, NEW_RATE, j, new_rate)
            b[FAULT, j] = fault
            b[LONGER, j] = stretch(fault, tolerance)
        for j in range(LANES):
            i = shot_of[j]
            if i < 0:
                continue
            h = b[STEP, j]
            ended, longer, apex, last = follow(
                h,
                b[TIME, j],
                b[APEX, j],
                _seven(b, OLD, j),
                _five(b, RATE, j),
                _seven(b, NEW, j),
                _five(b, NEW_RATE, j),
                b[FAULT, j],
                b[LONGER, j],
                b[HEIGHT, j],
                tolerance,
            )
            tries[j] += 1
            b[STEP, j] = longer
            if ended in (FLYING, TOO_LONG):
                if ended == FLYING:
                    b[TIME, j] += h
                    b[APEX, j] = apex
                    for row in range(NEW - OLD):
                        b[OLD + row, j] = b[NEW + row, j]
                if tries[j] < STEPS:
                    continue
                ended = STILL_UP
            ends[i] = ended
            _keep(figures, 0, i, reported(apex, last))
            shot_of[j] = -1
            flying -= 1


@cache
def kernel(law: Any, wind: Any) -> Any:
    """`fly_each` compiled for one kind of law and one kind of wind.

    >>> kernel(equations.PowerLaw, equations.SteadyWind).__name__
    'fly_each_power_law_steady'
    """
    of_law = equations.power_law if law is equations.PowerLaw else equations.table
    of_wind = {
        equations.SteadyWind: equations.steady,
        equations.WindPowerLaw: equations.growing,
        equations.WindTable: equations.tabled,
    }[wind]
    between = twin(equations.between)
    coefficients = twin(of_law, power=power, between=between)
    wind_factor = twin(of_wind, power=power, between=between)
    rates = twin(equations.rates, coefficients=coefficients, wind_factor=wind_factor)
    value, slope, bend = twin(equations.value), twin(equations.slope), twin(equations.bend)
    root = twin(equations.root, value=value, slope=slope, bend=bend)
    quintic = twin(equations.quintic)
    return twin(
        fly_each,
        named=f"fly_each_{of_law.__name__}_{of_wind.__name__}",
        cached=True,
        rates=rates,
        advance=twin(equations.advance, rates=rates),
        stretch=twin(equations.stretch, power=power),
        follow=twin(equations.follow, quintic=quintic, value=value, slope=slope, root=root),
        launch=twin(equations.launch),
        grounded=twin(equations.grounded),
        first_step=twin(equations.first_step),
        reported=twin(equations.reported),
        _three=twin(_three),
        _five=twin(_five),
        _seven=twin(_seven),
        _keep=twin(_keep),
    )


def as_arrays(record: Any) -> Any:
    """A law or a wind profile as the compiled functions take it: a tuple, its runs as arrays."""
    return tuple(np.array(each, dtype=np.float64) if isinstance(each, tuple) else each for each in record)
