"""Pictures and overlays: to scale, inside their frames, legible, described, nothing invented."""

from __future__ import annotations

import io
import itertools
import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from asplayed.clubs import Club, GolfSet
from asplayed.players import Player, fly_set
from asplayed.quantities import figure
from asplayed.telling.drawing_elements import width_of
from asplayed.telling.house import contrast
from asplayed.telling.overlays import FRAMES, OVERLAY_NAME, overlays, rendered
from asplayed.telling.palette import DARK, LIGHT, PAPER
from asplayed.telling.pictures import apart, pictures, pictures_beside

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def flown(fourteen):
    return fly_set(fourteen, Player(driver_speed=figure(105, "mph", "stated")), shots=200)


def boxes(root) -> list[tuple[str, float, float, float, float]]:
    """Every label's words with left, top, right and bottom, as wide as it may get."""
    found = []
    for text in root.iter(f"{SVG}text"):
        size, words = float(text.get("font-size")), text.text or ""
        wide = width_of(words, size)
        x, y = float(text.get("x")), float(text.get("y"))
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.get("text-anchor")]
        found.append((words, left, y - 0.8 * size, left + wide, y + 0.25 * size))
    return found


def points(root) -> list[tuple[float, float]]:
    return [
        tuple(map(float, pair.split(",")))
        for element in root.iter()
        if "points" in element.attrib
        for pair in element.get("points").split()
    ]


def touching(found) -> list[tuple[str, str]]:
    return [
        (one[0], other[0])
        for place, one in enumerate(found)
        for other in found[place + 1 :]
        if one[1] < other[3] and other[1] < one[3] and one[2] < other[4] and other[2] < one[4]
    ]


def test_carries_are_drawn_to_scale_and_labelled_apart(fourteen, flown):
    made = {each.name: each for each in pictures(fourteen, flown)}
    assert set(made) == {"from-above.svg", "from-the-side.svg", "heads.svg"}
    root = ElementTree.fromstring(made["from-above.svg"].svg)
    dots = sorted(float(dot.get("cy")) for dot in root.iter(f"{SVG}circle"))
    carries = sorted((each.carry.number for each in flown.clubs), reverse=True)
    for (y, other_y), (far, near) in zip(itertools.pairwise(dots), itertools.pairwise(carries),
                                         strict=True):  # fmt: skip
        assert other_y - y == pytest.approx(2.6 * (far - near), abs=0.11)


def test_every_flight_ends_at_its_carry_and_reaches_its_height(fourteen, flown):
    made = next(each for each in pictures(fourteen, flown) if each.name == "from-the-side.svg")
    root = ElementTree.fromstring(made.svg)
    paths = [element for element in root.iter(f"{SVG}polyline") if element.get("class") == "flight"]
    assert len(paths) == len(flown.clubs)
    for path, club in zip(paths, sorted(flown.clubs, key=lambda each: each.carry.number), strict=True):
        xs, ys = zip(*(map(float, pair.split(",")) for pair in path.get("points").split()), strict=True)
        assert xs[-1] - xs[0] == pytest.approx(3.0 * club.carry.number, abs=0.2)
        assert max(ys) - min(ys) == pytest.approx(3.0 * club.apex.number / 3, abs=0.2)


@pytest.mark.parametrize("which", ["fourteen", "twenty", "one", "bare", "hostile", "left_handed"])
def test_no_label_leaves_a_picture_or_covers_another(which, request):
    golf_set = request.getfixturevalue(which)
    in_hand = fly_set(golf_set, Player(driver_speed=figure(95, "mph", "stated")), shots=50)
    for each in pictures(golf_set, in_hand):
        root = ElementTree.fromstring(each.svg)
        width, height = (float(root.get(key)) for key in ("width", "height"))
        for words, left, top, right, bottom in boxes(root):
            assert left >= 0, (each.name, words)
            assert top >= 0, (each.name, words)
            assert right <= width, (each.name, words)
            assert bottom <= height, (each.name, words)
        assert all(-1 <= x <= width + 1 and -1 <= y <= height + 1 for x, y in points(root)), each.name
        assert touching(boxes(root)) == [], each.name
        assert root.find(f"{SVG}desc").text


