"""Pictures of the set: carries with their spreads from above, flights from the side, heads before and after.

All are drawn from figures alone and to one scale each. What is not known is not drawn; there is no picture of carries
without a set that was flown.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple
from xml.etree.ElementTree import Element

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.quantities import Figure, to_si
from asplayed.telling.comparing import pairs
from asplayed.telling.drawing import Lengths, drawn_beside
from asplayed.telling.drawing_elements import (
    Picture,
    area,
    box,
    club_group,
    disc,
    drawing,
    fitted,
    label,
    line,
    width_of,
    written,
)
from asplayed.telling.words import changed, clean, signed, value_text

if TYPE_CHECKING:
    from asplayed.players.flown import FlownClub, FlownSet

_YARD = 2.6  # units a yard, from above
_SIDE = 3.0  # units a yard, from the side
_YARDS = {"ft": 1 / 3, "yd": 1.0}
_TILE = (200.0, 214.0)
_ROW = 15.0  # between labels that would stand on one another

_LEFT = 50.0  # of the ground, seen from the side


class Ruled(NamedTuple):
    """What a picture's ground is ruled in: the unit, its name, how many of it a yard is; and what lengths are in."""

    unit: str
    name: str
    yard: float
    lengths: Lengths


YARDS, METRES = Ruled("yd", "yards", 1.0, "in"), Ruled("m", "metres", 0.9144, "mm")

Colours = Mapping[str, str] | None
Named = tuple[str, "FlownSet"]
"""A set that was flown, and what it is called where several are shown."""


def pictures(
    golf_set: GolfSet, flown: FlownSet | None, *, colours: Colours = None, ruled: Ruled = YARDS
) -> list[Picture]:
    """Every picture that the figures allow; they follow light and dark, or have the `colours` given for good.

    With colours that are none (`{}`) they are part of a page and take its own. Flights and carries are `ruled` in yards
    or in metres.
    """
    found = [_heads(golf_set, colours)]
    if flown is not None and flown.clubs:
        found = [*_flown([("", flown)], colours, ruled), *found]
    return [each for each in found if each is not None]


def pictures_beside(
    before: GolfSet,
    now: GolfSet,
    flown: tuple[FlownSet | None, FlownSet | None] = (None, None),
    *,
    names: tuple[str, str] = ("before", "now"),
    colours: Colours = None,
    ruled: Ruled = YARDS,
) -> list[Picture]:
    """Two sets, or one at two dates, side by side and to one scale: carries, flights, progressions, heads.

    `flown` holds them in their players' hands, where that is known of both; `names` is what each is called; flights and
    carries are `ruled` in yards or in metres.
    """
    found = [
        drawn_beside(before, now, names, colours=colours, lengths=ruled.lengths),
        _heads_beside(before, now, names, colours),
    ]
    one, other = flown
    if one is not None and other is not None and one.clubs and other.clubs:
        found = [*_flown([(names[0], one), (names[1], other)], colours, ruled), *found]
    return [each._replace(name=f"beside-{each.name}") for each in found if each is not None]


def _flown(sets: Sequence[Named], colours: Colours, ruled: Ruled) -> list[Picture | None]:
    return [_from_above(sets, colours, ruled), _from_the_side(sets, colours, ruled)]


def _yards(found: Figure) -> float:
    return found.number * _YARDS[found.unit]


def apart(wanted: Sequence[float], least: float) -> list[float]:
    """Places for labels as near as may be to those wanted, in the same order, no two nearer than `least`.

    >>> apart([10, 12, 40], 8)
    [7.0, 15.0, 40.0]
    """
    groups: list[tuple[float, int]] = []  # the middle of each run of touching labels, and how many they are
    for place in wanted:
        groups.append((float(place), 1))
        while len(groups) > 1:
            (one, many), (other, more) = groups[-2:]
            if other - (more - 1) * least / 2 - (one + (many - 1) * least / 2) >= least:
                break
            start = [one + (n - (many - 1) / 2) * least for n in range(many)]
            middle = (one * many + other * more) / (many + more)
            groups[-2:] = [(middle, len(start) + more)]
    return [middle + (n - (many - 1) / 2) * least for middle, many in groups for n in range(many)]


