"""Writing what is told into a folder: every file whole or not at all, with an index and a manifest."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from asplayed import __version__
from asplayed.clubs import GolfSet
from asplayed.errors import BadInput
from asplayed.telling.drawing import drawn_set
from asplayed.telling.sheet import index_page, set_sheet
from asplayed.telling.words import clean, title

if TYPE_CHECKING:
    from asplayed.judgement import Finding

# What each file is, in the order the index links them.
KINDS = {
    "set-sheet.html": "the sheet of the set, for screen and paper",
    "drawn-set.svg": "the set drawn, as a picture of its own",
    "manifest.json": "every file with its size and checksum",
}


def tell(golf_set: GolfSet, findings: Sequence[Finding], folder: str | Path) -> dict[str, Any]:
    """Write the sheet, the drawing, an index and a manifest of a set into `folder`, and answer the manifest.

    Clubs are taken as they come: worked out as played beforehand. The folder is made where there is none; other files
    in it are left alone. Every file is written under a temporary name first, so no reader meets half of one. Raises
    BadInput where the folder cannot be one or cannot be written.

    >>> with tempfile.TemporaryDirectory() as there:
    ...     [entry["file"] for entry in tell(GolfSet(), (), there)["files"]]
    ['index.html', 'set-sheet.html', 'drawn-set.svg']
    """
    pages = {
        "index.html": index_page(golf_set, list(KINDS.items())),
        "set-sheet.html": set_sheet(golf_set, findings),
        "drawn-set.svg": drawn_set(golf_set, alone=True) + "\n",
    }
    contents = {name: page.encode("utf-8") for name, page in pages.items()}
    manifest = {
        "title": clean(title(golf_set)),
        "figures_as_of": golf_set.set.date,
        "asplayed": __version__,
        "files": [
            {
                "file": name,
                "kind": KINDS.get(name, "links to all the rest"),
                "bytes": len(content),
                "sha-256": hashlib.sha256(content).hexdigest(),
            }
            for name, content in contents.items()
        ],
    }
    contents["manifest.json"] = (json.dumps(manifest, ensure_ascii=False, indent=2) + "\n").encode("utf-8")
    _write(Path(folder), contents)
    return manifest


def _write(folder: Path, contents: Mapping[str, bytes]) -> None:
    """All files under temporary names, then all renamed; a fault before the renaming leaves the folder as it was."""
    made: list[tuple[Path, Path]] = []
    try:
        if folder.exists() and not folder.is_dir():
            raise BadInput(f"{folder} is a file, and the sheet needs a folder; name another place")
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in contents.items():
            target = folder / name
            if target.is_dir():
                raise BadInput(f"{target} is a folder where a file is to be written; move it or name another folder")
            handle, temporary = tempfile.mkstemp(prefix=f".{name}-", dir=folder)
            made.append((Path(temporary), target))
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            Path(temporary).chmod(0o644)
        for temporary_path, target in made:
            temporary_path.replace(target)
    except (OSError, ValueError) as fault:
        if isinstance(fault, BadInput):
            raise
        reason = getattr(fault, "strerror", None) or str(fault)
        raise BadInput(f"{folder} cannot be written ({reason}); name a folder that can be") from fault
    finally:
        for temporary_path, _ in made:
            temporary_path.unlink(missing_ok=True)
