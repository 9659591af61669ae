"""Faults as a page says them: in the page's own words, and nothing written down where nothing is amiss."""

from __future__ import annotations

import asyncio
import logging
from typing import Any

import pytest
from litestar.testing import TestClient
from tests.web.conftest import PORT, TOKEN

Client = TestClient[Any]


def test_a_page_advises_what_a_page_can_do(client: Client) -> None:
    client.headers["accept"] = "text/html"
    told = client.get("/sets/nobody-at-all").text
    assert "the first page lists all there are" in told and "asplayed keep" not in told
    looked = client.post("/sets/ada-brandt/shots/table", data={"pasted": "Stick,Fly\n7 iron,150\n"}).text
    assert "say above which column it is" in looked and "--columns" not in looked


def test_a_change_that_cannot_be_made_comes_back_on_its_page(client: Client) -> None:
    client.headers["accept"] = "text/html"
    told = client.post("/sets/ada-brandt/edit", data={"changes": "driver: bend 1 weak"})
    assert told.status_code == 400
    assert 'role="alert"' in told.text and "driver: bend 1 weak</textarea>" in told.text
    typed = client.post("/sets/ada-brandt/edit", data={"club": "driver", "begins": "loft", "typed": "1 weak"})
    assert typed.status_code == 400 and "driver: 1 weak</textarea>" in typed.text
    assert client.post("/sets/nobody-at-all/edit", data={"changes": "driver: 1 in longer"}).status_code == 404


def test_a_visitor_who_goes_away_in_the_middle_is_no_fault_of_ours(app: Any, caplog: pytest.LogCaptureFixture) -> None:
    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "POST", "scheme": "http",
        "path": "/api/read", "raw_path": b"/api/read", "query_string": b"", "root_path": "", "client": None,
        "server": ("127.0.0.1", PORT),
        "headers": [
            (b"host", f"127.0.0.1:{PORT}".encode()), (b"authorization", f"Bearer {TOKEN}".encode()),
            (b"content-type", b"application/json"), (b"content-length", b"100"),
        ],
    }  # fmt: skip
    coming = iter([{"type": "http.request", "body": b'{"te', "more_body": True}, {"type": "http.disconnect"}])
    sent: list[Any] = []

    async def receive() -> Any:
        return next(coming, {"type": "http.disconnect"})

    async def send(message: Any) -> None:
        sent.append(message)

    with caplog.at_level(logging.DEBUG):
        asyncio.run(app(scope, receive, send))
    assert sent[0]["status"] == 400
    assert not [each for each in caplog.records if "unforeseen" in each.getMessage()]
