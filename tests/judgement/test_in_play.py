"""Sets with known flaws in a player's hands yield exactly those; an ordinary set yields none.

The ordinary set and player are the middles of the trade's usual figures (common practice); each flaw is one change to
the set, the player, or his shots.
"""

from __future__ import annotations

import math
import sys
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from asplayed.clubs import Club, GolfSet, Grip, Head, PutterParts, Shaft
from asplayed.judgement import Finding, judge
from asplayed.judgement.stakes import cost_of_aim, cost_of_hole, strokes_left
from asplayed.players import fly_set
from asplayed.players.records import Conditions, Player, SessionFacts, UsualDelivery
from asplayed.players.shots import Shots
from asplayed.players.summaries import Session
from asplayed.quantities import figure

sys.path.insert(0, str(Path(__file__).parent))

from ordinary import ROWS, ordinary

ORDINARY = ordinary(driver_loft=10.5)
PLAYER = Player(driver_speed=figure(104, "mph", "stated"), handicap=figure(4, "1", "stated"))


def change(name: str, base: GolfSet = ORDINARY, **fields: object) -> GolfSet:
    clubs = [replace(club, **fields) if club.club == name else club for club in base.clubs]
    return replace(base, clubs=tuple(clubs))


def without(name: str) -> GolfSet:
    return replace(ORDINARY, clubs=tuple(club for club in ORDINARY.clubs if club.club != name))


def session(**columns: dict[str, float]) -> Session:
    """Twenty shots with every club named, spread evenly by a hundredth about the values given (SI)."""
    names = sorted({name for column in columns.values() for name in column})
    clubs = [name for name in names for _ in range(20)]
    spread = np.tile(np.linspace(-1, 1, 20), len(names))
    found = {}
    for key, values in columns.items():
        base = np.array([values.get(name, math.nan) for name in clubs])
        found[key.replace("_", " ")] = base + spread * np.maximum(0.01 * np.abs(base), 0.002)
    number = np.array([names.index(name) for name in clubs])
    shots = Shots(np.arange(len(clubs)) + 2, number, tuple(names), found)
    return Session(SessionFacts(), shots)


YARD = 0.9144
USUAL_CARRIES = {
    "driver": 240.0, "3 wood": 221.0, "5 wood": 209.0, "4 hybrid": 195.0, "5 iron": 181.0, "6 iron": 169.0,
    "7 iron": 157.0, "8 iron": 145.0, "9 iron": 132.0, "pitching wedge": 118.0, "gap wedge": 104.0,
    "sand wedge": 91.0, "lob wedge": 78.0,
}  # fmt: skip


def carried(**changed: float) -> Session:
    carries = {**USUAL_CARRIES, **{name.replace("_", " "): yards for name, yards in changed.items()}}
    return session(carry={name: yards * YARD for name, yards in carries.items()})


def launched(name: str, ball: float, launch: float, spin: float, club_speed: float, attack: float) -> Session:
    """Shots of one club: mph, degrees, rpm."""
    return session(
        club_speed={name: club_speed * 0.44704},
        ball_speed={name: ball * 0.44704},
        launch={name: math.radians(launch)},
        spin={name: spin * math.pi / 30},
        attack={name: math.radians(attack)},
    )


def build(inches: float) -> Player:
    return replace(PLAYER, wrist_to_floor=figure(inches, "in", "measured"))


def putter(hang: float) -> GolfSet:
    return change("putter", putter=PutterParts(toe_hang=figure(hang, "deg", "measured")))


def one_sole(bounce: float) -> GolfSet:
    golf_set = ORDINARY
    for name in ("sand wedge", "lob wedge"):
        [club] = [club for club in golf_set.clubs if club.club == name]
        golf_set = change(name, golf_set, head=replace(club.head, bounce=figure(bounce, "deg", "measured")))
    return golf_set


