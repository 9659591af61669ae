"""What a list says of the grips of several clubs at once: which of them get which grip, mass and wraps."""

from __future__ import annotations

import pytest

from asplayed.intake import read

_SET = (
    "Driver Gannet 9.5, Reed 60 S, 45\n3 wood Gannet 15, Reed 70 S, 43\n5-PW Dunlin, Basalt 115 S\nPutter Wickle, 34\n"
)
_WEDGES = "50, 54, 58 Burr, Basalt 120 S\n"
_COUNTED = """\
1. Driver, Gannet 9.5, Reed 60 S
2. 3 wood, Gannet 15, Reed 70 S
3. 5-PW, Dunlin, Basalt 115 S
4. Putter, Wickle, 34 in
"""

Grip = tuple[str | None, float | str | None, float | None] | None


def _grips(text: str) -> dict[str, Grip]:
    """Name, mass and wraps of each club's grip."""
    told: dict[str, Grip] = {}
    for club in read(text).clubs:
        grip = club.grip
        told[club.club] = None if grip is None else (grip.name, grip.mass and grip.mass.value, grip.wraps)
    return told


# the sentence behind the set; the grip of the driver, of the 7 iron and of the putter
_BEHIND = [
    ("Norrby grips on the lot w 1 extra wrap. not the putter, thats got a Tessary 3", "Norrby 1",
     "Norrby 1", "Tessary 3"),
    ("Norrby Cord grips all through the bag with two extra wraps, apart from the putter which has a Tern on it",
     "Norrby Cord 2", "Norrby Cord 2", "Tern"),
    ("Grip is the Norrby Fat on the putter, and the Norrby Ribbed on everything else.",
     "Norrby Ribbed", "Norrby Ribbed", "Norrby Fat"),
    ("Norrby Fat grip on the putter, Norrby Cord on all the others.", "Norrby Cord", "Norrby Cord", "Norrby Fat"),
    ("All with the Tessary grip, the putter as well.", "Tessary", "Tessary", "Tessary"),
    ("Grips: Tessary, whole set incl. putter", "Tessary", "Tessary", "Tessary"),
    ("Fresh grips on the whole lot, putter excepted: Tessary Cord, two extra wraps",
     "Tessary Cord 2", "Tessary Cord 2", ""),
    ("Tessary on everything, 2 extra wraps. not the putter, that stays as it is", "Tessary 2", "Tessary 2", ""),
    ("Grips through the set, putter aside, are Tessary, and I have two extra wraps on each.",
     "Tessary 2", "Tessary 2", ""),
    ("Grips: all bar the putter Tessary Cord +2 wraps", "Tessary Cord 2", "Tessary Cord 2", ""),
    ("Grips: Tessary Cord +3 (putter: Norrby 1.0)", "Tessary Cord 3", "Tessary Cord 3", "Norrby 1.0"),
    ("Grips: Tessary, one extra wrap, all but the putter. Sorry - two extra wraps, not one.",
     "Tessary 2", "Tessary 2", ""),
    ("Grips all round: Tessary Soft. No, scratch that, Tessary Cord. Putter keeps its old one.",
     "Tessary Cord", "Tessary Cord", ""),
    ("Grips throughout: Tessary, one, no, two extra wraps.", "Tessary 2", "Tessary 2", "Tessary 2"),
    ("The woods have Tessary Plain, the irons Tessary Cord with two extra wraps.",
     "Tessary Plain", "Tessary Cord 2", ""),
    ("Only the irons get new grips: Tessary, 1 extra wrap", "", "Tessary 1", ""),
    ("It's Tessary grips from driver to pitching wedge, and a Norrby Slim on the putter.",
     "Tessary", "Tessary", "Norrby Slim"),
    ("All gripped with Tessary. One extra wrap on the woods, two on the irons.", "Tessary 1", "Tessary 2", ""),
    ("Tessary on everything but the putter, with one extra wrap and one more under the right hand. Grips done.",
     "Tessary 1", "Tessary 1", ""),
    ("Grips: Tessary everywhere, except the irons: those get two extra wraps", "Tessary", "Tessary 2", "Tessary"),
    ("Grips are all Tessary: the Lite on the driver, the Pistol on the putter.", "Tessary Lite", "", "Tessary Pistol"),
    ("I would like new Tessary grips on all the clubs but not on the putter, that one can keep the grip it has.",
     "Tessary", "Tessary", ""),
    ("The old grips were Norrby. New grips: Tessary, on both the driver and the irons.", "Tessary", "Tessary", ""),
    ("Grips\nDriver to 3 wood: Tessary Lite\n5 iron to PW: Tessary Firm, 1 extra wrap",
     "Tessary Lite", "Tessary Firm 1", ""),
    ("Grips: Tessary on all clubs, with 2 extra wraps under, only the putter has still his old one.",
     "Tessary 2", "Tessary 2", ""),
    ("I like my grips soft.", "", "", ""),
]  # fmt: skip


