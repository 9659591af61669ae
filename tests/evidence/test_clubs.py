"""Whole clubs as played, held against worked clubs, the geometry of settings, and the trade's usual totals."""

from __future__ import annotations

from math import degrees, radians

import pytest
from ledger import Ledger, Row
from msgspec.structs import replace

from asplayed.clubs import AsPlayed, Bend, Club, Grip, Head, Shaft, Weight, as_played
from asplayed.clubs.assembly import points_of, whole_club
from asplayed.clubs.head_as_played import sleeve_effect
from asplayed.mechanics.balance import Build
from asplayed.mechanics.head import HeadMass, with_point_masses
from asplayed.quantities import Figure, figure

LEDGER = Ledger("clubs.csv", "Clubs as played", "Worked clubs, settings and bends, usual totals and frequencies.")

INCH = 0.0254


def worked(length: float, head: float, height: float, shaft: float, shaft_length: float, balance: float) -> Build:
    """A worked club (inches and grams) whose shaft was never cut and which has nothing but its three parts."""
    return whole_club(
        head / 1000,
        height * INCH,
        length=length * INCH,
        shaft_mass=shaft / 1000,
        shaft_length=shaft_length * INCH,
        shaft_balance=1 - balance / shaft_length,
        shaft_reach=(length - shaft_length) * INCH,
        grip_mass=0.050,
        tape_mass=0.0,
        fittings_mass=0.0,
    )


DRIVER = (45.5, 200, 1.2, 62, 44.0, 21.5)
IRON = (37.0, 270, 0.6, 115, 35.5, 17.4)
WEDGE = (35.75, 285, 0.6, 115, 34.25, 16.8)


def stated(value: float | str, unit: str) -> Figure:
    return figure(value, unit, "stated")


def usual(name: str, kind: str, **fields: object) -> AsPlayed:
    return as_played(Club(club=name, kind=kind, **fields))  # type: ignore[arg-type]


def number(entry: Figure | None) -> float:
    assert entry is not None
    return entry.number


@LEDGER.gives("5.5 driver", "5.5 driver balance", "5.5 driver points", "5.5 driver inertia")
def _() -> tuple[float, ...]:
    made = worked(*DRIVER)
    return 1000 * made.mass, made.balance_point / INCH, made.swing_weight_points, 1e4 * made.butt_inertia


@LEDGER.gives("5.5 iron", "5.5 iron inertia", "5.5 wedge", "5.5 wedge inertia")
def _() -> tuple[float, ...]:
    iron, wedge = worked(*IRON), worked(*WEDGE)
    return iron.swing_weight_points, 1e4 * iron.butt_inertia, wedge.swing_weight_points, 1e4 * wedge.butt_inertia


@LEDGER.gives("7.8 squared", "7.8 soled")
def _() -> tuple[float, float]:
    effect = sleeve_effect(radians(58), radians(10.5), radians(1.180))
    return degrees(effect.held_loft), degrees(effect.soled_face)


@LEDGER.gives("7.9 soled")
def _() -> float:
    return degrees(sleeve_effect(radians(55), radians(10.5), radians(2.445)).soled_face)


def bent(loft: float, bounce: float, bend: float) -> AsPlayed:
    head = Head(loft=stated(loft, "deg"), bounce=stated(bounce, "deg"), offset=stated(2, "mm"))
    return usual("sand wedge", "wedge", head=head, bend=Bend(loft=stated(bend, "deg")))


@LEDGER.gives("7.15 loft", "7.15 bounce")
def _() -> tuple[float, float]:
    played = bent(56, 12, -2)
    return number(played.loft), number(played.bounce)


@LEDGER.gives("bend weak", "band")
def _() -> tuple[float, float]:
    played = bent(56, 10, 1)
    assert played.loft is not None
    return number(played.bounce), played.loft.half_width


@LEDGER.gives("offset")
def _() -> float:
    return number(bent(56, 10, -1).offset) - 2


