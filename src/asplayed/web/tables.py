"""A table that was sent and is looked at before it is taken: its columns, its first rows, what each column is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput
from asplayed.web.kit import Form, Here
from asplayed.web.waiting import Sent

if TYPE_CHECKING:
    from asplayed.catalogue.columns import Column
    from asplayed.catalogue.tables import Table

_ROWS = 6


class Laid(NamedTuple):
    """A table laid out: the key under which it waits, its name, its columns, what each is taken for, its first rows."""

    key: str
    name: str
    columns: tuple[str, ...]
    taken_for: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def sent_of(here: Here, form: Form, nothing: str) -> Sent:
    """The table in a form, as a file or pasted; `nothing` is the sentence for a form that brings neither."""
    upload, pasted = form.file("table"), form.long_text("pasted")
    if upload is not None:
        return Sent(here.who, upload.name, upload.content)
    if not pasted.strip():
        raise BadInput(nothing)
    return Sent(here.who, "pasted", pasted.encode())


def table_of(sent: Sent) -> Table:
    """The table to be read; its rows are there once."""
    from asplayed.catalogue.tables import read_table

    return read_table(sent.content, sent.name)


def remembered(here: Here, sent: Sent) -> dict[str, str]:
    """What somebody once said the columns of such a table are."""
    from asplayed.keeping.columns import recall
    from asplayed.keeping.reading import reading

    with reading(here.store) as read:
        return recall(read, table_of(sent).columns) or {}


def said_of(form: Form, sent: Sent) -> dict[str, str]:
    """What a form says the columns of a table are; nothing for a note."""
    return {column: form.text(f"column-{place}") for place, column in enumerate(table_of(sent).columns)}


def remember(here: Here, sent: Sent, said: Mapping[str, str]) -> None:
    """Keep for the next table with these columns what they are."""
    columns = {theirs: ours for theirs, ours in said.items() if ours}
    here.kept.remember_columns(table_of(sent).columns, columns, who=here.who)


def laid_out(key: str, sent: Sent, known: Mapping[str, Column], said: Mapping[str, str]) -> Laid:
    """A table laid out, its columns as they are said to be, or as their names tell."""
    from asplayed.catalogue.columns import assign

    table = table_of(sent)
    rows = tuple(row.cells for _, row in zip(range(_ROWS), table.rows, strict=False))
    taken_for = tuple(said.get(column, "") for column in table.columns)
    try:
        assigned = assign(table, known, said)
    except BadInput:  # whoever takes the table in says what is wrong with its columns
        return Laid(key, sent.name, table.columns, taken_for, rows)
    named = tuple(assigned[place].name if place in assigned else "" for place in range(len(table.columns)))
    return Laid(key, sent.name, table.columns, named, rows)
