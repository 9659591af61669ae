"""Tallies joined along one tree: the same bits however the blocks were dealt out."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.sweeps.reducing import (
    Best,
    Entry,
    Histogram,
    Moments,
    Node,
    grow,
    histogram_of,
    joined,
    moments_of,
    whole,
)


def leaf(number: int, values: np.ndarray) -> Node:
    return Node(0, number, {"x": moments_of(values, values**2), "h": histogram_of(values, -3.0, 0.5, 12)})


@given(st.integers(1, 40), st.lists(st.integers(0, 40), max_size=6))
def test_the_tree_does_not_know_the_chunks(blocks: int, cuts: list[int]) -> None:
    chance = np.random.default_rng(blocks)
    leaves = [leaf(number, chance.standard_normal(7)) for number in range(blocks)]
    at_once: list[Node] = []
    grow(at_once, leaves)
    edges = sorted({0, blocks, *(cut for cut in cuts if cut < blocks)})
    in_chunks: list[Node] = []
    for start, stop in pairwise(edges):
        chunk: list[Node] = []
        grow(chunk, leaves[start:stop])
        grow(in_chunks, chunk)
    assert in_chunks == at_once
    assert whole(in_chunks) == whole(at_once)
    assert len(at_once) <= math.log2(blocks) + 1


def test_moments_are_those_of_all_values() -> None:
    chance = np.random.default_rng(5)
    values = 1e6 + chance.standard_normal(999)
    nodes: list[Node] = []
    grow(nodes, [leaf(number, part) for number, part in enumerate(np.split(values, 27))])
    found = whole(nodes)["x"]
    assert isinstance(found, Moments)
    assert found.count == 999
    # NumPy's own two-pass figures
    assert found.mean[0] == pytest.approx(values.mean(), rel=1e-14)
    assert found.spread[0] == pytest.approx(values.std(ddof=1), rel=1e-9)
    assert found.correlation(0, 1) == pytest.approx(np.corrcoef(values, values**2)[0, 1], rel=1e-9)
    assert (found.least[0], found.most[0]) == (values.min(), values.max())


def test_a_histogram_counts_like_numpys_and_knows_its_quantiles() -> None:
    values = np.random.default_rng(1).uniform(-4.0, 4.0, 20_000)
    found = joined({"h": histogram_of(values[:5000], -3, 0.5, 12)}, {"h": histogram_of(values[5000:], -3, 0.5, 12)})[
        "h"
    ]
    assert isinstance(found, Histogram)
    assert list(found.counts) == np.histogram(values, 12, (-3.0, 3.0))[0].tolist()
    assert found.below == (values < -3).sum() and found.above == (values >= 3).sum()
    assert found.quantile(0.5) == pytest.approx(np.quantile(values, 0.5), abs=0.05)


def test_the_best_few_are_kept_and_of_equals_the_earlier() -> None:
    one = Best(2, (Entry(1.0, 4, "late"), Entry(2.0, 5, "worse")))
    other = Best(2, (Entry(1.0, 1, "early"),))
    assert joined({"b": one}, {"b": other})["b"] == Best(2, (Entry(1.0, 1, "early"), Entry(1.0, 4, "late")))


def test_kinds_do_not_mix() -> None:
    with pytest.raises(TypeError, match="x is a Moments here"):
        joined({"x": moments_of([1.0])}, {"x": histogram_of([1.0], 0, 1, 1)})


def test_a_figure_that_never_changes_has_no_correlation_and_no_spread() -> None:
    found = moments_of([2.0, 2.0], [1.0, 3.0])
    assert found.correlation(0, 1) == 0.0
    assert found.spread[0] == 0.0
