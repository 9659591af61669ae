"""`bench`: a day's plan from kept orders, and a stock that moves by deliveries, reservations and use."""

from __future__ import annotations

import json
from pathlib import Path

from .conftest import Run


def kept(run: Run, stored: str, *changes: str) -> str:
    return str(json.loads(run("order", stored, *changes, "--json").out)["order"])


def test_a_day_of_orders_drawn_from_stock(run: Run, stored: str, tmp_path: Path) -> None:
    one = kept(run, stored, "7 iron: shaft Brunholt S", "7 iron: grip Tessary")
    two = kept(run, stored, "SW: shaft Brunholt S", "SW: grip Tessary")
    assert "Nothing is in stock yet" in run("bench", "stock").out
    (tmp_path / "in.csv").write_text(
        "part,name,count,price\nshaft,Brunholt S,1,20\ngrip,Tessary,2,8\nferrule,ferrule,9,0.5\n"
    )
    told = run("bench", "stock", "--in", str(tmp_path / "in.csv"), "--reserve", one, "--json")
    assert (told.code, told.err) == (0, "")
    stock = {line["name"]: line for line in json.loads(told.out)["stock"]}
    assert (stock["Brunholt S"]["free"], stock["Brunholt S"]["reorder"]) == (0, True)
    short = run("bench", "stock", "--reserve", two)
    assert short.code == 2
    assert "shaft: brunholt s: 1 needed, 0 free of 1" in short.err
    day = json.loads(run("bench", "day", one, two, "--json").out)
    assert [cut["club"] for cut in day["cuts"]] == ["7 iron", "sand wedge"]
    assert {part["name"]: part["short"] for part in day["parts"]} == {"Brunholt S": 1, "ferrule": 0, "Tessary": 0}
    assert day["minutes"] > 30
    shown = run("bench", "day", one, two, "--hour", "90")
    for words in ("Cuts", "off the butt", "Parts", "short", "Time and cost", "24 h", "h of hand work"):
        assert words in shown.out
    used = run("bench", "stock", "--use", one)
    assert used.code == 0
    assert "order again" in used.out
    assert run("bench", "stock", "--use", one).code == 2


def test_an_order_that_is_not_there_is_named(run: Run, stored: str) -> None:
    name = kept(run, stored, "SW: bend 1 weak")
    told = run("bench", "day", name[:-1] + "x")
    assert (told.code, told.out) == (2, "")
    assert f"did you mean {name}" in told.err
    assert run("bench", "stock", "--reserve", name).code == 0


def test_a_kept_order_prints_again_as_it_was(run: Run, stored: str, tmp_path: Path) -> None:
    first = run("order", stored, "SW: bend 1 weak", "--pdf", str(tmp_path / "one.pdf"), "--json")
    name = json.loads(first.out)["order"]
    assert run("bench", "sheet", name, str(tmp_path / "two.pdf")).code == 0
    assert run("bench", "sheet", name, str(tmp_path / "letter.pdf"), "--letter").code == 0
    one, two, letter = ((tmp_path / f"{each}.pdf").read_bytes() for each in ("one", "two", "letter"))
    assert one == two != letter
