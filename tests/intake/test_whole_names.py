"""Names that a word of the trade, a letter, a number or a shade ends are kept whole, and given to the right part."""

from __future__ import annotations

import pytest

from asplayed.intake import read


def _names(text: str) -> dict[str, tuple[str | None, str | None]]:
    """Each club with the names of its head and its shaft."""
    return {club.club: (club.head.name, club.shaft.name) for club in read(text).clubs}


@pytest.mark.parametrize(
    ("text", "club", "head", "shaft"),
    [
        ("irons 6-PW: Mabb 33, Linter Spin shafts, 95 g, R", "7 iron", "Mabb 33", "Linter Spin"),
        ("56: Dray Grind, 12 bounce, Linter Spin 120 S", "sand wedge", "Dray Grind", "Linter Spin"),
        ("5 hybrid - Gimlet Hybrid 25, Tansy Reed Light 60 g L", "5 hybrid", "Gimlet Hybrid", "Tansy Reed Light"),
        ("driver: Pomander Wood, 12 degrees, Cirrel Rose 45 g L", "driver", "Pomander Wood", "Cirrel Rose"),
        ("mini driver: Marl QT-Mini, 11.5°, Dunnock Gold 75 g X", "mini driver", "Marl QT-Mini", "Dunnock Gold"),
        ("4-PW: Latch X-Blade, Skein Tour 130 g X", "5 iron", "Latch X-Blade", "Skein Tour"),
        ("driver Skerret 2 10.5\n4h Skerret 2 Rescue 22°, Hamble 85 S", "4 hybrid", "Skerret 2 Rescue", "Hamble"),
        ("Bolder 33 irons 4-PW, Cotter Steel 115 S", "4 iron", "Bolder 33", "Cotter Steel"),
        ("driver (Tollard 9) 9.5 degrees, shaft (Fenwith Air) 55 g S", "driver", "Tollard 9", "Fenwith Air"),
        ("driver: Latch X4, 9°, Skein 6.5 Red 65 g TX", "driver", "Latch X4", "Skein 6.5 Red"),
        ("irons: Fescue Open, 5 to PW, on Larkin Steel 105 stiff", "6 iron", "Fescue Open", "Larkin Steel"),
        ("irons are Ferrant Plate, 4, 6, 8. Cotter Steel, 115 g, S.", "6 iron", "Ferrant Plate", "Cotter Steel"),
        ("irons 5-P: Gannard Forge, Wickham steel grey 95 R", "5 iron", "Gannard Forge", "Wickham steel grey"),
        ("driver: Widow's Walk 9, 9°, St. Orm 60 S", "driver", "Widow's Walk 9", "St. Orm"),
        ("irons 5-PW: Salter 2024, Tallow Steel 95 R", "5 iron", "Salter 2024", "Tallow Steel"),
        ('irons: "Short Straw", 5-PW, "Rope Walk Iron" 105 S', "5 iron", "Short Straw", "Rope Walk Iron"),
        ("driver Elderby Ladies 12°, Pippin 45 L", "driver", "Elderby Ladies", "Pippin"),
        ("a Spindle Nine driver (8.5°, Cob Black 70 g TX)", "driver", "Spindle Nine", "Cob Black"),
        ("Tamarack 8 Max driver @ 10.5, Brisk Orange 55 S", "driver", "Tamarack 8 Max", "Brisk Orange"),
        ("3w is a stoat 460 f, 15 deg, mink blue 70g S, 43 long", "3 wood", "stoat 460 f", "mink blue"),
    ],
)
def test_name_is_whole(text: str, club: str, head: str, shaft: str) -> None:
    assert _names(text)[club] == (head, shaft)


