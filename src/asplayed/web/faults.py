"""Faults as a page or as JSON: one sentence, the right status, and never what lies behind it."""

from __future__ import annotations

import json
import logging
import re
import tomllib
import traceback
from functools import cache
from importlib import resources
from typing import Any

from litestar import MediaType, Request, Response
from litestar.exceptions import HTTPException, InternalServerException, ValidationException

from asplayed.errors import AsplayedError, BadInput, Missing, Refused, Stale, StoreUnusable
from asplayed.web.asgi import Scope, Send

log = logging.getLogger("asplayed.web")

TITLES = {
    400: "This cannot be used",
    403: "Not from here",
    404: "Nothing here",
    405: "Not done this way",
    409: "Somebody was quicker",
    413: "Too large",
    415: "Not of a kind taken here",
    429: "Wait a while",
    500: "This went wrong",
    503: "The store cannot be used",
}


GONE = "client disconnected prematurely"
"""What the framework says of a request whose sender went away before all of it was sent."""


class Forbidden(AsplayedError):
    """What this visitor may not do."""


class Slow(AsplayedError):
    """Too many tries; later again."""


def status_of(fault: Exception) -> int:
    """The status that tells a script about a fault.

    >>> status_of(Missing("there is no set")), status_of(BadInput("no"))
    (404, 400)
    """
    for kind, status in (
        (Missing, 404), (Stale, 409), (BadInput, 400), (Forbidden, 403), (Slow, 429), (StoreUnusable, 503),
    ):  # fmt: skip
        if isinstance(fault, kind):
            return status
    if _gone(fault):
        return 400
    return fault.status_code if isinstance(fault, HTTPException) else 500


def _gone(fault: Exception) -> bool:
    """True where nobody waits for the answer any more: nothing that is amiss here."""
    return isinstance(fault, InternalServerException) and fault.detail == GONE


@cache
def _ways() -> tuple[tuple[re.Pattern[str], str], ...]:
    text = resources.files("asplayed.web").joinpath("data/ways.toml").read_text("utf-8")
    return tuple((re.compile(advice), instead) for advice, instead in tomllib.loads(text).items())


def on_a_page(sentence: str) -> str:
    """A fault's sentence with what a page offers in place of what is typed at a prompt.

    >>> on_a_page("there is no set 'x', and no file of that name; asplayed keep list shows all")
    "there is no set 'x'; the first page lists all there are"
    """
    for advice, instead in _ways():
        sentence = advice.sub(instead, sentence)
    return sentence


def sentences_of(fault: BadInput) -> tuple[str, ...]:
    """Every fault in a sentence of its own, as a page says it."""
    several = fault.faults if isinstance(fault, Refused) and fault.faults else (str(fault),)
    return tuple(on_a_page(each) for each in several)


def wants_json(path: str, accept: str) -> bool:
    """True where a script asks rather than somebody with a browser."""
    return path.startswith(("/api/", "/openapi.json", "/health")) or ("text/html" not in accept and "json" in accept)


def answer_fault(request: Request[Any, Any, Any], fault: Exception) -> Response[Any]:
    """What is answered where a handler could not do what was asked."""
    status = status_of(fault)
    sentence, several = _sentence(fault, status)
    if not wants_json(request.url.path, request.headers.get("accept", "")):
        sentence, several = on_a_page(sentence), tuple(map(on_a_page, several))
    if status >= 500 and not isinstance(fault, AsplayedError):
        # Where it happened, but not what was in hand: a name, a password or a token may have been.
        places = [
            f"{frame.name} ({frame.filename}:{frame.lineno})" for frame in traceback.extract_tb(fault.__traceback__)
        ]
        log.error("unforeseen %s at %s", type(fault).__name__, " < ".join(reversed(places[-8:])))
    return told(request, status, sentence, several)


def told(request: Request[Any, Any, Any], status: int, sentence: str, several: tuple[str, ...] = ()) -> Response[Any]:
    """A fault's sentence as JSON or as a page."""
    if wants_json(request.url.path, request.headers.get("accept", "")):
        body = {"fault": sentence, **({"faults": list(several)} if several else {})}
        return Response(body, media_type=MediaType.JSON, status_code=status)
    from asplayed.web.kit import Here, page

    title = TITLES.get(status, "This cannot be done")
    return page(Here(request), "fault.html", status=status, title=title, sentence=sentence, faults=several)


def _sentence(fault: Exception, status: int) -> tuple[str, tuple[str, ...]]:
    if isinstance(fault, Refused):
        return fault.what, fault.faults[: Refused.shown]
    if isinstance(fault, AsplayedError):
        return str(fault), ()
    if isinstance(fault, ValidationException):
        extra = fault.extra if isinstance(fault.extra, list) else []
        named = tuple(f"{each.get('key', '')}: {each.get('message', '')}".strip(": ") for each in extra[:20])
        return "what was sent does not have the shape this takes", named
    if isinstance(fault, HTTPException):
        plain = {
            404: "there is no page at this address",
            405: "this address does not take that method",
            413: "what was sent is larger than is taken here",
            415: "what was sent is not of a kind that is taken here",
        }
        return plain.get(status, "what was sent cannot be read"), ()
    return "this could not be done, and nothing was stored; please tell us what you were about to do", ()


async def refuse(scope: Scope, send: Send, status: int, sentence: str) -> None:
    """Turn a request away at the gate, before anything of the app is asked."""
    from html import escape

    accept = next((value for name, value in scope["headers"] if name == b"accept"), b"").decode("latin-1")
    if wants_json(scope["path"], accept):
        kind, body = "application/json", json.dumps({"fault": sentence})
    else:
        kind = "text/html; charset=utf-8"
        title = TITLES.get(status, "This cannot be done")
        body = (
            f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
            '<link rel="icon" href="data:,"></head>'
            f"<body><main><h1>{escape(title)}</h1><p>{escape(sentence.capitalize())}.</p></main></body></html>\n"
        )
    content = body.encode()
    headers = [(b"content-type", kind.encode()), (b"content-length", str(len(content)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send(
        {"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else content, "more_body": False}
    )
