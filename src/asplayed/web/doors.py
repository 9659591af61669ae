"""The one gate before every page: which machine is spoken to, from which page, and by whom.

A page from elsewhere cannot reach the app: the Host must be ours (a name turned to this machine is refused), a request
that says where it comes from must come from here, and without the token of this start, or a session it opened, nothing
but the signs of life is answered.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Mapping
from http.cookies import CookieError, SimpleCookie
from typing import Protocol
from urllib.parse import parse_qsl, urlencode

from asplayed.web import headers
from asplayed.web.access import Visitor
from asplayed.web.asgi import VISITOR, App, Message, Receive, Scope, Send
from asplayed.web.settings import Settings

SAFE = frozenset({"GET", "HEAD"})
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "DELETE"})
OPEN_PATHS = frozenset({"/health", "/openapi.json", "/sign-in", "/begin"})
"""Answered without a session; the table of access says the same of them."""


class Gate(Protocol):
    """Knows visitors: by the token or session that a request brings."""

    def by_session(self, session: str) -> Visitor | None:
        """The visitor of a session that is still alive."""

    def by_token(self, token: str) -> Visitor | None:
        """The visitor who shows a token instead."""

    def open_session(self, token: str) -> str | None:
        """A new session for who shows the right token."""

    def first_way(self) -> str:
        """The path by which somebody comes in first."""


class LocalGate:
    """This machine's user: whoever shows the token of this start. Sessions end with the server."""

    def __init__(self, settings: Settings) -> None:
        self._token = settings.token
        self._who = settings.who
        self._sessions: set[str] = set()

    def by_session(self, session: str) -> Visitor | None:
        """The user of this machine, where the session was opened by this start of the server."""
        return Visitor(self._who, "keeper", session) if session in self._sessions else None

    def by_token(self, token: str) -> Visitor | None:
        """The user of this machine, where the token is that of this start."""
        right = bool(self._token) and hmac.compare_digest(token.encode(), self._token.encode())
        return Visitor(self._who, "keeper", "") if right else None

    def open_session(self, token: str) -> str | None:
        """A session for the user of this machine."""
        if self.by_token(token) is None:
            return None
        session = secrets.token_urlsafe(16)
        self._sessions.add(session)
        return session

    def first_way(self) -> str:
        """The first page, with the token."""
        return f"/?token={self._token}"


def form_token(session: str) -> str:
    """The token that every form of a session carries: from the session's secret, which no page can read.

    >>> form_token("one") == form_token("one") != form_token("two")
    True
    """
    return hmac.new(session.encode(), b"forms", hashlib.sha256).hexdigest()


def cookie_header(settings: Settings, value: str, *, name: str | None = None, lasting: int | None = None) -> str:
    """A cookie that scripts cannot read and that no other site's page sends along."""
    age = "" if lasting is None else f"; Max-Age={lasting}"
    secure = "; Secure" if settings.secure else ""
    return f"{name or settings.cookie}={value}; Path=/; HttpOnly; SameSite=Strict{age}{secure}"


