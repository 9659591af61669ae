"""The equations of a ball in the air, written once on plain floats.

Called as they stand they fly one shot without a compiler; `flight_compiled` compiles these same functions for many.

Axes: x to the target, y to the left, z up (right-handed). The law, with v the velocity relative to the air:

    dV/dt = −k C_D |v| v + k C_L |v|² (n × v)/|n × v| − g z,     k = ρ A / 2m
    dω/dt = −R ω |v| / r                                           R = 2.0e-5

n, the unit spin axis, keeps its direction; C_D and C_L follow the spin ratio S = r ω/|v| and, in a table, the Reynolds
number. Source of the decay: Smits and Smith 1994, "A new aerodynamic model of a golf ball in flight" (from memory).

Steps are those of Dormand and Prince (1980), order 5 with an error of order 4. Between the ends of a step the path is
the polynomial of fifth degree that meets place, velocity and acceleration at both, as good as the step itself; apex and
landing are its exact roots, not interpolations of a drawn curve.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple, TypeAlias

BALL_MASS = 0.04593  # kg, the most a ball may weigh
BALL_RADIUS = 0.04267 / 2.0  # m, of the least diameter a ball may have
HALF_AREA_OVER_MASS = math.pi * BALL_RADIUS**2 / (2.0 * BALL_MASS)
SPIN_DECAY = 2.0e-5

LONGEST = 60.0  # s; no shot on a course stays up half as long
STEPS = 20_000
CALM = 4.0  # s²; see `rates`
LANDED, STILL_UP, NEVER_THERE, FLYING, TOO_LONG, GRAZING = 0, 1, 2, 3, 4, 5
FINE = 1e-7  # m; at this tolerance a grazing shot is told apart from one that just misses
GRAZE = 0.02  # m

LOWEST_WIND = 0.1  # m; below this height the wind is that of this height

# A table is a run of floats: a tuple for one shot, an array for many.
Run: TypeAlias = Any


class PowerLaw(NamedTuple):
    """C_D = drag_base + drag_slope S and C_L = lift_scale S^lift_power, with S the spin ratio."""

    drag_base: float
    drag_slope: float
    lift_scale: float
    lift_power: float


class Table(NamedTuple):
    """C_D and C_L at Reynolds numbers (columns) and spin ratios (rows), or, `by_spin`, at their product (rows)."""

    by_spin: bool
    drag_factor: float
    lift_factor: float
    columns: Run
    rows: Run
    drags: Run
    lifts: Run


class SteadyWind(NamedTuple):
    """A wind that is the same at every height."""


class WindPowerLaw(NamedTuple):
    """A wind that grows as a power of height and is the wind given at the reference height (m)."""

    exponent: float
    reference_height: float


class WindTable(NamedTuple):
    """Factors on the wind given at heights (m) above the launch."""

    heights: Run
    factors: Run


Law: TypeAlias = PowerLaw | Table
WindProfile: TypeAlias = SteadyWind | WindPowerLaw | WindTable


def smooth(law: Law, profile: WindProfile) -> bool:
    """Whether law and wind are without kinks, which hide from the estimate of a step's error."""
    return isinstance(law, PowerLaw) and isinstance(profile, SteadyWind)


def between(runs: Any, at: float) -> tuple[int, float]:
    """The cell of a rising run that holds `at`, and how far into it (0 to 1; held at the ends)."""
    last = len(runs) - 1
    if last == 0 or at <= runs[0]:
        return 0, 0.0
    if at >= runs[last]:
        return last - 1, 1.0
    low = 0
    high = last
    while high - low > 1:
        middle = (low + high) // 2
        if runs[middle] <= at:
            low = middle
        else:
            high = middle
    return low, (at - runs[low]) / (runs[low + 1] - runs[low])


def power(base: float, exponent: float) -> float:
    """`base`, a step too long may take it below 0, to the `exponent`; the compiled twin is good to one part in 10⁸."""
    if not base > 1e-200:
        return 0.0 if exponent > 0.0 else 1.0
    return float(base**exponent)


def power_law(law: Any, _reynolds: float, spin_ratio: float) -> tuple[float, float]:
    """Drag and lift coefficient of a power law: C_D = base + slope S, C_L = scale S^power."""
    drag_base, drag_slope, lift_scale, lift_power = law
    return drag_base + drag_slope * spin_ratio, lift_scale * power(spin_ratio, lift_power)


