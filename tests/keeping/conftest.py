"""A store to work on, made once and copied, and golf sets of every shape."""

from __future__ import annotations

import os
import shutil
import types
import typing
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal, Union, get_args, get_origin

import msgspec
import pytest
from hypothesis import strategies as st

from asplayed.clubs import Bend, Club, GolfSet, Head, SetFacts
from asplayed.keeping import Store, open_store
from asplayed.quantities import Figure, Source, figure


def times(short: int, long: int) -> int:
    """How often a test tries: `long` in the long run, which sets ASPLAYED_LONG."""
    return long if os.environ.get("ASPLAYED_LONG") else short


@pytest.fixture(scope="session")
def made_store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh store, made once: making one takes a second."""
    place = tmp_path_factory.mktemp("made") / "store.db"
    open_store(place).close()
    return place


@pytest.fixture
def place(made_store: Path, tmp_path: Path) -> Path:
    """The file of an empty store of one's own."""
    return Path(shutil.copy(made_store, tmp_path / "store.db"))


@pytest.fixture
def store(place: Path) -> Iterator[Store]:
    """An empty store, open."""
    with open_store(place) as opened:
        yield opened


def golf_set(loft: float = 56, player: str | None = "Ada Brandt") -> GolfSet:
    """A small set with one bent wedge."""
    wedge = Club(
        club="sand wedge",
        kind="wedge",
        head=Head(name="Turnstone", loft=figure(loft, "deg", "stated")),
        bend=Bend(loft=figure(1, "deg", "stated")),
    )
    return GolfSet(set=SetFacts(player=player, date="2025-10-20"), clubs=(wedge,))


finite = st.floats(allow_nan=False, allow_infinity=False)

figures = st.builds(
    Figure,
    value=st.none() | st.text(max_size=5) | finite | st.integers(-1000, 1000).map(float),
    unit=st.sampled_from(["deg", "in", "g", "cpm", "1"]),
    source=st.sampled_from(Source),
    low=st.none() | finite,
    high=st.none() | finite,
    why=st.none() | st.text(max_size=20),
)


def any_of(kind: Any) -> st.SearchStrategy[Any]:
    """Values of a record's field, whatever its type: so a field that is added is tried at once."""
    origin, inside = get_origin(kind), get_args(kind)
    if kind is Figure:
        return figures
    if isinstance(kind, type) and issubclass(kind, msgspec.Struct):
        hints = typing.get_type_hints(kind)
        return st.builds(kind, **{name: any_of(hints[name]) for name in kind.__struct_fields__})
    if origin is Literal:
        return st.sampled_from(inside)
    if origin in (Union, types.UnionType):
        return st.one_of(*map(any_of, inside))
    if origin is tuple:
        return st.lists(any_of(inside[0]), max_size=2).map(tuple)
    if origin is dict:
        return st.dictionaries(any_of(inside[0]), any_of(inside[1]), max_size=2)
    simple = {
        str: st.text(max_size=8),
        int: st.integers(-(2**53), 2**53),
        float: finite,
        bool: st.booleans(),
        types.NoneType: st.none(),
    }
    return simple[kind]


golf_sets = any_of(GolfSet)
