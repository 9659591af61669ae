"""What mass moved towards heel or toe does to the line of a wood: a rigid head whose centre of gravity has shifted.

The head is a published reference driver (mass 204 g, centre of gravity 42.3 mm behind the face, inertias 2,843, 5,679
and 4,085 g·cm² about the axes out of the face, up and toe-ward; open test data of a rigid-body impact study, its axes a
reading of the text): nobody has measured the player's own. Only the difference that the shift makes is used.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.clubs import Club
from asplayed.clubs.usual import parts
from asplayed.mechanics.strike import strike
from asplayed.players.inference import Weather, delivered, flown
from asplayed.players.versions import Hands, Versions, norms_of

Numbers = NDArray[np.float64]

# kg m² and m, of the reference head.
_DEPTH, _NORMAL, _UP, _HEEL_TOE = 0.0423, 2.843e-4, 5.679e-4, 4.085e-4
_FACE = (0.305, 0.305)  # m, usual radii of bulge and roll


class Moved(NamedTuple):
    """One arrangement of a head's movable masses: the words that order it, and the grams moved toe-ward of today's."""

    words: str
    toeward: float


def moved_masses(club: Club, label: str) -> list[Moved]:
    """Today's arrangement first, then the movable mass wholly to heel and wholly to toe; only where the head has any.

    >>> from asplayed.clubs import Weight
    >>> from asplayed.quantities import figure
    >>> eight = Weight(place="heel", mass=figure(8, "g", "stated"))
    >>> [move.words for move in moved_masses(Club(club="driver", kind="driver", weights=(eight,)), "driver")]
    ['', 'driver: weights 8 g toe']
    """
    masses = {
        weight.place: weight.mass.in_unit("g").number
        for weight in club.weights
        if weight.place and weight.mass is not None and weight.mass.has_number
    }
    found = [Moved("", 0.0)]
    sides = {"toe": 1, "fade": 1, "heel": -1, "draw": -1}
    if club.kind not in ("driver", "fairway wood") or not set(masses) & set(sides):
        return found
    total = sum(mass for place, mass in masses.items() if place in sides)
    now = sum(sides[place] * mass for place, mass in masses.items() if place in sides)
    rest = "".join(f" {mass:g} g {place}" for place, mass in masses.items() if place not in sides)
    for place, way in (("heel", -1), ("toe", 1)):
        toeward = (way * total - now) / 2
        if abs(toeward) > 1e-9:
            found.append(Moved(f"{label}: weights {total:g} g {place}{rest}", toeward))
    heavy, light = max(masses.values()), min(masses.values())
    if len(masses) == 2 and set(masses) <= {"toe", "heel"} and heavy != light:
        swapped = {"heel": masses["toe"], "toe": masses["heel"]}
        toeward = masses["heel"] - masses["toe"]
        found = [found[0], Moved(f"{label}: weights {swapped['heel']:g} g heel {swapped['toe']:g} g toe", toeward)]
    return found


def sideways(hands: Hands, versions: Versions, moved: Sequence[Moved]) -> Numbers:
    """How far the mass moved turns the shots aside, m at landing, + right; nought where none was moved."""
    toeward = np.array([each.toeward for each in moved])
    found = np.zeros(len(moved))
    if not toeward.any():
        return found
    place = float(parts()["movable_place"]["sideways"]["value"]) / 1000
    norms = norms_of(hands, versions)
    base = np.array([norm.delivery for norm in norms])
    departure = np.array([hands.known.found.departures(hands.seats[label]) for label in versions.label])
    delivery = delivered(base, departure)
    heads = np.array([norm.head_mass for norm in norms])
    shift = 2 * toeward / 1000 * place / heads

    def landing(cg_toe: Numbers) -> Numbers:
        ball = strike(
            club_speed=delivery.club_speed, head_mass=heads, restitution=delivery.restitution,
            attack_angle=delivery.attack, dynamic_loft=delivery.dynamic_loft, cg_depth=_DEPTH, cg_toe=cg_toe,
            inertia_up=_UP, inertia_heel_toe=_HEEL_TOE, inertia_normal=_NORMAL, bulge_radius=_FACE[0],
            roll_radius=_FACE[1], tangential_restitution=delivery.tangential_restitution,
        )  # fmt: skip
        side: Numbers = np.asarray(flown(ball, Weather(*hands.weather[:2])).side)
        return side

    turned = landing(shift) - landing(np.zeros_like(shift))
    return -turned if hands.flown.player.hand == "left" else turned
