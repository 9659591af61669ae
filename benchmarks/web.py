"""The web app as `asplayed serve` starts it: its first page, what-ifs, many at once, and what a page weighs."""

from __future__ import annotations

import http.client
import os
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import urlencode, urlsplit

from asplayed.demo import into_store
from asplayed.keeping import open_store
from benchmarks import Line

TITLE = "The web app"
TESTS = Path(__file__).resolve().parent.parent / "tests" / "web"
SET = "jonas-tessler"  # 14 clubs
MOVES = 200
USERS, EACH = 50, 10
HEAVIEST = 300_000  # bytes


class Client:
    """Somebody with a browser: a connection that stays open, and a session's cookie."""

    def __init__(self, address: str) -> None:
        parts = urlsplit(address)
        self._host = parts.netloc
        self._connection = http.client.HTTPConnection(parts.netloc, timeout=60)
        answer = self.ask("GET", f"{parts.path}?{parts.query}")
        self.cookie = answer.headers["set-cookie"].split(";")[0]

    cookie = ""

    def ask(self, method: str, path: str, body: str | None = None) -> Answered:
        """One request, and its answer whole."""
        sent = {"Cookie": self.cookie, "Accept": "text/html", "Accept-Encoding": "gzip"}
        if body is not None:
            sent |= {"Content-Type": "application/x-www-form-urlencoded", "Origin": f"http://{self._host}"}
        self._connection.request(method, path, body, sent)
        answer = self._connection.getresponse()
        content = answer.read()
        return Answered(answer.status, answer.headers, content)


class Answered(NamedTuple):
    """An answer: its status, headers and bytes."""

    status: int
    headers: Any
    content: bytes


@contextmanager
def on_every_core() -> Iterator[None]:
    """The server and its users on all the cores there are: both are many threads."""
    if not hasattr(os, "sched_setaffinity"):
        yield
        return
    before = os.sched_getaffinity(0)
    os.sched_setaffinity(0, range(os.cpu_count() or 1))
    try:
        yield
    finally:
        os.sched_setaffinity(0, before)


def processor_time(process: int) -> float:
    """The processor time that a process has used so far, in milliseconds."""
    fields = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rsplit(") ", 1)[1].split()
    return 1000 * (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


@contextmanager
def served() -> Iterator[tuple[str, int]]:
    """`asplayed serve` over a store with the demo's sets: the address it printed, and its process."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "store.db"
        with open_store(place) as kept:
            into_store(kept, who="benchmark")
        command = [str(Path(sys.executable).with_name("asplayed")), "serve", "--port", "0", "--no-browser"]
        with subprocess.Popen([*command, "--store", str(place)], stdout=subprocess.PIPE, text=True) as server:
            try:
                assert server.stdout is not None
                yield server.stdout.readline().strip(), server.pid
            finally:
                server.terminate()


def took(work: Callable[[], Any]) -> float:
    """How long something takes, in milliseconds."""
    start = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - start)


def measure() -> list[Line]:
    """Over one server on this machine, its store the demo's."""
    with on_every_core(), served() as (address, process):
        user = Client(address)
        first = took(lambda: user.ask("GET", "/"))
        page = user.ask("GET", f"/sets/{SET}/try").content.decode()
        found = re.search(r'name="csrf" content="(\w+)"', page)
        assert found is not None
        token = found[1]
        user.ask("GET", f"/sets/{SET}")
        used = processor_time(process)
        moves = [took(lambda step=step: move(user, token, step)) for step in range(MOVES)]
        used = (processor_time(process) - used) / MOVES
        shown = [took(lambda: user.ask("GET", f"/sets/{SET}")) for _ in range(30)]
        weights = {path: weight(user, path) for path in ("/", "/take", f"/sets/{SET}", f"/sets/{SET}/try")}
        waits, faults = at_once(address)
    moves.sort()
    heaviest = max(weights, key=lambda path: weights[path])
    slow = moves[int(0.95 * len(moves))]
    return [
        Line("the first page of a server just started", round(first, 1), "ms", "< 300 ms", first < 300),
        Line("what-if round trip, 14 clubs, median", round(statistics.median(moves), 1), "ms"),
        Line("what-if round trip, 14 clubs, 95th percentile", round(slow, 1), "ms", "< 100 ms", slow < 100),
        Line("processor time of the server for it", round(used, 1), "ms", "", None, "what it takes on an idle core"),
        Line("the page of a set, median", round(statistics.median(shown), 1), "ms"),
        Line("heaviest first load", round(max(weights.values()) / 1000, 1), "kB", "< 300 kB",
             max(weights.values()) < HEAVIEST, f"{heaviest}, packed as it is sent"),
        Line(f"{USERS} at once, {EACH} pages and what-ifs each: errors", faults, "", "0", faults == 0),
        Line(f"{USERS} at once: median wait", round(statistics.median(waits), 0), "ms"),
        Line(f"{USERS} at once: longest wait", round(max(waits), 0), "ms"),
    ]  # fmt: skip


def prove() -> list[Line]:
    """The tests of the web app that try many things, at their full length."""
    ran = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", str(TESTS)],
        capture_output=True, text=True, check=False, env={**os.environ, "ASPLAYED_LONG": "1"},
    )  # fmt: skip
    said = ran.stdout.strip().splitlines()[-1] if ran.stdout.strip() else "nothing ran"
    return [Line("long tests that failed", ran.returncode, "", "0", ran.returncode == 0, said.strip("= "))]


