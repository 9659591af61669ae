"""The catalogue on a page: found, brought in with a look beforehand, added by hand, taken along."""

from __future__ import annotations

import re
from typing import Any

from litestar.testing import TestClient

Client = TestClient[Any]
TABLE = (
    b"Item,Brand,Name,Stamp,Deg,Wt\n"
    b"head,Tidewright,Turnstone 9,54.10,54,300\n"
    b"head,Tidewright,Turnstone 9,60.06,60,303\n"
)
MAP = {"column-0": "part", "column-1": "maker", "column-2": "model", "column-3": "variant", "column-4": "loft",
       "column-5": "mass"}  # fmt: skip


def sent(client: Client, content: bytes, name: str = "wedges.csv") -> str:
    """The address at which a table waits after it was looked at."""
    page = client.post("/parts/table", files={"table": (name, content, "text/csv")}).text
    found = re.search(r'action="(/parts/table/[\w-]+)"', page)
    assert found, page
    return found[1]


def count(client: Client, words: str) -> int:
    return len([row for row in client.get("/api/parts", params={"words": words}).json()["parts"] if row["score"] > 90])


def test_parts_are_found(client: Client) -> None:
    page = client.get("/parts", params={"words": "kittiwake three", "kind": "head"}).text
    assert "Harrowmere Kittiwake 3" in page and "Ember" not in page.split("<table")[1]
    assert "168 published parts" in client.get("/parts").text


def test_a_table_is_looked_at_mapped_and_only_then_taken(client: Client) -> None:
    address = sent(client, TABLE)
    assert count(client, "Turnstone 9 54.10") == 0
    looked = client.post(address, data={**MAP, "then": "look"}).text
    assert "<b>2</b> parts would be added" in looked
    assert count(client, "Turnstone 9 54.10") == 0
    taken = client.post(address, data={**MAP, "then": "take"}).text
    assert "2 added, 0 changed" in taken
    parts = client.get("/api/parts", params={"words": "Turnstone 9"}).json()["parts"]
    assert [part["figures"]["mass"]["value"] for part in parts[:2]] == [300, 303]
    # The columns are remembered: the same headings are understood at once.
    again = client.post("/parts/table", files={"table": ("more.csv", TABLE.replace(b"9", b"8"), "text/csv")}).text
    assert "parts would be added" in again


def test_a_table_with_a_bad_row_says_which_and_takes_nothing(client: Client) -> None:
    bad = TABLE + b"head,Tidewright,Turnstone 9,64,640,300\n"
    address = sent(client, bad)
    looked = client.post(address, data={**MAP, "then": "take"}).text
    assert "line 4" in looked and "Take it in" not in looked
    taken = client.post(address, data={**MAP, "then": "take", "keep_good_rows": "1"}).text
    assert "2 added" in taken


def test_a_part_is_added_by_hand(client: Client) -> None:
    page = client.post(
        "/parts", data={"part": "shaft", "maker": "Lindrake", "model": "Ember New", "figures": "mass=61g"}
    )
    assert "one added" in page.text and "61 g" in page.text
    wrong = client.post("/parts", data={"part": "shaft", "model": "Ember New", "figures": "mass=heavy"})
    assert wrong.status_code == 400


def test_the_api_takes_tables_and_says_what_would_come_of_them(client: Client) -> None:
    given = {"text": "part,model,loft [deg]\nhead,Avocet 9,10.5\n", "dry_run": True}
    assert client.post("/api/parts/table", json=given).json()["added"] == 1
    assert client.post("/api/parts/table", json={**given, "dry_run": False}).json()["added"] == 1
    assert client.post("/api/parts/table", json={**given, "dry_run": False}).json()["unchanged"] == 1
    assert client.post("/api/parts", json={"fields": ["part=ball", "model=Gale 2"]}).json()["became"] == "added"
    assert client.get("/api/parts", params={"words": "x", "kind": "magic"}).status_code == 400
    assert client.get("/api/parts", params={"words": "x", "limit": "0"}).status_code == 400


def test_nobody_takes_the_table_another_sent(client: Client) -> None:
    assert client.post("/parts/table/nothing-waits-here", data=MAP).status_code == 400


def test_the_catalogue_goes_along_and_comes_in_again_the_same(client: Client) -> None:
    table = client.get("/parts/table").text
    assert client.post("/api/parts/table", json={"text": table, "dry_run": True}).json()["unchanged"] == 168


def test_strange_files_are_sentences(client: Client) -> None:
    for content in (b"", b"\x00\x01\x02" * 50, b"PK\x03\x04 not a workbook", b"a,b\n"):
        found = client.post("/parts/table", files={"table": ("x.csv", content, "text/csv")})
        assert found.status_code in (200, 400)
        assert "Traceback" not in found.text
