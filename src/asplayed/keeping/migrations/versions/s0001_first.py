"""The first schema: actions, versions of records, originals, sets, parts, imports."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make every table."""
    op.create_table(
        "actions",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("who", sa.Text, nullable=False),
        sa.Column("what", sa.Text, nullable=False),
        sa.Column("why", sa.Text),
        sa.PrimaryKeyConstraint("id", name="pk_actions"),
        sqlite_strict=True,
    )
    op.create_table(
        "originals",
        sa.Column("sha256", sa.Text, nullable=False),
        sa.Column("words", sa.LargeBinary, nullable=False),
        sa.PrimaryKeyConstraint("sha256", name="pk_originals"),
        sqlite_strict=True,
    )
    op.create_table(
        "records",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("hidden", sa.Integer, nullable=False),
        sa.CheckConstraint("hidden IN (0, 1)", name="ck_records_hidden"),
        sa.PrimaryKeyConstraint("id", name="pk_records"),
        sa.UniqueConstraint("kind", "name", name="uq_records_kind_name"),
        sqlite_strict=True,
    )
    op.create_table(
        "versions",
        sa.Column("record_id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("action_id", sa.Integer, nullable=False),
        sa.Column("hidden", sa.Integer, nullable=False),
        sa.Column("restores", sa.Integer),
        sa.Column("content", sa.Text, nullable=False),
        sa.Column("content_sha256", sa.Text, nullable=False),
        sa.Column("original_sha256", sa.Text),
        sa.CheckConstraint("hidden IN (0, 1)", name="ck_versions_hidden"),
        sa.ForeignKeyConstraint(["record_id"], ["records.id"], name="fk_versions_record_id_records"),
        sa.ForeignKeyConstraint(["action_id"], ["actions.id"], name="fk_versions_action_id_actions"),
        sa.ForeignKeyConstraint(
            ["original_sha256"], ["originals.sha256"], name="fk_versions_original_sha256_originals"
        ),
        sa.PrimaryKeyConstraint("record_id", "version", name="pk_versions"),
        sqlite_strict=True,
    )
    op.create_index("ix_versions_action_id", "versions", ["action_id"])
    op.create_table(
        "sets",
        sa.Column("record_id", sa.Integer, nullable=False),
        sa.Column("player", sa.Text),
        sa.Column("date", sa.Text),
        sa.Column("clubs", sa.Integer, nullable=False),
        sa.ForeignKeyConstraint(["record_id"], ["records.id"], name="fk_sets_record_id_records"),
        sa.PrimaryKeyConstraint("record_id", name="pk_sets"),
        sqlite_strict=True,
    )
    op.create_table(
        "parts",
        sa.Column("record_id", sa.Integer, nullable=False),
        sa.Column("part", sa.Text, nullable=False),
        sa.Column("maker", sa.Text),
        sa.Column("model", sa.Text, nullable=False),
        sa.Column("variant", sa.Text),
        sa.ForeignKeyConstraint(["record_id"], ["records.id"], name="fk_parts_record_id_records"),
        sa.PrimaryKeyConstraint("record_id", name="pk_parts"),
        sqlite_strict=True,
    )
    op.create_index("ix_parts_model_maker", "parts", ["model", "maker"])
    op.create_table(
        "imports",
        sa.Column("action_id", sa.Integer, nullable=False),
        sa.Column("file", sa.Text, nullable=False),
        sa.Column("sha256", sa.Text, nullable=False),
        sa.Column("size", sa.Integer, nullable=False),
        sa.ForeignKeyConstraint(["action_id"], ["actions.id"], name="fk_imports_action_id_actions"),
        sa.PrimaryKeyConstraint("action_id", name="pk_imports"),
        sqlite_strict=True,
    )