def move(user: Client, token: str, step: int) -> None:
    """One move of a slider: the answer for a change never asked for before."""
    bend = 0.25 + step % 16 * 0.25
    changes = f"sand wedge: bend {bend} weak\nwind: {step % 25 + 1} mph head"
    answer = user.ask("POST", f"/sets/{SET}/try/seen", urlencode({"csrf": token, "changes": changes}))
    assert answer.status == 200, answer.status


def weight(user: Client, path: str) -> int:
    """The bytes of a page and of everything it loads at first."""
    page = user.ask("GET", path).content
    wanted = set(re.findall(r'(?:href|src)="(/assets/[^"]+)"', page.decode()))
    loaded: dict[str, bytes] = {}
    while wanted:
        name = wanted.pop()
        loaded[name] = user.ask("GET", name).content
        text = unpacked(loaded[name]).decode("utf-8", "replace")
        folder = name.rsplit("/", 1)[0]
        more = re.findall(r'(?:from |url\()"?\'?\.?/?([\w-]+\.(?:js|css|woff2))', text)
        wanted |= {f"{folder}/{each}" for each in more} - set(loaded)
    return len(page) + sum(len(each) for each in loaded.values())


def unpacked(content: bytes) -> bytes:
    """What was sent, as it reads."""
    import gzip

    return gzip.decompress(content) if content.startswith(b"\x1f\x8b") else content


def at_once(address: str) -> tuple[list[float], int]:
    """Many users at once, each with a browser of his own: how long each of their requests took, and how many failed."""
    waits: list[float] = []
    faults: list[str] = []

    def one(number: int) -> None:
        try:
            user = Client(address)
            page = user.ask("GET", f"/sets/{SET}/try").content.decode()
            token = re.search(r'name="csrf" content="(\w+)"', page)
            assert token is not None
            for step in range(EACH):
                if step % 2:
                    waits.append(took(lambda step=step: move(user, token[1], number + step)))
                else:
                    waits.append(took(lambda: user.ask("GET", f"/sets/{SET}")))
        except (OSError, AssertionError, http.client.HTTPException) as fault:
            faults.append(repr(fault))

    users = [threading.Thread(target=one, args=(number,)) for number in range(USERS)]
    for user in users:
        user.start()
    for user in users:
        user.join()
    return waits, len(faults)
