"""Clubs, tallies and words told from the newest sets, for the questions of a season; filled once the steps are done."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables, and the columns of `sets` that the tallies are told from."""
    for name in ("event", "ball", "colour", "week", "search_sha256"):
        op.add_column("sets", sa.Column(name, sa.Text))
    op.add_column("sets", sa.Column("result", sa.Integer))
    op.create_index("ix_sets_player_date", "sets", ["player", "date"])
    op.create_table(
        "clubs",
        sa.Column("record_id", sa.Integer, nullable=False),
        sa.Column("position", sa.Integer, nullable=False),
        sa.Column("club", sa.Text, nullable=False),
        sa.Column("kind", sa.Text, nullable=False),
        *(sa.Column(name, sa.Text) for name in ("maker", "model", "shaft", "flex")),
        *(sa.Column(name, sa.REAL) for name in ("loft", "lie", "bounce", "length")),
        *(sa.Column(name, sa.Text) for name in ("sole", "grip")),
        sa.ForeignKeyConstraint(["record_id"], ["records.id"], name="fk_clubs_record_id_records"),
        sa.PrimaryKeyConstraint("record_id", "position", name="pk_clubs"),
        sqlite_strict=True,
    )
    op.create_table(
        "tallies",
        *(sa.Column(name, sa.Text, nullable=False) for name in ("field", "kind", "week", "value")),
        sa.Column("won", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("field", "kind", "week", "value", "won", name="pk_tallies"),
        sqlite_strict=True,
    )
    if op.get_bind().dialect.name == "sqlite":
        op.execute("CREATE VIRTUAL TABLE search USING fts5(name, words, tokenize = 'unicode61 remove_diacritics 2')")
