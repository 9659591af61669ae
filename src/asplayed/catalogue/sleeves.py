"""Settling sleeves: the chart of the sleeve that fits a head, and what it says of a position."""

from __future__ import annotations

import re

import msgspec

from asplayed.catalogue.disputes import Notes, documents_of, fill, shown
from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.catalogue.rows import Rows, listed, numbers_of, suits, told_last, with_number
from asplayed.clubs.records import Club, Sleeve
from asplayed.errors import BadInput

_ANGLE = 0.11  # degrees by which a stated change may differ from the chart

_MARKS = str.maketrans("−–—＋", "---+")


def _mark(position: str) -> str:
    """A sleeve position for comparing: `p 3`, `P3` and `position P-3` are one; signs at the end count.

    >>> _mark("p 3"), _mark("u−")
    ('P3', 'U-')
    """
    text = position.translate(_MARKS).upper().replace("POSITION", "").replace("SETTING", "")
    return re.sub(r"(?<=[A-Z])-(?=\d)|[\s.:]", "", text)


def chart_of(club: Club, catalogue: Catalogue) -> Rows:
    """The positions of the sleeve that fits the club's settled head, as the latest document tells them.

    >>> row = Part(part="sleeve", model="Whimbrel", variant="N+")
    >>> from asplayed.clubs.records import Head
    >>> driver = Club(club="driver", kind="driver", head=Head(model="Whimbrel"))
    >>> [each.variant for each in chart_of(driver, Catalogue([row]))]
    ['N+']
    """
    model = (club.head.model or "").casefold()
    maker = (club.head.maker or "").casefold()
    if not model:
        return ()
    rows = (row for entry in catalogue.models if entry.part == "sleeve" for row in entry.rows)
    fitting = tuple(
        row
        for row in rows
        if suits(row, club)
        and (row.maker or "").casefold() in {maker, ""}
        and (row.model.casefold() == model or model in {_without(maker, fit) for fit in row.fits})
    )
    return told_last(fitting)[0]


def _without(maker: str, name: str) -> str:
    return name.casefold().removeprefix(f"{maker} ")


def refuse_off_chart(club: Club, catalogue: Catalogue) -> None:
    """Refuse a sleeve position that the chart of the club's sleeve, where one is entered, does not have."""
    position = club.sleeve.position if club.sleeve is not None else None
    names = tuple(row.variant for row in chart_of(club, catalogue) if row.variant)
    if position is not None and names and _mark(position) not in map(_mark, names):
        raise BadInput(f"the {club.club}'s sleeve has no position {position!r}; its chart has {listed(names)}")


def turned(club: Club, steps: int, catalogue: Catalogue) -> Sleeve:
    """The sleeve so many positions up (+, more loft) or down the chart, at the lie nearest to today's.

    Positions of one loft count once. Refused where there is no chart, where today's position is not on it, or where it
    has no position so far on.
    """
    rows = [row for row in chart_of(club, catalogue) if row.variant and "loft change" in row.figures]
    if not rows:
        raise BadInput(
            f"no chart of the {club.club}'s sleeve is entered to count positions on; name the position, or how much: "
            "sleeve 1 strong"
        )
    now = club.sleeve or Sleeve()
    at = [row for row in rows if now.position is not None and _mark(row.variant or "") == _mark(now.position)]
    if not at:
        names = listed(tuple(row.variant or "" for row in rows))
        raise BadInput(f"at which position the {club.club}'s sleeve is now is not known; its chart has {names}")
    lofts = sorted({row.figures["loft change"].number for row in rows})
    goal = lofts.index(at[0].figures["loft change"].number) + steps
    if not 0 <= goal < len(lofts):
        raise BadInput(
            f"from {at[0].variant} the {club.club}'s sleeve has no {abs(steps)} positions "
            f"{'up' if steps > 0 else 'down'}; its lofts are {listed(tuple(f'{loft:+g}°' for loft in lofts))}"
        )

    def lie(row: Part) -> float:
        entry = row.figures.get("lie change")
        return entry.number if entry is not None else 0.0

    there = [row for row in rows if row.figures["loft change"].number == lofts[goal]]
    return Sleeve(position=min(there, key=lambda row: abs(lie(row) - lie(at[0]))).variant)


def settle_sleeve(club: Club, catalogue: Catalogue, notes: Notes) -> Sleeve:
    sleeve = club.sleeve or Sleeve()
    chart = chart_of(club, catalogue)
    if not chart:
        return sleeve
    title = f"the sleeve of {club.head.maker or ''} {club.head.model}".replace("  ", " ")
    names = tuple(row.variant or "" for row in chart)
    if sleeve.position is not None:
        rows = tuple(row for row in chart if row.variant and _mark(row.variant) == _mark(sleeve.position))
        if not rows:
            notes.disagree(
                "sleeve-position-not-on-chart",
                "sleeve.position",
                f"{title} has no position {sleeve.position!r}; its chart has {listed(names)}",
                documents_of(chart),
            )
            notes.ask("sleeve.position", f"at which position is {title}?", names)
            return sleeve
        notes.answered.add("sleeve.position")
    else:
        rows = _positions_of(sleeve, chart, title, notes)
        if len(rows) != 1:
            return sleeve
    changes = {"loft_change": ("loft change", "sleeve_change"), "lie_change": ("lie change", "sleeve_change")}
    settled = fill(sleeve, rows, changes, "sleeve", notes, f"{title} at {rows[0].variant}")
    if sleeve.position is None:
        settled["position"] = rows[0].variant
    return msgspec.structs.replace(sleeve, **settled)


def _positions_of(sleeve: Sleeve, chart: Rows, title: str, notes: Notes) -> Rows:
    """The positions of a chart that give the changes stated."""
    rows = chart
    stated = False
    for own, column in ((sleeve.loft_change, "loft change"), (sleeve.lie_change, "lie change")):
        if own is None or not own.has_number:
            continue
        stated = True
        degrees = own.in_unit("deg").number
        if not with_number(chart, column, degrees, _ANGLE):
            notes.disagree(
                "sleeve-change-not-on-chart",
                f"sleeve.{column.replace(' ', '_')}",
                f"no position of {title} gives a {column} of {shown(own)}; its chart has "
                f"{listed(numbers_of(chart, column))}°",
                documents_of(chart),
                stated=own,
            )
            return ()
        rows = with_number(rows, column, degrees, _ANGLE)
    if not stated:
        names = tuple(row.variant or "" for row in chart)
        notes.ask("sleeve.position", f"at which position is {title}?", names)
        return ()
    if len(rows) > 1:
        answers = tuple(
            f"{row.variant}: loft {shown(row.figures.get('loft change'))}, lie {shown(row.figures.get('lie change'))}"
            for row in rows
        )
        notes.ask("sleeve.position", f"at which of these positions is {title}?", answers)
    return rows
