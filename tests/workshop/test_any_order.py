"""Any changes to any demo set: refused with a sentence, or an order that crosses no limit and can be checked."""

from __future__ import annotations

import json
from functools import cache

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from asplayed.catalogue import Part, read_parts, settle
from asplayed.clubs import GolfSet
from asplayed.clubs.assembly import points_of
from asplayed.demo import LISTS, material
from asplayed.errors import BadInput
from asplayed.intake import read
from asplayed.intake.changes import read_changes
from asplayed.judgement.heads import bend_limit
from asplayed.quantities import plain
from asplayed.workshop import Order, Reading, order
from asplayed.workshop.checking import check
from asplayed.workshop.job import at


@cache
def catalogue() -> tuple[Part, ...]:
    return read_parts(material("catalogue.csv")).parts


@cache
def bag(name: str) -> GolfSet:
    return settle(read(material(f"lists/{name}.txt").decode(), parts=catalogue()), catalogue())


WORDS = st.one_of(
    st.builds(
        "bend {} {}".format, st.sampled_from([0.5, 1, 2, 3, 5]), st.sampled_from(["weak", "strong", "flat", "up"])
    ),
    st.builds("length {}".format, st.sampled_from([33, 35.5, 37, 38.25, 44.5, 46])),
    st.builds("{} in {}".format, st.sampled_from([0.25, 0.5, 1, 2]), st.sampled_from(["longer", "shorter"])),
    st.builds("shaft {}".format, st.sampled_from(["Level 120 S", "Ember 60 X", "Rung X ascending", "Cairn 95 g"])),
    st.builds("+{} wraps".format, st.integers(0, 12)),
    st.builds("tip mass {} g".format, st.sampled_from([0, 2, 4, 9, 12])),
    st.builds("tip trim {} in".format, st.sampled_from([0.5, 1, 2.5, 4])),
    st.sampled_from(["C5", "D2", "D4 at the tip", "E2", "inertia 2700", "grip Moss", "sleeve P2", "8 g heel", "drop"]),
)
WHO = st.sampled_from(["driver", "irons", "wedges", "7 iron", "PW", "SW", "LW", "putter", "5-PW", "all", "5 wood"])


def crosses_no_limit(found: Order) -> None:
    worked_on = {club.club.split(" (")[0]: club for club in found.clubs}
    for club in found.outcome.clubs:
        steps = worked_on.get(club.club)
        if steps is None:
            continue
        bent = {
            step.figure for step in steps.steps if step.operation == "loft and lie" and step.words.startswith("Bend")
        }
        for about in bent:
            assert abs(getattr(club.bend, about).number) <= bend_limit(club).high
        if any(step.operation == "tip mass" for step in steps.steps):
            assert at(club, "tip") <= 10
        if any(step.operation == "tip trim" for step in steps.steps):
            assert club.shaft.tip_trim.number <= 3
        if any(step.operation == "wraps and grip" for step in steps.steps):
            assert (club.grip.wraps if club.grip and club.grip.wraps else 0) <= 10
        operations = [step.operation for step in steps.steps]
        assert ("bond" in operations) == ("prepare" in operations)
        assert not {"bond", "extend"} & set(operations) or "cure" in operations
        assert all(step.cautions for step in steps.steps if step.operation != "loft and lie" or step.figure in bent)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(LISTS), st.lists(st.builds("{}: {}".format, WHO, WORDS), min_size=1, max_size=3))
def test_any_changes_are_refused_or_ordered_within_every_limit(name: str, texts: list[str]) -> None:
    try:
        found = order(bag(name), read_changes(texts, bag(name), catalogue()), parts=catalogue())
    except BadInput as fault:
        assert len(str(fault)) > 10
        assume(False)
    crosses_no_limit(found)
    json.dumps(plain(found), allow_nan=False)
    exact = [
        Reading(club=club.club, figure=step.figure, measured=step.target)
        for club in found.clubs
        for step in club.steps
        if step.operation == "measure"
    ]
    checked = check(found, exact)
    assert {figure.verdict for figure in checked.clubs} <= {"in"}
    for club in found.clubs:
        for step in club.steps:
            if step.figure == "swing_weight":
                assert points_of(step.target) is not None
