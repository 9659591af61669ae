"""What a player delivers with a club of whom nothing is measured: the norms by speed and handicap.

Every club is placed on the rows of `data/deliveries.csv` by its kind and the usual loft of its name; its own loft,
length and head mass then move it from there: a degree of loft is a degree of dynamic loft, and speed goes with length
and mass. The rows of the men and of the women among touring professionals are two players 18 mph apart, and
everybody's norm lies on the line through them, with what amateurs do otherwise on top.
"""

from __future__ import annotations

import csv
import math
import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Any, NamedTuple

from asplayed.clubs import AsPlayed, Club
from asplayed.clubs.usual import usual
from asplayed.mechanics.flight_equations import BALL_MASS, BALL_RADIUS
from asplayed.players.records import Player
from asplayed.quantities import Figure, Source, figure, to_si

DEGREE = math.pi / 180.0
MPH = 0.44704
INCH = 0.0254
OF_90 = 1.6448536269514722  # half-width of a 90 % band in standard deviations

# A ball that sticks to the face is dragged by this much of the tangential speed: a uniform sphere's 1 + 1/0.4.
_ROLLING = 3.5


class Delivery(NamedTuple):
    """What the club does to the ball at impact; SI and radians, floats or arrays.

    The two restitutions are effective ones: with the speed a launch monitor reports they give the ball it reports, and
    say nothing of what the rules allow a face.
    """

    club_speed: Any
    attack: Any
    dynamic_loft: Any
    restitution: Any
    tangential_restitution: Any


class Norm(NamedTuple):
    """The usual delivery with one club (SI), the mass of its head (kg), and its length against the row's (m)."""

    delivery: Delivery
    head_mass: float
    why: str


class Skill(NamedTuple):
    """Club speed with a driver of usual length, and handicap: figures, and whether somebody gave them."""

    driver_speed: Figure
    handicap: Figure


class Row(NamedTuple):
    """One row of the norms: where on the loft scale it stands, and the delivery behind its published launch."""

    loft: float
    speed_share: float
    attack: float
    offset: float
    restitution: float
    tangential_restitution: float
    length: float
    head_mass: float


@cache
def norms() -> Mapping[str, Any]:
    """The figures of `data/norms.toml`."""
    return tomllib.loads(resources.files("asplayed.players").joinpath("data/norms.toml").read_text(encoding="utf-8"))


def delivery_behind(
    ball_speed: float, launch: float, spin: float, *, club_speed: float, attack: float, head_mass: float
) -> Delivery:
    """The delivery that sends a ball off so: the planar blow of `mechanics.impact`, solved the other way; SI, radians.

    Spin and ball speed give the ball's speed along the face, and with it the dynamic loft; club speed and attack then
    give both restitutions.

    >>> from math import degrees, radians, pi
    >>> iron = delivery_behind(53.64, radians(16.3), 7097 * pi / 30,
    ...     club_speed=40.23, attack=radians(-4.3), head_mass=0.269)
    >>> round(degrees(iron.dynamic_loft), 1), round(iron.restitution, 2), round(iron.tangential_restitution, 2)
    (23.1, 0.75, 0.26)
    """
    dragged = 0.4 * spin * BALL_RADIUS
    below = math.asin(min(1.0, dragged / ball_speed))
    dynamic_loft = launch + below
    spin_loft = dynamic_loft - attack
    away = ball_speed * math.cos(below)
    return Delivery(
        club_speed,
        attack,
        dynamic_loft,
        away * (1 + BALL_MASS / head_mass) / (club_speed * math.cos(spin_loft)) - 1,
        dragged * (BALL_MASS / head_mass + _ROLLING) / (club_speed * math.sin(spin_loft)) - 1,
    )


