"""Sentences of grips among which other things are told: what was understood is read, the rest is left."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told

from asplayed.intake import read

_SET = "Driver Gannet 9.5, Reed 60 S\n5-PW Dunlin, Basalt 115 S\nPutter Wickle, 34 in\n"
_COUNTED = "1. Driver Gannet 9.5, Reed 60 S\n2. 3 wood Gannet 15, Reed 70 S\n3. Putter Wickle, 34 in\n"


def _short(text: str, *clubs: str) -> list[str]:
    """The grip's name and wraps of each of these clubs: "Norrby Cord 2", or nothing."""
    found = {club.club: club.grip for club in read(text).clubs}
    grips = [found[club] for club in clubs]
    return [" ".join(str(one) for one in (grip.name, grip.wraps) if one is not None) if grip else "" for grip in grips]


# the sentence behind the set; the grip of the driver, of the 7 iron and of the putter
_TOLD = [
    ("Norrby grips on all of them except the putter, new last May.", "Norrby", "Norrby", ""),
    ("Grips are Norrby, 40 g (putter has its own)", "Norrby", "Norrby", ""),
    ("Grips: Norrby Cord; two extra wraps on the irons, one on the driver", "Norrby Cord 1", "Norrby Cord 2", ""),
    ("Grips are Norrby with three extra wraps, he likes them thick.", "Norrby 3", "Norrby 3", ""),
    ("For grips Norrby on everything, because of my thumbs, with one extra wrap, but leave the putter alone.",
     "Norrby 1", "Norrby 1", ""),
    ("Since the wet spring all of them wear Norrby Cord grips, two extra wraps, and I have not slipped once.",
     "Norrby Cord 2", "Norrby Cord 2", ""),
    ("Grips: Norrby everywhere. New in May. One wrap of extra tape. Putter untouched.", "Norrby 1", "Norrby 1", ""),
    ("Every club here wears a Norrby Soft, 42 g, changed in autumn 2024, not the putter.",
     "Norrby Soft", "Norrby Soft", ""),
    ("Grips Norrby Cord on the driver and the irons, ball is the Plover Tour white.", "Norrby Cord", "Norrby Cord", ""),
    ("All grips Norrby Cord except the putter, and the irons are half an inch over.", "Norrby Cord", "Norrby Cord", ""),
    ("Grips are Norrby, I think, two extra wraps on the irons.", "Norrby", "Norrby 2", ""),
    ("The grips, which she changed herself, are Norrby on the driver and Tessary on the irons.",
     "Norrby", "Tessary", ""),
    ("Down to the 5 iron the grips are Norrby, from the 6 iron down Tessary.", "Norrby", "Tessary", ""),
    ("On 9 May 2025 all clubs but the putter were regripped with Norrby, 50 g, two extra wraps.",
     "Norrby 2", "Norrby 2", ""),
    ("Grips Norrby on both, one extra wrap, sorry, two on the irons, putter not.", "Norrby 1", "Norrby 2", ""),
    ("Grips (as ordered): Norrby on the driver and irons (47 g, one extra wrap), Tern on the putter (80 g).",
     "Norrby 1", "Norrby 1", "Tern"),
    ("Norrby grips were fitted to everything but the putter in our shop on 2 June 2025, two extra wraps each.",
     "Norrby 2", "Norrby 2", ""),
    ("Lines 1 to 2 have Norrby grips with 2 wraps, line 3 a Tern.", "Norrby 2", "Norrby 2", "Tern"),
    ("Only the irons were regripped: Norrby, no extra tape. The rest stay as they are.", "", "Norrby 0", ""),
]  # fmt: skip


@pytest.mark.parametrize(("said", "driver", "iron", "putter"), _TOLD, ids=[each[0][:40] for each in _TOLD])
def test_grips_are_read_as_far_as_they_are_understood(said: str, driver: str, iron: str, putter: str) -> None:
    assert _short(_SET + said + "\n", "driver", "7 iron", "putter") == [driver, iron, putter]


def test_what_is_left_speaks_of_the_clubs() -> None:
    golf_set = read(_SET + "All grips Norrby except the putter, and the irons are half an inch over.\n")
    irons = [club for club in golf_set.clubs if club.kind == "iron"]
    assert {club.length_change.value for club in irons if club.length_change is not None} == {0.5}


def test_a_maker_of_putters_is_no_grip() -> None:
    golf_set = read("Driver Gannet 9.5, Reed 60 S\nPut a Norrby grip on the Wickle putter for you, left it at 34 in.\n")
    putter = golf_set.clubs[-1]
    assert (putter.head.name, putter.grip and putter.grip.name) == ("Wickle", "Norrby")
    assert golf_set.clubs[0].grip is None


@pytest.mark.parametrize(
    "said",
    [
        "The grips of items 1 to 2 are Norrby, fitted 12 April 2025. Grip, item 3: Tern",
        "Grips, items 1 and 2: Norrby; item 3 has a Tern",
        "Grips on nos. 1 and 2: Norrby. Grip on no. 3: Tern.",
        "Grips for pos. 1 and 2: Norrby. Grip for pos. 3: Tern.",
    ],
)
def test_grips_of_numbered_lines(said: str) -> None:
    golf_set = read(_COUNTED + said + "\n")
    assert [club.grip and club.grip.name for club in golf_set.clubs] == ["Norrby", "Norrby", "Tern"]
    assert golf_set.set.date is None


def test_lines_counted_in_brackets() -> None:
    text = "(1) Driver Gannet 9\n(2) 3 wood Gannet 15\n(3) 7 iron Dunlin\n(4) Putter Wickle\n"
    found = _short(text + "Grips: (1)-(3) Norrby, 2 wraps; (4) Tern\n", "driver", "3 wood", "7 iron", "putter")
    assert found == ["Norrby 2", "Norrby 2", "Norrby 2", "Tern"]


@pytest.mark.parametrize(
    ("said", "grip"),
    [
        ("Grip: as item 1", "Norrby 2"),
        ("Grip: as item 1, but 3 extra wraps", "Norrby 3"),
        ("same grip as the driver with 3 wraps", "Norrby 3"),
        ("grip like the driver, plus 1 wrap", "Norrby 1"),
        ("grip as driver but no extra wrap", "Norrby 0"),
    ],
)
def test_a_grip_like_another_clubs(said: str, grip: str) -> None:
    text = (
        f"1. Driver Gannet 9.5, Reed 60 S. Grip: Norrby, 50 g, 2 extra wraps\n2. 7 iron Dunlin, Basalt 115 S. {said}\n"
    )
    assert _short(text, "driver", "7 iron") == ["Norrby 2", grip]


def test_wraps_below_a_heading_of_wedges() -> None:
    text = "WEDGES: Burr heads, Basalt shafts 120 g S, Norrby grips, 2 extra wraps\n50 deg, 35.5 in\n54 deg, 35.25 in\n"
    assert _short(text, "gap wedge", "sand wedge") == ["Norrby 2", "Norrby 2"]


def test_names_on_a_ticket_for_a_regrip_are_grips() -> None:
    text = (
        "REGRIP TICKET 12\n"
        "Driver, Gannet 460 ..... Squill Tack, 50 g\n"
        "Irons 6-PW, Dunlin ..... Squill Mid, 58 g, 1 extra wrap\n"
        "Putter, Wick ..... Squill Paddle, 85 g\n"
    )
    assert told(text, "grip.name")["driver"] == "Squill Tack" and told(text, "grip.mass")["putter"] == 85
    assert told(text, "grip.wraps")["6 iron"] == 1 and not told(text, "shaft.name")
