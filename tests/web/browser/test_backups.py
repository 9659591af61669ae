"""Backups in a real browser: one press makes a copy and proves it; another takes it along."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import expect


def test_with_the_mouse_a_copy_is_made_proved_and_taken_along(opened: Any) -> None:
    page = opened("/backups")
    page.get_by_role("button", name="Make a copy now and prove it").click()
    expect(page.get_by_role("status").filter(has_text="is a proved backup")).to_be_visible()
    with page.expect_download() as found:
        page.get_by_role("region", name="Copies beside the store").last.get_by_role("link").first.click()
    assert found.value.path().read_bytes().startswith(b"SQLite format 3\0")


def test_with_the_keyboard_alone_the_store_is_proved(seen: Any) -> None:
    page = seen()
    page.keyboard.press("g")
    page.keyboard.press("b")
    page.wait_for_url("**/backups")
    page.get_by_role("link", name="Prove the store whole").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="The store is whole")).to_be_visible()
    with page.expect_download() as found:
        page.get_by_role("link", name="Take everything along").focus()
        page.keyboard.press("Enter")
    assert found.value.path().read_bytes().startswith(b"PK")
