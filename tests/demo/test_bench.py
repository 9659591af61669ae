"""The demo's decided changes at the bench: built from the order, one club found out, reworked and signed off."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from asplayed.demo import Week, run


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    week: Week = run(tmp_path_factory.mktemp("estow") / "week")
    return week.folder / "workshop"


def read(path: Path) -> dict[str, list[dict[str, object]]]:
    told: dict[str, list[dict[str, object]]] = json.loads(path.read_text(encoding="utf-8"))
    return told


def test_the_cuts_of_the_new_shaft_are_those_by_hand(bench: Path) -> None:
    [iron] = [club for club in read(bench / "order.json")["clubs"] if club["club"] == "2 driving iron"]
    steps = {step["operation"]: step for step in iron["steps"]}
    # 39 in on the 60° plane, less 1.25 in from the sole to the bottom of the bore and a cap of 0.19 in
    assert steps["dry fit"]["target"]["value"] == pytest.approx(39 - 1.25 - 0.19)
    assert steps["butt cut"]["target"]["value"] == pytest.approx(41.9375 - 37.56)
    assert steps["bond"]["target"]["value"] == 1.1
    assert not [question for question in read(bench / "order.json")["questions"] if question["club"] == iron["club"]]


def test_one_club_is_found_out_with_its_smallest_rework_and_then_signed_off(bench: Path) -> None:
    out = [figure for figure in read(bench / "check.json")["clubs"] if figure["verdict"] == "out"]
    assert [(figure["club"], figure["figure"]) for figure in out] == [("9 iron", "loft")]
    assert out[0]["rework"].startswith("Bend 0.9° weak.")  # ordered 42½°, read 41.6°
    signed = read(bench / "signed.json")
    assert signed["signed_by"] == "Halvard Strand"
    assert {figure["verdict"] for figure in signed["clubs"]} <= {"in", "not measured"}
    [nine] = [club for club in read(bench / "as-built.json")["clubs"] if club["club"] == "9 iron"]
    assert (nine["as_played"]["loft"]["value"], nine["as_played"]["loft"]["source"]) == (42.5, "measured")
    assert (bench / "order.pdf").read_bytes().startswith(b"%PDF-")
