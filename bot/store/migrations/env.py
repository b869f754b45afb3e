"""Run by Alembic for each command; the connection is handed over by run.py."""

from alembic import context

from bot.store.tables import Table

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Table.metadata,
    compare_type=True,
    # SQLite changes a column by copying its table.
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
