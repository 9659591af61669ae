"""Ways of writing that one reading once got wrong: what each must give, figure by figure."""

from __future__ import annotations

from typing import Any

import pytest

from asplayed.intake import read
from asplayed.quantities import plain


def told(text: str) -> dict[str, dict[str, Any]]:
    """Each club's name with what the list says of it, flat."""

    def flat(part: dict[str, Any], path: str = "") -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, value in part.items():
            if isinstance(value, dict) and "unit" in value:
                found[f"{path}{key}"] = value["value"]
            elif isinstance(value, dict):
                found |= flat(value, f"{path}{key}.")
            else:
                found[f"{path}{key}"] = value
        return found

    return {club["club"]: flat(club) for club in plain(read(text))["clubs"]}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fairway: Lapwing 15\nFairway: Lapwing 21", {"3 wood": {"head.loft": 15}, "7 wood": {"head.loft": 21}}),
        ("Fairway Lapwing 15\nFairway Lapwing 21", {"3 wood": {"head.loft": 15}, "7 wood": {"head.loft": 21}}),
        (
            "Wedge: Felce, 46°\nWedge: Felce, 52°\nWedge: Felce, 58°",
            {name: {"head.name": "Felce"} for name in ("pitching wedge", "gap wedge", "lob wedge")},
        ),
        (
            "- club: wedge\n  model: Comfrey\n  loft: 47\n- club: wedge\n  model: Comfrey\n  loft: 53",
            {"pitching wedge": {"head.loft": 47}, "gap wedge": {"head.loft": 53}},
        ),
        (
            "| Club | 5 | 6 | 7 |\n|---|---|---|---|\n| Loft | 25 | 28 | 32 |\n| Lie | 61 | 61.5 | 62 |",
            {"5 iron": {"head.loft": 25}, "6 iron": {"head.loft": 28}, "7 iron": {"head.loft": 32}},
        ),
        (
            "Club   5    6    7    PW\nLoft   25   28   32   46\nSW     D2   D2   D3   D4",
            {"5 iron": {"stated.swing_weight": "D2"}, "pitching wedge": {"head.loft": 46, "stated.swing_weight": "D4"}},
        ),
        (
            "Club | Before | Now\nDriver | Pochard 3, 9.5 | Pochard 5, 9\n4 hybrid | none | Pochard 5, 22",
            {"driver": {"head.name": "Pochard 5", "head.loft": 9}, "4 hybrid": {"head.loft": 22}},
        ),
        (
            "Club | Head | Shaft | Flex | Grip\n5 iron | Lousewort | Rafter 105 | S | Corduroy\n"
            "6 iron | ditto | ditto | ditto | ditto",
            {"6 iron": {"head.name": "Lousewort", "shaft.name": "Rafter", "shaft.flex": "S", "grip.name": "Corduroy"}},
        ),
        (
            'driver Smew 2, 10.5: length 45.75" > 45.25"; sleeve standard > one degree up',
            {"driver": {"length": 45.25, "sleeve.loft_change": 1, "sleeve.position": None}},
        ),
        ("1 x putter, Petrel, 33 inches, £310", {"putter": {"head.mass": None, "length": 33}}),
        (
            "Everything is Whitethroat except the putter.\ndriver 10.5\n7 iron 32\nputter: Pintail",
            {"driver": {"head.name": "Whitethroat"}, "putter": {"head.name": "Pintail"}},
        ),
        (
            "driver comma Sleetfall 2 comma nine degrees full stop new line "
            "putter comma Dovekie comma thirty four inches",
            {"driver": {"head.name": "Sleetfall 2", "head.loft": 9}, "putter": {"length": 34}},
        ),
        (
            "Qty 1  Driver   Swiftlet  10.5\nQty 2  hybrids - 19 and 23 - Plover",
            {"driver": {"head.name": "Swiftlet"}, "3 hybrid": {"head.loft": 19}, "4 hybrid": {"head.loft": 23}},
        ),
        (
            "Driver - Goldeneye Five - 9\n5-PW - Cudweed",
            {"driver": {"head.name": "Goldeneye Five", "head.loft": 9}, "5 iron": {"head.name": "Cudweed"}},
        ),
        (
            "4-9 Dunlin, Rung 105 S\nPW Dunlin\nAll of the 4 to PW are 1° upright.",
            {"4 iron": {"bend.lie": 1}, "9 iron": {"bend.lie": 1}, "pitching wedge": {"bend.lie": 1}},
        ),
        (
            "All ladies flex Lacewing 45 shafts:\ndriver, Primula 12\nputter, Wren, 32",
            {"driver": {"shaft.name": "Lacewing", "shaft.flex": "L"}, "putter": {"shaft.name": None}},
        ),
        (
            "Wedges: Heath (46-10F, 50-12F, 60-08M)",
            {
                "pitching wedge": {"head.bounce": 10, "head.sole": "F"},
                "lob wedge": {"head.bounce": 8, "head.sole": "M"},
            },
        ),
        (
            "54 & 58 Dunlin wedges: regrip with Norrby Cord, 2 wraps",
            {"sand wedge": {"grip.name": "Norrby Cord", "grip.wraps": 2, "shaft.name": None}},
        ),
        (
            "1 Siskin 3 driver, 9 degree\n1 Dunlin hybrid 20 degree\n3 Heath wedges 50/54/58\n1 Marlin putter",
            {"driver": {"head.name": "Siskin 3"}, "putter": {"head.name": "Marlin", "head.loft": None}},
        ),
        (
            "four wedges, all Heath, 46, 52, 56 and 60, and he bends the fifty two to fifty one",
            {"gap wedge": {"head.loft": 52, "bend.loft": -1}, "lob wedge": {"head.loft": 60, "bend.loft": None}},
        ),
        ("driver Siskin 3, 9 deg, down from 10.5", {"driver": {"head.loft": 9}}),
        (
            "[0:02] Fairway woods. [0:04] He's got two. [0:06] The three wood is a Nightjar fifteen.",
            {"3 wood": {"head.name": "Nightjar", "head.loft": 15}},
        ),
        (
            "driver (Plover, 11)\nwedges 52,56 (Dunlin)\nputter (Stint)\n"
            "Flex: R in everything but the wedges and the putter",
            {"driver": {"shaft.flex": "R"}, "gap wedge": {"shaft.flex": None}, "putter": {"shaft.flex": None}},
        ),
        (
            "driver Siskin 10.5\nirons 5-PW Redshank, Rung 105 S\nputter Marlin\n"
            "the grips, putter excepted, are Norrby Soft",
            {"7 iron": {"grip.name": "Norrby Soft"}, "putter": {"grip.name": None}},
        ),
        (
            "driver Siskin 10.5, Marram 55 S, 44 1/2, D1, Tessary Line 46 g",
            {"driver": {"shaft.name": "Marram", "shaft.mass": 55, "grip.name": "Tessary Line", "grip.mass": 46}},
        ),
        (
            "Corrections: the irons are 1 flat.\n5-PW Dunlin, 2 upright",
            {"5 iron": {"bend.lie": 2}},
        ),
        ("D (Siskin 10.5, Ember 55S), 4h 23 (Dunlin)", {"driver": {"head.name": "Siskin", "head.loft": 10.5}}),
        ("irons 5,6,7,8,9,P (Dunlin)", {"pitching wedge": {"head.name": "Dunlin"}, "5 iron": {"head.name": "Dunlin"}}),
        ("driver Gannet 9\nputter Little Stint 34", {"putter": {"head.name": "Little Stint", "length": 34.0}}),
        (
            "driver Gannet 9\n5 wood Gannet 18\nputter Stint\nNorrby on everything but the putter, with one extra wrap",
            {"driver": {"grip.name": "Norrby", "grip.wraps": 1}, "putter": {"grip.wraps": None}},
        ),
        ("driver Gannet 9. 45 inches, er, 45.25 actually. 3 wood Gannet 15", {"driver": {"length": 45.25}}),
        (
            "gap wedge Burdock 50 degrees, and a Furrow 56 with 12 bounce.",
            {
                "gap wedge": {"head.name": "Burdock", "head.bounce": None},
                "sand wedge": {"head.name": "Furrow", "head.loft": 56.0, "head.bounce": 12.0},
            },
        ),
        (
            "Everything from the 5 iron down is on Basalt 105 S, and every club except the putter has the Lichen grip."
            "\nDriver Goosander 9.5, Gloaming 60 S\nIrons 5-9 Quillwort\nWedges Bedstraw 46, 50\nPutter Shrew 34",
            {
                "driver": {"shaft.name": "Gloaming", "grip.name": "Lichen"},
                "9 iron": {"shaft.name": "Basalt", "shaft.mass": 105, "grip.name": "Lichen"},
                "gap wedge": {"shaft.name": "Basalt"},
                "putter": {"grip.name": None},
            },
        ),
        (
            "Driver Lapwing 9\n3 wood Lapwing 15\nIrons 5-9 Quillwort\nEverything up to the 7 iron has Basalt 75 S",
            {"driver": {"shaft.mass": 75}, "7 iron": {"shaft.name": "Basalt"}, "8 iron": {"shaft.name": None}},
        ),
        (
            "Irons 4-9 - Pochard MB, Leat 125 X, 2° up in the 4 to 6, 1° up in the 7 to 9",
            {
                "4 iron": {"bend.lie": 2},
                "6 iron": {"bend.lie": 2},
                "7 iron": {"bend.lie": 1},
                "9 iron": {"bend.lie": 1},
            },
        ),
        (
            "Wedges - Campion 46-10, 52-08, 56-12; Leat 130 X in the 46, Leat 130 S in the other two",
            {
                "pitching wedge": {"shaft.flex": "X"},
                "gap wedge": {"shaft.flex": "S"},
                "sand wedge": {"shaft.flex": "S"},
            },
        ),
        (
            "Driver Lapwing 9\nPutter Knot, Oakmoss grip\nIrons 5-7 Quillwort\nCordgrass 360 grips on the rest",
            {
                "driver": {"grip.name": "Cordgrass 360"},
                "7 iron": {"grip.name": "Cordgrass 360"},
                "putter": {"grip.name": "Oakmoss"},
            },
        ),
        (
            "Driver Lapwing 9\nSand wedge Vetch 56\nPutter Knot 34\nnew grips all round exc putter: Reedmace",
            {
                "driver": {"grip.name": "Reedmace"},
                "sand wedge": {"grip.name": "Reedmace"},
                "putter": {"grip.name": None},
            },
        ),
        (
            "irons 5-PW Foxglove, Burr 105 S but 95 in the 5 and 6",
            {"5 iron": {"shaft.mass": 95}, "6 iron": {"shaft.mass": 95}, "7 iron": {"shaft.mass": 105}},
        ),
        (
            "irons 5-PW Foxglove, Burr 105 S, all 2 up except the PW which is standard",
            {"9 iron": {"bend.lie": 2}, "pitching wedge": {"bend.lie": 0, "length_change": None}},
        ),
        (
            "Irons: Foxglove U 4, Foxglove CB 5-7, Foxglove MB 8-PW; Burr 105 S",
            {
                "4 iron": {"head.name": "Foxglove U", "shaft.name": "Burr"},
                "5 iron": {"head.name": "Foxglove CB"},
                "pitching wedge": {"head.name": "Foxglove MB"},
            },
        ),
        (
            "Burdock wedges of 46, 52 and 60 degrees, all in Hollin 130 S, the last of them bent to 61",
            {"pitching wedge": {"bend.loft": None}, "gap wedge": {"bend.loft": None}, "lob wedge": {"bend.loft": 1}},
        ),
        (
            "Wedges: Bedstraw 46, 50 and 54, and a 58 I had bent two strong",
            {"pitching wedge": {"bend.loft": None}, "sand wedge": {"bend.loft": None}, "lob wedge": {"bend.loft": -2}},
        ),
        ("Wedges: Campion 50, 56, sorry, 55", {"gap wedge": {"head.loft": 50}, "sand wedge": {"head.loft": 55}}),
        ("Then there's a three hybrid, no, it's a four, Redstart, twenty-two degrees", {"4 hybrid": {"head.loft": 22}}),
        (
            "The driver is the Petalfly, no, hang on, it's the Fernbrook DX, twelve degrees",
            {"driver": {"head.name": "Fernbrook DX", "head.loft": 12}},
        ),
        (
            "She had the Lapwing driver but that's gone. In its place the Thistle, ten and a half degrees",
            {"driver": {"head.name": "Thistle", "head.loft": 10.5}},
        ),
        (
            "driver: K-7 Dunlark 10.5, Alderwick V 65 S\nhybrid: H-3 Dunlark 22\nwedges: Comfrey R (50-10F, 54-12S)",
            {
                "driver": {"head.name": "K-7 Dunlark", "shaft.name": "Alderwick V", "shaft.flex": "S"},
                "4 hybrid": {"head.name": "H-3 Dunlark"},
                "sand wedge": {"head.name": "Comfrey R", "head.sole": "S"},
            },
        ),
        (
            "gorsefly 10.5 reg\ngorsefly 5w reg\nknapweed 6 to 9\nmoorhen putter",
            {"driver": {"head.name": "gorsefly", "head.loft": 10.5}, "7 iron": {"head.name": "knapweed"}},
        ),
        (
            'Gorsefly Max 10.5* Tarn 60 S 45"\nGorsefly Max 16* Tarn 70 S\nKnapweed 5-PW Burr 105 S\nAnt 34"',
            {"driver": {"head.loft": 10.5}, "3 wood": {"head.loft": 16, "shaft.mass": 70}, "putter": {"length": 34}},
        ),
        (
            "6i Godwit 28, Coppice 110 S, lie 62.5, SW D2, cpm 312\nDriver Godwit 9, 258 cpm, total 312 g",
            {"6 iron": {"stated.frequency": 312, "stated.swing_weight": "D2"}, "driver": {"stated.frequency": 258}},
        ),
        ("Driver Gorsefly 9, sleeve 0, Reed 60 S", {"driver": {"sleeve.loft_change": 0, "shaft.name": "Reed"}}),
        (
            "irons 6-PW Stonechat, Wattle 90 R. Then I've got a Sorrelwort 50 and a Sorrelwort 56",
            {"gap wedge": {"head.name": "Sorrelwort"}, "sand wedge": {"head.name": "Sorrelwort", "head.loft": 56}},
        ),
        (
            "irons:\n  set: 5-PW\n  head: Sandmartin\n  shaft: Garth 105\n  lie: 1 flat",
            {"5 iron": {"head.name": "Sandmartin", "bend.lie": -1}, "pitching wedge": {"shaft.mass": 105}},
        ),
        (
            "Current: Driver Knot 9.5, Reed 50 R, 45.75\nProposed: Driver Gannet 10.5, sleeve -1, Reed 60 S, 45.25\n"
            "Irons current Foxglove 5-PW std; proposed Plover 5-PW, Burr 95 R, 1 up",
            {
                "driver": {"head.name": "Gannet", "head.loft": 10.5, "shaft.mass": 60, "length": 45.25},
                "5 iron": {"head.name": "Plover", "shaft.name": "Burr", "bend.lie": 1},
            },
        ),
        (
            "Driver was Knot 9.5, now Gannet 10.5 with Reed 60 S\n3 wood Plover 15 (replaces Knot 16)",
            {"driver": {"head.name": "Gannet", "head.loft": 10.5}, "3 wood": {"head.name": "Plover", "head.loft": 15}},
        ),
        (
            "4-PW Knot CB pull Burr 120 X fit Burr 105 S, +1/4",
            {"4 iron": {"shaft.mass": 105, "shaft.flex": "S"}, "pitching wedge": {"shaft.mass": 105}},
        ),
        (
            "okay so driver is the gannet ten and a half with the reed sixty regular then uh three wood gannet fifteen "
            "i dont carry a five wood anymore hybrids are plover four and five then a crake gap wedge fifty",
            {
                "driver": {"head.loft": 10.5},
                "3 wood": {"head.loft": 15},
                "4 hybrid": {},
                "gap wedge": {"head.loft": 50},
            },
        ),
        (
            "FW/Gannet/15/Reed 70S\nFW/Gannet/18/Reed 80S\nWG/Crake/52-10",
            {"3 wood": {"shaft.mass": 70}, "5 wood": {"shaft.mass": 80}, "gap wedge": {"head.bounce": 10}},
        ),
        (
            '15 and 18 Gannet fairways (Reed 70S, 80S), 22 Plover hybrid (Reed 85S), 34" Stint putter',
            {
                "3 wood": {"head.loft": 15, "shaft.mass": 70},
                "5 wood": {"head.loft": 18, "shaft.mass": 80},
                "4 hybrid": {"head.name": "Plover"},
                "putter": {"length": 34},
            },
        ),
        (
            "5i 25/61, 6i 28/61.5, 7i 32/62, PW 45/63.5 (Knot CB, Burr 105 S)",
            {
                "5 iron": {"head.name": "Knot CB", "head.loft": 25, "as_played.lie": 61},
                "pitching wedge": {"kind": "iron", "shaft.name": "Burr", "head.loft": 45, "as_played.lie": 63.5},
            },
        ),
        (
            "Larch Seven Driver - 10.5° - Flurry 55 Regular\nLarch Seven Fairway Wood - 3 Wood 15°\n"
            "Larch Seven Irons - 5-PW - Cleave 85 Regular",
            {
                "driver": {"head.name": "Larch Seven"},
                "3 wood": {"head.name": "Larch Seven", "head.loft": 15},
                "5 iron": {"head.name": "Larch Seven", "shaft.mass": 85},
            },
        ),
        (
            "Her driver is a Gannet 9. Her fairways are a fifteen-degree Gannet and an eighteen-degree Plover.",
            {"3 wood": {"head.name": "Gannet"}, "5 wood": {"head.name": "Plover"}},
        ),
        (
            "#1 Driver Gannet 10.5 Reed 60 S\n#2 5 wood Gannet 18 Reed 70 S\n#3 Wedge 50 Crake Burr 115 S",
            {"5 wood": {"shaft.mass": 70}, "gap wedge": {"head.loft": 50, "head.bounce": None}},
        ),
        (
            "Driver: Gannet 9.5. Irons: Knot 5-PW, all +1/2 and 1 up, except the 5 and 6, which stay at 2 up.",
            {"5 iron": {"bend.lie": 2, "length_change": 0.5}, "7 iron": {"bend.lie": 1, "length_change": 0.5}},
        ),
        (
            "DR: Gannet 10.5* | Reed 60S | L 45.25 | SW D3\nTip trim: DR 1/2 in",
            {"driver": {"shaft.flex": "S", "length": 45.25, "length_change": None}},
        ),
    ],
)
def test_what_is_read(text: str, expected: dict[str, dict[str, Any]]) -> None:
    found = told(text)
    for club, facts in expected.items():
        assert club in found, sorted(found)
        assert {path: found[club].get(path) for path in facts} == facts


