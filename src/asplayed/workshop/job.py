"""One club for the bench: what changes on it, and the making of its steps."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from asplayed.clubs import Change, Club, angles
from asplayed.clubs.assembly import points_of, shaft_material
from asplayed.clubs.records import AddedAt, AsPlayed
from asplayed.quantities import Figure, Source, write_fraction
from asplayed.workshop.bench import cautions, entry
from asplayed.workshop.records import Bench, Step

WOODEN = ("driver", "fairway wood", "hybrid")


class Job(NamedTuple):
    """One club for the bench: as it was (None: new), as it will be, its changes, and what was measured of its parts."""

    before: Club | None
    club: Club
    changes: tuple[Change, ...] = ()
    bench: tuple[Bench, ...] = ()

    @property
    def whats(self) -> set[str]:
        """What kinds of change the club takes."""
        return {change.what for change in self.changes}


class Work(NamedTuple):
    """A job with all that its steps look at."""

    job: Job
    whole: bool
    hand: Literal["right", "left"]
    was: AsPlayed
    will: AsPlayed
    questions: list[tuple[str, str]]

    @property
    def club(self) -> Club:
        return self.job.club

    def measured(self, field: str) -> Figure | None:
        return next((found for row in self.job.bench if (found := getattr(row, field)) is not None), None)


def at(club: Club, place: AddedAt) -> float:
    """The grams added at a place of a club."""
    return sum(entry.mass.number for entry in club.added if entry.place == place)


def is_joint(job: Job, *, whole: bool) -> bool:
    """True when head and shaft are joined anew."""
    if whole or job.before is None or job.whats & {"shaft", "head", "tip trim"}:
        return True
    return at(job.before, "tip") != at(job.club, "tip")


def longer(job: Job) -> float:
    """How much longer [in] at its butt a shaft that stays in its club is ordered; less than nothing: shorter.

    >>> from asplayed.quantities import figure
    >>> iron = Club(club="7 iron", kind="iron", length=figure(37, "in", "stated"))
    >>> longer(Job(iron, Club(club="7 iron", kind="iron", length=figure(36.5, "in", "stated"))))
    -0.5
    """
    if job.before is None:
        return 0.0
    was, will = angles.length(job.before), angles.length(job.club)
    assert was is not None and will is not None  # every row of the usual figures carries a length
    trims = [number(club.shaft.tip_trim, "in") or 0.0 for club in (job.before, job.club)]
    return round(will.in_unit("in").number - was.in_unit("in").number + trims[1] - trims[0], 6)


def is_regrip(job: Job, *, whole: bool) -> bool:
    """True when the club gets a grip: a new one, or because the old one had to come off."""
    if whole or job.before is None or job.whats & {"grip", "shaft", "tip trim"}:
        return True
    if "length" in job.whats and abs(longer(job)) >= entry("tolerance", "length", "within") - 1e-9:
        return True
    return at(job.before, "butt") != at(job.club, "butt")


def new_shaft(job: Job, *, whole: bool) -> bool:
    """True when the club gets a shaft that is still raw."""
    return whole or job.before is None or "shaft" in job.whats


def work_in_words(changes: Iterable[Change]) -> str:
    """The changes as they were given, one after another."""
    told = (change.text.partition(":")[2].strip() or change.text or change.what for change in changes)
    return "; ".join(dict.fromkeys(told))


def text(words: str) -> Figure:
    return Figure(value=words, unit="1", source=Source.COMPUTED)


def inches(value: float, why: str, source: Source = Source.COMPUTED) -> Figure:
    return Figure(value=round(value, 4), unit="in", source=source, why=why)


def tolerance_of(figure: str) -> Figure:
    held = entry("tolerance", figure)
    return Figure(
        value=held["within"], unit=held["unit"], source=Source.COMMON_PRACTICE, why="the workshop's tolerance"
    )


def step(
    work: Work,
    operation: str,
    words: str,
    *,
    target: Figure | None,
    tolerance: Figure | None = None,
    start: Figure | None = None,
    figure: str | None = None,
    tool: str | None = None,
    more: Iterable[str] = (),
) -> Step:
    """A step of an operation, with the cautions that stand for it here and those named in `more`."""
    circumstances = [shaft_material(work.club)[0]]
    construction = (work.club.head.construction or "").lower()
    if work.club.kind in WOODEN or "bonded carbon" in construction:
        circumstances.append("painted")
    if "hollow" in construction or work.club.kind in WOODEN:
        circumstances.append("hollow")
    if work.hand == "left":
        circumstances.append("left")
    if "bent" in more:
        circumstances.append("bent")
    said = cautions(operation, circumstances, [name for name in more if name != "bent"])
    return Step(
        operation=operation,
        target=target,
        tolerance=tolerance,
        start=start,
        tool=tool or entry("operation", operation)["tool"],
        words=words,
        cautions=said,
        figure=figure,
    )


def number(figure: Figure | None, unit: str) -> float | None:
    return figure.in_unit(unit).number if figure is not None and figure.has_number else None


def ask(work: Work, about: str, text: str) -> None:
    if (about, text) not in work.questions:
        work.questions.append((about, text))


def shop_inches(value: float) -> str:
    """Inches as a builder reads them: sixteenths, decimals and millimetres.

    >>> shop_inches(4.9375), shop_inches(35.27)
    ('4 15/16 in (4.938 in, 125.4 mm)', '35¼ in (35.270 in, 895.9 mm)')
    """
    if value < 2 and abs(value * 16 - round(value * 16)) > 0.2:
        return f"{value:.3f} in ({value * 25.4:.1f} mm)"  # a diameter is nothing to round to a sixteenth
    return f"{write_fraction(value)} in ({value:.3f} in, {value * 25.4:.1f} mm)"


def tolerance_known(work: Work, figure: str, *, adjusted: bool) -> Figure:
    """The workshop's tolerance; of a figure the bench does not adjust, the band of what is known if wider."""
    within = tolerance_of(figure)
    target: Figure | None = getattr(work.will, figure)
    known = points_of(target) if figure == "swing_weight" else target
    band = known.half_width if known is not None else 0.0
    if adjusted or band <= within.number:
        return within
    why = "not adjusted here: held to no more than is known of its parts"
    return Figure(value=round(band, 3), unit=within.unit, source=Source.COMPUTED, why=why)
