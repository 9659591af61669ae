"""An ordinary set: the middles of the trade's usual figures (common practice, no single source)."""

from __future__ import annotations

from typing import Any

from asplayed.clubs import Ball, Club, GolfSet, Head, Shaft
from asplayed.quantities import figure

ROWS: list[tuple[str, Any, float, float, float, float | None, float | None]] = [
    # club, kind, loft, lie, length, bounce, shaft mass
    ("driver", "driver", 9.75, 58, 45.25, None, 62),
    ("3 wood", "fairway wood", 15, 57.5, 43, None, 68),
    ("5 wood", "fairway wood", 18, 58, 42.5, None, 70),
    ("4 hybrid", "hybrid", 22, 58.75, 40, None, 85),
    ("5 iron", "iron", 25.5, 61.25, 38, 4, 110),
    ("6 iron", "iron", 29, 61.75, 37.5, 4, 110),
    ("7 iron", "iron", 32.5, 62.25, 37, 5, 110),
    ("8 iron", "iron", 37, 62.75, 36.5, 6, 110),
    ("9 iron", "iron", 41, 63.25, 36, 7, 110),
    ("pitching wedge", "iron", 46, 63.75, 35.625, 8, 110),
    ("gap wedge", "wedge", 51, 64, 35.5, 10, 120),
    ("sand wedge", "wedge", 55.5, 64, 35.25, 12, 120),
    ("lob wedge", "wedge", 60, 64, 35, 8, 120),
    ("putter", "putter", 3, 70.5, 34, None, None),
]


def ordinary(unit: str = "in", *, driver_loft: float = 9.75) -> GolfSet:
    """The set, its lengths in `unit`."""
    clubs = []
    for club, kind, loft, lie, length, bounce, mass in ROWS:
        scale = 25.4 if unit == "mm" else 1.0
        clubs.append(
            Club(
                club=club,
                kind=kind,
                head=Head(
                    loft=figure(driver_loft if club == "driver" else loft, "deg", "stated"),
                    lie=figure(lie, "deg", "stated"),
                    bounce=None if bounce is None else figure(bounce, "deg", "stated"),
                ),
                length=figure(length * scale, unit, "stated"),
                shaft=Shaft(mass=None if mass is None else figure(mass, "g", "stated"), flex="S"),
            )
        )
    return GolfSet(clubs=tuple(clubs), ball=Ball(name="Pellan"))
