"""`asplayed tell SET FOLDER`: the set written down for a reader."""

from __future__ import annotations

from pathlib import Path

import click

from asplayed.cli.common import json_option, load_set, max_size_option, print_json, store_option


@click.command("tell")
@click.argument("golf_set", metavar="SET")
@click.argument("folder", type=click.Path(path_type=Path))
@json_option
@store_option
@max_size_option
def command(golf_set: str, folder: Path, as_json: bool, store: str | None, max_size: int) -> None:
    """Write the sheet of a SET into FOLDER: every club as played, the set drawn, findings, cautions.

    SET is a stored name, a file, or - for standard input. FOLDER is made where there is none; other files in it are
    left alone. Open index.html in it: it links all the rest.
    """
    from asplayed.clubs import played_set
    from asplayed.judgement import judge
    from asplayed.telling import tell

    found = load_set(golf_set, store, max_size)
    manifest = tell(played_set(found), judge(found), folder)
    if as_json:
        print_json(manifest)
        return
    for entry in manifest["files"]:
        click.echo(f"{entry['file']}: {entry['kind']}")
    click.echo(f"Open {folder / 'index.html'}")
