"""A PostgreSQL server of one's own, in a temporary folder, for as long as the tests run."""

from __future__ import annotations

import contextlib
import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

import psycopg

BINARIES = Path("/usr/lib/postgresql")
SHOP = "shop"
"""The user that stores are kept as: it owns its databases, and may do nothing else."""


def binaries() -> Path | None:
    """The folder of the newest server's programs, or None where none is installed."""
    found = sorted(BINARIES.glob("*/bin/postgres"), key=lambda path: int(path.parent.parent.name))
    if found:
        return found[-1].parent
    program = shutil.which("postgres")
    return Path(program).resolve().parent if program else None


@contextlib.contextmanager
def running(programs: Path) -> Iterator[str]:
    """A fresh server that answers on a socket of its own only; yields where that is, as the `host` of an address.

    Its folder is in memory where that is possible, so that what is flushed to it costs nothing; what it is told to
    flush, it flushes.
    """
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if os.access(memory, os.W_OK) else None, prefix="pg") as folder:
        home = Path(folder)
        user = None
        if os.geteuid() == 0:  # the server refuses to run as the superuser
            user = next(name for name in ("postgres", "nobody") if known(name))
            shutil.chown(home, user)
        data = home / "data"
        subprocess.run(
            [programs / "initdb", "-D", data, "-U", "keeper", "-A", "trust", "-E", "UTF8", "--locale=C", "-N"],
            check=True, capture_output=True, user=user, cwd=home,
        )  # fmt: skip
        settings = {
            "listen_addresses": "", "unix_socket_directories": str(home), "max_connections": "60",
            "shared_buffers": "32MB", "logging_collector": "off", "autovacuum": "off",
        }  # fmt: skip
        given = [part for name, value in settings.items() for part in ("-c", f"{name}={value}")]
        with (home / "log").open("wb") as log:
            server = subprocess.Popen(
                [programs / "postgres", "-D", data, *given], stdout=log, stderr=log, user=user, cwd=home
            )
            try:
                wait_for(home)
                yield str(home)
            finally:
                server.terminate()  # waits for nobody's sessions but those that are under way
                with contextlib.suppress(subprocess.TimeoutExpired):
                    server.wait(5)
                if server.poll() is None:
                    server.send_signal(3)  # at once
                    server.wait(20)


def known(name: str) -> bool:
    """True where this machine has such a user."""
    with contextlib.suppress(KeyError):
        return bool(pwd.getpwnam(name))
    return False


def wait_for(home: Path) -> None:
    """Wait until the server answers, and let the shop's user in."""
    import time

    for _ in range(200):
        try:
            with keeper(str(home)) as connection:
                connection.execute(f"CREATE ROLE {SHOP} LOGIN".encode())
            return
        except psycopg.OperationalError:
            time.sleep(0.05)
    raise RuntimeError((home / "log").read_text())


def keeper(host: str, database: str = "postgres") -> psycopg.Connection[tuple[object, ...]]:
    """A connection of the server's own keeper, who may do anything."""
    return psycopg.connect(host=host, user="keeper", dbname=database, autocommit=True)
