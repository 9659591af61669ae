"""The catalogue in a real browser: a table brought in with its columns mapped, by mouse and by keyboard alone."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from asplayed.keeping import stored_parts

TABLE = (
    "Item,Brand,Name,Stamp,Deg,Wt\nhead,Tidewright,Turnstone 9,54.10,54,300\nhead,Tidewright,Turnstone 9,60.06,60,303\n"
)
COLUMNS = {"Item": "part", "Brand": "maker", "Name": "model", "Stamp": "variant", "Deg": "loft", "Wt": "mass"}


def masses(store: Path) -> list[float]:
    """The masses of the heads that the table brings."""
    return sorted(part.figures["mass"].number for part in stored_parts(store) if part.model == "Turnstone 9")


def test_with_the_mouse_a_file_is_mapped_looked_at_and_taken(opened: Any, store: Path, tmp_path: Path) -> None:
    file = tmp_path / "wedges.csv"
    file.write_text(TABLE, encoding="utf-8")
    page = opened("/parts")
    page.get_by_label("File").set_input_files(file)
    page.get_by_role("button", name="Look at it").click()
    for heading, meaning in COLUMNS.items():
        page.get_by_label(f"{heading} is", exact=True).select_option(meaning)
    page.get_by_role("button", name="Look once more").click()
    expect(page.locator("main")).to_contain_text("2 parts would be added")
    assert masses(store) == []
    page.get_by_role("button", name="Take it in").click()
    expect(page.get_by_role("status").filter(has_text="2 added")).to_be_visible()
    assert masses(store) == [300, 303]


def test_with_the_keyboard_alone_a_part_is_found_and_one_added(opened: Any, store: Path) -> None:
    page = opened()
    page.keyboard.press("g")
    page.keyboard.press("c")
    page.wait_for_url("**/parts")
    page.keyboard.press("/")
    page.keyboard.type("kittiwake three")
    page.keyboard.press("Enter")
    expect(page.locator("tbody tr").first).to_contain_text("Kittiwake 3")
    page.get_by_label("Part", exact=True).focus()
    page.keyboard.type("head")
    for words in ("Tidewright", "Turnstone 9", "54.10", "sand wedge"):
        page.keyboard.press("Tab")
        page.keyboard.type(words)
    page.keyboard.press("Tab")
    page.keyboard.type("loft=54deg\nmass=300g")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status").filter(has_text="Taken")).to_be_visible()
    assert masses(store) == [300]
