"""One fact in many spellings: each line is a list, the field it speaks of, and what it says of it (or None)."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from asplayed.intake import read
from asplayed.quantities import plain

sys.path.insert(0, str(Path(__file__).parent))

from scoring import _find, _value, same

FACTS = """
driver 10.5*|head.loft|10.5
driver 9 deg|head.loft|9
10.5° driver|head.loft|10.5
driver loft 10.5|head.loft|10.5
driver with 10.5 degrees of loft|head.loft|10.5
driver 44.75 inches|length|44.75
driver at 44 3/4"|length|44.75
driver, length 44-3/4 in|length|44.75
driver 113.5 cm|length|44.685
driver 1.14m|length|44.882
driver length forty-five|length|45
driver 45 and 1/4|length|45.25
driver D3|stated.swing_weight|D3
driver SW D3.5|stated.swing_weight|D3.5
driver swing weight of D 3|stated.swing_weight|None
driver 255cpm|stated.frequency|255
driver 255 CPM|stated.frequency|255
driver total weight 310 g|stated.mass|310
driver sleeve +1|sleeve.loft_change|1
driver sleeve: -1.5°|sleeve.loft_change|-1.5
driver sleeve 1 up|sleeve.loft_change|1
driver sleeve one degree up|sleeve.loft_change|1
driver sleeve minus .75|sleeve.loft_change|-0.75
driver sleeve turned ¾ down and upright|sleeve.loft_change|-0.75
driver sleeve position B3|sleeve.position|B3
driver sleeve set to B3|sleeve.position|B3
driver in position B3|sleeve.position|B3
driver hosel B3|sleeve.position|None
driver sleeve 2 upright|sleeve.lie_change|2
driver lofted down 1|sleeve.loft_change|-1
driver +1 loft|sleeve.loft_change|1
driver 10.5, +0.75°|sleeve.loft_change|0.75
driver 10.5 cranked to 9|sleeve.loft_change|-1.5
7 iron 2 up|bend.lie|2
7 iron 2° up|bend.lie|2
7 iron 2 deg upright|bend.lie|2
7 iron two degrees flat|bend.lie|-2
7 iron lie +2|bend.lie|2
7 iron +2 lie|bend.lie|2
7 iron lie 2 up|bend.lie|2
7 iron lie 62.5|as_played.lie|62.5
7 iron 62.5° lie|as_played.lie|62.5
7 iron lie angle: 62|as_played.lie|62
7 iron bent 2 up|bend.lie|2
7 iron bent upright 2 degrees|bend.lie|2
7 iron bent weak 1|bend.loft|1
7 iron 1 degree strong|bend.loft|-1
7 iron loft 1 weak|bend.loft|1
7 iron 33 bent to 34|bend.loft|1
7 iron loft -1|bend.loft|-1
7 iron ½ long|length_change|0.5
7 iron 1/2" long|length_change|0.5
7 iron +½"|length_change|0.5
7 iron half an inch long|length_change|0.5
7 iron half inch over|length_change|0.5
7 iron 0.5 over|length_change|0.5
7 iron half an inch longer than standard|length_change|0.5
7 iron standard plus a half|length_change|0.5
7 iron std +1/2|length_change|0.5
7 iron 10 mm long|length_change|0.3937
7 iron std length|length_change|0
7 iron standard length and lie|bend.lie|0
7 iron standard lie|bend.lie|0
7 iron length: std|length_change|0
52.08|head.bounce|8
52-08|head.bounce|8
52/8|head.bounce|8
52° 8° bounce|head.bounce|8
52° / 8°|head.bounce|8
52 degrees, 8 bounce|head.bounce|8
52 with 8 of bounce|head.bounce|8
gap wedge 52, bounce 8|head.bounce|8
GW 52.08|head.bounce|8
gap wedge 52 8|head.bounce|8
60.08 bent 1 weak|bend.loft|1
60 bent to 59|bend.loft|-1
60° wedge 1° weak|bend.loft|1
60.08 C grind|head.sole|C
60.08 M|head.sole|M
60° full sole|head.sole|full sole
60° with heel relief|head.sole|heel relief
60 heel-and-toe relief|head.sole|heel-and-toe relief
60 crescent sole|head.sole|crescent
60 wide sole|head.sole|wide
driver Lindrake shaft, X flex|shaft.flex|X
driver 10, shaft Lindrake tour extra-stiff|shaft.flex|TX
driver 10, Lindrake senior|shaft.flex|A
driver 10, Lindrake 60 ladies|shaft.flex|L
driver 10, Lindrake 60 R+|shaft.flex|R+
driver 10, Lindrake 60g stiff|shaft.mass|60
driver 10, Lindrake 60 S|shaft.mass|60
driver 10, 60 gram Lindrake|shaft.mass|60
driver 10, Lindrake weighing 60 grams|shaft.mass|60
driver 10, Lindrake 60 S, torque 3.5|shaft.torque|3.5
driver 10, Lindrake 60 S, 3.5° torque|shaft.torque|3.5
driver 10, Lindrake 60 S, low launch|shaft.launch|low
driver 10, Lindrake 60 S, mid/high launch|shaft.launch|mid-high
driver 10, Lindrake 60 S, low spin|shaft.spin|low
driver 10, Lindrake 60 S, low launch and spin|shaft.spin|low
driver 10, grip Tessary +2|grip.wraps|2
driver 10, Tessary grip with two extra wraps|grip.wraps|2
driver 10, Tessary grip +1 wrap|grip.wraps|1
driver 10, +2 wraps|grip.wraps|2
driver 10, Tessary grip 50 g|grip.mass|50
driver 10, 4 g toe|weights|toe:4
driver 10, 4g in the toe, 12g in the heel|weights|heel:12+toe:4
driver 10, toe 4 g, heel 12 g|weights|heel:12+toe:4
driver 10, heel weight 12|weights|heel:12
driver 10, weights 12 heel 4 toe|weights|heel:12+toe:4
driver 10, draw setting|weights|draw:
driver 10, weight in draw|weights|draw:
driver 10, weight forward|weights|front:
putter plumber's neck|putter.neck|plumber's
putter with a plumbers neck|putter.neck|plumber's
putter, centre-shafted|putter.neck|centre
putter, flow neck|putter.neck|flow
putter, short slant|putter.neck|slant
putter, double bend|putter.neck|double bend
putter face-balanced|putter.toe_hang|0
putter toe hang 35|putter.toe_hang|35
putter 35° toe hang|putter.toe_hang|35
putter 35 degrees of toe hang|putter.toe_hang|35
putter 34"|length|34
putter 3° loft|head.loft|3
putter 70° lie|as_played.lie|70
putter 350 g head|head.mass|350
driver head 198 g|head.mass|198
driver head weight 198|head.mass|198
8 iron Gannet, 1/2" below standard|length_change|-0.5
8 iron Gannet, 1/2" above standard|length_change|0.5
8 iron Gannet, shaved a quarter inch|length_change|-0.25
8 iron Gannet, 1/2 inch extension|length_change|0.5
8 iron Gannet, 5 mm off|length_change|-0.1969
8 iron Gannet, took 1/4" off|length_change|-0.25
8 iron Gannet, butt trimmed 1/2"|shaft.name|None
"""


@pytest.mark.parametrize("line", FACTS.strip().splitlines())
def test_one_fact_however_it_is_written(line: str) -> None:
    text, path, expected = line.split("|")
    value = _value(_find(plain(read(text))["clubs"][0], path))
    if expected == "None":
        assert value is None
    else:
        assert value is not None
        assert same(expected, value), value
