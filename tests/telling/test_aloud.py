"""Numbers as they are said: by hand, as a fitter reads them off."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.quantities import figure
from asplayed.telling.aloud import aloud, cardinal, pieces_aloud, sentence_aloud
from asplayed.telling.words import value_text


@pytest.mark.parametrize(("printed", "said"), [
    ("57°", "fifty-seven degrees"),
    ("1°", "one degree"),
    ("−0.75°", "minus three quarters of a degree"),
    ("0.25°", "a quarter of a degree"),
    ("10.5°", "ten and a half degrees"),
    ("44¾ in", "forty-four and three quarter inches"),
    ("34 in", "thirty-four inches"),
    ("½ in", "half an inch"),
    ("35 13/16 in", "thirty-five and thirteen sixteenths inches"),
    ("44.49 in", "about forty-four and a half inches"),
    ("0.93 in", "nought point nine three inches"),
    ("D0.0", "D zero"),
    ("2024-09", "September twenty twenty-four"),
    ("65 g", "sixty-five grams"),
    ("2750 kg·cm²", "two thousand seven hundred and fifty kg·cm²"),
    ("255 cpm", "two hundred and fifty-five cycles a minute"),
    ("D2.4", "D two point four"),
    ("C9", "C nine"),
    ("172 yd", "one hundred and seventy-two yards"),
    ("—", "—"),
    ("P8", "P8"),
])  # fmt: skip
def test_said_as_a_fitter_reads_it(printed, said):
    assert aloud(printed) == said


@given(st.integers(0, 999_999))
def test_whole_numbers_are_words_without_digits(number):
    said = cardinal(number)
    assert not re.search(r"\d", said)
    assert said == " ".join(said.split())


@given(st.floats(0, 400), st.sampled_from(["deg", "in", "g", "yd", "cpm", "mm"]))
def test_whatever_is_printed_can_be_said(value, unit):
    for source in ("stated", "computed"):
        printed = value_text(figure(value, unit, source))
        assert not re.search(r"\d", aloud(printed)), printed


def test_names_of_clubs_keep_their_digits():
    assert sentence_aloud("The 6 iron (60 g) and the 7 iron at 37 in.") == (
        "The 6 iron (sixty grams) and the 7 iron at thirty-seven inches."
    )


@pytest.mark.parametrize(("printed", "said"), [
    ("The Turnstone 2 in 56° is made.", "The Turnstone 2 in fifty-six degrees is made."),
    ("The Ember has not been offered in TX, the Gannet 5 in R.", None),
    ("It is made with 8, 10 and 14°.", "It is made with eight, ten and fourteen degrees."),
    ("D4.0 against C9.5, since 2024-09.", "D four against C nine point five, since September twenty twenty-four."),
    ("Its head weighs 202 g, in A1.", "Its head weighs two hundred and two grams, in A1."),
])  # fmt: skip
def test_a_number_in_a_name_is_no_measure_and_a_list_of_numbers_is(printed, said):
    assert sentence_aloud(printed) == (said or printed)
    assert "".join(figure or words for words, figure in pieces_aloud(printed)) == printed