def table(law: Any, reynolds: float, spin_ratio: float) -> tuple[float, float]:
    """Drag and lift coefficient of a table: straight lines between its nodes, its edge outside."""
    by_spin, drag_factor, lift_factor, columns, rows, drags, lifts = law
    column, across = between(columns, reynolds)
    row, down = between(rows, spin_ratio * reynolds if by_spin else spin_ratio)
    width = len(columns)
    corner = row * width + column
    right = corner + (1 if width > 1 else 0)
    below = corner + (width if len(rows) > 1 else 0)
    opposite = below + right - corner
    one = (1.0 - across) * (1.0 - down)
    two = across * (1.0 - down)
    three = (1.0 - across) * down
    four = across * down
    return (
        drag_factor * (one * drags[corner] + two * drags[right] + three * drags[below] + four * drags[opposite]),
        lift_factor * (one * lifts[corner] + two * lifts[right] + three * lifts[below] + four * lifts[opposite]),
    )


def coefficients(law: Any, reynolds: float, spin_ratio: float) -> tuple[float, float]:
    """Drag and lift coefficient of either kind of law."""
    return (power_law if isinstance(law, PowerLaw) else table)(law, reynolds, spin_ratio)


def steady(_profile: Any, _height: float) -> float:
    """The factor on a wind that is the same at every height."""
    return 1.0


def growing(profile: Any, height: float) -> float:
    """The factor on a wind that grows as a power of height."""
    exponent, reference_height = profile
    return power(max(height, LOWEST_WIND) / reference_height, exponent)


def tabled(profile: Any, height: float) -> float:
    """The factor on a wind given by a table: straight lines between its heights, its ends outside."""
    heights, factors = profile
    cell, along = between(heights, height)
    upper = min(cell + 1, len(heights) - 1)
    return float(factors[cell] + along * (factors[upper] - factors[cell]))


def wind_factor(profile: Any, height: float) -> float:
    """The wind at a height above the launch as a multiple of the wind given."""
    if isinstance(profile, SteadyWind):
        return 1.0
    return (growing if isinstance(profile, WindPowerLaw) else tabled)(profile, height)


def rates(
    z: float, vx: float, vy: float, vz: float, spin: float, axis: Any, air: Any, law: Any, profile: Any
) -> tuple[float, float, float, float, float]:
    """Acceleration (m/s²), rate of spin (rad/s²), and the square of the time in which the lift may turn about (s²).

    That time, |n × v| over the acceleration, is short where the flight nearly follows the spin axis or the ball nearly
    hangs in the air. There a small error grows, and an estimate made of smooth terms does not see it.
    `air`: k, Reynolds number per m/s, wind along x and y, gravity.
    """
    nx, ny, nz = axis
    k, reynolds_per_speed, wind_x, wind_y, gravity = air
    factor = wind_factor(profile, z)
    rx = vx - factor * wind_x
    ry = vy - factor * wind_y
    # The floors are far below anything met in flight; they stand in for branches, which lanes could not share.
    square = rx * rx + ry * ry + vz * vz + 1e-30
    cx = ny * vz - nz * ry
    cy = nz * rx - nx * vz
    cz = nx * ry - ny * rx
    crossed = cx * cx + cy * cy + cz * cz + 1e-30
    speed = math.sqrt(square)
    drag, lift = coefficients(law, reynolds_per_speed * speed, BALL_RADIUS * spin / speed)
    slowing = -k * drag * speed
    turning = k * lift * square / math.sqrt(crossed)
    ax = slowing * rx + turning * cx
    ay = slowing * ry + turning * cy
    az = slowing * vz + turning * cz - gravity
    return ax, ay, az, -SPIN_DECAY / BALL_RADIUS * spin * speed, crossed / (ax * ax + ay * ay + az * az + 1e-30)


