"""`parts`: in with a preview and all or nothing, found, shown, added by hand, out and in again."""

from __future__ import annotations

import csv
import io
import json
from importlib import resources
from pathlib import Path
from typing import Any

import pytest

from .conftest import Run

CATALOGUE = resources.files("asplayed.demo").joinpath("catalogue.csv").read_bytes()


@pytest.fixture
def specs(tmp_path: Path) -> Path:
    path = tmp_path / "specs.csv"
    path.write_bytes(CATALOGUE)
    return path


def imported(run: Run, *argv: str, given: bytes = b"") -> dict[str, Any]:
    ran = run("parts", "import", *argv, "--json", given=given)
    assert ran.code == 0, ran.err
    answer: dict[str, Any] = json.loads(ran.out)
    return answer


def found(run: Run, *words: str) -> list[dict[str, Any]]:
    parts: list[dict[str, Any]] = json.loads(run("parts", "find", *words, "--json").out)["parts"]
    return parts


def test_an_import_is_taken_once(run: Run, specs: Path) -> None:
    first = imported(run, str(specs))
    assert (first["added"], first["unchanged"]) == (168, 0)
    again = imported(run, str(specs))
    assert (again["added"], again["changed"], again["unchanged"]) == (0, 0, 168)
    assert "168 were there already" in run("parts", "import", str(specs)).out


def test_a_dry_run_shows_and_stores_nothing(run: Run, specs: Path, tmp_path: Path) -> None:
    assert imported(run, str(specs), "--dry-run")["added"] == 168
    shown = run("parts", "import", str(specs), "--dry-run").out
    assert "Kittiwake 3" in shown
    assert "168 parts would be added" in shown
    assert list(tmp_path.iterdir()) == [specs]


def test_a_bad_row_refuses_the_table_whole_unless_good_rows_are_kept(run: Run, tmp_path: Path) -> None:
    table = b"part,model,loft\nhead,Dunlin,30\nhead,Gannet,400\n"
    refused = run("parts", "import", "-", given=table)
    assert refused.code == 2
    assert "line 3: loft: 400 deg cannot be" in refused.err
    assert not (tmp_path / "store.db").exists()
    kept = imported(run, "-", "--keep-good-rows", given=table)
    assert kept["added"] == 1
    assert "line 3" in kept["refused"][0]


def test_columns_are_mapped_once_and_remembered(run: Run, tmp_path: Path) -> None:
    mapping = tmp_path / "map.json"
    mapping.write_text('{"Teil": "part", "Name": "model", "weight": null}')
    table = b"Teil;Name;weight\nhead;Dunlin;heavy\n"
    assert run("parts", "import", "-", given=table).code == 2
    assert imported(run, "-", "--columns", str(mapping), given=table)["added"] == 1
    assert imported(run, "-", given=table.replace(b"Dunlin", b"Gannet"))["added"] == 1
    assert found(run, "gannet")[0]["notes"] == {"weight": "heavy"}


@pytest.mark.parametrize("content", ["[1]", "{", '{"a": 1}', "\x00"])
def test_a_column_map_that_is_none_is_refused(run: Run, tmp_path: Path, content: str) -> None:
    mapping = tmp_path / "map.json"
    mapping.write_text(content)
    ran = run("parts", "import", "-", "--columns", str(mapping), given=b"part,model\nhead,Dunlin\n")
    assert ran.code == 2
    assert "column map" in ran.err or "map of names" in ran.err


def test_what_a_pasted_table_lacks_is_filled_in(run: Run) -> None:
    pasted = "model      loft\nDunlin 2   30.5°\n".encode()
    assert imported(run, "-", "--fill", "part=head", "--fill", "maker=Oskell", given=pasted)["added"] == 1
    assert found(run, "oskell dunlin")[0]["figures"]["loft"]["value"] == 30.5


