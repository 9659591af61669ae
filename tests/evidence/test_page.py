"""The docs page that lists the evidence is the one the checks give today."""

import importlib.util
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.slow
def test_the_evidence_page_is_up_to_date() -> None:
    spec = importlib.util.spec_from_file_location("write_evidence", ROOT / "docs" / "evidence.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    kept = (ROOT / "docs" / "evidence.md").read_text(encoding="utf-8")
    assert kept == module.write(), "run `python docs/evidence.py` and commit docs/evidence.md"
