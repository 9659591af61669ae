"""Forms that name a club on every line, mails with a subject, and sheets of a bench."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told

from asplayed.intake import read


@pytest.mark.parametrize("between", [" - ", " ", "_", ".", " / "])
def test_the_lines_of_a_form_that_name_their_club_each_time(between: str) -> None:
    parts = [("Hybrid", ["number: 4", "head: Burr", "loft: 22", "shaft: Reed 80 S", "length: 40"])]
    parts += [("Wedges", ["head: Crane", "lofts: 50, 56", "bounces: 8, 12", "lengths: 35.5, 35"])]
    text = "\n".join(f"{club}{between}{line}" for club, lines in parts for line in lines)
    assert told(text, "head.name") == {"4 hybrid": "Burr", "gap wedge": "Crane", "sand wedge": "Crane"}
    assert told(text, "head.loft") == {"4 hybrid": 22, "gap wedge": 50, "sand wedge": 56}
    assert told(text, "head.bounce") == {"gap wedge": 8, "sand wedge": 12}
    assert told(text, "length") == {"4 hybrid": 40, "gap wedge": 35.5, "sand wedge": 35}
    assert told(text, "shaft.mass") == {"4 hybrid": 80}


@pytest.mark.parametrize(
    "text",
    [
        "Hybrid - head: Burr\nHybrid - no.: 4\nHybrid - loft: 22",
        "4 hybrid\nHybrid - head: Burr\nHybrid - loft: 22",
        "Hybrid: 4\nHybrid head: Burr\nHybrid loft: 22",
        "Hybrid #: 4\nHybrid head: Burr\nHybrid loft: 22",
    ],
)
def test_the_number_of_a_forms_club_wherever_it_stands(text: str) -> None:
    assert (told(text, "head.name"), told(text, "head.loft")) == ({"4 hybrid": "Burr"}, {"4 hybrid": 22})


def test_a_part_told_again_in_a_form_is_of_another_club() -> None:
    text = "Hybrid head: Burr\nHybrid loft: 19\nHybrid head: Crane\nHybrid loft: 22"
    assert told(text, "head.name") == {"3 hybrid": "Burr", "4 hybrid": "Crane"}


@pytest.mark.parametrize(
    "subject",
    ["re-shaft, 4 iron to sand wedge", "new grips, driver to putter", "my irons and wedges", "Loft check 4-PW"],
)
def test_the_subject_of_a_mail_names_no_club_of_its_own(subject: str) -> None:
    text = f"From: Ada Brandt\nSubject: {subject}\n\nHello Jory,\n\nThe irons are Gannet CB, 8 iron to pitching wedge."
    assert told(text + " Shaft Reed 110 S.", "head.name") == dict.fromkeys(
        ("8 iron", "9 iron", "pitching wedge"), "Gannet CB"
    )
    assert set(told(text + " Shaft Reed 110 S.", "shaft.name").values()) == {"Reed"}


def test_a_subject_that_tells_a_model_is_read() -> None:
    assert told("Subject: irons 8-9 Gannet CB\n\nShaft Reed 110 S please.", "head.name") == {
        "8 iron": "Gannet CB", "9 iron": "Gannet CB",
    }  # fmt: skip


@pytest.mark.parametrize("lie", ["lie", "lie set to", "lie bent to", "lie now"])
@pytest.mark.parametrize("above", ["Irons: Gannet 6-2, 8-PW", "Heads: Gannet 6-2 from the 8 iron to the PW"])
def test_a_benchs_sheet_that_counts_its_irons_without_a_word(lie: str, above: str) -> None:
    text = f"{above}\n\n| club | stamped | bent to | {lie} |\n|---|---|---|---|\n"
    text += "| 8 | 38 | 38.5 | 62 |\n| 9 | 42 | 41 | 62.5 |\n| PW | 46 | 46 | 63 |\n"
    assert told(text, "head.name") == dict.fromkeys(("8 iron", "9 iron", "pitching wedge"), "Gannet 6-2")
    assert told(text, "head.loft") == {"8 iron": 38, "9 iron": 42, "pitching wedge": 46}
    assert told(text, "bend.loft") == {"8 iron": 0.5, "9 iron": -1, "pitching wedge": 0}
    assert told(text, "as_played.lie") == {"8 iron": 62, "9 iron": 62.5, "pitching wedge": 63}


@pytest.mark.parametrize("lead", [": ", " ..... ", "........ ", " _____ "])
def test_the_lines_of_a_form_tell_of_all_the_clubs_of_its_entry(lead: str) -> None:
    lines = [("POSITION 1", "irons 8-PW"), ("HEADS", "Gannet Forge"), ("LOFT", "PW 1 strong"), ("SWING WT", "D1")]
    lines += [("SHAFTS", "Reed Taper, 95 g, R")]
    text = "\n".join(f"{label}{lead}{told}" for label, told in lines)
    irons = ("8 iron", "9 iron", "pitching wedge")
    assert told(text, "head.name") == dict.fromkeys(irons, "Gannet Forge")
    assert told(text, "shaft.name") == dict.fromkeys(irons, "Reed Taper")
    assert told(text, "stated.swing_weight") == dict.fromkeys(irons, "D1")
    assert told(text, "bend.loft") == {"pitching wedge": -1}


@pytest.mark.parametrize(
    ("lie", "expected"),
    [
        ("60 2 up", {"lob wedge": 2}),
        ("54 std, 60 2 up", {"sand wedge": 0, "lob wedge": 2}),
        ("the 60 is 1 flat", {"lob wedge": -1}),
        ("both 1 up", {"sand wedge": 1, "lob wedge": 1}),
    ],
)
def test_a_line_of_lies_tells_each_wedge_by_its_stamp(lie: str, expected: dict[str, float]) -> None:
    text = f"Wedges: 54 and 60\nModel: Gannet Raw\nLie: {lie}\nSwing weight: D4"
    assert told(text, "bend.lie") == expected
    assert told(text, "as_played.lie") == {}
    assert told(text, "stated.swing_weight") == {"sand wedge": "D4", "lob wedge": "D4"}


@pytest.mark.parametrize(
    "text",
    [
        "3 wood Gannet 10 loft standard",
        "driver Gannet 10, loft std",
        "ITEM 1: wedges Burr 52 and 58\nLie: standard, the 58 1 flat",
        "wedges Burr 52 58\nLIE ..... sole lie up wedges",
    ],
)
def test_a_label_without_a_figure_is_read_or_left(text: str) -> None:
    assert read(text).clubs
