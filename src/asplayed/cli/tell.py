"""`asplayed tell SET FOLDER`: the set written down for a reader, a player and a presenter."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import json_option, load_set, looks_like_path, max_size_option, print_json, store_option

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.players.flown import FlownSet
    from asplayed.telling.house import House


def _copy_templates(context: click.Context, _: click.Parameter, folder: Path | None) -> None:
    """Write the templates that come with the tool into a folder, to be changed there, and do nothing else."""
    if folder is None:
        return
    from asplayed.telling.house import copy_templates

    for name in copy_templates(folder):
        click.echo(f"{folder / name}")
    context.exit()


@click.command("tell")
@click.argument("sets", metavar="SET…", nargs=-1, required=True)
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--before", metavar="SET", help="The same set at an earlier date: what has changed since is told.")
@click.option(
    "--spoken",
    metavar="FILE",
    help="A timed transcript (WebVTT, SRT): captions follow it, misspoken figures are listed.",
)
@click.option(
    "--only", multiple=True, metavar="FILE", help="Write this file alone, such as player-sheet.pdf; may be repeated."
)
@click.option("--style", "style", metavar="FILE", help="A house style in TOML: name, colour, logo, pronunciations, ….")
@click.option("--templates", metavar="DIR", type=click.Path(path_type=Path), help="A folder of your own templates.")
@click.option(
    "--copy-templates",
    metavar="DIR",
    type=click.Path(path_type=Path),
    is_eager=True,
    expose_value=False,
    callback=_copy_templates,
    help="Write the templates into DIR, to change them there.",
)
@click.option("--paper", type=click.Choice(("a4", "letter")), help="Paper of the PDFs.  [default: a4]")
@click.option("--large-print", is_flag=True, help="Set the PDFs in large print.")
@click.option("--spelling", type=click.Choice(("british", "american")), help="Spelling of our own words.")
@click.option(
    "--speed", "driver_speed", metavar="SPEED", help="The player's driver speed, such as 105mph: gives carries."
)
@json_option
@store_option
@max_size_option
def command(
    sets: tuple[str, ...],
    folder: Path,
    before: str | None,
    spoken: str | None,
    only: tuple[str, ...],
    style: str | None,
    templates: Path | None,
    paper: str | None,
    large_print: bool,
    spelling: str | None,
    driver_speed: str | None,
    as_json: bool,
    store: str | None,
    max_size: int,
) -> None:
    """Write everything that can be told of a SET into FOLDER: sheets, cards, cue sheet, captions, overlays, pictures.

    SET is a stored name, a file, or - for standard input. FOLDER is made where there is none; other files in it are
    left alone. Open index.html in it: it links all the rest. Several SETs are told each into a folder of its own in
    FOLDER. Carries are told where shots of the set or the player's speed are known, and shown as missing elsewhere.
    """
    from asplayed.clubs import played_set
    from asplayed.judgement import judge
    from asplayed.telling import tell
    from asplayed.telling.spoken import read_transcript

    house = _house(style, templates, paper, large_print, spelling)
    _known(only)
    earlier = played_set(load_set(before, store, max_size)) if before else None
    transcript = read_transcript(spoken) if spoken else None

    def told(source: str, into: Path) -> dict[str, Any]:
        played = played_set(load_set(source, store, max_size))
        flown = _flown(source, played, store, driver_speed)
        return tell(
            played, judge(played), into, flown=flown, house=house, before=earlier, transcript=transcript, only=only
        )

    if len(sets) > 1:
        _several(sets, folder, told, as_json)
        return
    manifest = told(sets[0], folder)
    if as_json:
        print_json(manifest)
        return
    for entry in manifest["files"]:
        if not entry["file"].startswith("overlays/"):
            click.echo(f"{entry['file']}: {entry['kind']}")
    count = sum(entry["file"].startswith("overlays/") for entry in manifest["files"])
    if count:
        click.echo(f"overlays/: {count} pictures of the clubs and of the set")
    click.echo(f"Open {folder / 'index.html'}")


def _known(only: tuple[str, ...]) -> None:
    from asplayed.errors import BadInput
    from asplayed.telling.folder import WANTED

    for name in only:
        if name not in WANTED:
            raise BadInput(f"--only {name!r} is none of the files; it can be {', '.join(WANTED)}")


def _several(sets: tuple[str, ...], folder: Path, told: Callable[[str, Path], dict[str, Any]], as_json: bool) -> None:
    """Every set into a folder of its own, with progress; the faults of all are named together at the end."""
    from asplayed.errors import AsplayedError, BadInput, Refused

    names = [Path(source).stem if looks_like_path(source) else source for source in sets]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise BadInput(f"two sets are called {twice}, and each needs a folder of its own; rename one")
    faults, made = [], []
    with click.progressbar(zip(sets, names, strict=True), length=len(sets), label="Told", file=sys.stderr) as progress:
        for source, name in progress:
            try:
                made.append({"set": source, "folder": str(folder / name), **told(source, folder / name)})
            except AsplayedError as fault:
                faults.append(f"{source}: {fault}")
    if as_json:
        print_json({"sets": made})
    else:
        click.echo(f"{len(made)} of {len(sets)} sets told in {folder}")
    if faults:
        raise Refused("what could not be told", faults)


def _house(
    style: str | None, templates: Path | None, paper: str | None, large_print: bool, spelling: str | None
) -> House:
    """The house style of a file, with what the options say put over it."""
    from asplayed.errors import BadInput
    from asplayed.telling.house import PLAIN, house_style

    if templates is not None and not templates.is_dir():
        raise BadInput(f"there is no folder {templates}; name one that holds templates")
    said: dict[str, Any] = {
        "templates": templates,
        "paper": paper,
        "large_print": large_print or None,
        "spelling": spelling,
    }
    house = house_style(style) if style else PLAIN
    return house._replace(**{key: value for key, value in said.items() if value is not None})


def _flown(source: str, played: GolfSet, store: str | None, driver_speed: str | None) -> FlownSet | None:
    """The set in its player's hands, where shots or a speed or handicap of his are known; else nothing is flown."""
    from asplayed.cli.fly import player_for, sessions_of

    sessions = sessions_of(source, store)
    player = player_for(source, played, store, {"driver_speed": driver_speed})
    if all(club.kind == "putter" for club in played.clubs) or not (
        sessions or player.driver_speed is not None or player.handicap is not None
    ):
        return None
    from asplayed.players.flying import fly_set

    return fly_set(played, player, sessions)
