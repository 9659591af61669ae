"""The evidence ledger: a table of expected figures a file, a function a figure, one page of the docs from all of it.

How to add evidence
-------------------
1. Write a table `tests/evidence/checks/NAME.csv` with the columns

       number,subject,expected,band,unit,mark,source,note

   - `number`: unique in the file, such as `5.2` or `3.2 spin`.
   - `expected`: the figure from outside, in `unit`; never taken from the code it tests.
   - `band`: how far off the computed figure may be:
       `0.01`      ± so much in `unit`            `0.1%`   ± so much of the expected figure
       `4.5..5.5`  between these two              `holds`  no figure: the function answers True (sign, order, identity)
       `gap`       a known gap: computed, printed beside the expected figure, not asserted
       `disputed`  sources contradict each other, so no law meets both: computed, printed, not asserted; a line of
                   `data/conflicts.csv` names the row in its column `rows` and says why
   - `mark`: `seen` (read in the source), `second-hand`, `remembered`, `common practice`, `derived` (worked out from the
     stated formula by hand or by an independent program; checks the implementation, not the world), `library` (an
     independent library, computed in the test).
   - `source`: paper, book, standard or library. `note`: anything a reader must know; may be empty.
2. Write `tests/evidence/test_NAME.py`:

       from ledger import Ledger
       import pytest

       LEDGER = Ledger("NAME.csv", "Title on the page", "One sentence about it.")

       @LEDGER.gives("5.2")
       def _() -> float:
           return ...                      # in the row's unit

       @LEDGER.gives("3.2 ball speed", "3.2 launch")     # one function for several rows answers a tuple
       def _() -> tuple[float, float]:
           return ..., ...

       @pytest.mark.parametrize("row", LEDGER.rows, ids=str)
       def test_row(row):
           LEDGER.hold(row)

   For a row whose expected figure an independent library computes, leave `expected` empty and answer a pair with
   `@LEDGER.compares("number")`: (expected, computed).
3. Run `python docs/evidence.py`; it rewrites `docs/evidence.md`. A test fails while the page is out of date.

A row without a function, or a function without a row, fails.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

HERE = Path(__file__).parent
MARKS = {"seen", "second-hand", "remembered", "common practice", "derived", "library"}


class Row(NamedTuple):
    """One line of a table of expected figures."""

    number: str
    subject: str
    expected: str
    band: str
    unit: str
    mark: str
    source: str
    note: str

    def __str__(self) -> str:
        return self.number


class Outcome(NamedTuple):
    """What came of one row: expected and computed figures as numbers, and how much of the band the difference takes."""

    expected: float | None
    computed: float | bool
    used: float | None
    within: bool


def data(name: str) -> list[dict[str, str]]:
    """The rows of a CSV file of outside data in `tests/evidence/data`."""
    with (HERE / "data" / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


class Ledger:
    """A table of expected figures and the functions that compute them."""

    def __init__(self, file: str, title: str, about: str) -> None:
        self.file, self.title, self.about = file, title, about
        with (HERE / "checks" / file).open(encoding="utf-8", newline="") as lines:
            self.rows = [
                Row(**{key: (value or "").strip() for key, value in row.items()}) for row in csv.DictReader(lines)
            ]
        self._by_number = {row.number: row for row in self.rows}
        assert len(self._by_number) == len(self.rows), f"{file} gives a number twice"
        for row in self.rows:
            assert row.mark in MARKS, f"{file} {row.number}: {row.mark!r} is not one of {sorted(MARKS)}"
            assert row.source, f"{file} {row.number} names no source"
        self._functions: dict[str, tuple[Callable[[], Any], int | None, bool]] = {}

    def gives(self, *numbers: str) -> Callable[[Callable[[], Any]], Callable[[], Any]]:
        """Register a function for rows; it answers the computed figure, or a tuple for several rows."""
        return self._register(numbers, pair=False)

    def compares(self, *numbers: str) -> Callable[[Callable[[], Any]], Callable[[], Any]]:
        """Register a function that answers (expected, computed), or a tuple of such pairs for several rows."""
        return self._register(numbers, pair=True)

    def _register(self, numbers: tuple[str, ...], *, pair: bool) -> Callable[[Callable[[], Any]], Callable[[], Any]]:
        def keep(function: Callable[[], Any]) -> Callable[[], Any]:
            for place, number in enumerate(numbers):
                assert number in self._by_number, f"{self.file} has no row {number!r}"
                assert number not in self._functions, f"two functions for row {number!r} of {self.file}"
                self._functions[number] = (function, None if len(numbers) == 1 else place, pair)
            return function

        return keep

    def outcome(self, row: Row) -> Outcome:
        """The row's expected and computed figures, and whether they agree within the band."""
        assert row.number in self._functions, f"no function computes row {row.number!r} of {self.file}"
        function, place, pair = self._functions[row.number]
        answer = function()
        if place is not None:
            answer = answer[place]
        if row.band == "holds":
            assert isinstance(answer, bool) or type(answer).__name__ == "bool", (
                f"{row.number} must answer True or False"
            )
            return Outcome(None, bool(answer), None, bool(answer))
        if pair:
            expected, computed = float(answer[0]), float(answer[1])
        else:
            expected, computed = (float(row.expected) if row.expected else None), float(answer)
        if row.band in ("gap", "disputed"):
            return Outcome(expected, computed, None, True)
        if ".." in row.band:
            low, high = (float(end) for end in row.band.split(".."))
            middle, half = (low + high) / 2, (high - low) / 2
        else:
            assert expected is not None, f"{row.number} has a band and nothing to hold it against"
            middle = expected
            percent = row.band.endswith("%")
            half = float(row.band.rstrip("% ")) * (abs(expected) / 100 if percent else 1.0)
        difference = abs(computed - middle)
        slack = 1e-12 * max(1.0, abs(middle))
        used = 0.0 if difference <= slack else difference / half if half else math.inf
        return Outcome(expected, computed, used, used <= 1.0 + 1e-9)

    def hold(self, row: Row) -> None:
        """Fail unless the row's computed figure lies within its band."""
        found = self.outcome(row)
        assert found.within, (
            f"{row.subject}: expected {row.expected or found.expected} {row.unit} ({row.band}), "
            f"got {found.computed} [{row.mark}: {row.source}]"
        )
