"""A talk as given: times moved, misspoken figures found, right ones left alone."""

from __future__ import annotations

import pytest

from asplayed.errors import BadInput
from asplayed.telling.captions import Caption, captions, subrip, webvtt
from asplayed.telling.cues import cues
from asplayed.telling.explaining import explain
from asplayed.telling.spoken import align, read_transcript, report


@pytest.fixture
def laid_out(fourteen):
    return cues(explain(fourteen), fourteen, 150)


def heard(laid_out, change=lambda text: text, late: float = 0.0) -> list[Caption]:
    """What a recogniser would write: no capitals, no stops, the figures in words or digits."""
    found = []
    for cue in laid_out:
        start = cue.start + late
        for said in cue.sentences:
            text = change(said.said).lower().replace(",", "").replace(".", "")
            lasts = len(text.split()) * 0.4
            found.append(Caption(start, start + lasts, text))
            start += lasts
    return found


def test_a_talk_given_as_written_has_nothing_misspoken(laid_out):
    found = align(laid_out, heard(laid_out, late=12.0))
    assert found.misspoken == ()
    assert found.said > 0.99
    assert [cue.name for cue in found.cues] == [cue.name for cue in laid_out]
    for planned, real in zip(laid_out, found.cues, strict=True):
        assert real.start == pytest.approx(planned.start + 12.0, abs=1.5)
    assert "No figure was heard otherwise" in report(found)


def test_digits_and_words_are_the_same_number(laid_out):
    def in_digits(text: str) -> str:
        return text.replace("fifty-seven degrees", "57 degrees").replace("thirty-two degrees", "32 degrees")

    assert align(laid_out, heard(laid_out, in_digits)).misspoken == ()


def test_a_misspoken_figure_is_listed_with_what_the_record_says(laid_out):
    found = align(laid_out, heard(laid_out, lambda text: text.replace("fifty-seven", "fifty-eight")))
    assert len(found.misspoken) == 1
    wrong = found.misspoken[0]
    assert wrong.cue == "Sand wedge"
    assert "fifty eight" in wrong.heard
    assert "fifty seven" in wrong.written
    assert "fifty eight" in report(found)


def test_other_words_between_are_no_fault(laid_out):
    found = align(laid_out, heard(laid_out, lambda text: "well you know " + text + " and so on"))
    assert found.misspoken == ()


def test_a_transcript_is_read_in_either_form(laid_out, tmp_path):
    made = captions(laid_out, 150)
    for name, text in (("talk.vtt", webvtt(made)), ("talk.srt", subrip(made))):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        read = read_transcript(path)
        assert len(read) == len(made)
        assert read[3].start == pytest.approx(made[3].start, abs=0.001)
        assert align(laid_out, read).misspoken == ()


@pytest.mark.parametrize(("content", "words"), [
    (b"", "no timed words"),
    (b"hello there", "no timed words"),
    (b"WEBVTT\n\n00:00 --> soon\nhello", "is no time"),
    (b"WEBVTT\n\n00:01.000 --> 00:04.000\n" + b"the " * 10_001, "has 10001 words"),
    (b"\xff\xfe\x00\x01", "not text in UTF-8"),
])  # fmt: skip
def test_what_is_no_transcript_is_refused_in_a_sentence(content, words, tmp_path):
    path = tmp_path / "talk.vtt"
    path.write_bytes(content)
    with pytest.raises(BadInput, match=words):
        read_transcript(path)
    with pytest.raises(BadInput, match="cannot be read"):
        read_transcript(tmp_path / "nowhere.vtt")


def test_a_talk_about_something_else_gives_no_captions(laid_out):
    found = align(laid_out, [Caption(0, 5, "zzz qqq xxx")])
    assert found.captions == ()
    assert found.said == 0
