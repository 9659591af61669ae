"""A club that talk names and says nothing of is asked for; one told of, or counted in a row, is in the set."""

from __future__ import annotations

import pytest

from asplayed.intake import read

_SET = (
    "The driver is a Gannet of ten degrees. The 3 wood is a Gannet of fifteen. The irons are Dunlin, five to nine. "
    "The wedges are Burr, 52 and 56. The putter is a Stint.\n"
)


@pytest.mark.parametrize(
    ("sentence", "club"),
    [
        ("He had a 4 iron as well but it snapped in March and we threw it away.", "4 iron"),
        ("Do you think I should have a 5 hybrid for the long par threes?", "5 hybrid"),
        ("What happened to the seven wood, somebody will ask me on Monday.", "7 wood"),
    ],
)
def test_a_club_that_is_only_named_is_asked_for(sentence: str, club: str) -> None:
    golf_set = read(_SET + sentence)
    assert club not in [each.club for each in golf_set.clubs]
    told = [question.text for question in golf_set.questions if question.about == "club"]
    words = [passage.text for passage in (*golf_set.aside, *golf_set.not_understood)]
    assert any(sentence.rstrip(".?") in text for text in [*told, *words])


@pytest.mark.parametrize(
    ("text", "club"),
    [
        (_SET + "There is a 5 hybrid too, a Dabchick.", "5 hybrid"),  # its model is told
        (_SET + "Her hybrids are the 4 and the 5, I have not seen what is on them.", "4 hybrid"),  # two in a row
        (_SET + "5 hybrid", "5 hybrid"),  # a line of a list
        ("I play a driver, a 5 hybrid, a 7 iron and a putter, that is all there is in it.", "5 hybrid"),  # no models
    ],
)
def test_clubs_that_belong_stay(text: str, club: str) -> None:
    assert club in [each.club for each in read(text).clubs]


def test_a_note_keeps_its_club_when_another_club_is_only_asked_for() -> None:
    golf_set = read(_SET + "Somebody asked me about the 4 iron again last week. Tip trim 1 inch on the 3 wood.")
    assert [(note.text, note.club) for note in golf_set.notes] == [("Tip trim 1 inch", "3 wood")]
