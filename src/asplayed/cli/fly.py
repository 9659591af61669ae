"""`asplayed fly`: what every club of a set does in its player's hands, here or elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

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
    store_option,
)
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.players.flown import FlownClub, FlownSet
    from asplayed.players.records import Conditions, Player
    from asplayed.players.summaries import Session
    from asplayed.quantities import Figure

Verb = TypeVar("Verb", bound=Callable[..., Any])

# option -> (field of Conditions, metavar, help)
CONDITIONS = {
    "--temperature": ("temperature", "DEGREES", "Temperature of the air, such as 50degF or 10degC."),
    "--humidity": ("humidity", "PERCENT", "Relative humidity, such as 50percent."),
    "--altitude": ("altitude", "HEIGHT", "Height above the sea, such as 5000ft."),
    "--pressure": ("pressure", "PRESSURE", "The barometer at the place itself, such as 1013hPa."),
    "--wind-along": ("wind_along", "SPEED", "Wind along the line, tail +, head -, such as -10mph."),
    "--wind-across": ("wind_across", "SPEED", "Wind across the line, + pushing the ball right, such as 8mph."),
    "--landing-height": ("landing_height", "HEIGHT", "How far the target lies above the ball, such as -10yd."),
}
_PLAYER = {"--speed": ("driver_speed", "SPEED"), "--handicap": ("handicap", "NUMBER")}


def conditions_options(verb: Verb) -> Verb:
    """The options that say in what air, wind and on what ground."""
    verb = click.option("--ground", type=click.Choice(("soft", "normal", "firm")), help="How the ground plays.")(verb)
    for option, (field, metavar, words) in reversed(CONDITIONS.items()):
        verb = click.option(option, field, metavar=metavar, help=words)(verb)
    return verb


def conditions_of(given: Mapping[str, Any]) -> Conditions:
    """The conditions that the options give; every figure carries its unit."""
    from asplayed.players.places import conditions_said

    called = {
        field: (option, words.rsplit("such as ", 1)[1].rstrip(".")) for option, (field, _, words) in CONDITIONS.items()
    }
    return conditions_said(given, called, given.get("ground"))


@click.command("fly")
@click.argument("source", metavar="SET")
@click.option("--shots", "files", multiple=True, metavar="FILE", help="A table of shots struck with this set.")
@click.option(
    "--columns", metavar="MAP.JSON", help='Column names of --shots to the known ones: {"Carry dist": "carry [yd]"}.'
)
@click.option("--keep-good-rows", is_flag=True, help="Take the good rows of a table that has bad ones.")
@click.option("--speed", "driver_speed", metavar="SPEED", help="The player's club speed with a driver, such as 105mph.")
@click.option("--handicap", metavar="NUMBER", help="The player's handicap; +2 is two better than scratch.")
@conditions_options
@click.option("--seed", type=click.IntRange(0, 2**32 - 1), default=0, show_default=True, help="Numbers the chance.")
@store_option
@json_option
@max_size_option
def command(
    source: str,
    files: tuple[str, ...],
    columns: str | None,
    keep_good_rows: bool,
    store: str | None,
    as_json: bool,
    max_size: int,
    seed: int,
    **given: Any,
) -> None:
    """Fly every club of SET but the putter: carry, total, height, descent and spread, each with its band.

    What the player does with the clubs comes from the shots imported for SET, from --shots, else from the usual
    delivery at his driver speed or handicap. The air is that of the shots, or the one asked for, else 70 °F at sea
    level.
    """
    from asplayed.players.flying import fly_set

    conditions = conditions_of(given)
    golf_set = load_set(source, store, max_size)
    if all(club.kind == "putter" for club in golf_set.clubs):
        raise BadInput(
            f"{'standard input' if source == '-' else source} holds no club to fly; give one besides a putter"
        )
    sessions = [
        *sessions_of(source, store),
        *(_from_file(file, golf_set, columns, keep_good_rows, max_size) for file in files),
    ]
    answer = fly_set(golf_set, player_for(source, golf_set, store, given), sessions, conditions=conditions, seed=seed)
    if as_json:
        from asplayed.players.flown import as_plain

        print_json(as_plain(answer))
    else:
        _show(answer)


def sessions_of(source: str, store: str | None) -> Sequence[Session]:
    """The sessions stored for a SET; none for a file."""
    if source == "-" or Path(source).is_file() or looks_like_path(source):
        return ()
    from asplayed.keeping.shots import stored_sessions

    return stored_sessions(source, store)


def player_for(source: str, golf_set: GolfSet, store: str | None, given: Mapping[str, Any]) -> Player:
    """The player of a SET: as the options say, else as stored, else as the list says."""
    import msgspec

    from asplayed.players.records import player_figure, player_of

    player = None
    if not (source == "-" or Path(source).is_file() or looks_like_path(source)):
        from asplayed.keeping.shots import stored_player

        player = stored_player(source, store)
    said = {field: player_figure(field, given[field]) for field, _ in _PLAYER.values() if given.get(field) is not None}
    return msgspec.structs.replace(player or player_of(golf_set), **said)


def _from_file(file: str, golf_set: GolfSet, columns: str | None, keep_good_rows: bool, max_size: int) -> Session:
    from asplayed.catalogue.tables import read_table
    from asplayed.cli.common import column_map_of
    from asplayed.players.records import SessionFacts
    from asplayed.players.shots import shots_of
    from asplayed.players.summaries import Session

    table = read_table(read_bytes(file, max_size), file)
    found = shots_of(
        table, golf_set.clubs, column_map=column_map_of(columns) if columns else {}, keep_good_rows=keep_good_rows
    )
    for sentence in (*found.faults[:20], *found.remarks):
        click.echo(sentence, err=True)
    return Session(SessionFacts(file=file), found.shots)


def _show(answer: FlownSet) -> None:
    from rich.text import Text

    from asplayed.telling.words import counted

    page = console()

    def say(sentence: str) -> None:
        page.print(Text(sentence))

    columns = ("carry", "total", "apex", "descent", "time", "side", "depth", "width", "launch", "spin", "ball_speed")
    headings = [
        f"{name.replace('_', ' ')}\n[{getattr(answer.clubs[0], name).unit.replace('deg', '°')}]" for name in columns
    ]
    rows = [
        [each.label, *(_cell(getattr(each, name)) for name in columns), str(each.shots) if each.shots else "—"]
        for each in answer.clubs
    ]
    print_table(["club", *headings, "shots"], rows, right=(*headings, "shots"), page=page)
    parts = [(each, swing) for each in answer.clubs for swing in each.part_swings]
    if parts:
        say(
            "Part swings with the wedges, carry: " + "; ".join(_part(each) for each in answer.clubs if each.part_swings)
        )
    say(
        "Carry and the rest: the typical normal swing, with its 90 % band. Depth and width: one standard deviation of "
        "single shots. Side: + right."
    )
    flagged = sum(each.flagged for each in answer.clubs)
    if flagged:
        say(f"{counted(flagged, 'shot')} flagged as mis-hits and kept aside; asplayed shots show lists them.")
    if answer.fit is not None:
        drag, lift = answer.fit.drag, answer.fit.lift
        say(
            f"This ball in these hands: drag × {drag.number:.3f}, lift × {lift.number:.3f}; "
            f"{answer.fit.unexplained.number:.1f} yd of carry stay unexplained."
        )
    for sentence in answer.assumed:
        say(f"Assumed: {sentence}")


def _cell(figure: Figure) -> str:
    places = 2 if figure.unit == "s" else 1 if figure.unit == "deg" else 0
    value = f"{figure.number:.{places}f}".replace("-", "−")
    value = value.lstrip("−") if not float(value.replace("−", "-")) else value
    if figure.low is None or figure.high is None:
        return value
    return f"{value}\n±{figure.half_width:.{max(places, 0)}f}"


def _part(club: FlownClub) -> str:
    return f"{club.label} " + ", ".join(f"{each.swing} {each.carry.number:.0f} yd" for each in club.part_swings)
