"""The catalogue: rows taken in, beside the standard library's reader; names looked up, beside its matcher.

The catalogues are the demo's, repeated under new model names to the size wanted.
"""

from __future__ import annotations

import csv
import difflib
import io
import statistics
import time
from collections.abc import Callable
from importlib import resources
from typing import NamedTuple

from asplayed.catalogue import Catalogue, read_parts
from asplayed.catalogue.parts import Part


class Cost(NamedTuple):
    """One piece of work: its median time [s], that of the yardstick [s], and its ceiling [s]."""

    work: str
    median: float
    yardstick: str
    beside: float
    ceiling: float


def table(rows: int) -> bytes:
    """The demo's catalogue repeated to so many rows, each repetition under models of its own."""
    text = resources.files("asplayed.demo").joinpath("catalogue.csv").read_text(encoding="utf-8")
    header, *parts = csv.reader(io.StringIO(text))
    sheet = io.StringIO()
    out = csv.writer(sheet)
    out.writerow(header)
    for number in range(rows):
        part = parts[number % len(parts)]
        out.writerow([*part[:2], f"{part[2]} {_letters(number // len(parts))}", *part[3:]])
    return sheet.getvalue().encode()


def _letters(number: int) -> str:
    """A made-up word for a number, so that repeated models have names and not generations."""
    syllables = ("ba", "re", "ki", "to", "lu", "mer", "ven", "dor", "sal", "tin", "gra", "hol")
    word = ""
    for _ in range(4):
        number, place = divmod(number, len(syllables))
        word += syllables[place]
    return word


def measure(rows: int = 100_000, parts: int = 10_000) -> list[Cost]:
    """Taking in `rows` rows once, and looking forty misspelt names up among `parts` parts."""
    data = table(rows)
    whole = _seconds(lambda: read_parts(data, "the benchmark"))
    plain = _seconds(lambda: list(csv.DictReader(io.StringIO(data.decode()))))
    catalogue = Catalogue(read_parts(table(parts), "the benchmark").parts)
    names = [_misspelt(model.rows[0]) for model in catalogue.models[:: len(catalogue.models) // 40][:40]]
    labels = [f"{model.maker} {model.model}" for model in catalogue.models]
    ours = statistics.median(_seconds(lambda name=name: catalogue.find(name)) for name in names)  # type: ignore[misc]
    theirs = statistics.median(
        _seconds(lambda name=name: difflib.get_close_matches(name, labels))  # type: ignore[misc]
        for name in names[:3]
    )
    return [
        Cost(f"take in {rows:,} rows", whole, "csv.DictReader, nothing checked", plain, 10.0),
        Cost(f"look a name up among {parts:,} parts", ours, "difflib.get_close_matches", theirs, 0.020),
    ]


def _misspelt(part: Part) -> str:
    words = f"{part.maker} {part.model}"
    return words[:2] + words[3:]


def _seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    """Print the table."""
    for cost in measure():
        print(
            f"{cost.work}: {cost.median:.3f} s (ceiling {cost.ceiling:g} s); "
            f"{cost.yardstick}: {cost.beside:.3f} s, {cost.beside / cost.median:.1f} times that"
        )


if __name__ == "__main__":
    main()
