"""A shot from the club to where it comes down: one at a time without a compiler, many at once compiled."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics import flight_equations as equations
from asplayed.mechanics.aerodynamics import Model, law_of, outside_model, scaled
from asplayed.mechanics.checks import Numbers, accept, refuse_where
from asplayed.mechanics.flight_equations import Law, SteadyWind, WindPowerLaw, WindProfile, WindTable

# The error a step of a single shot may have, m, where a table or the wind has kinks.
FINEST = 1e-9
# Up to so many shots are flown plainly: loading the compiled code takes longer than flying them.
FEW = 100


class Flight(NamedTuple):
    """Where and how a shot comes down; SI and radians; floats, or arrays of one shape.

    `carry` is the distance along the target line and `side` the distance off it, + right; `apex` the greatest height
    above the launch; `descent_angle` below the horizon, of the path over the ground, past a right angle where the wind
    has turned the ball back against the way it was launched. `outside_model` is true where the launch is so slow, with
    so little spin, that published balls follow no smooth law of drag and lift.
    """

    carry: Numbers
    side: Numbers
    apex: Numbers
    flight_time: Numbers
    descent_angle: Numbers
    landing_speed: Numbers
    landing_spin: Numbers
    outside_model: Any


STEADY = SteadyWind()


def wind_power_law(exponent: float = 1.0 / 7.0, reference_height: float = 10.0) -> WindPowerLaw:
    """Wind that grows as a power of height and is the wind given at `reference_height` (m); held below 0.1 m.

    One seventh is the usual exponent over open grass (common practice).

    >>> fly(70.0, 0.2, 280.0, density=1.2, wind_along=-5.0, wind_profile=wind_power_law()).carry > 200
    True
    """
    if not 0.0 <= exponent <= 1.0:
        raise BadInput(f"exponent is {exponent!r}; give a value from 0 to 1")
    if not 0.5 <= reference_height <= 200.0:
        raise BadInput(f"reference_height is {reference_height!r} m; give a value from 0.5 to 200 m")
    return WindPowerLaw(float(exponent), float(reference_height))


def wind_table(heights: Sequence[float], factors: Sequence[float]) -> WindTable:
    """Wind by a table: at each height (m above the launch, rising) a factor on the wind given; straight lines between.

    With `wind_along` or `wind_across` of 1 m/s the factors are speeds in m/s. Below the first height and above the
    last the end values hold.

    >>> wind_table([0, 10, 30], [0.5, 1.0, 1.4]).factors
    (0.5, 1.0, 1.4)
    """
    levels = tuple(float(height) for height in heights)
    values = tuple(float(factor) for factor in factors)
    if not levels or len(levels) != len(values):
        raise BadInput(
            f"heights has {len(levels)} values and factors {len(values)}; give as many of each, at least one"
        )
    if not all(-500.0 <= level <= 500.0 for level in levels):
        raise BadInput("heights holds a value outside -500 to 500 m; give heights above the launch in metres")
    if any(after - before < 0.1 for before, after in pairwise(levels)):
        raise BadInput("heights does not rise by at least 0.1 m at every step; sort its values and give each once")
    if not all(-60.0 <= each <= 60.0 for each in values):
        raise BadInput("factors holds a value outside -60 to 60; give multiples of the wind")
    return WindTable(levels, values)


def fly(
    ball_speed: Numbers,
    launch_angle: Numbers,
    spin_rate: Numbers,
    *,
    launch_direction: Numbers = 0.0,
    spin_axis: Numbers = 0.0,
    density: Numbers,
    viscosity: Numbers = 1.82e-5,
    wind_along: Numbers = 0.0,
    wind_across: Numbers = 0.0,
    landing_height: Numbers = 0.0,
    model: Model = "house",
    gravity: Numbers = 9.80665,
    drag: float | None = None,
    lift: float | None = None,
    drag_factor: float = 1.0,
    lift_factor: float = 1.0,
    wind_profile: WindProfile = STEADY,
    precision: str = "double",
) -> Flight:
    """Fly a shot to its first coming down through `landing_height`, or many shots at once.

    SI and radians: speeds in m/s, spin in rad/s, air density in kg/m³, viscosity in Pa s; scalars, or arrays that
    broadcast. `launch_direction` + right; `spin_axis` the turn of the spin axis about the launch velocity, + curving
    right; `wind_along` tail +; `wind_across` + pushes the ball right; `landing_height` relative to the launch. `model`
    is house, smits-smith, bearman-harvey, constant (with `drag` and `lift`) or a `table_law`; `drag_factor` and
    `lift_factor` calibrate it. `precision` "single" gives arrays half the size, twice as fast; landings of arrays hold
    to 0.01 yd either way, those of single shots to 0.0001 yd. Source of the equations: see `flight_equations`.

    Refused with `BadInput`: values outside their ranges (the elements of an array are named), and shots that do not
    come down within a minute or never reach `landing_height`.

    >>> from math import radians, pi
    >>> shot = fly(67.056, radians(12), 2600 * pi / 30, density=1.225)
    >>> f"{shot.carry / 0.9144:.2f} yd, {shot.flight_time:.2f} s, {shot.apex / 0.3048:.2f} ft"
    '231.34 yd, 6.31 s, 90.45 ft'
    """
    if precision not in ("double", "single"):
        raise BadInput(f"precision is {precision!r:.40}; give double or single")
    m, *shots = accept(
        ball_speed=ball_speed,
        launch_angle=launch_angle,
        spin_rate=spin_rate,
        launch_direction=launch_direction,
        spin_axis=spin_axis,
        density=density,
        viscosity=viscosity,
        wind_along=wind_along,
        wind_across=wind_across,
        landing_height=landing_height,
        gravity=gravity,
    )
    law = _law(model, drag, lift, drag_factor, lift_factor)
    if m is math:
        ended, landing = _fly_one(law, wind_profile, *shots)
        if ended != equations.LANDED:
            raise BadInput(_never(ended))
        return landing
    return _fly_many(law, wind_profile, shots, precision)


def _fly_many(law: Law, profile: WindProfile, shots: Sequence[Any], precision: str) -> Flight:
    import numpy as np

    shape = shots[0].shape
    count = shots[0].size
    # A view of one number repeated stays one number; only what was mixed by broadcasting is laid out anew.
    flat = [
        np.broadcast_to(each.flat[0], count) if count and not any(each.strides) else each.reshape(count)
        for each in shots
    ]
    figures = np.empty((len(Flight._fields) - 1, count), np.float32 if precision == "single" else np.float64)
    ends = np.empty(count, dtype=np.int8)
    if count <= FEW:
        for number, one in enumerate(zip(*(each.tolist() for each in flat), strict=True)):
            ends[number], (*figures[:, number], _) = _fly_one(law, profile, *one)
    else:
        from asplayed.mechanics.flight_many import fly_blocks

        for start, stop, some, ended in fly_blocks(law, profile, flat, precision=precision):
            figures[:, start:stop] = some
            ends[start:stop] = ended
    for ended in (equations.STILL_UP, equations.NEVER_THERE):
        refuse_where(np, ends == ended, _never(ended))
    reynolds = flat[5] * flat[0] * (2.0 * equations.BALL_RADIUS) / flat[6]
    slow = outside_model(reynolds, flat[2])
    return Flight._make(row.reshape(shape) for row in (*figures, slow))


def _never(ended: int) -> str:
    if ended == equations.NEVER_THERE:
        return "the shot never comes down through landing_height: it does not rise that high; lower landing_height"
    return f"the shot is still up after {equations.LONGEST:g} s; check spin_rate, launch_angle, gravity and the wind"


def _fly_one(law: Law, profile: WindProfile, *shot: float) -> tuple[int, Flight]:
    *kick, wind_along, wind_across, landing_height, gravity = shot
    velocity, spin, axis, air = equations.launch(kick, wind_along, wind_across, gravity)
    tolerance = equations.FINE if equations.smooth(law, profile) else FINEST
    ended, apex, last = equations.land(velocity, spin, axis, air, law, profile, landing_height, tolerance)
    return ended, Flight._make((*equations.reported(apex, last, *velocity[:2]), outside_model(air[1] * shot[0], spin)))


def _law(model: Model, drag: float | None, lift: float | None, drag_factor: float, lift_factor: float) -> Law:
    _, drag_factor, lift_factor = accept(drag_factor=drag_factor, lift_factor=lift_factor)
    return scaled(law_of(model, drag, lift), drag_factor, lift_factor)


class Trajectory(NamedTuple):
    """Points of a shot's path: times (s), and places x to the target, side + right, and height (m), with the spin."""

    time: tuple[float, ...]
    along: tuple[float, ...]
    side: tuple[float, ...]
    height: tuple[float, ...]
    speed: tuple[float, ...]
    spin: tuple[float, ...]


