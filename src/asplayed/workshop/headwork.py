"""The work on the head: loft and lie at the bending bar, movable masses, the sleeve, and the last wipe."""

from __future__ import annotations

from typing import Literal

from asplayed.errors import BadInput
from asplayed.judgement.heads import bend_limit, refuse_bend
from asplayed.quantities import Figure
from asplayed.workshop.bench import entry
from asplayed.workshop.job import Work, ask, number, step, text, tolerance_known, tolerance_of
from asplayed.workshop.records import Step

_WAYS: dict[str, tuple[str, str]] = {"loft": ("strong", "weak"), "lie": ("flat", "upright")}


def loft_and_lie(work: Work) -> list[Step]:
    steps = []
    about: Literal["loft", "lie"]
    for about in ("loft", "lie"):
        target: Figure | None = getattr(work.will, about)
        if target is None:
            continue
        bent = about in work.job.whats
        head_new = work.whole or work.job.before is None or "head" in work.job.whats
        if bent or head_new:
            steps.append(_bend(work, about, target))
    return steps


def _bend(work: Work, about: Literal["loft", "lie"], target: Figure) -> Step:
    total = getattr(work.club.bend, about)
    total_now = number(total, "deg") or 0.0
    fresh = work.whole or work.job.before is None or "head" in work.job.whats
    before = 0.0 if fresh or work.job.before is None else number(getattr(work.job.before.bend, about), "deg") or 0.0
    move = round(total_now - before, 6)
    start = None if fresh else getattr(work.was, about)
    if not move:
        what = (
            "Gauge it; the head is not bent."
            if limit_of(work) == 0
            else "Gauge it, and bring it to target if it is off."
        )
        return step(
            work,
            "loft and lie",
            f"{about.capitalize()} {target.number:g}°. {what}",
            target=target,
            tolerance=tolerance_known(work, about, adjusted=limit_of(work) > 0),
            start=start,
            figure=about,
            more=["bent"] if limit_of(work) > 0 else [],
        )
    more = ["bent", *_bend_cautions(work, about, total_now, before, move)]
    way = _WAYS[about][move > 0]
    from_figure = f" from {start.number:g}°" if start is not None and start.has_number else ""
    words = f"Bend {abs(move):g}° {way}{from_figure} to {target.number:g}°."
    if about == "loft" and work.will.bounce is not None and work.will.bounce.has_number:
        words += f" The bounce goes along, to {work.will.bounce.number:g}°."
    return step(
        work, "loft and lie", words, more=more, target=target, tolerance=tolerance_of(about), start=start, figure=about
    )


def limit_of(work: Work) -> float:
    return bend_limit(work.club).high


def _bend_cautions(work: Work, about: Literal["loft", "lie"], total: float, before: float, move: float) -> list[str]:
    """The cautions of a bend; one beyond the head's limit, or one too often, is refused."""
    refuse_bend(work.club, about)
    bound = bend_limit(work.club)
    counted = next((row.bends for row in work.job.bench if row.bends is not None), None)
    so_far = counted if counted is not None else int(before != 0)
    limit = entry("limit", "bends")
    if so_far + 1 > limit["refuse"]:
        raise BadInput(
            f"the head has been bent {so_far} times already; once more is beyond the {limit['refuse']} a hosel is "
            "trusted with: replace the head"
        )
    found = []
    if so_far + 1 >= limit["caution"]:
        found.append("bend-count")
    if before and (before > 0) != (move > 0):
        found.append("bend-back")
    maker = work.club.head.bend_limit
    if maker is None or not maker.has_number:
        found.append("bend-limit-unknown")
        ask(
            work,
            "head.bend_limit",
            f"what bend does the maker allow on the head of the {work.club.club}? {bound.high:g}° is taken",
        )
    if abs(total) > bound.high - 0.5:
        found.append("bend-near-limit")
    return found


def movable_mass(work: Work) -> list[Step]:
    if not work.club.weights or not (work.whole or work.job.before is None or "weights" in work.job.whats):
        return []
    told = []
    for weight in work.club.weights:
        mass = number(weight.mass, "g")
        words = [
            f"{mass:g} g" if mass is not None else "weight",
            weight.place or "",
            f"step {weight.step}" if weight.step else "",
        ]
        told.append(" ".join(word for word in words if word))
    arranged = ", ".join(told)
    return [step(work, "movable mass", f"Set {arranged}; count the screws back in.", target=text(arranged))]


def sleeve(work: Work) -> list[Step]:
    sleeve = work.club.sleeve
    if sleeve is None or not (work.whole or work.job.before is None or "sleeve" in work.job.whats):
        return []
    effects = []
    for change, (less, more) in ((sleeve.loft_change, ("strong", "weak")), (sleeve.lie_change, ("flat", "upright"))):
        value = number(change, "deg")
        if value:
            effects.append(f"{abs(value):g}° {more if value > 0 else less}")
    told = ", ".join(effects)
    if sleeve.position is None and not effects:
        if "sleeve" not in work.job.whats and not work.whole:
            return []
        target, words = text("as marked"), "Set the sleeve as its chart marks neutral, until a position is named."
        ask(work, "sleeve.position", f"at which position is the sleeve of the {work.club.club} to be set?")
    else:
        target = text(sleeve.position or told)
        words = f"Set the sleeve at {sleeve.position}" if sleeve.position else "Set the sleeve"
        words += f": {told}, face squared." if told else "; what it does stands on no chart: gauge loft and lie after."
    if work.will.loft is not None and work.will.loft.has_number:
        words += f" Loft then reads {work.will.loft.number:g}°."
    if work.hand == "left":
        words += " Left-handed: the marks mirror a right-handed chart."
    return [step(work, "sleeve", words, target=target)]


def clean(work: Work) -> list[Step]:
    return [
        step(
            work,
            "clean",
            "Wipe off resin and solvent, turn the ferrule flush, look the club over.",
            target=text("clean"),
        )
    ]
