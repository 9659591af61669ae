"""Parts told by pointing at another club."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told

IRONS = "irons 6-9 Gannet, Ostrane 110 S, ½ long, 1 up\n"


@pytest.mark.parametrize(
    "said",
    [
        "shaft, length and lie as the irons",
        "shaft, length and lie are as in the irons",
        "same shaft, length and lie as the irons",
        "has the irons' shaft, length and lie",
        "everything as the irons",
    ],
)
def test_three_parts_are_lent_at_once(said: str) -> None:
    text = f"{IRONS}PW Gannet, 46, {said}"
    assert told(text, "shaft.name")["pitching wedge"] == "Ostrane"
    assert told(text, "length_change")["pitching wedge"] == 0.5
    assert told(text, "bend.lie")["pitching wedge"] == 1.0


@pytest.mark.parametrize(
    "said",
    ["on the irons' shaft", "with the iron shaft", "the iron shafts again in both", "shafts as in the irons",
     "that same iron shaft"],
)  # fmt: skip
def test_a_shaft_is_lent_and_nothing_else(said: str) -> None:
    text = f"driver Burr 9\n{IRONS}56 and 60 Teasel, {said}"
    assert told(text, "shaft.name").get("lob wedge") == "Ostrane"
    assert "lob wedge" not in told(text, "bend.lie")


def test_what_is_said_besides_belongs_to_the_club_and_not_to_its_lender() -> None:
    text = f"{IRONS}Wedges: Teasel, 52 and 56. Same shafts as in the irons, but stiff plus."
    flexes = told(text, "shaft.flex")
    assert (flexes["8 iron"], flexes["sand wedge"]) == ("S", "S+")


def test_another_mass_of_the_same_shaft() -> None:
    text = "driver Burr 9, Ostrane 65 X\n3 wood Burr 15, same but the 75"
    assert told(text, "shaft.mass") == {"driver": 65.0, "3 wood": 75.0}


@pytest.mark.parametrize(
    "said",
    ["goes with the irons", "belongs to those irons", "out of the same set of irons", "of the same irons"],
)
def test_a_gap_wedge_of_the_irons_own_set(said: str) -> None:
    text = f"{IRONS}Gap wedge, {said}, 50 degrees"
    assert told(text, "kind")["gap wedge"] == "iron"
    assert told(text, "head.name")["gap wedge"] == "Gannet"


def test_a_length_that_each_iron_has_of_its_own_is_lent_to_none() -> None:
    text = "driver Burr 9\nirons 7-9 Gannet, Ostrane 110 S, 1 up\n7i 37 in, 8i 36.5 in, 9i 36 in\n"
    text += "GW Gannet 50, shaft, length and lie as the irons"
    assert "gap wedge" not in told(text, "length")
    assert told(text, "bend.lie")["gap wedge"] == 1.0


@pytest.mark.parametrize("said", ["built the same as the irons", "made exactly like the irons", "built like the irons"])
def test_the_gap_wedge_of_the_set_built_as_its_irons(said: str) -> None:
    text = "Irons 8-PW Gannet, Ostrane 95 R, a quarter inch over and 1 upright, D2. "
    text += f"The set's own gap wedge too, 49 degrees, {said}. Sand wedge Burr 55."
    assert told(text, "length_change")["gap wedge"] == 0.25
    assert told(text, "bend.lie")["gap wedge"] == 1.0
    assert "sand wedge" not in told(text, "bend.lie")
