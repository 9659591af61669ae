"""Starting up: whole processes from call to exit, beside a Python that does nothing.

The ratio to that bare Python travels between machines better than seconds do. Commands take turns, so that a machine
that warms up or slows down meets all of them alike.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

from asplayed.clubs import Bend, Club, GolfSet, Head, SetFacts
from asplayed.keeping import open_store
from asplayed.quantities import figure

BARE = "python -c pass"


class Start(NamedTuple):
    """One command: the median of its runs [s], how many bare Pythons that is, and its ceiling [s] where it has one."""

    command: str
    median: float
    ratio: float
    ceiling: float | None


def bag() -> GolfSet:
    """Fourteen clubs, each with something to work out."""
    lofts = (10.5, 15, 18, 22, 25, 28, 31, 35, 39, 43, 47, 52, 56, 3)
    kinds = ("driver", "fairway wood", "fairway wood", "hybrid", *["iron"] * 6, *["wedge"] * 3, "putter")
    names = ("driver", "3 wood", "5 wood", "4 hybrid", *[f"{number} iron" for number in range(5, 10)],
             "pitching wedge", "gap wedge", "sand wedge", "lob wedge", "putter")  # fmt: skip
    bent = Bend(loft=figure(1, "deg", "stated"))
    clubs = tuple(
        Club(club=name, kind=kind, head=Head(loft=figure(loft, "deg", "stated")), bend=bent)
        for name, kind, loft in zip(names, kinds, lofts, strict=True)
    )
    return GolfSet(set=SetFacts(player="Ada Brandt"), clubs=clubs)


def measure(repeats: int = 15) -> list[Start]:
    """The start-up of the commands that must be quick."""
    asplayed = str(Path(sys.executable).with_name("asplayed"))
    commands: dict[str, tuple[list[str], float | None]] = {
        BARE: ([sys.executable, "-c", "pass"], None),
        "asplayed --help": ([asplayed, "--help"], 0.25),
        "asplayed show NAME": ([asplayed, "show", "ada"], 0.6),
        "asplayed show NAME --json": ([asplayed, "show", "ada", "--json"], 0.6),
        "asplayed keep list": ([asplayed, "keep", "list"], None),
        "asplayed judge NAME": ([asplayed, "judge", "ada"], None),
    }
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "store.db"
        with open_store(place) as store:
            store.save_set("ada", bag(), "fourteen clubs", who="benchmark")
        environment = {**os.environ, "ASPLAYED_STORE": str(place)}
        taken: dict[str, list[float]] = {name: [] for name in commands}
        for run in range(repeats + 1):
            for name, (argv, _) in commands.items():
                begun = time.perf_counter()
                subprocess.run(argv, env=environment, stdout=subprocess.DEVNULL, check=True)
                if run:  # the first run fills the caches
                    taken[name].append(time.perf_counter() - begun)
    bare = statistics.median(taken[BARE])
    return [
        Start(name, statistics.median(taken[name]), statistics.median(taken[name]) / bare, ceiling)
        for name, (_, ceiling) in commands.items()
    ]


def main() -> None:
    """Print the table."""
    print(f"{'command':28}{'median [ms]':>12}{'× bare':>8}{'ceiling [ms]':>14}")
    for start in measure():
        ceiling = "" if start.ceiling is None else f"{1000 * start.ceiling:.0f}"
        print(f"{start.command:28}{1000 * start.median:12.0f}{start.ratio:8.1f}{ceiling:>14}")


if __name__ == "__main__":
    main()
