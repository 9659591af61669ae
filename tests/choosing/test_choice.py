"""The best set held against every set there is, and what must be true of any choice.

Expected answers come from trying every subset of the entrants with rules written out here, apart from the solver's.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Any

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.choosing.choice import Choice, Entrant, Limits, Progress, best_set
from asplayed.errors import BadInput, Refused

NEVER = math.inf
PUTTER = Entrant("putter", "putter", "putter")
CLOSE = 3e-6  # strokes: the solver's tolerance


def gap_list(clubs: Sequence[Entrant]) -> list[float]:
    carries = sorted(each.carry for each in clubs if each.kind not in ("driver", "putter"))
    return [b - a for a, b in itertools.pairwise(carries)]


def lawful(clubs: Sequence[Entrant], limits: Limits) -> bool:
    """Every limit, in words of its own."""
    order = [f"{n} iron" for n in range(1, 10)] + ["pitching wedge"]
    if len(clubs) > limits.clubs or len({c.place for c in clubs}) < len(clubs):
        return False
    if [c.kind for c in clubs].count("putter") != 1 or [c.kind for c in clubs].count("driver") > limits.drivers:
        return False
    if any(not any(word in (c.place, c.club) for c in clubs) for word in limits.required):
        return False
    if any(word in (c.place, c.club, c.kind, c.model) for word in limits.forbidden for c in clubs):
        return False
    if limits.most_changes is not None and sum(c.changes for c in clubs) > limits.most_changes:
        return False
    if limits.most_price is not None:
        prices = [c.price if c.price is not None else (0.0 if not c.changes else NEVER) for c in clubs]
        if sum(prices) > limits.most_price + 1e-6:
            return False
    if limits.least_gap is not None and any(gap < limits.least_gap - 1e-9 for gap in gap_list(clubs)):
        return False
    if limits.most_gap is not None and any(gap > limits.most_gap + 1e-9 for gap in gap_list(clubs)):
        return False
    if limits.same_irons is not None:
        first, last = (order.index(word) for word in limits.same_irons)
        models = {c.model for c in clubs if c.kind == "iron" and first <= order.index(c.club) <= last}
        return len(models) <= 1
    return True


def value(
    costs: Any, weights: Any, entrants: Sequence[Entrant], limits: Limits, chosen: Sequence[int], **more: Any
) -> float:
    worlds = costs if costs.ndim == 3 else costs[None]
    totals = [float((world[list(chosen)].min(axis=0) * weights).sum()) for world in worlds]
    odds = more.get("odds", [1 / len(worlds)] * len(worlds))
    whole = max(totals) if more.get("against") == "worst" else float(np.dot(totals, odds))
    return whole + limits.change_worth * sum(entrants[i].changes for i in chosen)


def every_set(
    costs: Any, weights: Any, entrants: Sequence[Entrant], limits: Limits, **more: Any
) -> list[tuple[float, tuple[int, ...]]]:
    found = []
    for size in range(1, min(limits.clubs, len(entrants)) + 1):
        for chosen in itertools.combinations(range(len(entrants)), size):
            if lawful([entrants[i] for i in chosen], limits):
                strokes = value(costs, weights, entrants, limits, chosen, **more)
                if math.isfinite(strokes):
                    found.append((strokes, chosen))
    return sorted(found)


def not_more_of(sets: list[tuple[float, tuple[int, ...]]]) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Sets in order of strokes, without those that are one before them with more clubs."""
    kept: list[tuple[float, set[int]]] = []
    for strokes, chosen in sorted(sets, key=lambda pair: (round(pair[0], 9), len(pair[1]))):
        if not any(before <= set(chosen) for _, before in kept):
            kept.append((strokes, set(chosen)))
            yield strokes, chosen


