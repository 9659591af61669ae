"""`asplayed keep`: what is stored, what became of it, and the way back."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import json_option, max_size_option, print_json, print_table, read_bytes, store_option, who
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.keeping.seasons import Share


@click.group("keep")
def command() -> None:
    """Look after the stored sets: list them, see their history, go back a version, make and prove backups."""


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
            to = f"version {entry.restores}" if entry.restores else "before the first"
            done = f"{entry.what}, to {to}"
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


@command.command("show")
@click.argument("name", metavar="SET")
@click.option("--version", type=click.IntRange(min=1), metavar="N", help="An older version. Default: the newest.")
@click.option("--words", is_flag=True, help="The words it was read from, byte for byte, instead of the record.")
@store_option
def show(name: str, version: int | None, words: bool, store: str | None) -> None:
    """Write a stored SET to standard output, as the JSON that every verb takes, or as its own words."""
    from asplayed.keeping import read_set
    from asplayed.quantities import plain

    stored = read_set(name, store, version)
    if words:
        click.echo(stored.original, nl=False)
    else:
        print_json(plain(stored.golf_set))


@command.command("verify")
@click.argument("place", metavar="[STORE|BACKUP]", required=False)
@click.option("--head", metavar="HASH", help="A chain's end noted down before: it must still be part of the past.")
@store_option
@json_option
def verify(place: str | None, head: str | None, store: str | None, as_json: bool) -> int:
    """Prove a store or a backup whole; the exit is 3 when it is not.

    Looks at the file, its keys, the chain of what was done, every hash and every record, and works out every figure
    of the newest sets. Changes nothing.
    """
    from asplayed.keeping.proving import prove

    proof = prove(place or store, head=head)
    if as_json:
        print_json({"ok": proof.ok, "checked": proof.checked, "faults": proof.faults})
    else:
        for fault in proof.faults:
            click.echo(f"fault: {fault}")
        looked = ", ".join(f"{number} {what}" for what, number in proof.checked.items() if isinstance(number, int))
        click.echo(f"{proof.place} {'is whole' if proof.ok else 'is NOT whole'}{f': {looked} checked' * bool(looked)}.")
        if "head" in proof.checked:
            click.echo(f"Its chain ends in {proof.checked['head']}.")
        if not proof.ok:
            click.echo("Bring it back from a backup: asplayed keep restore BACKUP PLACE.")
    return 0 if proof.ok else 3


@command.command("backup")
@click.argument("folder", metavar="[FOLDER]", required=False)
@click.option("--keep", type=click.IntRange(min=1), metavar="N", help="Remove older backups but N and one a month.")
@store_option
@json_option
def backup(folder: str | None, keep: int | None, store: str | None, as_json: bool) -> None:
    """Copy the store into FOLDER while it is in use, and prove the copy. Default: `backups` beside the store."""
    from asplayed.keeping import find_place
    from asplayed.keeping.backups import back_up, remove_old

    into = Path(folder).expanduser() if folder else None
    made = back_up(store, into)
    gone = remove_old(find_place(store), into, keep=keep) if keep else ()
    if as_json:
        print_json({"backup": str(made.file), "head": made.head, "removed": [str(file) for file in gone]})
    else:
        click.echo(f"{made.file} is a proved backup.{f' {len(gone)} older ones were removed.' if gone else ''}")


@command.command("restore")
@click.argument("backup", metavar="BACKUP")
@click.argument("place", metavar="PLACE")
@json_option
def restore(backup: str, place: str, as_json: bool) -> None:
    """Put a proved copy of BACKUP at PLACE; a store that stands there is kept under another name."""
    from asplayed.keeping.backups import restore as put_back

    done = put_back(backup, place)
    if as_json:
        print_json({"store": str(done.place), "kept": done.kept and str(done.kept)})
    else:
        kept = f" What stood there is kept as {done.kept}." if done.kept else ""
        click.echo(f"{done.place} is restored and proved.{kept}")


@command.command("export")
@click.argument("folder", metavar="FOLDER")
@store_option
@json_option
def export(folder: str, store: str | None, as_json: bool) -> None:
    """Write everything that is stored into a new FOLDER, as plain files that `keep import` reads back.

    history.jsonl is all that was done, with its JSON Schema beside it; originals holds the words and files; the CSV
    tables are for people and spreadsheets.
    """
    from msgspec.structs import asdict

    from asplayed.keeping.exporting import export as write_out

    told = write_out(store, Path(folder).expanduser())
    if as_json:
        print_json({"folder": folder, **asdict(told)})
    else:
        click.echo(f"{told.actions} actions are written out, with all they did, to {folder}.")


@command.command("import")
@click.argument("folder", metavar="FOLDER")
@max_size_option
@store_option
@json_option
def import_(folder: str, max_size: int, store: str | None, as_json: bool) -> None:
    """Make the store again that FOLDER was exported from, where nothing is stored yet (--store PATH)."""
    from asplayed.keeping import find_place
    from asplayed.keeping.importing import import_folder

    made = import_folder(Path(folder).expanduser(), store, max_size=max_size)
    if as_json:
        print_json({"store": str(find_place(store)), **made._asdict()})
    else:
        click.echo(f"{find_place(store)} holds {made.records} records in {made.versions} versions, proved whole.")


@command.command("redo")
@click.argument("name", metavar="SET")
@click.option("--why", metavar="TEXT", help="Why; kept in the history.")
@store_option
@json_option
def redo(name: str, why: str | None, store: str | None, as_json: bool) -> None:
    """Take the last undo of SET back."""
    from asplayed.keeping import open_store, set_history

    set_history(name, store)
    with open_store(store) as kept:
        saved = kept.redo_set(name, who=who(), why=why)
    if as_json:
        print_json({"name": saved.name, "version": saved.version, "hidden": saved.hidden})
    else:
        click.echo(f"{saved.name} stands as it did before the undo; this is version {saved.version}.")


@command.command("hide")
@click.argument("name", metavar="SET")
@click.option("--why", metavar="TEXT", help="Why; kept in the history.")
@store_option
@json_option
def hide(name: str, why: str | None, store: str | None, as_json: bool) -> None:
    """Take SET out of use; its history stays, and undo brings it back."""
    from asplayed.keeping import open_store, set_history

    set_history(name, store)
    with open_store(store) as kept:
        saved = kept.hide_set(name, who=who(), why=why)
    if as_json:
        print_json({"name": saved.name, "version": saved.version, "hidden": saved.hidden})
    else:
        click.echo(f"{saved.name} is out of use; its history is kept, and asplayed keep undo brings it back.")


@command.command("compare")
@click.argument("before", metavar="A")
@click.argument("after", metavar="B")
@store_option
@json_option
def compare(before: str, after: str, store: str | None, as_json: bool) -> None:
    """Show what differs between the stored sets A and B.

    Each is a name, a version (ada@2), or a date (ada@2025-10-20: as it stood at the end of that day, UTC).
    """
    from asplayed.keeping.comparing import compare as look

    found = look(before, after, store)
    if as_json:
        print_json({"before": before, "after": after, "differences": [each._asdict() for each in found]})
    elif not found:
        click.echo(f"{before} and {after} do not differ.")
    else:
        from asplayed.telling.workings import field_name

        rows = [[each.club or "the set", field_name(each.field), each.before or "", each.after or ""] for each in found]
        print_table(["club", "what", before, after], rows, wrap=(before, after))


@command.command("attach")
@click.argument("name", metavar="SET")
@click.argument("file", metavar="FILE")
@click.option("--why", metavar="TEXT", help="Why; kept in the history.")
@max_size_option
@store_option
@json_option
def attach(name: str, file: str, why: str | None, max_size: int, store: str | None, as_json: bool) -> None:
    """Keep FILE (a photo, a PDF, a table) with SET, under the hash of what it holds."""
    from asplayed.keeping import open_store, set_history
    from asplayed.keeping.attaching import attach as keep_with
    from asplayed.quantities import plain

    content = read_bytes(file, max_size)
    set_history(name, store)
    with open_store(store) as kept:
        done = keep_with(kept, name, file, content, who=who(), why=why)
    if as_json:
        print_json({**plain(done.attachment), "new": done.new})
    else:
        already = "" if done.new else " already"
        click.echo(f"{done.attachment.file} is{already} kept with {name} as {done.attachment.sha256[:12]}.")


@command.command("attachments")
@click.argument("name", metavar="SET")
@store_option
@json_option
def attachments(name: str, store: str | None, as_json: bool) -> None:
    """List what is kept with SET."""
    from asplayed.keeping import read_set
    from asplayed.keeping.attaching import attachments as look
    from asplayed.quantities import plain

    read_set(name, store)
    found = look(name, store)
    if as_json:
        print_json({"name": name, "attachments": [plain(each) for each in found]})
    elif not found:
        click.echo(f"Nothing is kept with {name}; asplayed keep attach {name!r} FILE keeps a file with it.")
    else:
        rows = [[each.sha256[:12], each.file, each.media, str(each.size)] for each in found]
        print_table(["hash", "file", "kind", "bytes"], rows, right=["bytes"])


@command.command("fetch")
@click.argument("name", metavar="SET")
@click.argument("sha256", metavar="HASH")
@click.argument("target", metavar="FILE")
@store_option
def fetch(name: str, sha256: str, target: str, store: str | None) -> None:
    """Write what is kept with SET under HASH (its beginning will do) to a new FILE."""
    from asplayed.keeping.attaching import content_of, write_new

    told, content = content_of(name, sha256, store)
    write_new(Path(target), content)
    click.echo(f"{told.file} is written to {target}.")


@command.command("erase")
@click.argument("player", metavar="PLAYER")
@click.option("--why", metavar="TEXT", help="On whose request and by which law; kept. Do not name the person.")
@click.option("--really", is_flag=True, help="Do it. Without this, what would be erased is only shown.")
@store_option
@json_option
def erase(player: str, why: str | None, really: bool, store: str | None, as_json: bool) -> None:
    """Erase for good what is kept of PLAYER: all sets that ever named them, and all that belongs to those.

    That it was done, when and by whom is kept. Backups and exports made before still hold the data: remove them too.
    """
    from asplayed.keeping import find_place, open_store
    from asplayed.keeping.backups import backups_of
    from asplayed.keeping.erasing import erase_player, of_player
    from asplayed.keeping.reading import reading

    if really:
        with reading(store) as read:
            of_player(read, player)  # refused before a store is opened to write
        with open_store(store) as kept:
            found = erase_player(kept, player, who=who(), why=why)
    else:
        with reading(store) as read:
            found = of_player(read, player)
    backups = [str(backup.file) for backup in backups_of(find_place(store))]
    if as_json:
        names = [{"kind": each.kind, "name": each.name} for each in found]
        print_json({"erased": really, "records": names, "backups": backups})
        return
    for each in found:
        click.echo(f"{'erased' if really else 'would be erased'}: the {each.kind} {each.name}")
    if backups:
        click.echo(f"These backups {'still' if really else 'would still'} hold it: {', '.join(backups)}.")
    if not really:
        click.echo("Nothing was erased; --really erases it, and there is no way back.")


@command.command("result")
@click.argument("name", metavar="SET")
@click.argument("place", metavar="PLACE")
@click.option("--why", metavar="TEXT", help="Why; kept in the history.")
@store_option
def result(name: str, place: str, why: str | None, store: str | None) -> None:
    """Keep the PLACE that its player took with SET in its event; 1 is the winner's, T3 a shared third."""
    from asplayed.keeping import open_store, read_set
    from asplayed.keeping.results import read_place, save_result

    found = read_place(place)
    if found is None:
        raise BadInput(f"PLACE {place[:40]!r} is no place; give a number from 1, or T3 for a shared third")
    read_set(name, store)
    with open_store(store) as kept:
        new = save_result(kept, name, found.number, who=who(), why=why, tied=found.tied)
    tied, already = " (tied)" if found.tied else "", "" if new else ", as stored already"
    click.echo(f"{name} placed {_numbered(found.number)}{tied}{already}.")


