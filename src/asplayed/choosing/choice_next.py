"""The sets next in order to the best: all others, split into cells, and the cell that can hold the best looked into.

Every set that is not the best one, nor the best one with more clubs, lacks one of its clubs: the first that it lacks
says which cell it lies in (Murty 1968, "An algorithm for ranking all the assignments in order of increasing cost"). A
cell holds some clubs and lacks some; its bound comes from the prices of the whole problem, bettered where it matters.
The cell with the least bound is looked into until its best set is known; that set is next, and splits the cell.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.choice_bound import Bound, bounded
from asplayed.choosing.choice_exact import solve
from asplayed.choosing.choice_model import SetFound
from asplayed.choosing.choice_problem import Problem, strokes_of_set, verified, without_idle
from asplayed.choosing.choice_search import quick_set

_BEYOND = 0.03  # strokes a round beyond the next cell's bound that a cell is looked into
_FARTHER = 8.0  # times that a cell is looked into farther with every look
_STEPS = 120  # of bettering a cell's bound before it goes to the exact solver


class _Cell(NamedTuple):
    """Sets that hold some entrants and are made of the allowed ones; what none of them can beat; the best known."""

    allowed: NDArray[np.int64]
    held: tuple[int, ...]
    bound: Bound
    chosen: tuple[int, ...] | None = None  # its best set, once that is known
    looks: int = 0


def next_sets(
    problem: Problem,
    allowed: NDArray[np.int64],
    best: tuple[int, ...],
    bound: Bound,
    *,
    closed: float,
    count: int,
    left: Callable[[], float],
) -> Iterator[SetFound]:
    """So many sets next in order of strokes, each neither one before it nor one of those with more clubs.

    `bound` is that of the best set, whose prices every cell begins with; a gap below `closed` is none. Ends early where
    no set is left that serves every situation, or when no time is `left`.
    """
    numbers = itertools.count()
    known = [frozenset(best)]
    cells: list[tuple[float, int, _Cell]] = []

    def split(cell: _Cell, chosen: Sequence[int], least: float) -> None:
        held = list(cell.held)
        for index in (index for index in chosen if index not in cell.held):
            kept = cell.allowed[cell.allowed != index]
            part = _Cell(kept, tuple(held), cell.bound)
            heapq.heappush(cells, (least, next(numbers), part))
            held.append(index)
            cell = cell._replace(allowed=_without_other_versions(problem, cell.allowed, index))

    split(_Cell(allowed, (), bound), best, bound.strokes)
    given = 0
    while cells and given < count and left() > 0:
        least, _, cell = heapq.heappop(cells)
        if least >= problem.unserved:
            return
        if cell.chosen is None:
            # looked into little further than the next cell's bound, which may be the better one to look into
            limit = (max(cells[0][0], least) if cells else least) + _BEYOND * _FARTHER**cell.looks
            looked = _looked_into(problem, cell, limit, closed, left)
            if looked is not None:
                heapq.heappush(cells, (max(least, looked.bound.strokes), next(numbers), looked))
            continue
        chosen = without_idle(problem, cell.chosen)
        if not any(before <= set(chosen) for before in known):
            known.append(frozenset(chosen))
            given += 1
            yield SetFound(chosen, verified(problem, chosen), True)
        split(cell, chosen, least)


def _without_other_versions(problem: Problem, allowed: NDArray[np.int64], index: int) -> NDArray[np.int64]:
    place = problem.place[allowed]
    kept: NDArray[np.int64] = allowed[(place != problem.place[index]) | (allowed == index)]
    return kept


def _looked_into(problem: Problem, cell: _Cell, limit: float, closed: float, left: Callable[[], float]) -> _Cell | None:
    """A cell with a better bound, beyond the limit or proven by its best set; None where it holds no set."""
    cell = cell._replace(looks=cell.looks + 1)
    holding = np.zeros(len(problem.entrants), dtype=np.bool_)
    holding[list(cell.held)] = True
    part = problem._replace(held=holding).where(cell.allowed)
    bound, rest = bounded(part, limit, cell.bound, steps=_STEPS, enough=lambda: left() <= 0)
    if bound.strokes >= limit - closed or left() <= 0:
        return cell._replace(bound=bound)
    first = quick_set(part, np.searchsorted(cell.allowed, np.sort(np.array(cell.held, dtype=np.int64))).tolist())
    strokes = np.inf if first is None else strokes_of_set(part, first)
    if strokes < limit:
        bound, rest = bounded(part, strokes, bound, steps=_STEPS, enough=lambda: left() <= 0)
    answer = None
    if strokes - bound.strokes > closed:
        pool = rest.pool(part)
        answer = solve(part.where(pool.entrants), pool.pairs, min(strokes, limit), seconds=left())
        if answer.chosen is not None:
            found = pool.entrants[list(answer.chosen)].tolist()
            if (other := strokes_of_set(part, found)) < strokes:
                first, strokes = tuple(found), other
    if first is not None and (strokes <= limit or strokes - bound.strokes <= closed):
        if answer is not None and not answer.proven:
            return cell._replace(bound=bound)
        return cell._replace(bound=bound._replace(strokes=strokes), chosen=tuple(cell.allowed[list(first)].tolist()))
    if answer is None or not answer.proven:
        return cell._replace(bound=bound)
    if limit >= part.unserved:
        return None
    return cell._replace(bound=bound._replace(strokes=max(bound.strokes, limit)))
