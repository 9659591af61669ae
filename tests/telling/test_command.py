"""`asplayed tell`: a set goes in, a folder comes out."""

from __future__ import annotations

import json

import pytest
from msgspec.structs import replace

from asplayed.cli import main
from asplayed.keeping import open_store
from asplayed.keeping.results import save_result
from asplayed.quantities import plain


@pytest.fixture
def given(fourteen, tmp_path):
    path = tmp_path / "tessler.json"
    path.write_text(json.dumps(plain(fourteen)), encoding="utf-8")
    return path


def run(capsys, *words) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as end:
        main(["tell", *map(str, words)])
    out, err = capsys.readouterr()
    return end.value.code, out, err


def test_it_says_what_to_open(given, tmp_path, capsys):
    code, out, err = run(capsys, given, tmp_path / "out")
    assert (code, err) == (0, "")
    assert out.splitlines()[-1] == f"Open {tmp_path / 'out' / 'index.html'}"
    sheet = (tmp_path / "out" / "set-sheet.html").read_text(encoding="utf-8")
    assert "Tessler before the Ravelin Cup" in sheet
    assert "Worth knowing" in sheet


def test_json_is_the_manifest(given, tmp_path, capsys):
    code, out, _ = run(capsys, given, tmp_path / "out", "--json")
    assert code == 0
    assert json.loads(out) == json.loads((tmp_path / "out" / "manifest.json").read_text(encoding="utf-8"))


def test_a_missing_set_is_one_sentence_and_nothing_is_written(tmp_path, capsys):
    code, out, err = run(capsys, tmp_path / "nowhere.txt", tmp_path / "out")
    assert (code, out) == (2, "")
    assert err.startswith("asplayed: there is no file")
    assert not (tmp_path / "out").exists()


def test_a_file_in_place_of_the_folder_is_one_sentence(given, capsys):
    code, out, err = run(capsys, given, given)
    assert (code, out) == (2, "")
    assert "is a file, and the sheet needs a folder" in err


def test_everything_that_can_be_asked_for(given, one, tmp_path, capsys):
    earlier = tmp_path / "earlier.json"
    earlier.write_text(json.dumps(plain(one)), encoding="utf-8")
    style = tmp_path / "house.toml"
    style.write_text('name = "Estow Workshop"\nspelling = "american"\n', encoding="utf-8")
    talk = tmp_path / "talk.vtt"
    talk.write_text("WEBVTT\n\n00:01.000 --> 00:04.000\nthe driver is the kittiwake\n", encoding="utf-8")
    own = tmp_path / "own"
    own.mkdir()
    (own / "club-cards.typ").write_text("#data.house", encoding="utf-8")
    code, out, err = run(
        capsys, given, tmp_path / "out", "--before", earlier, "--style", style, "--spoken", talk, "--templates", own,
        "--paper", "letter", "--large-print", "--speed", "105mph",
    )  # fmt: skip
    assert (code, err) == (0, "")
    folder = tmp_path / "out"
    assert "heard word for word" in (folder / "misspoken.txt").read_text(encoding="utf-8")
    assert "is new." in (folder / "explanation.html").read_text(encoding="utf-8")
    assert (folder / "pictures" / "from-above.svg").is_file()
    assert "misspoken.txt" in out


@pytest.mark.parametrize(("option", "value", "words"), [
    ("--style", "nowhere.toml", "there is no house style"),
    ("--templates", "nowhere", "there is no folder nowhere"),
    ("--spoken", "nowhere.vtt", "the transcript nowhere.vtt cannot be read"),
    ("--before", "nowhere.txt", "there is no file nowhere.txt"),
    ("--speed", "fast", "fast"),
])  # fmt: skip
def test_what_is_missing_is_one_sentence_and_nothing_is_written(option, value, words, given, tmp_path, capsys):
    code, out, err = run(capsys, given, tmp_path / "out", option, value)
    assert (code, out) == (2, "")
    assert words in err
    assert err.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_several_sets_each_get_a_folder(given, one, tmp_path, capsys):
    other = tmp_path / "other.json"
    other.write_text(json.dumps(plain(one)), encoding="utf-8")
    code, out, _ = run(capsys, given, other, tmp_path / "out", "--only", "player-sheet.pdf")
    assert code == 0
    assert "2 of 2 sets told" in out
    for name in ("tessler", "other"):
        assert {path.name for path in (tmp_path / "out" / name).iterdir()} == {
            "index.html", "player-sheet.pdf", "manifest.json"
        }  # fmt: skip


def test_one_bad_set_of_several_is_named_and_the_rest_are_told(given, tmp_path, capsys):
    code, out, err = run(capsys, given, tmp_path / "nowhere.txt", tmp_path / "out", "--only", "summary.txt")
    assert code == 2
    assert "nowhere.txt: there is no file" in err
    assert "1 of 2 sets told" in out
    assert (tmp_path / "out" / "tessler" / "summary.txt").is_file()


def test_a_file_nobody_writes_cannot_be_asked_for(given, tmp_path, capsys):
    code, _, err = run(capsys, given, tmp_path / "out", "--only", "sheet.doc")
    assert code == 2
    assert "it can be set-sheet.html, player-sheet.pdf" in err


