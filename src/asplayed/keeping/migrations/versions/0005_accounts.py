"""The accounts of a shop among the store's own tables; those that a served store had already are taken over.

Nobody stays signed in through it.
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

TABLES = ("web_accounts", "web_sessions", "web_trail")


def upgrade() -> None:
    """Make the tables, and put back into them what stood in those of a store that was served before."""
    bind = op.get_bind()
    there = [table for table in TABLES if sa.inspect(bind).has_table(table)]
    kept = {
        table: bind.execute(sa.text(f"SELECT * FROM {table}")).mappings().all()
        for table in there
        if table != "web_sessions"
    }
    for table in reversed(there):
        op.drop_table(table)
    text = sa.Text(collation="C") if bind.dialect.name == "postgresql" else sa.Text()
    op.create_table(
        "web_accounts",
        sa.Column("id", sa.Integer, nullable=False),
        *(sa.Column(name, text, nullable=False) for name in ("name", "known_as", "role")),
        sa.Column("player", text),
        sa.Column("password", text, nullable=False),
        *(sa.Column(name, text) for name in ("codes", "codes_offered")),
        *(sa.Column(name, sa.Integer, nullable=False) for name in ("codes_used", "disabled", "failures")),
        sa.Column("locked_until", text),
        sa.Column("made", text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_web_accounts"),
        sa.UniqueConstraint("known_as", name="uq_web_accounts_known_as"),
        sqlite_strict=True,
    )
    op.create_table(
        "web_sessions",
        sa.Column("key", text, nullable=False),
        sa.Column("account_id", sa.Integer, nullable=False),
        *(sa.Column(name, text, nullable=False) for name in ("made", "seen")),
        sa.PrimaryKeyConstraint("key", name="pk_web_sessions"),
        sa.ForeignKeyConstraint(["account_id"], ["web_accounts.id"], name="fk_web_sessions_account_id_web_accounts"),
        sqlite_strict=True,
    )
    op.create_table(
        "web_trail",
        sa.Column("id", sa.Integer, nullable=False),
        *(sa.Column(name, text, nullable=False) for name in ("at", "who", "what", "about")),
        sa.PrimaryKeyConstraint("id", name="pk_web_trail"),
        sqlite_strict=True,
    )
    for table, rows in kept.items():
        for row in rows:
            names = ", ".join(row.keys())
            given = ", ".join(f":{name}" for name in row.keys())  # noqa: SIM118 a row's own keys, not its values
            bind.execute(sa.text(f"INSERT INTO {table} ({names}) VALUES ({given})"), dict(row))
    if bind.dialect.name == "postgresql":
        for table in ("web_accounts", "web_trail"):
            op.execute(
                f"SELECT setval(pg_get_serial_sequence('{table}', 'id'), GREATEST(MAX(id), 1), MAX(id) IS NOT NULL) "
                f"FROM {table}"
            )
