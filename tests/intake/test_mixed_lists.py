"""Lists mixed by chance out of the corpora: whatever comes of it is read or refused in a sentence, and no word is lost.

Word salads seldom get far into the reader; a list with a few words struck, put in or moved, or with the end of another
list, does.
"""

from __future__ import annotations

import os
import random
import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from asplayed.errors import BadInput
from asplayed.intake.reader import ledger, read

sys.path.insert(0, str(Path(__file__).parent))

import scoring

TEXTS = [case.text for path in sorted(Path(__file__).parent.glob("*/*.txt")) for case in scoring.cases(path)]
WORDS = [word for text in TEXTS for word in text.split()]
MARKS = ["", "\n", ",", ".", "-", "/", "(", ")", '"', "'", "°", "5", "½", " ", "\t", "|", ":", "x", "#"]
TRIES = max(60, round(5_000 * float(os.environ.get("ASPLAYED_LONG") or 0)))


def words_changed(text: str, chance: random.Random) -> str:
    """A few words struck, put in from other lists, or moved."""
    pieces = re.split(r"(\s+)", text)
    for _ in range(chance.randint(1, 6)):
        at, other = chance.randrange(len(pieces)), chance.randrange(len(pieces))
        what = chance.choice(("strike", "put", "move"))
        if what == "move":
            pieces[at], pieces[other] = pieces[other], pieces[at]
        else:
            pieces[at] = "" if what == "strike" else chance.choice(WORDS)
    return "".join(pieces)


def another_end(text: str, chance: random.Random) -> str:
    """The beginning of one list and the end of another, sometimes in one line."""
    lines, others = text.splitlines(), chance.choice(TEXTS).splitlines()
    text = "\n".join(lines[: chance.randrange(len(lines) + 1)] + others[chance.randrange(len(others)) :])
    return text.replace("\n", chance.choice(["\n", "\n", ", ", "; ", " / ", " "]))


def marks_changed(text: str, chance: random.Random) -> str:
    """A few characters replaced."""
    characters = list(text)
    for _ in range(chance.randint(1, 8)):
        characters[chance.randrange(len(characters))] = chance.choice(MARKS)
    return "".join(characters)


@pytest.mark.parametrize("change", [words_changed, another_end, marks_changed], ids=lambda change: change.__name__)
def test_lists_changed_by_chance_lose_no_word(change: Callable[[str, random.Random], str]) -> None:
    chance = random.Random(7)
    for _ in range(TRIES):
        text = change(chance.choice(TEXTS), chance)
        try:
            read(text)
            lost = [word for word, taker in ledger(text) if not taker]
        except BadInput as fault:
            assert "line " in str(fault), text
            continue
        assert not lost, text


@pytest.mark.parametrize(
    "text",
    [
        "Ember 5, Lindrake 60\nputter\n",  # a loft after a name where no club is spoken of yet
        "Driver Gannet\n60 S\n3 wood Gannet Dunlin, Lindrake 105 S\n52, Crake Lindrake, 10 g heavier",
        "4-PW: driver,\n wedge:, SW:, Bobbin\n Fulmar. lofts 9 fifty-six,.",
        "iron  loft  sw\n9    36 \nPW61  63.5 ",
    ],
)
def test_what_once_broke_the_reader_is_read(text: str) -> None:
    assert read(text).clubs
