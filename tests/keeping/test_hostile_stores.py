"""A stranger's store: whatever it brings along, opening it runs nothing, and it is read right or refused in a sentence.

What a hostile file may try is told at https://www.sqlite.org/security.html.
"""

# ruff: noqa: E501  a hostile text stays on its line
from __future__ import annotations

import resource
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from asplayed.errors import AsplayedError
from asplayed.keeping import list_sets, open_store, read_set, set_history, stored_parts
from asplayed.keeping.backups import back_up, restore
from asplayed.keeping.curious import ask
from asplayed.keeping.exporting import export
from asplayed.keeping.files import BOUNDS, connect
from asplayed.keeping.proving import prove
from asplayed.keeping.searching import search
from asplayed.keeping.seasons import shares
from asplayed.keeping.versions import fingerprint

from .conftest import golf_set

TRIGGERS = {
    f"trigger {when} on {table}": f"CREATE TRIGGER t AFTER {when} ON {table} BEGIN DELETE FROM canary; END"
    for table in ("actions", "records", "versions", "originals", "sets", "links")
    for when in ("INSERT", "UPDATE")
}

VIEWS = {
    f"view for {table}": f"ALTER TABLE {table} RENAME TO real_{table}; CREATE VIEW {table} AS SELECT * FROM real_{table}"
    for table in ("versions", "sets", "records", "originals", "actions")
}

BOMB = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT COUNT(*) FROM n"

TABLES = {
    "endless view": f"CREATE VIEW v AS {BOMB}",
    "view over the schema": "CREATE VIEW v AS SELECT * FROM sqlite_master",
    "another word index": "CREATE VIRTUAL TABLE more USING fts5(a)",
    "an old word index": "CREATE VIRTUAL TABLE more USING fts4(a)",
    "an older word index": "CREATE VIRTUAL TABLE more USING fts3(a, tokenize=simple)",
    "a tree": "CREATE VIRTUAL TABLE more USING rtree(id, low, high)",
    "words of another table": "DROP TABLE search; CREATE VIRTUAL TABLE search USING fts5(name, words, content='versions')",
    "another tokenizer": "DROP TABLE search; CREATE VIRTUAL TABLE search USING fts5(name, words, tokenize='trigram')",
    "vocabulary": "CREATE VIRTUAL TABLE more USING fts5vocab('search', 'row')",
    "index of an expression": "CREATE INDEX i ON versions (length(content))",
    "index of a big expression": "CREATE INDEX i ON versions (hex(content) || 'x')",
    "index of a part": "CREATE INDEX i ON versions (version) WHERE content LIKE '%a%'",
    "index in another order": "CREATE INDEX i ON versions (content COLLATE NOCASE)",
    "worked out column": "ALTER TABLE versions ADD COLUMN x TEXT GENERATED ALWAYS AS (printf('%200d', 1))",
    "worked out bomb": "ALTER TABLE versions ADD COLUMN x TEXT AS (printf('%*d', 900000000, 1))",
    "worked out blob": "ALTER TABLE sets ADD COLUMN x BLOB AS (zeroblob(900000000))",
    "checked by a function": "CREATE TABLE more (a TEXT CHECK (length(hex(randomblob(1000))) > 0))",
    "checked by a pattern": "CREATE TABLE more (a TEXT CHECK (a LIKE '%%%%%%%%a'))",
    "default of a function": "CREATE TABLE more (a TEXT DEFAULT (hex(randomblob(100))))",
    "default blob": "CREATE TABLE more (a BLOB DEFAULT (zeroblob(1000000000)))",
    "copied table": "CREATE TABLE more AS SELECT * FROM sqlite_master; ALTER TABLE more ADD COLUMN z TEXT COLLATE nocase",
    "no list of sets": "DROP TABLE sets",
    "no versions": "PRAGMA foreign_keys = OFF; DROP TABLE versions",
    "no schema number": "DELETE FROM asplayed_schema",
    "schema of the future": "UPDATE asplayed_schema SET version_num = '9999'",
    "schema that is none": "UPDATE asplayed_schema SET version_num = 'x''; DROP TABLE sets; --'",
    "schema of the past": "UPDATE asplayed_schema SET version_num = '0001'",
    "two thousand columns": f"CREATE TABLE more ({', '.join(f'c{number}' for number in range(1999))})",
    "a version that overflows": f"UPDATE records SET version = {2**62}",
    "a version before the first": "UPDATE records SET version = -1",
    "a big number of clubs": f"UPDATE sets SET clubs = {2**63 - 1}",
    "an undo to nowhere": f"UPDATE versions SET restores = {2**62}",
    "no words": "PRAGMA foreign_keys = OFF; DELETE FROM originals",
    "a salt of nothing": "UPDATE records SET salt = '', seal = ''",
    "an escape in a name": "UPDATE records SET name = char(27) || '[2J'; UPDATE sets SET name = char(27) || '[2J'",
    "a tally that overflows": f"UPDATE tallies SET number = {2**63 - 1}",
    "an index left empty": "PRAGMA writable_schema = ON; UPDATE sqlite_master SET rootpage = 3 WHERE type = 'index' AND sql IS NOT NULL",
    "two tables on one page": "PRAGMA writable_schema = ON; UPDATE sqlite_master SET rootpage = 4 WHERE name = 'versions'",
    "a page that is not there": "PRAGMA writable_schema = ON; UPDATE sqlite_master SET rootpage = 999999 WHERE name = 'sets'",
    "a schema that is no SQL": "PRAGMA writable_schema = ON; UPDATE sqlite_master SET sql = 'CREATE TABLE (((' WHERE name = 'sets'",
    "a schema that loads": "PRAGMA writable_schema = ON; UPDATE sqlite_master SET sql = 'CREATE TABLE sets (record_id INTEGER PRIMARY KEY, "
    "name TEXT DEFAULT (load_extension(''x'')))' WHERE name = 'sets'",
    "shadow tables altered": "UPDATE search_data SET block = zeroblob(20)",
    "shadow tables emptied": "DELETE FROM search_data",
    "a shadow that names a file": "UPDATE search_config SET v = '/etc/passwd'",
}  # fmt: skip

