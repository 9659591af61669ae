"""Logs and errors tell no secret and cannot be forged: promise 25. Papers stay where they are put: promise 21."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from litestar.testing import TestClient
from tests.web.conftest import PORT, TOKEN, visiting
from tests.web.test_doors import routes

from asplayed.web.app import application
from asplayed.web.doors import Doors
from asplayed.web.known import Known
from asplayed.web.settings import Settings

CANARY = "Zilpah-Canary-7731"
FORGED = f"{CANARY}\r\nERROR asplayed.web: forged\x1b[31m"
FIELDS = ("name", "password", "old", "new", "code", "text", "as", "why", "changes", "typed", "club", "player", "token")


def test_no_log_and_no_fault_of_the_server_tells_what_was_sent(
    store: Path, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every route, with a canary in every field and header, as it is and where something breaks underneath."""

    def broken(_self: Known, name: str) -> Any:
        raise RuntimeError(f"something broke over {name} with {CANARY}")

    caplog.set_level(logging.DEBUG)
    sent = {f"x-{field}": CANARY for field in FIELDS} | {"cookie": f"asplayed-{PORT}-look={CANARY}"}
    for breaking, shop in ((False, False), (True, False), (False, True)):
        if breaking:
            monkeypatch.setattr(Known, "bag", broken)
        app = application(store, Settings(PORT, token=TOKEN, shop=shop))
        with visiting(app, authorization=f"Bearer {TOKEN}") as client:
            for method, path in routes(app):
                fields = dict.fromkeys(FIELDS, FORGED)
                asked = path.replace("ada-brandt", quote(CANARY)) if not breaking else path
                answer = client.request(
                    method, asked, params={"club": CANARY, "figure": FORGED}, headers=sent | {"user-agent": CANARY},
                    data=fields if method != "GET" else None,
                )  # fmt: skip
                if answer.status_code >= 500:
                    assert CANARY not in answer.text
                    assert "Traceback" not in answer.text
        monkeypatch.undo()
        caplog.set_level(logging.DEBUG)
    told = [record.getMessage() for record in caplog.records if not record.name.startswith("httpx")]
    assert any("unforeseen RuntimeError" in line for line in told), "what broke is told, without what was in hand"
    assert not [line for line in told if CANARY in line or TOKEN in line]
    assert not [line for line in told if "\n" in line or "\x1b" in line]


def test_a_password_is_never_shown_again(store: Path) -> None:
    shop = application(store, Settings(PORT, token=TOKEN, shop=True))
    with visiting(shop, origin=f"http://127.0.0.1:{PORT}") as client:
        for path in ("/sign-in", "/begin"):
            answer = client.post(path, data={"name": "Priya", "password": CANARY, "token": TOKEN})
            assert CANARY not in answer.text


NAMES = (
    "../../etc/passwd", "..\\..\\boot.ini", "/etc/shadow", "C:\\autoexec.bat", "..", ".", "", " ", "CON", "nul.txt",
    "aux", "COM1", "a" * 4096 + ".pdf", "photo\u202egnp.exe", "two\nlines.txt", "tab\tin.txt", 'quote".html',
    "semi;colon.svg", "page.html", "picture.svg", "\u2028line.js", "über maß.pdf", "名前.png", "-rf.png", ".htaccess",
    "%2e%2e%2fetc.txt", "file://x", "\\\\server\\share", "a/b/c.png", "trail. .",
)  # fmt: skip


@pytest.mark.parametrize("content", [b"<script>alert(1)</script>", b"\x89PNG\r\n\x1a\n....", b"%PDF-1.7 ..."])
def test_papers_come_back_as_downloads_under_a_harmless_name(
    client: TestClient[Any], app: Doors, tmp_path: Path, content: bytes
) -> None:
    client.get("/")
    before = sorted(each.name for each in tmp_path.rglob("*"))
    for number, name in enumerate(NAMES):
        sent = content + str(number).encode()
        answer = client.post("/sets/ada-brandt/papers", files={"paper": (name or "x", sent)}, follow_redirects=False)
        assert answer.status_code in (303, 400), name
    kept = client.get("/api/sets/ada-brandt/papers").json()["attachments"]
    assert len(kept) >= len(NAMES) - 3
    for each in kept:
        assert "/" not in each["file"]
        assert "\\" not in each["file"]
        assert each["file"].isprintable()
        answer = client.get(f"/sets/ada-brandt/papers/{each['sha256']}")
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "application/octet-stream"
        assert answer.headers["content-disposition"].startswith("attachment; ")
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.content.startswith(content)
    logs = {"store.db-wal", "store.db-shm"}
    assert {each.name for each in tmp_path.rglob("*")} - logs == set(before) - logs, (
        "nothing is written beside the store"
    )
    for hash_of in ("..", "../../etc/passwd", "%2e%2e", kept[0]["sha256"][:8], "0" * 64, "x" * 64):
        assert client.get(f"/sets/ada-brandt/papers/{hash_of}").status_code in (404, 200)
        assert "root:" not in client.get(f"/sets/ada-brandt/papers/{hash_of}").text
