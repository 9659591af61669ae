"""`asplayed keep`: what is stored, what became of it, and the way back."""

from __future__ import annotations

import click

from asplayed.cli.common import json_option, print_json, print_table, store_option, who


@click.group("keep")
def command() -> None:
    """Look after the stored sets: list them, see their history, go back a version, write one out."""


@command.command("list")
@store_option
@json_option
def list_(store: str | None, as_json: bool) -> None:
    """List the stored sets by name."""
    from asplayed.keeping import find_place, list_sets

    sets = list_sets(store)
    if as_json:
        print_json({"sets": [entry._asdict() for entry in sets]})
    elif not sets:
        click.echo(f"Nothing is stored in {find_place(store)} yet; asplayed take LIST stores a set.")
    else:
        rows = [[e.name, e.player or "", e.date or "", str(e.clubs), str(e.version)] for e in sets]
        print_table(["name", "player", "date", "clubs", "version"], rows, right=["clubs", "version"])


@command.command("history")
@click.argument("name", metavar="SET")
@store_option
@json_option
def history(name: str, store: str | None, as_json: bool) -> None:
    """Show every version of a stored SET: who stored it, when, and why."""
    from asplayed.keeping import set_history

    versions = set_history(name, store)
    if as_json:
        print_json({"name": name, "versions": [entry._asdict() for entry in versions]})
        return
    rows = []
    for entry in versions:
        done = entry.what
        if entry.restores is not None:
            done = f"undo, back to version {entry.restores}" if entry.restores else "undo, back to before the first"
        rows.append([str(entry.version), entry.at[:19].replace("T", " "), entry.who, done, entry.why or ""])
    print_table(["version", "when (UTC)", "who", "what", "why"], rows, right=["version"])


@command.command("undo")
@click.argument("name", metavar="SET")
@click.option("--why", metavar="TEXT", help="Why; kept in the history.")
@store_option
@json_option
def undo(name: str, why: str | None, store: str | None, as_json: bool) -> None:
    """Go back to the version of SET before the one that stands; nothing is lost, and the history shows it."""
    from asplayed.keeping import open_store, set_history

    set_history(name, store)  # a name that is not stored is said so before a store is made for it
    with open_store(store) as kept:
        saved = kept.undo_set(name, who=who(), why=why)
    if as_json:
        print_json({"name": saved.name, "version": saved.version, "hidden": saved.hidden})
    elif saved.hidden:
        click.echo(f"{saved.name} is out of use, as it was before its first version; its history is kept.")
    else:
        click.echo(f"{saved.name} stands as it was before; this is version {saved.version}.")


@command.command("export")
@click.argument("name", metavar="SET")
@click.option("--version", type=click.IntRange(min=1), metavar="N", help="An older version. Default: the newest.")
@click.option("--words", is_flag=True, help="The words it was read from, byte for byte, instead of the record.")
@store_option
def export(name: str, version: int | None, words: bool, store: str | None) -> None:
    """Write a stored SET to standard output, as the JSON that every verb takes, or as its own words."""
    from asplayed.keeping import read_set
    from asplayed.quantities import plain

    stored = read_set(name, store, version)
    if words:
        click.echo(stored.original, nl=False)
    else:
        print_json(plain(stored.golf_set))
