"""Overlays: one club, or the whole set, over a moving picture, wide and upright, on a transparent ground.

What matters stays inside the safe areas: 5 % from every edge of the wide picture (EBU R 95, graphics-safe area, from
memory); in the upright one also clear of the top eighth and the bottom fifth, where phones lay their own controls
(common practice, no single source).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.quantities import Figure
from asplayed.telling.drawing_elements import box, drawing, fitted, label, line, two_lines, width_of, wrapped, written
from asplayed.telling.palette import DARK
from asplayed.telling.phrases import hedge
from asplayed.telling.typesetting import pictures
from asplayed.telling.words import MISSING, changed, clean, listed, part_name, settings, signed, title, value_text


class Frame(NamedTuple):
    """A picture's size and the part of it that holds what matters, in pixels."""

    name: str
    width: int
    height: int
    left: float
    top: float
    right: float
    bottom: float


WIDE = Frame("1920x1080", 1920, 1080, 96, 54, 1824, 1026)
UPRIGHT = Frame("1080x1920", 1080, 1920, 54, 240, 1026, 1536)
FRAMES = (WIDE, UPRIGHT)
OVERLAY_NAME = re.compile(r"\d{2,}-[a-z0-9-]+-(?:1920x1080|1080x1920)\.(?:png|svg)")
"""What the files of overlays are called."""

# The fourth figure of an overlay is what the ball or the turf asks of that kind of club.
_FIGURES = (("loft", "loft"), ("lie", "lie"), ("length", "length"))
_FOURTH = {"driver": ("face", "face"), "fairway wood": ("face", "face"), "hybrid": ("face", "face"),
           "putter": ("toe_hang", "toe hang")}  # fmt: skip


_LINE = 28  # from one line of how sure the figures are to the next


class Overlay(NamedTuple):
    """One overlay: its file name without ending, its size, and its drawing as SVG."""

    name: str
    frame: Frame
    svg: str


def overlays(golf_set: GolfSet) -> list[Overlay]:
    """The overlays of the whole set and of every club, wide and upright."""
    names = labels(golf_set.clubs)
    found = []
    for frame in FRAMES:
        found.append(Overlay(f"00-set-{frame.name}", frame, _whole(golf_set, names, frame)))
        found += [
            Overlay(f"{place:02d}-{_file_name(name)}-{frame.name}", frame, _one(club, name, frame))
            for place, (name, club) in enumerate(zip(names, golf_set.clubs, strict=True), start=1)
        ]
    return found


def _file_name(name: str) -> str:
    """A club's name as part of a file's: letters, digits and hyphens, never long."""
    return re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-")[:40] or "club"


def _panel(frame: Frame, name: str, words: str, told: str, top: float) -> Element:
    root = drawing(frame.width, frame.height, name, words, told, alone=True, colours=DARK, paper=False)
    box(root, "panel", frame.left, top, frame.right - frame.left, frame.bottom - top)
    box(root, "edge", frame.left, top, 10, frame.bottom - top)
    return root


def _one(club: Club, name: str, frame: Frame) -> str:
    """One club: name and head, its figures large, shaft and settings, how sure the figures are."""
    wide = frame is WIDE
    figures: list[tuple[str, Figure | None]] = [
        (words, getattr(club.as_played, key))
        for key, words in (*_FIGURES, _FOURTH.get(club.kind, ("bounce", "bounce")))
    ]
    shown = [_shown(words, found) for words, found in figures]
    told = f"{name}: " + ", ".join(f"{words} {value}" for words, value in shown)
    left, room = frame.left + 44, frame.right - frame.left - 88
    sure = wrapped("; ".join(_sure(figures)), room, 24)
    top = frame.bottom - (324 if wide else 560) - _LINE * max(len(sure) - (2 if wide else 3), 0)
    root = _panel(frame, "overlay", name, told, top)
    head = part_name(club.head) or "head not named"
    label(
        root,
        left,
        top + 76,
        fitted(clean(name), room * (0.5 if wide else 1), 62),
        size=62,
        anchor="start",
        kind="strong",
    )
    if wide:
        label(
            root,
            frame.right - 44,
            top + 72,
            fitted(clean(head), room * 0.46, 36),
            size=36,
            anchor="end",
            kind="caption",
        )
    else:
        label(root, left, top + 130, fitted(clean(head), room, 38), size=38, anchor="start", kind="caption")
    row, step = top + (170 if wide else 235), room / 4
    size = min(54.0, *(54 * (step - 16) / max(width_of(value, 54), 1) for _, value in shown))  # never cut a figure
    for place, (words, value) in enumerate(shown):
        x = left + place * step
        label(root, x, row, value, size=size, anchor="start", kind="strong")
        label(root, x, row + 36, words, size=28, anchor="start", kind="caption")
    shaft = " ".join(part for part in (part_name(club.shaft), club.shaft.flex or "") if part) or "shaft not named"
    under = [clean(shaft), clean("; ".join(settings(club)))]
    rows = [" · ".join(part for part in under if part)] if wide else [under[0], *two_lines(under[1], room, 32)]
    y = row + (82 if wide else 110)
    for words in rows:
        label(root, left, y, fitted(words, room, 32), size=32, anchor="start")
        y += 48
    _foot(root, left, frame.bottom - (14 if wide else 30), sure)
    return written(root)


