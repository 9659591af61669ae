"""The tables of the store: append-only versions of every record, what each user action did, and a shop's accounts.

Every change is one row of `actions` and one row of `versions` for each record it touched; both are only ever added
to, and `links` chains the actions by hashes. `records` points at the newest version of each name. `sets`, `clubs`,
`tallies`, `parts` and the full-text table `search` repeat what that version says, so that lists and questions need not
open every record. PostgreSQL has `search` as a plain table with an index of words, and orders texts by their bytes as
SQLite does. Texts hold JSON: this store compares and hashes the very bytes it wrote. The accounts of a shop stand in
`web_accounts`, `web_sessions` and `web_trail`, outside the chain: a backup holds them, an export does not. The tables
are made and changed by `migrations/`; a test holds the two together.
"""

from __future__ import annotations

from sqlalchemy import (
    REAL,
    BigInteger,
    CheckConstraint,
    Column,
    Double,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)
from sqlalchemy.types import TypeEngine

from asplayed.keeping.places import SCHEMA

__all__ = [
    "SCHEMA",
    "accounts",
    "actions",
    "clubs",
    "imports",
    "links",
    "metadata",
    "originals",
    "parts",
    "records",
    "sessions",
    "sets",
    "tallies",
    "trail",
    "versions",
]

DOUBLE: TypeEngine[float] = REAL().with_variant(Double(), "postgresql")
"""A number of eight bytes, by the name that each engine has for it."""

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

actions = Table(
    "actions",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("at", Text, nullable=False),  # ISO 8601, UTC; the order of actions is that of their numbers
    Column("who", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("why", Text),
    sqlite_strict=True,
)

originals = Table(
    "originals",
    metadata,
    Column("sha256", Text, primary_key=True),
    Column("words", LargeBinary, nullable=False),  # the user's text, byte for byte
    sqlite_strict=True,
)

records = Table(
    "records",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("kind", Text, nullable=False),  # set, part, columns, answer, order, check, stock …
    Column("name", Text, nullable=False),
    Column("version", Integer, nullable=False),
    Column("hidden", Integer, CheckConstraint("hidden IN (0, 1)", name="hidden"), nullable=False),
    Column("salt", Text),  # the seal is the salted hash of kind and name, by which the chain holds them
    Column("seal", Text),
    UniqueConstraint("kind", "name"),
    sqlite_strict=True,
)

versions = Table(
    "versions",
    metadata,
    Column("record_id", Integer, ForeignKey("records.id"), primary_key=True),
    Column("version", Integer, primary_key=True),
    Column("action_id", Integer, ForeignKey("actions.id"), nullable=False),
    Column("hidden", Integer, CheckConstraint("hidden IN (0, 1)", name="hidden"), nullable=False),
    Column("restores", Integer),  # the older version that an undo went back to; 0: to before the first
    Column("content", Text, nullable=False),
    Column("content_sha256", Text, nullable=False),
    Column("original_sha256", Text, ForeignKey("originals.sha256")),
    Index(None, "action_id"),
    sqlite_strict=True,
)

links = Table(
    "links",
    metadata,
    Column("action_id", Integer, ForeignKey("actions.id"), primary_key=True),
    Column("salt", Text, nullable=False),
    Column("seal", Text, nullable=False),
    Column("sha256", Text, nullable=False),  # of the link before, the seal, and all that the action did
    sqlite_strict=True,
)

sets = Table(
    "sets",
    metadata,
    Column("record_id", Integer, ForeignKey("records.id"), primary_key=True),
    Column("player", Text),
    Column("date", Text),
    Column("clubs", Integer, nullable=False),
    Column("event", Text),
    Column("ball", Text),
    Column("colour", Text),
    Column("week", Text),  # ISO 8601; nothing where undated, null while the set is hidden and so not counted
    Column("result", Integer),
    Column("search_sha256", Text),  # of its row of `search`
    Column("name", Text),  # null while the set is hidden and so not listed
    Column("version", Integer),
    Index(None, "player", "date"),
    Index(None, "name", "player", "date", "clubs", "version"),  # a list is read out of this index alone
    sqlite_strict=True,
)

clubs = Table(
    "clubs",
    metadata,
    Column("record_id", Integer, ForeignKey("records.id"), primary_key=True),
    Column("position", Integer, primary_key=True),
    Column("club", Text, nullable=False),
    Column("kind", Text, nullable=False),
    *(Column(name, Text) for name in ("maker", "model", "shaft", "flex")),
    *(Column(name, DOUBLE) for name in ("loft", "lie", "bounce", "length")),  # degrees; inches
    *(Column(name, Text) for name in ("sole", "grip")),
    sqlite_strict=True,
)

tallies = Table(
    "tallies",
    metadata,
    *(Column(name, Text, primary_key=True) for name in ("span", "field", "kind", "value", "period")),
    Column("won", Integer, primary_key=True),
    Column("number", Integer, nullable=False),
    sqlite_strict=True,
    sqlite_with_rowid=False,
)

parts = Table(
    "parts",
    metadata,
    Column("record_id", Integer, ForeignKey("records.id"), primary_key=True),
    Column("part", Text, nullable=False),
    Column("maker", Text),
    Column("model", Text, nullable=False),
    Column("variant", Text),
    Index(None, "model", "maker"),
    sqlite_strict=True,
)

imports = Table(
    "imports",
    metadata,
    Column("action_id", Integer, ForeignKey("actions.id"), primary_key=True),
    Column("file", Text, nullable=False),
    Column("sha256", Text, nullable=False),
    Column("size", Integer().with_variant(BigInteger(), "postgresql"), nullable=False),
    sqlite_strict=True,
)

accounts = Table(
    "web_accounts",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("name", Text, nullable=False),
    Column("known_as", Text, nullable=False),  # the name folded, so that Ada and ada are one
    Column("role", Text, nullable=False),
    Column("player", Text),
    Column("password", Text, nullable=False),  # as argon2id
    Column("codes", Text),  # the secret of one-time codes, once confirmed
    Column("codes_offered", Text),  # the same before that
    Column("codes_used", Integer, nullable=False),  # the step of the last code taken: none is taken twice
    Column("disabled", Integer, nullable=False),
    Column("failures", Integer, nullable=False),
    Column("locked_until", Text),
    Column("made", Text, nullable=False),
    UniqueConstraint("known_as"),
    sqlite_strict=True,
)

sessions = Table(
    "web_sessions",
    metadata,
    Column("key", Text, primary_key=True),  # sha-256 of the cookie's value
    Column("account_id", Integer, ForeignKey("web_accounts.id"), nullable=False),
    Column("made", Text, nullable=False),
    Column("seen", Text, nullable=False),
    sqlite_strict=True,
)

trail = Table(
    "web_trail",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("at", Text, nullable=False),
    Column("who", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("about", Text, nullable=False),
    sqlite_strict=True,
)
