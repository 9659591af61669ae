"""The rules' limits, each held at its edge: what is within, what is within the tolerance, what is a breach."""

from __future__ import annotations

import pytest
from ledger import Ledger, Row

from asplayed.judgement.rules import check, short_groove_test, spring_effect_route
from asplayed.quantities import Figure, figure

LEDGER = Ledger("rules.csv", "The rules", "Limits of the Equipment Rules and the Rules of Golf, at their edges.")


def entered(value: str | float, unit: str = "1") -> Figure:
    return figure(value, unit, "measured")


def verdict(item: str, local_rules: tuple[str, ...] = (), **figures: Figure | list[Figure]) -> str:
    found = {v.item: v.verdict for v in check(figures, local_rules)}
    return found[item]


def inches(*values: float) -> list[Figure]:
    return [entered(value, "in") for value in values]


DRIVER, PUTTER, IRON, WOOD = (entered(kind) for kind in ("driver", "putter", "5 iron", "3 wood"))

# number of the row: item, verdict, and the figures entered
EDGES: dict[str, tuple[str, str, dict[str, Figure | list[Figure]]]] = {
    "8.1": ("clubs", "breach", {"clubs": entered(15)}),
    "8.1 fourteen": ("clubs", "ok", {"clubs": entered(14)}),
    "8.2": ("length", "ok", {"kind": DRIVER, "length": entered(48.0, "in")}),
    "8.2 over": ("length", "breach", {"kind": DRIVER, "length": entered(48.01, "in")}),
    "8.3": ("length", "ok", {"kind": DRIVER, "length": entered(46.25, "in")}),
    "8.4": ("length", "ok", {"kind": PUTTER, "length": entered(50, "in")}),
    "8.5": ("volume", "ok", {"volume": entered(460, "cm3")}),
    "8.5 tolerance": ("volume", "within tolerance", {"volume": entered(465, "cm3")}),
    "8.5 over": ("volume", "breach", {"volume": entered(470.5, "cm3")}),
    "8.6": ("inertia", "within tolerance", {"inertia": entered(5950, "g*cm2")}),
    "8.6 over": ("inertia", "breach", {"inertia": entered(6001, "g*cm2")}),
    "8.7": ("characteristic_time", "ok", {"characteristic_time": entered(239, "us")}),
    "8.7 tolerance": ("characteristic_time", "within tolerance", {"characteristic_time": entered(250, "us")}),
    "8.7 over": ("characteristic_time", "breach", {"characteristic_time": entered(258, "us")}),
    "8.9": ("groove_width", "breach", {"groove_width": inches(*[0.036] * 12)}),
    "8.9 few": ("groove_width", "within tolerance", {"groove_width": inches(*[0.036] * 4, *[0.034] * 8)}),
    "8.10": ("groove_width", "breach", {"groove_width": inches(0.0375, *[0.034] * 11)}),
    "8.11": ("loft", "ok", {"kind": PUTTER, "loft": entered(10.0, "deg")}),
    "8.11 over": ("loft", "breach", {"kind": PUTTER, "loft": entered(10.5, "deg")}),
    "8.12": ("lie", "breach", {"lie": entered(81, "deg")}),
    "8.13 over": ("ball_mass", "breach", {"ball_mass": entered(45.95, "g")}),
    "8.14": ("grip_width", "breach", {"kind": IRON, "grip_width": entered(1.80, "in")}),
}


def _hold(number: str) -> None:
    item, expected, figures = EDGES[number]

    @LEDGER.gives(number)
    def _() -> bool:
        return verdict(item, **figures) == expected


for _number in EDGES:
    _hold(_number)


@LEDGER.gives("8.3 local")
def _() -> bool:
    return verdict("length", ("G-10",), kind=DRIVER, length=entered(46.25, "in")) == "breach"


GROOVE: dict[str, Figure | list[Figure]] = {
    "groove_width": entered(0.030, "in"),
    "groove_separation": entered(0.105, "in"),
    "groove_area": entered(0.00036, "in2"),
}


@LEDGER.gives("8.8")
def _() -> float:
    (found,) = (v for v in check(GROOVE) if v.item == "groove_area")
    return float(found.sentence.split("greatest here ")[1].split()[0])


@LEDGER.gives("8.8 verdicts")
def _() -> bool:
    return all(verdict(item, **GROOVE) == "ok" for item in GROOVE)


