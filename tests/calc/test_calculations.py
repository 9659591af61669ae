"""Every calculation runs as its help says, answers in the agreed units, and refuses in one helpful sentence."""

from __future__ import annotations

import json
import shlex
import subprocess
import sys
from typing import Any

import pytest
from click.testing import CliRunner

from asplayed.calc import calculations, compute
from asplayed.calc.calculation import JSON_UNITS
from asplayed.calc.functions import FUNCTIONS
from asplayed.cli import main
from asplayed.cli.calc import command
from asplayed.errors import BadInput

# What callers may rely on: the keys that must be given, those that may stay away, and the results.
AGREED: dict[str, tuple[str, str, str]] = {
    "air": ("temperature humidity", "pressure altitude", "density viscosity pressure"),
    "flight": (
        "ball_speed launch_angle spin_rate",
        "launch_direction spin_axis density viscosity temperature humidity pressure altitude wind_along wind_across "
        "landing_height gravity model drag lift",
        "carry side apex flight_time descent_angle landing_speed landing_spin",
    ),
    "impact": (
        "club_speed head_mass restitution attack_angle dynamic_loft",
        "tangential_restitution friction club_path face_angle",
        "ball_speed launch_angle launch_direction spin_rate spin_axis spin_loft smash slides",
    ),
    "strike": (
        "club_speed head_mass restitution attack_angle dynamic_loft cg_depth inertia_up inertia_heel_toe "
        "inertia_normal",
        "tangential_restitution friction club_path face_angle strike_toe strike_high cg_toe cg_up bulge_radius "
        "roll_radius",
        "ball_speed launch_angle launch_direction spin_rate spin_axis spin_loft smash slides backspin sidespin",
    ),
    "dplane": ("face_angle club_path dynamic_loft attack_angle", "", "spin_loft tilt"),
    "bounce": ("landing_speed descent_angle spin_rate", "friction turf", "forward_speed upward_speed spin_rate"),
    "run": (
        "landing_speed descent_angle spin_rate",
        "green_speed rolling_resistance friction stop_height",
        "run bounces",
    ),
    "green": ("green_speed", "", "deceleration rolling_resistance"),
    "build": (
        "length head_mass head_height shaft_mass shaft_length shaft_balance grip_mass grip_balance grip_length",
        "",
        "mass balance_point moment swing_weight butt_inertia",
    ),
    "balance": ("mass balance_point", "", "moment swing_weight"),
    "match": (
        "length head_height shaft_mass shaft_length shaft_balance grip_mass grip_balance grip_length",
        "swing_weight butt_inertia",
        "head_mass",
    ),
    "frequency": (
        "beam_length tip_mass mass_per_length",
        "stiffness stiffness_clamp stiffness_tip",
        "frequency compliance",
    ),
    "torsion": ("torque span", "", "torsional_stiffness"),
    "tip-bend": ("pull stiffness beam_length cg_offset", "", "slope deflection"),
    "lie-error": ("loft lie_error", "", "direction loft"),
    "sleeve": ("lie tilt", "loft", "held_loft held_face squared_loft soled_face"),
    "sole": ("loft bounce", "bend lean attack_angle", "loft bounce ground_bounce incidence"),
    "toe-hang": ("cg_behind cg_toe cg_up lie", "", "toe_hang"),
    "gap": ("separation spread_long spread_short", "", "swap_probability overlap"),
    "spread": ("shots", "", "median mad scale flagged"),
    "strokes": ("lie distance", "", "strokes"),
    "rules": ("", "", "verdicts"),
}


def asked(*words: str) -> Any:
    found = CliRunner().invoke(command, [*words, "--json"])
    assert found.exception is None, found.exception
    return json.loads(found.stdout)


def given(example: str) -> dict[str, str]:
    return dict(word.split("=", 1) for word in shlex.split(example))


def test_the_calculations_are_the_agreed_ones() -> None:
    assert list(calculations()) == list(AGREED)
    assert {*FUNCTIONS, "rules"} == set(AGREED)


@pytest.mark.parametrize("name", AGREED)
def test_keys_and_results_are_the_agreed_ones(name: str) -> None:
    needs, may, gives = (words.split() for words in AGREED[name])
    calculation = calculations()[name]
    assert [key.name for key in calculation.keys if key.default is None] == needs
    assert {*may} <= {key.name for key in calculation.keys}
    assert [result.name for result in calculation.results] == gives


@pytest.mark.parametrize("name", AGREED)
def test_the_example_runs_in_words_and_in_json(name: str) -> None:
    example = shlex.split(calculations()[name].example)
    answer = asked(name, *example)
    assert list(answer) == ["calc", "inputs", "results"]
    assert answer["calc"] == name
    assert list(answer["results"]) == AGREED[name][2].split()
    for key in given(calculations()[name].example):
        assert key in answer["inputs"]
    told = CliRunner().invoke(command, [name, *example])
    assert told.exit_code == 0
    for result in calculations()[name].results:
        assert name == "rules" or result.name in told.stdout


