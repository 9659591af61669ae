"""The best set within limits, proven, with what else is nearly as good, what each club is worth, and what limits cost.

Three steps. A good set is found by adding and swapping clubs (`choice_search`). Prices on the situations bound what any
set can reach and rule out most clubs (`choice_bound`). What is left goes to an exact solver (`choice_exact`). Every set
that is handed back is reckoned anew and held against the limits' words, apart from all three (`choice_problem`).
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

import msgspec
import numpy as np

from asplayed.choosing.choice_alike import ALIKE, not_stood_for
from asplayed.choosing.choice_bound import Bound, Left, bounded, first_prices, ruled_out
from asplayed.choosing.choice_clashes import refuse
from asplayed.choosing.choice_exact import any_set, solve
from asplayed.choosing.choice_model import Against, Choice, Entrant, FrontPoint, Limits, Numbers, Progress, SetFound
from asplayed.choosing.choice_next import next_sets
from asplayed.choosing.choice_problem import (
    UNKNOWN_PRICE,
    Problem,
    is_forbidden,
    is_named,
    problem_of,
    serving,
    strokes_of_set,
    verified,
    without_idle,
)
from asplayed.choosing.choice_search import may_join, quick_set, worlds_together

__all__ = ["Choice", "Entrant", "FrontPoint", "Limits", "Progress", "SetFound", "best_set"]

CLOSED = 2e-6  # strokes a round; a gap below this is none: the solver's own tolerance
_MANY_PAIRS = 12_000  # services left, beyond which a smaller program is solved first for a better set to rule out with
_FEW = 120  # clubs in that smaller program
_POINTS = 9  # values of a limit that a front is reckoned at, at most


class _Found(NamedTuple):
    """The best set of a problem so far, in the numbering of the whole problem, and its bound with prices."""

    chosen: tuple[int, ...]
    strokes: float
    bound: Bound

    @property
    def proven(self) -> bool:
        return self.strokes - self.bound.strokes <= CLOSED


class _Clock:
    """How much time is left, whom to tell of progress, and whether somebody has interrupted."""

    def __init__(self, seconds: float, tell: Callable[[Progress], None] | None) -> None:
        self.started = time.monotonic()
        self.ends = self.started + seconds
        self.tell = tell
        self.stopped = False
        self.best: _Found | None = None

    @property
    def left(self) -> float:
        return max(0.0, self.ends - time.monotonic())

    def say(self, found: _Found, words: str) -> None:
        """Keep the best set so far and tell of it."""
        self.best = found
        if self.tell is not None:
            self.tell(Progress(found.strokes, min(found.bound.strokes, found.strokes), found.chosen, words))


def best_set(
    costs: Any,
    weights: Any,
    entrants: Sequence[Entrant],
    limits: Limits | None = None,
    *,
    against: Against = "average",
    odds: Any = None,
    alternatives: int = 10,
    worth: bool = True,
    fronts: bool = True,
    seconds: float = 30.0,
    on_progress: Callable[[Progress], None] | None = None,
) -> Choice:
    """The set within the limits whose best club for each situation costs fewest strokes a round in all.

    `costs` are expected strokes (entrants by situations, or worlds by entrants by situations; infinite where a club
    cannot serve), `weights` how often a round each situation comes. With several worlds the average by their `odds` is
    made least, or the worst of them. A set holds no club that adds nothing, so it may have fewer than fourteen. Of
    `alternatives`, none is another with more clubs. The search ends after `seconds` with the best set so far and its
    gap; an interrupt ends it in the same way. Refused with `BadInput`: shapes and names that do not fit, all at once;
    limits that clash, by name.

    >>> clubs = [Entrant("driver", "driver", "driver"), Entrant("7 iron", "7 iron", "iron"),
    ...          Entrant("putter", "putter", "putter")]
    >>> never = float("inf")
    >>> found = best_set([[3.0, 4.0], [3.5, 3.0], [never, never]], [14, 10], clubs, Limits(clubs=2))
    >>> found.chosen, found.strokes, found.optimal
    ((1, 2), 79.0, True)
    """
    limits = Limits() if limits is None else limits
    problem = problem_of(costs, weights, entrants, limits, against=against, odds=odds)
    clock = _Clock(seconds, on_progress)
    allowed = _allowed(problem)
    first = _first(problem, allowed)
    if first is None:
        refuse(problem)
    others: tuple[SetFound, ...] = ()
    lost: dict[int, float] = {}
    by_changes: tuple[FrontPoint, ...] = ()
    by_price: tuple[FrontPoint, ...] = ()
    try:
        clock.say(first, "a good set, by adding and swapping clubs")
        candidates = not_stood_for(problem, np.arange(len(entrants)))
        allowed = np.intersect1d(allowed, candidates)
        best = _best(problem, np.union1d(allowed, first.chosen), first, clock, clock.say)
        clock.say(best, "proven best" if best.proven else "the best set in the time given")
        if worth:
            lost = _worth(problem, candidates, best, clock)
        if fronts:
            by_changes = _front_by_changes(problem, candidates, best, clock)
            by_price = _front_by_price(problem, candidates, best, clock)
        if alternatives:
            others = _alternatives(problem, allowed, best, alternatives, clock)
    except KeyboardInterrupt:
        clock.stopped = True
    best = clock.best or first
    strokes = verified(problem, best.chosen)
    bound = min(best.bound.strokes, strokes)
    if strokes - bound <= CLOSED:
        bound = strokes
    return Choice(
        chosen=best.chosen,
        strokes=strokes,
        bound=bound,
        gap=strokes - bound,
        optimal=strokes == bound,
        served=serving(problem, best.chosen),
        alternatives=others,
        worth=lost,
        by_changes=by_changes,
        by_price=by_price,
        stopped=clock.stopped,
        seconds=time.monotonic() - clock.started,
    )


def _allowed(problem: Problem, without: int | None = None) -> Any:
    """The entrants that some set within the limits could hold, as far as one entrant alone says so, a place aside."""
    limits, entrants = problem.limits, problem.entrants
    free = may_join(problem, ()) & (True if without is None else problem.place != without)
    for word in limits.forbidden:
        free &= np.array([not is_forbidden(each, word) for each in entrants])
    for word in limits.required:
        meant = np.array([is_named(each, word) for each in entrants])
        places = np.unique(problem.place[meant])
        if len(places) == 1:  # the one version of that club is one that is meant
            free &= meant | (problem.place != places[0])
        if problem.putter[meant].all():
            free &= meant | ~problem.putter
    # putters play no full shots: of those that may be had, one is considered that none has for less in every way
    putters = np.flatnonzero(free & problem.putter)
    has = np.column_stack([problem.fixed, problem.changes, problem.price, problem.place])[putters]
    order = np.lexsort(has.T[::-1])
    for place, putter in enumerate(putters[order].tolist()):
        free[putter] = not any((has[order[n], :3] <= has[order[place], :3]).all() for n in range(place))
    return np.flatnonzero(free)


def _first(problem: Problem, allowed: Any, start: Sequence[int] = ()) -> _Found | None:
    """A good set that keeps to every limit, grown from some clubs or from nothing; None where no set keeps to them."""
    if not len(allowed):
        return None
    part = problem.where(allowed)
    chosen = quick_set(part, np.searchsorted(allowed, np.sort(start)).tolist()) if len(start) else None
    chosen = quick_set(part) if chosen is None else chosen
    if chosen is None:
        usual = np.median(part.costs, axis=0)
        lawful = any_set(part, prefer=np.minimum(part.costs - usual, 0.0).sum(axis=1) + part.fixed)
        if lawful is None:
            return None
        chosen = quick_set(part, lawful) or lawful
    worlds = int(problem.world.max()) + 1
    prices = first_prices(part, chosen) / (worlds if problem.worst else 1)
    bound = Bound(-np.inf, prices, 0.0, 0.0, np.full(worlds, 1 / worlds))
    return _tidy(problem, allowed[list(chosen)].tolist(), bound)


def _tidy(problem: Problem, chosen: Iterable[int], bound: Bound) -> _Found:
    kept = without_idle(problem, [int(index) for index in chosen])
    return _Found(kept, strokes_of_set(problem, kept), bound)


def _best(
    problem: Problem,
    allowed: Any,
    found: _Found,
    clock: _Clock,
    say: Callable[[_Found, str], None] | None = None,
    *,
    steps: int = 400,
) -> _Found:
    """The best set of the allowed entrants, proven where time allows, from one already found."""
    part = problem.where(allowed)
    bound, left = bounded(part, found.strokes, found.bound, steps=steps, enough=lambda: clock.left <= 0)
    found = found._replace(bound=bound)
    if say is not None:
        say(found, "a bound that no set can beat")
    if found.proven or clock.left <= 0:
        return found._replace(bound=bound._replace(strokes=min(bound.strokes, found.strokes)))
    pool = left.pool(part)
    if int(left.pairs.sum()) > _MANY_PAIRS:
        few = pool.few(_FEW)
        found = _solved(problem, allowed, part, few, found, clock, whole=False)
        if say is not None:
            say(found, "the best of the likeliest clubs")
        pool = ruled_out(part, bound, found.strokes).pool(part)
    return _solved(problem, allowed, part, pool, found, clock, whole=True)


def _solved(
    problem: Problem, allowed: Any, part: Problem, pool: Left, found: _Found, clock: _Clock, *, whole: bool
) -> _Found:
    """The better of the set found and the exact solver's in a pool; `whole` when nothing better is outside it."""
    seconds = clock.left if whole else min(clock.left, max(1.0, 0.2 * clock.left))
    answer = solve(part.where(pool.entrants), pool.pairs, found.strokes, seconds=seconds)
    bound = found.bound
    if answer.chosen is not None:
        other = _tidy(problem, allowed[pool.entrants[list(answer.chosen)]].tolist(), bound)
        if other.strokes < found.strokes:
            found = other
    if whole:
        least = found.strokes if answer.proven else min(found.strokes, max(bound.strokes, answer.bound))
        found = found._replace(bound=bound._replace(strokes=least))
    return found


