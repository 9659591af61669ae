"""Figures and records as words."""

from __future__ import annotations

import pytest

from asplayed.clubs import Bend, Club, Sleeve, Weight
from asplayed.quantities import Figure, Parent, Source, convert, figure
from asplayed.telling import words


@pytest.mark.parametrize(
    ("given", "text"),
    [
        (figure(44.75, "in", "stated"), "44¾ in"),
        (figure(35.8125, "in", "stated"), "35 13/16 in"),
        (figure(1130, "mm", "stated"), "1130 mm"),
        (figure(-0.75, "deg", "stated"), "−0.75°"),
        (figure(9.7500000001, "deg", "computed"), "9.75°"),
        (figure(56.5243, "deg", "computed"), "56.5°"),
        (figure(-0.04, "deg", "computed"), "0°"),
        (figure(2793.28, "kg*cm2", "computed"), "2793 kg·cm²"),
        (figure(287.06, "cpm", "computed"), "287 cpm"),
        (figure(0.9374999, "in", "computed"), "15/16 in"),
        (figure(324.18, "g", "computed"), "324 g"),
        (figure(1.4, "mm", "computed"), "1.4 mm"),
        (figure("D2.5", "1", "stated"), "D2.5"),
        (figure(None, "g", "stated"), "—"),
        (None, "—"),
    ],
)
def test_values(given, text):
    assert words.value_text(given) == text


@pytest.mark.parametrize(
    ("given", "text"),
    [
        (figure(56, "deg", "stated", tolerance=0.25), "±0.25°"),
        (figure(37, "in", "measured", tolerance=1 / 16), "±1/16 in"),
        (figure(37, "in", "measured", tolerance=1 / 8), "±⅛ in"),
        (Figure(9.75, "deg", Source.COMMON_PRACTICE, low=9, high=10.5), "±0.75°"),
        (Figure(42.5, "in", Source.COMMON_PRACTICE, low=42, high=42.5), "42 to 42½ in"),
        (Figure(None, "g", Source.STATED, low=105, high=120), "105 to 120 g"),
        (Figure(2793.28, "kg*cm2", Source.COMPUTED, low=2743.96, high=2843.92), "±51 kg·cm²"),
        (Figure(287.06, "cpm", Source.COMPUTED, low=278.9, high=295.3), "±8.2 cpm"),
        (Figure(317.1, "g", Source.COMPUTED, low=309.7, high=322.9), "310 to 323 g"),
        (Figure(0.9312, "in", Source.COMPUTED, low=0.9189, high=0.9416), "0.919 to 0.942 in"),
        (Figure(9.49, "in", Source.COMPUTED, low=9.313, high=9.667), "±0.18 in"),
        (figure(8, "g", "stated", tolerance=0), ""),
        (figure(56, "deg", "stated"), ""),
        (figure("D2", "1", "stated"), ""),
        (None, ""),
    ],
)
def test_bands(given, text):
    assert words.band_text(given) == text


def test_a_swing_weights_band_is_read_off_the_scale():
    # A0 is 0 points and every letter ten: 27.1 points read C7.1, 32.9 read D2.9
    points = Figure(30.0, "1", Source.COMPUTED, low=27.1, high=32.9)
    weight = Figure("D0.0", "1", Source.COMPUTED, parents=(Parent("points", points),))
    assert words.band_text(weight) == "C7.1 to D2.9"


def test_settings_say_which_way():
    club = Club(
        club="driver",
        kind="driver",
        sleeve=Sleeve(
            position="upper", loft_change=figure(-0.75, "deg", "stated"), lie_change=figure(1.5, "deg", "stated")
        ),
        weights=(Weight(place="toe", mass=figure(8, "g", "stated")), Weight(place="draw", step=2)),
        bend=Bend(loft=figure(-1, "deg", "stated"), lie=figure(2, "deg", "stated")),
        length_change=figure(-0.5, "in", "stated"),
    )
    assert words.settings(club) == [
        "sleeve upper: 0.75° strong and 1.5° upright",
        "8 g at toe",
        "weight draw step 2",
        "bent 1° strong",
        "bent 2° upright",
        "built ½ in short",
    ]


def test_a_bend_of_nought_is_no_setting():
    assert words.settings(Club(club="7 iron", kind="iron", bend=Bend(loft=figure(0, "deg", "stated")))) == []


def test_millimetres_use_the_exact_inch():
    assert words.millimetres(figure(36.5, "in", "stated")) == "927 mm"  # 36.5 · 25.4 = 927.1
    assert convert(1, "in", "mm") == pytest.approx(25.4)


def test_long_words_are_cut_with_an_ellipsis():
    assert words.shorten("Harrowmere", 10) == "Harrowmere"
    assert words.shorten("Harrowmere Kittiwake", 10) == "Harrowmer…"
