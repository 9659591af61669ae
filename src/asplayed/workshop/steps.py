"""The work on one club, in its order: only the operations it needs, each with target, tolerance, start and cautions.

A limit that is crossed is refused, with its reason and the way out; one that is near is a caution at its step.
"""

from __future__ import annotations

from typing import Literal

from msgspec.structs import replace

from asplayed.clubs import Change, as_played
from asplayed.clubs.assembly import points_of
from asplayed.clubs.records import AsPlayed
from asplayed.quantities import Figure, Source
from asplayed.workshop import headwork, joint
from asplayed.workshop.bench import held_to, operations
from asplayed.workshop.chance import all_inside, inside
from asplayed.workshop.job import Job, Work, longer, new_shaft, step, tolerance_known
from asplayed.workshop.records import Step


def steps_of(
    job: Job, *, whole: bool, hand: Literal["right", "left"]
) -> tuple[tuple[Step, ...], Figure, list[tuple[str, str]]]:
    """The steps of a job, the chance that the club is then inside every tolerance, and what is to be asked."""
    before = as_played(job.before) if job.before is not None else AsPlayed()
    work = Work(job, whole, hand, before, as_played(job.club), [])
    made: list[Step] = []
    for operation in operations()[:-1]:
        made += _STEPS[operation](work)
    measures = _measures(work, {step.operation for step in made}, {step.figure for step in made if step.figure})
    chance = Figure(
        value=round(100 * all_inside(chance for _, chance in measures), 1),
        unit="percent",
        source=Source.COMPUTED,
        why="that every figure is inside its tolerance; bands count as two standard deviations, figures as independent",
    )
    return (*made, *(step for step, _ in measures)), chance, work.questions


def _measures(work: Work, done: set[str], figures: set[str]) -> list[tuple[Step, float]]:
    """The figures to measure at the end, each with the chance that it is inside."""
    adjusted = set(figures)
    if done & {"butt cut", "extend", "dry fit"} or "length" in work.job.whats:
        adjusted.add("length")
    if "swing-weight plan" in done:
        adjusted.add("butt_inertia" if "butt inertia" in work.job.whats else "swing_weight")
    wanted = ["length", "loft", "lie", "swing_weight"]
    if work.club.kind in ("iron", "wedge") and ("loft" in work.job.whats or work.whole):
        wanted.append("bounce")
    if done & {"bond", "swing-weight plan", "wraps and grip", "butt cut", "extend"}:
        wanted.append("mass")
    if work.club.kind != "putter" and done & {"butt cut", "extend", "bond"}:
        wanted.append("frequency")
    if "wraps and grip" in done:
        wanted.append("grip_size")
    if "butt inertia" in work.job.whats:
        wanted.append("butt_inertia")
    found = []
    for figure in wanted:
        if headwork.limit_of(work) == 0 and figure in ("loft", "lie"):
            adjusted.discard(figure)
        target: Figure | None = getattr(work.will, figure)
        if target is None or target.value is None:
            continue
        ordered = next(
            (change.figure for change in reversed(work.job.changes) if _figure_of(change) == figure and not change.by),
            None,
        )
        if figure == "grip_size":
            target = next((made.target for made in joint.wraps_and_grip(work) if made.figure), target)
        assert target is not None  # only a figure with a value came this far
        if figure == "swing_weight" and ordered is not None:
            target = replace(ordered, parents=target.parents)
        target = _rounded(target)
        held = held_to(figure)
        on_gauge = figure in adjusted
        tolerance = tolerance_known(work, figure, adjusted=on_gauge)
        points = points_of(target) if figure == "swing_weight" else target
        half = held.gauge if on_gauge else points.half_width if points is not None else held.gauge
        start = getattr(work.was, figure)
        words = f"{figure.replace('_', ' ').capitalize()}{_how(figure, work)}"
        made = step(
            work, "measure", words, tool=held.tool, target=target, tolerance=tolerance, start=start, figure=figure
        )
        found.append((made, inside(half, tolerance.number)))
    return found


_PLACES = {"g": 1, "cpm": 1, "deg": 2, "in": 3, "kg*cm2": 0}


def _rounded(target: Figure) -> Figure:
    """The target to the last place a gauge shows."""
    if not target.has_number:
        return target
    return replace(target, value=round(target.number, _PLACES.get(target.unit, 3)))


def _figure_of(change: Change) -> str:
    return change.what.replace(" ", "_")


def _how(figure: str, work: Work) -> str:
    if figure == "length":
        how = (
            ", sole on the 60° plane, to the top of the cap."
            if work.club.kind != "putter"
            else ", along the shaft to the sole."
        )
        near = not new_shaft(work.job, whole=work.whole) and 0 < abs(longer(work.job)) < held_to("length").within - 1e-9
        return f"{how} {abs(longer(work.job)):.3f} in off is within tolerance: measure, no cut." if near else how
    if figure == "frequency":
        why = work.will.frequency.why if work.will.frequency is not None else None
        return f": {why.split(';')[0]}." if why else "."
    if figure == "grip_size":
        return ", two inches below the cap."
    return "."


_STEPS = {
    "pull": joint.pull,
    "prepare": joint.prepare,
    "tip trim": joint.tip_trim,
    "dry fit": joint.dry_fit,
    "butt cut": joint.butt_cut,
    "extend": joint.extend,
    "tip mass": joint.tip_mass,
    "swing-weight plan": joint.balance,
    "bond": joint.bond,
    "cure": joint.cure,
    "wraps and grip": joint.wraps_and_grip,
    "loft and lie": headwork.loft_and_lie,
    "movable mass": headwork.movable_mass,
    "sleeve": headwork.sleeve,
    "clean": headwork.clean,
}