# --- what else ----------------------------------------------------------------------------------------------------


def _alternatives(problem: Problem, allowed: Any, best: _Found, count: int, clock: _Clock) -> tuple[SetFound, ...]:
    """The next best sets different to a fitter, each neither one found before nor one of those with more clubs."""
    different = not_stood_for(problem, allowed, within=ALIKE, before=best.chosen)
    cut = _near(problem, different, best, count)
    likely = different[ruled_out(problem.where(different), best.bound, cut + 1e-9).entrants]
    found: list[SetFound] = []
    for among, most in ((np.union1d(likely, best.chosen), cut + 1e-9), (different, np.inf)):
        found = []
        for each in next_sets(
            problem, among, best.chosen, best.bound, closed=CLOSED, count=count, left=lambda: clock.left
        ):
            if each.strokes > most:
                break
            found.append(each)
            clock.say(best, f"alternative {len(found)} of {count}")
        if len(found) == count or clock.left <= 0:
            break
    return tuple(found)


def _near(problem: Problem, allowed: Any, best: _Found, count: int) -> float:
    """Strokes within which so many other sets lie, as far as swaps of one club say, some limits aside."""
    values = [np.zeros(0)]
    for out in best.chosen:
        rest = [index for index in best.chosen if index != out]
        free = may_join(problem, rest)[allowed]
        keep = allowed[free & (allowed != out) & (problem.putter[allowed] == problem.putter[out])]
        if len(keep) and rest:
            least, base = problem.costs[rest].min(axis=0), problem.fixed[rest].sum()
            fewer = worlds_together(problem, least[None]) + base
            swapped = worlds_together(problem, np.minimum(problem.costs[keep], least)) + problem.fixed[keep] + base
            values += [fewer, swapped[swapped < fewer - 1e-9]]  # a club that brings nothing makes no other set
    different = np.unique(np.round(np.concatenate(values), 9))
    different = different[different > best.strokes + 1e-8]
    return float(different[min(count, len(different)) - 1]) + 1e-9 if len(different) else best.strokes


