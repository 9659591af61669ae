"""Names that look like words of the trade, people with ages, lofts in a column of heads: the meaning told by hand."""

import pytest
from told import told

from asplayed.intake import read


@pytest.mark.parametrize(
    ("text", "name", "mass"),
    [
        ("Irons 6-PW, Marjoram, Ferrule Green 90 regular", "Ferrule Green", 90),
        ("Driver Redpoll 9, Ferrule 60 S", "Ferrule", 60),
        ("Irons 5-PW, Marjoram, Offset Tern 105 S", "Offset Tern", 105),
    ],
)
def test_capital_word_of_notes_before_mass_and_flex_names_a_shaft(text: str, name: str, mass: float) -> None:
    shafts = {(club.shaft.name, club.shaft.mass.value) for club in read(text).clubs}
    assert shafts == {(name, mass)}


def test_ferrule_without_mass_stays_a_note() -> None:
    golf_set = read("Driver Redpoll 9, Lindrake 60 S, Ferrule black")
    assert golf_set.clubs[0].shaft.name == "Lindrake"
    assert "Ferrule black" in [note.text for note in golf_set.notes]


def test_person_with_age_and_hand_in_a_bracket() -> None:
    golf_set = read("Pip Annable (11, left-handed) has:\n- driver, Dabchick 13 degrees\n- putter, Bluebell.")
    assert golf_set.set.player == "Pip Annable"
    assert golf_set.set.hand == "left"


def test_letter_of_a_model_is_nobody_speaking() -> None:
    golf_set = read("Gap Wedge   Swiftlet I 50   Cobweb 70 R\nIrons 6-PW  Swiftlet I      Cobweb 70 R")
    assert {club.head.name for club in golf_set.clubs} == {"Swiftlet I"}
    assert read("driver is the Gannet I play at 10.5").clubs[0].head.name == "Gannet"


def test_column_of_heads_tells_lofts_where_no_other_does() -> None:
    rows = "Club     Head           {}Shaft           Length\nDriver   Guillemot 9    {}Gloaming 60 S   45\n"
    rows += "5 wood   Guillemot {}    {}Gloaming 70 S   42.25"
    driver = read(rows.format("", "", 18, "")).clubs[0]
    assert (driver.head.name, driver.head.loft.value) == ("Guillemot", 9)
    driver = read(rows.format("Loft   ", "10.5   ", "  ", "18     ")).clubs[0]
    assert (driver.head.name, driver.head.loft.value) == ("Guillemot 9", 10.5)


def test_model_ending_in_s_keeps_it_where_one_club_is_so_called() -> None:
    golf_set = read("7 iron to PW, the Sedge Wings, Thistle 55 R\nsand wedge is a Sedge Wings too, 56")
    assert {club.head.name for club in golf_set.clubs} == {"Sedge Wings"}


def test_fairway_of_seventeen_degrees_is_a_five_wood() -> None:
    assert [club.club for club in read("Fairway: Lapwing 17\nFairway: Lapwing 21").clubs] == ["5 wood", "7 wood"]


@pytest.mark.parametrize("word", ["grass", "ferry", "drover", "stork", "potter"])
def test_plain_word_a_letter_from_the_trade_is_no_misspelling(word: str) -> None:
    golf_set = read(f"driver heron 9 deg\nwedges 52 56 all yarrow {word}, beckwater 120 s")
    assert [club.head.name for club in golf_set.clubs] == ["heron", f"yarrow {word}", f"yarrow {word}"]


@pytest.mark.parametrize("text", ["putter is a kingfisher mid thirty four inches", "putter kingfisher mid, 34 in"])
def test_putter_has_no_launch_so_a_level_ends_its_name(text: str) -> None:
    assert read(text).clubs[0].head.name == "kingfisher mid"


@pytest.mark.parametrize(
    ("text", "head", "shaft"),
    [
        ("3 hybrid Plover, 19°, with the Reed Black Hybrid, 85 grams, stiff.", "Plover", "Reed Black Hybrid"),
        ("6-9 irons Knot. Graphite in them, the Reed Iron, 75 grams, regular.", "Knot", "Reed Iron"),
        ("3 wood Plover 15, the shaft is a Reed Wood, 70 grams, regular.", "Plover", "Reed Wood"),
        ("7 iron and 9 iron, Knot Easy Iron, regular flex", "Knot Easy Iron", None),
        ("Sand wedge, Knot Easy Iron, 56 degrees", "Knot Easy Iron", None),
        ("50° and 56° - Burr Wedge, Reed 105 stiff", "Burr Wedge", "Reed"),
    ],
)
def test_a_kind_of_club_that_ends_a_name(text: str, head: str, shaft: str | None) -> None:
    assert {(club.head.name, club.shaft.name) for club in read(text).clubs} == {(head, shaft)}


@pytest.mark.parametrize(
    ("text", "head", "flex"),
    [
        ("irons are the Knot 300s, 5-PW", "Knot 300", None),
        ("wedges are Knot 4s, 50, 54", "Knot 4", None),
        ("irons 5-PW Knot, Reed 65s", "Knot", "S"),
    ],
)
def test_the_plural_of_a_models_number_is_no_flex(text: str, head: str, flex: str | None) -> None:
    assert {(club.head.name, club.shaft.flex) for club in read(text).clubs} == {(head, flex)}


@pytest.mark.parametrize(
    "said",
    [
        "2 driving iron, the Gannet U, 18 degrees.\nThat one has a Reed Hybrid, 95 grams, X.",
        "2 driving iron: Gannet U 18, Reed Hybrid, 95 grams, X",
        "2 driving iron: head Gannet U, loft 18, shaft Reed Hybrid with 95 g, flex X",
    ],
)
def test_a_shaft_named_for_another_kind_of_club(said: str) -> None:
    assert told(said, "shaft.name") == {"2 driving iron": "Reed Hybrid"}
    assert told(said, "shaft.mass") == {"2 driving iron": 95}


@pytest.mark.parametrize("said", ["also Gannet 33, same shaft", "Gannet 33, Reed 95 R", "Gannet 33"])
def test_the_irons_model_and_its_number_are_the_pitching_wedges_too(said: str) -> None:
    text = f"Irons 7-9: Gannet 33, Reed 95 R\nPitching wedge: {said}"
    assert told(text, "head.name") == dict.fromkeys(("7 iron", "8 iron", "9 iron", "pitching wedge"), "Gannet 33")
    assert told(text, "length") == {}