@pytest.mark.parametrize(
    ("text", "head", "shaft"),
    [
        ("Driver: make Arkwell, model Sixty, 9°. Shaft make Plover, model Dart 6, 65 g, S.",
         "Arkwell Sixty", "Plover Dart 6"),
        ("DRIVER\nMaker: Corrigle\nModel: Tempo 8\nLoft: 10.5\nShaft: Linden Blue 55 R",
         "Corrigle Tempo 8", "Linden Blue"),
        ("Club,Maker,Model,Loft,Shaft,Flex\nDriver,Harrow,Nine 2,9,Sable Gust,S\n3 wood,Harrow,Nine 2,15,Sable Gust,S",
         "Harrow Nine 2", "Sable Gust"),
        ("The driver has a Gristle Red, 63 g, X in a Kestle Low 9.", "Kestle Low", "Gristle Red"),
        ("Joss, spec for Friday: driver Bolder 460, 9.5, Tarn Blue 65 S", "Bolder 460", "Tarn Blue"),
        ("Hi Merle - driver Oxley Tour 10, Perrin Gold 55 R", "Oxley Tour", "Perrin Gold"),
        ("yo, driver hollin max 9 w ferrow black 60x, irons 4-p crundle mb", "hollin max", "ferrow black"),
    ],
)  # fmt: skip
def test_name_is_given_to_its_part(text: str, head: str, shaft: str) -> None:
    assert _names(text)["driver"] == (head, shaft)


def test_shaft_before_its_head_in_a_sentence() -> None:
    found = _names("My irons have Sable Taper 120 X shafts in Pellow Blade heads, 4 to PW.")
    assert set(found.values()) == {("Pellow Blade", "Sable Taper")}


def test_clubs_are_spoken_of_by_their_model() -> None:
    found = _names(
        "driver: Lumber Air, 12 degrees\nirons: Pomander, 7, 8, 9\nThe three Pomanders have Cirrel Rose Iron, 55 g, L."
    )
    assert {found[f"{number} iron"] for number in (7, 8, 9)} == {("Pomander", "Cirrel Rose Iron")}
    assert found["driver"] == ("Lumber Air", None)


def test_heads_above_a_table_set_out_by_a_tab() -> None:
    text = "Heads:\tLudlam CB\nShafts:\tCotter Steel, 110 g, S\n\nClub\tLoft\tLength\n7i\t33\t37\n8i\t37\t36.5\n"
    assert set(_names(text).values()) == {("Ludlam CB", "Cotter Steel")}


def test_a_ball_has_its_falling_numbers() -> None:
    golf_set = read("driver Zest 9, 45\nball: Corvane 6-2, white")
    assert golf_set.ball is not None
    assert golf_set.ball.name == "Corvane 6-2"


@pytest.mark.parametrize("text", ["Driver Gannet 9, Dunlin 60 Stiff\n3 Wood Gannet 15", "Irons 4-PW Dunlin, 115 Stiff"])
def test_who_writes_the_trade_large_ends_names_before_it(text: str) -> None:
    assert {head for head, _ in _names(text).values()} <= {"Gannet", "Dunlin"}


def test_an_event_stays_an_event() -> None:
    golf_set = read("Winner's bag, Ada Brandt at the Fescue Open\ndriver Gannet 9, Dunlin 60 S")
    assert golf_set.set.event == "Fescue Open"


def test_a_maker_of_heads_and_of_shafts_names_each_by_its_whole_name() -> None:
    text = (
        "The driver is an Elderkin Feather with 12 degrees. The 39 gram shaft is an Elderkin Whisper in A flex.\n"
        "I carry a 5 wood and a 7 wood, both Elderkin Feather, each with a 45 gram Elderkin Whisper, again in A.\n"
        "The irons are Elderkin Comfort, from the 6 iron to the pitching wedge. They have Elderkin Whisper shafts.\n"
    )
    names = _names(text)
    assert {club: names[club][0] for club in ("driver", "7 wood", "6 iron")} == {
        "driver": "Elderkin Feather", "7 wood": "Elderkin Feather", "6 iron": "Elderkin Comfort",
    }  # fmt: skip
    assert {shaft for _head, shaft in names.values()} == {"Elderkin Whisper"}
