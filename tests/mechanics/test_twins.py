"""One call with arrays says what as many calls with numbers say, and refuses what they refuse."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics import air, balance, ground, head, impact, putter, scoring, shaft, statistics, strike
from asplayed.mechanics.checks import range_of

# Each function with a usual value and a second one for every argument.
CASES: list[tuple[Callable[..., Any], dict[str, tuple[float, float]], dict[str, Any]]] = [
    (air.moist_air, {"temperature": (280.0, 305.0), "pressure": (9e4, 1.01e5), "humidity": (0.1, 0.9)}, {}),
    (air.viscosity, {"temperature": (280.0, 305.0)}, {}),
    (air.gravity, {"latitude": (0.1, 1.2), "altitude": (0.0, 1500.0)}, {}),
    (air.standard_atmosphere, {"altitude": (0.0, 2500.0)}, {}),
    (air.station_pressure, {"sea_level_pressure": (1.0e5, 1.02e5), "altitude": (10.0, 2000.0)}, {}),
    (air.air, {"temperature": (280.0, 300.0), "humidity": (0.2, 0.8), "altitude": (0.0, 900.0)}, {}),
    (
        impact.impact,
        {
            "club_speed": (30.0, 50.0),
            "head_mass": (0.2, 0.29),
            "restitution": (0.75, 0.83),
            "attack_angle": (-0.08, 0.05),
            "dynamic_loft": (0.2, 0.8),
            "tangential_restitution": (0.0, 0.25),
            "friction": (0.05, 0.4),
            "club_path": (-0.05, 0.05),
            "face_angle": (-0.06, 0.04),
            "restitution_slope": (0.0, 0.002),
            "restitution_speed": (30.0, 40.0),
        },
        {},
    ),
    (
        impact.dplane,
        {
            "face_angle": (-0.05, 0.03),
            "club_path": (-0.03, 0.04),
            "dynamic_loft": (0.2, 0.5),
            "attack_angle": (-0.07, 0.02),
        },
        {},
    ),
    (impact.restitution_of_smash, {"smash": (1.3, 1.45), "head_mass": (0.2, 0.3), "spin_loft": (0.2, 0.3)}, {}),
    (impact.speed_with_head_mass, {"club_speed": (40, 50), "mass_before": (0.18, 0.2), "mass_after": (0.19, 0.21)}, {}),
    (
        strike.strike,
        {
            "club_speed": (30.0, 50.0),
            "head_mass": (0.2, 0.29),
            "restitution": (0.75, 0.83),
            "attack_angle": (-0.08, 0.05),
            "dynamic_loft": (0.2, 0.8),
            "cg_depth": (0.01, 0.04),
            "inertia_up": (3e-4, 5e-4),
            "inertia_heel_toe": (3e-4, 4e-4),
            "inertia_normal": (3e-4, 3.4e-4),
            "strike_toe": (-0.02, 0.02),
            "strike_high": (-0.01, 0.01),
            "cg_toe": (0.0, 0.002),
            "cg_up": (-0.002, 0.003),
            "bulge_radius": (0.25, 0.4),
            "roll_radius": (0.25, 0.4),
            "tangential_restitution": (0.0, 0.25),
            "friction": (0.05, 0.4),
            "club_path": (-0.05, 0.05),
            "face_angle": (-0.06, 0.04),
        },
        {},
    ),
    (
        ground.bounce,
        {
            "landing_speed": (15.0, 45.0),
            "descent_angle": (0.2, 0.9),
            "spin_rate": (-100.0, 900.0),
            "friction": (0.2, 0.4),
        },
        {},
    ),
    (
        ground.bounce,
        {"landing_speed": (15.0, 45.0), "descent_angle": (0.2, 0.9), "spin_rate": (-100.0, 900.0)},
        {"turf": "hard"},
    ),
    (
        ground.run,
        {
            "landing_speed": (15.0, 28.0),
            "descent_angle": (0.5, 0.9),
            "spin_rate": (100.0, 900.0),
            "green_speed": (2.0, 3.0),
            "friction": (0.3, 0.4),
            "stop_height": (0.005, 0.02),
        },
        {},
    ),
    (ground.green, {"green_speed": (2.0, 4.0)}, {}),
    (ground.level_green_speed, {"green_speed_up": (2.0, 3.0), "green_speed_down": (3.0, 6.0)}, {}),
    (
        putter.putt,
        {
            "start_speed": (1.0, 3.0),
            "green_speed": (2.0, 4.0),
            "topspin": (-10.0, 20.0),
            "sliding_friction": (0.2, 0.4),
        },
        {},
    ),
    (
        putter.struck_putt,
        {
            "club_speed": (1.0, 2.0),
            "head_mass": (0.33, 0.37),
            "restitution": (0.7, 0.8),
            "dynamic_loft": (0.03, 0.06),
            "attack_angle": (-0.02, 0.05),
            "green_speed": (2.0, 4.0),
        },
        {},
    ),
    (putter.start_speed_for, {"putt_distance": (1.0, 8.0), "green_speed": (2.0, 4.0)}, {}),
    (putter.capture_speed, {"offset": (0.0, 0.06)}, {}),
    (putter.holes, {"speed_at_hole": (0.5, 1.5), "offset": (0.0, 0.04)}, {}),
    (putter.make_rate, {"putt_distance": (1.0, 8.0), "direction_spread": (0.02, 0.03)}, {}),
    (scoring.strokes, {"distance": (150.0, 333.0)}, {"lie": "fairway"}),
    (statistics.gap, {"separation": (-3.0, 12.0), "spread_long": (0.0, 6.0), "spread_short": (0.0, 9.0)}, {}),
    (statistics.offline_spread, {"carry": (100.0, 250.0), "direction_spread": (0.04, 0.09)}, {}),
    (
        shaft.frequency,
        {
            "beam_length": (0.8, 1.05),
            "tip_mass": (0.19, 0.3),
            "mass_per_length": (0.05, 0.11),
            "stiffness_clamp": (50.0, 90.0),
            "stiffness_tip": (20.0, 50.0),
            "tip_inertia": (0.0, 5e-4),
            "tip_offset": (0.0, 0.02),
        },
        {},
    ),
    (shaft.torsional_stiffness, {"torque": (0.03, 0.08), "span": (0.8, 1.1)}, {}),
    (
        shaft.tip_bend,
        {"pull": (0.0, 250.0), "stiffness": (30.0, 60.0), "beam_length": (0.8, 1.0), "cg_offset": (0.0, 0.03)},
        {},
    ),
    (
        shaft.impact_bend,
        {
            "pull": (100.0, 250.0),
            "stiffness": (30.0, 60.0),
            "beam_length": (0.8, 1.0),
            "cg_behind": (0.0, 0.03),
            "cg_toe": (0.03, 0.04),
            "lie": (1.0, 1.1),
        },
        {},
    ),
    (
        shaft.cut_shaft,
        {
            "raw_mass": (0.06, 0.12),
            "raw_length": (1.0, 1.2),
            "raw_balance": (0.5, 0.55),
            "tip_trim": (0.0, 0.05),
            "butt_trim": (0.0, 0.1),
        },
        {},
    ),
    (head.sleeve, {"lie": (0.95, 1.05), "tilt": (-0.03, 0.03), "loft": (0.15, 0.3)}, {}),
    (head.sleeve_setting, {"lie": (0.95, 1.05), "loft": (0.15, 0.3), "tilt": (0.0, 0.03), "turn": (0.0, 4.0)}, {}),
    (head.lie_error, {"loft": (0.1, 0.9), "lie_error": (-0.05, 0.05)}, {}),
    (head.delivered_bounce, {"loft": (0.9, 1.0), "bounce": (0.1, 0.2), "bend": (-0.03, 0.02), "lean": (0.0, 0.1)}, {}),
    (head.bend_offset, {"hosel_height": (0.05, 0.06), "bend": (-0.03, 0.02)}, {}),
    (head.opened_face, {"loft": (0.8, 1.0), "lie": (1.0, 1.1), "bounce": (0.1, 0.2), "opening": (-0.1, 0.5)}, {}),
    (
        head.toe_hang,
        {"cg_behind": (0.0, 0.03), "cg_toe": (-0.01, 0.03), "cg_up": (0.01, 0.02), "lie": (1.2, 1.25)},
        {},
    ),
    (
        balance.build,
        {
            "length": (0.9, 1.15),
            "head_mass": (0.2, 0.3),
            "head_height": (0.015, 0.03),
            "shaft_mass": (0.05, 0.12),
            "shaft_length": (0.88, 1.1),
            "shaft_balance": (0.4, 0.5),
            "grip_mass": (0.03, 0.06),
            "grip_balance": (0.1, 0.12),
            "grip_length": (0.25, 0.28),
            "head_inertia": (0.0, 5e-4),
        },
        {},
    ),
    (balance.swing_weight_moment, {"mass": (0.3, 0.45), "balance_point": (0.7, 0.85)}, {}),
    (balance.moment_of_points, {"points": (20.0, 35.0)}, {}),
]
NAMES = [f"{function.__name__}{' ' + str(fixed) if fixed else ''}" for function, _, fixed in CASES]


def parts(answer: Any) -> list[Any]:
    flat: list[Any] = []
    for part in answer if isinstance(answer, tuple) else (answer,):
        flat.extend(part if isinstance(part, tuple) else (part,))
    return flat


@pytest.mark.parametrize(("function", "usual", "fixed"), CASES, ids=NAMES)
def test_an_array_call_equals_its_scalar_calls(function: Any, usual: Any, fixed: Any) -> None:
    generator = np.random.default_rng(1)
    columns = {name: generator.choice(ends, size=(4, 5)) for name, ends in usual.items()}
    together = parts(function(**columns, **fixed))
    for place in np.ndindex(4, 5):
        alone = parts(function(**{name: float(column[place]) for name, column in columns.items()}, **fixed))
        for one, many in zip(alone, together, strict=True):
            assert type(one) in (float, bool, int)
            assert np.shape(many) == (4, 5)
            assert many[place] == pytest.approx(one, rel=1e-11, abs=1e-13)


@pytest.mark.parametrize(("function", "usual", "fixed"), CASES, ids=NAMES)
def test_arguments_broadcast(function: Any, usual: Any, fixed: Any) -> None:
    first, *others = usual
    given = {name: usual[name][0] for name in others}
    found = parts(function(**{first: np.full((2, 1), usual[first][0])}, **given, **fixed))
    assert all(np.shape(part) == (2, 1) for part in found)


@pytest.mark.parametrize(("function", "usual", "fixed"), CASES, ids=NAMES)
def test_what_cannot_be_is_refused_by_name(function: Any, usual: Any, fixed: Any) -> None:
    given = {name: ends[0] for name, ends in usual.items()}
    for name in usual:
        for wrong in (float("nan"), float("inf"), 1e12, "12", None, True):
            if wrong is None and function in (impact.impact, strike.strike, shaft.cut_shaft, air.air):
                continue
            with pytest.raises(BadInput):
                function(**{**given, name: wrong}, **fixed)
        bad = np.array([usual[name][0], float("nan"), usual[name][1], -1e12])
        with pytest.raises(BadInput, match=r"at 1, 3: .*give values from"):
            function(**{**given, name: bad}, **fixed)


@pytest.mark.parametrize(("function", "usual", "fixed"), CASES, ids=NAMES)
@settings(max_examples=60)
@given(data=st.data())
def test_anything_accepted_gives_finite_figures(function: Any, usual: Any, fixed: Any, data: st.DataObject) -> None:
    room = "ground" if function.__module__.endswith("ground") else ""
    drawn = {}
    for name in usual:
        low, high, _ = range_of({"mass_before": "head_mass", "mass_after": "head_mass"}.get(name, name), room)
        drawn[name] = data.draw(st.one_of(st.floats(low, high), st.sampled_from([low, high])), label=name)
    try:
        found = parts(function(**drawn, **fixed))
    except BadInput:
        return
    assert np.isfinite(np.array(found, dtype=float)).all()


def test_the_refusal_names_argument_range_and_elements() -> None:
    with pytest.raises(BadInput) as refused:
        head.lie_error(np.array([0.5, 3.0, 0.4, 2.0]), 0.1)
    assert str(refused.value) == f"loft at 1, 3: the first is 171.887 deg; give values from {range_of('loft')}"


def test_arrays_that_do_not_fit_are_refused() -> None:
    with pytest.raises(BadInput, match="one shape: loft \\(2,\\), lie_error \\(3,\\)"):
        head.lie_error(np.ones(2) * 0.3, np.zeros(3))


def test_numpy_numbers_are_numbers() -> None:
    assert type(ground.green(np.float64(3.0)).deceleration) is float
    assert type(ground.green(np.int64(3)).deceleration) is float
    assert type(ground.green(np.array(3.0)).deceleration) is float
