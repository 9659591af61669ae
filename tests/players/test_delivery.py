"""The norms: what is taken of a player, and how a club's own figures move it."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.clubs import as_played
from asplayed.mechanics.impact import impact
from asplayed.players.delivery import Delivery, delivery_behind, norm, skill_of
from asplayed.players.records import Player
from asplayed.quantities import Source, figure


@given(
    st.floats(25, 55),
    st.floats(-8, 6),
    st.floats(12, 55),
    st.floats(0.6, 0.9),
    st.floats(-0.3, 0.4),
    st.floats(0.19, 0.3),
)
def test_the_delivery_behind_a_ball_is_the_one_that_struck_it(
    speed: float, attack: float, loft: float, restitution: float, tangential: float, head: float
) -> None:
    ball = impact(
        club_speed=speed,
        head_mass=head,
        restitution=restitution,
        attack_angle=math.radians(attack),
        dynamic_loft=math.radians(loft),
        tangential_restitution=tangential,
    )
    found = delivery_behind(
        ball.ball_speed,
        ball.launch_angle,
        ball.spin_rate,
        club_speed=speed,
        attack=math.radians(attack),
        head_mass=head,
    )
    wanted = Delivery(speed, math.radians(attack), math.radians(loft), restitution, tangential)
    assert found == pytest.approx(wanted, rel=1e-9, abs=1e-9)


def test_each_of_speed_and_handicap_stands_in_for_the_other() -> None:
    by_speed = skill_of(Player(driver_speed=figure(102, "mph", "stated")))
    by_handicap = skill_of(Player(handicap=figure(5, "1", "stated")))
    assert by_speed.handicap.value == 5 and by_speed.handicap.source is Source.COMMON_PRACTICE
    assert by_handicap.driver_speed.value == 102 and by_handicap.driver_speed.low == 97
    nobody = skill_of(Player())
    assert {nobody.driver_speed.source, nobody.handicap.source} == {Source.ASSUMED}


def delivered(make, name: str, speed: float = 100.0, **parts: float) -> Delivery:
    one = make.club(name, **parts)
    return norm(one, as_played(one), skill_of(make.player(speed))).delivery


def test_loft_goes_into_dynamic_loft_and_length_into_speed(make) -> None:
    usual, weak, long = (
        delivered(make, "7 iron"),
        delivered(make, "7 iron", loft=34.5),
        delivered(make, "7 iron", length=38),
    )
    assert math.degrees(weak.dynamic_loft - usual.dynamic_loft) == pytest.approx(2.0)
    assert weak.club_speed == usual.club_speed
    assert 1.005 < long.club_speed / usual.club_speed < 1.015
    assert long.dynamic_loft == usual.dynamic_loft


@pytest.mark.parametrize("speed", [70, 85, 100, 115, 128])
def test_shorter_clubs_swing_slower_with_more_loft(make, speed: float) -> None:
    irons = [delivered(make, f"{number} iron", speed) for number in range(4, 10)]
    assert all(a.club_speed > b.club_speed and a.dynamic_loft < b.dynamic_loft for a, b in pairwise(irons))


def test_a_club_between_two_rows_lies_between_them(make) -> None:
    three, four, five = (delivered(make, f"{number} wood", 112) for number in (3, 4, 5))
    assert three.club_speed > four.club_speed > five.club_speed
    assert three.dynamic_loft < four.dynamic_loft < five.dynamic_loft


def test_clubs_beyond_the_rows_have_a_norm(make) -> None:
    for name in ("11 wood", "7 hybrid", "1 iron", "lob wedge", "chipper"):
        found = delivered(make, name)
        assert 25 < found.club_speed < 50 and 0.5 < found.restitution < 0.95