@pytest.mark.parametrize(
    ("text", "clubs"),
    [
        ("driver Gannet 9\nshe has outgrown her old 8 iron", {"driver"}),
        ("driver Gannet 9\nI'd love a 7 wood one day", {"driver"}),
        ("driver Gannet 9\n\nFor sale:\n5 wood Phalarope 18\n3 hybrid Dotterel 19", {"driver"}),
        ("driver Gannet 9\nputter Stint (tried an Avocet wedge)", {"driver", "putter"}),
        ("Club | Before | Now\ndriver | Gannet 3, 9 | Gannet 3, 9\n3 iron | Bittern, 21 | out", {"driver"}),
        ("driver Gannet 9\nThe 3 wood I gave to Ada next door, I never could hit it.", {"driver"}),
        ("driver Gannet 9\nShe did have a four hybrid in here last week, that's out now.", {"driver"}),
        ("Driver?\n- Don't carry one.\nPutter?\n- Newt, 35 inches", {"putter"}),
        ("OLD BAG\nDriver Knot 9.5\n3 wood Knot 15\nNEW BAG\nDriver Gannet 10.5", {"driver"}),
        ("driver Gannet 9\nLeft at home: 3 wood, 6 and 8 irons", {"driver"}),
        ("driver Gannet 9\nStill to buy: 5 wood", {"driver"}),
    ],
)
def test_what_is_not_in_the_set(text: str, clubs: set[str]) -> None:
    golf_set = read(text)
    assert {club.club for club in golf_set.clubs} == clubs
    assert golf_set.aside


