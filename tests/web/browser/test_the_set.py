"""The set in a real browser: sources and derivations, changes where the figure stands, undo, two people at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from asplayed.keeping import open_store, read_set, set_history

SET = "/sets/ada-brandt"


def loft(store: Path, club: str) -> float:
    """The loft a stored club was bent to, as a change."""
    found = next(each for each in read_set("ada-brandt", store).golf_set.clubs if each.club == club)
    return 0.0 if found.bend.loft is None else found.bend.loft.number


def test_every_figure_shows_its_source_and_on_a_click_its_derivation(seen: Any) -> None:
    page = seen(SET)
    figures = page.locator("td.figure-cell")
    assert figures.count() > 60
    # each known figure has the mark of its source, told in words too
    known = page.locator("td.figure-cell a.figure")
    assert known.count() == page.locator("td.figure-cell a.figure svg.mark").count()
    assert known.count() == page.locator("td.figure-cell a.figure .unseen").count()
    figure = page.locator("tr", has_text="7 iron").first.locator("a.figure").nth(1)
    figure.click()
    derivation = page.get_by_role("dialog")
    expect(derivation).to_contain_text("Lie of the 7 iron")
    expect(derivation).to_contain_text("bend")
    expect(derivation).to_contain_text("published")
    derivation.get_by_role("button", name="Close").click()
    expect(derivation).to_be_hidden()


def test_with_the_mouse_a_figure_is_changed_where_it_stands_and_the_change_undone(opened: Any, store: Path) -> None:
    page = opened(SET)
    cell = page.locator("tr", has_text="7 iron").first.locator("td[data-begins=loft]")
    cell.dblclick()
    typed = cell.get_by_role("textbox")
    typed.fill("1 weak")
    typed.press("Enter")
    page.wait_for_url("**/sets/ada-brandt?kept=2*")
    assert loft(store, "7 iron") == 1
    page.get_by_role("button", name="Undo").click()
    page.wait_for_url("**/sets/ada-brandt?kept=3")
    assert loft(store, "7 iron") == 0
    page.get_by_role("button", name="Redo").click()
    page.wait_for_url("**/sets/ada-brandt?kept=4")
    assert loft(store, "7 iron") == 1
    page.get_by_role("button", name="Plays left-handed").click()
    expect(page.get_by_role("button", name="Plays right-handed")).to_be_visible()
    assert read_set("ada-brandt", store).golf_set.set.hand == "left"


def test_with_the_keyboard_alone(opened: Any, store: Path) -> None:
    page = opened(SET)
    row = page.locator("tr", has_text="7 iron").first
    row.locator("a.figure").first.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("dialog")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowLeft")
    expect(row.locator("a.figure").first).to_be_focused()
    page.keyboard.press("c")
    page.keyboard.type("bend 1½ weak")
    page.keyboard.press("Enter")
    page.wait_for_url("**kept=2*")
    assert loft(store, "7 iron") == 1.5
    page.keyboard.press("u")
    page.wait_for_url("**kept=3")
    assert loft(store, "7 iron") == 0
    page.keyboard.press("e")
    page.keyboard.type("sand wedge: bend 1 strong")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**kept=4")
    assert set_history("ada-brandt", store)[0].why == "sand wedge: bend 1 strong"


def test_a_change_that_cannot_be_made_says_why_and_keeps_what_was_typed(opened: Any, store: Path) -> None:
    page = opened(SET, expecting="400")
    page.get_by_label("Change a club").fill("driver: bend 1 weak")
    page.get_by_role("button", name="Make it so").click()
    expect(page.get_by_role("alert")).to_contain_text("driver")
    assert read_set("ada-brandt", store).version == 1


def test_metric_turns_inches_and_compare_tells_the_difference_in_words(opened: Any, store: Path) -> None:
    page = opened(SET)
    expect(page.locator("#built + .wide")).to_contain_text("in")
    page.get_by_role("button", name="metric").click()
    expect(page.locator("#built + .wide")).to_contain_text("mm")
    page.get_by_label("Change a club").fill("7 iron: bend 1 weak")
    page.get_by_role("button", name="Make it so").click()
    page.wait_for_url("**kept=2")
    page.get_by_label("Compare with", exact=True).select_option(index=0)
    page.get_by_role("button", name="Compare").first.click()
    expect(page.locator("#beside")).to_contain_text("The 7 iron’s loft was")
    page.get_by_text("Club by club").click()
    expect(page.get_by_role("region", name="7 iron before and now")).to_contain_text("31.5°")


def test_two_people_editing_one_club_see_each_others_change(opened: Any, store: Path) -> None:
    one, other = opened(SET), opened(SET, expecting="409")
    one.get_by_label("Change a club").fill("7 iron: bend 1 weak")
    one.get_by_role("button", name="Make it so").click()
    one.wait_for_url("**kept=2")
    # the other sees it without asking …
    expect(other.locator("#newer")).to_contain_text("The 7 iron’s loft was", timeout=10_000)
    # … and what he was writing meanwhile neither overwrites it nor is lost
    other.get_by_label("Change a club").fill("7 iron: bend 2 weak")
    other.get_by_role("button", name="Make it so").click()
    expect(other.get_by_role("alert")).to_contain_text("stored version 2")
    expect(other.locator(".was")).to_contain_text("The 7 iron’s loft was")
    expect(other.locator(".now")).to_contain_text("7 iron: bend 2 weak")
    assert loft(store, "7 iron") == 1
    other.get_by_role("button", name="Make mine on top of version 2").click()
    other.wait_for_url("**kept=3*")
    with open_store(store) as kept:
        assert kept.load_set("ada-brandt").version == 3