def _ellipse(root: Element, kind: str, centre: tuple[float, float], half: tuple[float, float], turn: float) -> None:
    """An ellipse of half axes (up, across) turned clockwise by `turn` radians, as 48 corners."""
    corners = []
    for step in range(48):
        angle = 2 * math.pi * step / 48
        up, across = half[0] * math.cos(angle), half[1] * math.sin(angle)
        corners.append((
            centre[0] + up * math.sin(turn) + across * math.cos(turn),
            centre[1] - up * math.cos(turn) + across * math.sin(turn),
        ))  # fmt: skip
    area(root, kind, *corners)


def _from_above(sets: Sequence[Named], colours: Colours, ruled: Ruled) -> Picture:
    """The ladder of carries: an ellipse a club that holds half its shots, as far from the tee; sets side by side."""
    clubs = [each for _, flown in sets for each in flown.clubs]
    far = max(_yards(each.carry) + _yards(each.ellipse.long) for each in clubs)
    near = max(0.0, min(_yards(each.carry) - _yards(each.ellipse.long) for each in clubs))
    near, far = 25 * math.floor(near / 25), 25 * math.ceil(far / 25)
    wide = max(abs(_yards(each.side)) + _yards(each.ellipse.long) for each in clubs) * _YARD
    several = len(sets) > 1
    top = 66.0 if several else 44.0
    most = max(len(flown.clubs) for _, flown in sets)
    caption = f"Carry in {ruled.name}, seen from above; an ellipse holds half the shots"
    step = 60 + 2 * wide + 250
    width = max(step * len(sets), width_of(caption, 13) + 20)
    height = top + max((far - near) * _YARD, most * _ROW) + 34
    told = "Carries seen from above. " + " ".join(
        f"{f'{clean(name)}, ' if several else ''}{each.label}: {value_text(_round(each.carry, ruled))}, give or take "
        f"{value_text(_round(each.depth, ruled))} along and {value_text(_round(each.width, ruled))} across."
        for name, flown in sets
        for each in _by_carry(flown)
    )
    root = drawing(width, height, "from-above", "Carries with their spreads, seen from above", told,
                   alone=True, colours=colours)  # fmt: skip
    label(root, 10, 22, caption, size=13, anchor="start", kind="strong")

    def level(yards: float) -> float:
        return top + (far - yards) * _YARD

    for place, (name, flown) in enumerate(sets):
        left = place * step
        middle = left + 60 + wide
        if several:
            label(root, left + 10, 46, fitted(clean(name), step - 30, 13), size=13, anchor="start")
        for mark in range(25 * math.ceil(near * ruled.yard / 25), int(far * ruled.yard) + 1, 25):
            at = level(mark / ruled.yard)
            line(root, "grid", (left + 46, at), (middle + wide, at))
            label(root, left + 40, at + 4, str(mark), size=11, anchor="end", kind="caption")
        line(root, "unknown", (middle, level(near)), (middle, level(far)))
        label(root, middle, level(near) + 22, "target line", size=11, kind="caption")
        _ladder(root, _by_carry(flown), middle, wide, level, ruled)
    return Picture("from-above.svg", told, written(root))


def _by_carry(flown: FlownSet) -> list[FlownClub]:
    return sorted(flown.clubs, key=lambda each: -each.carry.number)


def _ladder(
    root: Element,
    clubs: Sequence[FlownClub],
    middle: float,
    wide: float,
    level: Callable[[float], float],
    ruled: Ruled,
) -> None:
    """The ellipses of one set, and its clubs' names beside them."""
    for each in clubs:
        centre = (middle + _yards(each.side) * _YARD, level(_yards(each.carry)))
        half = (_yards(each.ellipse.long) * _YARD, _yards(each.ellipse.short) * _YARD)
        _ellipse(
            club_group(root, each.label),
            "spread",
            centre,
            half,
            to_si(each.ellipse.turn.number, each.ellipse.turn.unit),
        )
    places = apart([level(_yards(each.carry)) for each in clubs], _ROW)
    for each, place in zip(clubs, places, strict=True):
        centre = (middle + _yards(each.side) * _YARD, level(_yards(each.carry)))
        group = club_group(root, each.label)
        disc(group, "dot", *centre, 3)
        line(group, "thread", centre, (middle + wide + 8, place), (middle + wide + 20, place))
        words = f"{value_text(_round(each.carry, ruled))}  {clean(each.label)}"
        label(group, middle + wide + 24, place + 4, fitted(words, 216, 12), size=12, anchor="start")


