"""Where very many shots come down: sets × clubs × players × conditions × changes of loft, so many shots each."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product
from typing import ClassVar, NamedTuple

import msgspec

from asplayed.clubs import GolfSet
from asplayed.clubs.names import labels
from asplayed.errors import BadInput
from asplayed.players.records import Conditions, Player
from asplayed.players.versions import Hands, hands_of, norms_of, versions_of
from asplayed.quantities import from_si
from asplayed.sweeps.reducing import Histogram, Moments, Tally, histogram_of, moments_of
from asplayed.sweeps.studies import Block, Row, Study, seed_of

SHOTS_A_BLOCK = 131_072
_STEP = 0.9144  # m, bins of the histogram
_BINS = 450
_FEW = 200  # single shots that the player is worked out with; the study draws its own
_KEPT = 64
_known: dict[bytes, Hands] = {}


class Cell(NamedTuple):
    """One combination: places in the study's lists, and the club's label."""

    golf_set: int
    label: str
    player: int
    conditions: int
    loft_change: float


class Landings(Study, frozen=True, kw_only=True):
    """`shots` single shots of every club in every combination; `loft_changes` in degrees, weak +."""

    NAME: ClassVar[str] = "landings"
    CHUNK: ClassVar[int] = 8
    COLUMNS: ClassVar[dict[str, type]] = {
        "set": str, "club": str, "player": int, "conditions": int, "loft change [deg]": float, "shots": int,
        "carry [yd]": float, "side [yd]": float, "carry spread [yd]": float, "side spread [yd]": float,
        "correlation": float, "shortest [yd]": float, "carry of one in ten [yd]": float, "longest [yd]": float,
    }  # fmt: skip

    sets: tuple[tuple[str, GolfSet], ...]
    players: tuple[Player, ...] = (Player(),)
    conditions: tuple[Conditions, ...] = (Conditions(),)
    clubs: tuple[str, ...] = ()
    loft_changes: tuple[float, ...] = (0.0,)
    shots: int = SHOTS_A_BLOCK

    def cells(self) -> list[Cell]:
        """The combinations in their order; refused: a club that no set has, no shot."""
        swung = [
            (number, label)
            for number, (_, golf_set) in enumerate(self.sets)
            for label, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True)
            if club.kind != "putter" and (not self.clubs or label in self.clubs)
        ]
        if not swung or self.shots < 1:
            wanted = f"none of {', '.join(self.clubs)}" if self.clubs else "no club that is swung in full"
            raise BadInput(f"the sets hold {wanted}; name clubs of the sets" if not swung else "give at least one shot")
        others = product(range(len(self.players)), range(len(self.conditions)), self.loft_changes)
        return [
            Cell(golf_set, label, player, conditions, change)
            for player, conditions, change in others
            for golf_set, label in swung
        ]

    def _parts(self) -> int:
        return -(-self.shots // SHOTS_A_BLOCK)

    def blocks(self) -> int:
        """A block for every stretch of shots of every cell."""
        return len(self.cells()) * self._parts()

    def block(self, number: int) -> Block:
        """The shots of one stretch of one cell."""
        from asplayed.players.typical import Swing, simulate

        place, part = divmod(number, self._parts())
        cell = self.cells()[place]
        hands = self._hands(cell)
        versions = versions_of(hands, [cell.label], loft_change=cell.loft_change * 0.017453292519943295)
        swing = Swing(
            norms_of(hands, versions)[0],
            hands.seats[cell.label],
            hands.weather,
            1.0,
            *hands.lines.get(cell.label, (0.0, 0.0)),
        )
        shots = min(SHOTS_A_BLOCK, self.shots - part * SHOTS_A_BLOCK)
        found = simulate([swing], hands.known.found, hands.known.skill, shots, seed_of(self.seed, number))[0].landings
        carry, side = found.T
        tally: Tally = {
            f"{place}": moments_of(carry, side),
            f"{place} carry": histogram_of(carry, 0.0, _STEP, _BINS),
        }
        return Block(tally)

    def _hands(self, cell: Cell) -> Hands:
        """The player over his set, worked out once a process: blocks of a cell follow each other."""
        asked = self.sets[cell.golf_set][1], self.players[cell.player], self.conditions[cell.conditions]
        key = msgspec.json.encode(asked)
        if key not in _known:
            if len(_known) >= _KEPT:
                _known.clear()
            _known[key] = hands_of(asked[0], asked[1], conditions=asked[2], shots=_FEW)
        return _known[key]

    def summary(self, tally: Tally) -> Iterable[Row]:
        """One row a cell."""
        for place, cell in enumerate(self.cells()):
            moments, carries = tally[f"{place}"], tally[f"{place} carry"]
            assert isinstance(moments, Moments) and isinstance(carries, Histogram)
            yards = [
                round(from_si(value, "yd"), 3)
                for value in (
                    *moments.mean,
                    *moments.spread,
                    moments.least[0],
                    carries.quantile(0.1),
                    moments.most[0],
                )
            ]
            yield dict(
                zip(
                    self.COLUMNS,
                    (
                        self.sets[cell.golf_set][0], cell.label, cell.player, cell.conditions, cell.loft_change,
                        moments.count, *yards[:4], round(moments.correlation(0, 1), 4), *yards[4:],
                    ),
                    strict=True,
                )
            )  # fmt: skip
