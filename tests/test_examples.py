"""The examples in the docstrings run as printed, in every room."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import asplayed

MODULES = [module.name for module in pkgutil.walk_packages(asplayed.__path__, "asplayed.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