@pytest.mark.parametrize(
    ("text", "about"),
    [
        ("sand wedge Burdock 56, bounce either 10 or 14", "head.bounce"),
        ("driver Drizzle 12, Thatch senior, 45 or 55 grams", "shaft.mass"),
        ("Sorry, I can't look. The driver is a Melilot, either 10.5 or 12", "head.loft"),
        ("Length: 45.25\ndriver Gannet 9", None),
    ],
)
def test_what_is_asked_or_left(text: str, about: str | None) -> None:
    golf_set = read(text)
    if about is None:
        assert any("45.25" in passage.text for passage in golf_set.not_understood)
    else:
        assert about in [question.about for question in golf_set.questions]


@pytest.mark.parametrize(
    ("text", "player"),
    [
        ("Hi Lotte, can you order this please, it's all for Edwin Pellowby:\ndriver Gannet 9", "Edwin Pellowby"),
        ("Hi, it's Dorrit, and I'm on the range with Bram Stottle, who let me look.\ndriver Gannet 9", "Bram Stottle"),
        ("Good day, the set of Mrs. Elspeth Quarrenden.\ndriver Gannet 9", "Elspeth Quarrenden"),
        ("JOB 17   Ada Brandt   RH\ndriver Gannet 9", "Ada Brandt"),
        ("my driver is a Gannet 9\nSee you Saturday, Ferris Oldacre", "Ferris Oldacre"),
        ("The driver's a Gannet, nine degrees. Name's Fennimoor, Oriel Fennimoor.", "Oriel Fennimoor"),
        ("Dear Wilkin, you asked what I play. My driver is a Gannet 9.\nWith love,\nGranny", None),
        (
            "Dear pro, these are Hester's clubs.\ndriver Gannet 9, she likes it\nBest wishes, Winifred, Captain",
            "Hester",
        ),
        ("Junior squad: Tamsin Ellerbeck, age 11\nDriver - Whinchat 15, 39 in", "Tamsin Ellerbeck"),
        ("Wil Tarrowby, 14, plays left-handed.\nHis driver is the Nuthatch 10.5", "Wil Tarrowby"),
        ("Event: Spring Medal\nWinner: Hugo Tarvane, nett 66\nDriver: Godwit 3, 10.5", "Hugo Tarvane"),
        ("Bettine Ash, our new lady captain, plays off 16. Her driver is a Rockrose of 12 degrees.", "Bettine Ash"),
    ],
)
def test_whose_clubs_they_are(text: str, player: str | None) -> None:
    assert read(text).set.player == player


