"""The set drawn: every club a column, standing on one ground line.

From the top: the shaft at its true relative length and at its own lie (a left-hander's lean the other way), a disc
whose area is the mass of the whole club, the face leaning back by its loft, and under that three progressions (loft,
length, head mass) in which a dot is the club as played, a whisker its band and a bar what is usual in the trade.
What is not known is drawn broken and written as a dash.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import NamedTuple
from xml.etree.ElementTree import Element

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.usual import usual
from asplayed.quantities import Figure, to_si
from asplayed.telling.drawing_elements import area, box, disc, drawing, label, line, two_lines, width_of, written
from asplayed.telling.words import MISSING, club_names, counted, inches, number_text, value_text, with_unit

_STEP = 62.0  # from column to column
_MARGIN = 104.0  # for the captions on the left
_EDGE = 34.0
_SCALE = 5.2  # of the shafts, units an inch
_GRIP = 10.5  # inches of the shaft drawn thick
_DISC = 0.62  # radius for the square root of a gram
_FACE = 34.0  # length of the bar that leans by the loft
_PANEL = 92.0  # height of a progression
_GAP = 34.0  # between progressions


class _Column(NamedTuple):
    """One club's place: where it stands, its record, its name."""

    x: float
    club: Club
    name: str


class _Progression(NamedTuple):
    """One figure through the bag: its caption, how to read it off a club, and what is usual for that club."""

    caption: str
    unit: str
    grain: float  # the axis is marked at multiples of this
    figure: Callable[[Club], Figure | None]
    usual: Callable[[Club], Figure | None]
    steps: bool


_PROGRESSIONS = (
    _Progression("Loft, °", "deg", 20, lambda club: club.as_played.loft, lambda club: usual(club, "loft"), True),
    _Progression("Length, in", "in", 4, lambda club: club.as_played.length, lambda club: usual(club, "length"), False),
    _Progression("Head mass, g", "g", 50, lambda club: club.head.mass, lambda club: usual(club, "head"), False),
)


def _number(figure: Figure | None, unit: str) -> tuple[float, float, float] | None:
    """A figure's value and band in a unit; None where it has no number."""
    if figure is None or not figure.has_number:
        return None
    entry = figure.in_unit(unit)
    low = entry.number if entry.low is None else entry.low
    high = entry.number if entry.high is None else entry.high
    return entry.number, low, high


def _short(figure: Figure | None, unit: str) -> str:
    """A label's digits: a figure with one decimal at most, a length as a shop fraction where that is short."""
    found = _number(figure, unit)
    if found is None:
        return MISSING
    if unit == "in":
        fraction = inches(found[0])
        return fraction if len(fraction) <= 5 else number_text(found[0], unit, computed=True)
    return number_text(round(found[0], 1 if unit == "deg" else 0), unit, computed=True)


def _reach(club: Club) -> float:
    """How far to the side the butt of a club stands from its head."""
    length, lie = _number(club.as_played.length, "in"), _number(club.as_played.lie, "deg")
    if length is None or lie is None:
        return 0.0
    return length[0] * math.cos(to_si(lie[0], "deg")) * _SCALE


def described(golf_set: GolfSet) -> str:
    """The drawing in words: what each club shows.

    >>> described(GolfSet(clubs=(Club(club="putter", kind="putter"),)))
    '1 club from left to right. putter: length —, lie —, loft —, mass —.'
    """
    sentences = [f"{counted(len(golf_set.clubs), 'club')} from left to right."]
    for name, club in zip(club_names(golf_set), golf_set.clubs, strict=True):
        played = club.as_played
        sentences.append(
            f"{name}: length {value_text(played.length)}, lie {value_text(played.lie)}, "
            f"loft {value_text(played.loft)}, mass {value_text(played.mass)}."
        )
    return " ".join(sentences)


