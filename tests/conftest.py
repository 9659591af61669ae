"""What the whole run prints at its end."""

from __future__ import annotations

from typing import Any


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Print how well lists were read, as the corpus test measured it (on one process or on several)."""
    lines = [
        str(value)
        for report in terminalreporter.stats.get("passed", []) + terminalreporter.stats.get("failed", [])
        for key, value in getattr(report, "user_properties", [])
        if key == "reading score"
    ]
    if lines:
        terminalreporter.section("lists read, field by field")
        for line in lines:
            terminalreporter.write_line(line)
