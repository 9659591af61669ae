"""Settling against a published catalogue: what is filled in, what stays, what is asked, what is said to disagree."""

from __future__ import annotations

import math
from importlib import resources
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.catalogue import Catalogue, read_parts, settle
from asplayed.catalogue.parts import Part, part_from
from asplayed.clubs.records import (
    Ball,
    Club,
    GolfSet,
    Grip,
    Head,
    Passage,
    PutterParts,
    Question,
    SetFacts,
    Shaft,
    Sleeve,
)
from asplayed.quantities import Figure, Source, figure

PARTS = read_parts(resources.files("asplayed.demo").joinpath("catalogue.csv").read_bytes()).parts
CATALOGUE = Catalogue(PARTS)
DATE = "2025-10-26"


def deg(value: float) -> Figure:
    return figure(value, "deg", "stated")


def grams(value: float, source: str = "stated") -> Figure:
    return figure(value, "g", source)


def settled(*clubs: Club, date: str = DATE, **rest: Any) -> GolfSet:
    return settle(GolfSet(set=SetFacts(date=date), clubs=clubs, **rest), CATALOGUE)


def codes(golf_set: GolfSet) -> list[str]:
    return [disagreement.code for disagreement in golf_set.disagreements]


def driver(**fields: Any) -> Club:
    head = fields.pop("head", Head(name="Kittiwake 3", loft=deg(10.5)))
    return Club(lines=(1,), club="driver", kind="driver", head=head, **fields)


def wedge(name: str = "Turnstone 2", **head: Any) -> Club:
    return Club(lines=(1,), club="sand wedge", kind="wedge", head=Head(name=name, **head))


def iron(club: str = "7 iron", name: str = "Gannet 5", **fields: Any) -> Club:
    return Club(lines=(1,), club=club, kind="iron", head=Head(name=name), **fields)


# --- what is filled in --------------------------------------------------------------------------------------------


def test_published_figures_are_filled_in_and_name_their_document() -> None:
    club = settled(driver()).clubs[0]
    assert (club.head.maker, club.head.model, club.head.name) == ("Harrowmere", "Kittiwake 3", "Kittiwake 3")
    assert club.head.lie is not None
    assert (club.head.lie.value, club.head.lie.source) == (58, Source.PUBLISHED)
    assert club.head.lie.why == "published in Harrowmere specification sheet 2025 (2025-01)"
    assert club.head.documents == ("Harrowmere specification sheet 2025 (2025-01)",)
    assert club.length is not None
    assert club.length.value == 45.5


def test_an_iron_takes_the_row_of_its_club() -> None:
    bag = settled(iron("4 iron"), iron("9 iron"), iron("pitching wedge")).clubs
    assert [club.head.loft and club.head.loft.value for club in bag] == [23.5, 41.5, 46]


def test_a_change_of_length_goes_onto_the_published_length() -> None:
    club = settled(iron(length_change=figure(-0.5, "in", "stated"))).clubs[0]
    assert club.length is not None
    assert (club.length.value, club.length.source) == (36.5, Source.COMPUTED)
    built = settled(iron(length=figure(37.25, "in", "stated"))).clubs[0]
    assert built.length is not None
    assert (built.length.value, built.length.source) == (37.25, Source.STATED)


def test_a_stronger_figure_stays_and_a_weaker_one_gives_way() -> None:
    measured = figure(200.4, "g", "measured")
    assert settled(driver(head=Head(name="Kittiwake 3", loft=deg(10.5), mass=measured))).clubs[0].head.mass == measured
    usual = figure(200, "g", "common practice")
    mass = settled(driver(head=Head(name="Kittiwake 3", loft=deg(10.5), mass=usual))).clubs[0].head.mass
    assert mass is not None
    assert (mass.value, mass.source) == (199, Source.PUBLISHED)


def test_a_wedge_is_told_by_its_bounce_or_its_sole() -> None:
    assert settled(wedge(loft=deg(56), bounce=deg(10))).clubs[0].head.sole == "heel-and-toe relief"
    by_sole = settled(wedge(loft=deg(56), sole="crescent")).clubs[0].head
    assert by_sole.bounce is not None
    assert by_sole.bounce.value == 8


