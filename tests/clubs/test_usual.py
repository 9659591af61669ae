"""The usual figures: within the trade's ranges, in order, and found for every club somebody may name."""

from __future__ import annotations

import pytest

from asplayed.clubs import Club
from asplayed.clubs.usual import banded, settled, usual, usual_row
from asplayed.quantities import Figure, Source, figure

# Common practice, no single source: loft, lie, length in inches, head in grams, bounce.
TRADE = {
    "driver": ((9, 10.5), (57, 59), (44.5, 45.75), (196, 205), None),
    "3 wood": ((15, 15), (57, 58), (43, 43), (208, 215), None),
    "5 wood": ((18, 18), (58, 58), (42.5, 42.5), (216, 222), None),
    "7 wood": ((21, 21), (58.5, 58.5), (42, 42), (222, 228), None),
    "4 hybrid": ((18, 24), (57.5, 59.5), (40, 41), (228, 245), None),
    "4 iron": ((21, 24), (60.5, 61), (38.5, 38.5), (245, 251), (2, 4)),
    "5 iron": ((24, 27), (61, 61.5), (38, 38), (252, 258), (3, 5)),
    "6 iron": ((27, 31), (61.5, 62), (37.5, 37.5), (259, 265), (3, 5)),
    "7 iron": ((30, 35), (62, 62.5), (37, 37), (266, 272), (4, 6)),
    "8 iron": ((35, 39), (62.5, 63), (36.5, 36.5), (273, 279), (5, 7)),
    "9 iron": ((39, 43), (63, 63.5), (36, 36), (280, 286), (6, 8)),
    "pitching wedge": ((44, 48), (63.5, 64), (35.5, 35.75), (286, 292), (6, 10)),
    "gap wedge": ((50, 52), (64, 64), (35.5, 35.5), (292, 300), (8, 12)),
    "sand wedge": ((54, 57), (64, 64), (35.25, 35.25), (298, 305), (8, 14)),
    "lob wedge": ((58, 62), (64, 64), (35, 35), (298, 306), (4, 12)),
    "putter": ((2, 4), (69, 72), (33, 35), (340, 370), None),
}
KIND = {"driver": "driver", "putter": "putter"}


def kind_of(name: str) -> str:
    word = name.rsplit(maxsplit=1)[-1]
    return KIND.get(name) or {"wood": "fairway wood"}.get(word, word)


def club(name: str, kind: str | None = None) -> Club:
    return Club(club=name, kind=kind or kind_of(name))  # type: ignore[arg-type]


@pytest.mark.parametrize("name", TRADE)
def test_the_usual_figures_are_the_trades(name: str) -> None:
    for what, bounds in zip(("loft", "lie", "length", "head", "bounce"), TRADE[name], strict=True):
        entry = usual(club(name), what)
        if bounds is None:
            assert entry is None
            continue
        assert entry is not None
        low, high = bounds
        assert low <= entry.number <= high, what
        assert entry.source is Source.COMMON_PRACTICE
        assert entry.low is not None and entry.high is not None and entry.low <= entry.number <= entry.high


def test_irons_and_wedges_step_in_order() -> None:
    names = [f"{n} iron" for n in range(1, 10)] + ["pitching wedge", "gap wedge", "sand wedge", "lob wedge"]
    for what, sign in (("loft", 1), ("lie", 1), ("length", -1), ("head", 1)):
        values = []
        for name in names:
            entry = usual(club(name), what)
            assert entry is not None
            values.append(sign * entry.number)
        assert values == sorted(values), what


@pytest.mark.parametrize(
    ("name", "kind", "row"),
    [
        ("gap wedge", "iron", "gap wedge"),
        ("13 wood", "fairway wood", "11 wood"),
        ("wood", "fairway wood", "3 wood"),
        ("8 hybrid", "hybrid", "7 hybrid"),
        ("hybrid", "hybrid", "4 hybrid"),
        ("driving iron", "driving iron", "3 driving iron"),
        ("11 iron", "iron", "9 iron"),
        ("iron", "iron", "7 iron"),
        ("attack wedge", "wedge", "sand wedge"),
        ("long putter", "putter", "putter"),
        ("thriver", "driver", "driver"),
    ],
)
def test_a_club_without_a_row_takes_its_nearest_relatives(name: str, kind: str, row: str) -> None:
    assert usual_row(name, kind) == row


def test_a_tolerance_is_scaled_to_the_figures_unit_and_never_shifted() -> None:
    length = banded(figure(1130, "mm", "stated"), "length")
    assert length is not None and length.low == pytest.approx(1130 - 3.175)
    measured = banded(figure(1130, "mm", "measured"), "length")
    assert measured is not None and measured.high == pytest.approx(1130 + 1.5875)


def test_a_band_that_is_known_is_kept() -> None:
    entry = figure(56, "deg", "stated", tolerance=0.5)
    assert banded(entry, "loft") == entry


def test_what_has_neither_value_nor_range_is_unknown() -> None:
    assert settled(None) is None
    assert settled(Figure(value=None, unit="g", source=Source.STATED)) is None
    assert settled(Figure(value=None, unit="g", source=Source.STATED, low=100)) is None
    assert banded(Figure(value="heavy", unit="g", source=Source.STATED), "head_mass") is None
