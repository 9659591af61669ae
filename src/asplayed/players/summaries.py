"""What a club's shots say together: the typical shot with its band, the spread, the shots that stand apart.

The statistics are those of `mechanics.statistics`, on arrays. A shot that stands apart is flagged and shown; it is kept
out of the typical shot and never deleted.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.clubs.records import Record
from asplayed.mechanics.statistics import (
    FEWEST_TO_FLAG,
    LIMIT,
    MOST_FLAGGED,
    NORMAL,
    pooled_toward,
    shots_needed,
)
from asplayed.players.delivery import DEGREE, OF_90, norms
from asplayed.players.records import SessionFacts
from asplayed.players.shots import Shots
from asplayed.quantities import Figure, Source, from_si

Numbers = NDArray[np.float64]

# A mis-hit shows in how far the ball went, or, where that was not read, in how fast it or the club was.
_DISTANCE = ("carry", "total", "ball speed", "club speed")
# A ball off the line is no mis-hit: it is the player's dispersion. Only one so many spreads off, of the club's own and
# of the usual one, is flagged (assumed), and even then it counts in the figures across the line.
_ACROSS = ("side", "launch direction")
_STRAYED = 5.0
_UNITS = {
    "club speed": "mph",
    "ball speed": "mph",
    "spin": "rpm",
    "carry": "yd",
    "total": "yd",
    "side": "yd",
    "apex": "ft",
    "time": "s",
    "strike toe": "mm",
    "strike high": "mm",
}
# Flagging takes a shot of the normal swing now and then, which narrows the band of few shots: made good by this over
# the number of shots (from simulated sessions with and without mis-hits).
_NARROWED = 0.9
_ENOUGH_TO_COUNT = 60  # shots up to which the interval's coverage is counted out, and not taken from the normal law


class Session(NamedTuple):
    """A session: what is known of it, and its shots."""

    facts: SessionFacts
    shots: Shots


class Typical(NamedTuple):
    """The typical value of a figure, its 90 % band, the spread of single shots, and how many there were; SI."""

    value: float
    low: float
    high: float
    spread: float
    shots: int

    @property
    def error(self) -> float:
        """One standard deviation of the typical value."""
        return (self.high - self.low) / (2 * OF_90)


class Question(Record, frozen=True, kw_only=True):
    """Two neighbours whose difference the shots may not have settled, and how many more of each would."""

    clubs: tuple[str, str]
    difference: Figure
    needed: int
    more: int
    sentence: str


def unit_of(column: str) -> str:
    """The unit a column of shots is shown in.

    >>> unit_of("spin"), unit_of("launch")
    ('rpm', 'deg')
    """
    return _UNITS.get(column, "deg")


def stands_apart(values: Numbers) -> NDArray[np.bool_]:
    """Which values stand apart from the rest by the modified z of `mechanics.statistics.spread`; NaN never does.

    >>> stands_apart(np.array([151.0, 148, 153, 150, 118])).tolist()
    [False, False, False, False, True]
    """
    apart = np.zeros(len(values), dtype=np.bool_)
    read = np.flatnonzero(np.isfinite(values))
    if len(read) < FEWEST_TO_FLAG:
        return apart
    distance = np.abs(values[read] - np.median(values[read]))
    middle = float(np.median(distance))
    if middle == 0:
        return apart
    far = np.flatnonzero(0.6745 * distance / middle > LIMIT)
    most = int(MOST_FLAGGED * len(read))
    if len(far) > most:
        far = far[np.argsort(-distance[far], kind="stable")[:most]]
    apart[read[far]] = True
    return apart


def _strays(values: Numbers, column: str) -> NDArray[np.bool_]:
    """Which directions lie so far off that no dispersion holds them; never with fewer shots than are flagged at all."""
    read = values[np.isfinite(values)]
    if len(read) < FEWEST_TO_FLAG:
        return np.zeros(len(values), dtype=np.bool_)
    distance = np.abs(values - np.median(read))
    own = NORMAL * float(np.median(distance[np.isfinite(distance)]))
    beyond: NDArray[np.bool_] = distance > _STRAYED * max(own, _one_shot(column, 0.0))  # NaN is never beyond
    return beyond if int(beyond.sum()) <= int(MOST_FLAGGED * len(read)) else np.zeros(len(values), dtype=np.bool_)


def flag(shots: Shots) -> tuple[NDArray[np.bool_], dict[int, str]]:
    """Which shots are flagged among their club's, and why, by their place in the session.

    A shot is flagged for its distance as `stands_apart` has it; for its direction only far beyond any dispersion.
    """
    short, strayed, why = _judged(shots)
    return short | strayed, why


def _judged(shots: Shots) -> tuple[NDArray[np.bool_], NDArray[np.bool_], dict[int, str]]:
    """The shots flagged for their distance, those flagged for their direction, and why."""
    short, strayed = (np.zeros(len(shots.row), dtype=np.bool_) for _ in range(2))
    why: dict[int, str] = {}
    for club in np.unique(shots.club).tolist():
        rows = np.flatnonzero(shots.club == club)
        for choices, flagged in ((_DISTANCE, short), (_ACROSS, strayed)):
            column = next((name for name in choices if _read(shots, name, rows)), None)
            if column is None:
                continue
            values = shots.columns[column][rows]
            apart = stands_apart(values) if choices is _DISTANCE else _strays(values, column)
            middle = float(np.nanmedian(values)) if apart.any() else 0.0
            for row in rows[apart].tolist():
                unit = unit_of(column)
                here, there = (from_si(x, unit) for x in (float(shots.columns[column][row]), middle))
                said = f"{column} {here:.4g} {unit} stands apart from this club's {there:.4g} {unit}"
                why[row] = f"{why[row]}; {said}" if row in why else said
            flagged[rows[apart]] = True
    return short, strayed, why


def _read(shots: Shots, column: str, rows: NDArray[np.int64]) -> bool:
    return column in shots.columns and bool(np.isfinite(shots.columns[column][rows]).any())


def typical(values: Numbers, column: str) -> Typical | None:
    """The median of the values with its 90 % band; None where nothing was read.

    The band lies between order statistics, interpolated (Hettmansperger & Sheather 1986, "Confidence intervals based on
    interpolated order statistics", from memory); with fewer than five shots it comes from a spread drawn towards the
    usual one.

    >>> found = typical(np.array([148.0, 150, 151, 153, 149]), "carry")
    >>> found.value, found.shots, 147 <= found.low < found.high <= 154
    (150.0, 5, True)
    """
    values = np.sort(values[np.isfinite(values)])
    shots = len(values)
    if shots == 0:
        return None
    middle = float(np.median(values))
    apart = np.abs(values - middle)
    scale = NORMAL * float(np.median(apart)) or 1.2533 * float(np.mean(apart))
    if shots < FEWEST_TO_FLAG:
        own = float(np.std(values, ddof=1)) if shots > 1 else 0.0
        scale = pooled_toward(own, shots, _one_shot(column, middle), norms()["fitting"]["prior_shots"])
        half = OF_90 * scale * (1.0 if shots < 3 else 1.2533) / math.sqrt(shots)
        return Typical(middle, middle - half, middle + half, scale, shots)
    rank, share = _interval(shots)
    low = float(values[rank - 1] + share * (values[rank] - values[rank - 1]))
    high = float(values[-rank] - share * (values[-rank] - values[-rank - 1]))
    wider = 1.0 + _NARROWED / shots
    return Typical(middle, middle + wider * (low - middle), middle + wider * (high - middle), scale, shots)


def _one_shot(column: str, value: float) -> float:
    entry = norms()["one_shot"][column]
    if "relative" in entry:
        return abs(float(entry["relative"]) * value)
    unit = unit_of(column)
    scale = DEGREE if unit == "deg" else 0.001 if unit == "mm" else 1.0
    return float(entry["absolute"]) * scale


@cache
def _interval(shots: int, confidence: float = 0.9) -> tuple[int, float]:
    """Rank of the lower order statistic (from 1) and the share of the way to the next, for the median's interval."""
    if shots > _ENOUGH_TO_COUNT:
        place = (shots + 1) / 2 - OF_90 * math.sqrt(shots) / 2
        return int(place), place - int(place)
    rank, wider = 1, _covered(shots, 1)
    while rank + 1 <= shots // 2 and (narrower := _covered(shots, rank + 1)) >= confidence:
        rank, wider = rank + 1, narrower
    narrower = _covered(shots, rank + 1) if 2 * (rank + 1) <= shots else 0.0
    step = (wider - confidence) / (wider - narrower)
    step = min(max(step, 0.0), 1.0)
    return rank, (shots - rank) * step / (rank + (shots - 2 * rank) * step)


def _covered(shots: int, rank: int) -> float:
    return 1.0 - 2.0 * sum(math.comb(shots, k) for k in range(rank)) / 2.0**shots


class ClubSummary(NamedTuple):
    """One club's shots: how many, how many flagged, the good ones, and the typical value of a column.

    `full` holds the good ones and those flagged for their direction alone, which count across the line.
    """

    club: str
    shots: int
    flagged: int
    good: Shots
    full: Shots

    def values(self, column: str) -> Numbers:
        """The readings of a column that count, SI; none where it was not read."""
        counted = self.full if column in _ACROSS else self.good
        return counted.columns.get(column, np.zeros(0))

    def typical(self, column: str) -> Typical | None:
        """The typical value of a column over the shots that count."""
        return typical(self.values(column), column)

    def figure(self, column: str) -> Figure | None:
        """The typical value as a measured figure with its 90 % band."""
        found = self.typical(column)
        if found is None:
            return None
        unit = unit_of(column)
        out = self.shots - len(self.full.row) if column in _ACROSS else self.flagged
        aside = f", {out} flagged aside" if out else ""
        return Figure(
            value=from_si(found.value, unit),
            unit=unit,
            source=Source.MEASURED,
            low=from_si(found.low, unit),
            high=from_si(found.high, unit),
            why=f"median of {found.shots} shot{'s' if found.shots != 1 else ''}{aside}",
        )

    def spread(self, column: str) -> Figure | None:
        """One standard deviation of single shots, robustly, with its 90 % band; None below two shots."""
        found = self.typical(column)
        if found is None or found.shots < 2:
            return None
        unit = unit_of(column)
        value = from_si(found.spread, unit)
        # of a robust spread under the normal law: 1.17 of its value over the root of the shots
        off = min(0.95, OF_90 * 1.17 / math.sqrt(found.shots))
        why = f"robust standard deviation of {found.shots} shots"
        return Figure(
            value=value, unit=unit, source=Source.MEASURED, low=value * (1 - off), high=value * (1 + off), why=why
        )


def summary_as_plain(club: ClubSummary) -> dict[str, Any]:
    """What a club's shots say, as JSON; a figure that was not read is not there, but carry is null."""
    from asplayed.quantities import plain

    figures = {column.replace(" ", "_"): plain(club.figure(column)) for column in club.good.columns}
    return {
        "club": club.club,
        "shots": club.shots,
        "flagged": club.flagged,
        "carry": None,
        **figures,
        "depth": plain(club.spread("carry")),
        "width": plain(club.spread("side")),
    }


def summarise(shots: Shots) -> tuple[ClubSummary, ...]:
    """Every club of a session that has shots, in the order of the set.

    >>> carry = np.array([151.0, 148, 153, 150, 118])
    >>> shots = Shots(np.arange(5), np.zeros(5, dtype=np.int64), ("driver",), {"carry": carry})
    >>> [(each.club, each.shots, each.flagged, each.typical("carry").value) for each in summarise(shots)]
    [('driver', 5, 1, 150.5)]
    """
    short, strayed, _ = _judged(shots)
    flagged = short | strayed
    found = []
    for place, name in enumerate(shots.clubs):
        here = shots.club == place
        if here.any():
            good, full = shots.where(here & ~flagged), shots.where(here & ~short)
            found.append(ClubSummary(name, int(here.sum()), int((here & flagged).sum()), good, full))
    return tuple(found)


def pooled(sessions: Sequence[Session]) -> tuple[ClubSummary, ...]:
    """Every club over all the sessions together; mis-hits are flagged within their own session."""
    by_club: dict[str, list[ClubSummary]] = {}
    for session in sessions:
        for each in summarise(session.shots):
            by_club.setdefault(each.club, []).append(each)
    found = []
    for name, parts in by_club.items():
        good, full = (_together(name, [getattr(each, which) for each in parts]) for which in ("good", "full"))
        found.append(ClubSummary(name, sum(x.shots for x in parts), sum(x.flagged for x in parts), good, full))
    return tuple(found)


def _together(club: str, parts: Sequence[Shots]) -> Shots:
    names = dict.fromkeys(column for each in parts for column in each.columns)
    columns = {
        column: np.hstack([each.columns.get(column, np.full(len(each.row), math.nan)) for each in parts])
        for column in names
    }
    row = np.hstack([each.row for each in parts])
    return Shots(row, np.zeros(len(row), dtype=np.int64), (club,), columns)


def open_questions(summaries: Sequence[ClubSummary]) -> tuple[Question, ...]:
    """Neighbours in carry, and how many more shots of each would show the difference now seen (80 % power at 5 %)."""
    measured = [(each, found) for each in summaries if (found := each.typical("carry")) is not None and found.shots > 1]
    measured.sort(key=lambda pair: -pair[1].value)
    asked = []
    for (longer, far), (shorter, near) in pairwise(measured):
        apart = far.value - near.value
        both = math.sqrt((far.spread**2 + near.spread**2) / 2)
        difference = Figure(value=from_si(apart, "yd"), unit="yd", source=Source.COMPUTED, why="carry less carry")
        # A difference below a yard asks for more shots than anybody strikes.
        needed = shots_needed(max(apart, 0.9144), both)
        more = max(0, needed - min(far.shots, near.shots))
        words = f"{longer.club} and {shorter.club} are {from_si(apart, 'yd'):.0f} yd apart in carry"
        sentence = (
            f"{words}; about {more} more shots with each would settle it" if more else f"{words}; the shots settle it"
        )
        asked.append(
            Question(
                clubs=(longer.club, shorter.club), difference=difference, needed=needed, more=more, sentence=sentence
            )
        )
    return tuple(asked)
