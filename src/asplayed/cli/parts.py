"""`asplayed parts`: the catalogue of published parts: import, find, show, add, export."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import (
    column_map_of,
    json_option,
    max_size_option,
    print_json,
    print_table,
    read_bytes,
    remembered_columns,
    store_option,
    who,
)
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.catalogue import Part
    from asplayed.catalogue.parts import ImportedParts, Merged

KINDS = ("head", "shaft", "grip", "ball", "sleeve")
_SHOWN = 20


@click.group("parts")
@click.pass_context
def command(ctx: click.Context) -> None:
    """The catalogue of published parts."""
    # Very many small records and no cycles among them: looking for some would cost as much as the work.
    if gc.isenabled():
        gc.disable()
        ctx.call_on_close(gc.enable)


@command.command("import")
@click.argument("source", metavar="FILE")
@click.option("--columns", "columns", metavar="MAP.JSON", help='Your column names to the known ones: {"Wt": "mass"}.')
@click.option("--fill", multiple=True, metavar="COLUMN=VALUE", help="A value for every row that has none.")
@click.option("--sheet", metavar="NAME", help="The sheet of a workbook; default: the first with anything in it.")
@click.option("--dry-run", is_flag=True, help="Say what would be taken; store nothing.")
@click.option("--keep-good-rows", is_flag=True, help="Take the good rows of a table that has bad ones.")
@click.option("--replace", is_flag=True, help="Let rows replace those of the same part, document and dates.")
@store_option
@json_option
@max_size_option
def import_(
    source: str,
    columns: str | None,
    fill: tuple[str, ...],
    sheet: str | None,
    dry_run: bool,
    keep_good_rows: bool,
    replace: bool,
    store: str | None,
    as_json: bool,
    max_size: int,
) -> None:
    """Take the parts in FILE into the catalogue: CSV, TSV, XLSX, or text pasted from a page (- for standard input).

    The first row names the columns, a unit in brackets behind the name or in a second row: `loft [deg]`. Needed are
    `part` and `model`. Columns named otherwise are mapped once with --columns, and remembered.
    """
    from asplayed.catalogue.parts import merge, parts_of
    from asplayed.catalogue.tables import read_table
    from asplayed.keeping import open_store, stored_parts

    name = "standard input" if source == "-" else source
    data = read_bytes(source, max_size)
    table = read_table(data, name, sheet=sheet)
    given = column_map_of(columns) if columns else None
    with _progress(as_json) as progress:
        imported = parts_of(
            table,
            column_map=remembered_columns(table.columns, store) if given is None else given,
            fill=dict(_pair(field) for field in fill),
            keep_good_rows=keep_good_rows,
            progress=progress,
        )
    merged = merge(stored_parts(store), imported.parts, replace=replace)
    if not dry_run:
        with open_store(store) as kept:
            kept.save_parts((*merged.added, *merged.changed), file=name, content=data, who=who())
            if given is not None:
                kept.remember_columns(table.columns, given, who=who())
    if as_json:
        print_json(
            {
                "file": name,
                "dry_run": dry_run,
                "added": len(merged.added),
                "changed": len(merged.changed),
                "unchanged": merged.unchanged,
                **{
                    key: list(getattr(imported, key))
                    for key in ("merged", "questions", "differences", "refused", "notes", "remarks")
                },
            }
        )
        return
    _tell_import(name, imported, merged, dry_run)


def _tell_import(name: str, imported: ImportedParts, merged: Merged, dry_run: bool) -> None:
    for words, sentences in (
        ("", imported.remarks),
        ("Left out", imported.refused),
        ("Merged", imported.merged),
        ("Unusual, and kept", imported.questions),
        ("Documents differ", imported.differences),
    ):
        for sentence in sentences[:_SHOWN]:
            click.echo(f"{words}: {sentence}" if words else sentence)
        if len(sentences) > _SHOWN:
            click.echo(f"{words}: … and {len(sentences) - _SHOWN} more")
    if imported.notes:
        click.echo(f"Kept as notes, being columns that nobody here knows: {', '.join(imported.notes[:_SHOWN])}")
    if dry_run:
        _print_parts([(part, None) for part in (*merged.added, *merged.changed)[:_SHOWN]])
    verb = "would be" if dry_run else "were"
    click.echo(
        f"{name}: {len(merged.added)} parts {verb} added, {len(merged.changed)} changed; "
        f"{merged.unchanged} {'are' if dry_run else 'were'} there already."
    )


def _pair(field: str) -> tuple[str, str]:
    name, equals, value = field.partition("=")
    if not equals:
        raise BadInput(f"--fill {field[:60]!r} has no =; write it as part=head")
    return name.strip(), value


@contextmanager
def _progress(quiet: bool) -> Iterator[Callable[[int, int], None] | None]:
    """A bar on standard error, where somebody looks at it."""
    from rich.console import Console
    from rich.progress import Progress

    console = Console(stderr=True)
    if quiet or not console.is_terminal:
        yield None
        return
    with Progress(console=console, transient=True) as bar:
        task = bar.add_task("Reading rows", total=None)
        yield lambda done, expected: bar.update(task, completed=done, total=expected)


@command.command("find")
@click.argument("words", nargs=-1, required=True)
@click.option("--kind", type=click.Choice(KINDS), help="Only this kind of part.")
@click.option("--limit", type=click.IntRange(1, 1000), default=20, show_default=True, help="How many at most.")
@store_option
@json_option
def find_(words: tuple[str, ...], kind: Any, limit: int, store: str | None, as_json: bool) -> None:
    """Find parts by anything: name, nickname, misspelling, flex, stamp, sole, document."""
    from asplayed.catalogue.matching import Catalogue, search
    from asplayed.quantities import plain

    hits = search(Catalogue(_catalogue(store)), " ".join(words), kind=kind, limit=limit)
    if as_json:
        print_json({"parts": [{**plain(hit.part), "score": hit.score, "reason": hit.reason} for hit in hits]})
    elif hits:
        _print_parts([(hit.part, hit.score) for hit in hits])
    else:
        click.echo("No part in the catalogue answers to that; try fewer words, or add it with `asplayed parts add`.")


@command.command("show")
@click.argument("words", nargs=-1, required=True)
@click.option("--kind", type=click.Choice(KINDS), help="Only this kind of part.")
@store_option
@json_option
def show(words: tuple[str, ...], kind: Any, store: str | None, as_json: bool) -> None:
    """Show everything published of one model: each row, each figure with its document."""
    from asplayed.catalogue.matching import ACCEPTED, Catalogue
    from asplayed.quantities import plain

    said = " ".join(words)
    matches = Catalogue(_catalogue(store)).find(said, kind=kind, limit=5)
    names = [f"{m.model.part} {m.model.maker or ''} {m.model.model}".replace("  ", " ") for m in matches]
    if not matches or matches[0].score < ACCEPTED:
        near = f"; nearest are {', '.join(names)}" if names else ""
        raise BadInput(f"the catalogue has no model {said[:80]!r}{near}; look with `asplayed parts find`")
    # A head and its sleeve may share their names: all that answer equally well are shown.
    chosen = [match for match in matches if match.score == matches[0].score]
    rows = [row for match in chosen for row in match.model.rows]
    if as_json:
        print_json({"parts": [{**plain(row), "score": matches[0].score} for row in rows]})
        return
    for row in rows:
        _print_one(row)


def _print_one(part: Part) -> None:
    """One row in full."""
    facts = [
        ("made for", ", ".join(part.club)),
        *((name, getattr(part, name) or "") for name in ("sole", "neck", "colour", "launch", "spin", "construction")),
        *((name, _figure(part, name)) for name in part.figures),
        ("fits", ", ".join(part.fits)),
        ("also called", ", ".join(part.nickname)),
        ("offered", _offered(part)),
        *part.notes.items(),
        ("document", part.source),
    ]
    click.echo(f"{part.part}: {part.named}")
    for name, text in facts:
        if text:
            click.echo(f"  {name.ljust(14)} {text}")


def _figure(part: Part, name: str) -> str:
    from asplayed.quantities import write_quantity

    figure = part.figures.get(name)
    return write_quantity(figure.number, figure.unit, places=3) if figure is not None else ""


def _offered(part: Part) -> str:
    if not part.offered_from and not part.offered_until:
        return ""
    return f"{part.offered_from or '?'} to {part.offered_until or 'now'}"


def _print_parts(found: list[tuple[Part, float | None]]) -> None:
    scored = any(score is not None for _, score in found)
    columns = ["name", "part", "club", "loft", "bounce", "mass", "offered", "document"]
    rows = [
        [
            part.named,
            part.part,
            ", ".join(part.club),
            *(_figure(part, name) for name in ("loft", "bounce", "mass")),
            _offered(part),
            part.source,
            *([f"{score:.0f}"] if scored else []),
        ]
        for part, score in found
    ]
    print_table([*columns, *(["score"] if scored else [])], rows, right=("loft", "bounce", "mass", "score"))


def _catalogue(store: str | None) -> tuple[Part, ...]:
    from asplayed.keeping import stored_parts

    parts = stored_parts(store)
    if not parts:
        raise BadInput("the catalogue is empty; fill it with `asplayed parts import FILE` or `asplayed parts add`")
    return parts


@command.command("add")
@click.argument("fields", nargs=-1, required=True, metavar="COLUMN=VALUE…")
@store_option
@json_option
def add(fields: tuple[str, ...], store: str | None, as_json: bool) -> None:
    """Add one part by hand: `asplayed parts add part=shaft maker=Lindrake model=Ember flex=S mass=64g`.

    The columns are those of a table of parts. Added again with other figures, it is changed; its history is kept.
    """
    from asplayed.catalogue.parts import BY_HAND, merge, part_by_hand
    from asplayed.keeping import open_store, stored_parts
    from asplayed.quantities import plain

    part = part_by_hand(fields)
    merged = merge(stored_parts(store), [part], replace=True)
    with open_store(store) as kept:
        kept.save_parts((*merged.added, *merged.changed), file=BY_HAND, content="\n".join(fields).encode(), who=who())
    if as_json:
        print_json({"part": plain(part), "added": len(merged.added), "changed": len(merged.changed)})
    else:
        _print_one(part)
        click.echo("Added." if merged.added else "Changed." if merged.changed else "It was there already.")


@command.command("export")
@click.argument("target", metavar="FILE", default="-")
@store_option
def export(target: str, store: str | None) -> None:
    """Write the catalogue as CSV that imports back the same; - for standard output."""
    from asplayed.catalogue import write_parts

    parts = _catalogue(store)
    text = write_parts(parts)
    if target == "-":
        click.echo(text, nl=False)
        return
    path = Path(target)
    unfinished = path.with_name(f".{path.name}.unfinished")
    try:
        unfinished.write_text(text, encoding="utf-8", newline="")
        unfinished.replace(path)
    except OSError as fault:
        unfinished.unlink(missing_ok=True)
        raise BadInput(f"{target} cannot be written: {fault.strerror}; name a folder that can be") from None
    click.echo(f"{len(parts)} parts written to {target}.")
