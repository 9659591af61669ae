"""Shots a second beside SciPy's solver at equal accuracy and the core's multiply-add limit; start-up; memory."""

from __future__ import annotations

import math
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import numba
import numpy as np
from scipy.integrate import solve_ivp

from asplayed.mechanics import flight_equations as equations
from asplayed.mechanics.aerodynamics import law_of
from asplayed.mechanics.flight import Flight, fly, wind_power_law, wind_table
from asplayed.mechanics.flight_lanes import COARSE_STEPS, FINE_STEPS, fitted_guess, lanes
from asplayed.mechanics.flight_many import TOLERANCE, fly_blocks
from benchmarks import Line, best_time

TITLE = "Flight"
YARD, RPM = 0.9144, math.pi / 30
STILL = equations.SteadyWind()
HOUSE = law_of("house")
TOUR = np.array(
    [
        *[(167, 10.9, 2686), (158, 9.2, 3655), (152, 9.4, 4350), (146, 10.2, 4437), (142, 10.4, 4630)],
        *[(137, 11.0, 4836), (132, 12.1, 5361), (127, 14.1, 6231), (120, 16.3, 7097), (115, 18.1, 7998)],
        *[(109, 20.4, 8647), (102, 24.2, 9304)],
    ]
)


# The least and the most of each figure of a shot over the whole domain.
DOMAIN = np.array(
    [
        [15, math.radians(-5), 0, -0.35, -math.pi, 0.85, 1.7e-5, -15, -15, -30, 9.78],
        [85, math.radians(65), 12000 * RPM, 0.35, math.pi, 1.3, 1.9e-5, 15, 15, 10, 9.84],
    ]
)


def tour_like(count: int, seed: int = 1) -> np.ndarray[Any, Any]:
    """Shots of a tour's twelve clubs with their spread: eleven rows in the order of `fly_blocks`."""
    draw = np.random.default_rng(seed)
    speed, angle, spin = TOUR[draw.integers(0, 12, count)].T
    shots = np.zeros((11, count))
    shots[0] = speed * 0.44704 * (1 + 0.03 * draw.standard_normal(count))
    shots[1] = np.radians(angle + draw.standard_normal(count))
    shots[2] = spin * RPM * (1 + 0.08 * draw.standard_normal(count))
    shots[3] = np.radians(2 * draw.standard_normal(count))
    shots[4] = np.radians(4 * draw.standard_normal(count))
    shots[5], shots[6], shots[10] = 1.194, 1.82e-5, 9.80665
    shots[7:9] = 2 * draw.standard_normal((2, count))
    return shots


def whole_domain(count: int, seed: int = 2) -> np.ndarray[Any, Any]:
    """Random legal shots of the whole domain."""
    return np.random.default_rng(seed).uniform(*DOMAIN, (count, 11)).T.copy()


