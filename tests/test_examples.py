"""The examples in the docstrings run as printed, in every room, and so do the scripts in `examples/`."""

from __future__ import annotations

import doctest
import importlib
import pkgutil
import runpy
from pathlib import Path

import pytest

import asplayed

MODULES = [module.name for module in pkgutil.walk_packages(asplayed.__path__, "asplayed.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


@pytest.mark.parametrize("script", sorted((Path(__file__).parents[1] / "examples").glob("*.py")), ids=lambda p: p.stem)
def test_scripts_run(script: Path, capsys: pytest.CaptureFixture[str]) -> None:
    runpy.run_path(str(script), run_name="__main__")
    said = capsys.readouterr().out
    # A wedge of 10° of bounce bent 2° weak has 12° (geometry: a degree of loft bend is a degree of bounce).
    assert "bounce: 12 deg, computed" in said
