"""One shot by SciPy's solver and a statement of the law of its own: what flights are held against."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp

MASS, RADIUS = 0.04593, 0.04267 / 2


def house(spin_ratio: float, _reynolds: float) -> tuple[float, float]:
    """The calibrated law, written out again."""
    return 0.2305 + 0.2875 * spin_ratio, 0.4497 * spin_ratio**0.3667


def landing(
    shot: dict[str, float],
    law: Callable[[float, float], tuple[float, float]] = house,
    wind_factor: Callable[[float], float] = lambda _: 1.0,
    *,
    method: str = "DOP853",
    rtol: float = 1e-9,
    atol: float = 1e-9,
    max_step: float = 0.5,
) -> tuple[float, float, float] | None:
    """Carry, side (+ right) and time of a shot, or None where it does not come down. Mirror axes: y to the right."""
    up, right, tilt = shot["launch_angle"], shot["launch_direction"], shot["spin_axis"]
    start = np.array([math.cos(up) * math.cos(right), math.cos(up) * math.sin(right), math.sin(up)])
    level = np.array([math.sin(right), -math.cos(right), 0.0])
    nx, ny, nz = (math.cos(tilt) * level + math.sin(tilt) * np.cross(level, start)).tolist()
    k = shot["density"] * math.pi * RADIUS**2 / (2 * MASS)
    level_height = shot["landing_height"]

    def change(_: float, s: Any) -> list[float]:
        _x, _y, z, vx, vy, vz, spin = s.tolist()
        factor = wind_factor(z)
        rx, ry = vx - factor * shot["wind_along"], vy - factor * shot["wind_across"]
        speed = math.sqrt(rx * rx + ry * ry + vz * vz)
        drag, lift = law(RADIUS * spin / speed, shot["density"] * speed * 2 * RADIUS / shot["viscosity"])
        cx, cy, cz = ny * vz - nz * ry, nz * rx - nx * vz, nx * ry - ny * rx
        across = math.sqrt(cx * cx + cy * cy + cz * cz)
        d, up_force = -k * drag * speed, k * lift * speed * speed / across
        return [
            vx,
            vy,
            vz,
            d * rx + up_force * cx,
            d * ry + up_force * cy,
            d * vz + up_force * cz - 9.80665,
            -2.0e-5 * spin * speed / RADIUS,
        ]

    def down(_: float, s: Any) -> float:
        return float(s[2]) - level_height

    down.terminal = True  # type: ignore[attr-defined]
    down.direction = -1  # type: ignore[attr-defined]

    velocity = shot["ball_speed"] * start
    # Just above the ground, so that the start itself is no landing.
    state = [0.0, 0.0, 1e-13 if level_height == 0.0 else 0.0, *velocity.tolist(), shot["spin_rate"]]
    found = solve_ivp(change, (0.0, 60.0), state, method=method, rtol=rtol, atol=atol, events=down, max_step=max_step)
    if len(found.t_events[0]) == 0:
        return None
    end = found.y_events[0][0]
    return float(end[0]), float(end[1]), float(found.t_events[0][0])


def random_shots(count: int, seed: int) -> list[dict[str, float]]:
    """Legal shots of the whole domain: 15–85 m/s, −5–65°, any tilt, 12,000 rpm, wind of 15 m/s, −30 to +10 m."""
    draw = np.random.default_rng(seed)
    names = ("ball_speed", "launch_angle", "spin_rate", "launch_direction", "spin_axis", "density", "wind_along")
    names = (*names, "wind_across", "landing_height")
    low = [15, math.radians(-5), 0, math.radians(-20), -math.pi, 0.85, -15, -15, -30]
    high = [85, math.radians(65), 12000 * math.pi / 30, math.radians(20), math.pi, 1.3, 15, 15, 10]
    drawn = draw.uniform(low, high, (count, len(names)))
    return [dict(zip(names, row, strict=True)) | {"viscosity": 1.82e-5} for row in drawn.tolist()]