@pytest.mark.parametrize("name", [name for name in AGREED if name != "rules"])
def test_results_are_figures_in_the_agreed_units(name: str) -> None:
    answer = asked(name, *shlex.split(calculations()[name].example))
    for entry in answer["results"].values():
        for figure in entry if isinstance(entry, list) else [entry]:
            assert {"value", "unit", "source"} <= set(figure)
            assert figure["unit"] in JSON_UNITS
            assert figure["source"] == "computed"
    for key, entry in answer["inputs"].items():
        for figure in entry if isinstance(entry, list) else [entry]:
            stated = key in given(calculations()[name].example)
            assert figure["source"] == ("stated" if stated else "assumed")


@pytest.mark.parametrize("name", AGREED)
def test_help_gives_the_source_and_the_example(name: str) -> None:
    told = CliRunner().invoke(command, [name, "--help"])
    assert told.exit_code == 0
    assert f"asplayed calc {name} {calculations()[name].example}" in told.stdout
    flat = " ".join(told.stdout.split())
    assert f"Source: {calculations()[name].source}" in flat
    for key in calculations()[name].keys:
        assert key.name in told.stdout


def test_without_a_name_all_are_listed() -> None:
    told = CliRunner().invoke(command, []).stdout
    assert all(f"{name} " in told for name in AGREED)
    listed = json.loads(CliRunner().invoke(command, ["--json"]).stdout)["calculations"]
    assert [entry["calc"] for entry in listed] == list(AGREED)


REFUSED = [
    ("flite", "", "did you mean flight?"),
    ("balance", "mass=430 balance_point=27.9in", "mass=430 carries no unit; give a number in kg, g, oz, lb"),
    ("balance", "mass=430in balance_point=27.9in", "is in in; give a number in kg, g, oz, lb"),
    ("balance", "mas=430g balance_point=27.9in", "no key 'mas'; did you mean mass?"),
    ("balance", "mass=-430g balance_point=27.9in", "mass is -430 g; give a value from 1 to 5000 g"),
    ("balance", "mass=430g", "balance needs balance_point"),
    ("balance", "mass=lots balance_point=27.9in", "mass: 'lots' is not a number"),
    ("balance", "mass=430g mass=431g balance_point=27.9in", "mass is given twice"),
    ("balance", "mass", "'mass' is not key=value"),
    ("balance", "mass=nan balance_point=27.9in", "mass: 'nan' is not a number"),
    ("balance", "mass=1e400g balance_point=27.9in", "mass: "),
    ("air", "temperature=20degC humidity=0.5 pressure=101325Pa", "humidity=0.5 carries no unit; give a number in perc"),
    ("air", "temperature=20degC humidity=120percent pressure=101325Pa", "humidity is 120 percent; give a value from 0"),
    ("air", "temperature=20degC humidity=50percent", "pressure, or altitude"),
    ("air", "temperature=20degC humidity=50percent pressure=101325Pa altitude=0ft", "pressure, or altitude"),
    ("flight", "ball_speed=150mph launch_angle=12deg spin_rate=2600rpm density=1.2kg/m3 altitude=0ft", "density, or"),
    (
        "flight",
        "ball_speed=150mph launch_angle=12deg spin_rate=2600rpm model=new",
        "house, smits-smith, bearman-harvey",
    ),
    ("flight", "ball_speed=150mph launch_angle=12deg spin_rate=2600rpm model=constant", "drag and lift"),
    ("flight", "ball_speed=150mph launch_angle=12deg spin_rate=2600rpm drag=0.2", "model=constant"),
    ("bounce", "landing_speed=20m/s descent_angle=40deg spin_rate=2000rpm turf=bog", "one of yielding, hard"),
    ("run", "landing_speed=20m/s descent_angle=40deg spin_rate=2000rpm", "green_speed, or rolling_resistance"),
    ("frequency", "beam_length=40in tip_mass=200g mass_per_length=1.3g/in stiffness_tip=3N*m2", "stiffness_clamp and"),
    ("strokes", "lie=tee distance=20yd", "100 to 500 yd"),
    ("strokes", "lie=bunker distance=20yd", "one of tee, fairway, rough, sand, green"),
    ("spread", "shots=162,165yd", "shots=162 carries no unit"),
    ("spread", "shots=162yd,16mph", "mixes length and speed"),
    ("spread", "shots=,", "shots is empty"),
    ("rules", "", "rules needs at least one figure"),
    ("rules", "lenght=46in", "did you mean length or"),
    ("rules", "length=46", "length"),
    ("rules", "length=46in local_rules=G-3", "G-2 or G-10"),
]


