"""A session's table: good rows become SI columns, bad rows are named by line and column."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.catalogue.tables import read_table
from asplayed.clubs import Club, Head
from asplayed.errors import BadInput, Refused
from asplayed.players.shots import ImportedShots, shot_columns, shots_of
from asplayed.quantities import figure

BAG = (
    Club(club="driver", kind="driver"),
    Club(club="7 iron", kind="iron"),
    Club(club="sand wedge", kind="wedge", head=Head(loft=figure(54, "deg", "stated"))),
    Club(club="sand wedge", kind="wedge", head=Head(loft=figure(58, "deg", "stated"))),
)


def read(text: str, **options: object) -> ImportedShots:
    return shots_of(read_table(text.encode(), "s.csv"), BAG, **options)  # type: ignore[arg-type]


def refused(text: str) -> str:
    with pytest.raises(Refused) as fault:
        read(text)
    return str(fault.value)


def test_units_come_off_and_columns_stand_in_any_order() -> None:
    found = read("Spin;carry (yd);club;ball speed [km/h]\n6700;150,5;7i;180\n2700;;D;240\n").shots
    assert found.clubs[found.club[0]] == "7 iron" and found.row.tolist() == [2, 3]
    assert found.columns["carry"][0] == pytest.approx(150.5 * 0.9144)
    assert np.isnan(found.columns["carry"][1])
    assert found.columns["ball speed"][0] == pytest.approx(50.0)
    assert found.columns["spin"][0] == pytest.approx(6700 * np.pi / 30)


def test_units_may_stand_in_a_second_row_and_angles_need_none() -> None:
    found = read("club,carry,launch\n,m,\n7i,140,16.5\n")
    assert found.shots.columns["carry"][0] == 140.0
    assert found.shots.columns["launch"][0] == pytest.approx(np.radians(16.5))
    assert "launch" in found.remarks[0] and "deg" in found.remarks[0]


def test_a_distance_or_speed_without_a_unit_is_refused() -> None:
    said = refused("club,carry,ball speed\n7i,150,110\n")
    assert "carry [yd]" in said and "ball speed [mph]" in said


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ("9i,140,100", ["line 2", "club", "'9i'", "7 iron"]),
        ("sw,100,80", ["line 2", "sand wedge 54°", "sand wedge 58°"]),
        (",140,100", ["line 2", "club", "empty"]),
        ("7i,1400,110", ["line 2", "carry", "420 yd"]),
        ("7i,-5,110", ["line 2", "carry"]),
        ("7i,150 m,110", ["line 2", "carry", "in m", "in yd"]),
        ("7i,far,110", ["line 2", "carry", "'far'"]),
        ("7i,1e99,110", ["line 2", "carry"]),
        ("7i,inf,110", ["line 2", "carry"]),
        ("7i,250,40", ["line 2", "carry", "ball speed"]),
        ("7i,,", ["line 2", "no figure"]),
        ("7i,150,110,9", ["line 2", "4 cells", "3 columns"]),
        ("7i,150.1,110.4\nD,240,150\n7i,150.1,110.4", ["line 4", "line 2"]),
    ],
)
def test_a_bad_row_is_named(rows: str, words: list[str]) -> None:
    said = refused(f"club,carry [yd],ball speed [mph]\n{rows}\n")
    assert all(word in said for word in words), said
    assert "--keep-good-rows" in said


def test_two_whole_numbers_alike_are_two_shots() -> None:
    assert len(read("club,carry [yd],side [yd]\n7i,150,3\n7i,150,3\n").shots.row) == 2


def test_mixed_units_within_a_column_are_told_from_a_mishit() -> None:
    table = "club,ball speed [mph]\n" + "".join(f"7i,{speed}\n" for speed in (110, 111, 109, 112, 110, 49.2, 85, 177))
    said = refused(table)
    assert "line 7" in said and "m/s" in said and "line 9" in said and "km/h" in said
    assert "line 8" not in said


def test_a_ball_faster_than_its_club_can_send_it_is_refused() -> None:
    assert "ball speed" in refused("club,club speed [mph],ball speed [mph]\nD,100,175\n")


def test_a_total_far_short_of_its_carry_is_refused_and_spin_back_is_not() -> None:
    assert "total" in refused("club,carry [yd],total [yd]\n7i,160,60\n")
    assert len(read("club,carry [yd],total [yd]\n58,80,72\n").shots.row) == 1


def test_good_rows_are_kept_when_asked_for() -> None:
    found = read("club,carry [yd]\n7i,150\n7i,nope\n5i,170\n", keep_good_rows=True)
    assert found.shots.row.tolist() == [2] and found.faulty_rows == 2 and len(found.faults) == 2


def test_a_table_without_a_good_row_is_refused_even_then() -> None:
    with pytest.raises(Refused, match="no row"):
        read("club,carry [yd]\n7i,nope\n", keep_good_rows=True)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("carry [yd]\n150\n", "no column 'club'"),
        ("club,mood\n7i,good\n", "no figures"),
        ("club,carry [yd]\n", "no rows"),
        ("club,carry [deg]\n7i,150\n", "not a unit of carry"),
    ],
)
def test_a_table_of_something_else_is_refused(text: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read(text)


def test_columns_named_otherwise_are_mapped_and_unknown_ones_kept() -> None:
    found = read("Bat,How far [m],mood\n7i,140,fine\n", column_map={"Bat": "club", "How far": "carry"})
    assert found.shots.columns["carry"][0] == 140.0
    assert found.notes == ((2, "mood", "fine"),)


def test_a_column_map_says_the_unit_where_the_table_does_not() -> None:
    found = read("club,Ball V,Carry (yds)\n7i,110,150\n", column_map={"Ball V": "ball speed [mph]", "Carry": "carry"})
    assert found.shots.columns["ball speed"][0] == pytest.approx(110 * 0.44704)
    assert found.shots.columns["carry"][0] == pytest.approx(150 * 0.9144)


def test_every_column_of_a_struck_shot_is_read() -> None:
    names = list(shot_columns())[1:]
    header = ",".join(f"{name} [{shot_columns()[name].units[0]}]" for name in names)
    middle = ",".join(f"{np.mean(shot_columns()[name].possible):g}" for name in names)
    found = read(f"club,{header}\nD,{middle}\n").shots
    assert list(found.columns) == names and all(np.isfinite(column).all() for column in found.columns.values())
    assert set(names) == {
        *("club speed", "ball speed", "attack", "path", "face", "dynamic loft", "launch", "launch direction", "spin"),
        *("spin axis", "strike toe", "strike high", "carry", "side", "apex", "descent", "total", "time"),
    }


CELLS = st.one_of(
    st.sampled_from(
        ["7i", "D", "54", "sw", "150", "150,5", "-3", "1e5", "nan", "inf", "", " ", "150 yd", "44 3/4", "½"]
    ),
    st.text(max_size=8),
    st.floats(allow_nan=True, allow_infinity=True).map(str),
)
HEADERS = st.lists(
    st.sampled_from(
        ["club", "carry [yd]", "side [m]", "ball speed [mph]", "spin", "launch [deg]", "carry", "total [ft]", "x"]
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=150, deadline=None)
@given(HEADERS, st.lists(st.lists(CELLS, max_size=7), max_size=8), st.booleans())
def test_any_table_is_read_or_refused_with_a_sentence(header: list[str], rows: list[list[str]], keep: bool) -> None:
    def quoted(cell: str) -> str:
        return '"' + cell.replace('"', '""') + '"'

    text = "\n".join([",".join(header), *(",".join(map(quoted, row)) for row in rows)])
    try:
        found = read(text, keep_good_rows=keep)
    except BadInput as fault:
        assert str(fault) and "Traceback" not in str(fault)
        return
    assert len(found.shots.row) == len(found.shots.club) > 0
    assert all(len(column) == len(found.shots.row) for column in found.shots.columns.values())
    assert (found.shots.club >= 0).all()
    assert keep or not found.faults
