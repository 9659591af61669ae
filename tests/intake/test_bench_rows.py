"""Sheets of the bench: rows without a row of names, steps from club to club, positions of sleeves, weights in cells."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from scoring import Case, cases, score

CASES = cases(Path(__file__).parent / "laid_out" / "bench_rows.txt")


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_the_list_is_read_without_a_fault(case: Case) -> None:
    assert [fault for fault in score(case).faults if "(left over" not in fault] == []
