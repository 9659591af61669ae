"""Pictures of a set in a real browser: pointed at, stepped through, and read as tables."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import expect

PAGE = "/sets/mireille-okafor/pictures"


def test_every_picture_is_there_with_its_table(seen: Any) -> None:
    page = seen(PAGE)
    for anchor in ("from-the-side", "from-above", "heads", "progressions"):
        picture = page.locator(f"#{anchor}")
        expect(picture.locator("svg.drawing")).to_be_visible()
        expect(picture.locator("table")).to_be_hidden()
        picture.get_by_text("The figures behind it").click()
        assert picture.locator("tbody tr").count() >= 11
    row = page.locator("#from-the-side tr", has_text="7 iron")
    assert "yd" in (row.inner_text()) and "°" in row.inner_text()


def test_a_pointer_brings_one_club_forward_everywhere(seen: Any) -> None:
    page = seen(PAGE)
    page.locator('#from-above .club[data-club="7 iron"] .label').hover()
    expect(page.locator('#from-the-side .club[data-club="7 iron"]').first).to_have_class("club here")
    expect(page.locator('#from-the-side .club[data-club="driver"]').first).to_have_class("club")
    page.locator("h1").hover()
    expect(page.locator(".club.here")).to_have_count(0)
    page.locator('#from-above .club[data-club="driver"] .label').click()
    expect(page.locator("#pointed")).to_contain_text("driver: loft 11.25°")
    page.locator("h1").hover()
    expect(page.locator('#progressions .club[data-club="driver"]').first).to_have_class("club here")


def test_the_keyboard_does_the_same(seen: Any) -> None:
    page = seen(PAGE)
    page.keyboard.press("j")
    expect(page.locator("#pointed")).to_contain_text("driver: ")
    page.keyboard.press("j")
    expect(page.locator("#pointed")).to_contain_text("5 wood: ")
    page.keyboard.press("k")
    expect(page.locator("#pointed")).to_contain_text("carries")
    page.get_by_label("driver", exact=True).focus()
    page.keyboard.press("ArrowRight")  # a row of choices is stepped through with arrows
    expect(page.locator("#pointed")).to_contain_text("5 wood: ")
    page.keyboard.press("Escape")
    expect(page.locator("#pointed")).to_be_empty()
    summary = page.locator("#from-above summary")
    summary.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#from-above table")).to_be_visible()


def test_the_tables_are_in_the_units_asked_for(opened: Any) -> None:
    page = opened(PAGE)
    page.get_by_role("button", name="metric").click()
    page.locator("#from-above summary").click()
    assert " m" in page.locator("#from-above tbody tr").first.inner_text()
    assert page.url.endswith(PAGE)
