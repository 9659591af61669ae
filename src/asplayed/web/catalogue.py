"""The catalogue: found by anything, filled from tables with a look beforehand, or by hand in ten seconds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple, get_args

import msgspec

from asplayed.errors import BadInput
from asplayed.web.faults import sentences_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, download, page, see_other, shown
from asplayed.web.tables import Laid, laid_out, remember, remembered, said_of, sent_of, table_of

if TYPE_CHECKING:
    from asplayed.catalogue.parts import ImportedParts, Merged, Part

tab = Tab("Catalogue", "/parts", "g c")
_SHOWN = 50


class Looked(NamedTuple):
    """A table looked at before it is taken: how it is laid out, and what would come of it, or every fault."""

    laid: Laid
    imported: ImportedParts | None = None
    merged: Merged | None = None
    faults: tuple[str, ...] = ()


@shown("/parts")
def parts_page(here: Here, words: str = "", kind: str = "", taken: str = "") -> Page:
    """Parts that answer to some words, or how many there are."""
    from asplayed.catalogue.columns import known_columns
    from asplayed.catalogue.matching import search
    from asplayed.catalogue.parts import PartKind

    parts, arranged = here.app.known.catalogue()
    kinds: tuple[PartKind, ...] = get_args(PartKind)
    of_kind = next((each for each in kinds if each == kind), None)
    found = search(arranged, words[:200], kind=of_kind, limit=_SHOWN) if words.strip() else ()
    return page(
        here,
        "catalogue.html",
        words=words,
        kind=kind,
        kinds=kinds,
        taken=taken,
        parts=[hit.part for hit in found] if words.strip() else parts[:_SHOWN],
        of=len(parts),
        documents=len({part.document for part in parts}),
        columns=known_columns("parts"),
    )


@shown("/parts/table")
def whole_table(here: Here) -> Answer:
    """The catalogue as a table that comes in again the same."""
    from asplayed.catalogue import write_parts

    return download(write_parts(here.app.known.catalogue()[0]).encode(), "parts.csv", "text/csv; charset=utf-8")


def looked_at(here: Here, key: str, said: dict[str, str], *, keep_good_rows: bool, replace: bool) -> Looked:
    """A table that waits, as it would be taken."""
    from asplayed.catalogue.columns import known_columns
    from asplayed.catalogue.parts import merge, parts_of

    sent = here.app.waiting.get(key, here.who)
    laid = laid_out(key, sent, known_columns("parts"), said)
    try:
        imported = parts_of(table_of(sent), column_map=said, keep_good_rows=keep_good_rows)
        return Looked(laid, imported, merge(here.app.known.catalogue()[0], imported.parts, replace=replace))
    except BadInput as fault:
        return Looked(laid, faults=sentences_of(fault))


def _looked_page(here: Here, found: Looked, form: Form) -> Page:
    from asplayed.catalogue.columns import known_columns

    return page(
        here,
        "catalogue-table.html",
        found=found,
        columns=known_columns("parts"),
        keep_good_rows=bool(form.text("keep_good_rows")),
        replace=bool(form.text("replace")),
        shown_parts=(*found.merged.added, *found.merged.changed)[:_SHOWN] if found.merged else (),
    )


@done("/parts/table", upload=True)
def look_at_table(here: Here, form: Form) -> Page:
    """A table that was sent or pasted, looked at: nothing is stored."""
    sent = sent_of(here, form, "no table was given; choose a CSV, TSV or XLSX file, or paste one from a page")
    found = looked_at(here, here.app.waiting.put(sent), remembered(here, sent), keep_good_rows=False, replace=False)
    return _looked_page(here, found, form)


@done("/parts/table/{key:str}")
def take_table(here: Here, key: str, form: Form) -> Answer | Page:
    """The table that waits, with its columns as said: looked at once more, or taken."""
    sent = here.app.waiting.get(key, here.who)
    said = said_of(form, sent)
    found = looked_at(
        here, key, said, keep_good_rows=bool(form.text("keep_good_rows")), replace=bool(form.text("replace"))
    )
    if form.text("then") != "take" or found.merged is None:
        return _looked_page(here, found, form)
    here.kept.save_parts(
        (*found.merged.added, *found.merged.changed), file=sent.name, content=sent.content, who=here.who
    )
    remember(here, sent, said)
    here.app.waiting.drop(key)
    return see_other(f"/parts?taken={len(found.merged.added)} added, {len(found.merged.changed)} changed")


def _added(here: Here, fields: tuple[str, ...]) -> tuple[Part, str]:
    from asplayed.catalogue.parts import BY_HAND, merge, part_by_hand

    part = part_by_hand(fields)
    merged = merge(here.app.known.catalogue()[0], [part], replace=True)
    here.kept.save_parts(
        (*merged.added, *merged.changed), file=BY_HAND, content="\n".join(fields).encode(), who=here.who
    )
    return part, "added" if merged.added else "changed" if merged.changed else "there already"


@done("/parts")
def add_part(here: Here, form: Form) -> Answer:
    """A part by hand: its name, and its figures one a line."""
    named = [f"{name}={form.text(name)}" for name in ("part", "maker", "model", "variant", "club") if form.text(name)]
    more = [line.strip() for line in form.long_text("figures").splitlines() if line.strip()]
    part, became = _added(here, (*named, *more))
    return see_other(f"/parts?words={part.named}&taken=one {became}")


class NewPart(msgspec.Struct, frozen=True):
    """A part by hand: `column=value`, the columns being those of a table of parts."""

    fields: tuple[str, ...]


class NewTable(msgspec.Struct, frozen=True):
    """A table of parts as text, with what its columns mean where they are named otherwise."""

    text: str
    name: str = "the table"
    columns: dict[str, str] = {}
    keep_good_rows: bool = False
    replace: bool = False
    dry_run: bool = False


@asked("/api/parts")
def api_parts(here: Here, words: str, kind: str = "", limit: int = 20) -> dict[str, Any]:
    """Parts that answer to some words, best first."""
    from asplayed.catalogue.matching import search
    from asplayed.catalogue.parts import PartKind
    from asplayed.quantities import plain

    if kind and kind not in get_args(PartKind):
        raise BadInput(f"{kind[:40]!r} is no kind of part; kinds are {', '.join(get_args(PartKind))}")
    if not 1 <= limit <= 1000:
        raise BadInput("limit is how many at most, 1 to 1000")
    hits = search(here.app.known.catalogue()[1], words, kind=kind or None, limit=limit)  # type: ignore[arg-type]
    return {"parts": [{**plain(hit.part), "score": hit.score, "reason": hit.reason} for hit in hits]}


@asked("/api/parts", method="POST")
def api_add_part(here: Here, data: NewPart) -> dict[str, Any]:
    """Add one part by hand; one of the same name and document is changed, its history kept."""
    from asplayed.quantities import plain

    part, became = _added(here, data.fields)
    return {"part": plain(part), "became": became}


@asked("/api/parts/table", method="POST", upload=True)
def api_take_table(here: Here, data: NewTable) -> dict[str, Any]:
    """Take a table of parts into the catalogue, or say with `dry_run` what would come of it."""
    from asplayed.catalogue.parts import merge, read_parts

    content = data.text.encode()
    imported = read_parts(content, data.name, column_map=data.columns, keep_good_rows=data.keep_good_rows)
    merged = merge(here.app.known.catalogue()[0], imported.parts, replace=data.replace)
    if not data.dry_run:
        here.kept.save_parts((*merged.added, *merged.changed), file=data.name, content=content, who=here.who)
    return {
        "dry_run": data.dry_run,
        "added": len(merged.added),
        "changed": len(merged.changed),
        "unchanged": merged.unchanged,
        **{
            key: list(getattr(imported, key))
            for key in ("merged", "questions", "differences", "refused", "notes", "remarks")
        },
    }


routes = (
    parts_page, whole_table, look_at_table, take_table, add_part, api_parts, api_add_part, api_take_table,
)  # fmt: skip
