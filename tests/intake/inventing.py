"""Invented sets, and the many ways in which people set them out: rows, pages of keys, talk, lines about groups.

Every way tells the same clubs, so what must be read from it is known without reading it. Nothing here is evidence of
how people write; it holds that what is read does not depend on how a list is laid out.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

Club = dict[str, Any]

_SAID = tomllib.loads((Path(__file__).parent / "inventing.toml").read_text(encoding="utf-8"))
_FLEXES = {"R": "regular", "S": "stiff", "X": "extra stiff"}
_FACTS = {
    "player": 'player="Ada Brandt"',
    "left": "hand=left",
    "date": "date=2026-03-14",
    "event": 'event="Ravelin Cup"',
}
_WEDGES = [[(50, 8), (54, 10), (58, 8)], [(52, 10), (56, 12), (60, 6)], [(50, 10), (56, 14)]]  # lofts and bounces
_FRACTIONS = {0.25: "1/4", 0.5: "1/2", 0.75: "3/4"}
_ONES, _TENS = _SAID["ones"], _SAID["tens"]


class Told(NamedTuple):
    """A list, and what it says as a corpus file writes it."""

    text: str
    expected: str


def invented(random: Random) -> list[Club]:
    """A set: a driver, one or two woods, hybrids perhaps, irons, wedges and a putter."""
    model, iron, wedge, putter = random.sample(_SAID["heads"], 4)
    wood = model + random.choice(_SAID["wood_ends"])
    shaft, steel = random.sample(_SAID["shafts"], 2)
    shaft += random.choice(_SAID["shaft_ends"])
    flex, mass = random.choice("RSX"), random.choice([45, 50, 55, 60, 65])
    own = {"shaft": shaft, "flex": flex}
    length = random.choice([44.5, 45, 45.25, 45.5])
    clubs: list[Club] = [
        {"club": "driver", "head": wood, "loft": random.choice([9, 9.5, 10.5, 12]), "mass": mass, **own}
    ]
    if random.random() < 0.6:
        clubs[0]["len"] = length
    for number, loft in random.choice([[(3, 15)], [(3, 15), (5, 18)], [(5, 18), (7, 21)], [(4, 16.5)]]):
        clubs.append({"club": f"{number} wood", "head": wood, "loft": loft, "mass": mass + 10, **own})
    for number, loft in random.choice([[], [(3, 19)], [(4, 22)], [(4, 22), (5, 25)]]):
        clubs.append({"club": f"{number} hybrid", "head": model, "loft": loft, "mass": mass + 25, **own})
    irons: Club = {"club": "irons", "from": random.choice([4, 5, 6]), "to": random.choice(["PW", "9"])}
    irons |= {
        "head": iron + random.choice(_SAID["iron_ends"]),
        "shaft": steel,
        "mass": random.choice([85, 95, 105, 120]),
    }
    irons |= {"flex": flex, "len+": random.choice([None, 0.5, -0.25, 0.25]), "lie+": random.choice([None, 1, 2, -1])}
    clubs.append({key: value for key, value in irons.items() if value is not None})
    for loft, bounce in random.choice(_WEDGES):
        told = {"bounce": bounce} if random.random() < 0.5 else {}
        clubs.append({"club": "wedge", "head": wedge, "loft": loft, "shaft": steel, "mass": 125, "flex": "S", **told})
    name = putter + random.choice(["", " 2", " Mallet", " 7"])
    clubs.append({"club": "putter", "head": name, "len": random.choice([33, 34, 34.5])})
    return clubs


def expected(clubs: list[Club]) -> str:
    """The set as a corpus file expects it."""
    lines = []
    for club in clubs:
        name = club["club"]
        if name == "irons":
            name = f"{club['from']}-{club['to']} iron"
        elif name == "wedge":
            name = _wedge(club["loft"])
        facts = {key: value for key, value in club.items() if key not in ("club", "from", "to")}
        lines.append(f"{name}: " + " ".join(f'{key}="{_figure(value)}"' for key, value in facts.items()))
    return "\n".join(lines) + "\n"


def _figure(value: Any) -> str:
    return f"{value:g}" if isinstance(value, int | float) else str(value)


def _wedge(loft: float) -> str:
    return "gap wedge" if loft <= 53 else "sand wedge" if loft <= 57 else "lob wedge"


# ------------------------------------------------------------------------------------------------------------- rows


class _Style(NamedTuple):
    """How one writer writes: his words for clubs, his units, his fractions."""

    iron: str
    wedge: str
    wood: str
    capital: bool
    fractions: bool
    inch: str
    degree: str
    flex_words: bool
    gram: str


def _style(random: Random) -> _Style:
    return _Style(
        random.choice(["short", "long", "labelled", "to"]),
        random.choice(["short", "long", "letters", "lofted"]),
        random.choice(["short", "long"]),
        random.random() < 0.7,
        random.random() < 0.5,
        random.choice(['"', "", " in", " inches"]),
        random.choice(["°", "", " deg"]),
        random.random() < 0.4,
        random.choice(["", "g", " g"]),
    )


def _label(club: Club, style: _Style) -> str:
    name = club["club"]
    if name == "irons":
        low, high = club["from"], club["to"]
        ways = {"short": f"{low}-{high}", "long": f"{low}-{high} irons", "labelled": f"irons {low}-{high}"}
        word = ways.get(style.iron, f"{low} iron to {high}")
    elif name == "wedge":
        letters = {"gap wedge": "GW", "sand wedge": "SW", "lob wedge": "LW"}[_wedge(club["loft"])]
        ways = {"short": f"{club['loft']}", "long": _wedge(club["loft"]), "letters": letters}
        word = ways.get(style.wedge, f"{club['loft']}° wedge")
    elif style.wood == "short" and name != "putter":
        word = "DR" if name == "driver" else f"{name[0]}{name[2].upper()}"
    else:
        word = name
    return word[:1].upper() + word[1:] if style.capital else word


def _inches(value: float, style: _Style) -> str:
    whole, rest = int(value), value - int(value)
    if style.fractions and rest:
        return f"{whole} {_FRACTIONS[rest]}{style.inch}"
    return f"{value:g}{style.inch}"


def _parts(club: Club, style: _Style) -> list[str]:
    """What stands behind the club's name: head and loft, then what else is told of it."""
    by_loft = club["club"] == "wedge" and style.wedge in ("short", "lofted")
    loft = f" {club['loft']:g}{style.degree}" if "loft" in club and not by_loft else ""
    parts = [club["head"] + loft]
    if "bounce" in club:
        parts.append(f"{club['bounce']} bounce")
    if "shaft" in club:
        flex = _FLEXES[club["flex"]] if style.flex_words else club["flex"]
        parts.append(f"{club['shaft']} {club['mass']}{style.gram} {flex}")
    if "len" in club:
        parts.append(_inches(club["len"], style))
    if "len+" in club:
        parts.append(f'{_FRACTIONS[abs(club["len+"])]}" {"long" if club["len+"] > 0 else "short"}')
    if "lie+" in club:
        parts.append(f"{abs(club['lie+'])}° {'upright' if club['lie+'] > 0 else 'flat'}")
    return parts


