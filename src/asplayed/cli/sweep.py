"""`asplayed sweep`: a study over very many sets, players, conditions or candidates, on one machine or on many."""

from __future__ import annotations

import re
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from asplayed.cli.choose import TRIED, course_asked
from asplayed.cli.common import json_option, load_set, max_size_option, print_json, print_table, store_option
from asplayed.errors import BadInput, nearest

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.players.records import Player
    from asplayed.sweeps.engine import Outcome, Progress
    from asplayed.sweeps.studies import Study

Verb = TypeVar("Verb", bound=Callable[..., Any])
SHOWN = 40  # rows printed; all are in the table


class Studies(click.Group):
    """The studies; a name that is none of them is answered with the nearest."""

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of one study."""
        found = super().get_command(ctx, cmd_name)
        if found is None:
            hint = nearest(cmd_name, self.commands) or f"; there are {', '.join(sorted(self.commands))}"
            raise BadInput(f"there is no study {cmd_name[:100]!r}{hint}")
        return found


@click.group("sweep", cls=Studies)
def command() -> None:
    """Study very many sets, players, conditions and candidates at once.

    Finished chunks are kept in a folder: after Ctrl-C, a kill or a power cut the same command goes on from there. The
    result is the same to the last bit whatever the chunks and however many workers, on one kind of processor. --cluster
    sends the work to a running scheduler (dask scheduler) whose workers have this version of asplayed installed; speak
    only to schedulers you trust, on a network you trust.
    """


def _engine_options(verb: Verb) -> Verb:
    for option in (
        click.option("--into", type=click.Path(path_type=Path), metavar="FOLDER",
                     help="Where finished chunks are kept; sweep-STUDY here, unless said."),
        click.option("--workers", type=click.IntRange(0, 4096), metavar="N",
                     help="Processes on this machine: one a core, unless said; 0 does all in this one."),
        click.option("--cluster", metavar="ADDRESS", help="A running scheduler's address, such as tcp://10.0.0.5:8786."),
        click.option("--chunk", type=click.IntRange(min=1), metavar="N", help="Blocks handed to a worker at once."),
        click.option("--seed", type=click.IntRange(0, 2**63 - 1), default=0, show_default=True,
                     help="Numbers the chance."),
        click.option("--table", type=click.Path(path_type=Path), metavar="FILE",
                     help="Write all rows to a .csv or a .parquet."),
        store_option, json_option, max_size_option,
    ):  # fmt: skip
        verb = option(verb)
    return verb


_course_option = click.option(
    "--course", metavar="COURSE", help="Where it is played: a file in TOML, or Estow; else a usual round."
)


@command.command("landings")
@click.argument("sources", nargs=-1, required=True, metavar="SET…")
@click.option(
    "--shots", type=click.IntRange(1, 10**12), default=100_000, show_default=True, help="Of every combination."
)
@click.option("--club", "clubs", multiple=True, metavar="CLUB", help="Only this club; may be repeated.")
@click.option(
    "--speeds", metavar="LIST", help="Club speeds with a driver, such as 80,95,110mph; else the player's own."
)
@click.option("--handicaps", metavar="LIST", help="Handicaps, such as 0,10,20; else the player's own.")
@click.option("--winds", metavar="LIST", help="Winds along the line, tail +, such as -10,0,10mph.")
@click.option("--loft-changes", metavar="LIST", default="0deg", show_default=True, help="Such as -1,0,1deg; weak +.")
@_engine_options
def landings(sources: tuple[str, ...], **given: Any) -> int | None:
    """Where very many single shots of every club come down: sets × clubs × players × winds × changes of loft."""
    from asplayed.players.records import Conditions
    from asplayed.quantities import figure
    from asplayed.sweeps.landings import Landings

    sets = _sets(sources, given)
    winds = _several(given["winds"], "mph", "--winds") if given["winds"] else None
    conditions: tuple[Conditions, ...] = (
        tuple(Conditions(wind_along=figure(each, "mph", "stated")) for each in winds) if winds else (Conditions(),)
    )
    study = Landings(
        seed=given["seed"],
        sets=sets,
        players=_players(sources[0], sets[0][1], given),
        conditions=conditions,
        clubs=given["clubs"],
        loft_changes=_several(given["loft_changes"], "deg", "--loft-changes"),
        shots=given["shots"],
    )
    return _swept(study, given)


@command.command("best-sets")
@click.argument("sources", nargs=-1, required=True, metavar="SET…")
@click.option("--speeds", metavar="LIST", default="75,95,115mph", show_default=True, help="Club speeds with a driver.")
@click.option("--handicaps", metavar="LIST", default="0,10,20", show_default=True, help="Handicaps; +2 beats scratch.")
@click.option("--try", "tried", multiple=True, type=click.Choice(TRIED), help="What may be tried; all, unless said.")
@click.option("--seconds", type=click.FloatRange(min=0.1), default=20.0, show_default=True, help="To search at most.")
@_course_option
@_engine_options
def best_sets(sources: tuple[str, ...], **given: Any) -> int | None:
    """The best set by speed and handicap over a course: what asplayed choose would have every such player carry."""
    from asplayed.keeping import stored_parts
    from asplayed.sweeps.best_sets import BestSets

    study = BestSets(
        seed=given["seed"],
        sets=_sets(sources, given),
        speeds=_several(given["speeds"], "mph", "--speeds"),
        handicaps=_several(given["handicaps"], "1", "--handicaps"),
        course=course_asked(given),
        parts=tuple(stored_parts(given["store"])),
        tried=given["tried"] or TRIED,
        seconds=given["seconds"],
    )
    return _swept(study, given)


@command.command("soles")
@click.argument("sources", nargs=-1, required=True, metavar="SET…")
@click.option("--club", default="sand wedge", show_default=True, metavar="CLUB", help="The wedge whose sole it is.")
@click.option("--attacks", default="-2,-4.5,-8deg", show_default=True, metavar="LIST", help="Attack angles, down −.")
@click.option("--speeds", metavar="SPEED", help="The player's club speed with a driver; else his own.")
@click.option("--handicaps", metavar="NUMBER", help="The player's handicap; else his own.")
@_course_option
@_engine_options
def soles(sources: tuple[str, ...], **given: Any) -> int | None:
    """What a wedge's sole is worth by ground and attack, and how much it would have to matter.

    How much wider an unsuited sole scatters shots is not published; every row says for which share it holds.
    """
    from asplayed.sweeps.soles import Soles

    sets = _sets(sources, given)
    players = _players(sources[0], sets[0][1], given)
    if len(players) > 1:
        raise BadInput("soles are weighed for one player; give one speed and one handicap")
    study = Soles(
        seed=given["seed"],
        sets=sets,
        player=players[0],
        club=given["club"],
        attacks=_several(given["attacks"], "deg", "--attacks"),
        course=course_asked(given),
    )
    return _swept(study, given)


@command.command("tolerances")
@click.argument("sources", nargs=-1, required=True, metavar="SET…")
@_engine_options
def tolerances(sources: tuple[str, ...], **given: Any) -> int | None:
    """Which findings hang on which tolerance: every figure of every club moved to either end of its band."""
    from asplayed.cli.fly import player_for
    from asplayed.sweeps.tolerances import Tolerances

    sets = _sets(sources, given)
    players = tuple(
        player_for(source, golf_set, given["store"], {}) for source, (_, golf_set) in zip(sources, sets, strict=True)
    )
    return _swept(Tolerances(seed=given["seed"], sets=sets, players=players), given)


# ------------------------------------------------------------------------------------------------ what was asked for


def _sets(sources: Sequence[str], given: Mapping[str, Any]) -> tuple[tuple[str, GolfSet], ...]:
    names = ["standard input" if source == "-" else Path(source).stem for source in sources]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise BadInput(f"{twice[0]} is named twice; give every set once")
    return tuple(
        (name, load_set(source, given["store"], given["max_size"])) for name, source in zip(names, sources, strict=True)
    )


def _several(text: str, unit: str, option: str) -> tuple[float, ...]:
    """A list of numbers with one unit behind the last, in `unit`."""
    from asplayed.quantities import convert, read_quantity, unit_named

    words = [each.strip() for each in text.split(",")]
    found = []
    behind = re.search(r"[^\d.,]*$", words[-1])
    last = behind[0].strip() if behind else ""
    for word in words:
        bare = unit == "1"
        try:
            quantity = read_quantity(word if bare or re.search(r"[a-z°/]$", word, re.I) else f"{word} {last}")
            value = -quantity.value if bare and word.startswith("+") else quantity.value
            there = quantity.unit or "1"
            if unit_named(there).dimension != unit_named(unit).dimension:
                raise BadInput("another dimension")
            found.append(float(convert(float(value), there, unit)))
        except BadInput:
            example = "0,10,20" if bare else f"5,10{unit}"
            raise BadInput(
                f"{option} {text[:100]!r}: {word[:40]!r} is no number of it; write it as {example}"
            ) from None
    twice = sorted({each for each in found if found.count(each) > 1})
    if twice:
        raise BadInput(f"{option} names {twice[0]:g} twice; give every one once")
    return tuple(found)


def _players(source: str, golf_set: GolfSet, given: Mapping[str, Any]) -> tuple[Player, ...]:
    """Every speed with every handicap; where one is not asked for, the player's own."""
    from msgspec.structs import replace

    from asplayed.cli.fly import player_for
    from asplayed.players.records import player_figure

    own = player_for(source, golf_set, given["store"], {})
    found = [own]
    for name, option, unit in (("driver_speed", "speeds", "mph"), ("handicap", "handicaps", "1")):
        if given[option]:
            values = _several(given[option], unit, f"--{option}")
            several = [player_figure(name, f"{value:g}{'' if unit == '1' else unit}") for value in values]
            found = [replace(each, **{name: value}) for each in found for value in several]
    return tuple(found)


