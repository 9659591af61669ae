"""Explanations: right figures, honest hedges, the left-hander's mirror, varied patterns, plain reading."""

from __future__ import annotations

import re
from collections import Counter
from types import SimpleNamespace

import pytest
from msgspec.structs import replace

from asplayed.clubs import AsPlayed, Bend, Club, GolfSet, Head, Shaft, Sleeve
from asplayed.quantities import Source, figure
from asplayed.telling.cues import cues
from asplayed.telling.explaining import explain, in_time, one_line
from asplayed.telling.phrases import table


def talk(told, name: str) -> str:
    return " ".join(said.text for club in told.clubs if club.name == name for said in club.talk)


def syllables(word: str) -> int:
    found = len(re.findall(r"[aeiouy]+", word.lower().removesuffix("e").removesuffix("es").removesuffix("ed")))
    return max(found, 1)


def grade(text: str) -> float:
    """The Flesch-Kincaid grade (Kincaid, Fishburne, Rogers and Chissom 1975, Naval Technical Training Command Research
    Branch Report 8-75): 0.39 words a sentence + 11.8 syllables a word − 15.59."""
    sentences = [part for part in re.split(r"[.:;?!]+(?:\s|$)", text) if part.strip()]
    words = re.findall(r"[A-Za-z’'-]+", text)
    return 0.39 * len(words) / len(sentences) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def test_a_talk_reads_at_the_seventh_grade_or_below(fourteen, findings):
    told = explain(fourteen, findings)
    assert grade(" ".join(said.said for said in told.sentences)) < 7.0


def test_no_pattern_is_heard_again_and_again(twenty):
    told = explain(twenty)
    shapes = Counter(re.sub(r"[\d½¼¾⅛⅜⅝⅞./]+", "#", said.text.replace(club.name, "CLUB"))
                     for club in told.clubs for said in club.talk)  # fmt: skip
    sentence, most = shapes.most_common(1)[0]
    assert most <= 6, sentence
    for one, other in zip(told.clubs, told.clubs[1:], strict=False):
        same = {said.text for said in one.talk} & {said.text for said in other.talk}
        assert not same


def test_what_the_settings_do(fourteen):
    told = explain(fourteen)
    driver = talk(told, "driver")
    assert "The sleeve takes off 0.75° of loft, so the ball starts lower and spins less." in driver
    assert "Set down on its sole, the face looks 0.5° closed, left of the target." in driver
    sand = talk(told, "sand wedge")
    assert "57°" in sand
    assert "56°" in sand
    assert "weak" in sand


def test_a_left_hander_is_a_mirror(fourteen, left_handed):
    right, left = talk(explain(fourteen), "driver"), talk(explain(left_handed), "driver")
    assert "closed, left of the target" in right
    assert "closed, right of the target" in left
    assert "turns the start of the shot a touch left" in right
    assert "turns the start of the shot a touch right" in left


@pytest.mark.parametrize(("source", "words"), [
    ("measured", "gauged"), ("stated", "stated, not gauged"), ("published", "published by the maker, not gauged"),
    ("common practice", "only usual in the trade"), ("assumed", "a guess"),
])  # fmt: skip
def test_a_figure_is_hedged_as_its_source_allows(source, words):
    club = Club(club="7 iron", kind="iron", as_played=AsPlayed(loft=figure(33, "deg", source)))
    said = talk(explain(GolfSet(clubs=(club,))), "7 iron").lower()
    assert f"loft is {words}" in said
    assert ("usual" in said) is (source == "common practice") or source == "assumed"


def test_nothing_is_said_of_what_is_not_known(bare):
    told = explain(bare)
    everything = " ".join(said.text for said in told.sentences)
    assert not re.search(r"\d", everything.replace("7 iron", "").replace("3 clubs", ""))
    assert "Nobody has said which ball is played." in everything
    assert all(not said.figures for said in told.sentences)


def test_a_finding_is_told_once_after_the_last_of_its_clubs(fourteen, findings):
    told = explain(fourteen, findings)
    where = [club.name for club in told.clubs for said in club.talk if said.topic == "finding-flaw"]
    assert where == ["gap wedge"]
    said = next(said for said in told.sentences if said.topic == "finding-flaw")
    assert said.said.endswith("Seven degrees lie between pitching wedge and gap wedge.")


def test_clubs_that_share_a_name_are_told_apart(twenty):
    names = [club.name for club in explain(twenty).clubs]
    assert "lob wedge 60°" in names
    assert "lob wedge 62°" in names
    assert len(set(names)) == 20


def shafted(name: str, kind: str, mass: float) -> Club:
    return Club(club=name, kind=kind, head=Head(model="Whimbrel"),
                shaft=Shaft(model="Ember", flex="R", mass=figure(mass, "g", "stated")))  # fmt: skip


def test_a_shaft_of_another_mass_is_not_the_same_shaft():
    told = explain(GolfSet(clubs=(shafted("driver", "driver", 55), shafted("5 wood", "fairway wood", 61),
                                  shafted("7 wood", "fairway wood", 61))))  # fmt: skip
    assert talk(told, "5 wood").startswith("The 5 wood is the Whimbrel, and its Ember R shaft is one of 61 g.")
    assert told.clubs[1].talk[0].said.endswith("its Ember R shaft is one of sixty-one grams.")
    assert talk(told, "7 wood").startswith("The 7 wood is of the same model, on the same shaft.")