def test_without_a_flight_there_is_no_picture_of_one(fourteen, bare):
    assert [each.name for each in pictures(fourteen, None)] == ["heads.svg"]
    assert pictures(bare, None) == []


def test_a_head_is_drawn_at_its_angles(fourteen):
    import math

    made = pictures(GolfSet(clubs=(fourteen.clubs[11],)), None)[0]
    assert made.told == "sand wedge: loft 57°, made 56°; bounce 12°."
    root = ElementTree.fromstring(made.svg)
    outline = next(element for element in root.iter(f"{SVG}polygon") if element.get("class") == "outline")
    edge, crown, _, trailing = [tuple(map(float, pair.split(","))) for pair in outline.get("points").split()]
    assert math.degrees(math.atan2(crown[0] - edge[0], edge[1] - crown[1])) == pytest.approx(57, abs=0.2)
    assert math.degrees(math.atan2(trailing[1] - edge[1], trailing[0] - edge[0])) == pytest.approx(12, abs=0.3)


def test_fixed_colours_need_no_custom_properties(fourteen, flown):
    for colours in (LIGHT, DARK, PAPER):
        for each in pictures(fourteen, flown, colours=colours):
            assert "var(" not in each.svg
            assert colours["ink"] in each.svg


@given(st.lists(st.floats(0, 500), min_size=1, max_size=20).map(sorted))
def test_labels_are_kept_apart_and_in_order(wanted):
    found = apart(wanted, 15)
    assert len(found) == len(wanted)
    assert all(other - one >= 15 - 1e-6 for one, other in itertools.pairwise(found))


@pytest.mark.parametrize("which", ["fourteen", "twenty", "one", "bare", "hostile"])
def test_an_overlay_keeps_to_its_safe_area(which, request):
    golf_set = request.getfixturevalue(which)
    found = overlays(golf_set)
    assert len(found) == 2 * (1 + len(golf_set.clubs))
    assert len({each.name for each in found}) == len(found)
    for each in found:
        assert OVERLAY_NAME.fullmatch(f"{each.name}.svg")
        root = ElementTree.fromstring(each.svg)
        assert (root.get("width"), root.get("height")) == (str(each.frame.width), str(each.frame.height))
        for words, left, top, right, bottom in boxes(root):
            assert left >= each.frame.left, words
            assert top >= each.frame.top, words
            assert right <= each.frame.right, words
            assert bottom <= each.frame.bottom + 1, words
        assert touching(boxes(root)) == [], each.name


def test_safe_areas_are_the_published_ones():
    wide = FRAMES[0]
    assert (wide.left, wide.top) == (0.05 * 1920, 0.05 * 1080)  # EBU R 95, from memory: graphics-safe area
    assert (wide.right, wide.bottom) == (0.95 * 1920, 0.95 * 1080)


def test_an_overlay_is_a_transparent_picture_of_its_size(one):
    from PIL import Image

    for (name, content), each in zip(rendered(overlays(one)), overlays(one), strict=True):
        with Image.open(io.BytesIO(content)) as picture:
            assert name == each.name
            assert picture.size == (each.frame.width, each.frame.height)
            assert picture.mode == "RGBA"
            assert picture.getpixel((3, 3))[3] == 0
            x, y = int(each.frame.left) + 20, int(each.frame.bottom) - 4
            assert picture.getpixel((x, y))[3] > 200


def over(ground: str, panel: str, opacity: float) -> str:
    """A panel of an opacity over a ground, as one colour."""
    mixed = [
        round(opacity * int(panel[place : place + 2], 16) + (1 - opacity) * int(ground[place : place + 2], 16))
        for place in (1, 3, 5)
    ]
    return "#" + "".join(f"{part:02x}" for part in mixed)


def test_an_overlay_can_be_read_over_any_picture(one):
    style = re.search(r"\.panel \{[^}]*fill-opacity: ([\d.]+)", overlays(one)[0].svg)
    assert style is not None
    for ground in ("#ffffff", "#000000", "#808080"):
        panel = over(ground, DARK["ground"], float(style[1]))
        assert contrast(DARK["ink"], panel) >= 4.5  # WCAG 2.2, success criterion 1.4.3
        assert contrast(DARK["quiet"], panel) >= 4.5


