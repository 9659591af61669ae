"""Who could be in the bag: every setting a workshop makes and no other, in words that make what was flown."""

from __future__ import annotations

import numpy as np
import pytest

from asplayed.catalogue import Part
from asplayed.catalogue.changes import apply_settled
from asplayed.choosing.candidates import EVERYTHING, Candidates, candidates
from asplayed.choosing.prices import Prices
from asplayed.clubs import Club, GolfSet, Head, Sleeve, angles
from asplayed.demo import LISTS
from asplayed.intake.changes import read_changes
from asplayed.judgement.heads import bend_limit
from asplayed.players.versions import Hands, hands_of
from asplayed.quantities import figure, to_si
from asplayed.workshop import order

from .conftest import demo_player, demo_set


def _hands(name: str) -> Hands:
    return hands_of(demo_set(name), demo_player(name), shots=50)


def test_today_s_clubs_come_first_and_unchanged(parts: tuple[Part, ...]) -> None:
    hands = _hands("jonas-tessler")
    found = candidates(hands, parts)
    as_they_are = [each.label for each in found.entries if not each.words]
    assert as_they_are == [each.label for each in hands.flown.clubs]
    assert found.entries[0].words == () and len(found.entries) == len(found.versions.label)
    for each, loft in zip(found.entries, np.degrees(found.versions.loft), strict=True):
        assert each.loft == pytest.approx(loft, abs=1e-3)


@pytest.mark.parametrize("name", LISTS)
def test_words_make_what_was_flown_and_a_workshop_takes_them(name: str, parts: tuple[Part, ...]) -> None:
    """Every nineteenth candidate, read and settled as `order` does it, has the loft and length that were flown."""
    golf_set = demo_set(name)
    found = candidates(_hands(name), parts)
    tried = 0
    for place in range(0, len(found.entries), 19):
        entry = found.entries[place]
        if not entry.words:
            continue
        changes = read_changes(entry.words, golf_set, parts)
        made = apply_settled(golf_set, changes, parts)
        if entry.label is None:
            club = made.clubs[-1]
        else:
            [club] = [one for one, was in zip(made.clubs, golf_set.clubs, strict=True) if one is not was]
        loft, length = angles.loft(club), angles.length(club)
        assert loft is not None and length is not None
        assert loft.in_unit("deg").number == pytest.approx(entry.loft, abs=0.01), entry.words
        assert to_si(length.number, length.unit) == pytest.approx(found.versions.length[place], abs=1e-4), entry.words
        assert club.club == entry.club and club.kind == entry.kind, entry.words
        mass = club.head.mass
        if entry.parts and mass is not None:
            assert mass.in_unit("g").number == pytest.approx(1000 * found.versions.head_mass[place], abs=0.1)
        assert order(golf_set, changes, parts=parts).clubs
        tried += 1
    assert tried > 30


def test_bends_keep_to_the_limit_from_the_angle_as_made(parts: tuple[Part, ...]) -> None:
    golf_set = demo_set("jonas-tessler")  # his sand wedge is bent 1 weak already, of 4 that its maker allows
    found = candidates(_hands("jonas-tessler"), parts, tried=("bends",))
    bends = {each.loft for each in found.entries if each.label == "sand wedge"}
    [wedge] = [club for club in golf_set.clubs if club.club == "sand wedge"]
    assert bend_limit(wedge).high == 4
    assert max(bends) == 58 and min(bends) == 50
    assert {each.words for each in found.entries if each.kind in ("driver", "fairway wood", "hybrid")} == {()}


def test_a_lean_sole_is_not_bent_away() -> None:
    head = Head(loft=figure(58, "deg", "stated"), bounce=figure(5, "deg", "stated"), construction="forged carbon steel")
    bag = GolfSet(clubs=(Club(club="lob wedge", kind="wedge", head=head),))
    lofts = [each.loft for each in candidates(hands_of(bag, shots=50), tried=("bends",)).entries]
    assert min(lofts) == 57.0 and max(lofts) == 62.0


