"""Tallies by week and by season, lists out of one table, and what a store in PostgreSQL needs beside."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects.postgresql import TSVECTOR

revision = "0004"
down_revision = "0003"

APPEND_ONLY = """
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF TG_OP = 'UPDATE' THEN  -- a lawful erasure empties what names a person, and changes nothing else
        IF TG_TABLE_NAME = 'versions' THEN OLD.content = '';
        ELSIF TG_TABLE_NAME = 'originals' THEN OLD.words = '';
        ELSIF TG_TABLE_NAME = 'actions' THEN OLD.why = NULL;
        ELSIF TG_TABLE_NAME = 'links' THEN OLD.salt = '';
        END IF;
        IF NEW IS NOT DISTINCT FROM OLD THEN RETURN NEW; END IF;
    END IF;
    RAISE EXCEPTION 'the past is only ever added to: % of % is refused', TG_OP, TG_TABLE_NAME;
END $$
"""

KEPT = ("actions", "imports", "links", "originals", "versions")


def upgrade() -> None:
    """Make the tallies anew, which are told again once the steps are done; let `sets` tell a list by itself."""
    postgresql = op.get_bind().dialect.name == "postgresql"
    op.add_column("sets", sa.Column("name", sa.Text))
    op.add_column("sets", sa.Column("version", sa.Integer))
    op.drop_table("tallies")
    op.create_table(
        "tallies",
        *(sa.Column(name, sa.Text, nullable=False) for name in ("span", "field", "kind", "value", "period")),
        sa.Column("won", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("span", "field", "kind", "value", "period", "won", name="pk_tallies"),
        sqlite_strict=True,
        sqlite_with_rowid=False,
    )
    if postgresql:
        for_postgresql()
    op.create_index("ix_sets_name_player_date_clubs_version", "sets", ["name", "player", "date", "clubs", "version"])


def for_postgresql() -> None:
    """Order texts by their bytes, as SQLite does; full doubles; the words of sets; and a past that is only added to."""
    bind = op.get_bind()
    columns = bind.execute(
        sa.text(
            "SELECT table_name, column_name, data_type FROM information_schema.columns "
            "WHERE table_schema = current_schema() AND table_name <> 'asplayed_schema' "
            "AND data_type IN ('text', 'real') ORDER BY table_name, ordinal_position"
        )
    ).all()
    for table, column, kind in columns:
        op.execute(
            f"ALTER TABLE {table} ALTER COLUMN {column} TYPE "
            + ('text COLLATE pg_catalog."C"' if kind == "text" else "double precision")
        )
    op.execute("ALTER TABLE imports ALTER COLUMN size TYPE bigint")
    op.create_table(
        "search",
        sa.Column("rowid", sa.Integer, nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("words", sa.Text, nullable=False),
        sa.Column("places", TSVECTOR, nullable=False),
        sa.PrimaryKeyConstraint("rowid", name="pk_search"),
        sa.ForeignKeyConstraint(["rowid"], ["records.id"], name="fk_search_rowid_records"),
    )
    op.create_index("ix_search_places", "search", ["places"], postgresql_using="gin")
    bind.exec_driver_sql(APPEND_ONLY.replace("%", "%%"))
    for table in KEPT:
        for name, when, each in (
            ("append_only", "UPDATE OR DELETE", "ROW"),
            ("never_emptied", "TRUNCATE", "STATEMENT"),
        ):
            op.execute(
                f"CREATE TRIGGER {name} BEFORE {when} ON {table} FOR EACH {each} EXECUTE FUNCTION refuse_change()"
            )