def drawn_set(golf_set: GolfSet, *, alone: bool = False) -> str:
    """The set as an SVG drawing; `alone` for a file of its own, which then carries its style.

    >>> drawn_set(GolfSet(clubs=(Club(club="putter", kind="putter"),))).startswith("<svg")
    True
    """
    way = -1.0 if golf_set.set.hand == "left" else 1.0
    lean = max([_reach(club) for club in golf_set.clubs], default=0.0)
    left = _MARGIN + (lean if way < 0 else 0.0)
    names = club_names(golf_set)
    columns = [
        _Column(left + place * _STEP, club, names[place]) for place, club in enumerate(golf_set.clubs)
    ]
    width = max(left + _STEP * (len(columns) - 1) + (lean if way > 0 else 0.0) + _EDGE, 420.0)
    tall = max([_height(club) for club in golf_set.clubs], default=0.0)
    ground = 30.0 + tall
    faces = ground + 82.0 + _FACE
    top = faces + 62.0
    height = top + sum(_PANEL + _GAP + (18.0 if each.steps else 0.0) for each in _PROGRESSIONS) + 12.0
    root = drawing(width, height, "drawn-set", "The set as played, drawn", described(golf_set), alone=alone)
    for column in columns:
        _stand(root, column, ground, way)
    line(root, "ground", (_MARGIN - 34, ground), (width - 8, ground))
    _rows(root, columns, ground)
    _faces(root, columns, faces, way)
    for each in _PROGRESSIONS:
        _progression(root, columns, top, each, width)
        top += _PANEL + _GAP + (18.0 if each.steps else 0.0)
    _key(root, height - 8)
    return written(root)


def _height(club: Club) -> float:
    length, lie = _number(club.as_played.length, "in"), _number(club.as_played.lie, "deg")
    if length is None:
        return 0.0
    return length[0] * (math.sin(to_si(lie[0], "deg")) if lie else 1.0) * _SCALE


def _stand(root: Element, column: _Column, ground: float, way: float) -> None:
    """One club on the ground: band of the lie, shaft, grip, disc of its mass, length over the butt."""
    played = column.club.as_played
    length, lie, mass = _number(played.length, "in"), _number(played.lie, "deg"), _number(played.mass, "g")

    def along(distance: float, angle: float) -> tuple[float, float]:
        turn = to_si(angle, "deg")
        return column.x + way * distance * _SCALE * math.cos(turn), ground - distance * _SCALE * math.sin(turn)

    if length is not None:
        angle = lie[0] if lie else 90.0
        if lie is not None:
            area(root, "band", along(0, angle), along(length[0], lie[1]), along(length[0], lie[2]))
        line(root, "shaft" if lie else "unknown", along(0, angle), along(length[0], angle))
        line(root, "grip", along(max(length[0] - _GRIP, 0), angle), along(length[0], angle))
        x, y = along(length[0], angle)
        label(root, x, y - 8, _short(played.length, "in"), kind="strong")
    radius = _DISC * math.sqrt(mass[0]) if mass else 9.0
    disc(root, "head" if mass else "unknown", column.x - way * radius, ground - radius, radius)


def _rows(root: Element, columns: list[_Column], ground: float) -> None:
    """Under the ground: the club's name, its lie, its mass."""
    _caption(root, ground + 47, "lie, °")
    _caption(root, ground + 62, "mass, g")
    for column in columns:
        first, second = two_lines(column.name, _STEP - 4, 10.5)
        label(root, column.x, ground + 16, first, size=10.5, kind="strong")
        if second:
            label(root, column.x, ground + 29, second, size=10.5, kind="strong")
        label(root, column.x, ground + 47, _short(column.club.as_played.lie, "deg"))
        label(root, column.x, ground + 62, _short(column.club.as_played.mass, "g"))


def _faces(root: Element, columns: list[_Column], base: float, way: float) -> None:
    """The face of every club, leaning back from the upright by its loft."""
    _caption(root, base - 12, "face, leaning")
    _caption(root, base + 1, "by its loft, °")
    for column in columns:
        loft = _number(column.club.as_played.loft, "deg")
        foot = (column.x - way * 10, base)

        def tip(angle: float, foot: tuple[float, float] = foot) -> tuple[float, float]:
            turn = to_si(angle, "deg")
            return foot[0] + way * _FACE * math.sin(turn), foot[1] - _FACE * math.cos(turn)

        line(root, "upright", foot, tip(0.0))
        if loft is not None:
            area(root, "band", foot, tip(loft[1]), tip(loft[2]))
            line(root, "face", foot, tip(loft[0]))
        label(root, column.x, base + 17, _short(column.club.as_played.loft, "deg"), kind="strong")


