"""Writers that are killed (`kill -9`) at random moments; prints as JSON what was announced and what is missing.

killed_writers.py STORE KILLS SEED      each writer saves numbered sets and announces each after its commit
killed_writers.py STORE KILLS making    each writer makes a new store and is killed about then
"""

from __future__ import annotations

import json
import os
import random
import signal
import sqlite3
import sys
import time
from contextlib import closing
from pathlib import Path

import alembic.command  # noqa: F401  brought in once, before the forks

from asplayed.clubs import Club, GolfSet, Head
from asplayed.keeping import open_store, read_set
from asplayed.quantities import figure


def numbered(number: int) -> GolfSet:
    return GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(number, "deg", "stated"))),))


def writer(place: Path, run: int, announce: int) -> None:
    with open_store(place) as store:
        for number in range(100_000):
            store.save_set(f"set {run}", numbered(number), f"{run} {number} " * 50, who="writer")
            os.write(announce, b"%d\n" % number)


def fork_and_kill(work: object, after: float) -> tuple[str, bool]:
    """What a child announced until it was killed, and whether the kill came before it was done."""
    hear, announce = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(hear)
        work(announce)  # type: ignore[operator]
        os._exit(0)
    os.close(announce)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(hear) as heard:
        return heard.read(), os.WIFSIGNALED(status)


def saving(place: Path, kills: int, seed: int) -> dict[str, object]:
    chance, acknowledged, lost = random.Random(seed), 0, []
    for run in range(kills):
        heard, _ = fork_and_kill(lambda announce, run=run: writer(place, run, announce), chance.uniform(0, 0.3))
        numbers = [int(line) for line in heard.splitlines()]
        acknowledged += len(numbers)
        for number in numbers:
            stored = read_set(f"set {run}", place, number + 1)
            if (stored.golf_set, stored.original) != (numbered(number), (f"{run} {number} " * 50).encode()):
                lost.append([run, number])
    with closing(sqlite3.connect(place)) as connection:
        integrity = [row[0] for row in connection.execute("PRAGMA integrity_check")]
        integrity += [str(row) for row in connection.execute("PRAGMA foreign_key_check")]
    return {"acknowledged": acknowledged, "lost": lost, "integrity": integrity}


def making(place: Path, kills: int) -> dict[str, object]:
    began = time.perf_counter()
    open_store(place).close()
    usual = time.perf_counter() - began
    killed = opened = 0
    for run in range(kills):
        fresh = place.with_name(f"{run}.db")
        _, early = fork_and_kill(lambda _, fresh=fresh: open_store(fresh).close(), usual * (run + 0.5) / kills)
        killed += early
        with open_store(fresh) as store:
            opened += store.save_set("one", numbered(1), "", who="writer").version
    return {"killed while making": killed, "opened after": opened}


if __name__ == "__main__":
    where, times = Path(sys.argv[1]), int(sys.argv[2])
    told = making(where, times) if sys.argv[3] == "making" else saving(where, times, int(sys.argv[3]))
    print(json.dumps(told))
