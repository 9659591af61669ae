"""The set drawn: every club a column, standing on one ground line.

The shaft has its true relative length and its own lie (a left-hander's leans the other way). The head is a half disc:
its area is the mass of the whole club, and its flat leans back by the loft. Under the ground three progressions (loft,
length, head mass) lay each club beside what is usual for it: a bar is the trade's usual range about its middle, a dot
the club as played, a whisker its band. What is not known is drawn broken and written as a dash.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Literal, NamedTuple
from xml.etree.ElementTree import Element

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.clubs.usual import usual
from asplayed.quantities import Figure, to_si, write_fraction
from asplayed.telling.comparing import pairs
from asplayed.telling.drawing_elements import (
    Picture,
    area,
    box,
    club_group,
    disc,
    drawing,
    fitted,
    half_disc,
    label,
    line,
    two_lines,
    width_of,
    written,
)
from asplayed.telling.words import MISSING, clean, counted, inches, number_text, value_text

_STEP = 62.0  # from column to column
_MARGIN = 112.0  # for the captions on the left
_EDGE = 34.0
_SCALE = 5.6  # of the shafts, units an inch
_GRIP = 10.5  # inches of the shaft drawn thick
_HEAD = 0.87  # radius of the half disc for the square root of a gram
_UNKNOWN_HEAD = 15.0
_PANEL = 66.0  # height of a progression
_GAP = 62.0  # from one to the next, its row of digits and the next one's caption


Lengths = Literal["in", "mm"]
"""What lengths are written in."""


class _Column(NamedTuple):
    """One club's place: where it stands, its record, its name, and the club it is laid beside."""

    x: float
    club: Club
    name: str
    before: Club | None = None


class _Progression(NamedTuple):
    """One figure through the bag: its caption, its unit, how to read it and what is usual for a club, its digits."""

    caption: str
    unit: str
    least: float  # the axis reaches at least this far either side of the usual
    figure: Callable[[Club], Figure | None]
    usual: Callable[[Club], Figure | None]
    digits: str  # what stands under it: the "step" between neighbours, or the figure "itself"


def _progressions(lengths: Lengths) -> tuple[_Progression, ...]:
    return (
        _Progression("Loft beside the usual, °: weaker above, stronger below", "deg", 2,
                     lambda club: club.as_played.loft, lambda club: usual(club, "loft"), "step"),
        _Progression(f"Length beside the usual, {lengths}: longer above, shorter below", lengths,
                     0.5 if lengths == "in" else 10,
                     lambda club: club.as_played.length, lambda club: usual(club, "length"), "step"),
        _Progression("Head mass beside the usual, g: heavier above, lighter below", "g", 5,
                     lambda club: club.head.mass, lambda club: usual(club, "head"), "itself"),
    )  # fmt: skip


def _number(figure: Figure | None, unit: str) -> tuple[float, float, float] | None:
    """A figure's value and band in a unit; None where it has no number."""
    if figure is None or not figure.has_number:
        return None
    entry = figure.in_unit(unit)
    low = entry.number if entry.low is None else entry.low
    high = entry.number if entry.high is None else entry.high
    return entry.number, low, high


def _short(figure: Figure | None, unit: str) -> str:
    """A label's digits: whole grams, degrees to a tenth or a quarter, a length as a shop fraction where it is short."""
    found = _number(figure, unit)
    if found is None:
        return MISSING
    if unit == "in":
        fraction = inches(found[0])
        return fraction if len(fraction) <= 5 else number_text(found[0], unit, computed=True)
    return number_text(found[0] if unit == "deg" else round(found[0]), unit, computed=True)


def _reach(club: Club) -> float:
    """How far to the side the butt of a club stands from its head."""
    length, lie = _number(club.as_played.length, "in"), _number(club.as_played.lie, "deg")
    if length is None or lie is None:
        return 0.0
    return length[0] * math.cos(to_si(lie[0], "deg")) * _SCALE


def _length(club: Club, lengths: Lengths) -> str:
    """A club's length in words."""
    found = _number(club.as_played.length, lengths)
    return value_text(club.as_played.length) if lengths == "in" or found is None else f"{found[0]:.0f} mm"


