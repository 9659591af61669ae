"""What-ifs: what changes and what does not, that changes compose, and what air and clubs are known to do.

Sensitivities to air, wind and height are held against published ones in `tests/evidence/test_whole_answers.py`.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.catalogue import Part
from asplayed.choosing.what_if import WhatIf, air_asked, what_if
from asplayed.clubs import Ball, Club, GolfSet, Head, Shaft, Weight
from asplayed.errors import BadInput
from asplayed.intake.changes import read_changes
from asplayed.players.records import Player
from asplayed.quantities import figure


def _club(name: str, kind: str, loft: float, **fields: object) -> Club:
    return Club(club=name, kind=kind, head=Head(loft=figure(loft, "deg", "stated")), **fields)  # type: ignore[arg-type]


BAG = GolfSet(
    clubs=(
        _club("driver", "driver", 10.5, weights=(Weight(place="toe", mass=figure(8, "g", "stated")),)),
        _club("5 wood", "fairway wood", 18),
        _club("7 iron", "iron", 32, shaft=Shaft(mass=figure(110, "g", "stated"))),
        _club("sand wedge", "wedge", 56),
        _club("putter", "putter", 3),
    ),
    ball=Ball(name="Pellan"),
)
PLAYER = Player(driver_speed=figure(105, "mph", "stated"), handicap=figure(3, "1", "stated"))


def tried(*texts: str, **more: object) -> WhatIf:
    conditions, clubs = air_asked(texts)
    changes = read_changes(clubs, BAG)
    return what_if(BAG, changes, player=PLAYER, conditions=conditions, shots=200, **more)  # type: ignore[arg-type]


def changes_of(answer: WhatIf, club: str) -> dict[str, float]:
    return {each.figure: each.change.number for each in answer.differences if each.club == club and each.change}


def test_nothing_changed_is_no_difference() -> None:
    assert tried().differences == ()
    assert tried("wind: 0 mph head").differences == ()


def test_only_what_was_changed_differs() -> None:
    answer = tried("sand wedge: bend 2 weak")
    assert {each.club for each in answer.differences if each.about in ("club", "delivery", "flight")} == {"sand wedge"}
    found = changes_of(answer, "sand wedge")
    assert found["loft"] == pytest.approx(2) and found["bounce"] == pytest.approx(2)
    # 2 to 3 yd of carry for each degree of a full wedge: common practice
    assert -8 < found["carry"] < -3


def test_today_is_left_as_it_was() -> None:
    answer = tried("sand wedge: bend 2 weak", "air: 50 degF")
    assert answer.before.flown.clubs == tried().before.flown.clubs
    assert answer.before.golf_set.clubs[3].bend == BAG.clubs[3].bend


def test_changes_compose_in_their_order() -> None:
    twice = changes_of(tried("SW: bend 1 weak", "SW: bend 1 weak"), "sand wedge")
    once = changes_of(tried("SW: bend 2 weak"), "sand wedge")
    assert twice == pytest.approx(once)
    both = tried("SW: bend 2 weak", "driver: ½ in shorter")
    assert changes_of(both, "sand wedge") == pytest.approx(once)
    assert changes_of(both, "driver") == pytest.approx(changes_of(tried("driver: ½ in shorter"), "driver"))


@settings(max_examples=8, deadline=None)
@given(st.floats(0.25, 3.0).map(lambda x: round(x, 2)))
def test_a_bend_and_its_reverse_leave_nothing(bend: float) -> None:
    assert changes_of(tried(f"7 iron: bend {bend} weak", f"7 iron: bend {bend} strong"), "7 iron") == {}


def test_a_shorter_driver_loses_speed_within_the_trials_band() -> None:
    answer = tried("driver: 1 in shorter")
    [speed] = [each.change for each in answer.differences if each.club == "driver" and each.figure == "club_speed"]
    # 0.7 mph of head speed an inch (Kenny, Wallace & Otto 2008), 1 mph by rule of thumb (common practice)
    assert speed is not None and speed.low is not None and speed.high is not None
    assert speed.low < -1.0 < speed.high and speed.low < -0.75 < speed.high < 0


def test_a_change_near_nothing_is_not_called_exact() -> None:
    small = [each for each in tried("7 iron: bend 0.2 weak").differences if each.about in ("delivery", "flight")]
    assert small
    floors = {"carry": 0.5, "width": 0.5, "depth": 0.5, "spin": 30, "ball_speed": 0.2}
    for each in small:
        assert each.change is not None
        least = floors.get(each.figure, 0.1)
        assert each.change.half_width >= least - 1e-9, each.figure
        assert each.change.half_width >= 0.25 * abs(each.change.number) - 1e-9


def test_mass_moved_to_the_heel_moves_the_centre_there() -> None:
    found = changes_of(tried("driver: 8 g toe to heel"), "driver")
    assert found["cg_toeward"] < 0 and set(found) == {"cg_toeward"}


def test_clubs_leave_and_come() -> None:
    told = [each.sentence for each in tried("5 wood out", "add: 4 hybrid 22°").differences if each.about == "club"]
    assert any("5 wood leaves" in (text or "") for text in told)
    assert any("4 hybrid comes into" in (text or "") for text in told)


def test_findings_that_come_and_go_are_told() -> None:
    answer = tried("driver: length 48.5")
    told = {each.figure: each.sentence for each in answer.differences if each.about == "finding"}
    assert (told["rule-length"] or "").startswith("New:")
    assert {finding.code for finding in answer.after.findings} >= {"rule-length"}


def test_another_ball_is_told_and_what_it_does_left_open() -> None:
    [told] = tried("ball: Velloran Gale").differences
    assert told.figure == "ball" and "Velloran Gale" in (told.sentence or "")


def test_the_air_of_the_what_if_leaves_today_alone() -> None:
    answer = tried("air: 95 degF", "altitude: 5000 ft", "wind: 10 mph from the left")
    assert answer.before.flown.place.conditions.temperature.number == 70  # type: ignore[union-attr]
    assert answer.after.flown.place.weather.wind_across > 0
    assert changes_of(answer, "7 iron")["carry"] > 5
    assert changes_of(answer, "7 iron")["side"] > 5


def test_a_left_handers_what_if_is_the_mirror() -> None:
    left = Player(hand="left", driver_speed=PLAYER.driver_speed, handicap=PLAYER.handicap)
    changes = read_changes(["7 iron: 2 upright"], BAG)
    one, two = (
        next(each.change for each in what_if(BAG, changes, player=who, shots=50).differences if each.figure == "side")
        for who in (PLAYER, left)
    )
    assert one is not None and two is not None
    assert one.number < 0 and two.number == pytest.approx(-one.number)


def test_strokes_are_fewer_where_a_hole_is_filled() -> None:
    bag = GolfSet(clubs=tuple(club for club in BAG.clubs if club.club != "7 iron"), ball=BAG.ball)
    changes = read_changes(["add: 7 iron 32°"], bag)
    answer = what_if(bag, changes, player=PLAYER, shots=400)
    assert answer.before.strokes is not None and answer.after.strokes is not None
    assert answer.after.strokes.number < answer.before.strokes.number


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("wind: 10 mph", "where the wind goes"),
        ("wind: 10 head", "has no unit"),
        ("air: 95", "has no unit"),
        ("air: 5000 ft", "is no temperature"),
        ("air: 900 degF", "cannot be"),
        ("ground: muddy", "soft, normal or firm"),
        ("driver: bend 1 weak", "not bent at all"),
        ("5 iron: bend 1 weak", "no '5 iron'"),
        ("foo", "does not say of which club"),
        ("driver, 5 wood, 7 iron, sand wedge, putter: drop", "no club in the set"),
    ],
)
def test_what_cannot_be_tried_is_refused_with_its_reason(text: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        tried(text)


def test_a_bend_that_no_order_takes_is_said_before_anything_else() -> None:
    answer = tried("7 iron: bend 9 weak")
    first = answer.differences[0]
    assert first.club == "7 iron" and (first.sentence or "").startswith(
        "No order takes this. 7 iron: a bend of 9° weak"
    )
    assert not any("No order" in (each.sentence or "") for each in tried("7 iron: bend 0.5 weak").differences)


def test_a_sleeve_turned_without_a_chart_is_told() -> None:
    [told] = [each for each in tried("driver: sleeve P6").differences if each.sentence]
    assert told.figure == "sleeve" and "no chart entered says" in (told.sentence or "")


def test_what_the_catalogue_says_of_a_new_part_is_told() -> None:
    part = Part(
        part="shaft", maker="Brunholt", model="Level 120", flex="S", figures={"mass": figure(121, "g", "published")}
    )
    changes = read_changes(["7 iron: shaft Level 120 S"], BAG, [part])
    answer = what_if(BAG, changes, parts=[part], player=PLAYER, shots=50)
    assert answer.changed.clubs[2].shaft.maker == "Brunholt"
    assert changes_of(answer, "7 iron")["mass"] > 5
    unknown = what_if(BAG, read_changes(["7 iron: shaft Nowhere 90"], BAG), parts=[part], player=PLAYER, shots=50)
    assert any(each.figure == "shaft" and each.sentence for each in unknown.differences)