def _round(found: Figure, ruled: Ruled) -> Figure:
    return Figure(value=float(round(_yards(found) * ruled.yard)), unit=ruled.unit, source=found.source)


def _path(flown: FlownSet, club: FlownClub) -> list[tuple[float, float]]:
    """The flight in yards: along the line, and up; through the club's own carry and height."""
    from asplayed.mechanics import trajectory

    found = trajectory(
        to_si(club.ball_speed.number, club.ball_speed.unit),
        to_si(club.launch.number, club.launch.unit),
        to_si(club.spin.number, club.spin.unit),
        density=flown.place.weather.density,
        points=61,
    )
    along, up = found.along, found.height
    stretch, lift = _yards(club.carry) / along[-1], _yards(club.apex) / max(up)
    return [(x * stretch, max(z * lift, 0.0)) for x, z in zip(along, up, strict=True)]


def _from_the_side(sets: Sequence[Named], colours: Colours, ruled: Ruled) -> Picture:
    """Every club's flight from the side, height and distance to one scale; sets one under the other."""
    clubs = [each for _, flown in sets for each in flown.clubs]
    far = 25 * math.ceil(max(_yards(each.carry) for each in clubs) / 25)
    high = max(_yards(each.apex) for each in clubs)
    several = len(sets) > 1
    caption = f"Flights in {ruled.name}, height and distance to one scale"
    width = max(50 + far * _SIDE + 90, width_of(caption, 13) + 20)
    told = "Flights seen from the side. " + " ".join(
        f"{f'{clean(name)}, ' if several else ''}{each.label}: {value_text(_round(each.apex, ruled))} high, "
        f"comes down at {each.descent.number:.0f}°."
        for name, flown in sets
        for each in reversed(_by_carry(flown))
    )
    tops, top = [], 54.0 if not several else 70.0
    for _, flown in sets:
        tops.append(top)
        top += high * _SIDE + 44 + (max(_label_rows(flown)) + 1) * _ROW + (30 if several else 0)
    root = drawing(width, top - (30 if several else 0), "from-the-side", "Flights seen from the side", told,
                   alone=True, colours=colours)  # fmt: skip
    label(root, 10, 22, caption, size=13, anchor="start", kind="strong")
    for (name, flown), start in zip(sets, tops, strict=True):
        if several:
            label(root, 10, start - 18, fitted(clean(name), width - 30, 13), size=13, anchor="start")
        _flights(root, flown, (_LEFT, start + high * _SIDE), far, high, ruled)
    return Picture("from-the-side.svg", told, written(root))


def _label_rows(flown: FlownSet) -> list[int]:
    """The row of each club's name under the ground, shortest carry first."""
    clubs = list(reversed(_by_carry(flown)))
    spots = [_LEFT + _yards(each.carry) * _SIDE for each in clubs]
    return _rows(spots, [width_of(clean(each.label)[:18], 11) for each in clubs])


def _flights(
    root: Element, flown: FlownSet, origin: tuple[float, float], far: float, high: float, ruled: Ruled
) -> None:
    """The flights of one set over its ground, which begins at `origin`."""
    left, ground = origin
    clubs = list(reversed(_by_carry(flown)))
    spots = [left + _yards(each.carry) * _SIDE for each in clubs]
    for mark in range(0, int(high * ruled.yard) + 1, 10):
        at = ground - mark / ruled.yard * _SIDE
        line(root, "grid", (left, at), (left + far * _SIDE, at))
        label(root, left - 6, at + 4, str(mark), size=11, anchor="end", kind="caption")
    line(root, "ground", (left, ground), (left + far * _SIDE, ground))
    for each in clubs:
        line(
            club_group(root, each.label),
            "flight",
            *((left + x * _SIDE, ground - z * _SIDE) for x, z in _path(flown, each)),
        )
    levels = [ground + 32 + row * _ROW for row in _label_rows(flown)]
    for each, spot, y in zip(clubs, spots, levels, strict=True):
        line(club_group(root, each.label), "thread", (spot, ground), (spot, y - 10))
    for each, spot, y in zip(clubs, spots, levels, strict=True):
        words = fitted(clean(each.label), 120, 11)
        wide = width_of(words, 11)
        group = club_group(root, each.label)
        box(group, "paper", spot - wide / 2, y - 10, wide, 13)  # so that no other club's thread runs through it
        label(group, spot, y, words, size=11)