def described(golf_set: GolfSet, lengths: Lengths = "in") -> str:
    """The drawing in words: what each club shows.

    >>> described(GolfSet(clubs=(Club(club="putter", kind="putter"),)))
    '1 club from left to right. putter: length —, lie —, loft —, mass —.'
    """
    sentences = [f"{counted(len(golf_set.clubs), 'club')} from left to right."]
    for name, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True):
        played = club.as_played
        sentences.append(
            f"{name}: length {_length(club, lengths)}, lie {value_text(played.lie)}, "
            f"loft {value_text(played.loft)}, mass {value_text(played.mass)}."
        )
    return " ".join(sentences)


def drawn_set(golf_set: GolfSet, *, alone: bool = False, lengths: Lengths = "in") -> str:
    """The set as an SVG drawing, its `lengths` in inches or millimetres; `alone` for a file of its own, which then
    carries its style.

    >>> drawn_set(GolfSet(clubs=(Club(club="putter", kind="putter"),))).startswith("<svg")
    True
    """
    way = -1.0 if golf_set.set.hand == "left" else 1.0
    lean = max([_reach(club) for club in golf_set.clubs], default=0.0)
    left = _MARGIN + (lean if way < 0 else 0.0)
    names = labels(golf_set.clubs)
    columns = [_Column(left + place * _STEP, club, names[place]) for place, club in enumerate(golf_set.clubs)]
    width = max(left + _STEP * (len(columns) - 1) + (lean if way > 0 else 0.0) + _EDGE, 420.0)
    tall = max([_height(club) for club in golf_set.clubs], default=0.0)
    ground = 30.0 + max(tall, 2 * _UNKNOWN_HEAD)
    top = ground + 132.0
    progressions = _progressions(lengths)
    height = top + len(progressions) * (_PANEL + _GAP)
    root = drawing(width, height, "drawn-set", "The set as played, drawn", described(golf_set, lengths), alone=alone)
    for column in columns:
        _stand(club_group(root, column.name), column, ground, way, lengths)
    line(root, "ground", (_MARGIN - 34, ground), (width - 8, ground))
    _rows(root, columns, ground)
    for each in progressions:
        _progression(root, columns, top, each)
        top += _PANEL + _GAP
    _key(root, height - 8)
    return written(root)


def drawn_beside(
    before: GolfSet,
    now: GolfSet,
    names: tuple[str, str],
    *,
    colours: Mapping[str, str] | None = None,
    lengths: Lengths = "in",
) -> Picture:
    """Two sets in their progressions, club by club: rings for the one, dots for the other, beside what is usual.

    `names` is what the two are called, the ringed one first; `lengths` are in inches or in millimetres.

    >>> driver = Club(club="driver", kind="driver")
    >>> drawn_beside(GolfSet(clubs=(driver,)), GolfSet(clubs=(driver,)), ("before", "now")).name
    'progressions.svg'
    """
    columns, told = [], []
    for place, (name, old, new) in enumerate(pairs(before, now)):
        club = new or old
        if club is None:
            continue
        # a club that only the first set has is a ring without a dot
        shown = club if new is not None else Club(club=club.club, kind=club.kind)
        columns.append(_Column(_MARGIN + place * _STEP, shown, name, old))
        read = [
            f"loft {value_text(each.as_played.loft)} and length {_length(each, lengths)}" if each else "not in the set"
            for each in (old, new)
        ]
        told.append(f"{name}: {names[0]} {read[0]}; {names[1]} {read[1]}.")
    width = max(_MARGIN + _STEP * (len(columns) - 1) + _EDGE, 420.0)
    progressions = _progressions(lengths)
    height = 76.0 + len(progressions) * (_PANEL + _GAP)
    root = drawing(width, height, "progressions", f"{names[0]} beside {names[1]}", " ".join(told),
                   alone=True, colours=colours)  # fmt: skip
    for column in columns:
        first, second = two_lines(column.name, _STEP - 2, 10)
        label(root, column.x, 17, first, size=10, kind="strong")
        if second:
            label(root, column.x, 30, second, size=10, kind="strong")
    top = 64.0
    for each in progressions:
        _progression(root, columns, top, each)
        top += _PANEL + _GAP
    _key(root, height - 8, names)
    return Picture("progressions.svg", " ".join(told), written(root))


