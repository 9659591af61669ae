"""The books balance: parts sum to their club, orders make what their what-ifs show, checks hold to their orders."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from asplayed.catalogue import Part, read_parts, settle
from asplayed.catalogue.changes import apply_settled
from asplayed.clubs import AsPlayed, Club, GolfSet, Grip, Head, Shaft, played_set
from asplayed.demo import LISTS, material
from asplayed.errors import BadInput
from asplayed.intake import read
from asplayed.intake.changes import read_changes
from asplayed.keeping import Store
from asplayed.keeping.balancing import of_check, of_order, of_set
from asplayed.keeping.orders import save_order, save_signed
from asplayed.keeping.proving import prove
from asplayed.quantities import Figure, Source, figure
from asplayed.workshop import Order, Reading, order
from asplayed.workshop.checking import check, sign

from .conftest import times


@cache
def catalogue() -> tuple[Part, ...]:
    return read_parts(material("catalogue.csv")).parts


@cache
def bag(name: str) -> GolfSet:
    return settle(read(material(f"lists/{name}.txt").decode(), parts=catalogue()), catalogue())


grams = st.floats(30, 140).map(lambda value: figure(round(value, 1), "g", "measured"))
clubs = st.builds(
    Club,
    club=st.just("7 iron"),
    kind=st.sampled_from(["driver", "fairway wood", "hybrid", "iron", "wedge", "putter"]),
    head=st.builds(Head, mass=st.none() | st.floats(180, 380).map(lambda value: figure(value, "g", "measured"))),
    shaft=st.builds(
        Shaft,
        mass=st.none() | grams,
        length=st.none() | st.floats(36, 46).map(lambda value: figure(value, "in", "measured")),
        tip_trim=st.none() | st.floats(0, 2).map(lambda value: figure(value, "in", "stated")),
        balance=st.none() | st.floats(42, 58).map(lambda value: figure(value, "percent", "measured")),
    ),
    grip=st.none() | st.builds(Grip, mass=st.none() | grams, wraps=st.none() | st.sampled_from([0.0, 1.0, 3.0])),
    length=st.none() | st.floats(33, 46).map(lambda value: figure(value, "in", "stated")),
)


@settings(max_examples=times(60, 2000), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(clubs)
def test_the_parts_of_any_club_sum_to_it(club: Club) -> None:
    try:
        played = played_set(GolfSet(clubs=(club,)))
    except BadInput:  # parts that make no club
        assume(False)
    assert list(of_set(played)) == []


def test_a_club_summed_by_hand() -> None:
    """270 g, a 120 g shaft of 38 in cut to 35.5 in by its butt, 50 g of grip, 3 g of tape, 3 g of fittings: 438.1 g.

    A uniform shaft keeps 35.5/38 of its mass: 112.105 g. Tape, fittings and the shaft's end 1.5 in above the sole are
    the trade's usual ones.
    """
    iron = Club(
        club="7 iron", kind="iron",
        head=Head(mass=figure(270, "g", "measured")),
        grip=Grip(mass=figure(50, "g", "measured")),
        shaft=Shaft(
            mass=figure(120, "g", "measured"), length=figure(38, "in", "measured"),
            balance=figure(50, "percent", "measured"),
        ),
        length=figure(37, "in", "stated"),
    )  # fmt: skip
    played = played_set(GolfSet(clubs=(iron,)))
    mass = played.clubs[0].as_played.mass
    assert mass is not None
    parents = {parent.name: parent.figure.number for parent in mass.parents}
    usual = parents["tape_mass"] + parents["fittings_mass"]
    assert parents["shaft_reach"] == 1.5
    assert mass.number == pytest.approx(270 + 120 * 35.5 / 38 + 50 + usual, abs=0.01)


@pytest.mark.parametrize("code", ["mass-of-parts", "length-of-parts"])
def test_a_club_that_is_not_its_parts_is_told_by_a_code(code: str, monkeypatch: pytest.MonkeyPatch) -> None:
    from asplayed.keeping import balancing

    played = played_set(GolfSet(clubs=(Club(club="7 iron", kind="iron"),)))
    club = played.clubs[0]
    mass = club.as_played.mass
    assert mass is not None
    if code == "mass-of-parts":
        club = replace(club, as_played=replace(club.as_played, mass=replace(mass, value=mass.number + 0.1)))
    else:
        real = balancing.summed
        monkeypatch.setattr(balancing, "summed", lambda *given: (real(*given)[0] + 0.001, real(*given)[1]))
    assert [found.code for found in of_set(replace(played, clubs=(club,)))] == [code]


what = st.one_of(
    st.builds("bend {} {}".format, st.sampled_from([0.5, 1, 2]), st.sampled_from(["weak", "strong", "flat", "up"])),
    st.builds("{} in {}".format, st.sampled_from([0.25, 0.5, 1]), st.sampled_from(["longer", "shorter"])),
    st.builds("+{} wraps".format, st.integers(0, 6)),
    st.builds("tip mass {} g".format, st.sampled_from([2, 4, 9])),
    st.sampled_from(["shaft Level 120 S", "D4 at the tip", "D2", "grip Moss", "tip trim 0.5 in", "drop"]),
)
whose = st.sampled_from(["driver", "irons", "wedges", "7 iron", "PW", "SW", "putter", "5-PW"])


def figures_of(golf_set: GolfSet) -> list[dict[str, object]]:
    told = []
    for club in golf_set.clubs:
        entries = {field: getattr(club.as_played, field) for field in AsPlayed.__struct_fields__}
        told.append({field: entry.value for field, entry in entries.items() if isinstance(entry, Figure)})
    return told


@settings(max_examples=times(25, 400), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(LISTS), st.lists(st.builds("{}: {}".format, whose, what), min_size=1, max_size=2))
def test_an_order_makes_the_set_that_its_what_if_shows(name: str, texts: list[str]) -> None:
    try:
        changes = read_changes(texts, bag(name), catalogue())
        found = order(bag(name), changes, parts=catalogue())
        shown = played_set(apply_settled(bag(name), changes, catalogue()))
    except BadInput:
        assume(False)
    assert figures_of(found.outcome) == figures_of(shown)
    assert list(of_order(found)) == list(of_set(found.outcome)) == []


def an_order(store: Store) -> Order:
    """The order of a kept set, kept too."""
    name = LISTS[0]
    store.save_set("ada", bag(name), "words", who="tester")
    changes = read_changes(["PW: bend 1 weak"], bag(name), catalogue())
    made = order(bag(name), changes, parts=catalogue(), set_name="ada", set_version=1)
    save_order(store, made, who="tester")
    return made


def test_a_signed_order_is_balanced_in_the_store(store: Store) -> None:
    made = an_order(store)
    [club] = made.clubs
    step = next(step for step in club.steps if step.figure == "loft" and step.target is not None)
    assert step.target is not None
    readings = [Reading(club=club.club, figure="loft", measured=replace(step.target, source=Source.MEASURED))]
    signed, outcome = sign(made, check(made, readings), readings, "Priya", "2026-01-01T12:00:00Z")
    save_signed(store, made, signed, outcome, who="Priya")
    assert prove(store.place).faults == ()
    assert list(of_check(signed, made)) == []
    moved = tuple(replace(each, target=replace(each.target, value=each.target.number + 1)) for each in signed.clubs[:1])
    assert [found.code for found in of_check(replace(signed, clubs=moved), made)] == ["check-of-order"]
    assert [found.code for found in of_check(signed, None)] == ["check-of-order"]


def test_an_order_that_aims_elsewhere_is_told_by_verify(store: Store) -> None:
    made = an_order(store)
    [club] = made.clubs
    steps = tuple(
        replace(step, target=replace(step.target, value=step.target.number + 1))
        if step.operation == "measure" and step.figure == "lie" and step.target
        else step
        for step in club.steps
    )
    wrong = replace(made, order="ada-wrong", clubs=(replace(club, steps=steps),))
    assert "order-of-outcome" in {found.code for found in of_order(wrong)}
    save_order(store, wrong, who="tester")
    assert any("(order-of-outcome)" in fault for fault in prove(store.place).faults)