def _rows(spots: Sequence[float], widths: Sequence[float]) -> list[int]:
    """The row of each label, left to right, so that no two in one row touch."""
    ends: list[float] = []
    found = []
    for spot, width in zip(spots, widths, strict=True):
        row = next((n for n, end in enumerate(ends) if spot - width / 2 > end + 6), len(ends))
        ends[row : row + 1] = [spot + width / 2]
        found.append(row)
    return found


# ------------------------------------------------------------------------------------------------------------ heads


def _heads(golf_set: GolfSet, colours: Colours) -> Picture | None:
    """A tile for every club whose head was set or bent, for wedges and for putters: as made, and as played."""
    shown = [
        _Tile(clean(name), club, club.head.loft if _moved(club) else None, club.head.bounce, *made)
        for name, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True)
        if (made := _tile_of(club)) is not None
    ]
    return _tiles(shown, "Heads as made (broken line) and as played, angles to scale", "heads", colours)


def _heads_beside(before: GolfSet, now: GolfSet, names: tuple[str, str], colours: Colours) -> Picture | None:
    """A tile for every club whose loft, bounce or toe hang differs: the one set's head broken, the other's full."""
    shown = []
    for name, old, new in pairs(before, now):
        made = _tile_beside(old, new) if old is not None and new is not None else None
        if made is not None and old is not None and new is not None:
            hang = new.kind == "putter"
            shown.append(_Tile(clean(name), new, _hang(old) if hang else old.as_played.loft, old.as_played.bounce,
                               *made))  # fmt: skip
    caption = f"Heads: {names[0]} (broken line) and {names[1]}, angles to scale"
    return _tiles(shown, caption, "heads", colours)


def _tile_beside(old: Club, new: Club) -> tuple[str, str] | None:
    """What a club's tile shows and says where its head differs; None where it does not, or is not known."""
    if new.kind == "putter":
        hangs = [_hang(old), _hang(new)]
        texts = [value_text(each) for each in hangs]
        if None in hangs or texts[0] == texts[1]:
            return None
        return "putter", f"toe hang {texts[0]} and {texts[1]}"
    one, other = old.as_played, new.as_played
    if not (one.loft is not None and one.loft.has_number and other.loft is not None and other.loft.has_number):
        return None
    lofts, bounces = [tuple(map(value_text, pair)) for pair in ((one.loft, other.loft), (one.bounce, other.bounce))]
    if lofts[0] == lofts[1] and bounces[0] == bounces[1]:
        return None
    told = [
        f"{what} {one}" if one == other else f"{what} {one} and {other}"
        for what, (one, other) in (("loft", lofts), ("bounce", bounces))
        if what == "loft" or one != other
    ]
    return "section", "; ".join(told)


class _Tile(NamedTuple):
    """A head's tile: whose, what the broken line shows (a loft and a bounce, or a hang), its kind and its words."""

    name: str
    club: Club
    before: Figure | None
    bounce: Figure | None
    kind: str
    words: str