def _numbered(number: int) -> str:
    """A place as it is written: 1st, 2nd, 3rd, 11th."""
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


FIELDS = ("model", "shaft", "flex", "loft", "length", "sole", "grip", "ball", "colour")
KINDS = ("driver", "fairway wood", "hybrid", "driving iron", "iron", "wedge", "putter")


@command.command("season")
@click.argument("field", type=click.Choice(FIELDS))
@click.option("--kind", type=click.Choice(KINDS), help="Of clubs of this kind only.")
@click.option("--season", metavar="YEAR", help="In this year only.")
@click.option("--weeks", is_flag=True, help="Week by week (ISO weeks) instead of year by year.")
@click.option("--winners", "by_winners", is_flag=True, help="The winners' share beside that of all others.")
@click.option("--seen", "by_seen", is_flag=True, help="The weeks in which each was first and last seen.")
@click.option("--picture", metavar="FILE", help="Draw the shares into a new FILE, .svg or .png.")
@click.option("--csv", "as_csv", is_flag=True, help="Answer in CSV.")
@store_option
@json_option
def season(
    field: str, kind: str | None, season: str | None, weeks: bool, by_winners: bool, by_seen: bool,
    picture: str | None, as_csv: bool, store: str | None, as_json: bool,
) -> None:  # fmt: skip
    """The share of each FIELD's values in the stored sets, by season.

    Every set counts once, as its newest version stands, in the week of its date. Lofts are in degrees, lengths in
    inches.
    """
    from asplayed.keeping import seasons

    if by_winners + by_seen + weeks > 1:
        raise BadInput("--weeks, --winners and --seen are three questions; ask one of them")
    if picture and (by_winners or by_seen):
        raise BadInput("a picture shows shares, by season or with --weeks; ask for it without --winners and --seen")
    shape: Sequence[str]
    rows: Sequence[Any]
    if by_winners:
        shape, rows = seasons.Beside._fields, seasons.winners(field, store, kind=kind, season=season)
    elif by_seen:
        shape, rows = seasons.Seen._fields, seasons.seen(field, store, kind=kind, season=season)
    else:
        shares = seasons.shares(field, store, kind=kind, season=season, weeks=weeks)
        shape, rows = seasons.Share._fields, shares
        if picture:
            draw(shares, f"{field.capitalize()}, {'week by week' if weeks else 'season by season'}", picture)
    answer({"field": field}, shape, rows, as_json=as_json, as_csv=as_csv)


