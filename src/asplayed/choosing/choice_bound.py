"""What no set can beat: a bound by prices on the situations, and which clubs it rules out.

Every situation is given a price for being served. A club is worth its price less what it costs wherever that pays;
the best few clubs by worth cost no more than the best set (Lagrangian duality; Cornuéjols, Fisher & Nemhauser 1977,
"Location of bank accounts to optimize float"). Prices are bettered step by step towards the best bound, the limits on
changes and on price having prices of their own, the worlds of a worst case their odds. A club, or a club's service of a
situation, that would cost more than a set already known is in no better set, and is left out.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.choice_model import Numbers
from asplayed.choosing.choice_problem import Problem, is_named

_EVERY = 20  # steps between two looks at what can be left out


class Bound(NamedTuple):
    """A bound in strokes, with its prices: of situations, of a change, of a unit of money; and the odds of worlds."""

    strokes: float
    prices: Numbers
    change: float
    money: float
    odds: Numbers


class Left(NamedTuple):
    """The entrants that no bound rules out, which situations each may serve, and what each costs by itself."""

    entrants: NDArray[np.int64]
    pairs: NDArray[np.bool_]
    reduced: Numbers

    def few(self, count: int) -> Left:
        """So many of the entrants, the likeliest."""
        best = np.sort(np.argsort(self.reduced, kind="stable")[:count])
        return Left(self.entrants[best], self.pairs[best], self.reduced[best])

    def pool(self, problem: Problem) -> Left:
        """Those that an exact solver needs: who may serve a situation, or must be there for a limit."""
        limits = problem.limits
        useful = self.pairs.any(axis=1) | problem.putter[self.entrants] | problem.held[self.entrants]
        if limits.most_gap is not None:
            useful[:] = True  # a club may be there only to fill a gap
        for index, entrant in enumerate(self.entrants.tolist()):
            useful[index] |= any(is_named(problem.entrants[entrant], word) for word in limits.required)
        return Left(self.entrants[useful], self.pairs[useful], self.reduced[useful])


class _Inner(NamedTuple):
    strokes: float
    chosen: NDArray[np.int64]
    reduced: Numbers
    displaced: Numbers  # what choosing an entrant frees: the version of its club that was chosen, or the dearest club


class _Shape(NamedTuple):
    """What of the limits the bound keeps to: places in order, forced ones, putters, drivers."""

    order: NDArray[np.int64]
    starts: NDArray[np.int64]
    forced: NDArray[np.bool_]
    driver: NDArray[np.bool_]
    others: NDArray[np.int64]
    putters: NDArray[np.int64]


def _shape(problem: Problem) -> _Shape:
    others = np.flatnonzero(~problem.putter)
    order = others[np.argsort(problem.place[others], kind="stable")]
    places = problem.place[order]
    starts = np.flatnonzero(np.diff(places, prepend=-1))
    forced = np.zeros(len(starts), dtype=np.bool_)
    for word in problem.limits.required:
        meant = {int(problem.place[i]) for i, each in enumerate(problem.entrants) if is_named(each, word)}
        if len(meant) == 1:
            forced |= places[starts] == next(iter(meant))
    forced |= np.isin(places[starts], problem.place[problem.held])
    driver = np.logical_and.reduceat(problem.driver[order], starts) if len(order) else np.zeros(0, dtype=np.bool_)
    return _Shape(order, starts, forced, driver, others, np.flatnonzero(problem.putter))


def _inner(problem: Problem, shape: _Shape, costs: Numbers, bound: Bound, worth: Numbers | None = None) -> _Inner:
    """The cheapest choice at some prices: the best of each place, as many as there may be, where they pay."""
    limits = problem.limits
    if worth is None:
        worth = np.minimum(costs - bound.prices, 0.0).sum(axis=1)
    reduced = worth + problem.fixed + bound.change * problem.changes + bound.money * problem.price
    total = float(bound.prices.sum())
    total -= bound.change * (limits.most_changes or 0) + bound.money * (limits.most_price or 0.0)
    chosen = []
    if len(shape.putters):
        best = shape.putters[int(reduced[shape.putters].argmin())]
        chosen.append(int(best))
        total += float(reduced[best])
    room = limits.clubs - 1
    dearest = 0.0
    displaced = np.zeros(len(reduced))
    if len(shape.putters):
        displaced[shape.putters] = reduced[best]
    if len(shape.order) and room > 0:
        here = reduced[shape.order]
        least = np.minimum.reduceat(here, shape.starts)
        # drivers beyond those allowed are as good as absent
        if shape.driver.any():
            drivers = np.flatnonzero(shape.driver & ~shape.forced)
            spare = max(0, limits.drivers - int((shape.driver & shape.forced).sum()))
            least[drivers[np.argsort(least[drivers], kind="stable")[spare:]]] = np.inf
        rank = np.where(shape.forced, -np.inf, least)
        picked = np.argsort(rank, kind="stable")[:room]
        picked = picked[shape.forced[picked] | (least[picked] < 0)]
        if len(picked) == room and not shape.forced[picked[-1]]:
            dearest = float(least[picked[-1]])
        displaced[shape.others] = dearest
        total += float(least[picked].sum())
        ends = np.append(shape.starts[1:], len(shape.order))
        for place in picked.tolist():
            span = slice(shape.starts[place], ends[place])
            chosen.append(int(shape.order[span][int(here[span].argmin())]))
            displaced[shape.order[span]] = least[place]
    return _Inner(total, np.array(chosen, dtype=np.int64), reduced, displaced)


def first_prices(problem: Problem, chosen: Any) -> Numbers:
    """Prices to start from: what the second best club of a known set costs in each situation."""
    kept = np.sort(problem.costs[list(chosen)], axis=0)
    halfway = kept[0] + 0.5 * (np.median(problem.costs, axis=0) - kept[0])
    prices: Numbers = np.minimum(kept[min(1, len(kept) - 1)], halfway)
    return prices


def bounded(
    problem: Problem,
    cut: float,
    start: Bound,
    *,
    steps: int = 400,
    enough: Callable[[], bool] = lambda: False,
) -> tuple[Bound, Left]:
    """The best bound that so many steps find, and what it leaves of the entrants for sets that cost less than `cut`."""
    kept = np.arange(len(problem.entrants))
    part, shape = problem, _shape(problem)
    worlds = len(start.odds)
    best, current = start._replace(strokes=-np.inf), start
    pace, waited = 1.0, 0
    costs = _weighed(part, current.odds)
    direction = np.zeros(len(start.prices))
    side = np.zeros(2)
    for step in range(steps):
        inner = _inner(part, shape, costs, current)
        if inner.strokes > best.strokes + 1e-9:
            waited = 0 if inner.strokes > best.strokes + 1e-4 * max(cut - best.strokes, 1e-9) else waited + 1
            best = current._replace(strokes=inner.strokes)
        else:
            waited += 1
        if waited >= 8:
            pace, waited = pace * 0.6, 0
            current, direction = best, np.zeros(len(start.prices))
            inner = _inner(part, shape, costs, current)
        if best.strokes >= cut - 1e-9 or pace < 2e-3 or enough():
            break
        if step % _EVERY == _EVERY - 1:
            still = _ruled_out(part, shape, costs, best, cut).entrants
            if len(still) < 0.8 * len(kept):
                kept, part = kept[still], part.where(still)
                shape, costs = _shape(part), costs[still]
                inner = _inner(part, shape, costs, current)
        served = (costs[inner.chosen] < current.prices).sum(axis=0)
        direction = 0.7 * direction + (1.0 - served)
        side = 0.7 * side + np.array(
            [
                part.changes[inner.chosen].sum() - (problem.limits.most_changes or 0),
                part.price[inner.chosen].sum() - (problem.limits.most_price or 0.0),
            ]
        )
        limited = np.array([problem.limits.most_changes is not None, problem.limits.most_price is not None])
        scale = np.array([1.0, max(problem.limits.most_price or 1.0, 1.0) ** -1])
        length = float(direction @ direction + ((side * scale * limited) ** 2).sum())
        if length < 1e-12:
            break
        move = pace * max(cut - inner.strokes, 1e-6) / length
        current = current._replace(
            prices=current.prices + move * direction,
            change=max(0.0, current.change + move * float(side[0])) if limited[0] else 0.0,
            money=max(0.0, current.money + move * float(side[1]) * float(scale[1]) ** 2) if limited[1] else 0.0,
        )
        if worlds > 1 and problem.worst and step % _EVERY == 0:
            current, costs = _other_odds(part, current, inner.chosen)
    left = ruled_out(part, best, cut)
    return best, left._replace(entrants=kept[left.entrants])


def ruled_out(problem: Problem, bound: Bound, cut: float) -> Left:
    """What the prices of a bound leave for sets that cost less than `cut`."""
    return _ruled_out(problem, _shape(problem), _weighed(problem, bound.odds), bound, cut)


def _weighed(problem: Problem, odds: Numbers) -> Numbers:
    return problem.costs * odds[problem.world] if problem.worst else problem.costs


def _other_odds(problem: Problem, bound: Bound, chosen: NDArray[np.int64]) -> tuple[Bound, Numbers]:
    """Odds moved towards the worlds in which the clubs just chosen cost most."""
    by_world = np.bincount(problem.world, problem.costs[chosen].min(axis=0), minlength=len(bound.odds))
    odds = bound.odds * np.exp(np.clip(by_world - by_world.mean(), -1.0, 1.0))
    odds = np.maximum(odds / odds.sum(), 1e-6)
    odds /= odds.sum()
    prices = bound.prices * (odds / bound.odds)[problem.world]
    return bound._replace(odds=odds, prices=prices), _weighed(problem, odds)


def _ruled_out(problem: Problem, shape: _Shape, costs: Numbers, bound: Bound, cut: float) -> Left:
    inner = _inner(problem, shape, costs, bound)
    spare = cut - inner.strokes
    by_itself = inner.reduced - inner.displaced
    left = np.flatnonzero(by_itself <= spare + 1e-9)
    dearer = np.maximum(costs[left] - bound.prices, 0.0)
    pairs = dearer <= (spare - by_itself[left])[:, None] + 1e-9
    pairs[problem.putter[left]] = False
    return Left(left, pairs, by_itself[left])
