"""`asplayed shots`: sessions of shots: import one, show what they say; and what is known of the player."""

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
    read_bytes,
    store_option,
    who,
)
from asplayed.cli.fly import conditions_of, conditions_options, player_for, sessions_of
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.players.records import Player
    from asplayed.players.summaries import ClubSummary

_SHOWN = 20
_COLUMNS = ("carry", "total", "side", "club speed", "ball speed", "launch", "spin", "apex", "descent")


@click.group("shots")
def command() -> None:
    """Sessions of shots, and the player who struck them."""


@command.command("import")
@click.argument("source", metavar="FILE")
@click.option("--set", "set_name", required=True, metavar="SET", help="The stored set the shots were struck with.")
@click.option("--columns", metavar="MAP.JSON", help='Your column names to the known ones: {"Carry dist": "carry"}.')
@click.option("--keep-good-rows", is_flag=True, help="Take the good rows of a table that has bad ones.")
@click.option("--sheet", metavar="NAME", help="The sheet of a workbook; default: the first with anything in it.")
@click.option("--date", metavar="YYYY-MM-DD", help="The day of the session.")
@click.option("--ball", metavar="WORDS", help="The ball that was struck.")
@click.option("--surface", type=click.Choice(("mat", "turf")), help="What the ball lay on.")
@conditions_options
@store_option
@json_option
@max_size_option
def import_(
    source: str,
    set_name: str,
    columns: str | None,
    keep_good_rows: bool,
    sheet: str | None,
    date: str | None,
    ball: str | None,
    surface: Any,
    store: str | None,
    as_json: bool,
    max_size: int,
    **given: Any,
) -> None:
    """Take the shots in FILE (CSV, TSV, XLSX, or - for standard input) as a session struck with SET.

    The first row names the columns, a unit in brackets behind the name or in a second row: `carry [yd]`. Needed is
    `club`, and any of club speed, ball speed, attack, path, face, dynamic loft, launch, launch direction, spin, spin
    axis, strike toe, strike high, carry, side, apex, descent, total, time. Columns named otherwise are mapped once with
    --columns, and remembered.
    """
    from asplayed.catalogue.tables import read_table
    from asplayed.cli.common import column_map_of, remembered_columns
    from asplayed.keeping import open_store
    from asplayed.keeping.shots import save_session
    from asplayed.players.records import SessionFacts
    from asplayed.players.shots import shots_of
    from asplayed.players.summaries import Session

    conditions = conditions_of(given)
    golf_set = _stored_set(set_name, store)
    name = "standard input" if source == "-" else source
    data = read_bytes(source, max_size)
    table = read_table(data, name, sheet=sheet)
    mapping = column_map_of(columns) if columns else None
    found = shots_of(
        table,
        golf_set.clubs,
        column_map=remembered_columns(table.columns, store) if mapping is None else mapping,
        keep_good_rows=keep_good_rows,
    )
    facts = SessionFacts(
        file=Path(source).name if source != "-" else None,
        date=_date(date),
        ball=ball,
        surface=surface,
        conditions=conditions,
    )
    with open_store(store) as kept:
        saved = save_session(kept, set_name, Session(facts, found.shots), data, who=who(), notes=found.notes)
        if mapping is not None:
            kept.remember_columns(table.columns, mapping, who=who())
    counts = {each: int((found.shots.club == place).sum()) for place, each in enumerate(found.shots.clubs)}
    counts = {each: count for each, count in counts.items() if count}
    if as_json:
        print_json(
            {
                "file": name,
                "set": set_name,
                "new": saved.new,
                "shots": len(found.shots.row),
                "clubs": counts,
                "refused": list(found.faults),
                "remarks": list(found.remarks),
                "notes": sorted({column for _, column, _ in found.notes}),
            }
        )
        return
    for sentence in found.remarks:
        click.echo(sentence)
    for sentence in found.faults[:_SHOWN]:
        click.echo(f"Left out: {sentence}")
    if len(found.faults) > _SHOWN:
        click.echo(f"Left out: … and {len(found.faults) - _SHOWN} more")
    told = ", ".join(f"{each} {count}" for each, count in counts.items())
    if saved.new:
        click.echo(f"{name}: {len(found.shots.row)} shots were taken for {set_name}: {told}.")
    else:
        click.echo(f"{name}: these shots were there already; nothing was changed.")