def test_who_won_what() -> None:
    golf_set = read("Rennick Auster won the Ferrydown Amateur by two. He opens with a Godwit driver of 9 degrees.")
    assert golf_set.set.player == "Rennick Auster"
    assert golf_set.set.event == "Ferrydown Amateur"


@pytest.mark.parametrize(
    ("text", "lofts"),
    [
        ("Woods:\n9° Gannet, Burr 60 X\n15° Gannet, Burr 70 X", {"driver": 9, "3 wood": 15}),
        ("Woods: Gannet\n9, Burr 60 X\n15, Burr 70 X", {"driver": 9, "3 wood": 15}),
        ("fairway woods\nGannet 15, Burr 60 S\nGannet 18, Burr 70 S", {"3 wood": 15, "5 wood": 18}),
        ("Hybrids:\n- Gannet 19\n- Gannet 22\nPutter: Smew", {"3 hybrid": 19, "4 hybrid": 22, "putter": None}),
        ("wedges:\n- head: Gannet\n  loft: 50\n- head: Gannet\n  loft: 56", {"gap wedge": 50, "sand wedge": 56}),
        ("hybrids:\n- loft: 19\n  head: Gannet\n- head: Gannet\n  loft: 22", {"3 hybrid": 19, "4 hybrid": 22}),
        ("woods:\n- club: driver\n  head: Gannet\n  loft: 9\n- club: 3 wood\n  loft: 15", {"driver": 9, "3 wood": 15}),
    ],
)  # fmt: skip
def test_clubs_under_a_heading_by_their_lofts(text: str, lofts: dict[str, float | None]) -> None:
    clubs = read(text).clubs
    assert {club.club: club.head.loft.value if club.head.loft else None for club in clubs} == lofts
    heads = {"Gannet"} if "club:" not in text else {"Gannet", None}
    assert {club.head.name for club in clubs if club.kind != "putter"} == heads


