"""What the blocks of a sweep add up to: moments, histograms and the best few, joined along one fixed tree.

Sums of floats depend on their order. Blocks are therefore always joined as the leaves of the same binary tree, block 2n
with block 2n + 1 and so on upward, whoever reckoned them and in whatever chunks they came: the bits of the result are
those of one process that does all blocks in order.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec
import numpy as np


class Moments(msgspec.Struct, frozen=True, tag="moments"):
    """How many rows of figures there were, their mean, their scatter (sums of products about the mean), their range."""

    count: int
    mean: tuple[float, ...]
    scatter: tuple[tuple[float, ...], ...]
    least: tuple[float, ...]
    most: tuple[float, ...]

    @property
    def spread(self) -> tuple[float, ...]:
        """One standard deviation of each figure; 0 of a single row."""
        return tuple(float(np.sqrt(row[n] / max(self.count - 1, 1))) for n, row in enumerate(self.scatter))

    def correlation(self, one: int, other: int) -> float:
        """The correlation of two figures; 0 where one of them never changes."""
        product = self.scatter[one][one] * self.scatter[other][other]
        return float(self.scatter[one][other] / np.sqrt(product)) if product > 0 else 0.0


class Histogram(msgspec.Struct, frozen=True, tag="histogram"):
    """How many values fell into bins of width `step` from `low` on; those outside the bins are counted beside them."""

    low: float
    step: float
    counts: tuple[int, ...]
    below: int = 0
    above: int = 0

    def quantile(self, share: float) -> float:
        """The value below which a share of all values lies, to within a bin: straight lines between its edges.

        >>> Histogram(0.0, 10.0, (1, 2, 1)).quantile(0.5)
        15.0
        """
        whole = self.below + sum(self.counts) + self.above
        wanted, passed = share * whole, float(self.below)
        for number, count in enumerate(self.counts):
            if count and passed + count >= wanted:
                return self.low + self.step * (number + max(0.0, wanted - passed) / count)
            passed += count
        return self.low + self.step * len(self.counts)


class Entry(msgspec.Struct, frozen=True, order=True):
    """One of the best: what it costs, where it stands in the sweep, and what it is."""

    cost: float
    item: int
    words: str


class Best(msgspec.Struct, frozen=True, tag="best"):
    """The few of least cost, the least first; of equals the earlier."""

    most: int
    entries: tuple[Entry, ...]


Reduced = Moments | Histogram | Best
Tally = dict[str, Reduced]


class Node(msgspec.Struct, frozen=True):
    """The blocks `place` × 2^level to (`place` + 1) × 2^level, joined."""

    level: int
    place: int
    tally: Tally


def moments_of(*figures: Any) -> Moments:
    """The moments of figures that stand beside each other in arrays of one length, at least one.

    >>> moments_of([1.0, 3.0]).mean, round(moments_of([1.0, 3.0]).spread[0], 4)
    ((2.0,), 1.4142)
    """
    rows = np.stack([np.asarray(each, dtype=np.float64) for each in figures])
    mean = rows.mean(axis=1)
    off = rows - mean[:, None]
    # Sums row by row: a product of matrices adds up in an order that differs between libraries and machines.
    scatter = tuple(tuple(float((one * other).sum()) for other in off) for one in off)
    least, most = rows.min(axis=1).tolist(), rows.max(axis=1).tolist()
    return Moments(rows.shape[1], tuple(mean.tolist()), scatter, tuple(least), tuple(most))


def histogram_of(values: Any, low: float, step: float, bins: int) -> Histogram:
    """The histogram of an array.

    >>> histogram_of(np.array([-1.0, 0.0, 9.9, 25.0]), 0.0, 5.0, 4)
    Histogram(low=0.0, step=5.0, counts=(1, 1, 0, 0), below=1, above=1)
    """
    place = np.floor((np.asarray(values) - low) / step)
    inside = place[(place >= 0) & (place < bins)].astype(np.int64)
    counts = tuple(np.bincount(inside, minlength=bins).tolist())
    return Histogram(low, step, counts, int((place < 0).sum()), int((place >= bins).sum()))


def _joined_moments(one: Moments, other: Moments) -> Moments:
    # Means and scatters of two groups join exactly (Chan, Golub and LeVeque 1979), without losing digits.
    count = one.count + other.count
    step = [b - a for a, b in zip(one.mean, other.mean, strict=True)]
    mean = tuple(a + d * (other.count / count) for a, d in zip(one.mean, step, strict=True))
    share = one.count * other.count / count
    scatter = tuple(
        tuple(a + b + step[i] * step[j] * share for j, (a, b) in enumerate(zip(left, right, strict=True)))
        for i, (left, right) in enumerate(zip(one.scatter, other.scatter, strict=True))
    )
    least = tuple(map(min, one.least, other.least))
    return Moments(count, mean, scatter, least, tuple(map(max, one.most, other.most)))


def joined(one: Mapping[str, Reduced], other: Mapping[str, Reduced]) -> Tally:
    """Two tallies as one; what stands in both under a name is of one kind and adds up.

    >>> both = joined({"a": moments_of([1.0])}, {"a": moments_of([3.0]), "b": histogram_of([1.0], 0, 1, 2)})
    >>> both["a"].count, both["a"].mean, sorted(both)
    (2, (2.0,), ['a', 'b'])
    """
    found = dict(one)
    for name, right in other.items():
        left = found.get(name)
        match left, right:
            case None, _:
                found[name] = right
            case Moments(), Moments():
                found[name] = _joined_moments(left, right)
            case Histogram(), Histogram() if (left.low, left.step) == (right.low, right.step):
                counts = tuple(a + b for a, b in zip(left.counts, right.counts, strict=True))
                below, above = left.below + right.below, left.above + right.above
                found[name] = Histogram(left.low, left.step, counts, below, above)
            case Best(), Best():
                found[name] = Best(left.most, tuple(sorted((*left.entries, *right.entries))[: left.most]))
            case _:
                raise TypeError(f"{name} is a {type(left).__name__} here and another {type(right).__name__} there")
    return found


def grow(nodes: list[Node], more: Iterable[Node]) -> None:
    """Put nodes behind those of the blocks before them, and join every pair that has become whole."""
    for node in more:
        nodes.append(node)
        while len(nodes) > 1 and _pair(nodes[-2], nodes[-1]):
            right, left = nodes.pop(), nodes.pop()
            nodes.append(Node(left.level + 1, left.place // 2, joined(left.tally, right.tally)))


def _pair(left: Node, right: Node) -> bool:
    return left.level == right.level and left.place % 2 == 0 and right.place == left.place + 1


def whole(nodes: Iterable[Node]) -> Tally:
    """What all nodes of a tree add up to; those of an end that fills no pair join from the right."""
    found: Tally = {}
    for number, node in enumerate(reversed(list(nodes))):
        found = joined(node.tally, found) if number else dict(node.tally)
    return found
