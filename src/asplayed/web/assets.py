"""Scripts, styles, fonts and icons: read once, under one digest of them all, cached by the browser for ever."""

from __future__ import annotations

import gzip
import hashlib
from functools import cached_property
from importlib import resources
from typing import NamedTuple

from asplayed.telling.drawing_elements import STYLE
from asplayed.telling.palette import DARK, LIGHT, PAPER, declarations

KINDS = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
    "png": "image/png",
    "woff2": "font/woff2",
    "webmanifest": "application/manifest+json",
    "txt": "text/plain; charset=utf-8",
}
_TEXTS = frozenset({"css", "js", "svg", "webmanifest", "txt"})


class Asset(NamedTuple):
    """One file as it is sent: its type, its bytes, and the same packed where that is smaller."""

    kind: str
    content: bytes
    packed: bytes | None


def colours() -> str:
    """The colours of sheets and drawings as a style sheet: light and dark as the system or the user has it, paper."""
    dark = declarations(DARK)
    return (
        f":root {{ {declarations(LIGHT)} color-scheme: light; }}\n"
        f"@media (prefers-color-scheme: dark) {{ :root:not([data-theme=light]) {{ {dark} color-scheme: dark; }} }}\n"
        f":root[data-theme=dark] {{ {dark} color-scheme: dark; }}\n"
        f"@media print {{ :root, :root[data-theme] {{ {declarations(PAPER)} color-scheme: light; }} }}\n{STYLE}"
    )


class Assets:
    """Every file that pages may ask for, by name."""

    @cached_property
    def files(self) -> dict[str, Asset]:
        """The files of the package, and the colours that sheets and drawings share with the pages."""
        folder = resources.files("asplayed.web").joinpath("assets")
        found = {
            entry.name: entry.read_bytes()
            for entry in sorted(folder.iterdir(), key=lambda entry: entry.name)
            if entry.name.rpartition(".")[2] in KINDS
        }
        found["colours.css"] = colours().encode()
        return {name: _asset(name, content) for name, content in found.items()}

    @cached_property
    def digest(self) -> str:
        """One digest over all of them: scripts that import one another stay of one piece."""
        summed = hashlib.sha256()
        for name, asset in sorted(self.files.items()):
            summed.update(name.encode() + b"\0" + asset.content + b"\0")
        return summed.hexdigest()[:16]

    def address(self, name: str) -> str:
        """Where a page finds a file; a name that is none of them is a fault of the page's author."""
        if name not in self.files:
            raise KeyError(f"there is no asset {name}")
        return f"/assets/{self.digest}/{name}"


def _asset(name: str, content: bytes) -> Asset:
    ending = name.rpartition(".")[2]
    packed = gzip.compress(content, 9, mtime=0) if ending in _TEXTS and len(content) > 500 else None
    return Asset(KINDS[ending], content, packed)