def advance(h: float, state: Any, rate: Any, axis: Any, air: Any, law: Any, profile: Any) -> tuple[Any, Any, float]:
    """One step of length `h`: the new state, its rates, and the square of the estimated error (m, with 1 s of speed).

    The error counts for more where the lift may turn about within two seconds, by the square of the ratio.
    State: x, y, z, vx, vy, vz, spin. Rates: those of `rates`. Height is carried through the stages for
    the wind's sake; the other places are sums of the stage velocities.
    """
    x, y, z, u1, v1, w1, s1 = state
    a1, b1, c1, d1, e1 = rate
    p = h * (1.0 / 5.0)
    u2, v2, w2, s2 = u1 + p * a1, v1 + p * b1, w1 + p * c1, s1 + p * d1
    a2, b2, c2, d2, _ = rates(z + p * w1, u2, v2, w2, s2, axis, air, law, profile)
    p, q = h * (3.0 / 40.0), h * (9.0 / 40.0)
    u3, v3, w3, s3 = u1 + p * a1 + q * a2, v1 + p * b1 + q * b2, w1 + p * c1 + q * c2, s1 + p * d1 + q * d2
    a3, b3, c3, d3, _ = rates(z + p * w1 + q * w2, u3, v3, w3, s3, axis, air, law, profile)
    p, q, r = h * (44.0 / 45.0), h * (-56.0 / 15.0), h * (32.0 / 9.0)
    u4 = u1 + p * a1 + q * a2 + r * a3
    v4 = v1 + p * b1 + q * b2 + r * b3
    w4 = w1 + p * c1 + q * c2 + r * c3
    s4 = s1 + p * d1 + q * d2 + r * d3
    a4, b4, c4, d4, _ = rates(z + p * w1 + q * w2 + r * w3, u4, v4, w4, s4, axis, air, law, profile)
    p, q, r, o = h * (19372.0 / 6561.0), h * (-25360.0 / 2187.0), h * (64448.0 / 6561.0), h * (-212.0 / 729.0)
    u5 = u1 + p * a1 + q * a2 + r * a3 + o * a4
    v5 = v1 + p * b1 + q * b2 + r * b3 + o * b4
    w5 = w1 + p * c1 + q * c2 + r * c3 + o * c4
    s5 = s1 + p * d1 + q * d2 + r * d3 + o * d4
    a5, b5, c5, d5, _ = rates(z + p * w1 + q * w2 + r * w3 + o * w4, u5, v5, w5, s5, axis, air, law, profile)
    p, q, r = h * (9017.0 / 3168.0), h * (-355.0 / 33.0), h * (46732.0 / 5247.0)
    o, n = h * (49.0 / 176.0), h * (-5103.0 / 18656.0)
    u6 = u1 + p * a1 + q * a2 + r * a3 + o * a4 + n * a5
    v6 = v1 + p * b1 + q * b2 + r * b3 + o * b4 + n * b5
    w6 = w1 + p * c1 + q * c2 + r * c3 + o * c4 + n * c5
    s6 = s1 + p * d1 + q * d2 + r * d3 + o * d4 + n * d5
    a6, b6, c6, d6, _ = rates(z + p * w1 + q * w2 + r * w3 + o * w4 + n * w5, u6, v6, w6, s6, axis, air, law, profile)
    p, q, r = h * (35.0 / 384.0), h * (500.0 / 1113.0), h * (125.0 / 192.0)
    o, n = h * (-2187.0 / 6784.0), h * (11.0 / 84.0)
    u7 = u1 + p * a1 + q * a3 + r * a4 + o * a5 + n * a6
    v7 = v1 + p * b1 + q * b3 + r * b4 + o * b5 + n * b6
    w7 = w1 + p * c1 + q * c3 + r * c4 + o * c5 + n * c6
    s7 = s1 + p * d1 + q * d3 + r * d4 + o * d5 + n * d6
    x7 = x + p * u1 + q * u3 + r * u4 + o * u5 + n * u6
    y7 = y + p * v1 + q * v3 + r * v4 + o * v5 + n * v6
    z7 = z + p * w1 + q * w3 + r * w4 + o * w5 + n * w6
    a7, b7, c7, d7, e7 = rates(z7, u7, v7, w7, s7, axis, air, law, profile)
    p, q, r = h * (71.0 / 57600.0), h * (-71.0 / 16695.0), h * (71.0 / 1920.0)
    o, n, l7 = h * (-17253.0 / 339200.0), h * (22.0 / 525.0), h * (-1.0 / 40.0)
    fault_u = p * a1 + q * a3 + r * a4 + o * a5 + n * a6 + l7 * a7
    fault_v = p * b1 + q * b3 + r * b4 + o * b5 + n * b6 + l7 * b7
    fault_w = p * c1 + q * c3 + r * c4 + o * c5 + n * c6 + l7 * c7
    fault_x = p * u1 + q * u3 + r * u4 + o * u5 + n * u6 + l7 * u7
    fault_y = p * v1 + q * v3 + r * v4 + o * v5 + n * v6 + l7 * v7
    fault_z = p * w1 + q * w3 + r * w4 + o * w5 + n * w6 + l7 * w7
    fault_s = BALL_RADIUS * (p * d1 + q * d3 + r * d4 + o * d5 + n * d6 + l7 * d7)
    fault = fault_u * fault_u + fault_v * fault_v + fault_w * fault_w
    fault += fault_x * fault_x + fault_y * fault_y + fault_z * fault_z + fault_s * fault_s
    calm = min(e1, e7)
    calm = max(min(calm, CALM) / CALM, 1e-3)
    return (x7, y7, z7, u7, v7, w7, s7), (a7, b7, c7, d7, e7), fault / (calm * calm)


