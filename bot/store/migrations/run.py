"""Runs the migrations on an open connection, inside its transaction.

The change and the record that it happened are one transaction, on both databases. This file
does not know what any step does.
"""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection


def upgrade(connection: Connection, to: str = "head") -> None:
    """Bring the database up to a step."""
    command.upgrade(config(connection), to)


def downgrade(connection: Connection, to: str) -> None:
    """Take the database down to a step, or to `base`."""
    command.downgrade(config(connection), to)


def config(connection: Connection | None = None) -> Config:
    """Alembic's configuration, which needs no file."""
    made = Config()
    made.set_main_option("script_location", str(Path(__file__).parent))
    made.attributes["connection"] = connection
    return made