@LEDGER.gives("wrap")
def _() -> float:
    wrapped = usual("7 iron", "iron", grip=Grip(wraps=4))
    return number(wrapped.grip_size) - number(usual("7 iron", "iron").grip_size)


@LEDGER.gives("hosel")
def _() -> float:
    nothing = ((0.0, 0.0, 0.0),) * 3
    moved = with_point_masses(
        HeadMass(0.270, (0.0, 0.0, 0.0), nothing), [(-0.008, (0.0, 0.0, 0.0)), (0.008, (0.0, -0.055, 0.0))]
    )
    return -1000 * moved.centre[1]


@LEDGER.gives("mass driver", "mass wood", "mass iron", "mass graphite", "mass putter")
def _() -> tuple[float, ...]:
    graphite = usual("5 iron", "iron", shaft=Shaft(name="Quellon graphite"))
    clubs = (usual("driver", "driver"), usual("3 wood", "fairway wood"), usual("5 iron", "iron"), graphite)
    return (*(number(club.mass) for club in clubs), number(usual("putter", "putter").mass))


@LEDGER.gives("mass wedge")
def _() -> bool:
    mass = usual("sand wedge", "wedge").mass
    assert mass is not None and mass.low is not None and mass.high is not None
    return mass.low <= 475 and mass.high >= 455


@LEDGER.gives("inertia")
def _() -> bool:
    clubs = [("driver", "driver"), ("3 wood", "fairway wood"), ("4 hybrid", "hybrid"), ("7 iron", "iron")]
    clubs += [("pitching wedge", "iron"), ("sand wedge", "wedge"), ("lob wedge", "wedge")]
    return all(2550 <= number(usual(name, kind).butt_inertia) <= 2850 for name, kind in clubs)


@LEDGER.gives("balance band")
def _() -> bool:
    points = points_of(usual("driver", "driver").swing_weight)
    assert points is not None and points.low is not None and points.high is not None
    return points.low <= 32 and points.high >= 30


def clamped(name: str, kind: str, flex: str, length: float, head: float, shaft: float) -> float:
    club = usual(
        name,
        kind,
        length=stated(length, "in"),
        head=Head(mass=stated(head, "g")),
        shaft=Shaft(flex=flex, mass=stated(shaft, "g")),
    )
    return number(club.frequency)


@LEDGER.gives("flex L", "flex R", "flex S", "flex X")
def _() -> tuple[float, ...]:
    return tuple(clamped("driver", "driver", flex, 45, 200, 60) for flex in "LRSX")


@LEDGER.gives("flex iron A", "flex iron X")
def _() -> tuple[float, ...]:
    return tuple(clamped("5 iron", "iron", flex, 38, 256, 120) for flex in "AX")


@LEDGER.gives("slope")
def _() -> float:
    shaft = Shaft(flex="S")
    found = [number(usual(f"{n} iron", "iron", shaft=shaft).frequency) for n in range(5, 10)]
    return (found[-1] - found[0]) / 4


@LEDGER.gives("half inch")
def _() -> float:
    length, head, height, shaft, shaft_length, balance = DRIVER
    longer = (length + 0.5, head, height, shaft * (shaft_length + 0.5) / shaft_length, shaft_length + 0.5)
    return worked(*longer, balance + 0.25).swing_weight_points - worked(*DRIVER).swing_weight_points


@LEDGER.gives("two grams")
def _() -> float:
    length, head, *rest = IRON
    gain = worked(length, head + 1, *rest).swing_weight_points - worked(*IRON).swing_weight_points
    return 1 / gain


def test_a_moved_mass_in_a_club_is_the_rigid_body_arithmetic() -> None:
    club = Club(club="driver", kind="driver", head=Head(mass=stated(200, "g")))
    moved = replace(club, weights=(Weight(place="heel", mass=stated(8, "g")),))
    # 8 g, 35 mm from the centre of gravity, in a head of 200 g: 8 × 35 / 200
    assert number(as_played(moved).cg_toeward) == pytest.approx(-1.4)


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
