"""A look at a database that changes nothing, for whoever asks whether it is well.

This file decides what is looked at: whether it is there and can be read and written, whether it
is sound, and which form it has. It neither creates nor migrates, nor does it say what to do.
"""

from __future__ import annotations

import os
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import create_engine, inspect, text
from sqlalchemy.exc import DBAPIError

from bot.store.database import DatabaseTrouble, url_of
from bot.store.migrations import HEAD, KNOWN

CONNECT_SECONDS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Examined:
    """What was found. `folder` holds a SQLite file; `version` is None where there is none yet."""

    shown: str
    folder: Path | None
    version: str | None

    @property
    def steps(self) -> int:
        """Migrations that the next start carries out."""
        return 0 if self.version is None else KNOWN.index(HEAD) - KNOWN.index(self.version)


def examine(address: str | Path) -> Examined:
    """Look at a database; raises DatabaseTrouble, with what is wrong and what to do."""
    url = url_of(address)
    if url.get_backend_name() == "sqlite":
        return _file(Path(url.database or ""))
    shown = url.render_as_string()
    engine = create_engine(url, connect_args={"connect_timeout": CONNECT_SECONDS})
    try:
        with engine.connect() as connection:
            known = inspect(connection).has_table("alembic_version")
            found = text("SELECT version_num FROM alembic_version")
            version = connection.scalar(found) if known else None
    except DBAPIError as error:
        raise DatabaseTrouble(
            f"The database {shown} can't be reached ({_line(error.orig)}). See that the server"
            " runs and lets this user in."
        ) from error
    finally:
        engine.dispose()
    return Examined(shown=shown, folder=None, version=_known(shown, version))


def _file(path: Path) -> Examined:
    folder = path.parent
    while not folder.exists():
        folder = folder.parent
    if not os.access(folder, os.W_OK | os.X_OK):
        raise DatabaseTrouble(
            f"The folder {folder} can't be written to. Give it to the user that runs Drawbar, or"
            " name another with DRAWBAR_DATABASE."
        )
    if not path.exists():
        return Examined(shown=str(path), folder=folder, version=None)
    if path.is_dir():
        raise DatabaseTrouble(f"{path} is a folder. Name a file in it with DRAWBAR_DATABASE.")
    if not os.access(path, os.R_OK | os.W_OK):
        raise DatabaseTrouble(
            f"The database {path} can't be read and written. Give it to the user that runs Drawbar."
        )
    try:
        with sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True) as connection:
            (sound,) = connection.execute("PRAGMA quick_check(1)").fetchone()
            tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
            row = (
                connection.execute("SELECT version_num FROM alembic_version").fetchone()
                if "alembic_version" in tables
                else None
            )
        connection.close()
    except sqlite3.DatabaseError as error:
        raise DatabaseTrouble(_damaged(path, _line(error))) from error
    if sound != "ok":
        raise DatabaseTrouble(_damaged(path, _line(sound)))
    if row is None and tables:
        raise DatabaseTrouble(
            f"{path} is a database of something else. Name another with DRAWBAR_DATABASE."
        )
    return Examined(
        shown=str(path), folder=folder, version=_known(str(path), row[0] if row else None)
    )


def _known(shown: str, version: str | None) -> str | None:
    if version is not None and version not in KNOWN:
        raise DatabaseTrouble(
            f"The database {shown} was written by a newer Drawbar (its form is {version})."
            " Update Drawbar."
        )
    return version


def _damaged(path: Path, what: str) -> str:
    return f"The database {path} is damaged ({what}). Restore a backup: drawbar restore FILE."


def _line(what: object) -> str:
    return next(iter(str(what).strip().splitlines()), "")
