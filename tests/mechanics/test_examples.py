"""The examples in the docstrings of the mechanics and of the bench calculations run as printed."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import asplayed.calc
import asplayed.mechanics

MODULES = [
    f"{room.__name__}.{module.name}"
    for room in (asplayed.mechanics, asplayed.calc)
    for module in pkgutil.iter_modules(room.__path__)
]


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
