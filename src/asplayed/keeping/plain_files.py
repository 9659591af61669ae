"""The shape of a store written as plain files: one line of JSON for each action, and the schema of that line.

export.json           which format and schema, the end of the chain, and the SHA-256 of the files beside it
history.jsonl         all that was done, an action a line, in its order: the whole store can be made from it
history.schema.json   the JSON Schema of such a line, and of the record of each kind
originals/SHA-256     words and files, byte for byte, named by their hash and never by what a user called them
sets.csv clubs.csv parts.csv   what stands now, for people and spreadsheets; not read back
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

import msgspec

from asplayed.catalogue.columns import guard
from asplayed.clubs.records import Record

FORMAT = 1
"""The number of this shape. A later one says what changed, and this one stays readable."""

HISTORY = "history.jsonl"
SCHEMA_FILE = "history.schema.json"
MANIFEST = "export.json"
ORIGINALS = "originals"


class ImportedFile(Record, frozen=True, kw_only=True):
    """The file an import of parts came from."""

    file: str
    sha256: str
    size: int


class VersionLine(Record, frozen=True, kw_only=True):
    """A version that an action added. `content` is its JSON, byte for byte; what is not JSON stands in `text`."""

    record: int
    kind: str
    name: str
    salt: str
    seal: str
    version: int
    hidden: int
    restores: int | None = None
    sha256: str
    original: str | None = None
    content: msgspec.Raw
    text: str | None = None


class ActionLine(Record, frozen=True, kw_only=True):
    """A user action with all it did, and its link in the chain."""

    id: int
    at: str
    who: str
    what: str
    why: str | None = None
    salt: str
    seal: str
    sha256: str
    file: ImportedFile | None = None
    versions: tuple[VersionLine, ...] = ()


class Manifest(Record, frozen=True, kw_only=True):
    """What an export says of itself."""

    format: int
    schema: str
    head: str
    actions: int
    files: dict[str, str]


def json_schema() -> dict[str, Any]:
    """The JSON Schema of a line of the history, with that of the record of each kind under `$defs`."""
    from asplayed.keeping.proving import RECORDS, record_type

    kinds = {kind: record_type(kind) for kind in RECORDS}
    schemas, parts = msgspec.json.schema_components([ActionLine, *kinds.values()], ref_template="#/$defs/{name}")
    told = {f"content of a {kind}": schema for kind, schema in zip(kinds, schemas[1:], strict=True)}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"A line of {HISTORY}, format {FORMAT}",
        **schemas[0],
        "$defs": {**parts, **told},
    }


def safe_cell(value: object) -> object:
    """A cell that no spreadsheet takes for a formula; numbers stay numbers.

    >>> safe_cell("=1+1"), safe_cell("D2"), safe_cell(-1.5), safe_cell(None)
    ("'=1+1", 'D2', -1.5, '')
    """
    if value is None:
        return ""
    return guard(value).replace("\0", "\N{REPLACEMENT CHARACTER}") if isinstance(value, str) else value


def csv_text(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table as CSV, every cell safe."""
    page = io.StringIO(newline="")
    writer = csv.writer(page)
    writer.writerow(columns)
    writer.writerows([safe_cell(cell) for cell in row] for row in rows)
    return page.getvalue()