CONTENTS = {
    "deep": "[" * 200_000,
    "deep in the right shape": '{"set":' * 50_000,
    "no number": '{"clubs": [{"club": "driver", "kind": "driver", "length": {"value": NaN, "unit": "in", "source": "stated"}}]}',
    "beyond numbers": '{"clubs": [{"club": "driver", "kind": "driver", "length": {"value": 1e999, "unit": "in", "source": "stated"}}]}',
    "a number of many digits": '{"clubs": [{"club": "driver", "kind": "driver", "lines": [' + "9" * 100_000 + "]}]}",
    "another unit": '{"clubs": [{"club": "driver", "kind": "driver", "length": {"value": 1, "unit": "rm -rf", "source": "stated"}}]}',
    "no set at all": '"__import__(\'os\').system(\'true\')"',
    "a thousand clubs": '{"clubs": [' + ",".join(['{"club": "driver", "kind": "driver"}'] * 1_000) + "]}",
}  # fmt: skip


@pytest.fixture(scope="module")
def strange(made_store: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with a set, and a table of which nothing may ever go."""
    place = Path(shutil.copy(made_store, tmp_path_factory.mktemp("strange") / "store.db"))
    with open_store(place) as store:
        store.save_set("ada", golf_set(), "56 Turnstone bent 1 weak", who="tester")
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        connection.execute("CREATE TABLE canary (a)")
        connection.execute("INSERT INTO canary VALUES (1)")
        connection.execute("PRAGMA journal_mode = DELETE")
    return place


@contextmanager
def little_memory() -> Iterator[None]:
    """No more memory than there is in use now, and 600 MB."""
    used = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    before = resource.getrlimit(resource.RLIMIT_AS)
    resource.setrlimit(resource.RLIMIT_AS, (used + 600_000_000, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, before)


def looks(place: Path, folder: Path) -> dict[str, Callable[[], object]]:
    return {
        "list": lambda: list_sets(place),
        "read": lambda: read_set("ada", place),
        "history": lambda: set_history("ada", place),
        "parts": lambda: stored_parts(place),
        "season": lambda: shares("model", place),
        "search": lambda: search("turnstone", place),
        "sql": lambda: ask("SELECT * FROM clubs", place),
        "verify": lambda: prove(place),
        "export": lambda: export(place, folder / "out"),
        "backup": lambda: back_up(place, folder / "safe"),
        "restore": lambda: restore(place, folder / "restored.db"),
        "save": lambda: open_store(place).save_set("jonas", golf_set(50), "50", who="tester"),
    }


def dump(place: Path) -> list[str] | None:
    """All that a file holds; nothing where its own schema keeps even SQLite out."""
    try:
        with closing(sqlite3.connect(f"file:{place}?mode=ro", uri=True)) as connection:
            return list(connection.iterdump())
    except (sqlite3.Error, TypeError):
        return None


def all_looked_at(place: Path, folder: Path) -> None:
    """Everything is done with the store that a user may do: it works, or is refused in one sentence."""
    before, told = place.read_bytes(), dump(place)
    for what, look in looks(place, folder).items():
        try:
            with little_memory():
                look()
        except AsplayedError as fault:
            assert "\n" not in str(fault) and len(str(fault)) < 2000
        except MemoryError:
            pytest.fail(f"{what} took more than 600 MB")
        if what == "history":  # so far nothing was asked that may change it
            assert place.read_bytes() == before or (told is not None and told == dump(place))
    try:
        with closing(sqlite3.connect(place)) as connection:
            assert connection.execute("SELECT COUNT(*) FROM canary").fetchone() == (1,)
    except sqlite3.DatabaseError:  # its own schema keeps even SQLite out
        assert place.read_bytes() == before


@pytest.mark.parametrize(
    "hostile", [*TRIGGERS.values(), *VIEWS.values(), *TABLES.values()], ids=[*TRIGGERS, *VIEWS, *TABLES]
)
def test_a_hostile_store_runs_nothing(strange: Path, tmp_path: Path, hostile: str) -> None:
    place = Path(shutil.copy(strange, tmp_path / "store.db"))
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        connection.executescript(hostile)
    all_looked_at(place, tmp_path)


@pytest.mark.parametrize("content", CONTENTS.values(), ids=CONTENTS)
def test_a_hostile_record_runs_nothing(strange: Path, tmp_path: Path, content: str) -> None:
    """Hashes that fit make a record no better."""
    place = Path(shutil.copy(strange, tmp_path / "store.db"))
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        connection.execute("UPDATE versions SET content = ?, content_sha256 = ?", [content, fingerprint(content)])
    all_looked_at(place, tmp_path)


def test_there_are_more_than_fifty_of_them() -> None:
    assert len(TRIGGERS) + len(VIEWS) + len(TABLES) + len(CONTENTS) > 50


def test_a_question_is_bounded_and_the_file_not_trusted(file_place: Path) -> None:
    with closing(connect(file_place)) as connection:
        told = {name: connection.execute(f"PRAGMA {name}").fetchone()[0] for name in
                ("trusted_schema", "cell_size_check", "query_only")}  # fmt: skip
        assert told == {"trusted_schema": 0, "cell_size_check": 1, "query_only": 1}
        assert {limit: connection.getlimit(limit) for limit in BOUNDS} == BOUNDS
        with pytest.raises(sqlite3.Error, match="attached"):
            connection.execute("ATTACH ':memory:' AS more")
        with pytest.raises(sqlite3.Error, match="readonly"):
            connection.execute("DELETE FROM sets")
