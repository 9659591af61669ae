"""What a job's module is written with: the request as it stands, forms, pages, and the three kinds of route.

`shown` answers a GET with a page and writes nothing; `done` takes a form and answers with a redirection; `asked` is the
JSON API. All run in a thread, so that the functions below may take their time.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, get_type_hints
from urllib.parse import quote

import msgspec
from anyio.to_thread import run_sync
from litestar import MediaType, Request, Response
from litestar.connection import ASGIConnection
from litestar.datastructures import FormMultiDict, UploadFile
from litestar.di import NamedDependency
from litestar.handlers import HTTPRouteHandler
from litestar.openapi.datastructures import ResponseSpec
from litestar.params import FromPath, FromQuery, JSONBody

from asplayed.errors import BadInput, Missing
from asplayed.web import showing
from asplayed.web.access import Visitor
from asplayed.web.asgi import VISITOR
from asplayed.web.doors import form_token

if TYPE_CHECKING:
    from asplayed.keeping import Store
    from asplayed.web.app import App

MEGABYTE = 1_000_000
SMALL, LARGE = 1 * MEGABYTE, 64 * MEGABYTE
"""The largest body of a request, and of one that brings a file."""

Units = Literal["imperial", "metric"]
Theme = Literal["auto", "light", "dark"]
Method = Literal["GET", "POST", "PUT", "DELETE"]


class Tab(NamedTuple):
    """A job's place in the navigation: its words, its address (`{name}` is the set's), the keys that lead there."""

    words: str
    path: str
    keys: str


class Preferences(NamedTuple):
    """How this browser wants things shown."""

    units: Units = "imperial"
    theme: Theme = "auto"


class Upload(NamedTuple):
    """A file that came with a form: its name, only ever shown, never used as a path; and its bytes."""

    name: str
    content: bytes


class Form:
    """The fields of a form that was sent."""

    def __init__(self, fields: FormMultiDict) -> None:
        self._fields = fields

    def text(self, name: str, default: str = "") -> str:
        """One field's text, without the white space around it."""
        value = self._fields.get(name, default)
        return value.strip() if isinstance(value, str) else default

    def secret(self, name: str) -> str:
        """A password as it was typed, its spaces too."""
        value = self._fields.get(name, "")
        return value if isinstance(value, str) else ""

    def long_text(self, name: str) -> str:
        """One field's text as it was written."""
        value = self._fields.get(name, "")
        return value.replace("\r\n", "\n") if isinstance(value, str) else ""

    def texts(self, name: str) -> list[str]:
        """Every text of a field that may come several times."""
        return [value for value in self._fields.getall(name, []) if isinstance(value, str)]

    def number(self, name: str) -> int | None:
        """A field that holds a whole number; None where it is left empty."""
        text = self.text(name)
        if not text:
            return None
        if not text.lstrip("-").isdecimal() or len(text) > 15:
            raise BadInput(f"{name.replace('_', ' ')} is {text[:40]!r}; write a whole number")
        return int(text)

    def pairs(self) -> list[tuple[str, str]]:
        """Every text field with its name, in their order."""
        return [(name, value) for name, value in self._fields.multi_items() if isinstance(value, str)]

    def file(self, name: str) -> Upload | None:
        """The file sent in a field; None where none was chosen."""
        found = self._fields.get(name)
        if not isinstance(found, UploadFile) or not found.filename:
            return None
        return Upload(found.filename, found.file.read())


class Here:
    """One request as a job sees it: whose it is, where the records are, how it wants things shown."""

    def __init__(self, request: Request[Any, Any, Any]) -> None:
        self.request = request
        self.app: App = request.app.state.asplayed

    @property
    def store(self) -> str | None:
        """The store, for the functions of `keeping` that take `where`."""
        return self.app.store

    @property
    def kept(self) -> Store:
        """The open store, for what writes."""
        return self.app.kept

    @property
    def visitor(self) -> Visitor | None:
        """Who asks; None on the few pages that answer anybody."""
        return visitor_of(self.request)

    @property
    def who(self) -> str:
        """The name under which what is stored is signed."""
        return self.visitor.who if self.visitor else "nobody"

    @property
    def csrf(self) -> str:
        """The token that this session's forms carry."""
        return form_token(self.visitor.session) if self.visitor else ""

    @functools.cached_property
    def preferences(self) -> Preferences:
        """How this browser wants things shown; what its cookie does not say stays as usual."""
        units, _, theme = self.request.cookies.get(f"{self.app.settings.cookie}-look", "").partition(".")
        return Preferences(
            "metric" if units == "metric" else "imperial",
            "dark" if theme == "dark" else "light" if theme == "light" else "auto",
        )

    def may(self, route: str) -> bool:
        """True when the one who asks may call this route: what he may not is not offered."""
        from asplayed.web.access import admits

        return admits(route, self.visitor)

    def sees(self, player: str | None) -> bool:
        """True when a set of this player may be seen: a reader tied to one player sees only that player's."""
        tied = self.visitor.player if self.visitor and self.visitor.stands_as == "player" else None
        return tied is None or player == tied


