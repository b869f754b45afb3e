"""How Drawbar speaks to SQLite.

This file decides what is asked of every connection (write-ahead log, foreign keys on, nothing
reported as kept before it is on the disk), how long one waits for another that writes, and when
a transaction takes its place in the queue of writers. It does not know what is written.
"""

from __future__ import annotations

import sqlite3
import time
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.dialects import registry
from sqlalchemy.dialects.sqlite.pysqlite import SQLiteDialect_pysqlite
from sqlalchemy.engine import URL
from sqlalchemy.pool import PoolProxiedConnection

BUSY_MS = 30_000
"""How long SQLite waits for another writer before it gives up, in milliseconds."""

_BEGIN, _NOW, _LATER = "begin", "IMMEDIATE", "DEFERRED"


class Dialect(SQLiteDialect_pysqlite):
    """SQLAlchemy's own, but that a transaction begins where it says so.

    In the dialect and not as a listener: an engine that is listened to asks its listeners again
    at every statement.
    """

    supports_statement_cache = True

    def do_begin(self, dbapi_connection: PoolProxiedConnection) -> None:
        """A writer takes its place in the queue at once: no upgrade that could fail half-way."""
        mode = dbapi_connection.info.pop(_BEGIN, _NOW)
        dbapi_connection.cursor().execute(f"BEGIN {mode}")


registry.register("sqlite.drawbar", __name__, Dialect.__name__)


def begin_reading(connection: Connection) -> None:
    """Begin a transaction that only reads: on SQLite it does not wait for writers."""
    if connection.dialect.name == "sqlite":
        connection.info[_BEGIN] = _LATER
    connection.begin()


def sqlite_engine(url: URL) -> Engine:
    """An engine for a database file, in a folder that is made where it is missing."""
    if url.database and url.database != ":memory:":
        Path(url.database).parent.mkdir(parents=True, exist_ok=True)
    own = url.set(drivername="sqlite+drawbar")
    engine = create_engine(own, connect_args={"timeout": BUSY_MS / 1000})
    event.listen(engine, "connect", _prepare)
    return engine


def _prepare(connection: sqlite3.Connection, _record: object) -> None:
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