def _caption(root: Element, y: float, words: str) -> None:
    label(root, 8, y, words, size=10.5, anchor="start", kind="caption")


def _span(columns: list[_Column], each: _Progression) -> tuple[float, float]:
    """The ends of an axis: whole grains that hold every band and every usual figure shown; the putter's too."""
    ends = [end for column in columns for end in _ends(column.club, each)]
    low, high = min(ends, default=0.0), max(ends, default=each.grain)
    bottom = math.floor(low / each.grain) * each.grain
    return bottom, max(math.ceil(high / each.grain) * each.grain, bottom + each.grain)


def _ends(club: Club, each: _Progression) -> Iterator[float]:
    for figure in (each.figure(club), each.usual(club)):
        found = _number(figure, each.unit)
        if found is not None:
            yield from found


def _progression(root: Element, columns: list[_Column], top: float, each: _Progression, width: float) -> None:
    """One figure through the bag: usual bars, the thread from club to club, whiskers and dots; steps under it."""
    bottom, height = top + _PANEL, _PANEL
    low, high = _span(columns, each)

    def level(value: float) -> float:
        return bottom - (value - low) / (high - low) * height

    right = (columns[-1].x if columns else _MARGIN) + _STEP / 2
    label(root, 8, top - 10, each.caption, size=11.5, anchor="start", kind="strong")
    marks = round((high - low) / each.grain)
    for place in range(marks + 1):
        value = low + place * each.grain
        line(root, "grid", (_MARGIN - 34, level(value)), (right, level(value)))
        if marks <= 6 or place % 2 == 0:
            label(root, _MARGIN - 40, level(value) + 3.5, with_unit(number_text(value, "1", computed=True), "1"),
                  size=9.5, anchor="end", kind="caption")  # fmt: skip
    for column in columns:
        found = _number(each.usual(column.club), each.unit)
        if found is not None:
            box(root, "usual", column.x - 8, level(found[2]), 16, max(level(found[1]) - level(found[2]), 1.5))
    known = [(column, found) for column in columns if (found := _number(each.figure(column.club), each.unit))]
    thread = [(column.x, level(found[0])) for column, found in known if column.club.kind != "putter"]
    if len(thread) > 1:
        line(root, "thread", *thread)
    for column, (value, least, most) in known:
        for end in (least, most):
            line(root, "whisker", (column.x - 3.5, level(end)), (column.x + 3.5, level(end)))
        line(root, "whisker", (column.x, level(least)), (column.x, level(most)))
        disc(root, "dot", column.x, level(value), 3.6)
    for column in columns:
        if _number(each.figure(column.club), each.unit) is None:
            label(root, column.x, bottom - 4, MISSING, size=10.5)
    if each.steps:
        _steps(root, columns, bottom + 17, each)


def _steps(root: Element, columns: list[_Column], y: float, each: _Progression) -> None:
    """Between neighbours, what the figure gains from one to the next."""
    _caption(root, y, "step")
    for here, there in pairwise(columns):
        one, other = each.figure(here.club), each.figure(there.club)
        if "putter" in {here.club.kind, there.club.kind} or one is None or other is None:
            continue
        if one.has_number and other.has_number:
            gain = round(other.in_unit(each.unit).number - one.in_unit(each.unit).number, 1)
            label(root, (here.x + there.x) / 2, y, number_text(gain, each.unit, computed=True), size=10.5)


def _key(root: Element, y: float) -> None:
    """What dot, whisker and bar mean, drawn beside the words."""
    x = 8.0
    disc(root, "dot", x + 4, y - 4, 3.6)
    label(root, x + 14, y, "as played", size=10.5, anchor="start", kind="caption")
    x += 26 + width_of("as played", 10.5)
    line(root, "whisker", (x, y - 10), (x, y + 2))
    line(root, "whisker", (x - 3.5, y - 10), (x + 3.5, y - 10))
    line(root, "whisker", (x - 3.5, y + 2), (x + 3.5, y + 2))
    label(root, x + 10, y, "its band", size=10.5, anchor="start", kind="caption")
    x += 22 + width_of("its band", 10.5)
    box(root, "usual", x, y - 10, 16, 12)
    label(root, x + 22, y, "usual in the trade", size=10.5, anchor="start", kind="caption")
