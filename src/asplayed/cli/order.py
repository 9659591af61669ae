"""`asplayed order SET [CHANGE…]`: a decision as work for the bench."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from asplayed.cli.common import (
    console,
    json_option,
    load_set,
    looks_like_path,
    max_size_option,
    print_json,
    read_bytes,
    store_option,
    who,
)
from asplayed.errors import BadInput, StoreUnusable

if TYPE_CHECKING:
    from rich.console import Console

    from asplayed.workshop import Order


@click.command("order")
@click.argument("source", metavar="SET")
@click.argument("changes", metavar="[CHANGE]...", nargs=-1)
@click.option(
    "--bench", metavar="FILE", help="A table of what was measured of the parts: club, head mass, raw length …"
)
@click.option("--shafts", metavar="GRAMS", help="Raw masses of the shafts at hand, to be shared out: 112,115.5,118.")
@click.option(
    "--slope", type=float, metavar="CPM", help="Plan tip trims onto this slope, cpm per inch of shorter club."
)
@click.option("--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write the order to print here.")
@click.option("--web", metavar="ADDRESS", help="The web app's address, for the code on the printed order.")
@store_option
@json_option
@max_size_option
def command(
    source: str,
    changes: tuple[str, ...],
    bench: str | None,
    shafts: str | None,
    slope: float | None,
    pdf: Path | None,
    web: str | None,
    store: str | None,
    as_json: bool,
    max_size: int,
) -> None:
    """Write the order for the workshop that makes each CHANGE to SET; without one, the order that builds the whole set.

    A CHANGE is CLUBS: WORDS, such as 'sand wedge: bend 1 weak', 'driver: length 44.5', 'irons: shaft NAME S, D2',
    '7 iron: swing weight D2', '5-PW: +1 wrap', 'drop 3 iron'. The order is kept, and `asplayed check` takes its name.
    """
    from asplayed.intake.changes import read_changes
    from asplayed.keeping import read_set, stored_parts
    from asplayed.quantities import plain
    from asplayed.workshop import order
    from asplayed.workshop.gauges import read_bench, shaft_masses

    name = version = None
    golf_set = load_set(source, store, max_size)
    if source != "-" and not Path(source).is_file() and not looks_like_path(source):
        kept = read_set(source, store)
        name, version = kept.name, kept.version
    parts = stored_parts(store)
    decided = read_changes(changes, golf_set, parts)
    measured = read_bench(read_bytes(bench, max_size), bench, golf_set.clubs) if bench else ()
    made = order(
        golf_set,
        decided,
        parts=parts,
        bench=measured,
        shafts=shaft_masses(shafts, "--shafts") if shafts else (),
        slope=slope,
        set_name=name,
        set_version=version,
        made=date.today().isoformat(),
    )
    if not made.clubs:
        raise BadInput("these changes give the workshop nothing to do: no club is built or altered by them")
    if pdf is not None:
        from asplayed.telling.order_sheet import order_sheet

        write(pdf, order_sheet(made, web=web))
    _keep(made, store, needed=name is not None)
    if as_json:
        print_json(plain(made))
    else:
        show(made, console())
        click.echo(f"Kept as {made.order}; when it is built: asplayed check {made.order} MEASURES")
        if pdf is not None:
            click.echo(f"Print {pdf}")


def _keep(made: Order, store: str | None, *, needed: bool) -> None:
    """Keep the order; where its set is not stored, a store that cannot be written is no reason to fail."""
    from asplayed.keeping import open_store
    from asplayed.keeping.orders import save_order

    try:
        with open_store(store) as kept:
            save_order(kept, made, who=who())
    except StoreUnusable as fault:
        if needed:
            raise
        click.echo(f"asplayed: the order is not kept: {fault}", err=True)


def write(path: Path, content: bytes) -> None:
    """A file with this content, or a sentence why it cannot be."""
    try:
        path.write_bytes(content)
    except OSError as fault:
        raise BadInput(f"{path} cannot be written ({fault.strerror}); name a file in a folder that can be") from None


def show(made: Order, page: Console) -> None:
    """The order club by club, with its cautions at their steps and what is to be asked first."""
    from asplayed.cli.show import say
    from asplayed.telling.order_sheet import target_text

    heading = ", ".join(word for word in (f"Order {made.order}", made.player, f"{made.hand}-handed", made.made) if word)
    say(page, heading, style="bold")
    for question in made.questions:
        say(page, f"  Ask first, {question.club}: {question.text}")
    for club in made.clubs:
        likely = f"; {club.chance.number:.0f} % likely inside every tolerance" if club.chance is not None else ""
        say(page, f"\n{club.club}: {club.work}{likely}", style="bold")
        said: set[str] = set()  # of the measure steps, which all have the same cautions
        for number, step in enumerate(club.steps, 1):
            target = target_text(step)
            say(page, f"  {number}. {step.operation}{f' [{target}]' if target else ''}: {step.words}")
            for caution in step.cautions:
                if step.operation != "measure" or caution not in said:
                    say(page, f"       ! {caution}", style="yellow")
                if step.operation == "measure":
                    said.add(caution)
    if made.parts:
        say(page, "\nParts")
        for part in made.parts:
            say(page, f"  {part.count} × {part.part} {part.name if part.name != part.part else ''}".rstrip())
    say(page, "")
