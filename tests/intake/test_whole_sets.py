"""What is said once of many clubs, of the rest, of clubs that are missing, or of a figure that cannot be meant."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from asplayed.intake import read
from asplayed.quantities import plain

sys.path.insert(0, str(Path(__file__).parent))

from scoring import _find, _value
from told import told

LIST = "Driver Gannet 9\n4-6 iron Sorrel\nPW Sorrel 46\n52 wedge Burr\nPutter Stint\n"


@pytest.mark.parametrize(
    ("said", "bare"),
    [
        ("Same grip in all of them, the Cordwain 48 g", set()),
        ("Grips on everything are Cordwain", set()),
        ("All of those get the Cordwain with 2 extra wraps.", set()),
        ("Grips: Cordwain", {"putter"}),
        ("Cordwain grips throughout, not putter", {"putter"}),
        ("Cordwain grips throughout, but the putter has its own.", {"putter"}),
    ],
)
def test_a_grip_said_once_reaches_the_clubs_it_is_said_of(said: str, bare: set[str]) -> None:
    clubs = {"driver", "4 iron", "5 iron", "6 iron", "pitching wedge", "gap wedge", "putter"}
    assert told(LIST + said, "grip.name") == dict.fromkeys(clubs - bare, "Cordwain")


@pytest.mark.parametrize(
    ("said", "clubs"),
    [
        ("All irons 1 degree flat.", {"4 iron", "5 iron", "6 iron", "pitching wedge"}),
        ("All irons and wedges 1 degree flat.", {"4 iron", "5 iron", "6 iron", "pitching wedge", "gap wedge"}),
    ],
)
def test_the_irons_have_their_pitching_wedge_with_them(said: str, clubs: set[str]) -> None:
    assert told(LIST + said, "bend.lie") == dict.fromkeys(clubs, -1.0)


def test_a_shaft_told_at_last_of_both_is_lent_back() -> None:
    text = (
        "The driver is a Gannet of 11 degrees. The 3 hybrid wears the same shaft as the driver, an Osier 50 in regular."
    )
    assert told(text, "shaft.name") == {"driver": "Osier", "3 hybrid": "Osier"}


@pytest.mark.parametrize(("unit", "driver", "putter"), [("centimetres", "113.5", "86"), ("mm", "1135", "860")])
def test_a_unit_of_length_said_once_is_that_of_every_length(unit: str, driver: str, putter: str) -> None:
    text = f"All lengths in {unit}.\nDriver; Gannet; 9.5°; Osier 55 S; {driver}\nPutter; Stint; 3°; {putter}\n"
    assert told(text, "length") == {
        "driver": pytest.approx(44.685, abs=5e-4),
        "putter": pytest.approx(33.858, abs=5e-4),
    }
    assert told(text, "shaft.mass") == {"driver": 55.0}


@pytest.mark.parametrize("gap", ["5-9 iron Sorrel, the 7 is missing", "Irons 5 to 9 (no 7) Sorrel"])
def test_an_iron_said_to_be_missing_is_left_out_of_its_range(gap: str) -> None:
    assert [club["club"] for club in plain(read(gap))["clubs"]] == ["5 iron", "6 iron", "8 iron", "9 iron"]


def test_a_figure_that_cannot_be_meant_is_asked_for_and_left_out() -> None:
    record = plain(read("7 iron Sorrel, 23 lie, Osier 100 S"))
    club = record["clubs"][0]
    assert _value(_find(club, "as_played.lie")) is None
    assert _value(_find(club, "shaft.name")) == "Osier"
    assert any("23" in question["text"] and "40 and 90 deg" in question["text"] for question in record["questions"])


def test_words_of_one_line_of_speech_make_no_number_with_the_next_club() -> None:
    first = "[0:04] five wood Gannet, eighteen degrees, Osier in seventy"
    text = f"{first}\n[0:17] four hybrid is a Burr, twenty two degrees\n"
    assert told(text, "shaft.mass") == {"5 wood": 70.0}
    assert told(text, "head.loft") == {"5 wood": 18.0, "4 hybrid": 22.0}


def test_dictated_names_in_small_letters_are_heard_beside_a_person_in_capitals() -> None:
    text = "okay, player is Ada Brandt. driver, gannet, nine point five degrees, osier sixty stiff. putter a stint."
    assert told(text, "head.name") == {"driver": "gannet", "putter": "stint"}


@pytest.mark.parametrize(
    "irons",
    [
        "Irons 6-PW Gannet and the matching gap wedge. Reed 80 R.",
        "Irons 6-PW Gannet, and there's a gap wedge from the set. Reed 80 R.",
    ],
)
def test_a_shaft_behind_the_irons_sentence_is_all_theirs(irons: str) -> None:
    masses = told(f"driver Burr 10\n{irons}\nputter Stint", "shaft.mass")
    assert list(masses) == ["6 iron", "7 iron", "8 iron", "9 iron", "pitching wedge", "gap wedge"]
    assert set(masses.values()) == {80}


_IRONS = "Irons six through PW, Gannet CB. Reed 75 g regular. "
_WEDGES = "Wedges 50, 54, 58 Crane. "


@pytest.mark.parametrize(
    ("said", "bends"),
    [
        ("Bend the eight and the nine a degree strong.", {"8 iron": -1, "9 iron": -1}),
        ("I've bent the 8, 9 and pitching wedge one degree weak.", {"8 iron": 1, "9 iron": 1, "pitching wedge": 1}),
        (_WEDGES + "Bend the 50 and the 54 one degree weak.", {"gap wedge": 1, "sand wedge": 1}),
        (
            _WEDGES + "I've bent the 8 and 9 a degree strong and the 58 a degree weak.",
            {"8 iron": -1, "9 iron": -1, "lob wedge": 1},
        ),
        (_WEDGES + "The 8 and 9 are a degree strong.", {"8 iron": -1, "9 iron": -1}),
    ],
)
def test_clubs_told_by_number_between_bend_and_how_far(said: str, bends: dict[str, float]) -> None:
    assert told(_IRONS + said, "bend.loft") == bends


@pytest.mark.parametrize(
    "bounces",
    [
        "ten of bounce on the gap and twelve on the sand",
        "10 bounce on the gap wedge and 12 on the sand wedge",
        "bounce 10 on the gap, 12 on the sand",
    ],
)
def test_what_follows_figures_told_apart_is_of_both_clubs_again(bounces: str) -> None:
    text = f"Then a gap wedge at 51 and a sand wedge at 56, both Crane Bar, {bounces}, Reed Iron, eighty-five grams, S."
    assert told(text, "head.bounce") == {"gap wedge": 10, "sand wedge": 12}
    assert told(text, "shaft.name") == dict.fromkeys(("gap wedge", "sand wedge"), "Reed Iron")
    assert told(text, "shaft.mass") == dict.fromkeys(("gap wedge", "sand wedge"), 85)


def test_those_are_the_last_clubs_told_of_together() -> None:
    text = (
        "[0:05] the irons are Gannet MB, eight through pitching wedge\n"
        "[0:10] all shafted with the Reed, a hundred and twenty grams, X\n"
        "[0:22] wedges, fifty-two and sixty, both are the Crane T\n"
        "[0:28] Reed again in those but a hundred and thirty grams, and S\n"
        "[0:33] and I've bent the sixty to sixty-one\n"
        "[0:38] he did try a seven wood but that's gone back in the rack\n"
    )
    irons, wedges = ("8 iron", "9 iron", "pitching wedge"), ("gap wedge", "lob wedge")
    assert told(text, "shaft.mass") == dict.fromkeys(irons, 120) | dict.fromkeys(wedges, 130)
    assert told(text, "shaft.flex") == dict.fromkeys(irons, "X") | dict.fromkeys(wedges, "S")
    assert told(text, "head.name") == dict.fromkeys(irons, "Gannet MB") | dict.fromkeys(wedges, "Crane T")
    assert told(text, "bend.loft") == {"lob wedge": 1}
