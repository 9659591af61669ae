"""Captions and chapters held against the formats' own rules, and the running time against the words."""

from __future__ import annotations

import itertools
import re

import pytest

from asplayed.quantities import figure
from asplayed.telling.captions import captions, chapters, subrip, webvtt
from asplayed.telling.cues import brief, cues, summary
from asplayed.telling.explaining import explain
from asplayed.telling.house import House
from asplayed.telling.phrases import Sentence

VTT_TIME = re.compile(r"(?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}")


def parsed(text: str) -> list[tuple[float, float, list[str]]]:
    """A WebVTT file by the rules of its candidate recommendation (W3C, WebVTT, 4 April 2019, section 4): header, blank
    line, blocks of an optional identifier, a timing line and text without -->; times rise, none ends before its start.
    """
    assert text.startswith("WEBVTT\n\n")
    found = []
    for block in text.split("\n\n")[1:]:
        lines = block.strip("\n").split("\n")
        if lines == [""]:
            continue
        if "-->" not in lines[0]:
            lines = lines[1:]
        start, arrow, end = lines[0].split(" ")
        assert arrow == "-->"
        for time in (start, end):
            assert VTT_TIME.fullmatch(time), time
        assert lines[1:]
        assert not any("-->" in line for line in lines[1:])
        assert all(not re.search(r"<|&(?!amp;|lt;|gt;)", line) for line in lines[1:])
        found.append((_seconds(start), _seconds(end), lines[1:]))
    starts = [start for start, _, _ in found]
    assert starts == sorted(starts)
    assert all(start < end for start, end, _ in found)
    return found


def _seconds(time: str) -> float:
    hours, minutes, seconds = time.split(":")
    return int(hours) * 3600 + int(minutes) * 60 + float(seconds)


@pytest.fixture
def laid_out(fourteen, findings):
    return cues(explain(fourteen, findings), fourteen, 150)


def test_captions_are_valid_and_readable(laid_out):
    found = parsed(webvtt(captions(laid_out, 150)))
    for start, end, lines in found:
        assert len(lines) <= 2
        assert all(len(line) <= 42 for line in lines)
        assert end - start < 9  # two full lines at 150 words a minute
    for one, other in itertools.pairwise(found):
        assert one[1] <= other[0] + 0.001  # none is shown over another


def test_captions_say_the_whole_talk(laid_out):
    found = " ".join(" ".join(lines) for _, _, lines in parsed(webvtt(captions(laid_out, 150))))
    assert found.split() == " ".join(said.text for cue in laid_out for said in cue.sentences).split()


def test_chapters_follow_the_clubs(laid_out, fourteen):
    found = parsed(webvtt(chapters(laid_out)))
    assert [lines[0] for _, _, lines in found] == [
        "Opening",
        *(club.club[:1].upper() + club.club[1:] for club in fourteen.clubs),
        "Ball",
    ]
    for one, other in itertools.pairwise(found):
        assert one[1] == other[0]


def test_subrip_counts_from_one_and_writes_commas(laid_out):
    blocks = subrip(captions(laid_out, 150)).strip("\n").split("\n\n")
    for number, block in enumerate(blocks, start=1):
        first, times, *lines = block.split("\n")
        assert int(first) == number
        assert re.fullmatch(r"\d{2}:[0-5]\d:[0-5]\d,\d{3} --> \d{2}:[0-5]\d:[0-5]\d,\d{3}", times)
        assert lines


@pytest.mark.parametrize("which", ["hostile", "bare", "one", "twenty"])
def test_whatever_the_words_captions_stay_valid(which, request):
    golf_set = request.getfixturevalue(which)
    laid_out = cues(explain(golf_set), golf_set, 150)
    assert parsed(webvtt(captions(laid_out, 150)))
    assert parsed(webvtt(chapters(laid_out)))
    assert "<" not in subrip(captions(laid_out, 150))


def test_the_running_time_is_the_words_by_their_speed(fourteen):
    told = explain(fourteen)
    words = sum(len(said.said.split()) for said in told.sentences)
    for speed in (120, 180):
        laid_out = cues(told, fourteen, speed)
        pauses = len(laid_out) - 1
        assert laid_out[-1].end == pytest.approx(words * 60 / speed + pauses, abs=0.01)


def test_the_summary_has_title_line_minute_and_chapters(fourteen, findings):
    told = explain(fourteen, findings)
    laid_out = cues(told, fourteen, 150)
    short = brief(told, House())
    found = summary(short, told.sentences, laid_out)
    assert found.startswith("Tessler before the Ravelin Cup\n\n")
    assert short.line.text in found
    assert " ".join(said.text for said in short.minute) in found
    assert "\n0:00 Opening\n" in found
    assert re.search(r"Of \d+ sentences with figures, (none rests|1 rests|\d+ rest) on gauged figures alone\.", found)


def test_a_count_is_no_gauged_figure(fourteen):
    counted = Sentence("finding", "3 wedges.", "Three wedges.", (("wedges", figure(3, "1", "computed")),))
    stated = Sentence("loft", "It is 9°.", "It is nine degrees.", (("loft", figure(9, "deg", "stated")),))
    found = summary(brief(explain(fourteen), House()), [counted, stated], ())
    assert "Of 1 sentence with figures, none rests on gauged figures alone." in found
