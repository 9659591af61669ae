"""Sources at a glance, and the way back from a figure to what it rests on."""

from __future__ import annotations

import re

import pytest

from asplayed.clubs import AsPlayed, Bend, Club, Grip, Head, PutterParts, Shaft, Sleeve, Stated, Weight
from asplayed.quantities import Figure, Source, derive, figure
from asplayed.telling.cautions import cautions
from asplayed.telling.marks import MARKS, definitions, mark_of
from asplayed.telling.workings import NAMES, record_figures, workings


@pytest.mark.parametrize("source", list(Source))
def test_every_source_has_its_mark(source):
    assert mark_of(figure(1, "deg", source)).source == source.value


def test_marks_differ_by_shape_and_never_by_colour():
    assert len({mark.shape for mark in MARKS}) == len(MARKS)
    colours = re.findall(r'(?:fill|stroke)="([^"]+)"', definitions())
    assert set(colours) <= {"none", "currentColor"}


def test_a_computed_figure_shows_the_weak_ground_it_rests_on():
    def sum_of(source):
        return derive(lambda a, b: a + b, "deg", "sum", a=figure(1, "deg", "measured"), b=figure(1, "deg", source))

    assert mark_of(sum_of("published")).id == "from-computed"
    assert mark_of(sum_of("common practice")).id == mark_of(sum_of("assumed")).id == "from-computed-loosely"
    beyond = derive(lambda a: a, "deg", "again", a=sum_of("assumed"))
    assert mark_of(beyond).id == "from-computed-loosely"


def test_every_figure_a_record_can_hold_has_a_name_of_the_trade():
    records = {"as_played": AsPlayed, "head": Head, "sleeve": Sleeve, "bend": Bend, "shaft": Shaft, "grip": Grip,
               "putter": PutterParts, "stated": Stated}  # fmt: skip
    paths = {
        f"{name}.{field}"
        for name, record in records.items()
        for field, kind in record.__annotations__.items()
        if "Figure" in str(kind)
    }
    assert paths | {"length", "length_change"} == set(NAMES)


def test_a_figure_used_twice_stands_once():
    stamp, bend = figure(56, "deg", "stated"), figure(1, "deg", "stated")
    loft = derive(lambda stamp, bend: stamp + bend, "deg", "stamp plus bend", stamp=stamp, bend=bend)
    bounce = derive(lambda sole, bend: sole + bend, "deg", "sole plus bend", sole=figure(8, "deg", "stated"), bend=bend)
    club = Club(club="sand wedge", kind="wedge", head=Head(loft=stamp), bend=Bend(loft=bend),
                as_played=AsPlayed(loft=loft, bounce=bounce))  # fmt: skip
    lines = workings(club)
    assert [(line.number, line.name, line.rests_on) for line in lines] == [
        (1, "loft as played", (2, 3)),
        (2, "loft as stamped", ()),
        (3, "bend of loft", ()),
        (4, "bounce as played", (5, 3)),
        (5, "sole", ()),
    ]


def test_masses_of_movable_weights_are_figures_too():
    mass = figure(8, "g", "stated")
    club = Club(club="driver", kind="driver", weights=(Weight(place="toe"), Weight(place="heel", mass=mass)))
    assert list(record_figures(club)) == [("weights.1", mass)]
    assert workings(club)[0].name == "movable weight, heel"


def called(golf_set, word: str) -> bool:
    return any(word in sentence for sentence in cautions(golf_set))


def test_cautions_come_where_the_work_was_done(fourteen, bare):
    assert called(fourteen, "bending bar")
    assert called(fourteen, "Lead tape")
    assert called(fourteen, "turned sleeve")
    assert not called(fourteen, "Woods are not bent")
    for word in ("bending bar", "Lead tape", "turned sleeve", "leaves the shaft", "solvent"):
        assert not called(bare, word)
    assert called(bare, "licensed practitioner")
    assert called(bare, "committee in charge")


def test_a_bent_wood_and_a_changed_length_are_cautioned(bare):
    bend = Bend(lie=Figure(1, "deg", Source.STATED))
    wood = Club(club="3 wood", kind="fairway wood", bend=bend, length_change=figure(-0.5, "in", "stated"))
    golf_set = type(bare)(clubs=(wood,))
    assert called(golf_set, "Woods are not bent")
    assert called(golf_set, "leaves the shaft at speed injures")
