"""Every figure taken stands somewhere: what the reader took and no record, question or note kept is shown as left over.

A figure can be taken and then go under: said of a heading that no club came to stand below, of a group whose clubs
all had a word of their own, of a club that a later line took for another. The line is then given back in its own words.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import msgspec

from asplayed.clubs import Passage
from asplayed.intake.phrases import UNITS
from asplayed.intake.scene import CLAUSE, Scene

SMALL = 14  # a number up to this may be a club's own, or count clubs
_NEAR = 0.011
_LOFT_AND_BOUNCE = re.compile(r"\d\d\.\d\d")  # "52.08", a wedge's
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def figures_in(thing: Any) -> set[float]:
    """Every number in builtins, those inside their words too; lines are places, not figures."""
    if isinstance(thing, dict):
        return set[float]().union(*(figures_in(each) for key, each in thing.items() if key not in ("line", "lines")))
    if isinstance(thing, list | tuple):
        return set[float]().union(*(figures_in(each) for each in thing))
    if isinstance(thing, bool) or thing is None:
        return set()
    if isinstance(thing, int | float):
        return {abs(float(thing))}
    return {float(each) for each in _NUMBER.findall(str(thing))}


def unplaced(scene: Scene, kept: Sequence[Any]) -> list[Passage]:
    """The stretches whose figure a club took and that none of the records in `kept` has, each once, in its own words.

    A figure that a correction in the list replaced is accounted for: the list itself says that it no longer holds.
    """
    builtins = msgspec.to_builtins(kept)
    known, words = figures_in(builtins), str(builtins)
    for draft in scene.drafts:
        known |= {abs(entry.value) for entry in draft.corrected if isinstance(entry.value, int | float)}
    found: list[Passage] = []
    given_back = 0  # where the last stretch given back ended: its other figures went with it
    for at, token in enumerate(scene.tokens):
        value = token.value
        if (
            at < given_back
            or scene.claims[at] != "club"
            or token.kind != "number"
            or not isinstance(value, int | float)
        ):
            continue
        value = abs(float(value))
        small = value <= SMALL and value == int(value) and not _united(scene, at)
        spelt = token.text[0].isalpha() or not token.text.replace(".", "").isdigit()
        if small or (spelt and token.text in words):
            continue  # "fifteen or sixteen and a half" stands in the question, "½ less each club" in the chain, as said
        forms = [value, value / 25.4, value / 2.54, value * 100 / 2.54]  # as it is; of millimetres, centimetres, metres
        if _LOFT_AND_BOUNCE.fullmatch(token.text):
            forms.append(float(int(value)))
        if any(abs(one - other) < _NEAR for one in forms for other in known):
            continue
        start, given_back = _line_around(scene, at, given_back)
        found.append(Passage(line=token.written, text=scene.words(start, given_back)))
    return found


def _line_around(scene: Scene, at: int, least: int) -> tuple[int, int]:
    """Where the line or sentence begins, not before `least`, and ends that a token stands in."""
    start = at
    while start > max(least, at - CLAUSE) and scene.tokens[start - 1].terminal not in ("STOP", "NEWLINE", "BULLET"):
        start -= 1
    return start, max(at + 1, scene.clause_end(at))


def _united(scene: Scene, at: int) -> bool:
    """True for a number with its unit behind it, which names and counts no clubs."""
    return at + 1 < len(scene.tokens) and scene.tokens[at + 1].terminal in UNITS
