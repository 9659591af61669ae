"""Order and bench in a real browser: decided, ticked off, read, reworked and signed, by mouse and by keyboard alone."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from asplayed.keeping import open_store, read_set
from asplayed.keeping.progress import tick

SET = "/sets/jonas-tessler"
CHANGES = "9 iron: bend 1 weak\nsand wedge: bend 1 weak"


def bent(store: Path) -> tuple[str, float]:
    """Where the loft of the set's 9 iron comes from, and what it is."""
    club = next(each for each in read_set("jonas-tessler", store).golf_set.clubs if each.club == "9 iron")
    loft = club.as_played.loft
    assert loft is not None
    return loft.source.value, loft.number


def test_with_the_mouse_an_order_is_worked_off(opened: Any, store: Path) -> None:
    page = opened(f"{SET}/order", expecting="status of 400")
    page.get_by_label("What was decided").fill(CHANGES)
    page.get_by_role("button", name="Look at the order").click()
    expect(page.get_by_role("region", name="9 iron")).to_contain_text("Eye protection at the bending bar")
    page.get_by_role("button", name="Keep it for the bench").click()
    iron, wedge = page.get_by_role("region", name="9 iron"), page.get_by_role("region", name="sand wedge")
    steps = iron.locator(".tick-button")
    steps.first.click()
    expect(steps.first).to_have_attribute("aria-pressed", "true")
    expect(iron).to_contain_text("tester")
    loft = iron.get_by_label("loft of the 9 iron")
    loft.fill("44")
    loft.locator("xpath=..").get_by_role("button", name="Read").click()
    expect(iron).to_contain_text("✗ out")
    expect(iron).to_contain_text("Rework")
    page.get_by_role("button", name="Sign it off").click()
    expect(page.locator(".fault")).to_contain_text("loft of the 9 iron")
    page.go_back()
    for region, club, value in ((iron, "9 iron", "42.5"), (wedge, "sand wedge", "56")):
        reading = region.get_by_label(f"loft of the {club}")
        reading.fill(value)
        reading.locator("xpath=..").get_by_role("button", name="Read").click()
        expect(region).to_contain_text("✓ in")
    page.get_by_label("Who signs").fill("Halvard Strand")
    page.get_by_role("button", name="Sign it off").click()
    expect(page.locator(".done", has_text="Signed off by Halvard Strand")).to_be_visible()
    expect(page.locator(".tick-button[aria-pressed]")).to_have_count(0)
    assert bent(store) == ("measured", 42.5)


def test_with_the_keyboard_alone_steps_are_ticked_and_figures_read(opened: Any, store: Path) -> None:
    page = opened(SET)
    page.keyboard.press("o")
    page.wait_for_url("**/order")
    page.keyboard.press("/")
    page.keyboard.type(CHANGES)
    page.get_by_role("button", name="Look at the order").focus()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Keep it for the bench").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/orders/*")
    steps = page.locator(".tick-button")
    for done in range(1, steps.count() + 1):
        page.keyboard.press("j")
        page.keyboard.press("Space")
        expect(page.locator(".tick-button[aria-pressed=true]")).to_have_count(done)
    page.keyboard.press("m")
    expect(page.get_by_label("length of the 9 iron")).to_be_focused()
    page.get_by_label("loft of the 9 iron").focus()
    page.keyboard.type("42,5")
    page.keyboard.press("Enter")
    expect(page.get_by_role("region", name="9 iron")).to_contain_text("✓ in")
    page.get_by_label("loft of the sand wedge").focus()
    page.keyboard.type("56")
    page.keyboard.press("Enter")
    expect(page.get_by_role("region", name="sand wedge")).to_contain_text("✓ in")
    page.get_by_label("Who signs").focus()
    page.keyboard.press("Enter")
    expect(page.locator(".done", has_text="Signed off by")).to_be_visible()


def test_a_keypad_takes_readings_with_gloves_on(opened: Any) -> None:
    page = opened(f"{SET}/order?changes=9%20iron%3A%20bend%201%20weak", wide=820, tall=1180, touch=True)
    page.get_by_role("button", name="Keep it for the bench").click()
    page.wait_for_url("**/orders/*")
    page.keyboard.press("k")
    page.get_by_label("loft of the 9 iron").focus()
    keypad = page.get_by_role("group", name="Keys for readings")
    expect(keypad).to_be_visible()
    for key in ("4", "2", ".", "6", "⌫", "5"):
        name = "take the last key back" if key == "⌫" else key
        keypad.get_by_role("button", name=name, exact=True).click()
    keypad.get_by_role("button", name="Read it").click()
    expect(page.get_by_role("region", name="9 iron")).to_contain_text("✓ in")
    small = page.evaluate("""[...document.querySelectorAll("#bench button, #bench input:not([type=hidden]), #keypad *")]
        .filter((e) => e.checkVisibility()).map((e) => e.getBoundingClientRect())
        .filter((box) => box.height < 44 || box.width < 44).length""")
    assert small == 0  # every target at the bench is as large as a gloved thumb asks


def test_two_at_one_bench_see_each_others_ticks(opened: Any, store: Path) -> None:
    page = opened(f"{SET}/order?changes=9%20iron%3A%20bend%201%20weak")
    page.get_by_role("button", name="Keep it for the bench").click()
    page.wait_for_url("**/orders/*")
    loft = page.get_by_label("loft of the 9 iron")
    loft.fill("42")
    with open_store(store) as kept:
        tick(kept, page.url.rpartition("/")[2], "9 iron", 1, who="Ada Brandt", done=True)
    expect(page.locator(".tick-button[aria-pressed=true]")).to_have_count(1, timeout=9000)
    expect(page.get_by_role("region", name="9 iron")).to_contain_text("Ada Brandt")
    assert loft.input_value() == "42"  # what was being typed is still there
