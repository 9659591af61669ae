"""A season's winners beside the rest: what is counted, what is said of it, and how far it is trusted."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from tests.telling.test_documents import opened, text_of
from tests.telling.test_explaining import grade
from tests.telling.test_pictures import SVG, boxes, touching

from asplayed.errors import BadInput
from asplayed.telling.bags import Bag, Carried
from asplayed.telling.cues import report_brief, report_cues
from asplayed.telling.documents import report_cue_sheet, report_sheet
from asplayed.telling.field_pictures import season_pictures
from asplayed.telling.folder import season_pack
from asplayed.telling.house import House
from asplayed.telling.palette import PAPER
from asplayed.telling.season import counted_season, odds, round_up
from asplayed.telling.sheet import report_page

SEVEN = Carried("7 wood", "fairway wood", "Harrowmere Kittiwake", "Ember", "X", 21.0, 42.0)


def bag(number: int, *, won: bool, seven: bool, loft: float, **facts) -> Bag:
    clubs = (Carried("driver", "driver", "Varnpike Whimbrel", "Ember", "X", loft, 45.0), *((SEVEN,) if seven else ()))
    told = {"player": f"Player {number}", "date": f"2026-03-{number % 28 + 1:02d}", "place": 1 if won else 20}
    return Bag(**({"name": f"set-{number}", "event": "Ravelin Cup", "clubs": clubs} | told | facts))


def season(winners: int = 6, others: int = 30, seven: int = 3):
    """Winners with a 7 wood and a strong driver; of the others, one in so many has a 7 wood."""
    bags = [bag(n, won=True, seven=True, loft=9 + n / 10) for n in range(winners)]
    bags += [bag(n, won=False, seven=n % 10 < seven, loft=10.5 + n / 100) for n in range(winners, winners + others)]
    return counted_season(bags, "2026")


def texts(report) -> list[str]:
    return [said.text for said in report.sentences]


def test_what_all_winners_share_is_told_with_both_counts_and_its_luck():
    report = round_up(season(others=30, seven=3))
    told = " ".join(texts(report))
    assert "All 6 winners carried a 7 wood; of the 30 others, 9." in told
    [row] = [row for part in report.sections for table in part.tables for row in table.rows if "a 7 wood" in row[0]]
    assert row == ("carried a 7 wood", "6 of 6", "9 of 30", "1 in 389")  # C(15,6)/C(36,6), by hand


def test_what_luck_hardly_gives_is_named_and_the_rest_left_to_luck():
    sure = round_up(season(winners=9, others=60, seven=1))
    assert any("hard to put down to luck" in text and "carried a 7 wood" in text for text in texts(sure))
    lucky = round_up(season(winners=2, others=4, seven=5))
    assert any(text.startswith("All this may be luck") for text in texts(lucky))


def test_one_thing_is_told_once_though_it_shows_in_several_traits():
    """The 7 wood is a club carried, a count, a head and a shaft: one sentence has it."""
    report = round_up(season())
    found = [said.text for part in report.sections for said in part.sentences]
    assert [text for text in found if "wood" in text] == ["All 6 winners carried a 7 wood; of the 30 others, 9."]


def test_middles_are_compared_where_they_stand_apart():
    report = round_up(season())
    assert any("9.25°" in text and "10.7" in text and "driver" in text for text in texts(report))
    alike = counted_season([bag(n, won=n < 4, seven=n < 2, loft=10.0) for n in range(12)], "2026")
    assert any("do not stand out" in text for text in texts(round_up(alike)))


def test_a_winner_counts_once_and_is_none_of_the_others():
    bags = [bag(1, won=True, seven=True, loft=9), bag(2, won=True, seven=True, loft=9)]
    bags += [bag(1, won=False, seven=False, loft=11, name="later", date="2026-09-01"),
             bag(3, won=False, seven=False, loft=11)]  # fmt: skip
    found = counted_season(bags, "2026")
    assert [each.name for each in found.winners] == ["set-1", "set-2"]
    assert [each.name for each in found.others] == ["set-3"]


@pytest.mark.parametrize(("winners", "words"), [(0, "no winner’s set"), (1, "only one winner’s set")])
def test_too_few_winners_are_refused_with_what_to_do(winners, words):
    bags = [bag(n, won=n < winners, seven=True, loft=9) for n in range(5)]
    with pytest.raises(BadInput, match=words):
        counted_season(bags, "2026")


def test_winners_alone_are_told_without_a_comparison():
    told = texts(round_up(season(others=0)))
    assert "All 6 winners carried a 7 wood." in told
    assert not any("luck" in text for text in told)


def test_no_counted_figure_lacks_what_it_was_counted_among():
    for said in round_up(season()).sentences:
        for name, found in said.figures:
            assert name
            assert found.why


def test_it_reads_easily_and_says_numbers_in_words():
    report = round_up(season())
    assert grade(" ".join(said.said for said in report.sentences)) < 7.0
    assert not any(letter.isdigit() for letter in report.opening.said.replace("2026", ""))


def test_pages_pictures_and_cue_sheet():
    counted = season()
    report = round_up(counted)
    drawn = season_pictures(counted, colours=PAPER)
    assert [each.name for each in drawn] == ["season-shares.svg", "season-sizes.svg"]
    for each in drawn:
        root = ElementTree.fromstring(each.svg)
        width, height = (float(size) for size in root.get("viewBox").split()[2:])
        found = boxes(root)
        assert [words for words, left, top, right, bottom in found
                if left < 0 or top < 0 or right > width or bottom > height] == []  # fmt: skip
        assert touching(found) == []
        assert root.find(f"{SVG}desc").text
    page = report_page(report, season_pictures(counted))
    assert "All 6 winners carried a 7 wood" in page
    paper = text_of(report_sheet(report, drawn, House()))
    assert "How far to trust it" in paper
    laid_out = report_cues(report, 150)
    assert laid_out[0].name == "Opening"
    sheet = report_cue_sheet(report, laid_out, House())
    assert len(opened(sheet).pages) == 1
    assert "All six winners carried a 7 wood" in text_of(sheet)
    minute = report_brief(report, House()).minute
    assert sum(len(said.said.split()) for said in minute) <= 150
    assert minute[-1] == report.trust[0]
    assert {"season.html", "season.pdf", "cue-sheet.pdf", "captions.vtt"} <= set(season_pack(counted))


def test_hostile_names_stay_names():
    mark = "<script>alert(1)</script>"
    bags = [bag(n, won=n < 3, seven=True, loft=9, player=f"{mark}{n}", event=mark, ball=mark) for n in range(8)]
    counted = counted_season(bags, "2026")
    page = report_page(round_up(counted), season_pictures(counted))
    assert "<script" not in page


def test_odds():
    assert [odds(part) for part in (1.0, 0.5, 1 / 70, 0.00001)] == ["easily", "1 in 2", "1 in 70", "under 1 in 10,000"]
