"""What a server is told at its start: where it listens, by which names it is reached, and who may come in."""

from __future__ import annotations

import secrets
from typing import NamedTuple

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")


class Settings(NamedTuple):
    """How one server runs. `token` opens the app on this machine; a shop has accounts instead."""

    port: int
    token: str = ""
    shop: bool = False
    secure: bool = False
    """True when it speaks TLS: cookies then travel over nothing else."""
    names: tuple[str, ...] = ()
    """Names by which other machines reach it; on this machine it is always reached by the loopback's."""
    who: str = "unknown"
    """The name under which changes are stored where there are no accounts: that of this machine's user."""

    warm: bool = False
    """True to bring in at the start, beside the first requests, what the later ones rest on."""

    @property
    def scheme(self) -> str:
        """http, or https where it speaks TLS."""
        return "https" if self.secure else "http"

    @property
    def hosts(self) -> frozenset[str]:
        """Every value of the Host header that means this server.

        >>> sorted(Settings(8460).hosts)
        ['127.0.0.1:8460', '[::1]:8460', 'localhost:8460']
        """
        usual = 443 if self.secure else 80
        names = (*LOOPBACK, *(name.lower() for name in self.names))
        ended = {f"{name}:{self.port}" for name in names}
        return frozenset(ended | set(names) if self.port == usual else ended)

    @property
    def origins(self) -> frozenset[str]:
        """Every value of the Origin header that means a page of this server."""
        return frozenset(f"{self.scheme}://{host}" for host in self.hosts)

    @property
    def cookie(self) -> str:
        """The name of the session's cookie: browsers keep cookies apart by host, but not by port."""
        return f"{'__Host-' if self.secure else ''}asplayed-{self.port}"


def new_token() -> str:
    """A secret of 128 bits that fits in an address."""
    return secrets.token_urlsafe(16)
