"""How a club's figures came about: every figure of its record once, numbered, each naming those it rests on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from asplayed.clubs import Club
from asplayed.quantities import Figure, Source
from asplayed.telling.words import trade_name

# The trade's name of every figure a record can hold, by its path in the record.
NAMES = {
    "head.loft": "loft as made",
    "head.lie": "lie as made",
    "head.bounce": "bounce as made",
    "head.mass": "head mass",
    "head.face": "face as made",
    "head.offset": "offset as made",
    "head.volume": "head volume",
    "head.bend_limit": "bend the maker allows",
    "sleeve.loft_change": "sleeve’s change of loft",
    "sleeve.lie_change": "sleeve’s change of lie",
    "bend.loft": "bend of loft",
    "bend.lie": "bend of lie",
    "shaft.mass": "shaft mass",
    "shaft.torque": "shaft torque",
    "shaft.balance": "shaft balance from the tip",
    "shaft.length": "shaft length uncut",
    "shaft.tip_trim": "shaft trimmed at the tip",
    "shaft.tip": "shaft tip diameter",
    "shaft.butt": "shaft butt diameter",
    "grip.mass": "grip mass",
    "length": "length as built",
    "length_change": "change of length",
    "putter.toe_hang": "toe hang as stated",
    "stated.swing_weight": "swing weight as stated",
    "stated.frequency": "frequency as stated",
    "stated.mass": "mass as stated",
    "as_played.loft": "loft as played",
    "as_played.lie": "lie as played",
    "as_played.face": "face as played",
    "as_played.bounce": "bounce as played",
    "as_played.offset": "offset as played",
    "as_played.length": "length as played",
    "as_played.mass": "mass of the whole club",
    "as_played.balance_point": "balance point from the butt",
    "as_played.swing_weight": "swing weight",
    "as_played.butt_inertia": "inertia about the butt",
    "as_played.frequency": "frequency",
    "as_played.grip_size": "grip size",
    "as_played.cg_toeward": "centre of gravity toward the toe",
    "as_played.cg_backward": "centre of gravity toward the back",
    "as_played.toe_hang": "toe hang",
}

_MADE = {Source.STATED: "stamped", Source.PUBLISHED: "published"}
_PARTS = ("head", "sleeve", "bend", "shaft", "grip", "putter", "stated")


class Working(NamedTuple):
    """One line of the workings: its number within the club, its name, its figure, the lines it rests on."""

    number: int
    name: str
    figure: Figure
    rests_on: tuple[int, ...]


def record_figures(club: Club) -> Iterator[tuple[str, Figure]]:
    """Every figure that the club's record holds, as (path, figure); those as played first.

    >>> from asplayed.quantities import figure
    >>> [path for path, _ in record_figures(Club(club="putter", kind="putter", length=figure(34, "in", "stated")))]
    ['length']
    """
    for record, part in (("as_played", club.as_played), *((name, getattr(club, name)) for name in _PARTS)):
        for field in part.__struct_fields__ if part is not None else ():
            value = getattr(part, field)
            if isinstance(value, Figure):
                yield f"{record}.{field}", value
    for field in ("length", "length_change"):
        value = getattr(club, field)
        if value is not None:
            yield field, value
    for place, weight in enumerate(club.weights):
        if weight.mass is not None:
            yield f"weights.{place}", weight.mass


def path_name(club: Club, path: str) -> str:
    """The trade's name for the figure at a path of a club's record."""
    if path.startswith("weights."):
        place = club.weights[int(path.removeprefix("weights."))].place
        return f"movable weight, {place}" if place else "movable weight"
    if path in ("head.loft", "head.bounce"):
        return made_name(path.removeprefix("head."), getattr(club.head, path.removeprefix("head.")))
    return NAMES.get(path) or trade_name(path)


def field_name(path: str) -> str:
    """The trade's words for any field of a record, be it a figure or a word, by its path.

    >>> field_name("shaft.flex"), field_name("length_change"), field_name("weights 1.place"), field_name("club")
    ('shaft flex', 'change of length', 'movable weight 1 place', 'the club itself')
    """
    if path == "club":
        return "the club itself"
    return NAMES.get(path) or trade_name(path.replace("weights ", "movable weight "))


def made_name(what: str, found: Figure | None) -> str:
    """What a head's loft or bounce as made is called: stamped only where somebody said so.

    >>> from asplayed.quantities import figure
    >>> made_name("loft", figure(56, "deg", "stated")), made_name("loft", figure(56, "deg", "published"))
    ('loft as stamped', 'loft as published')
    """
    source = found.source if found is not None else None
    return f"{what} as {_MADE.get(source, 'made') if source is not None else 'made'}"


def workings(club: Club) -> list[Working]:
    """Every figure behind a club, once each: the figures as played, then what they rest on, then the parts' rest.

    >>> from asplayed.clubs import AsPlayed
    >>> from asplayed.quantities import derive, figure
    >>> loft = derive(lambda stamp: stamp, "deg", "the stamp", stamp=figure(56, "deg", "stated"))
    >>> found = workings(Club(club="sand wedge", kind="wedge", as_played=AsPlayed(loft=loft)))
    >>> [(line.number, line.name, line.rests_on) for line in found]
    [(1, 'loft as played', (2,)), (2, 'stamp', ())]
    """
    recorded = [(path_name(club, path), found) for path, found in record_figures(club)]
    names: dict[int, str] = {}
    for name, found in recorded:
        names.setdefault(id(found), name)
    lines: list[Working | None] = []
    numbers: dict[tuple[str, Figure], int] = {}

    def enter(name: str, found: Figure) -> int:
        key = (name, found)
        if key not in numbers:
            numbers[key] = place = len(lines) + 1
            lines.append(None)
            rests_on = tuple(
                enter(names.get(id(parent.figure), parent.name.replace("_", " ")), parent.figure)
                for parent in found.parents
            )
            lines[place - 1] = Working(place, name, found, rests_on)
        return numbers[key]

    for name, found in recorded:
        enter(name, found)
    return [line for line in lines if line is not None]