def corners_and_mild(count: int, seed: int = 11) -> np.ndarray[Any, Any]:
    """Shots by another design: a scrambled Sobol' set whose coordinates crowd at the ends of the domain.

    Each coordinate follows the arcsine law, and the last share of the shots has its spin, tilt and wind near nothing,
    where uniform draws hardly ever fall. `count` is a power of two.
    """
    from scipy.stats import qmc

    unit = qmc.Sobol(11, rng=seed).random(count)
    share = np.sin(0.5 * math.pi * unit.T) ** 2
    calm = slice(3 * count // 4, count)
    share[2, calm] **= 4
    for row in (3, 4, 7, 8):
        share[row, calm] = 0.5 + 4.0 * (share[row, calm] - 0.5) ** 3
    return DOMAIN[0][:, None] + (DOMAIN[1] - DOMAIN[0])[:, None] * share


def flown(shots: Any, law: Any = HOUSE, wind: Any = STILL, tolerance: float | None = None) -> tuple[Any, Any]:
    """Figures and ends of all shots."""
    blocks = list(fly_blocks(law, wind, list(shots), tolerance))
    return np.concatenate([block.figures for block in blocks], axis=1), np.concatenate([b.ends for b in blocks])


def flow(shots: Any, precision: str) -> None:
    """Fly rows of shots block by block and keep nothing, as a reduction does."""
    for _ in fly_blocks(HOUSE, STILL, shots, precision=precision):
        pass


def misses(shots: Any, law: Any = HOUSE, wind: Any = STILL, tolerance: float | None = None) -> Any:
    """Distance of every landing from the reference, yd, and how many shots ended otherwise than the reference says."""
    figures, ends = flown(shots, law, wind, tolerance)
    exact, exact_ends = flown(shots, law, wind, 1e-9)
    landed = (ends == equations.LANDED) & (exact_ends == equations.LANDED)
    apart = np.hypot(figures[0] - exact[0], figures[1] - exact[1])[landed] / YARD
    return apart, int((ends != exact_ends).sum())


# Additions and multiplications in a shot through the lanes, counted in the source of `flight_lanes`: a step has four
# times 37 for its rates and 94 more, a watched one 16 on top, the rest of a shot about 670.
LANE_OPERATIONS = (COARSE_STEPS + FINE_STEPS) * (4 * 37 + 94) + FINE_STEPS * 16 + 670


@numba.njit(fastmath=True)
def _limit_double(rounds: int) -> float:
    cells = np.full(64, 0.5)
    for _ in range(rounds):
        for cell in range(64):
            cells[cell] = cells[cell] * 0.999 + 0.001
    return cells.sum()


@numba.njit(fastmath=True)
def _limit_single(rounds: int) -> float:
    cells = np.full(128, np.float32(0.5))
    factor, more = np.float32(0.999), np.float32(0.001)
    for _ in range(rounds):
        for cell in range(128):
            cells[cell] = cells[cell] * factor + more
    return cells.sum()


def multiply_add_limit(precision: str) -> float:
    """The core's arithmetic limit, operations a second, by a bare loop of multiply-adds held in registers."""
    loop, cells = (_limit_double, 64) if precision == "double" else (_limit_single, 128)
    loop(10)
    return 2 * cells * 2_000_000 / best_time(lambda: loop(2_000_000))


def scipy_landing(shot: Any, method: str, rtol: float) -> tuple[float, float]:
    """One shot by SciPy with plain floats in the right-hand side, ended by an event: what a scientist would write."""
    velocity, spin, axis, air = equations.launch(tuple(shot[:7]), shot[7], shot[8], shot[10])
    level = shot[9]

    def change(_: float, s: Any) -> Any:
        _, _, z, vx, vy, vz, rate = s.tolist()
        ax, ay, az, slowing, _calm = equations.rates(z, vx, vy, vz, rate, axis, air, HOUSE, STILL)
        return vx, vy, vz, ax, ay, az, slowing

    def down(_: float, s: Any) -> Any:
        return s[2] - level

    down.terminal, down.direction = True, -1  # type: ignore[attr-defined]
    start = [0.0, 0.0, 1e-9, *velocity, spin]
    found = solve_ivp(change, (0.0, 30.0), start, method=method, rtol=rtol, atol=rtol, events=down)
    return float(found.y_events[0][0][0]), -float(found.y_events[0][0][1])


def scipy_batched(shots: Any, rtol: float) -> Any:
    """Many shots as one system of SciPy's RK45 with arrays, each landing found on its dense solution."""
    from scipy.optimize import elementwise

    count = shots.shape[1]
    kicks = [equations.launch(tuple(shot[:7]), shot[7], shot[8], shot[10]) for shot in shots.T.tolist()]
    velocity, axis, air = (np.array([kick[part] for kick in kicks]).T for part in (0, 2, 3))
    k, _, wind_x, wind_y, gravity = air

    def change(_: float, s: Any) -> Any:
        state = s.reshape(7, count)
        relative = state[3:6] - np.array([wind_x, wind_y, np.zeros(count)])
        speed = np.sqrt((relative**2).sum(axis=0))
        ratio = equations.BALL_RADIUS * state[6] / speed
        across = np.cross(axis, relative, axis=0)
        across /= np.sqrt((across**2).sum(axis=0))
        force = -k * speed * (HOUSE.drag_base + HOUSE.drag_slope * ratio) * relative
        force += k * speed**2 * HOUSE.lift_scale * ratio**HOUSE.lift_power * across
        force[2] -= gravity
        slowing = -equations.SPIN_DECAY / equations.BALL_RADIUS * state[6] * speed
        return np.concatenate([state[3:6], force, slowing[None]]).ravel()

    start = np.concatenate([np.zeros((3, count)), velocity, shots[2][None]]).ravel()
    found = solve_ivp(change, (0.0, 10.0), start, method="RK45", rtol=rtol, atol=rtol, dense_output=True)
    # The tops lie between take-off and landing; each landing is bracketed by its own.
    times = np.linspace(0.0, 10.0, 101)
    heights = found.sol(times).reshape(7, count, 101)[2]
    tops = times[heights.argmax(axis=1)]
    each = np.arange(count)

    def height(time: Any, number: Any) -> Any:
        return np.array([found.sol(t)[2 * count + i] for t, i in zip(time.ravel(), number.ravel(), strict=True)])

    landing = elementwise.find_root(height, (tops, np.full(count, 10.0)), args=(each,)).x
    return np.array([found.sol(t)[[i, count + i]] for t, i in zip(landing, each, strict=True)]).T


def started(told: str, cache: str) -> float:
    """Seconds a fresh process takes over something, by its own clock."""
    environment = {**os.environ, "NUMBA_CACHE_DIR": cache}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    code = f"import time, numpy\nfrom asplayed.mechanics import fly\nstart = time.perf_counter()\n{told}\n"
    code += "print(time.perf_counter() - start)"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=environment)
    return float(found.stdout)


