"""Orders and the bench: an order looked at and kept, steps ticked, readings judged, signed off, two people at one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient

from asplayed.keeping import open_store, read_set
from asplayed.keeping.progress import take_reading, tick, underway
from asplayed.keeping.proving import prove

Client = TestClient[Any]
CHANGES = "9 iron: bend 1 weak\nsand wedge: bend 1 weak"
PAGE = "/sets/jonas-tessler/order"


def kept(client: Client) -> str:
    """The address of an order kept for the bench."""
    answer = client.post(PAGE, data={"changes": CHANGES, "then": "keep"}, follow_redirects=False)
    assert answer.status_code == 303, answer.text
    found: str = answer.headers["location"]
    return found


def test_an_order_is_looked_at_before_it_is_kept(client: Client) -> None:
    looked = client.get(PAGE, params={"changes": CHANGES + "\nwind: 10 mph head"}).text
    assert "Eye protection at the bending bar" in looked and "Keep it for the bench" in looked
    assert client.get("/api/orders").json()["orders"] == []
    assert "9 iron" in client.get(kept(client)).text
    [order] = client.get("/api/orders").json()["orders"]
    assert (order["done"], order["steps"], order["signed_by"]) == (0, 4, None)


def test_what_crosses_a_limit_is_refused_with_every_fault(client: Client) -> None:
    page = client.get(PAGE, params={"changes": "9 iron: bend 9 weak\nsand wedge: bend 9 weak"}).text
    assert page.count("<li><bdi>") >= 2 and "Keep it for the bench" not in page
    assert client.post(PAGE, data={"changes": "9 iron: bend 9 weak", "then": "keep"}).status_code == 400


def test_measures_of_the_parts_and_shafts_at_hand_make_the_order(client: Client) -> None:
    given = {
        "changes": "driver: length 44½, D3",
        "measured": "club,head mass [g],raw length [in]\ndriver,198.6,46",
        "shafts": "heavy",
        "then": "look",
    }
    assert "heavy" in client.post(PAGE, data=given).text
    assert "Keep it" in client.post(PAGE, data={**given, "shafts": ""}).text
    assert "slope" in client.post(PAGE, data={**given, "shafts": "", "slope": "steep"}).text


def test_steps_are_ticked_readings_judged_and_the_order_signed_off(client: Client, store: Path) -> None:
    address = kept(client)
    client.post(f"{address}/tick", data={"club": "9 iron", "step": "1", "done": "yes"})
    page = client.post(f"{address}/reading", data={"club": "9 iron", "figure": "loft", "value": "44", "part": "y"}).text
    assert "✗ out" in page and "Rework" in page
    refused = client.post(f"{address}/sign", data={"name": "Halvard Strand"})
    assert refused.status_code == 400 and "loft of the 9 iron" in refused.text
    client.post(f"{address}/reading", data={"club": "9 iron", "figure": "loft", "value": "42,5°"})
    client.post(f"{address}/reading", data={"club": "sand wedge", "figure": "loft", "value": "56"})
    page = client.get(address).text
    assert page.count("✓ in") == 2 and page.count('aria-pressed="true"') == 1
    signed = client.post(f"{address}/sign", data={"name": "Halvard Strand"}).text
    assert "Signed off by <bdi>Halvard Strand</bdi>" in signed
    loft = next(club for club in read_set("jonas-tessler", store).golf_set.clubs if club.club == "9 iron")
    assert "measured" in client.get("/sets/jonas-tessler/why", params={"club": loft.club, "figure": "loft"}).text
    assert prove(store).ok
    assert "aria-pressed" not in client.get(address).text


def test_a_tick_is_taken_back_and_history_keeps_both(client: Client, store: Path) -> None:
    address = kept(client)
    for done in ("yes", "no"):
        client.post(f"{address}/tick", data={"club": "9 iron", "step": "1", "done": done})
    assert client.get(address).text.count('aria-pressed="true"') == 0
    with open_store(store) as found, found.reading() as read:
        assert read("SELECT count(*) FROM actions WHERE what = 'bench'")[0][0] == 2


def test_two_people_at_one_order_lose_nothing_of_each_others(client: Client, store: Path) -> None:
    name = kept(client).removeprefix("/orders/")
    with open_store(store) as one, open_store(store) as other:
        tick(one, name, "9 iron", 1, who="Ada")
        take_reading(other, name, "9 iron loft 42.5 deg", who="Jonas")
        tick(other, name, "sand wedge", 1, who="Jonas")
        take_reading(one, name, "9 iron loft 42.6 deg", who="Ada")
    found = underway(name, store).progress
    assert {(each.club, each.by) for each in found.ticks} == {("9 iron", "Ada"), ("sand wedge", "Jonas")}
    assert [(each.line, each.by) for each in found.readings] == [("9 iron loft 42.6 deg", "Ada")]


@pytest.mark.parametrize(
    ("path", "data"),
    [
        ("tick", {"club": "9 iron", "step": "99"}),
        ("tick", {"club": "nine", "step": "1"}),
        ("tick", {"club": "9 iron", "step": ""}),
        ("reading", {"club": "9 iron", "figure": "magic", "value": "1"}),
        ("reading", {"club": "9 iron", "figure": "loft", "value": ""}),
        ("reading", {"club": "9 iron", "figure": "loft", "value": "steep"}),
        ("sign", {"name": " "}),
    ],
)
def test_what_cannot_be_is_one_sentence(client: Client, path: str, data: dict[str, str]) -> None:
    assert client.post(f"{kept(client)}/{path}", data=data).status_code == 400


def test_a_missing_order_is_missing(client: Client) -> None:
    assert client.get("/orders/nothing").status_code == 404
    assert client.post("/orders/nothing/tick", data={"club": "9 iron", "step": "1"}).status_code == 404


def test_the_api_makes_and_checks_orders(client: Client) -> None:
    made = client.post("/api/sets/jonas-tessler/order", json={"changes": ["9 iron: bend 1 weak"]}).json()
    checked = client.post(f"/api/orders/{made['order']}/check", json={"measures": "9 iron loft 44 deg"}).json()
    assert [each["verdict"] for each in checked["clubs"] if each["figure"] == "loft"] == ["out"]
    table = {"measures": "club,loft [deg]\n9 iron,42.5\n"}
    checked = client.post(f"/api/orders/{made['order']}/check", json=table).json()
    assert [each["verdict"] for each in checked["clubs"] if each["figure"] == "loft"] == ["in"]


def test_the_order_is_printed(client: Client) -> None:
    assert client.get(f"{kept(client)}/sheet").content[:5] == b"%PDF-"


def test_a_caution_of_every_measurement_is_said_once_a_club_and_a_question_about_several_once(client: Client) -> None:
    changes = "8 iron: shaft Lindrake Level 105 S\n9 iron: shaft Lindrake Level 105 S"
    page = client.get(PAGE, params={"changes": changes}).text
    assert page.count("Write down what the gauge reads") == 2  # one a club
    assert "<b><bdi>8 iron and 9 iron</bdi></b>: <bdi>measure" in page and "of each club before cutting" in page
