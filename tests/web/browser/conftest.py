"""A real browser before a real server: Debian's Chromium, driven by the keyboard and the mouse.

Every page is watched: a test fails on a breach of the content security policy, an error on the console, an uncaught
exception, a dialog, or a request that leaves this machine.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, Protocol
from urllib.parse import quote, urlsplit

import pytest

from asplayed.web.access import table

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--font-render-hinting=none",
)  # fmt: skip
SHOP = ("/begin", "/account", "/accounts", "/sign-in")
"""What only a shop with accounts has."""
EXAMPLES = {"{file}": "player-sheet.pdf"}
"""What stands for a part of an address, besides sets and orders."""
UNEXAMPLED = ("{copy}", "{sha256}", "{search}")
"""Parts of addresses of what there is none of in a store of these tests: copies, papers, searches that run."""
PARTS = ("/orders/{order}/work",)
"""Parts of pages, which scripts ask for alone."""
ASKING = {"/sets/{name}/why": "club=7 iron&figure=loft"}
"""What a page must be asked with."""
PAGES = sorted(
    path
    for method, _, path in (route.partition(" ") for route in table())
    if method == "GET"
    and path not in (*SHOP, *PARTS)
    and not path.startswith(("/api/", "/health", "/openapi.json", "/assets/"))
    and not any(part in path for part in UNEXAMPLED)
)
CHECKER = Path(__file__).with_name("axe.min.js")
WCAG = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
"""The accessibility checker's names for levels A and AA of WCAG 2.0 to 2.2, and for what is good practice besides."""


class Opened(Protocol):
    """Opens a page of the app in a window of its own."""

    def __call__(
        self, path: str = "/", *, wide: int = 1280, tall: int = 900, light: Literal["light", "dark"] = "light",
        expecting: str = "", touch: bool = False, weights: list[int] | None = None,
    ) -> Page: ...  # fmt: skip


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """A test that takes a `route` is run for every page of this machine's app."""
    if "route" in metafunc.fixturenames:
        metafunc.parametrize("route", PAGES)


@pytest.fixture(scope="session")
def pages() -> list[str]:
    """The route of every page, and of every file to be taken along, of this machine's app."""
    return PAGES


@pytest.fixture(scope="session")
def address_of() -> Callable[[str, str, str], str]:
    """The address of a route, for a set and an order."""

    def address(route: str, name: str, order: str) -> str:
        path = route.replace("{name}", quote(name, safe="")).replace("{order}", quote(order, safe=""))
        for part, example in EXAMPLES.items():
            path = path.replace(part, example)
        assert "{" not in path, f"{route}: nothing stands for a part of this address yet; name it in EXAMPLES"
        return f"{path}?{ASKING[route]}" if route in ASKING else path

    return address


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """One Chromium for the tests of a module."""
    from playwright.sync_api import sync_playwright

    place = shutil.which("chromium")
    if place is None:
        pytest.skip("chromium is missing: apt-get install chromium")
    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=place, args=list(FLAGS))
        yield started
        started.close()


@pytest.fixture(scope="session")
def opening() -> Callable[[Browser, str], Iterator[Opened]]:
    """Opens pages of any server, for tests that start their own."""
    return opening_pages


@pytest.fixture
def opened(browser: Browser, served: str) -> Iterator[Opened]:
    """Opens pages of a server whose store belongs to this test, signed in by the address that it printed."""
    yield from opening_pages(browser, served)


@pytest.fixture
def seen(browser: Browser, looked_at: str) -> Iterator[Opened]:
    """Opens pages of the module's server, for tests that change nothing."""
    yield from opening_pages(browser, looked_at)


def opening_pages(browser: Browser, address: str) -> Iterator[Opened]:
    """Opens pages in windows of their own; looks at the end whether anything went amiss in any of them.

    `expecting` is a pattern for errors on the console that belong to the test, such as a refusal's status; `weights`
    is filled with the bytes of whatever the page loaded at first.
    """
    amiss: list[str] = []
    contexts = []

    def open_one(
        path: str = "/", *, wide: int = 1280, tall: int = 900, light: Literal["light", "dark"] = "light",
        expecting: str = "", touch: bool = False, weights: list[int] | None = None,
    ) -> Page:  # fmt: skip
        context = browser.new_context(
            viewport={"width": wide, "height": tall}, color_scheme=light, reduced_motion="reduce", has_touch=touch,
            service_workers="block",
        )  # fmt: skip
        contexts.append(context)
        context.set_default_timeout(10_000)
        page = context.new_page()
        watch(page, amiss, expecting)
        loaded: list[Any] = []
        page.on("requestfinished", lambda request: loaded.extend([request]))
        parts = urlsplit(address)
        page.goto(f"{parts.scheme}://{parts.netloc}{path}{'&' if '?' in path else '?'}{parts.query}")
        if weights is not None:
            weights.extend(request.sizes()["responseBodySize"] for request in loaded)
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert not amiss, "\n".join(amiss)


def watch(page: Page, amiss: list[str], expecting: str = "") -> None:
    """Write down whatever a page does that no page may do."""

    def note(what: str) -> None:
        if not (expecting and re.search(expecting, what)):
            amiss.append(what)

    page.on("console", lambda said: note(f"console: {said.text} ({page.url})") if said.type == "error" else None)
    page.on("pageerror", lambda fault: note(f"uncaught: {fault} ({page.url})"))
    page.on("request", lambda asked: None if stays(asked.url) else note(f"left this machine: {asked.url}"))

    def dismissed(dialog: Any) -> None:
        note(f"dialog: {dialog.message} ({page.url})")
        dialog.dismiss()

    page.on("dialog", dismissed)
    page.add_init_script(
        "document.addEventListener('securitypolicyviolation',"
        " (e) => console.error('policy: ' + e.violatedDirective + ' ' + e.blockedURI + ' ' + e.sample))"
    )


def stays(address: str) -> bool:
    """True for an address on this machine, or one that is no request at all."""
    parts = urlsplit(address)
    return parts.scheme in ("data", "blob", "about") or parts.hostname in ("127.0.0.1", "localhost")


@pytest.fixture(scope="session")
def faults() -> Callable[..., list[str]]:
    """What the accessibility checker finds on a page."""
    return faults_of


def faults_of(page: Page, *, only: str = "") -> list[str]:
    """The faults of accessibility that axe-core finds on a page, minor ones left out, each with where it is.

    `only` names one rule, where the rest has been looked at already.
    """
    if not page.evaluate("typeof window.axe === 'object'"):
        page.evaluate(CHECKER.read_text(encoding="utf-8"))
    run_only = {"type": "rule", "values": [only]} if only else {"type": "tag", "values": WCAG}
    options = json.dumps({"runOnly": run_only, "resultTypes": ["violations"]})
    found = page.evaluate(f"axe.run(document, {options}).then((result) => result.violations)")
    return [
        f"{each['id']}: {each['help']}: {node['target']} {node['html'][:160]} {node.get('failureSummary', '')}"
        for each in found
        if each["impact"] != "minor"
        for node in each["nodes"]
    ]
