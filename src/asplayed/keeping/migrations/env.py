"""Run by alembic: the steps run inside the transaction that the store has already begun."""

from alembic import context

context.configure(
    connection=context.config.attributes["connection"],
    version_table=context.config.attributes["version_table"],
    render_as_batch=True,
)
context.run_migrations()
