"""`asplayed check ORDER MEASURES`: the built clubs against their order, and the sign-off."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from asplayed.cli.common import (
    console,
    json_option,
    looks_like_path,
    max_size_option,
    print_json,
    print_table,
    read_bytes,
    store_option,
)
from asplayed.errors import BadInput
from asplayed.quantities.texts import decode

if TYPE_CHECKING:
    from rich.console import Console

    from asplayed.workshop import Check, Order


@click.command("check")
@click.argument("order", metavar="ORDER")
@click.argument("measures", metavar="[MEASURES]", required=False)
@click.option("--read", "by_hand", multiple=True, metavar="LINE", help="One reading by hand: '7 iron loft 33.5 deg'.")
@click.option("--sign", metavar="NAME", help="Sign the order off: the set's record becomes measured.")
@store_option
@json_option
@max_size_option
def command(
    order: str,
    measures: str | None,
    by_hand: tuple[str, ...],
    sign: str | None,
    store: str | None,
    as_json: bool,
    max_size: int,
) -> int:
    """Compare the built clubs of ORDER with MEASURES; the exit is 1 when a figure is out of tolerance.

    ORDER is a kept order's name, or a file with the JSON of `order`. MEASURES is a table (club, loft, lie, bounce,
    length, mass, swing weight, balance, frequency, clamp, grip size), or lines as a scale sends them, one reading a
    line with its unit; - is standard input.
    """
    from asplayed.quantities import plain
    from asplayed.workshop.checking import check, unmeasured
    from asplayed.workshop.checking import sign as signed
    from asplayed.workshop.gauges import read_lines, read_measures

    if measures is None and not by_hand:
        raise BadInput("nothing was measured: give a table or lines of MEASURES, or readings with --read")
    found = _order(order, store, max_size)
    clubs = found.outcome.clubs
    readings = list(read_lines("\n".join(by_hand), "--read", clubs)) if by_hand else []
    if measures is not None:
        called = "standard input" if measures == "-" else measures
        table = read_measures(read_bytes(measures, max_size), called, clubs, lambda data: decode(data, called))
        known = {(one.club, one.figure) for one in readings}
        readings += [one for one in table if (one.club, one.figure) not in known]
    checked = check(found, readings)
    saved = None
    if sign is not None:
        from asplayed.keeping import open_store
        from asplayed.keeping.orders import save_signed

        now = datetime.now(UTC).isoformat(timespec="seconds")
        checked, outcome = signed(found, checked, readings, sign, now)
        with open_store(store) as kept:
            saved = save_signed(kept, found, checked, outcome, who=sign)
    if as_json:
        print_json(plain(checked))
    else:
        show(checked, console())
        if sign is not None:
            now_is = f"; {saved.name} is now version {saved.version}" if saved is not None else ""
            left = unmeasured(checked)
            how = ", as measured" if now_is and not left else ""
            click.echo(f"Signed off by {checked.signed_by}{now_is}{how}.")
            if left:
                click.echo(f"Signed without a reading, and not recorded as measured: {'; '.join(left)}.")
    return int(any(figure.verdict == "out" for figure in checked.clubs))


def _order(source: str, store: str | None, max_size: int) -> Order:
    from asplayed.keeping.orders import decode_order, stored_order

    if source == "-" or Path(source).is_file() or (looks_like_path(source) and not re.fullmatch(r"[\w.-]+", source)):
        return decode_order(read_bytes(source, max_size), "standard input" if source == "-" else source)
    return stored_order(source, store)


def show(checked: Check, page: Console) -> None:
    """Every figure with its verdict; what is out with its smallest rework."""
    from asplayed.cli.show import say
    from asplayed.telling.order_sheet import in_both, tolerance_text

    rows = [
        [
            figure.club,
            figure.figure.replace("_", " "),
            f"{in_both(figure.target)} {tolerance_text(figure.tolerance)}".strip(),
            in_both(figure.measured),
            figure.verdict + ("" if figure.sure else ", in doubt"),
        ]
        for figure in checked.clubs
    ]
    print_table(["club", "figure", "target", "measured", "verdict"], rows, page=page)
    for question in checked.questions:
        say(page, f"  ? {question}")
    for figure in checked.clubs:
        if figure.rework:
            say(page, f"  {figure.club}, {figure.figure.replace('_', ' ')}: {figure.rework}", style="bold")