def test_no_club_is_made_longer_than_it_is_or_usually_is() -> None:
    for length, longest in ((46.0, 46.0), (44.5, 45.0)):  # 45¼ in is the usual driver
        bag = GolfSet(clubs=(Club(club="driver", kind="driver", length=figure(length, "in", "stated")),))
        found = candidates(hands_of(bag, shots=50), tried=("lengths",))
        assert max(found.versions.length) / 0.0254 == pytest.approx(longest)
        assert min(found.versions.length) / 0.0254 == pytest.approx(length - 1.0)


def test_sleeves_count_from_where_they_are() -> None:
    chart = [
        Part(part="sleeve", model="Whimbrel", variant=name,
             figures={"loft change": figure(loft, "deg", "published"), "lie change": figure(lie, "deg", "published")})
        for name, loft, lie in (("N", 0, 0), ("N+", 1, 0), ("U", 0, 1.5))
    ]  # fmt: skip
    head = Head(name="Whimbrel", model="Whimbrel", loft=figure(10, "deg", "stated"))
    sleeve = Sleeve(position="N+", loft_change=figure(1, "deg", "published"), lie_change=figure(0, "deg", "published"))
    bag = GolfSet(clubs=(Club(club="driver", kind="driver", head=head, sleeve=sleeve),))
    found = candidates(hands_of(bag, shots=50), chart, tried=("sleeves",))
    told = {each.words: (each.loft, round(float(np.degrees(lie)), 6)) for each, lie in
            zip(found.entries, found.versions.lie_change, strict=True)}  # fmt: skip
    assert told == {(): (11, 0), ("driver: sleeve N",): (10, 0), ("driver: sleeve U",): (10, 1.5)}


def test_of_several_soles_the_ground_decides(parts: tuple[Part, ...]) -> None:
    from asplayed.players.records import Conditions

    def bounce(ground: str) -> str:
        hands = hands_of(
            demo_set("ada-brandt"), demo_player("ada-brandt"), conditions=Conditions(ground=ground), shots=50
        )  # type: ignore[arg-type]
        [stamp] = {each.parts for each in candidates(hands, parts, tried=("clubs",)).entries if " 58." in each.parts}
        return stamp

    assert bounce("soft") == "Tidewright Turnstone 2 58.12 wide"
    assert bounce("firm") == "Tidewright Turnstone 2 58.06 crescent"


def test_only_what_is_on_offer_is_tried(parts: tuple[Part, ...]) -> None:
    hands = _hands("mireille-okafor")
    now, then = (candidates(hands, parts, tried=("heads", "clubs"), on=date) for date in ("2025-10-14", "2023-06-01"))

    def models(found: Candidates) -> set[str]:
        return {each.model for each in found.entries if each.parts}

    assert "Harrowmere Kittiwake 3" in models(now) and "Harrowmere Kittiwake 2" not in models(now)
    assert "Harrowmere Kittiwake 2" in models(then) and "Harrowmere Kittiwake 3" not in models(then)
    assert any("left-handed" in remark for remark in now.remarks)


def test_what_may_be_tried_is_all_that_is_tried(parts: tuple[Part, ...]) -> None:
    hands = _hands("jonas-tessler")
    every = len(candidates(hands, parts).entries)
    for what in EVERYTHING:
        found = candidates(hands, parts, tried=(what,))
        said = " ".join(words for each in found.entries for words in each.words)
        assert 13 < len(found.entries) < every
        assert ("bend" in said) == (what == "bends" or (what in ("heads", "clubs") and "bend" in said))
        assert ("add:" in said) == (what == "clubs") and (": head " in said) == (what == "heads")
    assert {each.words for each in candidates(hands, parts, tried=()).entries} == {()}


def test_prices_are_of_parts_and_work() -> None:
    priced = Prices({"oskell dunlin": 95.0, "head": 20.0, "bend": 8.0, "lindrake ember 60 s": 60.0}, "EUR")
    dunlin = Part(part="head", maker="Oskell", model="Dunlin", club=("7 iron",))
    assert priced.of((), ()) == 0.0
    assert priced.of(("7 iron: head Oskell Dunlin", "7 iron: lie 62"), (dunlin,)) == 123.0
    assert priced.of(("7 iron: head Oskell Gannet",), (Part(part="head", model="Gannet"),)) is None
    assert Prices().of(("7 iron: bend 1 weak",), ()) is None
