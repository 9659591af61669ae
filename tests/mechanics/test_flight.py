"""One shot and many: laws that need no outside figure, what is refused, and the twins that share the equations."""

from __future__ import annotations

import math
import subprocess
import sys
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics import flight_equations as equations
from asplayed.mechanics.aerodynamics import drag_and_lift, law_of, scaled, table_law
from asplayed.mechanics.flight import FEW, fly, trajectory, wind_power_law, wind_table

YARD = 0.9144
DRIVE: dict[str, Any] = {"ball_speed": 74.7, "launch_angle": 0.19, "spin_rate": 281.0, "density": 1.2}
NAMES = (
    *("ball_speed", "launch_angle", "spin_rate", "launch_direction", "spin_axis", "density", "viscosity"),
    *("wind_along", "wind_across", "landing_height", "gravity"),
)


def legal_shots(count: int, seed: int) -> dict[str, Any]:
    """Arrays of random legal shots that all come down: 15–85 m/s, 5–65°, any tilt, wind, targets level and below."""
    draw = np.random.default_rng(seed)
    low = [15, math.radians(5), 0, -0.35, -math.pi, 0.85, 1.7e-5, -15, -15, -30, 9.78]
    high = [85, math.radians(65), 12000 * math.pi / 30, 0.35, math.pi, 1.3, 1.9e-5, 15, 15, 0, 9.84]
    return dict(zip(NAMES, draw.uniform(low, high, (count, 11)).T, strict=True))


def apart(one: Any, other: Any) -> float:
    """The largest distance between landings, yd."""
    return float(np.hypot(one.carry - other.carry, one.side - other.side).max() / YARD)


@given(speed=st.floats(5, 100), angle=st.floats(0.02, 1.5), gravity=st.floats(9.7, 9.9))
def test_without_air_a_shot_is_a_parabola(speed: float, angle: float, gravity: float) -> None:
    shot = fly(speed, angle, 300.0, density=0.0, gravity=gravity)
    assert shot.carry == pytest.approx(speed**2 * math.sin(2 * angle) / gravity, rel=1e-9)
    assert shot.apex == pytest.approx((speed * math.sin(angle)) ** 2 / 2 / gravity, rel=1e-9)
    assert shot.flight_time == pytest.approx(2 * speed * math.sin(angle) / gravity, rel=1e-9)
    assert shot.descent_angle == pytest.approx(angle, rel=1e-9)
    assert shot.landing_speed == pytest.approx(speed, rel=1e-9)
    assert not shot.outside_model


@settings(max_examples=25, deadline=None)
@given(tilt=st.floats(-3.1, 3.1), wind=st.floats(-10, 10), direction=st.floats(-0.3, 0.3), angle=st.floats(0.1, 1.0))
def test_the_mirror_of_a_shot_lands_in_the_mirror(tilt: float, wind: float, direction: float, angle: float) -> None:
    def shot(sign: float) -> Any:
        turned = {"spin_axis": sign * tilt, "wind_across": sign * wind, "launch_direction": sign * direction}
        return fly(60.0, angle, 400.0, density=1.2, landing_height=-2.0, **turned)

    right, left = shot(1.0), shot(-1.0)
    assert right.carry == pytest.approx(left.carry, abs=1e-6)
    assert right.side == pytest.approx(-left.side, abs=1e-6)


@settings(max_examples=15, deadline=None)
@given(direction=st.floats(-3, 3), tilt=st.floats(-0.5, 0.5))
def test_a_shot_aimed_elsewhere_in_still_air_is_the_same_shot_turned(direction: float, tilt: float) -> None:
    straight = fly(**DRIVE, spin_axis=tilt)
    turned = fly(**DRIVE, spin_axis=tilt, launch_direction=direction)
    ahead, aside = math.cos(direction), math.sin(direction)
    assert turned.carry == pytest.approx(straight.carry * ahead - straight.side * aside, abs=1e-5)
    assert turned.side == pytest.approx(straight.carry * aside + straight.side * ahead, abs=1e-5)


def test_everything_to_the_right_goes_right() -> None:
    for turned in ({"spin_axis": 0.1}, {"wind_across": 3.0}, {"launch_direction": 0.05}):
        assert fly(**DRIVE, **turned).side > 1.0
    assert fly(**DRIVE).side == 0.0


