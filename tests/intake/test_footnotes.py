"""Footnotes: what stands below the list behind a mark is read where its mark stands."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told

from asplayed.intake import read
from asplayed.intake.reader import ledger


@pytest.mark.parametrize(("one", "two"), [("¹", "²"), ("*", "†"), ("[1]", "[2]"), ("*", "**")])
def test_what_a_footnote_says_is_said_of_the_club_with_its_mark(one: str, two: str) -> None:
    text = (
        f"Driver  Gannet Max, 9.5°{one}, Reed 55 S, 45\n"
        f"3 wood  Gannet, 15°, Reed 65 S\n"
        f"Irons   6-PW, Dunlin CB{two}, Ostrane 95 R\n"
        "Putter  Long Wick, 34\n\n"
        f"{one} Sleeve one degree down.\n"
        f"{two} One degree upright, standard length.\n"
    )
    assert told(text, "sleeve.loft_change") == {"driver": -1}
    assert set(told(text, "bend.lie")) == {"6 iron", "7 iron", "8 iron", "9 iron", "pitching wedge"}
    assert told(text, "head.name")["6 iron"] == "Dunlin CB"


def test_a_mark_that_counts_lines_or_stands_twice_is_no_footnote() -> None:
    text = "* driver Gannet 9, Reed 60 S\n* 3 wood Gannet 15, Reed 70 S\n* putter Wick 34\n"
    assert [club.club for club in read(text).clubs] == ["driver", "3 wood", "putter"]
    text = "driver* Gannet 9\n3 wood* Gannet 15\nputter Wick 34\n* tipped an inch\n"
    assert [club.club for club in read(text).clubs] == ["driver", "3 wood", "putter"]


def test_each_word_of_a_footnote_is_accounted_for() -> None:
    words = [word for word, _taker in ledger("driver Gannet 9¹, Reed 60 S\n¹ a lovely head, 45 inches\n")]
    assert sorted(words) == sorted(["driver", "Gannet", "9", "Reed", "60", "S", "a", "lovely", "head", "45", "inches"])
