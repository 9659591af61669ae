"""How laws are tried in every room, and what the whole run prints at its end."""

from __future__ import annotations

import os
from typing import Any

from hypothesis import settings

# A short run draws the same examples every time, so that what passed here passes elsewhere, however busy the machine
# is; the long run (`make prove`) draws new ones.
settings.register_profile("short", deadline=None, derandomize=True)
settings.register_profile("long", deadline=None)
settings.load_profile("long" if os.environ.get("ASPLAYED_LONG") else "short")


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
