"""Where the saw goes, and the frequency plan: arithmetic by hand, published sensitivities, laws that must hold."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.workshop.cuts import check_tip, cuts, tip_kind
from asplayed.workshop.stiffness import Beam, plan, trimmed_frequency

INCH = 0.0254


@given(
    length=st.floats(33, 46),
    spare=st.floats(0, 6),
    bore_to_sole=st.floats(0.75, 2),
    bore_depth=st.floats(1, 1.75),
    cap=st.floats(0.1, 0.3),
    tip_trim=st.floats(0, 3),
)
def test_what_is_left_stands_up_to_the_length_ordered(
    length: float, spare: float, bore_to_sole: float, bore_depth: float, cap: float, tip_trim: float
) -> None:
    raw = length - bore_to_sole - cap + tip_trim + spare
    found = cuts(
        raw_length=raw, length=length, bore_to_sole=bore_to_sole, bore_depth=bore_depth, cap=cap, tip_trim=tip_trim
    )
    assert found.tip + found.left + found.butt == pytest.approx(raw)
    assert bore_to_sole + found.left + cap == pytest.approx(length)
    assert found.butt == pytest.approx(spare, abs=1e-6)
    assert found.beyond_hosel + bore_depth == pytest.approx(found.left)


def test_a_shaft_that_is_too_short_is_refused_with_how_much() -> None:
    with pytest.raises(BadInput, match=r"38 in is 2\.19 in too short.*longer blank"):
        cuts(raw_length=38, length=41, bore_to_sole=1.125, bore_depth=1.25, cap=0.1875, tip_trim=0.5)


@pytest.mark.parametrize("wrong", ["raw_length", "length", "bore_depth", "cap", "tip_trim", "bore_to_sole"])
def test_lengths_that_cannot_be_are_refused_by_name(wrong: str) -> None:
    usual = {"raw_length": 41.0, "length": 37.0, "bore_to_sole": 1.25, "bore_depth": 1.1, "cap": 0.2, "tip_trim": 0.0}
    with pytest.raises(BadInput, match=wrong.replace("_", " ")):
        cuts(**{**usual, wrong: 77.0})
    with pytest.raises(BadInput, match="cannot be"):
        cuts(**{**usual, wrong: -1.0})


def test_tips_go_into_bores_made_for_them() -> None:
    # 0.335 woods, 0.370 parallel irons, 0.355 taper irons: common practice
    assert [tip_kind(tip) for tip in (0.335, 0.35, 0.37, 0.355, None)] == ["parallel"] * 3 + ["taper", None]
    check_tip(0.37, 0.375, 0.5)
    for tip, bore, trim, words in (
        (0.355, None, 0.5, "taper tip"),
        (0.37, 0.355, 0.0, "does not go into a bore"),
        (0.335, 0.37, 0.0, "loose"),
    ):
        with pytest.raises(BadInput, match=words):
            check_tip(tip, bore, trim)


def uniform(length: float, head: float, cpm: float) -> Beam:
    return Beam((length - 5) * INCH, head, 0.110 / (37 * INCH), cpm / 60)


def test_an_inch_of_tip_is_worth_what_the_linear_taper_says() -> None:
    # EI 75 to 25 N·m², 40 in beam, 200 g: +2.84 and +2.80 cpm an inch, derived; the trade says 1.5 to 4
    driver = Beam(40 * INCH, 0.2, 0.060 / (46 * INCH), 273.54 / 60)
    gains = [60 * (trimmed_frequency(driver, n * INCH) - driver.frequency) for n in (1, 2)]
    assert gains[0] == pytest.approx(2.84, abs=0.1)
    assert gains[1] - gains[0] == pytest.approx(2.80, abs=0.1)


@settings(deadline=None, max_examples=25)
@given(st.lists(st.floats(-3, 3), min_size=2, max_size=8))
def test_the_plan_only_stiffens_and_brings_every_club_onto_one_line(off: list[float]) -> None:
    lengths = [39 - 0.5 * place for place in range(len(off))]
    beams = [
        uniform(length, 0.242 + 0.007 * place, 300 + 4 * place + extra)
        for place, (length, extra) in enumerate(zip(lengths, off, strict=True))
    ]
    try:
        found = plan(beams, [length * INCH for length in lengths], 8 / 60 / INCH)
    except BadInput as fault:
        assert "stiffer blank" in str(fault)
        return
    above = [60 * club.frequency + 8 * length for club, length in zip(found, lengths, strict=True)]
    assert max(above) - min(above) < 0.01
    assert min(club.trim for club in found) == 0
    assert all(club.trim >= 0 for club in found)


def test_a_club_too_soft_for_its_line_is_refused() -> None:
    with pytest.raises(BadInput, match="take a stiffer blank"):
        plan([uniform(38, 0.256, 330), uniform(37.5, 0.263, 300)], [38 * INCH, 37.5 * INCH], 8 / 60 / INCH)
    assert plan([], [], 1.0) == ()