def draw(shares: Sequence[Share], caption: str, file: str) -> None:
    """Draw shares into a new file, as its ending says."""
    from asplayed.keeping.attaching import write_new
    from asplayed.telling.palette import LIGHT
    from asplayed.telling.share_pictures import ShareRow, shares_picture

    ending = Path(file).suffix.lower()
    if ending not in (".svg", ".png"):
        raise BadInput(f"{file} should end in .svg or .png, so that it is known what to draw")
    rows = [ShareRow(each.period, each.kind, each.value, each.number, each.of) for each in shares]
    drawn = shares_picture(rows, caption, colours=LIGHT if ending == ".png" else None)
    if drawn is None:
        raise BadInput("nothing stored answers this, so there is nothing to draw")
    content = drawn.svg.encode()
    if ending == ".png":
        from asplayed.telling.typesetting import pictures

        page = "#set page(width: auto, height: auto, margin: 8pt, fill: white)\n"
        page += '#image("shares.svg", width: data.wide * 1pt)'
        [content] = pictures(page, {"wide": 2 * drawn.width}, files={"shares.svg": content})
    write_new(Path(file), content)
    click.echo(f"{file} shows it.", err=True)


@command.command("unchanged")
@click.argument("player", metavar="PLAYER")
@click.option("--csv", "as_csv", is_flag=True, help="Answer in CSV.")
@store_option
@json_option
def unchanged(player: str, as_csv: bool, store: str | None, as_json: bool) -> None:
    """For each club of PLAYER, the longest run of dated sets over which it stayed the same."""
    from asplayed.keeping import seasons

    rows = seasons.longest_unchanged(player, store)
    answer({"player": player}, seasons.Unchanged._fields, rows, as_json=as_json, as_csv=as_csv)


