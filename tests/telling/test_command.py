"""`asplayed tell`: a set goes in, a folder comes out."""

from __future__ import annotations

import json

import pytest

from asplayed.cli import main
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
