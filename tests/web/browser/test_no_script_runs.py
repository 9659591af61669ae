"""No words of a user's ever run: payloads in every text field of a set, on every page, in every form, in a browser.

The payloads are the usual ways into a page (after the OWASP Cross Site Scripting Prevention and Filter Evasion cheat
sheets): elements, attributes, addresses, templates, comments, encodings. One that ran would leave a trace in the
window, open a dialog, or breach the policy; the watched page fails its test on any of them.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import msgspec
import pytest
from playwright.sync_api import Error

from asplayed.clubs import GolfSet
from asplayed.demo import LISTS, material
from asplayed.keeping import open_store, read_set
from asplayed.quantities import plain

pytestmark = pytest.mark.slow

RUN = "window.ran=1;alert(1)"
PAYLOADS = (
    f"<script>{RUN}</script>",
    f'"><script>{RUN}</script>',
    f"'><img src=x onerror={RUN}>",
    f'"><svg onload={RUN}>',
    f"<svg><script>{RUN}</script></svg>",
    f"<img src=x onerror={RUN} ",
    f"</title><script>{RUN}</script>",
    f"</textarea><script>{RUN}</script>",
    f"</style><script>{RUN}</script>",
    f"</select></option><img src=x onerror={RUN}>",
    f'" autofocus onfocus={RUN} x="',
    f"' onmouseover={RUN} tabindex=0 x='",
    f"` onpointerenter={RUN} x=`",
    f"javascript:{RUN}",
    f"JaVaScRiPt&colon;{RUN}",
    f"data:text/html,<script>{RUN}</script>",
    f"<a href=javascript:{RUN}>here</a>",
    f"<iframe srcdoc='<script>{RUN}</script>'></iframe>",
    f"<form action=javascript:{RUN}><button autofocus>x</button></form>",
    f"<base href=javascript:{RUN}//>",
    f"<meta http-equiv=refresh content='0;url=javascript:{RUN}'>",
    "<link rel=stylesheet href=//elsewhere.example/x.css>",
    "<style>*{background:url(//elsewhere.example/x)}</style>",
    "<img src=//elsewhere.example/x.png>",
    f"<math><mtext></mtext><mglyph><style><!--</style><img title='--><img src=x onerror={RUN}>'>",
    f"<!--><script>{RUN}</script>-->",
    f"{{{{constructor.constructor('{RUN}')()}}}}",
    "{{ 7 * 7 }}{% raise %}${7*7}#{7*7}<%= 7*7 %>",
    f"&lt;script&gt;{RUN}&lt;/script&gt;",
    f"\\u003cscript\\u003e{RUN}\\u003c/script\\u003e]]><script>{RUN}</script>",
)
TOGETHER = 1 if os.environ.get("ASPLAYED_LONG") else 10
"""So many payloads stand in one field, one after the other; in the long run each stands alone."""
SPOILT = frozenset({
    "player", "title", "event", "name", "maker", "model", "construction", "documents", "position", "flex", "sole",
    "neck", "colour", "text", "sentence", "why",
})  # fmt: skip
"""The fields of a set whose words are the user's or a document's."""


def group(number: int) -> str:
    """Ten payloads in a row."""
    return " ".join(PAYLOADS[(number * TOGETHER + place) % len(PAYLOADS)] for place in range(TOGETHER))


def spoilt(record: Any, words: str, field: str = "") -> Any:
    """A record with the words in every text field that may hold any."""
    if isinstance(record, dict):
        return {key: spoilt(value, words, key) for key, value in record.items()}
    if isinstance(record, list):
        return [spoilt(each, words, field) for each in record]
    return words if isinstance(record, str) and field in SPOILT else record


@pytest.fixture(scope="module")
def hostile(demo_store: Path, tmp_path_factory: pytest.TempPathFactory, starting: Any) -> Iterator[tuple[str, str]]:
    """A server whose sets, parts, orders and history hold payloads wherever words may stand; and an order's name."""
    from asplayed.catalogue import read_parts
    from asplayed.intake.changes import read_changes
    from asplayed.keeping.orders import save_order
    from asplayed.workshop import order

    place = tmp_path_factory.mktemp("hostile") / "store.db"
    shutil.copy(demo_store, place)
    record = plain(read_set(LISTS[-1], place).golf_set)
    parts = read_parts(material("catalogue.csv"), "catalogue.csv").parts[:40]
    with open_store(place) as kept:
        for number in range(len(PAYLOADS) // TOGETHER):
            words = group(number)
            golf_set = msgspec.convert(spoilt(record, words), GolfSet, strict=False)
            kept.save_set(set_name(number), golf_set, words, who=words[:80], why=words)
            bad = [
                msgspec.structs.replace(part, maker=words[:190], model=f"{part.model} {words[:150]}") for part in parts
            ]
            kept.save_parts(bad, file=f"{words[:80]}.csv", content=words.encode(), who=words[:80])
        made = order(golf_set, read_changes(["7 iron: bend 1 weak"], golf_set, ()), set_name=set_name(number))
        saved = save_order(kept, made, who=words[:80])
    with starting(place) as address:
        yield address, saved.name


def set_name(number: int) -> str:
    """A name that is a payload itself, as far as a name may go: none holds a slash, nor more than a hundred letters."""
    names = [each for each in PAYLOADS if "/" not in each and len(each) < 90]
    return f"{number} {names[number % len(names)]}"


def unharmed(page: Any) -> None:
    """Nothing ran, and no words became an element."""
    assert page.evaluate("window.ran") is None
    assert page.evaluate(GROWN) == []


GROWN = """() => [...document.querySelectorAll(
  "main script, iframe, base, main link, main style, main meta, [onerror], [onload], [onfocus], [onmouseover], " +
  "[onpointerenter], [src^=x], [href^=javascript], [action^=javascript]")].map((e) => e.outerHTML.slice(0, 300))"""


@pytest.mark.parametrize("number", range(len(PAYLOADS) // TOGETHER))
def test_nothing_that_is_stored_runs_on_any_page(
    hostile: Any, browser: Any, opening: Any, pages: list[str], address_of: Any, number: int
) -> None:
    address, order = hostile
    opened = opening(browser, address)
    page = next(opened)("/")
    unharmed(page)
    for route in pages:
        if number and "{name}" not in route:
            continue  # the same for every set
        path = address_of(route, set_name(number), order)
        try:
            answer = page.goto(address.partition("/?")[0] + path)
        except Error as fault:
            assert "Download is starting" in fault.message  # a file to be kept is not opened
            continue
        assert answer.status == 200, f"{path}: {answer.status} {page.locator('main').inner_text()[:300]}"
        for each in page.locator("details > summary").all()[:3]:
            each.click()
        unharmed(page)
    next(opened, None)


def test_nothing_that_is_typed_runs_on_any_page(hostile: Any, browser: Any, opening: Any, pages: list[str]) -> None:
    """Every field of every form is filled with payloads and sent; what comes back says so, or why not, and no more."""
    address, order = hostile
    opened = opening(browser, address)
    page = next(opened)("/", expecting="status of 4..")
    sent = 0
    for route in pages:
        if "{file}" in route:
            continue
        path = address.partition("/?")[0] + route.replace("{name}", LISTS[0]).replace("{order}", quote(order, safe=""))
        path += "?club=7 iron&figure=loft" if route.endswith("/why") else ""
        try:
            page.goto(path)
        except Error as fault:
            assert "Download is starting" in fault.message
            continue
        for place in range(page.evaluate(FORMS)):
            if page.url != path:
                page.goto(path)
            if page.evaluate(FILL, [place, PAYLOADS]):
                page.wait_for_timeout(50)  # for what scripts show while one types
                unharmed(page)
                with page.expect_navigation(wait_until="load"):
                    page.evaluate(SEND, place)
                unharmed(page)
            sent += 1
    assert sent > len(pages) / 2
    next(opened, None)


FORMS = "document.querySelectorAll('main form').length"
# Fills every field of one form, as far as it takes any words; false for one that is not sent anywhere.
FILL = """([place, payloads]) => {
  const form = document.querySelectorAll("main form")[place];
  if (!form || form.method === "dialog") return false;
  let next = place;
  for (const field of form.elements) {
    if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) continue;
    if (["hidden", "file", "checkbox", "radio", "range", "number", "date", "submit"].includes(field.type)) continue;
    field.value = payloads[next++ % payloads.length];
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }
  return true;
}"""
SEND = "(place) => HTMLFormElement.prototype.submit.call(document.querySelectorAll('main form')[place])"
