"""Copies of a database: taken while it is in use, checked, and put back.

This file decides what counts as a good copy (every row of one moment, whole by SQLite's own
checks), that nothing is overwritten unasked, and that what is replaced is kept beside. A copy
of a PostgreSQL database is its own tools' work (`pg_dump`); that is said in a sentence. It
does not know what the rows mean.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy.engine import make_url

from bot.store.database import DatabaseTrouble, open_store
from bot.store.migrations import KNOWN
from bot.store.sqlite import BUSY_MS

PAGES_AT_ONCE = 1024
"""Pages copied before other work of this process gets a turn: 4 MB of SQLite's usual pages."""

SIDE_FILES = ("-wal", "-shm", "-journal")


class BackupTrouble(DatabaseTrouble):
    """A copy that was not taken, or not put back; the sentence says why, and nothing changed."""


class WrittenByNewer(BackupTrouble):
    """A database in a form that only a newer Drawbar knows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A checked copy: its file, the rows of each table, and what was kept of what it replaced."""

    path: Path
    rows: Mapping[str, int]
    kept: Path | None = None

    @property
    def total(self) -> int:
        """Rows in all."""
        return sum(self.rows.values())


def sqlite_file(address: str | Path) -> Path:
    """The file of a SQLite address; raises BackupTrouble for another kind of database."""
    text = os.fspath(address)
    if "://" not in text:
        return Path(text).expanduser()
    url = make_url(text)
    if url.get_backend_name() != "sqlite" or not url.database:
        raise BackupTrouble(
            "A PostgreSQL database is backed up by pg_dump and restored by pg_restore;"
            " deploy/README.md shows how."
        )
    return Path(url.database)


def back_up(address: str | Path, target: Path) -> Copy:
    """Copy a database that may be in use to a new file, and check the copy.

    The copy holds the database of one moment; writers go on meanwhile. Raises BackupTrouble
    where the file is there already, or the copy isn't whole; then no file is left behind.
    """
    source = sqlite_file(address)
    if not source.is_file():
        raise BackupTrouble(f"There is no database {source}.")
    if target.exists():
        raise BackupTrouble(f"{target} is there already; nothing was written. Name another file.")
    partial = target.with_name(f".{target.name}.partial-{os.getpid()}")
    try:
        with _trouble(f"{source} can't be copied to {target}"):
            rows = _copy(source, partial)
            _as_one_file(partial)
            _check(partial, rows)
            _to_disk(partial)
            # A link, unlike a rename, fails where another took the name meanwhile.
            os.link(partial, target)
            _to_disk(target.parent)
    finally:
        for each in (partial, *_side_files(partial)):
            each.unlink(missing_ok=True)
    return Copy(path=target, rows=rows)


def restore(source: Path, address: str | Path, now: datetime, *, replace: bool = False) -> Copy:
    """Make a database hold what a copy holds; what it replaces is kept beside it.

    A database that has rows is replaced only if asked to. One that can't be read, as it is
    damaged or of a newer form, is moved aside as it is. Raises BackupTrouble where the copy is
    no whole database of Drawbar's, or the target has rows.
    """
    target = sqlite_file(address)
    if not source.is_file():
        raise BackupTrouble(f"There is no backup {source}.")
    if target.exists() and target.samefile(source):
        raise BackupTrouble(f"{source} is the database itself.")
    with _trouble(f"{source} can't be restored"):
        rows = _counts_of(source)
        _check(source, rows)
    state, readable = _state_of(target)
    if state and not replace:
        raise BackupTrouble(
            f"The database {target} {state}; it has been left as it is."
            " With --replace it is kept beside and replaced."
        )
    kept: Path | None = None
    if state:
        kept = target.with_name(f"{target.name}.before-restore-{now:%Y%m%dT%H%M%S}")
        if readable:
            back_up(target, kept)
        else:
            _move_aside(target, kept)
    target.parent.mkdir(parents=True, exist_ok=True)
    with _trouble(f"{source} can't be restored to {target}"):
        _copy(source, target)
        _check(target, rows)
    # An older copy is brought to today's form, and writes ahead again.
    open_store(target).close()
    return Copy(path=target, rows=rows, kept=kept)