def measure() -> list[Line]:
    """Speed beside SciPy and the multiply-add limit; start-up."""
    lines: list[Line] = []
    tour, domain = tour_like(200_000), whole_domain(200_000)
    for name, shots in (("tour-like", tour), ("whole domain", domain)):
        flown(shots[:, :2000])
        speed = shots.shape[1] / best_time(lambda shots=shots: flown(shots, tolerance=TOLERANCE)) / 1e6
        lines.append(Line(f"adaptive, {name}", speed, "million shots/s", "≥ 0.6", speed >= 0.6))
        most = float(misses(shots[:, :50_000], tolerance=TOLERANCE)[0].max())
        lines.append(Line("its largest miss", most, "yd", "≤ 0.01", most <= 0.01))
    adaptive = lines[0].value * 1e6
    many, mixed = list(tour_like(1_000_000)), list(whole_domain(1_000_000))
    quick = {}
    for precision, goal in (("double", 8.0), ("single", 20.0)):
        limit = multiply_add_limit(precision)
        flow(many, precision)
        quick[precision] = 1e6 / best_time(lambda precision=precision: flow(many, precision))
        speed = quick[precision] / 1e6
        lines.append(
            Line(f"lanes, tour-like, {precision}", speed, "million shots/s", f"≥ {goal:g}", speed >= goal,
                 "all in: what the lanes hand back is flown with adaptive steps")
        )  # fmt: skip
        lines.append(Line(f"multiply-add limit, {precision}", limit / 1e9, "GFLOP/s"))
        share = 100 * quick[precision] * LANE_OPERATIONS / limit
        lines.append(Line("share of it", share, "%", "≥ 40", share >= 40, f"{LANE_OPERATIONS:,} operations a shot"))
    speed = 1 / best_time(lambda: flow(mixed, "double"), 3)
    lines.append(
        Line("very many, whole domain", speed, "million shots/s", "≥ 2", speed >= 2, "adaptive: too unlike for lanes")
    )
    some = tour[:, :40]
    exact, _ = flown(some, tolerance=1e-9)
    for rtol in (1e-3, 3e-4, 1e-4, 3e-5, 1e-5):
        ends = [scipy_landing(shot, "RK45", rtol) for shot in some.T.tolist()]
        miss = np.hypot(*(np.array(ends).T - exact[:2])).max() / YARD
        if miss <= 0.01:
            break
    slow = 40 / best_time(lambda: [scipy_landing(shot, "RK45", rtol) for shot in some.T.tolist()], 3)
    lines.append(Line("SciPy RK45, one at a time, scalar right-hand side", slow, "shots/s", "", None, f"rtol {rtol:g}"))
    lines.append(Line("its largest miss", float(miss), "yd"))
    lines.append(Line("adaptive over SciPy", adaptive / slow, "times", "≥ 200", adaptive / slow >= 200))
    ratio = quick["double"] / slow
    lines.append(Line("lanes over SciPy", ratio, "times", "≥ 3,000", ratio >= 3000))
    several = tour[:, :200]
    batched = 200 / best_time(lambda: scipy_batched(several, 1e-4), 2)
    apart = np.hypot(*(scipy_batched(several, 1e-4) * [[1], [-1]] - flown(several, tolerance=1e-9)[0][:2])).max() / YARD
    lines.append(Line("SciPy RK45, 200 shots as one system", batched, "shots/s", "", None, f"misses {apart:.1g} yd"))
    lines.append(Line("adaptive over that", adaptive / batched, "times"))
    one = tuple(tour[:, 0].tolist())
    named = ("ball_speed", "launch_angle", "spin_rate", "launch_direction", "spin_axis", "density")
    kick = dict(zip(named, one, strict=False))
    alone = best_time(lambda: [fly(**kick) for _ in range(50)]) / 50
    lines.append(Line("one shot without a compiler", alone * 1e3, "ms", "", None, "error below 1e-6 yd"))
    with tempfile.TemporaryDirectory() as cache:
        loading = min(started("import numba", cache) for _ in range(3))
        call = "fly(numpy.full(1000, 70.0), 0.2, 280.0, density=1.2)"
        first = started(call, cache)
        cached = min(started(call, cache) for _ in range(3))
    lines.append(Line("loading numba, which every first call pays", loading, "s"))
    lines.append(Line("first call for many, nothing cached", first, "s", "≤ 3", first <= 3, "with loading numba"))
    lines.append(Line("first call with the kernel cached", cached, "s", "≤ 0.3", cached <= 0.3, "with loading numba"))
    command = [
        str(Path(sys.executable).with_name("asplayed")),
        "calc",
        "flight",
        "ball_speed=145mph",
        "launch_angle=13deg",
    ]
    command += ["spin_rate=2600rpm", "density=1.2kg/m3"]
    cold = best_time(lambda: subprocess.run(command, check=True, capture_output=True), 5)
    lines.append(Line("one shot from the command line", cold, "s", "no compilation", True))
    return lines


