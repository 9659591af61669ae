"""Sets to be told: one club, fourteen, twenty, a hostile one. Parts, players and figures are invented."""

from __future__ import annotations

from html.parser import HTMLParser
from types import SimpleNamespace

import pytest

from asplayed.clubs import (
    AsPlayed,
    Ball,
    Bend,
    Club,
    GolfSet,
    Grip,
    Head,
    Passage,
    PutterParts,
    Question,
    SetFacts,
    Shaft,
    Sleeve,
    Weight,
)
from asplayed.quantities import Figure, Source, derive, figure

# club, kind, loft, lie, length, head mass, shaft mass, bounce
BAG = (
    ("driver", "driver", 10.5, 58, 44.75, 200, 65, None),
    ("3 wood", "fairway wood", 15, 57.5, 43, 212, 72, None),
    ("7 wood", "fairway wood", 21, 58.5, 42, 225, 75, None),
    ("4 hybrid", "hybrid", 22, 58.75, 40, 236, 85, None),
    ("5 iron", "iron", 24.5, 61.25, 38, 255, 120, 4),
    ("6 iron", "iron", 28, 61.75, 37.5, 262, 120, 4),
    ("7 iron", "iron", 32, 62.25, 37, 269, 120, 5),
    ("8 iron", "iron", 36.5, 62.75, 36.5, 276, 120, 6),
    ("9 iron", "iron", 41, 63.25, 36, 283, 120, 7),
    ("pitching wedge", "iron", 46, 63.75, 35.8125, 289, 120, 8),
    ("gap wedge", "wedge", 52, 64, 35.5, 296, 125, 8),
    ("sand wedge", "wedge", 56, 64, 35.25, 301, 125, 12),
    ("lob wedge", "wedge", 60, 64, 34.88, 302, 125, 9),
    ("putter", "putter", 3, 70.5, 34, 355, 110, None),
)
EXTRA = (
    ("mini driver", "driver", 12.5, 58, 43.75, 207, 65, None),
    ("5 wood", "fairway wood", 18, 58, 42.5, 219, 72, None),
    ("2 driving iron", "driving iron", 18, 59.75, 39.5, 235, 95, 3),
    ("3 iron", "iron", 20, 60.25, 39, 241, 120, 3),
    ("4 iron", "iron", 22, 60.75, 38.5, 248, 120, 3),
    ("lob wedge", "wedge", 62, 64, 34.75, 303, 125, 6),
)


def stated(value: float, unit: str, tolerance: float | None = None) -> Figure:
    return figure(value, unit, "stated", tolerance=tolerance)


def made_club(line: int, row: tuple) -> Club:
    name, kind, loft, lie, length, head, shaft, bounce = row
    stamp = stated(loft, "deg", 1)
    bent = name in {"sand wedge", "gap wedge"}
    bend = figure(1, "deg", "stated", tolerance=0.25) if bent else None
    played_loft = (
        derive(lambda stamped_loft, bend: stamped_loft + bend, "deg", "stamped loft plus bend",
               stamped_loft=stamp, bend=bend)
        if bend else stamp
    )  # fmt: skip
    head_mass = figure(head, "g", "published", tolerance=2, why="Harrowmere sheet of 2024-03")
    shaft_mass = stated(shaft, "g", 2)
    grip_mass = figure(50, "g", "common practice", tolerance=3, why="usual grip")
    built = figure(length, "in", "measured", tolerance=1 / 16)
    whole = derive(lambda **parts: sum(parts.values()), "g", "the parts together",
                   head_mass=head_mass, shaft_mass=shaft_mass, grip_mass=grip_mass)  # fmt: skip
    inertia = derive(lambda mass, length: 0.75 * mass * length**2, "kg*cm2", "from parts", mass=whole, length=built)
    return Club(
        lines=(line,),
        club=name,
        kind=kind,
        head=Head(name="Kittiwake", maker="Harrowmere", model="Kittiwake", loft=stamp, mass=head_mass,
                  bounce=None if bounce is None else stated(bounce, "deg", 1)),
        sleeve=Sleeve(position="upright", loft_change=stated(-0.75, "deg", 0.25), lie_change=stated(1.5, "deg"))
        if kind == "driver" else None,
        weights=(Weight(place="toe", mass=stated(8, "g")),) if kind == "driver" else (),
        bend=Bend(loft=bend),
        shaft=Shaft(name="Lindrake 65 TX", maker="Lindrake", model="Fulmar", flex="TX", mass=shaft_mass,
                    torque=figure(3.1, "deg", "published")),
        grip=Grip(name="Tessary", mass=grip_mass, wraps=2),
        length=built,
        putter=PutterParts(neck="plumber's", toe_hang=stated(30, "deg", 5)) if kind == "putter" else None,
        as_played=AsPlayed(
            loft=played_loft,
            lie=figure(lie, "deg", "common practice", tolerance=1, why="usual lie"),
            face=figure(-0.5, "deg", "assumed", tolerance=1.5, why="nobody gauged it") if kind == "driver" else None,
            bounce=None if bounce is None else stated(bounce, "deg", 1),
            length=built,
            mass=whole,
            balance_point=figure(31.2, "in", "computed", tolerance=0.3),
            swing_weight=Figure("D2.4", "1", Source.COMPUTED, low=30.9, high=33.9, parents=whole.parents),
            butt_inertia=inertia,
            frequency=figure(255, "cpm", "computed", tolerance=6, why="clamped over 5 in"),
        ),
    )  # fmt: skip


