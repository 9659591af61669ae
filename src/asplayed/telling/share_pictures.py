"""A picture of how often things were carried: a row for each value, a bar or a strip of columns for its shares."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from asplayed.telling.drawing_elements import Picture, box, drawing, fitted, label, line, written
from asplayed.telling.words import clean

MOST_VALUES = 12  # of a kind; the rest are counted in one line
_FEW = 3  # periods that are drawn as bars with words of their own
_LEFT, _BAR, _RIGHT = 190.0, 300.0, 150.0
_ROW, _THIN, _STRIP = 16.0, 9.0, 30.0


class ShareRow(NamedTuple):
    """How often a value stood in a period, of how many; `kind` is the kind of club, nothing for the whole set."""

    period: str
    kind: str
    value: str
    number: int
    of: int


def shares_picture(
    rows: Iterable[ShareRow], caption: str, *, colours: Mapping[str, str] | None = None
) -> Picture | None:
    """The shares drawn: kind by kind, the most frequent first; None where there is nothing to draw.

    Up to three periods are bars with their numbers; more are a strip of columns, oldest first, each as high as its
    share, with the newest in words.

    >>> drawn = shares_picture([ShareRow("2026", "driver", "Kittiwake 3", 2, 3)], "Drivers")
    >>> drawn.told
    'Drivers. driver: Kittiwake 3, 2026: 2 of 3.'
    """
    kinds: dict[str, dict[str, dict[str, ShareRow]]] = {}
    periods = set()
    for row in rows:
        kinds.setdefault(row.kind, {}).setdefault(row.value, {})[row.period] = row
        periods.add(row.period)
    if not kinds:
        return None
    ordered = sorted(periods)
    strip = len(ordered) > _FEW
    tall = _STRIP + 8 if strip else len(ordered) * _ROW + 8
    shown = {kind: _most(values) for kind, values in kinds.items()}
    height = 40 + sum(
        30 + tall * len(values) + (18 if len(kinds[kind]) > len(values) else 0) for kind, values in shown.items()
    )
    told = (
        clean(caption)
        + "."
        + "".join(
            f" {clean(kind) + ': ' if kind else ''}{clean(value)}, "
            + ", ".join(f"{period or 'undated'}: {each[period].number} of {each[period].of}" for period in sorted(each))
            + "."
            for kind, values in shown.items()
            for value, each in values
        )
    )
    root = drawing(_LEFT + _BAR + _RIGHT, height, "shares", caption, told, alone=True, colours=colours)
    label(root, 10, 22, fitted(clean(caption), _LEFT + _BAR + _RIGHT - 20, 13), size=13, anchor="start", kind="strong")
    top = 40.0
    for kind, values in shown.items():
        if kind:
            label(root, 10, top + 14, clean(kind), size=12, anchor="start", kind="strong")
        top += 24
        for value, each in values:
            words = fitted(clean(value), _LEFT - 24, 12)
            label(root, _LEFT - 10, top + (tall - 8) / 2 + 4, words, size=12, anchor="end")
            (_columns if strip else _bars)(root, top, each, ordered)
            top += tall
        rest = len(kinds[kind]) - len(values)
        if rest:
            label(root, _LEFT, top + 10, f"and {rest} more", size=11, anchor="start", kind="caption")
            top += 18
        top += 6
    return Picture("shares.svg", told, written(root))


def _most(values: Mapping[str, Mapping[str, ShareRow]]) -> list[tuple[str, Mapping[str, ShareRow]]]:
    ordered = sorted(values.items(), key=lambda pair: (-sum(row.number for row in pair[1].values()), pair[0]))
    return ordered[:MOST_VALUES]


def _bars(root: Element, top: float, each: Mapping[str, ShareRow], periods: Sequence[str]) -> None:
    for place, period in enumerate(periods):
        row = each.get(period)
        y = top + place * _ROW
        long = _BAR * row.number / row.of if row else 0.0
        if row:
            box(root, "edge", _LEFT, y + 2, long, _THIN)
        line(root, "grid", (_LEFT + long, y + 2 + _THIN / 2), (_LEFT + _BAR, y + 2 + _THIN / 2))
        words = f"{period or 'undated'}: {row.number} of {row.of}" if row else f"{period or 'undated'}: none"
        label(root, _LEFT + _BAR + 8, y + 10, words, size=10.5, anchor="start", kind="caption")


def _columns(root: Element, top: float, each: Mapping[str, ShareRow], periods: Sequence[str]) -> None:
    step = _BAR / len(periods)
    foot = top + _STRIP
    line(root, "grid", (_LEFT, foot), (_LEFT + _BAR, foot))
    for place, period in enumerate(periods):
        row = each.get(period)
        if row:
            high = _STRIP * row.number / row.of
            box(root, "edge", _LEFT + place * step, foot - high, max(step - 1, 0.6), high)
    newest = each[max(each)]
    words = f"{newest.period or 'undated'}: {newest.number} of {newest.of}"
    label(root, _LEFT + _BAR + 8, foot - 8, fitted(words, _RIGHT - 12, 10.5), size=10.5, anchor="start", kind="caption")
