"""Words that are easily taken for something else: hands, lines that begin with a loft, clubs that stay in the set."""

from __future__ import annotations

import pytest

from asplayed.catalogue import Part
from asplayed.clubs import GolfSet
from asplayed.errors import BadInput
from asplayed.intake import read
from asplayed.intake.answers import Answer, answer


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


CATALOGUE = [
    Part(part="shaft", maker="Brunholt", model="Strand"),
    Part(part="shaft", maker="Lindrake", model="Ember"),
    Part(part="grip", maker="Tessary", model="Corded"),
]


@pytest.mark.parametrize(
    ("first", "player"),
    [
        ("Halvard Strand", "Halvard Strand"),
        ("Kit Ember", "Kit Ember"),
        ("Jonas Strand, handicap 9, driver speed 101 mph", "Jonas Strand"),
        ("Priya Lindqvist, 8 March 2026, 96 mph driver", "Priya Lindqvist"),
    ],
)
def test_a_player_keeps_a_name_that_a_shaft_has_too(first: str, player: str) -> None:
    text = f"{first}\n3 wood 15, Ember 70 S, 43\n5-PW Gannet, Strand 105 S"
    for parts in ([], CATALOGUE):
        found = read(text, parts=parts)
        assert found.set.player == player
        assert [club.club for club in found.clubs][:2] == ["3 wood", "5 iron"]
        assert {club.shaft.name for club in found.clubs} == {"Ember", "Strand"}


def test_a_maker_and_a_model_are_one_grip() -> None:
    text = "driver Whimbrel 9, Ember 60 S\n54.10 and 58.08, Quellon 115 S\nputter 34\nGrips: Tessary Corded midsize"
    found = read(text, parts=CATALOGUE)
    assert [club.grip.name for club in found.clubs if club.grip] == ["Tessary Corded"] * 3
    assert not [question for question in found.questions if question.about == "grip.name"]


def test_an_answer_may_name_a_group_of_clubs() -> None:
    found = answer(read("driver 9\n5-7 irons, D2\nputter 34"), [Answer("irons", "head.name", "Gannet")])
    assert [club.head.name for club in found.clubs] == [None, "Gannet", "Gannet", "Gannet", None]


def test_an_answer_for_a_group_ends_the_questions_of_its_clubs() -> None:
    asked = read("driver 9\n5 iron 24, 38 or 38.5\n6 iron 27, 37 or 37.5\nputter 34")
    assert {question.club for question in asked.questions} == {"5 iron", "6 iron"}
    assert not answer(asked, [Answer("irons", "length", "38")]).questions


def test_a_group_that_is_not_in_the_set_cannot_be_answered() -> None:
    with pytest.raises(BadInput, match="names no club of the list"):
        answer(read("driver 9\nputter 34"), [Answer("hybrids", "head.name", "Gannet")])


def test_a_position_in_brackets_is_the_sleeves() -> None:
    found = read("driver Whimbrel 9, sleeve one click up (N+), Lindrake Ember 60 TX, 45\nputter 34")
    sleeve = found.clubs[0].sleeve
    assert sleeve is not None
    assert sleeve.position == "N+"
    assert not found.not_understood


@pytest.mark.parametrize("words", ["she switched in May", "unchanged since March"])
def test_a_month_is_no_name_of_a_ball(words: str) -> None:
    ball = read(f"driver 9, 45\nball: Pellan Dart, yellow, {words}.").ball
    assert ball is not None
    assert (ball.name, ball.colour) == ("Pellan Dart", "yellow")


def test_what_was_done_on_a_round_is_no_figure_of_a_club() -> None:
    found = read("driver 9, 45\nputter 34\nGreat week, she made 22 birdies lol")
    assert not found.questions
    assert found.clubs[1].head.loft is None
    assert "made 22 birdies" in found.not_understood[0].text


@pytest.mark.parametrize("text", ['driver "9.0" at D3', 'driver: "9.0", D3', 'driver Gannet "9.0" 45" D3'])
def test_a_quoted_loft_is_the_loft(text: str) -> None:
    club = read(f"{text}\nputter 34").clubs[0]
    assert club.head.loft is not None
    assert club.head.loft.value == 9
    assert club.stated.swing_weight is not None
