"""What comes back when a set is flown: a record for every club, and where single shots come down."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.clubs.records import Record
from asplayed.players.delivery import Skill
from asplayed.players.places import Place
from asplayed.players.records import Player
from asplayed.quantities import Figure, figure, plain

Numbers = NDArray[np.float64]


class Ellipse(Record, frozen=True, kw_only=True):
    """The ellipse on the ground that holds half the shots: half axes, and the turn of the long one from the target line
    (+ right)."""

    long: Figure
    short: Figure
    turn: Figure


class PartSwing(Record, frozen=True, kw_only=True):
    """A part swing with a wedge: its carry, and how far the ball goes in all."""

    swing: str
    carry: Figure
    total: Figure


class FlownClub(Record, frozen=True, kw_only=True):
    """One club in this player's hands: the normal swing, flagged mis-hits aside.

    `low` and `high` are 90 % bands of the typical shot; `depth` and `width` are one standard deviation of single shots
    along and across the line; `side` is + right.
    """

    club: str
    label: str
    loft: Figure | None
    carry: Figure
    total: Figure
    run: Figure
    apex: Figure
    descent: Figure
    time: Figure
    side: Figure
    depth: Figure
    width: Figure
    ellipse: Ellipse
    club_speed: Figure
    attack: Figure
    dynamic_loft: Figure
    ball_speed: Figure
    launch: Figure
    spin: Figure
    shots: int = 0
    flagged: int = 0
    part_swings: tuple[PartSwing, ...] = ()


class FlightFit(Record, frozen=True, kw_only=True):
    """What the player's own flights say of drag and lift against the house law, and the carry it leaves unexplained."""

    drag: Figure
    lift: Figure
    unexplained: Figure


class FlownSet(NamedTuple):
    """A set flown: its clubs (putters aside), for whom, where, what was assumed, and where single shots came down.

    `landings` holds for every label the (carry, side) of simulated single shots, in metres, + right.
    """

    clubs: tuple[FlownClub, ...]
    player: Player
    skill: Skill
    place: Place
    fit: FlightFit | None
    assumed: tuple[str, ...]
    landings: Mapping[str, Numbers]
    seed: int


def as_plain(answer: FlownSet) -> dict[str, Any]:
    """A flown set as JSON values."""
    density = figure(answer.place.weather.density, "kg/m3", "computed")
    return {
        "clubs": plain(answer.clubs),
        "player": {
            "name": answer.player.name,
            "hand": answer.player.hand,
            "driver_speed": plain(answer.skill.driver_speed),
            "handicap": plain(answer.skill.handicap),
        },
        "air": {**plain(answer.place.conditions), "density": plain(density)},
        "fit": plain(answer.fit),
        "assumed": list(answer.assumed),
        "seed": answer.seed,
    }
