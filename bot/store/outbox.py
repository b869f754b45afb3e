"""Answers that wait to be sent.

This file decides how an answer lies in the database, which ones are due, and that a chat's
answers leave in the order in which they were queued. It does not know how they are sent.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, func, insert, select
from sqlalchemy.orm import Session

from bot.answers.answer import Answer, Row
from bot.answers.pictures import picture_from_record, picture_to_record
from bot.report.value import report_from_record, report_to_record
from bot.store.journal import KEEPER
from bot.store.tables import ChatRow, LogbookRow, MessageRow, OutboxRow

QUEUED, SENT, UNCERTAIN, PARKED = "queued", "sent", "uncertain", "parked"


@dataclass(frozen=True, slots=True)
class Parcel:
    """An answer to send: its key in the outbox, where it goes, and how often it was tried.

    `doubtful` counts the attempts after which it may have arrived; `language` is the logbook's.
    """

    key: int
    chat_key: int
    network: str
    chat: str
    answer: Answer
    attempts: int
    doubtful: int
    due_at: datetime
    reply_to: str | None
    thread: str | None
    language: str


def answer_to_record(answer: Answer) -> dict[str, Any]:
    """An answer as plain data."""
    picture = None if answer.picture is None else picture_to_record(answer.picture)
    document = None if answer.document is None else report_to_record(answer.document)
    words = asdict(replace(answer, picture=None, document=None))
    return {**words, "picture": picture, "document": document}


def answer_from_record(record: dict[str, Any]) -> Answer:
    """The answer that plain data describes."""
    picture, document = record.get("picture"), record.get("document")
    return Answer(
        headline=record["headline"],
        rows=tuple(Row(**row) for row in record["rows"]),
        notes=tuple(record["notes"]),
        choices=tuple(record["choices"]),
        quiet=record.get("quiet", False),
        urgent=record.get("urgent", False),
        picture=None if picture is None else picture_from_record(picture),
        document=None if document is None else report_from_record(document),
    )


def queue(
    session: Session,
    chat_key: int,
    answer: Answer,
    now: datetime,
    message_key: int | None = None,
    about: int | None = None,
) -> None:
    """Put an answer in a chat's queue, in reply to a message where there is one.

    `about` is the parked answer that a notice tells of.
    """
    session.execute(
        _INSERT,
        {
            "chat_id": chat_key,
            "message_id": message_key,
            "body": answer_to_record(answer),
            "state": QUEUED,
            "created_at": now,
            "due_at": now,
            "about": about,
        },
    )


_INSERT = insert(OutboxRow.rows())


def heads(session: Session) -> tuple[Parcel, ...]:
    """The first waiting answer of each chat, oldest first; what stands behind it waits for it."""
    first = (
        select(func.min(OutboxRow.id))
        .where(OutboxRow.state == QUEUED)
        .group_by(OutboxRow.chat_id)
        .scalar_subquery()
    )
    rows = session.execute(
        select(OutboxRow, ChatRow.network, ChatRow.chat, LogbookRow.language, MessageRow)
        .join(ChatRow, ChatRow.id == OutboxRow.chat_id)
        .join(LogbookRow, LogbookRow.id == ChatRow.logbook_id)
        .outerjoin(MessageRow, MessageRow.id == OutboxRow.message_id)
        .where(OutboxRow.id.in_(first))
        .order_by(OutboxRow.id)
    )
    return tuple(_parcel(*row) for row in rows)


def _parcel(
    row: OutboxRow, network: str, chat: str, language: str, message: MessageRow | None
) -> Parcel:
    return Parcel(
        key=row.id,
        chat_key=row.chat_id,
        network=network,
        chat=chat,
        answer=answer_from_record(row.body),
        attempts=row.attempts,
        doubtful=row.doubtful,
        due_at=row.due_at,
        reply_to=None if message is None else _first_id(message),
        thread=None if message is None else message.thread,
        language=language,
    )


def _first_id(message: MessageRow) -> str:
    """The network's id of a message; a version's name begins with it (see versions.py)."""
    return message.message.partition(" ")[0]


def waiting(session: Session) -> tuple[int, datetime | None]:
    """How many answers wait to be sent, and since when the oldest of them has been due."""
    length, oldest = session.execute(
        select(func.count(), func.min(OutboxRow.due_at)).where(OutboxRow.state == QUEUED)
    ).one()
    return length, oldest


def is_waiting(session: Session, key: int) -> bool:
    """Whether an answer is still to be sent; another worker may have sent it meanwhile."""
    return session.scalar(select(OutboxRow.state).where(OutboxRow.id == key)) == QUEUED


def mark_sent(session: Session, key: int, reference: str = "") -> None:
    """The network has it, under its own `reference` where it gave one. Commits."""
    session.get_one(OutboxRow, key).reference = reference or None
    _settle(session, key, SENT, None)


def mark_uncertain(session: Session, key: int, reason: str) -> None:
    """It may have arrived, and is not tried again. Commits."""
    _settle(session, key, UNCERTAIN, reason)


def answered_by(session: Session, chat_key: int, reference: str) -> OutboxRow | None:
    """The answer that the network knows by a reference."""
    return session.scalar(_ANSWERED, {"chat": chat_key, "reference": reference})


_ANSWERED = (
    select(OutboxRow)
    .where(OutboxRow.chat_id == bindparam("chat"), OutboxRow.reference == bindparam("reference"))
    .limit(1)
)


def park(session: Session, key: int, reason: str) -> None:
    """It can't be delivered, and is not tried again. Commits."""
    _settle(session, key, PARKED, reason)


def keeper_to_tell(session: Session, key: int) -> int | None:
    """The chat to tell that an answer can't be delivered: another that keeps the logbook.

    None where there is no other, where the answer is such a notice itself, and where the answer
    before it in that chat was parked too: one notice is enough.
    """
    row = session.get_one(OutboxRow, key)
    before = session.scalar(
        select(OutboxRow.state)
        .where(OutboxRow.chat_id == row.chat_id, OutboxRow.id < key)
        .order_by(OutboxRow.id.desc())
        .limit(1)
    )
    if row.about is not None or before == PARKED:
        return None
    return session.scalar(
        select(ChatRow.id)
        .where(
            ChatRow.logbook_id == session.get_one(ChatRow, row.chat_id).logbook_id,
            ChatRow.id != row.chat_id,
            ChatRow.role == KEEPER,
        )
        .order_by(ChatRow.id)
        .limit(1)
    )


def put_off(
    session: Session, key: int, reason: str, due_at: datetime, *, doubtful: bool = False
) -> None:
    """Try again then; `doubtful` where it may have arrived all the same. Commits."""
    row = session.get_one(OutboxRow, key)
    row.attempts += 1
    row.doubtful += doubtful
    row.reason = reason
    row.due_at = due_at
    session.commit()


def _settle(session: Session, key: int, state: str, reason: str | None) -> None:
    row = session.get_one(OutboxRow, key)
    row.attempts += 1
    row.state = state
    row.reason = reason
    session.commit()
