"""`asplayed serve` as a process: one line with the address, signs of life, TLS, a port that is taken."""

from __future__ import annotations

import contextlib
import json
import shutil
import socket
import ssl
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from asplayed.cli import main

ASPLAYED = str(Path(sys.executable).with_name("asplayed"))
OPENER = urllib.request.build_opener(urllib.request.ProxyHandler({}))


@contextlib.contextmanager
def serving(store: Path, *given: str) -> Iterator[str]:
    """`asplayed serve` on a free port; the one line it printed."""
    command = [ASPLAYED, "serve", "--store", str(store), "--port", "0", "--no-browser", *given]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            yield server.stdout.readline()
            server.terminate()
            rest, faults = server.communicate(timeout=20)
            assert rest == "", "one line is all that it says"
            assert faults == ""
        finally:
            server.kill()


def asked(address: str, **headers: str) -> tuple[int, Any]:
    """A request's status and its answer."""
    try:
        with OPENER.open(urllib.request.Request(address, headers=headers), timeout=20) as answer:
            return answer.status, answer.read()
    except urllib.error.HTTPError as fault:
        with fault:
            return fault.code, fault.read()


def test_it_prints_one_address_and_answers_there(tmp_path: Path) -> None:
    with serving(tmp_path / "store.db") as line:
        address = line.removesuffix("\n")
        base, _, token = address.partition("/?token=")
        assert base.startswith("http://127.0.0.1:")
        assert len(token) >= 22
        assert asked(f"{base}/health") == (200, b'{"status":"well"}')
        status, described = asked(f"{base}/openapi.json")
        assert (status, json.loads(described)["openapi"][:2]) == (200, "3.")
        assert asked(f"{base}/")[0] == 403
        assert asked(f"{base}/api/sets", Authorization=f"Bearer {token}") == (200, b'{"sets":[]}')
        assert asked(f"{base}/health", Host="evil.example")[0] == 403
    assert (tmp_path / "store.db").exists()


def test_it_listens_on_the_loopback_alone(tmp_path: Path) -> None:
    others = {info[4][0] for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)} - {"127.0.0.1"}
    with serving(tmp_path / "store.db") as line:
        port = int(line.rsplit(":", 1)[1].partition("/")[0])
        for other in others:
            if not other.startswith("127."):
                with pytest.raises(OSError), socket.create_connection((other, port), timeout=2):
                    pass


def test_a_shop_speaks_tls_with_the_certificate_it_is_given(tmp_path: Path) -> None:
    if shutil.which("openssl") is None:
        pytest.skip("openssl is missing: apt-get install openssl")
    certificate, key = tmp_path / "bench.pem", tmp_path / "bench.key"
    subprocess.run(
        ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "1", "-subj", "/CN=localhost",
         "-addext", "subjectAltName=DNS:localhost,IP:127.0.0.1", "-keyout", str(key), "-out", str(certificate)],
        check=True, capture_output=True,
    )  # fmt: skip
    with serving(tmp_path / "store.db", "--shop", "--certificate", str(certificate), "--key", str(key)) as line:
        address = line.removesuffix("\n")
        assert address.startswith("https://127.0.0.1:")
        assert "/begin?token=" in address
        context = ssl.create_default_context(cafile=str(certificate))
        with urllib.request.urlopen(address, context=context, timeout=20) as answer:
            assert answer.headers["strict-transport-security"]
            assert b"first keeper" in answer.read()


def test_a_port_that_is_taken_is_said_in_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        with pytest.raises(SystemExit) as left:
            main(["serve", "--store", str(tmp_path / "store.db"), "--port", str(other.getsockname()[1])])
    assert left.value.code == 2
    assert "give another with --port" in capsys.readouterr().err
