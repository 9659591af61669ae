"""A good set quickly: clubs added one by one where they save most, then swapped while a swap saves strokes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.choice_model import Numbers
from asplayed.choosing.choice_problem import Problem, broken, in_irons, is_named, kept_apart, strokes_of_set

_TRIED = 40  # the best swaps of a club that are tried against limits on the set as a whole
_ROUNDS = 30


def quick_set(problem: Problem, start: Sequence[int] = ()) -> tuple[int, ...] | None:
    """A set that keeps to every limit and that no swap of one club betters, grown from some clubs or from nothing.

    None where adding clubs one by one ends outside the limits, which does not say that no set lies within them.
    """
    chosen = _grown(problem, start)
    if chosen is None or broken(problem, chosen):
        return None
    return tuple(sorted(_swapped(problem, chosen)))


def _grown(problem: Problem, start: Sequence[int]) -> list[int] | None:
    chosen = list(start)
    putters = np.flatnonzero(problem.putter)
    if not len(putters):
        return None
    for word in (None, *problem.limits.required):
        if word is None:
            if problem.putter[chosen].any():
                continue
            named = _required_putters(problem, putters)
        else:
            if any(is_named(problem.entrants[index], word) for index in chosen):
                continue
            named = np.array([index for index, each in enumerate(problem.entrants) if is_named(each, word)])
        named = named[may_join(problem, chosen)[named]] if len(named) else named
        if not len(named):
            return None
        value = np.minimum(problem.costs[named], _least(problem, chosen)).sum(axis=1) + problem.fixed[named]
        order = np.lexsort((problem.price[named], problem.changes[named], value))
        chosen.append(int(named[order[0]]))
    while len(chosen) < problem.limits.clubs:
        least = _least(problem, chosen)
        free = may_join(problem, chosen) & ~problem.putter
        if not free.any():
            break
        values = worlds_together(problem, np.minimum(problem.costs, least)) + problem.fixed
        values[~free] = np.inf
        best = int(values.argmin())
        now = float(worlds_together(problem, least[None])[0])
        if not values[best] < now - 1e-12 and np.isfinite(now):
            break
        chosen.append(best)
    return chosen


def _required_putters(problem: Problem, putters: NDArray[np.int64]) -> NDArray[np.int64]:
    """The putters that meet whatever is required of a putter."""
    for word in problem.limits.required:
        meant = np.array(
            [index for index in putters.tolist() if is_named(problem.entrants[index], word)], dtype=np.int64
        )
        putters = meant if len(meant) else putters
    return putters


def _least(problem: Problem, chosen: Sequence[int]) -> Numbers:
    if not chosen:
        return np.full(problem.costs.shape[1], problem.unserved)
    least: Numbers = problem.costs[list(chosen)].min(axis=0)
    return least


def worlds_together(problem: Problem, least: Numbers) -> Numbers:
    """Strokes by entrant, given what each situation costs with it; of the worst world if that is asked."""
    if not problem.worst:
        return np.asarray(least.sum(axis=1))
    starts = np.flatnonzero(np.diff(problem.world, prepend=-1))
    return np.asarray(np.add.reduceat(least, starts, axis=1).max(axis=1))


def may_join(problem: Problem, chosen: Sequence[int]) -> NDArray[np.bool_]:
    """Which entrants can be added to some clubs without breaking a limit that more clubs never mend."""
    limits, kept = problem.limits, list(chosen)
    free = np.ones(len(problem.entrants), dtype=np.bool_)
    if not kept:
        free &= problem.changes <= (np.inf if limits.most_changes is None else limits.most_changes)
        free &= problem.price <= (np.inf if limits.most_price is None else limits.most_price + 1e-6)
        return free & (~problem.driver if limits.drivers == 0 else True)
    if len(kept) >= limits.clubs:
        return np.zeros_like(free)
    free &= ~np.isin(problem.place, problem.place[kept])
    if problem.putter[kept].any():
        free &= ~problem.putter
    elif len(kept) == limits.clubs - 1:
        free &= problem.putter
    if problem.driver[kept].sum() >= limits.drivers:
        free &= ~problem.driver
    if limits.most_changes is not None:
        free &= problem.changes[kept].sum() + problem.changes <= limits.most_changes
    if limits.most_price is not None:
        free &= problem.price[kept].sum() + problem.price <= limits.most_price + 1e-6
    if limits.least_gap is not None:
        gapped = np.array([kept_apart(each) for each in problem.entrants])
        here = np.array([problem.carry[index] for index in kept if gapped[index]])
        if len(here):
            near = np.abs(problem.carry[:, None] - here).min(axis=1) < limits.least_gap - 1e-9
            free &= ~(near & gapped)
    if limits.same_irons is not None:
        models = {problem.entrants[index].model for index in kept if in_irons(problem.entrants[index], limits)}
        if models:
            free &= np.array([not in_irons(each, limits) or each.model in models for each in problem.entrants])
    return free


def _swapped(problem: Problem, chosen: list[int]) -> list[int]:
    """The set after all single swaps, additions and omissions that save strokes, the best of each club in turn."""
    now = strokes_of_set(problem, chosen)
    hard = problem.limits.most_gap is not None or bool(problem.limits.required)
    for _ in range(_ROUNDS):
        before = now
        for out in (*chosen, None):
            if out is not None and (out not in chosen or problem.held[out]):
                continue
            rest = [index for index in chosen if index != out]
            free = may_join(problem, rest)
            if out is not None and problem.putter[out]:
                free &= problem.putter
            if not free.any():
                continue
            base = problem.fixed[rest].sum()
            places = np.flatnonzero(free)
            values = (
                worlds_together(problem, np.minimum(problem.costs[places], _least(problem, rest)))
                + problem.fixed[places]
            )
            values += base
            order = np.argsort(values, kind="stable")[:_TRIED] if hard else [int(values.argmin())]
            for place in order:
                if not values[place] < now - 1e-10:
                    break
                fresh = [*rest, int(places[place])]
                if not hard or not broken(problem, fresh):
                    chosen, now = fresh, float(values[place])
                    break
        if not now < before - 1e-10:
            break
    return chosen
