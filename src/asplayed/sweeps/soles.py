"""What a wedge's sole is worth, by ground and attack.

How a sole that does not suit the ground scatters shots is not published. The study does not assume one answer: it asks
what a round costs when every degree of bounce outside what common practice calls suitable widens the depth of
the wedge's shots by 2, 5, 10 or 20 %, and so how much it would have to be before another sole is worth having.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from itertools import product
from typing import Any, ClassVar, get_args

import numpy as np
from msgspec.structs import replace

from asplayed.choosing.choose import pattern_of, situations_for
from asplayed.choosing.cost import Pattern, expected_strokes
from asplayed.choosing.demand import Course
from asplayed.clubs import GolfSet
from asplayed.clubs.names import labels
from asplayed.errors import BadInput, nearest
from asplayed.judgement.findings import limit
from asplayed.players.records import Conditions, Ground, Player, UsualDelivery
from asplayed.players.versions import fly_versions, hands_of, versions_of
from asplayed.quantities import figure
from asplayed.sweeps.reducing import Best, Entry, Tally
from asplayed.sweeps.studies import Block, Row, Study

_BEST = 5
_FEW = 200


@cache
def figures() -> dict[str, Any]:
    """The figures of `data/soles.toml`."""
    return tomllib.loads(resources.files("asplayed.sweeps").joinpath("data/soles.toml").read_text(encoding="utf-8"))


def digging(ground: Ground, attack: float) -> str:
    """How much ground and attack (degrees, down −) dig together: shallow, between or digging.

    >>> digging("soft", -4.0), digging("firm", -9.0), digging("normal", -2.0)
    ('digging', 'between', 'shallow')
    """
    bound = limit("wedge_attack")
    score = {"soft": 1, "normal": 0, "firm": -1}[ground] + (attack < bound.low) - (attack > bound.high)
    return "digging" if score > 0 else "shallow" if score < 0 else "between"


def unsuited(bounce: float, shape: str, wanted: str) -> float:
    """By how many degrees a sole lies outside what suits.

    >>> unsuited(14.0, "full", "shallow"), unsuited(10.0, "wide", "digging"), unsuited(10.0, "full", "between")
    (6.0, 0.0, 0.0)
    """
    low, high = figures()["wanted"][wanted]
    acts = bounce + figures()["shapes"][shape]
    return float(max(0.0, low - acts, acts - high))


class Soles(Study, frozen=True, kw_only=True):
    """Strokes a round that soles of every bounce (deg) and shape lose with one wedge, on every ground and for every
    attack (deg, down −). A block is one set on one ground with one attack."""

    NAME: ClassVar[str] = "soles"
    COLUMNS: ClassVar[dict[str, type]] = {
        "set": str, "club": str, "ground": str, "attack [deg]": float, "bounce [deg]": float, "shape": str,
        "unsuited by [deg]": float, "wider a degree": float, "strokes lost a round": float,
    }  # fmt: skip

    sets: tuple[tuple[str, GolfSet], ...]
    player: Player
    club: str = "sand wedge"
    grounds: tuple[Ground, ...] = get_args(Ground)
    attacks: tuple[float, ...] = (-2.0, -4.5, -8.0)
    bounces: tuple[float, ...] = (4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0)
    course: Course | None = None

    def _blocks(self) -> list[tuple[str, GolfSet, Ground, float]]:
        return [(*named, ground, attack) for named, ground, attack in product(self.sets, self.grounds, self.attacks)]

    def blocks(self) -> int:
        """A block for every set, ground and attack; refused: a set without the club."""
        for name, golf_set in self.sets:
            known = labels(golf_set.clubs)
            if self.club not in known:
                raise BadInput(f"{name} holds no {self.club}{nearest(self.club, known)}")
        return len(self._blocks())

    def block(self, number: int) -> Block:
        """What every sole loses on one ground for one attack."""
        name, golf_set, ground, attack = self._blocks()[number]
        said = tuple(each for each in self.player.delivery if each.kind != "wedge")
        swung = UsualDelivery(kind="wedge", attack=figure(attack, "deg", "stated"))
        player = replace(self.player, delivery=(*said, swung))
        hands = hands_of(golf_set, player, conditions=Conditions(ground=ground), shots=_FEW, seed=self.seed)
        own = versions_of(hands, [each.label for each in hands.flown.clubs])
        flown = pattern_of(fly_versions(hands, own), own)
        wanted, shares = digging(ground, attack), figures()["unsuited"]["shares"]
        soles = [
            (bounce, shape, unsuited(bounce, shape, wanted), share)
            for bounce, shape, share in product(self.bounces, figures()["shapes"], shares)
        ]
        widened = sorted({off * share for *_, off, share in soles})
        place = own.label.index(self.club)
        several = Pattern(*(np.append(each, np.repeat(each[place], len(widened))) for each in flown))
        several = several._replace(depth=np.append(flown.depth, flown.depth[place] * (1 + np.array(widened))))
        situations = situations_for(hands, self.course)
        strokes = expected_strokes(several, situations).strokes
        weights = np.array([each.weight for each in situations])
        others = np.delete(strokes[: len(own.label)], place, axis=0).min(axis=0)
        rounds = np.minimum(strokes[len(own.label) :], others) @ weights
        suited = float(np.minimum(strokes[place], others) @ weights)
        lost = dict(zip(widened, (rounds - suited).tolist(), strict=True))
        rows: tuple[Row, ...] = tuple(
            dict(
                zip(
                    self.COLUMNS,
                    (name, self.club, ground, attack, bounce, shape, off, share, round(lost[off * share], 4) + 0.0),
                    strict=True,
                )
            )
            for bounce, shape, off, share in soles
        )
        best = sorted(
            Entry(round(lost[off * share], 9) + 0.0, number, f"{bounce:g}° {shape}")
            for bounce, shape, off, share in soles
            if share == shares[-1]
        )
        tally: Tally = {f"{name}, {ground} ground, {attack:g}°": Best(_BEST, tuple(best[:_BEST]))}
        return Block(tally, rows)
