"""Telling: a whole pack, one sheet, and five hundred sheets in a batch that was stopped and taken up again."""

from __future__ import annotations

import contextlib
import io
import tempfile
import time
from pathlib import Path

from asplayed.catalogue import read_parts, settle
from asplayed.cli import main
from asplayed.clubs import GolfSet, played_set
from asplayed.demo import material
from asplayed.intake import read
from asplayed.judgement import judge
from asplayed.players import Player, fly_set
from asplayed.quantities import figure
from asplayed.telling.folder import pack
from benchmarks import Line, best_time

TITLE = "Telling"
SHEETS = 500


def _bag() -> GolfSet:
    """The demo's set of fourteen, as played."""
    parts = read_parts(material("catalogue.csv")).parts
    return played_set(settle(read(material("lists/jonas-tessler.txt").decode(), parts=parts), parts))


def measure() -> list[Line]:
    """The pack of fourteen clubs with flights and overlays, and its player's sheet alone."""
    bag = _bag()
    findings = judge(bag)
    flown = fly_set(bag, Player(driver_speed=figure(112, "mph", "stated")))
    used = time.process_time()
    whole = best_time(lambda: pack(bag, findings, flown=flown), times=3)
    worked = (time.process_time() - used) / 3
    sheet = best_time(lambda: pack(bag, findings, flown=flown, only=("player-sheet.pdf",)), times=3)
    return [
        Line(f"the whole pack of {len(bag.clubs)} clubs", whole, "s", "≤ 5", whole <= 5,
             f"{worked:.1f} s of processor time"),
        Line("its player's sheet alone", sheet, "s", "≤ 1", sheet <= 1),
    ]  # fmt: skip


def prove() -> list[Line]:
    """Five hundred lists, one of them of no clubs, told in two goes from the command line."""
    words = material("lists/jonas-tessler.txt").decode()
    with tempfile.TemporaryDirectory() as folder:
        lists = [Path(folder, f"set-{number:03}.txt") for number in range(SHEETS)]
        for number, path in enumerate(lists):
            path.write_text(words.replace("Jonas Tessler", f"Jonas Tessler {number}"), encoding="utf-8")
        lists[SHEETS // 2].write_text("nothing here", encoding="utf-8")
        out = Path(folder, "out")
        how = ["--only", "player-sheet.pdf", "--speed", "112mph", "--resume", "--store", str(Path(folder, "none.db"))]
        start, used = time.perf_counter(), time.process_time()
        _told(["tell", *map(str, lists[: SHEETS // 5]), str(out), *how])
        _told(["tell", *map(str, lists), str(out), *how])
        lasted, worked = time.perf_counter() - start, time.process_time() - used
        made = len(list(out.glob("*/player-sheet.pdf")))
    return [
        Line(f"{SHEETS} lists read, flown and told, as a player's sheet each", lasted, "s", "", None,
             f"stopped after {SHEETS // 5} and taken up again; {worked:.0f} s of processor time"),
        Line("sheets made of them", made, "", f"{SHEETS - 1}", made == SHEETS - 1, "one list holds no club"),
    ]  # fmt: skip


def _told(words: list[str]) -> None:
    quiet = io.TextIOWrapper(io.BytesIO())
    with contextlib.redirect_stdout(quiet), contextlib.redirect_stderr(quiet), contextlib.suppress(SystemExit):
        main(words)
