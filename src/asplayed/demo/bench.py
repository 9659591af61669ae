"""The workshop's part of the demo: decided changes ordered, built, measured, reworked and signed off."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from asplayed.catalogue import Part
    from asplayed.clubs import GolfSet

ORDERED, SIGNED = "2025-10-27", "2025-10-30T16:20:00+00:00"
BUILDER = "Halvard Strand"


class Ordered(NamedTuple):
    """What the workshop made of the decided changes: its order, the figures out at first, and the files to keep."""

    order: str
    clubs: int
    out: tuple[str, ...]
    files: dict[str, bytes]


def at_the_bench(name: str, golf_set: GolfSet, parts: Sequence[Part], material: dict[str, bytes]) -> Ordered:
    """Order the decided changes of one set, check what was measured, and sign off after the rework.

    `material` holds `decided.txt`, `bench.csv`, `measures.csv` and `after-rework.txt`.
    """
    from asplayed.intake.changes import read_changes
    from asplayed.quantities import plain
    from asplayed.telling.order_sheet import order_sheet
    from asplayed.workshop import order
    from asplayed.workshop.checking import check, sign
    from asplayed.workshop.gauges import read_bench, read_lines, read_measures

    decided = [line for line in material["decided.txt"].decode().splitlines() if line.strip()]
    made = order(
        golf_set,
        read_changes(decided, golf_set, parts),
        parts=parts,
        bench=read_bench(material["bench.csv"], "bench.csv", golf_set.clubs),
        set_name=name,
        made=ORDERED,
    )
    clubs = made.outcome.clubs
    measured = read_measures(material["measures.csv"], "measures.csv", clubs, bytes.decode)
    first = check(made, measured)
    again = read_lines(material["after-rework.txt"].decode(), "after-rework.txt", clubs)
    reworked = {(one.club, one.figure) for one in again}
    readings = [one for one in measured if (one.club, one.figure) not in reworked] + list(again)
    signed, built = sign(made, check(made, readings), readings, BUILDER, SIGNED)

    def written(record: Any) -> bytes:
        return json.dumps(plain(record), ensure_ascii=False, indent=2).encode("utf-8")

    files = {
        **material,
        "order.json": written(made),
        "order.pdf": order_sheet(made),
        "check.json": written(first),
        "signed.json": written(signed),
        "as-built.json": written(built),
    }
    out = tuple(f"{one.figure} of the {one.club}" for one in first.clubs if one.verdict == "out")
    return Ordered(made.order, len(made.clubs), out, files)
