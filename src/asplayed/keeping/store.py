"""The store: opened, migrated, and written one user action at a time."""

from __future__ import annotations

import logging
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Any, Self

import sqlalchemy
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.pool import ConnectionPoolEntry

from asplayed.clubs import GolfSet
from asplayed.errors import AsplayedError, StoreUnusable
from asplayed.keeping import answers, backups, chain, columns, parts, seasons, sets, versions
from asplayed.keeping.places import PATIENCE, SCHEMA, VERSION_TABLE, address, can_write, explain, find_place, schema_of
from asplayed.keeping.reading import Read
from asplayed.keeping.schema import actions, links

if TYPE_CHECKING:
    from asplayed.catalogue.parts import Part

MIGRATIONS = Path(__file__).parent / "migrations"


def open_store(where: str | Path | None = None) -> Store:
    """The store at `where` (None: in the user's data folder), made or migrated where that is needed.

    A store that may only be read opens to read. What is not a store, is damaged, or was written by a newer release
    is refused with `StoreUnusable` and left untouched.
    """
    place = find_place(where)
    if where is None:
        try:
            place.parent.mkdir(parents=True, exist_ok=True)
        except OSError as fault:
            raise StoreUnusable(f"the folder {place.parent} cannot be made: {fault.strerror}") from None
    if not place.parent.is_dir():
        raise StoreUnusable(f"there is no folder {place.parent} to keep the store in; make it first")
    schema = schema_of(place)
    store = Store(place)
    if schema != SCHEMA:
        store.migrate(schema)
    elif store.writable:
        _back_up_when_due(place)
    return store


def _back_up_when_due(place: Path) -> None:
    """The daily backup; where it cannot be made, that is said and the work goes on."""
    try:
        backups.back_up_when_due(place)
    except AsplayedError as fault:
        logging.getLogger(__name__).warning("the daily backup was not made: %s", fault)


