"""A small study of single shots, and sets to study."""

from __future__ import annotations

import pytest

from asplayed.clubs import Club, GolfSet, Head
from asplayed.players.records import Player
from asplayed.quantities import figure
from asplayed.sweeps.landings import Landings


def club(name: str, kind: str, loft: float, **others: object) -> Club:
    return Club(club=name, kind=kind, head=Head(loft=figure(loft, "deg", "stated"), **others))  # type: ignore[arg-type]


@pytest.fixture(scope="session")
def bag() -> GolfSet:
    """Three clubs and a putter."""
    return GolfSet(
        clubs=(
            club("driver", "driver", 10.5),
            club("7 iron", "iron", 34.0),
            club("sand wedge", "wedge", 56.0, bounce=figure(10.0, "deg", "stated")),
            Club(club="putter", kind="putter"),
        )
    )


@pytest.fixture(scope="session")
def player() -> Player:
    """A player of whom speed and handicap are known."""
    return Player(driver_speed=figure(95.0, "mph", "stated"), handicap=figure(12.0, "1", "stated"))


@pytest.fixture(scope="session")
def landings(bag: GolfSet, player: Player) -> Landings:
    """Twelve blocks of single shots: two clubs, one player, no wind, six lofts."""
    return Landings(
        sets=(("bag", bag),),
        players=(player,),
        clubs=("7 iron", "sand wedge"),
        loft_changes=(-2.0, -1.0, 0.0, 1.0, 2.0, 3.0),
        shots=200,
        seed=7,
    )
