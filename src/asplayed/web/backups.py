"""Backups: a proved copy of everything, the proof that the store is whole, and everything as plain files."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from asplayed.errors import BadInput
from asplayed.web.kit import Answer, Here, Page, Tab, asked, done, download, packed, page, see_other, shown

tab = Tab("Backups", "/backups", "g b")


def _known(here: Here) -> list[Any]:
    from asplayed.keeping.backups import backups_of

    return sorted(backups_of(here.kept.place), key=lambda each: each.at, reverse=True)


@shown("/backups")
def backups(here: Here, made: str = "", proved: bool = False) -> Page:
    """The copies there are, and what can be done about the store; asked for, the proof that it is whole."""
    from asplayed.keeping.proving import prove

    return page(
        here,
        "backups.html",
        store=str(here.kept.place),
        copies=_known(here),
        made=made,
        proof=prove(here.store) if proved else None,
    )


@done("/backups")
def back_up(here: Here) -> Answer:
    """Make a copy beside the store while it is in use, and prove it."""
    from asplayed.keeping.backups import back_up as copied

    return see_other(f"/backups?made={copied(here.store).file.name}")


@shown("/backups/{copy:str}")
def take_along(here: Here, copy: str) -> Answer:
    """One copy, to be kept on another disk."""
    for each in _known(here):
        if each.file.name == copy:
            return download(each.file.read_bytes(), copy, "application/vnd.sqlite3")
    raise BadInput("there is no such copy; the page of backups lists them")


@shown("/backups/plain/files")
def plain_files(here: Here) -> Answer:
    """Everything that is stored as plain files, in one archive."""
    from asplayed.keeping.exporting import export

    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder, "everything")
        export(here.store, target)
        files = {
            str(path.relative_to(folder)): path.read_bytes() for path in sorted(target.rglob("*")) if path.is_file()
        }
    return download(packed(files), "asplayed-everything.zip", "application/zip")


@asked("/api/verify")
def api_verify(here: Here) -> dict[str, Any]:
    """The proof that the store is whole: what was looked at, and every fault."""
    from asplayed.keeping.proving import prove

    proof = prove(here.store)
    return {"ok": proof.ok, "checked": proof.checked, "faults": list(proof.faults)}


routes = (backups, back_up, take_along, plain_files, api_verify)
