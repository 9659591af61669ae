"""Every page there is, from the table of access, so that none is forgotten: looked at narrow, wide, dark and printed.

A page has no fault of accessibility above a minor one, fits every width, weighs little, shows where the keyboard is,
and prints without what is only pressed.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import httpx
import pytest

from asplayed.demo import LISTS, material
from asplayed.keeping import open_store, read_set, stored_parts

pytestmark = pytest.mark.slow

SET = LISTS[0]
LIGHTEST = 300_000  # bytes of a first load


@pytest.fixture(scope="module")
def busy(demo_store: Path, tmp_path_factory: pytest.TempPathFactory, starting: Any) -> Iterator[tuple[str, str]]:
    """A server whose store has something of everything: sets, players, parts, an order; and the order's name."""
    from asplayed.intake.changes import read_changes
    from asplayed.keeping.orders import save_order
    from asplayed.workshop import order

    place = tmp_path_factory.mktemp("busy") / "store.db"
    shutil.copy(demo_store, place)
    golf_set, parts = read_set(LISTS[-1], place).golf_set, stored_parts(place)
    decided = [line for line in material("workshop/decided.txt").decode().splitlines() if line.strip()]
    made = order(golf_set, read_changes(decided, golf_set, parts), parts=parts, set_name=LISTS[-1])
    with open_store(place) as kept:
        saved = save_order(kept, made, who="demo")
    with starting(place) as address:
        yield address, saved.name


@pytest.fixture
def page_of(busy: tuple[str, str], browser: Any, opening: Any, address_of: Any) -> Iterator[Callable[..., Any]]:
    """Opens a page of that server by its route; a route that sends a file to be kept has none to open."""
    address, order = busy
    opened = opening(browser, address)
    open_one = next(opened)

    def open_page(route: str, **given: Any) -> Any:
        path = address_of(route, SET, order)
        parts = urlsplit(address)
        headers = {"authorization": f"Bearer {parts.query.removeprefix('token=')}", "accept": "text/html"}
        found = httpx.get(f"{parts.scheme}://{parts.netloc}{path}", headers=headers, timeout=30)
        assert found.status_code == 200, f"{path}: {found.status_code} {found.text[:300]}"
        if not found.headers["content-type"].startswith("text/html"):
            assert found.headers["content-disposition"].startswith("attachment")
            assert found.headers["x-content-type-options"] == "nosniff"
            return None
        return open_one(path, **given)

    yield open_page
    next(opened, None)  # closes what was opened, and looks whether anything went amiss


def test_a_page_is_fit_for_everybody(page_of: Any, faults: Any, route: str) -> None:
    weights: list[int] = []
    page = page_of(route, weights=weights)
    if page is None:
        return
    assert sum(weights) < LIGHTEST, f"{route} weighs {sum(weights)} bytes"
    fit(page, faults)


def test_the_pages_of_a_shop_are_fit_for_everybody(
    store: Path, starting: Any, browser: Any, opening: Any, faults: Any
) -> None:
    with starting(store, shop=True) as address:
        opened = opening(browser, address)
        page = next(opened)("/begin")
        fit(page, faults)
        page.get_by_label("Your name").fill("Halvard Strand")
        page.get_by_label("A password").fill("four plain words here")
        page.get_by_role("button", name="Begin").click()
        for route in ("/account", "/accounts"):
            page.goto(address.partition("/?")[0] + route)
            fit(page, faults)
        page.goto(address.partition("/?")[0] + "/account")
        page.get_by_role("button", name="Begin with codes").click()
        page.emulate_media(color_scheme="dark")
        code = page.locator(".code")  # a telephone reads it on light ground only
        assert code.evaluate("(at) => getComputedStyle(at).backgroundColor") == "rgb(255, 255, 255)"
        fit(page, faults)
        page.get_by_role("button", name="sign out").click()
        page.get_by_label("Password").wait_for()
        fit(page, faults)
        next(opened, None)


def fit(page: Any, faults: Any) -> None:
    """Look at a page with every eye."""
    page.set_viewport_size({"width": 1280, "height": 900})
    page.emulate_media(media="screen", color_scheme="light")
    assert page.locator("h1").count() == 1
    assert page.title().endswith("asplayed")
    assert faults(page) == []
    assert page.evaluate(UNSEEN_FOCUS) == []
    assert wider(page) == [], "at 1280"
    page.set_viewport_size({"width": 360, "height": 740})
    assert wider(page) == [], "at 360"
    assert faults(page, only="target-size") == []
    page.set_viewport_size({"width": 3840, "height": 2160})
    assert wider(page) == [], "at 3840"
    page.set_viewport_size({"width": 1280, "height": 900})
    page.emulate_media(color_scheme="dark")
    assert faults(page, only="color-contrast") == []
    tables = page.locator("main table:visible").count()
    page.set_viewport_size({"width": 720, "height": 1000})  # about a sheet of paper
    page.emulate_media(media="print", color_scheme="light")
    assert wider(page) == [], "printed"
    assert page.locator("main table:visible").count() >= tables, "a table is lost on paper"
    assert page.locator("button:visible, nav:visible, .tool:visible, input[type=file]:visible").count() == 0
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(0, 0, 0)"
    page.emulate_media(media="screen")


def wider(page: Any) -> list[str]:
    """What sticks out of a page to the side, outermost first."""
    found: list[str] = page.evaluate(WIDER)
    return found


WIDER = """() => {
  const wide = document.documentElement.clientWidth + 1;
  if (document.documentElement.scrollWidth <= wide) return [];
  const out = [...document.body.querySelectorAll("*")].filter((e) => e.getBoundingClientRect().right > wide);
  return ["scrolls sideways", ...out.slice(0, 5).map((e) => e.outerHTML.slice(0, 200))];
}"""

# Whatever takes the keyboard's focus must show it: by an outline of its own, or of the label around it.
UNSEEN_FOCUS = """() => {
  const shows = (e) => {
    const style = getComputedStyle(e);
    return style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
  };
  const takes = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]:not([tabindex='-1'])";
  const unseen = [];
  const note = (what, e) => unseen.push(what + ": " + e.outerHTML.slice(0, 160));
  for (const e of document.querySelectorAll(takes)) {
    if (!e.checkVisibility({visibilityProperty: true}) || e.disabled) continue;
    e.focus({focusVisible: true});
    if (document.activeElement !== e) note("takes no focus", e);
    else if (![e, e.closest("label")].some((each) => each && shows(each))) note("shows no focus", e);
    if (e.tabIndex > 0) note("out of order", e);
  }
  return unseen;
}"""
