"""A store with the demo's sets, and the app over it: in this process, or served on a free port of the loopback."""

from __future__ import annotations

import contextlib
import os
import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient

from asplayed.demo import into_store
from asplayed.keeping import open_store
from asplayed.web import Settings, application

PORT = 8000
TOKEN = "a-token-of-these-tests"
BASE = f"http://127.0.0.1:{PORT}"


def times(short: int, long: int) -> int:
    """How often a test tries: `long` in the long run, which sets ASPLAYED_LONG."""
    return long if os.environ.get("ASPLAYED_LONG") else short


@pytest.fixture(scope="session")
def demo_store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's week, stored once; copied for every test that asks for `store`."""
    place = tmp_path_factory.mktemp("estow") / "store.db"
    with open_store(place) as kept:
        into_store(kept, who="demo")
    return place


@pytest.fixture
def store(demo_store: Path, tmp_path: Path) -> Path:
    """A store of this test's own with the demo's sets: mireille-okafor, ada-brandt, jonas-tessler."""
    place = tmp_path / "store.db"
    shutil.copy(demo_store, place)
    return place


@pytest.fixture
def app(store: Path) -> Any:
    """The app of this machine's user over that store."""
    return application(store, Settings(PORT, token=TOKEN, who="tester"))


@contextlib.contextmanager
def visiting(app: Any, **headers: str) -> Iterator[TestClient[Any]]:
    """Somebody who asks the app without a socket between them."""
    with TestClient(app, base_url=BASE, raise_server_exceptions=False) as client:
        client.headers.update(headers)
        yield client


@pytest.fixture
def client(app: Any) -> Iterator[TestClient[Any]]:
    """This machine's user, who sends the token itself, as a script does."""
    with visiting(app, authorization=f"Bearer {TOKEN}") as client:
        yield client


@pytest.fixture
def stranger(app: Any) -> Iterator[TestClient[Any]]:
    """Somebody without the token."""
    with visiting(app) as client:
        yield client


@pytest.fixture
def browser_like(app: Any) -> Iterator[TestClient[Any]]:
    """This machine's user with a browser: a session's cookie instead of the token."""
    with visiting(app, accept="text/html") as client:
        client.get(f"/?token={TOKEN}")
        yield client


@contextlib.contextmanager
def serving(store: Path, **given: Any) -> Iterator[str]:
    """The app on a free port of the loopback; the address with its token."""
    import uvicorn

    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        port = listening.getsockname()[1]
        app = application(store, Settings(port, token=TOKEN, who="tester", **given))
        server = uvicorn.Server(uvicorn.Config(app, log_config=None, access_log=False, lifespan="on", ws="none"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        while not server.started:
            assert thread.is_alive()
            time.sleep(0.01)
        try:
            yield f"http://127.0.0.1:{port}/?token={TOKEN}"
        finally:
            server.should_exit = True
            thread.join(10)


@pytest.fixture(scope="session")
def starting() -> Callable[..., contextlib.AbstractContextManager[str]]:
    """Starts the app over a store, as a server of its own, for as long as it is needed."""
    return serving


@pytest.fixture(scope="module")
def looked_at(demo_store: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The app served for a whole module whose tests only look; the address with its token."""
    place = tmp_path_factory.mktemp("looked-at") / "store.db"
    shutil.copy(demo_store, place)
    with serving(place) as address:
        yield address


@pytest.fixture
def served(store: Path) -> Iterator[str]:
    """The app over a store of this test's own, served; the address with its token."""
    with serving(store) as address:
        yield address
