"""The docs page of the calculations is the one their table gives today."""

from __future__ import annotations

import importlib.util
from pathlib import Path

DOCS = Path(__file__).parents[2] / "docs"


def test_the_page_of_calculations_is_up_to_date() -> None:
    spec = importlib.util.spec_from_file_location("write_calculations", DOCS / "calculations.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    kept = (DOCS / "calculations.md").read_text(encoding="utf-8")
    assert kept == module.write(), "run `python docs/calculations.py` and commit docs/calculations.md"
