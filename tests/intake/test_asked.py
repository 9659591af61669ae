"""What an answer leaves of its question, speakers on lines of their own, and captions that are cut anywhere."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told

from asplayed.intake import read

_PATHS = ("head.name", "head.loft", "shaft.name", "shaft.mass")


def _clubs(text: str) -> dict[str, tuple[object, ...]]:
    """Each club's model, loft, shaft and its mass."""
    found = [told(text, path) for path in _PATHS]
    return {club.club: tuple(one.get(club.club) for one in found) for club in read(text).clubs}


@pytest.mark.parametrize(
    ("question", "answer", "clubs"),
    [
        ("Irons from the six?", "From the seven. Seven to nine, Dunlin.", ["7 iron", "8 iron", "9 iron"]),
        ("Four to nine in the irons?", "Seven to nine, Dunlin.", ["7 iron", "8 iron", "9 iron"]),
        ("Six iron or seven iron first?", "Seven. Seven to nine, Dunlin.", ["7 iron", "8 iron", "9 iron"]),
        ("Hybrid or driving iron?", "Hybrid, a three. Dunlin, nineteen degrees.", ["3 hybrid"]),
        ("Three wood?", "No, a four wood. Dunlin, seventeen degrees.", ["4 wood"]),
        ("Three wood?", "Four wood, Dunlin, seventeen degrees.", ["4 wood"]),
        ("Any hybrids?", "Two. A 4 and a 5, Dunlin, 22 and 26 degrees.", ["4 hybrid", "5 hybrid"]),
        ("You have a two iron, don't you?", "I do, a driving iron, the Dunlin, 18 degrees.", ["2 driving iron"]),
        ("Any fairway wood?", "No.", []),
        ("A hybrid?", "No, never liked one.", []),
    ],
)
def test_what_was_only_asked_is_no_club(question: str, answer: str, clubs: list[str]) -> None:
    text = f"ADA: Driver?\nBEN: A Gannet, nine degrees.\nADA: {question}\nBEN: {answer}\nADA: Thanks."
    assert [club for club in _clubs(text) if club != "driver"] == clubs


@pytest.mark.parametrize(
    ("question", "answer", "path", "value"),
    [
        ("Is that nine degrees?", "Ten and a half.", "head.loft", 10.5),
        ("And the fifty gram shaft?", "Sixty. The Ostrane, stiff.", "shaft.mass", 60),
        ("Forty-five inches?", "Forty-four and a half.", "length", 44.5),
        ("Forty-five inches?", "Yes.", "length", 45),
        ("Length?", "Forty-five on the button.", "length", 45),
        ("Steel or graphite?", "Graphite. Ostrane, sixty grams, stiff.", "shaft.mass", 60),
        ("Regular in that?", "No, stiff.", "shaft.flex", "S"),
    ],
)
def test_a_guess_is_put_right(question: str, answer: str, path: str, value: float | str) -> None:
    text = f"ADA: Driver?\nBEN: A Gannet.\nADA: {question}\nBEN: {answer}\nADA: Thanks."
    assert told(text, path) == {"driver": value}


_SAID = ("driver?", "Gannet, 9 degrees", "shaft?", "Ostrane 60 S")


@pytest.mark.parametrize(
    "heads",
    [
        ("Ada: ", "Ben: ", "Ada: ", "Ben: "),
        ("A: ", "B: ", "A: ", "B: "),
        ("Ada, 20:11\n", "Ben, 20:12\n", "Ada, 20:13\n", "Ben, 20:14\n"),
        ("Ada (20:11): ", "Ben (20:12): ", "Ada (20:13): ", "Ben (20:14): "),
        ("[20:11] Ada: ", "[20:12] Ben: ", "[20:13] Ada: ", "[20:14] Ben: "),
        ("1/3/2025, 20:11 - Ada: ", "1/3/2025, 20:12 - Ben: ", "1/3/2025, 20:13 - Ada: ", "1/3/2025, 20:14 - Ben: "),
        ("Speaker 1\n", "Speaker 2\n", "Speaker 1\n", "Speaker 2\n"),
        ("COACH: ", "PUPIL: ", "COACH: ", "PUPIL: "),
        ("Q. ", "A. ", "Q. ", "A. "),
    ],
)  # fmt: skip
def test_who_speaks_names_no_part(heads: tuple[str, ...]) -> None:
    text = "\n".join(head + said for head, said in zip(heads, _SAID, strict=True))
    assert _clubs(text) == {"driver": ("Gannet", 9, "Ostrane", 60)}


@pytest.mark.parametrize(
    "cues",
    [
        ("My driver is a Gannet", "Tour, nine", "degrees, with the Ostrane", "Blue, sixty grams, stiff.", "Lovely."),
        ("My driver is a", "Gannet Tour, nine degrees.", "In it sits the", "Ostrane Blue, sixty", "grams, stiff."),
        ("so the driver is a Gannet", "Tour nine degrees with the Ostrane", "Blue sixty grams stiff", "right then"),
    ],
)
def test_captions_cut_names_and_figures(cues: tuple[str, ...]) -> None:
    timed = [f"{n}\n00:00:{n:02},000 --> 00:00:{n + 1:02},000\n{cue}\n" for n, cue in enumerate(cues, 1)]
    assert _clubs("\n".join(timed)) == {"driver": ("Gannet Tour", 9, "Ostrane Blue", 60)}


@pytest.mark.parametrize(
    ("sentence", "lofts"),
    [
        ("Four: 23 degrees. Five: 26 degrees. Six: 29 degrees.", [23, 26, 29]),
        ("I was sixteen when I got them.", [None, None, None]),
        ("When I was sixteen, I played off four.", [None, None, None]),
    ],
)
def test_irons_told_one_by_one(sentence: str, lofts: list[float | None]) -> None:
    assert [loft for _name, loft, *_ in _clubs(f"Four iron to six iron, Gannet. {sentence}").values()] == lofts


@pytest.mark.parametrize(
    ("sentence", "bounces"),
    [
        ("Bounce on the 58 is 10, the 54 has 12 and the 50 has 8.", [8, 12, 10]),
        ("Every one of these three has 10 of bounce.", [10, 10, 10]),
    ],
)
def test_figures_of_clubs_in_turn(sentence: str, bounces: list[float]) -> None:
    assert list(told(f"Wedges 50, 54 and 58, Gannet.\n{sentence}", "head.bounce").values()) == bounces


@pytest.mark.parametrize(
    "said", ["from Gannet, the Gannet Tour", "from Gannet: a Gannet Tour", "a Gannet, the Gannet Tour"]
)
def test_a_model_told_in_full_behind_its_maker(said: str) -> None:
    assert _clubs(f"My driver is {said}, ten and a half degrees.")["driver"][0] == "Gannet Tour"
