"""Every store a released schema made still opens, and tells what was put into it.

One file a schema, never changed again: two versions of a set and an undo, one imported part, a column map, an answer.
"""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
import sqlalchemy

from asplayed.errors import StoreUnusable
from asplayed.keeping import Store, columns, open_store, seasons
from asplayed.keeping import backups as backups_module
from asplayed.keeping.backups import backups_of
from asplayed.keeping.places import SCHEMA, schema_of
from asplayed.keeping.proving import prove
from asplayed.keeping.searching import search

STORES = sorted(Path(__file__).with_name("stores").glob("schema-*.db"))


@pytest.fixture(params=STORES, ids=lambda path: path.stem)
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Store:
    return open_store(shutil.copy(request.param, tmp_path / "old.db"))


def test_the_newest_schema_has_a_store_here() -> None:
    assert STORES[-1].stem == f"schema-{SCHEMA}"


def test_an_old_store_tells_what_was_put_into_it(old: Store) -> None:
    assert [tuple(entry) for entry in old.list_sets()] == [("ada", "Ada Brandt", "2025-10-20", 1, 3)]
    told = [(e.version, e.who, e.what, e.why, e.restores) for e in old.set_history("ada")]
    assert told == [
        (3, "tester", "undo", None, 1),
        (2, "tester", "take", "second visit", None),
        (1, "tester", "take", "first visit", None),
    ]
    bends = [old.load_set("ada", version).golf_set.clubs[0].bend.loft.value for version in (1, 2, 3)]
    assert bends == [1, 2, 1]
    words = [old.load_set("ada", version).original.decode() for version in (1, 2, 3)]
    assert words == ["54 Turnstone bent 1 weak\r\n", "54 Turnstone bent 2 weak ¾", "54 Turnstone bent 1 weak\r\n"]
    [part] = old.parts()
    assert (part.maker, part.model, part.figures["loft"].value) == ("Tidewright", "Turnstone", 54)
    with old.reading() as read:
        assert columns.recall(read, ["a", "b"]) == {"a": "model"}
    assert [tuple(share) for share in seasons.shares("model", old.place)] == [
        ("2025", "wedge", "Turnstone", 1, 1, 100.0)
    ]
    assert [found.name for found in search("turnstone bent weak", old.place)] == ["ada"]


def test_an_old_store_takes_new_versions(old: Store) -> None:
    before = old.load_set("ada").golf_set
    old.undo_set("ada", who="tester")
    assert old.list_sets() == ()
    assert old.save_set("ada", before, "again", who="tester").version == 5


def test_an_old_store_is_whole_before_it_is_opened_and_afterwards(old: Store) -> None:
    assert prove(old.place).faults == ()


@pytest.mark.parametrize("path", STORES[:-1], ids=lambda path: path.stem)
def test_a_migration_leaves_a_proved_backup_of_what_was_there(path: Path, tmp_path: Path) -> None:
    place = Path(shutil.copy(path, tmp_path / "old.db"))
    assert prove(place).ok
    open_store(place).close()
    [backup] = backups_of(place)
    assert schema_of(backup.file) == path.stem.removeprefix("schema-")
    assert prove(backup.file).ok


def test_without_its_backup_nothing_is_migrated(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = Path(shutil.copy(STORES[0], tmp_path / "old.db"))
    before = place.read_bytes()

    def no_room(source: object, target: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backups_module, "copy", no_room)
    with pytest.raises(StoreUnusable, match="No space left"):
        open_store(place)
    assert place.read_bytes() == before


@pytest.mark.parametrize("path", STORES[:-1], ids=lambda path: path.stem)
def test_a_migration_that_fails_at_any_statement_leaves_the_old_store(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = Path(shutil.copy(path, tmp_path / "old.db"))
    before, left = dump(place), 0

    def fail(conn: object, cursor: object, statement: str, *rest: object) -> None:
        nonlocal left
        left -= 1
        if left == 0:
            raise sqlalchemy.exc.OperationalError(statement, {}, sqlite3.OperationalError("disk I/O error"))

    sqlalchemy.event.listen(sqlalchemy.Engine, "before_cursor_execute", fail)
    failures = 0
    try:
        for step in range(1, 400):
            left = step
            try:
                open_store(place).close()
                break
            except StoreUnusable:
                failures += 1
                assert dump(place) == before
    finally:
        sqlalchemy.event.remove(sqlalchemy.Engine, "before_cursor_execute", fail)
    assert failures > 10
    assert schema_of(place) == SCHEMA
    assert prove(place).ok


def dump(place: Path) -> list[str]:
    with closing(sqlite3.connect(place)) as connection:
        return list(connection.iterdump())
