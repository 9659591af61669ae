"""Best settings of one club: the best of every setting a bench makes, what is flat, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest

from asplayed.catalogue import Part
from asplayed.choosing.demand import Situation
from asplayed.choosing.moved_mass import Moved, moved_masses, sideways
from asplayed.choosing.one_club import strokes_with
from asplayed.choosing.settings import Settings, best_settings, read_target
from asplayed.clubs import Club, GolfSet, Head, Weight
from asplayed.demo import LISTS
from asplayed.errors import BadInput
from asplayed.intake.changes import read_changes
from asplayed.players.records import Player
from asplayed.players.versions import Hands, fly_versions, hands_of, versions_of
from asplayed.quantities import figure
from asplayed.workshop import order

from .conftest import demo_player, demo_set, small

YARD = 0.9144
PLAYER = Player(driver_speed=figure(100, "mph", "stated"), handicap=figure(8, "1", "stated"))


@pytest.fixture(scope="module")
def hands() -> Hands:
    return hands_of(small(), PLAYER, shots=50)


def _best(hands: Hands, label: str, aim: str, parts: tuple[Part, ...] = ()) -> Settings:
    return best_settings(hands, label, read_target(aim), parts)


def test_the_best_is_the_best_of_every_setting(hands: Hands) -> None:
    """Against every loft and length by hand: the wedge takes a degree of bend, a cut and an extension of an inch."""
    found = _best(hands, "sand wedge", "carry 80yd")
    carries = [
        float(fly_versions(hands, versions_of(hands, ["sand wedge"], loft_change=np.radians(bend),
              length_change=longer * 0.0254)).carry[0]) / YARD
        for bend in np.arange(-1, 1.01, 0.25) for longer in np.arange(-1, 1.01, 0.25)
    ]  # fmt: skip
    nearest = min(abs(carry - 80) for carry in carries)
    assert abs(found.best.number - 80) <= nearest + 0.5 + 1e-3  # half a yard is given for fewer changes
    assert found.gain.number == pytest.approx(abs(found.today.number - 80) - abs(found.best.number - 80), abs=2e-3)


def test_what_serves_already_is_left_alone(hands: Hands) -> None:
    carry = next(each.carry.number for each in hands.flown.clubs if each.label == "9 iron")
    found = _best(hands, "9 iron", f"carry {carry:.1f}yd")
    assert found.changes == () and found.gain.number == 0


def test_flat_ranges_hold_the_best_and_serve_as_well(hands: Hands) -> None:
    found = _best(hands, "gap wedge", "carry 95yd")
    told = {each.setting: each for each in found.flat}
    assert set(told) == {"any loft", "loft", "length", "head mass"}
    for each in found.flat:
        assert each.low.number <= each.best.number <= each.high.number
    assert not told["head mass"].matters and "does not matter" in told["head mass"].sentence
    at = told["any loft"]
    now = 50.0
    for end in (at.low.number, at.best.number, at.high.number):
        version = versions_of(hands, ["gap wedge"], loft_change=np.radians(end - now))
        assert abs(fly_versions(hands, version).carry[0] / YARD - 95) <= 1.0 + 1e-6


def test_out_of_reach_is_said(hands: Hands) -> None:
    found = _best(hands, "sand wedge", "carry 200yd")
    assert "no setting tried reaches a carry of 200 yd; this is the nearest" in found.remarks


@pytest.mark.parametrize("name", LISTS)
def test_a_workshop_takes_the_changes(name: str, parts: tuple[Part, ...]) -> None:
    hands = hands_of(demo_set(name), demo_player(name), shots=20)
    aims = {"driver": "longest", "7 iron": "descent 46deg", "pitching wedge": "carry 100yd"}
    changes = [words for label, aim in aims.items() for words in _best(hands, label, aim, parts).changes]
    assert len(changes) >= 2
    read = read_changes(changes, demo_set(name), parts)
    assert {club.club for club in order(demo_set(name), read, parts=parts).clubs} <= set(aims)


def test_a_descent_is_bought_with_loft(hands: Hands) -> None:
    steep = best_settings(hands, "gap wedge", read_target("descent"))
    assert steep.best.number > steep.today.number and "bend" in " ".join(steep.changes)


def test_strokes_are_those_of_the_set(hands: Hands) -> None:
    """At 100 yd the wedge nearest to it is worth most when it carries just there."""
    shots = [Situation("fairway", 92 * YARD, 10.0)]
    strokes = strokes_with(hands, "gap wedge", shots)
    found = best_settings(hands, "gap wedge", read_target("strokes"), strokes=strokes)
    assert found.best.number <= found.today.number and found.best.unit == "strokes"
    with pytest.raises(BadInput, match="give a course"):
        best_settings(hands, "gap wedge", read_target("strokes"))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no aim of a setting"), ("carri 150yd", "did you mean carry"), ("carry 150", "150yd"),
        ("carry 150mph", "150yd"), ("longest 200yd", "takes no figure"), ("descent 45yd", "45deg"),
    ],
)  # fmt: skip
def test_other_aims_are_refused(text: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read_target(text)


def test_clubs_that_do_not_fly_are_refused(hands: Hands) -> None:
    for label in ("putter", "5 wood"):
        with pytest.raises(BadInput, match=f"no {label} flies in this set"):
            _best(hands, label, "longest")


def _weighted(hand: str = "right") -> Hands:
    weights = (Weight(place="heel", mass=figure(8, "g", "stated")), Weight(place="toe", mass=figure(4, "g", "stated")))
    club = Club(club="driver", kind="driver", head=Head(loft=figure(10, "deg", "stated")), weights=weights)
    return hands_of(GolfSet(clubs=(club,)), Player(driver_speed=PLAYER.driver_speed, hand=hand), shots=20)  # type: ignore[arg-type]


def test_mass_to_the_heel_turns_the_ball_towards_the_heel() -> None:
    """A centre of gravity nearer the heel favours a draw, nearer the toe a fade: common practice; gear effect."""
    turned = {}
    for hand in ("right", "left"):
        hands = _weighted(hand)
        versions = versions_of(hands, ["driver"] * 3)
        turned[hand] = sideways(hands, versions, [Moved("", 0.0), Moved("toe", 4.0), Moved("heel", -4.0)]) / YARD
        assert turned[hand][0] == 0.0
    assert turned["right"][1] > 0 > turned["right"][2]
    # a few yards for 4 g across a head (common practice: makers' own claims are 5 to 20 yd for all their mass)
    assert 1.0 < turned["right"][1] < 15.0
    np.testing.assert_allclose(turned["left"], -turned["right"], rtol=1e-6)


def test_movable_masses_are_only_those_the_head_has() -> None:
    assert [each.words for each in moved_masses(_weighted().golf_set.clubs[0], "driver")] == [
        "", "driver: weights 4 g heel 8 g toe",
    ]  # fmt: skip
    assert len(moved_masses(Club(club="driver", kind="driver"), "driver")) == 1
    assert "moved mass" in {each.setting for each in _best(_weighted(), "driver", "straight").flat}
