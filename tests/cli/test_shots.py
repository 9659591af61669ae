"""`asplayed shots` and `asplayed fly`, as a user meets them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

LIST = "driver 10.5\n5 iron\n7 iron\nSW 54.10\nputter\nhandicap 9\n"
HEAD = "club,carry [yd],side [yd],ball speed [mph]\n"
SEVENS = "".join(
    f"7i,{carry},{side},{108 + place / 10}\n"
    for place, (carry, side) in enumerate([(151, 2), (148, -3), (153, 4), (150, 0), (149, 1), (152, -1), (118, -15)])
)


@pytest.fixture
def stored(run, tmp_path: Path):
    """A runner whose store holds one set, `jonas`."""
    (tmp_path / "jonas.txt").write_text(LIST, encoding="utf-8")
    assert run("take", str(tmp_path / "jonas.txt"), "--as", "jonas").code == 0
    return run


@pytest.fixture
def table(tmp_path: Path):
    """Writes a table and answers its path."""

    def written(text: str, name: str = "session.csv") -> str:
        (tmp_path / name).write_text(text, encoding="utf-8")
        return str(tmp_path / name)

    return written


def test_a_session_is_taken_shown_and_flown(stored, table) -> None:
    taken = stored("shots", "import", table(HEAD + SEVENS), "--set", "jonas", "--temperature", "50degF", "--json")
    assert taken.code == 0
    told = json.loads(taken.out)
    assert told["shots"] == 7 and told["clubs"] == {"7 iron": 7} and told["new"]

    shown = json.loads(stored("shots", "show", "jonas", "--json").out)
    [iron] = shown["clubs"]
    assert (iron["club"], iron["shots"], iron["flagged"]) == ("7 iron", 7, 1)
    assert iron["carry"]["value"] == pytest.approx(150.5) and iron["carry"]["source"] == "measured"
    assert [shot["row"] for shot in shown["shots"] if shot["flagged"]] == [8]
    assert "carry" in shown["shots"][6]["why"] and shown["shots"][0]["why"] is None

    flown = json.loads(stored("fly", "jonas", "--json").out)
    clubs = {each["club"]: each for each in flown["clubs"]}
    assert list(clubs) == ["driver", "5 iron", "7 iron", "sand wedge"]
    for each in clubs.values():
        for name, unit in (("carry", "yd"), ("total", "yd"), ("apex", "ft"), ("descent", "deg"), ("depth", "yd")):
            assert each[name]["unit"] == unit and isinstance(each[name]["value"], float)
    assert clubs["7 iron"]["carry"]["value"] == pytest.approx(150.5)
    assert clubs["7 iron"]["flagged"] == 1 and clubs["5 iron"]["shots"] == 0
    assert flown["air"]["temperature"]["value"] == 50
    assert flown["player"]["handicap"]["value"] == 9


def test_the_same_file_again_changes_nothing(stored, table) -> None:
    file = table(HEAD + SEVENS)
    stored("shots", "import", file, "--set", "jonas")
    again = stored("shots", "import", file, "--set", "jonas")
    assert again.code == 0 and "nothing was changed" in again.out
    assert len(json.loads(stored("shots", "show", "jonas", "--json").out)["shots"]) == 7


def test_a_bad_row_refuses_the_table_unless_good_rows_are_kept(stored, table) -> None:
    file = table(HEAD + SEVENS + "9i,130,0,100\n7i,900,0,100\n")
    refused = stored("shots", "import", file, "--set", "jonas")
    assert refused.code == 2 and "line 9" in refused.err and "line 10" in refused.err
    assert len(refused.err.encode()) <= 2000
    assert stored("shots", "show", "jonas").code == 2
    kept = stored("shots", "import", file, "--set", "jonas", "--keep-good-rows")
    assert kept.code == 0 and "Left out: line 9" in kept.out and "7 shots" in kept.out


def test_columns_are_mapped_once_and_remembered(stored, table) -> None:
    file = table("Bat,Dist [m]\n7i,138\n7i,137\n")
    assert stored("shots", "import", file, "--set", "jonas").code == 2
    columns = table('{"Bat": "club", "Dist": "carry"}', "map.json")
    assert stored("shots", "import", file, "--set", "jonas", "--columns", columns).code == 0
    other = table("Bat,Dist [m]\n7i,139\nD,225\n", "other.csv")
    assert stored("shots", "import", other, "--set", "jonas").code == 0


def test_shots_may_come_by_standard_input_and_need_a_stored_set(stored, table) -> None:
    assert stored("shots", "import", "-", "--set", "jonas", given=(HEAD + SEVENS).encode()).code == 0
    missing = stored("shots", "import", table(HEAD + SEVENS), "--set", "nobody")
    assert missing.code == 2 and "nobody" in missing.err
    by_file = stored("shots", "import", table(HEAD + SEVENS), "--set", table(LIST, "list.txt"))
    assert by_file.code == 2 and "asplayed take" in by_file.err


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--temperature", "50"), "--temperature '50' has no unit"),
        (("--temperature", "hot"), "'hot'"),
        (("--altitude", "90000ft"), "altitude"),
        (("--wind-along", "5degC"), "wind along"),
        (("--speed", "500mph"), "driver speed"),
        (("--handicap", "many"), "'many'"),
    ],
)
def test_what_no_air_or_player_can_have_is_one_sentence(stored, options, words: str) -> None:
    found = stored("fly", "jonas", *options)
    assert found.code == 2 and words in found.err and found.err.count("\n") == 1 and not found.out


def test_what_is_said_below_a_flight_keeps_to_the_terminal(stored, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    told = stored("fly", "jonas").out
    assert "one standard deviation of" in " ".join(told.split())
    assert max(map(len, told.splitlines())) <= 80


def test_a_file_flies_with_a_table_beside_it(run, table) -> None:
    flown = run("fly", table(LIST, "list.txt"), "--shots", table(HEAD + SEVENS), "--wind-across", "10mph", "--json")
    clubs = {each["club"]: each for each in json.loads(flown.out)["clubs"]}
    assert clubs["7 iron"]["shots"] == 7 and clubs["driver"]["side"]["value"] > 5


def test_the_speed_given_goes_before_the_list(run, table) -> None:
    file = table(LIST, "list.txt")
    slow, fast = (json.loads(run("fly", file, "--speed", speed, "--json").out) for speed in ("80mph", "110mph"))
    assert fast["clubs"][0]["carry"]["value"] > slow["clubs"][0]["carry"]["value"] + 50


def test_a_set_is_shown_as_a_table_with_what_was_assumed(run, table) -> None:
    shown = run("fly", table("driver\n60 wedge\n", "list.txt"))
    assert shown.code == 0
    assert "driver" in shown.out and "three-quarter" in shown.out and "Assumed: temperature" in shown.out


def test_a_set_without_a_club_to_fly_is_refused(run, table) -> None:
    found = run("fly", table("putter\n", "list.txt"))
    assert found.code == 2 and "putter" in found.err


def test_the_player_is_kept_and_flown(stored) -> None:
    told = stored("shots", "player", "jonas", "--speed", "112mph", "--limits", "left knee", "--altitude", "5000ft")
    assert told.code == 0 and "left knee" in told.out and "licensed practitioner" in told.out
    kept = json.loads(stored("shots", "player", "jonas", "--json").out)
    assert kept["driver_speed"]["value"] == 112 and kept["handicap"]["value"] == 9
    flown = json.loads(stored("fly", "jonas", "--json").out)
    assert flown["player"]["driver_speed"]["value"] == 112 and flown["air"]["altitude"]["value"] == 5000


def test_a_session_taken_by_mistake_is_hidden(stored, table) -> None:
    stored("shots", "import", table(HEAD + SEVENS), "--set", "jonas")
    assert "Session 1: session.csv, 7 shots" in stored("shots", "show", "jonas").out
    assert stored("shots", "hide", "jonas", "2").code == 2
    assert stored("shots", "hide", "jonas", "1").code == 0
    assert stored("shots", "show", "jonas").code == 2


def test_the_usual_delivery_is_kept_and_flown(stored) -> None:
    assert stored("shots", "player", "jonas", "--usual", "iron.path=4deg", "--usual", "iron.face=0deg").code == 0
    clubs = {each["club"]: each for each in json.loads(stored("fly", "jonas", "--json").out)["clubs"]}
    assert clubs["7 iron"]["side"]["value"] < -3 < clubs["driver"]["side"]["value"]
