"""What the set does in its player's hands: carries, descent, the driver's launch, spin, start lines."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.hand import to_the_right
from asplayed.clubs.names import labels
from asplayed.clubs.usual import usual
from asplayed.judgement.findings import Finding, Level, Weighed, called, degrees, limit, rests_on_usual, weigh
from asplayed.judgement.gaps import full_swing, zone
from asplayed.judgement.stakes import (
    a_round,
    cost_of_aim,
    cost_of_drive,
    cost_of_hole,
    frequencies,
    share_of_approaches,
)
from asplayed.mechanics.ground import run as run_on
from asplayed.mechanics.statistics import gap as gap_of
from asplayed.mechanics.statistics import shots_needed
from asplayed.players.delivery import Delivery, delivery_behind, norm
from asplayed.players.flown import FlownClub, FlownSet
from asplayed.players.inference import Weather, flown, struck
from asplayed.quantities import Figure, Parent, Source, figure, from_si, to_si, write_quantity

# Of the variance of two flown carries so much is alike for neighbours (speed, model of flight, air); assumed.
_SHARED = 0.9
_WEAK = (Source.COMMON_PRACTICE, Source.ASSUMED)
_LAUNCH_READ = 1.0  # degrees of half band up to which a launch was read, and not only inferred
_FAR = 250.0  # m apart, past which the odds are settled
_SKIMMING = 20.0  # degrees of descent
_TO_GREENS = ("hybrid", "iron")


class Held(NamedTuple):
    """A club beside what it does in the player's hands."""

    club: Club
    flown: FlownClub


def judge_flights(golf_set: GolfSet, answer: FlownSet) -> list[Finding]:
    """Findings about flight: `carry-hole`, `carry-overlap`, `descent-shallow`, `driver-launch`, `spin-low`, `off-line`.

    `answer` is this very set flown. Where neither shots nor a stated speed stand behind it, every finding is a note.
    """
    flown_clubs = {each.label: each for each in answer.clubs}
    held = [
        Held(club, flown_clubs[label])
        for label, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True)
        if label in flown_clubs
    ]
    found = _gaps(held, answer)
    hit = any(each.flown.shots for each in held)
    for each in held:
        if each.flown.shots or not hit:  # a club nobody hit says little where others were hit
            found += _descent(each)
        found += _spin(each, answer) + _aside(each, answer)
        if each.club.kind == "driver":
            found += _launch(each, answer)
    unsaid = answer.skill.driver_speed.source in _WEAK
    return [replace(each, level="note") if unsaid and each.level != "note" else each for each in found]


def _said(
    level: Level,
    code: str,
    clubs: Sequence[Club],
    sentence: str,
    why: str,
    remedy: str,
    figures: dict[str, Figure],
    source: str,
    sure: bool,
    unsettled: str = "The figures do not settle it: hit more shots with it first.",
) -> list[Finding]:
    """The finding, or a note where the bands leave it open; usual figures behind it are owned up to."""
    if not sure:
        level = "note"
        sentence += f" {unsettled}"
    elif rests_on_usual(figures.values()):
        sentence += " This rests in part on usual figures, not on these clubs' own."
    names = tuple(dict.fromkeys(club.club for club in clubs))
    return [
        Finding(
            code=code,
            level=level,
            clubs=names,
            sentence=sentence,
            why=why,
            remedy=remedy,
            figures=figures,
            source=source,
        )
    ]


def yards(entry: Figure) -> str:
    """A distance in words, to the yard."""
    return write_quantity(entry.in_unit("yd").number, "yd", places=0)


# ------------------------------------------------------------------------------------------------------------- gaps


def carry_gap(longer: FlownClub, shorter: FlownClub) -> Figure:
    """How much farther the longer club carries; what is unsure of both alike counts once between flown carries."""
    one, two = longer.carry, shorter.carry
    alone = longer.shots > 0 or shorter.shots > 0
    wide = math.hypot(one.half_width, two.half_width) * (1.0 if alone else math.sqrt(1 - _SHARED))
    value = one.number - two.number
    why = "carry of the longer club less the shorter's"
    parents = (Parent("longer", one), Parent("shorter", two))
    return Figure(
        value=value,
        unit="yd",
        source=Source.COMPUTED,
        low=value - wide,
        high=value + wide,
        why=why,
        parents=parents,
    )