def _foot(root: Element, left: float, last: float, lines: Sequence[str]) -> None:
    """How sure the figures are, line above line from the last."""
    for up, words in enumerate(reversed(lines)):
        label(root, left, last - _LINE * up, words, size=24, anchor="start", kind="caption")


def _shown(words: str, found: Figure | None) -> tuple[str, str]:
    """A figure's caption and its value; a face's way is a word, not a sign."""
    if words == "face" and found is not None and changed(found):
        size, _, way = signed(found, "closed", "open").partition(" ")
        return f"face {way}", size
    return words, value_text(found)


def _sure(figures: Sequence[tuple[str, Figure | None]]) -> list[str]:
    """The sources of the figures shown, one phrase a source."""
    by_hedge: dict[str, list[str]] = {}
    for words, found in figures:
        if found is not None and found.value is not None:
            by_hedge.setdefault(hedge(found), []).append(words)
    return [f"{listed(names)} {words}" for words, names in by_hedge.items()] or ["no figure is known"]


def _all_sure(golf_set: GolfSet) -> str:
    """What the list of a whole set shows, and how many of its figures have which source."""
    found = [figure for club in golf_set.clubs for figure in (club.as_played.loft, club.as_played.length)]
    counts = Counter(hedge(figure) for figure in found if figure is not None and figure.value is not None)
    sources = [f"all {words}" if len(counts) == 1 else f"{number} {words}" for words, number in counts.most_common()]
    return f"loft and length as played: {'; '.join(sources) or 'none is known'}"


def _whole(golf_set: GolfSet, names: Sequence[str], frame: Frame) -> str:
    """The whole set as a list: every club with its loft and length."""
    wide, many = frame is WIDE, max(len(names), 1)
    rows = -(-many // 2) if wide and many > 7 else many
    columns = 2 if rows < many else 1
    left, room = frame.left + 44, frame.right - frame.left - 88
    sure = wrapped(_all_sure(golf_set), room, 24)
    foot = 130 + _LINE * (len(sure) - 1)
    height = min(64.0, (frame.bottom - frame.top - 20 - foot) / rows)
    top = frame.bottom - foot - rows * height
    told = "; ".join(
        f"{name} {value_text(club.as_played.loft)}" for name, club in zip(names, golf_set.clubs, strict=True)
    )
    root = _panel(frame, "overlay", title(golf_set), told or "no clubs", top)
    label(root, left, top + 64, fitted(clean(title(golf_set)), room, 46), size=46, anchor="start", kind="strong")
    _foot(root, left, frame.bottom - 18, sure)
    size, width = min(36.0, height * 0.62), room / columns - (30 if columns == 2 else 0)
    for place, club in enumerate(golf_set.clubs):
        column, row = divmod(place, rows)
        x, y = left + column * (width + 60), top + 92 + (row + 0.72) * height
        label(root, x, y, fitted(clean(club.club), width - 430, size), size=size, anchor="start")
        label(root, x + width - 280, y, value_text(club.as_played.loft), size=size, anchor="end", kind="strong")
        label(root, x + width, y, value_text(club.as_played.length), size=size, anchor="end")
        if row:
            line(root, "grid", (x, y - height * 0.72), (x + width, y - height * 0.72))
    if not names:
        label(root, left, top + 110, MISSING, size=size, anchor="start")
    return written(root)


_PAGES = """
#set page(margin: 0pt, fill: none)
#for entry in data.drawings {
  page(width: entry.width * 1pt, height: entry.height * 1pt, image(entry.file, width: 100%, height: 100%))
}
"""


def rendered(found: Sequence[Overlay]) -> Iterator[tuple[str, bytes]]:
    """Every overlay as a PNG of its frame's size, transparent where nothing is drawn."""
    data = {
        "drawings": [
            {"file": f"{place}.svg", "width": each.frame.width, "height": each.frame.height}
            for place, each in enumerate(found)
        ]
    }
    files = {f"{place}.svg": each.svg.encode("utf-8") for place, each in enumerate(found)}
    yield from zip((each.name for each in found), pictures(_PAGES, data, files=files), strict=True)
