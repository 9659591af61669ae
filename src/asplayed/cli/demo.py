"""`asplayed demo`: the whole job on the demo scenario."""

from __future__ import annotations

import click

from asplayed.cli.common import json_option, print_json


@click.command()
@click.argument("folder", default="demo-output", type=click.Path(file_okay=True))
@json_option
def command(folder: str, as_json: bool) -> None:
    """Run the whole job on an invented workshop's week and leave the results in FOLDER."""
    from asplayed.demo import run

    week = run(folder, say=lambda line: click.echo(line, err=as_json))
    if as_json:
        print_json(
            {
                "folder": str(week.folder),
                "store": str(week.store),
                "parts": week.parts,
                "sets": [{**told._asdict(), "folder": str(told.folder)} for told in week.sets],
            }
        )
        return
    click.echo()
    click.echo(f"Open {week.sets[-1].folder / 'index.html'} in a browser.")
    click.echo(f"Ask further with: asplayed show {week.sets[-1].name} --store {week.store}")