def test_what_stands_on_the_shelf_is_not_in_the_set() -> None:
    golf_set = read("driver Gannet 9\nWe still have your old 4 hybrid here on the shelf.")
    assert [club.club for club in golf_set.clubs] == ["driver"]
    assert "on the shelf" in golf_set.aside[0].text


def test_what_is_carried_instead_of_irons() -> None:
    golf_set = read(
        "driver Gannet 9. Instead of long irons I have hybrids: 4, 5 and 6, all Smew, 22, 25 and 28 degrees."
    )
    assert [club.club for club in golf_set.clubs] == ["driver", "4 hybrid", "5 hybrid", "6 hybrid"]
    assert [passage.text for passage in golf_set.aside] == ["Instead of long irons"]


def test_an_excepted_putter_keeps_its_own_figures() -> None:
    golf_set = read('dr Gannet 12 / sw Teasel 56 / putter Smew 30" / all in Catkin 40 L except the putter')
    assert golf_set.clubs[-1].head.name == "Smew"
    assert golf_set.clubs[-1].length.value == 30
    assert golf_set.clubs[-1].shaft.name is None


@pytest.mark.parametrize(
    ("text", "change"),
    [
        ('8 iron Gannet, all cut 1/2"', -0.5),
        ("8 iron Gannet, and we took half an inch off every one of them", -0.5),
        ("8 iron Gannet, cut a quarter inch", -0.25),
        ("8 iron Gannet got half an inch cut off", -0.5),
        ("8 iron Gannet, half an inch over", 0.5),
    ],
)
def test_what_is_cut_off_is_short(text: str, change: float) -> None:
    assert told(text)["8 iron"]["length_change"] == change


def test_a_remark_behind_each_line_is_no_shaft() -> None:
    clubs = read("1. Driver, Gannet, 9°, shaft Kelp 60 X. Passed.\n2. 3 wood, Gannet, 15°. Passed.").clubs
    assert [club.shaft.name for club in clubs] == ["Kelp", None]


def test_who_cuts_the_clubs_is_no_shaft() -> None:
    text = "My irons are the Woodruff, 7, 8 and 9, and Sam took half an inch off every one of them, being kind to me."
    assert {club.shaft.name for club in read(text).clubs} == {None}


@pytest.mark.parametrize("ditto", ["do.", "ditto", '"'])
def test_dittos_in_a_table(ditto: str) -> None:
    head = "Club | Head | Loft | Shaft | Length | SW\n"
    rows = "4 iron | Dipper MB | 24 | Basalt 120 X | 38.5 | D2\n5 iron | {0} | 27 | {0} | 38 | {0}\n"
    five = told(head + rows.format(ditto))["5 iron"]
    shaft = (five["shaft.name"], five["shaft.flex"], five["stated.swing_weight"])
    assert (five["head.name"], *shaft) == ("Dipper MB", "Basalt", "X", "D2")


def test_a_quote_with_prices_is_read_by_its_items() -> None:
    text = (
        "Qty  Item                                    Price\n"
        "1    Driver Smew Air 11.5, Rill 45 L         £289\n"
        "1    5 wood Smew Air 19, Rill 50 L           £179\n"
    )
    for heading in ("Item", "Line"):  # a column of clubs, and one that says nothing of clubs
        clubs = told(text.replace("Item", heading))
        assert {name: club["head.loft"] for name, club in clubs.items()} == {"driver": 11.5, "5 wood": 19}


def test_keys_without_colons_in_a_column() -> None:
    text = "MODEL      Turnstone Forged\nCLUBS      8 9 PW\nSHAFT      Burdock 115 stiff\nLENGTH     +0.25\n"
    clubs = told(text + "LIE        1 upright\nGRIP       Lichen Cord\n")
    assert {club["head.name"] for club in clubs.values()} == {"Turnstone Forged"}
    assert clubs["9 iron"]["grip.name"] == "Lichen Cord"
    assert clubs["8 iron"]["length_change"] == 0.25


