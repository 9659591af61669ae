"""Small lists that say one sort of thing in many ways, a file for each sort: read as meant or asked, never wrongly."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import scoring

TURNS = Path(__file__).parent / "turns"
# The least that must be right and the most that may be wrong: what was reached, less a hair.
REACHED = {
    "beside": (0.99, 0.005),
    "breath": (0.99, 0.005),
    "corrections": (0.96, 0.032),
    "each": (0.99, 0.005),
    "figures": (0.975, 0.005),
    "grips": (0.985, 0.006),
    "laid_out_lines": (0.998, 0.001),
    "laid_out_otherwise": (0.995, 0.002),
    "laid_out_tables": (0.998, 0.001),
    "leaning": (0.998, 0.001),
    "likened": (0.973, 0.015),
    "mixed_hands": (0.972, 0.011),
    "names": (0.98, 0.008),
    "not_of_the_set": (0.995, 0.002),
    "parts_and_figures": (0.984, 0.006),
    "passing_words": (0.998, 0.001),
    "pointing": (0.995, 0.003),
    "said_anew": (0.995, 0.002),
    "said_of_those": (0.995, 0.002),
    "settings": (0.995, 0.002),
    "shared": (0.995, 0.002),
    "talk": (0.977, 0.012),
    "told_straight": (0.995, 0.002),
    "which_clubs": (0.952, 0.024),
    "whole_lists": (0.998, 0.001),
    "whole_rows": (0.995, 0.002),
    "whose": (0.98, 0.007),
}


def test_every_file_has_what_it_must_reach() -> None:
    assert {path.stem for path in TURNS.glob("*.txt")} == set(REACHED)


@pytest.mark.parametrize("sort", sorted(REACHED))
def test_turns_are_read(sort: str) -> None:
    outcomes: Counter[str] = Counter()
    faults: list[str] = []
    for case in scoring.cases(TURNS / f"{sort}.txt"):
        result = scoring.score(case)
        outcomes += result.outcomes
        faults += result.faults
    least, most = REACHED[sort]
    assert outcomes["right"] / outcomes.total() >= least, "\n".join(faults)
    assert outcomes["wrong"] / outcomes.total() <= most, "\n".join(faults)
