"""Write `docs/evidence.md`: what was compared with the outside world, and how it came out.

Run `python docs/evidence.py` from the project's folder after changing a check.
"""

from __future__ import annotations

import csv
import importlib
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
EVIDENCE = ROOT / "tests" / "evidence"
PAGE = ROOT / "docs" / "evidence.md"

HEAD = """# Evidence

Every figure here was computed by asplayed and held against a figure from outside: a paper, a book, a standard, a file
of measurements or an independent library. The page is written from the checks themselves; the test suite fails
while a row is outside its band or the page is out of date.

Marks: *seen*, read in the source itself; *second-hand*, read in another text that quotes the source; *remembered*, from
memory, not looked up; *common practice*, the trade's usual figure, no source; *derived*, worked out from the stated
formula, so it checks the program and not the world; *library*, computed by an independent library in the test.

Where outside figures contradict each other no computation meets them all. Such a row is *disputed*: it is printed
beside what is computed and not held to a band; "Where the evidence disagrees" says against what it stands, and why.
"""


def shown(value: float | bool | None) -> str:
    """A figure with five digits; what is zero but for rounding reads 0."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "0" if abs(value) < 1e-9 else f"{value:.5g}".replace("-", "−")


def cell(text: str) -> str:
    """Text safe inside a table."""
    return text.replace("|", "\\|")


def compared(row: Any, found: Any) -> str:
    """The published and the computed figure of a row in words."""
    unit = f" {row.unit}" if row.unit else ""
    return f"published {row.expected or shown(found.expected)}{unit}, computed {shown(found.computed)}{unit}"


def got(row: Any, found: Any) -> str:
    """What was computed; a miss of two solvers is told by its bound, as its digits are each machine's own."""
    missed = found.expected == 0 and isinstance(found.computed, float) and 1e-9 < abs(found.computed) < 1e-3
    return f"below {row.band}" if missed else shown(found.computed)


def write() -> str:
    """The page's text, from all `tests/evidence/test_*.py` that keep a ledger."""
    sys.path.insert(0, str(EVIDENCE))
    try:
        modules = [importlib.import_module(path.stem) for path in sorted(EVIDENCE.glob("test_*.py"))]
    finally:
        sys.path.remove(str(EVIDENCE))
    ledgers = sorted((m.LEDGER for m in modules if hasattr(m, "LEDGER")), key=lambda ledger: ledger.title)
    summary = [
        "| subject | checks | from outside | disputed | known gaps | most of a band used |",
        "|---|---|---|---|---|---|",
    ]
    body: list[str] = []
    gaps: list[str] = []
    disputed: dict[str, str] = {}
    for ledger in ledgers:
        outcomes = [(row, ledger.outcome(row)) for row in ledger.rows]
        banded = [(found.used, row) for row, found in outcomes if found.used is not None]
        used, worst = max(banded, key=lambda pair: pair[0], default=(0.0, None))
        outside = sum(row.mark != "derived" for row in ledger.rows)
        open_gaps = [(row, found) for row, found in outcomes if row.band == "gap"]
        most = f"{round(100 * used)} % ({worst.number})" if worst is not None else "–"
        against = [(row, found) for row, found in outcomes if row.band == "disputed"]
        summary.append(f"| {ledger.title} | {len(outcomes)} | {outside} | {len(against)} | {len(open_gaps)} | {most} |")
        body += [f"## {ledger.title}", "", ledger.about, ""]
        body += ["| | what | expected | got | band | unit | mark | source |", "|---|---|---|---|---|---|---|---|"]
        for row, found in outcomes:
            note = f" ({row.note})" if row.note else ""
            line = [row.number, row.subject, row.expected or shown(found.expected), got(row, found)]
            line += [row.band, row.unit, row.mark, row.source + note]
            body.append("| " + " | ".join(cell(text) for text in line) + " |")
        body.append("")
        for row, found in open_gaps:
            gaps.append(f"- **{row.subject}**: {compared(row, found)}. {row.note}")
        for row, found in against:
            disputed[row.number] = f"{row.subject}: {compared(row, found)}"
    conflicts: list[str] = []
    with (EVIDENCE / "data" / "conflicts.csv").open(encoding="utf-8", newline="") as file:
        for line in csv.DictReader(file):
            told = [disputed.pop(number) for number in filter(None, (line["rows"] or "").split(";"))]
            conflicts.append(
                " ".join(
                    [
                        f"- **{line['subject']}**: {line['one']}; {line['other']}. {line['kept']}",
                        *(f"({each}.)" for each in told),
                    ]
                )
            )
    assert not disputed, f"no line of conflicts.csv says who disputes {', '.join(disputed)}"
    with (EVIDENCE / "data" / "not_checked.csv").open(encoding="utf-8", newline="") as file:
        unchecked = [f"- **{row['subject']}**: {row['published']}; {row['why']}." for row in csv.DictReader(file)]
    parts = [HEAD, "## At a glance", "", *summary, ""]
    parts += ["## Where the evidence disagrees", "", *conflicts, ""]
    if gaps:
        parts += ["## Known gaps", "", *gaps, ""]
    parts += ["## Not checked", "", *unchecked, ""]
    return "\n".join([*parts, *body]).rstrip() + "\n"


if __name__ == "__main__":
    PAGE.write_text(write(), encoding="utf-8")
    print(f"wrote {PAGE.relative_to(ROOT)}")
