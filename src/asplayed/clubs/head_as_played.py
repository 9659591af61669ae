"""Face, offset, moved mass and toe hang as played: what settings and bends do to the head beyond loft and lie."""

from __future__ import annotations

from functools import lru_cache
from math import degrees, sin
from typing import Any

from asplayed.clubs.angles import STRONG, carried, said
from asplayed.clubs.records import Club, Weight
from asplayed.clubs.usual import banded, common, parts
from asplayed.mechanics.head import HeadMass, SleeveEffect, bend_offset, sleeve, with_point_masses
from asplayed.quantities import Figure, Source, derive, to_si, write_quantity

WITH_FACE_ANGLE = ("driver", "fairway wood", "hybrid")
_ORIGIN = (0.0, 0.0, 0.0)
_NO_INERTIA = (_ORIGIN, _ORIGIN, _ORIGIN)
# The signs of each place: (backward, toe-ward). Draw sits in the heel, fade in the toe.
_PLACES = {"toe": (0, 1), "fade": (0, 1), "heel": (0, -1), "draw": (0, -1), "front": (-1, 0), "back": (1, 0)}


@lru_cache(maxsize=4096)
def sleeve_effect(lie: float, loft: float, loft_change: float) -> SleeveEffect:
    """What a sleeve does in each way of holding the club (rad), from its change of loft with the face squared.

    The tilt that gives the change is found by the geometry's own first guess, change × sin(lie), refined twice.

    >>> from math import radians
    >>> soled = sleeve_effect(radians(58), radians(10.5), radians(1.18)).soled_face
    >>> round(degrees(soled), 2)
    -1.88
    """
    tilt = loft_change * sin(lie)
    for _ in range(3):
        reached = sleeve(lie, tilt, loft).squared_loft
        tilt += (loft_change - reached) * sin(lie)
    return sleeve(lie, tilt, loft)


def face(club: Club, loft: Figure | None, lie: Figure | None) -> Figure | None:
    """The face angle with the club soled: as made, plus what the sleeve does to it; woods and hybrids only.

    A sleeve that adds loft with the face squared closes the face when the club is soled instead.
    """
    if given := said(club.as_played.face):
        return banded(given, "face")
    if club.kind not in WITH_FACE_ANGLE or loft is None or lie is None:
        return None
    square = Figure(
        value=0.0, unit="deg", source=Source.COMMON_PRACTICE, why="taken as square as made; no face angle is known"
    )
    made = banded(club.head.face or square, "face") or square
    change = banded(club.sleeve.loft_change, "sleeve_change") if club.sleeve else None
    if change is None or not change.value:
        return carried(made, "as made", STRONG)
    at_rest = (to_si(lie.number, lie.unit), to_si(loft.number, loft.unit), to_si(change.number, change.unit))
    effect = sleeve_effect(at_rest[0], at_rest[1] - at_rest[2], at_rest[2])

    def soled(face_as_made: float, sleeve_change: float, lie: float, loft: float) -> float:
        closed: float = sleeve_effect(lie, loft - sleeve_change, sleeve_change).soled_face
        return face_as_made + closed

    words = (
        f"face as made plus the sleeve, club soled; held as before instead it shows as loft "
        f"{_signed(effect.held_loft)} and face {_signed(effect.held_face)}, squared as loft "
        f"{_signed(effect.squared_loft)}"
    )
    return derive(soled, "deg", words, face_as_made=made, sleeve_change=change, lie=lie, loft=loft)


def _signed(angle: float) -> str:
    text = write_quantity(degrees(angle), "deg", places=1)
    return text if text.startswith("−") or text == "0°" else f"+{text}"


def offset(club: Club) -> Figure | None:
    """The offset as played, where it is known as made: strengthening the loft adds about a millimetre a degree."""
    if given := said(club.as_played.offset):
        return banded(given, "offset")
    made = banded(club.head.offset, "offset")
    bend = banded(club.bend.loft, "bend")
    if made is None:
        return None
    if bend is None or not bend.value:
        return carried(made, "as made", STRONG)
    height = common(parts()["bend_height"], "usual height of the bend above the leading edge")
    return derive(
        lambda offset_as_made, bend, bend_height: offset_as_made + bend_offset(bend_height, bend),
        "mm",
        "offset as made plus what the loft bend does to it",
        offset_as_made=made,
        bend=bend,
        bend_height=height,
    )


def centre_shift(club: Club, head_mass: Figure | None, axis: str) -> Figure | None:
    """How far the movable masses carry the head's centre of gravity, `toeward` or `backward` (mm), from their middle.

    The head's mass counts as with its movable masses in. None where no mass was moved that way.
    """
    which = 1 if axis == "toeward" else 0
    moved = [weight for weight in club.weights if weight.place in _PLACES and _PLACES[weight.place][which]]
    if not moved or head_mass is None:
        return None
    place = parts()["movable_place"]["sideways" if which else "lengthways"]
    figures: dict[str, Figure] = {
        "head_mass": head_mass,
        "distance": common(place, "usual place of a movable mass, from the head's centre of gravity"),
    }
    signs = []
    for number, weight in enumerate(moved, 1):
        figures[f"movable_mass_{number}"] = _movable_mass(weight)
        signs.append(_PLACES[weight.place or "neutral"][which])

    def shift(head_mass: float, distance: float, **masses: float) -> float:
        moves: list[tuple[float, tuple[float, float, float]]] = []
        for sign, mass in zip(signs, masses.values(), strict=True):
            there = (0.0, sign * distance, 0.0) if which else (sign * distance, 0.0, 0.0)
            moves += [(-mass, _ORIGIN), (mass, there)]
        return with_point_masses(HeadMass(head_mass, _ORIGIN, _NO_INERTIA), moves).centre[which]

    effect = "a centre of gravity nearer the heel favours a draw, nearer the toe a fade"
    if not which:
        effect = "further back it adds loft and steadiness at impact, further forward it takes spin off"
    return derive(shift, "mm", f"moved mass by the head's mass; {effect}", **figures)


def _movable_mass(weight: Weight) -> Figure:
    known = banded(weight.mass, "weight_mass")
    return known or common(parts()["movable_mass"], "usual movable mass; nobody said how heavy it is")


def toe_hang(club: Club) -> Figure | None:
    """A putter's toe hang: as stated, else what its neck usually gives."""
    if club.kind != "putter":
        return None
    if given := said(club.as_played.toe_hang):
        return banded(given, "toe_hang")
    putter = club.putter
    if putter is None:
        return None
    known = banded(putter.toe_hang, "toe_hang")
    if known is not None:
        return carried(known, "of the putter as it hangs", STRONG)
    if not putter.neck:
        return None
    table: dict[str, Any] = parts()["toe_hang"]
    for word, entry in table.items():
        if word in putter.neck.lower():
            return common(entry, f"usual for a {putter.neck} neck; hang it and see")
    return None
