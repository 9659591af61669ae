"""The records of the bench: what was measured before work, the order, its steps, and what the check found."""

from __future__ import annotations

from typing import Literal

from asplayed.clubs import Change, GolfSet, Question
from asplayed.clubs.records import Record
from asplayed.quantities import Figure

Verdict = Literal["in", "out", "not measured"]


class Bench(Record, frozen=True, kw_only=True):
    """What somebody measured of one club's parts before work: the club's label, and the figures that he has.

    `raw_length` and `raw_mass` are the uncut shaft's, `bore_to_sole` runs from the bottom of the bore (of a sleeve:
    of its bore, seated) to the sole line along the shaft, `frequency` is the club's with its untrimmed shaft at full
    length, `bends` counts how often the head has been bent.
    """

    club: str
    head_mass: Figure | None = None
    raw_length: Figure | None = None
    raw_mass: Figure | None = None
    bore_depth: Figure | None = None
    bore_to_sole: Figure | None = None
    cap: Figure | None = None
    tip: Figure | None = None
    bore: Figure | None = None
    butt: Figure | None = None
    core: Figure | None = None
    frequency: Figure | None = None
    clamp: Figure | None = None
    bends: int | None = None


class Step(Record, frozen=True, kw_only=True):
    """One operation on one club: what to reach, within what, from where, with what, and what may hurt.

    `figure` names the figure as played that a measure step reads; `measured` is empty until the club is checked.
    """

    operation: str
    target: Figure | None = None
    tolerance: Figure | None = None
    start: Figure | None = None
    tool: str = ""
    words: str = ""
    cautions: tuple[str, ...] = ()
    figure: str | None = None
    measured: Figure | None = None


class ClubOrder(Record, frozen=True, kw_only=True):
    """The work on one club, in its order, and how likely the club is inside every tolerance once it is done."""

    club: str
    hand: Literal["right", "left"] = "right"
    work: str = ""
    steps: tuple[Step, ...] = ()
    chance: Figure | None = None


class PartNeeded(Record, frozen=True, kw_only=True):
    """A part that the order takes: for which clubs, and how many."""

    part: Literal["head", "shaft", "grip", "sleeve", "weight", "ferrule", "tape"]
    name: str
    clubs: tuple[str, ...]
    count: int


class Order(Record, frozen=True, kw_only=True):
    """An order for the workshop: from which set in which version, by which changes, and the set it makes.

    `outcome` is the set as it will be, its figures as played worked out; `set_name` and `set_version` say what it was
    made from.
    """

    order: str
    set_name: str | None = None
    set_version: int | None = None
    player: str | None = None
    hand: Literal["right", "left"] = "right"
    made: str | None = None  # ISO date
    changes: tuple[Change, ...] = ()
    clubs: tuple[ClubOrder, ...] = ()
    parts: tuple[PartNeeded, ...] = ()
    questions: tuple[Question, ...] = ()
    outcome: GolfSet = GolfSet()


class Reading(Record, frozen=True, kw_only=True):
    """One figure as a gauge read it: of which club, which figure, how often it was read, and where it was written."""

    club: str
    figure: str
    measured: Figure
    count: int = 1
    spread: float = 0.0  # standard deviation of repeated readings, in the figure's unit
    where: str = ""


class CheckedFigure(Record, frozen=True, kw_only=True):
    """One figure of a built club against its order.

    `sure` says whether the gauge's own reading leaves no doubt about the verdict.
    """

    club: str
    figure: str
    target: Figure
    tolerance: Figure | None = None
    measured: Figure | None = None
    verdict: Verdict
    sure: bool = True
    rework: str = ""


class Check(Record, frozen=True, kw_only=True):
    """What the check of an order found: every figure, what is doubtful, and who signed it when."""

    order: str
    clubs: tuple[CheckedFigure, ...] = ()
    questions: tuple[str, ...] = ()
    signed_by: str | None = None
    signed_at: str | None = None


class Tick(Record, frozen=True, kw_only=True):
    """A step that somebody did: of which club, which step of its work (the first is 1), who and when."""

    club: str
    step: int
    by: str
    at: str


class TakenReading(Record, frozen=True, kw_only=True):
    """A reading as it was typed at the bench, a line such as `7 iron loft 33.5 deg`, who took it and when."""

    line: str
    by: str
    at: str


class Progress(Record, frozen=True, kw_only=True):
    """How far the work on an order is: the steps ticked and the readings taken, each club and figure once."""

    order: str
    ticks: tuple[Tick, ...] = ()
    readings: tuple[TakenReading, ...] = ()
