"""All lists that were told by hand, for tests that change them in a way that changes nothing of their sense."""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Callable
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


def read_changed(
    change: Callable[[str], str], most: int, meant: Callable[[str], str] = str
) -> tuple[Counter[str], int]:
    """What is read of so many faultless lists at most once each is changed, and of how many it is.

    `meant` gives what is still expected of a changed list.
    """
    outcomes: Counter[str] = Counter()
    read = 0
    for index, (text, expected) in enumerate(lists()):
        changed = change(text)
        if changed != text and faultless(index):
            outcomes += score(changed, meant(expected)).outcomes
            read += 1
        if read == most:
            break
    return outcomes, read
