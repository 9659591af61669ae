"""Rules of taking a list that the corpus does not score, and what the reader does with what is no list."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.errors import BadInput, Refused
from asplayed.intake import read
from asplayed.intake.answers import Answer, answer, parse_answers
from asplayed.intake.reader import ledger


def test_order_is_longest_to_shortest_with_the_putter_last() -> None:
    clubs = read("putter 34\n60.08\n7 iron\ndriver 9\n5 wood 18\n4 hybrid 22\nmini driver 13\n").clubs
    assert [club.club for club in clubs] == [
        "driver", "mini driver", "5 wood", "4 hybrid", "7 iron", "lob wedge", "putter",
    ]  # fmt: skip


def test_lines_say_where_a_club_was_read() -> None:
    golf_set = read("driver Kittiwake 9\n3 wood Gannet 15\n\nthe driver is 44.5 inches\n")
    assert golf_set.clubs[0].lines == (1, 4)


def test_millimetres_become_inches_and_say_so() -> None:
    length = read("driver 1130 mm").clubs[0].length
    assert length is not None
    assert length.number == pytest.approx(1130 / 25.4, abs=1e-4)
    assert length.why == "1130 mm as written"


def test_wedges_are_named_by_their_stamp_not_by_what_they_were_bent_to() -> None:
    club = read("57.10 Sanderling bent 1 weak").clubs[0]
    assert (club.club, club.as_played.loft.number) == ("sand wedge", 58)  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("loft", "name"),
    [(46, "pitching wedge"), (49, "pitching wedge"), (50, "gap wedge"), (53, "gap wedge"), (54, "sand wedge"),
     (57, "sand wedge"), (58, "lob wedge"), (64, "lob wedge")],
)  # fmt: skip
def test_wedges_by_loft(loft: int, name: str) -> None:
    assert read(f"{loft}° wedge").clubs[0].club == name


@pytest.mark.parametrize(
    ("loft", "name"), [(17, "2 hybrid"), (18, "3 hybrid"), (20, "3 hybrid"), (21, "4 hybrid"), (23, "4 hybrid"),
                       (24, "5 hybrid"), (27, "5 hybrid"), (28, "6 hybrid"), (31, "6 hybrid")],
)  # fmt: skip
def test_hybrids_by_loft(loft: int, name: str) -> None:
    assert read(f"hybrid {loft}°").clubs[0].club == name


def test_an_impossible_figure_is_refused_with_its_place_and_range() -> None:
    with pytest.raises(Refused) as caught:
        read("driver 9\n3 wood loft 400°, 43 in\nputter 5 metres\n")
    message = str(caught.value)
    assert "line 2, column" in message
    assert "between -10 and 90 deg" in message
    assert "line 3" in message
    assert "between 15 and 70 in" in message


def test_an_unusual_figure_is_kept_and_questioned() -> None:
    golf_set = read("driver 9°, 49 inches")
    assert golf_set.clubs[0].length is not None
    assert golf_set.clubs[0].length.value == 49
    assert [question.about for question in golf_set.questions] == ["length"]


@pytest.mark.parametrize(
    "text",
    [
        "",
        " \n\t ",
        "lorem ipsum dolor sit amet\n" * 40,
        "bonjour, voici une liste de courses\n",
        "\x00\x01\x02" * 50,
        "\u200fשלום עולם\u200f",
    ],
)
def test_what_is_no_list_is_refused_in_one_sentence_with_its_place(text: str) -> None:
    with pytest.raises(BadInput, match="line 1, column 1"):
        read(text)


def test_a_text_without_end_is_refused_where_it_becomes_too_long() -> None:
    with pytest.raises(BadInput, match="line 2, column"):
        read("driver 9\n" + "x" * 3_000_000)


def test_marks_that_cannot_be_seen_do_not_split_words() -> None:
    assert read("dri\u200fver 9\u00ad\u200b°").clubs[0].club == "driver"


def test_a_vocabulary_of_the_users_own_adds_words(tmp_path: Path) -> None:
    own = tmp_path / "words.toml"
    own.write_text('[DRIVER]\ndriver = ["big dog"]\n', encoding="utf-8")
    assert read("big dog Kittiwake 9", vocabulary=own).clubs[0].club == "driver"


@pytest.mark.parametrize("content", ["[NOSUCH]\nx = ['y']", "[DRIVER]\ndriver = 'y'", "not toml ="])
def test_a_vocabulary_that_cannot_be_used_is_refused(tmp_path: Path, content: str) -> None:
    own = tmp_path / "words.toml"
    own.write_text(content, encoding="utf-8")
    with pytest.raises(BadInput, match=re.escape(str(own))):
        read("driver 9", vocabulary=own)


def test_an_answer_fills_its_field_and_ends_its_question() -> None:
    asked = read("driver Kittiwake 10.5, sleeve B3")
    assert [question.about for question in asked.questions] == ["sleeve.loft_change"]
    done = answer(asked, parse_answers(["driver.sleeve.loft_change=-0.75"], None))
    assert done.questions == ()
    assert done.clubs[0].as_played.loft is not None
    assert done.clubs[0].as_played.loft.number == pytest.approx(9.75)


def test_an_answer_without_a_club_answers_every_club_that_was_asked() -> None:
    asked = read("driver Kittiwake 10.5, sleeve B3\n3 wood Kittiwake 15, sleeve B3")
    done = answer(asked, [Answer(None, "sleeve.loft_change", "1")])
    assert [club.as_played.loft.number for club in done.clubs if club.as_played.loft] == [11.5, 16]


@pytest.mark.parametrize("text", ["driver", "driver.colour=red", "driver.length=", "=3"])
def test_what_is_no_answer_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"CLUB\.FIELD=VALUE"):
        parse_answers([text], None)


def test_an_impossible_answer_is_refused() -> None:
    with pytest.raises(BadInput, match="between 15 and 70"):
        answer(read("driver 9"), [Answer("driver", "length", "5 m")])


# ------------------------------------------------------------------------------------------------- every word counts

_WORDS = """
driver 3 wood 5 iron irons 4-PW wedge wedges 56 52.08 60.10 bent 1 weak strong Kittiwake Lindrake 65 TX 44.75 44¾ ½ , ,
/ and or the all three both spare sold same shaft as than sorry no, hybrid std standard up down flat upright long sleeve
B3 turned toe heel 4 g draw putter neck face balanced grip +2 wraps ball yellow left-handed | . ; : ( ) - D3 255 cpm
forty four and three quarters a degree half inch make it scratch that I think maybe lovely weather player: event:
Ravelin Cup 3 May 2026 launch low spin mid ascending 95-115 to through PW SW zorbling [0:04] 12 ° " '' , | Club Loft
"""
WORDS = st.sampled_from([*_WORDS.split(), "\n", "\n", "\t"])


@settings(max_examples=250, deadline=None)
@given(st.lists(WORDS, max_size=60).map(" ".join))
def test_every_word_of_any_list_is_accounted_for(text: str) -> None:
    _check(text)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=300))
def test_any_text_at_all_is_read_or_refused(text: str) -> None:
    _check(text)
    _check("driver 9\n" + text)


def _check(text: str) -> None:
    try:
        entries = ledger(text)
        golf_set = read(text)
    except BadInput as fault:
        assert "line " in str(fault)
        return
    assert all(taker for _word, taker in entries), [word for word, taker in entries if not taker]
    kept = " ".join(
        passage.text for passage in (*golf_set.aside, *golf_set.notes, *golf_set.not_understood)
    )  # fmt: skip
    for word, taker in entries:
        if taker in ("aside", "note", "not understood"):
            assert all(part in kept for part in word.split()), (word, taker)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("K-7 " * 2_000, "line 1, column 6003: more than 1,500 figures"),
        ("driver Gannet\n" * 1_600, "line 1501, column 1: clubs are named more than 1,500 times"),
        ("it is lovely " * 2_000, "line 1, column 21665: more than 5,000 words and marks"),
        ("Burr X\n" * 1_000, "line 1, column 1: no golf club was found"),
    ],
)
def test_a_text_that_is_no_list_of_one_set_is_refused_where_it_becomes_too_much(text: str, sentence: str) -> None:
    with pytest.raises(BadInput) as refused:
        read(text)
    assert sentence in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_choice_that_goes_on_is_one_question_of_all_its_answers() -> None:
    golf_set = read("driver Gannet or Burr or Crake 9\nputter Tern")
    assert [question.answers for question in golf_set.questions] == [("Gannet", "Burr", "Crake")]