def quintic(h: float, p0: float, v0: float, a0: float, p1: float, v1: float, a1: float) -> Any:
    """Coefficients, in powers of the share of the step, of the path that meets place, velocity and acceleration."""
    one = h * v0
    two = 0.5 * h * h * a0
    gap = p1 - p0 - one - two
    slope = h * v1 - one - 2.0 * two
    bend = h * h * a1 - 2.0 * two
    return (
        p0,
        one,
        two,
        10.0 * gap - 4.0 * slope + 0.5 * bend,
        -15.0 * gap + 7.0 * slope - bend,
        6.0 * gap - 3.0 * slope + 0.5 * bend,
    )


def value(c: Any, s: float) -> Any:
    """The polynomial `c` at the share `s` of the step."""
    return c[0] + s * (c[1] + s * (c[2] + s * (c[3] + s * (c[4] + s * c[5]))))


def slope(c: Any, s: float) -> Any:
    """The first derivative of the polynomial `c` at `s`."""
    return c[1] + s * (2.0 * c[2] + s * (3.0 * c[3] + s * (4.0 * c[4] + s * 5.0 * c[5])))


def root(c: Any, level: float, low: float, high: float) -> float:
    """Where the polynomial `c` meets `level` between `low` and `high`: Newton's steps, bracketed."""
    rising = value(c, high) > level
    s = 0.5 * (low + high)
    for _ in range(60):
        miss = value(c, s) - level
        if (miss > 0.0) == rising:
            high = s
        else:
            low = s
        steepness = slope(c, s)
        guess = s - miss / steepness if steepness != 0.0 else low
        if not low <= guess <= high:
            guess = 0.5 * (low + high)
        if abs(guess - s) < 1e-14:
            return guess
        s = guess
    return s


def stretch(fault: float, tolerance: float) -> Any:
    """How much longer the next step may be: the fault is of order 5 in h, and squared; a tenth root, with a margin."""
    return 0.9 * power(fault / (tolerance * tolerance) + 1e-9, -0.1)


def follow(
    h: float,
    time: float,
    apex: float,
    state: Any,
    rate: Any,
    new: Any,
    new_rate: Any,
    fault: float,
    longer: float,
    landing_height: float,
    tolerance: float,
) -> tuple[int, float, float, Any]:
    """What a step came to: how it ended, the length of the next one, the apex so far, and the landing if there is one.

    A landing is x, y, time, vx, vy, vz and spin. A step whose fault passes the tolerance is `TOO_LONG`.
    A shot that turns within `GRAZE` of its target, or comes in nearly level, is `GRAZING` unless the tolerance is fine:
    there a small error of height is a large one of place.
    """
    x, y, z, vx, vy, vz, spin = state
    new_x, new_y, new_z, new_vx, new_vy, new_vz, new_spin = new
    ax, ay, az, slowing, _ = rate
    new_ax, new_ay, new_az, new_slowing, _ = new_rate
    if not fault <= tolerance * tolerance:
        return TOO_LONG, h * (max(longer, 0.1) if fault < math.inf else 0.1), apex, new
    above, new_above = z > landing_height, new_z > landing_height
    turns = (vz > 0.0) != (new_vz > 0.0)
    down = above and not new_above
    if turns or down:
        path = quintic(h, z, vz, az, new_z, new_vz, new_az)
        start, end = 0.0, 1.0
        coarse = tolerance > FINE
        if turns:
            climb = (path[1], 2.0 * path[2], 3.0 * path[3], 4.0 * path[4], 5.0 * path[5], 0.0)
            turn = root(climb, 0.0, 0.0, 1.0)
            height = value(path, turn)
            if coarse and abs(height - landing_height) < GRAZE:
                return GRAZING, h, apex, new
            if vz > 0.0:
                apex = max(apex, height)
                if height > landing_height and not new_above:
                    down = True
                    start = turn
            elif above and height <= landing_height:
                down = True
                end = turn
        if down:
            at = root(path, landing_height, start, end)
            across = quintic(h, x, vx, ax, new_x, new_vx, new_ax)
            aside = quintic(h, y, vy, ay, new_y, new_vy, new_ay)
            sinking = slope(path, at) / h
            if coarse and sinking * sinking < 0.01 * (vx * vx + vy * vy):
                return GRAZING, h, apex, new
            # The spin's own curve is so flat that the cubic through values and rates is exact enough.
            gap = new_spin - spin - h * slowing
            tail = h * (new_slowing - slowing)
            return (
                LANDED,
                h,
                apex,
                (
                    value(across, at),
                    value(aside, at),
                    time + at * h,
                    slope(across, at) / h,
                    slope(aside, at) / h,
                    sinking,
                    spin + at * (h * slowing + at * (3.0 * gap - tail + at * (tail - 2.0 * gap))),
                ),
            )
    longer = h * min(longer, 5.0)
    if new_z < min(0.0, landing_height) - 5.0 and new_vz < 0.0:
        return NEVER_THERE, longer, apex, new
    return (STILL_UP if time + h > LONGEST else FLYING), longer, apex, new


