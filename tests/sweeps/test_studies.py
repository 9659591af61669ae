"""What the studies say: landings as the player flies, soles against the trade's words, findings that flip."""

from __future__ import annotations

from pathlib import Path

import msgspec
import numpy as np
import pytest

from asplayed.catalogue.parts import Part
from asplayed.choosing.demand import Course, Hole
from asplayed.choosing.ground import Ground
from asplayed.clubs import Bend, Club, GolfSet, Head
from asplayed.errors import BadInput
from asplayed.judgement import judge
from asplayed.players import fly_set
from asplayed.players.records import Conditions, Player
from asplayed.quantities import figure, to_si
from asplayed.sweeps import landings as study_of_landings
from asplayed.sweeps.best_sets import BestSets
from asplayed.sweeps.engine import sweep
from asplayed.sweeps.landings import SHOTS_A_BLOCK, Landings
from asplayed.sweeps.reducing import Best, Histogram, Moments
from asplayed.sweeps.soles import Soles, digging, unsuited
from asplayed.sweeps.tolerances import Tolerances, moves
from asplayed.sweeps.workers import Here


def test_landings_are_those_of_the_player(bag: GolfSet, player: Player, tmp_path: Path) -> None:
    """Very many shots have the spread that `fly_set` finds from its own chance, about nearly the same middle."""
    answer = fly_set(bag, player, shots=4000)
    flown = {each.label: each for each in answer.clubs}
    found = list(sweep(Landings(sets=(("bag", bag),), players=(player,), shots=4000), tmp_path / "s", Here()).rows())
    assert [row["club"] for row in found] == ["driver", "7 iron", "sand wedge"]
    for row in found:
        there = flown[row["club"]]
        assert row["shots"] == 4000
        # four standard errors of a mean, and of a standard deviation
        assert row["carry spread [yd]"] == pytest.approx(there.depth.number, rel=4 * np.sqrt(2) / np.sqrt(8000))
        assert row["side spread [yd]"] == pytest.approx(there.width.number, rel=4 * np.sqrt(2) / np.sqrt(8000))
        # A typical swing carries as far as it can: what scatters about it falls a little short, never a whole spread.
        error = 4 * there.depth.number / np.sqrt(4000)
        assert there.carry.number - there.depth.number / 2 < row["carry [yd]"] < there.carry.number + error
        assert row["shortest [yd]"] < row["carry of one in ten [yd]"] < row["carry [yd]"] < row["longest [yd]"]


def test_every_combination_has_its_cell(bag: GolfSet, player: Player, tmp_path: Path) -> None:
    slow = msgspec.structs.replace(player, driver_speed=figure(75.0, "mph", "stated"))
    winds = tuple(Conditions(wind_along=figure(each, "mph", "stated")) for each in (-15.0, 15.0))
    study = Landings(
        sets=(("one", bag), ("two", bag)), players=(player, slow), conditions=winds, clubs=("7 iron",),
        loft_changes=(0.0, 2.0), shots=300,
    )  # fmt: skip
    rows = list(sweep(study, tmp_path / "s", Here()).rows())
    assert len(rows) == study.blocks() == 2 * 2 * 2 * 2
    carry = {
        (row["set"], row["player"], row["conditions"], row["loft change [deg]"]): row["carry [yd]"] for row in rows
    }
    for name in ("one", "two"):
        assert carry[name, 0, 0, 0.0] > carry[name, 1, 0, 0.0]  # the faster player
        assert carry[name, 0, 0, 0.0] < carry[name, 0, 1, 0.0]  # with the wind
        assert carry[name, 0, 1, 0.0] > carry[name, 0, 1, 2.0]  # the stronger loft


