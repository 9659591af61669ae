"""What the store is held to, promise by promise: each is some tests at their full length, which `make prove` runs.

    python -m benchmarks.promises [--share 0.2] [--only 1,7] [--write]

`--share` runs a part of the long numbers, and the table says how much. `--write` keeps each result in
`docs/promises.csv` and puts the table of all results into `docs/promises.md`; what was not run keeps its last result.
"""

from __future__ import annotations

import csv
import os
import platform
import re
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

from benchmarks import Line, machine

TITLE = "Promises of the store"
ROOT = Path(__file__).resolve().parent.parent
RESULTS = ROOT / "docs" / "promises.csv"
PAGE = ROOT / "docs" / "promises.md"
TESTS = "tests/keeping/"
COLUMNS = ("promise", "what", "short", "long", "ran", "met", "seconds", "day", "machine")


class Promise(NamedTuple):
    """One promise: its number, what is tried, how often in short and long, and the tests that try it."""

    number: str
    what: str
    short: int
    long: int
    file: str
    tests: str


PROMISES = (
    Promise("1", "kills (kill -9) of a writer, SQLite: none loses an acknowledged save", 20, 1000,
            "test_nothing_lost.py", "acknowledged and sqlite"),
    Promise("1", "kills (kill -9) of a writer, PostgreSQL: none loses an acknowledged save", 8, 1000,
            "test_nothing_lost.py", "acknowledged and postgresql"),
    Promise("2", "engines found set to survive a power cut on every connection", 2, 2,
            "test_nothing_lost.py", "durable"),
    Promise("3", "kinds of failure at the n-th statement, flush, link or rename, n = 1, 2, …", 19, 19, ".",
            "fails or whatever_step or without_its_backup"),
    Promise("4", "fill points of a really full disk, for each of five commands", 50, 50, "test_full_disk.py", "disk"),
    Promise("5", "parts of a store that may not be written", 2, 2, "test_nothing_lost.py", "may_not_be_written"),
    Promise("6", "edits of one set by processes at once, either engine: none lost", 12, 500,
            "test_nothing_lost.py", "two_writers or threads or at_once"),
    Promise("7", "sequences of 50 steps beside a model, SQLite", 25, 2000,
            "test_sets.py", "keeps_the_books and not server"),
    Promise("7", "sequences of 50 steps beside a model, PostgreSQL", 6, 2000, "test_sets.py", "books_of_a_server"),
    Promise("8", "files with flipped bytes or cut tails: read right or refused", 150, 500,
            "test_nothing_lost.py", "damage_is_found"),
    Promise("9", "corrupted backups: each detected, none restored", 100, 100,
            "test_backups.py", "corrupted or damaged_store_no_backup"),
    Promise("10", "kills of a restore, either engine: the old store or the new, whole", 8, 300,
            "test_nothing_lost.py", "restore_killed"),
    Promise("11", "kills of a migration: the old store or the new, whole", 6, 300,
            "test_nothing_lost.py", "migration_killed"),
    Promise("12", "edits, deletions and reorderings of the past: each reported", 360, 360,
            "test_proving.py", "reported"),
    Promise("13", "clubs whose parts sum to them", 60, 2000, "test_books.py", "parts_of_any_club or told_by"),
    Promise("13", "orders that make what their what-if in the order of work shows", 25, 400, "test_books.py",
            "what_if or signed"),
    Promise("14", "stores out and in again by plain files, SQLite", 12, 1000,
            "test_plain_files.py", "store_comes_back_identical"),
    Promise("14", "shops from one engine to the other and back, row for row", 6, 1000,
            "test_plain_files.py", "same_on_either_engine"),
    Promise("14", "exports changed at random places: refused or harmless", 120, 2000,
            "test_plain_files.py", "changed_anywhere"),
    Promise("15", "hostile files made from others by chance: a sentence each", 300, 10_000,
            "test_hostile_files.py", "hostile_files or changed_by_chance"),
    Promise("16", "stores of a stranger that run nothing", 70, 70, "test_hostile_stores.py", "hostile or bounded"),
    Promise("17", "beginnings of a text that would be a formula", 8, 8, "test_plain_files.py", "formula"),
)  # fmt: skip


