"""The exact answer among the clubs that no bound rules out: an integer program, handed to HiGHS.

A column for each club says whether it is chosen. The clubs that may play a situation are put in order of cost; a column
for each of them says that neither it nor any before it is chosen, and costs what the next one costs more (Elloumi 2010,
"A tighter formulation of the p-median problem"; as tight as a column for each club and situation, and solved faster).
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.choice_model import Numbers
from asplayed.choosing.choice_problem import Problem, in_irons, is_forbidden, is_named, kept_apart, limits_in_words

_LOOK = 0.05  # s between two looks at whether the solver is done
_LIMITS_ALONE = 20.0  # s for a program of limits without costs
_LATE = 5.0  # s after its time within which the solver must have ended


class Row(NamedTuple):
    """A limit as a row: columns, their factors, and what the sum lies between."""

    columns: Any
    factors: Any
    low: float
    high: float


class Program(NamedTuple):
    """The limits of a problem as rows, by their words; columns beyond the entrants' are counted in `extra`."""

    rows: dict[str, list[Row]]
    extra: int


class Solved(NamedTuple):
    """What the solver says: a set, or none; what no set can beat; whether either is proven."""

    chosen: tuple[int, ...] | None
    bound: float
    proven: bool


def program_of(problem: Problem) -> Program:
    """The limits as rows over the entrants, under the same words as `choice_problem.limits_in_words`."""
    limits, entrants = problem.limits, problem.entrants
    count = len(entrants)
    extra = 0
    words = list(limits_in_words(limits))
    one_version, putter, clubs, drivers = words[:4]
    everybody = np.arange(count)
    rows: dict[str, list[Row]] = {
        one_version: [
            _most(members, 1)
            for place in np.unique(problem.place)
            if len(members := np.flatnonzero(problem.place == place)) > 1
        ],
        putter: [Row(np.flatnonzero(problem.putter), 1.0, 1, 1)],
        clubs: [_most(everybody, limits.clubs)],
        drivers: [_most(np.flatnonzero(problem.driver), limits.drivers)],
    }
    for word in dict.fromkeys(limits.required):
        meant = [index for index, each in enumerate(entrants) if is_named(each, word)]
        rows[f"{word} required"] = [Row(np.array(meant, dtype=np.int64), 1.0, 1, np.inf)]
    for word in dict.fromkeys(limits.forbidden):
        meant = [index for index, each in enumerate(entrants) if is_forbidden(each, word)]
        rows[f"{word} forbidden"] = [_most(np.array(meant, dtype=np.int64), 0)]
    rest = iter(words[len(rows) :])
    if limits.most_changes is not None:
        rows[next(rest)] = [Row(everybody, problem.changes, -np.inf, limits.most_changes)]
    if limits.most_price is not None:
        rows[next(rest)] = [Row(everybody, problem.price, -np.inf, limits.most_price + 1e-6)]
    gapped = np.array([index for index, each in enumerate(entrants) if kept_apart(each)], dtype=np.int64)
    gapped = gapped[np.argsort(problem.carry[gapped], kind="stable")]
    carry = problem.carry[gapped]
    if limits.least_gap is not None:
        ends = np.searchsorted(carry, carry + limits.least_gap - 1e-9, side="left")
        # a window within the one before it says nothing new
        fresh = [n for n in range(len(gapped)) if ends[n] - n > 1 and (n == 0 or ends[n] > ends[n - 1])]
        rows[next(rest)] = [_most(gapped[n : ends[n]], 1) for n in fresh]
    if limits.most_gap is not None:
        # every club but one, the longest, has a longer one within reach
        ends = np.searchsorted(carry, carry + limits.most_gap + 1e-9, side="right")
        longest = count + extra + np.arange(len(gapped))
        extra += len(gapped)
        rows[next(rest)] = [
            Row(
                np.concatenate([[gapped[n], longest[n]], gapped[n + 1 : ends[n]]]),
                np.concatenate([[1.0], np.full(ends[n] - n, -1.0)]),
                -np.inf,
                0.0,
            )
            for n in range(len(gapped))
        ] + [_most(longest, 1)]
    if limits.same_irons is not None:
        irons = [index for index, each in enumerate(entrants) if in_irons(each, limits)]
        models = list(dict.fromkeys(entrants[index].model for index in irons))
        first = count + extra
        extra += len(models)
        rows[next(rest)] = [
            Row(np.array([index, first + models.index(entrants[index].model)]), np.array([1.0, -1.0]), -np.inf, 0.0)
            for index in irons
        ] + [_most(first + np.arange(len(models)), 1)]
    return Program(rows, extra)