@st.composite
def choices(draw: Any) -> tuple[Any, Any, list[Entrant], Limits]:
    """A small choice: clubs of a few places and models, costs in eighths of a stroke or finer, and some limits."""
    seed = draw(st.integers(0, 2**32 - 1))
    chance = np.random.default_rng(seed)
    count, situations = int(chance.integers(3, 9)), int(chance.integers(1, 7))
    entrants = [PUTTER]
    for number in range(count):
        kind: Any = chance.choice(["driver", "fairway wood", "iron", "iron", "wedge"])
        place = f"{kind} {chance.integers(0, 4)}"
        club = f"{chance.integers(4, 9)} iron" if kind == "iron" else place
        price = None if chance.random() < 0.15 else float(chance.integers(0, 5) * 50)
        entrants.append(
            Entrant(
                place,
                club,
                kind,
                0.3,
                float(chance.integers(60, 200)),
                str(chance.choice(["Dunlin", "Gannet"])),
                int(chance.integers(0, 3)),
                price,
            )
        )
        if chance.random() < 0.1:
            entrants.append(Entrant(f"putter {number}", "putter", "putter", changes=1, price=20.0))
    costs = 2.5 + chance.random((len(entrants), situations)) * 2
    costs[[e.kind == "putter" for e in entrants]] = NEVER
    if draw(st.booleans()):
        costs = np.round(costs * 8) / 8  # ties
    if draw(st.booleans()):
        costs[chance.random(costs.shape) < 0.15] = NEVER
    some = draw(
        st.sets(st.sampled_from(["changes", "price", "least", "most", "irons", "required", "forbidden"]), max_size=3)
    )
    limits = Limits(
        clubs=draw(st.integers(2, 6)),
        drivers=draw(st.integers(0, 1)),
        required=(entrants[-1].place,) if "required" in some else (),
        forbidden=(entrants[1].club,) if "forbidden" in some else (),
        most_changes=draw(st.integers(0, 4)) if "changes" in some else None,
        most_price=draw(st.integers(0, 8)) * 50.0 if "price" in some else None,
        currency="EUR",
        least_gap=10.0 if "least" in some else None,
        most_gap=45.0 if "most" in some else None,
        same_irons=("4 iron", "8 iron") if "irons" in some else None,
        change_worth=draw(st.sampled_from([0.0, 0.05])),
    )
    return costs, np.round(chance.random(situations) * 10, 2) + 0.1, entrants, limits


@settings(max_examples=120, deadline=None)
@given(choices())
def test_no_set_is_better(choice: tuple[Any, Any, list[Entrant], Limits]) -> None:
    costs, weights, entrants, limits = choice
    sets = every_set(costs, weights, entrants, limits)
    if not sets:
        with pytest.raises(BadInput):
            best_set(*choice, alternatives=0, worth=False, fronts=False)
        return
    found = best_set(*choice, alternatives=0, worth=False, fronts=False)
    assert lawful([entrants[i] for i in found.chosen], limits)
    assert found.strokes == pytest.approx(value(costs, weights, entrants, limits, found.chosen), abs=1e-9)
    assert found.strokes == pytest.approx(sets[0][0], abs=CLOSE)
    assert found.optimal and found.gap == 0.0
    for situation, club in enumerate(found.served):
        assert costs[club, situation] == costs[list(found.chosen), situation].min()


@settings(max_examples=30, deadline=None)
@given(choices(), st.integers(1, 10))
def test_alternatives_are_the_next_best(choice: tuple[Any, Any, list[Entrant], Limits], count: int) -> None:
    costs, weights, entrants, limits = choice
    # putters that cost as much and change more are no alternative: a putter plays none of these shots
    kept = [i for i, each in enumerate(entrants) if each.kind != "putter" or i == 0]
    # each a club of its own, so that none is a version that another stands for
    costs, entrants = costs[kept], [entrants[i]._replace(place=f"place {i}") for i in kept]
    limits = msgspec.structs.replace(limits, required=())
    sets = list(not_more_of(every_set(costs, weights, entrants, limits)))
    if not sets:
        return
    found = best_set(costs, weights, entrants, limits, alternatives=count, worth=False, fronts=False)
    theirs = [found.strokes, *(each.strokes for each in found.alternatives)]
    assert theirs == pytest.approx([strokes for strokes, _ in sets[: count + 1]], abs=CLOSE)
    chosen = [found.chosen, *(each.chosen for each in found.alternatives)]
    assert len(set(chosen)) == len(chosen)
    assert all(each.optimal for each in found.alternatives)


