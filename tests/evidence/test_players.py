"""What a player does with a set, as whole answers: averages of professionals, sensitivities, norms, spread."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from ledger import Ledger, Row

from asplayed.clubs import Club, GolfSet, Head, as_played
from asplayed.clubs.usual import usual_row
from asplayed.players.delivery import MPH, delivery_behind, norm, norms, skill_of
from asplayed.players.flown import FlownClub
from asplayed.players.flying import fly_set
from asplayed.players.records import Conditions, Player
from asplayed.players.shots import Shots
from asplayed.players.summaries import summarise
from asplayed.quantities import figure

LEDGER = Ledger(
    "players.csv", "Players and their flights", "Whole answers: a set in a player's hands, here and elsewhere."
)

MEN = ["driver", "3 wood", "5 wood", "3 hybrid", *(f"{n} iron" for n in range(3, 10)), "pitching wedge"]
WOMEN = ["driver", "3 wood", "5 wood", *(f"{n} iron" for n in range(4, 10)), "pitching wedge"]
WEDGES = ["pitching wedge", "gap wedge", "sand wedge", "lob wedge"]


def club(name: str, **parts: float) -> Club:
    kinds = {"wood": "fairway wood", "hybrid": "hybrid", "iron": "iron", "wedge": "wedge"}
    kind = next((kind for word, kind in kinds.items() if word in name), "driver")
    assert usual_row(name, kind) == name
    head = Head(
        loft=figure(parts["loft"], "deg", "stated") if "loft" in parts else None,
        mass=figure(parts["head"], "g", "stated") if "head" in parts else None,
    )
    length = figure(parts["length"], "in", "stated") if "length" in parts else None
    return Club(club=name, kind=kind, head=head, length=length)


def player(speed: float, handicap: float) -> Player:
    return Player(driver_speed=figure(speed, "mph", "stated"), handicap=figure(handicap, "1", "stated"))


@cache
def fly(
    names: tuple[str, ...], speed: float, handicap: float, place: Conditions | None = None, shots: int = 4
) -> dict[str, FlownClub]:
    bag = GolfSet(clubs=tuple(club(name) for name in names))
    return {each.club: each for each in fly_set(bag, player(speed, handicap), conditions=place, shots=shots).clubs}


def in_air(**figures: tuple[float, str]) -> Conditions:
    return Conditions(**{name: figure(*given, "stated") for name, given in figures.items()})


def behind(name: str, ball: float, launch: float, spin: float, speed: float, attack: float, head: float):
    return delivery_behind(
        ball * MPH,
        math.radians(launch),
        spin * math.pi / 30,
        club_speed=speed * MPH,
        attack=math.radians(attack),
        head_mass=head,
    )


# Ball, launch, spin, club speed and attack as the averages print them; heads of the trade's usual masses (kg).
PRINTED = {
    "driver": (167, 10.9, 2686, 112, -1.3, 0.2),
    "5 iron": (132, 12.1, 5361, 94, -3.7, 0.255),
    "7 iron": (120, 16.3, 7097, 90, -4.3, 0.269),
    "8 iron": (115, 18.1, 7998, 87, -4.5, 0.276),
    "PW": (102, 24.2, 9304, 83, -5.0, 0.289),
}


@LEDGER.gives("9.1 spin loft driver", "9.1 spin loft 7 iron", "9.1 spin loft PW")
def _() -> tuple[float, ...]:
    found = [behind(name, *PRINTED[name]) for name in ("driver", "7 iron", "PW")]
    return tuple(math.degrees(each.dynamic_loft - each.attack) for each in found)


@LEDGER.gives("9.1 tangential driver", "9.1 tangential 5 iron", "9.1 tangential 8 iron")
def _() -> tuple[float, ...]:
    return tuple(behind(name, *PRINTED[name]).tangential_restitution for name in ("driver", "5 iron", "8 iron"))


@LEDGER.gives(*(f"men {name}" for name in MEN))
def _() -> tuple[float, ...]:
    flown = fly(tuple(MEN), 112, -5)
    return tuple(flown[name].carry.number for name in MEN)


@LEDGER.gives(*(f"women {name}" for name in WOMEN))
def _() -> tuple[float, ...]:
    flown = fly(tuple(WOMEN), 93.9, -5)
    return tuple(flown[name].carry.number for name in WOMEN)


@LEDGER.gives("descent 4 iron", "descent 7 iron")
def _() -> tuple[float, float]:
    flown = fly(tuple(MEN), 112, -5)
    return flown["4 iron"].descent.number, flown["7 iron"].descent.number


TWO = ("driver", "7 iron")


def gained(place: Conditions, name: str, what: str = "carry") -> tuple[float, float]:
    """The change of a figure in its unit and in percent."""
    before, after = (getattr(fly(TWO, 112, -5, air)[name], what).number for air in (None, place))
    return after - before, 100 * (after / before - 1)


@LEDGER.gives("heat iron", "heat driver")
def _() -> tuple[float, float]:
    warm = in_air(temperature=(80, "degF"))
    return gained(warm, "7 iron")[0], gained(warm, "driver")[0]


@LEDGER.gives("height driver", "height iron")
def _() -> tuple[float, float]:
    up = in_air(altitude=(1000, "ft"))
    return gained(up, "driver")[1], gained(up, "7 iron")[1]


@LEDGER.gives("high driver", "high descent", "high apex", "high order")
def _() -> tuple[float, float, float, bool]:
    up = in_air(altitude=(7800, "ft"))
    drive, iron = gained(up, "driver")[1], gained(up, "7 iron")[1]
    return drive, gained(up, "driver", "descent")[0], gained(up, "driver", "apex")[1], iron > drive


@LEDGER.gives("crosswind")
def _() -> float:
    return fly(TWO, 112, -5, in_air(wind_across=(10, "mph")))["driver"].side.number


def per_mile(name: str, speed: float, handicap: float) -> float:
    slow, fast = fly(TWO, speed - 1, handicap)[name], fly(TWO, speed + 1, handicap)[name]
    return (fast.carry.number - slow.carry.number) / (fast.club_speed.number - slow.club_speed.number)


@LEDGER.gives("speed driver", "speed driver 93", "speed iron")
def _() -> tuple[float, float, float]:
    return per_mile("driver", 112, -5), per_mile("driver", 93, 15), per_mile("7 iron", 112, -5)


def mean_gap(names: tuple[str, ...], speed: float, handicap: float) -> float:
    flown = fly(names, speed, handicap)
    return (flown[names[0]].carry.number - flown[names[-1]].carry.number) / (len(names) - 1)


@LEDGER.gives("long iron gap", "short iron gap", "wedge gap")
def _() -> tuple[float, float, float]:
    irons = tuple(f"{n} iron" for n in range(5, 10))
    return mean_gap(irons, 112, -5), mean_gap(irons, 80, 20), mean_gap(tuple(WEDGES), 112, -5)


def carry_at(name: str, loft: float, speed: float, handicap: float) -> float:
    bag = GolfSet(clubs=(club(name, loft=loft),))
    return fly_set(bag, player(speed, handicap), shots=4).clubs[0].carry.number


@LEDGER.gives("loft")
def _() -> float:
    return carry_at("7 iron", 30.5, 112, -5) - carry_at("7 iron", 34.5, 112, -5)


@LEDGER.gives("optimum")
def _() -> bool:
    best = [max(range(6, 20, 2), key=lambda loft: carry_at("driver", loft, speed, 0)) for speed in (67, 89, 123)]
    return best[0] > best[1] > best[2]


@LEDGER.gives("amateur loft", "amateur attack")
def _() -> tuple[float, float]:
    amateur, professional = fly(TWO, 93, 15)["7 iron"], fly(TWO, 112, -5)["7 iron"]
    return (
        amateur.dynamic_loft.number - professional.dynamic_loft.number,
        amateur.attack.number - professional.attack.number,
    )


@LEDGER.gives("direction -5", "direction 8", "direction 18", "direction 28")
def _() -> tuple[float, ...]:
    drives = [fly(("driver",), 100, handicap, None, 4000)["driver"] for handicap in (-5, 8, 18, 28)]
    return tuple(math.degrees(math.atan2(each.width.number, each.carry.number)) for each in drives)


@LEDGER.gives("depth -5", "depth 8", "depth 28")
def _() -> tuple[float, ...]:
    irons = [fly(("7 iron",), 100, handicap, None, 4000)["7 iron"] for handicap in (-5, 8, 28)]
    return tuple(100 * each.depth.number / each.carry.number for each in irons)


def head_speed(one: Club, speed: float) -> float:
    return float(norm(one, as_played(one), skill_of(player(speed, 0))).delivery.club_speed) / MPH


@LEDGER.gives("length")
def _() -> float:
    return head_speed(club("driver", length=46.25), 105) - head_speed(club("driver", length=45.25), 105)


@LEDGER.gives("head mass")
def _() -> float:
    light, heavy = (head_speed(club("driver", head=mass), 110) for mass in (174, 200))
    return 110 * heavy / light


@LEDGER.gives("W22")
def _() -> float:
    return float(norms()["contact"]["friction"])


@LEDGER.gives("W37")
def _() -> bool:
    skill = skill_of(Player(driver_speed=figure(110, "mph", "stated")))
    drivers = [club("driver", head=mass) for mass in (200, 232)]
    inertias = [as_played(each).butt_inertia.number for each in drivers]
    light, heavy = (norm(each, as_played(each), skill).delivery for each in drivers)
    return (
        390 < inertias[1] - inertias[0] < 410 and heavy.club_speed < light.club_speed and heavy.attack == light.attack
    )


@LEDGER.gives("average man")
def _() -> float:
    return skill_of(Player()).driver_speed.number


@LEDGER.gives("flag")
def _() -> float:
    carry = np.array([151.0, 148, 153, 150, 118]) * 0.9144
    return summarise(Shots(np.arange(5), np.zeros(5, dtype=np.int64), ("7 iron",), {"carry": carry}))[0].flagged


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
