"""The sheet: whole, safe, and holding every figure with its source."""

from __future__ import annotations

import re

import msgspec
import pytest

from asplayed.clubs import AsPlayed, played_set
from asplayed.telling import set_sheet
from asplayed.telling.marks import mark_of
from asplayed.telling.words import band_text, value_text
from asplayed.telling.workings import record_figures, workings

SETS = ["fourteen", "twenty", "one", "left_handed", "bare", "hostile"]


@pytest.fixture(params=SETS)
def golf_set(request):
    return request.getfixturevalue(request.param)


def test_elements_nest_and_every_link_on_the_page_leads_somewhere(golf_set, findings, page):
    found = page(set_sheet(golf_set, findings))
    assert found.faults == []
    ids = [attrs["id"] for _, attrs, _ in found.elements if "id" in attrs]
    assert len(ids) == len(set(ids))
    links = {attrs["href"] for _, attrs, _ in found.elements if "href" in attrs}
    assert links
    assert {link.removeprefix("#") for link in links} <= set(ids)
    labels = {name for _, attrs, _ in found.elements for name in (attrs.get("aria-labelledby") or "").split()}
    assert labels <= set(ids)


def test_nothing_runs_and_nothing_is_fetched(golf_set, findings, page):
    found = page(set_sheet(golf_set, findings))
    tags = {tag for tag, _, _ in found.elements}
    assert not tags & {"script", "img", "iframe", "object", "embed", "link", "form", "base", "image", "foreignobject"}
    for _, attrs, _ in found.elements:
        assert not [name for name in attrs if name.startswith("on") or name in {"src", "srcset", "style", "xlink:href"}]
        assert (attrs.get("href") or "#").startswith("#")
    style = "".join(found.text("style"))
    assert style
    assert not re.search(r"url\(|@import|expression", style)


def test_words_from_outside_are_shown_as_they_are(hostile, findings, page):
    found = page(set_sheet(hostile, findings))
    markup = '<script>alert(1)</script><img src="http://example.invalid/x" onerror=alert(1)>"\'&lt;'
    assert found.text("h1") == [markup]
    assert found.text("title")[0].startswith(markup)
    assert found.text("blockquote") == [markup]
    everything = found.text("body")[0]
    assert "\x00" not in everything
    assert "\x1b" not in everything
    assert "[31mred\ufffd" in everything
    # words that run from right to left are kept apart from the words around them
    event = next(words for tag, _, words in found.elements if tag == "bdi" and "محمد" in "".join(words))
    assert "".join(event).startswith("\u202e")


def test_a_hostile_sheet_can_be_written_as_utf8(hostile):
    assert set_sheet(hostile, ()).encode("utf-8")


@pytest.mark.parametrize("worked_out", [False, True])
def test_every_figure_of_the_records_stands_with_its_band_and_source(twenty, page, worked_out):
    if worked_out:
        unplayed = [msgspec.structs.replace(club, as_played=AsPlayed()) for club in twenty.clubs]
        twenty = played_set(msgspec.structs.replace(twenty, clubs=tuple(unplayed)))
    found = page(set_sheet(twenty, ()))
    seen = 0
    for place, club in enumerate(twenty.clubs, start=1):
        lines = {line.figure: line.number for line in workings(club)}
        for _, figure in record_figures(club):
            text = found.text_of(f"club-{place}-{lines[figure]}")
            assert value_text(figure) in text
            assert band_text(figure) in text
            assert mark_of(figure).source in text
            seen += 1
    assert seen > 300


def test_the_chain_behind_a_figure_is_reachable(fourteen, page):
    found = page(set_sheet(fourteen, ()))
    row = next(words for words in found.text("tr") if words.startswith("sand wedge"))
    assert "57°" in row
    links = [attrs["href"] for tag, attrs, words in found.elements if tag == "a" and "".join(words) == "57°"]
    assert links
    explained = found.text_of(links[0].removeprefix("#"))
    assert explained == "1 loft as played 57° computed ±1°: stamped loft plus bend from 2, 3"
    assert found.text_of("club-12-2") == "2 loft as stamped 56° stated ±1°"
    assert found.text_of("club-12-3") == "3 bend of loft 1° stated ±0.25°"


