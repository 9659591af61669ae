"""`keep`: the list, the history, the way back, and one set written out."""

from __future__ import annotations

import json
from pathlib import Path

import msgspec

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