def test_keys_that_a_wide_gap_parts_on_one_line() -> None:
    text = "Head: Melick Forged, all     Shaft: Tussock 115 S, all\n\nClub   Loft   Length\n"
    text += "4i     23     38\n5i     26     37.5"
    clubs = told(text)
    assert {(club["head.name"], club["shaft.name"]) for club in clubs.values()} == {("Melick Forged", "Tussock")}


def test_who_writes_in_a_thread_is_no_model() -> None:
    text = (
        "merle_77: irons?\nford_b: 4-PW Campion MB, Scoria 130 X\nmerle_77: wedges?\n"
        "ford_b: Mugwort 52.10, 56.14\nmerle_77: putter?\nford_b: Dunnock, 35 in"
    )
    assert {club.head.name for club in read(text).clubs} == {"Campion MB", "Mugwort", "Dunnock"}


def test_the_model_told_of_all_is_of_those_without_one() -> None:
    clubs = told("Driver Petrel 10.5, a 3 wood, a 5 wood and a 7 wood, all Gannet, at 15, 18 and 21 degrees.")
    assert [(club["head.name"], club["head.loft"]) for club in clubs.values()] == [
        ("Petrel", 10.5), ("Gannet", 15), ("Gannet", 18), ("Gannet", 21),
    ]  # fmt: skip


def test_what_was_put_in_for_what_was_sold_is_in_the_set() -> None:
    golf_set = read("driver Gannet 9. I sold my long irons and put in two hybrids, a 4 and a 5, they're the Smew.")
    assert [club.club for club in golf_set.clubs] == ["driver", "4 hybrid", "5 hybrid"]


def test_whole_names_where_lofts_have_their_column() -> None:
    clubs = read("Club | Head | Loft\nDriver | Scaup 10 | 10.5\n5i | Dabchick Start | 24").clubs
    assert [club.head.name for club in clubs] == ["Scaup 10", "Dabchick Start"]


def test_the_letter_of_a_shaft_where_flexes_have_their_column() -> None:
    clubs = read("Club,Shaft,Mass,Flex\nDriver,Rime X,52,R\n6 iron,Mirrent X,88,R").clubs
    assert [(club.shaft.name, club.shaft.flex) for club in clubs] == [("Rime X", "R"), ("Mirrent X", "R")]


@pytest.mark.parametrize("mark", [" | ", " / ", ", ", "; "])
def test_clubs_by_their_letters_on_one_line(mark: str) -> None:
    cells = ["hcp 4", "D: Gannet 9, Ostrane 65 X", "3W: Gannet 15", "I: Dunlin 4-PW", "P: Petrel"]
    clubs = told(mark.join(cells))
    assert (clubs["driver"]["head.name"], clubs["driver"]["head.loft"]) == ("Gannet", 9)
    assert (clubs["9 iron"]["head.name"], clubs["putter"]["head.name"]) == ("Dunlin", "Petrel")


@pytest.mark.parametrize(
    "said",
    [
        "Three wedges for Ada Brandt please, all Gannet T: 50, 54 and 58.",
        "Need wedges built for Ada Brandt: Gannet T 50, 54, 58",
        "my daughter Ada Brandt (she is 15) would like new wedges. They are the Gannet T, 50, 54 and 58.",
    ],
)
def test_whose_the_clubs_are_is_no_model(said: str) -> None:
    golf_set = read(said)
    assert golf_set.set.player == "Ada Brandt"
    assert {club.head.name for club in golf_set.clubs} == {"Gannet T"}


def test_the_model_before_two_clubs_of_a_kind_among_others() -> None:
    clubs = told("Driver Gannet 9, Gannet 5 wood 18, Dunlin 4h 22 and 5h 25 both Ostrane 70 A.")
    assert [club["head.name"] for club in clubs.values()] == ["Gannet", "Gannet", "Dunlin", "Dunlin"]


@pytest.mark.parametrize(
    "said",
    [
        "Hybrid: Gannet 2 no. 4, 22°",
        "Hybrid: Gannet 2 #4, 22°",
        "The hybrid is a Gannet 2, number five. No, scratch that, number four, twenty-two degrees",
        "Hybrid: Gannet 2, no. 5, sorry, no. 4, 22 degrees",
    ],
)
def test_the_number_of_a_club_is_no_part_of_its_model(said: str) -> None:
    clubs = told(f"Driver Dunlin 9\n{said}\nIrons 6-PW Burr")
    assert (clubs["4 hybrid"]["head.name"], clubs["4 hybrid"]["head.loft"]) == ("Gannet 2", 22)