@LEDGER.gives("8.13")
def _() -> bool:
    ball: dict[str, Figure | list[Figure]] = {
        "ball_mass": entered(45.93, "g"),
        "ball_diameter": entered(42.67, "mm"),
    }
    return verdict("ball_mass", **ball) == verdict("ball_diameter", **ball) == "ok"


@LEDGER.gives("8.15")
def _() -> bool:
    wood = {"kind": WOOD, "heel_toe": entered(118, "mm"), "face_back": entered(121, "mm")}
    turned = {"kind": WOOD, "heel_toe": entered(121, "mm"), "face_back": entered(118, "mm")}
    return verdict("heel_toe", **wood) == "breach" and verdict("heel_toe", **turned) == "ok"


@LEDGER.gives("W01")
def _() -> bool:
    (found,) = (v for v in check({"kind": DRIVER, "length": entered(45, "in")}) if v.item == "length")
    return "plane at 60°" in found.sentence


@LEDGER.gives("W02")
def _() -> bool:
    return short_groove_test([0.75, 0.80, 0.75], 2.8)


@LEDGER.gives("W03")
def _() -> bool:
    too_wide = short_groove_test([0.86], 4.0)
    no_quarter = short_groove_test([0.80], 2.5)
    no_land = short_groove_test([0.50], 1.9)
    return not (too_wide or no_quarter or no_land)


@LEDGER.gives("W04")
def _() -> bool:
    wedge = {"kind": entered("wedge"), "loft": entered(36, "deg"), "characteristic_time": entered(300, "us")}
    return (
        spring_effect_route("iron", 36, None, None) == "not tested" and verdict("characteristic_time", **wedge) == "ok"
    )


@LEDGER.gives("W05")
def _() -> bool:
    iron = {
        "kind": IRON,
        "loft": entered(35, "deg"),
        "face_back": entered(1.5, "in"),
        "face_radius": entered(31, "in"),
        "characteristic_time": entered(258, "us"),
    }
    return verdict("characteristic_time", **iron) == "not measured"


@LEDGER.gives("W06")
def _() -> bool:
    deep = spring_effect_route("driver", 10, 4.0, 12)
    round_face = spring_effect_route("iron", 30, 1.0, 30)
    return deep == round_face == "characteristic time" and spring_effect_route("putter", 3, 1, 99) == "not tested"


@LEDGER.gives("W07")
def _() -> bool:
    edge = verdict("inertia", kind=DRIVER, inertia=entered(5900, "g*cm2"))
    iron = verdict("inertia", kind=IRON, inertia=entered(9000, "g*cm2"))
    return edge == "ok" and iron == "ok"


@LEDGER.gives("W09")
def _() -> bool:
    found = [verdict("initial_velocity", initial_velocity=entered(speed, "ft/s")) for speed in (250, 255, 255.1)]
    return found == ["ok", "within tolerance", "breach"]


@LEDGER.gives("medical")
def _() -> bool:
    def found(shortest: float) -> str:
        return verdict("medical", longest=entered(50, "in"), shortest=entered(shortest, "in"), medical=entered("yes"))

    return found(41) == "ok" and found(39) == "breach"


@LEDGER.gives("two grips")
def _() -> bool:
    found = [verdict("grips_apart", kind=PUTTER, grips_apart=entered(gap, "in")) for gap in (1.4, 1.6)]
    return found == ["breach", "ok"]


@LEDGER.gives("hardness")
def _() -> bool:
    putter = verdict("face_hardness", kind=PUTTER, face_hardness=entered(84))
    iron = verdict("face_hardness", kind=IRON, face_hardness=entered(74))
    enough = verdict("face_hardness", kind=IRON, face_hardness=entered(75))
    return (putter, iron, enough) == ("breach", "breach", "ok")


@LEDGER.gives("radius")
def _() -> bool:
    sharp = {"kind": IRON, "groove_radius": entered(0.008, "in")}
    steep = verdict("groove_radius", loft=entered(25, "deg"), **sharp)
    flat = verdict("groove_radius", loft=entered(24, "deg"), **sharp)
    return (steep, flat) == ("breach", "ok")


@pytest.mark.parametrize("row", LEDGER.rows, ids=str)
def test_row(row: Row) -> None:
    LEDGER.hold(row)
