"""Figures told by steps from club to club."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from asplayed.intake import read
from asplayed.quantities import Source

sys.path.insert(0, str(Path(__file__).parent))

from told import told

RUN = ["5 iron", "6 iron", "7 iron", "8 iron"]


@pytest.mark.parametrize(
    "said",
    [
        "5 iron 38 in, then half an inch less each club",
        "5i 38 then 1/2 less each club",
        'The 5 iron is 38" and each club after it is 0.50" shorter',
        "5 iron to 965.2 mm and every one after it 12.7 mm shorter than the one before",
    ],
)
def test_lengths_go_down_from_the_first(said: str) -> None:
    lengths = told(f"driver Burr 9\nIrons 5-8 Gannet\n{said}.", "length")
    assert [lengths[club] for club in RUN] == pytest.approx([38.0, 37.5, 37.0, 36.5], abs=0.001)


def test_lies_go_up_from_the_first() -> None:
    text = "driver Burr 9. Irons 5-8 Gannet. "
    text += "The lie of the 5 iron is 61.0° and each club after it is 0.5° more upright."
    lies = told(text, "as_played.lie")
    assert [lies[club] for club in RUN] == [61.0, 61.5, 62.0, 62.5]


def test_a_step_from_the_club_before_the_row() -> None:
    text = "6 iron Gannet 29°, 37.5 in\n7 and 8 iron: Gannet, each 12.7 mm shorter than the one before it"
    assert told(text, "length") == pytest.approx({"6 iron": 37.5, "7 iron": 37.0, "8 iron": 36.5}, abs=0.001)


def test_a_club_that_has_its_own_figure_keeps_it() -> None:
    lengths = told("driver Burr 9\nIrons 7-PW Gannet\n7i 37 in then 1/2 less each club, PW 35.75 in", "length")
    assert lengths == {"7 iron": 37.0, "8 iron": 36.5, "9 iron": 36.0, "pitching wedge": 35.75}


@pytest.mark.parametrize("said", ["half an inch short each", "1 up each", "each ½ in over standard"])
def test_a_change_from_standard_is_no_step(said: str) -> None:
    text = f"Irons 5-8 Gannet, {said}"
    changes = {**told(text, "length_change"), **told(text, "bend.lie")}
    assert set(changes) == set(RUN)
    assert len(set(changes.values())) == 1


def test_a_figure_stepped_to_tells_what_it_was_worked_out_from() -> None:
    golf_set = read("driver Burr 9\nIrons 7-9 Gannet\n7i 37 in then 1/2 less each club")
    length = golf_set.clubs[2].length
    assert length is not None
    assert (length.value, length.source, length.why) == (36.5, Source.STATED, "37 in, and then 1/2 less each club")


@pytest.mark.parametrize(
    "said",
    [
        "95 g in the 5 iron up to 101 g in the 8 iron",
        "from 95 grams in the five to 101 in the eight",
        "95 g (5 iron) to 101 g (8 iron)",
        "the five iron at 95 g rising to 101 g in the 8 iron",
        "weights go from 95 g in the five up to 101 g in the eight",
    ],
)
def test_masses_told_of_both_ends_of_the_irons_are_spread_when_they_ascend(said: str) -> None:
    masses = told(f"driver Burr 9\nIrons 5-8 Gannet, Ostrane S, ascending, {said}.", "shaft.mass")
    assert [masses[club] for club in RUN] == [95.0, 97.0, 99.0, 101.0]


@pytest.mark.parametrize(
    "said",
    [
        "38 inches in the 5 iron down to 36.5 in the 8 iron",
        "Lengths run from 38 in the 5 iron to 36.5 in the 8 iron",
        'the 5 iron at 38" down to the 8 iron at 36.5"',
    ],
)
def test_lengths_told_of_both_ends_are_the_ends_alone(said: str) -> None:
    lengths = told(f"driver Burr 9\nIrons 5-8 Gannet, Ostrane 110 S. {said}.", "length")
    assert lengths == {"5 iron": 38.0, "8 iron": 36.5}