_ROWS: dict[str, Callable[[str, list[str]], str]] = {
    "commas": lambda label, parts: f"{label}, " + ", ".join(parts),
    "colons": lambda label, parts: f"{label}: " + ", ".join(parts),
    "slashes": lambda label, parts: f"{label} " + " / ".join(parts),
    "dashes": lambda label, parts: f"{label} - " + " - ".join(parts),
    "bars": lambda label, parts: f"{label} | " + " | ".join(parts),
    "columns": lambda label, parts: f"{label:<16}" + "   ".join(f"{part:<18}" for part in parts).rstrip(),
    "lines": lambda label, parts: f"{label}\n" + "".join(f"  {part}\n" for part in parts),
}
LAYOUTS = sorted(_ROWS)


def rows(clubs: list[Club], layout: str, random: Random) -> str:
    """The set as a list in one of the layouts, one club after another."""
    style = _style(random)
    bullet = random.choice(["", "", "- ", "* "]) if layout != "lines" else ""
    return "\n".join(bullet + _ROWS[layout](_label(club, style), _parts(club, style)) for club in clubs) + "\n"


# ------------------------------------------------------------------------------------------------- lines about groups


def about_groups(clubs: list[Club], random: Random) -> Told:
    """The set as a list whose shafts, grips and bends are told below it for whole groups, under a heading."""
    heading, foot = random.choice(_SAID["headings"]), random.choice(_SAID["foots"])
    below, meant = [], [dict(club) for club in clubs]
    irons = next(club for club in meant if club["club"] == "irons")
    if random.random() < 0.5:
        bent = random.choice(_SAID["iron_lines"])
        below.append(bent["line"])
        for key in ("len+", "lie+"):
            irons.pop(key, None)
        listed = [dict(club) for club in meant]
        irons.update(bent["means"])
    else:
        listed = [dict(club) for club in meant]
    if random.random() < 0.5:
        driver = meant[0]
        hybrids = any("hybrid" in club["club"] for club in meant)
        for club in meant:
            if club.get("shaft") == driver["shaft"]:
                club["mass"] = driver["mass"]
        words = {"woods": "woods and hybrids" if hybrids else "woods", "shaft": driver["shaft"], "mass": driver["mass"]}
        words |= {
            "flex": driver["flex"],
            "said": _FLEXES[driver["flex"]],
            "steel": irons["shaft"],
            "grams": irons["mass"],
        }
        words["Woods"] = words["woods"].capitalize()
        below.append(random.choice(_SAID["shaft_lines"]).format(**words))
        listed = [
            {key: value for key, value in club.items() if key not in ("shaft", "mass", "flex")} for club in listed
        ]
    if random.random() < 0.5:
        own = random.random() < 0.5
        line = random.choice(_SAID["grip_lines_with_putter" if own else "grip_lines"])
        grip = random.choice(_SAID["grips"])
        below.append(line.format(grip=grip))
        for club in meant:
            if club["club"] != "putter" or own:
                club["grip"] = "Felloe" if club["club"] == "putter" else grip
    text = rows(listed, random.choice(["commas", "colons", "slashes", "dashes", "bars"]), random)
    text = "\n".join([heading["line"], text.rstrip("\n"), *below, foot["line"]]) + "\n"
    facts = " ".join(_FACTS[fact] for fact in heading["tells"])
    return Told(text, (f"set: {facts}\n" if facts else "") + expected(meant) + f"{foot['expected']}\n")


