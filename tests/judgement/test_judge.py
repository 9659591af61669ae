"""Sets with known flaws yield exactly those; an ordinary set yields none.

The ordinary set takes the middles of the trade's usual figures (common practice: lofts, lies, lengths, bounces, shaft
masses); each flaw is one change to it.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from asplayed.clubs import (
    Bend,
    Club,
    Disagreement,
    GolfSet,
    Grip,
    Head,
    PutterParts,
    SetFacts,
    Shaft,
    Sleeve,
    Stated,
    Weight,
)
from asplayed.judgement import Finding, judge
from asplayed.quantities import Figure, Source, chain, figure, plain

sys.path.insert(0, str(Path(__file__).parent))

from ordinary import ROWS, ordinary


def deg(value: float) -> Figure:
    return figure(value, "deg", "stated")


def stated(value: float | str, unit: str) -> Figure:
    return figure(value, unit, "stated")


def change(name: str, *, base: GolfSet | None = None, **fields: object) -> GolfSet:
    """The ordinary set with some fields of one club replaced; a dict replaces fields inside a record."""
    golf_set = base or ordinary()
    clubs = []
    for club in golf_set.clubs:
        if club.club == name:
            for field, value in fields.items():
                new = replace(getattr(club, field), **value) if isinstance(value, dict) else value
                club = replace(club, **{field: new})  # noqa: PLW2901
        clubs.append(club)
    return replace(golf_set, clubs=tuple(clubs))


def change_all(names: list[str], change_one: Callable[[GolfSet, str], GolfSet]) -> GolfSet:
    golf_set = ordinary()
    for name in names:
        golf_set = change_one(golf_set, name)
    return golf_set


def faults(golf_set: GolfSet, local_rules: tuple[str, ...] = ()) -> set[str]:
    return {found.code for found in judge(golf_set, local_rules) if found.level != "note"}


IRONS = [row[0] for row in ROWS if row[1] == "iron"]
WEDGES = ["gap wedge", "sand wedge", "lob wedge"]


def without(name: str) -> GolfSet:
    golf_set = ordinary()
    return replace(golf_set, clubs=tuple(club for club in golf_set.clubs if club.club != name))


def swapped_heads() -> GolfSet:
    return change("8 iron", base=change("7 iron", head={"loft": deg(37)}), head={"loft": deg(32.5)})


def heavy_from_the_irons_on() -> GolfSet:
    def heavier(golf_set: GolfSet, name: str) -> GolfSet:
        return change(name, base=golf_set, shaft={"mass": stated(132, "g")})

    return change_all(IRONS + WEDGES, heavier)


def swing_weights(odd: str, odd_reads: str) -> GolfSet:
    def balanced(golf_set: GolfSet, name: str) -> GolfSet:
        reads = odd_reads if name == odd else "D2"
        return change(name, base=golf_set, stated=Stated(swing_weight=stated(reads, "1")))

    return change_all(IRONS, balanced)


def frequencies(odd: str, off: float, slope: float = 4) -> GolfSet:
    lengths = {row[0]: row[4] for row in ROWS}

    def clamped(golf_set: GolfSet, name: str) -> GolfSet:
        cpm = 318 + 2 * slope * (38 - lengths[name]) + (off if name == odd else 0)
        return change(name, base=golf_set, stated=Stated(frequency=figure(cpm, "cpm", "measured")))

    return change_all(IRONS, clamped)


def one_length() -> GolfSet:
    return change_all(
        [name for name in IRONS if name != "pitching wedge"],
        lambda golf_set, name: change(name, base=golf_set, length=stated(37, "in")),
    )


def same_soles() -> GolfSet:
    return change_all(WEDGES, lambda golf_set, name: change(name, base=golf_set, head={"bounce": deg(10)}))


def wrapped(odd: str) -> GolfSet:
    def gripped(golf_set: GolfSet, name: str) -> GolfSet:
        return change(name, base=golf_set, grip=Grip(name="Tessary", wraps=3 if name == odd else 1))

    return change_all([row[0] for row in ROWS[:-1]], gripped)


def with_another_putter() -> GolfSet:
    golf_set = ordinary()
    return replace(golf_set, clubs=(*golf_set.clubs, replace(golf_set.clubs[-1], lines=(15,))))


FLAWED: dict[str, tuple[GolfSet, set[str]]] = {
    "no gap wedge": (without("gap wedge"), {"loft-hole"}),
    "hybrid as strong as the 5 wood": (change("4 hybrid", head={"loft": deg(18.5)}), {"loft-overlap"}),
    "heads of 7 and 8 iron swapped": (swapped_heads(), {"loft-order"}),
    "7 iron an inch too long": (change("7 iron", length=stated(38, "in")), {"length-step"}),
    "lob wedge longer than the sand wedge": (change("lob wedge", length=stated(36, "in")), {"length-order"}),
    "5 wood an inch longer than the 3 wood": (change("5 wood", length=stated(44, "in")), {"wood-length-order"}),
    "8 iron four degrees flat": (change("8 iron", head={"lie": deg(58.75)}), {"lie-step"}),
    "light shaft in the 3 wood": (change("3 wood", shaft={"mass": stated(50, "g")}), {"shaft-mass-falls"}),
    "irons far heavier than the hybrid": (heavy_from_the_irons_on(), {"shaft-mass-jump"}),
    "one iron four points heavy": (swing_weights("7 iron", "D6"), {"balance-uneven"}),
    "driver stated far too light": (change("driver", stated=Stated(mass=stated(250, "g"))), {"stated-mass-clash"}),
    "swing weight beyond belief": (
        change("driver", stated=Stated(swing_weight=stated("F5", "1"))),
        {"balance-unusual"},
    ),
    "swing weight that its parts do not make": (
        change("7 iron", head={"mass": stated(269, "g")}, stated=Stated(swing_weight=stated("E1", "1"))),
        {"stated-swing-weight-clash"},
    ),
    "one iron stiff": (frequencies("7 iron", 9), {"frequency-off"}),
    "irons all of one frequency": (frequencies("none", 0, slope=0), {"frequency-slope"}),
    "lob wedge with no sole left": (change("lob wedge", head={"bounce": deg(2)}), {"sole-low"}),
    "sand wedge with a very full sole": (change("sand wedge", head={"bounce": deg(18)}), {"sole-high"}),
    "three wedges, one sole": (same_soles(), {"soles-alike"}),
    "bent hybrid": (change("4 hybrid", bend=Bend(lie=deg(2))), {"bend-limit"}),
    "beyond the maker's limit": (
        change("9 iron", head={"bend_limit": figure(1, "deg", "published")}, bend=Bend(lie=deg(1.5))),
        {"bend-limit"},
    ),
    "irons of one length": (one_length(), {"single-length"}),
    "one iron of another flex": (change("5 iron", shaft={"flex": "R"}), {"flex-mixed"}),
    "soft driver before stiff irons": (change("driver", shaft={"flex": "A"}), {"flex-apart"}),
    "wedge six degrees flat": (change("sand wedge", head={"lie": deg(58)}), {"lie-unusual"}),
    "stiff shaft that twists": (change("driver", shaft={"flex": "X", "torque": deg(6)}), {"torque-against-flex"}),
    "launch against spin": (change("driver", shaft={"launch": "low", "spin": "high"}), {"shaft-tendencies"}),
    "sleeve against weight": (
        change(
            "driver",
            sleeve=Sleeve(loft_change=deg(1)),
            weights=(Weight(place="toe", mass=stated(12, "g")),),
        ),
        {"bias-against-itself"},
    ),
    "one thick grip": (wrapped("7 iron"), {"grip-sizes"}),
    "no putter": (without("putter"), {"no-putter"}),
    "a second putter": (with_another_putter(), {"several-putters", "clubs-over-fourteen"}),
    "driver of 48½ in": (change("driver", length=stated(48.5, "in")), {"rule-length"}),
    "putter of 12° of loft": (change("putter", head={"loft": deg(12)}), {"rule-loft", "putter-loft"}),
    "putter of 82° of lie": (change("putter", head={"lie": deg(82)}), {"rule-lie", "putter-lie"}),
    "long putter": (change("putter", length=stated(40, "in")), {"putter-length"}),
    "head of 480 cm³": (change("driver", head={"volume": figure(480, "cm3", "published")}), {"rule-volume"}),
}


@cache
def judged(name: str) -> tuple[Finding, ...]:
    return judge(FLAWED[name][0])


@pytest.mark.parametrize("name", FLAWED)
def test_a_flawed_set_yields_its_flaws_and_no_others(name: str) -> None:
    assert {found.code for found in judged(name) if found.level != "note"} == FLAWED[name][1]


def test_an_ordinary_set_yields_no_flaw() -> None:
    assert faults(ordinary()) == set()


def test_a_set_of_bare_names_yields_no_flaw() -> None:
    bare = GolfSet(clubs=tuple(Club(club=row[0], kind=row[1]) for row in ROWS))
    assert faults(bare) == set()


def test_breaches_are_the_rules_alone() -> None:
    for name in FLAWED:
        for found in judged(name):
            ruled = found.code.startswith("rule-") or found.code == "clubs-over-fourteen"
            assert (found.level == "breach") <= ruled


def test_a_breach_by_usual_figures_is_only_a_note() -> None:
    # a length worked out from the usual one plus four inches: 49¼ in, but no driver of this player was measured
    golf_set = change("driver", length=None, length_change=stated(4, "in"))
    (found,) = [f for f in judge(golf_set) if f.code == "rule-length"]
    assert found.level == "note"
    assert "usual figures" in found.sentence


def test_a_breach_within_the_band_is_only_a_note() -> None:
    (found,) = [f for f in judge(change("driver", length=stated(48.05, "in"))) if f.code == "rule-length"]
    assert found.level == "note"
    assert "gauge" in found.sentence


def test_a_measured_breach_is_a_breach() -> None:
    golf_set = change("driver", length=figure(48.125, "in", "measured"))
    assert faults(golf_set) == {"rule-length"}


def test_the_local_rule_on_length_counts_where_it_is_in_force() -> None:
    golf_set = change("driver", length=stated(46.5, "in"))
    assert faults(golf_set) == set()
    assert any(found.code == "local-rule-length" for found in judge(golf_set))
    assert faults(golf_set, ("G-10",)) == {"rule-length"}


def test_a_small_difference_is_a_note_that_asks_for_a_gauge() -> None:
    (found,) = [f for f in judge(change("gap wedge", head={"loft": deg(52.5)})) if f.code == "loft-hole"]
    assert (found.level, found.clubs) == ("note", ("pitching wedge", "gap wedge"))
    assert "gauge" in found.sentence


def test_gauged_lofts_make_the_same_difference_a_flaw() -> None:
    golf_set = change("gap wedge", head={"loft": figure(52.5, "deg", "measured")})
    golf_set = change("pitching wedge", base=golf_set, head={"loft": figure(46, "deg", "measured")})
    assert faults(golf_set) == {"loft-hole"}


def test_a_bend_tells_what_the_sole_became() -> None:
    golf_set = change("sand wedge", head={"loft": deg(54.5)}, bend=Bend(loft=deg(1)))
    (found,) = [f for f in judge(golf_set) if f.code == "bend-bounce"]
    assert "55.5°" in found.sentence and "13°" in found.sentence
    assert found.figures["bounce"].value == 13


def test_where_two_models_meet_well_is_told() -> None:
    golf_set = change("5 iron", head={"model": "Dunlin"})
    for name in IRONS[1:]:
        golf_set = change(name, base=golf_set, head={"model": "Gannet"})
    (found,) = [f for f in judge(golf_set) if f.code == "model-bridge"]
    assert found.clubs == ("5 iron", "6 iron")


def test_irons_matched_by_inertia_are_not_called_uneven() -> None:
    # matching by inertia adds a gram or two a club to what swing weight asks: about 0.6 point for every ½ in shorter
    reads = dict(zip(IRONS, ("C8.5", "C9.1", "C9.7", "D0.3", "D0.9", "D1.5"), strict=True))
    golf_set = ordinary()
    for name, text in reads.items():
        golf_set = change(name, base=golf_set, stated=Stated(swing_weight=figure(text, "1", "measured")))
    found = [f for f in judge(golf_set) if f.code == "balance-uneven"]
    assert found and all(f.level == "note" for f in found)


def test_a_closed_face_looks_the_other_way_for_a_left_hander() -> None:
    golf_set = change("driver", sleeve=Sleeve(loft_change=deg(1)))
    left = replace(golf_set, set=SetFacts(hand="left", hand_source="stated"))
    (one,), (two,) = ([f for f in judge(s) if f.code == "face-at-address"] for s in (golf_set, left))
    assert "looking left" in one.sentence and "looking right" in two.sentence
    assert one.figures == two.figures


def test_a_flat_lie_starts_the_ball_by_the_tangent_of_the_loft() -> None:
    # 6° flat at 55.5° of loft: atan(tan 55.5° · sin 6°) = 8.65°, to the right for a right-hander
    golf_set, _ = FLAWED["wedge six degrees flat"]
    left = replace(golf_set, set=SetFacts(hand="left", hand_source="stated"))
    (one,), (two,) = ([f for f in judge(s) if f.code == "lie-unusual"] for s in (golf_set, left))
    assert one.figures["start"].number == pytest.approx(8.65, abs=0.01)
    assert "8.6° right" in one.sentence and "8.6° left" in two.sentence


def test_putters_are_matched_to_strokes_by_their_toe_hang() -> None:
    words = {0: "straight-back", 30: "moderate", 60: "strong"}
    for hang, stroke in words.items():
        golf_set = change("putter", putter=PutterParts(toe_hang=deg(hang)))
        (found,) = [f for f in judge(golf_set) if f.code == "putter-toe-hang"]
        assert stroke in found.sentence


def test_disagreements_with_the_catalogue_come_along() -> None:
    told = Disagreement(
        code="flex-never-offered",
        club="driver",
        about="shaft.flex",
        sentence="the Lindrake 60 was never offered in TX",
        source="published: Lindrake 2024",
    )
    (found,) = [f for f in judge(replace(ordinary(), disagreements=(told,))) if f.level != "note"]
    assert (found.code, found.level, found.clubs) == ("flex-never-offered", "unusual", ("driver",))
    assert found.sentence == "The Lindrake 60 was never offered in TX."


def test_a_part_nobody_knows_is_only_worth_knowing() -> None:
    told = Disagreement(
        code="part-unknown", club="driver", about="head.name", sentence="no such head", source="the catalogue entered"
    )
    assert faults(replace(ordinary(), disagreements=(told,))) == set()


def test_wedges_whose_stated_balance_their_parts_do_not_make_are_named_together() -> None:
    golf_set = ordinary()
    for name in WEDGES:
        heavy = Stated(swing_weight=stated("E5", "1"))
        golf_set = change(name, base=golf_set, head={"mass": stated(300, "g")}, stated=heavy)
    (found,) = [f for f in judge(golf_set) if f.code == "stated-swing-weight-clash"]
    assert found.clubs == tuple(WEDGES)
    assert "sand wedge E5.0 against" in found.sentence


def test_a_hole_is_only_to_be_filled_where_a_club_fits_in() -> None:
    (wide,) = [f for f in judge(without("gap wedge")) if f.code == "loft-hole"]
    assert wide.remedy.startswith("A club near 51")
    gauged = {name: figure(loft, "deg", "measured") for name, loft in (("pitching wedge", 45.0), ("gap wedge", 51.8))}
    golf_set = ordinary()
    for name, loft in gauged.items():
        golf_set = change(name, base=golf_set, head={"loft": loft})
    (narrow,) = [f for f in judge(golf_set) if f.code == "loft-hole"]
    assert narrow.remedy.startswith("Bend the two")


def test_the_same_set_gives_the_same_findings_in_the_same_order() -> None:
    for name, (golf_set, _) in FLAWED.items():
        once = judged(name)
        assert once == judge(golf_set)
        levels = [("breach", "flaw", "unusual", "note").index(found.level) for found in once]
        assert levels == sorted(levels)


@pytest.mark.parametrize("name", ["no gap wedge", "7 iron an inch too long", "one iron four points heavy"])
def test_left_handers_have_the_same_findings(name: str) -> None:
    golf_set, expected = FLAWED[name]
    assert faults(replace(golf_set, set=SetFacts(hand="left", hand_source="stated"))) == expected


def test_inches_and_millimetres_judge_alike() -> None:
    for name, length in (("driver", 48.5), ("7 iron", 38.0)):
        inch = faults(change(name, length=stated(length, "in")))
        millimetre = faults(change(name, base=ordinary("mm"), length=stated(length * 25.4, "mm")))
        assert inch == millimetre != set()


def test_every_finding_is_whole() -> None:
    seen: list[Finding] = [found for name in FLAWED for found in judged(name)]
    for found in seen:
        assert all((found.code, found.sentence, found.why, found.remedy, found.source))
        assert found.sentence.endswith(".") and found.why.endswith(".") and found.remedy.endswith(".")
        assert "conform" not in found.sentence.lower()
        assert set(plain(found)) == {
            "code",
            "level",
            "clubs",
            "sentence",
            "why",
            "remedy",
            "figures",
            "source",
        }


def test_shafts_far_apart_are_no_jump_while_those_between_are_unknown() -> None:
    golf_set = ordinary()
    for name in ("3 wood", "5 wood", "4 hybrid"):
        golf_set = change(name, base=golf_set, shaft={"mass": None})
    assert faults(golf_set) == set()


def test_a_missing_iron_is_named() -> None:
    (found,) = [f for f in judge(without("7 iron")) if f.code == "loft-hole"]
    assert found.level == "flaw"
    assert found.remedy.startswith("The 7 iron would fill it")


def test_a_lie_beyond_belief_does_not_stop_the_judgement() -> None:
    assert "lie-step" in faults(change("7 iron", head={"lie": deg(25)}))


def test_a_set_without_a_ball_asks_for_it() -> None:
    (found,) = [f for f in judge(replace(ordinary(), ball=None)) if f.code == "ball-unknown"]
    assert found.level == "note"


def _entry(low: float, high: float, unit: str) -> st.SearchStrategy[Figure | None]:
    sources = st.sampled_from(["measured", "stated", "published", "assumed"])
    return st.none() | st.builds(
        lambda value, source: figure(round(value, 2), unit, source), st.floats(low, high), sources
    )


ANY_CLUB = st.sampled_from(ROWS).flatmap(
    lambda row: st.builds(
        Club,
        club=st.just(row[0]),
        kind=st.just(row[1]),
        head=st.builds(
            Head,
            loft=_entry(0, 64, "deg"),
            lie=_entry(50, 85, "deg"),
            bounce=_entry(0, 20, "deg"),
            mass=_entry(180, 380, "g"),
        ),
        bend=st.builds(Bend, loft=_entry(-5, 5, "deg"), lie=_entry(-5, 5, "deg")),
        shaft=st.builds(Shaft, mass=_entry(40, 135, "g"), flex=st.sampled_from([None, "A", "S", "TX", "6.0"])),
        length=_entry(20, 60, "in"),
        stated=st.builds(Stated, frequency=_entry(220, 350, "cpm"), mass=_entry(280, 550, "g")),
    )
)


@settings(max_examples=25, deadline=None)
@given(st.lists(ANY_CLUB, max_size=15))
def test_any_set_can_be_judged_and_no_breach_rests_on_guesses(clubs: list[Club]) -> None:
    for found in judge(GolfSet(clubs=tuple(clubs))):
        if found.level == "breach":
            sources = {link.source for entry in found.figures.values() for _, _, link in chain(entry)}
            assert not sources & {Source.ASSUMED, Source.COMMON_PRACTICE}


def test_nothing_to_judge_is_no_finding() -> None:
    assert judge(GolfSet()) == ()


def test_every_code_has_its_line_on_the_page_of_findings() -> None:
    page = (Path(__file__).parents[2] / "docs" / "findings.md").read_text(encoding="utf-8")
    page, in_play = page.split("**In the player's hands.**")
    assert "| `carry-hole` |" in in_play
    listed = {code for row in page.splitlines() if row.startswith("| `") for code in row.split("`")[1::2]}
    seen: dict[str, set[str]] = {}
    for name in FLAWED:
        for found in judged(name):
            code = "rule-<item>" if found.code.startswith("rule-") else found.code
            seen.setdefault(code, set()).add(found.level)
    assert set(seen) <= listed
    never_seen = listed - set(seen)
    assert never_seen == {"local-rule-length", "model-bridge", "bend-bounce", "putter-toe-hang", "ball-unknown"} - set(
        seen
    )
    order = ("breach", "flaw", "unusual", "note")
    for row in page.splitlines():
        if row.startswith("| `"):
            cells = [cell.strip() for cell in row.strip("|").split("|")]
            for code in cells[0].split("`")[1::2]:
                assert all(order.index(level) >= order.index(cells[1]) for level in seen.get(code, ())), code
