"""All findings about a set, the gravest first, the same set always in the same order."""

from __future__ import annotations

from collections.abc import Sequence

from asplayed.clubs import GolfSet, played_set
from asplayed.judgement.balancing import judge_balance
from asplayed.judgement.disagreements import judge_disagreements
from asplayed.judgement.findings import LEVELS, Finding
from asplayed.judgement.fittings import judge_fittings
from asplayed.judgement.gaps import judge_gaps
from asplayed.judgement.heads import judge_heads
from asplayed.judgement.legality import judge_rules
from asplayed.judgement.progressions import judge_progressions


def judge(golf_set: GolfSet, local_rules: Sequence[str] = ()) -> tuple[Finding, ...]:
    """Findings about a set as played: by level, then by the first club concerned, then by code.

    `local_rules` names the Model Local Rules in force (`G-2`, `G-10`). What was settled against published
    specifications brings its disagreements along.

    >>> from asplayed.clubs import Club, Head
    >>> from asplayed.quantities import figure
    >>> wedges = [Club(club=name, kind="wedge", head=Head(loft=figure(loft, "deg", "stated")))
    ...           for name, loft in (("gap wedge", 50), ("lob wedge", 60))]
    >>> [(found.code, found.level) for found in judge(GolfSet(clubs=tuple(wedges)))]
    [('loft-hole', 'flaw'), ('ball-unknown', 'note')]
    """
    played = played_set(golf_set)
    found = [
        *judge_rules(played, local_rules),
        *judge_gaps(played.clubs),
        *judge_progressions(played.clubs, played.set.hand),
        *judge_balance(played.clubs),
        *judge_heads(played.clubs, played.set.hand),
        *judge_fittings(played),
        *judge_disagreements(played.disagreements),
    ]
    place = {club.club: i for i, club in reversed(list(enumerate(played.clubs)))}

    def order(finding: Finding) -> tuple[int, int, str, str]:
        first = min((place.get(name, len(place)) for name in finding.clubs), default=len(place))
        return LEVELS.index(finding.level), first, finding.code, finding.sentence

    return tuple(sorted(found, key=order))