class Doors:
    """The app behind its gate."""

    def __init__(self, inside: App, settings: Settings, gate: Gate) -> None:
        self.inside = inside
        self.settings = settings
        self.gate = gate

    def first_way(self) -> str:
        """What follows the server's address where somebody opens it first."""
        return self.gate.first_way()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request in, or say why not."""
        if scope["type"] == "lifespan":
            await self.inside(scope, receive, send)
            return
        if scope["type"] != "http":
            await receive()
            await send({"type": "websocket.close", "code": 1008, "reason": ""})
            return

        async def guarded_send(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = headers.guarded(list(message["headers"]), secure=self.settings.secure)
            await send(message)

        await self._let_in(scope, receive, guarded_send)

    async def _let_in(self, scope: Scope, receive: Receive, send: Send) -> None:
        from asplayed.web.faults import refuse

        given = _headers(scope)
        method, path = scope["method"], scope["path"]
        if fault := self._foreign(given, method):
            await refuse(scope, send, 403, fault)
            return
        if method not in METHODS:
            await refuse(scope, send, 405, f"{method[:20]} is not understood here")
            return
        if path.startswith("/assets/"):
            scope[VISITOR] = None
            await self.inside(scope, receive, send)
            return
        if method == "GET" and not self.settings.shop and await self._came_with_token(scope, send):
            return
        visitor = await self._visitor(given)
        scope[VISITOR] = visitor
        if visitor is None and path not in OPEN_PATHS:
            if self.settings.shop and method == "GET" and not path.startswith("/api/"):
                await _redirect(send, "/sign-in")
                return
            sentence = (
                "sign in first"
                if self.settings.shop
                else "open the whole address that asplayed serve printed: it holds the key of this start"
            )
            await refuse(scope, send, 403, sentence)
            return
        await self.inside(scope, receive, send)

    def _foreign(self, given: Mapping[str, str], method: str) -> str | None:
        """Why a request does not come from a page of ours; None where it may."""
        if given.get("host", "").lower() not in self.settings.hosts:
            return "this server does not go by that name; use the address that asplayed serve printed"
        origin = given.get("origin")
        if origin is not None and origin.lower() not in self.settings.origins:
            return "this request comes from a page of another site"
        site = given.get("sec-fetch-site", "same-origin")
        followed = method == "GET" and given.get("sec-fetch-mode") == "navigate"
        if site not in ("same-origin", "none") and not (followed and given.get("sec-fetch-dest") == "document"):
            return "this request comes from a page of another site"
        return None

    async def _visitor(self, given: Mapping[str, str]) -> Visitor | None:
        from anyio.to_thread import run_sync

        scheme, _, token = given.get("authorization", "").partition(" ")
        if scheme.lower() == "bearer":
            return await run_sync(self.gate.by_token, token.strip())
        session = cookies(given.get("cookie", "")).get(self.settings.cookie)
        return await run_sync(self.gate.by_session, session) if session else None

    async def _came_with_token(self, scope: Scope, send: Send) -> bool:
        """Turn the token in an address into a session, and the address into one that may be seen."""
        asked = parse_qsl(scope["query_string"].decode("latin-1"), keep_blank_values=True)
        token = next((value for name, value in asked if name == "token"), None)
        session = self.gate.open_session(token) if token else None
        if session is None:
            return False
        rest = urlencode([(name, value) for name, value in asked if name != "token"])
        # One slash only: an address that begins with two would lead to another machine.
        path = "/" + scope["path"].lstrip("/\\")
        await _redirect(send, quoted(path) + (f"?{rest}" if rest else ""), cookie=cookie_header(self.settings, session))
        return True


def quoted(path: str) -> str:
    """A path as it may stand in a header."""
    from urllib.parse import quote

    return quote(path, safe="/~")


def cookies(header: str) -> dict[str, str]:
    """The cookies in a header; one that cannot be read is none."""
    try:
        return {name: entry.value for name, entry in SimpleCookie(header).items()}
    except CookieError:
        return {}


def _headers(scope: Scope) -> dict[str, str]:
    """The headers by name; of one sent twice, both: no allowed value has a comma."""
    found: dict[str, str] = {}
    for name, value in scope["headers"]:
        key, text = name.decode("latin-1").lower(), value.decode("latin-1")
        joined = "; " if key == "cookie" else ", "
        found[key] = f"{found[key]}{joined}{text}" if key in found else text
    return found


async def _redirect(send: Send, where: str, *, cookie: str | None = None) -> None:
    sent = [(b"location", where.encode("latin-1", "replace")), (b"content-length", b"0")]
    if cookie is not None:
        sent.append((b"set-cookie", cookie.encode()))
    await send({"type": "http.response.start", "status": 303, "headers": sent})
    await send({"type": "http.response.body", "body": b"", "more_body": False})
