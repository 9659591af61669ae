"""Seasons in a real browser: a question asked by mouse and by keyboard, its picture and its table, a result kept."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import expect


def test_with_the_mouse_a_question_is_answered_with_a_picture(seen: Any) -> None:
    page = seen("/seasons")
    page.get_by_label("Kind of club").select_option("driver")
    page.get_by_role("button", name="Ask").click()
    answer = page.get_by_role("region", name="The answer, in figures")
    expect(answer).to_contain_text("Whimbrel")
    expect(page.locator("figure svg.drawing")).to_be_visible()
    with page.expect_download() as found:
        page.get_by_role("link", name="Take it along as CSV").click()
    assert "Whimbrel" in found.value.path().read_text(encoding="utf-8-sig")


def test_with_the_keyboard_alone_a_question_is_asked_and_a_result_kept(opened: Any) -> None:
    page = opened()
    page.keyboard.press("g")
    page.keyboard.press("y")
    page.wait_for_url("**/seasons")
    page.keyboard.press("/")
    page.keyboard.type("Sets in")  # a list takes the first letters of what is meant
    page.get_by_label("Player, or words").focus()
    page.keyboard.type("Tessler")
    page.keyboard.press("Enter")
    expect(page.get_by_role("link", name="jonas-tessler")).to_be_visible()
    page.get_by_text("Say how a set did in its event").focus()
    page.keyboard.press("Enter")
    page.get_by_label("Set", exact=True).focus()
    page.keyboard.type("jonas")
    page.keyboard.press("Tab")
    page.keyboard.type("1")
    page.keyboard.press("Enter")
    page.wait_for_load_state()
    page.keyboard.press("/")
    page.keyboard.type("Winners")
    page.get_by_role("button", name="Ask").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("region", name="The answer, in figures")).to_contain_text("Kittiwake 3")
