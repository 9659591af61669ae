"""What every figure as played must keep: its chain, its band, its source, and sense when something changes."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from asplayed.clubs import (
    AsPlayed,
    Bend,
    Club,
    GolfSet,
    Grip,
    Head,
    PutterParts,
    Shaft,
    Sleeve,
    Stated,
    Weight,
    as_played,
    as_read,
    played_set,
)
from asplayed.clubs.assembly import flex_frequency, points_of, uniform_frequency, whole_club
from asplayed.clubs.hand import side, to_the_right
from asplayed.errors import BadInput
from asplayed.mechanics.balance import swing_weight_text
from asplayed.mechanics.shaft import frequency as beam_frequency
from asplayed.quantities import Figure, Source, chain, figure, to_si

KINDS = {
    "driver": "driver",
    "3 wood": "fairway wood",
    "4 hybrid": "hybrid",
    "2 driving iron": "driving iron",
    "7 iron": "iron",
    "pitching wedge": "iron",
    "sand wedge": "wedge",
    "chipper": "wedge",
    "putter": "putter",
}


def stated(value: float | str, unit: str) -> Figure:
    return figure(value, unit, "stated")


def number(entry: Figure | None) -> float:
    assert entry is not None
    return entry.number


SOURCES = st.sampled_from(["measured", "stated", "published"])


def figures(low: float, high: float, unit: str) -> st.SearchStrategy[Figure | None]:
    made = st.builds(
        lambda value, source: figure(value, unit, source),
        st.floats(low, high, allow_nan=False).map(lambda x: round(x, 3)),
        SOURCES,
    )
    return st.none() | made


@st.composite
def clubs(draw: st.DrawFn) -> Club:
    name = draw(st.sampled_from(list(KINDS)))
    kind: Any = KINDS[name]
    loft = (8, 13) if kind == "driver" else (2, 6) if kind == "putter" else (16, 62)
    sleeve = draw(st.none() | st.builds(Sleeve, loft_change=figures(-2, 2, "deg"), lie_change=figures(-2, 2, "deg")))
    return Club(
        club=name,
        kind=kind,
        head=Head(
            loft=draw(figures(*loft, "deg")),
            lie=draw(figures(56, 66, "deg")),
            bounce=draw(figures(2, 14, "deg")),
            mass=draw(figures(195, 320, "g")),
            offset=draw(figures(0, 5, "mm")),
            face=draw(figures(-2, 2, "deg")),
        ),
        sleeve=sleeve if kind in ("driver", "fairway wood", "hybrid") else None,
        bend=Bend(loft=draw(figures(-3, 3, "deg")), lie=draw(figures(-3, 3, "deg"))),
        weights=draw(st.sampled_from([(), (Weight(place="heel"),), (Weight(place="back", mass=stated(12, "g")),)])),
        shaft=Shaft(
            mass=draw(figures(45, 135, "g")),
            flex=draw(st.sampled_from([None, "R", "S+", "X-", "5.5"])),
            balance=draw(figures(46, 56, "percent")),
            ascending=draw(st.sampled_from([None, True])),
        ),
        grip=draw(st.none() | st.builds(Grip, mass=figures(25, 75, "g"), wraps=st.sampled_from([None, 0.0, 2.0]))),
        length=draw(figures(33.5, 47, "in")),
        stated=Stated(mass=draw(figures(300, 480, "g")), swing_weight=draw(st.none() | st.just(stated("D2.5", "1")))),
        putter=PutterParts(toe_hang=draw(figures(0, 60, "deg"))) if kind == "putter" else None,
    )


def entries(played: AsPlayed) -> dict[str, Figure]:
    found = {name: getattr(played, name) for name in played.__struct_fields__}
    return {name: entry for name, entry in found.items() if entry is not None}


@settings(max_examples=60, deadline=None)
@given(clubs())
def test_every_figure_has_a_source_a_reason_and_a_band_around_its_value(club: Club) -> None:
    for name, entry in entries(as_played(club)).items():
        assert entry.why, name
        for _, _, link in chain(entry):
            if link.has_number and link.low is not None and link.high is not None:
                assert link.low - 1e-9 <= link.number <= link.high + 1e-9
        known = points_of(entry) if name == "swing_weight" else entry
        assert known is not None and known.low is not None and known.high is not None, name


@settings(max_examples=60, deadline=None)
@given(clubs())
def test_working_a_club_out_twice_changes_nothing(club: Club) -> None:
    once = as_played(club)
    assert as_played(replace(club, as_played=once)) == once


@settings(max_examples=60, deadline=None)
@given(clubs(), st.floats(-2, 2).filter(lambda x: abs(x) > 0.01))
def test_a_later_bend_still_counts_on_a_club_worked_out_before(club: Club, bend: float) -> None:
    before = replace(club, bend=Bend())
    worked_out = replace(before, as_played=as_played(before))
    later = as_played(replace(worked_out, bend=Bend(loft=stated(bend, "deg"))))
    assert number(later.loft) == pytest.approx(number(worked_out.as_played.loft) + bend, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(clubs())
def test_sums_are_the_sums_of_their_parents(club: Club) -> None:
    played = as_played(club)
    for name in ("loft", "lie", "bounce"):
        entry = getattr(played, name)
        if entry is not None and entry.parents:
            total = sum(parent.figure.in_unit(entry.unit).number for parent in entry.parents)
            assert entry.number == pytest.approx(total, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(clubs())
def test_masses_can_be_worked_out_again_from_their_parents(club: Club) -> None:
    played = as_played(club)
    for name, pick, scale in (
        ("butt_inertia", "butt_inertia", 1e4),
        ("balance_point", "balance_point", 1 / 0.0254),
        ("mass", "mass", 1e3),
    ):
        entry = getattr(played, name)
        if entry.source is Source.COMPUTED:
            again = {parent.name: to_si(parent.figure.number, parent.figure.unit) for parent in entry.parents}
            assert entry.number == pytest.approx(scale * getattr(whole_club(**again), pick), rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(clubs())
def test_what_is_read_is_what_is_played(club: Club) -> None:
    read, played = as_read(club), as_played(club)
    for name in ("loft", "lie", "bounce", "length"):
        if getattr(read, name) is not None:
            assert getattr(read, name) == getattr(played, name)
    assert set(entries(read)) <= {"loft", "lie", "bounce", "length"}


@settings(max_examples=40, deadline=None)
@given(st.floats(33, 47), st.floats(195, 300))
def test_inches_and_millimetres_are_the_same_club(length: float, head: float) -> None:
    def played(entry: Figure, mass: Figure) -> AsPlayed:
        return as_played(Club(club="5 wood", kind="fairway wood", length=entry, head=Head(mass=mass)))

    inch = entries(played(stated(length, "in"), stated(head, "g")))
    metric = entries(played(stated(length * 25.4, "mm"), stated(head / 1000, "kg")))
    assert inch.keys() == metric.keys()
    for name, entry in inch.items():
        twin = metric[name]
        if entry.has_number:
            assert twin.in_unit(entry.unit).number == pytest.approx(entry.number, rel=1e-9)
            if entry.low is not None:
                assert twin.in_unit(entry.unit).low == pytest.approx(entry.low, rel=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(list(KINDS)), st.integers(1, 8))
def test_tape_under_the_grip_adds_mass_and_takes_swing_weight(name: str, wraps: int) -> None:
    plain_club = Club(club=name, kind=KINDS[name], grip=Grip(wraps=0))  # type: ignore[arg-type]
    taped = replace(plain_club, grip=Grip(wraps=wraps))
    before, after = as_played(plain_club), as_played(taped)
    assert number(after.mass) == pytest.approx(number(before.mass) + 1.5 * wraps)
    assert number(points_of(after.swing_weight)) < number(points_of(before.swing_weight))
    if before.grip_size is not None:
        assert number(after.grip_size) > number(before.grip_size)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([name for name in KINDS if name != "putter"]), st.floats(200, 290), st.floats(0.5, 10))
def test_more_head_is_more_of_everything_but_frequency(name: str, head: float, more: float) -> None:
    light, heavy = (
        as_played(Club(club=name, kind=KINDS[name], head=Head(mass=stated(mass, "g"))))  # type: ignore[arg-type]
        for mass in (head, head + more)
    )
    assert number(heavy.mass) == pytest.approx(number(light.mass) + more)
    assert number(heavy.butt_inertia) > number(light.butt_inertia)
    assert number(heavy.balance_point) > number(light.balance_point)
    assert number(points_of(heavy.swing_weight)) > number(points_of(light.swing_weight))
    assert number(heavy.frequency) < number(light.frequency)


@settings(max_examples=50, deadline=None)
@given(st.floats(0.7, 1.2), st.floats(0.15, 0.4), st.floats(0.03, 0.12), st.floats(20, 120))
def test_the_quick_beam_is_the_beam(length: float, tip: float, beam: float, stiffness: float) -> None:
    found = beam_frequency(
        beam_length=length,
        tip_mass=tip,
        mass_per_length=beam / length,
        stiffness_clamp=stiffness,
        stiffness_tip=stiffness,
    )
    assert uniform_frequency(length, tip, beam, stiffness) == pytest.approx(found.frequency, rel=1e-5)


@pytest.mark.parametrize("name", KINDS)
def test_a_bare_name_still_gives_figures_marked_as_usual(name: str) -> None:
    played = as_played(Club(club=name, kind=KINDS[name]))  # type: ignore[arg-type]
    for wanted in ("loft", "lie", "length"):
        assert getattr(played, wanted).source is Source.COMMON_PRACTICE
    for wanted in ("mass", "balance_point", "swing_weight", "butt_inertia"):
        assert getattr(played, wanted).weakest is Source.COMMON_PRACTICE
    assert (played.frequency is None) == (name == "putter")
    assert (played.face is not None) == (name in ("driver", "3 wood", "4 hybrid"))


def test_a_gauge_narrows_the_band_and_a_stamp_keeps_the_production_tolerance() -> None:
    def loft(source: str) -> Figure:
        played = as_played(Club(club="7 iron", kind="iron", head=Head(loft=figure(33, "deg", source))))
        assert played.loft is not None
        return played.loft

    assert loft("stated").half_width == pytest.approx(1.0)
    assert loft("measured").half_width == pytest.approx(0.25)


def test_a_measured_loft_stands_against_stamp_and_bend() -> None:
    club = Club(
        club="sand wedge",
        kind="wedge",
        head=Head(loft=stated(56, "deg")),
        bend=Bend(loft=stated(1, "deg")),
        as_played=AsPlayed(loft=figure(57.5, "deg", "measured")),
    )
    played = as_played(club).loft
    assert played is not None
    assert (played.value, played.source, played.low) == (57.5, Source.MEASURED, 57.25)


def test_a_stated_lie_of_the_club_is_not_bent_again() -> None:
    club = Club(
        club="7 iron",
        kind="iron",
        bend=Bend(lie=stated(2, "deg")),
        as_played=AsPlayed(lie=stated(64, "deg")),
    )
    assert number(as_played(club).lie) == 64


def test_a_sleeve_position_without_a_chart_widens_the_loft_and_says_so() -> None:
    club = Club(club="driver", kind="driver", head=Head(loft=stated(10, "deg")), sleeve=Sleeve(position="P7"))
    loft = as_read(club).loft
    assert loft is not None
    assert loft.value == 10 and loft.half_width > 1.5
    assert loft.weakest is Source.ASSUMED
    assert any("P7" in (link.why or "") for _, _, link in chain(loft))


def test_a_length_change_counts_from_the_usual_length() -> None:
    club = Club(club="driver", kind="driver", length_change=stated(-0.5, "in"))
    assert as_read(club).length == as_played(club).length
    assert number(as_played(club).length) == 44.75


def test_a_stated_swing_weight_settles_an_unknown_head() -> None:
    club = Club(club="7 iron", kind="iron", stated=Stated(swing_weight=stated("D4", "1")))
    played = as_played(club)
    assert played.swing_weight is not None and played.swing_weight.value == "D4"
    assert played.butt_inertia is not None
    head = next(parent.figure for parent in played.butt_inertia.parents if parent.name == "head_mass")
    assert head.source is Source.COMPUTED and 275 < head.number < 290
    again = {p.name: to_si(p.figure.number, p.figure.unit) for p in played.butt_inertia.parents}
    assert swing_weight_text(whole_club(**again).swing_weight_points) == "D4.00"


def test_a_stated_total_settles_an_unknown_head_too() -> None:
    played = as_played(Club(club="driver", kind="driver", stated=Stated(mass=stated(318, "g"))))
    assert played.mass is not None and (played.mass.value, played.mass.source) == (318, Source.STATED)
    assert played.butt_inertia is not None
    head = next(parent.figure for parent in played.butt_inertia.parents if parent.name == "head_mass")
    others = number(as_played(Club(club="driver", kind="driver")).mass) - 200.5
    assert head.number == pytest.approx(318 - others, abs=1e-6)


def test_mass_and_balance_from_the_bench_give_the_swing_weight() -> None:
    # 325 g balancing at 33.0 in: 217.82 in·oz, D2.47 (first moment about 14 in)
    bench = AsPlayed(mass=figure(325, "g", "measured"), balance_point=figure(33, "in", "measured"))
    played = as_played(Club(club="driver", kind="driver", as_played=bench))
    assert played.swing_weight is not None and played.swing_weight.value == "D2.47"


def test_the_middle_of_a_plain_range_is_reckoned_with_and_said() -> None:
    spread = Figure(value=None, unit="g", source=Source.STATED, low=105, high=120)
    played = as_played(Club(club="7 iron", kind="iron", shaft=Shaft(mass=spread)))
    assert played.mass is not None
    shaft = next(parent.figure for parent in played.mass.parents if parent.name == "shaft_mass")
    assert (shaft.value, shaft.low, shaft.high) == (112.5, 105, 120)


def test_an_ascending_set_without_masses_climbs_by_the_usual_gain() -> None:
    def mass(name: str) -> float:
        played = as_played(Club(club=name, kind="iron", shaft=Shaft(ascending=True)))
        assert played.mass is not None
        return next(p.figure.number for p in played.mass.parents if p.name == "shaft_mass")

    assert [mass(f"{n} iron") for n in (6, 7, 8)] == pytest.approx([112.5, 115, 117.5])


def test_in_between_flexes_lie_between() -> None:
    def cpm(flex: str) -> float:
        return flex_frequency(Club(club="driver", kind="driver", shaft=Shaft(flex=flex))).number

    assert cpm("R") < cpm("R+") < cpm("S-") < cpm("S") < cpm("S+") < cpm("X")


def test_a_flex_without_a_meaning_is_assumed_and_named() -> None:
    entry = flex_frequency(Club(club="7 iron", kind="iron", shaft=Shaft(flex="5.5")))
    assert entry.source is Source.ASSUMED
    assert "5.5" in (entry.why or "")


def test_a_sleeve_that_adds_loft_closes_the_soled_face_and_says_how_else_it_shows() -> None:
    club = Club(
        club="driver",
        kind="driver",
        head=Head(loft=stated(9, "deg"), lie=stated(58, "deg")),
        sleeve=Sleeve(loft_change=stated(1, "deg")),
    )
    face = as_played(club).face
    assert face is not None and -1.7 < face.number < -1.5  # the tangent of 58° is 1.60
    assert "held as before" in (face.why or "")


def test_a_putter_neck_gives_its_usual_toe_hang() -> None:
    def hang(neck: str) -> Figure | None:
        return as_played(Club(club="putter", kind="putter", putter=PutterParts(neck=neck))).toe_hang

    straight, flow = hang("plumber's neck"), hang("flow neck")
    assert straight is not None and flow is not None and straight.number < flow.number
    assert hang("bespoke") is None


@given(st.floats(-5, 5))
def test_the_mirror_is_its_own_inverse(angle: float) -> None:
    assert to_the_right(to_the_right(angle, "left"), "left") == angle
    assert to_the_right(angle, "right") == angle
    if angle:
        assert side(angle, "left") != side(angle, "right")


def test_an_impossible_part_is_refused_with_its_club() -> None:
    club = Club(club="7 iron", kind="iron", head=Head(mass=stated(5000, "g")))
    with pytest.raises(BadInput, match="the 7 iron cannot be worked out: head_mass is 5000 g"):
        played_set(GolfSet(clubs=(club,)))


def test_a_set_is_filled_club_by_club_and_keeps_everything_else() -> None:
    golf_set = GolfSet(clubs=tuple(Club(club=name, kind=kind) for name, kind in KINDS.items()))  # type: ignore[arg-type]
    filled = played_set(golf_set)
    assert [club.as_played for club in filled.clubs] == [as_played(club) for club in golf_set.clubs]
    assert replace(filled, clubs=golf_set.clubs) == golf_set


def test_a_club_longer_than_its_uncut_shaft_is_extended_not_refused() -> None:
    # A 36 in putter shaft under a 55 in club: the extension weighs what the shaft weighs, inch for inch.
    def mass(length: float) -> float:
        club = Club(club="putter", kind="putter", length=figure(length, "in", "measured"))
        return as_played(club).mass.number  # type: ignore[union-attr]

    assert mass(56) - mass(55) == pytest.approx(mass(55) - mass(54), abs=1e-6)
    assert mass(56) > mass(55) > mass(36)


def test_a_loft_stated_as_played_stands_where_no_stamp_was_said() -> None:
    wedge = Club(club="sand wedge", kind="wedge", as_played=AsPlayed(loft=figure(57, "deg", "stated")))
    published = replace(wedge, head=Head(loft=figure(56, "deg", "published")))
    stamped = replace(wedge, head=Head(loft=figure(54, "deg", "stated")))
    lofts = [as_played(club).loft for club in (wedge, published, stamped)]
    assert [loft and (loft.value, loft.source) for loft in lofts] == [(57, "stated"), (57, "stated"), (54, "stated")]
