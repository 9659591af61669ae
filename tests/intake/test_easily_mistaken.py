"""Words that are easily taken for something else: hands, lines that begin with a loft, clubs that stay in the set."""

from __future__ import annotations

import pytest

from asplayed.clubs import GolfSet
from asplayed.intake import read


def clubs(golf_set: GolfSet) -> list[str]:
    return [club.club for club in golf_set.clubs]


@pytest.mark.parametrize(
    ("text", "hand", "source"),
    [
        ("Ada Brandt, left-handed\ndriver 9, 45\ngrips +2 wraps under the right hand", "left", "stated"),
        ("driver 9, 45\nputter 35, left hand low", "right", "assumed"),
        ("driver 9, 45\nputter 35, she plays left hand low", "right", "assumed"),
        ("driver 9, 45\nputter 35, left-hand-low", "right", "assumed"),
        ("driver 9, 45, 3 wraps under the left hand", "right", "assumed"),
        ("Ada Brandt, lefty\ndriver 9, 45\nputter 35\ngrips Norrby, thinner under the right hand", "left", "stated"),
        ("Ada Brandt, left hand:\ndriver 9, 45", "left", "stated"),
        ("Ada Brandt plays left\ndriver 9, 45", "left", "stated"),
    ],
)
def test_a_hand_on_the_grip_is_not_the_players(text: str, hand: str, source: str) -> None:
    found = read(text).set
    assert (found.hand, found.hand_source) == (hand, source)


def test_wedges_by_bare_loft_below_a_driver_are_clubs_of_their_own() -> None:
    found = read("driver 9, 45\n56 bent to 55\n60 bent 2 strong")
    assert clubs(found) == ["driver", "sand wedge", "lob wedge"]
    assert [club.bend.loft.value for club in found.clubs[1:] if club.bend.loft] == [-1, -2]


def test_another_model_and_its_stamps_start_new_clubs() -> None:
    found = read("gap wedge Dunlin, Brunholt 105 S\nTurnstone 2 54.14 and 58.08, Quellon 115 R\nputter Lapwing 34")
    assert [club.head.name for club in found.clubs[:3]] == ["Dunlin", "Turnstone 2", "Turnstone 2"]
    assert [club.shaft.name for club in found.clubs[:3]] == ["Brunholt", "Quellon", "Quellon"]
    assert found.clubs[0].head.loft is None


@pytest.mark.parametrize(
    "words",
    ["in the bag since last season", "used every week since last year", "nearly sold it", "never sold", "not for sale"],
)
def test_a_club_stays_in_the_set_unless_it_is_said_to_be_out(words: str) -> None:
    found = read(f"driver 9, 45\n5 wood 18, {words}\nputter 34")
    assert clubs(found) == ["driver", "5 wood", "putter"]
    assert not found.aside


@pytest.mark.parametrize("words", ["sold", "in the garage", "a spare", "retired"])
def test_a_club_said_to_be_out_is_kept_aside(words: str) -> None:
    found = read(f"driver 9, 45\n5 wood 18, {words}\nputter 34")
    assert clubs(found) == ["driver", "putter"]


def test_a_range_may_end_behind_its_model() -> None:
    found = read("driver 9\n4 iron Gannet 5 thru PW, 1 flat")
    irons = found.clubs[1:]
    assert clubs(found)[1:] == ["4 iron", "5 iron", "6 iron", "7 iron", "8 iron", "9 iron", "pitching wedge"]
    assert {club.head.name for club in irons} == {"Gannet 5"}
    assert [club.bend.lie.value for club in irons if club.bend.lie] == [-1] * 7
