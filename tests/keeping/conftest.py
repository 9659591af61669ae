"""A store to work on, made once and copied, and golf sets of every shape."""

from __future__ import annotations

import itertools
import os
import shutil
import sqlite3
import types
import typing
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any, Literal, Union, get_args, get_origin

import msgspec
import psycopg
import pytest
import sqlalchemy
from hypothesis import strategies as st

from asplayed.clubs import Bend, Club, GolfSet, Head, SetFacts
from asplayed.keeping import Store, open_store
from asplayed.keeping.places import Place, Server, looking
from asplayed.keeping.schema import metadata
from asplayed.quantities import Figure, Source, figure

from . import a_server


def times(short: int, long: int) -> int:
    """How often a test tries: `long` in the long run, or the share of it that ASPLAYED_LONG says."""
    share = float(os.environ.get("ASPLAYED_LONG") or 0)
    return max(short, round(long * share))


@pytest.fixture(scope="session")
def made_store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh store, made once: making one takes a second."""
    place = tmp_path_factory.mktemp("made") / "store.db"
    open_store(place).close()
    return place


@pytest.fixture
def file_place(made_store: Path, tmp_path: Path) -> Path:
    """The file of an empty store of one's own."""
    return Path(shutil.copy(made_store, tmp_path / "store.db"))


@pytest.fixture
def file_store(file_place: Path) -> Iterator[Store]:
    """An empty store in a file, open."""
    with open_store(file_place) as opened:
        yield opened


class Shop:
    """A PostgreSQL server with a made store to begin from; each test has a database of its own."""

    def __init__(self, host: str) -> None:
        self.host = host
        self.keeper = a_server.keeper(host)
        self.number = 0
        open_store(self.empty()).close()
        self.run("ALTER DATABASE shop_1 RENAME TO made")

    def run(self, command: str) -> None:
        self.keeper.execute(command.encode())

    def fresh(self, template: str = "made") -> Server:
        """A store that holds nothing yet."""
        self.number += 1
        name = f"shop_{self.number}"
        self.run(f"CREATE DATABASE {name} TEMPLATE {template} OWNER {a_server.SHOP}")
        return Server(f"postgresql://{a_server.SHOP}@/{name}?host={self.host}", "asplayed")

    def empty(self) -> Server:
        """A database without a store."""
        return self.fresh("template1")

    def drop(self, place: Server) -> None:
        """Take a database away, whoever still looks at it."""
        self.run(f"DROP DATABASE IF EXISTS {name_of(place)} WITH (FORCE)")

    @contextmanager
    def harming(self, place: Server) -> Iterator[psycopg.Connection[tuple[object, ...]]]:
        """A connection that no trigger and no key holds back: somebody who may do anything with the server."""
        with a_server.keeper(self.host, name_of(place)) as connection:
            connection.execute(f"SET search_path TO {place.schema}; SET session_replication_role TO replica".encode())
            yield connection


def name_of(place: Server) -> str:
    """The database of a store."""
    return place.url.partition("?")[0].rpartition("/")[2]


@pytest.fixture(scope="session")
def shop() -> Iterator[Shop]:
    """The server of this run; without the programs, what needs it is left out, and says so."""
    programs = a_server.binaries()
    if programs is None:
        pytest.skip("PostgreSQL is not installed: apt-get install postgresql")
    with a_server.running(programs) as host:
        made = Shop(host)
        yield made
        made.keeper.close()


@pytest.fixture(params=["sqlite", "postgresql"])
def engine(request: pytest.FixtureRequest) -> str:
    """Either engine."""
    return str(request.param)


@pytest.fixture
def new_place(engine: str, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Callable[[], Place]]:
    """Makes places where no store is yet."""
    if engine == "sqlite":
        numbers = itertools.count(1)
        yield lambda: tmp_path / f"new-{next(numbers)}.db"
        return
    shop = request.getfixturevalue("shop")
    made: list[Server] = []

    def another() -> Server:
        made.append(shop.empty())
        return made[-1]

    yield another
    for place in made:
        shop.drop(place)


@pytest.fixture
def place(engine: str, request: pytest.FixtureRequest) -> Iterator[Place]:
    """An empty store of one's own, on either engine."""
    if engine == "sqlite":
        yield request.getfixturevalue("file_place")
        return
    shop = request.getfixturevalue("shop")
    made = shop.fresh()
    yield made
    shop.drop(made)


@pytest.fixture
def server_place(shop: Shop) -> Iterator[Server]:
    """An empty store on a server."""
    made = shop.fresh()
    yield made
    shop.drop(made)


@pytest.fixture
def store(place: Place) -> Iterator[Store]:
    """An empty store, open, on either engine."""
    with open_store(place) as opened:
        yield opened


def failure(statement: str, place: Place) -> sqlalchemy.exc.OperationalError:
    """What the engine answers to a statement when the disk under it fails."""
    said = "disk I/O error" if isinstance(place, Path) else "could not write block: Input/output error"
    kind = sqlite3.OperationalError if isinstance(place, Path) else psycopg.errors.IoError
    return sqlalchemy.exc.OperationalError(statement, {}, kind(said))


def rows(place: Place) -> dict[str, set[tuple[object, ...]]]:
    """Every row of every table, the same from either engine; how an index of words lies is its own affair."""
    columns = {name: [column.name for column in table.columns] for name, table in metadata.tables.items()}
    columns |= {"search": ["rowid", "name", "words"], "asplayed_schema": ["version_num"]}
    with looking(place) as read:
        return {
            name: {tuple(row) for row in read(f"SELECT {', '.join(wanted)} FROM {name}")}
            for name, wanted in columns.items()
        }


@contextmanager
def harming(place: Place, shop: Callable[[], Shop]) -> Iterator[Callable[[str], object]]:
    """Runs commands on a store behind its back, held back by no key and no trigger."""
    if isinstance(place, Path):
        with closing(sqlite3.connect(place, isolation_level=None)) as connection:
            yield connection.executescript
            connection.execute("PRAGMA journal_mode = DELETE")
    else:
        with shop().harming(place) as server:
            yield lambda command: server.execute(command.encode())


@pytest.fixture
def harm(place: Place, request: pytest.FixtureRequest) -> Callable[[str], None]:
    """Runs one command on the test's store behind its back."""

    def once(command: str) -> None:
        with harming(place, lambda: request.getfixturevalue("shop")) as run:
            run(command)

    return once


@pytest.fixture(autouse=True)
def own_data_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Nothing is put into the real user's data folder."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


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
