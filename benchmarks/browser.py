"""The pages in a real browser: how long a page's scripts and layout keep the main thread from answering a hand."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

from benchmarks import Line
from benchmarks.web import SET, served

if TYPE_CHECKING:
    from playwright.sync_api import Page

TITLE = "The web app in a browser"
LONGEST = 100.0  # ms
LIST = "driver 10.5, sleeve up 1, 65 g stiff at 44 3/4\n5-PW bent 1 weak\nwedges 52 56 60\nputter 34 in\n"
WATCH = """window.blocked = 0;
new PerformanceObserver((list) => {
  for (const each of list.getEntries()) window.blocked = Math.max(window.blocked, each.duration);
}).observe({ type: "longtask", buffered: true });"""


def measure() -> list[Line]:
    """The longest time the main thread was blocked: opening pages (the least of three), and working on them."""
    place = shutil.which("chromium")
    if place is None:
        return [Line("longest blocking of the main thread", 0, "ms", "< 100 ms", None, "chromium is missing")]
    from playwright.sync_api import sync_playwright

    found: dict[str, float] = {}
    with served() as (address, _), sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=place, args=["--headless", "--no-sandbox", "--disable-gpu"])
        page = browser.new_page()
        page.add_init_script(WATCH)
        page.goto(address)
        base = address.partition("/?")[0]
        for path in ("/", "/take", f"/sets/{SET}", f"/sets/{SET}/try", f"/sets/{SET}/pictures", "/parts", "/seasons"):
            found[f"opening {path.replace(SET, '…')}"] = min(opened(page, base + path) for _ in range(3))
        page.goto(f"{base}/take")
        page.locator("textarea").first.focus()
        page.keyboard.type(LIST * 3, delay=5)
        found["typing a list in"] = blocked(page)
        page.goto(f"{base}/sets/{SET}/try")
        page.get_by_label("Length").focus()
        for key in ["ArrowRight"] * 12 + ["ArrowLeft"] * 12:
            page.keyboard.press(key)
            page.wait_for_timeout(60)
        found["moving a slider of the what-if"] = blocked(page)
        page.goto(f"{base}/sets/{SET}/pictures")
        for _ in range(15):
            page.keyboard.press("j")
        found["pointing out every club in the pictures"] = blocked(page)
        browser.close()
    return [
        Line(f"main thread blocked longest, {what}", round(time), "ms", f"< {LONGEST:.0f} ms", time < LONGEST)
        for what, time in found.items()
    ]


def opened(page: Page, address: str) -> float:
    """The longest task of opening a page [ms]."""
    page.goto(address)
    return blocked(page)


def blocked(page: Page) -> float:
    """The longest task of the page since it was opened [ms]; 0 where none took 50: the browser counts no shorter."""
    page.wait_for_timeout(300)
    return float(page.evaluate("window.blocked"))
