"""Taking a list in, in a real browser: with the mouse, and with the keyboard alone."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from asplayed.keeping import read_set
from asplayed.web.access import table

WORDS = "Player: Halvard Strand\ndriver Whimbrel 10.5, sleeve B3, lovely, 44.75\n7 iron Dunlin bent 1 weak"


def test_a_list_is_read_as_it_is_typed_each_word_with_what_it_became(seen: Any) -> None:
    page = seen("/take")
    page.get_by_label("The list").fill(WORDS)
    expect(page.locator("#summary")).to_contain_text("2 clubs of Halvard Strand")
    expect(page.locator(".word-not-understood").first).to_have_text("lovely")
    assert page.locator(".word-not-understood").first.get_attribute("title") == "not understood"
    expect(page.locator(".words li").nth(1)).to_contain_text("driver")
    expect(page.locator(".word-figure").first).to_have_text("10.5")
    # never by colour alone: what is not understood is underlined in waves, a figure stands in a box
    waves = page.locator(".word-not-understood").first.evaluate("(at) => getComputedStyle(at).textDecorationStyle")
    assert waves == "wavy"
    page.emulate_media(media="print")
    expect(page.locator("#summary")).to_be_visible()
    expect(page.get_by_label("The list")).to_be_hidden()


def test_with_the_mouse_a_question_is_answered_in_place_and_the_list_kept(opened: Any, store: Path) -> None:
    page = opened("/take")
    page.get_by_label("The list").fill(WORDS)
    asked = page.locator(".question", has_text="at which position")
    asked.get_by_role("button", name=re.compile(r"N\+$")).click()
    expect(page.locator("#answered + ul")).to_contain_text("N+")
    page.get_by_role("button", name="take back").click()
    expect(page.locator("#answered")).to_have_count(0)
    asked.get_by_role("button", name=re.compile(r"N\+$")).click()
    expect(page.locator("#answered + ul")).to_contain_text("N+")
    page.get_by_role("button", name="Keep it").click()
    page.wait_for_url("**/sets/halvard-strand?kept=1")
    assert read_set("halvard-strand", store).golf_set.clubs[0].sleeve.position == "N+"  # type: ignore[union-attr]
    page.goto(page.url.split("/sets")[0] + "/take")
    expect(page.get_by_label("The list")).to_have_value("")


def test_with_the_keyboard_alone_one_key_answers_and_one_key_keeps(opened: Any, store: Path) -> None:
    page = opened("/")
    page.keyboard.press("g")
    page.keyboard.press("t")
    page.wait_for_url("**/take")
    page.keyboard.press("e")
    page.keyboard.type(WORDS)
    expect(page.locator(".question")).to_have_count(2)
    page.keyboard.press("Escape")
    expect(page.locator(".question").first.locator("input, button").first).to_be_focused()
    page.keyboard.type("-0.75")
    page.keyboard.press("Enter")
    expect(page.locator(".question")).to_have_count(1)
    expect(page.locator(".question button").first).to_be_focused()
    page.keyboard.press("2")
    expect(page.locator(".question")).to_have_count(0)
    expect(page.locator("#keep")).to_be_focused()
    page.keyboard.press("k")
    page.wait_for_url("**/sets/halvard-strand?kept=1")
    driver = read_set("halvard-strand", store).golf_set.clubs[0]
    assert driver.sleeve is not None
    assert driver.sleeve.loft_change is not None
    assert driver.sleeve.loft_change.value == -0.75


def test_nothing_typed_or_answered_is_lost_when_the_page_is_loaded_anew(seen: Any) -> None:
    page = seen("/take")
    page.get_by_label("The list").fill(WORDS)
    page.locator(".question", has_text="at which position").get_by_role("button").first.click()
    expect(page.locator("#answered")).to_have_count(1)
    page.wait_for_timeout(50)
    page.reload()
    expect(page.get_by_label("The list")).to_have_value(WORDS)
    expect(page.locator("#answered + ul")).to_contain_text("sleeve position")


@pytest.mark.parametrize("name", ["list.txt", "list.csv"])
def test_a_file_is_read_as_if_it_had_been_written(seen: Any, tmp_path: Path, name: str) -> None:
    file = tmp_path / name
    rows = "club,loft,shaft,flex\n7 iron,33,Lindrake Level 105,S\n8 iron,37,Lindrake Level 105,S\n"
    file.write_text(rows if name.endswith("csv") else WORDS, encoding="utf-8")
    page = seen("/take")
    page.get_by_label("or a file").set_input_files(file)
    expect(page.locator("#summary")).to_contain_text("2 clubs")


def test_a_reader_is_offered_no_taking_in() -> None:
    assert "reader" not in table()["POST /take"].may
