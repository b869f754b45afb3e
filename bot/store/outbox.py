"""Answers that wait to be sent.

This file decides how an answer lies in the database, which ones are due, that a chat's answers
leave in the order in which they were queued, and that a chat in which somebody waits for a reply
has its turn before those that nobody asked (a hundred thousand summaries may wait at once). It
does not know how they are sent.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import Select, bindparam, func, insert, select
from sqlalchemy.orm import Session, aliased

from bot.answers.answer import Answer, Row
from bot.answers.pictures import picture_from_record, picture_to_record
from bot.report.value import report_from_record, report_to_record
from bot.store.journal import KEEPER
from bot.store.seen import Plain
from bot.store.tables import ChatRow, LogbookRow, MessageRow, OutboxRow

QUEUED, SENT, UNCERTAIN, PARKED = "queued", "sent", "uncertain", "parked"

LOOKED_AT = 100
"""Turns that are looked at in one go: enough that some are left when other workers hold theirs."""


@dataclass(frozen=True, slots=True)
class Turn:
    """The answer whose turn it is in a chat, by their keys."""

    key: int
    chat_key: int


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
    plain: Plain,
    chat_key: int,
    answer: Answer,
    now: datetime,
    message_key: int | None = None,
    about: int | None = None,
) -> None:
    """Put an answer in a chat's queue, in reply to a message where there is one.

    `about` is the parked answer that a notice tells of.
    """
    values = {"message_id": message_key, "about": about}
    plain.execute(_INSERT, {**_waiting(answer, now), "chat_id": chat_key, **values})


def queue_all(
    session: Session, answers: Iterable[tuple[Answer, Sequence[int]]], now: datetime
) -> None:
    """Put answers that nobody asked for in the queues of chats, each in several."""
    rows = [
        {**waiting, "chat_id": chat_key, "message_id": None, "about": None}
        for answer, chat_keys in answers
        for waiting in (_waiting(answer, now),)
        for chat_key in chat_keys
    ]
    if rows:
        session.execute(_INSERT, rows)


def _waiting(answer: Answer, now: datetime) -> dict[str, object]:
    body = answer_to_record(answer)
    return {"body": body, "state": QUEUED, "created_at": now, "due_at": now}


_INSERT = insert(OutboxRow.rows())


def turns(session: Session, networks: Collection[str], now: datetime) -> tuple[Turn, ...]:
    """The first waiting answer of each chat where it is due; what stands behind it waits for it.

    Chats in which a message waits for its reply come first, and LOOKED_AT of them at the most.
    """
    values = {"networks": list(networks), "now": now}
    found = [Turn(key, chat) for key, chat in session.execute(_ANSWERING, values)]
    if len(found) < LOOKED_AT:
        seen = {each.chat_key for each in found}
        others = (Turn(key, chat) for key, chat in session.execute(_UNASKED, values))
        found += [each for each in others if each.chat_key not in seen]
    return tuple(found[:LOOKED_AT])


_FIRST, _BEFORE, _REPLY = aliased(OutboxRow), aliased(OutboxRow), aliased(OutboxRow)


def _due() -> Select[int, int]:
    """The keys of some waiting answers that are due, and of their chats."""
    return (
        select(_FIRST.id, _FIRST.chat_id)
        .join(ChatRow, ChatRow.id == _FIRST.chat_id)
        .where(
            _FIRST.state == QUEUED,
            _FIRST.due_at <= bindparam("now"),
            ChatRow.network.in_(bindparam("networks", expanding=True)),
        )
        .limit(LOOKED_AT)
    )


_ANSWERING = (
    _due()
    .where(
        _FIRST.id.in_(
            select(
                select(func.min(_BEFORE.id))
                .where(_BEFORE.state == QUEUED, _BEFORE.chat_id == _REPLY.chat_id)
                .correlate(_REPLY)
                .scalar_subquery()
            ).where(_REPLY.state == QUEUED, _REPLY.message_id.is_not(None))
        )
    )
    .order_by(_FIRST.id)
)
_UNASKED = (
    _due()
    .where(
        _FIRST.message_id.is_(None),
        ~select(_BEFORE.id)
        .where(_BEFORE.state == QUEUED, _BEFORE.chat_id == _FIRST.chat_id, _BEFORE.id < _FIRST.id)
        .exists(),
    )
    # No message has a reply here: said all the same, so that PostgreSQL takes the index in which
    # such answers stand together, and not every answer ever sent, to have them in order.
    .order_by(_FIRST.message_id, _FIRST.id)
)


def next_due(session: Session, networks: Collection[str], now: datetime) -> datetime | None:
    """When the next of the answers that are not due yet is."""
    return session.scalar(
        select(func.min(OutboxRow.due_at))
        .join(ChatRow, ChatRow.id == OutboxRow.chat_id)
        .where(
            OutboxRow.state == QUEUED, OutboxRow.due_at > now, ChatRow.network.in_(list(networks))
        )
    )


def parcel(session: Session, key: int) -> Parcel | None:
    """An answer, ready to be sent; None where it no longer waits."""
    row = session.execute(_PARCEL, {"key": key}).one_or_none()
    return None if row is None else _parcel(*row)


_PARCEL = (
    select(OutboxRow, ChatRow.network, ChatRow.chat, LogbookRow.language, MessageRow)
    .join(ChatRow, ChatRow.id == OutboxRow.chat_id)
    .join(LogbookRow, LogbookRow.id == ChatRow.logbook_id)
    .outerjoin(MessageRow, MessageRow.id == OutboxRow.message_id)
    .where(OutboxRow.id == bindparam("key"), OutboxRow.state == QUEUED)
)


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