@pytest.mark.parametrize(("name", "words", "sentence"), REFUSED, ids=[f"{n} {w}" for n, w, _ in REFUSED])
def test_bad_input_is_refused_in_a_sentence(
    name: str, words: str, sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(["calc", name, *words.split()])
    told = capsys.readouterr()
    assert left.value.code == 2
    assert told.out == ""
    assert sentence in told.err
    assert told.err.startswith("asplayed: ")
    assert "Traceback" not in told.err
    assert len(told.err.encode()) <= 2000


def test_units_of_one_kind_give_one_answer() -> None:
    metric = compute("balance", {"mass": "430 g", "balance_point": "708.66mm"})
    imperial = compute("balance", {"mass": "0.430kg", "balance_point": "27 9/10 in"})
    assert metric.results["swing_weight"].value == imperial.results["swing_weight"].value == "C8.48"
    assert metric.inputs["balance_point"].unit == "mm"
    assert compute("balance", {"mass": "430g", "balance_point": "70.866cm"}).inputs["balance_point"].unit == "in"


def test_air_may_be_given_in_place_of_its_density() -> None:
    shot = given("ball_speed=167mph launch_angle=10.9deg spin_rate=2686rpm")
    weather = given("temperature=70degF humidity=50percent altitude=0ft")
    there = compute("flight", shot | weather).results["carry"]
    assert there.value == pytest.approx(262.8, abs=0.3)
    assumed = compute("flight", shot).results["carry"]
    assert assumed.value == there.value
    assert "70 °F" in assumed.why


def test_a_shot_says_when_it_lies_outside_the_model() -> None:
    slow = compute("flight", given("ball_speed=20m/s launch_angle=30deg spin_rate=500rpm density=1.2kg/m3"))
    assert "outside the model" in slow.results["carry"].why


def test_a_frequency_names_its_clamp() -> None:
    found = compute("frequency", given(calculations()["frequency"].example)).results["frequency"]
    assert "40.00 in of shaft swing free" in found.why


def test_friction_of_none_and_a_flat_face_are_said() -> None:
    answer = asked("strike", *shlex.split(calculations()["strike"].example), "friction=none")
    assert answer["inputs"]["friction"] == {"value": None, "unit": "1", "source": "stated", "why": "none"}
    assert answer["inputs"]["roll_radius"]["why"] == "flat"
    assert answer["results"]["slides"]["value"] is False


def test_few_shots_and_equal_shots_say_why_nothing_is_flagged() -> None:
    few = compute("spread", {"shots": "160yd,150yd,90yd"}).results["flagged"]
    alike = compute("spread", {"shots": "160yd,160yd,160yd,160yd,90yd"}).results["flagged"]
    near = compute("spread", {"shots": "160yd,162yd,158yd,161yd,157yd"}).results["flagged"]
    assert few.value is None and "fewer than 5 shots" in few.why
    assert alike.value is None and "none is flagged" in alike.why
    assert near.value is None and near.why == "no shot stands apart"


def test_flagged_shots_are_named() -> None:
    one = compute("spread", {"shots": "151yd,148yd,153yd,150yd,118yd"}).results["flagged"]
    two = compute("spread", {"shots": "151yd,148yd,90yd,153yd,150yd,118yd,149yd,152yd"}).results["flagged"]
    assert one.value == 118
    assert one.why == "shot 5 stands apart: modified z −10.79"
    assert two.value == "90, 118"


def test_shots_answer_in_their_own_unit() -> None:
    assert compute("spread", {"shots": "140m,150m,145m"}).results["median"].unit == "yd"
    assert compute("spread", {"shots": "150km/h,152km/h,149km/h"}).results["median"].unit == "m/s"
    assert compute("spread", {"shots": "95mph,97mph,99mph"}).results["median"].unit == "mph"


def test_doubtful_strokes_say_so() -> None:
    assert compute("strokes", {"lie": "rough", "distance": "450yd"}).results["strokes"].why
    assert compute("strokes", {"lie": "fairway", "distance": "160yd"}).results["strokes"].why is None


def test_rules_take_lists_and_local_rules() -> None:
    answer = asked("rules", "kind=wedge", "groove_width=" + ",".join(["0.030in"] * 11 + ["0.0375in"]))
    verdicts = {verdict["item"]: verdict["verdict"] for verdict in answer["results"]["verdicts"]}
    assert verdicts["groove_width"] == "breach"
    plain, local = (asked("rules", "kind=driver", "length=46.25in", *more) for more in ([], ["local_rules=G-10"]))
    found = [
        {verdict["item"]: verdict["verdict"] for verdict in answer["results"]["verdicts"]}["length"]
        for answer in (plain, local)
    ]
    assert found == ["ok", "breach"]


def test_rules_never_say_more_than_that_no_breach_was_found() -> None:
    told = CliRunner().invoke(command, ["rules", "kind=driver", "length=45in"]).stdout
    assert "No breach found in the figures entered." in told
    assert "conform" not in told.lower()


def test_a_closed_formula_starts_without_the_heavy_libraries() -> None:
    script = (
        "import sys; from asplayed.cli import main\n"
        "try:\n    main(['calc', 'frequency', *sys.argv[1:]])\nexcept SystemExit: pass\n"
        "print([name for name in ('numpy', 'scipy', 'numba', 'rich', 'sqlalchemy', 'jinja2') if name in sys.modules])"
    )
    found = subprocess.run(
        [sys.executable, "-c", script, *shlex.split(calculations()["frequency"].example)],
        capture_output=True,
        text=True,
        check=True,
    )
    assert found.stdout.splitlines()[-1] == "[]"


def test_compute_refuses_from_python_too() -> None:
    with pytest.raises(BadInput, match="did you mean balance"):
        compute("balanse", {})
