"""Sweeps: very many single shots made, flown and reduced, through the engine and plainly, in the same run."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet, Head
from asplayed.players.records import Player
from asplayed.quantities import figure
from asplayed.sweeps.landings import SHOTS_A_BLOCK, Landings
from benchmarks import Line

TITLE = "Sweeps"
COUNTS = (10**6, 10**7, 10**8)
LONGEST = 240.0  # s of processor a count may be expected to take; one that would take longer is left out and named


def study(shots: int) -> Landings:
    """So many shots of one iron."""
    seven = Club(club="7 iron", kind="iron", head=Head(loft=figure(32.0, "deg", "stated")))
    return Landings(
        sets=(("one", GolfSet(clubs=(seven,))),),
        players=(Player(driver_speed=figure(100.0, "mph", "stated"), handicap=figure(5.0, "1", "stated")),),
        shots=shots,
    )


class Spent(NamedTuple):
    """Seconds by the clock, seconds of processor, and the most memory [MB] of the process that flew."""

    clock: float
    processor: float
    memory: float


def plainly(shots: int) -> Spent:
    """The blocks alone, one after another: no engine, nothing kept."""
    asked = study(shots)
    asked.block(0)  # compiles, loads
    clock, spent = time.perf_counter(), time.process_time()
    for number in range(asked.blocks()):
        asked.block(number)
    return Spent(time.perf_counter() - clock, time.process_time() - spent, _most())


def swept(shots: int) -> Spent:
    """The same through the engine in this process: chunks, tree, checksums and folder."""
    from asplayed.sweeps.engine import sweep
    from asplayed.sweeps.workers import Here

    study(shots).block(0)
    clock, spent = time.perf_counter(), time.process_time()
    with tempfile.TemporaryDirectory() as folder:
        sweep(study(shots), Path(folder) / "sweep", Here())
    return Spent(time.perf_counter() - clock, time.process_time() - spent, _most())


def clustered(shots: int) -> Spent:
    """The same on one worker of the embedded cluster, once it is up; processor time of both processes together."""
    from distributed import get_client

    from asplayed.sweeps.engine import sweep
    from asplayed.sweeps.workers import pool

    with tempfile.TemporaryDirectory() as folder, pool(1) as (executor, width):
        sweep(study(SHOTS_A_BLOCK), Path(folder) / "warm", executor, width=width)
        client = get_client()
        before = sum(client.run(time.process_time).values())
        clock, spent = time.perf_counter(), time.process_time()
        sweep(study(shots), Path(folder) / "sweep", executor, width=width)
        clock, spent = time.perf_counter() - clock, time.process_time() - spent
        worker = sum(client.run(time.process_time).values()) - before
        return Spent(clock, spent + worker, sum(client.run(_most).values()))


def _most() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def apart(what: str, shots: int) -> Spent:
    """One way and count in a process of its own that is held to one thread before it starts, as workers are."""
    from asplayed.sweeps.workers import ONE_THREAD

    code = f"from benchmarks.sweeps import {what}; print(*{what}({shots}))"
    ran = subprocess.run(
        [sys.executable, "-c", code],
        cwd=Path(__file__).resolve().parent.parent,
        env={**os.environ, **ONE_THREAD},
        capture_output=True,
        check=True,
        text=True,
    )
    return Spent(*map(float, ran.stdout.split()))


def measure() -> list[Line]:
    """Time by count, the engine's share of it, and memory; processor time, for the machine may be shared."""
    found: list[Line] = []
    alone: dict[int, Spent] = {}
    for shots in COUNTS:
        if alone and min(each.processor / done for done, each in alone.items()) * shots > LONGEST:
            found.append(Line(f"{shots:,} shots", 0, "s", note="left out: it would take too long on this machine"))
            continue
        alone[shots] = apart("plainly", shots)
        found.append(
            Line(f"{shots:,} shots, blocks alone", alone[shots].processor, "s of processor", note=_by(alone[shots]))
        )
        for what, way in (("in this process", "swept"), ("on an embedded worker", "clustered")):
            spent = apart(way, shots)
            over = 100 * (spent.processor / alone[shots].processor - 1)
            found.append(Line(f"{shots:,} shots, engine {what}", spent.processor, "s of processor", note=_by(spent)))
            found.append(Line("its overhead", over, "%", "< 10", over < 10))
            found.append(Line("its most memory", spent.memory, "MB", "< 500", spent.memory < 500))
    few, many = min(alone), max(alone)
    ratio = alone[many].processor / many / (alone[few].processor / few)
    found.append(Line("time a shot, most over fewest", ratio, "times", "0.8 to 1.25", 0.8 <= ratio <= 1.25))
    found.append(Line("kept on disk a million blocks", _kept(), "MB", note="in chunks of 8"))
    return found


def _by(spent: Spent) -> str:
    return f"{spent.clock:.1f} s by the clock"


def _kept() -> float:
    """Megabytes that the folder of a million blocks takes, reckoned from one chunk."""
    from asplayed.sweeps.engine import work

    return len(work(study(8 * SHOTS_A_BLOCK), 0, 8)) * (10**6 / 8) / 1e6


if __name__ == "__main__":
    from benchmarks import on_one_core, table

    on_one_core()
    print(table(TITLE, measure()))
