"""`asplayed try`: a what-if beside today's set."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import (
    console,
    json_option,
    load_set,
    looks_like_path,
    max_size_option,
    print_json,
    print_table,
    store_option,
    who,
)
from asplayed.cli.fly import conditions_of, conditions_options, player_for, sessions_of
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.choosing.what_if import WhatIf
    from asplayed.quantities import Figure


@click.command("try")
@click.argument("source", metavar="SET")
@click.argument("changes", metavar="[CHANGE]...", nargs=-1)
@click.option("--speed", "driver_speed", metavar="SPEED", help="The player's club speed with a driver, such as 105mph.")
@click.option("--handicap", metavar="NUMBER", help="The player's handicap; +2 is two better than scratch.")
@conditions_options
@click.option("--local-rule", "local_rules", multiple=True, type=click.Choice(("G-2", "G-10")), help="In force here.")
@click.option("--seed", type=click.IntRange(0, 2**32 - 1), default=0, show_default=True, help="Numbers the chance.")
@click.option("--keep", is_flag=True, help="Store the changed set as the next version of SET.")
@click.option("--why", metavar="TEXT", help="With --keep: why; kept in its history.")
@store_option
@json_option
@max_size_option
def command(
    source: str,
    changes: tuple[str, ...],
    local_rules: tuple[str, ...],
    seed: int,
    keep: bool,
    why: str | None,
    store: str | None,
    as_json: bool,
    max_size: int,
    **given: Any,
) -> None:
    """Set each CHANGE beside today's SET: what becomes of clubs, delivery, flight, findings and strokes.

    A CHANGE is CLUBS: WORDS, such as 'driver: sleeve P6', 'driver: 4 g toe to heel', 'sand wedge: bend 2 weak',
    'irons: shaft NAME S', '5 wood out' or 'ball: NAME'; or the air of the what-if: 'air: 95 degF', 'wind: 10 mph head',
    'altitude: 5000 ft', as do the options. They compose. Nothing is stored without --keep.
    """
    from asplayed.choosing.what_if import air_asked, as_plain, what_if
    from asplayed.intake.changes import read_changes
    from asplayed.keeping import stored_parts

    conditions, about_clubs = air_asked(changes, conditions_of(given))
    if not changes and not any(given.get(name) is not None for name in conditions.__struct_fields__):
        raise BadInput("nothing is to be tried; give a change such as 'driver: ½ in shorter' or 'air: 95 degF'")
    stored = not (source == "-" or Path(source).is_file() or looks_like_path(source))
    if keep and not stored:
        raise BadInput(f"{source} is no stored set, so nothing can be kept with it; store it with asplayed take first")
    if keep and not about_clubs:
        raise BadInput("only changes to clubs and ball can be kept, and there are none; leave --keep out")
    golf_set = load_set(source, store, max_size)
    parts = stored_parts(store)
    answer = what_if(
        golf_set,
        read_changes(about_clubs, golf_set, parts),
        parts=parts,
        player=player_for(source, golf_set, store, given),
        sessions=sessions_of(source, store),
        conditions=conditions,
        local_rules=local_rules,
        seed=seed,
    )
    kept = _keep(source, answer, store, why or "; ".join(about_clubs)) if keep else None
    if as_json:
        print_json({**as_plain(answer), **({"stored": kept} if kept else {})})
        return
    _show(answer)
    if kept:
        click.echo(f"Stored as {kept['name']}, version {kept['version']}.")


def _keep(source: str, answer: WhatIf, store: str | None, why: str) -> dict[str, Any]:
    from asplayed.keeping import open_store, read_set

    today = read_set(source, store)
    with open_store(store) as kept:
        saved = kept.save_set(
            today.name, answer.changed, today.original, who=who(), what="try", why=why, based_on=today.version
        )
    return {"name": saved.name, "version": saved.version, "new": saved.new}


def _show(answer: WhatIf) -> None:
    from rich.text import Text

    from asplayed.choosing.what_if import BEYOND

    page = console()
    beyond = [each.sentence for each in answer.differences if each.figure == BEYOND and each.sentence]
    for sentence in beyond:
        page.print(Text(sentence, style="bold"))
    rows = [
        [each.club or "the set", each.figure.replace("_", " "), _text(each.before), _text(each.after), _by(each.change)]
        for each in answer.differences
        if each.about != "finding" and (each.before is not None or each.after is not None)
    ]
    if rows:
        columns = ("club", "figure", "today", "then", "change")
        print_table(columns, rows, right=("today", "then", "change"), page=page)
    for each in answer.differences:
        if each.sentence and each.figure != BEYOND:
            page.print(Text(each.sentence))
    if not answer.differences:
        page.print(Text("Nothing worth telling changes."))
    then, today = answer.after.flown.assumed, answer.before.flown.assumed
    for sentence in then:
        click.echo(f"Assumed: {sentence}")
    for sentence in today:
        if sentence not in then:
            click.echo(f"Assumed of today alone: {sentence.replace(' not said:', '')}")
    click.echo("Changes are surer than the figures themselves; ± is their 90 % band. Nothing was measured: hit it.")


def _text(entry: Figure | None) -> str:
    from asplayed.telling.words import value_text

    if entry is None:
        return ""
    if entry.has_number:
        from msgspec.structs import replace

        whole = entry.unit in ("yd", "ft") or abs(entry.number) >= 100
        entry = replace(entry, value=round(entry.number, 0 if whole else 2))
    return value_text(entry)


def _by(entry: Figure | None) -> str:
    if entry is None:
        return ""
    places = 0 if abs(entry.number) >= 100 else 2 if entry.unit in ("in", "strokes") else 1
    value = f"{entry.number:+.{places}f}".replace("-", "−")
    band = f" ±{entry.half_width:.{places}f}" if entry.half_width else ""
    unit = entry.why if entry.why == "points" else {"deg": "°", "1": "", "kg*cm2": "kg·cm²"}.get(entry.unit, entry.unit)
    return f"{value}{band} {unit}".strip()
