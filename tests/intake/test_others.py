"""Clubs of other people that a list tells of beside the set, and who the player is where it says so outright."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import set_aside, told

from asplayed.intake import read

_SET = "My driver is a Gannet 2, 10.5 degrees, 45 inches. My irons are 5-PW Dunlin.\n"


@pytest.mark.parametrize(
    ("sentence", "aside"),
    [
        ("My old driver was forty-six and I was all over the place.", "old driver was forty-six"),
        ("My grandfather played here too. His driver was wooden and 43 inches.", "His driver was wooden"),
        ("A lot of players out here are on the Orrin Nine driver.", "Orrin Nine driver"),
        ("My partner has the Quarto 3 iron and swears by it.", "has the Quarto 3 iron"),
        ("The guy I played yesterday had a 48-inch driver.", "48-inch driver"),
        ("Hit Bram's 5-wood as well, but my own irons do the same job.", "Bram's 5-wood"),
        ("My brother plays his an inch long, mine are as they were.", "plays his an inch long"),
        ("The wife's is the Petal 12 degree, that stays with her.", "Petal 12 degree"),
        ("The vice-captain, by contrast, swears by a 9 wood.", "swears by a 9 wood"),
        ("Dad says hi, he loves his new Ember driver.", "his new Ember driver"),
        ("My mate wants to swap me his Ferro 3 wood for it.", "his Ferro 3 wood"),
        ("You play yours two flat, don't you?", "play yours two flat"),
        ("Compared with: his own Furlong 8 driver, 9 deg", "his own Furlong 8"),
        ("Don't bother with the old sixty degree, that one's going to my nephew.", "the old sixty degree"),
        ("The three and the four went to the scrap man.", "went to the scrap man"),
        ("That seven wood's for the coach.", "seven wood's for the coach"),
        ("The 9 wood in the same bag is her sister's, do not touch.", "9 wood in the same bag"),
        ("The nine wood in here is from my uncle so skip that.", "from my uncle"),
        ("The loose 9 wood on the bench belongs to Mrs Creel.", "belongs to Mrs Creel"),
        ("The demo 7 wood I borrowed can go back whenever.", "demo 7 wood"),
        ("And my old Cassia driver is on the second-hand rack already.", "old Cassia driver"),
        ("The old brassie over the fireplace is for show.", "brassie over the fireplace"),
        ("Not his: one 7 iron marked R", "one 7 iron"),
    ],
)
def test_what_others_have_is_kept_aside(sentence: str, aside: str) -> None:
    text = _SET + sentence
    assert told(text, "head.loft") == {"driver": 10.5}
    assert told(text, "length") == {"driver": 45.0}
    assert list(told(text, "kind")) == list(told(_SET, "kind"))
    assert not told(text, "bend.lie")
    assert aside in " ".join(set_aside(text))


@pytest.mark.parametrize(
    "sentence",
    [
        "The putter is a Stint that my late father used, 35 inches.",
        "The putter was my grandmother's, a Stint of 35 inches.",
        "Putter: one of mine, a Stint, 35 inches",
    ],
)
def test_what_somebody_had_before_is_in_the_set(sentence: str) -> None:
    assert told(_SET + sentence, "length")["putter"] == 35


@pytest.mark.parametrize(
    ("talk", "aside"),
    [
        (
            "MAL: The driver?\nADA: Gannet 9, 45 in.\nMAL: I've got a ten degree Tamber.\nADA: 3 wood Gannet 15.",
            "Tamber",
        ),
        ("Reece: what do you play\nAda: driver Gannet 9, 45 in\nReece: mine's 46\nAda: 3w Gannet 15", "mine's 46"),
        (
            "HOST: So what's in there?\nAda: Driver, Gannet 9, 45.\nHOST: I use eleven!\nAda: 3 wood, Gannet 15.",
            "eleven",
        ),
        ("Vik: bag?\nAda: Driver Gannet 9, 45 in\nAmy: I've the Gannet too but in 12\nAda: 3w Gannet 15", "12"),
    ],
)
def test_who_asks_tells_nothing_of_the_set(talk: str, aside: str) -> None:
    assert told(talk, "head.loft") == {"driver": 9, "3 wood": 15}
    assert told(talk, "length") == {"driver": 45}
    assert (read(talk).set.player or "").casefold() == "ada"
    assert aside in " ".join(set_aside(talk))


def test_what_was_asked_of_before_is_no_club_of_today() -> None:
    talk = "Q: What did you have before?\nA: A Burr 1 driver, 9 degrees.\nQ: And now?\nA: Gannet 4, 10.5, 44.5 inches."
    assert told(talk, "head.name") == {"driver": "Gannet 4"}
    assert told(talk, "head.loft") == {"driver": 10.5}


def test_a_last_cell_for_sale_leaves_the_others() -> None:
    line = "D: Gannet 2 9° | 3w: Gannet 2 15° | irons: Dunlin 4-PW | for sale: Cobbett One driver"
    assert told(line, "head.name")["driver"] == "Gannet 2"
    assert len(told(line, "kind")) == 9
    assert set_aside(line) == ["for sale: Cobbett One driver"]


_CLUBS = "driver Gannet 10.5, Reed 60 S\n3 wood Gannet 15, Reed 70 S\n"


@pytest.mark.parametrize(
    ("text", "player"),
    [
        ("hi Ada Brandholt here\n" + _CLUBS, "Ada Brandholt"),
        ("hey everybody it's Ada Brandholt here and this is my bag\n" + _CLUBS, "Ada Brandholt"),
        (_CLUBS + "So, whose bag is it? Ada Brandholt's, of course.", "Ada Brandholt"),
        ("From left to right: " + _CLUBS + "All Ada Brandholt's.", "Ada Brandholt"),
        (_CLUBS + "picks up Fri: Mr Adam Brandholt", "Mr Adam Brandholt"),
        (_CLUBS + "collected by Ada Brandholt", "Ada Brandholt"),
        ("Sold to Ada Brandholt: " + _CLUBS, "Ada Brandholt"),
        ("Captain's bag: Ada Brandholt\n" + _CLUBS, "Ada Brandholt"),
        ("From: Studio <fit@studio.example>\nTo: Ada Brandholt\nSubject: your specs\n\n" + _CLUBS, "Ada Brandholt"),
        ("G'day Merv,\nyour set is done.\n" + _CLUBS, "Merv"),
        ("this is my set now\n" + _CLUBS + "Hälsningar\nSaga Brandholt", "Saga Brandholt"),
        ("Customer: Ada Brandholt\n" + _CLUBS + "Built by: S. Harkow", "Ada Brandholt"),
    ],
)
def test_who_the_player_is(text: str, player: str) -> None:
    golf_set = read(text)
    assert golf_set.set.player == player
    assert [(club.head.name, club.shaft.flex) for club in golf_set.clubs] == [("Gannet", "S"), ("Gannet", "S")]


def test_a_model_called_like_an_event_is_no_event() -> None:
    golf_set = read("Mine is a Cresswell Open, 12 degrees, the driver.\nTamber Trophy irons, 4-PW")
    assert golf_set.set.event is None
    assert "Tamber Trophy" in {club.head.name for club in golf_set.clubs}
