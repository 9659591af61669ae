"""The picture of shares: everything told in words, nothing past its edges, many values counted and not dropped."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.telling.share_pictures import MOST_VALUES, ShareRow, shares_picture

periods = st.sampled_from([f"20{year}" for year in range(10, 32)] + [""])
rows = st.lists(
    st.builds(
        ShareRow,
        periods,
        st.sampled_from(["driver", "iron", ""]),
        st.text(max_size=60),
        st.integers(0, 20),
        st.integers(20, 40),
    ),
    min_size=1,
    max_size=60,
)


@settings(max_examples=40, deadline=None)
@given(rows)
def test_any_shares_are_drawn_within_their_paper(found: list[ShareRow]) -> None:
    drawn = shares_picture(found, "Shares")
    assert drawn is not None
    root = ElementTree.fromstring(drawn.svg)
    wide, high = (float(number) for number in root.get("viewBox", "").split()[2:])
    for box in root.iter("{http://www.w3.org/2000/svg}rect"):
        x, y, width, height = (float(box.get(name, "0")) for name in ("x", "y", "width", "height"))
        assert x >= 0 and x + width <= wide + 0.1 and y >= 0 and y + height <= high + 0.1


def test_the_rest_is_counted() -> None:
    many = [ShareRow("2026", "driver", f"model {n}", n, 40) for n in range(1, MOST_VALUES + 4)]
    drawn = shares_picture(many, "Drivers")
    assert drawn is not None and "and 3 more" in drawn.svg
    assert len(re.findall(r'class="edge"', drawn.svg)) == MOST_VALUES


def test_nothing_is_drawn_of_nothing() -> None:
    assert shares_picture([], "Nothing") is None
