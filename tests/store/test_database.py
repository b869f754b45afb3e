"""Opening, migrating and refusing databases."""

from __future__ import annotations

import sqlite3
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine, event, insert, inspect, text
from sqlalchemy.exc import OperationalError

from bot.store.database import DatabaseTrouble, Store, open_store, url_of
from bot.store.migrations import HEAD, KNOWN
from bot.store.migrations.run import config, downgrade, upgrade
from bot.store.tables import PersonRow, Table
from tests.store.logbooks import CHAT, as_told, told


def test_the_migrations_build_what_the_tables_describe(store: Store) -> None:
    with store.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, Table.metadata) == []


def test_the_known_steps_are_those_in_the_folder_and_the_last_is_the_head() -> None:
    script = ScriptDirectory.from_config(config())
    steps = [each.revision for each in script.walk_revisions()]
    assert tuple(reversed(steps)) == KNOWN
    assert script.get_current_head() == HEAD


def test_down_to_nothing_and_up_again_with_a_logbook_in_it(store: Store) -> None:
    told(store, as_told("odo 48211", at=0))
    with store.engine.begin() as connection:
        downgrade(connection, "base")
        assert inspect(connection).get_table_names() == ["alembic_version"]
    with store.engine.begin() as connection:
        upgrade(connection)
        tables = set(inspect(connection).get_table_names())
    assert tables == {"alembic_version", *Table.metadata.tables}
    told(store, as_told("odo 48211", at=0))


def test_a_database_that_is_there_is_opened_with_what_it_holds(store: Store, address: str) -> None:
    told(store, as_told("odo 48211", at=0))
    again = open_store(address)
    with again.look() as session:
        assert session.scalar(text("SELECT chat FROM chats")) == CHAT
    again.close()


def test_several_that_start_at_once_migrate_once(new_address: str) -> None:
    with ThreadPoolExecutor(4) as pool:
        stores = list(pool.map(open_store, [new_address] * 4))
    with stores[0].engine.connect() as connection:
        assert connection.scalar(text("SELECT count(*) FROM alembic_version")) == 1
    for each in stores:
        each.close()


def test_sqlite_writes_ahead_reports_only_what_is_on_the_disk_and_keeps_references_whole(
    tmp_path: Path,
) -> None:
    store = open_store(tmp_path / "new" / "logbook.db")
    with store.look() as session:
        found = {
            name: session.scalar(text(f"PRAGMA {name}"))
            for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        }
    store.close()
    assert found == {
        "journal_mode": "wal",
        "synchronous": 2,
        "foreign_keys": 1,
        "busy_timeout": 30000,
    }


def test_a_file_that_is_no_database_is_told_in_one_sentence_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "logbook.db"
    path.write_bytes(b"Dear diary, today we moved the hives. " * 200)
    before = path.read_bytes()
    with pytest.raises(
        DatabaseTrouble, match=r"can't be opened .*left as it is\. Restore a backup"
    ):
        open_store(path)
    assert path.read_bytes() == before


def test_a_damaged_database_is_told_in_one_sentence_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "logbook.db"
    store = open_store(path)
    for number in range(40):
        told(store, as_told(f"odo {48000 + number}", at=number))
    store.close()
    whole = bytearray(path.read_bytes())
    for offset in range(8192, len(whole) - 4096, 8192):
        whole[offset : offset + 4096] = b"\xa5" * 4096
    path.write_bytes(whole)
    with pytest.raises(DatabaseTrouble, match="left as it is") as raised:
        open_store(path)
    assert "\n" not in str(raised.value)
    assert path.read_bytes() == bytes(whole)


def test_a_database_of_something_else_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "recipes.db"
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE recipes (honey TEXT)")
    with pytest.raises(DatabaseTrouble, match="belongs to something else"):
        open_store(path)


def test_a_database_of_a_newer_drawbar_is_left_alone(store: Store, address: str) -> None:
    with store.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(DatabaseTrouble, match="newer Drawbar"):
        open_store(address)


def test_a_missing_driver_of_postgresql_is_told_by_the_extra_that_has_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "psycopg", None)
    with pytest.raises(DatabaseTrouble, match=r"with its extra `postgres`\.$"):
        url_of("postgresql://ana@localhost/drawbar")


@pytest.mark.parametrize("address", ["oracle+nothing://x", "mailto://", "://"])
def test_an_address_that_cannot_be_opened_says_what_is_wanted(address: str) -> None:
    with pytest.raises(DatabaseTrouble, match="it wants a file name"):
        open_store(address)


def test_a_folder_in_place_of_a_file_is_told_in_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(DatabaseTrouble, match="can't be opened"):
        open_store(tmp_path)


def test_a_server_that_is_not_there_is_told_in_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(DatabaseTrouble, match="See that it can be reached") as raised:
        open_store(f"postgresql://postgres@/none?host={tmp_path}")
    assert "\n" not in str(raised.value)


def test_what_is_not_committed_is_rolled_back(store: Store) -> None:
    with store.work() as session:
        session.execute(text("INSERT INTO people (name) VALUES ('Ana')"))
    with store.look() as session:
        assert session.scalar(text("SELECT count(*) FROM people")) == 0


def test_rows_and_objects_of_a_unit_of_work_are_kept_together_or_not_at_all(store: Store) -> None:
    bea = insert(PersonRow.rows()).values(name="Bea")
    with store.writing() as unit:
        unit.plain.execute(bea)
        unit.session.add(PersonRow(name="Ana"))
        unit.rollback()
        assert unit.session.scalar(text("SELECT count(*) FROM people")) == 0
        unit.plain.execute(bea)
        unit.session.add(PersonRow(name="Cal"))
        unit.commit()
        unit.plain.execute(bea)
    with store.reading() as unit:
        names = unit.plain.scalars(text("SELECT name FROM people ORDER BY name")).all()
    assert names == ["Bea", "Cal"]


@pytest.mark.parametrize("kind", ["sqlite"])
def test_a_writer_takes_its_place_at_once_and_a_reader_takes_none(store: Store) -> None:
    """Other connections stand for other processes, and would rather give up than wait."""

    def impatient(connection: sqlite3.Connection, *_: object) -> None:
        connection.execute("PRAGMA busy_timeout = 1").close()

    event.listen(store.engine, "checkout", impatient)
    count = text("SELECT count(*) FROM people")
    with store.writing() as first:
        assert first.plain.scalar(count) == 0
        with store.reading() as other:
            assert other.plain.scalar(count) == 0
        with store.writing() as second, pytest.raises(OperationalError, match="locked"):
            second.plain.scalar(count)
    with store.writing() as second:
        assert second.plain.scalar(count) == 0


def test_the_metadata_names_every_constraint() -> None:
    engine = create_engine("sqlite://")
    Table.metadata.create_all(engine)
    named = [
        key["name"]
        for table in Table.metadata.tables
        for key in inspect(engine).get_foreign_keys(table)
    ]
    assert named
    assert all(named)
    engine.dispose()
