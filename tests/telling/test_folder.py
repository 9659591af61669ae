"""The folder: whole files, an honest manifest, nothing half-written."""

from __future__ import annotations

import hashlib
import json
from xml.etree import ElementTree

import pytest

from asplayed.errors import BadInput
from asplayed.telling import tell

PROMISED = {"index.html", "set-sheet.html", "player-sheet.pdf", "cue-sheet.pdf", "club-cards.pdf", "captions.vtt",
            "chapters.vtt", "manifest.json"}  # fmt: skip
WRITTEN = PROMISED | {"drawn-set.svg", "explanation.html", "summary.txt", "captions.srt", "overlays", "pictures"}


def names(folder):
    return {path.name for path in folder.iterdir()}


def files(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_the_manifest_tells_the_truth(fourteen, findings, tmp_path):
    folder = tmp_path / "week" / "tessler"
    answer = tell(fourteen, findings, folder)
    assert names(folder) == WRITTEN
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    assert manifest == answer
    assert {entry["file"] for entry in manifest["files"]} == files(folder) - {"manifest.json"}
    assert files(folder) >= PROMISED
    overlays = {name for name in files(folder) if name.startswith("overlays/")}
    assert len(overlays) == 15 * 2 * 2  # every club and the whole set, wide and upright, PNG and SVG
    for entry in manifest["files"]:
        content = (folder / entry["file"]).read_bytes()
        assert entry["bytes"] == len(content)
        assert entry["sha-256"] == hashlib.sha256(content).hexdigest()
        assert entry["kind"]
    assert manifest["figures_as_of"] == "2026-10-04"


def test_the_index_links_all_the_rest_and_nothing_else(fourteen, findings, tmp_path, page):
    tell(fourteen, findings, tmp_path)
    found = page((tmp_path / "index.html").read_text(encoding="utf-8"))
    assert found.faults == []
    assert {attrs["href"] for _, attrs, _ in found.elements if "href" in attrs} == files(tmp_path) - {"index.html"}
    assert found.text("h1") == ["Tessler before the Ravelin Cup"]


def test_hostile_words_stay_words(hostile, tmp_path, page):
    tell(hostile, (), tmp_path)
    found = page((tmp_path / "index.html").read_text(encoding="utf-8"))
    assert not {tag for tag, _, _ in found.elements} & {"script", "img"}
    ElementTree.parse(tmp_path / "drawn-set.svg")
    json.loads((tmp_path / "manifest.json").read_text(encoding="utf-8"))


def test_the_same_set_gives_the_same_bytes(twenty, findings, tmp_path):
    assert tell(twenty, findings, tmp_path / "one") == tell(twenty, findings, tmp_path / "two")
    for name in files(tmp_path / "one"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_second_telling_replaces_the_first_and_leaves_other_files_alone(one, fourteen, tmp_path):
    (tmp_path / "notes.txt").write_text("mine")
    tell(one, (), tmp_path)
    tell(fourteen, (), tmp_path)
    assert names(tmp_path) == WRITTEN | {"notes.txt"}
    assert (tmp_path / "notes.txt").read_text() == "mine"
    assert "lob wedge" in (tmp_path / "set-sheet.html").read_text(encoding="utf-8")
    (tmp_path / "overlays" / "mine.png").write_bytes(b"mine")
    tell(one, (), tmp_path)
    left = {path.name for path in (tmp_path / "overlays").iterdir()}
    assert len(left) == 2 * 2 * 2 + 1  # the one club, the set, and what was not ours
    assert "mine.png" in left


def test_a_file_in_place_of_the_folder_is_refused(one, tmp_path):
    place = tmp_path / "sheet"
    place.write_text("a file")
    for folder in (place, place / "below"):
        with pytest.raises(BadInput, match="folder"):
            tell(one, (), folder)
    assert place.read_text() == "a file"


def test_a_fault_leaves_the_folder_as_it_was(one, fourteen, tmp_path):
    tell(one, (), tmp_path)
    before = {name: (tmp_path / name).read_bytes() for name in files(tmp_path) - {"manifest.json"}}
    (tmp_path / "manifest.json").unlink()
    (tmp_path / "manifest.json").mkdir()
    with pytest.raises(BadInput, match=r"manifest\.json is a folder where a file is to be written"):
        tell(fourteen, (), tmp_path)
    assert names(tmp_path) == WRITTEN
    assert {name: (tmp_path / name).read_bytes() for name in before} == before


def test_a_name_no_system_takes_is_refused_in_a_sentence(one):
    with pytest.raises(BadInput, match="cannot be written"):
        tell(one, (), "sheet\0folder")
