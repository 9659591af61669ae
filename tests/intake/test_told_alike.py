"""Lists told in another way that says the same: captions that cut sentences, items on one line, other wordings."""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import told_lists

from asplayed.intake.own_tables import own_table
from asplayed.intake.vocabulary import spelled_out

LISTS = 20  # of each way


def captions(words: int) -> Callable[[str], str]:
    """The prose as captions of so many words each, wherever its sentences end."""

    def cut(text: str) -> str:
        said, cues = text.split(), ["WEBVTT", ""]
        for count, at in enumerate(range(0, len(said), words)):
            clock = [f"00:{seconds // 60:02}:{seconds % 60:02}.000" for seconds in (3 * count, 3 * count + 3)]
            cues += [" --> ".join(clock), " ".join(said[at : at + words]), ""]
        return "\n".join(cues) + "\n"

    return cut


def prose(text: str) -> bool:
    """True for sentences in lines as long as they come, without rows, counts or timing."""
    rows = re.search(
        r"\S {2,}\S|[\t|]|( / .*){4}|-->|^\s*(\d{1,2}[.)]|[-*•#>–])\s|^\W*\d{1,2}:\d\d", text, re.MULTILINE
    )
    sentences = re.findall(r"[a-z0-9]\.\s+[A-Z]", text)
    lines = [line.strip() for line in text.strip().split("\n") if line.strip()]
    return not rows and len(sentences) > 3 and all(line[-1] in ".!?:" for line in lines)


def rows(text: str) -> list[str]:
    """The lines of a short list that has one item a line; none of any other text."""
    lines = [line.strip() for line in text.strip().split("\n") if line.strip()]
    odd = re.search(
        r"\S {2,}\S|[\t|]|( / .*){4}|-->|//|\w,\w[^ \n]*,|;\S*;|^\W*\d{1,2}(:\d\d|[.)])|^\W|:$", text, re.MULTILINE
    )
    short = len(lines) > 4 and max(map(len, lines)) < 110
    clubs = sum(re.search(r"(?i)driver|wood|iron|hybrid|wedge|putter|\d[wih]\b", line) is not None for line in lines)
    return lines if short and not odd and clubs > 3 else []


ALIKE: dict[str, Callable[[str], str]] = {
    "captions of 6 words": lambda text: captions(6)(text) if prose(text) else text,
    "captions of 11 words": lambda text: captions(11)(text) if prose(text) else text,
    "slashes between items": lambda text: " // ".join(rows(text)) + "\n" if rows(text) else text,
    "counted on one line": lambda text: (
        " ".join(f"{count}. {row}" for count, row in enumerate(rows(text), 1)) + "\n" if rows(text) else text
    ),
    "3-W, 5-h": lambda text: re.sub(r"(?<![\w.#/-])([3-9])([WwHh])\b", r"\1-\2", text),
    "arrows in runs": lambda text: re.sub(r"(?<![\w.#/-])([3-6])-(PW|9)\b", r"\1→\2", text),
    "up to in runs": lambda text: re.sub(r"(?<![\w.#/-])([3-6]) (?:to|through) (9)\b", r"\1 up to \2", text),
}
# What is cut into captions loses some sentences' ends; the "of all" of a list told on one line reaches less surely.
LEAST = {
    "captions of 6 words": 0.975,
    "captions of 11 words": 0.975,
    "slashes between items": 0.98,
    "counted on one line": 0.98,
}


@pytest.mark.parametrize("way", ALIKE)
def test_a_list_told_in_another_way_is_read_alike(way: str) -> None:
    outcomes, lists = told_lists.read_changed(ALIKE[way], LISTS, without_words)
    assert lists == LISTS
    assert outcomes["right"] >= LEAST.get(way, 0.985) * outcomes.total(), outcomes


def without_words(expected: str) -> str:
    """What is expected of clubs, set and ball: words kept aside are other words when they are told otherwise."""
    return "\n".join(line for line in expected.split("\n") if not re.match(r"(aside|note|left|ask):", line))


def test_other_wordings_are_read_as_the_words_that_the_rooms_know() -> None:
    outcomes: Counter[str] = Counter()
    tried: set[str] = set()
    for plain, others in own_table("said_otherwise")["read_as"].items():
        written = [other for told in others for other in spelled_out(told) if other != plain]
        stands = re.compile(rf"(?<![\w'-]){re.escape(plain)}(?![\w'-])")
        lists = 0
        for index, (text, expected) in enumerate(told_lists.lists()):
            if written and lists < 2 and stands.search(text) and told_lists.faultless(index):
                other = written[index % len(written)]
                outcomes += told_lists.score(stands.sub(other, text), without_words(expected)).outcomes
                tried.add(plain)
                lists += 1
    assert len(tried) >= 12
    assert outcomes["right"] >= 0.985 * outcomes.total(), outcomes
