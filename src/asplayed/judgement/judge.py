"""All findings about a set, the gravest first, the same set always in the same order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet, played_set
from asplayed.judgement.balancing import judge_balance
from asplayed.judgement.disagreements import judge_disagreements
from asplayed.judgement.findings import LEVELS, Finding
from asplayed.judgement.fittings import judge_fittings
from asplayed.judgement.gaps import judge_gaps
from asplayed.judgement.heads import judge_heads
from asplayed.judgement.legality import judge_rules
from asplayed.judgement.progressions import judge_progressions

if TYPE_CHECKING:
    from asplayed.players.flown import FlownSet


def judge(
    golf_set: GolfSet,
    local_rules: Sequence[str] = (),
    *,
    medical: bool = False,
    flown: FlownSet | None = None,
) -> tuple[Finding, ...]:
    """Findings about a set as played: by level, then by strokes at stake, the first club concerned, and code.

    `local_rules` names the Model Local Rules in force (`G-2`, `G-10`); `medical` says that a medical exception for
    length is asked for. `flown` is this very set as `players.fly_set` flew it: with it, the set is also judged in its
    player's hands. What was settled against published specifications brings its disagreements along.

    >>> from asplayed.clubs import Club, Head
    >>> from asplayed.quantities import figure
    >>> wedges = [Club(club=name, kind="wedge", head=Head(loft=figure(loft, "deg", "stated")))
    ...           for name, loft in (("gap wedge", 50), ("lob wedge", 60))]
    >>> [(found.code, found.level) for found in judge(GolfSet(clubs=tuple(wedges)))]
    [('loft-hole', 'flaw'), ('ball-unknown', 'note')]
    """
    return judge_played(played_set(golf_set), local_rules, medical=medical, flown=flown)


def judge_played(
    played: GolfSet,
    local_rules: Sequence[str] = (),
    *,
    medical: bool = False,
    flown: FlownSet | None = None,
) -> tuple[Finding, ...]:
    """As `judge`, of a set whose clubs' figures as played are filled in already.

    >>> judge_played(GolfSet())
    ()
    """
    found = [
        *judge_rules(played, local_rules, medical),
        *judge_gaps(played.clubs),
        *judge_progressions(played.clubs, played.set.hand),
        *judge_balance(played.clubs),
        *judge_heads(played.clubs, played.set.hand),
        *judge_fittings(played),
        *judge_disagreements(played.disagreements),
    ]
    if flown is not None:
        from asplayed.judgement.bodies import judge_player
        from asplayed.judgement.flights import judge_flights

        found += judge_flights(played, flown) + judge_player(played, flown)
    place = {club.club: i for i, club in reversed(list(enumerate(played.clubs)))}

    def order(finding: Finding) -> tuple[int, float, int, str, str]:
        at_stake = finding.figures.get("strokes")
        first = min((place.get(name, len(place)) for name in finding.clubs), default=len(place))
        return LEVELS.index(finding.level), -at_stake.number if at_stake else 0.0, first, finding.code, finding.sentence

    return tuple(sorted(found, key=order))
