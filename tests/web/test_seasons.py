"""Questions of seasons on a page and through the API, asked of the demo's week."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient

from asplayed.clubs import Club, GolfSet, Head
from asplayed.keeping import open_store
from asplayed.keeping.versions import find
from asplayed.web.seasons import QUESTIONS

Client = TestClient[Any]


def test_the_demos_drivers_are_counted(client: Client) -> None:
    found = client.get("/api/seasons", params={"about": "shares", "field": "model", "kind": "driver"}).json()
    assert {(row["value"], row["number"], row["of"]) for row in found["rows"]} == {
        ("Kittiwake 3", 2, 3),
        ("Whimbrel", 1, 3),
    }


@pytest.mark.parametrize("about", QUESTIONS)
def test_every_question_is_answered_or_says_what_is_missing(client: Client, about: str) -> None:
    client.post("/seasons/result", data={"set": "jonas-tessler", "place": "1"})
    client.post("/seasons/result", data={"set": "ada-brandt", "place": "1"})
    asked = {"about": about, "season": "2025", "words": "Tessler" if about == "search" else "Jonas Tessler"}
    page = client.get("/seasons", params=asked)
    assert page.status_code == 200
    assert "<table" in page.text
    drawn = about in ("shares", "weeks", "round-up")
    assert ('class="drawing"' in page.text) == drawn


def test_a_question_that_cannot_be_asked_is_a_sentence(client: Client) -> None:
    assert "write the player’s name" in client.get("/seasons", params={"about": "unchanged"}).text
    assert client.get("/api/seasons", params={"about": "magic"}).status_code == 400
    assert client.get("/api/seasons", params={"field": "magic"}).status_code == 400
    assert client.get("/api/seasons", params={"season": "last"}).json()["fault"].startswith("a season is a year")


def test_the_answer_goes_along_as_a_table_that_runs_nothing(client: Client, store: Path) -> None:
    strange = GolfSet(clubs=(Club(club="driver", kind="driver", head=Head(name="=1+1")),))
    with open_store(store) as kept:
        kept.save_set("strange", strange, "a driver", who="tester")
    table = client.get("/seasons/table", params={"about": "shares", "kind": "driver"})
    assert table.headers["content-disposition"].startswith("attachment")
    assert "=1+1" in table.text
    assert not [line for line in table.text.splitlines() if any(cell[:1] in "=+@" for cell in line.split(",") if cell)]


def test_a_place_is_kept(client: Client) -> None:
    assert client.post(
        "/seasons/result", data={"set": "ada-brandt", "place": "1"}, follow_redirects=False
    ).status_code in (
        303,
        200,
    )
    rows = client.get("/api/seasons", params={"about": "winners", "kind": "driver"}).json()["rows"]
    assert sum(row["winners"] for row in rows) == 1
    assert client.post("/seasons/result", data={"set": "ada-brandt", "place": ""}).status_code == 400


def test_a_place_that_was_shared_is_kept_so(client: Client, store: Path) -> None:
    client.post("/seasons/result", data={"set": "ada-brandt", "place": " t3 "})
    with open_store(store) as kept, kept.acting("look", who="tester") as action:
        found = find(action.read, "result", "ada-brandt")
        assert found is not None and found.content == "T3"
    told = client.post("/seasons/result", data={"set": "ada-brandt", "place": "cut"}, headers={"accept": "text/html"})
    assert told.status_code == 400 and "T3 a third that was shared" in told.text