def test_a_putter_is_told_by_its_neck() -> None:
    club = Club(club="putter", kind="putter", head=Head(name="Avocet"), putter=PutterParts(neck="flow"))
    putter = settled(club).clubs[0].putter
    assert putter is not None
    assert putter.toe_hang is not None
    assert putter.toe_hang.value == 75
    named = settled(Club(club="putter", kind="putter", head=Head(name="Avocet plumber's neck"))).clubs[0].putter
    assert named is not None
    assert named.neck == "plumber's"


def test_an_ascending_set_gives_each_club_its_own_mass_and_drops_the_reader_question() -> None:
    spread = grams(110, "computed")
    asked = tuple(Question(line=1, club=name, about="shaft.mass", text="?") for name in ("3 iron", "pitching wedge"))
    bag = tuple(iron(name, shaft=Shaft(name="Rung", flex="X", mass=spread)) for name in ("3 iron", "pitching wedge"))
    found = settled(*bag, questions=asked)
    assert [club.shaft.mass and club.shaft.mass.value for club in found.clubs] == [114, 131.5]
    assert [club.shaft.ascending for club in found.clubs] == [True, True]
    assert found.questions == ()


def test_a_constant_set_says_so() -> None:
    shaft = settled(iron(shaft=Shaft(name="Strand Iron 80", flex="S"))).clubs[0].shaft
    assert shaft.ascending is False
    assert shaft.mass is not None
    assert shaft.mass.value == 81


def test_a_flex_is_settled_where_only_one_is_made_in_that_class() -> None:
    found = settled(driver(shaft=Shaft(name="Anvil 70")), date="2022-06-01")
    assert found.clubs[0].shaft.flex == "X"


def test_a_balance_point_from_the_butt_becomes_percent_from_the_tip() -> None:
    parts = [part_from(["part=shaft", "model=Ember", "length=40in", "balance=19in"])]
    shaft = settle(GolfSet(clubs=(driver(shaft=Shaft(name="Ember")),)), parts).clubs[0].shaft
    assert shaft.balance is not None
    # 19 in from the butt of a 40 in shaft is 21 in from its tip
    assert shaft.balance.value == pytest.approx(52.5)
    assert shaft.balance.unit == "percent"


def test_grips_and_balls_get_their_makers() -> None:
    found = settled(driver(grip=Grip(name="corded midsize")), ball=Ball(name="Crest", colour="yellow"))
    assert found.clubs[0].grip == Grip(
        name="corded midsize",
        maker="Tessary",
        model="Corded",
        mass=figure(62, "g", "published", why="published in Tessary and Norrby grip list (2024-04)"),
    )
    assert found.ball == Ball(name="Crest", maker="Pellan", model="Crest", colour="yellow")
    assert codes(found) == []


# --- sleeves ------------------------------------------------------------------------------------------------------


def test_a_position_on_the_chart_gives_its_changes() -> None:
    asked = (Question(line=1, club="driver", about="sleeve.loft_change", text="?"),)
    found = settled(driver(sleeve=Sleeve(position="p 8")), questions=asked)
    sleeve = found.clubs[0].sleeve
    assert sleeve is not None
    assert sleeve.loft_change is not None
    assert sleeve.lie_change is not None
    assert (sleeve.loft_change.value, sleeve.lie_change.value) == (-1.0, 1.5)
    assert found.questions == ()


def test_the_demo_chart_is_the_geometry_of_one_tilted_bore() -> None:
    # derived: a bore tilted by 1 degree, turned by t from its flattest mark, at a lie of 58 degrees: the face squared,
    # loft changes by sin t / sin 58 and lie by 1 - cos t; printed to a tenth
    rows = [part for part in PARTS if part.part == "sleeve" and part.model == "Kittiwake 3"]
    assert len(rows) == 12
    for row in rows:
        turn = math.radians(30 * int((row.variant or "").removeprefix("P")))
        assert row.number("loft change") == pytest.approx(math.sin(turn) / math.sin(math.radians(58)), abs=0.051)
        assert row.number("lie change") == pytest.approx(1 - math.cos(turn), abs=0.051)


