"""One club of a set in its player's hands: its best settings, and what a round costs with each of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from asplayed.catalogue.parts import Part
from asplayed.choosing.candidates import candidates
from asplayed.choosing.choose import pattern_of, situations_for
from asplayed.choosing.cost import expected_strokes
from asplayed.choosing.demand import Course, Situation
from asplayed.choosing.settings import Settings, Target, best_settings
from asplayed.clubs import GolfSet
from asplayed.clubs.names import club_meant, labels
from asplayed.errors import BadInput
from asplayed.players.records import Conditions, Player
from asplayed.players.summaries import Session
from asplayed.players.versions import Hands, Patterns, Versions, fly_versions, hands_of

Numbers = NDArray[np.float64]


def settings_of(
    golf_set: GolfSet,
    club: str,
    target: Target,
    *,
    player: Player | None = None,
    sessions: Sequence[Session] = (),
    parts: Sequence[Part] = (),
    course: Course | None = None,
    situations: Sequence[Situation] | None = None,
    conditions: Conditions | None = None,
    seed: int = 0,
) -> Settings:
    """The best settings of one club of a set, named in any way the trade does, for a target in the player's hands.

    Where strokes are the aim, those of the shots to serve are counted, with the other clubs as they are.
    """
    names = labels(golf_set.clubs)
    meant = [names[place] for place in club_meant(club, golf_set.clubs)]
    if len(meant) > 1:
        raise BadInput(f"{club!r} may be {' or '.join(meant)}; name one of them")
    label = meant[0] if meant else club
    hands = hands_of(golf_set, player, sessions, conditions=conditions, seed=seed)
    strokes = None
    if target.aim == "strokes" and label in hands.seats:
        strokes = strokes_with(hands, label, situations_for(hands, course, situations))
    return best_settings(hands, label, target, parts, strokes=strokes)


def strokes_with(hands: Hands, label: str, situations: Sequence[Situation]) -> Callable[[Patterns, Versions], Numbers]:
    """What a round costs with each version in the place of one club of today's, the others as they are."""
    found = candidates(hands, tried=())
    own = fly_versions(hands, found.versions)
    weights = np.array([each.weight for each in situations])
    others = [place for place, each in enumerate(found.entries) if each.label != label]
    beside = expected_strokes(pattern_of(own, found.versions), situations).strokes[others]
    least = beside.min(axis=0) if others else np.full(len(weights), np.inf)

    def strokes(flown: Patterns, versions: Versions) -> Numbers:
        with_it = expected_strokes(pattern_of(flown, versions), situations).strokes
        made: Numbers = np.minimum(with_it, least) @ weights
        return made

    return strokes
