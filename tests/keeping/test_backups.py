"""A backup counts once it is proved; the way back gives exactly what was saved and keeps what it replaces."""

from __future__ import annotations

import logging
import os
import random
import sqlite3
import threading
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping import Store, backups, list_sets, open_store, read_set
from asplayed.keeping.backups import Backup, back_up, back_up_when_due, backups_of, restore, thin_out
from asplayed.keeping.places import backups_folder
from asplayed.keeping.proving import prove

from .conftest import golf_set, rows


def test_a_backup_is_the_store_and_opens_like_one(store: Store) -> None:
    store.save_set("ada", golf_set(56), "56", who="tester")
    made = back_up(store.place)
    assert rows(made.file) == rows(store.place)
    assert read_set("ada", made.file).golf_set == golf_set(56)
    assert [path.name for path in made.file.parent.iterdir()] == [made.file.name]
    assert made.file.name.startswith(store.place.stem)
    assert made == backups_of(store.place)[0]


def test_a_backup_made_while_others_write_is_one_moment_of_the_store(store: Store, tmp_path: Path) -> None:
    stop = threading.Event()

    def write() -> None:
        number = 0
        while not stop.is_set():
            number += 1
            store.save_set(f"set {number % 7}", golf_set(number), f"{number}", who="tester")

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for number in range(3):
            made = back_up(store.place, tmp_path / str(number))
            assert prove(made.file).ok
    finally:
        stop.set()
        writer.join()
    assert prove(store.place, head=str(prove(made.file).checked["head"])).ok


def test_of_a_damaged_store_no_backup_is_made(file_store: Store) -> None:
    file_store.save_set("ada", golf_set(56), "56", who="tester")
    file_store.close()
    with closing(sqlite3.connect(file_store.place, isolation_level=None)) as connection:
        connection.execute("UPDATE versions SET content = replace(content, '56', '57')")
    with pytest.raises(StoreUnusable, match="no backup was made"):
        back_up(file_store.place)
    assert list((file_store.place.parent / "backups").iterdir()) == []


def test_a_corrupted_backup_is_never_restored(file_store: Store, tmp_path: Path) -> None:
    """A hundred corruptions of what is in use of the file: each detected, and the place left alone."""
    for loft in range(40, 60):
        file_store.save_set(f"set {loft}", golf_set(loft), f"words {loft}\n" * 40, who="tester")
    made = back_up(file_store.place)
    whole, chance = made.file.read_bytes(), random.Random(7)
    told = rows(made.file)
    detected = harmless = 0
    while detected < 100:
        broken = bytearray(whole)
        if chance.random() < 0.3:
            del broken[chance.randrange(1, len(broken)) :]
        else:
            for _ in range(chance.choice([3, 50])):
                broken[chance.randrange(len(broken))] ^= 1 << chance.randrange(8)
        hurt = tmp_path / "hurt.db"
        hurt.write_bytes(broken)
        try:
            restore(hurt, tmp_path / "new.db")
        except StoreUnusable:
            detected += 1
            assert not (tmp_path / "new.db").exists()
        else:
            harmless += 1  # bytes that no row stands in
            assert rows(tmp_path / "new.db") == told
            (tmp_path / "new.db").unlink()
        assert hurt.read_bytes() == bytes(broken)
    assert harmless < 20


def test_a_restore_gives_back_what_was_saved_and_keeps_what_it_replaces(store: Store) -> None:
    store.save_set("ada", golf_set(56), "56", who="tester")
    made = back_up(store.place)
    store.save_set("ada", golf_set(50), "50", who="tester")
    store.close()
    before = rows(store.place)
    done = restore(made.file, store.place)
    assert read_set("ada", store.place).golf_set == golf_set(56)
    assert done.kept is not None and rows(done.kept) == before
    assert rows(store.place) == rows(made.file)
    again = restore(made.file, store.place)
    assert again.kept is not None and again.kept != done.kept
    with open_store(store.place) as opened:
        assert opened.save_set("ada", golf_set(50), "50", who="tester").version == 2


def test_a_damaged_store_is_replaced_and_kept_as_it_was(file_store: Store) -> None:
    file_store.save_set("ada", golf_set(56), "56", who="tester")
    made = back_up(file_store.place)
    file_store.close()
    file_store.place.write_bytes(b"not a store any more" * 100)
    done = restore(made.file, file_store.place)
    assert done.kept is not None and done.kept.read_bytes() == b"not a store any more" * 100
    assert [entry.name for entry in list_sets(file_store.place)] == ["ada"]


def test_a_store_in_use_is_not_replaced(file_store: Store) -> None:
    file_store.save_set("ada", golf_set(56), "56", who="tester")
    made = back_up(file_store.place)
    with file_store.reading() as read:
        read("SELECT 1 FROM records")
        with pytest.raises(StoreUnusable, match="is in use"):
            restore(made.file, file_store.place)
    assert file_store.save_set("ada", golf_set(50), "50", who="tester").version == 2


