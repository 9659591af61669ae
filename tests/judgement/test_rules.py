"""The rules check: what is listed, what is refused, and that it never says more than it knows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.judgement.rules import check, keys, rules
from asplayed.quantities import Figure, convert, figure, plain


def entered(value: float | str, unit: str = "1") -> Figure:
    return figure(value, unit, "stated")


def test_what_was_not_entered_of_a_driver_is_not_measured() -> None:
    found = {v.item: v.verdict for v in check({"kind": entered("driver"), "length": entered(45, "in")})}
    assert found["length"] == "ok"
    assert {"lie", "volume", "inertia", "characteristic_time", "grip_width", "neck"} <= set(found)
    assert all(found[item] == "not measured" for item in found if item != "length")
    assert not {"groove_width", "ball_mass", "clubs", "medical"} & set(found)


def test_a_ball_calls_for_the_ball_alone() -> None:
    found = [v.item for v in check({"ball_mass": entered(45.9, "g")})]
    assert found == ["ball_mass", "ball_diameter", "initial_velocity"]


def test_an_iron_calls_for_its_grooves() -> None:
    found = {v.item: v.verdict for v in check({"kind": entered("iron")})}
    assert found["groove_radius"] == "not measured"
    assert "volume" not in found


def test_a_limit_that_does_not_touch_a_kind_is_no_breach() -> None:
    (found,) = (v for v in check({"kind": entered("putter"), "volume": entered(900, "cm3")}) if v.item == "volume")
    assert found.verdict == "ok" and found.sentence == "no limit for a putter"


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ({"colour": entered(3)}, "no rule asks for that"),
        ({"kind": entered("rake")}, "no kind of club"),
        ({"length": entered("long", "in")}, "give a number (in)"),
        ({"length": entered(45, "g")}, "the unit wanted is in"),
        ({"groove_width": []}, "is empty"),
        ({"lie": [entered(60, "deg"), entered(61, "deg")]}, "takes one figure, not 2"),
        ({"medical": entered("perhaps"), "longest": entered(49, "in")}, "say yes or no"),
    ],
)
def test_what_cannot_be_judged_is_refused_in_one_sentence(figures: dict[str, Figure], words: str) -> None:
    with pytest.raises(BadInput) as caught:
        check(figures)
    assert words in str(caught.value)


def test_an_unknown_local_rule_names_the_known_ones() -> None:
    with pytest.raises(BadInput, match="G-2 or G-10"):
        check({"clubs": entered(14)}, ("Z-9",))


def test_older_models_meet_the_groove_limits_only_under_the_local_rule() -> None:
    old = {"kind": entered("sand wedge"), "groove_radius": entered(0.008, "in"), "model_year": entered(2006)}
    without, under = (
        next(v.verdict for v in check(old, local) if v.item == "groove_radius") for local in ((), ("G-2",))
    )
    assert (without, under) == ("ok", "breach")


def test_the_local_rule_on_older_grooves_is_spoken_of() -> None:
    new = {"kind": entered("sand wedge"), "groove_radius": entered(0.012, "in")}
    without, under = (
        next(v.sentence for v in check(new, local) if v.item == "groove_radius") for local in ((), ("G-2",))
    )
    assert "only where G-2 is in force" in without
    assert "before 2010 too" in under


def test_separation_looks_at_the_wider_neighbour() -> None:
    widths = [entered(0.030, "in"), entered(0.034, "in"), entered(0.030, "in")]
    apart = [entered(0.101, "in"), entered(0.103, "in")]
    (found,) = (v for v in check({"groove_width": widths, "groove_separation": apart}) if v.item == "groove_separation")
    # 0.101 in is short of three times 0.034 in (0.102 in) by less than 0.008 in: one of two is half
    assert found.verdict == "breach"


@pytest.mark.parametrize(("width", "verdict"), [(60.1, "ok"), (59.0, "breach")])
def test_a_putters_face_is_wide_enough_for_its_head(width: float, verdict: str) -> None:
    # two thirds of 90 mm face to back are 60 mm, half of 110 mm heel to toe 55 mm
    putter = {"heel_toe": entered(110, "mm"), "face_back": entered(90, "mm"), "face_width": entered(width, "mm")}
    found = {v.item: v.verdict for v in check({"kind": entered("putter"), **putter})}
    assert found["face_width"] == verdict
    alone = {v.item: v.verdict for v in check({"kind": entered("putter"), "face_width": entered(width, "mm")})}
    assert alone["face_width"] == "not measured"


def test_the_word_conforms_is_never_said() -> None:
    for rule in rules():
        assert "conform" not in rule.says.lower()
    for verdict in check({"kind": entered("driver"), "length": entered(45, "in"), "clubs": entered(14)}):
        assert "conform" not in verdict.sentence.lower()
        assert set(plain(verdict)) == {"item", "verdict", "section", "sentence"}


def test_every_key_of_the_bench_is_known() -> None:
    promised = (
        "kind loft lie length volume inertia characteristic_time heel_toe face_back sole_crown face_hardness "
        "grip_width grip_length grips_apart groove_width groove_depth groove_separation groove_area groove_radius "
        "shaft_angle neck clubs shortest longest medical ball_mass ball_diameter initial_velocity"
    )
    assert set(promised.split()) <= set(keys())


@given(st.floats(17, 60))
def test_inches_and_millimetres_judge_alike(length: float) -> None:
    def of(entry: Figure) -> str:
        return next(v.verdict for v in check({"kind": entered("driver"), "length": entry}) if v.item == "length")

    assert of(entered(length, "in")) == of(entered(convert(length, "in", "mm"), "mm"))


@given(st.floats(100, 7000), st.floats(0, 500))
def test_more_of_what_is_limited_never_judges_better(inertia: float, more: float) -> None:
    order = ["ok", "within tolerance", "breach"]

    def of(value: float) -> int:
        found = check({"kind": entered("driver"), "inertia": entered(value, "g*cm2")})
        return order.index(next(v.verdict for v in found if v.item == "inertia"))

    assert of(inertia) <= of(inertia + more)
