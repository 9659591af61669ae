"""The few SVG elements that drawings are made of, and how wide a label is."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from typing import NamedTuple
from xml.etree.ElementTree import Element, SubElement, tostring

from asplayed.telling.palette import DARK, LIGHT, declarations
from asplayed.telling.words import clean, contained, shorten

# Widths in ems, on the wide side of the usual sans faces in their bold cut.
_SLIM, _MIDDLE, _FULL, _BROAD = 0.4, 0.62, 0.72, 1.06
_SLIM_LETTERS = frozenset("iljI.,:;'|!()/-− ")
_MIDDLE_LETTERS = frozenset("rtsfckzyxv°")
_BROAD_LETTERS = frozenset("mwMWOQGD@%…—")


STYLE = """
.drawing text { fill: var(--ink); font-family: system-ui, "DejaVu Sans", sans-serif; }
.drawing .caption { fill: var(--quiet); }
.drawing .strong { font-weight: 600; }
.drawing .ground { stroke: var(--ink); stroke-width: 1.2; fill: none; }
.drawing .grid { stroke: var(--faint); stroke-width: 0.8; fill: none; }
.drawing .shaft { stroke: var(--club); stroke-width: 1.6; fill: none; }
.drawing .unknown { stroke: var(--line); stroke-width: 1.2; stroke-dasharray: 3 3; fill: none; }
.drawing .grip { stroke: var(--ink); stroke-width: 4.4; stroke-linecap: round; fill: none; }
.drawing .head { fill: var(--club); }
.drawing .band { fill: var(--wash); stroke: none; }
.drawing .usual { fill: var(--wash); stroke: var(--line); stroke-width: 0.8; }
.drawing .thread { stroke: var(--line); stroke-width: 1; fill: none; }
.drawing .whisker { stroke: var(--ink); stroke-width: 1.3; fill: none; }
.drawing .panel { fill: var(--ground); fill-opacity: 0.9; stroke: none; }
.drawing .edge { fill: var(--club); stroke: none; }
.drawing .spread { fill: var(--club); fill-opacity: 0.22; stroke: var(--club); stroke-width: 1.2; }
.drawing .flight { stroke: var(--club); stroke-width: 1.6; fill: none; }
.drawing .before { stroke: var(--quiet); stroke-width: 1.6; stroke-dasharray: 5 3; fill: none; }
.drawing .outline { stroke: var(--club); stroke-width: 2; fill: var(--wash); stroke-linejoin: round; }
.drawing .ring { fill: var(--ground); stroke: var(--quiet); stroke-width: 1.6; }
.drawing .dot { fill: var(--club); stroke: var(--ground); stroke-width: 1; }
"""


class Picture(NamedTuple):
    """A picture: its file name, what it shows in words, and its drawing as SVG."""

    name: str
    told: str
    svg: str

    @property
    def width(self) -> float:
        """Its natural width, by which several pictures on one page keep one size of letters."""
        found = re.search(r'viewBox="0 0 ([\d.]+) ', self.svg)
        return float(found[1]) if found else 0.0


def fixed_style(colours: Mapping[str, str]) -> str:
    """The style of drawings with its colours written in, for renderers that know no custom properties.

    >>> "var(" in fixed_style(LIGHT)
    False
    """
    style = STYLE.replace("font-family: ", 'font-family: "Source Sans Pro", ')
    return re.sub(r"var\(--(\w+)\)", lambda found: colours[found[1]], style)


def drawing(
    width: float,
    height: float,
    name: str,
    title: str,
    description: str,
    *,
    alone: bool,
    colours: Mapping[str, str] | None = None,
    paper: bool = True,
) -> Element:
    """An empty drawing with its alternative text; one that stands alone carries its own style and ground.

    It follows the reader's light or dark surroundings, or has the `colours` given for good; with colours that are none
    (`{}`) it is part of a page and takes its own. Without `paper` its ground is transparent.
    """
    root = Element(
        "svg",
        {
            "class": "drawing",
            "viewBox": f"0 0 {_digits(width)} {_digits(height)}",
            "width": _digits(width),
            "height": _digits(height),
            "role": "img",
            "aria-labelledby": f"{name}-title {name}-description",
        },
    )
    SubElement(root, "title", {"id": f"{name}-title"}).text = clean(title)
    SubElement(root, "desc", {"id": f"{name}-description"}).text = clean(description)
    if colours:
        root.set("xmlns", "http://www.w3.org/2000/svg")
        SubElement(root, "style").text = f".drawing .paper {{ fill: {colours['ground']}; }} {fixed_style(colours)}"
    elif alone and colours is None:
        root.set("xmlns", "http://www.w3.org/2000/svg")
        both = (
            f".drawing {{ {declarations(LIGHT)} }} "
            f"@media (prefers-color-scheme: dark) {{ .drawing {{ {declarations(DARK)} }} }} "
            ".drawing .paper { fill: var(--ground); }"
        )
        SubElement(root, "style").text = both + STYLE
    if paper and (colours or (alone and colours is None)):
        box(root, "paper", 0, 0, width, height)
    return root


def club_group(parent: Element, name: str) -> Element:
    """A group for what is drawn of one club, under its name, by which a page points it out; a club may have several."""
    return SubElement(parent, "g", {"class": "club", "data-club": clean(name)})


def _digits(number: float) -> str:
    text = f"{number:.1f}"
    return text.removesuffix(".0") if text != "-0.0" else "0"


def line(parent: Element, kind: str, *points: tuple[float, float]) -> None:
    """A line through points."""
    place = " ".join(f"{_digits(x)},{_digits(y)}" for x, y in points)
    SubElement(parent, "polyline", {"class": kind, "points": place})


def area(parent: Element, kind: str, *points: tuple[float, float]) -> None:
    """A filled area within points."""
    place = " ".join(f"{_digits(x)},{_digits(y)}" for x, y in points)
    SubElement(parent, "polygon", {"class": kind, "points": place})


def box(parent: Element, kind: str, x: float, y: float, width: float, height: float) -> None:
    """A rectangle from its upper left corner."""
    place = {"x": x, "y": y, "width": width, "height": height}
    SubElement(parent, "rect", {"class": kind, **{key: _digits(value) for key, value in place.items()}})


def disc(parent: Element, kind: str, x: float, y: float, radius: float) -> None:
    """A circle about its centre."""
    SubElement(parent, "circle", {"class": kind, "cx": _digits(x), "cy": _digits(y), "r": _digits(radius)})


def half_disc(
    parent: Element, kind: str, x: float, y: float, radius: float, lean: float, *, flat_on_the_right: bool
) -> None:
    """Half a circle about (x, y) whose flat side leans from the upright by `lean` degrees, + to the right."""
    across, up = radius * math.sin(math.radians(lean)), radius * math.cos(math.radians(lean))
    sweep = 0 if flat_on_the_right else 1
    start, end = f"{_digits(x + across)} {_digits(y - up)}", f"{_digits(x - across)} {_digits(y + up)}"
    path = f"M{start}A{_digits(radius)} {_digits(radius)} 0 0 {sweep} {end}Z"
    SubElement(parent, "path", {"class": kind, "d": path})


def label(
    parent: Element, x: float, y: float, words: str, *, size: float = 11, anchor: str = "middle", kind: str = "label"
) -> None:
    """Words with their baseline at y; `anchor` is start, middle or end."""
    place = {"class": kind, "x": _digits(x), "y": _digits(y), "font-size": _digits(size), "text-anchor": anchor}
    SubElement(parent, "text", place).text = contained(words)


def written(root: Element) -> str:
    """The drawing as text."""
    return tostring(root, encoding="unicode")


def width_of(words: str, size: float) -> float:
    """How wide words of a size may get in any usual sans face.

    >>> width_of("7 iron", 10)
    35.8
    """

    def ems(letter: str) -> float:
        if letter in _SLIM_LETTERS:
            return _SLIM
        if letter in _BROAD_LETTERS or unicodedata.east_asian_width(letter) in "WF":
            return _BROAD
        if letter.isupper():
            return 0.82
        return _MIDDLE if letter in _MIDDLE_LETTERS else _FULL

    return round(sum(map(ems, words)) * size, 6)


def fitted(words: str, width: float, size: float) -> str:
    """Words cut, with an ellipsis, to what fits a width.

    >>> fitted("pitching wedge", 60, 10)
    'pitching…'
    """
    limit = len(words)
    while limit > 1 and width_of(shorten(words, limit), size) > width:
        limit -= 1
    return shorten(words, limit)


def wrapped(words: str, width: float, size: float) -> list[str]:
    """Words broken over as many lines as they need, none of them cut.

    >>> wrapped("loft stated, not gauged", 90, 10)
    ['loft stated,', 'not gauged']
    """
    lines: list[str] = []
    for word in clean(words).split():
        if lines and width_of(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def two_lines(words: str, width: float, size: float) -> tuple[str, str]:
    """Words broken over at most two lines that each fit a width.

    >>> two_lines("2 driving iron", 60, 10), two_lines("driver", 60, 10)
    (('2 driving', 'iron'), ('driver', ''))
    """
    first: list[str] = []
    rest = clean(words).split()
    while rest and (not first or width_of(" ".join([*first, rest[0]]), size) <= width):
        first.append(rest.pop(0))
    return fitted(" ".join(first), width, size), fitted(" ".join(rest), width, size)
