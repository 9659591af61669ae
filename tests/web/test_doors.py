"""Nobody in who does not belong: promises 19, 20 and 24, over every route there is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient
from tests.web.conftest import BASE, PORT, TOKEN, visiting

from asplayed.keeping.reading import reading
from asplayed.web.access import table
from asplayed.web.doors import OPEN_PATHS, Doors, form_token
from asplayed.web.headers import POLICY
from asplayed.web.settings import Settings

FILLED = {"name": "ada-brandt", "account": "1", "version": "1", "digest": "0" * 16, "sha256": "0" * 64}
OTHERS = (
    "evil.example", "evil.example:8000", "127.0.0.1.evil.example:8000", "localhost.evil.example", "127.0.0.1",
    "127.0.0.1:8001", "localhost", "localhost:80", "0.0.0.0:8000", "[::]:8000", "127.1:8000", "2130706433:8000",
    "0x7f000001:8000", "127.0.0.2:8000", "localhost.:8000", "127.0.0.1:8000.", "user@127.0.0.1:8000",
    "127.0.0.1:8000@evil.example", "evil.example#127.0.0.1:8000", "127.0.0.1:8000, evil.example", " ", "null",
    "xn--lcalhost-54a:8000", "ｌocalhost:8000", "127.0.0.1:08000",
)  # fmt: skip


def filled(route: str) -> tuple[str, str]:
    """A route's method and its path, its parameters filled with what is there."""
    method, _, path = re.sub(r"{(\w+)}", lambda part: FILLED.get(part[1], "none"), route).partition(" ")
    return method, path


def routes(app: Doors) -> list[tuple[str, str]]:
    """Every method and path the app answers, its parameters filled with what is there."""
    inside: Any = app.inside
    found = {
        handler.opt["route"]
        for route in inside.routes
        for handler in getattr(route, "route_handlers", [])
        if "route" in handler.opt
    }
    return sorted(filled(route) for route in found)


def rows(store: Path) -> list[Any]:
    """Everything that was ever done in a store."""
    with reading(store) as read:
        return [*read("SELECT * FROM actions"), *read("SELECT * FROM records")]


@pytest.fixture
def session(app: Doors) -> Iterator[TestClient[Any]]:
    """A browser that came in with the token, and sends nothing but its cookie."""
    with visiting(app, accept="text/html") as client:
        assert client.get(f"/?token={TOKEN}", follow_redirects=False).status_code == 303
        yield client


def test_every_route_has_a_row_in_the_table_and_every_row_a_route(app: Doors) -> None:
    inside: Any = app.inside
    handlers = [handler for route in inside.routes for handler in getattr(route, "route_handlers", [])]
    unnamed = [handler for handler in handlers if "route" not in handler.opt and handler.http_methods != {"OPTIONS"}]
    assert not unnamed
    assert {handler.opt["route"] for handler in handlers if "route" in handler.opt} == set(table())


def test_the_signs_of_life_are_given_to_anybody_and_nothing_else(app: Doors, stranger: TestClient[Any]) -> None:
    assert stranger.get("/health").json() == {"status": "well"}
    described = stranger.get("/openapi.json")
    assert described.status_code == 200
    assert "/api/sets" in described.json()["paths"]
    for path in ("/no-such-page", "/sets", "/api", "/sets/ada-brandt/none"):
        assert stranger.get(path).status_code == 403


def test_without_the_token_every_route_is_shut_and_nothing_is_written(
    app: Doors, stranger: TestClient[Any], store: Path
) -> None:
    before = rows(store)
    for method, path in routes(app):
        if path in OPEN_PATHS or path.startswith("/assets/"):
            continue
        for sent in ({}, {"authorization": "Bearer wrong"}, {"cookie": f"asplayed-{PORT}=wrong"}):
            answer = stranger.request(method, path, headers=sent)
            assert answer.status_code == 403, (method, path)
            assert "brandt" not in answer.text.lower()
    assert rows(store) == before


def test_no_other_name_reaches_any_route(app: Doors, client: TestClient[Any]) -> None:
    for host in OTHERS:
        for method, path in routes(app):
            answer = client.request(method, path, headers={"host": host.encode()})
            assert answer.status_code == 403, (host, method, path)


