"""The best set by speed and handicap over a course: one choice for every player of a grid."""

from __future__ import annotations

from itertools import product
from typing import ClassVar

from msgspec.structs import replace

from asplayed.catalogue.parts import Part
from asplayed.choosing.candidates import EVERYTHING, What
from asplayed.choosing.choice_model import Limits
from asplayed.choosing.choose import CHANGE_WORTH, choose
from asplayed.choosing.demand import Course
from asplayed.clubs import GolfSet
from asplayed.players.records import Player, player_of
from asplayed.quantities import figure
from asplayed.sweeps.reducing import Best, Entry, Tally, moments_of
from asplayed.sweeps.studies import Block, Row, Study, seed_of

_BEST = 10


class BestSets(Study, frozen=True, kw_only=True):
    """`asplayed choose` for players of every driver speed (mph) and handicap with every set, over a course.

    `course` None asks what a round usually asks of a player of that reach. A block is one player with one set. A
    search that `seconds` end before its proof leaves a gap in its row and may end otherwise on another machine.
    """

    NAME: ClassVar[str] = "best-sets"
    COLUMNS: ClassVar[dict[str, type]] = {
        "set": str, "driver speed [mph]": float, "handicap": float, "strokes today": float, "strokes chosen": float,
        "saved": float, "gap to proof": float, "better in [%]": float, "clubs": str, "changes": str,
        "left at home": str,
    }  # fmt: skip

    sets: tuple[tuple[str, GolfSet], ...]
    speeds: tuple[float, ...]
    handicaps: tuple[float, ...]
    course: Course | None = None
    parts: tuple[Part, ...] = ()
    limits: Limits = Limits(change_worth=CHANGE_WORTH)
    tried: tuple[What, ...] = EVERYTHING
    worlds: int = 200
    seconds: float = 20.0

    def players(self) -> list[tuple[str, GolfSet, float, float]]:
        """Every player with every set."""
        return [
            (name, golf_set, speed, handicap)
            for (name, golf_set), speed, handicap in product(self.sets, self.speeds, self.handicaps)
        ]

    def blocks(self) -> int:
        """A block a player."""
        return len(self.sets) * len(self.speeds) * len(self.handicaps)

    def block(self, number: int) -> Block:
        """The choice for one player."""
        name, golf_set, speed, handicap = self.players()[number]
        player: Player = replace(
            player_of(golf_set),
            driver_speed=figure(speed, "mph", "stated"),
            handicap=figure(handicap, "1", "stated"),
        )
        found = choose(
            golf_set,
            player=player,
            parts=self.parts,
            limits=self.limits,
            course=self.course,
            worlds=self.worlds,
            tried=self.tried,
            seconds=self.seconds,
            seed=seed_of(self.seed, number) >> 32,
        )
        saved = found.saved.number
        row: Row = dict(
            zip(
                self.COLUMNS,
                (
                    name, speed, handicap, found.today.number, found.objective.number, saved, found.proof_gap.number,
                    round(found.sure.better.number, 1) if found.sure is not None else None,
                    ", ".join(each.label for each in found.chosen), "; ".join(found.changes),
                    ", ".join(found.dropped),
                ),
                strict=True,
            )
        )  # fmt: skip
        words = f"{name}, {speed:g} mph, handicap {handicap:g}"
        tally: Tally = {
            "saved": moments_of([saved]),
            "most saved": Best(_BEST, (Entry(-saved, number, words),)),
        }
        return Block(tally, (row,))
