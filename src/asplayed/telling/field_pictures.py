"""Pictures of many sets: how often things were carried, and where lofts and lengths stand beside a field's."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from asplayed.quantities import Figure, Source
from asplayed.telling.bags import Spread
from asplayed.telling.drawing_elements import (
    Picture,
    box,
    disc,
    drawing,
    fitted,
    label,
    line,
    written,
)
from asplayed.telling.field import Field
from asplayed.telling.season import Season
from asplayed.telling.words import clean, number_text, value_text

Colours = Mapping[str, str] | None

_BARS = 14  # of the season's picture
_BAR, _ROW = 300.0, 46.0
_LEFT, _AXIS, _RIGHT = 150.0, 380.0, 190.0
_LINE = 30.0
_PANELS = (
    ("loft", "deg", "Loft beside the field’s middle, °: stronger to the left, weaker to the right", 1.0),
    ("length", "in", "Length beside the field’s middle, in: shorter to the left, longer to the right", 0.25),
)


class _Row(NamedTuple):
    """One club in a panel: the field's spread, and what is laid beside it, a spread or a figure with its ends."""

    name: str
    field: Spread
    beside: Spread | None
    own: tuple[float, float, float] | None
    words: str


def season_pictures(season: Season, *, colours: Colours = None) -> list[Picture]:
    """A season's pictures: how many winners and others had what, and their lofts and lengths."""
    rows = {
        field: [
            _Row(each.club, each.others, each.winners, None,
                 f"{_printed(each.winners.middle, each.unit)}, the others {_printed(each.others.middle, each.unit)}")
            for each in season.sized
            if each.field == field
        ]
        for field, *_ in _PANELS
    }  # fmt: skip
    found = [_shares(season, colours), _panels(rows, ("the winners", "the others"), "season-sizes", colours)]
    return [each for each in found if each is not None]


def field_pictures(field: Field, *, colours: Colours = None) -> list[Picture]:
    """A set's lofts and lengths beside its field's."""
    rows = {
        measure: [
            _Row(each.club, each.spread, None, _ends(each.own, unit),
                 f"{_printed(each.value, unit)}, the field {_printed(each.spread.middle, unit)}")
            for each in field.stands
            if each.field == measure
        ]
        for measure, unit, *_ in _PANELS
    }  # fmt: skip
    found = _panels(rows, ("this set", "the field"), "field", colours)
    return [] if found is None else [found]


def _ends(own: Figure, unit: str) -> tuple[float, float, float]:
    entry = own.in_unit(unit)
    low, high = (entry.number if end is None else end for end in (entry.low, entry.high))
    return entry.number, low, high


def _printed(value: float, unit: str) -> str:
    return value_text(Figure(value=value, unit=unit, source=Source.COMPUTED))


def _shares(season: Season, colours: Colours) -> Picture | None:
    """A pair of bars for each of the things that tell the winners most from the others."""
    shown = [each for each in season.shared if each.won > 1 and each.first][:_BARS]
    if not shown:
        return None
    caption = "Of the winners, and of the others, how many …"
    width = 20 + _BAR + 150
    told = f"{caption} " + " ".join(
        f"{each.trait.did}: {each.won} of {len(season.winners)} winners, {each.lost} of {len(season.others)} others."
        for each in shown
    )
    root = drawing(width, 50 + _ROW * len(shown), "season-shares", caption, told, alone=True, colours=colours)
    label(root, 10, 22, caption, size=13, anchor="start", kind="strong")
    for place, each in enumerate(shown):
        top = 44 + place * _ROW
        label(root, 10, top + 9, fitted(clean(each.trait.did), width - 20, 12), size=12, anchor="start")
        y = top + 15
        for kind, number, of, whom in (("edge", each.won, len(season.winners), "winners"),
                                       ("usual", each.lost, len(season.others), "others")):  # fmt: skip
            if not of:
                continue
            length = _BAR * number / of
            if number:
                box(root, kind, 10, y, length, 9)
            line(root, "grid", (10 + length, y + 4.5), (10 + _BAR, y + 4.5))
            label(root, 10 + _BAR + 8, y + 8.5, f"{number} of {of} {whom}", size=10.5, anchor="start", kind="caption")
            y += 12
    return Picture("season-shares.svg", told, written(root))