def _date(text: str | None) -> str | None:
    import datetime

    if text is None:
        return None
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        raise BadInput(f"--date {text[:40]!r} is not a day; write it as 2026-03-15") from None


def _stored_set(name: str, store: str | None) -> Any:
    if name == "-" or Path(name).is_file() or looks_like_path(name):
        raise BadInput(f"{name} is not a stored set; store it first with asplayed take {name} --as NAME")
    return load_set(name, store)


@command.command("show")
@click.argument("source", metavar="SET")
@store_option
@json_option
def show(source: str, store: str | None, as_json: bool) -> None:
    """Show what the shots of SET say: each club's typical shot with its band, the spread, the flagged shots.

    A flagged shot stands apart from its club's others; it is kept out of the typical shot and never deleted. How many
    more shots would tell two neighbours apart is said below.
    """
    from asplayed.players.summaries import flag, open_questions, pooled, summary_as_plain
    from asplayed.quantities import plain

    _stored_set(source, store)
    sessions = sessions_of(source, store)
    if not sessions:
        raise BadInput(f"no shots are stored for {source}; take some with asplayed shots import FILE --set {source}")
    clubs = pooled(sessions)
    questions = open_questions(clubs)
    rows = []
    for number, session in enumerate(sessions, 1):
        flagged, why = flag(session.shots)
        rows += [
            {
                "row": int(row),
                "club": session.shots.clubs[int(club)],
                "flagged": bool(apart),
                "why": why.get(place),
                "session": number,
            }
            for place, (row, club, apart) in enumerate(zip(session.shots.row, session.shots.club, flagged, strict=True))
        ]
    if as_json:
        print_json(
            {
                "clubs": [summary_as_plain(each) for each in clubs],
                "shots": rows,
                "questions": plain(questions),
                "sessions": plain([session.facts for session in sessions]),
            }
        )
        return
    _show(clubs, rows)
    for number, session in enumerate(sessions, 1):
        facts = session.facts
        known = [word for word in (facts.file, facts.date, facts.ball, facts.surface) if word]
        click.echo(f"Session {number}: {', '.join([*known, f'{len(session.shots.row)} shots'])}")
    for question in questions:
        click.echo(question.sentence[0].upper() + question.sentence[1:] + ".")


def _show(clubs: tuple[ClubSummary, ...], rows: list[dict[str, Any]]) -> None:
    from asplayed.players.summaries import unit_of
    from asplayed.telling.words import counted

    shown = [column for column in _COLUMNS if any(each.typical(column) for each in clubs)]
    headings = [f"{column}\n[{unit_of(column).replace('deg', '°')}]" for column in shown]
    table = []
    for each in clubs:
        cells = []
        for column in shown:
            figure = each.figure(column)
            places = 1 if unit_of(column) == "deg" else 0
            cells.append("—" if figure is None else f"{figure.number:.{places}f}\n±{figure.half_width:.{places}f}")
        depth = each.spread("carry")
        table.append([each.club, str(each.shots), str(each.flagged), *cells, f"{depth.number:.0f}" if depth else "—"])
    print_table(
        ["club", "shots", "flagged", *headings, "depth\n[yd]"],
        table,
        right=("shots", "flagged", *headings, "depth\n[yd]"),
        page=console(),
    )
    click.echo("The typical shot (median of the shots not flagged) with its 90 % band; depth: one standard deviation.")
    apart = [row for row in rows if row["flagged"]]
    for row in apart[:_SHOWN]:
        click.echo(f"Flagged, line {row['row']}, {row['club']}: {row['why']}")
    if len(apart) > _SHOWN:
        click.echo(f"… and {counted(len(apart) - _SHOWN, 'flagged shot')} more")


