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
    from asplayed.telling.bags import Bag
    from asplayed.telling.field import Field
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
@click.argument("sets", metavar="[SET]…", nargs=-1)
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--before", metavar="OTHER", help="The same set at an earlier date: what has changed since is told.")
@click.option("--against", metavar="OTHER", help="Another's set: how the two differ is told, side by side.")
@click.option("--field", metavar="YEAR|all", help="Beside the other players' stored sets of a year, or of all years.")
@click.option("--season", metavar="YEAR", help="No SET: what the winners of that year have in common.")
@click.option(
    "--spoken",
    metavar="FILE",
    help="A timed transcript (WebVTT, SRT): captions follow it, misspoken figures are listed.",
)
@click.option(
    "--only", multiple=True, metavar="FILE", help="Write this file alone, such as player-sheet.pdf; may be repeated."
)
@click.option(
    "--resume", is_flag=True, help="Of several sets, leave those that were told already and have not changed."
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
    against: str | None,
    field: str | None,
    season: str | None,
    spoken: str | None,
    only: tuple[str, ...],
    resume: bool,
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

    With --season YEAR and no SET, FOLDER gets what that year's winners have in common, from the stored sets and the
    places kept with them (asplayed keep result).
    """
    from asplayed.clubs import played_set
    from asplayed.judgement import judge
    from asplayed.telling import tell
    from asplayed.telling.folder import Other
    from asplayed.telling.spoken import read_transcript

    house = _house(style, templates, paper, large_print, spelling)
    _asked(sets, only, season, before, against, field)
    if season is not None:
        _say(_season(season, folder, house, store), folder, as_json)
        return
    beside = before or against
    other = None
    if beside:
        there = played_set(load_set(beside, store, max_size))
        other = Other(there, _flown(beside, there, store, driver_speed), two=against is not None)
    transcript = read_transcript(spoken) if spoken else None
    bags = _bags(field, store) if field is not None else None
    made_with = (before, against, field, spoken, only, house, driver_speed)

    def told(source: str, into: Path) -> dict[str, Any] | None:
        played = played_set(load_set(source, store, max_size))
        flown = _flown(source, played, store, driver_speed)
        made_from = _fingerprint(played, flown, other, bags, transcript, made_with)
        if resume and _told_already(into, made_from):
            return None
        return tell(
            played, judge(played), into, flown=flown, house=house, before=other,
            field=_among(played, source, bags, field), transcript=transcript, only=only, made_from=made_from,
        )  # fmt: skip

    if len(sets) > 1:
        _several(sets, folder, told, as_json)
        return
    manifest = told(sets[0], folder)
    if manifest is None:
        click.echo(f"{folder} holds this set as it stands already")
        return
    _say(manifest, folder, as_json)


def _say(manifest: dict[str, Any], folder: Path, as_json: bool) -> None:
    """What was written, and where to begin."""
    for warning in manifest["warnings"]:
        click.echo(f"asplayed: {warning}", err=True)
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


def _asked(
    sets: tuple[str, ...],
    only: tuple[str, ...],
    season: str | None,
    before: str | None,
    against: str | None,
    field: str | None,
) -> None:
    """Refuse what does not go together."""
    from asplayed.errors import BadInput

    _known(only)
    if season is not None:
        if sets or only or before or against or field:
            raise BadInput("--season tells a whole year and goes with no SET, and with none of --only, --before, "
                           "--against and --field; give FOLDER alone")  # fmt: skip
    elif not sets:
        raise BadInput("no set was named; asplayed tell SET FOLDER tells one, --season YEAR FOLDER tells a season")
    if before and against:
        raise BadInput("--before and --against each lay one other set beside this one; give one of them")


def _bags(field: str, store: str | None) -> tuple[Bag, ...]:
    from asplayed.keeping.bags import stored_bags

    return stored_bags(store, season=None if field == "all" else field)


def _among(played: GolfSet, source: str, bags: tuple[Bag, ...] | None, field: str | None) -> Field | None:
    """The set among the stored bags; itself, where it has no player's name, is known by the name it is stored under."""
    if bags is None or field is None:
        return None
    from asplayed.telling.field import among

    others = tuple(bag for bag in bags if bag.name != source)
    return among(played, others, "every year" if field == "all" else field)


def _season(season: str, folder: Path, house: House, store: str | None) -> dict[str, Any]:
    from asplayed.keeping.bags import stored_bags
    from asplayed.telling.folder import tell_season
    from asplayed.telling.season import counted_season

    return tell_season(counted_season(stored_bags(store, season=season), season), folder, house=house)


def _fingerprint(*made_from: Any) -> str:
    """A hash of all that a telling is made from, and of the version that makes it."""
    import hashlib

    from asplayed import __version__

    return hashlib.sha256(repr((__version__, made_from)).encode("utf-8", "surrogatepass")).hexdigest()


def _told_already(folder: Path, made_from: str) -> bool:
    """True where a folder's manifest is of the same making; it is the last file to get there, so the rest stands."""
    import json

    try:
        manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        return manifest["made_from"] == made_from and all((folder / e["file"]).is_file() for e in manifest["files"])
    except (OSError, ValueError, KeyError, TypeError):
        return False


def _known(only: tuple[str, ...]) -> None:
    from asplayed.errors import BadInput
    from asplayed.telling.folder import WANTED

    for name in only:
        if name not in WANTED:
            raise BadInput(f"--only {name!r} is none of the files; it can be {', '.join(WANTED)}")


def _several(
    sets: tuple[str, ...], folder: Path, told: Callable[[str, Path], dict[str, Any] | None], as_json: bool
) -> None:
    """Every set into a folder of its own, with progress and the time left; the faults of all are named at the end."""
    from asplayed.errors import AsplayedError, BadInput, Refused

    names = [Path(source).stem if looks_like_path(source) else source for source in sets]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise BadInput(f"two sets are called {twice}, and each needs a folder of its own; rename one")
    faults: list[str] = []
    made: list[dict[str, Any]] = []
    stood: list[str] = []
    with click.progressbar(
        zip(sets, names, strict=True), length=len(sets), label="Told", file=sys.stderr, show_pos=True, show_eta=True
    ) as progress:
        for source, name in progress:
            try:
                manifest = told(source, folder / name)
            except AsplayedError as fault:
                faults.append(f"{source}: {fault}")
                continue
            if manifest is None:
                stood.append(source)
            else:
                made.append({"set": source, "folder": str(folder / name), **manifest})
    for each in made:
        for warning in each["warnings"]:
            click.echo(f"asplayed: {each['set']}: {warning}", err=True)
    if as_json:
        print_json({"sets": made, "as_before": stood})
    else:
        before = f", {len(stood)} stood there already" if stood else ""
        click.echo(f"{len(made)} of {len(sets)} sets told in {folder}{before}")
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