def test_templates_are_copied_to_be_changed(given, tmp_path, capsys):
    own = tmp_path / "own"
    code, out, _ = run(capsys, "--copy-templates", own)
    assert code == 0
    assert str(own / "player-sheet.typ") in out
    first, _, _ = run(capsys, given, tmp_path / "one", "--only", "player-sheet.pdf")
    second, _, _ = run(capsys, given, tmp_path / "two", "--only", "player-sheet.pdf", "--templates", own)
    assert (first, second) == (0, 0)
    same = [(tmp_path / name / "player-sheet.pdf").read_bytes() for name in ("one", "two")]
    assert same[0] == same[1]
    code, _, err = run(capsys, "--copy-templates", own)
    assert code == 2
    assert "already" in err


@pytest.fixture
def winners(tmp_path, fourteen, twenty, one):
    """A store with two winners and two others of one year."""
    place = str(tmp_path / "store.db")
    with open_store(place) as store:
        for number, golf_set in enumerate((fourteen, twenty, one, fourteen)):
            facts = replace(golf_set.set, player=f"Ada Brandt {number}", date=f"2026-05-0{number + 1}")
            store.save_set(f"set-{number}", replace(golf_set, set=facts), b"words", who="t")
            save_result(store, f"set-{number}", 1 if number < 2 else 30, who="t")
    return place


def test_a_season_is_told_from_the_store(winners, tmp_path, capsys):
    code, out, err = run(capsys, "--season", "2026", tmp_path / "out", "--store", winners)
    assert (code, err) == (0, "")
    assert out.splitlines()[-1] == f"Open {tmp_path / 'out' / 'index.html'}"
    assert "winners" in (tmp_path / "out" / "season.html").read_text(encoding="utf-8")
    assert (tmp_path / "out" / "cue-sheet.pdf").read_bytes().startswith(b"%PDF")


def test_a_set_is_told_beside_the_field_and_against_another(winners, given, tmp_path, capsys):
    names = ("field.pdf", "comparison.pdf", "pictures")
    wanted = [word for name in names for word in ("--only", name)]
    code, out, err = run(capsys, given, tmp_path / "out", "--field", "2026", "--against", "set-2", "--store", winners,
                         "--speed", "100mph", *wanted)  # fmt: skip
    assert (code, err) == (0, "")
    assert "pictures/beside-from-above.svg" in out
    assert "pictures/field.svg" in out
    assert (tmp_path / "out" / "comparison.pdf").is_file()


@pytest.mark.parametrize(("words", "said"), [
    (("--season", "2026"), "no winner’s set of 2026 is stored"),
    (("--season", "last"), "a season is a year"),
    (("SET", "--season", "2026"), "goes with no SET"),
    ((), "no set was named"),
    (("SET", "--field", "2026"), "no set of another player is stored for 2026"),
    (("SET", "--field", "soon"), "a season is a year"),
    (("SET", "--before", "SET", "--against", "SET"), "give one of them"),
    (("SET", "--only", "field.pdf"), "field.pdf cannot be written without a field of other players"),
    (("SET", "--only", "misspoken.txt"), "misspoken.txt cannot be written without a transcript"),
])  # fmt: skip
def test_what_does_not_go_together_is_one_sentence(words, said, given, tmp_path, capsys):
    asked = [str(given) if word == "SET" else word for word in words]
    code, out, err = run(capsys, *asked, tmp_path / "out", "--store", tmp_path / "none.db")
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_a_batch_goes_on_where_it_stopped(given, one, tmp_path, capsys):
    other = tmp_path / "other.json"
    other.write_text(json.dumps(plain(one)), encoding="utf-8")
    batch = (given, other, tmp_path / "out", "--only", "summary.txt", "--resume")
    assert "2 of 2 sets told" in run(capsys, *batch)[1]
    first = tmp_path / "out" / "tessler" / "summary.txt"
    stood = first.stat().st_mtime_ns
    assert "0 of 2 sets told" in run(capsys, *batch)[1]
    assert first.stat().st_mtime_ns == stood
    (tmp_path / "out" / "other" / "summary.txt").unlink()  # as if it had been stopped within
    assert "1 of 2 sets told" in run(capsys, *batch)[1]
    other.write_text(json.dumps(plain(replace(one, set=replace(one.set, player="Halvard Strand")))), encoding="utf-8")
    code, out, _ = run(capsys, *batch)
    assert (code, "1 of 2 sets told" in out, "1 stood there already" in out) == (0, True, True)
    assert "Halvard Strand" in (tmp_path / "out" / "other" / "summary.txt").read_text(encoding="utf-8")


def test_a_letter_that_no_font_has_is_said(tmp_path, one, capsys):
    path = tmp_path / "set.json"
    path.write_text(json.dumps(plain(replace(one, set=replace(one.set, player="Ada \U0001f3cc")))), encoding="utf-8")
    code, _, err = run(capsys, path, tmp_path / "out", "--only", "player-sheet.pdf")
    assert code == 0
    assert "golfer (U+1F3CC), as in “Ada \U0001f3cc”" in err
    path.write_text(json.dumps(plain(replace(one, set=replace(one.set, player="さくら हिन्दी 한국")))), encoding="utf-8")
    assert run(capsys, path, tmp_path / "out", "--only", "player-sheet.pdf")[::2] == (0, "")