def test_what_is_not_known_is_shown_as_missing(bare, page):
    found = page(set_sheet(bare, ()))
    rows = [words for words in found.text("tr") if words.startswith(("driver", "7 iron", "putter"))]
    assert len(rows) == 3
    for row in rows:
        assert row.count("not known") == 10
        assert not re.search(r"\d", row.removeprefix("7 iron"))
    facts = dict(zip(found.text("dt"), found.text("dd"), strict=True))
    assert facts["Player"] == "not named"
    assert facts["Figures as of"] == "no date given"
    assert facts["Ball"] == "not said"
    assert facts["Plays"] == "right-handed (assumed: nobody said)"


def test_the_head_of_the_sheet_says_whose_set_it_is(fourteen, page):
    found = page(set_sheet(fourteen, ()))
    facts = dict(zip(found.text("dt"), found.text("dd"), strict=True))
    assert facts == {
        "Player": "Jonas Tessler",
        "Plays": "right-handed",
        "Event": "Ravelin Cup",
        "Figures as of": "2026-10-04",
        "Clubs": "14",
        "Ball": "Velloran soft, yellow",
    }


def test_lengths_stand_in_inches_with_fractions_and_in_millimetres(fourteen, page):
    row = next(words for words in page(set_sheet(fourteen, ())).text("tr") if words.startswith("pitching wedge"))
    # 35 13/16 in = 35.8125 · 25.4 mm = 909.6 mm
    assert "35 13/16 in measured" in row
    assert "910 mm ±1/16 in" in row


def test_negative_figures_carry_a_true_minus_sign(fourteen, page):
    row = next(words for words in page(set_sheet(fourteen, ())).text("tr") if words.startswith("driver"))
    assert "−0.5° assumed" in row
    assert not re.search(r"(?<!\w)-\d", row)


def test_findings_stand_gravest_first_with_reason_remedy_and_source(fourteen, findings, page):
    found = page(set_sheet(fourteen, tuple(reversed(findings))))
    first, second = found.text("article")
    assert first.startswith("Flaw · pitching wedge and gap wedge 7° lie between")
    assert "What could be done: Bend the gap wedge 1° strong" in first
    assert "step 7° computed ±1.1°" in first
    assert "Source: common practice: 4° to 6° between wedges" in first
    assert second.startswith("Worth knowing 14 clubs.")


def test_a_findings_figure_leads_to_the_workings_of_its_club(fourteen, findings, page):
    findings[0].figures["shorter"] = fourteen.clubs[10].as_played.loft
    found = page(set_sheet(fourteen, findings))
    article = found.text("article")[0]
    assert "shorter 53° computed" in article
    links = {attrs["href"] for tag, attrs, words in found.elements if tag == "a" and "".join(words) == "53°"}
    assert links == {"#club-11-1"}
    assert found.text_of("club-11-1").startswith("1 loft as played 53°")
    linked = [attrs for tag, attrs, words in found.elements if tag == "a" and "".join(words) == "53°"]
    assert len(linked) == 2  # once in the table, once in the finding


def test_a_set_without_breach_is_never_called_more_than_that(fourteen, findings, page):
    calm = set_sheet(fourteen, findings)
    assert "No breach found in the figures entered." in page(calm).text("body")[0]
    assert "conform" not in calm.lower()
    findings[0].level = "breach"
    assert "No breach found" not in set_sheet(fourteen, findings)


def test_what_the_user_said_is_kept_word_for_word(fourteen, page):
    found = page(set_sheet(fourteen, ()))
    assert found.text("blockquote") == ["old Gannet 4 iron, spare", "tipped 1 inch", "mind the dog"]
    everything = found.text("body")[0]
    assert "7 wood: Which flex is the 7 wood’s shaft? Likely: S, TX. (shaft flex, line 3)" in everything


def test_every_mark_on_the_sheet_is_explained_on_it(fourteen, page):
    found = page(set_sheet(fourteen, ()))
    used = {attrs["href"] for tag, attrs, _ in found.elements if tag == "use"}
    legend = found.text("ul")[0]
    assert len(used) == 7
    for source in ("measured", "stated", "published", "computed", "common practice", "assumed"):
        assert f"{source}: " in legend


def test_the_same_set_gives_the_same_sheet(twenty, findings):
    assert set_sheet(twenty, findings) == set_sheet(twenty, findings)
