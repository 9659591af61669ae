"""`asplayed take`: a list read, settled against the catalogue, and stored."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from asplayed.cli.common import (
    console,
    find_words,
    json_option,
    max_size_option,
    print_json,
    print_table,
    store_option,
    who,
)
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet


@click.command("take")
@click.argument("source", metavar="LIST")
@click.option("--as", "name", metavar="NAME", help="The name to store it under. Default: the player's or the file's.")
@click.option("--why", metavar="TEXT", help="Why it is stored now; kept in its history.")
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="CLUB.FIELD=VALUE",
    help="Answer a question; what it says of a part is remembered for other lists.",
)
@store_option
@json_option
@max_size_option
def command(
    source: str,
    name: str | None,
    why: str | None,
    answers: tuple[str, ...],
    store: str | None,
    as_json: bool,
    max_size: int,
) -> None:
    """Read LIST, settle its parts against the catalogue, and store it with its words.

    LIST is a file, - for standard input, or a stored name: its words are then read afresh. Under a name that is stored
    already it becomes that set's next version; nothing is written over.
    """
    from asplayed.intake.answers import parse_answers
    from asplayed.keeping import find_place, list_sets, open_store
    from asplayed.keeping.understanding import about_parts, understand, usual_name
    from asplayed.quantities import plain

    given = find_words(source, store, max_size)
    answered = parse_answers(answers, None)
    golf_set = understand(given.text, given.called, store, answered)
    asked = understand(given.text, given.called, store) if answered else golf_set
    if not golf_set.clubs:
        raise BadInput(f"no club was found in {given.called}; nothing was stored: give one club a line")
    stored = {entry.name: entry for entry in list_sets(store)}
    name = name or (given.name if given.stored else usual_name(golf_set, given.name, stored))
    seen = stored[name].version if name in stored else None
    with open_store(store) as kept:
        saved = kept.save_set(
            name,
            golf_set,
            given.original,
            who=who(),
            why=why,
            based_on=seen,
            answered=about_parts(asked, answered),
        )
    if as_json:
        answer = {"name": saved.name, "version": saved.version, "new": saved.new, "store": str(find_place(store))}
        print_json({"stored": answer, **plain(golf_set)})
        return
    tell(golf_set)
    place = find_place(store)
    if saved.new:
        click.echo(f"Stored as {saved.name}, version {saved.version}, in {place}.")
    else:
        click.echo(f"Already stored as {saved.name}, version {saved.version}, in {place}: nothing has changed.")


def tell(golf_set: GolfSet) -> None:
    """The clubs as they were understood, and what is still to be asked."""
    from asplayed.cli.show import heading, remainder, say
    from asplayed.clubs.names import labels
    from asplayed.telling.words import part_name, settings, value_text

    page = console()
    say(page, heading(golf_set), style="bold")
    rows = []
    for name, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True):
        shaft = " ".join(word for word in (part_name(club.shaft), club.shaft.flex) if word)
        loft = value_text(club.head.loft) if club.head.loft else ""
        head = " ".join(word for word in (part_name(club.head), loft) if word)
        rows.append([name, head, shaft, value_text(club.length), "\n".join(settings(club))])
    print_table(["club", "head", "shaft", "length", "set and altered"], rows, page=page)
    for disagreement in golf_set.disagreements:
        where = f", {disagreement.club}" if disagreement.club else ""
        say(page, f"The catalogue disagrees{where}: {disagreement.sentence}")
    remainder(golf_set, page)
    say(page, "")
