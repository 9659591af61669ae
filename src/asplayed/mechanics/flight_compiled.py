"""The functions of `flight_equations`, compiled: the same source for many shots. Importing this brings in numba."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import Any

import numpy as np
from llvmlite import ir
from numba.extending import intrinsic

from asplayed.mechanics import flight_equations as equations
from asplayed.mechanics.compiling import numba
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


LANES = 32
# Rows of the lanes' table: state, rates, the same after the step, axis, air, and one row each for the rest.
OLD, RATE, NEW, NEW_RATE, AXIS, AIR = 0, 7, 12, 19, 24, 27
STEP, FAULT, TIME, APEX, HEIGHT, LONGER = 32, 33, 34, 35, 36, 37
# Which shot a lane flies, −1 when none, and how many steps it has tried: whole numbers among the others, so that there
# is one table. Its rows are named where they are read: a helper would be compiled anew for every row.
SHOT, TRIES, STARTED, ROWS = 38, 39, 40, 42


def fly_each(shots: Any, law: Any, profile: Any, tolerance: float, figures: Any, ends: Any) -> None:
    """Fly the columns of `shots` (11 × n) into the columns of `figures` (7 × n) and into `ends` (n).

    Lanes take their steps together, each of its own length: the arithmetic of a step has no branch, so it fills the
    processor's vectors. What a step came to is settled lane by lane; a lane that is done takes up the next shot.
    """
    b = np.zeros((ROWS, LANES))
    for j in range(LANES):
        b[SHOT, j] = -1.0
    taken = 0
    flying = 0
    while True:
        for j in range(LANES):
            while b[SHOT, j] < 0.0 and taken < len(ends):
                i = taken
                taken += 1
                kick = (
                    shots[0, i], shots[1, i], shots[2, i], shots[3, i], shots[4, i], shots[5, i], shots[6, i]
                )  # fmt: skip
                velocity, spin, axis, air = launch(kick, shots[7, i], shots[8, i], shots[10, i])
                vx, vy, vz = velocity
                rate = rates(0.0, vx, vy, vz, spin, axis, air, law, profile)
                if grounded(velocity, rate, shots[9, i]):
                    ends[i] = LANDED
                    landing = reported(0.0, (0.0, 0.0, 0.0, vx, vy, vz, spin), vx, vy)
                    for row in range(7):
                        figures[row, i] = landing[row]
                    continue
                for row in range(3):
                    b[OLD + row, j] = 0.0
                    b[OLD + 3 + row, j] = velocity[row]
                    b[AXIS + row, j] = axis[row]
                b[OLD + 6, j] = spin
                for row in range(5):
                    b[RATE + row, j] = rate[row]
                    b[AIR + row, j] = air[row]
                b[STARTED, j] = vx
                b[STARTED + 1, j] = vy
                b[STEP, j] = first_step(tolerance)
                b[TIME, j] = 0.0
                b[APEX, j] = 0.0
                b[HEIGHT, j] = shots[9, i]
                b[TRIES, j] = 0.0
                b[SHOT, j] = i
                flying += 1
        if flying == 0:
            return
        for j in range(LANES):
            state = (b[0, j], b[1, j], b[2, j], b[3, j], b[4, j], b[5, j], b[6, j])
            rate = (b[7, j], b[8, j], b[9, j], b[10, j], b[11, j])
            axis = (b[AXIS, j], b[AXIS + 1, j], b[AXIS + 2, j])
            air = (b[AIR, j], b[AIR + 1, j], b[AIR + 2, j], b[AIR + 3, j], b[AIR + 4, j])
            new, new_rate, fault = advance(b[STEP, j], state, rate, axis, air, law, profile)
            b[12, j], b[13, j], b[14, j], b[15, j], b[16, j], b[17, j], b[18, j] = new
            b[19, j], b[20, j], b[21, j], b[22, j], b[23, j] = new_rate
            b[FAULT, j] = fault
            b[LONGER, j] = stretch(fault, tolerance)
        for j in range(LANES):
            i = int(b[SHOT, j])
            if i < 0:
                continue
            h = b[STEP, j]
            ended, longer, apex, last = follow(
                h,
                b[TIME, j],
                b[APEX, j],
                (b[0, j], b[1, j], b[2, j], b[3, j], b[4, j], b[5, j], b[6, j]),
                (b[7, j], b[8, j], b[9, j], b[10, j], b[11, j]),
                (b[12, j], b[13, j], b[14, j], b[15, j], b[16, j], b[17, j], b[18, j]),
                (b[19, j], b[20, j], b[21, j], b[22, j], b[23, j]),
                b[FAULT, j],
                b[LONGER, j],
                b[HEIGHT, j],
                tolerance,
            )
            b[TRIES, j] += 1.0
            b[STEP, j] = longer
            on = ended == FLYING
            if on:
                b[TIME, j] += h
                b[APEX, j] = apex
                for row in range(NEW - OLD):
                    b[OLD + row, j] = b[NEW + row, j]
            if on or ended == TOO_LONG:
                if b[TRIES, j] < STEPS:
                    continue
                ended = STILL_UP
            ends[i] = ended
            landing = reported(apex, last, b[STARTED, j], b[STARTED + 1, j])
            for row in range(7):
                figures[row, i] = landing[row]
            b[SHOT, j] = -1.0
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
    value, slope = twin(equations.value), twin(equations.slope)
    root = twin(equations.root, value=value, slope=slope)
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
    )


def as_arrays(record: Any) -> Any:
    """A law or a wind profile as the compiled functions take it: a tuple, its runs as arrays."""
    return tuple(np.array(each, dtype=np.float64) if isinstance(each, tuple) else each for each in record)
