"""Who plays the clubs, where the list says it outright: an order's name, an introduction, initials."""

from __future__ import annotations

import pytest

from asplayed.intake import read

_CLUBS = "driver Gannet 10.5, Reed 60 S\n3 wood Gannet 15, Reed 70 S\n"


@pytest.mark.parametrize(
    ("text", "player"),
    [
        ("Order for T. Wragby, 4 June 2025\n" + _CLUBS, "T. Wragby"),
        ("These are for J.P. Strand.\n" + _CLUBS, "J.P. Strand"),
        ("Nell's mum here.\n" + _CLUBS, "Nell"),
        ("Hi, Nell's dad here, she is nine.\n" + _CLUBS, "Nell"),
        ("player: A. Strand\n" + _CLUBS, "A. Strand"),
        ("player: A. B. Strand, left-handed\n" + _CLUBS, "A. B. Strand"),
        (_CLUBS + "I'm Maisie Throop by the way.\n", "Maisie Throop"),
        (_CLUBS + "My name is Maisie Throop.\n", "Maisie Throop"),
        ("hi its dev marsh, bag for saturday\n" + _CLUBS.lower(), "dev marsh"),
        ("Friday p.m., A. Strand, count 2\n" + _CLUBS, "A. Strand"),
        ("Hello Wes,\n\nspec for young Maisie Throop (12, growing):\n" + _CLUBS, "Maisie Throop"),
        ("so this is for Maisie Throop and she is a lefty " + _CLUBS, "Maisie Throop"),
        ("Our son Maisie Throop (11, left-handed) has clubs now.\n" + _CLUBS + "Kind regards,\nAda", "Maisie Throop"),
        ("This is what our client Maisie Throop will play.\n" + _CLUBS + "Best wishes\nAda", "Maisie Throop"),
        ("On the bench today is Maisie Throop's set.\n" + _CLUBS, "Maisie Throop"),
        ("hey pro its maisie, my clubs: " + _CLUBS.lower(), "maisie"),
        ("driver gannet 10.5, 3 wood gannet 15. Im Maisie Throop btw", "Maisie Throop"),
    ],
)
def test_who_says_who_plays(text: str, player: str) -> None:
    golf_set = read(text)
    assert golf_set.set.player == player
    assert [club.head.name.lower() for club in golf_set.clubs] == ["gannet", "gannet"]


@pytest.mark.parametrize("title", ["Half set of Ada Brandt", "The bag of Ada Brandt, 2024", "Set of Ada Brandt"])
def test_the_player_in_a_labelled_title(title: str) -> None:
    assert read(f"Title: {title}\ndriver Gannet 9").set.player == "Ada Brandt"


@pytest.mark.parametrize("opening", ["Hi it's Maisie. Two clubs for Dad: ", "Hi, it's Maisie, a list for my son: "])
def test_who_speaks_for_a_relative_is_not_the_player(opening: str) -> None:
    assert read(opening + _CLUBS).set.player is None


@pytest.mark.parametrize("said", ["I play with the left hand.", "I play with my left hand and I like it."])
def test_the_hand_one_plays_with(said: str) -> None:
    assert read(f"{said} {_CLUBS}").set.hand == "left"
