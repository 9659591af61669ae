"""Many bags counted: each player once, every trait once, and chances as SciPy has them."""

from __future__ import annotations

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import hypergeom

from asplayed.telling.bags import Bag, Carried, chance, newest, sizes, spread, traits, with_article


@given(st.data())
def test_chance_is_the_upper_tail_of_the_hypergeometric_distribution(data):
    everybody = data.draw(st.integers(2, 60))
    winners = data.draw(st.integers(1, everybody))
    having = data.draw(st.integers(0, everybody))
    won = data.draw(st.integers(max(0, winners + having - everybody), min(having, winners)))
    assert chance(won, winners, having, everybody) == pytest.approx(
        hypergeom.sf(won - 1, everybody, having, winners), abs=1e-9
    )


def test_a_player_counts_once_whatever_the_letters_case():
    bags = [Bag("a", "Ada Brandt", "2026-03-01"), Bag("b", "ADA BRANDT", "2026-02-01"), Bag("c"), Bag("d")]
    assert [bag.name for bag in newest(bags)] == ["c", "d", "a"]


@given(st.lists(st.floats(20, 60), min_size=2, max_size=30))
def test_a_spread_is_in_order_and_its_middle_the_median(numbers):
    found = spread(numbers)
    assert found.low <= found.lower <= found.middle <= found.upper <= found.high
    assert found.middle == pytest.approx(statistics.median(numbers))
    assert found.number == len(numbers)


def test_every_trait_of_a_bag_is_told_once_and_a_bag_without_clubs_has_none_of_clubs():
    bag = Bag("a", clubs=(
        Carried("5 iron", "iron", "Oskell Dunlin", "Rung", "X"),
        Carried("6 iron", "iron", "Oskell Dunlin", "Rung", "X"),
        Carried("lob wedge", "wedge", sole="crescent"), Carried("driver", "driver", "Varnpike Whimbrel"),
    ), ball="Crest")  # fmt: skip
    found = [trait.did for trait in traits(bag)]
    assert len(found) == len(set(found))
    assert "had the Oskell Dunlin among the irons" in found
    assert "had the Varnpike Whimbrel as the driver" in found
    assert "carried no hybrids" in found
    assert "had a wedge with a crescent sole" in found
    assert "carried a driver" not in found
    assert [trait.did for trait in traits(Bag("b", ball="Crest"))] == ["played the Crest ball"]


def test_sizes_leave_out_what_is_not_known():
    bags = [Bag("a", clubs=(Carried("driver", "driver", loft=9.0),)), Bag("b", clubs=(Carried("driver", "driver"),))]
    assert sizes(bags, "driver", "loft") == [9.0]


@pytest.mark.parametrize("name", ["8 iron", "18° wood", "X flex", "orange ball", "iron"])
def test_an_stands_before_what_sounds_like_a_vowel(name):
    assert with_article(name).startswith("an ")
