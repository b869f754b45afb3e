"""Opening a database, and bringing it to the form that the tables have.

This file decides what a unit of work is, who may migrate (one process at a time), and what is
said of a database that can't be used: one sentence, and the file is left as it is. It does not
know how SQLite is spoken to, nor what the tables mean.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import (
    ArgumentError,
    DBAPIError,
    InterfaceError,
    InternalError,
    OperationalError,
)
from sqlalchemy.orm import Session

from bot.store.claims import Claims
from bot.store.migrations import HEAD, KNOWN
from bot.store.sqlite import begin_reading, sqlite_engine

TROUBLE = (OperationalError, InterfaceError, InternalError)
"""Errors of the database's own: full disk, lock, lost connection; any other is a bug."""

MIGRATION_LOCK = 0x64726177
"""The PostgreSQL advisory lock that a migrating process holds ('draw')."""


class DatabaseTrouble(Exception):
    """The database can't be used as it stands; the sentence is for the one who runs Drawbar."""


class Unit:
    """One unit of work: plain rows on its connection, objects in a session on the same one.

    The session is made when it is first asked for: a message that states an entry needs none.
    """

    def __init__(self, plain: Connection) -> None:
        self.plain = plain
        self._session: Session | None = None

    @property
    def session(self) -> Session:
        """A session in the same transaction."""
        if self._session is None:
            self._session = _session_on(self.plain)
        return self._session

    def commit(self) -> None:
        """Commit what was done, by rows and by objects; what follows is a new transaction."""
        if self._session is not None:
            self._session.commit()
        self._let_go()
        self.plain.commit()

    def rollback(self) -> None:
        """Undo what is not committed; what follows is a new transaction."""
        self._let_go()
        self.plain.rollback()

    def close(self) -> None:
        """Undo what is not committed, and give the connection back."""
        self._let_go()
        self.plain.close()

    def _let_go(self) -> None:
        """Let the objects go, which in another transaction may be out of date."""
        if self._session is not None:
            self._session.close()
            self._session = None


def _session_on(connection: Connection) -> Session:
    return Session(connection, expire_on_commit=False, join_transaction_mode="control_fully")


class Store:
    """An open database. What is not committed is rolled back."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
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
    def writing(self) -> Iterator[Unit]:
        """A unit of work."""
        with closing(Unit(self._engine.connect())) as unit:
            yield unit

    @contextmanager
    def reading(self) -> Iterator[Unit]:
        """A unit of work whose first transaction only reads, and does not wait for writers."""
        with self.writing() as unit:
            begin_reading(unit.plain)
            yield unit

    @contextmanager
    def work(self) -> Iterator[Session]:
        """The session of a unit of work."""
        with self.writing() as unit:
            yield unit.session

    @contextmanager
    def look(self) -> Iterator[Session]:
        """The session of one that only reads."""
        with self.reading() as unit:
            yield unit.session

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
    if url.get_backend_name() == "sqlite":
        return sqlite_engine(url)
    return create_engine(url, pool_pre_ping=True)


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
