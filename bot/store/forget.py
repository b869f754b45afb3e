"""Data of a chat or of a person, really deleted.

This file decides what goes with them (their messages, everything those brought about, the
answers that were sent to them), what becomes of other people's entries that they changed
(corrected ones stand again as they were, those taken back stay so), and that the bytes go
too: SQLite overwrites what it frees and is rewritten, PostgreSQL's tables are rewritten. It
does not reach backups, nor what a network keeps of a chat.

Any table that refers to a row that goes loses its rows likewise, but for the exceptions that
stand here; so a table that is added later is covered.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from itertools import islice

from sqlalchemy import Column, Table, delete, func, insert, select, text, update
from sqlalchemy.orm import Session

from bot.store import codes
from bot.store.database import Store
from bot.store.logbook import WITHDRAWN
from bot.store.tables import (
    ChangeRow,
    ChatRow,
    EntryRow,
    LogbookRow,
    MessageRow,
    OutboxRow,
    PersonRow,
)
from bot.store.tables import Table as Base

AT_ONCE = 500
"""Keys in one statement; SQLite's older limit is 999."""

KEPT_APART = {("entries", "replaces"), ("entries", "withdrawn_by")}
"""References whose rows outlive what they refer to: other people's entries."""


@dataclass(slots=True)
class Forgotten:
    """How many rows went, by table."""

    rows: dict[str, int] = field(default_factory=dict)

    @property
    def total(self) -> int:
        """Rows in all."""
        return sum(self.rows.values())


def forget_chat(session: Session, chat: ChatRow) -> Forgotten:
    """Delete a chat, its messages and what they brought about; not yet committed.

    With a logbook's last chat goes the logbook, and with a person's last message the person.
    """
    people = _keys(
        session.scalars(select(MessageRow.person_id).where(MessageRow.chat_id == chat.id))
    )
    book = chat.logbook_id
    shared = session.scalar(
        select(func.count()).where(ChatRow.logbook_id == book, ChatRow.id != chat.id)
    )
    done = Forgotten()
    messages = _keys(session.scalars(select(MessageRow.id).where(MessageRow.chat_id == chat.id)))
    _forget_messages(session, messages, done)
    codes.forget_stranger(session, chat.network, chat.chat)
    _delete(session, ChatRow.rows(), {chat.id}, done)
    if not shared:
        _delete(session, LogbookRow.rows(), {book}, done)
    else:
        _moved_on(session, {book})
    left = {each for each in people if not _has_messages(session, each)}
    _delete(session, PersonRow.rows(), left, done)
    return done


def forget_person(session: Session, person: PersonRow) -> Forgotten:
    """Delete a person, their messages and what those brought about; not yet committed.

    What was sent in the chats where they texted goes as well: it may quote them.
    """
    mine = MessageRow.person_id == person.id
    messages = _keys(session.scalars(select(MessageRow.id).where(mine)))
    chats = _keys(session.scalars(select(MessageRow.chat_id).where(mine)))
    books = _keys(session.scalars(select(ChatRow.logbook_id).where(ChatRow.id.in_(chats))))
    done = Forgotten()
    _forget_messages(session, messages, done)
    sent = _keys(
        session.scalars(
            select(OutboxRow.id).where(OutboxRow.chat_id.in_(chats), OutboxRow.state != "queued")
        )
    )
    _delete(session, OutboxRow.rows(), sent, done)
    _delete(session, PersonRow.rows(), {person.id}, done)
    _moved_on(session, books)
    return done


def scrub(store: Store) -> None:
    """Rewrite the database without the bytes of rows that are gone; call after the commit.

    Waits for other work to pause; on PostgreSQL each table is locked while it is rewritten.
    """
    if store.engine.dialect.name == "sqlite":
        # On the driver's own connection: rewriting the file is no part of any transaction.
        with closing(store.engine.raw_connection()) as raw, closing(raw.cursor()) as cursor:
            cursor.execute("VACUUM")
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        return
    names = ", ".join(f'"{table.name}"' for table in Base.metadata.sorted_tables)
    with store.engine.execution_options(isolation_level="AUTOCOMMIT").connect() as connection:
        connection.execute(text(f"VACUUM FULL {names}"))


