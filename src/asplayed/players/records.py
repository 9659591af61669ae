"""The records of a player and of the conditions shots were struck in: frozen, made of figures."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal, NamedTuple, get_args

import msgspec

from asplayed.clubs import GolfSet
from asplayed.clubs.records import Hand, Kind, Record
from asplayed.errors import BadInput
from asplayed.quantities import Figure, Source, figure, read_quantity, unit_named

Surface = Literal["mat", "turf"]
Ground = Literal["soft", "normal", "firm"]

LIMITS_CAUTION = "a player's pain, disability or injury is for a licensed practitioner"


class Conditions(Record, frozen=True, kw_only=True):
    """The air, the wind and the ground of a session or of a place; what is None is not known.

    `altitude` is the height above the sea, `pressure` the station's own. Wind along: tail +; across: + pushes the ball
    right. `landing_height` is the target's height above the ball.
    """

    temperature: Figure | None = None
    humidity: Figure | None = None
    altitude: Figure | None = None
    pressure: Figure | None = None
    wind_along: Figure | None = None
    wind_across: Figure | None = None
    landing_height: Figure | None = None
    ground: Ground | None = None


class UsualDelivery(Record, frozen=True, kw_only=True):
    """What a player usually delivers with one kind of club, where he or a fitter has said so.

    `added_loft` is dynamic loft less the club's loft as played; path and face are + to the right.
    """

    kind: Kind
    attack: Figure | None = None
    added_loft: Figure | None = None
    path: Figure | None = None
    face: Figure | None = None


class Player(Record, frozen=True, kw_only=True):
    """A player: hand, measures, speed, usual delivery by kind of club, where he plays, and what limits him.

    `home` is the ground and climate he usually plays in. `stroke_arc` is the arc of his putting stroke in degrees of
    face. `limits` are his own words on what his body does not allow: shown with a caution, never reckoned with.
    """

    name: str | None = None
    hand: Hand = "right"
    height: Figure | None = None
    wrist_to_floor: Figure | None = None
    hand_size: Figure | None = None
    driver_speed: Figure | None = None
    handicap: Figure | None = None
    delivery: tuple[UsualDelivery, ...] = ()
    home: Conditions = Conditions()
    stroke_arc: Figure | None = None
    limits: str | None = None


class SessionFacts(Record, frozen=True, kw_only=True):
    """What is known of a session besides its shots."""

    file: str | None = None
    date: str | None = None
    ball: str | None = None
    surface: Surface | None = None
    conditions: Conditions = Conditions()


class Limits(NamedTuple):
    """What a player's figure may be, in `unit`."""

    unit: str
    low: float
    high: float


# What a person can be at all; common practice, no single source. A handicap better than scratch is negative here.
PLAYER_LIMITS = {
    "height": Limits("in", 36, 96),
    "wrist_to_floor": Limits("in", 20, 50),
    "hand_size": Limits("in", 4, 11),
    "driver_speed": Limits("mph", 30, 150),
    "handicap": Limits("1", -10, 54),
    "stroke_arc": Limits("deg", 0, 90),
}

# What a player may usually deliver, in degrees either way.
_USUAL = {"attack": 20, "added loft": 25, "path": 15, "face": 15}

_SAID = {
    "driver_speed": re.compile(
        r"(?:swing|club ?head|driver|club|head)[ -]?speed\D{0,24}?"
        r"(?P<value>\d{2,3}(?:[.,]\d)?\s*(?:mph|m/s|km/h|kph)?)",
        re.I,
    ),
    "handicap": re.compile(
        r"(?:handicap|hcp|index)\s*(?:of|is|:|=)?\s*(?P<value>[+-]?\d{1,2}(?:[.,]\d)?)(?![\d%])"
        r"|(?P<before>\d{1,2}(?:[.,]\d)?)[ -]handicap(?:per)?",
        re.I,
    ),
    "wrist_to_floor": re.compile(
        r"wrist[ -]to[ -]floor\D{0,6}?"
        r"(?P<value>\d{2,3}(?:[.,]\d+|\s*[¼½¾]|\s\d/\d)?\s*(?:in(?:ches)?|cm|mm|\"|″)?)",
        re.I,
    ),
}
_SCRATCH = re.compile(r"\bscratch (?:player|golfer)\b|\bplays? (?:off|to) scratch\b", re.I)


