"""Sheets and pack in a real browser: looked at a page at a time, taken along, by mouse and by keyboard alone."""

from __future__ import annotations

import zipfile
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.slow

TELL = "/sets/jonas-tessler/tell"


def test_with_the_mouse_sheets_are_looked_at_and_the_pack_taken_along(seen: Any) -> None:
    page = seen(TELL)
    page.get_by_label("Paper").select_option("letter")
    page.get_by_label("large print").check()
    page.get_by_role("button", name="Tell it so").click()
    page.get_by_role("link", name="look at it: player-sheet.pdf").click()
    sheet = page.get_by_role("img", name="Page 1 of")
    expect(sheet).to_be_visible()
    short, long = sorted(sheet.evaluate("(image) => [image.naturalWidth, image.naturalHeight]"))
    assert 1.28 < long / short < 1.31  # letter paper is 11 by 8½ in
    page.get_by_role("link", name="Back", exact=True).click()
    with page.expect_download() as found:
        page.get_by_role("link", name="Take the whole pack along").click()
    with zipfile.ZipFile(found.value.path()) as pack:
        assert {"player-sheet.pdf", "set-sheet.html", "captions.vtt"} <= set(pack.namelist())


def test_with_the_keyboard_alone(seen: Any) -> None:
    page = seen("/sets/jonas-tessler/pictures")
    page.keyboard.press("t")
    page.wait_for_url("**/tell")
    page.get_by_role("link", name="look at it: player-sheet.pdf").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("img", name="Page 1 of")).to_be_visible()
    page.wait_for_load_state()  # its keys are there once its scripts are
    page.keyboard.press("j")
    expect(page.get_by_role("img", name="Page 2 of")).to_be_visible()
    with page.expect_download() as found:
        page.get_by_role("link", name="Take it along").focus()
        page.keyboard.press("Enter")
    assert found.value.path().read_bytes().startswith(b"%PDF")