@cache
def _rows() -> Mapping[str, Mapping[str, Row]]:
    text = resources.files("asplayed.players").joinpath("data/deliveries.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    found: dict[str, dict[str, Row]] = {"men": {}, "women": {}}
    smash: dict[str, float] = {}
    speeds: dict[str, float] = {}
    for entry in csv.DictReader(lines):
        name = entry["club"]
        club = Club(club=name, kind=_kind(name))
        ball = float(entry["ball_speed"]) * MPH
        if entry["club_speed"]:
            speed = float(entry["club_speed"]) * MPH
            smash[name] = ball / speed
        else:
            speed = ball / smash[name]
        speeds.setdefault(entry["group"], speed)  # the driver comes first
        loft, length, head = (_usual(club, what) for what in ("loft", "length", "head"))
        delivered = delivery_behind(
            ball,
            float(entry["launch"]) * DEGREE,
            float(entry["spin"]) * math.pi / 30,
            club_speed=speed,
            attack=float(entry["attack"]) * DEGREE,
            head_mass=head,
        )
        found[entry["group"]][name] = Row(
            loft,
            speed / speeds[entry["group"]],
            delivered.attack,
            delivered.dynamic_loft - loft,
            delivered.restitution,
            delivered.tangential_restitution,
            length,
            head,
        )
    return found


@cache
def professional_speeds() -> tuple[float, float]:
    """Driver club speed (m/s) of the women's and the men's rows: the two ends of the line of norms.

    >>> [round(speed / 0.44704, 1) for speed in professional_speeds()]
    [93.9, 112.0]
    """
    text = resources.files("asplayed.players").joinpath("data/deliveries.csv").read_text(encoding="utf-8")
    drivers = [row for row in csv.DictReader(x for x in text.splitlines() if x[0] != "#") if row["club"] == "driver"]
    men = next(row for row in drivers if row["club_speed"])
    women = next(row for row in drivers if not row["club_speed"])
    speed = float(men["club_speed"]) * MPH
    return speed * float(women["ball_speed"]) / float(men["ball_speed"]), speed


def _kind(name: str) -> Any:
    for word, kind in (("driver", "driver"), ("wood", "fairway wood"), ("hybrid", "hybrid"), ("wedge", "wedge")):
        if word in name:
            return kind
    return "iron"


def _usual(club: Club, what: str) -> float:
    found = usual(club, what)
    assert found is not None  # every row of the usual figures has loft, length and head
    return to_si(found.number, found.unit)


def _family(kind: str) -> str:
    return {"driver": "wood", "fairway wood": "wood", "hybrid": "hybrid"}.get(kind, "iron")


def _between(rows: Sequence[tuple[float, Sequence[float]]], at: float) -> list[float]:
    """Straight lines between rows sorted by their first figure; the end rows hold outside."""
    if at <= rows[0][0]:
        return list(rows[0][1])
    for (left, before), (right, after) in pairwise(rows):
        if at <= right:
            share = (at - left) / (right - left)
            return [a + share * (b - a) for a, b in zip(before, after, strict=True)]
    return list(rows[-1][1])


@cache
def _scales() -> tuple[
    Mapping[str, list[tuple[float, Sequence[float]]]], Mapping[str, list[tuple[float, list[float]]]]
]:
    """The men's rows by family, and what the women's rows do otherwise, each along the scale of lofts."""
    groups = _rows()
    men: dict[str, list[tuple[float, Sequence[float]]]] = {}
    for name, row in sorted(groups["men"].items(), key=lambda item: item[1].loft):
        men.setdefault(_family(_kind(name)), []).append((row.loft, row[1:]))
    otherwise: dict[str, list[tuple[float, list[float]]]] = {"wood": [], "iron": []}
    for name, row in sorted(groups["women"].items(), key=lambda item: item[1].loft):
        change = [one - other for one, other in zip(row[1:], groups["men"][name][1:], strict=True)]
        otherwise["wood" if _family(_kind(name)) == "wood" else "iron"].append((row.loft, change))
    otherwise["hybrid"] = sorted(otherwise["wood"][1:] + otherwise["iron"])
    return men, otherwise


def skill_of(player: Player) -> Skill:
    """Driver speed and handicap of a player: as he said, else each from the other, else the average man's.

    >>> skill = skill_of(Player())
    >>> skill.driver_speed.value, skill.driver_speed.source.value, skill.handicap.value
    (93.0, 'assumed', 15.0)
    """
    table = norms()["speed_by_handicap"]
    pairs = list(zip(table["handicap"], table["speed"], strict=True))
    speed, handicap = player.driver_speed, player.handicap
    if speed is None and handicap is None:
        nobody = norms()["nobody"]
        why = "the average man's"
        return Skill(
            figure(nobody["speed"], "mph", Source.ASSUMED, tolerance=nobody["speed_band"], why=why),
            figure(nobody["handicap"], "1", Source.ASSUMED, tolerance=nobody["handicap_band"], why=why),
        )
    if speed is None:
        assert handicap is not None
        [value] = _between([(float(h), [float(s)]) for h, s in pairs], handicap.number)
        why = f"usual for the average player of handicap {handicap.number:g}"
        speed = figure(round(value, 1), "mph", Source.COMMON_PRACTICE, tolerance=table["band"], why=why)
    if handicap is None:
        mph = speed.in_unit("mph").number
        [value] = _between([(float(s), [float(h)]) for h, s in reversed(pairs)], mph)
        why = f"usual for the average player who swings a driver at {mph:.4g} mph"
        tolerance = norms()["nobody"]["handicap_band"]
        handicap = figure(round(value, 1), "1", Source.COMMON_PRACTICE, tolerance=tolerance, why=why)
    return Skill(speed, handicap)


class Usual(NamedTuple):
    """What a player of some skill usually delivers with a club of a name, whatever its own loft, length and head.

    SI and radians: club speed with the row's own length (m) and head (kg), attack, dynamic loft less loft, both
    restitutions, and the usual loft of the name.
    """

    club_speed: float
    attack: float
    added_loft: float
    restitution: float
    tangential_restitution: float
    length: float
    head_mass: float
    loft: float


def usual_delivery(club: Club, skill: Skill) -> Usual:
    """The usual delivery with clubs of this name and kind, for a player of this skill.

    >>> tour = Skill(figure(112, "mph", "stated"), figure(-5, "1", "stated"))
    >>> round(usual_delivery(Club(club="7 iron", kind="iron"), tour).club_speed / MPH, 1)
    90.0
    """
    table = norms()
    rules, amateur = table["club_speed"], table["amateur"]
    family = _family(club.kind)
    men, otherwise = _scales()
    at = _usual(club, "loft")
    women_speed, men_speed = professional_speeds()
    driver = to_si(skill.driver_speed.number, skill.driver_speed.unit)
    shaped = min(max(driver, rules["slowest"] * MPH), rules["fastest"] * MPH)
    towards = (men_speed - shaped) / (men_speed - women_speed)
    change = _between(otherwise[family], at)
    share, attack, offset, restitution, tangential, row_length, row_head = (
        one + (towards * other if place not in (5, 6) else 0.0)
        for place, (one, other) in enumerate(zip(_between(men[family], at), change, strict=True))
    )
    lesser = (skill.handicap.number + 5.0) / 20.0
    lesser = min(max(lesser, amateur["least"]), amateur["most"])
    if family in {"iron", "hybrid"}:
        offset += amateur["iron_dynamic_loft"] * DEGREE * lesser
        attack += amateur["iron_attack"] * DEGREE * lesser
    if club.kind == "driver":
        attack += amateur["driver_attack"] * DEGREE * lesser
    restitution += amateur["restitution"] * lesser
    return Usual(driver * share, attack, offset, restitution, tangential, row_length, row_head, at)


def speed_with(row: Usual, length: Any, head_mass: Any) -> Any:
    """Club speed (m/s) with another length (m) and head mass (kg) than the row's; floats or arrays.

    Sources of both rules: `data/norms.toml`.

    >>> row = Usual(40.0, 0.0, 0.0, 0.8, 0.2, 1.0, 0.2, 0.5)
    >>> round(speed_with(row, 1.0254, 0.2), 2)
    40.36
    """
    rules = norms()["club_speed"]
    longer = 1.0 + rules["per_inch"] * (length - row.length) / INCH
    return row.club_speed * longer * (head_mass / row.head_mass) ** rules["head_mass_power"]


def norm(club: Club, played: AsPlayed, skill: Skill) -> Norm:
    """The usual delivery with this club as played, for a player of this skill.

    >>> from asplayed.clubs import as_played
    >>> seven = Club(club="7 iron", kind="iron")
    >>> tour = Skill(figure(112, "mph", "stated"), figure(-5, "1", "stated"))
    >>> usual_one = norm(seven, as_played(seven), tour).delivery
    >>> round(usual_one.club_speed / MPH, 1), round(usual_one.dynamic_loft / DEGREE, 1)
    (90.0, 23.1)
    """
    row = usual_delivery(club, skill)
    loft = _si(played.loft, row.loft)
    length = _si(played.length, row.length)
    head = _si(club.head.mass, _usual(club, "head")) + _added_at_head(club)
    speed = float(speed_with(row, length, head))
    why = "touring professionals' averages, led to this speed, handicap, loft, length and head"
    dynamic_loft = loft + row.added_loft
    return Norm(Delivery(speed, row.attack, dynamic_loft, row.restitution, row.tangential_restitution), head, why)


def _added_at_head(club: Club) -> float:
    """What a builder added at the head or in the shaft's tip (kg): it strikes the ball along with the head."""
    return sum(to_si(entry.mass.number, entry.mass.unit) for entry in club.added if entry.place in ("head", "tip"))


def _si(entry: Figure | None, otherwise: float) -> float:
    return to_si(entry.number, entry.unit) if entry is not None and entry.has_number else otherwise


def by_handicap(what: str, handicap: float) -> float:
    """A figure of the shot-to-shot norms at a handicap.

    >>> by_handicap("depth", 13.0)
    6.25
    """
    table = norms()["shot_to_shot"]
    rows = [(float(h), [float(x)]) for h, x in zip(table["handicap"], table[what], strict=True)]
    return _between(rows, handicap)[0]