def test_a_stated_change_finds_its_position_or_asks_between_two() -> None:
    sleeve = settled(driver(sleeve=Sleeve(loft_change=deg(1.2)))).clubs[0].sleeve
    assert sleeve is not None
    assert sleeve.position == "P3"
    whimbrel = Head(name="Whimbrel", loft=deg(10.5))
    found = settled(driver(head=whimbrel, sleeve=Sleeve(loft_change=deg(-0.75))))
    assert found.questions[0].answers == ("N-: loft −0.75°, lie 0°", "U-: loft −0.75°, lie 0.75°")


def test_a_change_stated_beside_a_position_stays_and_the_chart_is_said() -> None:
    found = settled(driver(sleeve=Sleeve(position="P3", loft_change=deg(-1.2))))
    assert found.clubs[0].sleeve is not None
    assert found.clubs[0].sleeve.loft_change == deg(-1.2)
    assert codes(found) == ["figures-differ"]
    assert {name: told.value for name, told in found.disagreements[0].figures.items()} == {
        "stated": -1.2,
        "published": 1.2,
    }


# --- disagreements ------------------------------------------------------------------------------------------------

EMBER = "Ember"


@pytest.mark.parametrize(
    ("club", "code"),
    [
        (driver(head=Head(name="Kittiwake 3", loft=deg(9.5))), "loft-not-made"),
        (wedge(loft=deg(58), bounce=deg(9)), "bounce-not-made"),
        (wedge(loft=deg(60), sole="full sole"), "sole-not-made"),
        (wedge(loft=deg(56), bounce=deg(8), lie=deg(61)), "figures-differ"),
        (iron("2 iron"), "club-not-made"),
        (iron(name="Gannet 4"), "part-withdrawn"),
        (driver(shaft=Shaft(name="Ember 60", flex="TX")), "flex-withdrawn"),
        (driver(shaft=Shaft(name="Ember 50", flex="X")), "flex-never-offered"),
        (driver(shaft=Shaft(name="Anvil 60", flex="S")), "part-withdrawn"),
        (driver(shaft=Shaft(name=EMBER, flex="S", mass=grams(61))), "mass-of-another-flex"),
        (driver(shaft=Shaft(name=EMBER, flex="X", mass=grams(90))), "figures-differ"),
        (driver(shaft=Shaft(name=EMBER, flex="X", mass=grams(70))), "mass-is-class"),
        (driver(shaft=Shaft(name="Cairn 125", flex="S")), "made-for-another-club"),
        (driver(sleeve=Sleeve(position="B3")), "sleeve-position-not-on-chart"),
        (driver(sleeve=Sleeve(loft_change=deg(2.5))), "sleeve-change-not-on-chart"),
        (driver(grip=Grip(name="hand-sewn Marlow")), "part-unknown"),
        (driver(grip=Grip(name="Feather")), "part-withdrawn"),
        (iron(name="Gannet"), "several-candidates"),
        (iron(shaft=Shaft(name="Rung", flex="X", ascending=False)), "ascending-differs"),
        (
            Club(club="4 hybrid", kind="hybrid", head=Head(name="Whimbrel", loft=deg(21))),
            "documents-differ",
        ),
    ],
)
def test_what_the_catalogue_denies_is_said_with_its_document(club: Club, code: str) -> None:
    found = settled(club)
    assert codes(found) == [code]
    assert found.disagreements[0].source
    assert found.disagreements[0].club == club.club


def test_a_list_older_than_a_part_is_said_and_a_generation_not_yet_offered_is_not_taken() -> None:
    assert codes(settled(driver(), date="2024-06-01")) == ["part-not-yet-offered"]
    found = settled(driver(head=Head(name="Kittiwake", loft=deg(10.5))), date="2024-06-01")
    assert found.clubs[0].head.model == "Kittiwake 2"


def test_what_was_on_offer_on_the_day_is_not_withdrawn() -> None:
    assert codes(settled(driver(shaft=Shaft(name="Ember 60", flex="TX")), date="2024-09-30")) == [
        "part-not-yet-offered"
    ]
    old = Head(name="Kittiwake 2", loft=deg(10.5))
    assert codes(settled(driver(head=old, shaft=Shaft(name="Ember 60", flex="TX")), date="2024-09-30")) == []
    assert codes(settled(driver(head=old, shaft=Shaft(name="Ember 60", flex="TX")), date="2024-10-01")) == [
        "flex-withdrawn"
    ]


