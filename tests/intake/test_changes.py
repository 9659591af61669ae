"""Changes in trade notation: what the words mean for which clubs, and what is refused with what would be read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.catalogue import Part
from asplayed.clubs import Change, Club, GolfSet, Head, Sleeve, Weight
from asplayed.errors import BadInput
from asplayed.intake.changes import clubs_named, read_changes
from asplayed.quantities import figure

BAG = GolfSet(
    clubs=(
        Club(club="driver", kind="driver", sleeve=Sleeve()),
        *(Club(club=f"{number} iron", kind="iron") for number in (5, 6, 7, 8, 9)),
        Club(club="pitching wedge", kind="iron"),
        *(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(loft, "deg", "stated"))) for loft in (54, 56)),
        Club(club="putter", kind="putter"),
    )
)


def one(text: str) -> Change:
    [change] = read_changes([text], BAG)
    return change


@pytest.mark.parametrize(
    ("text", "what", "by", "value"),
    [
        ("7 iron: bend 1 weak", "loft", True, 1),
        ("7i: bent half a degree strong", "loft", True, -0.5),
        ("7 iron: 2 up", "lie", True, 2),
        ("7 iron: flat by 1½", "lie", True, -1.5),
        ("7 iron: lie 62", "lie", False, 62),
        ("7 iron: loft +1", "loft", True, 1),
        ("PW: bend to 45", "loft", False, 45),
        ("driver: length 44.5", "length", False, 44.5),
        ("driver: 44 3/4", "length", False, 44.75),
        ("driver: 44¾", "length", False, 44.75),
        ("driver: ½ in longer", "length", True, 0.5),
        ("driver: half an inch short", "length", True, -0.5),
        ("driver: ½ in off", "length", True, -0.5),
        ("driver: shorten by a quarter inch", "length", True, -0.25),
        ("driver: 1130 mm", "length", False, 1130 / 25.4),
        ("7 iron: swing weight d2.5", "swing weight", False, "D2.5"),
        ("7 iron: C9", "swing weight", False, "C9"),
        ("7 iron: inertia 2700", "butt inertia", False, 2700),
        ("7 iron: add 4 g at the tip", "added mass", True, 4),
        ("7 iron: tip mass 4 g", "added mass", False, 4),
        ("7 iron: counterweight 10 g", "added mass", False, 10),
        ("7 iron: tip trim ½ in", "tip trim", False, 0.5),
    ],
)
def test_figures_are_read_as_the_trade_writes_them(text: str, what: str, by: bool, value: float | str) -> None:
    change = one(text)
    assert (change.what, change.by, change.text) == (what, by, text)
    assert change.figure.value == (value if isinstance(value, str) else pytest.approx(value))


def test_parts_keep_their_words() -> None:
    shaft = one("6 iron: shaft Lindrake Iron 105 g X").shaft
    assert (shaft.name, shaft.flex, shaft.mass.value) == ("Lindrake Iron", "X", 105)
    assert one("6 iron: shaft Level 120, S").shaft.name == "Level 120"
    grip = one("PW: regrip Norrby midsize 62 g +1 wrap").grip
    assert (grip.name, grip.mass.value, grip.wraps) == ("Norrby midsize", 62, 1)
    assert one("PW: 2 extra wraps").grip.wraps == 2
    head = one("PW: head Turnstone 2 46° 290 g").head
    assert (head.name, head.loft.value, head.mass.value) == ("Turnstone 2", 46, 290)
    assert one("ball: Pellan Crest").ball.name == "Pellan Crest"
    assert one("add: 3 hybrid Kittiwake 19").added.club == "3 hybrid"
    assert one("drop 5 iron").club == "5 iron"


def test_sleeves_and_movable_weights() -> None:
    assert one("driver: sleeve P2").sleeve.position == "P2"
    down = one("driver: sleeve three quarters down and upright").sleeve
    assert (down.loft_change.value, down.lie_change) == (-0.75, down.lie_change)
    assert down.lie_change.value == 0.75
    for text in (
        "driver: 8g heel 4g toe",
        "driver: weights 8 g in the heel, 4 g in the toe",
        "driver: heel 8 g, toe 4 g",
    ):
        assert [(weight.place, weight.mass.value) for weight in one(text).weights] == [("heel", 8), ("toe", 4)]


def test_several_changes_stand_in_one_sentence() -> None:
    found = read_changes(["6 iron: shaft Lindrake 105 S, length 37.5; bend 1 weak and 1 flat"], BAG)
    assert [(change.what, change.by) for change in found] == [
        ("shaft", False),
        ("length", False),
        ("loft", True),
        ("lie", True),
    ]


@pytest.mark.parametrize(
    ("words", "count"),
    [("all", 10), ("irons", 6), ("5-PW", 6), ("5 to 7", 3), ("wedges", 2), ("woods", 1), ("5i, PW and putter", 3)],
)
def test_several_clubs_are_named_at_once(words: str, count: int) -> None:
    assert len(clubs_named(words, BAG)) == count


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("bend it", "does not say of which club"),
        ("7 iron:", "says nothing about the club"),
        ("7 iron: , ,", "says nothing about the club"),
        ("7 iron: paint it red", "'paint it red' is not understood; write one of"),
        ("7 iron: bend 1 sideways", "is not understood"),
        ("7 iron: 12", "is not understood"),
        ("3 wood: D2", "there is no '3 wood' in this set"),
        ("sand wedge: D2", "may be sand wedge 54° or sand wedge 56°"),
        ("9-5: D2", "runs backwards"),
        ("hybrids: D2", "there are no hybrids"),
        ("add: 3 hybrid and 4 hybrid", "adds 2 clubs"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_would_be(text: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read_changes([text], BAG)


def test_every_fault_is_named_at_once() -> None:
    with pytest.raises(BadInput, match=r"(?s)cannot be read.*sideways.*no '3 wood'"):
        read_changes(["7 iron: sideways", "3 wood: D2", "7 iron: D2"], BAG)


@given(st.text(max_size=60))
def test_any_words_are_read_or_refused_with_a_sentence(words: str) -> None:
    for text in (words, f"7 iron: {words}", f"{words}: bend 1 weak"):
        try:
            read_changes([text], BAG)
        except BadInput as fault:
            assert 0 < len(str(fault)) < 2000


def test_mass_moves_from_one_place_to_another() -> None:
    assert [(w.place, w.mass.value) for w in one("driver: 4 g toe to heel").weights] == [("heel", 4)]
    bag = GolfSet(
        clubs=(
            Club(
                club="driver",
                kind="driver",
                weights=(
                    Weight(place="toe", mass=figure(8, "g", "stated")),
                    Weight(place="heel", mass=figure(2, "g", "stated")),
                ),
            ),
        )
    )
    [moved] = read_changes(["driver: move 3 g from the toe to the heel"], bag)
    assert {w.place: w.mass.value for w in moved.weights} == {"toe": 5, "heel": 5}
    with pytest.raises(BadInput, match="only 8 g sit at the toe"):
        read_changes(["driver: 9 g toe to heel"], bag)


def test_a_club_is_left_out_by_saying_so() -> None:
    assert (one("5 iron out").what, one("5 iron out").club) == ("drop", "5 iron")


CHART = [
    Part(
        part="sleeve",
        maker="Harrowmere",
        model="Kittiwake",
        variant=position,
        figures={
            "loft change": figure(loft, "deg", "published"),
            "lie change": figure(lie, "deg", "published"),
        },
    )
    for position, loft, lie in (
        ("P1", 1, 0), ("P2", 0.5, 0), ("P3", 0, 0), ("P4", -0.5, 0), ("P5", -1, 0), ("U2", 0.5, 1.5), ("U4", -0.5, 1.5),
    )
]  # fmt: skip


def turned_driver(position: str | None) -> GolfSet:
    head = Head(maker="Harrowmere", model="Kittiwake")
    return GolfSet(clubs=(Club(club="driver", kind="driver", head=head, sleeve=Sleeve(position=position)),))


@pytest.mark.parametrize(
    ("now", "text", "then"),
    [
        ("P2", "driver: sleeve two positions down", "P4"),
        ("P4", "driver: sleeve 1 position up", "P3"),
        ("U2", "driver: turn the sleeve two clicks down", "U4"),
    ],
)
def test_a_sleeve_turns_by_positions_of_its_chart(now: str, text: str, then: str) -> None:
    [change] = read_changes([text], turned_driver(now), CHART)
    assert change.sleeve is not None and change.sleeve.position == then


@pytest.mark.parametrize(
    ("golf_set", "parts", "words"),
    [
        (turned_driver("P4"), (), "no chart"),
        (turned_driver(None), CHART, "is not known"),
        (turned_driver("P4"), CHART, "no 2 positions down"),
    ],
)
def test_a_turn_that_cannot_be_counted_is_refused(golf_set: GolfSet, parts: list[Part], words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read_changes(["driver: sleeve two positions down"], golf_set, parts)
