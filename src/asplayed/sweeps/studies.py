"""What a study is: how many blocks it has, and what one block of it comes to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, ClassVar, NamedTuple

import msgspec

from asplayed.sweeps.reducing import Tally

Row = dict[str, Any]


class Block(NamedTuple):
    """What one block comes to: what adds up, and rows for the table."""

    tally: Tally
    rows: tuple[Row, ...] = ()


class Study(msgspec.Struct, frozen=True, kw_only=True):
    """What is asked, as a record that travels to workers; blocks are numbered from 0 and each is reckoned alone.

    `NAME` is the study's word; `COLUMNS` names the columns of its table with the kind of each; `CHUNK` is how many
    blocks a worker is handed at once unless somebody says.
    """

    NAME: ClassVar[str]
    COLUMNS: ClassVar[dict[str, type]]
    CHUNK: ClassVar[int] = 1

    seed: int = 0

    def blocks(self) -> int:
        """How many blocks there are."""
        raise NotImplementedError

    def block(self, number: int) -> Block:
        """One block, from its number alone."""
        raise NotImplementedError

    def summary(self, tally: Tally) -> Iterable[Row]:
        """Rows that only the whole can tell."""
        return ()


def seed_of(seed: int, block: int) -> int:
    """The seed of one block: the same whoever reckons it and when; streams of two blocks have nothing in common.

    Source: NumPy's `SeedSequence`, whose spawn key is the block's number.

    >>> seed_of(0, 7) == seed_of(0, 7), seed_of(0, 7) == seed_of(0, 8), seed_of(1, 7) == seed_of(0, 7)
    (True, False, False)
    """
    import numpy as np

    return int(np.random.SeedSequence(seed, spawn_key=(block,)).generate_state(1, np.uint64)[0])
