"""Columns of pasted tables beside the common ones."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import set_aside, told

from asplayed.intake import read


@pytest.mark.parametrize("maker", ["maker", "make", "brand", "manufacturer"])
def test_the_maker_is_the_first_word_of_the_name_where_a_model_stands_beside_it(maker: str) -> None:
    text = f"club,{maker},model,loft\nDriver,Ousel,Gannet,9\n7 iron,Ousel,Vane 2,33\n"
    assert told(text, "head.name") == {"driver": "Ousel Gannet", "7 iron": "Ousel Vane 2"}


def test_a_maker_without_a_model_is_the_name() -> None:
    assert told("club,brand,loft\nDriver,Ousel,9\n3 wood,Burr,15\n", "head.name") == {
        "driver": "Ousel",
        "3 wood": "Burr",
    }


def test_a_model_that_is_a_word_of_the_trade_keeps_its_makers_company() -> None:
    assert told("Club,Make,Model,Loft\nPutter,Stint,Mallet,3\n7 iron,Knot,Vane 2F,33\n", "head.name") == {
        "putter": "Stint Mallet", "7 iron": "Knot Vane 2F",
    }  # fmt: skip


def test_launch_and_spin_are_the_shafts_tendencies_in_words_and_nothing_in_figures() -> None:
    words = "Club,Model,Loft,Shaft,Launch,Spin\nDriver,Gannet,9,Ostrane 60 S,high,low\n"
    figures = "Club,Model,Loft,Shaft,Launch,Spin\nDriver,Gannet,9,Ostrane 60 S,12.5,2400\n"
    assert (told(words, "shaft.launch"), told(words, "shaft.spin")) == ({"driver": "high"}, {"driver": "low"})
    assert told(figures, "shaft.launch") == {}
    assert told(figures, "head.loft") == {"driver": 9.0}


@pytest.mark.parametrize("heading", ["head (g)", "head weight", "head g"])
def test_a_heads_mass_in_its_column(heading: str) -> None:
    text = f"club     {heading:11}   length (in)   SW\n"
    text += "7 iron   263          37.25         D2\n8 iron   270          36.75         D2\n"
    assert told(text, "head.mass") == {"7 iron": 263.0, "8 iron": 270.0}


def test_a_column_of_bends_that_says_what_its_sign_means() -> None:
    text = "club;model;loft;bend (+ = weak);lie\n6 iron;Gannet;28;+1;61.5\n9 iron;Gannet;40;-0.5;63\n"
    assert told(text, "bend.loft") == {"6 iron": 1.0, "9 iron": -0.5}


def test_a_row_that_its_state_leaves_out() -> None:
    text = "Club,Head,Loft,Status\nDriver,Gannet,9,in bag\n7 wood,Burr,21,reserve - not in bag\n"
    assert set(told(text, "kind")) == {"driver"}
    assert any("Burr" in stretch for stretch in set_aside(text))


def test_what_a_club_was_and_what_it_leaves_with() -> None:
    text = (
        "Club | Came in with | Leaves with\n"
        "driver | Knot 9, Reed 50 R | Gannet 11, Ostrane 45 A, 44.5\"\n"
        "3 wood | Knot 15, Reed 60 R | nothing, dropped\n"
        "5 wood | none | Gannet 18, Ostrane 55 A\n"
        "sand wedge | Burr 56.14, Reed 105 S | same club, bent 1 weak\n"
    )  # fmt: skip
    assert told(text, "head.name") == {"driver": "Gannet", "5 wood": "Gannet", "sand wedge": "Burr"}
    assert told(text, "bend.loft") == {"sand wedge": 1.0}


def test_clubs_across_the_top_with_short_wedges() -> None:
    text = (
        "| Club | 9i | PW | Sand |\n"
        "| Head | Gannet | Gannet | Burr |\n"
        "| Loft | 40 | 45 | 55 |\n"
        "| Shaft | Reed 80 R | Reed 80 R | Reed 80 R |\n"
    )
    assert told(text, "head.loft") == {"9 iron": 40.0, "pitching wedge": 45.0, "sand wedge": 55.0}
    assert told(text, "shaft.mass") == {"9 iron": 80.0, "pitching wedge": 80.0, "sand wedge": 80.0}


def test_a_column_of_bends_beside_the_lofts_is_of_the_loft() -> None:
    text = "club;model;stamped loft;bend;bounce\n6 iron;Gannet;29;+1;\nPW;Gannet;46;;\nSW;Burr;56;-1;12\n"
    assert told(text, "bend.loft") == {"6 iron": 1.0, "sand wedge": -1.0}


def test_lengths_in_centimetres_are_of_no_column_of_masses() -> None:
    text = "All lengths are in cm.\n\nClub;Model;Shaft;Shaft mass;Length\nIron 8;Burr;Reed;90;92.7\nSW;Vane;Reed;100;90"
    assert told(text, "shaft.mass") == {"8 iron": 90, "sand wedge": 100}
    assert told(text, "length") == {
        "8 iron": pytest.approx(36.5, abs=0.01),
        "sand wedge": pytest.approx(35.43, abs=0.01),
    }


def test_clubs_across_the_top_set_out_with_blanks() -> None:
    text = (
        "            Driver    3W        7i        PW\n"
        "Head        Gannet    Gannet    Dunlin    Dunlin\n"
        "Loft        9.5       15        33        45\n"
        "Length      45        43        37        35.75\n"
    )
    clubs = {club.club: club for club in read(text).clubs}
    assert list(clubs) == ["driver", "3 wood", "7 iron", "pitching wedge"]
    assert [club.head.name for club in clubs.values()] == ["Gannet", "Gannet", "Dunlin", "Dunlin"]
    assert [club.head.loft.value for club in clubs.values()] == [9.5, 15, 33, 45]


def test_a_column_that_counts_the_rows_is_no_heading() -> None:
    text = "#\tClub\tBrand\tModel\tLoft\n1\tDriver\tOskell\tGannet\t9\n2\t3W\tOskell\tGannet\t15\n"
    assert [(club.club, club.head.name) for club in read(text).clubs] == [
        ("driver", "Oskell Gannet"),
        ("3 wood", "Oskell Gannet"),
    ]
