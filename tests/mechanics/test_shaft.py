"""Laws of the shaft: convergence, scaling, steps and trims."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.errors import BadInput
from asplayed.mechanics import shaft
from asplayed.mechanics.shaft import Section, cut_shaft, frequency, frequency_of_sections, impact_bend


def cpm(**beam: float) -> float:
    usual = {
        "beam_length": 1.0,
        "tip_mass": 0.2,
        "mass_per_length": 0.055,
        "stiffness_clamp": 60.0,
        "stiffness_tip": 25.0,
    }
    return 60 * float(frequency(**{**usual, **beam}).frequency)


def test_the_beam_converges_at_fourth_order(monkeypatch: pytest.MonkeyPatch) -> None:
    found = []
    for parts in (2, 4, 8, 200):
        monkeypatch.setattr(shaft, "ELEMENTS", parts)
        found.append(cpm(tip_mass=0.0, stiffness_tip=60.0))
    errors = [abs(value - found[-1]) for value in found[:-1]]
    assert 12 < errors[0] / errors[1] < 20
    assert 12 < errors[1] / errors[2] < 20


@given(st.floats(0.3, 3.0))
@settings(max_examples=20)
def test_frequency_goes_with_the_root_of_stiffness_over_mass(factor: float) -> None:
    stiffer = cpm(stiffness_clamp=60.0 * factor, stiffness_tip=25.0 * factor)
    heavier = cpm(tip_mass=0.2 * factor, mass_per_length=0.055 * factor)
    assert stiffer == pytest.approx(cpm() * math.sqrt(factor), rel=1e-11)
    assert heavier == pytest.approx(cpm() / math.sqrt(factor), rel=1e-11)


@given(st.floats(0.9, 1.1), st.floats(0, 6e-4), st.floats(0, 0.03))
@settings(max_examples=30)
def test_length_and_a_heads_size_lower_the_frequency(length: float, inertia: float, offset: float) -> None:
    assert cpm(beam_length=length + 0.01) < cpm(beam_length=length)
    assert cpm(tip_inertia=inertia + 1e-5, tip_offset=offset) < cpm(tip_inertia=inertia, tip_offset=offset)
    assert cpm(tip_inertia=inertia, tip_offset=offset + 1e-3) < cpm(tip_inertia=inertia, tip_offset=offset)


def test_a_steel_shafts_steps_lie_between_its_thickest_and_its_thinnest() -> None:
    steps = [Section(0.05, stiffness, stiffness, 0.1, 0.1) for stiffness in 100 - 65 * (np.arange(18) + 0.5) / 18]
    stepped = frequency_of_sections(steps, tip_mass=0.27)
    tapered = frequency_of_sections([Section(0.9, 100, 35, 0.1, 0.1)], tip_mass=0.27)
    assert stepped.frequency == pytest.approx(tapered.frequency, rel=2e-3)
    assert stepped.compliance == pytest.approx(tapered.compliance, rel=4e-3)


def test_the_compliance_of_steps_is_the_sum_of_their_integrals() -> None:
    steps = [Section(0.4, 80.0, 80.0, 0.06, 0.06), Section(0.6, 30.0, 30.0, 0.05, 0.05)]
    exact = (1.0**3 - 0.6**3) / 3 / 80 + 0.6**3 / 3 / 30
    assert frequency_of_sections(steps, tip_mass=0.2).compliance == pytest.approx(exact, rel=1e-12)


@pytest.mark.parametrize(
    ("sections", "sentence"),
    [
        ([], "at least one section"),
        ([Section(0.5, -3.0, 40.0, 0.05, 0.05), Section(0.5, 40.0, 30.0, 0.05, 0.05)], "stiffness is -3"),
        ([Section(0.5, 40.0, 40.0, 0.0, 0.05)], "mass_per_length is 0"),
        ([Section(1.0, 40.0, 40.0, 0.05, 0.05), Section(0.0, 40.0, 40.0, 0.05, 0.05)], "a length above 0"),
        ([Section(float("nan"), 40.0, 40.0, 0.05, 0.05)], "beam_length is nan"),
    ],
)
def test_sections_that_cannot_be_are_refused(sections: list[Section], sentence: str) -> None:
    with pytest.raises(BadInput, match=sentence):
        frequency_of_sections(sections, tip_mass=0.2)


@given(st.floats(0.05, 0.13), st.floats(1.0, 1.2), st.floats(-0.1, 0.1), st.floats(0, 0.1), st.floats(0, 0.2))
def test_a_cut_shaft_and_its_offcuts_make_the_raw_one(
    mass: float, length: float, lean: float, tip: float, butt: float
) -> None:
    balance = length * (0.5 + lean)
    whole = {"raw_mass": mass, "raw_length": length, "raw_balance": balance}
    cut = cut_shaft(**whole, tip_trim=tip, butt_trim=butt)
    at_tip = cut_shaft(**whole, butt_trim=length - tip) if tip > 1e-3 else None
    at_butt = cut_shaft(**whole, tip_trim=length - butt) if butt > 1e-3 else None
    pieces = [(cut.mass, butt + cut.balance)]
    if at_tip:
        pieces.append((at_tip.mass, length - tip + at_tip.balance))
    if at_butt:
        pieces.append((at_butt.mass, at_butt.balance))
    tolerance = 3e-3 if (0 < tip <= 1e-3 or 0 < butt <= 1e-3) else 1e-9
    assert sum(m for m, _ in pieces) == pytest.approx(mass, rel=tolerance)
    assert sum(m * x for m, x in pieces) == pytest.approx(mass * balance, rel=tolerance)


def test_trims_that_leave_nothing_are_refused() -> None:
    with pytest.raises(BadInput, match="leave no shaft"):
        cut_shaft(raw_mass=0.065, raw_length=0.9, tip_trim=0.5, butt_trim=0.5)
    with pytest.raises(BadInput, match="from the butt"):
        cut_shaft(raw_mass=0.065, raw_length=1.2, raw_balance=0.9)


def test_lead_adds_loft_and_closes_the_face_and_droop_flattens() -> None:
    bent = impact_bend(pull=250.0, stiffness=45.0, beam_length=1.0, cg_behind=0.03, cg_toe=0.04, lie=math.radians(58))
    assert bent.loft > 0 > bent.face
    assert bent.lie < 0
    assert 2 < math.degrees(bent.loft) < 5
