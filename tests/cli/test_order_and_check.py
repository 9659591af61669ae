"""`order` and `check`: a decision becomes work, the built clubs are measured, one is out, and all is signed off."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from asplayed.keeping import read_set, set_history
from asplayed.keeping.orders import stored_order
from asplayed.keeping.progress import underway
from asplayed.quantities import Source

from .conftest import Run

CHANGES = ("SW: bend 1 strong", "7 iron: length 36.5, D2")
BUILT = "club,loft [deg],lie [deg],length [in],swing weight\n7 iron,32.5,62.2,36.5,D2.1\nSW,54.1,64,35.25,D3\n"


def made(run: Run, stored: str, *more: str) -> dict[str, object]:
    found = run("order", stored, *CHANGES, "--json", *more)
    assert (found.code, found.err) == (0, "")
    told: dict[str, object] = json.loads(found.out)
    return told


def test_the_json_is_an_order_as_callers_rely_on(run: Run, stored: str) -> None:
    told = made(run, stored)
    assert [club["club"] for club in told["clubs"]] == ["7 iron", "sand wedge"]
    for club in told["clubs"]:
        for step in club["steps"]:
            assert set(step) >= {"operation", "target", "tolerance", "cautions"}
            assert step["target"] is None or {"value", "unit", "source"} <= set(step["target"])
            assert isinstance(step["cautions"], list)
    assert (told["set_name"], told["set_version"], told["hand"]) == ("ada", 1, "left")


def test_without_changes_every_club_is_ordered(run: Run, stored: str) -> None:
    told = json.loads(run("order", stored, "--json").out)
    assert len(told["clubs"]) == 5


def test_an_order_is_kept_once_and_leaves_the_set_alone(run: Run, stored: str, tmp_path: Path) -> None:
    name = made(run, stored)["order"]
    assert made(run, stored)["order"] == name
    assert stored_order(str(name), tmp_path / "store.db").order == name
    assert read_set("ada", tmp_path / "store.db").version == 1


def test_a_built_order_is_checked_reworked_and_signed_off(run: Run, stored: str, tmp_path: Path) -> None:
    name = str(made(run, stored)["order"])
    (tmp_path / "m.csv").write_text(BUILT.replace("54.1", "55.2"))
    first = run("check", name, str(tmp_path / "m.csv"))
    assert first.code == 1
    assert "sand wedge, loft: Bend 1.2° strong" in first.out
    assert run("check", name, str(tmp_path / "m.csv"), "--sign", "Halvard Strand").code == 2
    assert read_set("ada", tmp_path / "store.db").version == 1
    (tmp_path / "m.csv").write_text(BUILT)
    told = run("check", name, str(tmp_path / "m.csv"), "--sign", "Halvard Strand", "--json")
    assert (told.code, told.err) == (0, "")
    checked = json.loads(told.out)
    assert checked["signed_by"] == "Halvard Strand"
    verdicts = {(figure["club"], figure["figure"]): figure["verdict"] for figure in checked["clubs"]}
    assert verdicts["sand wedge", "loft"] == "in"
    assert set(verdicts.values()) == {"in", "not measured"}
    now = read_set("ada", tmp_path / "store.db")
    wedge = now.golf_set.clubs[2].as_played
    assert (now.version, wedge.loft.value, wedge.loft.source) == (2, 54.1, Source.MEASURED)
    assert now.original == b"Ada Brandt\r\nSW 54\xb0"
    last = set_history("ada", tmp_path / "store.db")[0]
    assert (last.who, last.what, last.why) == ("Halvard Strand", "sign-off", f"order {name}")
    checked = underway(name, tmp_path / "store.db").checked
    assert checked is not None and checked.signed_by == "Halvard Strand"
    assert "54.1° m" in run("show", "ada").out


def test_an_order_of_a_set_that_has_moved_on_is_not_signed(run: Run, stored: str) -> None:
    names = [
        str(made(run, stored)["order"]),
        json.loads(run("order", stored, "SW: bend 2 strong", "--json").out)["order"],
    ]
    by_hand = [word for line in ("SW loft 54 deg", "7 iron length 36.5 in") for word in ("--read", line)]
    assert run("check", names[0], *by_hand, "--sign", "Strand").code == 0
    late = run("check", names[1], "--read", "SW loft 53 deg", "--sign", "Strand")
    assert late.code == 2
    assert "has moved on" in late.err
    again = run("check", names[0], *by_hand, "--sign", "Strand")
    assert again.code == 2
    assert f"signed already: {names[0]}, by Strand" in again.err


def test_a_sign_off_names_what_nobody_measured(run: Run, stored: str) -> None:
    name = str(made(run, stored)["order"])
    by_hand = [word for line in ("SW loft 54 deg", "7 iron length 36.5 in") for word in ("--read", line)]
    told = run("check", name, *by_hand, "--sign", "Strand")
    assert (told.code, "as measured" in told.out.replace("recorded as measured", "")) == (0, False)
    said = " ".join(told.out.split("Signed without a reading, and not recorded as measured: ")[1].split())
    assert said.startswith("7 iron: loft, lie, swing weight") and "; sand wedge: length, lie" in said


def test_an_order_from_a_list_can_be_checked_from_its_json(run: Run, tmp_path: Path) -> None:
    words = b"7 iron 33 deg 37 in\nsand wedge 56.12 35 1/4\n"
    told = run("order", "-", "SW: bend 1 weak", "--json", given=words)
    (tmp_path / "order.json").write_text(told.out)
    good = run("check", str(tmp_path / "order.json"), "-", given=b"SW loft 57.1 deg\n")
    assert (good.code, good.err) == (0, "")
    bad = run("check", str(tmp_path / "order.json"), "-", "--json", given=b"SW loft 58 deg\n")
    assert bad.code == 1
    assert [f["verdict"] for f in json.loads(bad.out)["clubs"] if f["figure"] == "loft"] == ["out"]


def test_the_bench_and_the_shafts_at_hand_are_taken_from_tables(run: Run, stored: str, tmp_path: Path) -> None:
    (tmp_path / "bench.csv").write_text("club,head mass [g],raw length [in]\n7 iron,268.4,41\n")
    told = json.loads(
        run("order", stored, "7 iron: shaft Brunholt S; D2", "--bench", str(tmp_path / "bench.csv"),
            "--shafts", "114, 4.1 oz", "--json").out
    )  # fmt: skip
    club = told["outcome"]["clubs"][1]
    assert club["head"]["mass"]["value"] == 268.4
    assert club["shaft"]["mass"]["value"] in (114.0, pytest.approx(116.2, abs=0.1))


@pytest.mark.parametrize(
    ("argv", "words"),
    [
        (("order", "ada", "SW: bend 9 weak"), "cannot be ordered: its limit is 2°"),
        (("order", "ada", "SW: sideways"), "is not understood"),
        (("order", "ada", "3 wood: D2"), "there is no '3 wood'"),
        (("order", "ada", "driver: bend 1 weak"), "woods and hybrids are not bent"),
        (("order", "adda"), "did you mean ada"),
        (("order", "ada", "ball: Pellan"), "nothing to do"),
        (("order", "ada", "--bench", "missing.csv"), "there is no file missing.csv"),
        (("order", "ada", "--shafts", "115 in"), "is no mass"),
        (("order", "ada", "--shafts", "1150"), "no shaft weighs"),
        (("order", "ada", "--slope", "8"), "frequency with its tip uncut"),
        (("order", "ada", "--pdf", "/nowhere/at/all.pdf"), "cannot be written"),
        (("order", "ada", "--pdf", "/dev/null", "--web", "http://" + "x" * 999), "200 at most"),
        (("check", "ada-00000000", "-"), "there is no order"),
        (("check", "ada-00000000"), "nothing was measured"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(run: Run, stored: str, argv: tuple[str, ...], words: str) -> None:
    told = run(*argv, given=b"7 iron loft 33 deg")
    assert (told.code, told.out) == (2, "")
    assert words in told.err


@pytest.mark.parametrize("given", [b"{}", b'{"order": 3}', b"{", b'{"order":"x","clubs":[{"club":"y","steps":[{}]}]}'])
def test_a_file_that_is_no_order_is_refused(run: Run, tmp_path: Path, given: bytes) -> None:
    (tmp_path / "o.json").write_bytes(given)
    told = run("check", str(tmp_path / "o.json"), "-", given=b"7 iron loft 33 deg")
    assert (told.code, told.out) == (2, "")
    assert "order --json wrote" in told.err


@pytest.mark.parametrize(
    ("was", "now", "words"),
    [
        ('"club": "sand wedge",\n      "hand"', '"club": "spoon",\n      "hand"', "has no such club"),
        ('"figure": "loft"', '"figure": "colour"', "without figure or target"),
        ('"figure": "loft"', '"figure": "swing_weight"', "for the swing_weight of the sand wedge"),
    ],
)
def test_an_order_changed_by_hand_is_refused_where_it_no_longer_holds(
    run: Run, stored: str, tmp_path: Path, was: str, now: str, words: str
) -> None:
    whole = run("order", stored, "SW: bend 1 strong", "--json").out
    assert was in whole
    (tmp_path / "o.json").write_text(whole.replace(was, now))
    told = run("check", str(tmp_path / "o.json"), "-", given=b"SW loft 54 deg")
    assert (told.code, told.out) == (2, "")
    assert words in told.err


def test_the_table_on_screen_names_work_cautions_and_parts(run: Run, stored: str) -> None:
    told = run("order", stored, "7 iron: shaft Brunholt 115 S").out
    for words in (
        "Ask first",
        "butt cut",
        "! A head that leaves the shaft at speed injures",
        "Parts",
        "1 × ferrule",
        "Kept as ada-",
    ):
        assert words in told


def test_the_printed_order_is_a_pdf_and_the_same_again(run: Run, stored: str, tmp_path: Path) -> None:
    for name in ("one.pdf", "two.pdf"):
        assert run("order", stored, *CHANGES, "--pdf", str(tmp_path / name)).code == 0
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()
    assert (tmp_path / "one.pdf").read_bytes()[:5] == b"%PDF-"
