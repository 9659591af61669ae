"""One grip told of the whole set, in whatever order the sentence says it, and the clubs it leaves out."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told

_SET = "driver Gannet 10, Reed 60 S\n3 wood Gannet 15, Reed 70 S\nsand wedge Burr 56\nputter Stint 34\n"


@pytest.mark.parametrize(
    "sentence",
    [
        "All grips Norrby Cord except on the putter.",
        "Norrby Cord grips on all but the putter",
        "Fat grips everywhere but on the putter: Norrby Cord",
        "Grips, Norrby Cord, on all clubs except the putter",
        "Every club has a Norrby Cord grip apart from the putter.",
        "Grips: Norrby Cord on everything bar the putter.",
    ],
)
def test_a_grip_of_all_but_the_putter(sentence: str) -> None:
    assert told(_SET + sentence, "grip.name") == dict.fromkeys(("driver", "3 wood", "sand wedge"), "Norrby Cord")


def test_the_grip_of_the_excepted_club_is_told_behind_it() -> None:
    text = (
        _SET + "All grips Norrby Cord, 42 g, with two extra wraps, except on the putter, which has a Bolster of 90 g."
    )
    assert told(text, "grip.name")["putter"] == "Bolster"
    assert told(text, "grip.mass") == {"driver": 42, "3 wood": 42, "sand wedge": 42, "putter": 90}
    assert told(text, "grip.wraps") == {"driver": 2, "3 wood": 2, "sand wedge": 2}


@pytest.mark.parametrize(
    "text",
    [
        "All clubs below: grip Norrby Cord, 1 extra wrap\n" + _SET,
        _SET + "All four clubs: grip Norrby Cord, one extra wrap of tape.",
        _SET.replace("\n", " | ") + "Norrby Cord grips on all, 1 extra wrap",
    ],
)
def test_a_grip_of_all_clubs(text: str) -> None:
    names, wraps = told(text, "grip.name"), told(text, "grip.wraps")
    assert set(names.values()) == {"Norrby Cord"} and set(wraps.values()) == {1}
    assert len(names) == len(wraps) == 4
