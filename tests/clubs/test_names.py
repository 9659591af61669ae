"""A club named short means one club of the set, or says that it cannot tell."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.clubs import Club, Head
from asplayed.clubs.names import club_meant, club_name, labels
from asplayed.quantities import figure


def wedge(name: str, loft: float | None = None) -> Club:
    return Club(club=name, kind="wedge", head=Head(loft=figure(loft, "deg", "stated") if loft else None))


BAG = (
    Club(club="driver", kind="driver"),
    Club(club="3 wood", kind="fairway wood"),
    Club(club="4 hybrid", kind="hybrid"),
    Club(club="3 driving iron", kind="driving iron"),
    Club(club="7 iron", kind="iron"),
    wedge("pitching wedge", 46),
    wedge("sand wedge", 54),
    wedge("sand wedge", 57.5),
)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("Driver", "driver"),
        ("1w", "driver"),
        ("3W", "3 wood"),
        ("wood 3", "3 wood"),
        ("3-wood", "3 wood"),
        ("FW 3", "3 wood"),
        ("4h", "4 hybrid"),
        ("Hybrid_4", "4 hybrid"),
        ("3i", "3 driving iron"),
        ("3 utility iron", "3 driving iron"),
        ("7", None),
        ("7i", "7 iron"),
        ("7 IRON", "7 iron"),
        ("i7", "7 iron"),
        ("p.w.", None),
        ("PW", "pitching wedge"),
        ("46°", "pitching wedge"),
        ("57.5", "sand wedge 57.5°"),
        ("54 deg", "sand wedge 54°"),
        ("sand wedge 54°", "sand wedge 54°"),
        ("60", None),
        ("9i", None),
        ("lob wedge", None),
        ("", None),
    ],
)
def test_a_short_name_means_one_club(written: str, meant: str | None) -> None:
    names = labels(BAG)
    assert [names[place] for place in club_meant(written, BAG)] == ([meant] if meant else [])


def test_a_name_that_two_share_means_both() -> None:
    assert club_meant("SW", BAG) == (6, 7)


def test_labels_differ_even_where_nothing_tells_clubs_apart() -> None:
    assert len(set(labels((*BAG, wedge("sand wedge", 54), wedge("lob wedge"), wedge("lob wedge"))))) == 11


@given(st.text(max_size=30))
def test_any_text_is_a_name_or_none(text: str) -> None:
    name = club_name(text)
    assert name is None or name[0].isdigit() or " " in name or name.isalpha()
    assert all(0 <= place < len(BAG) for place in club_meant(text, BAG))
