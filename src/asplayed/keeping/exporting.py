"""Writing a whole store as plain files (`plain_files.py` tells their shape)."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec

from asplayed.catalogue import write_parts
from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping import chain, parts, sets
from asplayed.keeping.backups import flush
from asplayed.keeping.club_rows import ClubRow, club_rows
from asplayed.keeping.places import SCHEMA, Read, Where, find_place, looking, schema_of
from asplayed.keeping.plain_files import (
    FORMAT,
    HISTORY,
    MANIFEST,
    ORIGINALS,
    SCHEMA_FILE,
    ActionLine,
    ImportedFile,
    Manifest,
    VersionLine,
    csv_text,
    json_schema,
)
from asplayed.keeping.proving import prove

ACTIONS = """
SELECT a.id, a.at, a.who, a.what, a.why, l.salt, l.seal, l.sha256, i.file, i.sha256, i.size
FROM actions AS a JOIN links AS l ON l.action_id = a.id LEFT JOIN imports AS i ON i.action_id = a.id ORDER BY a.id
"""

VERSIONS = """
SELECT v.record_id, r.kind, r.name, r.salt, r.seal, v.version, v.hidden, v.restores, v.content_sha256,
       v.original_sha256, v.content
FROM versions AS v JOIN records AS r ON r.id = v.record_id WHERE v.action_id = :action ORDER BY v.record_id, v.version
"""


def export(where: Where, folder: Path) -> Manifest:
    """Write everything a store holds into a new folder; it appears there whole or not at all."""
    place = find_place(where)
    schema = schema_of(place)
    if schema is None:
        raise BadInput(f"there is no store {place} to export yet")
    if schema != SCHEMA:
        from asplayed.keeping.store import open_store

        open_store(place).close()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise BadInput(f"{folder} is there already and not empty; name a new folder")
    proof = prove(place, figures=False)
    if not proof.ok:
        raise StoreUnusable(f"{place} is not whole, so nothing was exported: {proof.faults[0]}")
    part = folder.with_name(f".{folder.name}.{os.getpid()}.part")
    try:
        shutil.rmtree(part, ignore_errors=True)
        (part / ORIGINALS).mkdir(parents=True)
        with looking(place) as read:
            manifest = write_files(read, part)
        if folder.exists():
            folder.rmdir()
        part.rename(folder)
        flush(folder.parent)
    except OSError as fault:
        raise StoreUnusable(f"the export to {folder} could not be written: {fault.strerror or fault}") from None
    finally:
        shutil.rmtree(part, ignore_errors=True)
    return manifest


def write_files(read: Read, folder: Path) -> Manifest:
    """Every file of an export; the manifest last."""
    number = 0
    with (folder / HISTORY).open("wb") as history:
        for line in lines(read):
            history.write(msgspec.json.encode(line) + b"\n")
            number += 1
    for (name,) in read("SELECT sha256 FROM originals"):
        [(words,)] = read("SELECT words FROM originals WHERE sha256 = :name", name=name)
        (folder / ORIGINALS / name).write_bytes(words)
    (folder / SCHEMA_FILE).write_text(json.dumps(json_schema(), indent=1, ensure_ascii=False), encoding="utf-8")
    for table, text in tables(read).items():
        (folder / table).write_text(text, encoding="utf-8", newline="")
    files = {file.name: sha256(file.read_bytes()).hexdigest() for file in sorted(folder.iterdir()) if file.is_file()}
    manifest = Manifest(format=FORMAT, schema=SCHEMA, head=chain.head(read)[1], actions=number, files=files)
    (folder / MANIFEST).write_bytes(msgspec.json.format(msgspec.json.encode(manifest)))
    return manifest


def lines(read: Read) -> Iterator[ActionLine]:
    """What was done, action by action."""
    for row in read(ACTIONS):
        action_id, at, who, what, why, salt, seal, link, file, file_sha256, size = row
        came_from = ImportedFile(file=file, sha256=file_sha256, size=size) if file is not None else None
        versions = tuple(map(version_line, read(VERSIONS, action=action_id)))
        yield ActionLine(
            id=action_id, at=at, who=who, what=what, why=why, salt=salt, seal=seal, sha256=link, file=came_from,
            versions=versions,
        )  # fmt: skip


def version_line(row: Any) -> VersionLine:
    """One version as it stands in the history."""
    record, kind, name, salt, seal, version, hidden, restores, content_sha256, original, content = row
    as_text = kind in ("answer", "result") or not content or "\n" in content or "\r" in content
    return VersionLine(
        record=record, kind=kind, name=name, salt=salt, seal=seal, version=version, hidden=hidden, restores=restores,
        sha256=content_sha256, original=original, text=content if as_text else None,
        content=msgspec.Raw(b"null" if as_text else content.encode()),
    )  # fmt: skip


def tables(read: Read) -> dict[str, str]:
    """What stands now as tables: each file's name and text."""
    listed = sets.entries(read)
    clubs: list[tuple[object, ...]] = []
    for entry in listed:
        clubs += [(entry.name, *row) for row in club_rows(sets.load(read, entry.name).golf_set)]
    units = {"loft": "loft [deg]", "lie": "lie [deg]", "bounce": "bounce [deg]", "length": "length [in]"}
    return {
        "sets.csv": csv_text(sets.SetEntry._fields, listed),
        "clubs.csv": csv_text(["set", *(units.get(field, field) for field in ClubRow._fields)], clubs),
        "parts.csv": write_parts(parts.load(read)),
    }
