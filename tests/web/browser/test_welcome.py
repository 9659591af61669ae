"""The first page, the tour and the keys, in a real browser; a store that is still empty offers both."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import expect

LIGHT, DARK = "rgb(255, 253, 248)", "rgb(20, 25, 27)"  # the grounds of the palette


@pytest.fixture
def empty(browser: Any, tmp_path: Any, starting: Any, opening: Any) -> Iterator[Any]:
    """Opens pages over a store that nothing was put in."""
    with starting(tmp_path / "empty.db") as address:
        yield from opening(browser, address)


def test_an_empty_app_offers_the_demo_and_the_tour(empty: Any) -> None:
    page = empty()
    page.get_by_role("button", name="Bring the demo in and take the tour").click()
    tour = page.get_by_role("complementary", name="The tour")
    expect(tour).to_contain_text("1 of")
    expect(page.get_by_role("link", name="mireille-okafor")).to_be_visible()
    steps = int((tour.inner_text().split(" of ")[1]).split()[0])
    walked = [page.url]
    page.wait_for_load_state()
    for _ in range(steps - 1):
        page.keyboard.press("n")
        page.wait_for_url(lambda url: url not in walked)
        walked.append(page.url)
    expect(tour).to_contain_text(f"{steps} of {steps}")
    expect(tour.get_by_role("link", name="Next")).to_have_count(0)
    tour.get_by_role("link", name="That was it").click()
    expect(tour).to_have_count(0)


def test_a_set_is_found_among_others(seen: Any) -> None:
    page = seen()
    page.keyboard.press("/")
    page.keyboard.type("tessler 2025")
    expect(page.locator("#sets tbody tr:visible")).to_have_count(1)
    page.keyboard.press("Enter")
    page.wait_for_url("**/sets/jonas-tessler")


def test_the_keys_of_a_page_are_listed_and_lead_on(seen: Any) -> None:
    page = seen("/help")
    page.keyboard.press("?")
    keys = page.get_by_role("dialog")
    expect(keys).to_be_visible()
    expect(keys).to_contain_text("This list")
    page.keyboard.press("Escape")
    expect(keys).to_be_hidden()
    page.keyboard.press("g")
    page.keyboard.press("s")
    expect(page.get_by_role("heading", name="Sets")).to_be_visible()


def test_the_page_turns_dark_and_metric_and_stays_so(opened: Any) -> None:
    page = opened("/help")

    html = page.locator("html")
    expect(html).to_have_css("background-color", LIGHT)
    page.get_by_role("button", name="dark").click()
    expect(html).to_have_css("background-color", DARK)
    page.goto(page.url.replace("/help", "/"))
    expect(html).to_have_css("background-color", DARK)
    page.get_by_role("button", name="metric").click()
    expect(html).to_have_attribute("data-units", "metric")
    expect(html).to_have_attribute("data-theme", "dark")


def test_the_skip_link_is_the_first_stop_and_leads_to_the_page(seen: Any) -> None:
    page = seen("/help")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the page itself")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()