def _short(grip: Grip) -> str:
    """A grip's name and its wraps."""
    if grip is None or grip[0] is None:
        return ""
    return grip[0] if grip[2] is None else f"{grip[0]} {grip[2]:g}"


@pytest.mark.parametrize(("said", "driver", "iron", "putter"), _BEHIND, ids=[each[0][:40] for each in _BEHIND])
def test_grips_told_behind_the_set(said: str, driver: str, iron: str, putter: str) -> None:
    found = _grips(_SET + said + "\n")
    assert [_short(found[club]) for club in ("driver", "7 iron", "putter")] == [driver, iron, putter]


def test_masses_of_two_grips() -> None:
    found = _grips(_SET + "Grips: Tessary, 37 g, on all but the putter; Tessary Round, 60 g, on the putter\n")
    assert found["driver"] == ("Tessary", 37, None)
    assert found["putter"] == ("Tessary Round", 60, None)


@pytest.mark.parametrize(
    "said", ["New grips on 1 to 3: Tessary, 47 g", "Grips: 1-3 Tessary, 47 g", "Grips: Tessary, 47 g, on items 1 to 3"]
)
def test_grips_of_counted_rows(said: str) -> None:
    found = _grips(_COUNTED + said + "\n")
    assert found["3 wood"] == found["pitching wedge"] == ("Tessary", 47, None)
    assert found["putter"] is None


@pytest.mark.parametrize(
    "said",
    [
        "Please put Tessary grips, 50 g, on every club except the putter.",
        "Tessary grips (50 g) on everything, not the putter.",
        "All grips Tessary, 50 g, putter excepted.",
    ],
)
def test_grips_told_before_any_club(said: str) -> None:
    found = _grips(said + "\n" + _SET)
    assert found["driver"] == found["5 iron"] == ("Tessary", 50, None)
    assert found["putter"] is None


def test_these_clubs_are_those_told_before() -> None:
    text = "Driver Gannet 9.5, Reed 60 S\nThese clubs all got Tessary grips with one extra wrap.\nPutter Wickle, 34\n"
    assert _grips(text) == {"driver": ("Tessary", None, 1), "putter": None}


def test_the_three_wedges() -> None:
    found = _grips(_SET + _WEDGES + "The three wedges get Tessary grips with two extra wraps.\n")
    assert found["gap wedge"] == found["lob wedge"] == ("Tessary", None, 2)
    assert found["9 iron"] is None


def test_one_of_several_has_more_wraps() -> None:
    found = _grips(_WEDGES + "All of these carry a Tessary grip with one extra wrap, only the 58 has two.\n")
    assert [found[club] for club in ("gap wedge", "lob wedge")] == [("Tessary", None, 1), ("Tessary", None, 2)]


def test_a_size_alone_is_a_note() -> None:
    golf_set = read(_SET + "Oh, and I've gone midsize grips on everything.\n")
    assert [note.text for note in golf_set.notes] == ["midsize grips on everything"]
    assert all(club.grip is None for club in golf_set.clubs)


def test_grips_that_are_gone_are_kept_aside() -> None:
    golf_set = read(_SET + "The old grips were Norrby on all clubs.\n")
    assert [passage.text for passage in golf_set.aside] == ["The old grips were Norrby on all clubs"]


@pytest.mark.parametrize(
    "said", ["Grips: ⁶", "grips 1 to", "Grips: all but", "no", "Grips: + on ( the", "grip grip grips all"]
)
def test_no_half_sentence_breaks_the_reader(said: str) -> None:
    read(_SET + said)