def test_the_number_of_a_wood_put_right() -> None:
    clubs = told("The fairway wood is a Gannet, number five, no wait, number seven, twenty-one degrees. Putter Stint.")
    assert list(clubs) == ["7 wood", "putter"]
    assert clubs["7 wood"]["head.loft"] == 21


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "D: Gannet 9° (B2), Reed 65 X | 5W: Gannet 18 | 50/54/58: Burr Spin | P: Stint 34\"",
            {"driver": {"head.name": "Gannet"}, "gap wedge": {"head.name": "Burr Spin", "length": None},
             "lob wedge": {"head.sole": None}, "putter": {"head.name": "Stint", "length": 34}},
        ),
        (
            "Driver Gannet 9 / 5 wood Gannet 18 / W: Burr 50, 56 / P: Stint",
            {"gap wedge": {"head.name": "Burr", "head.sole": None}, "putter": {"head.name": "Stint"}},
        ),
        (
            "50, 54, 58: Burr, Reed 120 S. 58 has the T sole, the others the F sole.",
            {"gap wedge": {"head.sole": "F"}, "sand wedge": {"head.sole": "F"}, "lob wedge": {"head.sole": "T"}},
        ),
        (
            "50, 54, 58: Burr, Reed 120 S. The 58 is 1 strong, the others are 1 weak.",
            {"gap wedge": {"bend.loft": 1}, "sand wedge": {"bend.loft": 1}, "lob wedge": {"bend.loft": -1}},
        ),
        (
            "50, 54, 58: Burr. The 58 has 6 bounce, the others 10.",
            {"gap wedge": {"head.bounce": 10}, "sand wedge": {"head.bounce": 10}, "lob wedge": {"head.bounce": 6}},
        ),
        (
            "Irons 8-PW Knot CB, Reed 100 R. PW (Knot CB, same as the rest): 1 weak.",
            {"8 iron": {"bend.loft": None}, "pitching wedge": {"bend.loft": 1}},
        ),
        ("Putter: Stint 11, 34\nBall: Pellan, 2 dozen, white", {"putter": {"head.loft": None, "length": 34}}),
        (
            "sand wedge  Burr 2S, 55 deg, bounce 12\n6-PW  Gannet 3X, Reed 60 L",
            {"sand wedge": {"head.name": "Burr 2S", "shaft.flex": None}, "6 iron": {"head.name": "Gannet 3X"}},
        ),
        ("Driver Gannet 9, Reed 6S", {"driver": {"shaft.flex": "S", "shaft.name": "Reed 6"}}),
        (
            "2 driving iron Gannet U 17 deg. irons 4-PW Knot",
            {"2 driving iron": {"head.name": "Gannet U", "head.loft": 17}, "4 iron": {"head.name": "Knot"}},
        ),
        ("3 wood Gannet 15 deg. hybrid Plover H 22", {"3 wood": {"head.loft": 15}, "4 hybrid": {"head.loft": 22}}),
        (
            "Two hybrids, both the Plover Link: a three at nineteen and a four at twenty-two.",
            {"3 hybrid": {"head.name": "Plover Link", "head.loft": 19}, "4 hybrid": {"head.loft": 22}},
        ),
        (
            "Then two hybrids, a four and a five, called the Nine Larch. The four is twenty-two degrees.",
            {"4 hybrid": {"head.name": "Nine Larch", "head.loft": 22}, "5 hybrid": {"head.name": "Nine Larch"}},
        ),
        ("My driver is the Seven Elm, ten degrees.", {"driver": {"head.name": "Seven Elm", "head.loft": 10}}),
    ],
)  # fmt: skip
def test_marks_letters_and_numbers_of_clubs(text: str, expected: dict[str, dict[str, Any]]) -> None:
    clubs = told(text)
    found = {name: {path: clubs[name].get(path) for path in facts} for name, facts in expected.items()}
    assert found == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "driver Gannet 9. 8-PW Knot. And the putter that holed everything on Sunday, a Stint, 33.5 inches.",
            {"driver": {"shaft.name": None, "length": None}, "putter": {"head.name": "Stint", "length": 33.5}},
        ),
        (
            "8-PW Knot. The shafts in the irons are an ascending set, the Reed, from ninety grams in the eight iron "
            "to ninety-four in the pitching wedge, all stiff.",
            {"8 iron": {"shaft.name": "Reed", "shaft.mass": 90}, "9 iron": {"shaft.mass": 92, "shaft.flex": "S"},
             "pitching wedge": {"shaft.mass": 94, "shaft.ascending": True}},
        ),
        (
            "8-PW Knot. Reed shafts go from 90 grams in the 8 iron up to 94 grams in the wedge.",
            {"8 iron": {"shaft.mass": 90, "shaft.name": "Reed"}, "9 iron": {"shaft.mass": None},
             "pitching wedge": {"shaft.mass": 94}},
        ),
        (
            "8-PW Knot. The lengths run from 36.5 in the 8 iron to 35.5 in the pitching wedge.",
            {"8 iron": {"length": 36.5}, "9 iron": {"length": None}, "pitching wedge": {"length": 35.5}},
        ),
        (
            "8-PW Knot, with a Reed shaft of sixty grams, and a grip called the Tessary.",
            {"8 iron": {"shaft.name": "Reed", "shaft.mass": 60, "grip.name": "Tessary"}},
        ),
    ],
)  # fmt: skip
def test_what_is_told_of_a_run_by_its_ends_and_in_talk(text: str, expected: dict[str, dict[str, Any]]) -> None:
    clubs = told(text)
    found = {name: {path: clubs[name].get(path) for path in facts} for name, facts in expected.items()}
    assert found == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("My driver is the Gannet 8. It's a nine degree head.", {"driver": {"head.name": "Gannet 8", "head.loft": 9}}),
        ("The driver is a Gannet 9. It has 10.5 degrees of loft.", {"driver": {"head.name": "Gannet 9"}}),
        (
            "| Club | Model | Loft | Shaft |\n| 8 iron | Knot 40 | 36 | Reed |\n| 9 iron | Knot 40 | 40 | Reed |",
            {"8 iron": {"head.name": "Knot 40"}, "9 iron": {"head.name": "Knot 40", "head.loft": 40}},
        ),
        ("Driver Gannet 9, and the sleeve takes a full degree off that", {"driver": {"sleeve.loft_change": -1}}),
        ("Driver Gannet 9, turned up two whole degrees", {"driver": {"sleeve.loft_change": 2}}),
        (
            "A mini driver, the Gannet, thirteen degrees, no other fairway woods. Two hybrids, both the Plover:\n"
            "a three at nineteen and a four at twenty-two.",
            {"mini driver": {"head.loft": 13}, "3 hybrid": {"head.name": "Plover"}, "4 hybrid": {"head.loft": 22}},
        ),
    ],
)
def test_models_numbers_beside_lofts_and_what_is_not_there(text: str, expected: dict[str, dict[str, Any]]) -> None:
    clubs = told(text)
    assert list(clubs) == list(expected)
    found = {name: {path: clubs[name].get(path) for path in facts} for name, facts in expected.items()}
    assert found == expected


