"""Order and bench: changes as work; steps ticked off one by one, readings judged as they are typed, sign-off."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING, Any, NamedTuple

import msgspec

from asplayed.errors import BadInput
from asplayed.quantities import plain
from asplayed.web.faults import sentences_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, download, page, part_of_path, see_other, shown

if TYPE_CHECKING:
    from asplayed.keeping.progress import Underway
    from asplayed.workshop.records import Check, CheckedFigure, Order, Step, Tick

tab = Tab("Bench", "/orders", "g o")
set_tab = Tab("Order", "/sets/{name}/order", "o")

# What a reading typed without a unit is in; a swing weight, such as D2, has none.
_UNITS = {
    "loft": "deg", "lie": "deg", "bounce": "deg", "length": "in", "mass": "g", "frequency": "cpm", "grip_size": "in",
    "balance_point": "in", "swing_weight": "",
}  # fmt: skip


class Line(NamedTuple):
    """A step as the bench page shows it: its number, what is to be reached, the tick, or what was read and found."""

    number: int
    step: Step
    target: str
    tick: Tick | None = None
    found: CheckedFigure | None = None


class Work(NamedTuple):
    """The work on one club."""

    club: str
    work: str
    likely: str
    lines: tuple[Line, ...]

    @property
    def anchor(self) -> str:
        """What the club's place on the page is called."""
        return self.club.replace(" ", "-")

    @property
    def steps(self) -> tuple[Line, ...]:
        """What is done and ticked off."""
        return tuple(line for line in self.lines if line.step.operation != "measure")

    @property
    def readings(self) -> tuple[Line, ...]:
        """What is measured."""
        return tuple(line for line in self.lines if line.step.operation == "measure")

    @property
    def measuring(self) -> tuple[str, ...]:
        """The cautions that every measurement has: said once, before the first of them."""
        first, *others = self.readings or (None,)
        if first is None:
            return ()
        return tuple(each for each in first.step.cautions if all(each in other.step.cautions for other in others))

    @property
    def left(self) -> int:
        """Steps that nobody ticked, and measurements that nobody read."""
        return sum(line.tick is None for line in self.steps) + sum(
            line.found is None or line.found.measured is None for line in self.readings
        )


class AskedFirst(NamedTuple):
    """Something to be asked or measured before the work begins, and the clubs it is about."""

    clubs: tuple[str, ...]
    text: str


def asked_first(order: Order) -> tuple[AskedFirst, ...]:
    """The order's questions, the same one about several clubs said once."""
    found: dict[str, list[tuple[str, str]]] = {}
    for question in order.questions:
        club = question.club or ""
        alike = question.text.replace(f"the {club}", "each club") if club else question.text
        found.setdefault(alike, []).append((club, question.text))
    return tuple(
        AskedFirst(tuple(club for club, _ in about if club), alike if len(about) > 1 else about[0][1])
        for alike, about in found.items()
    )


# ------------------------------------------------------------------------------------------------------------ orders


def made(
    here: Here,
    name: str,
    changes: tuple[str, ...],
    *,
    measured: str = "",
    shafts: str = "",
    slope: str = "",
) -> Order:
    """The order that these changes make of a stored set, as `asplayed order` makes it; nothing is kept."""
    from asplayed.intake.changes import read_changes
    from asplayed.workshop import order
    from asplayed.workshop.gauges import read_bench, shaft_masses

    bag = here.app.known.bag(name)
    try:
        fall = float(slope.replace(",", ".")) if slope.strip() else None
    except ValueError:
        raise BadInput(f"the slope {slope[:40]!r} is no number; write cpm per inch, such as 8") from None
    found = order(
        bag.golf_set,
        read_changes(changes, bag.golf_set, bag.parts),
        parts=bag.parts,
        bench=read_bench(measured.encode(), "what was measured", bag.golf_set.clubs) if measured.strip() else (),
        shafts=shaft_masses(shafts) if shafts.strip() else (),
        slope=fall,
        set_name=bag.name,
        set_version=bag.version,
        made=datetime.datetime.now(datetime.UTC).date().isoformat(),
    )
    if not found.clubs:
        raise BadInput("these changes give the workshop nothing to do: no club is built or altered by them")
    return found


def _lines(text: str) -> tuple[str, ...]:
    return tuple(" ".join(line.split()) for line in text.splitlines() if line.strip())


