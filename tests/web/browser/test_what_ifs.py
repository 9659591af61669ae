"""What-ifs in a real browser: sliders and keys, candidates pinned, the chosen one kept; nothing lost on reload."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from asplayed.keeping import read_set

TRY = "/sets/jonas-tessler/try"


def test_with_the_mouse_a_slider_moves_everything_beside_today(opened: Any, store: Path) -> None:
    page = opened(TRY, expecting="aborted")
    page.get_by_label("Club", exact=True).select_option("sand wedge")
    slider = page.get_by_label("Bend the loft")
    slider.fill("2")
    expect(page.get_by_label("Every change")).to_have_value("sand wedge: bend 2 weak")
    row = page.locator("#seen tr", has_text="sand wedge").first
    expect(row.locator(".changed").first).to_contain_text("then")
    expect(page.locator("#seen .strokes")).to_contain_text("→")
    page.get_by_label("Wind along").fill("-10")
    expect(page.get_by_label("Every change")).to_have_value("sand wedge: bend 2 weak\nwind: 10 mph head")
    expect(page.locator("#seen tr", has_text="driver").first.locator(".changed").first).to_be_visible()
    # nought takes the line away again
    page.get_by_label("Wind along").fill("0")
    expect(page.get_by_label("Every change")).to_have_value("sand wedge: bend 2 weak")
    page.get_by_role("button", name="Pin this one").click()
    expect(page.locator(".pin")).to_have_count(1)
    slider.fill("1")
    page.get_by_role("button", name="Pin this one").click()
    expect(page.locator(".pin")).to_have_count(2)
    expect(page.locator("#drawn svg").first).to_be_visible()
    page.reload()
    expect(page.locator(".pin")).to_have_count(2)
    expect(page.get_by_label("Bend the loft")).to_have_value("0")  # the driver is in hand again
    page.get_by_label("Club", exact=True).select_option("sand wedge")
    expect(page.get_by_label("Bend the loft")).to_have_value("1")
    page.locator(".pin").first.get_by_role("button", name="Take it up again").click()
    expect(page.get_by_label("Every change")).to_have_value("sand wedge: bend 2 weak")
    page.get_by_role("button", name="Keep it as the next version").click()
    page.wait_for_url("**/sets/jonas-tessler?kept=2")
    wedge = next(each for each in read_set("jonas-tessler", store).golf_set.clubs if each.club == "sand wedge")
    assert wedge.bend.loft is not None
    assert wedge.bend.loft.number == 3  # the 54 came bent 1 weak, and is bent 2 more


def test_with_the_keyboard_alone(seen: Any) -> None:
    page = seen("/sets/jonas-tessler")
    page.keyboard.press("w")
    page.wait_for_url("**/try")
    for _ in range(4):
        page.keyboard.press("j")
    in_hand = page.get_by_label("Club", exact=True).input_value()
    page.keyboard.press("l")
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    expect(page.get_by_label("Every change")).to_have_value(f"{in_hand}: bend 1 weak")
    expect(page.locator("#seen .changed").first).to_be_visible()
    page.keyboard.press("i")
    expect(page.locator(".pin")).to_have_count(1)
    page.keyboard.press("0")
    expect(page.get_by_label("Every change")).to_have_value("")
    expect(page.locator("#seen .changed")).to_have_count(0)


def test_a_change_that_cannot_be_made_says_why_where_the_answer_stood(seen: Any) -> None:
    page = seen(TRY)
    page.get_by_label("Every change").fill("driver: bend 2 weak")
    expect(page.locator("#seen .fault")).to_contain_text("driver")
    page.get_by_label("Every change").fill("driver: 1 in longer")
    expect(page.locator("#seen .fault")).to_have_count(0)


def test_other_hands_change_both_sides(seen: Any) -> None:
    page = seen(TRY)
    before = page.locator("#seen tr", has_text="driver").first.inner_text()
    page.get_by_label("Driver speed").fill("85")
    driver = page.locator("#seen tr", has_text="driver").first
    expect(driver).not_to_have_text(before)
    page.wait_for_url("**speed=85**")
    slower = driver.inner_text()
    page.reload()
    expect(driver).to_have_text(slower, use_inner_text=True)
    page.get_by_label("Every change").fill("putter: 1 in longer")
    expect(page.locator("#seen .changed").first).to_be_visible()
    expect(driver).to_have_text(slower, use_inner_text=True)