class Result(NamedTuple):
    """What a run of a promise came to."""

    promise: str
    what: str
    short: str
    long: str
    ran: str
    met: str
    seconds: str
    day: str
    machine: str


def run(promise: Promise, share: float) -> Result:
    """Run a promise's tests, at this share of their full length."""
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", f"{TESTS}{promise.file}", "-k", promise.tests],
        capture_output=True, text=True, check=False, cwd=ROOT, env={**os.environ, "ASPLAYED_LONG": str(share)},
    )  # fmt: skip
    said = done.stdout.strip().splitlines()[-1] if done.stdout.strip() else done.stderr[-200:]
    passed = re.search(r"(\d+) passed", said)
    left_out = re.search(r"(\d+) skipped", said)
    met = "yes" if done.returncode == 0 and passed and not left_out else f"no: {said.strip('= ')}"
    ran = max(promise.short, round(promise.long * share))
    return Result(
        promise.number, promise.what, str(promise.short), str(promise.long), str(ran), met,
        f"{time.perf_counter() - began:.0f}", time.strftime("%d %B %Y"), machine().partition(", NumPy")[0],
    )  # fmt: skip


def kept() -> dict[str, Result]:
    """The last results, by what was tried."""
    if not RESULTS.exists():
        return {}
    with RESULTS.open(encoding="utf-8", newline="") as stream:
        return {row["what"]: Result(**row) for row in csv.DictReader(stream)}


def keep(results: dict[str, Result]) -> None:
    """Write the results down, and the table of them."""
    ordered = [results[promise.what] for promise in PROMISES if promise.what in results]
    with RESULTS.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream, lineterminator="\n")
        writer.writerow(COLUMNS)
        writer.writerows(ordered)
    rows = ["| promise | what is tried | in `make test` | long | last run | held | took | day |", f"|{'---|' * 8}"]
    for each in ordered:
        told = (each.promise, each.what, each.short, each.long, each.ran, each.met, f"{each.seconds} s", each.day)
        rows.append(f"| {' | '.join(told)} |")
    for promise in PROMISES:
        if promise.what not in results:
            rows.append(f"| {promise.number} | {promise.what} | {promise.short} | {promise.long} | not yet | | | |")
    machines = sorted({each.machine for each in ordered})
    page = PAGE.read_text(encoding="utf-8")
    before, rest = page.split("<!-- results -->")
    after = rest.split("<!-- end of results -->")[1]
    told = "\n".join([*rows, "", f"On {'; '.join(machines)}, shared with other work."])
    PAGE.write_text(f"{before}<!-- results -->\n{told}\n<!-- end of results -->{after}", encoding="utf-8")


def run_all(share: float, only: list[str] | None) -> list[Result]:
    """Run the promises of these numbers (None: all), telling each as it is done; `--write` keeps what came out."""
    results, found = kept(), []
    for promise in PROMISES:
        if only is None or promise.number in only:
            told = run(promise, share)
            found.append(told)
            results[promise.what] = told
            print(
                f"{told.promise:>3} {told.what}: {told.ran} of {told.long} in {told.seconds} s, {told.met}", flush=True
            )
            if "--write" in sys.argv[1:]:
                keep(results)
    return found


def prove() -> list[Line]:
    """Every promise at its full length."""
    return [
        Line(f"{each.promise}: {each.what}", float(each.ran), "", each.long, each.met == "yes", f"{each.seconds} s")
        for each in run_all(1.0, None)
    ]


def main() -> None:
    """Run what was asked for."""
    given = sys.argv[1:]
    share = float(given[given.index("--share") + 1]) if "--share" in given else 1.0
    only = given[given.index("--only") + 1].split(",") if "--only" in given else None
    run_all(share, only)


if __name__ == "__main__":
    print(f"{time.strftime('%d %B %Y')}; {machine()}; {platform.system()}")
    main()
