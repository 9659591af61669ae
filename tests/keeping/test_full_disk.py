"""A disk that is really full, at many points of filling: a sentence, nothing lost, and work again with room."""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from asplayed.errors import AsplayedError
from asplayed.keeping import open_store, read_set
from asplayed.keeping.backups import back_up, restore
from asplayed.keeping.exporting import export
from asplayed.keeping.importing import import_folder
from asplayed.keeping.proving import prove

from .conftest import golf_set

POINTS = 50
ROOM = 1_500_000
"""The most that is left free [bytes]: more than any of the commands needs."""


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of four megabytes of one's own."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=4m", "none", str(disk)], capture_output=True, check=False
    )
    if mounted.returncode:
        pytest.skip("a small disk can only be mounted with the rights to do so")
    yield disk
    # Lazily: another process of the test run may have been forked while a file on it was open.
    subprocess.run(["umount", "--lazy", str(disk)], check=True)


COMMANDS: dict[str, Callable[[Path], object]] = {
    "save": lambda place: save(place, b"words " * 30_000),
    "backup": back_up,
    "restore": lambda place: restore(place.parent / "safe.db", place),
    "export": lambda place: export(place, place.parent / "out"),
    "import": lambda place: import_folder(place.parent / "plain", place.parent / "new.db"),
}


def save(place: Path, words: bytes) -> None:
    with open_store(place) as store:
        store.save_set("ada", golf_set(50), words, who="tester")


@pytest.mark.parametrize("command", COMMANDS)
def test_wherever_the_disk_fills_nothing_is_lost(small_disk: Path, made_store: Path, command: str) -> None:
    place = Path(shutil.copy(made_store, small_disk / "store.db"))
    save(place, b"first")
    made = back_up(place, small_disk / "made")
    made.file.rename(small_disk / "safe.db")
    export(place, small_disk / "plain")
    filler = small_disk / "filler"
    standing = {path.name for path in small_disk.iterdir()}
    failed = 0
    for point in range(POINTS):
        filled = os.statvfs(small_disk).f_bavail * os.statvfs(small_disk).f_frsize - ROOM * point // POINTS
        filler.write_bytes(b"x" * max(filled, 0))
        try:
            COMMANDS[command](place)
        except AsplayedError as fault:
            failed += 1
            assert "\n" not in str(fault)
            filler.unlink()
            assert read_set("ada", place, 1).original == b"first"
            assert {path.name for path in small_disk.iterdir()} - {"backups"} <= standing
        else:
            break
    assert failed > 2
    with contextlib.suppress(FileNotFoundError):
        filler.unlink()
    assert prove(place).faults == ()
    save(place, b"there is room again")