def player_figure(name: str, text: str, *, bare: bool = False) -> Figure:
    """A player's figure as stated, from text with its unit (`bare`: in the usual unit where none is written).

    What no person can be is refused with the range.

    >>> player_figure("driver_speed", "105mph").value
    105.0
    """
    limits = PLAYER_LIMITS[name]
    words = name.replace("_", " ")
    # golf writes a handicap better than scratch with a plus
    better = name == "handicap" and text.strip().startswith("+")
    quantity = read_quantity(text)
    unit = quantity.unit or limits.unit
    if not (quantity.unit or bare or limits.unit == "1"):
        raise BadInput(f"{words} {text.strip()!r} has no unit; write it as {text.strip()}{limits.unit} or the like")
    if unit_named(unit).dimension != unit_named(limits.unit).dimension:
        raise BadInput(f"{words} {text.strip()!r} is not in {limits.unit} or the like; write it as 105mph or 34in")
    value = -float(quantity.value) if better else float(quantity.value)
    given = figure(value, unit, Source.STATED).in_unit(limits.unit)
    if not limits.low <= given.number <= limits.high:
        bounds = f"{limits.low:g} to {limits.high:g}{'' if limits.unit == '1' else ' ' + limits.unit}"
        raise BadInput(f"{words} {text.strip()!r} cannot be; it lies from {bounds}")
    return given


def with_usual(player: Player, said: Iterable[str]) -> tuple[UsualDelivery, ...]:
    """The player's usual delivery with what is said of it, each as `KIND.FIGURE=VALUE`; what is new replaces the old.

    >>> [iron] = with_usual(Player(), ["iron.attack=-4deg", "iron.added loft=-9deg"])
    >>> iron.attack.value, iron.added_loft.value
    (-4.0, -9.0)
    """
    kinds = {kind: kind for kind in get_args(Kind) if kind != "putter"}
    found: dict[Kind, UsualDelivery] = {each.kind: each for each in player.delivery}
    for text in said:
        place, _, value = text.partition("=")
        words, _, name = (part.strip().replace("_", " ") for part in place.rpartition("."))
        if words not in kinds or name not in _USUAL:
            raise BadInput(
                f"{text[:60]!r} is not a usual delivery; write it as iron.attack=-4deg, with a kind of "
                f"{', '.join(kinds)} and a figure of {', '.join(_USUAL)}"
            )
        quantity = read_quantity(value)
        unit = quantity.unit or "deg"
        if unit_named(unit).dimension != "angle":
            raise BadInput(f"{text[:60]!r} is not an angle; write it as iron.attack=-4deg")
        entry = figure(float(quantity.value), unit, Source.STATED).in_unit("deg")
        if not abs(entry.number) <= _USUAL[name]:
            raise BadInput(f"{text[:60]!r} cannot be; the {name} lies within {_USUAL[name]} deg either way")
        kind = kinds[words]
        old = found.get(kind, UsualDelivery(kind=kind))
        found[kind] = msgspec.structs.replace(old, **{name.replace(" ", "_"): entry})
    return tuple(found.values())


def player_of(golf_set: GolfSet) -> Player:
    """The player of a set, with what the list's own notes say of him: speed, handicap, wrist to floor.

    >>> from asplayed.clubs import Passage
    >>> said = GolfSet(notes=(Passage(line=2, text="handicap 8, swing speed 98 mph"),))
    >>> player_of(said).driver_speed.value, player_of(said).handicap.value
    (98.0, 8.0)
    """
    found: dict[str, Figure] = {}
    for note in golf_set.notes:
        of_a_club = any(note.line in club.lines for club in golf_set.clubs if club.club == note.club != "driver")
        said_there = f"line {note.line} of the list: {note.text}"
        for name, pattern in _SAID.items():
            match = pattern.search(note.text)
            if match is None or (of_a_club and name == "driver_speed"):
                continue  # the speed of another club, in that club's own line, is not the driver's
            text = match["value"] or match.groupdict().get("before") or ""
            try:
                said = player_figure(name, text, bare=True)
            except BadInput:
                continue  # the words stay in the notes, where everybody can read them
            found.setdefault(name, msgspec.structs.replace(said, why=said_there))
        if _SCRATCH.search(note.text):
            found.setdefault("handicap", figure(0.0, "1", Source.STATED, why=said_there))
    return msgspec.structs.replace(Player(name=golf_set.set.player, hand=golf_set.set.hand), **found)