def test_no_page_of_another_origin_reaches_any_route(app: Doors, client: TestClient[Any], store: Path) -> None:
    before = rows(store)
    for origin in ("null", *(f"http://{host}" for host in OTHERS), "https://127.0.0.1:8000"):
        for method, path in routes(app):
            answer = client.request(method, path, headers={"origin": origin.encode()})
            assert answer.status_code == 403, (origin, method, path)
            assert "access-control-allow-origin" not in answer.headers
    assert rows(store) == before


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_what_another_site_began_is_refused_but_for_a_link_that_is_followed(
    app: Doors, client: TestClient[Any], site: str
) -> None:
    for method, path in routes(app):
        assert client.request(method, path, headers={"sec-fetch-site": site}).status_code == 403, (method, path)
        framed = {"sec-fetch-site": site, "sec-fetch-mode": "navigate", "sec-fetch-dest": "iframe"}
        assert client.request(method, path, headers=framed).status_code == 403, (method, path)
    followed = {"sec-fetch-site": site, "sec-fetch-mode": "navigate", "sec-fetch-dest": "document"}
    assert client.get("/", headers=followed).status_code == 200
    assert client.post("/look", headers=followed).status_code == 403


def test_no_form_is_taken_without_its_token(app: Doors, session: TestClient[Any], store: Path) -> None:
    before = rows(store)
    for method, path in routes(app):
        if method == "GET":
            continue
        for sent in ({}, {"csrf": "wrong"}, {"csrf": form_token("another session")}):
            assert session.request(method, path, data=sent).status_code == 403, (method, path)
            header = {"x-csrf-token": sent.get("csrf", "")}
            assert session.request(method, path, json={}, headers=header).status_code == 403, (method, path)
    assert rows(store) == before
    kept = session.cookies[f"asplayed-{PORT}"]
    taken = session.post("/look", data={"csrf": form_token(kept), "units": "metric"}, follow_redirects=False)
    assert taken.status_code == 303


def test_no_get_writes(app: Doors, client: TestClient[Any], store: Path) -> None:
    before = rows(store)
    for method, path in routes(app):
        if method == "GET":
            assert client.get(path).status_code < 500, path
    assert rows(store) == before


def test_redirections_stay_here(session: TestClient[Any]) -> None:
    token = form_token(session.cookies[f"asplayed-{PORT}"])
    for back in (
        "//evil.example",
        "https://evil.example",
        "/\\evil.example",
        "\\\\evil.example",
        "javascript:alert(1)",
    ):
        answer = session.post("/look", data={"csrf": token, "back": back}, follow_redirects=False)
        assert answer.headers["location"] == "/"
    for path in ("//evil.example/", "/%2Fevil.example/"):
        answer = session.get(f"{path}?token={TOKEN}", follow_redirects=False)
        assert not answer.headers.get("location", "/").startswith(("//", "/\\", "http"))


def test_the_token_leaves_the_address_and_the_cookie_is_nobody_elses(app: Doors) -> None:
    with visiting(app) as client:
        answer = client.get(f"/sets/ada-brandt?token={TOKEN}&beside=jonas-tessler", follow_redirects=False)
        assert answer.headers["location"] == "/sets/ada-brandt?beside=jonas-tessler"
        cookie = answer.headers["set-cookie"]
        assert "HttpOnly" in cookie
        assert "SameSite=Strict" in cookie
        assert TOKEN not in cookie
        assert client.get("/?token=wrong", headers={"cookie": ""}).status_code in (200, 403)


def test_every_answer_carries_the_headers_that_guard_it(app: Doors, client: TestClient[Any]) -> None:
    for method, path in [*routes(app), ("GET", "/no-such-page")]:
        headers = client.request(method, path).headers
        assert headers["content-security-policy"] == POLICY
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["x-frame-options"] == "DENY"
        if not path.startswith("/assets/"):
            assert headers["cache-control"] == "no-store"
    assert "unsafe" not in POLICY


def test_over_tls_cookies_travel_over_nothing_else(store: Path) -> None:
    from asplayed.web import application

    secure = Settings(PORT, token=TOKEN, secure=True)
    with TestClient(application(store, secure), base_url=BASE.replace("http:", "https:")) as client:
        answer = client.get(f"/?token={TOKEN}", follow_redirects=False)
        assert answer.headers["set-cookie"].startswith(f"__Host-asplayed-{PORT}=")
        assert "; Secure" in answer.headers["set-cookie"]
        assert answer.headers["strict-transport-security"]
