"""What-ifs as whole answers: through the reader of changes, the clubs, the player and the flight to the difference."""

from __future__ import annotations

import math
from functools import cache

import pytest
from ledger import Ledger, Row

from asplayed.choosing.what_if import air_asked, what_if
from asplayed.clubs import Club, GolfSet, Head, Sleeve
from asplayed.intake.changes import read_changes
from asplayed.judgement.flights import best_launch
from asplayed.players.delivery import Delivery
from asplayed.players.inference import Weather
from asplayed.players.records import Player
from asplayed.quantities import figure

LEDGER = Ledger("what_ifs.csv", "What-ifs", "Whole answers: a change in trade notation beside today's set.")

BAG = GolfSet(
    clubs=(
        Club(club="driver", kind="driver", sleeve=Sleeve(), head=Head(lie=figure(58, "deg", "stated"))),
        Club(club="7 iron", kind="iron", head=Head(mass=figure(269, "g", "stated"))),
        Club(club="sand wedge", kind="wedge", head=Head(bounce=figure(12, "deg", "stated"))),
    )
)
TOUR = Player(driver_speed=figure(112, "mph", "stated"), handicap=figure(-5, "1", "stated"))


@cache
def by(text: str) -> dict[tuple[str | None, str], tuple[float, float]]:
    """Every changed figure by club and name: the change, and what it was."""
    air, clubs = air_asked([text])
    answer = what_if(BAG, read_changes(clubs, BAG), player=TOUR, conditions=air, shots=4)
    return {
        (each.club, each.figure): (each.change.number, each.before.number if each.before.has_number else math.nan)
        for each in answer.differences
        if each.change is not None and each.before is not None
    }


def percent(text: str, club: str) -> float:
    change, before = by(text)[club, "carry"]
    return 100 * change / before


@LEDGER.gives("1.6 warmer")
def _() -> float:
    return by("air: 80 degF")["driver", "carry"][0]


@LEDGER.gives("1.6 higher driver", "1.6 higher 7 iron", "1.6 a mile")
def _() -> tuple[float, float, float]:
    # The air of a height is the standard atmosphere's pressure at the temperature that was said.
    return tuple(
        percent(f"altitude: {height} ft", club)
        for height, club in ((1000, "driver"), (1000, "7 iron"), (5280, "driver"))
    )


@LEDGER.gives("1.6 head wind", "1.6 tail wind")
def _() -> tuple[float, float]:
    return tuple(by(f"wind: 10 mph {way}")["driver", "carry"][0] for way in ("head", "tail"))


@LEDGER.gives("4 length speed", "4 length points")
def _() -> tuple[float, float]:
    return by("driver: 1 in longer")["driver", "club_speed"][0], by("7 iron: ½ in longer")["7 iron", "swing_weight"][0]


@LEDGER.gives("4 weak loft", "4 weak bounce", "4 weak carry")
def _() -> tuple[float, float, float]:
    found = by("sand wedge: bend 1 weak")
    return tuple(found["sand wedge", name][0] for name in ("loft", "bounce", "carry"))


@LEDGER.gives("7.4 sleeve")
def _() -> float:
    return by("driver: sleeve 1 weak")["driver", "face"][0]


SEA_LEVEL = Weather(1.194, 1.82e-5)


def level(speed: float, loft: float) -> Delivery:
    return Delivery(speed, 0.0, math.radians(loft), 0.83, 0.0)


@LEDGER.gives("3.6 30", "3.6 35", "3.6 40", "3.6 45", "3.6 50", "3.6 55")
def _() -> tuple[float, ...]:
    return tuple(
        13 + math.degrees(best_launch(level(speed, 13), 0.2, SEA_LEVEL, 0.131).added_loft)
        for speed in (30.0, 35.0, 40.0, 45.0, 50.0, 55.0)
    )


@LEDGER.gives("3.6 flat")
def _() -> float:
    best = 13 + math.degrees(best_launch(level(45.0, 13), 0.2, SEA_LEVEL, 0.131).added_loft)
    return best_launch(level(45.0, best + 2), 0.2, SEA_LEVEL, 0.131).lost / 0.9144


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
