"""The examples in the docstrings run as printed, in every room, and so do the scripts in `examples/`."""

from __future__ import annotations

import doctest
import importlib
import pkgutil
import runpy
from itertools import pairwise
from pathlib import Path

import pytest

import asplayed

MODULES = [module.name for module in pkgutil.walk_packages(asplayed.__path__, "asplayed.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


# What each script must say, and why that is right.
SAYS = {
    # A wedge of 10° of bounce bent 2° weak has 12° (geometry: a degree of loft bend is a degree of bounce).
    "one_list": "bounce: 12 deg, computed",
    # The middle of the table; that slow swings need more loft is in Penner 2001 (Am. J. Phys. 69, 563).
    "many_flights": "100 mph",
    # 56° bent 1° weak: the one bend in the lists, so the one change of the wedge.
    "years_of_sets": "- sand wedge: bend.loft: nothing → 1 deg",
}


@pytest.mark.parametrize("script", sorted((Path(__file__).parents[1] / "examples").glob("*.py")), ids=lambda p: p.stem)
def test_scripts_run(script: Path, capsys: pytest.CaptureFixture[str]) -> None:
    runpy.run_path(str(script), run_name="__main__")
    assert SAYS[script.stem] in capsys.readouterr().out


def test_the_script_of_many_flights_finds_that_slow_swings_need_more_loft(capsys: pytest.CaptureFixture[str]) -> None:
    runpy.run_path(str(Path(__file__).parents[1] / "examples" / "many_flights.py"), run_name="__main__")
    rows = [line for line in capsys.readouterr().out.splitlines() if " mph " in line]
    lofts = [[float(cell.split("°")[0]) for cell in row.split("mph")[1].split("yd")[:3]] for row in rows]
    assert all(slow[1] > fast[1] for slow, fast in pairwise(lofts))