@pytest.mark.parametrize("command", ["backup", "restore"])
def test_whatever_step_fails_the_old_or_the_new_stands(
    file_store: Store, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    """The n-th flush, link, unlink or rename fails, n = 1, 2, … until none does."""
    file_store.save_set("ada", golf_set(56), "56", who="tester")
    made = back_up(file_store.place)
    file_store.save_set("ada", golf_set(50), "50", who="tester")
    file_store.close()
    old, new = rows(file_store.place), rows(made.file)
    left = 0

    def failing(name: str) -> None:
        real = getattr(os, name)

        def maybe(*given: object, **named: object) -> object:
            nonlocal left
            left -= 1
            if left == 0:
                raise OSError(5, "Input/output error")
            return real(*given, **named)

        monkeypatch.setattr(os, name, maybe)

    for name in ("fsync", "link", "replace"):
        failing(name)
    failures = 0
    for step in range(1, 30):
        left = step
        try:
            back_up(file_store.place) if command == "backup" else restore(made.file, file_store.place)
        except StoreUnusable as fault:
            failures += 1
            assert "Input/output error" in str(fault)
            assert rows(file_store.place) in (old, new)
            assert all(prove(backup.file).ok for backup in backups_of(file_store.place))
            assert not list(file_store.place.parent.rglob(".*.part"))
        else:
            break
    assert failures >= 3
    assert rows(file_store.place) == (old if command == "backup" else new)


def test_places_that_will_not_do_are_said(file_store: Store, tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="no store"):
        back_up(tmp_path / "none.db")
    (tmp_path / "file").write_text("x")
    with pytest.raises(StoreUnusable, match="no backup could be made"):
        back_up(file_store.place, tmp_path / "file")
    made = back_up(file_store.place)
    with pytest.raises(BadInput, match="are the same"):
        restore(made.file, made.file)
    with pytest.raises(BadInput, match="no folder"):
        restore(made.file, tmp_path / "none" / "store.db")


def test_a_day_s_work_is_backed_up_when_the_store_is_next_opened(store: Store) -> None:
    place, now = store.place, datetime.now(UTC)
    assert back_up_when_due(place, now + timedelta(days=9)) is None  # nothing is stored yet
    store.save_set("ada", golf_set(56), "56", who="tester")
    assert back_up_when_due(place, now + timedelta(hours=23)) is None
    made = back_up_when_due(place, now + timedelta(hours=25))
    assert made is not None
    assert back_up_when_due(place, now + timedelta(days=9)) is None  # nothing was stored since
    store.save_set("ada", golf_set(50), "50", who="tester")
    assert back_up_when_due(place, now + timedelta(hours=1)) is None
    assert back_up_when_due(place, now - timedelta(days=400)) is None  # a clock that went backwards


def test_opening_makes_the_backup_that_is_due_and_works_without_it(
    store: Store, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    store.save_set("ada", golf_set(56), "56", who="tester")
    monkeypatch.setattr(backups, "EVERY", timedelta(0))
    folder = backups_folder(store.place)
    folder.parent.mkdir(exist_ok=True, parents=True)
    folder.write_text("in the way")
    with caplog.at_level(logging.WARNING), open_store(store.place) as opened:
        assert opened.load_set("ada").version == 1
    assert "the daily backup was not made" in caplog.text
    folder.unlink()
    open_store(store.place).close()
    assert len(backups_of(store.place)) == 1


def test_old_backups_go_by_count_and_age() -> None:
    """Of three years of daily backups stay the newest fourteen and the last of each of twelve months."""
    now = datetime(2026, 6, 15, tzinfo=UTC)
    daily = tuple(Backup(Path(f"{n}.db"), now - timedelta(days=n), "0" * 12) for n in range(1000))
    gone = thin_out(daily, now)
    standing = [backup.at.date().isoformat() for backup in daily if backup not in gone]
    assert standing[:14] == [f"2026-06-{day:02}" for day in range(15, 1, -1)]
    assert standing[14:17] == ["2026-05-31", "2026-04-30", "2026-03-31"]
    assert len(standing) == 14 + 12


def test_only_backups_of_this_store_are_removed(file_store: Store) -> None:
    file_store.save_set("ada", golf_set(56), "56", who="tester")
    made = back_up(file_store.place)
    for name in ("store-20200101T000000Z-0123456789ab.db", "other-20200101T000000Z-0123456789ab.db", "store-old.db"):
        (made.file.parent / name).write_text("x")
    gone = backups.remove_old(file_store.place, keep=1)
    assert [file.name for file in gone] == ["store-20200101T000000Z-0123456789ab.db"]
