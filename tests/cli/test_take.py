"""`take`: a list becomes a stored set with its words, or nothing is stored at all."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from asplayed.errors import StoreUnusable
from asplayed.keeping import Store, list_sets, read_set, set_history
from asplayed.keeping.understanding import slug

from .conftest import Run

LIST = """Player: Halvard Strand
Date: 2025-10-14

Driver Kittiwake 10.5, 44¾
7 iron Gannet, 1° strong
54.10 Turnstone bent 1 weak
Putter Lapwing 34 in
"""


@pytest.fixture
def words(tmp_path: Path) -> Path:
    """A file with a list of four clubs."""
    place = tmp_path / "his clubs.txt"
    place.write_bytes(LIST.replace("\n", "\r\n").encode())
    return place


def test_a_list_is_stored_with_its_words(run: Run, words: Path, tmp_path: Path) -> None:
    taken = run("take", str(words))
    assert (taken.code, taken.err) == (0, "")
    for told in ("driver", "7 iron", "sand wedge", "putter", "bent 1° weak", "Stored as halvard-strand, version 1"):
        assert told in taken.out
    stored = read_set("halvard-strand", tmp_path / "store.db")
    assert stored.original == words.read_bytes()
    assert [club.club for club in stored.golf_set.clubs] == ["driver", "7 iron", "sand wedge", "putter"]
    shown = json.loads(run("show", "halvard-strand", "--json").out)
    assert shown["clubs"][2]["as_played"]["loft"]["value"] == 55


def test_the_same_list_again_changes_nothing_and_another_adds_a_version(run: Run, words: Path, tmp_path: Path) -> None:
    run("take", str(words), "--as", "his")
    assert "nothing has changed" in run("take", str(words), "--as", "his").out
    words.write_text(LIST.replace("1 weak", "2 weak"))
    again = run("take", str(words), "--as", "his", "--why", "second visit", "--json")
    stored = json.loads(again.out)["stored"]
    assert (stored["name"], stored["version"], stored["new"]) == ("his", 2, True)
    assert [entry.why for entry in set_history("his", tmp_path / "store.db")] == ["second visit", None]
    assert read_set("his", tmp_path / "store.db", 1).original.startswith(b"Player: Halvard Strand\r\n")


def test_a_list_comes_by_standard_input_and_a_stored_one_is_read_afresh(run: Run, tmp_path: Path) -> None:
    assert run("take", "-", "--as", "piped", given=LIST.encode()).code == 0
    assert run("take", "piped").out.count("nothing has changed") == 1
    assert run("take", "piped", "--as", "copy").code == 0
    assert read_set("copy", tmp_path / "store.db").original == LIST.encode()


def test_another_player_s_set_is_not_taken_for_the_same(run: Run, words: Path, tmp_path: Path) -> None:
    run("take", str(words), "--as", "ada-brandt")
    taken = run("take", "-", given=LIST.replace("Halvard Strand", "Ada Brandt").encode())
    assert (taken.code, taken.out) == (2, "")
    assert "stored already, for Halvard Strand" in taken.err
    assert [entry.version for entry in list_sets(tmp_path / "store.db")] == [1]


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (b"", "is empty"),
        (b" \r\n\t\n", "is empty"),
        (bytes(range(256)) * 40, "not text"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" * 9, "not text"),
        (b"The train to the coast leaves at noon tomorrow.\n" * 3, "club was found"),
        (b"Ich fahre morgen mit dem Zug nach Hause.\n" * 3, "seems to be in German"),
        (b'{"clubs": 3}', "not of a set"),
        (b'{"clubs": [', "cannot be read"),
        (b"{" * 100_000, "cannot be read"),
        (b'{"clubs": [{"club": "driver", "kind": "spoon"}]}', "not of a set"),
    ],
    ids=[
        "empty",
        "blank",
        "bytes",
        "picture",
        "no club",
        "German",
        "wrong JSON",
        "cut JSON",
        "deep JSON",
        "unknown kind",
    ],
)
def test_what_is_no_list_is_refused_and_nothing_is_stored(run: Run, tmp_path: Path, given: bytes, words: str) -> None:
    for argv in (("take", "-"), ("take", str(tmp_path / "given.txt"))):
        (tmp_path / "given.txt").write_bytes(given)
        taken = run(*argv, given=given)
        assert (taken.code, taken.out) == (2, "")
        assert words in taken.err
        assert taken.err.count("\n") == 1
    assert not (tmp_path / "store.db").exists()


def test_inputs_beyond_the_limit_are_refused(run: Run, tmp_path: Path) -> None:
    (tmp_path / "long.txt").write_bytes(b"7 iron\n" * 200_000)
    taken = run("take", str(tmp_path / "long.txt"), "--max-size", "1")
    assert (taken.code, taken.out) == (2, "")
    assert "larger than 1 MB" in taken.err


@pytest.mark.parametrize("name", ["a/b", "-", " ", "x" * 200])
def test_a_name_that_cannot_be_is_refused(run: Run, words: Path, tmp_path: Path, name: str) -> None:
    taken = run("take", str(words), f"--as={name}")
    assert (taken.code, taken.out) == (2, "")
    assert list_sets(tmp_path / "store.db") == ()


def test_a_store_that_fails_leaves_nothing_half_stored(
    run: Run, words: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("take", str(words), "--as", "before")

    def fail(*_: object, **__: object) -> None:
        raise StoreUnusable("the disk is full: nothing was stored")

    monkeypatch.setattr("asplayed.keeping.seasons.tell", fail)  # after the version was written, before the commit
    taken = run("take", str(words), "--as", "after")
    assert (taken.code, taken.out) == (3, "")
    monkeypatch.undo()
    with Store(tmp_path / "store.db").reading() as read:
        assert [row[0] for row in read("SELECT name FROM records")] == ["before"]
        assert read("SELECT COUNT(*) FROM actions")[0][0] == 1


def test_names_are_made_plain() -> None:
    assert slug("Mireille Okafor (left-hander)") == "mireille-okafor-left-hander"
    assert slug("Zoë’s Ravelin Cup, 2025/10") == "zoes-ravelin-cup-2025-10"
    assert slug("…") == ""


ASKED = "Driver Kittiwake 10.5, sleeve B3, 44¾\n7 iron Gannet\n"


def test_an_answer_about_a_part_is_asked_once(run: Run, tmp_path: Path) -> None:
    def left_open(shown: str) -> set[tuple[str, str]]:
        return {(question["club"], question["about"]) for question in json.loads(shown)["questions"]}

    question = ("driver", "sleeve.loft_change")
    assert question in left_open(run("take", "-", "--as", "first", "--json", given=ASKED.encode()).out)
    answered = run("take", "first", "--answer", "driver.sleeve.loft_change=-0.75", "--json").out
    assert question not in left_open(answered)
    other = "Priya Lindqvist\nDriver Kittiwake 9, sleeve B3\n"
    later = json.loads(run("take", "-", "--as", "later", "--json", given=other.encode()).out)
    assert question not in left_open(json.dumps(later))
    assert later["clubs"][0]["as_played"]["loft"]["value"] == 8.25
    assert "as answered before" in later["notes"][-1]["text"]
    elsewhere = run("take", "-", "--as", "else", "--json", given=other.replace("B3", "A1").encode()).out
    assert question in left_open(elsewhere)  # another position of the same sleeve


def test_an_answer_that_cannot_be_is_refused_and_not_remembered(run: Run, tmp_path: Path) -> None:
    for answer in ("driver.sleeve.loft_change=40", "spoon.sleeve.loft_change=1", "driver.colour=red"):
        taken = run("take", "-", "--as", "first", "--answer", answer, given=ASKED.encode())
        assert (taken.code, taken.out) == (2, "")
    assert not (tmp_path / "store.db").exists()