def test_many_shots_of_a_cell_are_several_blocks(bag: GolfSet, player: Player, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(study_of_landings, "SHOTS_A_BLOCK", 100)
    study = Landings(sets=(("bag", bag),), players=(player,), clubs=("driver",), shots=250)
    assert study.blocks() == 3
    counts = []
    for number in range(3):
        moments = study.block(number).tally["0"]
        assert isinstance(moments, Moments)
        counts.append(moments.count)
    assert counts == [100, 100, 50]
    assert study.block(0).tally != study.block(1).tally
    assert SHOTS_A_BLOCK > 100_000, "the lanes take over from so many shots on"


def test_shots_nobody_can_fly_are_refused(bag: GolfSet, player: Player) -> None:
    with pytest.raises(BadInput, match="none of 4 wood"):
        Landings(sets=(("bag", bag),), clubs=("4 wood",)).blocks()
    with pytest.raises(BadInput, match="at least one shot"):
        Landings(sets=(("bag", bag),), shots=0).blocks()
    with pytest.raises(BadInput, match="no club that is swung in full"):
        Landings(sets=(("putter alone", GolfSet(clubs=bag.clubs[3:])),)).blocks()


def test_the_histogram_holds_every_shot(landings: Landings) -> None:
    tally = landings.block(0).tally
    carries, moments = tally["0 carry"], tally["0"]
    assert isinstance(carries, Histogram) and isinstance(moments, Moments)
    assert sum(carries.counts) == moments.count == 200
    assert carries.quantile(0.5) == pytest.approx(moments.mean[0], abs=moments.spread[0] / 3)


# ------------------------------------------------------------------------------------------------------------- soles


@pytest.mark.parametrize(
    ("ground", "attack", "wanted"),
    [
        ("firm", -4.5, "shallow"), ("normal", -4.5, "between"), ("soft", -4.5, "digging"),
        ("normal", -9.0, "digging"), ("normal", -1.0, "shallow"), ("soft", -1.0, "between"), ("firm", -9.0, "between"),
    ],
)  # fmt: skip
def test_what_a_ground_and_an_attack_ask_for(ground: str, attack: float, wanted: str) -> None:
    """Common practice: more bounce for soft turf and steep attack, less for firm turf and shallow attack."""
    assert digging(ground, attack) == wanted  # type: ignore[arg-type]


def test_degrees_outside_what_suits() -> None:
    assert unsuited(12.0, "full", "between") == 0
    assert unsuited(13.0, "full", "between") == 1
    assert unsuited(13.0, "relieved", "between") == 0
    assert unsuited(4.0, "full", "digging") == 8
    assert unsuited(4.0, "wide", "digging") == 6


def test_a_sole_that_suits_loses_nothing_and_others_the_more_the_less_they_suit(
    bag: GolfSet, player: Player, tmp_path: Path
) -> None:
    study = Soles(
        sets=(("bag", bag),), player=player, grounds=("firm",), attacks=(-4.5,), bounces=(4.0, 8.0, 12.0, 16.0)
    )
    found = sweep(study, tmp_path / "s", Here())
    rows = list(found.rows())
    assert len(rows) == 4 * 3 * 4
    for row in rows:
        assert (row["strokes lost a round"] > 0) == (row["unsuited by [deg]"] > 0)
    for share in (0.02, 0.05, 0.1, 0.2):
        full = [
            row["strokes lost a round"] for row in rows if row["shape"] == "full" and row["wider a degree"] == share
        ]
        assert full == sorted(full) and full[-1] > full[1] == 0
    best = found.tally["bag, firm ground, -4.5°"]
    assert isinstance(best, Best)
    assert best.entries[0].cost == 0.0 and best.entries[0].words.startswith("4°")


def test_a_set_without_the_wedge_is_refused(bag: GolfSet, player: Player) -> None:
    with pytest.raises(BadInput, match="bag holds no lob wedge"):
        Soles(sets=(("bag", bag),), player=player, club="lob wedge").blocks()


# -------------------------------------------------------------------------------------------------------- tolerances


def wedges(*lofts: float) -> GolfSet:
    names = ("pitching wedge", "gap wedge", "sand wedge", "lob wedge")
    made = (
        Club(club=name, kind="wedge", head=Head(loft=figure(loft, "deg", "stated")))
        for name, loft in zip(names, lofts, strict=False)
    )
    return GolfSet(clubs=tuple(made))


def test_a_finding_near_its_limit_hangs_on_the_lofts_beside_it(tmp_path: Path, player: Player) -> None:
    """46° and 52.5° are 6.5° apart: half a degree too many, and the lofts are made to a degree."""
    clubs = wedges(46.0, 52.5)
    assert any(each.code == "loft-hole" for each in judge(clubs))
    rows = list(sweep(Tolerances(sets=(("two", clubs),), players=(player,)), tmp_path / "s", Here()).rows())
    gone = {(row["club"], row["to"]) for row in rows if row["figure"] == "head.loft" and "loft-hole" in row["gone"]}
    assert gone == {("pitching wedge", 47.0), ("gap wedge", 51.5)}


def test_a_finding_far_from_its_limit_hangs_on_no_loft(tmp_path: Path, player: Player) -> None:
    rows = list(
        sweep(Tolerances(sets=(("two", wedges(46.0, 58.0)),), players=(player,)), tmp_path / "s", Here()).rows()
    )
    assert rows and not any("loft-hole" in row["gone"] for row in rows if row["figure"] == "head.loft")


def test_figures_move_to_the_ends_of_their_bands_with_their_bands() -> None:
    wedge = Club(
        club="sand wedge",
        kind="wedge",
        head=Head(loft=figure(56, "deg", "stated"), bounce=figure(12, "deg", "measured")),
        bend=Bend(loft=figure(-1, "deg", "stated", tolerance=0.5)),
    )
    found = {each.about: each for each in moves(wedge)}
    ends = {about: (each.low.head.loft, each.high.head.bounce, each.low.bend.loft) for about, each in found.items()}
    assert ends["head.loft"][0] == figure(55.0, "deg", "stated", tolerance=1.0)
    assert ends["head.bounce"][1].value == 12.25  # type: ignore[union-attr]  # gauged, not as made
    assert ends["bend.loft"][2].value == -1.5  # type: ignore[union-attr]
    assert found["length"].entry.source == "common practice"
    assert found["length"].low.length.source == "common practice"  # type: ignore[union-attr]
    assert "grip.mass" not in found and "head.mass" not in found
    for each in found.values():
        assert to_si(each.entry.low or 0.0, each.entry.unit) < to_si(each.entry.high or 0.0, each.entry.unit)


# --------------------------------------------------------------------------------------------------------- best sets


def test_the_best_set_of_every_player(bag: GolfSet, tmp_path: Path) -> None:
    hole = Hole(par=3, length=140.0, ground=Ground())
    parts: tuple[Part, ...] = ()
    study = BestSets(
        sets=(("bag", bag),), speeds=(80.0, 105.0), handicaps=(5.0,), course=Course(title="one hole", holes=(hole,)),
        parts=parts, tried=("bends",), worlds=20,
    )  # fmt: skip
    found = sweep(study, tmp_path / "s", Here())
    slow, fast = found.rows()
    assert (slow["driver speed [mph]"], fast["driver speed [mph]"]) == (80.0, 105.0)
    for row in (slow, fast):
        assert row["strokes today"] - row["strokes chosen"] == pytest.approx(row["saved"], abs=1e-3)
        assert row["saved"] >= 0 and row["gap to proof"] == 0 and row["clubs"]
    best = found.tally["most saved"]
    assert isinstance(best, Best)
    assert best.entries[0].cost == -max(slow["saved"], fast["saved"])
