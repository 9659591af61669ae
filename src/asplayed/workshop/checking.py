"""The built clubs against their order: every figure with its verdict, what is in doubt, and the smallest rework."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from asplayed.clubs import AsPlayed, Change, Club, GolfSet, angles, as_played
from asplayed.clubs.assembly import points_of
from asplayed.clubs.changes import MOST_ADDED, changed_club, missing_mass
from asplayed.clubs.names import labels
from asplayed.errors import BadInput
from asplayed.judgement.heads import bend_limit
from asplayed.mechanics.balance import swing_weight_text
from asplayed.quantities import Figure, Source
from asplayed.workshop.bench import entry, held_to
from asplayed.workshop.gauges import repeatability
from asplayed.workshop.job import shop_inches
from asplayed.workshop.records import Check, CheckedFigure, Order, Reading, Step

_WAYS = {"loft": ("strong", "weak"), "lie": ("flat", "upright")}
_CLAMPED = re.compile(r"clamp(?:ed)?\D*([\d.]+) in")
_ALMOST = 1e-6


def check(order: Order, readings: Sequence[Reading]) -> Check:
    """Every figure of the order against what was measured, the gauge's repeatability counted.

    A figure whose reading leaves doubt about its verdict is asked about; so is a frequency read with another clamp,
    which is no reading of the figure ordered, and a reading of a club that is not in the order.
    """
    by_club: dict[str, dict[str, Reading]] = {}
    for reading in readings:
        by_club.setdefault(reading.club, {})[reading.figure] = reading
    built = dict(zip(labels(order.outcome.clubs), order.outcome.clubs, strict=True))
    _refuse_unsound(order, built)
    names = [club.club for club in order.clubs]
    questions = [
        f"the {name} was measured and is not in this order; its clubs are {', '.join(names)}"
        for name in by_club
        if name not in names
    ]
    found: list[CheckedFigure] = []
    for club in order.clubs:
        mine = by_club.get(club.club, {})
        figures = [_judged(club.club, step, mine, questions) for step in club.steps if step.operation == "measure"]
        found += _with_rework(built[club.club], figures, mine)
    return Check(order=order.order, clubs=tuple(found), questions=tuple(questions))


def _refuse_unsound(order: Order, built: Mapping[str, Club]) -> None:
    """Refuse an order that was changed by hand into one that cannot be checked."""
    for club in order.clubs:
        if club.club not in built:
            raise BadInput(f"the order {order.order!r} works on the {club.club}, and its own set has no such club")
        for step in club.steps:
            if step.operation != "measure":
                continue
            if step.figure not in entry("tolerance") or step.target is None or step.target.value is None:
                raise BadInput(
                    f"the order {order.order!r} has a measure of the {club.club} without figure or target; "
                    "write the order anew"
                )
            words = step.figure == "swing_weight"
            if step.target.has_number is words or (words and points_of(step.target) is None):
                raise BadInput(
                    f"the order {order.order!r} has {step.target.value!r} for the {step.figure} of the {club.club}; "
                    "write the order anew"
                )


def _judged(club: str, step: Step, readings: dict[str, Reading], questions: list[str]) -> CheckedFigure:
    assert step.figure is not None and step.target is not None  # every measure step has both
    figure = CheckedFigure(
        club=club, figure=step.figure, target=step.target, tolerance=step.tolerance, verdict="not measured"
    )
    reading = readings.get(step.figure)
    if reading is None:
        return figure
    if step.figure == "frequency" and not _same_clamp(club, step.target, reading, questions):
        return replace(figure, measured=reading.measured)
    held = held_to(step.figure)
    doubt = repeatability(reading, held.gauge)
    off = abs(_off(step.target, reading.measured))
    within = step.tolerance.number if step.tolerance is not None else held.within
    verdict = "in" if off <= within + _ALMOST else "out"
    sure = abs(off - within) > doubt or (verdict == "in" and off + doubt <= 1.02 * within)
    if verdict == "out" and not sure:
        unit = "points" if step.figure == "swing_weight" else held.unit
        questions.append(
            f"the {step.figure.replace('_', ' ')} of the {club} is out by less than its gauge repeats to "
            f"(±{doubt:.2g} {unit}): read it again before reworking it"
        )
    measured = replace(reading.measured, why=reading.measured.why or reading.where or None)
    return replace(figure, measured=_banded(measured, doubt), verdict=verdict, sure=sure)


def _banded(measured: Figure, doubt: float) -> Figure:
    if not measured.has_number:
        return measured
    return replace(measured, low=round(measured.number - doubt, 6), high=round(measured.number + doubt, 6))


def _off(target: Figure, measured: Figure) -> float:
    """How far the reading lies above its target, in the figure's unit (points for a swing weight)."""
    if isinstance(target.value, str):
        one, other = points_of(target), points_of(measured)
        assert one is not None and other is not None  # both were read as swing weights
        return other.number - one.number
    return measured.in_unit(target.unit).number - target.number


