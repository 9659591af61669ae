"""The exact answer among the clubs that no bound rules out: an integer program, handed to HiGHS.

A column for each club says whether it is chosen; one for each club and situation whether it plays it. Every situation is
played once, only by clubs chosen (each pair a row of its own, which makes the relaxation as tight as is known).
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
    """What the solver says: a set, or none; what no set can beat; whether it is proven (a set or that there is none)."""

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
    count, situations = problem.costs.shape
    program = program_of(problem)
    who, what = np.nonzero(pairs)
    if len(np.unique(what)) < situations:
        return Solved(None, cut, True)
    first = count + program.extra
    rows = [row for group in program.rows.values() for row in group]
    for chosen in without:
        kept = np.array(sorted(chosen), dtype=np.int64)
        rows.append(Row(kept, 1.0, -np.inf, len(kept) - 1))
    worst = len(who) + first
    objective = np.zeros(worst + problem.worst)
    objective[:count] = problem.fixed
    served = problem.costs[who, what]
    if problem.worst:
        objective[worst] = 1.0
        for world in range(int(problem.world.max()) + 1):
            here = np.flatnonzero(problem.world[what] == world)
            rows.append(Row(np.append(first + here, worst), np.append(served[here], -1.0), -np.inf, 0.0))
    else:
        objective[first:worst] = served
    matrix, low, high = _matrix(rows, who, what, first, situations, len(objective))
    upper = np.ones(len(objective))
    if problem.worst:
        upper[worst] = np.inf
    whole = np.zeros(len(objective))
    whole[:first] = 1
    return _run(problem, objective, matrix, low, high, upper, whole, cut, seconds, stop)


def _matrix(
    rows: Sequence[Row], who: NDArray[np.int64], what: NDArray[np.int64], first: int, situations: int, columns: int
) -> tuple[Any, Numbers, Numbers]:
    from scipy.sparse import csr_array

    pairs = len(who)
    lengths = [len(row.columns) for row in rows]
    place = [np.repeat(np.arange(len(rows)), lengths), len(rows) + what]
    column = [*(row.columns for row in rows), first + np.arange(pairs)]
    factor = [*(np.broadcast_to(row.factors, len(row.columns)) for row in rows), np.ones(pairs)]
    begin = len(rows) + situations
    place += [begin + np.arange(pairs), begin + np.arange(pairs)]
    column += [first + np.arange(pairs), who]
    factor += [np.ones(pairs), np.full(pairs, -1.0)]
    matrix = csr_array(
        (np.concatenate(factor).astype(np.float64), (np.concatenate(place), np.concatenate(column))),
        shape=(begin + pairs, columns),
    )
    low = np.concatenate([[row.low for row in rows], np.ones(situations), np.full(pairs, -np.inf)])
    high = np.concatenate([[row.high for row in rows], np.ones(situations), np.zeros(pairs)])
    return matrix, low, high


def _run(
    problem: Problem,
    objective: Numbers,
    matrix: Any,
    low: Numbers,
    high: Numbers,
    upper: Numbers,
    whole: Numbers,
    cut: float,
    seconds: float,
    stop: Callable[[], bool],
) -> Solved:
    """The solver in a thread of its own, so that it can be left behind when somebody interrupts."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    found: list[Any] = []

    def work() -> None:
        found.append(
            milp(
                objective,
                integrality=whole,
                bounds=Bounds(np.zeros(len(upper)), upper),
                constraints=LinearConstraint(matrix, low, high),
                options={"time_limit": max(seconds, 0.01), "mip_rel_gap": 0.0},
            )
        )

    thread = threading.Thread(target=work, daemon=True)
    thread.start()
    started = time.monotonic()
    while thread.is_alive():
        thread.join(_LOOK)
        if stop() or time.monotonic() - started > seconds + 5.0:
            return Solved(None, -np.inf, False)
    if not found:
        return Solved(None, -np.inf, False)
    answer = found[0]
    if answer.status == 2:
        return Solved(None, cut, True)
    bound = -np.inf if answer.mip_dual_bound is None else float(answer.mip_dual_bound)
    if answer.x is None:
        return Solved(None, bound, False)
    chosen = tuple(np.flatnonzero(answer.x[: len(problem.entrants)] > 0.5).tolist())
    return Solved(chosen, bound, answer.status == 0)


def any_set(
    problem: Problem, words: Iterable[str] | None = None, prefer: Numbers | None = None
) -> tuple[int, ...] | None:
    """A set that keeps to the limits under these words (None: to all), the costs aside; None when there is none.

    `prefer` are costs of the entrants by themselves, the cheapest set of which is given.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
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
    place = np.repeat(np.arange(len(rows)), [len(row.columns) for row in rows])
    matrix = csr_array(
        (
            np.concatenate([np.broadcast_to(row.factors, len(row.columns)) for row in rows]).astype(np.float64),
            (place, np.concatenate([row.columns for row in rows])),
        ),
        shape=(len(rows), columns),
    )
    answer = milp(
        objective,
        integrality=np.ones(columns),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(matrix, np.array([r.low for r in rows]), np.array([r.high for r in rows])),
        options={"time_limit": 20.0, "mip_rel_gap": 0.05 if prefer is not None else None},
    )
    if answer.x is None:
        return None
    return tuple(np.flatnonzero(answer.x[: len(problem.entrants)] > 0.5).tolist())
