"""The app put together: the jobs' routes, the rules that hold for every one of them, and what they share."""

from __future__ import annotations

import contextlib
import hmac
import importlib
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

from litestar import Litestar, Request, Response, Router
from litestar.connection import ASGIConnection
from litestar.datastructures import State
from litestar.di import Provide
from litestar.handlers import HTTPRouteHandler
from litestar.handlers.base import BaseRouteHandler
from litestar.openapi import OpenAPIConfig
from litestar.openapi.plugins import JsonRenderPlugin
from litestar.params import FromPath

from asplayed import __version__
from asplayed.errors import AsplayedError, Missing
from asplayed.keeping import Store, open_store
from asplayed.web import faults, showing
from asplayed.web.access import admits, table
from asplayed.web.assets import Assets
from asplayed.web.doors import SAFE, Doors, Gate, LocalGate, form_token
from asplayed.web.kit import SMALL, Here, Tab, form_of, routes_of, visitor_of
from asplayed.web.known import Known
from asplayed.web.people import People, ShopGate
from asplayed.web.searches import Searches
from asplayed.web.settings import Settings
from asplayed.web.waiting import Waiting

# The modules of this room that hold a job each, in the order of the work and of the navigation.
JOBS = (
    "welcome",
    "taking",
    "sets",
    "what_ifs",
    "pictures",
    "players",
    "attachments",
    "choosing",
    "bench",
    "telling",
    "catalogue",
    "seasons",
    "backups",
    "accounts",
)


FIRST_PAGE = 1.0
"""Seconds that the first page has to itself before anything heavy is brought in beside it."""

LOOKED_AFTER = 3600.0
"""Seconds between two looks whether the daily backup is due."""


class App:
    """What every request of one server shares."""

    def __init__(self, store: str | Path | None, settings: Settings) -> None:
        self.store = None if store is None else str(store)
        self.settings = settings
        self.kept: Store = open_store(store)
        self.assets = Assets()
        self.known = Known(self.store)
        modules = [importlib.import_module(f"asplayed.web.{job}") for job in JOBS]
        self.routes = [route for module in modules for route in routes_of(module)]
        self.people = People(self.kept) if settings.shop else None
        self.waiting = Waiting()
        self.searches = Searches()
        self.tabs: list[Tab] = [
            module.tab
            for job, module in zip(JOBS, modules, strict=True)
            if hasattr(module, "tab") and (settings.shop or job != "accounts")
        ]
        self.set_tabs: list[Tab] = [module.set_tab for module in modules if hasattr(module, "set_tab")]

    def look_after(self) -> None:
        """Let the daily backup be made when it is due, also where the server runs for weeks."""

        def again() -> None:
            with contextlib.suppress(AsplayedError):
                open_store(self.store).close()
            self.look_after()

        waiting = threading.Timer(LOOKED_AFTER, again)
        waiting.daemon = True
        waiting.start()

    def warm(self) -> None:
        """Have the first page ready to be filled; and once it will have been asked for, what the later ones rest on."""
        showing.environment().get_template("welcome.html")
        self.assets.address("colours.css")
        self.look_after()
        waiting = threading.Timer(FIRST_PAGE, self.known.warm)
        waiting.daemon = True
        waiting.start()

    def gate(self) -> Gate:
        """Who knows the visitors: accounts in a shop, else the token of this start."""
        return LocalGate(self.settings) if self.people is None else ShopGate(self.people, self.settings.token)


