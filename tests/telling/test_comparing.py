"""Two sets compared: what differs is said once, what does not is not, and bands are minded."""

from __future__ import annotations

from msgspec.structs import replace

from asplayed.clubs import AsPlayed, Ball, Club, GolfSet, Head, Shaft
from asplayed.quantities import figure
from asplayed.telling.comparing import Compared, beside, compared, differences, pairs
from asplayed.telling.explaining import explain


def club(loft: float, tolerance: float = 0.25, **parts) -> Club:
    played = AsPlayed(loft=figure(loft, "deg", "measured", tolerance=tolerance))
    return Club(club="7 iron", kind="iron", as_played=played, **parts)


def test_a_set_beside_itself_has_no_differences(fourteen, twenty):
    assert differences(fourteen, fourteen) == []
    assert differences(twenty, twenty) == []
    assert all(row.same for _, rows in beside(twenty, twenty) for row in rows)


def test_a_figure_is_told_from_to_and_by_how_much():
    assert differences(GolfSet(clubs=(club(33),)), GolfSet(clubs=(club(32),))) == [
        "The 7 iron’s loft was 33° and is 32°: 1° stronger."
    ]


def test_what_the_bands_do_not_settle_is_said_so():
    found = differences(GolfSet(clubs=(club(33, 1),)), GolfSet(clubs=(club(34, 1),)))
    assert found == ["The 7 iron’s loft was 33° and is 34°: 1° weaker, less than the figures are sure of."]


def test_parts_clubs_and_ball():
    before = GolfSet(clubs=(club(33, head=Head(model="Gannet 4"), shaft=Shaft(model="Rung", flex="S")),
                            Club(club="3 wood", kind="fairway wood")), ball=Ball(name="Pellan Crest"))  # fmt: skip
    now = GolfSet(clubs=(club(33, head=Head(model="Gannet 5"), shaft=Shaft(model="Rung", flex="X")),
                         Club(club="putter", kind="putter")))  # fmt: skip
    assert differences(before, now) == [
        "The 7 iron’s head was Gannet 4 and is Gannet 5.",
        "The 7 iron’s shaft was Rung S and is Rung X.",
        "The putter is new.",
        "The 3 wood is no longer in the set.",
        "The ball was Pellan Crest and is not named.",
    ]


def test_a_figure_that_has_come_or_gone_is_a_dash():
    bare = GolfSet(clubs=(Club(club="7 iron", kind="iron"),))
    assert differences(bare, GolfSet(clubs=(club(33),))) == ["The 7 iron’s loft was — and is 33°."]


def test_wedges_that_share_a_name_are_paired_by_their_loft_then_in_order(twenty):
    lobs = [(name, old) for name, old, new in pairs(twenty, twenty) if new and new.club == "lob wedge"]
    assert [name for name, old in lobs] == ["lob wedge 60°", "lob wedge 62°"]
    assert all(old is not None for _, old in lobs)
    only = tuple(each for each in twenty.clubs if each.head.loft is None or each.head.loft.value != 62)
    gone = differences(twenty, replace(twenty, clubs=only))
    assert gone == ["The lob wedge 62° is no longer in the set."]


def test_a_talk_tells_the_first_changes_and_counts_the_rest(fourteen):
    changes = tuple(f"The {number} iron is new." for number in range(1, 13))
    told = [said.text for said in explain(fourteen, changes=Compared("Since", changes)).changes]
    assert tuple(told[:8]) == changes[:8]
    assert told[8:] == ["There are 4 more differences; the comparison has them all."]
    assert explain(fourteen, changes=Compared("Since", ())).changes[0].text.startswith("Nothing differs")
    assert explain(fourteen).changes == ()


def test_another_players_set_is_not_called_an_earlier_one(fourteen, left_handed):
    found = compared(left_handed, replace(fourteen, clubs=fourteen.clubs[:-1], ball=None))
    assert found.heading == "Beside the set of Mireille Okafor"
    assert found.sentences == (
        "Only the other set has a putter.", "The ball is not named, against Velloran soft."
    )  # fmt: skip
    assert compared(fourteen, fourteen).heading == "Changed since last time"


def test_a_step_is_that_of_the_printed_figures():
    heavy, light = (
        Club(club="driver", kind="driver", as_played=AsPlayed(mass=figure(mass, "g", "computed")))
        for mass in (315.6, 295.4)
    )  # fmt: skip
    assert differences(GolfSet(clubs=(light,)), GolfSet(clubs=(heavy,))) == [
        "The driver’s mass was 295 g and is 316 g: 21 g heavier."
    ]
