"""A whole database from SQLite to PostgreSQL and back, row by row."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy import text

from bot.store.database import Store, open_store
from bot.store.move import NotMoved, move
from tests.store.logbooks import START, as_told, queue_due, standing, told
from tests.store.season import a_season, every_row


@pytest.fixture
def other(new_address: str) -> Iterator[Store]:
    """An empty database of the same kind."""
    store = open_store(new_address)
    yield store
    store.close()


@pytest.fixture
def file(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """An empty SQLite database."""
    store = open_store(tmp_path_factory.mktemp("file") / "logbook.db")
    yield store
    store.close()


def test_a_database_arrives_whole_and_lives_on(file: Store, other: Store) -> None:
    a_season(file)
    queue_due(file, START)
    moved = move(file, other)
    assert every_row(other) == every_row(file)
    assert moved.total == sum(len(rows) for rows in every_row(file).values())
    assert moved.rows["changes"] > moved.rows["entries"]
    assert standing(other) == standing(file)
    told(other, as_told("odo 48400", at=90, author="cleo"))
    assert len(standing(other)) == len(standing(file)) + 1


def test_there_and_back_again_is_the_same(file: Store, store: Store, other: Store) -> None:
    a_season(store)
    move(store, file)
    move(file, other)
    assert every_row(other) == every_row(store)


def test_a_target_with_rows_is_refused_and_left_as_it_is(file: Store, other: Store) -> None:
    a_season(file)
    told(other, as_told("odo 48211"))
    before = every_row(other)
    with pytest.raises(NotMoved, match=r"holds \d+ rows; nothing was moved"):
        move(file, other)
    assert every_row(other) == before


def test_an_empty_database_can_be_moved_and_begun(file: Store, other: Store) -> None:
    assert move(file, other).total == 0
    told(other, as_told("odo 48211"))
    assert len(standing(other)) == 1


def test_a_row_that_comes_out_otherwise_undoes_the_move(file: Store, other: Store) -> None:
    a_season(file)
    with other.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.execute(
                text(
                    "CREATE TRIGGER spoil AFTER INSERT ON people BEGIN"
                    " UPDATE people SET name = 'Nobody' WHERE id = new.id; END"
                )
            )
        else:
            connection.execute(
                text(
                    "CREATE FUNCTION spoil() RETURNS trigger LANGUAGE plpgsql AS"
                    " $$ BEGIN new.name := 'Nobody'; RETURN new; END $$"
                )
            )
            connection.execute(
                text(
                    "CREATE TRIGGER spoil BEFORE INSERT ON people"
                    " FOR EACH ROW EXECUTE FUNCTION spoil()"
                )
            )
    with pytest.raises(NotMoved, match="Row 1 of people came out otherwise"):
        move(file, other)
    assert all(rows == [] for rows in every_row(other).values())