def application(store: str | Path | None, settings: Settings) -> Doors:
    """The app over a store, behind its gate."""
    app = App(store, settings)
    inside = Litestar(
        route_handlers=[*app.routes, *(_open(path)(function) for path, function in OPEN.items())],
        state=State({"asplayed": app}),
        dependencies={"here": Provide(Here, sync_to_thread=False), "form": Provide(form_of)},
        guards=[allowed],
        before_request=only_own_forms,
        exception_handlers={Exception: faults.answer_fault},
        request_max_body_size=SMALL,
        logging_config=None,
        openapi_config=OpenAPIConfig(
            title="asplayed",
            version=__version__,
            description="What the command line does, as JSON: the same functions, the same shapes.",
            use_handler_docstrings=True,
            openapi_router=_description(),
            render_plugins=[JsonRenderPlugin(path="/")],
        ),
        on_startup=[app.warm] if settings.warm else [],
        on_shutdown=[app.kept.close],
    )
    return Doors(cast(Any, inside), settings, app.gate())


# ----------------------------------------------------------------------------------------------- the signs of life


def _description() -> Router:
    return Router(path="/openapi.json", route_handlers=[], opt={"route": "GET /openapi.json"}, include_in_schema=False)


def _open(path: str) -> HTTPRouteHandler:
    return HTTPRouteHandler(
        path,
        http_method="GET",
        opt={"route": f"GET {path.replace(':str', '')}"},
        sync_to_thread=False,
        include_in_schema=False,
    )


def _health() -> dict[str, str]:
    """That the server is there."""
    return {"status": "well"}


def _asset(request: Request[Any, Any, Any], digest: FromPath[str], name: FromPath[str]) -> Response[bytes]:
    """A script, a style, a font or an icon, to be kept for ever: its address changes with it."""
    assets: Assets = request.app.state.asplayed.assets
    found = assets.files.get(name) if digest == assets.digest else None
    if found is None:
        raise Missing("there is no such file; load the page anew")
    headers = {"cache-control": "public, max-age=31536000, immutable", "vary": "accept-encoding"}
    content = found.content
    if found.packed is not None and "gzip" in request.headers.get("accept-encoding", ""):
        content = found.packed
        headers["content-encoding"] = "gzip"
    return Response(content, media_type=found.kind, headers=headers)


OPEN: dict[str, Callable[..., Any]] = {
    "/health": _health,
    "/assets/{digest:str}/{name:str}": _asset,
}

# ------------------------------------------------------------------------------------------ what holds for every route


async def allowed(connection: ASGIConnection[Any, Any, Any, Any], handler: BaseRouteHandler) -> None:
    """Let through whom the table lets through; a set that is not the visitor's is as if it were not there."""
    route = handler.opt.get("route", "")
    visitor = visitor_of(connection)
    if not admits(route, visitor):
        raise faults.Forbidden("this is not among what your role may do; ask the keeper of the shop")
    if (
        visitor is not None
        and visitor.player is not None
        and visitor.stands_as == "player"
        and table()[route].owner == "set"
    ):
        from anyio.to_thread import run_sync

        name = connection.path_params.get("name", "")
        app: App = connection.app.state.asplayed
        await run_sync(_theirs, name, visitor.player, app.store)


def _theirs(name: str, player: str, store: str | None) -> None:
    from asplayed.keeping import read_set

    if read_set(name, store).golf_set.set.player != player:
        raise Missing(f"there is no set {name!r}")


async def only_own_forms(request: Request[Any, Any, Any]) -> Response[Any] | None:
    """Refuse what would change something unless a page of this session sent it, or a script with the token itself."""
    if request.method in SAFE:
        return None
    visitor = visitor_of(request)
    if visitor is None:
        # Signing in: nobody to forge yet, but the form must be ours.
        own = request.headers.get("origin") or request.headers.get("sec-fetch-site") == "same-origin"
        return None if own else faults.told(request, 403, "this form does not come from a page of this server")
    if not visitor.session:
        return None
    given = request.headers.get("x-csrf-token")
    if given is None and request.content_type[0] in ("application/x-www-form-urlencoded", "multipart/form-data"):
        field = (await request.form()).get("csrf")
        given = field if isinstance(field, str) else None
    if given is not None and hmac.compare_digest(given.encode(), form_token(visitor.session).encode()):
        return None
    return faults.told(request, 403, "this form has gone stale, or is not ours; load the page anew and try again")
