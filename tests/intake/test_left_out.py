"""Clubs that a caption, a later line or somebody's past leaves out of the set."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import set_aside, told


@pytest.mark.parametrize(
    "line",
    [
        "HELD BACK: Burr H hybrid 25°, customer decides in spring",
        "CANCELLED AT YOUR WISH: Burr 3 wood 15°",
        "not in there anymore: Burr 2 hybrid",
        "NOT COVERED HERE: one Burr driving iron",
        "Also brought in but no part of this set: one Burr chipper",
        "Quoted only, NOT ordered: Burr chipper",
        "In the garage till April: the Burr 3 wood and the 4 hybrid",
        "He'd had a Burr 3 wood until March",
        "(Burr 7W came along, not in the 14)",
        "The Burr 3 wood from this set is gone",
        "Old Burr 5 hybrid, she is giving it away",
        "There was a Burr 54 wedge too, and she has given that away",
        "I keep a Burr two iron over the fireplace",
    ],
)
def test_what_a_caption_leaves_out_is_kept_aside(line: str) -> None:
    text = f"driver Gannet 9\n{line}\nputter Stint 34"
    assert set(told(text, "kind")) == {"driver", "putter"}
    assert any("Burr" in stretch for stretch in set_aside(text))


@pytest.mark.parametrize("line", ["Lofts not touched: driver 10.5", "Not changed: the driver, Gannet 10.5"])
def test_a_caption_of_what_was_not_done_leaves_nothing_out(line: str) -> None:
    assert told(f"{line}\nputter Stint 34", "head.loft")["driver"] == 10.5


@pytest.mark.parametrize("said", ["3 wood comes out", "the 3 wood is out of the bag", "He took the 3 wood out"])
def test_a_club_told_of_and_then_taken_out(said: str) -> None:
    text = f"driver Gannet 9\n3 wood Burr 15, Ostrane 70 S\n4-6 iron Knot\n{said}. In its place a 5 wood, Burr 18."
    assert set(told(text, "kind")) == {"driver", "5 wood", "4 iron", "5 iron", "6 iron"}
    assert "3 wood Burr 15, Ostrane 70 S" in set_aside(text)


def test_an_iron_taken_out_of_its_range() -> None:
    text = "driver Gannet 9\n4-7 iron Knot\n4 iron comes out, nothing in its place"
    assert set(told(text, "kind")) == {"driver", "5 iron", "6 iron", "7 iron"}


def test_another_club_of_the_kind_stays() -> None:
    text = "3 wood Burr 15\nMy old 3 wood is out of play"
    assert told(text, "head.name") == {"3 wood": "Burr"}


def test_the_brackets_of_what_went_leave_the_new_club() -> None:
    text = "Driver since 2023: Gannet 3, 9.5 degrees (out went the Burr 8)."
    assert told(text, "head.name") == {"driver": "Gannet 3"}


@pytest.mark.parametrize(
    "said",
    [
        "The 3 wood is gone. Instead of it a 5 wood, Burr 18",
        "I sold the 3 wood; instead of that there's a 5 wood, Burr 18",
        "Sold the 3 wood, in place of which I have a 5 wood, Burr 18",
        "The 3 wood is gone and instead of it I've got a 5 wood, Burr 18",
    ],
)
def test_what_came_instead_of_it_is_in_the_set(said: str) -> None:
    text = f"driver Gannet 9\n{said}.\nputter Stint 34"
    assert told(text, "head.name") == {"driver": "Gannet", "5 wood": "Burr", "putter": "Stint"}
    assert any("3 wood" in stretch for stretch in set_aside(text))


def test_the_model_instead_of_the_club_that_went() -> None:
    assert told("The Burr driver is gone. Instead of it the Gannet, 10.5.", "head.name") == {"driver": "Gannet"}


@pytest.mark.parametrize("line", ["My brother's Burr is a full inch longer", "Her friend's Burr is much lighter"])
def test_anothers_model_told_to_compare_it(line: str) -> None:
    text = f"driver: Gannet 9, Reed 55 S, 44.75. {line}.\nputter Stint 34"
    assert (told(text, "length")["driver"], told(text, "length_change")) == (44.75, {})
    assert any("Burr" in stretch for stretch in set_aside(text))


def test_what_comes_next_in_the_telling_is_in_the_set() -> None:
    text = "Driver Gannet 9. The 3 wood comes next, a Burr, 15 degrees. The 5 wood is coming next month."
    assert set(told(text, "kind")) == {"driver", "3 wood"}


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("Came in with (all of it sold since):", "Goes out with:"),
        ("He arrived with:", "He left with:"),
        ("What Ada Brandt came in with", "What she takes home"),
        ("Brought to the fitting:", "WALKS OUT WITH:"),
    ],
)
def test_what_somebody_came_with_and_went_with(was: str, now: str) -> None:
    came = f"{was}\n- driver Knot 10.5, Reed 55 R\n- 5 wood Knot 18\n"
    went = f"{now}\n- driver Gannet 9, Reed 65 S\n- 7 wood Gannet 21\n"
    for text in (f"{came}\n{went}", f"{went}\n{came}"):
        assert told(text, "head.name") == {"driver": "Gannet", "7 wood": "Gannet"}
        assert told(text, "shaft.mass")["driver"] == 65
        assert sum("Knot" in stretch for stretch in set_aside(text)) == 2
