"""Take the pictures of the app that the documentation shows: `docs/images/web/*.webp`, of the demo's sets.

Run `python docs/screens.py` from the project's folder after changing how the app looks. It needs Chromium.
"""

from __future__ import annotations

import io
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from PIL import Image

from asplayed.demo import LISTS, into_store, material
from asplayed.intake.changes import read_changes
from asplayed.keeping import open_store
from asplayed.keeping.orders import save_order
from asplayed.keeping.progress import take_reading, tick
from asplayed.workshop import order

if TYPE_CHECKING:
    from playwright.sync_api import Page

FOLDER = Path(__file__).resolve().parent / "images" / "web"
SET = LISTS[-1]
CHANGES = ["9 iron: bend 1 weak", "sand wedge: bend 1 weak"]


@contextmanager
def served() -> Iterator[tuple[str, str]]:
    """The app over the demo's sets and an order half done: its address, and the order's name."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "estow.db"
        with open_store(place) as kept:
            into_store(kept, who="Halvard Strand")
            golf_set, parts = kept.load_set(SET).golf_set, kept.parts()
            changes = read_changes(CHANGES, golf_set, parts)
            made = order(golf_set, changes, parts=parts, set_name=SET, set_version=1, made="2025-10-27")
            name = save_order(kept, made, who="Halvard Strand").name
            tick(kept, name, "9 iron", 1, who="Halvard Strand", done=True)
            take_reading(kept, name, "9 iron loft 44 deg", who="Halvard Strand")
        asplayed = str(Path(sys.executable).with_name("asplayed"))
        command = [asplayed, "serve", "--port", "0", "--no-browser", "--store", str(place)]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
            try:
                assert server.stdout is not None
                yield re.findall(r"http://\S+", server.stdout.readline())[0], name
            finally:
                server.terminate()


def kept(page: Page, name: str) -> None:
    """Keep what a page shows, small."""
    page.mouse.move(0, 0)
    picture = Image.open(io.BytesIO(page.screenshot()))
    picture.save(FOLDER / f"{name}.webp", quality=70, method=6)


def main() -> None:
    """Take them all."""
    from playwright.sync_api import sync_playwright

    FOLDER.mkdir(parents=True, exist_ok=True)
    with served() as (address, name), sync_playwright() as driver:
        parts = urlsplit(address)
        base = f"{parts.scheme}://{parts.netloc}"
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox", "--disable-gpu"])

        def opened(path: str, wide: int = 1280, tall: int = 820, light: str = "light") -> Page:
            page = browser.new_page(viewport={"width": wide, "height": tall}, color_scheme=light)  # type: ignore[arg-type]
            page.goto(f"{base}{path}{'&' if '?' in path else '?'}{parts.query}")
            return page

        page = opened("/take")
        page.locator("textarea").first.fill(material(f"lists/{SET}.txt").decode("utf-8"))
        page.locator(".words").wait_for()
        kept(page, "take-in")
        page = opened(f"/sets/{SET}")
        kept(page, "the-set")
        page.locator("tr", has_text="driver").first.locator("a.figure").first.click()
        page.get_by_role("dialog").get_by_text("stamped loft", exact=True).wait_for()
        kept(page, "why")
        kept(opened(f"/sets/{SET}/try?changes=driver%3A%20length%2044", light="dark"), "what-if")
        page = opened(f"/sets/{SET}/pictures", tall=900)
        for _ in range(7):
            page.keyboard.press("j")
        kept(page, "pictures")
        kept(opened(f"/orders/{name}", wide=820, tall=1180), "bench")
        kept(opened(f"/sets/{SET}", wide=360, tall=740, light="dark"), "telephone")
        browser.close()


if __name__ == "__main__":
    main()
