"""`asplayed bench`: a day's orders as one plan, and the stock of parts they draw on."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from asplayed.cli.common import (
    console,
    json_option,
    max_size_option,
    print_json,
    print_table,
    read_bytes,
    store_option,
    who,
)

if TYPE_CHECKING:
    from rich.console import Console

    from asplayed.workshop.day import Day
    from asplayed.workshop.stock import StockLine


@click.group("bench")
def command() -> None:
    """Plan a day's orders, and keep the stock of parts they draw on."""


@command.command("day")
@click.argument("orders", metavar="ORDER...", nargs=-1, required=True)
@click.option("--hour", type=click.FloatRange(min=0), help="What an hour of work costs. Default: the bench's table.")
@store_option
@json_option
def day(orders: tuple[str, ...], hour: float | None, store: str | None, as_json: bool) -> None:
    """One plan for several kept ORDERs: cut list, parts against stock, shared blanks, cost and time of each."""
    from asplayed.keeping.orders import stored_order
    from asplayed.keeping.stock import stored_stock
    from asplayed.quantities import plain
    from asplayed.workshop.day import plan_day

    found = plan_day([stored_order(name, store) for name in orders], stored_stock(store), hour=hour)
    if as_json:
        print_json({**plain(found), "minutes": found.minutes})
    else:
        show_day(found, console())


@command.command("stock")
@click.option("--in", "delivery", metavar="FILE", help="Take a delivery in: part, name, count, price, reorder at …")
@click.option("--reserve", metavar="ORDER", help="Reserve the parts of a kept order.")
@click.option("--use", metavar="ORDER", help="Take out the parts reserved for an order.")
@store_option
@json_option
@max_size_option
def stock(
    delivery: str | None, reserve: str | None, use: str | None, store: str | None, as_json: bool, max_size: int
) -> None:
    """Show the stock after taking a delivery in, reserving for an order, or using what is reserved."""
    from asplayed.keeping import open_store
    from asplayed.keeping.orders import stored_order
    from asplayed.keeping.stock import move, stored_stock
    from asplayed.quantities import plain
    from asplayed.workshop import stock as movements

    if delivery is not None:
        lines = movements.read_stock(read_bytes(delivery, max_size), delivery)
        with open_store(store) as kept:
            move(kept, lambda before: movements.take_in(before, lines), what="stock in", who=who())
    for name, movement, what in ((reserve, movements.reserve, "stock reserve"), (use, movements.use, "stock use")):
        if name is None:
            continue
        order = stored_order(name, store)
        with open_store(store) as kept:
            move(kept, lambda before, m=movement, o=order: m(before, o), what=what, who=who(), why=f"order {name}")  # type: ignore[misc]
    now = stored_stock(store)
    again = {(line.part, line.name) for line in movements.to_order(now)}
    if as_json:
        told = [{**plain(line), "free": line.free, "reorder": (line.part, line.name) in again} for line in now.values()]
        print_json({"stock": told})
    else:
        show_stock(now.values(), again, console())


@command.command("sheet")
@click.argument("order", metavar="ORDER")
@click.argument("pdf", metavar="FILE", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--web", metavar="ADDRESS", help="The web app's address, for the code on the sheet.")
@click.option("--letter", is_flag=True, help="On US letter instead of A4.")
@store_option
def sheet(order: str, pdf: Path, web: str | None, letter: bool, store: str | None) -> None:
    """Print a kept ORDER once more, to the PDF FILE."""
    from asplayed.cli.order import write
    from asplayed.keeping.orders import stored_order
    from asplayed.telling.order_sheet import order_sheet

    write(pdf, order_sheet(stored_order(order, store), web=web, paper="letter" if letter else "a4"))
    click.echo(f"Print {pdf}")


def show_stock(lines: Iterable[StockLine], again: set[tuple[str, str]], page: Console) -> None:
    """The stock, line by line."""
    from asplayed.cli.show import say

    rows = []
    for line in lines:
        mark = "order again" if (line.part, line.name) in again else ""
        price = "" if line.price is None else f"{line.price:.2f}"
        held = line.there - line.free
        rows.append([line.part, line.name, str(line.there), str(held), str(line.free), str(line.used), price, mark])
    if not rows:
        say(page, "Nothing is in stock yet: asplayed bench stock --in FILE takes a delivery in.")
        return
    columns = ["part", "name", "there", "reserved", "free", "used", "price", ""]
    print_table(columns, rows, right=("there", "reserved", "free", "used", "price"), page=page)


def show_day(found: Day, page: Console) -> None:
    """The plan as tables."""
    from asplayed.cli.show import say
    from asplayed.workshop.job import shop_inches

    if found.cuts:
        say(page, "Cuts", style="bold")
        rows = [
            [
                cut.shaft,
                cut.order,
                cut.club,
                f"{cut.raw:g}",
                f"{cut.tip:g}",
                shop_inches(cut.butt),
                shop_inches(cut.left),
            ]
            for cut in found.cuts
        ]
        print_table(["shaft", "order", "club", "raw [in]", "tip [in]", "off the butt", "left"], rows, page=page)
    for blank in found.blanks:
        clubs = ", ".join(f"{club} of {order} ({left:g} in)" for order, club, left in blank.clubs)
        say(page, f"One blank of {blank.shaft}, {blank.length:g} in: {clubs}; {blank.waste:g} in left over")
    if found.parts:
        say(page, "\nParts", style="bold")
        rows = [
            [part.part, part.name, str(part.needed), str(part.free), str(part.short) if part.short else ""]
            for part in found.parts
        ]
        print_table(["part", "name", "needed", "free", "short"], rows, right=("needed", "free", "short"), page=page)
    say(page, "\nTime and cost", style="bold")
    rows = [
        [
            cost.order,
            f"{cost.minutes:.0f} min",
            f"{cost.cure_hours:.0f} h" if cost.cure_hours else "",
            f"{cost.work:.2f}",
            "not all priced" if cost.parts is None else f"{cost.parts:.2f}",
        ]
        for cost in found.costs
    ]
    print_table(["order", "hand work", "cure", "work", "parts"], rows, page=page)
    say(page, f"All together {found.minutes / 60:.1f} h of hand work.")