def _most(columns: NDArray[np.int64], high: float) -> Row:
    return Row(columns, 1.0, -np.inf, high)


def solve(
    problem: Problem,
    pairs: NDArray[np.bool_],
    cut: float,
    *,
    without: Iterable[Sequence[int]] = (),
    seconds: float = 30.0,
    stop: Callable[[], bool] = lambda: False,
) -> Solved:
    """The best set that costs less than `cut` and is none of `without` nor one of them with more clubs.

    `pairs` says which situations each entrant may serve. A set that the limits leave but no pairs serve is as good as
    none, so a problem whose pairs were ruled out against `cut` is answered rightly.
    """
    count = len(problem.entrants)
    program = program_of(problem)
    ladder = _ladder(problem, pairs, count + program.extra)
    if ladder is None:
        return Solved(None, cut, True)
    rows = [row for group in program.rows.values() for row in group]
    rows.extend(Row(np.array([held]), 1.0, 1, 1) for held in np.flatnonzero(problem.held).tolist())
    excluded = list(without)
    for chosen in excluded:
        kept = np.array(sorted(chosen), dtype=np.int64)
        rows.append(Row(kept, 1.0, -np.inf, len(kept) - 1))
    columns = count + program.extra + len(ladder.steps)
    objective = np.zeros(columns + problem.worst)
    objective[:count] = problem.fixed
    upper = np.ones(len(objective))
    already = float(ladder.least.sum())
    if problem.worst:
        objective[columns], upper[columns] = 1.0, np.inf
        already = 0.0
        for world in range(int(problem.world.max()) + 1):
            here = np.flatnonzero(problem.world[ladder.situation] == world)
            climb = Row(
                np.append(count + program.extra + here, columns), np.append(ladder.steps[here], -1.0), -np.inf, 0.0
            )
            rows.append(climb._replace(high=-float(ladder.least[problem.world == world].sum())))
    else:
        objective[count + program.extra : columns] = ladder.steps
    if excluded:  # the solver is told what is too dear, which it would find out late among many near ties
        dear = np.flatnonzero(objective)
        rows.append(Row(dear, objective[dear], -np.inf, cut - already))
    matrix, low, high = _matrix(rows, ladder, len(objective))
    whole = np.zeros(len(objective), dtype=np.int64)
    whole[: count + program.extra] = 1
    answer = _run(objective, LinearProgram(matrix, low, high, upper, whole), seconds, stop, presolve=bool(excluded))
    if answer is None:
        return Solved(None, -np.inf, False)
    if answer.status == 2:
        return Solved(None, cut, True)
    bound = -np.inf if answer.mip_dual_bound is None else float(answer.mip_dual_bound) + already
    if answer.x is None:
        return Solved(None, bound, False)
    found = tuple(np.flatnonzero(answer.x[:count] > 0.5).tolist())
    return Solved(found, bound, answer.status == 0)


class _Ladder(NamedTuple):
    """The clubs that may play each situation, in order of cost: rows that say who is passed over, and what it costs."""

    columns: NDArray[np.int64]
    factors: Numbers
    rows: NDArray[np.int64]
    low: Numbers
    steps: Numbers
    situation: NDArray[np.int64]
    least: Numbers


