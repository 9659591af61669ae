"""Choosing in a real browser: how one club is best set, and the best set, by mouse and by keyboard alone."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.slow

LONG = 120_000  # ms, for a search on a machine that does other things besides
CHOOSE = "/sets/ada-brandt/choose"


def test_with_the_mouse_a_driver_is_set_and_its_order_begun(seen: Any) -> None:
    page = seen(CHOOSE)
    page.get_by_label("Choose", exact=True).select_option("driver")
    page.get_by_role("button", name="Choose").click()
    answer = page.get_by_role("region", name="Driver, for")
    expect(answer).to_contain_text("settings tried", timeout=LONG)
    expect(answer).to_contain_text("today")
    expect(page.get_by_label("Choose", exact=True)).to_have_value("driver")  # what was asked stays asked
    answer.get_by_role("link", name="Order it").click()
    page.wait_for_url("**/order?changes=*")
    assert page.get_by_label("What was decided").input_value().startswith("driver: ")


def test_with_the_keyboard_alone_a_set_is_chosen_and_the_search_cut_short(seen: Any) -> None:
    page = seen("/sets/ada-brandt/pictures")
    page.get_by_role("link", name="Choose", exact=True).focus()
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{CHOOSE}")
    page.get_by_label("Changes at most").focus()
    page.keyboard.type("1")
    page.keyboard.press("Enter")
    stop = page.get_by_role("button", name="Stop, and take the best so far")
    stop.focus()
    page.keyboard.press("Enter")
    answer = page.get_by_role("region", name="The best set").first
    expect(answer.locator("tbody tr")).to_have_count(13, timeout=LONG)
    expect(page.locator("#answer")).to_contain_text("strokes for the shots of a round, today’s set")
