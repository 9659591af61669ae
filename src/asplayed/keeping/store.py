"""The store: opened, migrated, and written one user action at a time."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

import sqlalchemy

from asplayed.clubs import GolfSet
from asplayed.errors import AsplayedError, StoreUnusable
from asplayed.keeping import answers, backups, chain, columns, facts, parts, sets
from asplayed.keeping.places import (
    SCHEMA,
    VERSION_TABLE,
    Place,
    Read,
    Server,
    Where,
    can_write,
    explain,
    find_place,
    kind_of,
    make_engine,
    schema_of,
)
from asplayed.keeping.schema import actions, links
from asplayed.keeping.versions import storable

if TYPE_CHECKING:
    from asplayed.catalogue.parts import Part

MIGRATIONS = Path(__file__).parent / "migrations"


def open_store(where: Where = None) -> Store:
    """The store at `where` (None: in the user's data folder), made or migrated where that is needed.

    A store that may only be read opens to read. What is not a store, is damaged, or was written by a newer release
    is refused with `StoreUnusable` and left untouched.
    """
    place = find_place(where)
    if isinstance(place, Path):
        make_room(place, usual=where is None)
    schema = schema_of(place)
    store = Store(place)
    if schema != SCHEMA:
        store.migrate(schema)
    elif store.writable:
        _back_up_when_due(place)
    return store


def make_room(place: Path, *, usual: bool) -> None:
    """Make the usual folder; any other must be there already."""
    if usual:
        try:
            place.parent.mkdir(parents=True, exist_ok=True)
        except OSError as fault:
            raise StoreUnusable(f"the folder {place.parent} cannot be made: {fault.strerror}") from None
    if not place.parent.is_dir():
        raise StoreUnusable(f"there is no folder {place.parent} to keep the store in; make it first")


def _back_up_when_due(place: Place) -> None:
    """The daily backup; where it cannot be made, that is said and the work goes on."""
    try:
        backups.back_up_when_due(place)
    except AsplayedError as fault:
        logging.getLogger(__name__).warning("the daily backup was not made: %s", fault)


class Store:
    """An open store. A save has happened, whole and on the disk, when its method has returned."""

    def __init__(self, place: Place) -> None:
        self.place = place
        self.writable = can_write(place)
        self._engine = make_engine(place, writing=self.writable)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file, or of the server."""
        self._engine.dispose()

    # ---------------------------------------------------------------------------------------------- connections

    @contextmanager
    def _transaction(self, begin: Callable[[sqlalchemy.Connection], None]) -> Iterator[sqlalchemy.Connection]:
        """One transaction: all of it or, on any fault, nothing."""
        try:
            with self._engine.connect() as connection:
                begin(connection)
                try:
                    yield connection
                except BaseException:
                    connection.rollback()
                    raise
                connection.commit()
        except sqlalchemy.exc.DBAPIError as fault:
            raise StoreUnusable(explain(self.place, fault.orig or fault)) from fault
        except UnicodeDecodeError as fault:
            raise StoreUnusable(explain(self.place, fault)) from fault

    @contextmanager
    def reading(self) -> Iterator[Read]:
        """A way to ask questions of one moment of the store."""
        with self._transaction(partial(kind_of(self.place).begin, writing=False)) as connection:
            yield asking(connection)

    @contextmanager
    def acting(self, what: str, *, who: str, why: str | None = None) -> Iterator[Action]:
        """One user action: everything done in it is stored together, or nothing of it."""
        with self._writing() as connection:
            action = Action(connection, what, who, why)
            yield action
            action.seal()

    @contextmanager
    def remaking(self) -> Iterator[Action]:
        """One transaction in which what was done elsewhere is put in again, its chain and all."""
        with self._writing() as connection:
            yield Action(connection, "", "", None)
            kind_of(self.place).end_remaking(connection)

    @contextmanager
    def _writing(self) -> Iterator[sqlalchemy.Connection]:
        """One transaction that may write, and is the only one until it ends."""
        if not self.writable:
            raise StoreUnusable(f"the store {self.place} can be read but not written: its file or folder is read-only")
        with self._transaction(partial(kind_of(self.place).begin, writing=True)) as connection:
            yield connection

    def migrate(self, schema: str | None) -> None:
        """Bring the tables from `schema` (None: no store yet) to this release's, in one transaction."""
        if not self.writable:
            raise StoreUnusable(
                f"the store {self.place} cannot be {'made' if schema is None else f'migrated from schema {schema}'}: "
                "it may not be written"
            )
        if schema is not None:
            backups.back_up(self.place)  # forward only, so never without a way back
        with self._transaction(partial(kind_of(self.place).begin_making, place=self.place)) as connection:
            make_tables(connection)
            facts.tell_all(Action(connection, "", "", None))

    @contextmanager
    def making(self, aside: Server) -> Iterator[tuple[Action, bool]]:
        """One transaction in which a new store is made on a server; what stood there is kept in the schema `aside`."""
        from asplayed.keeping import servers

        assert isinstance(self.place, Server)
        with self._transaction(partial(servers.begin_making, place=self.place)) as connection:
            renamed = servers.set_aside(connection, self.place, aside)
            make_tables(connection)
            yield Action(connection, "", "", None), renamed
            servers.end_remaking(connection)

    # ---------------------------------------------------------------------------------------------------- sets

    def save_set(
        self,
        name: str,
        golf_set: GolfSet,
        words: str | bytes,
        *,
        who: str,
        what: str = "take",
        why: str | None = None,
        based_on: int | None = None,
        answered: Mapping[str, str] | None = None,
    ) -> sets.Saved:
        """Keep the set and the words it was read from under `name`, as a new version where it is stored already.

        `based_on` is the version the writer had seen (0: none): when a newer one has come meanwhile, `Stale` is raised
        and nothing is stored. The same set with the same words again makes no new version. `answered` holds answers
        about parts by their `answers.key`, remembered for other lists in the same action.
        """
        with self.acting(what, who=who, why=why) as action:
            answers.remember(action, answered or {})
            return sets.save(action, name, golf_set, words, based_on)

    def load_set(self, name: str, version: int | None = None) -> sets.StoredSet:
        """The set stored as `name`: its newest version, or the one asked for."""
        with self.reading() as read:
            return sets.load(read, name, version)

    def list_sets(self) -> tuple[sets.SetEntry, ...]:
        """Every set that is not hidden, by name."""
        with self.reading() as read:
            return sets.entries(read)

    def set_history(self, name: str) -> tuple[sets.VersionEntry, ...]:
        """Every version of a set, newest first: who, when, what and why."""
        with self.reading() as read:
            return sets.history(read, name)

    def undo_set(self, name: str, *, who: str, why: str | None = None, based_on: int | None = None) -> sets.Saved:
        """Go one version back from where the set stands, by adding a version; before the first, the set is hidden.

        `based_on` is the version the user had seen: when a newer one has come meanwhile, `Stale` is raised.
        """
        with self.acting("undo", who=who, why=why) as action:
            return sets.undo(action, name, based_on)

    def redo_set(self, name: str, *, who: str, why: str | None = None, based_on: int | None = None) -> sets.Saved:
        """Take the last undo back, by adding a version; `based_on` as for `undo_set`."""
        with self.acting("redo", who=who, why=why) as action:
            return sets.redo(action, name, based_on)

    def hide_set(self, name: str, *, who: str, why: str | None = None) -> sets.Saved:
        """Take a set out of use; its history stays, and undo brings it back."""
        with self.acting("hide", who=who, why=why) as action:
            return sets.hide(action, name)

    def write_anew(self) -> None:
        """Write what is kept anew, so that what was erased stands in no free page of it."""
        try:
            kind_of(self.place).write_anew(self._engine)
        except sqlalchemy.exc.DBAPIError as fault:
            raise StoreUnusable(explain(self.place, fault.orig or fault)) from fault

    # --------------------------------------------------------------------------------------------------- parts

    def save_parts(
        self,
        found: Sequence[Part],
        *,
        file: str,
        content: bytes,
        who: str,
        why: str | None = None,
    ) -> parts.PartsSaved:
        """Keep the parts of one imported file: new ones are added, changed ones get a version, the rest stay."""
        with self.acting("parts import", who=who, why=why) as action:
            return parts.save(action, found, file, content)

    def parts(self) -> tuple[Part, ...]:
        """Every part of the catalogue that is not hidden, in the order they came."""
        with self.reading() as read:
            return parts.load(read)

    def remember_columns(self, header: Sequence[str], mapping: Mapping[str, str], *, who: str) -> None:
        """Remember what the columns of a table with this header mean."""
        with self.acting("columns", who=who) as action:
            columns.remember(action, header, mapping)


def make_tables(connection: sqlalchemy.Connection, schema: str = SCHEMA) -> None:
    """Take the steps that are still missing to the tables of a schema, in the transaction that was begun."""
    from alembic.command import upgrade
    from alembic.config import Config

    config = Config(attributes={"version_table": VERSION_TABLE, "connection": connection})
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    upgrade(config, schema)


class Action:
    """A user action under way: its row is written with the first change, so that doing nothing leaves no trace."""

    def __init__(self, connection: sqlalchemy.Connection, what: str, who: str, why: str | None) -> None:
        self.connection = connection
        self.read = asking(connection)
        said = {"what": what, "who": who, "why": why}
        self._said = {key: text and storable(text) for key, text in said.items()}
        self._id: int | None = None

    @property
    def id(self) -> int:
        """The number of this action."""
        if self._id is None:
            now = datetime.now(UTC).isoformat(timespec="milliseconds")
            made = actions.insert().values(at=now, **self._said).returning(actions.c.id)
            self._id = int(self.connection.execute(made).scalar_one())
        return self._id

    def seal(self) -> None:
        """Put what was done into the chain; the last thing of an action."""
        if self._id is not None:
            self.connection.execute(links.insert(), [link._asdict() for link in chain.new_links(self.read)])


def asking(connection: sqlalchemy.Connection) -> Read:
    """The way to ask questions over a connection that is already open."""
    return Read(
        connection.dialect.name, lambda question, values: connection.execute(sqlalchemy.text(question), values).all()
    )
