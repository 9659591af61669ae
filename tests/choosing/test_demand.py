"""What a round asks for: courses read with all their faults at once, weights that add up, and a player's own rounds."""

from __future__ import annotations

from pathlib import Path

import pytest

from asplayed.choosing.demand import (
    course_named,
    course_names,
    course_of,
    default_demand,
    demand_from_rounds,
    demand_of,
    read_course,
)
from asplayed.choosing.ground import YARD
from asplayed.errors import BadInput, Refused


@pytest.mark.parametrize("name", course_names())
@pytest.mark.parametrize("reach", [150.0, 230.0, 280.0])
def test_a_round_drives_every_hole_once_and_its_weights_add_up(name: str, reach: float) -> None:
    course = course_named(name)
    asked = demand_of(course, reach, 8.0)
    assert len(course.holes) == 18
    assert sum(each.weight for each in asked if each.lie == "tee") == pytest.approx(18)
    assert all(each.weight > 0 and each.distance > 0 for each in asked)
    # a shorter player plays more shots before he is on the green
    assert sum(each.weight for each in demand_of(course, 150.0, 8.0)) >= sum(each.weight for each in asked) - 1e-9


def test_a_better_player_meets_less_rough_and_fewer_short_shots() -> None:
    good, poor = (demand_of(course_named("usual"), 230.0, handicap) for handicap in (0.0, 25.0))

    def rough(asked: tuple[object, ...]) -> float:
        return sum(each.weight for each in asked if each.lie == "rough")  # type: ignore[attr-defined]

    assert rough(good) < rough(poor)


def test_the_usual_course_suits_the_player() -> None:
    long, short = (
        max(each.distance for each in default_demand(reach) if each.lie == "tee") for reach in (230.0, 170.0)
    )
    assert short < long


def test_a_hazard_is_measured_from_the_tee_and_counted_from_the_hole() -> None:
    water = next(hole for hole in course_named("Estow").holes if hole.ground.hazards).ground.hazards[0]
    assert (water.kind, round(water.start / YARD), round(water.end / YARD)) == ("water", 420 - 534, 445 - 534)


def test_all_faults_of_a_course_come_at_once() -> None:
    text = """
    titel = "Estow"
    firmness = "hard"
    [[wind]]
    blows = "8 mph"
    [[hole]]
    par = 6
    length = "400"
    [[hole]]
    par = 3
    length = "450 yd"
    [[hole.hazard]]
    kind = "lava"
    side = "left"
    from = "100 yd"
    until = "50 yd"
    """
    with pytest.raises(Refused) as caught:
        course_of(text, "mine.toml")
    said = str(caught.value)
    for words in ("did you mean title", "firmness 'hard'", "wind 1", "hole 1: par 6", "hole 1: length '400'",
                  "hole 2: length '450 yd' cannot be", "hole 2, hazard 1: kind 'lava'", "off is missing"):  # fmt: skip
        assert words in said


def test_what_is_no_course_is_one_sentence(tmp_path: Path) -> None:
    for content, words in (
        (b"title = ", "is not TOML"),
        (b"\xff\xfe\x00", "cannot be read"),
        (b"", "title is missing"),
    ):
        path = tmp_path / "course.toml"
        path.write_bytes(content)
        with pytest.raises(BadInput, match=words):
            read_course(path)
    with pytest.raises(BadInput, match="there is no file"):
        read_course(tmp_path / "none.toml")
    with pytest.raises(BadInput, match="did you mean Estow"):
        course_named("Estw")
    with pytest.raises(BadInput, match="60 to 400 m"):
        demand_of(course_named("Estow"), 500.0)


def test_own_rounds_count_shots_by_round() -> None:
    table = b"date;from;to the hole [m]\n1;tee;350\n1;bunker;30\n2;tee;350\n2;rough;100\n2;putt;3\n"
    own = demand_from_rounds(table)
    assert own.rounds == 2 and own.shots == 4
    assert {(each.lie, each.weight) for each in own.situations} == {("tee", 1.0), ("sand", 0.5), ("rough", 0.5)}
    assert all(abs(each.distance - away) < 3.0 for each, away in zip(own.situations, (350, 30, 100), strict=True))
    assert any("1 putts" in remark for remark in own.remarks)


def test_a_faulty_row_of_own_rounds_refuses_the_table() -> None:
    with pytest.raises(Refused, match="line 3"):
        demand_from_rounds(b"lie,distance [yd]\ntee,380\nlake,100\n")
    with pytest.raises(BadInput, match="no shot from off the green"):
        demand_from_rounds(b"lie,distance [yd]\ngreen,3\n")