def _gaps(held: Sequence[Held], answer: FlownSet) -> list[Finding]:
    by_club = {id(each.club): each for each in held}
    hit = any(each.flown.shots for each in held)
    ladder = [by_club[id(club)] for club in full_swing([each.club for each in held])]
    found: list[Finding] = []
    for longer, shorter in pairwise(ladder):
        separation = carry_gap(longer.flown, shorter.flown)
        where = zone(longer.club, shorter.club)
        bound = limit(f"carry_gap.{where if where in ('driver', 'woods', 'bridge') else 'irons'}")
        weighed = weigh(separation, bound)
        if weighed is None:
            continue
        if hit and not (longer.flown.shots or shorter.flown.shots):
            weighed = weighed._replace(sure=False)
        odds = figure(
            100 * float(_swap(separation, longer.flown, shorter.flown)),
            "percent",
            Source.COMPUTED,
            why="chance that a shot with the shorter club outflies one with the longer",
        )
        figures = {
            "longer": longer.flown.carry,
            "shorter": shorter.flown.carry,
            "gap": separation,
            "swap_probability": odds,
        }
        if weighed.side == "over":
            apart = to_si(separation.number, "yd")
            cost = cost_of_hole(
                answer.landings[longer.flown.label], answer.landings[shorter.flown.label], apart
            ) * share_of_approaches(apart)
            figures["strokes"] = a_round(cost)
            found += _hole(longer, shorter, separation, figures, weighed, bound.source, bound.high)
        else:
            found += _overlap(longer, shorter, separation, figures, weighed, bound.source, bound.low)
    return found


def _swap(separation: Figure, longer: FlownClub, shorter: FlownClub) -> float:
    apart, one, two = (to_si(x.number, x.unit) for x in (separation, longer.depth, shorter.depth))
    apart = min(max(apart, -_FAR), _FAR)
    return float(gap_of(apart, one, two).swap_probability)


def _unsettled(separation: Figure, longer: FlownClub, shorter: FlownClub, bound: float) -> str:
    spread = max(longer.depth.number, shorter.depth.number)
    needed = shots_needed(max(1.0, abs(separation.number - bound)), spread) if spread > 0 else 5
    more = max(needed - min(longer.shots, shorter.shots), 1)
    return f"The figures do not settle it: {more} more shots with each would." if more <= 200 else "It is a close call."


def _hole(
    longer: Held,
    shorter: Held,
    separation: Figure,
    figures: dict[str, Figure],
    weighed: Weighed,
    source: str,
    bound: float,
) -> list[Finding]:
    one, two = longer.flown.carry, shorter.flown.carry
    middle = write_quantity((one.number + two.number) / 2, "yd", places=0)
    return _said(
        "flaw",
        "carry-hole",
        (longer.club, shorter.club),
        f"The {called(longer.club)} carries {yards(one)} and the {called(shorter.club)} {yards(two)}: "
        f"{yards(separation)} apart, where up to {bound:g} yd is usual.",
        "No full shot covers the distances in between; each of them costs distance control.",
        f"A club or a loft that carries about {middle} would fill it, or move the two towards each other.",
        figures,
        source,
        weighed.sure,
        _unsettled(separation, longer.flown, shorter.flown, bound),
    )


def _overlap(
    longer: Held,
    shorter: Held,
    separation: Figure,
    figures: dict[str, Figure],
    weighed: Weighed,
    source: str,
    bound: float,
) -> list[Finding]:
    one, two = longer.flown, shorter.flown
    odds = figures["swap_probability"].number
    steeper = abs(one.descent.number - two.descent.number)
    meant = longer.club.kind != shorter.club.kind and steeper >= 3
    if meant:
        figures = {**figures, "longer_descent": one.descent, "shorter_descent": two.descent}
    apart = "as far as" if abs(separation.number) < 0.5 else f"only {yards(separation)} farther than"
    if separation.number < -0.5:
        apart = f"{write_quantity(-separation.number, 'yd', places=0)} shorter than"
    return _said(
        "unusual" if meant else "flaw",
        "carry-overlap",
        (longer.club, shorter.club),
        f"The {called(longer.club)} carries {yards(one.carry)}, {apart} the {called(shorter.club)}: "
        f"the shorter club outflies the longer {odds:.0f} times in 100.",
        (
            f"The two come down {steeper:.0f}° apart, so two ways to play one distance may well be meant."
            if meant
            else "Two clubs do the same job, and the place of one of them could serve a distance that is missing."
        ),
        (
            "Ask whether both are kept on purpose, one for its height; if so, write down why."
            if meant
            else "Drop one of the two, set them apart by loft, or let a head that launches higher take one place."
        ),
        figures,
        source,
        weighed.sure,
        _unsettled(separation, one, two, bound),
    )


# ---------------------------------------------------------------------------------------------------------- one club