@pytest.mark.parametrize(
    ("said", "neck"),
    [
        ("The Stint Two, a long-neck putter of 34 inches", "long"),
        ("A slant-neck putter, the Stint Two, 34 in", "slant"),
        ("A flow-neck Stint Two putter, 34 in", "flow"),
        ("A centre-shafted, face-balanced putter, the Stint Two, 34 in", "centre"),
        ("Putter Stint Two, long-necked, 34 in", "long"),
    ],
)
def test_the_neck_before_the_putter(said: str, neck: str) -> None:
    clubs = told(f"Driver Gannet 9, Ostrane 60 S. {said}.")
    assert (clubs["putter"]["head.name"], clubs["putter"]["putter.neck"]) == ("Stint Two", neck)
    assert clubs["putter"]["length"] == 34
    assert clubs["driver"]["shaft.name"] == "Ostrane"


def test_a_model_before_what_it_is() -> None:
    clubs = told("Driver Gannet 9. The Dunlin, a 3 wood of 15 degrees. The Burr H, a 4 hybrid of 22 degrees.")
    assert [club["head.name"] for club in clubs.values()] == ["Gannet", "Dunlin", "Burr H"]


@pytest.mark.parametrize(
    ("said", "path", "value", "holders"),
    [
        ("The woods, the irons and the sand wedge all have the Ostrane shaft", "shaft.name", "Ostrane", "DWIIS"),
        ("The driver, the irons and the wedge wear Norrby grips", "grip.name", "Norrby", "DIIS"),
        ("The irons and the hybrid are half an inch short", "length_change", -0.5, "HII"),
    ],
)
def test_what_groups_in_a_row_have(said: str, path: str, value: object, holders: str) -> None:
    text = f"Driver Gannet 9. 3 wood Gannet 15. 4 hybrid Burr 22. Irons Burr 8-9. Sand wedge Crane 56. {said}."
    clubs = told(text)
    kinds = {"driver": "D", "3 wood": "W", "4 hybrid": "H", "8 iron": "I", "9 iron": "I", "sand wedge": "S"}
    assert set(clubs) == set(kinds)
    assert "".join(kinds[club] for club, fields in clubs.items() if fields.get(path) == value) == holders


@pytest.mark.parametrize(
    "said",
    [
        "Correction: I wrote 44.5 inches for the driver, it is 45 inches.",
        "PS I told you 44.5 for the driver, it should be 45.",
        "For the driver I wrote 44.5, it should be 45.",
        "Sorry, we had 44.5 for the driver but it's 45.",
        "Sorry, I said 44.5 in the driver. It's 45, my mistake.",
    ],
)
def test_a_slip_that_is_told_again_and_put_right(said: str) -> None:
    clubs = told(f"Driver Gannet 9, Ostrane 60 S, 44.5 in. Putter Stint, 34 in.\n\n{said}")
    assert {name: club["length"] for name, club in clubs.items()} == {"driver": 45, "putter": 34}
    assert clubs["driver"]["shaft.mass"] == 60


@pytest.mark.parametrize(
    "said",
    [
        "Set PW and set gap too.",
        "PW and gap from the set.",
        "The set's own pitching wedge and the matching gap wedge.",
        "PW of the set\nGW from the irons",
        "The set PW, the set gap wedge, 50°.",
    ],
)
def test_wedges_told_to_be_of_the_set(said: str) -> None:
    clubs = told(f"Irons 8-9 Burr, Reed 95 S. {said}\nA 54 degree Crane wedge.")
    assert {name: club["head.name"] for name, club in clubs.items()} == {
        "8 iron": "Burr", "9 iron": "Burr", "pitching wedge": "Burr", "gap wedge": "Burr", "sand wedge": "Crane",
    }  # fmt: skip
    assert [club["kind"] for club in clubs.values()] == ["iron"] * 4 + ["wedge"]


def test_a_wedge_told_not_to_be_of_the_set() -> None:
    clubs = told("Irons 8-9 Burr, Reed 95 S. The pitching wedge isn't from the set, it's a Crane, 46.")
    assert clubs["pitching wedge"]["head.name"] == "Crane"


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("The driver, the hybrid and the irons are all Gannet Air.", "DHII"),
        ("driver, wood, irons: all Gannet Air", "DWII"),
        ("The driver and the hybrid are Gannet Air", "DH"),
        ("Woods and hybrids are all Gannet Air", "DWH"),
    ],
)
def test_the_model_of_several_kinds_before_the_lines_that_tell_of_each(said: str, named: str) -> None:
    text = f"{said}\n\n- driver, 12 degrees\n- 5 wood, 18 degrees\n- 5 hybrid, 26 degrees\n- irons 8-9\n\nYours, Ada"
    clubs = told(text)
    kinds = {"driver": "D", "5 wood": "W", "5 hybrid": "H", "8 iron": "I", "9 iron": "I"}
    assert set(clubs) == set(kinds)
    found = "".join(kinds[club] for club, fields in clubs.items() if "Gannet Air" in str(fields["head.name"]))
    assert found == named


@pytest.mark.parametrize(
    ("said", "but"),
    [
        ("She has seven clubs, all of them Gannet Jr:", ()),
        ("The clubs are all Gannet Jr.", ()),
        ("Junior bag, all Gannet Jr, with ladies shafts.", ()),
        ("The set is all Gannet Jr apart from the putter.", ("putter",)),
        ("She has seven clubs, all of them old:", ("driver", "5 hybrid", "7 iron", "putter")),
    ],
)
def test_one_model_told_of_all_clubs_before_any_is_named(said: str, but: tuple[str, ...]) -> None:
    clubs = told(f"{said}\n\nthe driver, 12 degrees,\na 5 hybrid,\na 7 iron\nand the putter, 30 inches.")
    expected = {club: None if club in but else "Gannet Jr" for club in ("driver", "5 hybrid", "7 iron", "putter")}
    assert {club: fields["head.name"] for club, fields in clubs.items()} == expected