def test_irons_of_an_ascending_set_keep_their_shaft():
    told = explain(GolfSet(clubs=(shafted("5 iron", "iron", 119), shafted("6 iron", "iron", 121.5))))
    assert "same shaft" in talk(told, "6 iron")


def test_american_spelling_leaves_names_alone():
    club = Club(club="driver", kind="driver", head=Head(name="Grey Centre"), sleeve=Sleeve(position="Neutral"))
    told = explain(GolfSet(clubs=(club,)), spelling="american")
    assert "Grey Centre" in talk(told, "driver")


def test_american_and_british_tell_the_same(twenty, findings):
    british, american = (explain(twenty, findings, spelling=spelling) for spelling in ("british", "american"))
    assert len(british.sentences) == len(american.sentences)
    assert [said.figures for said in british.sentences] == [said.figures for said in american.sentences]


def test_the_short_version_fits_its_minute_and_keeps_what_stands_out(fourteen, findings):
    told = explain(fourteen, findings)
    brief = in_time(told, 60, 150)
    assert sum(len(said.said.split()) for said in brief) <= 150
    assert brief[0] is told.opening
    assert any(said.topic == "finding-flaw" for said in brief)
    assert one_line(told) == "Tessler before the Ravelin Cup: 14 clubs, driver to putter; 1 thing stands out."


def test_every_figure_said_is_in_the_record(fourteen):
    """A figure in a talk is one of the record's own, or the size of one: none is made up on the way."""
    from asplayed.telling.workings import record_figures

    for club in explain(fourteen).clubs:
        known = [found for _, found in record_figures(club.club)]
        for said in club.talk:
            assert all(found in known for _, found in said.figures), said


def test_a_guess_is_never_called_verified():
    club = Club(club="7 iron", kind="iron", bend=Bend(loft=figure(1, "deg", "measured")),
                as_played=AsPlayed(loft=figure(33, "deg", "measured"), length=figure(37, "in", "stated")))  # fmt: skip
    told = explain(GolfSet(clubs=(club,))).clubs[0]
    by_topic = {said.topic: said.verified for said in told.talk}
    assert by_topic["loft"] is True
    assert by_topic["length"] is False


def test_every_pattern_can_be_filled():
    found = {name for group in ("say", "why", "copy") for patterns in table()[group].values() for pattern in patterns
             for name in re.findall(r"{(\w+)}", pattern)}  # fmt: skip
    slots = dict.fromkeys(found, "x")
    for group in ("say", "why", "copy"):
        for patterns in table()[group].values():
            for pattern in patterns:
                assert "{" not in pattern.format_map(slots)
    assert set(table()["hedge"]) == {source.value for source in Source} | {"loosely"}
    assert set(table()["why"]) == set(table()["copy"])


def test_an_unknown_bounce_is_not_spoken_of(fourteen):
    clubs = tuple(replace(club, as_played=replace(club.as_played, bounce=None)) for club in fourteen.clubs)
    told = explain(replace(fourteen, clubs=clubs))
    assert not any(name == "bounce" for said in told.sentences for name, _ in said.figures)


def bagged(*lofts: float, source: str = "stated", bend: float = 0.0) -> GolfSet:
    """Wedges and a putter; the second wedge is bent by `bend` to the loft given."""
    clubs = [
        Club(club=name, kind="wedge", head=Head(loft=figure(loft - (bend if place == 1 else 0), "deg", source)),
             bend=Bend(loft=figure(bend, "deg", "stated") if bend and place == 1 else None),
             as_played=AsPlayed(loft=figure(loft, "deg", source)))
        for place, (name, loft) in enumerate(zip(("gap wedge", "sand wedge", "lob wedge"), lofts, strict=True))
    ]  # fmt: skip
    return GolfSet(clubs=(*clubs, Club(club="putter", kind="putter")))


def test_no_stamp_is_claimed_of_a_loft_that_is_only_published():
    golf_set = bagged(50, 55, 60, source="published", bend=1.0)
    told = explain(golf_set)
    assert "stamp" not in " ".join(said.text.lower() for said in told.sentences)
    assert not any("stamp reads" in check for cue in cues(told, golf_set, 150) for check in cue.check)
    assert any("published loft is 50°" in check for cue in cues(told, golf_set, 150) for check in cue.check)
    assert "loft as published" in talk(told, "sand wedge").lower()


def test_a_bend_is_said_to_make_even_gaps_only_where_it_does():
    even, uneven, last = bagged(50, 55, 60, bend=1.0), bagged(50, 56, 60, bend=1.0), bagged(50, 53, 61, bend=-1.0)
    assert "even gap" in talk(explain(even), "sand wedge")
    assert "even gap" not in talk(explain(uneven), "sand wedge")
    assert "even gap" not in talk(explain(last), "sand wedge")


def test_how_sure_is_said_once_for_a_run_of_like_clubs():
    told = explain(bagged(50, 55, 60))
    assert [any(said.topic == "ground" for said in club.talk) for club in told.clubs] == [True, False, False, False]


def test_a_finding_of_many_clubs_is_told_of_the_whole_and_by_its_level(findings):
    wedges = ("gap wedge", "sand wedge", "lob wedge")
    many = SimpleNamespace(**{**vars(findings[0]), "clubs": wedges})
    told = explain(bagged(50, 55, 60), [many])
    assert [said.topic for said in told.whole] == ["finding-flaw"]
    assert told.whole[0].text.startswith("A flaw here: ")
    assert not any(said.topic.startswith("finding") for club in told.clubs for said in club.talk)
