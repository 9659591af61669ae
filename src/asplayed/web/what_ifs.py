"""What-if: anything changed by key or slider, and club, flight, gaps, findings and strokes beside today's at once.

The changes are lines in trade notation; a slider writes such a line. They stand in the page's address, the pinned
candidates too, so that a page loaded anew shows what it showed.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import msgspec

from asplayed.errors import BadInput
from asplayed.quantities import Figure
from asplayed.web.kit import Form, Here, Page, Tab, asked, done, page, shown
from asplayed.web.known import QUICK, SHOTS

if TYPE_CHECKING:
    from asplayed.choosing.what_if import Seen, WhatIf
    from asplayed.players.flown import FlownClub
    from asplayed.web.known import Bag

set_tab = Tab("What-if", "/sets/{name}/try", "w")
MOST_CHANGES, MOST_PINS = 40, 4


class Slider(NamedTuple):
    """One slider: its words, its ends and step, and the line of change it writes either way of nought.

    `{club}` in a line is the club in hand, `{n}` the amount. `rest` is where it changes nothing.
    """

    id: str
    words: str
    least: float
    most: float
    step: float
    unit: str
    more: str
    less: str
    rest: float = 0.0


CLUB_SLIDERS = (
    Slider("loft", "Bend the loft", -4, 4, 0.25, "°", "{club}: bend {n} weak", "{club}: bend {n} strong"),
    Slider("lie", "Bend the lie", -4, 4, 0.25, "°", "{club}: bend {n} upright", "{club}: bend {n} flat"),
    Slider("length", "Length", -1.5, 1.5, 0.125, "in", "{club}: {n} in longer", "{club}: {n} in shorter"),
    Slider("sleeve", "Turn the sleeve", -4, 4, 1, "positions", "{club}: sleeve {n} positions up",
           "{club}: sleeve {n} positions down"),
    Slider("head", "Mass at the head", 0, 12, 0.5, "g", "{club}: add {n} g at head", ""),
    Slider("butt", "Counterweight", 0, 40, 1, "g", "{club}: counterweight {n} g", ""),
)  # fmt: skip
AIR_SLIDERS: dict[str, tuple[Slider, ...]] = {
    "imperial": (
        Slider("air", "Temperature", 30, 110, 1, "°F", "air: {n} degF", "air: {n} degF", 70),
        Slider("along", "Wind along, tail +", -30, 30, 1, "mph", "wind: {n} mph tail", "wind: {n} mph head"),
        Slider("across", "Wind across, to the right +", -30, 30, 1, "mph", "wind: {n} mph from the left",
               "wind: {n} mph from the right"),
        Slider("altitude", "Height above the sea", 0, 9000, 100, "ft", "altitude: {n} ft", ""),
    ),
    "metric": (
        Slider("air", "Temperature", 0, 45, 1, "°C", "air: {n} degC", "air: {n} degC", 21),
        Slider("along", "Wind along, tail +", -14, 14, 0.5, "m/s", "wind: {n} m/s tail", "wind: {n} m/s head"),
        Slider("across", "Wind across, to the right +", -14, 14, 0.5, "m/s", "wind: {n} m/s from the left",
               "wind: {n} m/s from the right"),
        Slider("altitude", "Height above the sea", 0, 3000, 50, "m", "altitude: {n} m", ""),
    ),
}  # fmt: skip

# What the table sets beside one another: the field, its heading, digits after the point.
CLUB_FIELDS = (("loft", "Loft", 1), ("lie", "Lie", 1), ("length", "Length", 2), ("swing_weight", "Swing weight", 0))
FLIGHT_FIELDS = (("carry", "Carry", 1), ("total", "Total", 1), ("apex", "Height", 1), ("descent", "Descent", 1),
                 ("width", "Width", 1))  # fmt: skip


class Pair(NamedTuple):
    """One figure today and as it would be, and by how much it changes; the two alike where nothing does."""

    before: str
    after: str
    by: str


class Beside(NamedTuple):
    """One club, today and as it would be."""

    label: str
    pairs: tuple[Pair, ...]


class Tried(NamedTuple):
    """One what-if as the page shows it."""

    changes: tuple[str, ...]
    answer: WhatIf
    rows: tuple[Beside, ...]
    strokes: Pair
    fault: str = ""


# ------------------------------------------------------------------------------------------------------- the what-if


def try_out(
    here: Here,
    name: str,
    changes: Sequence[str],
    *,
    speed: str | None = None,
    handicap: str | None = None,
    local_rules: Sequence[str] = (),
    shots: int = SHOTS,
) -> WhatIf:
    """The what-if that these lines tell of, for the stored player or one with this speed or handicap."""
    from asplayed.choosing.what_if import air_asked, what_if
    from asplayed.intake.changes import LONGEST, read_changes
    from asplayed.players.records import player_figure

    if len(changes) > MOST_CHANGES:
        raise BadInput(f"{len(changes)} changes are more than a what-if takes; it takes {MOST_CHANGES}")
    if any(len(line) > LONGEST for line in changes):
        raise BadInput(f"a change goes on for more than {LONGEST} characters; write one change a line")
    bag = here.app.known.bag(name)
    said = {"driver_speed": speed, "handicap": handicap}
    told = {field: player_figure(field, value) for field, value in said.items() if value}
    player = msgspec.structs.replace(bag.player, **told) if told else bag.player
    conditions, about_clubs = air_asked(changes)
    return what_if(
        bag.golf_set,
        read_changes(about_clubs, bag.golf_set, bag.parts),
        parts=bag.catalogue,
        player=player,
        sessions=bag.sessions,
        conditions=conditions,
        local_rules=local_rules,
        shots=shots,
        before=here.app.known.seen(bag, player, tuple(local_rules), shots),
    )


def tried(here: Here, name: str, changes: Sequence[str], speed: str, handicap: str) -> Tried | str:
    """A what-if for the page, or the sentence that says why there is none."""
    try:
        answer = try_out(here, name, changes, speed=_with_unit(speed, "mph"), handicap=handicap or None, shots=QUICK)
    except BadInput as fault:
        return str(fault)
    units = here.preferences.units
    return Tried(
        tuple(changes),
        answer,
        tuple(_rows(answer, units)),
        _pair(answer.before.strokes, answer.after.strokes, 2, units),
    )


def _with_unit(text: str, unit: str) -> str | None:
    """A number from a field whose label names the unit, as a quantity."""
    text = text.strip()
    return None if not text else text if any(letter.isalpha() for letter in text) else f"{text} {unit}"


def _rows(answer: WhatIf, units: Any) -> list[Beside]:
    from asplayed.clubs.names import labels

    sides = []
    for seen in (answer.before, answer.after):
        named = dict(zip(labels(seen.golf_set.clubs), seen.golf_set.clubs, strict=True))
        flown = {each.label: each for each in seen.flown.clubs}
        sides.append((named, flown, _gaps(seen)))
    found = []
    for label in dict.fromkeys([*sides[0][0], *sides[1][0]]):
        pairs = []
        for field, _, places in CLUB_FIELDS:
            figures = [getattr(side[0][label].as_played, field) if label in side[0] else None for side in sides]
            pairs.append(_pair(figures[0], figures[1], places, units))
        for field, _, places in FLIGHT_FIELDS:
            figures = [getattr(side[1][label], field) if label in side[1] else None for side in sides]
            pairs.append(_pair(figures[0], figures[1], places, units))
        pairs.append(_pair(sides[0][2].get(label), sides[1][2].get(label), 1, units))
        found.append(Beside(label, tuple(pairs)))
    return found


def _gaps(seen: Seen) -> dict[str, Figure]:
    """How much farther each club carries than the next shorter one."""
    clubs: list[FlownClub] = sorted(seen.flown.clubs, key=lambda each: -each.carry.number)
    return {
        longer.label: Figure(
            value=longer.carry.number - shorter.carry.in_unit(longer.carry.unit).number,
            unit=longer.carry.unit,
            source=longer.carry.source,
        )
        for longer, shorter in itertools.pairwise(clubs)
    }


def _pair(before: Figure | None, after: Figure | None, places: int, units: Any) -> Pair:
    texts, numbers = [], []
    for entry in (before, after):
        turned = _turned(entry, units)
        texts.append(_text(turned, places))
        numbers.append(turned.number if turned is not None and turned.has_number else None)
    by = ""
    if numbers[0] is not None and numbers[1] is not None and texts[0] != texts[1]:
        by = f"{numbers[1] - numbers[0]:+.{max(places, 1)}f}".replace("-", "−")
    return Pair(texts[0], texts[1], by)


def _turned(entry: Figure | None, units: Any) -> Figure | None:
    from asplayed.web.showing import in_units

    return None if entry is None else in_units(entry, units)


def _text(entry: Figure | None, places: int) -> str:
    from asplayed.telling.words import MISSING, with_unit

    if entry is None or entry.value is None:
        return MISSING
    if not entry.has_number:
        return str(entry.value)
    return with_unit(f"{entry.number:.{places}f}".replace("-", "−"), entry.unit)


# ------------------------------------------------------------------------------------------------------------- pages


def lines_of(text: str) -> list[str]:
    """The changes written one a line."""
    return [" ".join(line.split()) for line in text.splitlines() if line.strip()]


@shown("/sets/{name:str}/try")
def what_if_page(
    here: Here,
    name: str,
    changes: str = "",
    speed: str = "",
    handicap: str = "",
    pin: list[str] | None = None,
) -> Page:
    """The what-if as its address tells it: the changes, the player, the pinned candidates."""
    from asplayed.clubs.names import labels

    bag = here.app.known.bag(name)
    pins = [tried(here, name, lines_of(each), speed, handicap) for each in (pin or [])[:MOST_PINS]]
    return page(
        here,
        "what-if.html",
        set_name=bag.name,
        bag=bag,
        clubs=[
            (label, club.sleeve is not None, club.kind)
            for label, club in zip(labels(bag.golf_set.clubs), bag.golf_set.clubs, strict=True)
        ],
        changes=changes,
        speed=speed or _speed(bag),
        known_speed=_speed(bag),
        handicap=handicap,
        club_sliders=CLUB_SLIDERS,
        air_sliders=AIR_SLIDERS[here.preferences.units],
        pins=list(zip((pin or [])[:MOST_PINS], pins, strict=True)),
        **_filled(tried(here, name, lines_of(changes), speed, handicap)),
    )


def _speed(bag: Bag) -> str:
    known = bag.seen.flown.skill.driver_speed
    return f"{known.in_unit('mph').number:.0f}" if known is not None else ""


def _filled(found: Tried | str) -> dict[str, Any]:
    """What the answer's part of the page is filled with."""
    headings = [heading for _, heading, _ in (*CLUB_FIELDS, *FLIGHT_FIELDS)]
    return {
        "tried": None if isinstance(found, str) else found,
        "fault": found if isinstance(found, str) else "",
        "headings": [*headings, "To the next"],
    }


