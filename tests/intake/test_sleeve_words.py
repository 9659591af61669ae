"""What a sleeve is said to add or to take off."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told


@pytest.mark.parametrize(
    ("said", "change"),
    [
        ("the sleeve adds half a degree so it plays nine and a half", 0.5),
        ("with the sleeve adding three quarters of a degree", 0.75),
        ("but the sleeve adds one, so call it ten", 1.0),
        ("the sleeve takes one degree off", -1.0),
        ("the sleeve is at C1, which takes a degree of loft off", -1.0),
        ("half a degree taken off at the sleeve", -0.5),
        ("but I take three quarters of a degree off with the sleeve", -0.75),
        ("with the sleeve taking off one and a half", -1.5),
    ],
)
def test_the_loft_stays_as_stamped_and_the_sleeve_has_its_change(said: str, change: float) -> None:
    text = f"The driver is a Gannet, nine degrees, {said}. Ostrane 60 S."
    assert told(text, "sleeve.loft_change") == {"driver": change}
    assert told(text, "head.loft") == {"driver": 9.0}


@pytest.mark.parametrize("said", ["lie 1 up", "1 degree upright", "1 up in the lie"])
def test_a_wood_without_a_word_of_its_sleeve_is_bent(said: str) -> None:
    text = f"7 wood Gannet 21, Ostrane 65 R, {said}"
    assert told(text, "bend.lie") == {"7 wood": 1.0}


@pytest.mark.parametrize("said", ["sleeve 1 upright", "sleeve at B1, 1 upright"])
def test_a_wood_whose_sleeve_is_told_is_turned(said: str) -> None:
    assert told(f"7 wood Gannet 21, {said}, Ostrane 65 R", "sleeve.lie_change") == {"7 wood": 1.0}


@pytest.mark.parametrize(
    "said",
    [
        "the sleeve's on B two",
        "sleeve to D one, no, sorry, to B two",
        "sleeve at A1, make that B2",
        "sleeve in position A one, no wait, B two",
    ],
)
def test_a_position_in_words_or_put_right(said: str) -> None:
    text = f"Driver Gannet 9, {said}. Swing weight D1, sorry, D3. Ostrane 60 R, sorry, X."
    assert told(text, "sleeve.position") == {"driver": "B2"}
    assert told(text, "stated.swing_weight") == {"driver": "D3"}
    assert told(text, "shaft.flex") == {"driver": "X"}
