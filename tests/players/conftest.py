"""Sets, players and shots that are made up."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from asplayed.clubs import Club, GolfSet, Head
from asplayed.players.records import Conditions, Player, SessionFacts
from asplayed.players.shots import Shots
from asplayed.players.summaries import Session
from asplayed.quantities import figure

KINDS = {"wood": "fairway wood", "hybrid": "hybrid", "iron": "iron", "wedge": "wedge", "putter": "putter"}
FOURTEEN = (
    "driver",
    "3 wood",
    "5 wood",
    "4 hybrid",
    *(f"{number} iron" for number in range(4, 10)),
    "pitching wedge",
    "gap wedge",
    "sand wedge",
    "putter",
)


def club(name: str, **parts: float) -> Club:
    """A club of this name with loft, lie or length as given."""
    kind = next((kind for word, kind in KINDS.items() if word in name), "driver")
    given = {part: figure(value, "in" if part == "length" else "deg", "stated") for part, value in parts.items()}
    head = Head(loft=given.get("loft"), lie=given.get("lie"))
    return Club(club=name, kind=kind, head=head, length=given.get("length"))


def bag(*names: str) -> GolfSet:
    """A set of usual clubs."""
    return GolfSet(clubs=tuple(club(name) for name in names))


def player(speed: float = 100.0, handicap: float = 5.0) -> Player:
    """A player of whom speed and handicap are known."""
    return Player(driver_speed=figure(speed, "mph", "stated"), handicap=figure(handicap, "1", "stated"))


def session(
    names: Sequence[str], club_places: Sequence[int], conditions: Conditions | None = None, **columns: Sequence[float]
) -> Session:
    """A session from columns in SI; underscores stand for blanks."""
    rows = len(club_places)
    shots = Shots(
        np.arange(2, rows + 2),
        np.array(club_places, dtype=np.int64),
        tuple(names),
        {name.replace("_", " "): np.array(column, dtype=np.float64) for name, column in columns.items()},
    )
    return Session(SessionFacts(conditions=conditions or Conditions()), shots)


class Making:
    """What the tests of players are made with."""

    club = staticmethod(club)
    bag = staticmethod(bag)
    player = staticmethod(player)
    session = staticmethod(session)
    fourteen = FOURTEEN


@pytest.fixture(scope="session")
def make() -> Making:
    """Makers of made-up sets, players and sessions."""
    return Making()