def _order_page(here: Here, name: str, given: dict[str, str]) -> Page:
    """The page of an order that is not kept yet."""
    from asplayed.choosing.what_if import air_asked

    bag = here.app.known.bag(name)
    found = None
    faults: tuple[str, ...] = ()
    about_clubs: tuple[str, ...] = ()
    if given["changes"].strip() or given["whole"]:
        try:
            _, about_clubs = air_asked(_lines(given["changes"]))
            found = made(
                here, name, about_clubs, measured=given["measured"], shafts=given["shafts"], slope=given["slope"]
            )
        except BadInput as fault:
            faults = sentences_of(fault)
    return page(
        here,
        "order.html",
        set_name=bag.name,
        given=given,
        faults=faults,
        order=found,
        works=_works(found) if found else (),
        first=asked_first(found) if found else (),
        whose=bag.golf_set.set.player or bag.name,
    )


@shown("/sets/{name:str}/order")
def order_page(here: Here, name: str, changes: str = "") -> Page:
    """What the order for these changes would hold."""
    blank = dict.fromkeys(("measured", "shafts", "slope", "whole"), "")
    return _order_page(here, name, {"changes": changes, **blank})


@done("/sets/{name:str}/order")
def make_order(here: Here, name: str, form: Form) -> Answer | Page:
    """The order looked at with what was measured of the parts, or kept."""
    from asplayed.choosing.what_if import air_asked
    from asplayed.keeping.orders import save_order

    given = {
        "changes": form.long_text("changes"),
        "measured": form.long_text("measured"),
        "shafts": form.text("shafts"),
        "slope": form.text("slope"),
        "whole": form.text("whole"),
    }
    if form.text("then") != "keep":
        return _order_page(here, name, given)
    _, about_clubs = air_asked(_lines(given["changes"]))
    found = made(here, name, about_clubs, measured=given["measured"], shafts=given["shafts"], slope=given["slope"])
    save_order(here.kept, found, who=here.who)
    return see_other(f"/orders/{part_of_path(found.order)}")


# ------------------------------------------------------------------------------------------------------------- bench


def _works(order: Order, found: Underway | None = None, checked: Check | None = None) -> tuple[Work, ...]:
    from asplayed.telling.order_sheet import target_text

    ticks = {(each.club, each.step): each for each in found.progress.ticks} if found else {}
    judged = {(each.club, each.figure): each for each in checked.clubs} if checked else {}
    return tuple(
        Work(
            club.club,
            club.work,
            f"{club.chance.number:.0f} % likely inside every tolerance" if club.chance is not None else "",
            tuple(
                Line(
                    number,
                    step,
                    target_text(step),
                    ticks.get((club.club, number)),
                    judged.get((club.club, step.figure or "")),
                )
                for number, step in enumerate(club.steps, 1)
            ),
        )
        for club in order.clubs
    )


def _checked(found: Underway) -> Check:
    """The readings so far, judged; the signed check where there is one."""
    from asplayed.keeping.progress import readings_of
    from asplayed.workshop.checking import check

    return found.checked or check(found.order, readings_of(found))


def _bench(here: Here, order: str, template: str) -> Page:
    from asplayed.keeping.progress import underway

    found = underway(order, here.store)
    checked = _checked(found)
    return page(
        here,
        template,
        found=found,
        order=found.order,
        checked=checked,
        works=_works(found.order, found, checked),
        first=asked_first(found.order),
        units=_UNITS,
        moment=here.app.known.moment(),
    )


@shown("/orders")
def orders(here: Here) -> Page:
    """Every order that is kept, and how far it is."""
    from asplayed.keeping.progress import all_underway

    return page(here, "orders.html", orders=all_underway(here.store))


@shown("/orders/{order:str}")
def bench(here: Here, order: str) -> Page:
    """One order at the bench."""
    return _bench(here, order, "bench.html")


@shown("/orders/{order:str}/work")
def work(here: Here, order: str) -> Page:
    """The work alone, for the page that asks how far the others are."""
    return _bench(here, order, "bench-work.html")


@shown("/orders/{order:str}/sheet")
def sheet(here: Here, order: str) -> Answer:
    """The order to print."""
    from asplayed.keeping.orders import stored_order
    from asplayed.telling.order_sheet import order_sheet

    found = stored_order(order, here.store)
    return download(order_sheet(found), f"{found.order}.pdf", "application/pdf")


def _back(here: Here, order: str, club: str, form: Form) -> Answer | Page:
    """The work as it is now, for a script that asked for it alone; else back to the club on its page."""
    if form.text("part"):
        return _bench(here, order, "bench-work.html")
    return see_other(f"/orders/{part_of_path(order)}#{club.replace(' ', '-')}")


@done("/orders/{order:str}/tick")
def tick(here: Here, order: str, form: Form) -> Answer | Page:
    """A step done, or taken back."""
    from asplayed.keeping.progress import tick as ticked

    club, step = form.text("club"), form.number("step")
    ticked(here.kept, order, club, step or 0, who=here.who, done=form.text("done") != "no")
    return _back(here, order, club, form)


