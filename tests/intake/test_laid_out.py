"""What is read does not depend on how a list is laid out: one invented set in every layout, in talk, told by groups."""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import inventing
import scoring


def _faults(text: str, expected: str) -> list[str]:
    result = scoring.score(scoring._case("invented", text, expected))
    return [fault for fault in result.faults if "left over" not in fault]


@pytest.mark.parametrize("layout", inventing.LAYOUTS)
def test_rows_of_any_layout_tell_the_same_set(layout: str) -> None:
    for seed in range(12):
        random = Random(f"{layout} {seed}")
        clubs = inventing.invented(random)
        text = inventing.rows(clubs, layout, random)
        assert not _faults(text, inventing.expected(clubs)), text


@pytest.mark.parametrize("seed", range(60))
def test_what_is_told_of_groups_goes_to_each_club_of_them(seed: int) -> None:
    random = Random(seed)
    told = inventing.about_groups(inventing.invented(random), random)
    assert not _faults(told.text, told.expected), told.text


@pytest.mark.parametrize("seed", range(60))
def test_talk_about_a_set_is_read_like_a_list_of_it(seed: int) -> None:
    random = Random(1000 + seed)
    told = inventing.talk(inventing.invented(random), random)
    assert not _faults(told.text, told.expected), told.text
