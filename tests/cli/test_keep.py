"""`keep`: the list, the history, the way back, and one set written out."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import msgspec
import pytest

from asplayed.clubs import GolfSet

from .conftest import Run, ada


def test_an_empty_store_lists_nothing_and_is_not_made(run: Run, tmp_path: Path) -> None:
    assert json.loads(run("keep", "list", "--json").out) == {"sets": []}
    assert "Nothing is stored" in run("keep", "list").out
    assert list(tmp_path.iterdir()) == []


def test_the_list_and_the_history(run: Run, stored: str) -> None:
    listed = json.loads(run("keep", "list", "--json").out)
    assert listed == {"sets": [{"name": "ada", "player": "Ada Brandt", "date": "2025-10-20", "clubs": 5, "version": 1}]}
    assert "Ada Brandt" in run("keep", "list").out
    [version] = json.loads(run("keep", "history", stored, "--json").out)["versions"]
    assert (version["version"], version["who"], version["why"]) == (1, "tester", "first visit")
    assert "first visit" in run("keep", "history", stored).out


def test_undo_hides_a_set_before_its_first_version_and_its_history_stays(run: Run, stored: str) -> None:
    assert "out of use" in run("keep", "undo", stored, "--why", "not his").out
    shown = run("show", stored)
    assert (shown.code, shown.out) == (2, "")
    assert "out of use" in shown.err
    assert "not his" in run("keep", "history", stored).out
    assert run("keep", "undo", stored).code == 2


def test_show_writes_the_record_or_the_very_words(run: Run, stored: str) -> None:
    exported = run("keep", "show", stored)
    assert msgspec.json.decode(exported.out, type=GolfSet) == ada()
    assert run("keep", "show", stored, "--version", "3").code == 2


def test_a_missing_set_is_answered_with_the_nearest_name(run: Run, stored: str) -> None:
    for verb in (("show",), ("judge",), ("keep", "history"), ("keep", "show"), ("keep", "undo")):
        ran = run(*verb, "adda")
        assert (ran.code, ran.out) == (2, "")
        assert "did you mean ada" in ran.err


def test_a_store_that_cannot_be_used_is_exit_3(run: Run, tmp_path: Path) -> None:
    (tmp_path / "not.db").write_text("driver 10.5\n" * 50)
    for verb in (("show", "ada"), ("keep", "list"), ("keep", "undo", "ada"), ("judge", "ada")):
        ran = run(*verb, "--store", str(tmp_path / "not.db"))
        assert (ran.code, ran.out) == (3, "")
        assert "not an asplayed store" in ran.err
        assert ran.err.count("\n") == 1


def test_verify_says_what_was_looked_at_and_exits_3_on_a_fault(run: Run, stored: str, tmp_path: Path) -> None:
    ran = run("keep", "verify", "--json")
    told = json.loads(ran.out)
    assert (ran.code, told["ok"], told["faults"], told["checked"]["records"]) == (0, True, [], 1)
    assert "is whole" in run("keep", "verify").out
    with closing(sqlite3.connect(tmp_path / "store.db", isolation_level=None)) as connection:
        connection.execute("UPDATE actions SET why = 'another visit'")
    ran = run("keep", "verify", "--json")
    assert (ran.code, json.loads(ran.out)["ok"]) == (3, False)
    assert "why was altered" in run("keep", "verify").out
    assert run("keep", "verify", str(tmp_path / "none.db")).code == 2


def test_backup_verify_restore(run: Run, stored: str, tmp_path: Path) -> None:
    made = json.loads(run("keep", "backup", str(tmp_path / "safe"), "--keep", "3", "--json").out)["backup"]
    assert run("keep", "verify", made).code == 0
    run("keep", "undo", stored)
    ran = run("keep", "restore", made, str(tmp_path / "store.db"))
    assert (ran.code, "is kept as" in ran.out) == (0, True)
    assert run("show", stored).code == 0
    (tmp_path / "bad.db").write_bytes(Path(made).read_bytes()[:30_000])
    ran = run("keep", "restore", str(tmp_path / "bad.db"), str(tmp_path / "other.db"))
    assert (ran.code, (tmp_path / "other.db").exists()) == (3, False)


def test_export_and_import_make_the_same_store(run: Run, stored: str, tmp_path: Path) -> None:
    assert "1 actions" in run("keep", "export", str(tmp_path / "out")).out
    ran = run("keep", "import", str(tmp_path / "out"), "--store", str(tmp_path / "new.db"))
    assert "1 records in 1 versions" in ran.out
    assert run("keep", "show", stored, "--store", str(tmp_path / "new.db")).out == run("keep", "show", stored).out
    assert run("keep", "import", str(tmp_path), "--store", str(tmp_path / "third.db")).code == 2


def test_compare_redo_and_hide(run: Run, stored: str) -> None:
    assert "out of use" in run("keep", "hide", stored, "--why", "sold").out
    assert run("show", stored).code == 2
    assert json.loads(run("keep", "undo", stored, "--json").out) == {"name": "ada", "version": 3, "hidden": False}
    assert json.loads(run("keep", "redo", stored, "--json").out) == {"name": "ada", "version": 4, "hidden": True}
    assert run("keep", "redo", stored).code == 2
    assert "do not differ" in run("keep", "compare", "ada@1", "ada@3").out
    told = json.loads(run("keep", "compare", "ada@1", "ada@3", "--json").out)
    assert told == {"before": "ada@1", "after": "ada@3", "differences": []}


def test_a_comparison_is_one_table_with_the_field_beside_both_sides(
    run: Run, stored: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("take", "-", "--as", "other", given=("Driver Kittiwake " + "Gannet " * 30 + "10.5\nSW 56").encode())
    monkeypatch.setenv("COLUMNS", "100")
    lines = run("keep", "compare", "ada", "other").out.splitlines()
    [heading] = [line for line in lines if line.split()[:1] == ["club"]]
    assert heading.split() == ["club", "what", "ada", "other"]
    assert max(map(len, lines)) <= 100
    assert any("loft as played" in line or "loft as made" in line for line in lines)
    assert not any("head.loft" in line for line in lines)


def test_files_are_kept_with_a_set(run: Run, stored: str, tmp_path: Path) -> None:
    (tmp_path / "bag.pdf").write_bytes(b"%PDF-1.7")
    told = json.loads(run("keep", "attach", stored, str(tmp_path / "bag.pdf"), "--json").out)
    assert (told["file"], told["media"], told["new"]) == ("bag.pdf", "application/pdf", True)
    assert "bag.pdf" in run("keep", "attachments", stored).out
    assert run("keep", "fetch", stored, told["sha256"][:6], str(tmp_path / "back.pdf")).code == 0
    assert (tmp_path / "back.pdf").read_bytes() == b"%PDF-1.7"
    assert run("keep", "fetch", stored, told["sha256"][:6], str(tmp_path / "back.pdf")).code == 2


def test_erase_shows_first_and_does_it_only_when_it_is_meant(run: Run, stored: str, tmp_path: Path) -> None:
    assert "Nothing was erased" in run("keep", "erase", "Ada Brandt").out
    assert run("show", stored).code == 0
    run("keep", "backup")
    told = json.loads(run("keep", "erase", "Ada Brandt", "--really", "--json").out)
    assert told["records"] == [{"kind": "set", "name": "ada"}]
    assert len(told["backups"]) == 1
    assert run("show", stored).code == 2
    assert run("keep", "verify").code == 0
    assert run("keep", "erase", "Ada Brandt", "--really").code == 2


def test_a_season_is_asked_in_every_form(run: Run, stored: str) -> None:
    assert "placed 1st." in run("keep", "result", stored, "1").out
    assert "placed 3rd (tied)." in run("keep", "result", stored, "T3").out
    assert "placed 3rd (tied), as stored already." in run("keep", "result", stored, "t3").out
    assert "is whole" in run("keep", "verify").out
    assert run("keep", "result", stored, "cut").code == 2
    assert "placed 1st." in run("keep", "result", stored, "1").out
    told = json.loads(run("keep", "season", "model", "--kind", "driver", "--json").out)
    row = {"period": "2025", "kind": "driver", "value": "Kittiwake", "number": 1, "of": 1, "percent": 100.0}
    assert told == {"field": "model", "rows": [row]}
    assert run("keep", "season", "loft", "--kind", "driver", "--weeks", "--csv").out.splitlines()[1] == (
        "2025-W43,driver,9.5,1,1,100.0"
    )
    assert "Kittiwake" in run("keep", "season", "model", "--winners").out
    assert "2025-W43" in run("keep", "season", "model", "--seen").out
    assert run("keep", "season", "model", "--seen", "--weeks").code == 2
    assert json.loads(run("keep", "unchanged", "Ada Brandt", "--json").out)["rows"][0]["sets"] == 1
    assert json.loads(run("keep", "search", "kitti", "brandt", "--json").out)["rows"][0]["name"] == stored
    assert "Nothing stored answers this" in run("keep", "search", "nowhere").out
    ran = run("keep", "sql", "SELECT club, loft FROM clubs WHERE kind = 'driver'", "--json")
    assert json.loads(ran.out) == {"columns": ["club", "loft"], "rows": [{"club": "driver", "loft": 9.5}]}
    assert run("keep", "sql", "DELETE FROM clubs").code == 2


def test_the_shares_of_a_season_are_drawn_into_a_file_that_is_new(run: Run, stored: str, tmp_path: Path) -> None:
    for ending, beginning in (("svg", b"<svg"), ("png", b"\x89PNG")):
        file = tmp_path / f"shares.{ending}"
        ran = run("keep", "season", "model", "--picture", str(file), "--json")
        assert ran.code == 0 and json.loads(ran.out)["rows"]
        assert file.read_bytes().startswith(beginning)
        assert run("keep", "season", "model", "--picture", str(file)).code == 2  # there already
    assert "Turnstone" in (tmp_path / "shares.svg").read_text()
    for wrong in (["--picture", "x.pdf"], ["--picture", "x.svg", "--seen"], ["--kind", "hybrid", "--picture", "x.svg"]):
        ran = run("keep", "season", "model", *wrong)
        assert (ran.code, ran.out) == (2, "")
