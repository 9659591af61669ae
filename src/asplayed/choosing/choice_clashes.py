"""Limits that no set can keep: the smallest group of them that clashes, in words."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import NoReturn

import numpy as np

from asplayed.choosing.choice_exact import any_set, program_of
from asplayed.choosing.choice_problem import Problem
from asplayed.errors import BadInput

_SMALL = 3  # groups up to so many limits are all tried; larger ones are found by leaving limits out one by one


def clashing(problem: Problem) -> tuple[str, ...]:
    """The smallest group of limits that no set keeps together; nothing where all can be kept.

    Of several smallest groups the first in the order of the limits is named. A group of more than three is one of which
    no limit can be left out; a smaller one might then exist only among four or more.
    """
    problem = _alike_once(problem)
    words = list(program_of(problem).rows)
    if any_set(problem) is not None:
        return ()
    for size in range(1, _SMALL + 1):
        for group in combinations(words, size):
            if any_set(problem, group) is None:
                return group
    kept = list(words)
    for word in words:
        fewer = [other for other in kept if other != word]
        if any_set(problem, fewer) is None:
            kept = fewer
    return tuple(kept)


def _alike_once(problem: Problem) -> Problem:
    """The problem with entrants that no limit tells apart taken once."""
    seen: dict[tuple[object, ...], int] = {}
    for index, each in enumerate(problem.entrants):
        key = (each.place, each.club, each.kind, each.model, each.changes, each.price, round(each.carry, 6))
        seen.setdefault(key, index)
    return problem.where(np.array(sorted(seen.values())))


def refuse(problem: Problem) -> NoReturn:
    """Refuse a problem that has no set, naming the limits that clash."""
    raise BadInput(sentence(clashing(problem), problem))


def sentence(words: Sequence[str], problem: Problem) -> str:
    """One sentence that names the limits that clash and what to do."""
    if words == ("exactly one putter",):
        return "there is no putter to choose from; give one, since every set has exactly one putter"
    if not words:
        return "no set could be found within the limits in the time given; allow more time or loosen a limit"
    named = " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
    together = "cannot be kept together" if len(words) > 1 else "cannot be kept"
    which = "one of them" if len(words) > 1 else "it"
    return (
        f"no set of the {len(problem.entrants):,} clubs that may be had keeps to the limits: {named} {together}; "
        f"loosen {which}"
    )
