"""The player and the shots on a page: measures kept with their sources, tables looked at, sessions taken and hidden."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient

from asplayed.keeping.shots import stored_player, stored_sessions

Client = TestClient[Any]
PAGE = "/sets/jonas-tessler/shots"
TABLE = "which,ball speed [mph],Carry dist [yd],Side [yd]\n" + "".join(
    f"7 iron,{118 + n % 3},{168 + n % 5},{n % 4}\n" for n in range(9)
)


def waits(client: Client, table: str = TABLE) -> str:
    page = client.post(f"{PAGE}/table", data={"pasted": table}).text
    found = re.search(r'action="(/sets/jonas-tessler/shots/table/[\w-]+)"', page)
    assert found, page
    return found[1]


MAP = {"column-0": "club", "column-1": "ball speed", "column-2": "carry", "column-3": "side"}


def test_a_table_is_looked_at_mapped_and_only_then_taken(client: Client, store: Path) -> None:
    address = waits(client)
    looked = client.post(address, data={**MAP, "then": "look"}).text
    assert "<b>9</b> shots would be taken" in looked
    assert stored_sessions("jonas-tessler", store) == ()
    page = client.post(address, data={**MAP, "then": "take", "temperature": "15 degC", "surface": "mat"}).text
    assert "Taken: <bdi>9 shots</bdi>" in page
    [session] = stored_sessions("jonas-tessler", store)
    assert session.facts.surface == "mat" and session.facts.conditions.temperature is not None
    [club] = client.get("/api/sets/jonas-tessler/shots").json()["clubs"]
    assert (club["club"], club["shots"]) == ("7 iron", 9)
    assert 168 <= club["carry"]["value"] <= 172
    # Its columns are remembered, and the same shots again are no second session.
    again = waits(client)
    assert "nothing: these shots were there already" in client.post(
        again, data={**MAP, "then": "take", "temperature": "15 degC", "surface": "mat"}
    ).text.replace("&#39;", "'")


def test_a_session_is_taken_out_of_use(client: Client, store: Path) -> None:
    client.post(waits(client), data={**MAP, "then": "take"})
    client.post(f"{PAGE}/hide", data={"session": "1"})
    assert stored_sessions("jonas-tessler", store) == ()
    assert client.post(f"{PAGE}/hide", data={"session": "7"}).status_code == 400


def test_bad_rows_are_named_and_nothing_is_taken(client: Client, store: Path) -> None:
    address = waits(client, TABLE + "7 iron,999,170,0\nspoon,120,170,0\n")
    looked = client.post(address, data={**MAP, "then": "take"}).text
    assert "line 11" in looked and "line 12" in looked and "Take it in" not in looked
    assert stored_sessions("jonas-tessler", store) == ()
    assert "9 shots" in client.post(address, data={**MAP, "then": "take", "keep_good_rows": "1"}).text


def test_the_players_measures_are_kept_and_what_was_not_changed_keeps_its_source(client: Client, store: Path) -> None:
    before = stored_player("jonas-tessler", store)
    assert before is not None and before.driver_speed is not None
    client.post(
        "/sets/jonas-tessler/player", data={"driver_speed": "118 mph", "height": "1.88 m", "limits": "stiff back"}
    )
    after = stored_player("jonas-tessler", store)
    assert after is not None and after.driver_speed == before.driver_speed
    assert after.height is not None and round(after.height.number, 1) == 74.0
    page = client.get(PAGE).text
    assert "stiff back" in page and "licensed practitioner" in page


@pytest.mark.parametrize(
    "wrong",
    [{"driver_speed": "900 mph"}, {"height": "tall"}, {"driver_speed": "5 kg", "height": "tall"}],
)
def test_a_player_nobody_can_be_is_refused(client: Client, store: Path, wrong: dict[str, str]) -> None:
    before = stored_player("jonas-tessler", store)
    assert client.post("/sets/jonas-tessler/player", data=wrong).status_code == 400
    assert stored_player("jonas-tessler", store) == before


def test_weather_that_cannot_be_is_refused_before_anything_is_stored(client: Client, store: Path) -> None:
    for wrong in ({"temperature": "900 degC"}, {"wind_along": "10"}, {"date": "yesterday"}):
        assert client.post(waits(client), data={**MAP, "then": "take", **wrong}).status_code == 400
    assert stored_sessions("jonas-tessler", store) == ()


def test_the_api_tells_the_player(client: Client) -> None:
    assert client.get("/api/sets/jonas-tessler/player").json()["driver_speed"]["value"] == 118
