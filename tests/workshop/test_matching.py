"""Sharing shafts and heads out: never more mass than any other sharing would add."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.clubs import Club, Head, Shaft
from asplayed.clubs.changes import missing_mass
from asplayed.errors import BadInput
from asplayed.quantities import Figure, figure
from asplayed.workshop.chance import all_inside, inside
from asplayed.workshop.matching import least, match

COSTS = st.integers(1, 5).flatmap(
    lambda n: st.lists(st.lists(st.one_of(st.none(), st.floats(0, 40)), min_size=n, max_size=n), min_size=n, max_size=n)
)


@settings(deadline=None)
@given(COSTS)
def test_the_assignment_is_the_least_of_all(costs: list[list[float | None]]) -> None:
    size = len(costs)
    chosen = least(costs)
    assert sorted(chosen) == list(range(size))
    whole = [
        sum(costs[row][column] for row, column in enumerate(order))
        for order in permutations(range(size))
        if all(costs[row][column] is not None for row, column in enumerate(order))
    ]
    mine = [costs[row][column] for row, column in enumerate(chosen)]
    if whole:
        assert None not in mine
        assert sum(mine) == pytest.approx(min(whole))


def grams(value: float) -> Figure:
    return figure(value, "g", "measured")


@settings(max_examples=10, deadline=None)
@given(st.lists(st.floats(108, 122), min_size=3, max_size=3), st.lists(st.floats(-3, 3), min_size=3, max_size=3))
def test_shafts_and_heads_of_a_set_need_the_least_added_mass(shafts: list[float], off: list[float]) -> None:
    clubs = [Club(club=f"{number} iron", kind="iron") for number in (6, 7, 8)]
    heads = [[grams(260 + 7 * place + extra), grams(258 + 7 * place)] for place, extra in enumerate(off)]
    target = figure("D3", "1", "stated")

    def need(club: Club, head: Figure, shaft: float) -> float:
        made = Club(club=club.club, kind="iron", head=Head(mass=head), shaft=Shaft(mass=grams(shaft)))
        missing = missing_mass(made, target).grams
        return missing if missing >= 0 else 1e9

    tried = [
        sum(
            min(need(club, head, shafts[column]) for head in masses)
            for club, masses, column in zip(clubs, heads, order, strict=True)
        )
        for order in permutations(range(3))
    ]
    found = match(clubs, [target] * 3, [grams(shaft) for shaft in shafts], heads)
    assert sum(one.grams for one in found) == pytest.approx(min(tried), abs=1e-6)
    assert sorted(one.shaft for one in found) == [0, 1, 2]


def test_too_few_shafts_and_heads_too_heavy_are_refused_by_name() -> None:
    clubs = [Club(club="7 iron", kind="iron"), Club(club="8 iron", kind="iron")]
    target = [figure("D2", "1", "stated")] * 2
    with pytest.raises(BadInput, match="1 shafts at hand cannot serve 2 clubs"):
        match(clubs, target, [grams(115)], [[grams(269)], [grams(276)]])
    with pytest.raises(BadInput, match="bring the 8 iron to its target"):
        match(clubs, target, [grams(115), grams(116)], [[grams(265)], [grams(130)]])


def test_the_chance_of_being_inside() -> None:
    # two standard deviations hold 95.45 % of a normal error
    assert inside(1.0, 1.0) == pytest.approx(0.9544997, abs=1e-6)
    assert inside(1.0, 1.0, off=1.0) == pytest.approx(0.5, abs=1e-4)
    assert inside(2.0, 1.0) < inside(1.0, 1.0) < inside(0.5, 1.0)
    assert all_inside([]) == 1.0
