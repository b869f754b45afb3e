"""Opening a database, and bringing it to the form that the tables have.

This file decides how Drawbar speaks to SQLite (write-ahead log, foreign keys on, nothing
reported as kept before it is on the disk) and to PostgreSQL, who may migrate (one process at
a time), and what is said of a database that can't be used: one sentence, and the file is left
as it is. It does not know what the tables mean.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, OperationalError
from sqlalchemy.orm import Session

from bot.store.claims import Claims
from bot.store.migrations import HEAD, KNOWN

BUSY_MS = 30_000
"""How long SQLite waits for another writer before it gives up, in milliseconds."""

MIGRATION_LOCK = 0x64726177
"""The PostgreSQL advisory lock that a migrating process holds ('draw')."""


class DatabaseTrouble(Exception):
    """The database can't be used as it stands; the sentence is for the one who runs Drawbar."""


class Store:
    """An open database. Sessions roll back unless they are committed."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._reader = engine.execution_options(begin="DEFERRED")
        self._claims = Claims(engine)

    @property
    def engine(self) -> Engine:
        """The engine, for migrations, backups and tests."""
        return self._engine

    @property
    def claims(self) -> Claims:
        """Which chats' answers this process is sending."""
        return self._claims

    @contextmanager
    def work(self) -> Iterator[Session]:
        """One unit of work: what is not committed inside is rolled back."""
        with Session(self._engine, expire_on_commit=False) as session:
            yield session

    @contextmanager
    def look(self) -> Iterator[Session]:
        """A session to read in, which does not wait for writers."""
        with Session(self._reader, expire_on_commit=False) as session:
            yield session

    def close(self) -> None:
        """Give the connections back, and with them what was claimed."""
        self._claims.close()
        self._engine.dispose()


def open_store(address: str | Path) -> Store:
    """Open a database by its URL or file name, creating and migrating it where needed.

    Raises DatabaseTrouble where it can't be opened, is damaged, or belongs to something else.
    """
    url = url_of(address)
    shown = url.database if url.get_backend_name() == "sqlite" else url.render_as_string()
    try:
        engine = _engine(url)
        try:
            with engine.begin() as connection:
                _check_sound(connection, str(shown))
                _migrate(connection, str(shown))
        except BaseException:
            engine.dispose()
            raise
    except (DBAPIError, sqlite3.DatabaseError, OSError) as error:
        cause = getattr(error, "orig", None) or error
        reason = _first_line(cause) or type(cause).__name__
        damaged = type(cause) is sqlite3.DatabaseError
        advice = "Restore a backup there" if damaged else "See that it can be reached"
        raise DatabaseTrouble(
            f"The database {shown} can't be opened ({reason}); it has been left as it is."
            f" {advice}, or name another with --database."
        ) from error
    return Store(engine)


def url_of(address: str | Path) -> URL:
    """The URL of a database that is named by it or by a file; raises DatabaseTrouble."""
    text_address = os.fspath(address)
    if "://" not in text_address:
        return URL.create("sqlite", database=str(Path(text_address).expanduser()))
    try:
        url = make_url(text_address)
        # Asks for the driver now, so that a missing one is told in a sentence.
        if url.drivername in ("postgresql", "postgres"):
            url = url.set(drivername="postgresql+psycopg")
        url.get_dialect().import_dbapi()
    except (ArgumentError, ImportError, AttributeError) as error:
        if isinstance(error, ImportError) and text_address.startswith("postgres"):
            raise DatabaseTrouble(
                f"PostgreSQL needs a driver ({error}): install Drawbar with its extra `postgres`."
            ) from error
        raise DatabaseTrouble(
            f"--database {text_address!r} is not an address that Drawbar can open ({error});"
            " it wants a file name, sqlite:///file or postgresql://user@host/name."
        ) from error
    return url


def _engine(url: URL) -> Engine:
    if url.get_backend_name() != "sqlite":
        return create_engine(url, pool_pre_ping=True)
    if url.database and url.database != ":memory:":
        Path(url.database).parent.mkdir(parents=True, exist_ok=True)
    engine = create_engine(url, connect_args={"timeout": BUSY_MS / 1000})
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(connection: sqlite3.Connection, _record: object) -> None:
    # The driver's own transactions begin too late for one that reads and then writes.
    connection.isolation_level = None
    for pragma in (f"busy_timeout = {BUSY_MS}", "synchronous = FULL", "foreign_keys = ON"):
        connection.execute(f"PRAGMA {pragma}").close()
    _write_ahead(connection)


def _write_ahead(connection: sqlite3.Connection) -> None:
    """Switch to the write-ahead log; SQLite does not wait by itself for others to do so."""
    give_up = time.monotonic() + BUSY_MS / 1000
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL").close()
            return
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY or time.monotonic() > give_up:
                raise
            time.sleep(0.01)


def _begin_sqlite(connection: Connection) -> None:
    # A writer takes its place in the queue at once: no upgrade that could fail half-way.
    mode = connection.get_execution_options().get("begin", "IMMEDIATE")
    driver = connection.connection.driver_connection
    if driver is None:
        raise DatabaseTrouble("The connection to the database is closed.")
    try:
        driver.execute(f"BEGIN {mode}").close()
    except sqlite3.OperationalError as error:
        raise OperationalError("BEGIN", None, error) from error


def _check_sound(connection: Connection, shown: str) -> None:
    if connection.dialect.name != "sqlite":
        return
    found = connection.exec_driver_sql("PRAGMA quick_check(1)").scalar()
    if found != "ok":
        raise DatabaseTrouble(
            f"The database {shown} is damaged ({_first_line(found)}); it has been left as it is."
            " Restore a backup there, or name another with --database."
        )


def _first_line(text: object) -> str:
    return next(iter(str(text).strip().splitlines()), "")


def _migrate(connection: Connection, shown: str) -> None:
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": MIGRATION_LOCK})
    inspector = inspect(connection)
    version = None
    if inspector.has_table("alembic_version"):
        version = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    elif inspector.has_table("messages") or (
        connection.dialect.name == "sqlite" and inspector.get_table_names()
    ):
        raise DatabaseTrouble(
            f"The database {shown} belongs to something else; it has been left as it is."
            " Name another with --database."
        )
    if version == HEAD:
        return
    if version is not None and version not in KNOWN:
        raise DatabaseTrouble(
            f"The database {shown} was written by a newer Drawbar (its form is {version});"
            " it has been left as it is. Update Drawbar to open it."
        )
    # Imported here: a database that is up to date starts without it.
    from bot.store.migrations.run import upgrade

    upgrade(connection)
