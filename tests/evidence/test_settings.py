"""Best settings as whole answers: the loft of a driver by speed, attack, wind and height."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from ledger import Ledger, Row

from asplayed.choosing.settings import Flat, best_settings, read_target
from asplayed.clubs import Club, GolfSet, Head
from asplayed.players.records import Conditions, Player, UsualDelivery
from asplayed.players.versions import Hands, hands_of
from asplayed.quantities import figure

LEDGER = Ledger(
    "settings.csv", "Best settings", "The loft that serves a driver best, by speed, attack, wind and height."
)

BAG = GolfSet(clubs=(Club(club="driver", kind="driver", head=Head(loft=figure(12, "deg", "stated"))),))
SPEEDS = (67, 78, 89, 101, 112)


@cache
def hands(speed: float, attack: float = 0.0, wind: float = 0.0, height: float = 0.0) -> Hands:
    said = UsualDelivery(kind="driver", attack=figure(attack, "deg", "measured", tolerance=0.1))
    player = Player(
        driver_speed=figure(speed, "mph", "stated", tolerance=1), handicap=figure(0, "1", "stated"), delivery=(said,)
    )
    air = Conditions(wind_along=figure(wind, "mph", "stated"), altitude=figure(height, "ft", "stated"))
    return hands_of(BAG, player, conditions=air, shots=20)


@cache
def free(aim: str, speed: float, attack: float = 0.0, wind: float = 0.0) -> Flat:
    return best_settings(hands(speed, attack, wind), "driver", read_target(aim)).flat[0]


def dynamic(aim: str, speed: float, attack: float = 0.0) -> float:
    """The best loft as delivered: what the club's loft becomes in these hands, deg."""
    [club] = hands(speed, attack).flown.clubs
    return free(aim, speed, attack).best.number + club.dynamic_loft.number - 12.0


@LEDGER.gives(*(f"3.6 carry {speed}" for speed in SPEEDS))
def _() -> tuple[float, ...]:
    return tuple(dynamic("farthest", speed) for speed in SPEEDS)


@LEDGER.gives(*(f"3.6 total {speed}" for speed in SPEEDS))
def _() -> tuple[float, ...]:
    return tuple(dynamic("longest", speed) for speed in SPEEDS)


@LEDGER.gives("penner")
def _() -> float:
    return (dynamic("longest", 101) + dynamic("longest", 112)) / 2


@LEDGER.gives("flat")
def _() -> float:
    found = free("farthest", 101)
    assert found.low.number < found.best.number < found.high.number
    return (found.high.number - found.low.number) / 2


@LEDGER.gives("slower")
def _() -> bool:
    lofts = [dynamic(aim, speed) for aim in ("farthest", "longest") for speed in SPEEDS]
    return all(a > b for five in (lofts[:5], lofts[5:]) for a, b in pairwise(five))


@LEDGER.gives("steeper")
def _() -> bool:
    return dynamic("farthest", 101, -5.0) < dynamic("farthest", 101) < dynamic("farthest", 101, 5.0)


@LEDGER.gives("into wind")
def _() -> bool:
    head, still, tail = (free("farthest", 101, 0.0, wind).best.number for wind in (-20.0, 0.0, 20.0))
    return head < still < tail


@LEDGER.gives("higher")
def _() -> float:
    low, high = (
        best_settings(hands(112, 0.0, 0.0, height), "driver", read_target("farthest")).best.number
        for height in (0.0, 1000.0)
    )
    return 100 * (high / low - 1)


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