def test_finding_gives_score_reason_and_document(run: Run, specs: Path) -> None:
    run("parts", "import", str(specs))
    best = found(run, "kittywake", "3")[0]
    assert (best["part"], best["maker"], best["model"]) == ("head", "Harrowmere", "Kittiwake 3")
    assert 80 < best["score"] < 100
    assert best["document"] == "Harrowmere specification sheet 2025"
    assert "Turnstone 2 58.06" in run("parts", "find", "crescent", "58.06").out
    assert "No part" in run("parts", "find", "qqqq").out
    assert all(part["part"] == "shaft" for part in found(run, "ember", "--kind", "shaft"))


def test_showing_gives_every_figure_with_its_document(run: Run, specs: Path) -> None:
    run("parts", "import", str(specs))
    out = run("parts", "show", "Whimbrel", "Short").out
    for text in ("mini driver", "13°", "305 cm3", "2024-02 to now", "Varnpike component list, autumn 2024 (2024-09)"):
        assert text in out
    rows = json.loads(run("parts", "show", "rungs", "--json").out)["parts"]
    assert len(rows) == 24
    unknown = run("parts", "show", "Kittiwake", "4")
    assert unknown.code == 2
    assert "nearest are" in unknown.err


def test_a_part_is_added_by_hand_and_changed_by_adding_it_again(run: Run) -> None:
    fields = ("part=shaft", "maker=Lindrake", "model=Ember", "variant=80", "flex=stiff")
    assert "Added." in run("parts", "add", *fields, "mass=84g").out
    assert "Changed." in run("parts", "add", *fields, "mass=85g").out
    assert "there already" in run("parts", "add", *fields, "mass=85g").out
    [part] = found(run, "ember")
    assert (part["flex"], part["figures"]["mass"]["value"], part["document"]) == ("S", 85, "entered by hand")
    wrong = run("parts", "add", "part=shaft", "mass=84g")
    assert wrong.code == 2
    assert "'model'" in wrong.err


def test_an_export_imports_back_and_runs_nothing(run: Run, specs: Path, tmp_path: Path) -> None:
    run("parts", "import", str(specs))
    run("parts", "add", "part=grip", "model==HYPERLINK(0)", "mass=50g")
    target = tmp_path / "out.csv"
    assert "169 parts written" in run("parts", "export", str(target)).out
    assert run("parts", "export").out == target.read_text()
    assert "'=HYPERLINK(0)" in {row["model"] for row in csv.DictReader(io.StringIO(target.read_text()))}
    assert imported(run, str(target))["unchanged"] == 169
    assert imported(run, str(target), "--store", str(tmp_path / "other.db"))["added"] == 169
    assert run("parts", "export", str(tmp_path / "none" / "out.csv")).code == 2


def test_a_contradiction_with_the_catalogue_is_refused_unless_it_replaces(run: Run) -> None:
    table = b"part,model,variant,mass,document\nhead,Dunlin,30,267,A\n"
    imported(run, "-", given=table)
    other = table.replace(b"267", b"269")
    refused = run("parts", "import", "-", given=other)
    assert refused.code == 2
    assert "267 g and 269 g" in refused.err
    assert imported(run, "-", "--replace", given=other)["changed"] == 1
    assert [part["figures"]["mass"]["value"] for part in found(run, "dunlin")] == [269]


@pytest.mark.parametrize(
    "argv",
    [
        ("parts", "import", "nowhere.csv"),
        ("parts", "import", "-", "--fill", "part"),
        ("parts", "find", "ember"),
        ("parts", "show", "ember"),
        ("parts", "export"),
        ("parts", "add", "nonsense"),
        ("parts", "add"),
        ("parts", "nonsense"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_exit_2(run: Run, argv: tuple[str, ...]) -> None:
    ran = run(*argv, given=b"part,model\nhead,Dunlin\n")
    assert ran.code == 2
    assert ran.err.startswith("asplayed: ")
    assert len(ran.err.encode()) <= 2000
    assert ran.out == ""


def test_a_size_limit_is_kept(run: Run, tmp_path: Path) -> None:
    large = tmp_path / "large.csv"
    large.write_bytes(b"part,model\n" + b"head,Dunlin\n" * 100_000)
    ran = run("parts", "import", str(large), "--max-size", "1")
    assert ran.code == 2
    assert "--max-size" in ran.err
