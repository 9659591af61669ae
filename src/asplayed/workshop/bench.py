"""The bench's own tables: operations and their cautions, tolerances, fits and limits."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

from asplayed.clubs.usual import tolerances
from asplayed.quantities import Figure, Source


@cache
def _table(name: str) -> dict[str, Any]:
    text = resources.files("asplayed.workshop").joinpath("data", name).read_text(encoding="utf-8")
    return tomllib.loads(text)


def entry(*path: str) -> Any:
    """What stands in `data/bench.toml` under a path of names.

    >>> entry("limit", "tip_mass", "refuse")
    10.0
    """
    found: Any = _table("bench.toml")
    for name in path:
        found = found[name]
    return found


def operations() -> tuple[str, ...]:
    """The operations in the order of work.

    >>> operations()[0], operations()[-1]
    ('pull', 'measure')
    """
    return tuple(_table("bench.toml")["operation"])


def caution(name: str) -> str:
    """The sentence of one caution of `data/cautions.toml`."""
    sentence: str = _table("cautions.toml")[name]
    return sentence


def cautions(operation: str, circumstances: Iterable[str] = (), more: Iterable[str] = ()) -> tuple[str, ...]:
    """Every caution of an operation: those that always stand, those its circumstances call for, and `more` by name.

    >>> len(cautions("loft and lie")) < len(cautions("loft and lie", ["bent"]))
    True
    """
    table = entry("operation", operation)
    names = [*table["cautions"], *(name for one in circumstances for name in table.get(one, ())), *more]
    return tuple(caution(name) for name in dict.fromkeys(names))


def usual(what: str, kind: str, why: str) -> Figure:
    """A usual figure of the fit (`bore_to_sole`, `cap`, `insertion`), marked common practice.

    >>> usual("insertion", "driver", "least depth").value
    1.25
    """
    table = entry(what)
    if "value" not in table:
        family = "putter" if kind == "putter" and "putter" in table else family_of(kind)
        table = table[family]
    return Figure(
        value=float(table["value"]),
        unit=table["unit"],
        source=Source.COMMON_PRACTICE,
        low=table.get("low"),
        high=table.get("high"),
        why=why,
    )


def family_of(kind: str) -> str:
    """`wood` or `iron`, by how deep a shaft goes into such a head.

    >>> family_of("hybrid"), family_of("wedge")
    ('wood', 'iron')
    """
    return "wood" if kind in ("driver", "fairway wood", "hybrid") else "iron"


class Held(NamedTuple):
    """What a figure of a built club is held to: the workshop's tolerance, what the gauge reads to, and the gauge."""

    within: float
    gauge: float
    unit: str
    tool: str


@cache
def held_to(figure: str) -> Held:
    """The tolerance, the gauge's reading and the gauge of a figure as played.

    >>> held_to("length").within, held_to("length").gauge
    (0.0625, 0.0625)
    """
    table = entry("tolerance", figure)
    return Held(table["within"], tolerances()[figure].gauge, table["unit"], table["tool"])