def first_step(tolerance: float) -> Any:
    """The length of the first step tried, s."""
    return 1.2 * tolerance**0.2


def grounded(velocity: Any, rate: Any, landing_height: float) -> Any:
    """Whether a shot is down as it starts: level with its landing, and sinking."""
    return landing_height == 0.0 and (velocity[2] < 0.0 or (velocity[2] == 0.0 and rate[2] <= 0.0))


def land(
    velocity: Any, spin: float, axis: Any, air: Any, law: Any, profile: Any, landing_height: float, tolerance: float
) -> tuple[int, float, Any]:
    """Fly one shot from the origin to where it first comes down through `landing_height`.

    Answers how it ended, the apex, and x, y, time, vx, vy, vz and spin. `tolerance` is the error allowed in a step, m.
    """
    vx, vy, vz = velocity
    state = (0.0, 0.0, 0.0, vx, vy, vz, spin)
    rate = rates(0.0, vx, vy, vz, spin, axis, air, law, profile)
    apex = 0.0
    time = 0.0
    if grounded(velocity, rate, landing_height):
        return LANDED, apex, (0.0, 0.0, time, vx, vy, vz, spin)
    h = first_step(tolerance)
    for _ in range(STEPS):
        new, new_rate, fault = advance(h, state, rate, axis, air, law, profile)
        ended, longer, apex, last = follow(
            h, time, apex, state, rate, new, new_rate, fault, stretch(fault, tolerance), landing_height, tolerance
        )
        if ended == FLYING:
            state = new
            rate = new_rate
            time += h
        elif ended != TOO_LONG:
            return ended, apex, last
        h = longer
    return STILL_UP, apex, state


def reported(apex: float, last: Any, started_x: float, started_y: float) -> Any:
    """Carry, side (+ right), apex, flight time, descent angle, landing speed and landing spin.

    The descent passes a right angle where the ball moves back against the level velocity it started with.
    """
    x, y, time, vx, vy, vz, spin = last
    over_ground = math.sqrt(vx * vx + vy * vy)
    onward = -over_ground if vx * started_x + vy * started_y < 0.0 else over_ground
    return x, 0.0 - y, apex, time, math.atan2(-vz, onward), math.sqrt(over_ground * over_ground + vz * vz), spin


def launch(kick: Any, wind_along: float, wind_across: float, gravity: float) -> tuple[Any, float, Any, Any]:
    """Velocity, spin, spin axis and air in the axes of the equations (y to the left).

    `kick`: ball speed, launch angle, spin rate, launch direction, spin axis, density, viscosity.
    """
    ball_speed, launch_angle, spin_rate, launch_direction, spin_axis, density, viscosity = kick
    level, up = math.cos(launch_angle), math.sin(launch_angle)
    ahead, right = math.cos(launch_direction), math.sin(launch_direction)
    upright, tilted = math.cos(spin_axis), math.sin(spin_axis)
    # The horizontal back-spin axis h = (-right, -ahead, 0); w = h × v is up; the axis is cos(tilt) h - sin(tilt) w.
    axis = (
        -upright * right + tilted * up * ahead,
        -upright * ahead - tilted * up * right,
        -tilted * level,
    )
    velocity = (ball_speed * level * ahead, -ball_speed * level * right, ball_speed * up)
    air = (
        density * HALF_AREA_OVER_MASS,
        density * 2.0 * BALL_RADIUS / viscosity,
        wind_along,
        -wind_across,
        gravity,
    )
    return velocity, spin_rate, axis, air