def _descent(each: Held) -> list[Finding]:
    if each.club.kind not in _TO_GREENS:
        return []
    bound = limit("descent")
    entry = each.flown.descent
    weighed = weigh(entry, bound)
    if weighed is None or weighed.side == "over" or not weighed.sure:
        return []
    return _said(
        "flaw",
        "descent-shallow",
        (each.club,),
        f"The {called(each.club)} comes down at {degrees(entry, 0)} and runs {yards(each.flown.run)}; "
        "greens hold from about 45°.",
        "A ball that comes in so flat runs through a green it was meant to hold.",
        "A hybrid, a hollow head or a fairway wood of that distance comes down steeper; so does a shaft that launches "
        "higher.",
        {"descent": entry, "run": each.flown.run},
        bound.source,
        True,
    )


def delivered_with(each: FlownClub, head_mass: float) -> Delivery:
    """The delivery behind a flown club's launch."""
    ball, launch, spin, speed, attack = (
        to_si(entry.number, entry.unit)
        for entry in (each.ball_speed, each.launch, each.spin, each.club_speed, each.attack)
    )
    return delivery_behind(ball, launch, spin, club_speed=speed, attack=attack, head_mass=head_mass)


class BestLaunch(NamedTuple):
    """The launch that goes farthest in all at this speed and attack, and what is lost against it (m)."""

    added_loft: float
    launch: float
    spin: float
    lost: float


@lru_cache(maxsize=64)  # asked again for every slight change of another club
def best_launch(delivery: Delivery, head_mass: float, weather: Weather, rolling_resistance: float) -> BestLaunch:
    """The best dynamic loft for carry and run at a delivery (SI, rad): loft varied by ½° from 8° less to 12° more.

    >>> best = best_launch(Delivery(50.0, 0.0, 0.14, 0.83, 0.0), 0.2, Weather(1.194, 1.82e-5), 0.131)
    >>> -0.06 < best.added_loft < 0.06 and best.lost >= 0
    True
    """
    steps = np.radians(np.arange(-8.0, 12.5, 0.5))
    lofts = np.maximum(delivery.dynamic_loft + steps, delivery.attack + math.radians(3))
    same = {name: np.full(len(steps), getattr(delivery, name)) for name in Delivery._fields}
    varied = Delivery(**{**same, "dynamic_loft": lofts})
    ball = struck(varied, np.full(len(steps), head_mass))
    flight = flown(ball, weather)
    ran = run_on(flight.landing_speed, flight.descent_angle, flight.landing_spin, rolling_resistance=rolling_resistance)
    total = np.asarray(flight.carry) + np.asarray(ran.run)
    # A ball that skims in runs on without end in the model: no launch to recommend.
    fair = np.asarray(flight.descent_angle) >= math.radians(_SKIMMING)
    here, best = int(np.argmin(np.abs(steps))), int(np.argmax(np.where(fair, total, -np.inf)))
    return BestLaunch(
        float(lofts[best] - delivery.dynamic_loft),
        float(np.asarray(ball.launch_angle)[best]),
        float(np.asarray(ball.spin_rate)[best]),
        max(0.0, float(total[best] - total[here])) if fair.any() else 0.0,
    )


def _head_mass(club: Club) -> float:
    mass = club.head.mass if club.head.mass is not None and club.head.mass.has_number else usual(club, "head")
    assert mass is not None  # every row of the usual figures has a head
    return to_si(mass.number, mass.unit)


def _launch(each: Held, answer: FlownSet) -> list[Finding]:
    head = _head_mass(each.club)
    best = best_launch(
        delivered_with(each.flown, head), head, answer.place.weather._replace(wind_across=0.0),
        answer.place.rolling_resistance,
    )  # fmt: skip
    bound = limit("launch_loss")
    lost = figure(from_si(best.lost, "yd"), "yd", Source.COMPUTED, why="carry and run below the best loft's")
    if weigh(lost, bound) is None:
        return []
    higher = best.added_loft > 0
    said = any(said.kind == "driver" and said.attack and said.added_loft for said in answer.player.delivery)
    known = said or (each.flown.shots > 0 and each.flown.launch.half_width <= _LAUNCH_READ)
    size = write_quantity(abs(math.degrees(best.added_loft)), "deg", places=1)
    return _said(
        "unusual" if known else "note",
        "driver-launch",
        (each.club,),
        f"The {each.club.club} leaves at {degrees(each.flown.launch)} with {each.flown.spin.number:.0f} rpm; at this "
        f"speed and attack {math.degrees(best.launch):.1f}° with {best.spin * 30 / math.pi:.0f} rpm goes "
        f"{yards(lost)} farther in all."
        + ("" if known else " How this player delivers it was not read: let shots decide."),
        f"About {size} {'more' if higher else 'less'} loft at impact would give it; the optimum is flat, so half the "
        "way gives most of it.",
        (
            "Turn the sleeve to add loft or take a head with more, or tee it higher and hit more up."
            if higher
            else "Take loft off with the sleeve, or a shaft or a ball that spins less; look at strikes low on the face."
        ),
        {
            "launch": each.flown.launch,
            "spin": each.flown.spin,
            "lost": lost,
            "strokes": a_round(cost_of_drive(best.lost) * frequencies()["drives"]),
        },
        bound.source,
        True,
    )


