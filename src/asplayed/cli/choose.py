"""`asplayed choose`: the best settings of one club, or the best set, with proof, reasons and the changes to order."""

from __future__ import annotations

import math
import os
import sys
import time
from collections.abc import Callable, Mapping
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
    read_bytes,
    read_text,
    store_option,
    who,
)
from asplayed.cli.fly import conditions_of, conditions_options, player_for, sessions_of
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.catalogue import Part
    from asplayed.choosing.choice_model import Limits, Progress
    from asplayed.choosing.choose import Chosen
    from asplayed.choosing.demand import Course, Situation
    from asplayed.choosing.prices import Prices
    from asplayed.choosing.settings import Settings
    from asplayed.clubs import Change, GolfSet
    from asplayed.players.records import Conditions, Player
    from asplayed.players.summaries import Session
    from asplayed.quantities import Figure

TRIED = ("sleeves", "bends", "lengths", "heads", "clubs")


@click.command("choose")
@click.argument("source", metavar="SET")
@click.option("--club", metavar="CLUB", help="Only the best settings of this club.")
@click.option(
    "--for",
    "target",
    metavar="AIM",
    help="With --club, what for: longest, farthest, 'carry 150yd', 'descent 45deg', straight, strokes.",
)
@click.option("--course", metavar="COURSE", help="Where it is played: a file in TOML, or Estow; else a usual round.")
@click.option("--rounds", metavar="FILE", help="A table of the player's own shots: lie, distance, round.")
@click.option("--clubs", "count", type=click.IntRange(1, 14), default=14, show_default=True, help="At most so many.")
@click.option("--changes", type=click.IntRange(min=0), metavar="N", help="At most so many changes to today's set.")
@click.option("--price", metavar="MONEY", help="At most so much, such as '400 EUR'; needs prices.")
@click.option("--prices", metavar="FILE", help="A table of prices of parts and work: item, price [EUR].")
@click.option("--require", multiple=True, metavar="CLUB", help="A club that must be in the bag.")
@click.option("--forbid", multiple=True, metavar="WORD", help="A club, a kind or a model that must not be.")
@click.option("--least-gap", metavar="DISTANCE", help="Carries of neighbours no nearer than, such as 8yd.")
@click.option("--most-gap", metavar="DISTANCE", help="Carries of neighbours no further apart than, such as 20yd.")
@click.option("--same-irons", metavar="SPAN", help="Irons that must be of one model, such as 5-PW.")
@click.option("--try", "tried", multiple=True, type=click.Choice(TRIED), help="What may be tried; all, unless said.")
@click.option(
    "--worth",
    type=click.FloatRange(min=0),
    metavar="STROKES",
    help="What a change must save a round; 0.05 unless said.",
)
@click.option("--worst", is_flag=True, help="Choose for the worst of the course's winds, not for their average.")
@click.option("--speed", "driver_speed", metavar="SPEED", help="The player's club speed with a driver, such as 105mph.")
@click.option("--handicap", metavar="NUMBER", help="The player's handicap; +2 is two better than scratch.")
@conditions_options
@click.option("--seconds", type=click.FloatRange(min=0.1), default=30.0, show_default=True, help="To search at most.")
@click.option("--seed", type=click.IntRange(0, 2**32 - 1), default=0, show_default=True, help="Numbers the chance.")
@click.option("--order", "as_order", is_flag=True, help="Write the workshop's order for the changes.")
@click.option("--keep", is_flag=True, help="Store the changed set as the next version of SET.")
@click.option("--why", metavar="TEXT", help="With --keep: why; kept in its history.")
@store_option
@json_option
@max_size_option
def command(
    source: str,
    club: str | None,
    target: str | None,
    as_order: bool,
    keep: bool,
    why: str | None,
    store: str | None,
    as_json: bool,
    max_size: int,
    **given: Any,
) -> None:
    """Choose what should be in the bag of SET, set how: among every setting, bend and length of today's clubs and every
    head of the catalogue, the set that takes the fewest strokes on the shots a round asks for.

    The answer comes with its proof, ten alternatives, what each club is worth, what the first changes bring, how sure
    it is, and the changes in the words that asplayed try and order read. Ctrl-C ends the search with the best so far.
    """
    # before numpy is loaded: on a machine at work two threads of it wait for one another longer than one takes
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from asplayed.keeping import stored_parts

    stored = not (source == "-" or Path(source).is_file() or looks_like_path(source))
    if keep and not stored:
        raise BadInput(f"{source} is no stored set, so nothing can be kept with it; store it with asplayed take first")
    if target is not None and club is None:
        raise BadInput("--for says what one club is set for; name the club with --club")
    conditions = conditions_of(given)
    golf_set = load_set(source, store, max_size)
    parts = stored_parts(store)
    player, sessions = player_for(source, golf_set, store, given), sessions_of(source, store)
    if club is not None:
        from asplayed.choosing.one_club import settings_of
        from asplayed.choosing.settings import read_target

        found = settings_of(
            golf_set,
            club,
            read_target(target or "strokes"),
            player=player,
            sessions=sessions,
            parts=parts,
            course=course_asked(given),
            situations=_rounds(given, max_size),
            conditions=conditions,
            seed=given["seed"],
        )
        changes = found.changes
    else:
        chosen = _choose(golf_set, player, sessions, parts, conditions, max_size, given)
        changes = chosen.changes
    done = _carried_out(source, golf_set, changes, parts, store, as_order, keep, why, stored)
    if as_json:
        from asplayed.quantities import plain

        print_json({**plain(found if club is not None else chosen), **done})
        return
    if club is not None:
        _show_settings(found)
    else:
        _show(chosen)
    _show_done(source, changes, done)


