"""Copies, the proof of the store, and plain files, on a page."""

from __future__ import annotations

import io
import sqlite3
import zipfile
from pathlib import Path
from typing import Any

from litestar.testing import TestClient

Client = TestClient[Any]


def test_a_copy_is_made_proved_and_taken_along(client: Client, store: Path, tmp_path: Path) -> None:
    page = client.post("/backups", follow_redirects=True)
    assert "is a proved backup" in page.text
    [copy] = (store.parent / "backups").glob("*.db")
    taken = client.get(f"/backups/{copy.name}")
    assert taken.headers["content-disposition"].startswith("attachment")
    (tmp_path / "taken.db").write_bytes(taken.content)
    with sqlite3.connect(tmp_path / "taken.db") as found:
        assert found.execute("SELECT count(*) FROM sets").fetchone() == (3,)


def test_only_copies_are_given_out(client: Client) -> None:
    for name in ("store.db", "..%2Fstore.db", "%2Fetc%2Fpasswd"):
        assert client.get(f"/backups/{name}").status_code in (400, 404)


def test_the_store_is_proved_whole_and_damage_is_told(client: Client, store: Path) -> None:
    assert "The store is whole" in client.get("/backups", params={"proved": "true"}).text
    assert client.get("/api/verify").json()["ok"] is True
    with sqlite3.connect(store) as damaged:
        damaged.execute("UPDATE originals SET words = x'00' WHERE rowid = 1")
    assert client.get("/api/verify").json()["ok"] is False
    assert "The store is not whole" in client.get("/backups", params={"proved": "true"}).text


def test_everything_goes_along_as_plain_files(client: Client) -> None:
    packed = zipfile.ZipFile(io.BytesIO(client.get("/backups/plain/files").content))
    assert packed.testzip() is None
    assert any(name.endswith("history.jsonl") for name in packed.namelist())