def _tiles(shown: Sequence[_Tile], caption: str, name: str, colours: Colours) -> Picture | None:
    if not shown:
        return None
    across = min(5, len(shown))
    rows = -(-len(shown) // across)
    told = " ".join(f"{each.name}: {each.words}." for each in shown)
    width = max(across * _TILE[0] + 20, min(width_of(caption, 13) + 20, 5 * _TILE[0] + 20))
    root = drawing(width, rows * _TILE[1] + 56, name, caption, told, alone=True, colours=colours)
    label(root, 10, 22, fitted(clean(caption), width - 20, 13), size=13, anchor="start", kind="strong")
    for place, each in enumerate(shown):
        row, column = divmod(place, across)
        left, top = 10 + column * _TILE[0], 40 + row * _TILE[1]
        group = club_group(root, each.name)
        label(group, left + 10, top + 18, fitted(each.name, _TILE[0] - 20, 13), size=13, anchor="start",
              kind="strong")  # fmt: skip
        if each.kind == "putter":
            _hanging(group, each, left, top)
        else:
            _section(group, each, left, top)
        first, *rest = [part.strip() for part in each.words.split(";")]
        label(group, left + 10, top + 36, fitted(first, _TILE[0] - 16, 11), size=11, anchor="start", kind="caption")
        if rest:
            label(group, left + 10, top + 51, fitted("; ".join(rest), _TILE[0] - 16, 11), size=11, anchor="start",
                  kind="caption")  # fmt: skip
    return Picture(f"{name}.svg", told, written(root))


def _hang(club: Club) -> Figure | None:
    hang = club.as_played.toe_hang or (club.putter.toe_hang if club.putter else None)
    return hang if hang is not None and hang.has_number else None


def _tile_of(club: Club) -> tuple[str, str] | None:
    """What a club's tile shows and says; None for a club with nothing to show."""
    if club.kind == "putter":
        hang = _hang(club)
        return None if hang is None else ("putter", f"toe hang {value_text(hang)}")
    loft = club.as_played.loft
    turned = club.sleeve is not None and changed(club.sleeve.loft_change)
    if loft is None or not loft.has_number or not (turned or changed(club.bend.loft) or club.kind == "wedge"):
        return None
    stamp = club.head.loft
    was = f", made {value_text(stamp)}" if stamp is not None and _moved(club) else ""
    words = [f"loft {value_text(loft)}{was}"]
    bounce = club.as_played.bounce
    if bounce is not None and bounce.has_number:
        words.append(f"bounce {value_text(bounce)}")
    elif club.as_played.face is not None and changed(club.as_played.face):
        words.append(f"face {signed(club.as_played.face, 'closed', 'open')}")
    return "section", "; ".join(words)


def _moved(club: Club) -> bool:
    stamp, loft = club.head.loft, club.as_played.loft
    return stamp is not None and stamp.has_number and loft is not None and value_text(stamp) != value_text(loft)


def _section(root: Element, tile: _Tile, left: float, top: float) -> None:
    """A cut through the head from the toe, target to the left: face, sole and bounce at their angles."""
    origin = (left + 66, top + _TILE[1] - 34)
    line(root, "ground", (left + 20, origin[1]), (left + _TILE[0] - 20, origin[1]))
    line(root, "grid", (origin[0], origin[1]), (origin[0], top + 66))
    played = tile.club.as_played
    if played.loft is not None:
        _cut(root, "outline", tile.club.kind, origin, played.loft, played.bounce)
    if tile.before is not None:
        _cut(root, "before", tile.club.kind, origin, tile.before, tile.bounce, closed=False)


def _cut(
    root: Element, kind: str, club: str, origin: tuple[float, float], loft: Figure, bounce: Figure | None,
    *, closed: bool = True,
) -> None:  # fmt: skip
    lean = to_si(loft.number, loft.unit)
    slope = to_si(bounce.number, bounce.unit) if bounce is not None and bounce.has_number else 0.0
    sole = 58.0 if club in ("driver", "fairway wood", "hybrid") else 42.0
    face = 96.0
    lift = sole * math.sin(slope)  # the leading edge stands above the ground by what the sole falls behind it
    edge = (origin[0], origin[1] - lift)
    crown = (edge[0] + face * math.sin(lean), edge[1] - face * math.cos(lean))
    trailing = (edge[0] + sole * math.cos(slope), origin[1])
    back = (crown[0] + 14, crown[1] + 6)
    if closed:
        area(root, kind, edge, crown, back, trailing)
    else:
        line(root, kind, crown, edge, trailing)


def _hanging(root: Element, tile: _Tile, left: float, top: float) -> None:
    """A putter laid across a finger, seen along its shaft: how far the toe falls from the level."""
    hang = _hang(tile.club)
    if hang is None:
        return
    axis = (left + 62, top + 92)
    line(root, "unknown", axis, (axis[0] + 112, axis[1]))
    area(root, "outline", *_hung(axis, hang))
    if tile.before is not None:
        line(root, "before", *_hung(axis, tile.before))
    disc(root, "dot", *axis, 5)
    label(root, axis[0] + 100, axis[1] - 5, "level", size=11, kind="caption")


def _hung(axis: tuple[float, float], hang: Figure) -> list[tuple[float, float]]:
    """The corners of a putter's head that hangs by an angle about its shaft."""
    angle = to_si(hang.number, hang.unit)
    across, down = math.cos(angle), math.sin(angle)
    heel = (axis[0] - 22 * across, axis[1] - 22 * down)
    toe = (axis[0] + 92 * across, axis[1] + 92 * down)
    thick = (-9 * down, 9 * across)
    return [heel, toe, (toe[0] + thick[0], toe[1] + thick[1]), (heel[0] + thick[0], heel[1] + thick[1])]