def _spin(each: Held, answer: FlownSet) -> list[Finding]:
    """Measured spin against what this blow usually gives: a matter of ball, grooves, or a wet face."""
    if each.flown.shots == 0 or each.club.kind not in ("iron", "wedge"):
        return []
    head = _head_mass(each.club)
    here = delivered_with(each.flown, head)
    usual_one = norm(each.club, each.club.as_played, answer.skill).delivery
    expected = float(
        struck(here._replace(tangential_restitution=usual_one.tangential_restitution), np.array(head)).spin_rate
    )
    spin = to_si(each.flown.spin.number, each.flown.spin.unit)
    share = figure(100 * spin / expected, "percent", Source.COMPUTED, why="of the spin this blow usually gives")
    share = share.within(100 * to_si(each.flown.spin.half_width, each.flown.spin.unit) / expected)
    bound = limit("spin_share")
    weighed = weigh(share, bound)
    if weighed is None or not weighed.sure:
        return []
    low = weighed.side == "under"
    return _said(
        "unusual",
        "spin-low" if low else "spin-high",
        (each.club,),
        f"The {called(each.club)} spins {each.flown.spin.number:.0f} rpm, {share.number:.0f} % of what such a blow "
        "usually gives.",
        "Ball, grooves and moisture decide how the face grips; the carry and the stop on the green go with it.",
        (
            "Try the same shot with a ball of a softer cover and a clean dry face before changing the club."
            if low
            else "Try a ball that spins less before changing the club."
        ),
        {"spin": each.flown.spin, "share": share},
        bound.source,
        True,
    )


def _aside(each: Held, answer: FlownSet) -> list[Finding]:
    """Shots that typically land aside: with the lie, the sleeve and the movable mass that may explain it."""
    side, carry = each.flown.side, each.flown.carry
    if side.source is not Source.MEASURED or abs(answer.place.weather.wind_across) > 0.5 or carry.number <= 0:
        return []
    share = Figure(
        value=100 * side.number / carry.number,
        unit="percent",
        source=Source.COMPUTED,
        low=None if side.low is None else 100 * side.low / carry.number,
        high=None if side.high is None else 100 * side.high / carry.number,
        why="side of the typical shot, of its carry; + right",
    )
    bound = limit("off_line")
    weighed = weigh(share, bound)
    if weighed is None or not weighed.sure:
        return []
    played, hand = each.club.as_played, answer.player.hand
    way = "right" if side.number > 0 else "left"
    pulls = []  # what of the club sends the ball the way it goes
    common = usual(each.club, "lie")
    if each.club.kind in ("iron", "wedge") and played.lie is not None and common is not None:
        upright = played.lie.in_unit("deg").number - common.number
        if abs(upright) > 0.5 and to_the_right(-upright, hand) * side.number > 0:
            pulls.append(f"its lie, {abs(upright):.1f}° {'upright' if upright > 0 else 'flat'} of the usual")
    for entry, least, words in (
        (played.face, 0.5, "its face at address"),
        (played.cg_toeward, 0.3, "its movable mass"),
    ):
        if entry is not None and abs(entry.number) > least and to_the_right(entry.number, hand) * side.number > 0:
            pulls.append(words)
    figures = {"side": side, "share": share}
    off = to_si(side.number, side.unit)
    uses = frequencies()["drives"] if each.club.kind == "driver" else share_of_approaches(12 * 0.9144)
    figures["strokes"] = a_round(cost_of_aim(answer.landings[each.flown.label], 0.0, off) * uses)
    return _said(
        "unusual",
        "off-line",
        (each.club,),
        f"The typical shot with the {called(each.club)} lands {write_quantity(abs(side.number), 'yd', places=0)} {way} "
        "of the line" + (f"; {' and '.join(pulls)} work that way." if pulls else "."),
        "A miss that always goes one way can be fitted out of the club, or is aimed away.",
        (
            "Set that back first and hit it again."
            if pulls
            else "Nothing in the club explains it: look at face and path, and at the aim, before bending anything."
        ),
        figures,
        bound.source,
        True,
    )