# ------------------------------------------------------------------------------------------------ what was asked for


def _choose(
    golf_set: GolfSet,
    player: Player,
    sessions: tuple[Session, ...] | Any,
    parts: tuple[Part, ...] | Any,
    conditions: Conditions,
    max_size: int,
    given: Mapping[str, Any],
) -> Chosen:
    from asplayed.choosing.choose import choose

    prices = _prices(given, max_size)
    asked = any(getattr(conditions, name) is not None for name in conditions.__struct_fields__)
    return choose(
        golf_set,
        player=player,
        sessions=sessions,
        parts=parts,
        limits=_limits(golf_set, given, prices),
        course=course_asked(given),
        situations=_rounds(given, max_size),
        conditions=conditions if asked else None,
        tried=given["tried"] or TRIED,
        prices=prices,
        against="worst" if given["worst"] else "average",
        seconds=given["seconds"],
        seed=given["seed"],
        on_progress=_teller(),
    )


def course_asked(given: Mapping[str, Any]) -> Course | None:
    """The course that `--course` names: one that is shipped, or a file; None where nothing is named."""
    from asplayed.choosing.demand import course_named, read_course

    course = given["course"]
    if course is None:
        return None
    return (
        read_course(course)
        if looks_like_path(course) or Path(course).suffix or Path(course).is_file()
        else course_named(course)
    )


def _rounds(given: Mapping[str, Any], max_size: int) -> tuple[Situation, ...] | None:
    if given["rounds"] is None:
        return None
    from asplayed.choosing.demand import demand_from_rounds

    own = demand_from_rounds(read_bytes(given["rounds"], max_size), given["rounds"])
    for sentence in own.remarks:
        click.echo(sentence, err=True)
    return own.situations


def _prices(given: Mapping[str, Any], max_size: int) -> Prices | None:
    if given["prices"] is None:
        if given["price"] is not None:
            from asplayed.choosing.prices import money

            money(given["price"])
            raise BadInput(
                "--price says how much may be spent, but no price is known; give a table of them with --prices"
            )
        return None
    from asplayed.choosing.prices import read_prices

    return read_prices(read_text(given["prices"], max_size), given["prices"])


def _limits(golf_set: GolfSet, given: Mapping[str, Any], prices: Prices | None) -> Limits:
    from asplayed.choosing.asked import limits_asked

    return limits_asked(
        golf_set,
        clubs=given["count"],
        changes=given["changes"],
        price=given["price"],
        prices=prices,
        require=given["require"],
        forbid=given["forbid"],
        least_gap=given["least_gap"],
        most_gap=given["most_gap"],
        same_irons=given["same_irons"],
        worth=given["worth"],
    )


def _teller() -> Callable[[Progress], None]:
    """Says on standard error how far the search has come, once it has taken a second, twice a second at most."""
    begun = told = time.monotonic()

    def tell(progress: Progress) -> None:
        nonlocal told
        now = time.monotonic()
        if now - begun < 1.0 or now - told < 0.5:
            return
        told = now
        gap = progress.strokes - progress.bound
        above = f", at most {max(0.0, gap):.3f} above the best" if math.isfinite(gap) else ""
        line = f"{progress.words}: {progress.strokes:.3f} strokes a round so far{above}"
        if sys.stderr.isatty():
            click.echo(f"\r\x1b[K{line} (Ctrl-C takes it)", err=True, nl=False)
        else:
            click.echo(line, err=True)

    return tell


# ------------------------------------------------------------------------------------------------ what is done with it


