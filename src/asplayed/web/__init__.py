"""The web app: pages and a JSON API over the same functions as the command line, thin.

A request goes through `doors` (who may come in at all), `access` (who may do what), one function of a job's module,
and comes back as a page (`kit.page`) or as JSON. Nothing is computed here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from asplayed.web.settings import Settings

if TYPE_CHECKING:
    from pathlib import Path

    from asplayed.web.doors import Doors

__all__ = ["Settings", "application"]


def application(store: str | Path | None, settings: Settings) -> Doors:
    """The app over the store at `store` (None: in the user's data folder), as an ASGI callable."""
    from asplayed.web.app import application as made

    return made(store, settings)