@given(length=st.floats(1, 40))
@settings(max_examples=10, deadline=None)
def test_spin_left_follows_from_the_path_alone(length: float) -> None:
    for shot in ((70.0, 0.2, 300.0), (30.0, 0.9, 900.0)):
        path = trajectory(*shot, density=1.2, duration=3.0, points=301)
        places = np.array([path.along, path.side, path.height])
        along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(places), axis=0))])
        left = float(np.interp(length, along, path.spin))
        assert left == pytest.approx(shot[2] * math.exp(-2.0e-5 * length / 0.021335), rel=2e-5)


def test_a_step_has_order_five() -> None:
    law, still = law_of("house"), equations.SteadyWind()
    velocity, spin, axis, air = equations.launch((70.0, 0.25, 300.0, 0.0, 0.2, 1.2, 1.82e-5), 3.0, 2.0, 9.80665)

    def after_two_seconds(steps: int) -> Any:
        state: Any = (0.0, 0.0, 0.0, *velocity, spin)
        rate: Any = equations.rates(0.0, *velocity, spin, axis, air, law, still)
        for _ in range(steps):
            state, rate, _ = equations.advance(2.0 / steps, state, rate, axis, air, law, still)
        return np.array(state)

    exact = after_two_seconds(512)
    misses = [float(np.abs(after_two_seconds(steps) - exact).max()) for steps in (8, 16, 32)]
    for coarse, fine in pairwise(misses):
        assert 4.5 < math.log2(coarse / fine) < 6.5


def test_the_landing_is_the_first_coming_down_through_the_target() -> None:
    level = fly(**DRIVE)
    assert fly(**DRIVE, landing_height=5.0).carry < level.carry < fly(**DRIVE, landing_height=-5.0).carry
    barely = fly(**DRIVE, landing_height=level.apex - 1e-4)
    path = trajectory(**DRIVE, points=2001)
    highest = path.along[max(range(2001), key=lambda number: path.height[number])]
    assert barely.carry == pytest.approx(highest, abs=2.0)
    assert barely.descent_angle < 0.01
    with pytest.raises(BadInput, match="landing_height"):
        fly(**DRIVE, landing_height=level.apex + 1e-4)


def test_a_low_runner_comes_down_where_it_first_meets_the_ground() -> None:
    # It dips under its target by centimetres, and its lift would take it up again.
    shot: dict[str, Any] = {"ball_speed": 75.0, "spin_rate": 500.0, "density": 1.2}
    path = trajectory(launch_angle=-0.01, **shot, duration=1.0, points=2001)
    lowest = min(path.height)
    assert lowest < -0.01
    assert path.height[-1] > 0.0
    assert fly(launch_angle=-0.01, **shot, landing_height=lowest / 2).carry < 30.0
    assert fly(launch_angle=-0.01, **shot, landing_height=lowest - 0.001).carry > 100.0
    assert fly(launch_angle=-0.01, **shot).carry == 0.0
    assert fly(launch_angle=0.0, ball_speed=20.0, spin_rate=0.0, density=1.2).carry == 0.0


@pytest.mark.parametrize("direction", [0.0, 0.4, math.pi])
def test_a_ball_the_wind_turned_back_comes_down_past_a_right_angle(direction: float) -> None:
    wedge: dict[str, Any] = {"ball_speed": 30.0, "spin_rate": 900.0, "density": 1.2, "launch_direction": direction}
    for against in (0.0, 6.0, 12.0, 15.0):
        wind = {"wind_along": -against * math.cos(direction), "wind_across": -against * math.sin(direction)}
        shot = fly(launch_angle=1.0, **wedge, **wind)
        path = trajectory(launch_angle=1.0, **wedge, **wind, points=2001)
        along, side = (run[-1] - run[-2] for run in (path.along, path.side))
        onward = along * math.cos(direction) + side * math.sin(direction)
        assert shot.descent_angle == pytest.approx(math.atan2(path.height[-2] - path.height[-1], onward), abs=2e-3)
        assert (shot.descent_angle > math.pi / 2) is (against > 6.0)
        many = fly(launch_angle=np.full(FEW + 1, 1.0), **wedge, **wind)
        assert many.descent_angle == pytest.approx(np.full(FEW + 1, shot.descent_angle), abs=1e-3)


