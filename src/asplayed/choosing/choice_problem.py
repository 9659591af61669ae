"""A choice as arrays: weighed costs, the limits as rows over the entrants, and what a set costs and breaks.

What a set costs and whether it keeps to the limits is worked out here from the limits' words alone, independently of
any solver's rows, and every answer is held against it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np

from asplayed.choosing.choice_model import IRON_ORDER, Against, Entrant, Indices, Limits, Numbers
from asplayed.errors import BadInput, Refused, nearest

YARD = 0.9144
UNKNOWN_PRICE = 1e9  # of a change that nobody has a price for: beyond any purse


class Problem(NamedTuple):
    """Costs in weighed strokes (entrants by situations, the worlds side by side), what entrants are, and the limits.

    `world` says which world each situation belongs to; `worst` counts only the world that costs most. `fixed` is what
    an entrant costs by being chosen. `held` are entrants that every set is to hold.
    """

    costs: Numbers
    world: Indices
    worst: bool
    fixed: Numbers
    entrants: tuple[Entrant, ...]
    limits: Limits
    place: Indices
    putter: Any
    driver: Any
    changes: Numbers
    price: Numbers
    carry: Numbers
    held: Any
    unserved: float

    def where(self, kept: Any) -> Problem:
        """The problem with only some of the entrants."""
        kept = np.asarray(kept)
        places = np.flatnonzero(kept) if kept.dtype == bool else kept
        return self._replace(
            costs=self.costs[places],
            fixed=self.fixed[places],
            entrants=tuple(self.entrants[place] for place in places.tolist()),
            place=self.place[places],
            putter=self.putter[places],
            driver=self.driver[places],
            changes=self.changes[places],
            price=self.price[places],
            carry=self.carry[places],
            held=self.held[places],
        )


def problem_of(
    costs: Any,
    weights: Any,
    entrants: Sequence[Entrant],
    limits: Limits,
    *,
    against: Against = "average",
    odds: Any = None,
) -> Problem:
    """The problem of choosing among entrants: checks shapes, names and figures, all faults at once."""
    costs, weights = np.asarray(costs, dtype=np.float64), np.asarray(weights, dtype=np.float64)
    if costs.ndim == 2:
        costs = costs[None]
    faults = list(_faults(costs, weights, entrants, limits, against, odds))
    if faults:
        raise Refused("the choice cannot be made", faults)
    worlds = len(costs)
    shares = np.full(worlds, 1 / worlds) if odds is None else np.asarray(odds, dtype=np.float64)
    shares = np.ones(worlds) if against == "worst" else shares / shares.sum()
    weighed = np.concatenate([costs[w] * (weights * shares[w]) for w in range(worlds)], axis=1)
    fixed = limits.change_worth * np.array([each.changes for each in entrants], dtype=np.float64)
    # one situation that a set cannot serve costs more than all that another set serves, so such sets come last
    served = np.where(np.isfinite(weighed), weighed, 0.0)
    unserved = 10.0 + float(served.max(axis=0).sum() + fixed.sum())
    weighed = np.where(np.isfinite(weighed), weighed, unserved)
    names = {name: number for number, name in enumerate(dict.fromkeys(each.place for each in entrants))}
    return Problem(
        costs=np.ascontiguousarray(weighed),
        world=np.repeat(np.arange(worlds), len(weights)),
        worst=against == "worst" and worlds > 1,
        fixed=fixed,
        entrants=tuple(entrants),
        limits=limits,
        place=np.array([names[each.place] for each in entrants], dtype=np.int64),
        putter=np.array([each.kind == "putter" for each in entrants], dtype=np.bool_),
        driver=np.array([each.kind == "driver" for each in entrants], dtype=np.bool_),
        changes=np.array([each.changes for each in entrants], dtype=np.float64),
        price=np.array([price_of(each) for each in entrants], dtype=np.float64),
        carry=np.array([each.carry for each in entrants], dtype=np.float64),
        held=np.zeros(len(entrants), dtype=np.bool_),
        unserved=unserved,
    )


def price_of(entrant: Entrant) -> float:
    """What an entrant costs to have; without a price it is free where nothing changes and too dear otherwise."""
    if entrant.price is not None:
        return entrant.price
    return 0.0 if entrant.changes == 0 else UNKNOWN_PRICE


def _faults(
    costs: Numbers, weights: Numbers, entrants: Sequence[Entrant], limits: Limits, against: str, odds: Any
) -> Iterator[str]:
    if not entrants:
        yield "there is no club to choose from; give at least a putter and a club"
        return
    if costs.ndim != 3 or costs.shape[1:] != (len(entrants), len(weights)):
        yield f"costs of shape {costs.shape} do not fit {len(entrants)} clubs and {len(weights)} situations"
        return
    if np.isnan(costs).any() or (costs < 0).any():
        yield "a cost is no number of strokes; give expected strokes, or infinity where a club cannot serve"
    if not (np.isfinite(weights).all() and (weights >= 0).all()):
        yield "a situation comes a negative number of times a round; give 0 or more"
    if odds is not None and (np.shape(odds) != (len(costs),) or np.min(odds) < 0 or np.sum(odds) <= 0):
        yield f"give the odds of {len(costs)} worlds, none of them negative"
    if against not in ("average", "worst"):
        yield f"the choice is made against {against!r}; choose average or worst"
    if not 1 <= limits.clubs <= 14:
        yield f"{limits.clubs} clubs in the bag cannot be; the Rules of Golf allow 1 to 14 (Rule 4.1b)"
    for name in ("drivers", "most_changes", "most_price", "least_gap", "most_gap", "change_worth"):
        value = getattr(limits, name)
        if value is not None and not (np.isfinite(value) and value >= 0):
            yield f"{name.replace('_', ' ')} {value} cannot be; give 0 or more"
    if limits.most_price is not None and limits.currency is None:
        yield f"a price of at most {limits.most_price:g} has no currency; write it as 400 EUR or the like"
    if limits.least_gap is not None and limits.most_gap is not None and limits.least_gap > limits.most_gap:
        yield "the least gap is wider than the widest; give a least gap below the widest"
    known = dict.fromkeys(name for each in entrants for name in (each.place, each.club))
    more = dict.fromkeys(name for each in entrants for name in (each.kind, each.model or each.kind))
    for word in limits.required:
        if word not in known:
            yield f"there is no club {word[:60]!r} to require{nearest(word, known)}"
    for word in limits.forbidden:
        if word not in known and word not in more:
            yield f"there is no club {word[:60]!r} to forbid{nearest(word, {**known, **more})}"
    for word in limits.same_irons or ():
        if word not in IRON_ORDER:
            yield f"{word[:60]!r} is no iron to count from{nearest(word, IRON_ORDER)}"


# --- limits -------------------------------------------------------------------------------------------------------


def is_named(entrant: Entrant, word: str) -> bool:
    """True when a word of `required` means this entrant."""
    return word in (entrant.place, entrant.club)


def is_forbidden(entrant: Entrant, word: str) -> bool:
    """True when a word of `forbidden` means this entrant."""
    return word in (entrant.place, entrant.club, entrant.kind, entrant.model)


def in_irons(entrant: Entrant, limits: Limits) -> bool:
    """True when an entrant is one of the irons that must be of one model."""
    if limits.same_irons is None or entrant.kind != "iron" or entrant.club not in IRON_ORDER:
        return False
    first, last = sorted(IRON_ORDER.index(word) for word in limits.same_irons)
    return first <= IRON_ORDER.index(entrant.club) <= last


def kept_apart(entrant: Entrant) -> bool:
    """True for a club that gaps are counted between: all but the driver and the putter."""
    return entrant.kind not in ("driver", "putter")


def broken(problem: Problem, chosen: Sequence[int]) -> tuple[str, ...]:
    """The limits that a set breaks, in words; none when it keeps to all."""
    clubs = [problem.entrants[index] for index in chosen]
    return tuple(words for words, keeps in limits_in_words(problem.limits).items() if not keeps(clubs))


def limits_in_words(limits: Limits) -> dict[str, Callable[[Sequence[Entrant]], bool]]:
    """Every limit as a phrase, and whether a set of clubs keeps to it; the ground rules of a set first."""

    def counted(test: Callable[[Entrant], bool], low: float, high: float) -> Callable[[Sequence[Entrant]], bool]:
        return lambda clubs: low <= sum(map(test, clubs)) <= high

    def summed(of: Callable[[Entrant], float], most: float) -> Callable[[Sequence[Entrant]], bool]:
        return lambda clubs: sum(map(of, clubs)) <= most

    def gapped(low: float, high: float) -> Callable[[Sequence[Entrant]], bool]:
        return lambda clubs: all(low - 1e-9 <= gap <= high + 1e-9 for gap in gaps(clubs))

    found: dict[str, Callable[[Sequence[Entrant]], bool]] = {
        "one version of each club": lambda clubs: len({each.place for each in clubs}) == len(clubs),
        "exactly one putter": counted(lambda each: each.kind == "putter", 1, 1),
        f"at most {limits.clubs} club{'s' * (limits.clubs != 1)}": lambda clubs: len(clubs) <= limits.clubs,
        _drivers(limits.drivers): counted(lambda each: each.kind == "driver", 0, limits.drivers),
    }
    for word in dict.fromkeys(limits.required):
        found[f"{word} required"] = counted(partial(is_named, word=word), 1, math.inf)
    for word in dict.fromkeys(limits.forbidden):
        found[f"{word} forbidden"] = counted(partial(is_forbidden, word=word), 0, 0)
    if limits.most_changes is not None:
        words = f"at most {limits.most_changes} change{'s' * (limits.most_changes != 1)}"
        found[words] = summed(lambda each: each.changes, limits.most_changes)
    if limits.most_price is not None:
        words = f"a price of at most {limits.most_price:g} {limits.currency}"
        found[words] = summed(price_of, limits.most_price + 1e-6)
    if limits.least_gap is not None:
        found[f"gaps of at least {limits.least_gap / YARD:.3g} yd"] = gapped(limits.least_gap, math.inf)
    if limits.most_gap is not None:
        found[f"gaps of at most {limits.most_gap / YARD:.3g} yd"] = gapped(-math.inf, limits.most_gap)
    if limits.same_irons is not None:
        first, last = limits.same_irons
        found[f"one model from {first} to {last}"] = lambda clubs: (
            len({each.model for each in clubs if in_irons(each, limits)}) <= 1
        )
    return found


def _drivers(most: int) -> str:
    return "no driver" if most == 0 else f"at most {most} driver{'s' * (most != 1)}"


def gaps(clubs: Sequence[Entrant]) -> list[float]:
    """The gaps in carry (m) between neighbours, driver and putter aside."""
    carries = sorted(each.carry for each in clubs if kept_apart(each))
    return [longer - shorter for shorter, longer in pairwise(carries)]


# --- what a set costs ---------------------------------------------------------------------------------------------


def strokes_of_set(problem: Problem, chosen: Sequence[int]) -> float:
    """Strokes a round with a set, the worth of its changes included; in the worst world if that is asked."""
    kept = list(chosen)
    least = problem.costs[kept].min(axis=0)
    by_world = np.bincount(problem.world, least)
    return float((by_world.max() if problem.worst else by_world.sum()) + problem.fixed[kept].sum())


def serving(problem: Problem, chosen: Sequence[int]) -> tuple[int, ...]:
    """The index of the club of a set that plays each situation."""
    kept = np.array(chosen)
    return tuple(kept[problem.costs[kept].argmin(axis=0)].tolist())


def verified(problem: Problem, chosen: Sequence[int]) -> float:
    """What a set costs, once it is seen to keep to every limit and to serve every situation."""
    wrong = broken(problem, chosen)
    if wrong:
        raise AssertionError(f"a solver's set breaks {' and '.join(wrong)}")
    if (problem.costs[list(chosen)].min(axis=0) >= problem.unserved).any():
        raise BadInput(
            "no club that may be had can play one of the shots asked for; give a club that reaches or forbid less"
        )
    return strokes_of_set(problem, chosen)


def without_idle(problem: Problem, chosen: Sequence[int]) -> tuple[int, ...]:
    """A set without clubs that may be left out at no loss of strokes, the dearest and most changed left out first."""
    kept = sorted(chosen)
    whole = strokes_of_set(problem, kept)
    for index in sorted(kept, key=lambda i: (-problem.changes[i], -problem.price[i], i)):
        fewer = [other for other in kept if other != index]
        if fewer and strokes_of_set(problem, fewer) <= whole + 1e-12 and not broken(problem, fewer):
            kept = fewer
    return tuple(kept)
