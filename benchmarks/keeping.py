"""A store of very many sets: how long a season's questions, a list, a search, an opening and a save take."""

from __future__ import annotations

import contextlib
import multiprocessing
import multiprocessing.queues
import random
import tempfile
import time
from pathlib import Path

import msgspec

from asplayed.clubs import Ball, Club, GolfSet, Head, SetFacts, Shaft
from asplayed.errors import Stale
from asplayed.keeping import facts, list_sets, open_store, proving, read_set, searching, seasons
from asplayed.keeping.store import Store
from asplayed.keeping.versions import Addition, append
from asplayed.quantities import figure, plain
from benchmarks import Line, best_time, on_one_core

TITLE = "Keeping"
SETS = 5_000
MANY = 100_000
AT_ONCE = 500
WRITERS, EDITS = 4, 500

MODELS = [
    f"{bird} {number}" for bird in ("Kittiwake", "Gannet", "Dunlin", "Turnstone", "Lapwing") for number in range(20)
]
SHAFTS = [f"{shaft} {mass}" for shaft in ("Lindrake", "Quellon", "Brunholt") for mass in range(50, 130, 10)]
KINDS = ("driver", *["fairway wood"] * 2, "hybrid", *["iron"] * 6, *["wedge"] * 3, "putter")


def bag(chance: random.Random, number: int) -> GolfSet:
    """Fourteen clubs of some day in three years."""
    clubs = tuple(
        Club(
            club=f"{kind} {place}",
            kind=kind,
            head=Head(model=chance.choice(MODELS), loft=figure(chance.randrange(8, 60), "deg", "stated")),
            shaft=Shaft(model=chance.choice(SHAFTS), flex=chance.choice(["R", "S", "X"])),
            length=figure(chance.randrange(340, 460) / 10, "in", "stated"),
        )
        for place, kind in enumerate(KINDS)
    )
    day = f"{chance.choice([2024, 2025, 2026])}-{chance.randrange(1, 13):02}-{chance.randrange(1, 29):02}"
    facts = SetFacts(player=f"Ada Brandt {number % 500}", date=day, event="Ravelin Cup")
    return GolfSet(set=facts, clubs=clubs, ball=Ball(model="Pellan", colour=chance.choice(["white", "yellow"])))


def fill(store: Store, sets: int) -> None:
    """Put so many sets in, some hundred to a transaction, and tell them all at the end as a migration does."""
    chance = random.Random(1)
    for start in range(0, sets, AT_ONCE):
        additions = []
        for number in range(start, min(start + AT_ONCE, sets)):
            golf_set = bag(chance, number)
            words = "\n".join(f"{club.club} {club.head.model} {club.shaft.model}" for club in golf_set.clubs)
            content = msgspec.json.encode(plain(golf_set)).decode()
            additions.append(Addition(f"set {number}", content, None, words.encode()))
        with store.acting("fill", who="benchmark") as action:
            append(action, "set", additions)
    with store.remaking() as action:
        facts.tell_all(action)


def lines(sets: int) -> list[Line]:
    """The timings on a store of so many sets."""
    on_one_core()
    found = []
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "store.db"
        with open_store(place) as store:
            fill(store, sets)
            save = best_time(lambda: store.save_set("one more", bag(random.Random(), 0), "words", who="benchmark"))
        size = place.stat().st_size / sets / 1000
        asked = {
            "share of each model by season": (lambda: seasons.shares("model", place), 300),
            "share of each shaft by week": (lambda: seasons.shares("shaft", place, weeks=True), 300),
            "share of each loft of irons, one season": (
                lambda: seasons.shares("loft", place, kind="iron", season="2025"), 300),
            "ball colours by week": (lambda: seasons.shares("colour", place, weeks=True), 300),
            "models first and last seen": (lambda: seasons.seen("model", place), 300),
            "winners beside the field": (lambda: seasons.winners("model", place), 300),
            "longest unchanged clubs of a player": (lambda: seasons.longest_unchanged("Ada Brandt 7", place), 300),
            "search for two words, newest fifty": (lambda: searching.search("gannet quellon", place), 100),
            "search for a player": (lambda: searching.search("brandt 77", place), 100),
            "list of all sets": (lambda: list_sets(place), 100),
            "opening and reading one set": (lambda: read_set("set 77", place), 50),
            "opening to write": (lambda: open_store(place).close(), 50),
        }  # fmt: skip
        for what, (work, goal) in asked.items():
            took = 1000 * best_time(work, 3)
            found.append(Line(f"{what}, of {sets:,} sets", round(took, 1), "ms", f"< {goal} ms", took < goal))
        found.append(Line(f"saving one set into {sets:,}", round(1000 * save, 1), "ms"))
        found.append(Line("growth of the file for each set of 14 clubs", round(size, 1), "kB"))
        if sets == MANY:
            took = best_time(lambda: proving.prove(place, figures=False), 1)
            found.append(Line(f"proving {sets:,} sets whole, figures aside", round(took, 1), "s"))
    return found


def measure() -> list[Line]:
    """On five thousand sets: fourteen clubs each."""
    return lines(SETS)


def prove() -> list[Line]:
    """On a hundred thousand sets, 1.4 million clubs; processes that edit one set at once."""
    return [*contended(), *lines(MANY)]


def contended() -> list[Line]:
    """Processes that each edit one set many times, from the version they last saw; who is too late tries anew."""
    fork = multiprocessing.get_context("fork")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "store.db"
        with open_store(place) as store:
            store.save_set("shared", GolfSet(), "0", who="benchmark")
        waits = fork.SimpleQueue()
        writers = [fork.Process(target=edit, args=(place, name, waits)) for name in range(WRITERS)]
        for writer in writers:
            writer.start()
        found = sorted(wait for _ in writers for wait in waits.get())
        for writer in writers:
            writer.join()
        with open_store(place) as store:
            history = store.set_history("shared")
            words = {store.load_set("shared", entry.version).original for entry in history}
        lost = WRITERS * EDITS + 1 - len(words)
    late = 1000 * found[int(0.95 * len(found))]
    return [
        Line(f"edits of one set lost, {WRITERS} processes of {EDITS} edits", lost, "", "0", lost == 0),
        Line("95 % of their saves took less than", round(late, 1), "ms", "< 2000 ms", late < 2000),
    ]


def edit(place: Path, name: int, waits: multiprocessing.queues.SimpleQueue[list[float]]) -> None:
    """One process's edits, each made from the version it has just seen; how long each took, all tries together [s]."""
    took = []
    with open_store(place) as store:
        for number in range(EDITS):
            began = time.perf_counter()
            while True:
                seen = store.load_set("shared").version
                with contextlib.suppress(Stale):
                    store.save_set("shared", GolfSet(), f"{name} {number}", who=str(name), based_on=seen)
                    break
            took.append(time.perf_counter() - began)
    waits.put(took)
