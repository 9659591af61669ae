"""Which findings hang on which tolerance: every figure of every club moved to either end of its band.

A figure moves with its band, as if it had been stated there; everything that follows from it is worked out anew, the
flight too. What is not stated of a club is moved within what is usual.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, ClassVar, NamedTuple

from msgspec.structs import replace

from asplayed.clubs import Club, GolfSet, played_set
from asplayed.clubs.names import labels
from asplayed.clubs.usual import banded, usual
from asplayed.judgement.judge import judge_played
from asplayed.players.flying import fly_set
from asplayed.players.records import Player
from asplayed.quantities import Figure
from asplayed.sweeps.reducing import Tally, moments_of
from asplayed.sweeps.studies import Block, Row, Study

# Where figures stand in a club, the tolerance that bounds each, and what is usual where nothing is said.
PLACES = {
    "head.loft": ("loft", "loft"),
    "head.lie": ("lie", "lie"),
    "head.face": ("face", None),
    "head.bounce": ("bounce", "bounce"),
    "head.offset": ("offset", None),
    "head.mass": ("head_mass", None),
    "sleeve.loft_change": ("sleeve_change", None),
    "sleeve.lie_change": ("sleeve_change", None),
    "bend.loft": ("bend", None),
    "bend.lie": ("bend", None),
    "shaft.mass": ("shaft_mass", None),
    "shaft.length": ("shaft_length", None),
    "shaft.balance": ("shaft_balance", None),
    "grip.mass": ("grip_mass", None),
    "length": ("length", "length"),
    "length_change": ("length", None),
    "stated.frequency": ("frequency", None),
    "stated.mass": ("mass", None),
    "putter.toe_hang": ("toe_hang", None),
    **{
        f"as_played.{name}": (name, None)
        for name in ("loft", "lie", "face", "bounce", "offset", "length", "mass", "frequency", "toe_hang")
    },
}
_SHOTS = 500


class Moved(NamedTuple):
    """One figure of a club, and the clubs with it at either end of its band."""

    about: str
    entry: Figure
    low: Club
    high: Club


def moves(club: Club) -> Iterator[Moved]:
    """Every figure of a club that has a band, moved to its ends.

    >>> from asplayed.clubs import Head
    >>> from asplayed.quantities import figure
    >>> wedge = Club(club="sand wedge", kind="wedge", head=Head(loft=figure(56, "deg", "stated")))
    >>> [(each.about, each.low.head.loft.value) for each in moves(wedge)][0]
    ('head.loft', 55.0)
    """
    for about, (tolerance, commonly) in PLACES.items():
        entry = _at(club, about)
        if entry is None and commonly is not None and not (about == "length" and club.length_change is not None):
            entry = usual(club, commonly)
        there = banded(entry, tolerance)
        if there is None or there.low is None or there.high is None or there.low >= there.high:
            continue
        ends = [
            _with(club, about, replace(there, value=end, low=there.low + end - there.number,
                                       high=there.high + end - there.number))
            for end in (there.low, there.high)
        ]  # fmt: skip
        yield Moved(about, there, *ends)


def _at(club: Club, about: str) -> Figure | None:
    found: Any = club
    for part in about.split("."):
        found = getattr(found, part, None)
    assert found is None or isinstance(found, Figure)
    return found


def _with(record: Any, about: str, entry: Figure) -> Any:
    first, _, rest = about.partition(".")
    return replace(record, **{first: _with(getattr(record, first), rest, entry) if rest else entry})


class Tolerances(Study, frozen=True, kw_only=True):
    """What becomes of the findings about every set when one figure moves within its band; a block is one club.

    `players` are those of the sets, in their order. A finding is the same where its code and its clubs are.
    """

    NAME: ClassVar[str] = "tolerances"
    COLUMNS: ClassVar[dict[str, type]] = {
        "set": str, "club": str, "figure": str, "unit": str, "source": str, "from": float, "to": float,
        "findings": int, "gone": str, "come": str, "graded otherwise": str,
    }  # fmt: skip

    sets: tuple[tuple[str, GolfSet], ...]
    players: tuple[Player, ...]

    def _blocks(self) -> list[tuple[int, int]]:
        return [(n, place) for n, (_, golf_set) in enumerate(self.sets) for place in range(len(golf_set.clubs))]

    def blocks(self) -> int:
        """A block a club."""
        return len(self._blocks())

    def block(self, number: int) -> Block:
        """All figures of one club, moved one at a time."""
        which, place = self._blocks()[number]
        name, golf_set = self.sets[which]
        label = labels(golf_set.clubs)[place]
        judged = self._judged(self.players[which])
        today = judged(golf_set)
        rows: list[Row] = []
        flips = []
        for moved in moves(golf_set.clubs[place]):
            for club in (moved.low, moved.high):
                clubs = (*golf_set.clubs[:place], club, *golf_set.clubs[place + 1 :])
                then = judged(replace(golf_set, clubs=clubs))
                gone, come = (sorted(one.keys() - other.keys()) for one, other in ((today, then), (then, today)))
                otherwise = [
                    f"{each}: {today[each]} → {then[each]}"
                    for each in sorted(today.keys() & then.keys())
                    if then[each] != today[each]
                ]
                flips.append(len(gone) + len(come) + len(otherwise))
                to = _at(club, moved.about)
                assert to is not None
                values = (
                    name, label, moved.about, moved.entry.unit, str(moved.entry.source), moved.entry.number, to.number,
                    len(today), "; ".join(gone), "; ".join(come), "; ".join(otherwise),
                )  # fmt: skip
                rows.append(dict(zip(self.COLUMNS, values, strict=True)))
        tally: Tally = {name: moments_of(flips)} if flips else {}
        return Block(tally, tuple(rows))

    def _judged(self, player: Player) -> Callable[[GolfSet], dict[str, str]]:
        def judged(golf_set: GolfSet) -> dict[str, str]:
            """The level of every finding, by its code and clubs."""
            played = played_set(golf_set)
            flown = fly_set(played, player, shots=_SHOTS, seed=self.seed)
            return {f"{each.code} ({', '.join(each.clubs)})": each.level for each in judge_played(played, flown=flown)}

        return judged
