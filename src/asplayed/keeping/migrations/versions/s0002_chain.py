"""The chain: a hash over all that each action did and over the action before it; a seal of each record's name."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the table of links, seal the names there are, and link the actions there are."""
    from asplayed.keeping.chain import new_links, new_salt, seal
    from asplayed.keeping.store import asking

    op.add_column("records", sa.Column("salt", sa.Text))
    op.add_column("records", sa.Column("seal", sa.Text))
    op.create_table(
        "links",
        sa.Column("action_id", sa.Integer, nullable=False),
        sa.Column("salt", sa.Text, nullable=False),
        sa.Column("seal", sa.Text, nullable=False),
        sa.Column("sha256", sa.Text, nullable=False),
        sa.ForeignKeyConstraint(["action_id"], ["actions.id"], name="fk_links_action_id_actions"),
        sa.PrimaryKeyConstraint("action_id", name="pk_links"),
        sqlite_strict=True,
    )
    connection = op.get_bind()
    for record_id, kind, name in connection.execute(sa.text("SELECT id, kind, name FROM records")).all():
        salt = new_salt()
        connection.execute(
            sa.text("UPDATE records SET salt = :salt, seal = :seal WHERE id = :id"),
            {"salt": salt, "seal": seal(salt, kind, name), "id": record_id},
        )
    for link in new_links(asking(connection)):
        connection.execute(sa.text("INSERT INTO links VALUES (:action_id, :salt, :seal, :sha256)"), link._asdict())
