"""Where the list and published specifications differ, as findings."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources

from asplayed.clubs.records import Disagreement
from asplayed.judgement.findings import Finding, Level


@cache
def _meanings() -> Mapping[str, Mapping[str, str]]:
    text = resources.files("asplayed.judgement").joinpath("data/disagreements.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def judge_disagreements(disagreements: Sequence[Disagreement]) -> list[Finding]:
    """A finding for every disagreement, under its own code; none is ever a breach.

    >>> told = Disagreement(code="loft-not-made", club="driver", about="head.loft",
    ...     sentence="the driver is not made in 11.3°", source="specification 2024")
    >>> [(found.level, found.sentence) for found in judge_disagreements([told])]
    [('unusual', 'The driver is not made in 11.3°.')]
    """
    found = []
    for entry in disagreements:
        meaning = _meanings().get(entry.code, _meanings()["other"])
        level: Level = "note" if meaning["level"] == "note" else "unusual"
        found.append(
            Finding(
                code=entry.code,
                level=level,
                clubs=(entry.club,) if entry.club else (),
                sentence=f"{entry.sentence[:1].upper()}{entry.sentence[1:].rstrip('.')}.",
                why=meaning["why"],
                remedy=meaning["remedy"],
                figures=entry.figures,
                source=entry.source,
            )
        )
    return found
