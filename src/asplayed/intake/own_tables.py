"""The tables of words, columns and limits that lists are read by (`data/*.toml`)."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Any


@cache
def own_table(name: str) -> dict[str, Any]:
    """The table `data/<name>.toml`, read once.

    >>> sorted(own_table("breath"))
    ['closes', 'goes_on', 'opens', 'sounds']
    """
    return tomllib.loads(resources.files("asplayed.intake").joinpath(f"data/{name}.toml").read_text(encoding="utf-8"))


@cache
def own_words(name: str, sort: str) -> frozenset[str]:
    """The words of one sort of a table, which writes them in one string or, where some are pairs, as a list.

    >>> "garage" in own_words("elsewhere", "places")
    True
    """
    told = own_table(name)[sort]
    return frozenset(told.split() if isinstance(told, str) else told)