def _height(club: Club) -> float:
    length, lie = _number(club.as_played.length, "in"), _number(club.as_played.lie, "deg")
    if length is None:
        return 0.0
    return length[0] * (math.sin(to_si(lie[0], "deg")) if lie else 1.0) * _SCALE


def _stand(root: Element, column: _Column, ground: float, way: float, lengths: Lengths) -> None:
    """One club on the ground: band of the lie, shaft, grip, head, length over the butt."""
    played = column.club.as_played
    length, lie, mass = _number(played.length, "in"), _number(played.lie, "deg"), _number(played.mass, "g")
    radius = _HEAD * math.sqrt(mass[0]) if mass else _UNKNOWN_HEAD
    middle = (column.x, ground - radius)
    if length is not None:
        angle = lie[0] if lie else 90.0
        # length is measured to the ground: the part of it below the head's middle is not drawn
        above = length[0] * _SCALE - radius / math.sin(to_si(angle, "deg"))

        def along(distance: float, angle: float) -> tuple[float, float]:
            turn = to_si(angle, "deg")
            return middle[0] + way * distance * math.cos(turn), middle[1] - distance * math.sin(turn)

        butt = along(above, angle)
        if lie is not None:
            area(root, "band", middle, along(above, lie[1]), along(above, lie[2]))
        line(root, "shaft" if lie else "unknown", middle, butt)
        line(root, "grip", along(max(above - _GRIP * _SCALE, radius), angle), butt)
        label(root, butt[0], butt[1] - 8, _short(played.length, lengths), kind="strong")
    loft = _number(played.loft, "deg")
    if mass is None:
        disc(root, "unknown", *middle, radius)
    elif loft is None:
        disc(root, "head", *middle, radius / math.sqrt(2))
    else:
        half_disc(root, "head", *middle, radius, way * loft[0], flat_on_the_right=way < 0)


def _rows(root: Element, columns: list[_Column], ground: float) -> None:
    """Under the ground: the club's name, its loft, its lie, its mass."""
    rows = (("loft, °", "loft", "deg", "strong"), ("lie, °", "lie", "deg", "label"), ("mass, g", "mass", "g", "label"))
    for row, (caption, field, unit, kind) in enumerate(rows):
        y = ground + 52 + 16 * row
        _caption(root, y, caption)
        for column in columns:
            label(
                club_group(root, column.name),
                column.x,
                y,
                _short(getattr(column.club.as_played, field), unit),
                kind=kind,
            )
    for column in columns:
        first, second = two_lines(column.name, _STEP - 2, 10)
        group = club_group(root, column.name)
        label(group, column.x, ground + 17, first, size=10, kind="strong")
        if second:
            label(group, column.x, ground + 30, second, size=10, kind="strong")


def _caption(root: Element, y: float, words: str) -> None:
    label(root, 8, y, words, size=10.5, anchor="start", kind="caption")


class _Beside(NamedTuple):
    """A club's figure and its usual range, both as departures from the middle of the usual."""

    value: tuple[float, float, float] | None
    usual: tuple[float, float] | None


def _beside(club: Club, each: _Progression) -> _Beside:
    custom, found = _number(each.usual(club), each.unit), _number(each.figure(club), each.unit)
    if custom is None:
        return _Beside(None, None)
    centre = (custom[1] + custom[2]) / 2
    value = None if found is None else (found[0] - centre, found[1] - centre, found[2] - centre)
    return _Beside(value, (custom[1] - centre, custom[2] - centre))