def test_a_club_without_a_letter_in_its_name_has_a_file():
    found = overlays(GolfSet(clubs=(Club(club="../../..", kind="iron"),)))
    assert all("/" not in each.name and ".." not in each.name for each in found)


def test_two_sets_side_by_side_keep_one_scale_and_their_frames(fourteen, twenty, flown):
    other = fly_set(twenty, Player(driver_speed=figure(95, "mph", "stated")), shots=200)
    changed = replace(
        fourteen.clubs[0], as_played=replace(fourteen.clubs[0].as_played, loft=figure(8, "deg", "stated"))
    )
    bent = replace(fourteen, clubs=(changed, *fourteen.clubs[1:]))
    for now, flights in ((bent, flown), (twenty, other)):
        made = pictures_beside(fourteen, now, (flown, flights), names=("Jonas Tessler", "Ada Brandt"), colours=PAPER)
        assert [each.name for each in made if each.name != "beside-heads.svg"] == [
            "beside-from-above.svg", "beside-from-the-side.svg", "beside-progressions.svg"
        ]  # fmt: skip
        for each in made:
            root = ElementTree.fromstring(each.svg)
            width, height = (float(size) for size in root.get("viewBox").split()[2:])
            assert [words for words, left, top, right, bottom in boxes(root)
                    if left < 0 or top < 0 or right > width or bottom > height] == []  # fmt: skip
            assert all(-1 <= x <= width + 1 and -1 <= y <= height + 1 for x, y in points(root))
            assert touching(boxes(root)) == []
            assert each.told


def test_only_heads_that_differ_are_laid_beside_each_other(fourteen):
    assert [each.name for each in pictures_beside(fourteen, fourteen)] == ["beside-progressions.svg"]
    changed = replace(
        fourteen.clubs[4], as_played=replace(fourteen.clubs[4].as_played, loft=figure(23, "deg", "stated"))
    )
    bent = replace(fourteen, clubs=(*fourteen.clubs[:4], changed, *fourteen.clubs[5:]))
    heads = pictures_beside(fourteen, bent)[-1]
    assert heads.told == "5 iron: loft 24.5° and 23°."
    root = ElementTree.fromstring(heads.svg)
    [before] = [element for element in root.iter() if element.get("class") == "before"]
    crown, edge = (tuple(map(float, pair.split(","))) for pair in before.get("points").split()[:2])
    lean = math.degrees(math.atan2(crown[0] - edge[0], edge[1] - crown[1]))
    assert lean == pytest.approx(24.5, abs=0.1)


def test_a_ring_stands_for_the_one_set_and_a_dot_for_the_other(fourteen):
    drawn = pictures_beside(fourteen, fourteen)[0]
    root = ElementTree.fromstring(drawn.svg)
    rings = sum(disc.get("class") == "ring" for disc in root.iter(f"{SVG}circle"))
    dots = sum(disc.get("class") == "dot" for disc in root.iter(f"{SVG}circle"))
    assert rings == dots == 3 * len(fourteen.clubs) + 1


def test_no_figure_of_an_overlay_is_ever_cut(fourteen):
    wide = replace(
        fourteen.clubs[0].as_played, loft=figure(11.25, "deg", "stated"), length=figure(44.49, "in", "stated")
    )
    for each in overlays(replace(fourteen, clubs=(replace(fourteen.clubs[0], as_played=wide),))):
        words = [text.text or "" for text in ElementTree.fromstring(each.svg).iter(f"{SVG}text")]
        assert "11.25°" in words
        assert "44.49 in" in words
        if not each.name.startswith("00"):
            assert "face closed" in words


def test_how_sure_the_figures_are_is_never_cut(fourteen):
    for each in overlays(fourteen):
        words = re.sub(r"<[^>]+>", " ", each.svg)
        assert "not gauged" in " ".join(words.split()), each.name
        captions = re.findall(r'font-size="24"[^>]*>([^<]*)<', each.svg)
        assert captions, each.name
        assert not any("…" in line for line in captions), each.name