FLAWED: dict[str, tuple[GolfSet, Player, tuple[Session, ...], Conditions | None, set[str]]] = {
    "no gap wedge": (without("gap wedge"), PLAYER, (), None, {"loft-hole", "carry-hole"}),
    "a step of carry in the shots": (
        ORDINARY, PLAYER, (carried(sand_wedge=82, lob_wedge=70),), None, {"carry-hole"},
    ),
    "two irons of one carry": (ORDINARY, PLAYER, (carried(**{"6 iron": 170, "7 iron": 169, "8 iron": 150}),), None,
        {"carry-overlap"}),
    "hybrid and iron of one carry": (
        ORDINARY, PLAYER, (carried(**{"4 hybrid": 190, "5 iron": 188, "6 iron": 171}), ), None, {"carry-overlap"},
    ),
    "a driver hit high with much spin": (
        ORDINARY, PLAYER, (launched("driver", 148, 19.0, 4600, 104, -1),), None, {"driver-launch"},
    ),
    "an iron that hardly spins": (
        ORDINARY, PLAYER, (launched("7 iron", 115, 20.5, 3900, 86, -3.5),), None, {"spin-low"},
    ),
    "an iron that flies flat": (
        ORDINARY, PLAYER, (launched("5 iron", 132, 6.5, 3200, 94, -3.7),), None,
        {"descent-shallow"},
    ),
    "shots that land right": (
        ORDINARY, PLAYER,
        (session(carry={"7 iron": 157 * YARD}, side={"7 iron": 12 * YARD}),), None, {"off-line"},
    ),
    "stiff driver for a slow swing": (
        change("driver", shaft=Shaft(mass=figure(62, "g", "stated"), flex="X")),
        replace(PLAYER, driver_speed=figure(88, "mph", "stated")), (), None, {"flex-against-speed"},
    ),
    "irons for a shorter player": (ORDINARY, build(38.5), (), None, {"length-against-build"}),
    "thin grips for a large hand": (
        change("7 iron", grip=Grip(name="Tessary", wraps=0)),
        replace(PLAYER, hand_size=figure(9.5, "in", "measured")), (), None, {"grip-against-hand"},
    ),
    "toe hang for a straight stroke": (
        putter(60), replace(PLAYER, stroke_arc=figure(2, "deg", "measured")), (), None, {"toe-hang-against-arc"},
    ),
    "lean soles on soft ground": (
        one_sole(6), PLAYER, (), Conditions(ground="soft"), {"soles-against-turf"},
    ),
    "full soles on firm ground": (
        one_sole(13), PLAYER, (), Conditions(ground="firm"), {"soles-against-turf"},
    ),
    "lean soles under a steep attack": (
        one_sole(6),
        replace(PLAYER, delivery=(UsualDelivery(kind="wedge", attack=figure(-11, "deg", "measured", tolerance=1)),)),
        (), None, {"soles-against-turf"},
    ),
}  # fmt: skip


@cache
def judged(name: str) -> tuple[Finding, ...]:
    golf_set, player, sessions, conditions, _ = FLAWED[name]
    return judge(golf_set, flown=fly_set(golf_set, player, sessions, conditions=conditions, shots=300))


def faults(found: tuple[Finding, ...]) -> set[str]:
    return {finding.code for finding in found if finding.level != "note"}


@pytest.mark.parametrize("name", FLAWED)
def test_a_flawed_set_yields_its_flaws_and_no_others(name: str) -> None:
    assert faults(judged(name)) == FLAWED[name][-1]


@pytest.mark.parametrize("speed", [98, 104, 110])
@pytest.mark.parametrize("ground", ["soft", "normal", "firm"])
def test_an_ordinary_set_yields_no_flaw(speed: float, ground: Any) -> None:
    player = replace(
        PLAYER, driver_speed=figure(speed, "mph", "stated"), hand_size=figure(8, "in", "measured"),
        wrist_to_floor=figure(34.5, "in", "measured"), stroke_arc=figure(6, "deg", "measured"),
    )  # fmt: skip
    golf_set = putter(30)
    answer = fly_set(golf_set, player, conditions=Conditions(ground=ground), shots=200)
    assert faults(judge(golf_set, flown=answer)) == set()


def test_ordinary_shots_yield_no_flaw() -> None:
    assert faults(judge(ORDINARY, flown=fly_set(ORDINARY, PLAYER, (carried(),), shots=200))) == set()


def test_norms_alone_say_nothing_above_a_note() -> None:
    golf_set = without("gap wedge")
    by_handicap = fly_set(golf_set, Player(handicap=figure(4, "1", "stated")), shots=200)
    found = judge(golf_set, flown=by_handicap)
    assert {finding.level for finding in found if finding.code == "carry-hole"} == {"note"}
    assert "flex-against-speed" not in {finding.code for finding in found}


def test_the_odds_of_a_swap_are_those_of_the_two_spreads() -> None:
    # two normal spreads a distance d apart: P = Φ(−d / √(s₁² + s₂²))
    [found] = [each for each in judged("two irons of one carry") if each.code == "carry-overlap"]
    golf_set, player, sessions, conditions, _ = FLAWED["two irons of one carry"]
    flown = {each.club: each for each in fly_set(golf_set, player, sessions, conditions=conditions, shots=300).clubs}
    one, two = flown["6 iron"], flown["7 iron"]
    z = (one.carry.number - two.carry.number) / math.hypot(one.depth.number, two.depth.number)
    assert found.figures["swap_probability"].number == pytest.approx(50 * math.erfc(z / math.sqrt(2)), abs=0.01)
    assert found.clubs == ("6 iron", "7 iron")