# ------------------------------------------------------------------------------------------------------- doing it


def _swept(study: Study, given: Mapping[str, Any]) -> int | None:
    from asplayed.sweeps.engine import sweep
    from asplayed.sweeps.tables import check_table, write_table
    from asplayed.sweeps.workers import pool

    if given["cluster"] is not None and given["workers"] is not None:
        raise BadInput("--workers are processes of this machine, --cluster has its own; give one of the two")
    folder = given["into"] or Path(f"sweep-{study.NAME}")
    if given["table"] is not None:
        check_table(given["table"])
    try:
        with pool(given["workers"], given["cluster"]) as (executor, width):
            found = sweep(study, folder, executor, width=width, chunk=given["chunk"], on_progress=_teller(study.NAME))
    except KeyboardInterrupt:
        click.echo(f"\nstopped; what is finished is kept in {folder}: the same command goes on from there", err=True)
        return 130
    written = None
    if given["table"] is not None:
        written = write_table(found.rows(), study.COLUMNS, given["table"])
    if given["as_json"]:
        _print_json(found)
    else:
        _show(found, given["table"], written)
    return None


def _teller(name: str) -> Callable[[Progress], None]:
    """Says on standard error how far the sweep has come, once a second at most."""
    told = time.monotonic()

    def tell(progress: Progress) -> None:
        nonlocal told
        now = time.monotonic()
        if now - told < 1.0:
            return
        told = now
        left = f", {_clock(progress.left)} left" if progress.left is not None else ""
        before = f", {progress.before} of them before" if progress.before else ""
        line = f"{name}: {progress.done} of {progress.blocks} blocks{before}, {_clock(progress.seconds)} gone{left}"
        tty = sys.stderr.isatty()
        click.echo(f"\r\x1b[K{line}" if tty else line, err=True, nl=not tty)

    return tell


def _clock(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return (
        f"{minutes // 60} h {minutes % 60} min"
        if minutes >= 60
        else f"{minutes} min {rest} s"
        if minutes
        else f"{rest} s"
    )


def _print_json(found: Outcome) -> None:
    import msgspec

    print_json(
        {
            "study": found.study.NAME,
            "blocks": found.blocks,
            "rows": list(found.rows()),
            "tally": msgspec.to_builtins(found.tally),
        }
    )


def _show(found: Outcome, table: Path | None, written: int | None) -> None:
    columns = found.study.COLUMNS
    rows: list[list[str]] = []
    more = 0
    for row in found.rows():
        if len(rows) < SHOWN:
            rows.append(["—" if row[name] is None else _cell(row[name]) for name in columns])
        else:
            more += 1
    print_table(list(columns), rows)
    if more:
        click.echo(f"… and {more} rows more; --table writes them all")
    if found.damaged:
        click.echo(f"{found.damaged} damaged chunks were done again", err=True)
    if table is not None:
        click.echo(f"{written} rows in {table}")


def _cell(value: Any) -> str:
    return f"{value:.5g}" if isinstance(value, float) else str(value)