@command.command("search")
@click.argument("words", metavar="WORD…", nargs=-1, required=True)
@click.option("--csv", "as_csv", is_flag=True, help="Answer in CSV.")
@store_option
@json_option
def search(words: tuple[str, ...], as_csv: bool, store: str | None, as_json: bool) -> None:
    """Find the sets in which every WORD stands, or begins a word: in their own words or in what is stored of them."""
    from asplayed.keeping import searching

    rows = searching.search(" ".join(words), store)
    answer({"words": " ".join(words)}, searching.Found._fields, rows, as_json=as_json, as_csv=as_csv)


@command.command("sql")
@click.argument("question", metavar="SELECT")
@click.option("--csv", "as_csv", is_flag=True, help="Answer in CSV.")
@store_option
@json_option
def sql(question: str, as_csv: bool, store: str | None, as_json: bool) -> None:
    """Ask the store one SELECT; it can change nothing, and has 10 seconds and 10,000 rows."""
    from asplayed.keeping.curious import ask

    told = ask(question, store)
    rows = [[each.hex() if isinstance(each, bytes) else each for each in row] for row in told.rows]
    if told.cut:
        click.echo(f"There are more than these {len(rows)} rows.", err=True)
    answer({"columns": told.columns}, told.columns, rows, as_json=as_json, as_csv=as_csv)


def answer(
    about: dict[str, Any], shape: Sequence[str], rows: Sequence[Sequence[Any]], *, as_json: bool, as_csv: bool
) -> None:
    """Show rows as JSON, as CSV, or as a table."""
    if as_json:
        found = [dict(zip(shape, row, strict=True)) for row in rows]
        print_json({**about, "rows": [{k: v if finite(v) else None for k, v in row.items()} for row in found]})
    elif as_csv:
        from asplayed.keeping.plain_files import csv_text

        click.echo(csv_text(shape, rows), nl=False)
    elif not rows:
        click.echo("Nothing stored answers this.")
    else:
        numbers = [name for place, name in enumerate(shape) if isinstance(rows[0][place], int | float)]
        cells = [["" if cell is None else f"{cell}" for cell in row] for row in rows]
        print_table([name.replace("_", " ") for name in shape], cells, right=[n.replace("_", " ") for n in numbers])


def finite(value: Any) -> bool:
    """False for the numbers that JSON does not have."""
    return not isinstance(value, float) or math.isfinite(value)
