"""Clubs that hardly any set has, and figures that no club of a kind has: asked for, not taken."""

from __future__ import annotations

import pytest

from asplayed.intake import read

_SET = """driver Gannet 10.5, Lindrake 65 S, 45
3 wood Gannet 15, Lindrake 75 S
hybrid 4 Gannet 22
irons 5-PW Dunlin, Ostrane 105 S
putter Long Wick 34
"""


def _clubs(text: str) -> list[str]:
    return [club.club for club in read(text).clubs]


@pytest.mark.parametrize(
    "more",
    [
        "A 1 iron in the same case was never part of it.",
        "Only one more wedge, the Cockle, 58 degrees.",
        "She has the one wedge more than he has.",
    ],
)
def test_a_number_that_nobody_has_makes_no_club(more: str) -> None:
    assert not {"1 iron", "1 hybrid", "8 wood"} & set(_clubs(_SET + more))


def test_a_club_of_a_kind_without_number_beside_others_is_no_other_club() -> None:
    golf_set = read(_SET + "The hybrid I like best of all of them.\n")
    assert [club.club for club in golf_set.clubs].count("hybrid") == 0


@pytest.mark.parametrize("told", ["2 iron Dunlin Drive 18", "2-iron Knot, 17", "1 iron Crossleaf 16"])
def test_rare_clubs_that_are_told_of_stay(told: str) -> None:
    assert told[0] + " iron" in _clubs(_SET + told + "\n")


def test_irons_of_a_half_set_stay() -> None:
    assert _clubs("irons 3, 5, 7 and 9 Pipit, Hornby 95 R\nputter Wick")[:4] == ["3 iron", "5 iron", "7 iron", "9 iron"]


@pytest.mark.parametrize(
    ("text", "club", "about"),
    [
        ("driver Gannet 45 inches, loft 24\nputter Wick 34", "driver", "head.loft"),
        ("6 iron Dunlin, lie 9 degrees up\n7 iron Dunlin 34\nputter Wick 34", "6 iron", "bend.lie"),
    ],
)
def test_a_figure_that_no_club_of_the_kind_has_is_left_out_and_asked(text: str, club: str, about: str) -> None:
    golf_set = read(text)
    assert (club, about) in {(question.club, question.about) for question in golf_set.questions}
    assert not any(question.about == about and "usual" in question.text for question in golf_set.questions)
    found = next(one for one in golf_set.clubs if one.club == club)
    part, _, figure = about.partition(".")
    assert getattr(getattr(found, part), figure) is None
