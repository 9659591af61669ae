"""Clubs that a sentence places outside the set, and those that it only tells a story of."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import set_aside, told

_SET = "driver Gannet 10.5, Reed 60 S\nirons 5-PW Dunlin, Reed 95 S\nputter Stint 34\n"


@pytest.mark.parametrize(
    "sentence",
    [
        "The 3 wood sits in a box in the office.",
        "Leave the old Burr 3 wood in the rack, he does not want it back.",
        "His coach carries a Burr 3 wood, but that is his coach.",
        "A friend of mine plays the Burr 3 wood and loves it.",
        "Her daughter's Burr 3 wood is 16 degrees, by the way.",
        "Dad says the 3 wood comes later when I'm taller.",
        "A Burr 3 wood is on its way, it isn't here yet.",
        "The Burr 3 wood cracked at the neck in May and was not replaced.",
        "My caddie keeps asking me to try her Burr 3 wood, but no.",
        "We hit a Burr 3 wood too but it spun too much.",
        "The Burr 3 wood he came in with had 45 g in it and went left.",
        "She has her eye on a Burr 3 wood.",
        "The Burr 3 wood had to go.",
        "She wanted to see a Burr 3 wood too, she hit it for a while, it's not on the order.",
        "The Burr 3 wood was lost in June and will not be replaced.",
        "Her Burr 3 wood she keeps for her daughter.",
        "The Burr 3 wood is in for repair, so leave it out.",
        "A Burr 3 wood found in April has been claimed.",
        "A Burr 3 wood was in the bag in May and was then withdrawn.",
        "Her old Burr 3 wood (with the Reed) goes to her son.",
        "He borrowed a Burr 3 wood on Friday and gave it back.",
        "She had a Burr 3 wood once.",
        "Played a 3 wood once, never again!",
        "The Burr 3 wood is not ours, it stays as it is.",
        "The Burr 3 wood is with my brother now.",
        "Before this I had a Burr 3 wood.",
    ],
)
def test_what_is_elsewhere_is_kept_aside(sentence: str) -> None:
    assert "3 wood" not in told(_SET + sentence, "kind")
    assert told(_SET + sentence, "head.name")["driver"] == "Gannet"
    assert any("3 wood" in stretch for stretch in set_aside(_SET + sentence))


@pytest.mark.parametrize(
    "sentence",
    [
        "The 3 wood is a Burr, 15 degrees, and it lives in the bag.",
        "The 3 wood is a Burr he has had for ten years.",
        "His brother gave him the 3 wood, a Burr, 15 degrees.",
        "3 wood Burr 15, the shaft broke so it is now a Reed 70 S.",
        "The 3 wood is the old Burr, 15 degrees, still going strong.",
        "3 wood: the Burr he came in with, recut to 43 inches.",
        "The 3 wood, a Burr, was a present from my wife.",
        "My 3 wood broke, so now I have a Burr, 15 degrees.",
    ],
)
def test_a_club_with_a_story_stays_in_the_set(sentence: str) -> None:
    assert told(_SET + sentence, "head.name")["3 wood"] == "Burr"


def test_a_list_about_a_relative_is_read() -> None:
    text = "My daughter plays these. Driver Gannet 12. My daughter uses a Burr 5 wood too. Putter Stint 32."
    assert set(told(text, "kind")) == {"driver", "5 wood", "putter"}


def test_a_club_that_speech_looked_at_over_two_lines_is_kept_aside() -> None:
    text = "1\n00:00:29,700 --> 00:00:35,100\nIrons, 8 through 9, Gannet, Reed Steel\n118 grams, X.\n\n"
    text += "2\n00:00:35,300 --> 00:00:40,000\nShe wanted to see a 3 iron too,\n"
    text += "she hit it for a while, it's not on the order.\n"
    assert set(told(text, "kind")) == {"8 iron", "9 iron"}
    assert any("3 iron" in stretch for stretch in set_aside(text))
