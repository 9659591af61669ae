"""Every store a released schema made still opens, and tells what was put into it.

One file a schema, never changed again: two versions of a set and an undo, one imported part, a column map, an answer.
`shop-0004.db` was served to a shop before the accounts were the store's own tables.
"""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
import sqlalchemy

from asplayed.errors import StoreUnusable
from asplayed.keeping import Store, columns, open_store, schema, seasons
from asplayed.keeping import backups as backups_module
from asplayed.keeping.backups import backups_of
from asplayed.keeping.places import SCHEMA, Place, kind_of, looking, make_engine, schema_of
from asplayed.keeping.proving import prove
from asplayed.keeping.searching import search
from asplayed.keeping.store import make_tables

from .conftest import Shop

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


def accounts(place: Place) -> list[tuple[object, ...]]:
    """The accounts of a shop, with what nobody may see."""
    with looking(place) as read:
        rows = read("SELECT id, name, known_as, role, player, password FROM web_accounts ORDER BY id")
        return [tuple(row) for row in rows]


SERVED = Path(__file__).with_name("stores") / "shop-0004.db"


def test_the_accounts_of_a_served_store_are_taken_over(tmp_path: Path) -> None:
    place = Path(shutil.copy(SERVED, tmp_path / "shop.db"))
    with closing(sqlite3.connect(place)) as before:
        told = before.execute("SELECT id, name, known_as, role, player, password FROM web_accounts").fetchall()
        trail = before.execute("SELECT id, at, who, what, about FROM web_trail").fetchall()
    assert [(row[1], row[3]) for row in told] == [("Priya Lindqvist", "keeper"), ("Ada Brandt", "reader")]
    with open_store(place) as store, store.reading() as read:
        assert [tuple(row) for row in read("SELECT id, at, who, what, about FROM web_trail")] == trail
        assert read("SELECT COUNT(*) FROM web_sessions")[0][0] == 0
    assert accounts(place) == told
    assert prove(place).faults == ()


def test_the_accounts_of_a_served_store_on_a_server_are_taken_over(shop: Shop) -> None:
    """A store on a server as schema 0004 left it, with the accounts' tables that were made beside it."""
    place = shop.empty()
    engine = make_engine(place, writing=True)
    with engine.begin() as connection:
        kind_of(place).begin_making(connection, place)
        make_tables(connection, "0004")
        connection.exec_driver_sql(OLD_ACCOUNTS)
        connection.exec_driver_sql(
            "INSERT INTO web_accounts (name, known_as, role, player, password, codes_used, disabled, failures, made) "
            "VALUES ('Ada Brandt', 'ada brandt', 'keeper', NULL, 'x', 0, 0, 0, '2025-10-20T12:00:00+00:00')"
        )
    engine.dispose()
    with open_store(place) as store, store.remaking() as action:
        assert accounts(place) == [(1, "Ada Brandt", "ada brandt", "keeper", None, "x")]
        row = dict.fromkeys(("name", "known_as", "role", "password", "made"), "other")
        made = schema.accounts.insert().values(codes_used=0, disabled=0, failures=0, **row)
        assert action.connection.execute(made.returning(schema.accounts.c.id)).scalar_one() == 2
    shop.drop(place)


OLD_ACCOUNTS = """
CREATE TABLE web_accounts (id SERIAL PRIMARY KEY, name TEXT NOT NULL, known_as TEXT NOT NULL, role TEXT NOT NULL,
    player TEXT, password TEXT NOT NULL, codes TEXT, codes_offered TEXT, codes_used INTEGER NOT NULL,
    disabled INTEGER NOT NULL, failures INTEGER NOT NULL, locked_until TEXT, made TEXT NOT NULL,
    CONSTRAINT uq_web_accounts_known_as UNIQUE (known_as));
CREATE TABLE web_sessions (key TEXT PRIMARY KEY, account_id INTEGER NOT NULL REFERENCES web_accounts (id),
    made TEXT NOT NULL, seen TEXT NOT NULL);
CREATE TABLE web_trail (id SERIAL PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, what TEXT NOT NULL,
    about TEXT NOT NULL)
"""


def test_without_its_backup_nothing_is_migrated(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = Path(shutil.copy(STORES[0], tmp_path / "old.db"))
    before = place.read_bytes()

    def no_room(source: object, target: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backups_module, "copy", no_room)
    with pytest.raises(StoreUnusable, match="No space left"):
        open_store(place)
    assert place.read_bytes() == before


@pytest.mark.parametrize("path", [*STORES[:-1], SERVED], ids=lambda path: path.stem)
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