def reduced(count: int, block: int = 100_000) -> tuple[Any, float]:
    """Shots drawn, flown and reduced block by block, and the most memory this took in a process of its own, MB."""
    code = (
        "import re\nfrom pathlib import Path\nfrom benchmarks.flight import tour_like, as_flights\n"
        "from asplayed.mechanics.flight_many import summarise\n"
        f"print(summarise(as_flights(tour_like({block}, seed)) for seed in range({count // block})).shots,"
        "int(re.search(r'VmHWM:\\s+(\\d+)', Path('/proc/self/status').read_text())[1]) / 1024)"
    )
    # Read there because the most that getrusage tells also counts the parent before the process became its own.
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    done, most = found.stdout.split()
    return int(done), float(most)


def as_flights(shots: Any) -> Flight:
    """Rows of shots through `fly`."""
    named = ("ball_speed", "launch_angle", "spin_rate", "launch_direction", "spin_axis", "density", "viscosity")
    named = (*named, "wind_along", "wind_across", "landing_height", "gravity")
    return fly(**dict(zip(named, shots, strict=True)))


def forced_lanes(count: int) -> list[Line]:
    """The whole domain sent through the lanes with guesses good and bad: what they let pass."""
    shots = whole_domain(count, 9)
    exact, ends = flown(shots, tolerance=1e-7)
    known = (ends[:4000] == equations.LANDED) & (exact[6, :4000] < 0.9999 * shots[2, :4000])
    guess = fitted_guess(shots[:, :4000][:, known], HOUSE, exact[6, :4000][known], most=math.inf)
    passed, wrong, worst = 0, 0, 0.0
    for kind in (np.float64, np.float32):
        for share in (0.8, 0.9, 0.95, 1.0, 1.05, 1.1, 1.2):
            figures, found = np.empty((7, count), kind), np.empty(count, np.int8)
            lanes(kind)(shots, tuple(HOUSE), tuple(share * weight for weight in guess or ()), figures, found)
            landed = found == equations.LANDED
            passed += int(landed.sum())
            wrong += int((landed & (ends != equations.LANDED)).sum())
            apart = np.hypot(figures[0] - exact[0], figures[1] - exact[1])[landed & (ends == equations.LANDED)] / YARD
            worst = max(worst, float(apart.max()))
    what = f"{14 * count:,} shots of the whole domain forced through the lanes"
    return [
        Line(f"{what}: let pass", passed, "shots", "", None, "the rest is handed back"),
        Line("of them off by at most", worst, "yd", "≤ 0.01", worst <= 0.01),
        Line("of them that do not land at all", wrong, "shots", "0", wrong == 0),
    ]