def _progression(root: Element, columns: list[_Column], top: float, each: _Progression) -> None:
    """One figure through the bag, each club beside its own usual range; digits under it."""
    places = [(column, _beside(column.club, each)) for column in columns]
    earlier = [(column, _beside(column.before, each)) for column in columns if column.before is not None]
    ends = [abs(end) for _, place in [*places, *earlier] for end in (*(place.value or ()), *(place.usual or ()))]
    reach = max(1, math.ceil(max(ends, default=0.0) / each.least)) * each.least
    middle = top + _PANEL / 2

    def level(value: float) -> float:
        return middle - value / reach * _PANEL / 2

    right = (columns[-1].x if columns else _MARGIN) + _STEP / 2
    label(root, 8, top - 12, each.caption, size=11, anchor="start", kind="strong")
    for value in (reach, 0.0, -reach):
        line(root, "ground" if value == 0 else "grid", (_MARGIN - 34, level(value)), (right, level(value)))
        digits = ("+" if value > 0 else "") + number_text(value, "1", computed=True) if value else "usual"
        label(root, _MARGIN - 40, level(value) + 3.5, digits, size=10, anchor="end", kind="caption")
    for column, place in places:
        if place.usual is not None:
            box(root, "usual", column.x - 9, level(place.usual[1]), 18, level(place.usual[0]) - level(place.usual[1]))
    thread = [(column.x, level(place.value[0])) for column, place in places if place.value and not earlier]
    if len(thread) > 1:
        line(root, "thread", *thread)
    aside = 6 if any(column.before is not None for column in columns) else 0  # so that neither hides the other
    for column, place in earlier:
        if place.value is not None:
            disc(root, "ring", column.x - aside, level(place.value[0]), 4)
    for column, place in places:
        if place.value is None:
            continue
        value, least, most = place.value
        group = club_group(root, column.name)
        for end in (least, most):
            line(group, "whisker", (column.x + aside - 4, level(end)), (column.x + aside + 4, level(end)))
        line(root, "whisker", (column.x + aside, level(least)), (column.x + aside, level(most)))
        disc(root, "dot", column.x + aside, level(value), 4)
    if each.digits == "step":
        _steps(root, columns, top + _PANEL + 17, each)
    else:
        _caption(root, top + _PANEL + 17, each.unit)
        for column in columns:
            label(
                club_group(root, column.name),
                column.x,
                top + _PANEL + 17,
                _short(each.figure(column.club), each.unit),
                size=10.5,
            )


def _steps(root: Element, columns: list[_Column], y: float, each: _Progression) -> None:
    """Between neighbours, what the figure changes by from one to the next; the putter is no step of the set."""
    if len(columns) > 1:
        _caption(root, y, "step to the next")
    for here, there in pairwise(columns):
        one, other = _number(each.figure(here.club), each.unit), _number(each.figure(there.club), each.unit)
        if "putter" in {here.club.kind, there.club.kind}:
            continue
        x = (here.x + there.x) / 2
        if one is None or other is None:
            label(root, x, y, MISSING, size=10.5)
            continue
        gain = round(other[0] - one[0]) if each.unit == "mm" else other[0] - one[0]
        fraction = write_fraction(gain)
        exact = each.unit == "in" and inches(gain) == fraction and len(fraction) <= 6
        label(root, x, y, fraction if exact else number_text(gain, each.unit, computed=True), size=10.5)


def _key(root: Element, y: float, names: tuple[str, str] | None = None) -> None:
    """What dot, whisker and bar mean, drawn beside the words; and a ring, where two sets are shown by their names."""
    x = 8.0
    for kind, words in (("dot", "as played"),) if names is None else (("ring", names[0]), ("dot", names[1])):
        short = fitted(clean(words), 110, 10.5)
        disc(root, kind, x + 4, y - 4, 3.6)
        label(root, x + 14, y, short, size=10.5, anchor="start", kind="caption")
        x += 26 + width_of(short, 10.5)
    line(root, "whisker", (x, y - 10), (x, y + 2))
    line(root, "whisker", (x - 3.5, y - 10), (x + 3.5, y - 10))
    line(root, "whisker", (x - 3.5, y + 2), (x + 3.5, y + 2))
    label(root, x + 10, y, "its band", size=10.5, anchor="start", kind="caption")
    x += 22 + width_of("its band", 10.5)
    box(root, "usual", x, y - 10, 16, 12)
    label(root, x + 22, y, "usual in the trade", size=10.5, anchor="start", kind="caption")
