"""The first page: the sets kept here; where there are none, the demo and the tour; and how things are shown."""

from __future__ import annotations

from typing import Any

from asplayed.errors import BadInput
from asplayed.web.doors import cookie_header
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, page, see_other, shown

tab = Tab("Sets", "/", "g s")
_YEAR = 365 * 24 * 3600


def _sets(here: Here) -> list[Any]:
    from asplayed.keeping import list_sets

    return [entry for entry in list_sets(here.store) if here.sees(entry.player)]


@shown("/")
def home(here: Here) -> Page:
    """The sets kept here, or what to begin with."""
    return page(here, "welcome.html", sets=_sets(here))


@done("/look")
def look(here: Here, form: Form) -> Answer:
    """Keep in this browser how things are to be shown."""
    now = here.preferences
    units = form.text("units") or now.units
    theme = form.text("theme") or now.theme
    if units not in ("imperial", "metric") or theme not in ("auto", "light", "dark"):
        raise BadInput("units are imperial or metric, and the page is auto, light or dark")
    back = form.text("back") or "/"
    answer = see_other(back if back.startswith("/") and not back.startswith(("//", "/\\")) else "/")
    settings = here.app.settings
    name = f"{settings.cookie}-look"
    answer.headers["set-cookie"] = cookie_header(settings, f"{units}.{theme}", name=name, lasting=_YEAR)
    return answer


@done("/demo")
def demo(here: Here, form: Form) -> Answer:
    """Bring the demo scenario into the store: its catalogue, its three lists, its players; and begin the tour."""
    from asplayed.demo import into_store

    into_store(here.kept, who=here.who)
    return see_other("/?tour=1" if form.text("tour") else "/")


@shown("/help")
def help_page(here: Here) -> Page:
    """How things are done here, in one page."""
    return page(here, "help.html")


@asked("/api/sets")
def api_sets(here: Here) -> dict[str, Any]:
    """Every set kept here."""
    return {"sets": [entry._asdict() for entry in _sets(here)]}


routes = (home, look, demo, help_page, api_sets)