def test_a_part_kept_on_purpose_is_noted_as_such() -> None:
    kept = (Passage(line=1, club="driver", text="kept it, launches higher than the new one"),)
    found = settled(driver(head=Head(name="Kittiwake 2", loft=deg(10.5))), notes=kept)
    assert codes(found) == ["earlier-generation"]
    assert "Kittiwake 3 has followed it" in found.disagreements[0].sentence


def test_words_that_nobody_understood_still_say_that_a_part_is_kept() -> None:
    old = driver(head=Head(name="Kittiwake 2", loft=deg(10.5)))
    found = settled(old, not_understood=(Passage(line=1, text="keeps this older model"),))
    assert codes(found) == ["earlier-generation"]
    elsewhere = settled(old, not_understood=(Passage(line=7, text="keeps this older model"),))
    assert codes(elsewhere) == ["part-withdrawn"]


def test_a_club_is_of_the_kind_its_model_is() -> None:
    asked = (Question(line=1, club="2 iron", about="shaft.flex", text="?"),)
    club = Club(lines=(1,), club="2 iron", kind="iron", head=Head(name="Redshank", loft=deg(18)))
    found = settled(club, questions=asked)
    assert (found.clubs[0].club, found.clubs[0].kind) == ("2 driving iron", "driving iron")
    assert found.questions[0].club == "2 driving iron"
    assert codes(found) == []
    own = Club(club="gap wedge", kind="wedge", head=Head(name="Dunlin", loft=deg(49.5)))
    assert settled(own).clubs[0].kind == "iron"
    specialty = Club(club="gap wedge", kind="iron", head=Head(name="Turnstone 2", loft=deg(52), bounce=deg(8)))
    assert settled(specialty).clubs[0].kind == "wedge"


def test_a_grip_is_told_by_its_size_or_its_mass() -> None:
    for grip, notes in (
        (Grip(name="Moss undersize"), ()),
        (Grip(name="Moss", mass=grams(42)), ()),
        (Grip(name="Moss"), (Passage(line=1, club="driver", text="undersize"),)),
    ):
        found = settled(driver(grip=grip), notes=notes)
        settled_grip = found.clubs[0].grip
        assert settled_grip is not None
        assert settled_grip.mass is not None
        assert settled_grip.mass.value == 42
        assert codes(found) == []


def test_figures_within_the_tolerance_of_making_do_not_disagree() -> None:
    # common practice: a head is made to ±2 g and ±1 degree
    near = Head(name="Kittiwake 3", loft=deg(10.5), mass=grams(200.9), lie=deg(57.1))
    assert codes(settled(driver(head=near))) == []
    assert codes(settled(driver(head=msgspec.structs.replace(near, mass=grams(201.1))))) == ["figures-differ"]


def test_another_flex_of_the_same_mass_is_no_disagreement_when_the_own_is_near() -> None:
    assert codes(settled(driver(shaft=Shaft(name=EMBER, flex="X", mass=grams(65))))) == []


def test_a_mass_stated_by_its_class_stays_with_a_band_that_holds_the_published_one() -> None:
    mass = settled(driver(shaft=Shaft(name=EMBER, flex="X", mass=grams(60)))).clubs[0].shaft.mass
    assert mass is not None
    # published 66 g, made to ±2 g by common practice
    assert (mass.value, mass.low, mass.high, mass.source) == (60, 60, 68, Source.STATED)


# --- questions ----------------------------------------------------------------------------------------------------


def test_what_only_the_user_can_decide_is_asked_once_with_answers_best_first() -> None:
    found = settled(iron("4 iron", "Gannet"), iron("5 iron", "Gannet"))
    assert len(found.questions) == 1
    assert found.questions[0].about == "head.name"
    assert found.questions[0].answers == ("Oskell Gannet 5", "Oskell Gannet 4")
    assert all(club.head.model is None for club in found.clubs)


def test_a_reader_question_is_replaced_by_one_with_the_published_answers() -> None:
    asked = (Question(line=1, club="sand wedge", about="head.bounce", text="bounce?"),)
    found = settled(wedge(loft=deg(56)), questions=asked)
    assert [question.answers for question in found.questions] == [
        ("8°, crescent", "10°, heel-and-toe relief", "14°, full sole")
    ]


