"""Pictures: flights from the side, carries with their spreads from above, progressions and heads; as on the sheets.

The drawings are those of the sheets; behind each stands a table of its figures, and a script points one club out in
all of them at once, by pointer or by keyboard.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.quantities import Figure
from asplayed.web.kit import Here, Page, Tab, page, shown
from asplayed.web.showing import figure_shown

if TYPE_CHECKING:
    from asplayed.players.flown import FlownClub, FlownSet

set_tab = Tab("Pictures", "/sets/{name}/pictures", "p")


class Cell(NamedTuple):
    """One figure of a table, and the name under which its derivation is found; nothing where it has none."""

    figure: Figure | None
    name: str = ""


class Drawn(NamedTuple):
    """A picture on the page: its anchor, its title, its drawing, and the figures it was drawn from."""

    anchor: str
    title: str
    svg: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, tuple[Cell, ...]], ...]


@shown("/sets/{name:str}/pictures")
def pictures(here: Here, name: str) -> Page:
    """The set in pictures."""
    from asplayed.clubs import played_set
    from asplayed.clubs.names import labels
    from asplayed.keeping import read_set
    from asplayed.telling.words import value_text

    golf_set = played_set(read_set(name, here.store).golf_set)
    flown = _flown(here, name, golf_set)
    names = labels(golf_set.clubs)
    clubs = [(label, _told(here, club)) for label, club in zip(names, golf_set.clubs, strict=True)]
    if flown is not None:
        found = {each.label: each for each in flown.clubs}
        clubs = [(label, f"{told}; {_flight_told(here, found[label])}" if label in found else told) for label, told in clubs]
    swing = value_text(flown.skill.driver_speed) if flown is not None and flown.skill.driver_speed else ""
    drawings = [*_drawn_flown(golf_set, flown), _drawn_set(golf_set, names)]
    return page(
        here,
        "pictures.html",
        set_name=name,
        clubs=clubs,
        drawings=drawings,
        assumed=flown.assumed if flown is not None else (),
        swing=swing,
    )


def _flown(here: Here, name: str, golf_set: GolfSet) -> FlownSet | None:
    """The set in its player's hands; None where it holds nothing but putters."""
    from asplayed.keeping.shots import stored_player, stored_sessions
    from asplayed.players.flying import fly_set
    from asplayed.players.records import player_of

    if all(club.kind == "putter" for club in golf_set.clubs):
        return None
    player = stored_player(name, here.store) or player_of(golf_set)
    return fly_set(golf_set, player, stored_sessions(name, here.store))


def _drawn_flown(golf_set: GolfSet, flown: FlownSet | None) -> list[Drawn]:
    from asplayed.telling.pictures import pictures as drawn

    found = []
    for each in drawn(golf_set, flown, colours={}):
        anchor = each.name.removesuffix(".svg")
        title, columns, cells = _BEHIND[anchor]
        if anchor == "heads" or flown is None:
            found.append(Drawn(anchor, title, each.svg, *_heads_table(golf_set)))
            continue
        clubs = sorted(flown.clubs, key=lambda club: -club.carry.number)
        found.append(Drawn(anchor, title, each.svg, columns, tuple((club.label, cells(club)) for club in clubs)))
    return found


def _drawn_set(golf_set: GolfSet, names: list[str]) -> Drawn:
    from asplayed.clubs.usual import usual
    from asplayed.telling.drawing import drawn_set

    columns = ("loft", "usual loft", "lie", "length", "usual length", "mass", "head mass", "usual head mass")
    rows = []
    for label, club in zip(names, golf_set.clubs, strict=True):
        played = club.as_played
        cells = (
            Cell(played.loft, "loft"), Cell(usual(club, "loft")), Cell(played.lie, "lie"),
            Cell(played.length, "length"), Cell(usual(club, "length")), Cell(played.mass, "mass"),
            Cell(club.head.mass), Cell(usual(club, "head")),
        )  # fmt: skip
        rows.append((label, cells))
    return Drawn("progressions", "Progressions: the set as played, through the bag", drawn_set(golf_set), columns, tuple(rows))


def _heads_table(golf_set: GolfSet) -> tuple[tuple[str, ...], tuple[tuple[str, tuple[Cell, ...]], ...]]:
    from asplayed.clubs.names import labels

    rows = []
    for label, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True):
        played = club.as_played
        hang = played.toe_hang or (club.putter.toe_hang if club.putter else None)
        cells = (
            Cell(club.head.loft), Cell(played.loft, "loft"), Cell(club.head.bounce), Cell(played.bounce, "bounce"),
            Cell(played.face, "face"), Cell(hang),
        )  # fmt: skip
        rows.append((label, cells))
    return ("loft as made", "loft as played", "bounce as made", "bounce as played", "face", "toe hang"), tuple(rows)


def _side(club: FlownClub) -> tuple[Cell, ...]:
    return tuple(Cell(each) for each in (club.carry, club.apex, club.descent, club.time, club.launch, club.ball_speed, club.spin))


def _above(club: FlownClub) -> tuple[Cell, ...]:
    return tuple(Cell(each) for each in (club.carry, club.total, club.side, club.depth, club.width))


_BEHIND: dict[str, tuple[str, tuple[str, ...], Callable[[FlownClub], tuple[Cell, ...]]]] = {
    "from-above": (
        "The ladder of carries with their spreads, from above",
        ("carry", "total", "side, + right", "spread along", "spread across"),
        _above,
    ),
    "from-the-side": (
        "Flights from the side",
        ("carry", "highest", "comes down at", "time", "launch", "ball speed", "spin"),
        _side,
    ),
    "heads": ("Heads as made and as played", (), lambda club: ()),
}


def _told(here: Here, club: Club) -> str:
    """A club as played, in a few words."""
    played, units = club.as_played, here.preferences.units
    parts = [
        f"{words} {found.value}"
        for words, figure in (("loft", played.loft), ("lie", played.lie), ("length", played.length))
        if (found := figure_shown(figure, units)).mark
    ]
    return ", ".join(parts) or "not known"


def _flight_told(here: Here, club: FlownClub) -> str:
    units = here.preferences.units
    carry, apex, descent, depth, width = (
        figure_shown(each, units).value for each in (club.carry, club.apex, club.descent, club.depth, club.width)
    )
    return f"carries {carry}, climbs {apex}, comes down at {descent}; single shots spread {depth} along and {width} across"


routes = (pictures,)
