"""The quick way for very many ordinary shots: the same law with the path through the air as its clock.

With the length s of that path as the variable, p = 1/speed, u the direction of flight (u1 along the spin axis) and
l = k C_L/√(1 − u1²), the law of `flight_equations` for a power law in a steady wind becomes

    du/ds = l (0, −u3, u2) − g p² (z − (z·u) u)        dp/ds = p G        G = k (a + b r ω p) + g p² (z·u)
    dλ/ds = α λ (G − R/r)                              ω(s) = ω0 exp(−R s/r)        λ = k c S^α

without a root, a power or a division in it. Every shot takes the same number of steps of the classical Runge–Kutta
method, along a path whose length is guessed by a fit to a few hundred of the same shots flown with care; a Taylor step
at the end meets the target. Nothing is taken on trust: each shot is flown twice, coarsely and finely, and a shot whose
two landings differ too much, that rises again, grazes its target, hangs in the air, or leaves the range of the series
for 1/√(1 − u1²), is handed back to be flown with adaptive steps.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np

from asplayed.mechanics import flight_equations as equations
from asplayed.mechanics.flight_compiled import fitted, power, twin
from asplayed.mechanics.flight_equations import BALL_RADIUS, GRAZING, HALF_AREA_OVER_MASS, LANDED, SPIN_DECAY

LANES = 64
FEATURES = 36
COARSE_STEPS, FINE_STEPS = 6, 14
# The finer landing is off by about 1/29 of the difference between the two; so much of that is let pass, m.
ALLOWED = 0.01 * 0.9144 * ((FINE_STEPS / COARSE_STEPS) ** 4 - 1.0)
# Half of what gravity turns a flight within a step of the coarse flight, which is the one that may go astray.
COARSE_TURN = 0.5 * FINE_STEPS / COARSE_STEPS

number = np.float64

_SINES = fitted(
    lambda q: np.where(q == 0.0, 1.0, np.sin(np.sqrt(q)) / np.sqrt(np.where(q == 0.0, 1.0, q))), 0.0, np.pi**2, 8
)
_COSINES = fitted(lambda q: np.cos(np.sqrt(q)), 0.0, np.pi**2, 8)
_ARCS = fitted(
    lambda q: np.where(q == 0.0, 1.0, np.arctan(np.sqrt(q)) / np.sqrt(np.where(q == 0.0, 1.0, q))), 0.0, 1.0, 8
)


def series(c: Any, q: Any) -> Any:
    """A polynomial of eighth degree."""
    total = number(c[8])
    total = total * q + number(c[7])
    total = total * q + number(c[6])
    total = total * q + number(c[5])
    total = total * q + number(c[4])
    total = total * q + number(c[3])
    total = total * q + number(c[2])
    total = total * q + number(c[1])
    return total * q + number(c[0])


def turned(u1: Any, u2: Any, u3: Any, p: Any, lift: Any, g1: Any, g2: Any, g3: Any, g: Any, k0: Any, k1: Any) -> Any:
    """Rates of direction, p and λ with the path (λ's without α λ), and the climb z·u."""
    up = g1 * u1 + g2 * u2 + g3 * u3
    fall = g * p * p
    grows = k0 + k1 * p + fall * up
    t = u1 * u1
    turn = lift * (number(1.0) + t * (number(0.5) + t * (number(0.375) + t * number(0.3125))))
    return (
        fall * (up * u1 - g1),
        fall * (up * u2 - g2) - turn * u3,
        fall * (up * u3 - g3) + turn * u2,
        p * grows,
        grows,
        up,
    )


def features(speed: Any, climb: Any, ratio: Any, k: Any, height: Any, tilt: Any, along: Any) -> Any:
    """What the length of a path is guessed from: all products of two of these, and a few of three."""
    one = number(1.0)
    return (
        one, speed, climb, ratio, k, height, tilt, along,
        speed * speed, speed * climb, speed * ratio, speed * k, speed * height, speed * tilt, speed * along,
        climb * climb, climb * ratio, climb * k, climb * height, climb * tilt, climb * along,
        ratio * ratio, ratio * k, ratio * height, ratio * tilt, ratio * along,
        k * k, k * along, height * height, tilt * tilt, along * along,
        speed * speed * climb, speed * climb * climb, climb * climb * climb, speed * speed * ratio,
        speed * climb * ratio,
    )  # fmt: skip


# Rows of the lanes' table. First what a march changes: direction, p, λ, spin, place along the axes, time.
U1, U2, U3, P, LIFT, SPIN, X1, X2, X3, TIME, MOVING = 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10
# Then the same at the start (MOVING rows), the frame (three axes, three rows each), and one row each for the rest.
START, SPINWARD, FORWARD, SIDEWARD = 10, 20, 23, 26
DRAG0, DRAG1, GRAVITY, LENGTH, WIND_X, WIND_Y, HEIGHT, FAULT, COARSE_X, COARSE_Y = (
    29,
    30,
    31,
    32,
    33,
    34,
    35,
    36,
    37,
    38,
)
# The climb, its rate and the height at the last step's start, the same on both sides of the top, and the step's length.
LAST, TOP, STEP, RAW, ROWS = 39, 42, 48, 49, 60


def begin(shots: Any, first: int, law: Any, guess: Any, t: Any) -> None:
    """Set out the lanes: the frame with one axis along the spin, the air's frame of motion, the guessed length."""
    drag_base, drag_slope, lift_scale, lift_power = law
    one = number(1.0)
    # Copied first: only where nothing else can lie under the same address does the arithmetic fill the vectors.
    for row in range(11):
        t[RAW + row, :] = shots[row, first : first + LANES]
    for j in range(LANES):
        speed, angle, spin = t[RAW, j], t[RAW + 1, j], t[RAW + 2, j]
        aside, tilt = t[RAW + 3, j], t[RAW + 4, j]
        up, level = angle * series(_SINES, angle * angle), series(_COSINES, angle * angle)
        right, ahead = aside * series(_SINES, aside * aside), series(_COSINES, aside * aside)
        tilted, upright = tilt * series(_SINES, tilt * tilt), series(_COSINES, tilt * tilt)
        nx = tilted * up * ahead - upright * right
        ny = -upright * ahead - tilted * up * right
        nz = -tilted * level
        wind_x, wind_y = t[RAW + 7, j], -t[RAW + 8, j]
        vx, vy, vz = speed * level * ahead - wind_x, -speed * level * right - wind_y, speed * up
        p = one / math.sqrt(vx * vx + vy * vy + vz * vz)
        vx, vy, vz = vx * p, vy * p, vz * p
        u1 = nx * vx + ny * vy + nz * vz
        ex, ey, ez = vx - u1 * nx, vy - u1 * ny, vz - u1 * nz
        across = math.sqrt(ex * ex + ey * ey + ez * ez)
        ex, ey, ez = ex / across, ey / across, ez / across
        k = t[RAW + 5, j] * number(HALF_AREA_OVER_MASS)
        ratio = number(power(number(BALL_RADIUS) * spin * p, lift_power))
        f = features(number(0.02) / p, vz, ratio, k * number(50.0), number(0.05) * t[RAW + 9, j], nz * nz, wind_x * p)
        length = number(0.0)
        length += number(guess[0]) * f[0] + number(guess[1]) * f[1] + number(guess[2]) * f[2]
        length += number(guess[3]) * f[3] + number(guess[4]) * f[4] + number(guess[5]) * f[5]
        length += number(guess[6]) * f[6] + number(guess[7]) * f[7] + number(guess[8]) * f[8]
        length += number(guess[9]) * f[9] + number(guess[10]) * f[10] + number(guess[11]) * f[11]
        length += number(guess[12]) * f[12] + number(guess[13]) * f[13] + number(guess[14]) * f[14]
        length += number(guess[15]) * f[15] + number(guess[16]) * f[16] + number(guess[17]) * f[17]
        length += number(guess[18]) * f[18] + number(guess[19]) * f[19] + number(guess[20]) * f[20]
        length += number(guess[21]) * f[21] + number(guess[22]) * f[22] + number(guess[23]) * f[23]
        length += number(guess[24]) * f[24] + number(guess[25]) * f[25] + number(guess[26]) * f[26]
        length += number(guess[27]) * f[27] + number(guess[28]) * f[28] + number(guess[29]) * f[29]
        length += number(guess[30]) * f[30] + number(guess[31]) * f[31] + number(guess[32]) * f[32]
        length += number(guess[33]) * f[33] + number(guess[34]) * f[34] + number(guess[35]) * f[35]
        t[START + U1, j], t[START + U2, j], t[START + U3, j] = u1, across, number(0.0)
        t[START + P, j], t[START + LIFT, j], t[START + SPIN, j] = p, k * number(lift_scale) * ratio, spin
        t[START + X1, j], t[START + X2, j], t[START + X3, j], t[START + TIME, j] = u1 * 0, u1 * 0, u1 * 0, u1 * 0
        t[SPINWARD, j], t[SPINWARD + 1, j], t[SPINWARD + 2, j] = nx, ny, nz
        t[FORWARD, j], t[FORWARD + 1, j], t[FORWARD + 2, j] = ex, ey, ez
        t[SIDEWARD, j], t[SIDEWARD + 1, j], t[SIDEWARD + 2, j] = ny * ez - nz * ey, nz * ex - nx * ez, nx * ey - ny * ex
        t[DRAG0, j], t[DRAG1, j] = k * number(drag_base), k * number(drag_slope) * number(BALL_RADIUS)
        t[GRAVITY, j], t[LENGTH, j], t[HEIGHT, j] = t[RAW + 10, j], length, t[RAW + 9, j]
        t[WIND_X, j], t[WIND_Y, j] = wind_x, wind_y
        t[FAULT, j] = number(0.0)


def march(steps: int, alpha: Any, watched: bool, t: Any) -> None:
    """Take the steps of one flight, all lanes together; if watched, mark the top and what a lane is not fit for."""
    half, two, one = number(0.5), number(2.0), number(1.0)
    decay = number(SPIN_DECAY / BALL_RADIUS)
    share = one / number(steps)
    sixth = one / number(6.0)
    for row in range(MOVING):
        t[row, :] = t[START + row, :]
    for j in range(LANES):
        t[STEP, j] = t[LENGTH, j] * share
        t[LAST, j], t[LAST + 1, j], t[LAST + 2, j] = one, number(0.0), number(0.0)
        t[TOP, j], t[TOP + 1, j], t[TOP + 2, j] = number(0.0), number(0.0), number(0.0)
        t[TOP + 3, j], t[TOP + 4, j], t[TOP + 5, j] = number(0.0), number(0.0), number(0.0)
    for _ in range(steps):
        for j in range(LANES):
            d = t[STEP, j]
            g1, g2, g3, g = t[SPINWARD + 2, j], t[FORWARD + 2, j], t[SIDEWARD + 2, j], t[GRAVITY, j]
            k0, k1 = t[DRAG0, j], t[DRAG1, j]
            u1, u2, u3, p, lift, spin = t[U1, j], t[U2, j], t[U3, j], t[P, j], t[LIFT, j], t[SPIN, j]
            # exp(−x) of a small x, to the fourth power of it.
            x = half * d * decay
            less = one - x * (one - half * x * (one - x * number(1.0 / 3.0)))
            a1, a2, a3, ap, ag, up = turned(u1, u2, u3, p, lift, g1, g2, g3, g, k0, k1 * spin)
            al = alpha * lift * (ag - decay)
            if watched:
                # What the top of the flight is found from, and whether the ball rises again.
                rate = g1 * a1 + g2 * a2 + g3 * a3
                height = g1 * t[X1, j] + g2 * t[X2, j] + g3 * t[X3, j]
                before = t[LAST, j]
                over = (before > number(0.0)) & (up <= number(0.0))
                t[TOP, j] = before if over else t[TOP, j]
                t[TOP + 1, j] = t[LAST + 1, j] if over else t[TOP + 1, j]
                t[TOP + 2, j] = t[LAST + 2, j] if over else t[TOP + 2, j]
                t[TOP + 3, j] = up if over else t[TOP + 3, j]
                t[TOP + 4, j] = rate if over else t[TOP + 4, j]
                t[TOP + 5, j] = height if over else t[TOP + 5, j]
                again = (before <= number(0.0)) & (up > number(0.0))
                t[FAULT, j] = max(
                    t[FAULT, j],
                    number(9.0) if again else max(number(1.75) * abs(u1), number(COARSE_TURN) * d * g * p * p),
                )
                t[LAST, j], t[LAST + 1, j], t[LAST + 2, j] = up, rate, height
            h = half * d
            spin *= less
            b1u, b2u, b3u, bpu, blu = u1 + h * a1, u2 + h * a2, u3 + h * a3, p + h * ap, lift + h * al
            b1, b2, b3, bp, bg, _ = turned(b1u, b2u, b3u, bpu, blu, g1, g2, g3, g, k0, k1 * spin)
            bl = alpha * blu * (bg - decay)
            c1u, c2u, c3u, cpu, clu = u1 + h * b1, u2 + h * b2, u3 + h * b3, p + h * bp, lift + h * bl
            c1, c2, c3, cp, cg, _ = turned(c1u, c2u, c3u, cpu, clu, g1, g2, g3, g, k0, k1 * spin)
            cl = alpha * clu * (cg - decay)
            e1u, e2u, e3u, epu, elu = u1 + d * c1, u2 + d * c2, u3 + d * c3, p + d * cp, lift + d * cl
            spin *= less
            e1, e2, e3, ep, eg, _ = turned(e1u, e2u, e3u, epu, elu, g1, g2, g3, g, k0, k1 * spin)
            el = alpha * elu * (eg - decay)
            s = sixth * d
            t[X1, j] += s * (u1 + two * (b1u + c1u) + e1u)
            t[X2, j] += s * (u2 + two * (b2u + c2u) + e2u)
            t[X3, j] += s * (u3 + two * (b3u + c3u) + e3u)
            t[TIME, j] += s * (p + two * (bpu + cpu) + epu)
            t[U1, j] = u1 + s * (a1 + two * (b1 + c1) + e1)
            t[U2, j] = u2 + s * (a2 + two * (b2 + c2) + e2)
            t[U3, j] = u3 + s * (a3 + two * (b3 + c3) + e3)
            t[P, j] = p + s * (ap + two * (bp + cp) + ep)
            t[LIFT, j] = lift + s * (al + two * (bl + cl) + el)
            t[SPIN, j] = spin


def meet(t: Any, j: int) -> Any:
    """From the march's end to the target: x, y, the rest of the path, the rates there and the climb."""
    g1, g2, g3, g = t[SPINWARD + 2, j], t[FORWARD + 2, j], t[SIDEWARD + 2, j], t[GRAVITY, j]
    u1, u2, u3, p = t[U1, j], t[U2, j], t[U3, j], t[P, j]
    half = number(0.5)
    a1, a2, a3, ap, _, up = turned(u1, u2, u3, p, t[LIFT, j], g1, g2, g3, g, t[DRAG0, j], t[DRAG1, j] * t[SPIN, j])
    rate = g1 * a1 + g2 * a2 + g3 * a3
    short = t[HEIGHT, j] - (g1 * t[X1, j] + g2 * t[X2, j] + g3 * t[X3, j])
    rest = short / up
    rest = (short - half * rate * rest * rest) / up
    rest = (short - half * rate * rest * rest) / up
    square = half * rest * rest
    x1, x2, x3 = (
        t[X1, j] + rest * u1 + square * a1,
        t[X2, j] + rest * u2 + square * a2,
        t[X3, j] + rest * u3 + square * a3,
    )
    time = t[TIME, j] + rest * p + square * ap
    x = t[SPINWARD, j] * x1 + t[FORWARD, j] * x2 + t[SIDEWARD, j] * x3 + t[WIND_X, j] * time
    y = t[SPINWARD + 1, j] * x1 + t[FORWARD + 1, j] * x2 + t[SIDEWARD + 1, j] * x3 + t[WIND_Y, j] * time
    return x, y, time, rest, a1, a2, a3, ap, up, short - rest * (up + half * rate * rest)


def finish(figures: Any, ends: Any, first: int, t: Any) -> None:
    """Where the finer flight lands and how, and which shots to hand back."""
    one, half, nought = number(1.0), number(0.5), number(0.0)
    for j in range(LANES):
        x, y, time, rest, a1, a2, a3, ap, up, off = meet(t, j)
        slow = one / (t[P, j] + rest * ap)
        u1, u2, u3 = t[U1, j] + rest * a1, t[U2, j] + rest * a2, t[U3, j] + rest * a3
        vx = slow * (t[SPINWARD, j] * u1 + t[FORWARD, j] * u2 + t[SIDEWARD, j] * u3) + t[WIND_X, j]
        vy = slow * (t[SPINWARD + 1, j] * u1 + t[FORWARD + 1, j] * u2 + t[SIDEWARD + 1, j] * u3) + t[WIND_Y, j]
        down = -slow * (t[SPINWARD + 2, j] * u1 + t[FORWARD + 2, j] * u2 + t[SIDEWARD + 2, j] * u3)
        level = math.sqrt(vx * vx + vy * vy)
        steep = down > level
        part = (level if steep else down) / (down if steep else level)
        arc = part * series(_ARCS, part * part)
        aside = t[RAW + 3, j]
        ahead, left = series(_COSINES, aside * aside), -aside * series(_SINES, aside * aside)
        # The climb is a cubic between the two steps beside the top; its root, then the height gained up to it.
        c0, c1, c2, c3 = t[TOP, j], t[TOP + 1, j] * t[STEP, j], t[TOP + 3, j], t[TOP + 4, j] * t[STEP, j]
        d = t[STEP, j]
        bend, tail = number(3.0) * (c2 - c0) - number(2.0) * c1 - c3, number(2.0) * (c0 - c2) + c1 + c3
        at = c0 / (c0 - c2 + number(1e-9))
        at -= (c0 + at * (c1 + at * (bend + at * tail))) / (c1 + at * (number(2.0) * bend + at * number(3.0) * tail))
        at -= (c0 + at * (c1 + at * (bend + at * tail))) / (c1 + at * (number(2.0) * bend + at * number(3.0) * tail))
        gained = at * (c0 + at * (half * c1 + at * (bend * number(1.0 / 3.0) + at * number(0.25) * tail)))
        apex = t[TOP + 2, j] + d * gained
        t[RAW, j], t[RAW + 1, j], t[RAW + 2, j], t[RAW + 3, j] = x, -y, apex, time
        arc = number(math.pi / 2) - arc if steep else arc
        t[RAW + 4, j] = number(math.pi) - arc if vx * ahead + vy * left < nought else arc
        t[RAW + 5, j] = math.sqrt(level * level + down * down)
        t[RAW + 6, j] = t[SPIN, j] * (one - rest * number(SPIN_DECAY / BALL_RADIUS))
        gap_x, gap_y = x - t[COARSE_X, j], y - t[COARSE_Y, j]
        # Where a step turns the flight far the two landings say less, so they must agree better.
        doubt = max(one, t[FAULT, j] * t[FAULT, j] * number(1.0 / 0.1225))
        sound = (gap_x * gap_x + gap_y * gap_y) * (doubt * doubt) < number(ALLOWED * ALLOWED)
        sound &= t[FAULT, j] < number(0.52)
        sound &= (abs(rest) < number(0.25) * d) & (abs(off) < number(1e-3))
        sound &= (down > number(0.15) * level) & (up < nought)
        sound &= (apex > t[HEIGHT, j] + number(0.05)) & (t[START + U2, j] > number(0.5))
        t[FAULT, j] = nought if sound else one
    for row in range(7):
        figures[row, first : first + LANES] = t[RAW + row, :]
    for j in range(LANES):
        ends[first + j] = LANDED if t[FAULT, j] == nought else GRAZING


def fly_lanes(shots: Any, law: Any, guess: Any, figures: Any, ends: Any) -> None:
    """Fly the columns of `shots` (11 × n, n a multiple of `LANES`); `GRAZING` marks those to be flown with care."""
    t = np.zeros((ROWS, LANES), number)
    alpha = number(law[3])
    for first in range(0, len(ends), LANES):
        begin(shots, first, law, guess, t)
        march(COARSE_STEPS, alpha, False, t)
        for j in range(LANES):
            x, y, _, _, _, _, _, _, _, _ = meet(t, j)
            t[COARSE_X, j] = x
            t[COARSE_Y, j] = y
        march(FINE_STEPS, alpha, True, t)
        finish(figures, ends, first, t)


@cache
def lanes(kind: Any) -> Any:
    """`fly_lanes` compiled for double or single precision."""
    names: dict[str, Any] = {"number": kind, "power": power}
    callees: tuple[Any, ...] = (series, features, turned, begin, march, meet, finish)
    for function in callees:
        names[function.__name__] = twin(function, **names)
    return twin(fly_lanes, named=f"fly_lanes_{kind.__name__}", cached=True, **names)


def fitted_guess(shots: Any, law: equations.PowerLaw, spin_left: Any, most: float = 0.02) -> tuple[float, ...] | None:
    """Weights of the features that guess a path's length, from shots whose spin at the landing is known.

    The length follows exactly from the spin that is left. None where the shots are too unlike for one fit: one in
    twenty is guessed off by more than the share `most`, and the lanes would be wasted.
    """
    level, climb = np.cos(shots[1]) * shots[0], np.sin(shots[1]) * shots[0]
    along, aside = level * np.cos(shots[3]) - shots[7], level * np.sin(shots[3]) - shots[8]
    speed = np.sqrt(along**2 + aside**2 + climb**2)
    ratio = (BALL_RADIUS * shots[2] / speed) ** law.lift_power
    k, tilt = shots[5] * HALF_AREA_OVER_MASS, (np.sin(shots[4]) * np.cos(shots[1])) ** 2
    rows = features(0.02 * speed, climb / speed, ratio, 50.0 * k, 0.05 * shots[9], tilt, shots[7] / speed)
    share = np.stack([np.broadcast_to(row, speed.shape) for row in rows]) * (
        SPIN_DECAY / BALL_RADIUS / np.log(shots[2] / spin_left)
    )
    weights = np.linalg.lstsq(share.T, np.ones_like(speed), rcond=1e-9)[0]
    off = np.quantile(np.abs(share.T @ weights - 1.0), 0.95)
    return tuple(weights.tolist()) if off < most else None
