"""What a finding is, and how figures with bands are weighed against limits."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib import resources
from typing import Any, Literal, NamedTuple

import msgspec

from asplayed.clubs.records import Club, Record
from asplayed.quantities import Figure, Source, write_fraction, write_quantity

Level = Literal["breach", "flaw", "unusual", "note"]
LEVELS: tuple[Level, ...] = ("breach", "flaw", "unusual", "note")
_WEAK = (Source.COMMON_PRACTICE, Source.ASSUMED)


class Finding(Record, frozen=True, kw_only=True):
    """Something wrong, unusual or worth knowing about a set: what, why, what could be done, on whose word."""

    code: str
    level: Level
    clubs: tuple[str, ...] = ()
    sentence: str
    why: str
    remedy: str
    figures: dict[str, Figure] = msgspec.field(default_factory=dict)
    source: str


class Limit(NamedTuple):
    """The bounds of what is ordinary, in `unit`, and on whose word."""

    low: float
    high: float
    unit: str
    source: str


@cache
def table() -> dict[str, Any]:
    """The limits of `data/limits.toml` as they stand there."""
    text = resources.files("asplayed.judgement").joinpath("data/limits.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def limit(name: str) -> Limit:
    """A limit of `data/limits.toml` by its dotted name.

    >>> limit("gap.wedges").high
    6.0
    """
    entry = table()
    for part in name.split("."):
        entry = entry[part]
    return Limit(**entry)


class Weighed(NamedTuple):
    """Where a figure lies against a limit: `over` or `under` it, and whether its whole band does."""

    side: Literal["over", "under"]
    sure: bool


def weigh(entry: Figure, bound: Limit) -> Weighed | None:
    """None when the figure lies within the limit, else the side and whether its whole band lies outside.

    >>> from asplayed.quantities import figure
    >>> weigh(figure(9, "deg", "stated", tolerance=1), limit("gap.wedges"))
    Weighed(side='over', sure=True)
    >>> weigh(figure(6.5, "deg", "stated", tolerance=1), limit("gap.wedges")).sure
    False
    """
    there = entry.in_unit(bound.unit)
    if there.number > bound.high + 1e-9:
        return Weighed("over", (there.number if there.low is None else there.low) > bound.high + 1e-9)
    if there.number < bound.low - 1e-9:
        return Weighed("under", (there.number if there.high is None else there.high) < bound.low - 1e-9)
    return None


def rests_on_usual(figures: Iterable[Figure]) -> bool:
    """True when anything behind these figures is common practice or a guess rather than this club's own."""
    return any(entry.weakest in _WEAK for entry in figures)


def graded(
    level: Level,
    *,
    code: str,
    clubs: Iterable[Club],
    sentence: str,
    why: str,
    remedy: str,
    figures: dict[str, Figure],
    source: str,
    sure: bool = True,
) -> list[Finding]:
    """The finding at its level, or lower, or not at all: bands and sources decide.

    What the bands do not settle is a note that asks for a gauge; where it would also rest on usual figures it is left
    unsaid. What is sure but rests on usual figures says so and is never a breach.
    """
    usual = rests_on_usual(figures.values())
    if not sure:
        if usual:
            return []
        level = "note"
        sentence += " The difference is smaller than the figures are sure of: gauge the clubs first."
    elif usual:
        level = "note" if level == "breach" else level
        sentence += " This rests in part on usual figures, not on these clubs' own."
    named = tuple(dict.fromkeys(club.club for club in clubs))
    return [
        Finding(
            code=code,
            level=level,
            clubs=named,
            sentence=sentence,
            why=why,
            remedy=remedy,
            figures=figures,
            source=source,
        )
    ]


def degrees(entry: Figure, places: int = 1) -> str:
    """An angle in words for a sentence.

    >>> from asplayed.quantities import figure
    >>> degrees(figure(57, "deg", "stated")), degrees(figure(-0.75, "deg", "stated"), 2)
    ('57°', '−0.75°')
    """
    return write_quantity(entry.in_unit("deg").number, "deg", places=places)


def inches(entry: Figure) -> str:
    """A length in words for a sentence, to the sixteenth.

    >>> from asplayed.quantities import figure
    >>> inches(figure(44.75, "in", "stated"))
    '44¾ in'
    """
    return f"{write_fraction(entry.in_unit('in').number)} in"


def grams(entry: Figure) -> str:
    """A mass in words for a sentence."""
    return write_quantity(entry.in_unit("g").number, "g", places=0)


def called(club: Club) -> str:
    """How a sentence names a club: its trade name, wedges with their stamp.

    >>> called(Club(club="putter", kind="putter"))
    'putter'
    """
    loft = club.as_played.loft
    if club.kind == "wedge" and loft is not None:
        return f"{club.club} ({degrees(loft)})"
    return club.club
