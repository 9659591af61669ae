"""Sweeps: very many single shots made, flown and reduced, through the engine and plainly, in the same run."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

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


def plainly(shots: int) -> tuple[float, float]:
    """Seconds by the clock and of processor time for the blocks alone, one after another: no engine, nothing kept."""
    asked = study(shots)
    clock, spent = time.perf_counter(), time.process_time()
    for number in range(asked.blocks()):
        asked.block(number)
    return time.perf_counter() - clock, time.process_time() - spent


def swept(shots: int) -> tuple[float, float]:
    """The same through the engine in this process: chunks, tree, checksums and folder; clock and processor time."""
    from asplayed.sweeps.engine import sweep
    from asplayed.sweeps.workers import Here

    clock, spent = time.perf_counter(), time.process_time()
    with tempfile.TemporaryDirectory() as folder:
        sweep(study(shots), Path(folder) / "sweep", Here())
    return time.perf_counter() - clock, time.process_time() - spent


def clustered(shots: int) -> tuple[float, float]:
    """The same on one worker of the embedded cluster, once it is up; clock here, and processor time of the worker."""
    from distributed import get_client

    from asplayed.sweeps.engine import sweep
    from asplayed.sweeps.workers import pool

    with tempfile.TemporaryDirectory() as folder, pool(1) as (executor, width):
        sweep(study(SHOTS_A_BLOCK), Path(folder) / "warm", executor, width=width)
        client = get_client()
        before = sum(client.run(time.process_time).values())
        clock = time.perf_counter()
        sweep(study(shots), Path(folder) / "sweep", executor, width=width)
        clock = time.perf_counter() - clock
        return clock, sum(client.run(time.process_time).values()) - before


def peak(shots: int) -> float:
    """The most memory [MB] that a process of its own needs to make, fly and reduce so many shots."""
    code = f"from benchmarks.sweeps import swept, most; swept({shots}); print(most())"
    root = Path(__file__).resolve().parent.parent
    return float(subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, check=True).stdout)


def most() -> float:
    """The most memory [MB] this process has had."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def measure() -> list[Line]:
    """Time by count, the engine's share of it, and memory; processor time, for the machine may be shared."""
    plainly(2 * SHOTS_A_BLOCK)  # compiles, loads
    found: list[Line] = []
    a_shot: dict[int, float] = {}
    memory: dict[int, float] = {}
    for shots in COUNTS:
        if a_shot and min(a_shot.values()) * shots > LONGEST:
            found.append(Line(f"{shots:,} shots", 0, "s", note="left out: it would take too long on this machine"))
            continue
        clock, spent = plainly(shots)
        a_shot[shots] = spent / shots
        found.append(Line(f"{shots:,} shots, blocks alone", spent, "s of processor", note=_by(clock)))
        for what, way in (("in this process", swept), ("on an embedded worker", clustered)):
            clock, by_engine = way(shots)
            over = 100 * (by_engine / spent - 1)
            found.append(Line(f"{shots:,} shots, engine {what}", by_engine, "s of processor", note=_by(clock)))
            found.append(Line("its overhead", over, "%", "< 10", over < 10))
        memory[shots] = peak(shots)
        found.append(Line(f"{shots:,} shots, most memory", memory[shots], "MB", "< 500", memory[shots] < 500))
    ends = sorted(a_shot)
    ratio, growth = (each[ends[-1]] / each[ends[0]] for each in (a_shot, memory))
    found.append(Line("time a shot, most over fewest", ratio, "times", "0.8 to 1.25", 0.8 <= ratio <= 1.25))
    found.append(Line("memory, most over fewest", growth, "times", "≤ 1.1", growth <= 1.1))
    found.append(Line("kept on disk a million blocks", _kept(), "MB", note="in chunks of 8"))
    return found


def _by(clock: float) -> str:
    return f"{clock:.1f} s by the clock"


def _kept() -> float:
    """Megabytes that the folder of a million blocks takes, reckoned from one chunk."""
    from asplayed.sweeps.engine import work

    return len(work(study(8 * SHOTS_A_BLOCK), 0, 8)) * (10**6 / 8) / 1e6


if __name__ == "__main__":
    from benchmarks import on_one_core, table

    os.environ.setdefault("NUMBA_NUM_THREADS", "1")
    on_one_core()
    print(table(TITLE, measure()))