def overwrite(session: Session) -> None:
    """Let SQLite overwrite what this session frees; PostgreSQL needs nothing."""
    connection = session.connection()
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("PRAGMA secure_delete = ON").close()


def _forget_messages(session: Session, messages: set[int], done: Forgotten) -> None:
    entries = {
        key
        for some in _some(messages)
        for key in session.scalars(select(EntryRow.id).where(EntryRow.message_id.in_(some)))
    }
    _let_stand(session, messages, entries)
    _delete(session, MessageRow.rows(), messages, done)


def _let_stand(session: Session, messages: set[int], entries: set[int]) -> None:
    """Free other messages' entries from those that go."""
    corrected = {
        key
        for some in _some(entries)
        for key in session.scalars(
            select(EntryRow.replaces).where(EntryRow.id.in_(some), EntryRow.withdrawn_by.is_(None))
        )
        if key is not None
    }
    for some in _some(messages):
        rows = session.scalars(select(EntryRow).where(EntryRow.withdrawn_by.in_(some))).all()
        for row in rows:
            if row.id in entries:
                continue
            # An entry that is withdrawn by its own message is gone for good.
            row.withdrawn_by = None if row.id in corrected else row.message_id
            if row.withdrawn_by is not None:
                session.execute(
                    insert(ChangeRow).values(
                        message_id=row.message_id, entry_id=row.id, act=WITHDRAWN
                    )
                )
    for some in _some(entries):
        # An entry that amended one of theirs stays, without the words that it took over.
        session.execute(
            update(EntryRow).where(EntryRow.replaces.in_(some)).values(replaces=None, words=[])
        )
    session.flush()


def _delete(session: Session, table: Table, keys: set[int], done: Forgotten) -> None:
    """Delete rows by their keys, and first every row that refers to them."""
    if not keys:
        return
    for referring, column in _references(table):
        if (referring.name, column.name) in KEPT_APART:
            continue
        key = _key(referring)
        found = {
            each
            for some in _some(keys)
            for each in session.scalars(select(key).where(column.in_(some)))
        }
        if len(referring.primary_key.columns) == 1:
            _delete(session, referring, found, done)
        else:
            _drop(session, referring, column, keys, done)
    _drop(session, table, _key(table), keys, done)


def _drop(
    session: Session, table: Table, column: Column[int], keys: set[int], done: Forgotten
) -> None:
    for some in _some(keys):
        gone = session.execute(delete(table).where(column.in_(some)))
        done.rows[table.name] = done.rows.get(table.name, 0) + gone.rowcount  # type: ignore[attr-defined]
    session.expire_all()


def _references(table: Table) -> Iterator[tuple[Table, Column[int]]]:
    for other in Base.metadata.sorted_tables:
        for each in other.foreign_keys:
            if each.column.table is table:
                yield other, each.parent


def _key(table: Table) -> Column[int]:
    return next(iter(table.primary_key.columns))


def _has_messages(session: Session, person: int) -> bool:
    found = session.scalar(select(MessageRow.id).where(MessageRow.person_id == person).limit(1))
    return found is not None


def _moved_on(session: Session, books: Iterable[int]) -> None:
    """What is known of a logbook has changed."""
    session.execute(
        update(LogbookRow)
        .where(LogbookRow.id.in_(list(books)))
        .values(revision=LogbookRow.revision + 1)
    )


def _keys(found: Iterable[int]) -> set[int]:
    return set(found)


def _some(keys: Iterable[int]) -> Iterator[list[int]]:
    """The keys, so many at once as one statement takes."""
    rest = iter(sorted(keys))
    while some := list(islice(rest, AT_ONCE)):
        yield some
