"""Nobody in who does not belong: promises 19, 20 and 24, over every route there is."""

from __future__ import annotations

from typing import Any

from litestar.testing import TestClient

from asplayed.web.access import table


def routes(app: Any) -> list[str]:
    """Every route of the app, as the table names them."""
    return sorted(
        {
            handler.opt["route"]
            for route in app.inside.routes
            for handler in getattr(route, "route_handlers", [])
            if "route" in handler.opt
        }
    )


def test_every_route_has_a_row_in_the_table_and_every_row_a_route(app: Any) -> None:
    unnamed = [
        f"{route.path}: {handler}"
        for route in app.inside.routes
        for handler in getattr(route, "route_handlers", [])
        if "route" not in handler.opt and handler.http_methods != {"OPTIONS"}
    ]
    assert not unnamed
    assert routes(app) == sorted(table())


def test_the_signs_of_life_are_given_to_anybody_and_nothing_else(stranger: TestClient[Any]) -> None:
    assert stranger.get("/health").json() == {"status": "well"}
    described = stranger.get("/openapi.json")
    assert described.status_code == 200
    assert "/api/sets" in described.json()["paths"]
    for path in ("/", "/api/sets", "/no-such-page", "/sets/ada-brandt"):
        refused = stranger.get(path)
        assert refused.status_code == 403
        assert "brandt" not in refused.text