@done("/orders/{order:str}/reading")
def reading(here: Here, order: str, form: Form) -> Answer | Page:
    """A reading as the gauge shows it."""
    from asplayed.keeping.progress import take_reading

    club, figure, value = form.text("club"), form.text("figure"), form.text("value")
    if figure not in _UNITS:
        raise BadInput(f"{figure[:40]!r} is not read at the bench; figures are {', '.join(_UNITS)}")
    if not value:
        raise BadInput(f"no {figure.replace('_', ' ')} was given; type what the gauge shows")
    take_reading(here.kept, order, line_of(club, figure, value, form.text("clamp")), who=here.who)
    return _back(here, order, club, form)


def line_of(club: str, figure: str, value: str, clamp: str = "") -> str:
    """A reading as one line of trade notation; a value without a unit is in the figure's own.

    >>> line_of("7 iron", "loft", "33,5"), line_of("driver", "swing_weight", "d2.5")
    ('7 iron loft 33.5 deg', 'driver swing weight D2.5')
    """
    unit = _UNITS[figure]
    text = value.replace(",", ".").strip()
    if unit and not any(letter.isalpha() or letter in "\"'″′°" for letter in text):
        text = f"{text} {unit}"
    if figure == "swing_weight":
        text = text.upper()
    clamped = f" clamp {clamp.strip()}{'' if any(c.isalpha() for c in clamp) else ' in'}" if clamp.strip() else ""
    return f"{club} {figure.replace('_', ' ')} {text}{clamped}"


@done("/orders/{order:str}/sign")
def sign(here: Here, order: str, form: Form) -> Answer:
    """Sign the order off: the set's record becomes measured."""
    from asplayed.keeping.orders import save_signed
    from asplayed.keeping.progress import readings_of, underway
    from asplayed.workshop.checking import check
    from asplayed.workshop.checking import sign as signed

    found = underway(order, here.store)
    readings = readings_of(found)
    now = datetime.datetime.now(datetime.UTC).isoformat(timespec="seconds")
    checked, outcome = signed(found.order, check(found.order, readings), readings, form.text("name") or here.who, now)
    save_signed(here.kept, found.order, checked, outcome, who=here.who)
    return see_other(f"/orders/{part_of_path(order)}")


# --------------------------------------------------------------------------------------------------------------- API


class NewOrder(msgspec.Struct, frozen=True):
    """Changes in trade notation; none builds the whole set. `keep` keeps the order, for `check`."""

    changes: tuple[str, ...] = ()
    keep: bool = True
    measured: str = ""
    shafts: str = ""
    slope: str = ""


class Readings(msgspec.Struct, frozen=True):
    """Readings, one a line, such as `7 iron loft 33.5 deg`, or a table of measures as text."""

    measures: str


@asked("/api/sets/{name:str}/order", method="POST")
def api_order(here: Here, name: str, data: NewOrder) -> dict[str, Any]:
    """The order for the workshop that makes these changes."""
    from asplayed.keeping.orders import save_order

    found = made(here, name, data.changes, measured=data.measured, shafts=data.shafts, slope=data.slope)
    if data.keep:
        save_order(here.kept, found, who=here.who)
    told: dict[str, Any] = plain(found)
    return told


@asked("/api/orders")
def api_orders(here: Here) -> dict[str, Any]:
    """Every kept order, and how far it is."""
    from asplayed.keeping.progress import all_underway

    return {
        "orders": [
            {
                "order": each.order.order,
                "set": each.order.set_name,
                "player": each.order.player,
                "made": each.order.made,
                "done": each.done,
                "steps": each.steps,
                "signed_by": each.checked.signed_by if each.checked else None,
            }
            for each in all_underway(here.store)
        ]
    }


@asked("/api/orders/{order:str}/check", method="POST")
def api_check(here: Here, order: str, data: Readings) -> dict[str, Any]:
    """The built clubs held against their order; nothing is kept."""
    from asplayed.keeping.orders import stored_order
    from asplayed.quantities.texts import decode
    from asplayed.workshop.checking import check
    from asplayed.workshop.gauges import read_measures

    found = stored_order(order, here.store)
    content = data.measures.encode()
    readings = read_measures(content, "the measures", found.outcome.clubs, lambda given: decode(given, "the measures"))
    told: dict[str, Any] = plain(check(found, readings))
    return told


routes = (
    order_page, make_order, orders, bench, work, sheet, tick, reading, sign, api_order, api_orders, api_check,
)  # fmt: skip
