"""Run by alembic: the steps run inside the transaction that the store has already begun.

Only while steps run does alembic's context have a configuration; imported by anything else, this does nothing.
"""

from alembic import context

config = getattr(context, "config", None)
if config is not None:
    context.configure(
        connection=config.attributes["connection"],
        version_table=config.attributes["version_table"],
        render_as_batch=True,
    )
    context.run_migrations()
