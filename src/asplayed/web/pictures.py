"""Pictures: flights from the side, carries with their spreads from above, progressions and heads; as on the sheets.

The drawings are those of the sheets; behind each stands a table of its figures, and a script points one club out in
all of them at once, by pointer or by keyboard.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.quantities import Figure
from asplayed.web.kit import Here, Page, Tab, Units, page, shown
from asplayed.web.showing import figure_shown, rounded

if TYPE_CHECKING:
    from asplayed.players.flown import FlownClub, FlownSet

set_tab = Tab("Pictures", "/sets/{name}/pictures", "p")

# The figures behind each drawing: the heading of the column, and the field of a flown club.
_ABOVE = {
    "carry": "carry", "total": "total", "side, + right": "side", "spread along": "depth", "spread across": "width",
}  # fmt: skip
_SIDE = {
    "carry": "carry", "highest": "apex", "comes down at": "descent", "time": "time", "launch": "launch",
    "ball speed": "ball_speed", "spin": "spin",
}  # fmt: skip
_TITLES = {
    "from-above": "The ladder of carries with their spreads, from above",
    "from-the-side": "Flights from the side",
    "heads": "Heads as made and as played",
    "progressions": "Progressions: the set as played, through the bag",
}


class Cell(NamedTuple):
    """One figure of a table, and the name under which its derivation is found; nothing where it has none."""

    figure: Figure | None
    name: str = ""


class Drawn(NamedTuple):
    """A picture on the page: its anchor, its drawing, and the figures it was drawn from, a row a club."""

    anchor: str
    svg: str
    rows: dict[str, dict[str, Cell]]

    @property
    def title(self) -> str:
        """What stands over it."""
        return _TITLES[self.anchor]

    @property
    def columns(self) -> list[str]:
        """The headings of its table."""
        return list(next(iter(self.rows.values()), {}))


@shown("/sets/{name:str}/pictures")
def pictures(here: Here, name: str) -> Page:
    """The set in pictures."""
    from asplayed.clubs.names import labels
    from asplayed.telling.words import value_text

    seen = here.app.known.bag(name).seen
    golf_set = seen.golf_set
    flown = seen.flown if seen.flown.clubs else None
    named = dict(zip(labels(golf_set.clubs), golf_set.clubs, strict=True))
    flights = {each.label: each for each in flown.clubs} if flown is not None else {}
    return page(
        here,
        "pictures.html",
        set_name=name,
        whose=golf_set.set.player or name,
        clubs=[(label, _told(here, club, flights.get(label))) for label, club in named.items()],
        drawings=_drawings(golf_set, named, flown, here.preferences.units),
        assumed=flown.assumed if flown is not None else (),
        speed=value_text(flown.skill.driver_speed) if flown is not None else "",
    )


def _drawings(golf_set: GolfSet, named: dict[str, Club], flown: FlownSet | None, units: Units) -> list[Drawn]:
    from asplayed.telling.drawing import drawn_set
    from asplayed.telling.pictures import METRES, YARDS
    from asplayed.telling.pictures import pictures as drawn

    ruled = METRES if units == "metric" else YARDS
    clubs = sorted(flown.clubs, key=lambda each: -each.carry.number) if flown is not None else ()
    behind = {
        "from-above": _flights(clubs, _ABOVE, units),
        "from-the-side": _flights(clubs, _SIDE, units),
        "heads": {label: _head(club) for label, club in named.items()},
    }
    anchors = [(each.name.removesuffix(".svg"), each.svg) for each in drawn(golf_set, flown, colours={}, ruled=ruled)]
    found = [Drawn(anchor, svg, behind[anchor]) for anchor, svg in anchors]
    through_the_bag = {label: _progressing(club) for label, club in named.items()}
    return [*found, Drawn("progressions", drawn_set(golf_set, lengths=ruled.lengths), through_the_bag)]


def _flights(clubs: Sequence[FlownClub], columns: dict[str, str], units: Units) -> dict[str, dict[str, Cell]]:
    return {
        club.label: {heading: Cell(rounded(getattr(club, field), units)) for heading, field in columns.items()}
        for club in clubs
    }


def _head(club: Club) -> dict[str, Cell]:
    played = club.as_played
    return {
        "loft as made": Cell(club.head.loft),
        "loft as played": Cell(played.loft, "loft"),
        "bounce as made": Cell(club.head.bounce),
        "bounce as played": Cell(played.bounce, "bounce"),
        "face": Cell(played.face, "face"),
        "toe hang": Cell(played.toe_hang or (club.putter.toe_hang if club.putter else None)),
    }


def _progressing(club: Club) -> dict[str, Cell]:
    from asplayed.clubs.usual import usual

    played = club.as_played
    return {
        "loft": Cell(played.loft, "loft"),
        "usual loft": Cell(usual(club, "loft")),
        "lie": Cell(played.lie, "lie"),
        "length": Cell(played.length, "length"),
        "usual length": Cell(usual(club, "length")),
        "mass": Cell(played.mass, "mass"),
        "head mass": Cell(club.head.mass),
        "usual head mass": Cell(usual(club, "head")),
    }


def _told(here: Here, club: Club, flight: FlownClub | None) -> str:
    """A club and its flight in one sentence, for who points at it."""
    from asplayed.telling.words import value_text

    units = here.preferences.units

    def value(figure: Figure | None) -> str:
        return figure_shown(figure, units).value

    def flown(figure: Figure) -> str:
        return value_text(rounded(figure, units))

    played = club.as_played
    told = f"loft {value(played.loft)}, lie {value(played.lie)}, length {value(played.length)}"
    if flight is None:
        return told
    return (
        f"{told}; carries {flown(flight.carry)}, climbs {flown(flight.apex)}, comes down at {flown(flight.descent)}; "
        f"single shots spread {flown(flight.depth)} along and {flown(flight.width)} across"
    )


routes = (pictures,)