def made_set(rows: tuple, **facts: object) -> GolfSet:
    told = {"title": "Tessler before the Ravelin Cup", "player": "Jonas Tessler", "hand_source": "stated",
            "event": "Ravelin Cup", "date": "2026-10-04"} | facts  # fmt: skip
    return GolfSet(
        set=SetFacts(**told),
        clubs=tuple(made_club(line, row) for line, row in enumerate(rows, start=1)),
        ball=Ball(name="Velloran soft", colour="yellow"),
        aside=(Passage(line=17, text="old Gannet 4 iron, spare", club="4 iron"),),
        notes=(Passage(line=18, text="tipped 1 inch", club="driver"),),
        not_understood=(Passage(line=20, text="mind the dog"),),
        questions=(
            Question(line=3, club="7 wood", about="shaft.flex", text="Which flex is the 7 wood’s shaft?",
                     answers=("S", "TX")),
        ),
    )  # fmt: skip


@pytest.fixture
def fourteen() -> GolfSet:
    return made_set(BAG)


@pytest.fixture
def twenty() -> GolfSet:
    return made_set((BAG[0], *EXTRA[:2], *BAG[1:4], *EXTRA[2:5], *BAG[4:13], EXTRA[5], BAG[13]))


@pytest.fixture
def one() -> GolfSet:
    return made_set((BAG[11],), title=None, hand="left")


@pytest.fixture
def left_handed() -> GolfSet:
    return made_set(BAG, hand="left", player="Mireille Okafor", title=None)


@pytest.fixture
def bare() -> GolfSet:
    """Clubs of which nothing is known but their names."""
    return GolfSet(clubs=(Club(club="driver", kind="driver"), Club(club="7 iron", kind="iron"),
                          Club(club="putter", kind="putter")))  # fmt: skip


MARKUP = '<script>alert(1)</script><img src="http://example.invalid/x" onerror=alert(1)>"\'&lt;'
RIGHT_TO_LEFT = "\u202eمحمد علي \u05d3\u05d5\u05d3"


@pytest.fixture
def hostile() -> GolfSet:
    """Words that would break out of a page, run the wrong way or never end."""
    long = "Ada" * 67
    clubs = (
        Club(club=MARKUP, kind="driver", head=Head(name=MARKUP), shaft=Shaft(name=MARKUP, flex=MARKUP),
             as_played=AsPlayed(loft=figure(10.5, "deg", "stated", why=MARKUP),
                                swing_weight=figure(MARKUP, "1", "stated"))),
        Club(club=long, kind="iron", head=Head(name=long), shaft=Shaft(name=long)),
        Club(club=RIGHT_TO_LEFT, kind="wedge", head=Head(name=RIGHT_TO_LEFT)),
        Club(club="\x00\x1b[31mred\ud800", kind="putter"),
    )  # fmt: skip
    return GolfSet(
        set=SetFacts(title=MARKUP, player=long, event=RIGHT_TO_LEFT, date=MARKUP),
        clubs=clubs,
        ball=Ball(name=MARKUP, colour=RIGHT_TO_LEFT),
        not_understood=(Passage(line=1, text=MARKUP + "\x00"),),
        questions=(Question(line=None, club=MARKUP, about=MARKUP, text=MARKUP, answers=(MARKUP,)),),
    )


@pytest.fixture
def findings() -> tuple[SimpleNamespace, ...]:
    return (
        SimpleNamespace(code="loft-hole", level="flaw", clubs=("pitching wedge", "gap wedge"),
                        sentence="7° lie between pitching wedge and gap wedge.",
                        why="A full swing has nothing for the yards between them.",
                        remedy="Bend the gap wedge 1° strong, or the pitching wedge 1° weak.",
                        figures={"step": figure(7, "deg", "computed", tolerance=1.1)},
                        source="common practice: 4° to 6° between wedges"),
        SimpleNamespace(code="clubs", level="note", clubs=(), sentence="14 clubs.", why="", remedy="", figures={},
                        source="Rules of Golf, rule 4.1b"),
    )  # fmt: skip


class Page(HTMLParser):
    """A page taken apart: every element with its attributes and the text in it; elements must nest."""

    void = frozenset({"meta", "link", "img", "br", "hr", "input"})

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None], list[str]]] = []
        self.open: list[int] = []
        self.faults: list[str] = []
        self.feed(text)
        self.close()
        self.faults += [f"{self.elements[place][0]} is never closed" for place in self.open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), []))
        if tag not in self.void:
            self.open.append(len(self.elements) - 1)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), []))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.elements[self.open[-1]][0] != tag:
            self.faults.append(f"</{tag}> closes nothing")
            return
        self.open.pop()

    def handle_data(self, data: str) -> None:
        for place in self.open:
            self.elements[place][2].append(data)

    def text(self, tag: str) -> list[str]:
        """The text of every element of a tag, white space made single."""
        return [" ".join("".join(words).split()) for name, _, words in self.elements if name == tag]

    def text_of(self, identity: str) -> str:
        """The text of the element with an id."""
        return next(
            " ".join("".join(words).split()) for _, attrs, words in self.elements if attrs.get("id") == identity
        )


@pytest.fixture
def page() -> type[Page]:
    return Page