def _ladder(problem: Problem, pairs: NDArray[np.bool_], first: int) -> _Ladder | None:
    """The ladder of every situation; None where a situation has no club left."""
    who, what = np.nonzero(pairs)
    costs = problem.costs[who, what]
    order = np.lexsort((who, costs, what))
    who, what, costs = who[order], what[order], costs[order]
    starts = np.flatnonzero(np.diff(what, prepend=-1))
    if len(starts) < problem.costs.shape[1]:
        return None
    begins = np.zeros(len(who), dtype=np.bool_)
    begins[starts] = True
    ends = np.append(begins[1:], True)
    column = first + np.cumsum(~ends) - 1  # of being passed over, for all but the last of a situation
    rows = np.arange(len(who))
    return _Ladder(
        columns=np.concatenate([who, column[~ends], column[rows[~begins] - 1]]),
        factors=np.concatenate([np.ones(len(who)), np.ones(int((~ends).sum())), np.full(int((~begins).sum()), -1.0)]),
        rows=np.concatenate([rows, rows[~ends], rows[~begins]]),
        low=begins.astype(np.float64),
        steps=np.diff(costs)[~ends[:-1]],
        situation=what[~ends],
        least=costs[starts],
    )


def _matrix(rows: Sequence[Row], ladder: _Ladder, columns: int) -> tuple[Any, Numbers, Numbers]:
    from scipy.sparse import csr_array

    lengths = [len(row.columns) for row in rows]
    place = np.concatenate([np.repeat(np.arange(len(rows)), lengths), len(rows) + ladder.rows])
    column = np.concatenate([*(row.columns for row in rows), ladder.columns])
    factors = [*(np.broadcast_to(row.factors, len(row.columns)) for row in rows), ladder.factors]
    height = len(rows) + len(ladder.low)
    matrix = csr_array((np.concatenate(factors).astype(np.float64), (place, column)), shape=(height, columns))
    low = np.concatenate([[row.low for row in rows], ladder.low])
    high = np.concatenate([[row.high for row in rows], np.full(len(ladder.low), np.inf)])
    return matrix, low, high


class LinearProgram(NamedTuple):
    """Rows between bounds, columns from 0 to `upper`, and which columns are whole numbers."""

    matrix: Any
    low: Numbers
    high: Numbers
    upper: Numbers
    whole: NDArray[np.int64]


def _run(
    objective: Numbers, program: LinearProgram, seconds: float, stop: Callable[[], bool], *, presolve: bool = False
) -> Any:
    """The solver's answer; it works in a thread of its own, so that it can be left behind when somebody interrupts."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    found: list[Any] = []

    def work() -> None:
        found.append(
            milp(
                objective,
                integrality=program.whole,
                bounds=Bounds(np.zeros(len(program.upper)), program.upper),
                constraints=LinearConstraint(program.matrix, program.low, program.high),
                options={"time_limit": max(seconds, 0.01), "mip_rel_gap": 0.0, "presolve": presolve},
            )
        )

    thread = threading.Thread(target=work, daemon=True)
    thread.start()
    started = time.monotonic()
    while thread.is_alive():
        thread.join(_LOOK)
        if stop() or time.monotonic() - started > seconds + _LATE:
            return None
    return found[0] if found else None


def any_set(
    problem: Problem, words: Iterable[str] | None = None, prefer: Numbers | None = None
) -> tuple[int, ...] | None:
    """A set that keeps to the limits under these words (None: to all), the costs aside; None when there is none.

    `prefer` are costs of the entrants by themselves, the cheapest set of which is given.
    """
    from scipy.sparse import csr_array

    program = program_of(problem)
    groups = program.rows if words is None else {word: program.rows[word] for word in words}
    rows = [row for group in groups.values() for row in group]
    columns = len(problem.entrants) + program.extra
    objective = np.zeros(columns)
    if prefer is not None:
        objective[: len(prefer)] = prefer
    if any(not len(row.columns) and row.low > 0 for row in rows):
        return None
    if not rows:
        return ()
    place = np.repeat(np.arange(len(rows)), [len(row.columns) for row in rows])
    matrix = csr_array(
        (
            np.concatenate([np.broadcast_to(row.factors, len(row.columns)) for row in rows]).astype(np.float64),
            (place, np.concatenate([row.columns for row in rows])),
        ),
        shape=(len(rows), columns),
    )
    ends = np.array([row.low for row in rows]), np.array([row.high for row in rows])
    whole = np.ones(columns, dtype=np.int64)
    answer = _run(objective, LinearProgram(matrix, *ends, np.ones(columns), whole), _LIMITS_ALONE, lambda: False)
    if answer is None or answer.x is None:
        return None
    return tuple(np.flatnonzero(answer.x[: len(problem.entrants)] > 0.5).tolist())