def trajectory(
    ball_speed: float,
    launch_angle: float,
    spin_rate: float,
    *,
    launch_direction: float = 0.0,
    spin_axis: float = 0.0,
    density: float,
    viscosity: float = 1.82e-5,
    wind_along: float = 0.0,
    wind_across: float = 0.0,
    landing_height: float = 0.0,
    model: Model = "house",
    gravity: float = 9.80665,
    drag: float | None = None,
    lift: float | None = None,
    drag_factor: float = 1.0,
    lift_factor: float = 1.0,
    wind_profile: WindProfile = STEADY,
    points: int = 101,
    duration: float | None = None,
) -> Trajectory:
    """The path of one shot at `points` even times from launch to landing, or to `duration` (s) whatever the ground.

    The other arguments, signs and refusals are those of `fly`; `points` is 2 to 10,000.

    >>> path = trajectory(67.056, 0.2094, 272.27, density=1.225, points=5)
    >>> [round(abs(height), 1) for height in path.height]
    [0.0, 19.6, 27.5, 20.8, 0.0]
    """
    m, *shot = accept(
        ball_speed=ball_speed,
        launch_angle=launch_angle,
        spin_rate=spin_rate,
        launch_direction=launch_direction,
        spin_axis=spin_axis,
        density=density,
        viscosity=viscosity,
        wind_along=wind_along,
        wind_across=wind_across,
        landing_height=landing_height,
        gravity=gravity,
    )
    if m is not math:
        raise BadInput("trajectory draws one shot; give plain numbers, and call it once per shot")
    if isinstance(points, bool) or not isinstance(points, int) or not 2 <= points <= 10_000:
        raise BadInput(f"points is {points!r}; give a whole number from 2 to 10000")
    law = _law(model, drag, lift, drag_factor, lift_factor)
    if duration is None:
        ended, landing = _fly_one(law, wind_profile, *shot)
        if ended != equations.LANDED:
            raise BadInput(_never(ended))
        duration = landing.flight_time
    elif not 0.0 < duration <= equations.LONGEST:
        raise BadInput(f"duration is {duration!r}; give a time from just above 0 to {equations.LONGEST:g} s")
    (vx, vy, vz), spin, axis, air = equations.launch(shot[:7], shot[7], shot[8], shot[10])
    # Steps of a fiftieth of a second keep the error of a path below a millimetre, near the ground in a gust too.
    between = max(1, math.ceil(duration / (points - 1) / 0.02))
    h = duration / (points - 1) / between
    state: Any = (0.0, 0.0, 0.0, vx, vy, vz, spin)
    rate: Any = equations.rates(0.0, vx, vy, vz, spin, axis, air, law, wind_profile)
    states = [state]
    for _ in range(points - 1):
        for _ in range(between):
            state, rate, _ = equations.advance(h, state, rate, axis, air, law, wind_profile)
        states.append(state)
    x, y, z, *velocity, left = zip(*states, strict=True)
    return Trajectory(
        tuple(duration * number / (points - 1) for number in range(points)),
        x,
        tuple(0.0 - each for each in y),
        z,
        tuple(math.hypot(*each) for each in zip(*velocity, strict=True)),
        left,
    )
