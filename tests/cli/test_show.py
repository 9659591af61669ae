"""`show`: every club as played, in a table that fits, as strict JSON, and the chain behind one figure."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from asplayed.clubs import played_set
from asplayed.quantities import plain

from .conftest import Run, ada


def strict(text: str) -> object:
    def refuse(constant: str) -> None:
        raise ValueError(f"{constant} is not JSON")

    return json.loads(text, parse_constant=refuse)


def test_the_json_is_that_of_the_set_with_every_figure_as_played(run: Run, stored: str) -> None:
    shown = run("show", stored, "--json")
    assert (shown.code, shown.err) == (0, "")
    told = strict(shown.out)
    assert told == plain(played_set(ada()))
    assert all(club["as_played"]["mass"]["value"] > 200 for club in told["clubs"])


def test_what_show_answers_can_be_shown_again(run: Run, stored: str, tmp_path: Path) -> None:
    once = run("show", stored, "--json").out
    (tmp_path / "set.json").write_text(once)
    for again in (run("show", str(tmp_path / "set.json"), "--json"), run("show", "-", "--json", given=once.encode())):
        assert again.code == 0
        loft = [club["as_played"]["loft"]["value"] for club in strict(again.out)["clubs"]]
        assert loft == [9.5, 32.5, 55.0, 59.0, 3.0]


@pytest.mark.parametrize("width", [40, 60, 80, 100, 140, 240])
def test_the_table_fits_the_terminal_and_tells_every_club(
    run: Run, stored: str, monkeypatch: pytest.MonkeyPatch, width: int
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    shown = run("show", stored)
    assert shown.code == 0
    assert max(map(len, shown.out.splitlines())) <= width
    for words in ("Ada Brandt", "left-handed", "driver", "7 iron", "sand wedge", "lob wedge", "putter", "44¾", "9.5°"):
        assert words in shown.out
    assert "\x1b" not in shown.out


def test_a_figure_shows_its_source_and_its_band(run: Run, stored: str) -> None:
    lines = run("show", stored).out.splitlines()
    row = next(place for place, line in enumerate(lines) if line.startswith(" sand wedge"))
    assert "55° c" in lines[row]  # 54° as stamped, bent 1° weak
    assert "±1°" in lines[row + 1]


def test_why_shows_the_chain_behind_a_figure(run: Run, stored: str) -> None:
    shown = run("show", stored, "--why", "sand wedge.loft")
    assert shown.code == 0
    first, *rest = shown.out.splitlines()
    assert first.startswith("loft of the sand wedge 55°")
    assert "54° ±1° stated" in "".join(rest)
    assert "1° ±0.25° stated" in "".join(rest)


def test_why_as_json_nests_what_a_figure_rests_on(run: Run, stored: str) -> None:
    told = strict(run("show", stored, "--why", "sand-wedge.loft", "--json").out)
    assert (told["club"], told["figure"], told["chain"]["value"]) == ("sand wedge", "loft", 55.0)
    assert [parent["value"] for parent in told["chain"]["from"]] == [54.0, 1.0]


@pytest.mark.parametrize(
    ("club", "name"),
    [
        ("7 iron", "7 iron"),
        ("7-iron", "7 iron"),
        ("7i", "7 iron"),
        ("iron", "7 iron"),
        ("Driver", "driver"),
        ("SW", "sand wedge"),
        ("sand", "sand wedge"),
        ("54", "sand wedge"),
    ],
)
def test_a_club_is_known_by_any_of_its_names(run: Run, stored: str, club: str, name: str) -> None:
    assert strict(run("show", stored, "--json", "--why", f"{club}.loft").out)["club"] == name


@pytest.mark.parametrize(
    ("figure", "name"),
    [
        ("swing_weight", "swing_weight"),
        ("swing weight", "swing_weight"),
        ("swing-weight", "swing_weight"),
        ("inertia", "butt_inertia"),
        ("balance", "balance_point"),
        ("head.loft", "head.loft"),
    ],
)
def test_a_figure_is_known_by_any_of_its_names(run: Run, stored: str, figure: str, name: str) -> None:
    assert strict(run("show", stored, "--json", "--why", f"driver.{figure}").out)["figure"] == name


@pytest.mark.parametrize(
    ("why", "words"),
    [
        ("wedge.bounce", "may be sand wedge or lob wedge"),
        ("wegde.bounce", "there is no 'wegde' in this set; did you mean"),
        ("driver.lotf", "did you mean loft"),
        ("driver.xyzzy", "there are loft, lie"),
        ("driver", "names no figure"),
        ("driver.", "names no figure"),
        (".loft", "in this set"),
    ],
)
def test_a_name_that_fits_nothing_is_answered_with_the_nearest(run: Run, stored: str, why: str, words: str) -> None:
    shown = run("show", stored, "--why", why)
    assert (shown.code, shown.out) == (2, "")
    assert words in shown.err


def test_a_figure_that_nothing_is_known_about_is_said_so(run: Run, stored: str) -> None:
    shown = run("show", stored, "--why", "driver.bounce")
    assert (shown.code, shown.out) == (0, "Nothing is known about the bounce of the driver.\n")
