"""Versions of a club that another version stands for: worse in every way, or the same to a fitter.

A version stands for another of the same club when it costs no more in any situation of any world, has no more changes
and no higher price, and no limit tells them apart: the other is then in no better set, whatever else is chosen. For
sets to be different in more than name, a version also stands for another that no set could do better with by more than
a thousandth of a stroke a round.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.choice_problem import Problem, in_irons
from asplayed.choosing.choice_search import worlds_together

ALIKE = 1e-3
"""Strokes a round below which two versions of a club are one to a fitter: a hundredth of what anybody could notice."""
_STANDING = 64  # versions of a club that stand for others; the rest stand for themselves


def not_stood_for(
    problem: Problem, allowed: NDArray[np.int64], *, within: float = 0.0, before: Sequence[int] = ()
) -> NDArray[np.int64]:
    """Those of the allowed entrants that no other stands for, `within` so many strokes a round.

    At 0 the strokes of the best set are the same as before, under every limit on changes and on price. `before` are
    entrants that stand for others before anybody stands for them.
    """
    told_apart = _told_apart(problem)
    whole = worlds_together(problem, problem.costs[allowed]) + problem.fixed[allowed]
    first = ~np.isin(allowed, np.asarray(before, dtype=np.int64))
    order = np.lexsort(
        (allowed, whole, problem.price[allowed], problem.changes[allowed], first, problem.place[allowed])
    )
    kept: list[int] = []
    ranked = allowed[order]
    for members in np.split(ranked, np.flatnonzero(np.diff(problem.place[ranked])) + 1):
        rest = members
        for _ in range(_STANDING):
            if not len(rest):
                break
            one, rest = int(rest[0]), rest[1:]
            kept.append(one)
            if len(rest):
                rest = rest[~_stands_for(problem, told_apart, one, rest, within)]
        kept.extend(rest.tolist())
    return np.array(sorted(kept), dtype=np.int64)


def _stands_for(
    problem: Problem, told_apart: NDArray[np.int64], one: int, others: NDArray[np.int64], within: float
) -> NDArray[np.bool_]:
    """Which of the other versions of its club one version stands for."""
    no_more = (problem.changes[one] <= problem.changes[others]) & (problem.price[one] <= problem.price[others])
    same = no_more & (told_apart[one] == told_apart[others])
    if problem.limits.least_gap is not None or problem.limits.most_gap is not None:
        same &= problem.carry[one] == problem.carry[others]
    found = np.zeros(len(others), dtype=np.bool_)
    asked = np.flatnonzero(same)
    more = np.maximum(problem.costs[one] - problem.costs[others[asked]], 0.0)
    found[asked] = worlds_together(problem, more) <= within
    return found


def _told_apart(problem: Problem) -> NDArray[np.int64]:
    """A number for each entrant, alike where no limit but those on carry, changes and price tells entrants apart."""
    seen: dict[tuple[object, ...], int] = {}
    numbers = [
        seen.setdefault((each.club, each.kind, each.model if in_irons(each, problem.limits) else None), len(seen))
        for each in problem.entrants
    ]
    return np.array(numbers, dtype=np.int64)
