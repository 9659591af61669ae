"""No figure is lost: what the reader says a club took stands in the record, in a question, aside, or is given back."""

from __future__ import annotations

import contextlib
import random
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from asplayed.errors import BadInput
from asplayed.intake import read
from asplayed.intake.reader import marked
from asplayed.quantities import plain

sys.path.insert(0, str(Path(__file__).parent))

import scoring

FILES = sorted(scoring.CORPUS.glob("*.txt"))
CORRECTED = re.compile(
    r"scratch|sorry|no wait|hang on|correct|make that|i mean|should say|actually|, no,|replaced|was \d", re.IGNORECASE
)
SMALL = 14  # a number up to this may be a club's own, or count them


def figures(record: Any) -> set[float]:
    """Every number of a record, those inside its words too."""
    if isinstance(record, dict):
        return set[float]().union(*(figures(each) for key, each in record.items() if key not in ("line", "lines")))
    if isinstance(record, list | tuple):
        return set[float]().union(*(figures(each) for each in record))
    if isinstance(record, bool) or record is None:
        return set()
    if isinstance(record, int | float):
        return {abs(float(record))}
    return {float(each) for each in re.findall(r"\d+(?:\.\d+)?", str(record))}


def lost(text: str, *, given_back: bool = False) -> list[str]:
    """The numbers that a club is said to have taken and that no part of the record has, its leftovers on request."""
    record = plain(read(text))
    kept = figures({part: each for part, each in record.items() if given_back or part != "not_understood"})
    body, words = marked(text)
    missing = []
    for word in words:
        said = body[word.start : word.end].strip()
        if word.taker != "club" or not re.fullmatch(r"\d+(?:\.\d+)?", said) or float(said) <= SMALL:
            continue
        value = float(said)
        stamp = float(int(value)) if re.fullmatch(r"\d\d\.\d\d", said) else value  # "52.08": a wedge's loft and bounce
        if not any(abs(other - one) < 0.011 for one in (value, value / 25.4, value / 2.54, stamp) for other in kept):
            missing.append(said)
    return missing


def as_written(text: str) -> str:
    """The list itself."""
    return text


def dashed(text: str) -> str:
    """The list with dashes for its commas."""
    return text.replace(", ", " - ")


def unit_free(text: str) -> str:
    """The list without its degrees and inches."""
    return re.sub(r"°|\bdeg(?:rees?)?\b|\"|\binch(?:es)?\b", "", text)


@pytest.mark.parametrize("change", [as_written, dashed, unit_free])
def test_a_figure_taken_is_a_figure_kept(change: Callable[[str], str]) -> None:
    found: dict[str, list[str]] = {}
    for path in FILES:
        for case in scoring.cases(path):
            text = change(case.text)
            if CORRECTED.search(text):
                continue
            try:
                missing = lost(text)
            except BadInput:
                continue
            if missing:
                found[f"{path.stem}: {case.name}"] = missing
    assert not found, "\n".join(f"{name}: {missing}" for name, missing in found.items())


def shuffled(text: str, chance: random.Random) -> str:
    """The list's lines in another order."""
    lines = text.splitlines()
    chance.shuffle(lines)
    return "\n".join(lines)


def thinned(text: str, chance: random.Random) -> str:
    """Some of the list's lines."""
    return "\n".join(line for line in text.splitlines() if chance.random() < 0.6)


def wrapped(text: str, _chance: random.Random) -> str:
    """The list with a line for each part between commas."""
    return text.replace(", ", "\n")


@pytest.mark.parametrize("change", [shuffled, thinned, wrapped])
def test_a_figure_that_goes_under_is_given_back(change: Callable[[str, random.Random], str]) -> None:
    chance, found = random.Random(11), {}
    for path in FILES:
        for case in scoring.cases(path):
            text = change(case.text, chance)
            if chance.random() < 0.4 and not CORRECTED.search(text):
                with contextlib.suppress(BadInput):
                    if missing := lost(text, given_back=True):
                        found[f"{path.stem}: {case.name}: {text}"] = missing
    assert not found, "\n".join(f"{name}: {missing}" for name, missing in found.items())


def test_a_heading_without_clubs_is_asked_about_or_given_back_in_its_words() -> None:
    golf_set = read("Driver Gannet 9, 45 in\nIRONS (all Brunholt 120 X)\nPutter Avocet 34 in")
    assert "Brunholt 120 X" in " ".join(question.text for question in golf_set.questions)
    golf_set = read("Driver Puffinry (10.5°)\nWedges: Chough (46°\n50°)\nwith Smithy 95 S shafts\n22°\nIrons 5-9")
    assert "22°" in " ".join(each.text for each in (*golf_set.not_understood, *golf_set.questions))


def test_a_figure_put_right_is_not_given_back() -> None:
    golf_set = read("driver Gannet, nine and a half, no wait, ten and a half, Lindrake 60 S")
    assert golf_set.clubs[0].head.loft.value == 10.5
    assert not [passage.text for passage in golf_set.not_understood if "half" in passage.text]
