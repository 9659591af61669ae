"""Facts that no record has a field for are kept as notes, and their figures are no club's."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from asplayed.intake import read

sys.path.insert(0, str(Path(__file__).parent))

from told import told

_LIST = "Driver Gannet 9, Reed 65 S, 45 in\n7 iron Burr, Reed 110 S\n"


@pytest.mark.parametrize(
    "remark",
    [
        "98 mph with driver, 80 with 7 iron, hits down 3 degrees",
        "Swing speed 98 mph with the driver, 80 mph with the 7 iron",
        "Driver speed 98 mph and 80 with the 7 iron",
        "Attacks 2 degrees up with the driver",
        "She swings it at ninety-eight miles an hour",
        "Swings the driver at about 98 miles per hour",
    ],
)
def test_what_is_told_of_a_swing_is_a_note(remark: str) -> None:
    for text in (f"{_LIST}{remark}.", f"{remark}.\n{_LIST}"):
        for path in ("head.loft", "bend.lie", "bend.loft", "shaft.mass", "length"):
            assert told(text, path) == told(_LIST, path)
        assert not read(text).questions
        told_of = ("98", "2 degrees", "swings it at ninety-eight miles an hour")
        assert any(words in note.text for note in read(text).notes for words in told_of)


@pytest.mark.parametrize(
    ("opening", "player"),
    [
        ("Two clubs on the bench today, for a lad called Finn Gorley.", "Finn Gorley"),
        ("This is for a member named Ada Brandt:", "Ada Brandt"),
        ("A customer called Ada Brandt came in.", "Ada Brandt"),
        ("These go by a thing called Gannet Starter.", None),
    ],
)
def test_somebody_called_so_is_the_player(opening: str, player: str | None) -> None:
    assert read(f"{opening}\n{_LIST}").set.player == player


@pytest.mark.parametrize("event", ["Heron Pairs", "Heron Sound Foursomes", "Heron Greensomes", "Heron Stableford"])
def test_games_of_two_name_events(event: str) -> None:
    facts = read(f"Bag for the {event}, player is Ada Brandt.\n{_LIST}").set
    assert (facts.event, facts.player) == (event, "Ada Brandt")