def test_a_question_the_catalogue_does_not_answer_stays() -> None:
    asked = (Question(line=None, club=None, about="hand", text="hand?"),)
    assert settled(driver(), questions=asked).questions == asked


# --- laws ---------------------------------------------------------------------------------------------------------

BAG = (
    driver(sleeve=Sleeve(position="P4"), shaft=Shaft(name="Ember", flex="TX", mass=grams(60)), grip=Grip(name="Moss")),
    iron("5 iron", shaft=Shaft(name="Rungs", flex="S"), length_change=figure(0.25, "in", "stated")),
    iron("6 iron", "Gannet"),
    wedge(loft=deg(58), bounce=deg(9)),
    Club(club="putter", kind="putter", head=Head(name="Lapwing"), grip=Grip(name="Marlow")),
)


def test_settling_twice_is_settling_once() -> None:
    once = settled(*BAG, ball=Ball(name="Gale", colour="orange"))
    assert settle(once, CATALOGUE) == once


def test_the_order_of_the_catalogue_does_not_matter() -> None:
    one, other = (settle(GolfSet(set=SetFacts(date=DATE), clubs=BAG), parts) for parts in (PARTS, PARTS[::-1]))
    assert one.clubs == other.clubs
    assert sorted(codes(one)) == sorted(codes(other))


def test_the_words_of_the_user_are_kept_and_an_empty_catalogue_changes_nothing() -> None:
    before = GolfSet(set=SetFacts(date=DATE), clubs=BAG)
    assert settle(before, ()) == before
    for told, club in zip(settle(before, CATALOGUE).clubs, BAG, strict=True):
        assert (told.head.name, told.shaft.name) == (club.head.name, club.shaft.name)


def test_what_the_catalogue_has_no_kind_of_is_not_called_unknown() -> None:
    heads: tuple[Part, ...] = tuple(part for part in PARTS if part.part == "head")
    found = settle(GolfSet(set=SetFacts(date=DATE), clubs=(driver(grip=Grip(name="Marlow")),)), heads)
    assert codes(found) == []


NAMES = st.one_of(
    st.text(max_size=20),
    st.sampled_from([part.model for part in PARTS]),
    st.sampled_from([part.nickname[0] for part in PARTS if part.nickname]),
)
ANY_ANGLE = st.none() | st.floats(-10, 80).map(deg)
ANY_MASS = st.none() | st.floats(20, 140).map(grams) | st.just(Figure(None, "g", Source.STATED, low=95.0, high=115.0))
KINDS = {"driver": "driver", "5 wood": "fairway wood", "4 hybrid": "hybrid", "7 iron": "iron", "lob wedge": "wedge"}


@given(st.data())
def test_any_set_settles_and_keeps_its_words_and_what_was_stated(data: st.DataObject) -> None:
    name, kind = data.draw(st.sampled_from([*KINDS.items(), ("putter", "putter"), ("2 iron", "iron")]))
    club = Club(
        club=name,
        kind=kind,  # type: ignore[arg-type]
        head=data.draw(st.builds(Head, name=NAMES, loft=ANY_ANGLE, bounce=ANY_ANGLE, sole=st.none() | NAMES)),
        sleeve=data.draw(st.none() | st.builds(Sleeve, position=st.none() | NAMES, loft_change=ANY_ANGLE)),
        shaft=data.draw(
            st.builds(Shaft, name=NAMES, flex=st.none() | st.sampled_from(["S", "X", "6.0"]), mass=ANY_MASS)
        ),
        grip=data.draw(st.none() | st.builds(Grip, name=NAMES, mass=ANY_MASS)),
    )
    once = settled(club)
    told = once.clubs[0]
    assert (told.head.name, told.shaft.name) == (club.head.name, club.shaft.name)
    for before, after in ((club.head.loft, told.head.loft), (club.head.bounce, told.head.bounce)):
        assert before is None or before == after
    if club.shaft.mass is not None and club.shaft.mass.has_number:
        assert told.shaft.mass is not None
        assert told.shaft.mass.value == club.shaft.mass.value
    assert settle(once, CATALOGUE) == once
