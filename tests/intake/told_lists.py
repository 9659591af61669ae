"""All lists that were told by hand, for tests that change them in a way that changes nothing of their sense."""

from __future__ import annotations

import re
import sys
from functools import cache
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parent))

import scoring

ROOT = Path(__file__).parent


@cache
def lists() -> list[tuple[str, str]]:
    """Every list told by hand, in an order of its own, with what is expected of it."""
    found = []
    for path in sorted([*ROOT.glob("corpus/*.txt"), *ROOT.glob("*_author/*.txt")]):
        for block in re.split(r"^=== ?", path.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]:
            text, _, expected = block.partition("\n")[2].partition("\n---\n")
            found.append((text + "\n", expected))
    Random(7).shuffle(found)
    return found


def score(text: str, expected: str) -> scoring.Score:
    """What is read of a list against what is expected of it."""
    result = scoring.score(scoring._case("exchanged", text, expected))
    return result._replace(faults=[fault for fault in result.faults if "left over" not in fault])


@cache
def faultless(index: int) -> bool:
    """True for a list that is read without a fault as it stands."""
    return not score(*lists()[index]).faults
