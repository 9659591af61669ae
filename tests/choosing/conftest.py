"""The demo players with their sets settled, and a small set that is quick to choose for."""

from __future__ import annotations

from functools import cache

import pytest

from asplayed.catalogue import Part, read_parts, settle
from asplayed.clubs import Club, GolfSet, Head
from asplayed.demo import DRIVER_SPEEDS, material
from asplayed.intake import read
from asplayed.players.records import Player
from asplayed.quantities import figure


@cache
def catalogue() -> tuple[Part, ...]:
    return read_parts(material("catalogue.csv"), "catalogue.csv").parts


@cache
def demo_set(name: str) -> GolfSet:
    parts = catalogue()
    return settle(read(material(f"lists/{name}.txt").decode(), parts=parts), parts)


@cache
def demo_player(name: str) -> Player:
    return Player(driver_speed=figure(float(DRIVER_SPEEDS[name]), "mph", "stated"), hand=demo_set(name).set.hand)


@pytest.fixture
def parts() -> tuple[Part, ...]:
    return catalogue()


def small() -> GolfSet:
    """Five clubs and a putter, of which the wedges can be bent a degree."""

    def club(name: str, kind: str, loft: float, limit: float = 0.0) -> Club:
        head = Head(loft=figure(loft, "deg", "stated"), bend_limit=figure(limit, "deg", "published"))
        return Club(club=name, kind=kind, head=head)  # type: ignore[arg-type]

    return GolfSet(
        clubs=(
            club("driver", "driver", 10.5), club("7 iron", "iron", 32), club("9 iron", "iron", 41),
            club("gap wedge", "wedge", 50, 1.0), club("sand wedge", "wedge", 54, 1.0), club("putter", "putter", 3),
        )
    )  # fmt: skip
