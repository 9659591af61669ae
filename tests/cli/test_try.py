"""`try`: a what-if in words and as JSON; what is kept, and that nothing else is. `judge` in the player's hands."""

from __future__ import annotations

import json
import re
from pathlib import Path

from asplayed.keeping import read_set, set_history

from .conftest import Run


def test_a_what_if_answers_before_after_and_differences(run: Run, stored: str) -> None:
    tried = run("try", stored, "sand wedge: bend 2 weak", "--speed", "100mph", "--json")
    assert (tried.code, tried.err) == (0, "")
    answer = json.loads(tried.out)
    assert set(answer) == {"before", "after", "differences"}
    [before, after] = (
        next(club for club in answer[side]["clubs"] if club["club"] == "sand wedge") for side in ("before", "after")
    )
    assert after["as_played"]["loft"]["value"] == before["as_played"]["loft"]["value"] + 2
    assert after["flight"]["carry"]["value"] < before["flight"]["carry"]["value"]
    [loft] = [each for each in answer["differences"] if each["figure"] == "loft"]
    assert (loft["about"], loft["club"], loft["change"]["value"], loft["change"]["unit"]) == (
        "club", "sand wedge", 2, "deg",
    )  # fmt: skip
    assert answer["before"]["strokes"]["unit"] == "strokes"


def test_nothing_is_stored_unless_asked(run: Run, stored: str, tmp_path: Path) -> None:
    before = (tmp_path / "store.db").read_bytes()
    assert run("try", stored, "driver: ½ in shorter", "air: 50 degF").code == 0
    assert (tmp_path / "store.db").read_bytes() == before


def test_what_is_kept_is_the_next_version_with_its_reason(run: Run, stored: str, tmp_path: Path) -> None:
    kept = run("try", stored, "sand wedge: bend 1 weak", "air: 50 degF", "--keep", "--json")
    assert kept.code == 0
    assert json.loads(kept.out)["stored"] == {"name": "ada", "version": 2, "new": True}
    place = tmp_path / "store.db"
    now = read_set("ada", place)
    [wedge] = [club for club in now.golf_set.clubs if club.club == "sand wedge"]
    assert wedge.bend.loft is not None and wedge.bend.loft.value == 2
    assert now.original == b"Ada Brandt\r\nSW 54\xb0"
    newest = set_history("ada", place)[0]
    assert (newest.what, newest.why) == ("try", "sand wedge: bend 1 weak")
    told = json.loads(run("show", "ada", "--json").out)
    assert [c["as_played"]["loft"]["value"] for c in told["clubs"] if c["club"] == "sand wedge"] == [56]


def test_the_words_tell_what_changes_and_what_was_assumed(run: Run, stored: str) -> None:
    told = run("try", stored, "driver: ½ in shorter", "ball: Velloran Gale").out
    for words in ("swing weight", "club speed", "The ball becomes Velloran Gale", "Assumed: driver speed not said"):
        assert words in told


def test_options_of_the_air_hold_for_the_what_if(run: Run, stored: str) -> None:
    told = json.loads(run("try", stored, "--temperature", "40degF", "--json").out)
    assert told["before"]["air"]["temperature"]["value"] == 70
    assert told["after"]["air"]["temperature"]["value"] == 40
    carries = [each for each in told["differences"] if each["figure"] == "carry"]
    assert carries and all(each["change"]["value"] < 0 for each in carries)


def test_bad_changes_are_named(run: Run, stored: str, tmp_path: Path) -> None:
    for argv, words in (
        ([stored], "nothing is to be tried"),
        ([stored, "4 iron: bend 1 weak"], "no '4 iron' in this set"),
        ([stored, "driver: bend 1 weak"], "turn its sleeve instead"),
        ([stored, "air: 95"], "has no unit"),
        ([stored, "air: 50 degF", "--keep"], "leave --keep out"),
        ([stored, "driver: dance", "wedge: 3"], "cannot be read"),
        (["nobody", "driver: ½ in shorter"], "nobody"),
    ):
        refused = run("try", *argv)
        assert refused.code == 2 and refused.out == ""
        assert words in refused.err and len(refused.err.encode()) <= 2000
    (tmp_path / "list.txt").write_text("driver 10.5\n7 iron\n")
    refused = run("try", str(tmp_path / "list.txt"), "driver: ½ in shorter", "--keep")
    assert refused.code == 2 and "asplayed take" in refused.err


def test_a_speed_brings_findings_about_flight(run: Run, stored: str) -> None:
    plain, flown = (
        {each["code"] for each in json.loads(run("judge", stored, *more, "--json").out)["findings"]}
        for more in ((), ("--speed", "100mph"))
    )
    assert "carry-hole" not in plain and "carry-hole" in flown
    assert plain <= flown


def test_imported_shots_are_judged(run: Run, stored: str, tmp_path: Path) -> None:
    rows = ["club,carry [yd]"]
    rows += [f"{name},{carry + off / 10}" for name, carry in (("SW", 80), ("LW", 79)) for off in range(-9, 10, 2)]
    (tmp_path / "shots.csv").write_text("\n".join(rows) + "\n")
    assert run("shots", "import", str(tmp_path / "shots.csv"), "--set", stored).code == 0
    found = json.loads(run("judge", stored, "--json").out)["findings"]
    [overlap] = [each for each in found if each["code"] == "carry-overlap"]
    assert overlap["clubs"] == ["sand wedge", "lob wedge"] and overlap["level"] == "flaw"
    assert 0 < overlap["figures"]["swap_probability"]["value"] < 100


def test_local_rules_and_exceptions_are_asked_for(run: Run, tmp_path: Path) -> None:
    (tmp_path / "long.txt").write_text("driver 10.5° 46.5 in\n7 iron\nputter\n")

    def judged(*more: str) -> set[tuple[str, str]]:
        findings = json.loads(run("judge", str(tmp_path / "long.txt"), *more, "--json").out)["findings"]
        return {(each["code"], each["level"]) for each in findings}

    assert ("local-rule-length", "note") in judged()
    assert ("rule-length", "breach") in judged("--local-rule", "G-10")
    assert run("judge", str(tmp_path / "long.txt"), "--local-rule", "Z-1").code == 2


def test_air_that_was_given_is_not_called_assumed(run: Run, stored: str) -> None:
    told = run("try", stored, "altitude: 5280 ft", "--speed", "100mph").out
    assert "Assumed: altitude" not in told
    assert "Assumed of today alone: altitude 0 ft" in told
    rows = [line for line in told.splitlines() if "carry" in line]
    assert rows and not any(re.search(r"\.\d+ yd +\d", row) for row in rows)