def other_design() -> list[Line]:
    """The whole domain again by a design nothing was tuned with."""
    shots = corners_and_mild(2**19)
    apart, otherwise = misses(shots)
    most, what = float(apart.max()), f"{shots.shape[1]:,} shots by a Sobol' set crowded at the domain's ends"
    return [
        Line(f"{what}: largest miss", most, "yd", "≤ 0.01", most <= 0.01),
        Line("of them ended otherwise than the reference", otherwise, "shots", "0", otherwise == 0),
    ]


def prove() -> list[Line]:
    """A million random shots of the whole domain for every kind of law and wind; a hundred million reduced."""
    table = wind_table([0.0, 5.0, 20.0, 60.0], [0.4, 0.8, 1.0, 1.3])
    runs = [
        ("house law, steady wind", HOUSE, STILL, 1_000_000),
        ("Smits and Smith, steady wind", law_of("smits-smith"), STILL, 200_000),
        ("house law, wind growing with height", HOUSE, wind_power_law(), 200_000),
        ("house law, wind by a table", HOUSE, table, 200_000),
        ("Bearman and Harvey's table", law_of("bearman-harvey"), STILL, 100_000),
    ]
    lines = []
    for name, law, wind, count in runs:
        apart, otherwise = misses(whole_domain(count, 7), law, wind)
        lines.append(
            Line(f"{count:,} shots, {name}: largest miss", apart.max(), "yd", "≤ 0.01", bool(apart.max() <= 0.01))
        )
        lines.append(Line("of them ended otherwise than the reference", otherwise, "shots", "0", otherwise == 0))
    lines += other_design()
    apart, otherwise = misses(tour_like(1_000_000, 8))
    most = float(apart.max())
    lines.append(Line("1,000,000 tour-like shots through the lanes: largest miss", most, "yd", "≤ 0.01", most <= 0.01))
    lines += forced_lanes(1_000_000)
    start = time.perf_counter()
    count, most = reduced(100_000_000)
    taken = time.perf_counter() - start
    lines.append(Line(f"{count:,} shots drawn, flown and reduced: memory", most, "MB", "< 500", most < 500))
    lines.append(Line("time taken, drawing included", taken, "s"))
    return lines
