"""Versions of clubs flown all at once: they fly as the set itself would, and as clubs do."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from asplayed.catalogue.tables import read_table
from asplayed.clubs import Change, Club, GolfSet, Head
from asplayed.clubs.changes import apply_all
from asplayed.players.flying import fly_set
from asplayed.players.records import Conditions, Player, SessionFacts
from asplayed.players.shots import Shots, shots_of
from asplayed.players.summaries import Session
from asplayed.players.versions import Versions, fly_versions, hands_of, versions_of
from asplayed.quantities import figure, to_si

YARD = 0.9144
PLAYER = Player(driver_speed=figure(100, "mph", "stated"), handicap=figure(8, "1", "stated"))


def _club(name: str, kind: str, loft: float) -> Club:
    return Club(club=name, kind=kind, head=Head(loft=figure(loft, "deg", "stated")))  # type: ignore[arg-type]


BAG = GolfSet(
    clubs=(
        _club("driver", "driver", 10.5),
        _club("5 wood", "fairway wood", 18),
        _club("7 iron", "iron", 32),
        _club("sand wedge", "wedge", 56),
        _club("putter", "putter", 3),
    )
)
LABELS = ["driver", "5 wood", "7 iron", "sand wedge"]


def _session(carries: list[float]) -> Session:
    rows = "\n".join(f"7 iron,{carry},{place / 10},1.0" for place, carry in enumerate(carries))
    table = read_table(f"club,carry [yd],path [deg],face [deg]\n{rows}\n".encode(), "shots")
    found: Shots = shots_of(table, BAG.clubs).shots
    return Session(SessionFacts(file="shots"), found)


def test_unchanged_versions_fly_as_the_set_flies() -> None:
    hands = hands_of(BAG, PLAYER, shots=400)
    flown = fly_versions(hands, versions_of(hands, LABELS))
    for place, each in enumerate(hands.flown.clubs):
        for name in ("carry", "run"):
            entry = getattr(each, name)
            assert getattr(flown, name)[place] == pytest.approx(to_si(entry.number, entry.unit), abs=0.02)
        # spreads to first order against 400 simulated shots: their own error is 3.5 %
        for name in ("depth", "width"):
            assert getattr(flown, name)[place] == pytest.approx(getattr(each, name).number * YARD, rel=0.12)


def test_a_changed_version_flies_as_the_changed_set_flies() -> None:
    """Against `fly_set` over the set with the same changes made to its records."""
    hands = hands_of(BAG, PLAYER, shots=400)
    changes = [
        Change(club="7 iron", what="loft", by=True, figure=figure(2, "deg", "stated")),
        Change(club="7 iron", what="length", by=True, figure=figure(0.5, "in", "stated")),
    ]
    [other] = [
        each
        for each in fly_set(apply_all(BAG, changes), PLAYER, struck_with=BAG, shots=400).clubs
        if each.label == "7 iron"
    ]
    version = versions_of(hands, ["7 iron"], loft_change=np.radians([2.0]), length_change=0.5 * 0.0254)
    flown = fly_versions(hands, version)
    assert flown.carry[0] / YARD == pytest.approx(other.carry.number, abs=0.3)
    assert flown.run[0] / YARD == pytest.approx(other.run.number, abs=0.3)
    assert np.degrees(flown.descent[0]) == pytest.approx(other.descent.number, abs=0.1)


def test_other_air_is_that_of_the_set_in_other_air() -> None:
    hands = hands_of(BAG, PLAYER, shots=200)
    head = Conditions(wind_along=figure(-10, "mph", "stated"), altitude=figure(3000, "ft", "stated"))
    there = fly_versions(hands, versions_of(hands, LABELS), head)
    for place, each in enumerate(fly_set(BAG, PLAYER, conditions=head, shots=200).clubs):
        assert there.carry[place] / YARD == pytest.approx(each.carry.number, abs=0.1)


def test_a_measured_carry_moves_as_the_flown_one_does() -> None:
    session = _session([150.0, 151.0, 149.0, 150.0, 152.0, 148.0, 150.0])
    hands = hands_of(BAG, PLAYER, [session], shots=200)
    plain = hands_of(BAG, PLAYER, shots=200)
    weaker = np.radians([0.0, 3.0])
    measured = fly_versions(hands, versions_of(hands, ["7 iron"] * 2, loft_change=weaker))
    norm = fly_versions(plain, versions_of(plain, ["7 iron"] * 2, loft_change=weaker))
    assert measured.carry[0] / YARD == pytest.approx(150.0, abs=0.5)
    # the shots change what the player delivers a little, and with it what a degree does
    assert measured.carry[1] / measured.carry[0] == pytest.approx(norm.carry[1] / norm.carry[0], abs=0.01)


def test_a_club_never_struck_is_swung_by_the_same_player() -> None:
    """Shots that carry farther than the norm tell that clubs nobody struck do so too."""
    strong = hands_of(BAG, PLAYER, [_session([175.0, 176.0, 174.0, 175.0, 177.0])], shots=200)
    usual = hands_of(BAG, PLAYER, shots=200)
    new = Versions(
        (None,), ("5 iron",), ("iron",), np.radians([25.0]), np.array([38 * 0.0254]), np.array([0.255]), np.zeros(1)
    )
    assert fly_versions(strong, new).carry[0] > fly_versions(usual, new).carry[0] + 2.0


def test_only_a_change_of_lie_turns_the_line() -> None:
    hands = hands_of(BAG, PLAYER, shots=200)
    sides = fly_versions(hands, versions_of(hands, ["7 iron"] * 3, lie_change=np.radians([0.0, 2.0, -2.0]))).side
    assert sides[0] == 0.0
    assert sides[1] < -1.0 < 1.0 < sides[2]  # upright sends a right-hander's ball left
    left = replace(PLAYER, hand="left")
    mirrored = hands_of(BAG, left, shots=200)
    assert fly_versions(mirrored, versions_of(mirrored, ["7 iron"], lie_change=np.radians([2.0]))).side[0] > 1.0


def test_order_and_company_do_not_matter() -> None:
    hands = hands_of(BAG, PLAYER, shots=200)
    lofts = np.radians([-2.0, 0.0, 1.0, 3.0])
    together = fly_versions(hands, versions_of(hands, LABELS, loft_change=lofts))
    backwards = fly_versions(hands, versions_of(hands, LABELS[::-1], loft_change=lofts[::-1]))
    alone = fly_versions(hands, versions_of(hands, ["sand wedge"], loft_change=lofts[3]))
    np.testing.assert_allclose(together.carry, backwards.carry[::-1], rtol=1e-5)
    np.testing.assert_allclose(together.carry[3], alone.carry[0], rtol=1e-5)