def test_two_clubs_that_come_down_differently_may_be_meant() -> None:
    [found] = [each for each in judged("hybrid and iron of one carry") if each.code == "carry-overlap"]
    assert found.level == "unusual" and "meant" in found.why


def test_graver_stakes_come_first_within_a_level() -> None:
    for name in FLAWED:
        found = judged(name)
        levels = [("breach", "flaw", "unusual", "note").index(each.level) for each in found]
        assert levels == sorted(levels)
        for level in set(levels):
            stakes = [
                each.figures["strokes"].number if "strokes" in each.figures else 0.0
                for each, here in zip(found, levels, strict=True)
                if here == level
            ]
            assert stakes == sorted(stakes, reverse=True)


def test_the_same_player_gives_the_same_findings() -> None:
    golf_set, player, sessions, conditions, _ = FLAWED["no gap wedge"]
    again = judge(golf_set, flown=fly_set(golf_set, player, sessions, conditions=conditions, shots=300))
    assert again == judged("no gap wedge")


def test_strokes_left_follow_the_published_rows() -> None:
    # Broadie, Every Shot Counts, table 5.2, from memory: 30 ft 1.978 putts; rough 100 yd 3.02
    assert float(strokes_left(9.144)) == pytest.approx(1.978)
    assert float(strokes_left(100 * YARD)) == pytest.approx(3.02)
    distances = np.linspace(0.5, 150, 400)
    assert (np.diff(strokes_left(distances)) >= 0).all()


def test_a_wider_hole_costs_more() -> None:
    chance = np.random.default_rng(3)
    landings = chance.normal(0, 6, (500, 2))
    costs = [cost_of_hole(landings, landings, gap * YARD) for gap in (10, 20, 30, 40)]
    assert costs == sorted(costs) and costs[0] >= -0.01 and costs[-1] > 0.03
    assert cost_of_aim(landings, 0.0) == 0
    assert cost_of_aim(landings, 10.0) > cost_of_aim(landings, 5.0) > 0


def test_a_medical_exception_lifts_the_limit_of_length() -> None:
    long = change("driver", length=figure(49, "in", "measured"))
    assert "rule-length" in faults(judge(long))
    # the shortest club is more than 10 in shorter: the exception does not help
    assert "rule-length" in faults(judge(long, medical=True))
    few = replace(long, clubs=tuple(club for club in long.clubs if club.club in ("driver", "3 wood", "4 hybrid")))
    assert "rule-length" in faults(judge(few)) and "rule-length" not in faults(judge(few, medical=True))


def test_every_code_in_play_has_its_line_on_the_page_of_findings() -> None:
    page = (Path(__file__).parents[2] / "docs" / "findings.md").read_text(encoding="utf-8")
    in_play = page.split("**In the player's hands.**")[1]
    listed = {
        code for row in in_play.splitlines() if row.startswith("| `") for code in row.split("|")[1].split("`")[1::2]
    }
    seen = {code for name in FLAWED for code in FLAWED[name][-1]} - {"loft-hole"}
    assert seen <= listed and listed - seen == {"spin-high"}


def _any(low: float, high: float, unit: str) -> st.SearchStrategy[Any]:
    return st.none() | st.floats(low, high).map(lambda value: figure(round(value, 2), unit, "stated"))


ANY_PLAYER = st.builds(
    Player,
    hand=st.sampled_from(["right", "left"]),
    driver_speed=_any(45, 120, "mph"),
    handicap=_any(-8, 50, "1"),
    hand_size=_any(4, 11, "in"),
    wrist_to_floor=_any(22, 48, "in"),
    stroke_arc=_any(0, 60, "deg"),
)
ANY_CLUB = st.sampled_from(ROWS).flatmap(
    lambda row: st.builds(
        Club,
        club=st.just(row[0]),
        kind=st.just(row[1]),
        head=st.builds(Head, loft=_any(2, 64, "deg"), lie=_any(50, 80, "deg"), bounce=_any(0, 20, "deg")),
        length=_any(28, 52, "in"),
    )
)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(st.lists(ANY_CLUB, max_size=15), ANY_PLAYER, st.sampled_from(["soft", "normal", "firm"]))
def test_any_set_can_be_judged_in_any_hands(clubs: list[Club], player: Player, ground: Any) -> None:
    golf_set = GolfSet(clubs=tuple(clubs))
    answer = fly_set(golf_set, player, conditions=Conditions(ground=ground), shots=20)
    found = judge(golf_set, flown=answer)
    assert {each.code for each in judge(golf_set)} <= {each.code for each in found}
    for each in found:
        assert all(math.isfinite(entry.number) for entry in each.figures.values() if entry.has_number)
        assert each.sentence.endswith(".") and each.why.endswith(".") and each.remedy.endswith(".")
        assert each.level != "breach" or each.code.startswith("rule-") or each.code == "clubs-over-fourteen"