class Store:
    """An open store. A save has happened, whole and on the disk, when its method has returned."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.writable = can_write(place)
        self._engine = sqlalchemy.create_engine("sqlite://", creator=self._connect, poolclass=sqlalchemy.pool.QueuePool)
        sqlalchemy.event.listen(self._engine, "connect", self._prepare)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()

    # ---------------------------------------------------------------------------------------------- connections

    def _connect(self) -> Any:
        import sqlite3

        # No isolation level: this class says itself when a transaction begins.
        return sqlite3.connect(
            address(self.place, writing=self.writable),
            uri=True,
            timeout=PATIENCE,
            isolation_level=None,
            check_same_thread=False,
        )

    def _prepare(self, connection: DBAPIConnection, entry: ConnectionPoolEntry) -> None:
        """Set and check what durability rests on: a log written ahead, flushed at every commit; keys enforced."""
        cursor = connection.cursor()
        wanted: dict[str, int | str] = {"foreign_keys": 1, "trusted_schema": 0, "synchronous": 2}
        if self.writable:
            wanted["journal_mode"] = "wal"
        for pragma, value in wanted.items():
            cursor.execute(f"PRAGMA {pragma} = {value}")
            found = cursor.execute(f"PRAGMA {pragma}").fetchone()[0]
            if found != value:
                raise StoreUnusable(
                    f"the store {self.place} cannot be kept safe here ({pragma} is {found}, not {value}); "
                    "put it on a local disk"
                )
        cursor.close()

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[sqlalchemy.Connection]:
        """One transaction: all of it or, on any fault, nothing."""
        try:
            with self._engine.connect() as connection:
                connection.exec_driver_sql(begin)
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
        with self._transaction("BEGIN") as connection:
            yield asking(connection)

    @contextmanager
    def acting(self, what: str, *, who: str, why: str | None = None) -> Iterator[Action]:
        """One user action: everything done in it is stored together, or nothing of it."""
        if not self.writable:
            raise StoreUnusable(explain(self.place, OSError("readonly")))
        with self._transaction("BEGIN IMMEDIATE") as connection:
            action = Action(connection, what, who, why)
            yield action
            action.seal()

    @contextmanager
    def remaking(self) -> Iterator[Action]:
        """One transaction in which what was done elsewhere is put in again, its chain and all."""
        if not self.writable:
            raise StoreUnusable(explain(self.place, OSError("readonly")))
        with self._transaction("BEGIN IMMEDIATE") as connection:
            yield Action(connection, "", "", None)

    def migrate(self, schema: str | None) -> None:
        """Bring the tables from `schema` (None: no store yet) to this release's, in one transaction."""
        if not self.writable:
            raise StoreUnusable(
                f"the store {self.place} cannot be {'made' if schema is None else f'migrated from schema {schema}'}: "
                "its file or folder is read-only"
            )
        if schema is not None:
            backups.back_up(self.place, figures=False)  # forward only, so never without a way back
        from alembic.command import upgrade
        from alembic.config import Config

        config = Config(attributes={"version_table": VERSION_TABLE})
        config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
        with self._transaction("BEGIN IMMEDIATE") as connection:
            config.attributes["connection"] = connection
            upgrade(config, SCHEMA)
            action = Action(connection, "", "", None)
            for name, version in versions.find_all(action.read, sets.KIND).items():
                golf_set = sets.decode(version) if version.content else GolfSet()
                words = sets.original(action.read, version) if version.content else b""
                seasons.tell(action, version.record_id, name, golf_set, words, hidden=bool(version.hidden))

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

    def undo_set(self, name: str, *, who: str, why: str | None = None) -> sets.Saved:
        """Go one version back from where the set stands, by adding a version; before the first, the set is hidden."""
        with self.acting("undo", who=who, why=why) as action:
            return sets.undo(action, name)

    def redo_set(self, name: str, *, who: str, why: str | None = None) -> sets.Saved:
        """Take the last undo back, by adding a version."""
        with self.acting("redo", who=who, why=why) as action:
            return sets.redo(action, name)

    def hide_set(self, name: str, *, who: str, why: str | None = None) -> sets.Saved:
        """Take a set out of use; its history stays, and undo brings it back."""
        with self.acting("hide", who=who, why=why) as action:
            return sets.hide(action, name)

    def write_anew(self) -> None:
        """Write the file anew without its free pages, and empty the log: what was erased stands nowhere in them."""
        try:
            with self._engine.connect() as connection:
                connection.exec_driver_sql("VACUUM")
                connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
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
        mapped: tuple[Sequence[str], Mapping[str, str]] | None = None,
    ) -> parts.PartsSaved:
        """Keep the parts of one imported file: new ones are added, changed ones get a version, the rest stay.

        `mapped` is the file's header and what the user said its columns mean, remembered in the same action.
        """
        with self.acting("parts import", who=who, why=why) as action:
            if mapped is not None:
                columns.remember(action, *mapped)
            return parts.save(action, found, file, content)

    def parts(self) -> tuple[Part, ...]:
        """Every part of the catalogue that is not hidden, in the order they came."""
        with self.reading() as read:
            return parts.load(read)

    def remember_columns(self, header: Sequence[str], mapping: Mapping[str, str], *, who: str) -> None:
        """Remember what the columns of a table with this header mean."""
        with self.acting("columns", who=who) as action:
            columns.remember(action, header, mapping)

    def columns_for(self, header: Sequence[str]) -> dict[str, str] | None:
        """What the columns of a table with this header were said to mean; None when nobody has said."""
        with self.reading() as read:
            return columns.recall(read, header)


class Action:
    """A user action under way: its row is written with the first change, so that doing nothing leaves no trace."""

    def __init__(self, connection: sqlalchemy.Connection, what: str, who: str, why: str | None) -> None:
        self.connection = connection
        self.read = asking(connection)
        said = {"what": what, "who": who, "why": why}
        self._said = {key: text and text.encode("utf-8", "replace").decode() for key, text in said.items()}
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
    return lambda question, **values: connection.execute(sqlalchemy.text(question), values).all()
