"""Who may do what: one table of route × role × owner, and the rule that reads it."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Literal, NamedTuple, get_args

Role = Literal["reader", "fitter", "builder", "keeper"]
ROLES: tuple[Role, ...] = get_args(Role)

# What the table may name. A `player` is a reader tied to one player; `anyone` need not be signed in.
_MAY: dict[str, frozenset[str]] = {
    "anyone": frozenset({"nobody", "player", *ROLES}),
    "player": frozenset({"player", *ROLES}),
    "reader": frozenset(ROLES),
    "fitter": frozenset({"fitter", "keeper"}),
    "builder": frozenset({"builder", "keeper"}),
    "bench": frozenset({"fitter", "builder", "keeper"}),
    "keeper": frozenset({"keeper"}),
}


class Visitor(NamedTuple):
    """Somebody who was let in: under what name, in what role, and in which session."""

    who: str
    role: Role
    session: str
    """Names the session; nothing for a script that sends the token itself."""
    player: str | None = None
    """The one player whose sets a tied reader sees; None: every set."""
    account: int | None = None

    @property
    def stands_as(self) -> str:
        """The role as the table knows it."""
        return "player" if self.role == "reader" and self.player is not None else self.role


class Row(NamedTuple):
    """One row of the table: who may call a route, and what else must be theirs."""

    may: frozenset[str]
    owner: Literal["set", "self"] | None


@cache
def table() -> dict[str, Row]:
    """The table by route, such as `GET /sets/{name}`."""
    text = resources.files("asplayed.web").joinpath("data", "access.toml").read_text(encoding="utf-8")
    found = {}
    for route, row in tomllib.loads(text).items():
        found[route] = Row(_MAY[row["role"]], row.get("owner"))
    return found


def admits(route: str, visitor: Visitor | None) -> bool:
    """True when the table has a row for the route and lets this visitor through.

    >>> admits("GET /health", None), admits("GET /no-such-route", Visitor("ada", "keeper", ""))
    (True, False)
    """
    row = table().get(route)
    return row is not None and (visitor.stands_as if visitor else "nobody") in row.may