@settings(max_examples=30, deadline=None)
@given(choices(), st.integers(1, 6), st.booleans())
def test_alternatives_differ_by_more_than_versions_that_are_alike(
    choice: tuple[Any, Any, list[Entrant], Limits], count: int, worst: bool
) -> None:
    costs, weights, entrants, limits = choice
    limits = msgspec.structs.replace(limits, required=(), forbidden=(), least_gap=None, most_gap=None)
    chance = np.random.default_rng(len(entrants))
    near = np.flatnonzero([each.kind != "putter" for each in entrants])[:3].tolist()
    shifts = chance.uniform(0, 2e-4, (len(near), costs.shape[1])) * chance.integers(-1, 2, (len(near), 1))
    costs = np.vstack([costs, costs[near] + shifts])
    entrants = [*entrants, *(entrants[i] for i in near)]
    more: dict[str, Any] = {}
    if worst:
        costs, more = np.stack([costs, costs + chance.random(costs.shape[1])]), {"against": "worst"}
    sets = every_set(costs, weights, entrants, limits, **more)
    if not sets:
        return
    found = best_set(costs, weights, entrants, limits, alternatives=count, worth=False, fronts=False, **more)
    assert found.strokes == pytest.approx(sets[0][0], abs=CLOSE)
    told = [found.chosen, *(each.chosen for each in found.alternatives)]
    last = NEVER if len(told) <= count else found.alternatives[-1].strokes

    def stands_for(one: int, other: int) -> bool:
        """Whether a version costs less than a thousandth of a stroke a round more than another, whatever else."""
        if one == other or entrants[one].kind == entrants[other].kind == "putter":
            return True
        worlds = costs if costs.ndim == 3 else costs[None]
        lost = [
            float(
                np.sum(weights * np.maximum(np.nan_to_num(w[one], posinf=1e9) - np.nan_to_num(w[other], posinf=1e9), 0))
            )
            for w in worlds
        ]
        return entrants[one].place == entrants[other].place and max(lost) <= 1e-3 + 1e-9

    for strokes, chosen in sets:
        if strokes < last - 1e-3 * len(chosen) - CLOSE:
            assert any(all(any(stands_for(i, j) for j in chosen) for i in each) for each in told)
    for one, other in itertools.combinations(found.alternatives, 2):
        same_clubs = len(one.chosen) == len(other.chosen)
        assert not (same_clubs and all(any(stands_for(i, j) for j in one.chosen) for i in other.chosen))


@settings(max_examples=25, deadline=None)
@given(choices(), st.sampled_from(["average", "worst"]))
def test_several_worlds(choice: tuple[Any, Any, list[Entrant], Limits], against: Any) -> None:
    costs, weights, entrants, limits = choice
    chance = np.random.default_rng(len(entrants))
    worlds = np.stack([costs, costs + chance.random(costs.shape), costs + chance.random(costs.shape)])
    more: dict[str, Any] = {"against": against}
    if against == "average":
        more["odds"] = np.array([0.5, 0.3, 0.2])
    sets = every_set(worlds, weights, entrants, limits, **more)
    if sets:
        found = best_set(worlds, weights, entrants, limits, alternatives=0, worth=False, fronts=False, **more)
        assert found.strokes == pytest.approx(sets[0][0], abs=CLOSE)
        assert found.optimal


@settings(max_examples=25, deadline=None)
@given(choices())
def test_worth_and_fronts(choice: tuple[Any, Any, list[Entrant], Limits]) -> None:
    costs, weights, entrants, limits = choice
    sets = every_set(costs, weights, entrants, limits)
    if not sets:
        return
    found = best_set(*choice, alternatives=0)
    for index, lost in found.worth.items():
        without = [
            strokes for strokes, chosen in sets if all(entrants[i].place != entrants[index].place for i in chosen)
        ]
        assert lost == pytest.approx(min(without, default=NEVER) - found.strokes, abs=CLOSE)
    for front, name in ((found.by_changes, "most_changes"), (found.by_price, "most_price")):
        for point in front:
            tighter = msgspec.structs.replace(limits, **{name: point.limit})
            least = every_set(costs, weights, entrants, tighter)[0][0]
            assert point.strokes == pytest.approx(least, abs=CLOSE) and point.optimal
            assert point.used <= point.limit + 1e-6
        strokes = [point.strokes for point in front]
        assert strokes == sorted(strokes, reverse=True) or np.allclose(
            strokes, sorted(strokes, reverse=True), atol=CLOSE
        )
        assert not front or strokes[-1] == pytest.approx(found.strokes, abs=CLOSE)


