"""The records of a set: frozen, storage- and screen-free, in the shape that `read --json` shows.

Angles are from the player's own side (so a left-hander's club reads as a right-hander's): loft change weak +, lie
change upright +, bend weak and upright +, face open +. A figure that nothing is known about is None.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from asplayed.quantities import Figure

Kind = Literal["driver", "fairway wood", "hybrid", "driving iron", "iron", "wedge", "putter"]
Hand = Literal["right", "left"]
Place = Literal["toe", "heel", "front", "back", "neutral", "draw", "fade"]
AddedAt = Literal["head", "tip", "butt"]
Tendency = Literal["low", "low-mid", "mid", "mid-high", "high"]


class Record(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What all records share: frozen, compared by value, unknown fields refused when decoded."""


class Head(Record, frozen=True, kw_only=True):
    """A head: the user's words for it, the catalogue's maker and model, and its figures as made."""

    name: str | None = None
    maker: str | None = None
    model: str | None = None
    loft: Figure | None = None
    lie: Figure | None = None
    bounce: Figure | None = None
    sole: str | None = None
    mass: Figure | None = None
    face: Figure | None = None
    offset: Figure | None = None
    volume: Figure | None = None
    construction: str | None = None
    bend_limit: Figure | None = None
    documents: tuple[str, ...] = ()


class Sleeve(Record, frozen=True, kw_only=True):
    """An adjustable sleeve as set: its position's name, and the changes stated or charted (face squared)."""

    position: str | None = None
    loft_change: Figure | None = None
    lie_change: Figure | None = None


class Weight(Record, frozen=True, kw_only=True):
    """One movable mass: where it sits, at which step, how heavy."""

    place: Place | None = None
    step: int | None = None
    mass: Figure | None = None


class Bend(Record, frozen=True, kw_only=True):
    """What the bending bar did: loft weak +, lie upright +."""

    loft: Figure | None = None
    lie: Figure | None = None


class Shaft(Record, frozen=True, kw_only=True):
    """A shaft: the user's words, the catalogue's part, and its figures. Mass is as published: uncut unless said."""

    name: str | None = None
    maker: str | None = None
    model: str | None = None
    flex: str | None = None
    mass: Figure | None = None
    torque: Figure | None = None
    launch: Tendency | None = None
    spin: Tendency | None = None
    ascending: bool | None = None
    balance: Figure | None = None  # of the uncut shaft, percent of its length from the tip
    length: Figure | None = None  # of the uncut shaft
    tip: Figure | None = None
    butt: Figure | None = None
    tip_trim: Figure | None = None  # cut off the tip before it was fitted
    documents: tuple[str, ...] = ()


class Grip(Record, frozen=True, kw_only=True):
    """A grip: the user's words, its mass, and extra layers of tape as stated."""

    name: str | None = None
    maker: str | None = None
    model: str | None = None
    mass: Figure | None = None
    wraps: float | None = None


class PutterParts(Record, frozen=True, kw_only=True):
    """What only a putter has: its neck, and its toe hang (0 is face balanced)."""

    neck: str | None = None
    toe_hang: Figure | None = None


class AddedMass(Record, frozen=True, kw_only=True):
    """Mass a builder added: tape or plug at the head, weight in the shaft's tip, counterweight in the butt."""

    place: AddedAt
    mass: Figure


class Stated(Record, frozen=True, kw_only=True):
    """Figures of the whole club as somebody stated them."""

    swing_weight: Figure | None = None
    frequency: Figure | None = None
    mass: Figure | None = None


class AsPlayed(Record, frozen=True, kw_only=True):
    """The club as the ball meets it, once settings and alterations are counted."""

    loft: Figure | None = None
    lie: Figure | None = None
    face: Figure | None = None
    bounce: Figure | None = None
    offset: Figure | None = None
    length: Figure | None = None
    mass: Figure | None = None
    balance_point: Figure | None = None  # from the butt
    swing_weight: Figure | None = None  # text, such as D2.4
    butt_inertia: Figure | None = None
    frequency: Figure | None = None  # its clamp length stands in `why`
    grip_size: Figure | None = None  # outer diameter 2 in below the cap
    cg_toeward: Figure | None = None  # how far moved mass carries the head's centre of gravity toe-ward
    cg_backward: Figure | None = None  # and backward, away from the face
    toe_hang: Figure | None = None  # of a putter; 0 is face balanced


class Club(Record, frozen=True, kw_only=True):
    """One club: the lines it was read from, its trade name and kind, its parts, and what it is as played."""

    lines: tuple[int, ...] = ()
    club: str
    kind: Kind
    head: Head = Head()
    sleeve: Sleeve | None = None
    weights: tuple[Weight, ...] = ()
    bend: Bend = Bend()
    added: tuple[AddedMass, ...] = ()
    shaft: Shaft = Shaft()
    grip: Grip | None = None
    length: Figure | None = None
    length_change: Figure | None = None
    stated: Stated = Stated()
    putter: PutterParts | None = None
    as_played: AsPlayed = AsPlayed()


class Ball(Record, frozen=True, kw_only=True):
    """The ball in play."""

    name: str | None = None
    maker: str | None = None
    model: str | None = None
    colour: str | None = None


class Passage(Record, frozen=True, kw_only=True):
    """A stretch of the user's own words, with its line; `club` where it belongs to one."""

    line: int
    text: str
    club: str | None = None


class Question(Record, frozen=True, kw_only=True):
    """What cannot be decided from the words: asked once, with the likely answers, best first."""

    line: int | None
    club: str | None
    about: str
    text: str
    answers: tuple[str, ...] = ()


class Disagreement(Record, frozen=True, kw_only=True):
    """Where the list and a published specification differ: both are kept."""

    code: str
    club: str | None
    about: str
    sentence: str
    figures: dict[str, Figure] = {}
    source: str


class SetFacts(Record, frozen=True, kw_only=True):
    """What is known of the set as a whole. `hand_source` says whether the hand was stated or assumed."""

    title: str | None = None
    player: str | None = None
    hand: Hand = "right"
    hand_source: Literal["stated", "assumed"] = "assumed"
    event: str | None = None
    date: str | None = None  # YYYY-MM-DD


class GolfSet(Record, frozen=True, kw_only=True):
    """A set of clubs, the questions it leaves, and every word that found no place in a club."""

    set: SetFacts = SetFacts()
    clubs: tuple[Club, ...] = ()
    ball: Ball | None = None
    aside: tuple[Passage, ...] = ()
    notes: tuple[Passage, ...] = ()
    not_understood: tuple[Passage, ...] = ()
    questions: tuple[Question, ...] = ()
    disagreements: tuple[Disagreement, ...] = ()