def test_one_shot_and_an_array_of_shots_are_the_same() -> None:
    shots = legal_shots(12, 5)
    together = fly(**shots)
    for number in range(12):
        alone = fly(**{name: float(values[number]) for name, values in shots.items()})
        assert all(isinstance(figure, float) for figure in alone[:-1])
        assert tuple(column[number] for column in together) == alone
    grid = fly(np.array([60.0, 70.0]), 0.2, [[280.0], [300.0], [350.0]], density=1.2)
    assert grid.carry.shape == grid.outside_model.shape == (3, 2)
    assert fly(np.empty(0), 0.2, 280.0, density=1.2).carry.shape == (0,)
    assert fly(np.float64(60.0), 0.2, 280, density=1.2) == fly(60.0, 0.2, 280.0, density=1.2)


def test_one_shot_needs_neither_compiler_nor_arrays() -> None:
    told = "import sys; from asplayed.mechanics import fly; fly(70., .2, 280., density=1.2, model='bearman-harvey')"
    asked = "print(*(name for name in ('numpy', 'scipy', 'numba') if name in sys.modules))"
    found = subprocess.run([sys.executable, "-c", f"{told}; {asked}"], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == ""


def test_many_shots_leave_scipy_asleep_and_the_compiler_as_it_was() -> None:
    told = (
        "import sys, numpy\n"
        "from asplayed.mechanics import fly\n"
        "fly(numpy.full(200, 70.0), 0.2, 280.0, density=1.2)\n"
        "print('scipy.linalg' in sys.modules)\n"
        "import numba\n"
        "print(numba.njit(lambda a, b: (a @ b).sum())(numpy.eye(3), numpy.ones((3, 3))), 'scipy.linalg' in sys.modules)"
    )
    found = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    assert found.stdout.split() == ["False", "9.0", "True"]


def test_compiled_twins_land_where_the_plain_functions_do() -> None:
    from asplayed.mechanics.flight_many import fly_blocks

    shots = legal_shots(150, 6)
    plain = [fly(**{name: float(values[number]) for name, values in shots.items()}) for number in range(150)]
    blocks = list(fly_blocks(law_of("house"), equations.SteadyWind(), list(shots.values()), tolerance=1e-7))
    for row, name in enumerate(plain[0]._fields[:-1]):
        expected = np.array([getattr(shot, name) for shot in plain])
        assert np.abs(blocks[0].figures[row] - expected).max() < 1e-5 * max(1.0, np.abs(expected).max()), name


def test_many_shots_land_within_a_hundredth_of_a_yard() -> None:
    from asplayed.mechanics.flight_many import fly_blocks

    shots = legal_shots(4000, 7)
    many = fly(**shots)
    (exact,) = fly_blocks(law_of("house"), equations.SteadyWind(), list(shots.values()), tolerance=1e-9)
    assert apart(many, many._replace(carry=exact.figures[0], side=exact.figures[1])) < 0.01


@pytest.mark.slow
@pytest.mark.parametrize(
    ("model", "wind"),
    [
        ("bearman-harvey", equations.SteadyWind()),
        ("smits-smith", wind_power_law()),
        ("house", wind_table([0, 5, 20, 40], [0.3, 0.8, 1.0, 1.4])),
    ],
)
def test_every_law_and_wind_has_its_compiled_twin(model: str, wind: Any) -> None:
    shots = legal_shots(FEW + 20, 8)
    many = fly(**shots, model=model, wind_profile=wind)
    few = [fly(**{n: v[some] for n, v in shots.items()}, model=model, wind_profile=wind) for some in np.split(
        np.arange(FEW + 20), 2
    )]  # fmt: skip
    carries, sides = (np.concatenate([getattr(each, name) for each in few]) for name in ("carry", "side"))
    assert apart(many, many._replace(carry=carries, side=sides)) < 0.01


def test_the_compiled_power_is_good_to_one_part_in_ten_to_the_eight() -> None:
    from asplayed.mechanics.flight_compiled import power

    for exponent in (0.3667, 0.4, -0.1, 1 / 7, 2.5, 0.0):
        for base in np.geomspace(1e-9, 1e9, 400).tolist():
            assert power(base, exponent) == pytest.approx(base**exponent, rel=1e-8)
    assert power(0.0, 0.3667) == 0.0
    assert power(0.0, 0.0) == 1.0


def ordinary_shots(count: int, seed: int) -> dict[str, Any]:
    """Arrays of full shots of one player's bag: no great tilt, a breeze, targets a little up and down."""
    draw = np.random.default_rng(seed)
    kind = draw.uniform(0.0, 1.0, count)
    speed, angle, spin = 75.0 - 28.0 * kind, 0.18 + 0.24 * kind, 270.0 + 680.0 * kind
    spread = draw.standard_normal((8, count))
    return {
        "ball_speed": speed + spread[0],
        "launch_angle": angle + 0.015 * spread[1],
        "spin_rate": spin + 20.0 * spread[2],
        "launch_direction": 0.03 * spread[3],
        "spin_axis": 0.06 * spread[4],
        "density": np.full(count, 1.2),
        "viscosity": np.full(count, 1.82e-5),
        "wind_along": 2.0 * spread[5],
        "wind_across": 2.0 * spread[6],
        "landing_height": 1.5 * spread[7],
        "gravity": np.full(count, 9.80665),
    }


@pytest.mark.slow
@pytest.mark.parametrize("precision", ["double", "single"])
def test_ordinary_shots_go_through_the_lanes_and_land_right(precision: str, monkeypatch: pytest.MonkeyPatch) -> None:
    from asplayed.mechanics import flight_lanes, flight_many

    handed_back: list[int] = []
    kept = flight_many.kernel

    def counting(*kinds: Any) -> Any:
        fly_each = kept(*kinds)

        def counted(packed: Any, *rest: Any) -> None:
            handed_back.append(packed.shape[1])
            fly_each(packed, *rest)

        return counted

    shots = ordinary_shots(flight_lanes.LANES * 60 + 7, 9)
    (exact,) = flight_many.fly_blocks(law_of("house"), equations.SteadyWind(), list(shots.values()), tolerance=1e-9)
    monkeypatch.setattr(flight_many, "MANY", 1000)
    monkeypatch.setattr(flight_many, "SAMPLE", 300)
    monkeypatch.setattr(flight_many, "kernel", counting)
    many = fly(**shots, precision=precision)
    assert many.carry.dtype == (np.float64 if precision == "double" else np.float32)
    assert sum(handed_back) - flight_many.SAMPLE < 0.35 * len(many.carry)
    assert apart(many, many._replace(carry=exact.figures[0], side=exact.figures[1])) < 0.01
    for row, loosest in ((2, 0.02), (3, 0.005), (4, 0.001), (5, 0.02), (6, 0.1)):
        assert float(np.abs(many[row] - exact.figures[row]).max()) < loosest


@pytest.mark.slow
def test_the_lanes_let_nothing_wrong_pass_wherever_they_are_sent() -> None:
    from asplayed.mechanics.flight_lanes import LANES, lanes
    from asplayed.mechanics.flight_many import fly_blocks

    shots = np.array(list(legal_shots(LANES * 100, 10).values()))
    (exact,) = fly_blocks(law_of("house"), equations.SteadyWind(), list(shots), tolerance=1e-7)
    fly_lanes = lanes(np.float64)
    passed = turned_back = 0
    for length in (60.0, 120.0, 180.0, 240.0):
        # One and the same length of path for shots of every length: nearly all must be handed back.
        figures, ends = np.empty((7, shots.shape[1])), np.empty(shots.shape[1], np.int8)
        fly_lanes(shots, tuple(law_of("house")), (length, *[0.0] * 35), figures, ends)
        landed = ends == equations.LANDED
        passed += int(landed.sum())
        assert (exact.ends[landed] == equations.LANDED).all()
        misses = np.hypot(figures[0] - exact.figures[0], figures[1] - exact.figures[1])[landed] / YARD
        assert float(misses.max(initial=0.0)) < 0.01
        assert float(np.abs(figures[4] - exact.figures[4])[landed].max(initial=0.0)) < 0.002
        turned_back += int((figures[4] > math.pi / 2)[landed].sum())
    assert turned_back > 0
    assert 20 < passed < 0.2 * 4 * shots.shape[1]


def test_unlike_shots_are_not_sent_through_the_lanes() -> None:
    from asplayed.mechanics.flight_lanes import fitted_guess
    from asplayed.mechanics.flight_many import fly_blocks

    law = law_of("house")
    for shots, fits in ((legal_shots(600, 11), False), (ordinary_shots(600, 11), True)):
        (block,) = fly_blocks(law, equations.SteadyWind(), list(shots.values()))
        guess = fitted_guess(np.array(list(shots.values())), law, block.figures[6])  # type: ignore[arg-type]
        assert (guess is not None) is fits


def test_a_trajectory_ends_where_the_shot_lands() -> None:
    more: dict[str, Any] = {"spin_axis": 0.2, "wind_across": 4.0, "wind_profile": wind_power_law(0.2)}
    path, shot = trajectory(**DRIVE, **more, points=50), fly(**DRIVE, **more)
    assert len(path.time) == 50
    assert path.time[-1] == pytest.approx(shot.flight_time)
    assert (path.along[-1], path.side[-1]) == pytest.approx((shot.carry, shot.side), abs=1e-3)
    assert path.height[-1] == pytest.approx(0.0, abs=1e-3)
    assert (path.speed[-1], path.spin[-1]) == pytest.approx((shot.landing_speed, shot.landing_spin), rel=1e-5)


def test_wind_that_is_the_same_at_every_height_needs_no_table() -> None:
    steady = fly(**DRIVE, wind_along=-5.0, wind_across=2.0)
    single = fly(**DRIVE, wind_along=-5.0, wind_across=2.0, wind_profile=wind_table([0.0], [1.0]))
    assert tuple(single) == pytest.approx(tuple(steady), abs=1e-6)
    doubled = fly(**DRIVE, wind_along=-2.5, wind_across=1.0, wind_profile=wind_table([0.0, 30.0], [2.0, 2.0]))
    assert doubled.carry == pytest.approx(steady.carry, abs=1e-6)
    growing = fly(**DRIVE, wind_along=-5.0, wind_profile=wind_power_law(0.2, 10.0))
    assert growing.carry < fly(**DRIVE, wind_along=-5.0).carry


def test_a_table_of_the_users_own_is_read_between_its_nodes() -> None:
    ratios = [0.0, 0.1, 0.2, 0.4, 0.8]
    flat = table_law(spin_ratio=ratios, drag=[0.25] * 5, lift=[0.15] * 5)
    constant = fly(**DRIVE, model="constant", drag=0.25, lift=0.15)
    assert fly(**DRIVE, model=flat).carry == pytest.approx(constant.carry, abs=1e-6)
    grid = table_law(reynolds=[1e5, 2e5], spin_ratio=[0.1, 0.2], drag=[[0.2, 0.3], [0.4, 0.5]], lift=[[0, 0], [0, 0.2]])
    assert drag_and_lift(1.5e5, 0.15, grid)[:2] == pytest.approx((0.35, 0.05))
    assert grid == table_law(
        reynolds=np.array([1e5, 2e5]),  # type: ignore[arg-type]
        spin_ratio=np.array([0.1, 0.2]),  # type: ignore[arg-type]
        drag=np.array([[0.2, 0.3], [0.4, 0.5]]),  # type: ignore[arg-type]
        lift=np.array([[0, 0], [0, 0.2]]),  # type: ignore[arg-type]
    )
    assert drag_and_lift(9e5, 5.0, grid)[:2] == pytest.approx((0.5, 0.2))
    assert drag_and_lift(1.5e5, 0.15, scaled(grid, 2.0, 0.5))[:2] == pytest.approx((0.7, 0.025))


def test_factors_calibrate_a_law() -> None:
    assert fly(**DRIVE, drag_factor=1.05).carry < fly(**DRIVE).carry < fly(**DRIVE, lift_factor=1.05).flight_time * 100
    assert fly(**DRIVE, lift_factor=1.05).apex > fly(**DRIVE).apex


@settings(max_examples=60, deadline=None)
@given(
    speed=st.floats(0.1, 110),
    angle=st.floats(-math.pi / 2, math.pi / 2),
    spin=st.floats(0, 2094),
    tilt=st.floats(-math.pi, math.pi),
    along=st.floats(-60, 60),
    across=st.floats(-60, 60),
    height=st.floats(-300, 100),
    lift=st.floats(0, 5),
)
def test_every_shot_ends_in_a_landing_or_in_a_sentence(
    speed: float, angle: float, spin: float, tilt: float, along: float, across: float, height: float, lift: float
) -> None:
    wind: dict[str, Any] = {"wind_along": along, "wind_across": across}
    try:
        shot = fly(speed, angle, spin, spin_axis=tilt, density=1.2, landing_height=height, lift_factor=lift, **wind)
    except BadInput as refused:
        assert "still up" in str(refused) or "landing_height" in str(refused)
    else:
        assert all(math.isfinite(figure) for figure in shot[:-1])
        assert shot.apex >= max(0.0, height) - 1e-9


@pytest.mark.parametrize(
    ("changed", "named"),
    [
        ({"ball_speed": 150.0}, "ball_speed"),
        ({"ball_speed": math.nan}, "ball_speed"),
        ({"launch_angle": 1.7}, "launch_angle"),
        ({"spin_rate": -1.0}, "spin_rate"),
        ({"spin_rate": math.inf}, "spin_rate"),
        ({"spin_axis": 4.0}, "spin_axis"),
        ({"launch_direction": 4.0}, "launch_direction"),
        ({"density": -0.1}, "density"),
        ({"viscosity": 0.0}, "viscosity"),
        ({"wind_along": 100.0}, "wind_along"),
        ({"wind_across": -math.inf}, "wind_across"),
        ({"landing_height": 1e4}, "landing_height"),
        ({"gravity": -9.8}, "gravity"),
        ({"ball_speed": "fast"}, "ball_speed"),
        ({"model": "feather"}, "model"),
        ({"precision": "half"}, "precision"),
        ({"model": "constant"}, "drag"),
        ({"model": "constant", "drag": 0.2, "lift": math.nan}, "lift"),
        ({"drag": 0.2}, "drag"),
        ({"drag_factor": -1.0}, "drag_factor"),
        ({"ball_speed": np.array([70.0, 71.0, math.nan])}, "ball_speed at 2"),
        ({"ball_speed": np.array([70.0, 71.0]), "spin_rate": [1.0, 2.0, 3.0]}, "shape"),
        ({"landing_height": np.array([0.0, 200.0, 0.0])}, "landing_height.*1"),
        ({"gravity": 0.0}, "still up"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, Any], named: str) -> None:
    with pytest.raises(BadInput, match=named):
        fly(**{**DRIVE, **changed})


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: wind_power_law(2.0),
        lambda: wind_power_law(0.1, 0.0),
        lambda: wind_table([], []),
        lambda: wind_table([0, 1], [1]),
        lambda: wind_table([1, 0], [1, 1]),
        lambda: wind_table([0, 1e9], [1, 1]),
        lambda: wind_table([0, 1], [1, math.nan]),
        lambda: table_law(spin_ratio=[], drag=[], lift=[]),
        lambda: table_law(spin_ratio=[0.2, 0.1], drag=[0.2, 0.2], lift=[0.1, 0.1]),
        lambda: table_law(spin_ratio=[0.1, 0.2], drag=[0.2], lift=[0.1, 0.1]),
        lambda: table_law(spin_ratio=[0.1, 0.2], drag=[0.2, math.nan], lift=[0.1, 0.1]),
        lambda: table_law(spin_ratio=["a", "b"], drag=[0.2, 0.2], lift=[0.1, 0.1]),  # type: ignore[list-item]
        lambda: table_law(spin_ratio=[0.1, 0.2], drag=["a", "b"], lift=[0.1, 0.1]),  # type: ignore[list-item]
        lambda: table_law(spin_ratio=[0.1], reynolds=[1e5, 2e5], drag=[[0.2]], lift=[[0.1, 0.1]]),
        lambda: drag_and_lift(-1.0, 0.1),
        lambda: drag_and_lift(1e5, math.nan),
        lambda: trajectory(**{**DRIVE, "ball_speed": np.array([70.0, 71.0])}),
        lambda: trajectory(**DRIVE, points=1),
        lambda: trajectory(**DRIVE, duration=0.0),
        lambda: trajectory(**DRIVE, landing_height=250.0),
    ],
)
def test_tables_and_paths_that_cannot_be_are_refused(wrong: Any) -> None:
    with pytest.raises(BadInput):
        wrong()
