"""Writers that are killed (`kill -9`) at random moments; prints as JSON what was announced and what is missing.

killed_writers.py STORE KILLS SEED    each writer saves numbered sets and announces each after its commit
killed_writers.py STORE… making       each writer makes a new store and is killed about then
killed_writers.py STORE ONE OTHER KILLS restoring   each restores one of two backups over the other, and is killed
killed_writers.py STORE OLD KILLS migrating   each migrates a copy of an old store, and is killed
"""

from __future__ import annotations

import json
import os
import random
import shutil
import signal
import sys
import time
from pathlib import Path

import alembic.command  # noqa: F401  brought in once, before the forks

from asplayed.clubs import Club, GolfSet, Head
from asplayed.keeping import open_store, read_set
from asplayed.keeping.backups import restore
from asplayed.keeping.places import SCHEMA, schema_of
from asplayed.keeping.proving import prove
from asplayed.quantities import figure


def numbered(number: int) -> GolfSet:
    return GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(number, "deg", "stated"))),))


def writer(place: str, run: int, announce: int) -> None:
    with open_store(place) as store:
        os.write(announce, b"ready\n")
        for number in range(100_000):
            store.save_set(f"set {run}", numbered(number), f"{run} {number} " * 50, who="writer")
            os.write(announce, b"%d\n" % number)


def fork_and_kill(work: object, after: float, ready: bytes = b"") -> tuple[str, bool]:
    """What a child announced, from when it was ready until it was killed, and whether it was not done by then."""
    hear, announce = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(hear)
        work(announce)  # type: ignore[operator]
        os._exit(0)
    os.close(announce)
    assert os.read(hear, len(ready)) == ready
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(hear) as heard:
        return heard.read(), os.WIFSIGNALED(status)


def saving(place: str, kills: int, seed: int) -> dict[str, object]:
    chance, acknowledged, lost = random.Random(seed), 0, []
    for run in range(kills):
        heard, _ = fork_and_kill(
            lambda announce, run=run: writer(place, run, announce), chance.uniform(0, 0.3), b"ready\n"
        )
        numbers = [int(line) for line in heard.splitlines()]
        acknowledged += len(numbers)
        for number in numbers:
            stored = read_set(f"set {run}", place, number + 1)
            if (stored.golf_set, stored.original) != (numbered(number), (f"{run} {number} " * 50).encode()):
                lost.append([run, number])
    return {"acknowledged": acknowledged, "lost": lost, "faults": prove(place, figures=False).faults}


def making(places: list[str]) -> dict[str, object]:
    began = time.perf_counter()
    open_store(places[0]).close()
    usual = time.perf_counter() - began
    killed, opened, kills = 0, 1, len(places) - 1
    for run, fresh in enumerate(places[1:]):
        _, early = fork_and_kill(lambda _, fresh=fresh: open_store(fresh).close(), usual * (run + 0.5) / kills)
        killed += early
        with open_store(fresh) as store:
            opened += store.save_set("one", numbered(1), "", who="writer").version
    return {"killed while making": killed, "opened after": opened}


def restoring(place: str, one: str, other: str, kills: int) -> dict[str, object]:
    """What stands after each kill is one of the two, whole; told is how often the restore had been done by then."""
    restore(one, place)
    began = time.perf_counter()
    restore(other, place)
    usual = time.perf_counter() - began
    chance, wrong, done, killed, standing = random.Random(11), [], 0, 0, head_of(place)
    heads = {head_of(one): other, head_of(other): one}
    for run in range(kills):
        aim = heads[standing]
        _, early = fork_and_kill(lambda _, aim=aim: restore(aim, place), chance.uniform(0, 1.1 * usual))
        killed += early
        proof = prove(place, figures=False)
        found = str(proof.checked.get("head"))
        if proof.faults or found not in heads:
            wrong.append([run, found, *proof.faults])
            restore(one, place)
        done += found != standing
        standing = head_of(place)
    return {"killed": killed, "restored": done, "wrong": wrong}


def migrating(place: str, old: str, kills: int) -> dict[str, object]:
    """What stands after each kill is the old store or the new one, whole, and opens; told is how often it was new."""
    chance, wrong, done, killed = random.Random(12), [], 0, 0
    shutil.copy(old, place)
    began = time.perf_counter()
    open_store(place).close()
    usual = time.perf_counter() - began
    for run in range(kills):
        for file in Path(place).parent.glob(Path(place).name + "*"):
            file.unlink()
        shutil.copy(old, place)
        _, early = fork_and_kill(lambda _: open_store(place).close(), chance.uniform(0, 1.1 * usual))
        killed += early
        proof = prove(place, figures=False)
        if proof.faults or proof.checked["schema"] not in (schema_of(Path(old)), SCHEMA):
            wrong.append([run, *proof.faults])
        done += proof.checked["schema"] == SCHEMA
        with open_store(place) as store:
            if store.list_sets()[0].version != 3:
                wrong.append([run, "the set is not as it was"])
    return {"killed": killed, "migrated": done, "wrong": wrong}


def head_of(place: str) -> str:
    return str(prove(place, figures=False).checked["head"])


if __name__ == "__main__":
    *given, last = sys.argv[1:]
    match last:
        case "making":
            told = making(given)
        case "restoring":
            told = restoring(*given[:3], int(given[3]))
        case "migrating":
            told = migrating(*given[:2], int(given[2]))
        case seed:
            told = saving(given[0], int(given[1]), int(seed))
    print(json.dumps(told))
