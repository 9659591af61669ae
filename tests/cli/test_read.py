"""`read`: a list as a table, as strict JSON, with answers; what is no list ends in one sentence and exit 2."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from asplayed.clubs import GolfSet
from asplayed.intake import read
from asplayed.quantities import plain

from .conftest import Run

WORDS = "driver Kittiwake 10.5, sleeve B3, Lindrake 65 TX, 44¾, tipped 1 inch\nspare putter Avocet\nlovely weather\n"


def test_the_json_is_the_set_that_was_read(run: Run, tmp_path: Path) -> None:
    (tmp_path / "list.txt").write_text(WORDS, encoding="utf-8")
    shown = run("read", str(tmp_path / "list.txt"), "--json")
    assert (shown.code, shown.err) == (0, "")
    assert json.loads(shown.out) == plain(read(WORDS))


def test_standard_input_and_a_file_read_alike(run: Run, tmp_path: Path) -> None:
    (tmp_path / "list.txt").write_text(WORDS, encoding="utf-8")
    assert run("read", "-", given=WORDS.encode()).out == run("read", str(tmp_path / "list.txt")).out


def test_the_table_shows_clubs_asides_notes_questions_and_what_was_not_understood(run: Run) -> None:
    out = run("read", "-", given=WORDS.encode()).out
    for words in ("Kittiwake", "44¾ in", "B3", "Not in the set", "spare putter Avocet", "tipped 1 inch", "which chart"):
        assert words in out
    assert "lovely weather" in out.split("Not understood")[1]


def test_answers_come_from_the_command_line_and_from_a_file(run: Run, tmp_path: Path) -> None:
    answers = tmp_path / "answers.txt"
    answers.write_text("# the chart says\ndriver.sleeve.loft_change=-0.75\n", encoding="utf-8")
    ways = (("--answer", "driver.sleeve.loft_change=-0.75"), ("--answers", str(answers)))
    for way in ways:
        golf_set = json.loads(run("read", "-", "--json", *way, given=WORDS.encode()).out)
        assert golf_set["clubs"][0]["as_played"]["loft"]["value"] == pytest.approx(9.75)
        assert golf_set["questions"] == []


@pytest.mark.parametrize(
    "given",
    [
        b"",
        b" \n\n",
        bytes(range(256)) * 200,
        b"\x89PNG\r\n\x1a\n" + b"\0" * 4000,
        b"Ceci est une liste de courses : du pain, du beurre.\n",
        ("قائمة المشتريات\n" * 30).encode(),
        b"driver loft 400\n",
        b"putter 5 metres\n",
        b"\x1b[31m\x07\x08 nothing here\n",
        b"x" * 10_000_000,
        b"driver 9\n" + b"noise and more noise, " * 500_000,
    ],
)
def test_what_is_no_list_ends_in_a_sentence_and_exit_2(run: Run, given: bytes) -> None:
    ran = run("read", "-", given=given)
    assert ran.code == 2
    assert ran.out == ""
    assert ran.err.startswith("asplayed: ")
    assert len(ran.err.encode()) <= 2000


def test_more_than_the_largest_size_is_refused(run: Run) -> None:
    ran = run("read", "-", "--max-size", "1", given=b"driver 9\n" * 200_000)
    assert ran.code == 2
    assert "--max-size" in ran.err


def test_what_read_answers_is_a_set_again(run: Run) -> None:
    import msgspec

    shown = run("read", "-", "--json", given=WORDS.encode())
    assert msgspec.json.decode(shown.out, type=GolfSet).clubs[0].club == "driver"


def test_a_list_without_a_club_shows_its_questions(run: Run) -> None:
    shown = run("read", "-", given=b"The hybrids are nice.\n")
    assert (shown.code, shown.err) == (0, "")
    assert "which hybrids are in the set?" in " ".join(shown.out.split())
