"""A store is proved whole, and no past is altered without its being found out."""

from __future__ import annotations

import random
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from asplayed.catalogue.parts import Part
from asplayed.errors import BadInput
from asplayed.keeping import Store, open_store
from asplayed.keeping.proving import prove

from .conftest import golf_set


@pytest.fixture(scope="module")
def kept(made_store: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store in which every table has rows."""
    place = Path(shutil.copy(made_store, tmp_path_factory.mktemp("kept") / "store.db"))
    with open_store(place) as store:
        for number in range(6):
            store.save_set("ada", golf_set(50 + number), f"{50 + number}", who="Halvard", why=f"visit {number}")
            store.save_set(f"set {number}", golf_set(60), "60", who="Priya")
        store.undo_set("ada", who="Priya")
        store.save_parts([Part(part="head", model="Dunlin")], file="f.csv", content=b"x", who="Priya")
        store.remember_columns(["a"], {"a": "model"}, who="Priya")
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
    return place


def test_a_sound_store_is_proved_whole_and_left_as_it_is(kept: Path) -> None:
    before = kept.read_bytes()
    proof = prove(kept)
    assert (proof.ok, proof.faults) == (True, ())
    counted = {what: proof.checked[what] for what in ("actions", "links", "records", "versions", "originals")}
    assert counted == {"actions": 15, "links": 15, "records": 9, "versions": 15, "originals": 7}
    assert int(proof.checked["figures"]) > 7  # several for the one club of each of the seven sets
    assert kept.read_bytes() == before


def test_a_missing_store_is_not_proved_and_not_made(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="there is no store"):
        prove(tmp_path / "none.db")
    assert list(tmp_path.iterdir()) == []


def columns_of(connection: sqlite3.Connection, table: str) -> list[str]:
    return [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]


TABLES = ("actions", "versions", "records", "links", "originals", "imports")


def altered(connection: sqlite3.Connection, chance: random.Random) -> None:
    """Change one cell, take one row away, or let two rows change places."""
    table = chance.choice(TABLES)
    rows = connection.execute(f"SELECT rowid, * FROM {table}").fetchall()
    names = columns_of(connection, table)
    way = chance.choice(["edit", "delete", "swap"])
    if way == "delete":
        connection.execute(f"DELETE FROM {table} WHERE rowid = ?", [chance.choice(rows)[0]])
        return
    place = chance.randrange(len(names))
    different = [(a, b) for a in rows for b in rows if a[0] != b[0] and a[place + 1] != b[place + 1]]
    if (
        way == "swap"
        and different
        and names[place] not in {"id", "record_id", "version", "action_id", "sha256", "name"}
    ):
        one, other = chance.choice(different)
        for to, value in ((one[0], other[place + 1]), (other[0], one[place + 1])):
            connection.execute(f"UPDATE {table} SET {names[place]} = ? WHERE rowid = ?", [value, to])
        return
    row = chance.choice(rows)
    value = row[place + 1]
    new = 77 + value if isinstance(value, int) else b"other" if isinstance(value, bytes) else f"{value or ''}x"
    if names[place] in {"hidden"}:
        new = 1 - value
    if names[place] in {"restores"}:
        new = (value or 0) + 1
    connection.execute(f"UPDATE {table} SET {names[place]} = ? WHERE rowid = ?", [new, row[0]])


def tamper(kept: Path, folder: Path, times: int, seed: int) -> list[str]:
    """What of so many alterations was not found out."""
    chance, missed, trial = random.Random(seed), [], 0
    hurt = folder / "hurt.db"
    while trial < times:
        shutil.copy(kept, hurt)
        with closing(sqlite3.connect(hurt, isolation_level=None)) as connection:
            connection.execute("BEGIN")
            before = list(connection.iterdump())
            try:
                altered(connection, chance)
            except sqlite3.IntegrityError:  # the table itself forbids it
                connection.execute("ROLLBACK")
                continue
            changed = set(before) ^ set(connection.iterdump())
            connection.execute("COMMIT")
        trial += 1
        if prove(hurt, figures=False).ok:
            missed.append(str(changed))
    return missed


def test_every_edit_deletion_and_reordering_is_reported(kept: Path, tmp_path: Path) -> None:
    assert tamper(kept, tmp_path, 60, 1) == []


@pytest.mark.slow
def test_three_hundred_edits_deletions_and_reorderings_are_all_reported(kept: Path, tmp_path: Path) -> None:
    assert tamper(kept, tmp_path, 300, 2) == []


def test_a_past_cut_short_is_found_out_by_its_noted_end(kept: Path, tmp_path: Path) -> None:
    noted = str(prove(kept).checked["head"])
    assert prove(kept, head=noted).ok
    cut = Path(shutil.copy(kept, tmp_path / "cut.db"))
    with closing(sqlite3.connect(cut, isolation_level=None)) as connection:
        for table in ("links", "versions"):
            connection.execute(f"DELETE FROM {table} WHERE action_id = 15")
        connection.execute("DELETE FROM actions WHERE id = 15")
        connection.execute("DELETE FROM records WHERE kind = 'columns'")
    assert prove(cut).ok  # the store alone cannot tell it from a younger one
    [fault] = prove(cut, head=noted).faults
    assert "lost or rewritten" in fault


Harm = Callable[[sqlite3.Connection], object]


@pytest.mark.parametrize(
    ("sql", "because"),
    [
        ("UPDATE versions SET content = replace(content, '60', '61')", "is not what was written"),
        ("UPDATE originals SET words = X'00' WHERE words = CAST('60' AS BLOB)", "is not what was written"),
        ("UPDATE records SET version = 9 WHERE name = 'ada'", "should have versions 1 to 9"),
        ("UPDATE actions SET who = 'Jonas' WHERE id = 3", "who, when, what or why was altered"),
        ("UPDATE records SET name = 'jonas' WHERE name = 'ada'", "not under the name"),
        ("DELETE FROM sets WHERE record_id = 1", "missing from the list of sets"),
        ("PRAGMA foreign_keys = OFF; DELETE FROM actions WHERE id = 3", "points at a row of actions"),
    ],
)
def test_each_harm_is_told_by_its_name(kept: Path, tmp_path: Path, sql: str, because: str) -> None:
    hurt = Path(shutil.copy(kept, tmp_path / "hurt.db"))
    with closing(sqlite3.connect(hurt, isolation_level=None)) as connection:
        connection.executescript(sql)
    assert because in " | ".join(prove(hurt).faults)


def test_a_record_that_cannot_be_read_is_told_though_its_hash_is_right(store: Store) -> None:
    from asplayed.keeping.versions import Addition, append

    with store.acting("test", who="tester") as action:
        append(action, "part", [Addition("odd", '{"part": "head", "modell": "Dunlin"}', None)])
        append(action, "surprise", [Addition("odd", "{}", None)])
    told = " | ".join(prove(store.place).faults)
    assert "the part odd cannot be read" in told
    assert "a kind that this release does not know" in told
