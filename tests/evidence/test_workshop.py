"""The workshop's orders held against the worked clubs, the linear taper, and the trade's limits."""

from __future__ import annotations

import pytest
from ledger import Ledger, Row
from msgspec.structs import replace

from asplayed.clubs import Change, Club, GolfSet, Head, Shaft
from asplayed.clubs.assembly import points_of
from asplayed.clubs.changes import missing_mass
from asplayed.errors import BadInput
from asplayed.quantities import figure
from asplayed.workshop import ClubOrder, Step, order
from asplayed.workshop.stiffness import Beam, trimmed_frequency

LEDGER = Ledger("workshop.csv", "The workshop", "What orders ask of the bench, and the limits they keep.")

INCH = 0.0254


def club(name: str, kind: str, length: float, head: float, shaft: float) -> Club:
    return Club(
        club=name,
        kind=kind,  # type: ignore[arg-type]
        head=Head(mass=figure(head, "g", "measured")),
        shaft=Shaft(mass=figure(shaft, "g", "measured")),
        length=figure(length, "in", "stated"),
    )


IRON = club("7 iron", "iron", 37, 270, 127)
WEDGE = Club(
    club="sand wedge",
    kind="wedge",
    head=Head(loft=figure(56, "deg", "stated"), bounce=figure(12, "deg", "stated"), construction="forged carbon steel"),
)


def done(one: Club, *changes: Change) -> ClubOrder:
    return order(GolfSet(clubs=(one,)), [replace(change, club=one.club) for change in changes]).clubs[0]


def step(found: ClubOrder, operation: str, of: str | None = None) -> Step:
    return next(one for one in found.steps if one.operation == operation and of in (None, one.figure))


def a_gram(one: Club) -> float:
    light, heavy = (missing_mass(one, figure(text, "1", "stated"), "head").grams for text in ("D2", "D3"))
    return 1 / (heavy - light)


@LEDGER.gives("1.1", "1.2", "1.3")
def _() -> tuple[float, ...]:
    wedge = club("pitching wedge", "wedge", 35.75, 285, 120)
    return a_gram(IRON), a_gram(wedge), a_gram(club("driver", "driver", 45.5, 200, 62))


@LEDGER.gives("1.4")
def _() -> float:
    before = order(GolfSet(clubs=(IRON,))).outcome.clubs[0].as_played.swing_weight
    shorter = Change(what="length", figure=figure(36.5, "in", "stated"))
    plan = step(done(IRON, shorter, Change(what="swing weight", figure=before)), "swing-weight plan")
    return float(plan.words.split("Add ")[1].split(" g")[0])


@LEDGER.gives("1.5")
def _() -> float:
    five = club("5 iron", "iron", 38, 256, 128)
    longer = done(five, Change(what="length", by=True, figure=figure(0.5, "in", "stated")))
    found = step(longer, "measure", "swing_weight")
    return points_of(found.target).number - points_of(found.start).number


@LEDGER.gives("2.1", "2.2")
def _() -> tuple[float, ...]:
    driver = Beam(40 * INCH, 0.2, 0.060 / (46 * INCH), 273.54 / 60)
    at = [60 * trimmed_frequency(driver, inches * INCH) for inches in (0, 1, 2)]
    return at[1] - at[0], at[2] - at[1]


@LEDGER.gives("2.3")
def _() -> float:
    iron = Beam(32 * INCH, 0.270, 0.115 / (37 * INCH), 320 / 60)
    return 60 * (trimmed_frequency(iron, INCH) - iron.frequency)


@LEDGER.gives("3.1", "3.2")
def _() -> tuple[float, ...]:
    strong = done(WEDGE, Change(what="loft", by=True, figure=figure(-2, "deg", "stated")))
    return tuple(step(strong, "measure", about).target.number for about in ("loft", "bounce"))


def takes(one: Club, degrees: float) -> bool:
    try:
        done(one, Change(what="loft", by=True, figure=figure(degrees, "deg", "stated")))
    except BadInput:
        return False
    return True


@LEDGER.gives("3.3", "3.4", "3.5")
def _() -> tuple[bool, ...]:
    cast = replace(WEDGE, head=replace(WEDGE.head, construction="cast 431 stainless steel"))
    wood = club("5 wood", "fairway wood", 42.5, 219, 70)
    return (
        takes(WEDGE, 4) and not takes(WEDGE, 4.5),
        takes(cast, -2) and not takes(cast, -2.5),
        not takes(wood, 0.5),
    )


@LEDGER.gives("4.1")
def _() -> float:
    from asplayed.clubs import Grip

    plain, wrapped = (
        step(done(IRON, Change(what="grip", grip=Grip(name="Tessary", wraps=wraps))), "wraps and grip").target.number
        for wraps in (0, 1)
    )
    return wrapped - plain


@LEDGER.gives("4.2", "4.3", "4.4")
def _() -> tuple[float, ...]:
    driver = club("driver", "driver", 45.5, 200, 62)
    shaft = Change(what="shaft", shaft=Shaft(name="Lindrake"))
    depths = [step(done(one, shaft), "bond").target.number for one in (IRON, driver)]
    return *depths, step(done(IRON, shaft), "cure").target.number / 3600


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