@command.command("hide")
@click.argument("source", metavar="SET")
@click.argument("number", type=click.IntRange(min=1), metavar="SESSION")
@store_option
def hide(source: str, number: int, store: str | None) -> None:
    """Take session SESSION of SET, as `shots show` counts them, out of use; importing its file brings it back."""
    from asplayed.keeping import open_store
    from asplayed.keeping.shots import hide_session

    _stored_set(source, store)
    with open_store(store) as kept:
        hide_session(kept, source, number, who=who())
    click.echo(f"Session {number} of {source} is out of use; its shots are kept.")


_MEASURES = {
    "--speed": ("driver_speed", "Club speed with a driver of usual length, such as 105mph."),
    "--handicap": ("handicap", "Handicap; +2 is two better than scratch."),
    "--height": ("height", "Height, such as 71in."),
    "--wrist-to-floor": ("wrist_to_floor", "From the crease of the wrist to the floor, such as 34in."),
    "--hand-size": ("hand_size", "From the wrist to the tip of the longest finger, such as 7.5in."),
    "--stroke-arc": ("stroke_arc", "Arc of the putting stroke in degrees of face, such as 6deg."),
}


def _measures(verb: Any) -> Any:
    for option, (field, words) in reversed(_MEASURES.items()):
        verb = click.option(option, field, metavar="FIGURE", help=words)(verb)
    return verb


@command.command("player")
@click.argument("source", metavar="SET")
@_measures
@click.option(
    "--usual",
    multiple=True,
    metavar="KIND.FIGURE=VALUE",
    help="What he usually delivers: attack, added loft (over the club's own), path and face (+ right), "
    "such as iron.attack=-4deg.",
)
@click.option("--limits", metavar="WORDS", help="What the player's body does not allow, in his own words.")
@conditions_options
@store_option
@json_option
def player_(
    source: str, usual: tuple[str, ...], limits: str | None, store: str | None, as_json: bool, **given: Any
) -> None:
    """Show, or with options set, what is known of the player of SET: speed, measures, where he usually plays."""
    import msgspec

    from asplayed.keeping import open_store
    from asplayed.keeping.shots import save_player
    from asplayed.players.records import Conditions, player_figure, with_usual
    from asplayed.quantities import plain

    golf_set = _stored_set(source, store)
    player = player_for(source, golf_set, store, {})
    said: dict[str, Any] = {
        field: player_figure(field, given[field]) for field, _ in _MEASURES.values() if given.get(field) is not None
    }
    if usual:
        said["delivery"] = with_usual(player, usual)
    if limits is not None:
        said["limits"] = limits.strip()[:1000] or None
    home = conditions_of(given)
    if home != Conditions():
        known = {field: value for field in Conditions.__struct_fields__ if (value := getattr(home, field)) is not None}
        said["home"] = msgspec.structs.replace(player.home, **known)
    if said:
        player = msgspec.structs.replace(player, **said)
        with open_store(store) as kept:
            save_player(kept, source, player, who=who())
    if as_json:
        print_json(plain(player))
    else:
        _tell(player)


def _tell(player: Player) -> None:
    from asplayed.players.records import LIMITS_CAUTION
    from asplayed.telling.words import value_text

    click.echo(f"{player.name or 'The player'}, {player.hand}-handed")
    for option, (field, _) in _MEASURES.items():
        if (figure := getattr(player, field)) is not None:
            click.echo(f"  {option.removeprefix('--').replace('-', ' ')}: {value_text(figure)}, {figure.source.value}")
    for each in player.delivery:
        told = [
            f"{field.replace('_', ' ')} {value_text(figure)}"
            for field in ("attack", "added_loft", "path", "face")
            if (figure := getattr(each, field)) is not None
        ]
        click.echo(f"  usual delivery with the {each.kind}: {', '.join(told)}")
    for field in ("temperature", "humidity", "altitude", "pressure"):
        if (figure := getattr(player.home, field)) is not None:
            click.echo(f"  plays in {field}: {value_text(figure)}")
    if player.home.ground:
        click.echo(f"  plays on {player.home.ground} ground")
    if player.limits:
        click.echo(f"  limits, in his words: {player.limits}")
        click.echo(f"  Caution: {LIMITS_CAUTION}.")