def _state_of(path: Path) -> tuple[str, bool]:
    """What a database is or holds, '' where it holds nothing, and whether it can be read."""
    if not path.exists():
        return "", True
    if not _is_whole(path):
        return "is damaged", False
    try:
        held = sum(_counts_of(path).values())
    except WrittenByNewer:
        return "was written by a newer Drawbar", False
    return (f"holds {held:,} rows" if held else ""), True


def _copy(source: Path, target: Path) -> dict[str, int]:
    """Copy every page of one moment; the rows of each table at that moment."""
    _begin(target)
    with (
        closing(_open(source, "ro")) as reading,
        closing(_open(target, "rwc")) as writing,
    ):
        # The counts open the moment, and the copy is made inside it.
        reading.execute("BEGIN")
        rows = _counts(reading)
        reading.backup(writing, pages=PAGES_AT_ONCE)
        reading.rollback()
    return rows


def _begin(path: Path) -> None:
    """Begin a file that is not there: for its owner's eyes alone, and its folder's owner's own.

    Root puts back what a service's user must be able to write to. SQLite, too, hands the files
    that it makes as root to whoever has the database.
    """
    if path.exists():
        return
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        folder = path.parent.stat()
        os.chown(path, folder.st_uid, folder.st_gid)


def _as_one_file(path: Path) -> None:
    """Let a copy be complete without the files that write-ahead keeps beside it."""
    with closing(_open(path, "rw")) as connection:
        connection.execute("PRAGMA journal_mode = DELETE").close()


def _open(path: Path, mode: str) -> sqlite3.Connection:
    uri = f"{path.resolve().as_uri()}?mode={mode}"
    return sqlite3.connect(uri, uri=True, timeout=BUSY_MS / 1000, isolation_level=None)


def _counts_of(path: Path) -> dict[str, int]:
    with closing(_open(path, "ro")) as connection:
        return _counts(connection)


def _counts(connection: sqlite3.Connection) -> dict[str, int]:
    """Rows by table; raises BackupTrouble where it is no database of Drawbar's."""
    names = [
        name
        for (name,) in connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
            " ORDER BY name"
        )
    ]
    if not names:
        return {}
    version = (
        "alembic_version" in names
        and connection.execute("SELECT version_num FROM alembic_version").fetchone()
    )
    if not version:
        raise BackupTrouble("It holds no logbook of Drawbar's.")
    if version[0] not in KNOWN:
        raise WrittenByNewer("It was written by a newer Drawbar.")
    return {
        name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]  # noqa: S608
        for name in names
        if name != "alembic_version"
    }


def _check(path: Path, rows: Mapping[str, int]) -> None:
    """Raise BackupTrouble unless a copy is whole and has those rows."""
    with closing(_open(path, "ro")) as connection:
        (found,) = connection.execute("PRAGMA integrity_check(1)").fetchone()
        if found != "ok":
            raise BackupTrouble(f"{path.name} is damaged ({found.splitlines()[0]}).")
        if connection.execute("PRAGMA foreign_key_check").fetchone():
            raise BackupTrouble(f"{path.name} has rows that refer to nothing.")
        if not rows:
            raise BackupTrouble(f"{path.name} holds no logbook.")
        if _counts(connection) != rows:
            raise BackupTrouble(f"{path.name} lacks rows.")


def _is_whole(path: Path) -> bool:
    try:
        with closing(_open(path, "ro")) as connection:
            return bool(connection.execute("PRAGMA integrity_check(1)").fetchone() == ("ok",))
    except sqlite3.DatabaseError:
        return False


def _move_aside(path: Path, kept: Path) -> None:
    path.rename(kept)
    for each in _side_files(path):
        if each.exists():
            each.rename(kept.with_name(kept.name + each.name.removeprefix(path.name)))


def _side_files(path: Path) -> tuple[Path, ...]:
    return tuple(path.with_name(path.name + end) for end in SIDE_FILES)


def _to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def _trouble(what: str) -> Iterator[None]:
    """Tell what SQLite or the disk says in one sentence."""
    try:
        yield
    except (sqlite3.Error, OSError) as error:
        raise BackupTrouble(f"{what} ({error}); nothing was changed.") from error
