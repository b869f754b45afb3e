"""The versions of a message: edits of it, its deletion, and the answers to a doubt that it raised.

This file decides which version of a message counts (the one that was said last, whenever it
arrives), and what each was read as. It does not know what reading it anew changes.

A version is journalled as a message of its own, in the queue with all others; its row in
`versions` says of which message it is, and how: `edited`, `deleted`, or `answered` where it
settled a doubt and its entries are those of the doubtful message. One that was taken back by
'undo' is `undone` and counts no more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.messages import Message
from bot.store import journal, logbook, standing
from bot.store.database import Unit
from bot.store.seen import Journalled
from bot.store.tables import EntryRow, MessageRow, VersionRow
from domain.entries import Entry
from domain.log import Preferences
from domain.records import ask_from_record, ask_to_record, entry_from_record, entry_to_record
from domain.revising import Line
from domain.verdicts import Ask

EDITED, DELETED, ANSWERED, UNDONE = "edited", "deleted", "answered", "undone"


@dataclass(frozen=True, slots=True)
class Read:
    """One entry as a version was read, and the row that was kept for it (None: none yet)."""

    entry: Entry
    key: int | None


def name_of(message: str, revision: str) -> str:
    """Under which id a version is journalled: that of its message, and its own."""
    return f"{message} {revision}"


def record(
    unit: Unit,
    original: MessageRow,
    message: Message,
    act: str,
    said_at: datetime,
    received_at: datetime,
    defaults: Preferences,
) -> int | None:
    """Journal a version of a message and commit; its key, None where it was there already."""
    known = unit.session.get(VersionRow, original.id)
    of, ask = (original.id, None) if known is None else (known.of, known.ask)
    version = journal.Version(act, said_at, of, ask)
    return journal.record(unit, message, defaults, received_at, version)


def is_overtaken(session: Session, version: VersionRow) -> bool:
    """Whether a version that was said later has been handled already."""
    later = (
        select(VersionRow.message_id)
        .join(MessageRow, MessageRow.id == VersionRow.message_id)
        .where(
            VersionRow.of == version.of,
            VersionRow.message_id != version.message_id,
            VersionRow.act != UNDONE,
            VersionRow.said_at > version.said_at,
            MessageRow.state != journal.WAITING,
        )
    )
    return session.scalar(later.limit(1)) is not None


def current(session: Session, of: int) -> VersionRow | None:
    """The version that counts, where a message has been read anew."""
    return session.scalar(
        select(VersionRow)
        .where(VersionRow.of == of, VersionRow.act != UNDONE, VersionRow.reading.is_not(None))
        .order_by(VersionRow.said_at.desc(), VersionRow.message_id.desc())
        .limit(1)
    )


def lines(session: Session, of: int) -> tuple[Line, ...]:
    """The entries of a message by the version that counts, and what stands of each."""
    version = current(session, of)
    if version is None or version.reading is None:
        read = _as_first_kept(session, of)
    else:
        read = [Read(entry_from_record(record), key) for record, key in version.reading]
    standing = logbook.standing_of(session, [each.key for each in read if each.key is not None])
    return tuple(
        Line(each.entry, None if each.key is None else standing.get(each.key)) for each in read
    )


def family(session: Session, of: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """A message and its versions, by their keys, and the rows that were kept for what they state.

    What else these messages brought about are corrections of other messages' entries.
    """
    rows = session.scalars(select(VersionRow).where(VersionRow.of == of)).all()
    readings = [reading for row in rows for reading in row.reading or ()]
    messages = dict.fromkeys((of, *(row.message_id for row in rows)))
    return tuple(messages), tuple(key for _, key in readings if key is not None)


def _as_first_kept(session: Session, of: int) -> list[Read]:
    keys = session.scalars(
        select(EntryRow.id)
        .where(EntryRow.message_id == of, EntryRow.replaces.is_(None))
        .order_by(EntryRow.ordinal)
    ).all()
    known = standing.entries(session, keys)
    return [Read(known[key].entry, key) for key in keys]


def note(session: Session, version: VersionRow, reading: Sequence[Read]) -> None:
    """Remember what a version was read as."""
    version.reading = [[entry_to_record(each.entry), each.key] for each in reading]
    session.flush()


def note_answer(
    session: Session, message: Journalled, doubtful: int, ask: Ask, reading: Sequence[Read]
) -> None:
    """Remember that a message settled the doubt about another.

    One that was edited before it was ever journalled is a version of itself until then.
    """
    known = session.get(VersionRow, doubtful)
    if doubtful == message.id and known is not None:
        note(session, known, reading)
        return
    version = session.get(VersionRow, message.id)
    if version is None:
        version = VersionRow(message_id=message.id, said_at=message.sent_at)
        session.add(version)
    version.of = doubtful if known is None else known.of
    version.act = ANSWERED
    version.ask = ask_to_record(ask)
    note(session, version, reading)


def ask_of(version: VersionRow) -> Ask | None:
    """The question that a version answers, where it does."""
    return None if version.ask is None else ask_from_record(version.ask)


def undo(session: Session, message_key: int) -> None:
    """A message's changes were taken back: as a version it counts no more."""
    known = session.get(VersionRow, message_key)
    if known is not None:
        known.act = UNDONE
