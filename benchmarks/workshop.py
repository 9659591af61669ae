"""The workshop: one order for a whole set, a decision on a few clubs, and a day of very many orders."""

from __future__ import annotations

from msgspec.structs import replace

from asplayed.catalogue import read_parts, settle
from asplayed.demo import material
from asplayed.intake import read
from asplayed.intake.changes import read_changes
from asplayed.telling.order_sheet import order_sheet
from asplayed.workshop import order
from asplayed.workshop.day import plan_day
from benchmarks import Line, best_time

TITLE = "Workshop"
JOBS = 500


def measure() -> list[Line]:
    """Orders for the demo's set of fourteen, and a day of five hundred such orders."""
    parts = read_parts(material("catalogue.csv")).parts
    bag = settle(read(material("lists/jonas-tessler.txt").decode(), parts=parts), parts)
    decided = [line for line in material("workshop/decided.txt").decode().splitlines() if line]
    whole = best_time(lambda: order(bag, parts=parts))
    few = best_time(lambda: order(bag, read_changes(decided, bag, parts), parts=parts))
    made = order(bag, parts=parts)
    jobs = [replace(made, order=f"job-{number}") for number in range(JOBS)]
    day = best_time(lambda: plan_day(jobs), times=3)
    sheet = best_time(lambda: order_sheet(made), times=3)
    return [
        Line(f"order for {len(bag.clubs)} clubs", 1e3 * whole, "ms", "≤ 200", whole <= 0.2),
        Line("order for four changes, read from words", 1e3 * few, "ms"),
        Line(f"a day of {JOBS} orders of {len(bag.clubs)} clubs planned", day, "s", "≤ 5", day <= 5),
        Line("the printed order of the whole set", 1e3 * sheet, "ms"),
    ]