# ------------------------------------------------------------------------------------------------------------- talk


def _spoken(value: float) -> str:
    whole, rest = int(value), value - int(value)
    if whole >= 100:
        said = (
            "one hundred"
            if whole == 100
            else f"one oh {_ONES[whole - 100]}"
            if whole < 110
            else f"one {_spoken(whole - 100)}"
        )
    else:
        said = _ONES[whole] if whole < 20 else _TENS[whole // 10] + (f"-{_ONES[whole % 10]}" if whole % 10 else "")
    return said + {0: "", 0.25: " and a quarter", 0.5: " and a half", 0.75: " and three quarters"}[rest]


def talk(clubs: list[Club], random: Random) -> Told:
    """The set as somebody talks about it: in running text, line by line, or with the time before each sentence."""
    number = _spoken if random.random() < 0.5 else _figure
    meant = [{key: value for key, value in club.items() if key != "bounce"} for club in clubs]

    def say(what: str, club: Club, **words: Any) -> str:
        shaft = {key: club.get(key, "") for key in ("head", "shaft")}
        shaft |= {"mass": number(club["mass"]), "flex": _FLEXES[club["flex"]]} if "mass" in club else {}
        return random.choice(_SAID["talk"][what]).format(**{**shaft, **words})

    driver, irons, putter = meant[0], next(club for club in meant if club["club"] == "irons"), meant[-1]
    length = f", {number(driver['len'])} inches" if "len" in driver else ""
    said = [say("driver", driver, loft=number(driver["loft"]), length=length)]
    for kind in ("wood", "hybrid"):
        some = [club for club in meant if club["club"].endswith(f" {kind}")]
        words = dict(zip(("one", "two"), (number(int(club["club"][0])) for club in some), strict=False))
        words |= dict(zip(("first", "second"), (number(club["loft"]) for club in some), strict=False))
        if some:
            said.append(say("two" if len(some) == 2 else "one", some[0], kind=kind, **words))
    change = ""
    if "lie+" in irons:
        degrees = "degree" if abs(irons["lie+"]) == 1 else "degrees"
        change += f", {number(abs(irons['lie+']))} {degrees} {'upright' if irons['lie+'] > 0 else 'flat'}"
    if "len+" in irons:
        inch = "half an inch" if abs(irons["len+"]) == 0.5 else "a quarter inch"
        change += f"{' and' if change else ','} {inch} {'long' if irons['len+'] > 0 else 'short'}"
    high = "pitching wedge" if irons["to"] == "PW" else number(9)
    said.append(say("irons", irons, low=number(irons["from"]), high=high, change=change))
    wedges = [club for club in meant if club["club"] == "wedge"]
    lofts = [number(club["loft"]) for club in wedges]
    said.append(say("wedges", wedges[0], lofts=", ".join(lofts[:-1]) + " and " + lofts[-1], count=_spoken(len(lofts))))
    said.append(say("putter", putter, length=number(putter["len"])))
    way = random.choice(["running", "lines", "timed"])
    if way == "timed":
        text = "\n".join(f"[{at * 7 // 60}:{at * 7 % 60:02d}] {sentence}" for at, sentence in enumerate(said))
    else:
        text = (" " if way == "running" else "\n").join(said)
    return Told(text + "\n", expected(meant))
