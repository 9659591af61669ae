"""`choose`: the answer in words and as JSON, the order and the version it leaves, and bad input named."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from asplayed.keeping import read_set

from .conftest import Run

SHOTS = "lie,distance [yd]\n" + "".join(f"{lie},{yards}\n" for lie, yards in (
    ("tee", 390), ("fairway", 150), ("fairway", 100), ("rough", 85), ("fairway", 75)
))  # fmt: skip


@pytest.fixture
def rounds(tmp_path: Path) -> str:
    (tmp_path / "rounds.csv").write_text(SHOTS)
    return str(tmp_path / "rounds.csv")


def test_the_best_set_in_json_and_in_words(run: Run, stored: str, rounds: str) -> None:
    given = ("choose", stored, "--rounds", rounds, "--speed", "95mph", "--worth", "0", "--try", "bends", "--seed", "5")
    found = run(*given, "--json")
    assert found.code == 0
    answer = json.loads(found.out)
    assert answer["proof_gap"]["value"] == 0 and answer["seed"] == 5 and answer["candidates"] > 10
    assert all({"club", "changes", "why"} <= set(each) for each in answer["chosen"])
    told = run(*given).out
    for words in (
        "that is proven",
        "worlds we believe in",
        "To order it: asplayed order ada",
        "Assumed: handicap not said",
    ):
        assert words in told or not answer["changes"]


def test_order_and_keep_carry_out_what_was_chosen(run: Run, stored: str, tmp_path: Path) -> None:
    given = ("choose", stored, "--club", "sand wedge", "--for", "carry 80yd", "--order", "--keep", "--json")
    answer = json.loads(run(*given).out)
    assert answer["changes"] and answer["stored"] == {"name": "ada", "version": 2, "new": True}
    assert answer["order"].startswith("ada-")
    kept = read_set("ada", tmp_path / "store.db")
    [wedge] = [club for club in kept.golf_set.clubs if club.club == "sand wedge"]
    assert kept.version == 2 and (wedge.bend.loft is not None or wedge.length is not None)


def test_one_club_in_words(run: Run, stored: str) -> None:
    told = run("choose", stored, "--club", "driver", "--for", "longest", "--speed", "95mph").out
    assert "for the longest drive or shot" in told and "Could the loft be anything" in told


def test_nobody_s_figures_are_assumed_and_said(run: Run, stored: str) -> None:
    told = run("choose", stored, "--club", "driver", "--for", "farthest").out
    assert "Assumed: driver speed not said: 93 mph, the average man's" in told


def test_bad_input_is_named(run: Run, stored: str, rounds: str, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("item,price [EUR]\nbend,8\n")
    (tmp_path / "list.txt").write_text("driver 10.5\n7 iron\nputter\n")
    prices = str(tmp_path / "prices.csv")
    for argv, words in (
        ([stored, "--price", "400"], "names no currency"),
        ([stored, "--price", "400 EUR"], "--prices"),
        ([stored, "--price", "400 USD", "--prices", prices], "in USD, the prices are in EUR"),
        ([stored, "--for", "longest"], "--club"),
        ([stored, "--club", "5 wood"], "no 5 wood flies in this set"),
        ([stored, "--club", "driver", "--for", "beauty"], "no aim of a setting"),
        ([stored, "--most-gap", "20"], "20' is no distance"),
        ([stored, "--same-irons", "5"], "5-PW"),
        ([stored, "--course", "Nowhere"], "there is no course"),
        ([stored, "--rounds", rounds, "--require", "5 wood", "--try", "bends"], "no club '5 wood' to require"),
        (["nobody"], "nobody"),
        ([str(tmp_path / "list.txt"), "--keep"], "asplayed take"),
    ):
        refused = run("choose", *argv)
        assert refused.code == 2 and refused.out == "", argv
        assert words in refused.err and len(refused.err.encode()) <= 2000, refused.err
