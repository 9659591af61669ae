"""Player and shots in a real browser: measures kept, a session's table mapped and taken, by mouse and by keyboard."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from asplayed.keeping.shots import stored_player, stored_sessions

SHOTS = "/sets/jonas-tessler/shots"
ROWS = "Stick,Ball [mph],Fly [yd]\n" + "".join(f"7 iron,{speed},{carry}\n" for speed, carry in
    ((120, 172), (121, 174), (119, 170), (122, 175), (120, 171), (95, 120)))  # fmt: skip


def test_with_the_mouse_a_session_is_mapped_looked_at_and_taken(opened: Any, store: Path, tmp_path: Path) -> None:
    file = tmp_path / "session.csv"
    file.write_text(ROWS, encoding="utf-8")
    page = opened(SHOTS)
    page.get_by_label("File").set_input_files(file)
    page.get_by_role("button", name="Look at it").click()
    for heading, meaning in (("Stick", "club"), ("Ball", "ball speed"), ("Fly", "carry")):
        page.get_by_label(f"{heading} is", exact=True).select_option(meaning)
    page.get_by_role("button", name="Look once more").click()
    assert stored_sessions("jonas-tessler", store) == ()
    page.get_by_role("button", name="Take").click()
    expect(page.get_by_role("status").filter(has_text="Taken")).to_be_visible()
    row = page.get_by_role("region", name="What the shots say").locator("tr", has_text="7 iron")
    expect(row).to_contain_text("6")
    page.get_by_text("Shots that stand apart (1)").click()  # the mis-hit is set aside by a rule, not by hand
    [session] = stored_sessions("jonas-tessler", store)
    assert len(session.shots.row) == 6
    page.get_by_role("button", name="take session 1 out of use").click()
    expect(page.get_by_text("No shots are kept for this set")).to_be_visible()


def test_with_the_keyboard_alone_a_players_measures_are_kept(opened: Any, store: Path) -> None:
    page = opened(SHOTS)
    page.keyboard.press("/")
    expect(page.get_by_label("Driver speed")).to_be_focused()
    page.keyboard.press("Control+A")
    page.keyboard.type("112 mph")
    page.keyboard.press("Tab")
    page.keyboard.type("+2")
    page.keyboard.press("Enter")
    expect(page.get_by_label("Driver speed")).to_have_value("112 mph")
    player = stored_player("jonas-tessler", store)
    assert player is not None and player.driver_speed is not None and player.handicap is not None
    assert (player.driver_speed.number, player.handicap.number) == (112, -2)