def _carried_out(
    source: str,
    golf_set: GolfSet,
    changes: tuple[str, ...],
    parts: Any,
    store: str | None,
    as_order: bool,
    keep: bool,
    why: str | None,
    stored: bool,
) -> dict[str, Any]:
    """The order written and the set kept, where they were asked for and there is anything to do."""
    if not (changes and (as_order or keep)):
        return {}
    from asplayed.intake.changes import read_changes

    read = read_changes(changes, golf_set, parts)
    done: dict[str, Any] = {}
    if as_order:
        done["order"] = _ordered(source if stored else None, golf_set, read, parts, store)
    if keep:
        done["stored"] = _kept(source, golf_set, read, parts, store, why or f"chosen: {'; '.join(changes)}")
    return done


def _ordered(name: str | None, golf_set: GolfSet, changes: tuple[Change, ...], parts: Any, store: str | None) -> str:
    from datetime import date

    from asplayed.cli.order import _keep as keep_order
    from asplayed.keeping import read_set
    from asplayed.workshop import order

    version = None
    if name is not None:
        kept = read_set(name, store)
        name, version = kept.name, kept.version
    made = order(golf_set, changes, parts=parts, set_name=name, set_version=version, made=date.today().isoformat())
    keep_order(made, store, needed=name is not None)
    return made.order


def _kept(
    source: str, golf_set: GolfSet, changes: tuple[Change, ...], parts: Any, store: str | None, why: str
) -> dict[str, Any]:
    from asplayed.catalogue.changes import apply_settled
    from asplayed.keeping import open_store, read_set

    today = read_set(source, store)
    changed = apply_settled(golf_set, changes, parts)
    with open_store(store) as kept:
        saved = kept.save_set(
            today.name, changed, today.original, who=who(), what="choose", why=why, based_on=today.version
        )
    return {"name": saved.name, "version": saved.version, "new": saved.new}


# ------------------------------------------------------------------------------------------------------------- words


def _show(chosen: Chosen) -> None:
    from rich.text import Text

    from asplayed.choosing.page import fronts, how, other_sets

    page = console()
    if sys.stderr.isatty():
        click.echo("\r\x1b[K", err=True, nl=False)
    rows = [
        [
            each.label,
            how(each.changes),
            _yards(each.carry),
            _yards(each.total),
            "—" if each.worth is None else f"{each.worth.number:.2f}",
            each.serves or "",
        ]
        for each in chosen.chosen
    ]
    columns = ("club", "set how", "carry\n[yd]", "total\n[yd]", "worth\n[strokes]", "plays")
    print_table(columns, rows, right=columns[2:5], page=page)
    for sentence in chosen.words:
        page.print(Text(sentence))
    if chosen.alternatives:
        page.print(Text("\nOther sets, and what they cost more a round:", style="bold"))
        for line in other_sets(chosen):
            page.print(Text(f"  {line}"))
    for line in fronts(chosen):
        page.print(Text(f"\n{line}"))
    for sentence in dict.fromkeys(chosen.assumed):
        click.echo(f"Assumed: {sentence}")


def _said(words: str) -> str:
    return "new" if words.startswith("add:") else words.partition(": ")[2]


def _yards(entry: Figure | None) -> str:
    return "" if entry is None else f"{entry.number:.0f}"


def _show_settings(found: Settings) -> None:
    from rich.text import Text

    page = console()
    done = "; ".join(_said(words) for words in found.changes) or "as it is"
    page.print(Text(f"{found.club.capitalize()} for {found.target}: {done}", style="bold"))
    unit = {"deg": "°", "strokes": " strokes a round"}.get(found.best.unit, f" {found.best.unit}")
    page.print(
        Text(f"  {found.best.number:.2f}{unit}, today {found.today.number:.2f}{unit}; {found.tried} settings tried.")
    )
    for each in found.flat:
        page.print(Text(f"  {each.sentence}"))
    if found.alternatives:
        page.print(
            Text("  As good: " + " | ".join("; ".join(map(_said, words)) or "as it is" for words in found.alternatives))
        )
    for sentence in dict.fromkeys(found.remarks):
        click.echo(f"Assumed: {sentence}")


def _show_done(source: str, changes: tuple[str, ...], done: Mapping[str, Any]) -> None:
    if "order" in done:
        click.echo(f"Kept as order {done['order']}; when it is built: asplayed check {done['order']} MEASURES")
    if "stored" in done:
        click.echo(f"Stored as {done['stored']['name']}, version {done['stored']['version']}.")
    if changes and not done:
        quoted = " ".join(f'"{words}"' for words in changes)
        click.echo(f"\nTo order it: asplayed order {source} {quoted}")
