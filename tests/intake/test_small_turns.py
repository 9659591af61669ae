"""Small turns of phrase, one a line: what each is read to say."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told


@pytest.mark.parametrize(
    ("text", "path", "expected"),
    [
        ("irons 7-9 Gannet w Reed 60 S", "shaft.name", {"7 iron": "Reed", "8 iron": "Reed", "9 iron": "Reed"}),
        ("driver Gannet 10\n3 w Gannet 15\n4 h Gannet 22", "head.loft", {"driver": 10, "3 wood": 15, "4 hybrid": 22}),
        (
            "3 wood Gannet 16, and with that I drive. Putter Stint 35",
            "kind",
            {"3 wood": "fairway wood", "putter": "putter"},
        ),
        ("putter Stint 33 inches, she is five foot two", "head.loft", {}),
        ("putter Stint 33 inches. He is 4 ft 7 tall.", "head.loft", {}),
        ("54 wedge Burr, bounce 12  sole full     lie 1 up", "head.sole", {"sand wedge": "full sole"}),
        ("54 wedge Burr, grip Sorrel Grip-On, +3 wraps", "grip.name", {"sand wedge": "Sorrel Grip-On"}),
        (
            "The wedges are a Swale Three, fifty and fifty-six",
            "head.name",
            {"gap wedge": "Swale Three", "sand wedge": "Swale Three"},
        ),
        ("irons 6-7 Gannet, longer than standard by half an inch", "length_change", {"6 iron": 0.5, "7 iron": 0.5}),
        ("irons 6-7 Gannet, flatter than the standard by 2 degrees", "bend.lie", {"6 iron": -2, "7 iron": -2}),
        ("3 wood, the Gannet 14, fourteen and a half degrees", "head.name", {"3 wood": "Gannet 14"}),
        ("wedges 52 and 56 Burr, and the two have bounce 10", "head.bounce", {"gap wedge": 10, "sand wedge": 10}),
        (
            "Irons 6-7 Burr, 1 inch short\nSW Burr, Reed like the irons but length is standard",
            "length_change",
            {"6 iron": -1, "7 iron": -1, "sand wedge": 0},
        ),
        (
            "2 DRIVING IRON\n  Head: Gannet U\n  Shaft: Reed Iron, 100 g, X",
            "shaft.name",
            {"2 driving iron": "Reed Iron"},
        ),
        ("wedges 50 54 58, all Marl, 10 8 6 bounce", "head.bounce", {"gap wedge": 10, "sand wedge": 8, "lob wedge": 6}),
        ("lw 60/6 Marl T-grind", "head.sole", {"lob wedge": "T"}),
        ("Woods: Gannet (driver 10.5, 3w 15)", "head.name", {"driver": "Gannet", "3 wood": "Gannet"}),
        ("Irons seven down to five Gannet", "head.name", {"5 iron": "Gannet", "6 iron": "Gannet", "7 iron": "Gannet"}),
        ('Putter - Stint, 35", was 34" before.', "length", {"putter": 35}),
        ("New driver, Gannet 9 (last year's was the Burr 10.5).", "head.loft", {"driver": 9}),
        (
            "driver Gannet 9\n7 wood Gannet 21 (I had a 5 hybrid there, a Burr, but it hooked)",
            "head.name",
            {"driver": "Gannet", "7 wood": "Gannet"},
        ),
        (
            "driver (Gannet 9)\nwoods (Gannet 15, 18): Reed 70 S",
            "head.loft",
            {"driver": 9, "3 wood": 15, "5 wood": 18},
        ),
        (
            "1) Driver Gannet 9\n2) 3W Gannet 15\n3-5) 7-9 irons Dunlin\n6) Putter Stint",
            "head.name",
            {
                "driver": "Gannet",
                "3 wood": "Gannet",
                "7 iron": "Dunlin",
                "8 iron": "Dunlin",
                "9 iron": "Dunlin",
                "putter": "Stint",
            },
        ),
        ("driver gannet max 9 w reed blue 60 s\n3w gannet max 15", "shaft.name", {"driver": "reed blue"}),
        ("wedges 50/54/58 Marl, grinds F, S, T", "head.sole", {"gap wedge": "F", "sand wedge": "S", "lob wedge": "T"}),
        (
            "wedges 50/54/58 Marl, F S T grinds, Reed S",
            "head.sole",
            {"gap wedge": "F", "sand wedge": "S", "lob wedge": "T"},
        ),
        ("driver Gannet 9. The 5w went, I now have a 4w, Gannet 17", "head.loft", {"driver": 9, "4 wood": 17}),
        (
            "For the Quarry Cup Ada had three clubs: driver (Gannet 9), putter (Stint)",
            "head.name",
            {"driver": "Gannet", "putter": "Stint"},
        ),
        (
            "DR Gannet 9\nFW Gannet 15\nHY Gannet 19\nWG Marl 52\nPT Stint",
            "head.name",
            {"driver": "Gannet", "3 wood": "Gannet", "3 hybrid": "Gannet", "gap wedge": "Marl", "putter": "Stint"},
        ),
        (
            "Eight clubs, all Gannet except the putter: driver 10.5, putter Stint",
            "head.name",
            {"driver": "Gannet", "putter": "Stint"},
        ),
        (
            "IRONS 5-6\nGRIPS: Norrby, 2 wraps\nWEDGES Burr 52\nGRIPS: Norrby, 3 wraps",
            "grip.wraps",
            {"5 iron": 2, "6 iron": 2, "gap wedge": 3},
        ),
        (
            "club;head;shaft;flex;grip\ndriver;Gannet;Reed 60;S;Norrby X\n3 wood;Gannet;Reed 70;S;Norrby X",
            "shaft.flex",
            {"driver": "S", "3 wood": "S"},
        ),
        ("driver Gannet 9, 7 iron Dunlin 34", "head.loft", {"driver": 9, "7 iron": 34}),
        ("7 iron 34, driver speed 95mph", "head.loft", {"7 iron": 34}),
        ("driver: Gannet, loft 9, lie std", "bend.lie", {"driver": 0}),
        (
            "Hybrid number 4 and number 5 are Gannet, 22 and 25 degrees",
            "head.loft",
            {"4 hybrid": 22, "5 hybrid": 25},
        ),
        ("Wood number 3 is a Gannet, iron number 9 a Burr", "head.name", {"3 wood": "Gannet", "9 iron": "Burr"}),
        (
            "Wedges Burr 56 and 60. Bounce is 12 on the 56, 8 on the 60",
            "head.bounce",
            {"sand wedge": 12, "lob wedge": 8},
        ),
        (
            "Driver Gannet 9. 3 wood Gannet 15. Lengths: 45 for the driver and 43 for the 3 wood",
            "length",
            {"driver": 45, "3 wood": 43},
        ),
        (
            "Driver Gannet 9. Irons Burr 8-9. Lies are 1 up in the 8, 2 up in the 9",
            "bend.lie",
            {"8 iron": 1, "9 iron": 2},
        ),
        (
            "Driver Gannet 9. 3 wood Gannet 15. Swing weight D3 on the driver, D1 on the 3 wood",
            "stated.swing_weight",
            {"driver": "D3", "3 wood": "D1"},
        ),
        ("Driver Gannet 10.5. Scratch that, she went to the 9 last night. Reed 60 S.", "head.loft", {"driver": 9}),
        (
            "The driver is a Gannet 3 stamped 9.5 degrees, the 3 wood a Gannet 4, stamped 15",
            "head.name",
            {"driver": "Gannet 3", "3 wood": "Gannet 4"},
        ),
        ("Wedges Burr, fifty and sixty. The sixty one degree strong.", "bend.loft", {"lob wedge": -1}),
        ("Wedges Burr 50 and 58. I have bent the 50 one degree weak.", "bend.loft", {"gap wedge": 1}),
        ("Wedges Burr 50 and 58. Bent the 58 weak by one degree.", "bend.loft", {"lob wedge": 1}),
        ("7 iron Burr, 34. He hits down 3 degrees with the 7 iron.", "bend.lie", {}),
        (
            "driver Gannet 8 stamped 10.5\n3 wood Gannet 6 with 15 stamped on it",
            "head.loft",
            {"driver": 10.5, "3 wood": 15},
        ),
        ("driver Gannet ten degrees, Reed sixty gram regular plus forty-five inches", "shaft.flex", {"driver": "R+"}),
        ("driver Gannet 10, Reed 60 regular plus a half inch long", "shaft.flex", {"driver": "R"}),
        ("9 iron Burr\nSW irons: D2 throughout", "stated.swing_weight", {"9 iron": "D2"}),
        (
            "9 iron Burr\n58 wedge Vane\nSW: irons D2, wedges D4",
            "stated.swing_weight",
            {"9 iron": "D2", "lob wedge": "D4"},
        ),
        (
            "Irons are Burr 8-9. Only one more wedge, a 58",
            "kind",
            {"8 iron": "iron", "9 iron": "iron", "lob wedge": "wedge"},
        ),
        ("driver Gannet 9. The newer G22 launches higher but I like mine.\n3 wood Gannet 15", "shaft.name", {}),
        ("irons 8-9 Burr 6-2 on Reed 105 S", "head.name", {"8 iron": "Burr 6-2", "9 iron": "Burr 6-2"}),
        ("driver Gannet 4-1 10.5\nputter Stint 9-2, 34", "head.name", {"driver": "Gannet 4-1", "putter": "Stint 9-2"}),
        ("irons Burr 9-7", "head.name", {"7 iron": "Burr", "8 iron": "Burr", "9 iron": "Burr"}),
        ("irons 8-9 Burr. All two five eighths of an inch long", "length_change", {"8 iron": 0.625, "9 iron": 0.625}),
        (
            "irons 7-9 Burr. My eight and nine three quarters of a degree flat.",
            "bend.lie",
            {"8 iron": -0.75, "9 iron": -0.75},
        ),
        ("Driver\nModel: Gannet 44\nLoft: 9\nLength: 45", "head.name", {"driver": "Gannet 44"}),
        ("Driver\nModel: Gannet 10.5\nLength: 45", "head.loft", {"driver": 10.5}),
        (
            "driver Gannet 10\n9 iron Burr\nputter Stint\nGrip (all clubs above): Sorrel",
            "grip.name",
            {"driver": "Sorrel", "9 iron": "Sorrel", "putter": "Sorrel"},
        ),
        (
            "driver Gannet 10\n9 iron Burr\nGrips: Sorrel on both, no extra wraps",
            "grip.wraps",
            {"driver": 0, "9 iron": 0},
        ),
        ("Irons 8-9. Heads Burr N. Shafts Reed 95 g S.", "head.name", {"8 iron": "Burr N", "9 iron": "Burr N"}),
        (
            "irons 8-9 burr tb regular, putter stint 34",
            "head.name",
            {"8 iron": "burr tb", "9 iron": "burr tb", "putter": "stint"},
        ),
        ("irons 8-9 burr tb regular, putter stint 34", "shaft.name", {}),
        (
            "Irons 8-9 are the Burr, in the Reed Flight, 85 grams, stiff",
            "shaft.name",
            {"8 iron": "Reed Flight", "9 iron": "Reed Flight"},
        ),
        (
            "Irons: 7 to 9, Burr 20, regular\nPitching w.: Burr 20, regular\nSand w.: Crane, 56 degrees",
            "head.name",
            {
                "7 iron": "Burr 20",
                "8 iron": "Burr 20",
                "9 iron": "Burr 20",
                "pitching wedge": "Burr 20",
                "sand wedge": "Crane",
            },
        ),
        (
            "driver: Gannet 10.5° // 9 iron: Burr, Reed 95 S // SW 54° and LW 58°: Crane // putter: Stint",
            "head.name",
            {"driver": "Gannet", "9 iron": "Burr", "sand wedge": "Crane", "lob wedge": "Crane", "putter": "Stint"},
        ),
        ("driver Gannet 9, Reed 60 S. Putter Stint 34. It belonged to the same bag.", "shaft.name", {"driver": "Reed"}),
        ("Irons: 7 to 9, Burr 20, regular\nPW: Burr 20", "head.loft", {}),
        (
            'Irons, Burr P, shaft Reed 110 g S\n  9   36"\n  PW  35.5"\n  all irons D2, 3 wraps',
            "stated.swing_weight",
            {"9 iron": "D2", "pitching wedge": "D2"},
        ),
    ],
)
def test_small_turns_of_phrase(text: str, path: str, expected: dict[str, object]) -> None:
    assert told(text, path) == expected


@pytest.mark.parametrize("clubs", ["two hybrids, the 4 and the 5", "5 hybrid", "irons 7-9"])
def test_the_kind_a_shaft_is_made_for_is_no_club(clubs: str) -> None:
    kind = "iron" if "iron" in clubs else "hybrid"
    text = f"{clubs}, Gannet, Reed Amber {kind} shafts, seventy grams, senior. putter Stint"
    names = told(text, "shaft.name")
    assert set(names.values()) == {"Reed Amber"}
    assert set(names) == set(told(text, "kind")) - {"putter"}


@pytest.mark.parametrize(
    "tail",
    [
        "went from an old 46 inch driver and found six more fairways",
        "up from 46 in my previous driver",
        "12 extra yards, moved from an older 46 inch driver",
    ],
)
def test_what_a_club_replaced_and_what_it_brings_are_no_figures_of_it(tail: str) -> None:
    text = f'Driver: Gannet 9° - Reed 65 X - 44.75" - {tail}'
    assert (told(text, "length"), told(text, "head.loft")) == ({"driver": 44.75}, {"driver": 9})
    assert told(text, "sleeve.loft_change") == {}


def test_a_number_before_a_figure_with_its_own_label_is_the_models() -> None:
    text = (
        "DRIVER  Gannet 10, loft 10.5, head 199 g\n3W  Gannet 10, loft 16.5\nputter still the Stint 4 but cut to 33.5"
    )
    assert told(text, "head.name") == {"driver": "Gannet 10", "3 wood": "Gannet 10", "putter": "Stint 4"}
    assert told(text, "head.loft") == {"driver": 10.5, "3 wood": 16.5}
    assert told(text, "length") == {"putter": 33.5}


@pytest.mark.parametrize("shaft", ["Reed 105 g S", "Reed 105 S, 35 in", "Shaft Reed 105 S"])
def test_a_shaft_behind_a_stop_is_that_of_all_wedges_of_one_model(shaft: str) -> None:
    text = f"9-PW: Gannet. Reed 95 g R.\nWedges: Burr 52-08 F (bent to 53), 58-06 L. {shaft}\nPutter: Stint"
    assert told(text, "shaft.mass") == {"9 iron": 95, "pitching wedge": 95, "gap wedge": 105, "lob wedge": 105}


@pytest.mark.parametrize(
    "said",
    ["Hybrids - Gannet H in 20 and 24, both with the Reed, 75 g, R", "The hybrids are the Gannet H, a 20 and a 24."],
)
def test_lofts_behind_a_model_tell_each_hybrid(said: str) -> None:
    assert told(said, "head.loft") == {"3 hybrid": 20, "5 hybrid": 24}
    assert told(said, "head.name") == {"3 hybrid": "Gannet H", "5 hybrid": "Gannet H"}


@pytest.mark.parametrize(
    ("said", "numbers"),
    [
        ("Now the hybrids, she has two, a four and a five, both the Burr", {"4 hybrid", "5 hybrid"}),
        ("As for fairways he has two, a three and a seven, both Burr", {"3 wood", "7 wood"}),
        ("Fairway woods, I have three, a 3, a 5 and a 7, all Burr", {"3 wood", "5 wood", "7 wood"}),
    ],
)
def test_a_count_before_as_many_numbers_is_no_club(said: str, numbers: set[str]) -> None:
    assert told(f"Driver Gannet 10.5. {said}.", "head.name") == {"driver": "Gannet", **dict.fromkeys(numbers, "Burr")}


def test_a_shaft_told_of_clubs_before_its_mass_is_that_of_each() -> None:
    text = "The driver is a Gannet, 9 degrees, Reed 60 S. The 3 wood a Gannet, 15. The 7 wood a Gannet, 21.\n"
    text += "Amber Reed in the 3 wood and the 7 wood, 70 g, stiff."
    assert told(text, "shaft.name") == {"driver": "Reed", "3 wood": "Amber Reed", "7 wood": "Amber Reed"}
    assert told(text, "shaft.mass") == {"driver": 60, "3 wood": 70, "7 wood": 70}
    assert set(told(text, "head.name").values()) == {"Gannet"}
