"""The colours can be read: contrast by the formula of WCAG 2.2 (definitions "contrast ratio", "relative luminance")."""

from __future__ import annotations

import pytest

from asplayed.telling.palette import DARK, LIGHT, PAPER, declarations

SETS = pytest.mark.parametrize("colours", [LIGHT, DARK, PAPER], ids=["light", "dark", "paper"])


def luminance(colour: str) -> float:
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_published_ends():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@SETS
@pytest.mark.parametrize("ink", ["ink", "quiet", "alarm"])
@pytest.mark.parametrize("ground", ["ground", "wash"])
def test_words_can_be_read_on_every_ground(colours, ink, ground):
    assert contrast(colours[ink], colours[ground]) >= 4.5


@SETS
@pytest.mark.parametrize("shape", ["club", "line", "ink"])
def test_shapes_stand_out_from_the_ground(colours, shape):
    assert contrast(colours[shape], colours["ground"]) >= 3


@SETS
def test_a_dot_stands_out_from_the_usual_bar(colours):
    assert contrast(colours["club"], colours["wash"]) >= 3


def test_paper_is_grey_and_all_sets_name_the_same_colours():
    assert all(colour[1:3] == colour[3:5] == colour[5:7] for colour in PAPER.values())
    assert set(LIGHT) == set(DARK) == set(PAPER)
    assert declarations(PAPER).count(";") == len(PAPER)