def _same_clamp(club: str, target: Figure, reading: Reading, questions: list[str]) -> bool:
    wanted, given = (_CLAMPED.search(figure.why or "") for figure in (target, reading.measured))
    clamp = float(wanted[1]) if wanted else 5.0
    if given is None:
        questions.append(f"the frequency of the {club} was read without saying the clamp: is it {clamp:g} in?")
        return True
    if abs(float(given[1]) - clamp) < 0.05:
        return True
    questions.append(
        f"the frequency of the {club} was read with the butt clamped {float(given[1]):g} in and is ordered at "
        f"{clamp:g} in: the two cannot be compared (half the clamp reads about 9 % lower); read it at {clamp:g} in"
    )
    return False


# -------------------------------------------------------------------------------------------------------- the rework


def as_built(club: Club, readings: dict[str, Reading]) -> Club:
    """The club with what was read of it as its own measured figures, beside those that still stand from before."""
    before = ((name, getattr(club.as_played, name)) for name in AsPlayed.__struct_fields__)
    figures = {name: said for name, entry in before if (said := angles.said(entry)) is not None}
    scale = club.as_played.swing_weight
    if scale is not None and scale.source is Source.MEASURED:  # its reading is words, which `said` does not take
        figures["swing_weight"] = scale
    for name, reading in readings.items():
        if name in AsPlayed.__struct_fields__:
            doubt = repeatability(reading, held_to(name).gauge)
            figures[name] = _banded(replace(reading.measured, source=Source.MEASURED), doubt)
    return replace(club, as_played=AsPlayed(**figures))


def _with_rework(club: Club, figures: list[CheckedFigure], readings: dict[str, Reading]) -> list[CheckedFigure]:
    """The figures with the least that brings those that are out back in, counting what one rework does to the next."""
    out = {figure.figure: figure for figure in figures if figure.verdict == "out"}
    if not out:
        return figures
    now = as_built(club, readings)
    rework: dict[str, str] = {}
    if (length := out.get("length")) is not None:
        rework["length"], now = _length(now, length)
    for about in ("loft", "lie"):
        if (angle := out.get(about)) is not None:
            rework[about] = _angle(now, about, angle)
    if (grip := out.get("grip_size")) is not None:
        rework["grip_size"] = _grip(grip)
    for name in ("swing_weight", "butt_inertia"):
        if (balance := out.get(name)) is not None:
            rework[name] = _balance(now, balance, "length" in out)
    if (frequency := out.get("frequency")) is not None:
        rework["frequency"] = (
            "Pull the head and trim the tip; see the frequency plan for how much."
            if _off(frequency.target, frequency.measured or frequency.target) < 0
            else "Nothing taken off makes it softer: another shaft, or accept it and say so."
        )
    if "bounce" in out:
        rework["bounce"] = "It goes with the loft, a degree for a degree: look at the loft first."
    if "mass" in out:
        rework["mass"] = "Weigh head, shaft and grip apart; the part that is off is the one to change."
    return [replace(figure, rework=rework.get(figure.figure, "")) for figure in figures]


def _length(club: Club, figure: CheckedFigure) -> tuple[str, Club]:
    assert figure.measured is not None  # what is out was measured
    off = _off(figure.target, figure.measured)
    try:
        after = changed_club(club, Change(club=club.club, what="length", figure=figure.target))
    except BadInput:
        after = club
    if off > 0:
        return f"Grip off; cut {shop_inches(off)} off the butt; grip on.", after
    most = entry("limit", "extension", "refuse")
    if -off > most:
        return f"{shop_inches(-off)} short, more than an extension takes: a new shaft.", after
    return f"Grip off; extend the butt by {shop_inches(-off)}; cure; grip on.", after


def _angle(club: Club, about: str, figure: CheckedFigure) -> str:
    assert figure.measured is not None  # what is out was measured
    move = -_off(figure.target, figure.measured)
    bent = getattr(club.bend, about)
    so_far = bent.in_unit("deg").number if bent is not None and bent.has_number else 0.0
    bound = bend_limit(club)
    way = _WAYS[about][move > 0]
    if bound.high == 0:
        turn = "set its sleeve again and gauge it" if club.sleeve is not None else "another head"
        return f"This head is not bent: {turn}."
    if abs(so_far + move) > bound.high + _ALMOST:
        left = bound.high - abs(so_far)
        return f"{abs(move):.2g}° {way} would pass the head's limit, {max(0.0, left):.2g}° are left: another head."
    return f"Bend {abs(move):.1f}° {way}. Eye protection; look at the hosel, and count this bend."