def _worth(problem: Problem, candidates: Any, best: _Found, clock: _Clock) -> dict[int, float]:
    """Strokes a round lost without each club of the best set, the rest chosen anew."""
    lost = {}
    for number, index in enumerate(best.chosen, 1):
        if clock.left <= 0:
            break
        others = np.intersect1d(_allowed(problem, int(problem.place[index])), candidates)
        again = _again(problem, others, best, clock, [other for other in best.chosen if other != index])
        lost[index] = np.inf if again is None else max(0.0, again.strokes - best.strokes)
        clock.say(best, f"what club {number} of {len(best.chosen)} is worth")
    return lost


def _again(problem: Problem, allowed: Any, best: _Found, clock: _Clock, start: Sequence[int]) -> _Found | None:
    """The best set of a neighbouring problem, from the prices of the one before; None where there is no set."""
    first = _first(problem, allowed, [index for index in start if index in set(allowed.tolist())])
    if first is None or first.strokes >= problem.unserved:
        return None
    return _best(problem, allowed, first._replace(bound=best.bound), clock, steps=150)


def _front_by_changes(problem: Problem, candidates: Any, best: _Found, clock: _Clock) -> tuple[FrontPoint, ...]:
    """The best set for every number of changes up to those of the best set, or for some where they are many."""
    used = int(problem.changes[list(best.chosen)].sum())
    counts = np.unique(np.linspace(0, used, min(used + 1, _POINTS)).astype(int)).tolist()
    return _front(problem, candidates, best, clock, "most_changes", counts, problem.changes)


def _front_by_price(problem: Problem, candidates: Any, best: _Found, clock: _Clock) -> tuple[FrontPoint, ...]:
    """The best set for some prices up to that of the best set."""
    whole = float(problem.price[list(best.chosen)].sum())
    if not 0 < whole < UNKNOWN_PRICE:
        return ()
    budgets = [round(budget, 2) for budget in np.linspace(0.0, whole, _POINTS).tolist()]
    return _front(problem, candidates, best, clock, "most_price", budgets, problem.price)


def _front(
    problem: Problem, candidates: Any, best: _Found, clock: _Clock, name: str, limits: Sequence[float], used: Numbers
) -> tuple[FrontPoint, ...]:
    """The best sets for rising values of one limit; values that leave no set are left out."""
    points: list[FrontPoint] = []
    start: Sequence[int] = best.chosen
    for limit in limits:
        if clock.left <= 0:
            break
        tighter = problem._replace(limits=msgspec.structs.replace(problem.limits, **{name: limit}))
        if used[list(best.chosen)].sum() <= limit + 1e-6:
            again: _Found | None = best
        else:
            again = _again(tighter, np.intersect1d(_allowed(tighter), candidates), best, clock, start)
        if again is not None:
            start = again.chosen
            spent = float(used[list(start)].sum())
            points.append(FrontPoint(float(limit), spent, start, verified(tighter, start), again.proven))
            clock.say(best, f"the best set for {name.replace('_', ' ').removeprefix('most ')} up to {limit:g}")
    return tuple(points)
