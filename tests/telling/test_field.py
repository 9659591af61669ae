"""A player beside a field: what is rare, what is missing, where the figures stand, and how sure that is."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from msgspec.structs import replace
from tests.telling.test_documents import text_of
from tests.telling.test_explaining import grade
from tests.telling.test_pictures import boxes, touching

from asplayed.clubs import AsPlayed, Ball, Club, GolfSet, Head, SetFacts
from asplayed.errors import BadInput
from asplayed.quantities import figure
from asplayed.telling.bags import Bag, Carried
from asplayed.telling.cues import cues
from asplayed.telling.documents import cue_sheet, report_sheet
from asplayed.telling.explaining import explain
from asplayed.telling.field import among, beside_field
from asplayed.telling.field_pictures import field_pictures
from asplayed.telling.house import House
from asplayed.telling.palette import PAPER


def own(loft: float = 9.0, tolerance: float = 0.25, *, wood: bool = True) -> GolfSet:
    driver = Club(club="driver", kind="driver", head=Head(maker="Varnpike", model="Whimbrel"),
                  as_played=AsPlayed(loft=figure(loft, "deg", "measured", tolerance=tolerance),
                                     length=figure(45, "in", "measured", tolerance=1 / 16)))  # fmt: skip
    seven = Club(club="7 wood", kind="fairway wood")
    return GolfSet(set=SetFacts(player="Ada Brandt"), clubs=(driver, seven) if wood else (driver,),
                   ball=Ball(name="Velloran Mist"))  # fmt: skip


def bags(number: int = 20, *, wood: int = 2, lowest: float = 10.0) -> list[Bag]:
    """Drivers from `lowest` up by fifths, two of each; the first few carry a 7 wood, nearly all a 3 wood."""
    found = []
    for n in range(number):
        clubs = [Carried("driver", "driver", "Varnpike Whimbrel" if n < 5 else "Oskell Redshank",
                         loft=lowest + n // 2 / 5, length=45 + n % 3 / 4)]  # fmt: skip
        clubs += [Carried("7 wood", "fairway wood")] if n < wood else []
        clubs += [Carried("3 wood", "fairway wood")] if n else []
        found.append(Bag(f"set-{n}", f"Player {n}", "2026-03-01", clubs=tuple(clubs), ball="Pellan Crest"))
    return found


def texts(field) -> list[str]:
    return [said.text for said in beside_field(field).sentences]


def test_rare_missing_shared_and_standing():
    told = texts(among(own(), bags(), "2026"))
    assert told == [
        "Beside 20 other players of 2026, each with the newest set stored.",
        "A 7 wood is rare: 2 of the 20 others had one.",
        "Most had a 3 wood, 19 of the 20 others; here there is none.",
        "At 9° the driver has less loft than any of the 20 others; their middle is 10.9°.",
        "The Varnpike Whimbrel of the driver is no lone choice: 5 of the 20 others had it.",
        "Nobody else in the field played the Velloran Mist ball.",
        "The field’s figures are those of the lists as stored; most were not gauged.",
    ]


def test_a_figure_whose_band_reaches_the_middle_only_seems_so():
    told = texts(among(own(9.8, tolerance=2), bags(), "2026"))
    assert any("seems strong" in text and "a gauge must settle that" in text for text in told)
    assert not any("less loft than" in text for text in told)


def test_a_player_is_no_part_of_the_field_and_counts_once():
    mine = [Bag("mine", "ada brandt", "2026-01-01"), Bag("mine-2", "Ada Brandt", "2026-02-01")]
    again = [bag._replace(name=f"{bag.name}-again", date="2026-01-02") for bag in bags()]
    assert len(among(own(), [*mine, *bags(), *again], "2026").others) == 20


def test_nobody_else_is_refused_and_few_are_said_to_be_few():
    with pytest.raises(BadInput, match="no set of another player"):
        among(own(), [Bag("mine", "Ada Brandt")], "2026")
    told = texts(among(own(), bags(3), "2026"))
    assert told[0] == "Beside 3 others of 2026: too few to speak of a field."
    assert not any("their middle" in text for text in told)


def test_usual_figures_are_not_laid_beside_a_field():
    guessed = own()
    played = AsPlayed(loft=figure(10, "deg", "common practice"))
    guessed = replace(guessed, clubs=(replace(guessed.clubs[0], as_played=played),))
    assert among(guessed, bags(), "2026").stands == ()


def test_page_paper_picture_and_talk():
    golf_set = own()
    field = among(golf_set, bags(), "2026")
    report = beside_field(field)
    [drawn] = field_pictures(field, colours=PAPER)
    root = ElementTree.fromstring(drawn.svg)
    width, height = (float(size) for size in root.get("viewBox").split()[2:])
    found = boxes(root)
    assert [words for words, left, top, right, bottom in found
            if left < 0 or top < 0 or right > width or bottom > height] == []  # fmt: skip
    assert touching(found) == []
    assert "less loft than any of the 20 others" in text_of(report_sheet(report, [drawn], House()))
    told = explain(golf_set, field=report)
    laid_out = cues(told, golf_set, 150)
    assert [cue.name for cue in laid_out] == ["Opening", "Driver", "7 wood", "Beside the field", "Ball"]
    sheet = text_of(cue_sheet(golf_set, told, laid_out))
    assert "less loft than any of the twenty others" in sheet
    assert "nine degrees [9°]" in sheet.replace("\xa0", " ")
    assert grade(" ".join(said.said for said in report.sentences)) < 7.0