def _grip(figure: CheckedFigure) -> str:
    assert figure.measured is not None  # what is out was measured
    off = _off(figure.target, figure.measured)
    wraps = max(1, round(abs(off) * 64))
    layers = f"{wraps} layer{'s' if wraps > 1 else ''} of tape"
    return f"Grip off; {'take off' if off > 0 else 'add'} {layers}; grip on."


def _balance(club: Club, figure: CheckedFigure, length_too: bool) -> str:
    assert figure.measured is not None  # what is out was measured
    within = figure.tolerance.number if figure.tolerance is not None else held_to(figure.figure).within
    after = getattr(as_played(club), figure.figure)
    if length_too and abs(_off(figure.target, after)) <= within:
        reads = after.value if isinstance(after.value, str) else f"{after.number:.0f} {after.unit}"
        return f"It comes right with the length: about {reads} then. Read it again first."
    # what is left after the length, shown to the parts as the target they miss by as much
    off = _off(figure.target, after)
    plain = replace(club, as_played=AsPlayed(length=club.as_played.length))
    made = getattr(as_played(plain), figure.figure)
    if isinstance(made.value, str):
        points = points_of(made)
        assert points is not None  # a swing weight worked out has its points
        aim = Figure(value=swing_weight_text(points.number - off, 6), unit="1", source=Source.COMPUTED)
    else:
        aim = Figure(value=made.number - off, unit=made.unit, source=Source.COMPUTED)
    grams = missing_mass(plain, aim, "head").grams
    there = sum(added.mass.number for added in club.added if added.place == "head")
    if there + grams > MOST_ADDED + _ALMOST:
        return f"{there + grams:.0f} g would have to be added, more than {MOST_ADDED:g} g: choose a heavier head."
    if grams >= 0:
        return f"Add {grams:.1f} g at the head."
    if -grams <= there + _ALMOST:
        return f"Take {-grams:.1f} g of the {there:.1f} g added off the head."
    if figure.figure == "swing_weight":
        counter = missing_mass(plain, aim, "butt").grams
        under_cap = counter + sum(added.mass.number for added in club.added if added.place == "butt")
        if under_cap > MOST_ADDED + _ALMOST:
            return (
                f"A counterweight of {under_cap:.0f} g would be needed, more than {MOST_ADDED:g} g: "
                f"choose a head {-grams:.1f} g lighter."
            )
        return f"Counterweight of {counter:.1f} g under the cap, or a head {-grams:.1f} g lighter."
    return f"A head {-grams:.1f} g lighter."


# ---------------------------------------------------------------------------------------------------------- sign-off


def unmeasured(checked: Check) -> tuple[str, ...]:
    """The figures of a check that nobody measured, each club with its own: what a sign-off leaves as worked out.

    >>> loft = CheckedFigure(club="7 iron", figure="loft", target=Figure(34.0, "deg", Source.COMPUTED),
    ...     verdict="not measured")
    >>> unmeasured(Check(order="ada", clubs=(loft, replace(loft, figure="lie"))))
    ('7 iron: loft, lie',)
    """
    found: dict[str, list[str]] = {}
    for figure in checked.clubs:
        if figure.verdict == "not measured":
            found.setdefault(figure.club, []).append(figure.figure.replace("_", " "))
    return tuple(f"{club}: {', '.join(names)}" for club, names in found.items())


def sign(order: Order, checked: Check, readings: Sequence[Reading], who: str, at: str) -> tuple[Check, GolfSet]:
    """The check signed, and the set it makes: every club of the order with its measured figures.

    A check with a figure out, or a club of which nothing was measured, is not signed.
    """
    who = " ".join(who.split())
    if not who:
        raise BadInput("a sign-off needs the name of who signs")
    out = [
        f"{figure.figure.replace('_', ' ')} of the {figure.club}" for figure in checked.clubs if figure.verdict == "out"
    ]
    if out:
        raise BadInput(f"this order is not signed off: {', '.join(out)} out of tolerance; rework and measure again")
    measured = {figure.club for figure in checked.clubs if figure.verdict == "in"}
    bare = [club.club for club in order.clubs if club.club not in measured]
    if bare:
        raise BadInput(f"this order is not signed off: nothing was measured of the {', the '.join(bare)}")
    by_club: dict[str, dict[str, Reading]] = {}
    for reading in readings:
        told = reading.measured.why
        why = f"{f'{told}; ' if told else ''}measured by {who}, {at[:10]}"
        signed = replace(reading, measured=replace(reading.measured, why=why))
        by_club.setdefault(reading.club, {})[reading.figure] = signed
    names = labels(order.outcome.clubs)
    clubs = tuple(as_built(club, by_club.get(name, {})) for name, club in zip(names, order.outcome.clubs, strict=True))
    return replace(checked, signed_by=who, signed_at=at), replace(order.outcome, clubs=clubs)
