"""Databases to test on: a SQLite file and a real PostgreSQL, the same tests on both."""

from __future__ import annotations

import shutil
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import event

from bot.store.database import Store, open_store
from tests.store.postgres import TEMPLATE, Server, running


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """An embedded PostgreSQL server."""
    with running() as server:
        yield server


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
