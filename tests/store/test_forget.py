"""What is deleted on request is gone: the rows, and on SQLite the file's bytes."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import select, text

from bot.store import sharing
from bot.store.database import Store
from bot.store.forget import Forgotten, forget_chat, forget_person, overwrite, scrub
from bot.store.tables import Table
from domain.entries import Fill, Note, Odometer, Weighing
from domain.quantities import Quantity
from tests.store.logbooks import as_told, mi, standing, told
from tests.store.season import a_season


def forget(store: Store, *, person: str | None = None, chat: str | None = None) -> Forgotten:
    with store.work() as session:
        overwrite(session)
        if person is not None:
            done = forget_person(session, sharing.person_named(session, person))
        else:
            done = forget_chat(session, sharing.chat_named(session, chat or ""))
        session.commit()
    scrub(store)
    return done


def counts(store: Store) -> dict[str, int]:
    with store.look() as session:
        return {
            name: len(session.execute(select(table)).all())
            for name, table in Table.metadata.tables.items()
        }


def texts(store: Store) -> str:
    """Everything that the tables hold, as one text."""
    with store.look() as session:
        return "\n".join(
            str(row)
            for table in Table.metadata.tables.values()
            for row in session.execute(select(table))
        )


def test_with_the_only_chat_everything_goes(store: Store) -> None:
    a_season(store)
    before = counts(store)
    done = forget(store, chat="barn")
    assert set(counts(store).values()) == {0}
    assert done.rows == {name: count for name, count in before.items() if count}
    told(store, as_told("odo 48211"))
    assert standing(store) == [Odometer(odometer=mi(48211))]


def test_another_chat_and_its_people_are_left_as_they_are(store: Store) -> None:
    a_season(store)
    told(store, as_told("odo 9000", chat="orchard"), as_told("odo 9001", at=1, chat="orchard"))
    forget(store, chat="barn")
    assert standing(store, "orchard") == [Odometer(odometer=mi(miles)) for miles in (9000, 9001)]
    assert counts(store)["people"] == 1
    with store.look() as session, pytest.raises(sharing.NotShared):
        sharing.chat_named(session, "barn")


def test_a_chat_leaves_a_shared_logbook_to_the_other(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 48211", at=1, chat="orchard"))
    with store.work() as session:
        orchard = sharing.chat_named(session, "orchard")
        book = sharing.chat_named(session, "barn").logbook_id
        sharing.join(session, orchard, book, "keeper")
    forget(store, chat="barn")
    assert standing(store, "orchard") == [Odometer(odometer=mi(48211))]


def test_a_persons_messages_go_and_what_they_corrected_stands_as_it_was(store: Store) -> None:
    a_season(store)
    assert Fill(volume=Quantity(31.4, "gal"), odometer=mi(48100), full=True) in standing(store)
    forget(store, person="Ana")
    kinds = {type(each) for each in standing(store)}
    assert not kinds & {Weighing, Note}
    assert Fill(volume=Quantity(34.1, "gal"), odometer=mi(48100), full=True) in standing(store)
    assert "Ana" not in texts(store)
    assert "clover" not in texts(store)
    assert "Ben" in texts(store)
    told(store, as_told("odo 48400", at=90, author="ben"))


def test_what_a_person_took_back_stays_taken_back(store: Store) -> None:
    a_season(store)
    forget(store, person="Ben")
    assert "hives" not in texts(store)
    assert {type(each) for each in standing(store)} >= {Weighing, Note}


# Where a server keeps its bytes is its own matter.
@pytest.mark.parametrize("kind", ["sqlite"])
def test_the_bytes_are_gone_from_the_file_too(store: Store, address: str, tmp_path: Path) -> None:
    a_season(store)
    told(store, as_told("odo 9000", author="zebulon", chat="orchard"))
    path = Path(address.removeprefix("sqlite:///"))

    def held(word: bytes) -> bool:
        return any(word in each.read_bytes() for each in path.parent.glob("logbook.db*"))

    assert held(b"clover is in bloom")
    forget(store, person="Ana")
    assert not held(b"clover")
    assert not held(b"Ana")
    assert held(b"Ben")
    forget(store, chat="orchard")
    assert not held(b"ebulon")
    with store.look() as session:
        assert session.scalar(text("PRAGMA integrity_check")) == "ok"


def test_no_table_is_left_out() -> None:
    """A table that refers to no row that can go would keep what should be forgotten."""
    reached = {"logbooks", "people", "chats"}
    while True:
        more = {
            table.name
            for table in Table.metadata.tables.values()
            if any(key.column.table.name in reached for key in table.foreign_keys)
        } - reached
        if not more:
            break
        reached |= more
    # A stranger has no logbook; the row goes by the chat's name.
    assert reached | {"strangers"} == set(Table.metadata.tables)