# ------------------------------------------------------------------------------------------------------- answers

Page = Response[str]
Answer = Response[Any]


def page(here: Here, template: str, *, status: int = 200, **given: Any) -> Page:
    """A page from its template, which is told who asks and how he wants things shown."""
    return Response(showing.filled(here, template, given), media_type=MediaType.HTML, status_code=status)


def see_other(path: str) -> Answer:
    """Go to another page of this app, after a form was taken."""
    if not path.startswith("/") or path.startswith(("//", "/\\")):
        raise ValueError(f"{path!r} leads elsewhere")
    return Response(b"", status_code=303, headers={"location": quote(path, safe="/~?&=%#+:,;@!$'()*")})


def download(content: bytes, name: str, kind: str) -> Answer:
    """A file to be kept, never opened in the page's own name."""
    plain = "".join(c if c.isascii() and (c.isalnum() or c in "-_. ") else "-" for c in name).strip(". ") or "file"
    shown = f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(name, safe='')}"
    return Response(content, media_type=kind, headers={"content-disposition": shown})


def packed(files: Mapping[str, bytes]) -> bytes:
    """Files in one archive."""
    import io
    import zipfile

    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return made.getvalue()


def part_of_path(words: str) -> str:
    """Words as one step of an address."""
    return quote(words, safe="")


def missing(sentence: str) -> Missing:
    """The fault for what is not there, or not for the one who asks: the two are not told apart."""
    return Missing(sentence)


# -------------------------------------------------------------------------------------------------------- routes


def _route(path: str, method: Method, **given: Any) -> Callable[[Callable[..., Any]], HTTPRouteHandler]:
    upload = given.pop("upload", False)

    def decorate(function: Callable[..., Any]) -> HTTPRouteHandler:
        function.__annotations__ = _named(function, path)

        @functools.wraps(function)
        async def in_a_thread(**given: Any) -> Any:
            return await run_sync(functools.partial(function, **given))

        made = HTTPRouteHandler(
            path,
            http_method=method,
            opt={"route": f"{method} {path.replace(':str}', '}').replace(':int}', '}')}"},
            request_max_body_size=LARGE if upload else SMALL,
            **given,
        )
        handler: HTTPRouteHandler = made(in_a_thread)
        return handler

    return decorate


def _named(function: Callable[..., Any], path: str) -> dict[str, Any]:
    """What a route's function takes, each with where it comes from: the app, the path, the body or the query."""
    found = get_type_hints(function, include_extras=True)
    for name, kind in found.items():
        marker: Any = (
            NamedDependency if name in ("here", "form")
            else FromPath if f"{{{name}:" in path
            else JSONBody if name == "data"
            else FromQuery
        )  # fmt: skip
        if name != "return":
            found[name] = marker[kind]
    return found


def shown(path: str) -> Callable[[Callable[..., Any]], HTTPRouteHandler]:
    """A page: GET, HTML; never writes."""
    return _route(path, "GET", include_in_schema=False, status_code=200)


def done(path: str, *, upload: bool = False) -> Callable[[Callable[..., Any]], HTTPRouteHandler]:
    """What a form does: POST; answers with `see_other`, or with a page that says what is wrong."""
    return _route(path, "POST", include_in_schema=False, status_code=200, upload=upload)


def asked(
    path: str,
    *,
    method: Method = "GET",
    answers: Any = None,
    status: int = 200,
    upload: bool = False,
) -> Callable[[Callable[..., Any]], HTTPRouteHandler]:
    """A route of the JSON API. `answers` is the record whose shape its answer has, for the description of the API."""
    responses = {status: ResponseSpec(data_container=answers, generate_examples=False)} if answers is not None else {}
    responses |= {
        code: ResponseSpec(data_container=Fault, description=words, generate_examples=False)
        for code, words in FAULTS.items()
    }
    return _route(path, method, status_code=status, responses=responses, upload=upload)


class Fault(msgspec.Struct, frozen=True):
    """What the JSON API answers where something cannot be done: a sentence, and every fault where there are several."""

    fault: str
    faults: tuple[str, ...] = ()


FAULTS = {
    400: "What was given cannot be used; nothing was stored.",
    403: "Not for you, or not from here.",
    404: "There is nothing of that name, or it is not yours to see.",
    409: "Somebody else stored a newer version; nothing was stored.",
    413: "Larger than is taken.",
    503: "The store cannot be used.",
}


def visitor_of(connection: ASGIConnection[Any, Any, Any, Any]) -> Visitor | None:
    """Whom the gate let in; None where it lets anybody."""
    found: Any = connection.scope.get(VISITOR)
    return found if isinstance(found, Visitor) else None


async def form_of(request: Request[Any, Any, Any]) -> Form:
    """The form of a request; a request that brings none has no fields."""
    return Form(await request.form())


def routes_of(module: Any) -> Sequence[HTTPRouteHandler]:
    """The routes of a job's module."""
    found: Sequence[HTTPRouteHandler] = module.routes
    return found