@settings(max_examples=25, deadline=None)
@given(choices(), st.randoms(use_true_random=False))
def test_order_does_not_matter(choice: tuple[Any, Any, list[Entrant], Limits], chance: Any) -> None:
    costs, weights, entrants, limits = choice
    order = list(range(len(entrants)))
    chance.shuffle(order)
    turned = (costs[order], weights, [entrants[i] for i in order], limits)
    answers = []
    for each in (choice, turned):
        try:
            answers.append(best_set(*each, alternatives=0, worth=False, fronts=False).strokes)
        except BadInput:
            answers.append(NEVER)
    assert answers[0] == pytest.approx(answers[1], abs=CLOSE)


@settings(max_examples=25, deadline=None)
@given(choices(), st.integers(0, 1000))
def test_more_to_choose_from_is_never_worse_and_a_dominated_club_is_never_chosen(
    choice: tuple[Any, Any, list[Entrant], Limits], seed: int
) -> None:
    costs, weights, entrants, limits = choice
    limits = msgspec.structs.replace(limits, required=(), most_gap=None)
    chance = np.random.default_rng(seed)
    worse = int(chance.integers(1, len(entrants)))
    copy = entrants[worse]._replace(place="another", club=entrants[worse].place)
    more = np.vstack([costs, costs[worse] + 0.01 + chance.random(costs.shape[1])])
    try:
        before = best_set(costs, weights, entrants, limits, alternatives=0, worth=False, fronts=False)
    except BadInput:
        return
    after = best_set(more, weights, [*entrants, copy], limits, alternatives=0, worth=False, fronts=False)
    assert after.strokes <= before.strokes + CLOSE
    free = Limits(clubs=limits.clubs, drivers=14)
    alone = best_set(more, weights, [*entrants, copy], free, alternatives=0, worth=False, fronts=False)
    if copy.kind != "putter" and limits.clubs > 2:
        # a club of another place that does every shot better takes its place, or both are of one place already
        assert len(entrants) not in alone.chosen or worse in alone.chosen or _taken(entrants, worse, alone)


def _taken(entrants: Sequence[Entrant], worse: int, found: Choice) -> bool:
    """Whether another version of the better club's place is chosen, so that the better club could not be."""
    return any(entrants[i].place == entrants[worse].place for i in found.chosen if i < len(entrants))


# --- limits that clash --------------------------------------------------------------------------------------------

BAG = [
    PUTTER,
    Entrant("driver", "driver", "driver", carry=220.0, changes=0),
    Entrant("7 iron", "7 iron", "iron", carry=140.0, model="Dunlin"),
    Entrant("new 7 iron", "7 iron", "iron", carry=145.0, model="Gannet", changes=1, price=120.0),
    Entrant("9 iron", "9 iron", "iron", carry=118.0, model="Gannet", changes=1, price=110.0),
    Entrant("sand wedge", "sand wedge", "wedge", carry=80.0),
]
EVEN = np.where([[each.kind == "putter"] for each in BAG], NEVER, 3.0) * np.ones((1, 4))


def refusal(**limits: Any) -> str:
    with pytest.raises(BadInput) as caught:
        best_set(EVEN, np.ones(4), BAG, Limits(**limits))
    return str(caught.value)


def test_a_clash_names_the_limits_and_no_other() -> None:
    said = refusal(required=("driver", "9 iron"), drivers=0, clubs=5, most_changes=3)
    assert "no driver and driver required cannot be kept together" in said
    assert "9 iron" not in said and "changes" not in said and "clubs:" not in said
    said = refusal(required=("9 iron",), most_changes=0, clubs=9)
    assert "9 iron required and at most 0 changes cannot be kept together" in said
    said = refusal(required=("9 iron", "driver"), most_price=50.0, currency="EUR")
    assert "9 iron required and a price of at most 50 EUR" in said and "driver" not in said
    said = refusal(required=("driver", "7 iron", "9 iron"), clubs=3)
    assert "at most 3 clubs, driver required, 7 iron required and 9 iron required" in said.replace(
        "exactly one putter, ", ""
    )