def _asked_for(form: Form) -> tuple[list[str], str, str]:
    return lines_of(form.long_text("changes")), form.text("speed"), form.text("handicap")


@done("/sets/{name:str}/try/seen")
def seen(here: Here, name: str, form: Form) -> Page:
    """The answer alone, for the page whose sliders move."""
    changes, speed, handicap = _asked_for(form)
    return page(here, "what-if-seen.html", set_name=name, **_filled(tried(here, name, changes, speed, handicap)))


@done("/sets/{name:str}/try/pin")
def pinned(here: Here, name: str, form: Form) -> Page:
    """One candidate as it stands beside others."""
    changes, speed, handicap = _asked_for(form)
    found = tried(here, name, changes, speed, handicap)
    return page(here, "what-if-pin.html", set_name=name, text=form.long_text("changes"), pin=found)


@done("/sets/{name:str}/try/pictures")
def pictures(here: Here, name: str, form: Form) -> Page:
    """Carries and flights, today's and those of the what-if, drawn to one scale."""
    from asplayed.telling.pictures import METRES, YARDS, pictures_beside

    changes, speed, handicap = _asked_for(form)
    found = tried(here, name, changes, speed, handicap)
    drawn = []
    if not isinstance(found, str):
        before, after = found.answer.before, found.answer.after
        drawn = pictures_beside(
            before.golf_set,
            after.golf_set,
            (before.flown, after.flown),
            names=("today", "then"),
            colours={},
            ruled=METRES if here.preferences.units == "metric" else YARDS,
        )
    return page(here, "what-if-pictures.html", set_name=name, pictures=drawn)


# --------------------------------------------------------------------------------------------------------------- API


class Try(msgspec.Struct, frozen=True):
    """What is to be tried: changes in trade notation, air and wind among them, and whose hands it is in."""

    changes: tuple[str, ...]
    speed: str | None = None
    handicap: str | None = None
    local_rules: tuple[Literal["G-2", "G-10"], ...] = ()


class Answered(msgspec.Struct, frozen=True):
    """Today's set, the set as it would be, and what differs."""

    before: dict[str, Any]
    after: dict[str, Any]
    differences: tuple[dict[str, Any], ...]


@asked("/api/sets/{name:str}/try", method="POST", answers=Answered)
def api_try(here: Here, name: str, data: Try) -> dict[str, Any]:
    """A what-if beside today's set; nothing is stored."""
    from asplayed.choosing.what_if import as_plain

    return as_plain(
        try_out(here, name, data.changes, speed=data.speed, handicap=data.handicap, local_rules=data.local_rules)
    )


routes = (what_if_page, seen, pinned, pictures, api_try)