def _panels(rows: Mapping[str, Sequence[_Row]], names: tuple[str, str], name: str, colours: Colours) -> Picture | None:
    """Lofts, then lengths: a row a club, all as differences from the field's middle."""
    panels = [(rows[field], caption, least) for field, _, caption, least in _PANELS if rows[field]]
    if not panels:
        return None
    height = 52.0 + sum(64 + _LINE * len(clubs) for clubs, *_ in panels)
    width = _LEFT + _AXIS + _RIGHT
    told = " ".join(f"{each.name}: {each.words}." for clubs, *_ in panels for each in clubs)
    root = drawing(width, height, name, f"Lofts and lengths: {names[0]} beside {names[1]}", told,
                   alone=True, colours=colours)  # fmt: skip
    top = 0.0
    for clubs, caption, least in panels:
        _panel(root, top, clubs, caption, least)
        top += 64 + _LINE * len(clubs)
    _key(root, height - 10, names, boxes=any(each.beside for clubs, *_ in panels for each in clubs))
    return Picture(f"{name}.svg", told, written(root))


def _panel(root: Element, top: float, clubs: Sequence[_Row], caption: str, least: float) -> None:
    ends = [
        abs(end - each.field.middle)
        for each in clubs
        for end in (
            each.field.low, each.field.high, *(each.own or ()),
            *((each.beside.low, each.beside.high) if each.beside else ()),
        )
    ]  # fmt: skip
    reach: float = max(1, math.ceil(max(ends) / least)) * least
    middle = _LEFT + _AXIS / 2

    def across(value: float, each: _Row) -> float:
        return middle + (value - each.field.middle) / reach * _AXIS / 2

    label(root, 10, top + 22, caption, size=13, anchor="start", kind="strong")
    bottom = top + 50 + _LINE * len(clubs)
    for value in (-reach, 0.0, reach):
        x = middle + value / reach * _AXIS / 2
        line(root, "ground" if value == 0 else "grid", (x, top + 48), (x, bottom))
        digits = ("+" if value > 0 else "") + number_text(value, "1", computed=True) if value else "middle"
        label(root, x, top + 42, digits, size=10, kind="caption")
    for place, each in enumerate(clubs):
        y = top + 64 + _LINE * place
        label(root, 10, y + 4, fitted(clean(each.name), _LEFT - 16, 12), size=12, anchor="start")
        line(root, "thread", (across(each.field.low, each), y), (across(each.field.high, each), y))
        box(root, "usual", across(each.field.lower, each), y - 7,
            max(across(each.field.upper, each) - across(each.field.lower, each), 1.5), 14)  # fmt: skip
        if each.beside is not None:
            line(root, "whisker", (across(each.beside.lower, each), y), (across(each.beside.upper, each), y))
            for end in (each.beside.lower, each.beside.upper):
                line(root, "whisker", (across(end, each), y - 4), (across(end, each), y + 4))
            disc(root, "dot", across(each.beside.middle, each), y, 4.5)
        if each.own is not None:
            value, low, high = each.own
            line(root, "whisker", (across(low, each), y), (across(high, each), y))
            disc(root, "dot", across(value, each), y, 4.5)
        label(root, _LEFT + _AXIS + 10, y + 4, fitted(each.words, _RIGHT - 14, 10.5), size=10.5, anchor="start",
              kind="caption")  # fmt: skip


def _key(root: Element, y: float, names: tuple[str, str], *, boxes: bool) -> None:
    """What dot, whisker, bar and thread mean."""
    disc(root, "dot", 24, y - 22, 4)
    line(root, "whisker", (14, y - 22), (34, y - 22))
    words = f"{names[0]}: the middle, and the half about it" if boxes else f"{names[0]}, with its band"
    label(root, 44, y - 18, words, size=10.5, anchor="start", kind="caption")
    line(root, "thread", (8, y - 4), (40, y - 4))
    box(root, "usual", 15, y - 10, 18, 12)
    label(root, 44, y, f"{names[1]}: the half about the middle, from lowest to highest", size=10.5, anchor="start",
          kind="caption")  # fmt: skip