def test_clashes_of_gaps_and_models_are_named() -> None:
    said = refusal(required=("7 iron", "9 iron"), least_gap=30.0)
    assert "gaps of at least 32.8 yd" in said and "7 iron required" in said and "9 iron required" in said
    said = refusal(required=("new 7 iron", "sand wedge"), most_gap=20.0)
    assert "gaps of at most 21.9 yd" in said
    said = refusal(required=("7 iron", "9 iron"), same_irons=("5 iron", "9 iron"), most_changes=1)
    assert "at most 1 change" in said and "one model from 5 iron to 9 iron" in said


def test_no_putter() -> None:
    with pytest.raises(BadInput, match="there is no putter to choose from"):
        best_set(EVEN[1:], np.ones(4), BAG[1:], Limits())
    assert "putter forbidden" in refusal(forbidden=("putter",))


def test_a_shot_nobody_can_play() -> None:
    costs = EVEN.copy()
    costs[:, 2] = NEVER
    with pytest.raises(BadInput, match="can play one of the shots"):
        best_set(costs, np.ones(4), BAG, Limits())


def test_bad_input_is_named_all_at_once() -> None:
    limits = Limits(clubs=15, required=("8 iron",), forbidden=("drivr",), most_price=300.0, least_gap=-1.0)
    with pytest.raises(Refused) as caught:
        best_set(EVEN, np.ones(4), BAG, limits)
    said = str(caught.value)
    for words in ("Rule 4.1b", "no club '8 iron' to require", "did you mean driver", "no currency", "least gap -1.0"):
        assert words in said
    with pytest.raises(Refused, match="do not fit 6 clubs and 3 situations"):
        best_set(EVEN, np.ones(3), BAG)
    with pytest.raises(Refused, match="no number of strokes"):
        best_set(EVEN * math.nan, np.ones(4), BAG)


# --- a search that is long ----------------------------------------------------------------------------------------


def larger(count: int = 300, situations: int = 40, rough: float = 0.2) -> tuple[Any, Any, list[Entrant]]:
    chance = np.random.default_rng(11)
    carry = np.sort(chance.uniform(70, 230, count))
    asked = np.linspace(60, 240, situations)
    costs = 2.4 + np.abs(carry[:, None] - asked) / 60 + rough * chance.random((count, situations))
    entrants = [Entrant(f"club {i}", f"club {i}", "iron", carry=float(c)) for i, c in enumerate(carry)]
    return np.vstack([costs, np.full(situations, NEVER)]), np.ones(situations), [*entrants, PUTTER]


def test_progress_comes_with_a_falling_best_and_a_bound() -> None:
    told: list[Progress] = []
    found = best_set(*larger(), alternatives=2, worth=False, fronts=False, on_progress=told.append)
    assert found.optimal and len(told) >= 3
    strokes = [each.strokes for each in told]
    assert strokes == sorted(strokes, reverse=True)
    assert all(each.bound <= found.strokes + CLOSE for each in told)
    assert told[-1].chosen == found.chosen


def test_an_interrupt_leaves_the_best_set_so_far_with_its_gap() -> None:
    def interrupt(told: Progress) -> None:
        if "bound" in told.words:
            raise KeyboardInterrupt

    found = best_set(*larger(), on_progress=interrupt)
    assert found.stopped and not found.optimal and found.gap > 0
    assert found.bound <= best_set(*larger(), alternatives=0, worth=False, fronts=False).strokes <= found.strokes


def test_time_that_is_up_leaves_a_set_with_its_gap() -> None:
    found = best_set(*larger(400, 50, 0.6), seconds=0.0)
    assert found.gap > 0 and not found.optimal and len(found.chosen) == 14


def test_a_change_is_made_only_where_it_is_worth_it() -> None:
    entrants = [PUTTER, Entrant("7 iron", "7 iron", "iron"), Entrant("7 iron", "7 iron", "iron", changes=1)]
    costs = np.array([[NEVER], [3.00], [2.99]])
    assert best_set(costs, [10.0], entrants, Limits(change_worth=0.05)).chosen == (0, 2)
    assert best_set(costs, [10.0], entrants, Limits(change_worth=0.15)).chosen == (0, 1)
