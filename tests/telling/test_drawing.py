"""The drawn set: true to the figures, within its frame, no label upon another."""

from __future__ import annotations

import math
import re
import unicodedata
from itertools import combinations
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.clubs import AsPlayed, Club, GolfSet, Head, SetFacts
from asplayed.quantities import figure
from asplayed.telling.drawing import drawn_set

SETS = ["fourteen", "twenty", "one", "left_handed", "bare", "hostile"]


def taken_apart(golf_set: GolfSet, alone: bool = False) -> ElementTree.Element:
    return ElementTree.fromstring(drawn_set(golf_set, alone=alone))


def frame(root: ElementTree.Element) -> tuple[float, float]:
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    return width, height


def label_box(element: ElementTree.Element) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a label in DejaVu Sans Bold, one of the widest faces a reader may have.

    Advance widths in thousandths of an em, read off the face's own table of widths.
    """
    widths = {**dict.fromkeys("iljI", 343), **dict.fromkeys(" .,:;-", 400), **dict.fromkeys("0123456789", 696),
              **dict.fromkeys("+−", 838), "/": 365, "w": 924, "m": 1042, "M": 995, "W": 1103, "r": 493, "t": 478,
              "s": 595, "f": 435, "c": 593, "z": 582, "x": 645, "v": 652, "y": 652, "k": 665, "e": 678, "o": 687,
              "a": 675, "…": 1000, "—": 1000, "(": 457, ")": 457, "°": 500}  # fmt: skip
    words, size = element.text or "", float(element.attrib["font-size"])
    wide = sum(
        widths.get(c, 1000 if unicodedata.east_asian_width(c) in "WF" else 774 if c.isupper() else 716) for c in words
    )
    width = wide / 1000 * size
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    left = {"start": x, "middle": x - width / 2, "end": x - width}[element.attrib["text-anchor"]]
    return left, y - 0.76 * size, left + width, y + 0.24 * size


def places(root: ElementTree.Element):
    """Every corner of every shape and label."""
    for element in root.iter():
        tag = element.tag.rpartition("}")[2]
        a = element.attrib
        if tag in {"polyline", "polygon"}:
            yield from (tuple(map(float, pair.split(","))) for pair in a["points"].split())
        elif tag == "rect":
            x, y = float(a["x"]), float(a["y"])
            yield from ((x, y), (x + float(a["width"]), y + float(a["height"])))
        elif tag == "circle":
            x, y, r = float(a["cx"]), float(a["cy"]), float(a["r"])
            yield from ((x - r, y - r), (x + r, y + r))
        elif tag == "path":
            start, _, end = half_disc(element)
            yield from (start, end)
        elif tag == "text":
            left, top, right, bottom = label_box(element)
            yield from ((left, top), (right, bottom))


def half_disc(element: ElementTree.Element):
    """Upper end of the flat, radius, lower end of the flat."""
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", element.attrib["d"])]
    return (numbers[0], numbers[1]), numbers[2], (numbers[7], numbers[8])


@pytest.fixture(params=SETS)
def golf_set(request):
    return request.getfixturevalue(request.param)


def test_everything_lies_within_the_frame(golf_set):
    root = taken_apart(golf_set)
    width, height = frame(root)
    for x, y in places(root):
        assert 0 <= x <= width
        assert 0 <= y <= height


def test_no_label_lies_upon_another(golf_set):
    labels = [element for element in taken_apart(golf_set).iter() if element.tag.endswith("text")]
    assert labels
    for one, other in combinations(labels, 2):
        a, b = label_box(one), label_box(other)
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one.text!r} lies upon {other.text!r}"


def test_the_drawing_can_be_read_without_being_seen(fourteen):
    root = taken_apart(fourteen)
    named = root.attrib["aria-labelledby"].split()
    words = {element.attrib.get("id"): element.text for element in root}
    assert root.attrib["role"] == "img"
    assert words[named[0]] == "The set as played, drawn"
    assert "sand wedge: length 35¼ in, lie 64°, loft 57°, mass 476 g." in words[named[1]]


def test_the_flat_of_a_head_leans_back_by_its_loft(fourteen):
    heads = [element for element in taken_apart(fourteen).iter() if element.tag.endswith("path")]
    lofts = [club.as_played.loft.number for club in fourteen.clubs]
    assert len(heads) == 14
    for head, loft in zip(heads, lofts, strict=True):
        (x1, y1), _, (x2, y2) = half_disc(head)
        # tenths of a unit are written: 0.1 in a flat of some 30 units is a quarter of a degree
        assert math.degrees(math.atan2(x1 - x2, y2 - y1)) == pytest.approx(loft, abs=0.4)


def test_the_area_of_a_head_is_the_mass_of_the_club(fourteen):
    heads = [half_disc(element)[1] for element in taken_apart(fourteen).iter() if element.tag.endswith("path")]
    masses = [club.as_played.mass.number for club in fourteen.clubs]
    for radius, mass in zip(heads, masses, strict=True):
        assert (radius / heads[0]) ** 2 == pytest.approx(mass / masses[0], rel=0.02)


def test_shafts_have_their_relative_lengths_and_their_own_lie(fourteen):
    root = taken_apart(fourteen)
    ground = _first(next(e for e in root.iter() if e.attrib.get("class") == "ground"))[1]
    shafts = [e for e in root.iter() if e.attrib.get("class") == "shaft"]
    scale = None
    for shaft, club in zip(shafts, fourteen.clubs, strict=True):
        (x1, y1), (x2, y2) = (tuple(map(float, pair.split(","))) for pair in shaft.attrib["points"].split())
        lie = math.degrees(math.atan2(y1 - y2, x2 - x1))
        assert lie == pytest.approx(club.as_played.lie.number, abs=0.2)
        whole = (ground - y2) / math.sin(math.radians(lie))  # carried on to the ground
        scale = scale or whole / club.as_played.length.number
        assert whole / scale == pytest.approx(club.as_played.length.number, abs=0.1)


def _first(element: ElementTree.Element) -> tuple[float, ...]:
    return tuple(map(float, element.attrib["points"].split()[0].split(",")))


def test_a_left_handers_set_leans_the_other_way(fourteen, left_handed):
    def leans(root):
        shaft = next(e for e in root.iter() if e.attrib.get("class") == "shaft")
        (x1, _), (x2, _) = (tuple(map(float, pair.split(","))) for pair in shaft.attrib["points"].split())
        return x2 - x1

    assert leans(taken_apart(left_handed)) == pytest.approx(-leans(taken_apart(fourteen)), abs=0.25)


def test_labels_give_the_figures_and_the_steps(fourteen):
    labels = [element.text for element in taken_apart(fourteen).iter() if element.tag.endswith("text")]
    for words in ("44¾", "57", "61.25", "476", "35¼", "301"):
        assert words in labels
    # from 46° to 53° and from 35½ in to 35¼ in
    assert "7" in labels
    assert "−¼" in labels


def test_what_is_not_known_is_drawn_broken_and_written_as_a_dash(bare):
    root = taken_apart(bare)
    kinds = [element.attrib.get("class") for element in root.iter()]
    assert "shaft" not in kinds
    assert "dot" in kinds  # in the key only
    assert kinds.count("dot") == 1
    assert kinds.count("unknown") == 3
    labels = [element.text for element in root.iter() if element.tag.endswith("text")]
    assert labels.count("—") == 3 * 3 + 3 + 2  # loft, lie, mass; head mass; two steps that stop before the putter


def test_a_drawing_that_stands_alone_carries_its_own_colours(fourteen):
    alone = drawn_set(fourteen, alone=True)
    assert 'xmlns="http://www.w3.org/2000/svg"' in alone
    assert "--ink: " in alone
    assert "prefers-color-scheme: dark" in alone
    assert "<style" not in drawn_set(fourteen)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.floats(0, 75), st.floats(45, 80), st.floats(20, 52), st.floats(150, 900), st.floats(100, 700),
            st.floats(0, 8), st.sampled_from(["driver", "7 iron", "sand wedge", "putter"]),
        ),
        min_size=1, max_size=20,
    ),
    st.sampled_from(["left", "right"]),
)  # fmt: skip
def test_any_possible_set_stays_within_the_frame(rows, hand):
    kinds = {"driver": "driver", "7 iron": "iron", "sand wedge": "wedge", "putter": "putter"}
    clubs = tuple(
        Club(club=name, kind=kinds[name], head=Head(mass=figure(head, "g", "measured")),
             as_played=AsPlayed(loft=figure(loft, "deg", "measured", tolerance=band),
                                lie=figure(lie, "deg", "measured", tolerance=min(band, 4)),
                                length=figure(length, "in", "measured", tolerance=band / 16),
                                mass=figure(mass, "g", "measured", tolerance=band)))
        for loft, lie, length, mass, head, band, name in rows
    )  # fmt: skip
    root = taken_apart(GolfSet(set=SetFacts(hand=hand), clubs=clubs))
    width, height = frame(root)
    for x, y in places(root):
        assert -0.1 <= x <= width + 0.1
        assert -0.1 <= y <= height + 0.1
