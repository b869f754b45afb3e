"""The journal of messages, and who and where they came from.

This file decides when a message counts as new (network, chat and id together), what state it
is in, and which chat, logbook and person it belongs to. It does not know what a message says.

States: `waiting` until its effects are committed, then `handled`, or `doubted` while the question
that it raised has no answer; `stuck` once handling it has failed so often that only a change of
the program will help. What is doubted or stuck can be read again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from bot.messages import Message
from bot.store.tables import (
    ChatRow,
    IdentityRow,
    LogbookRow,
    MessageRow,
    OpenQuestionRow,
    PersonRow,
    VersionRow,
)
from domain.log import Preferences
from domain.records import ask_from_record, ask_to_record
from domain.verdicts import Ask

WAITING, HANDLED, DOUBTED, STUCK = "waiting", "handled", "doubted", "stuck"
KEEPER, READER, OUT = "keeper", "reader", "out"
MOST_FAILURES = 5


@dataclass(frozen=True, slots=True)
class Version:
    """How a message is a version of another (`of`; None: of itself), and when that was said.

    `ask` is the question that it answers, as plain data.
    """

    act: str
    said_at: datetime
    of: int | None = None
    ask: dict[str, Any] | None = None


# Statements are built once each: building one costs more than running it.
_CHAT = select(ChatRow).where(
    ChatRow.network == bindparam("network"), ChatRow.chat == bindparam("chat")
)
_MESSAGE = (
    select(MessageRow)
    .join(ChatRow)
    .where(
        ChatRow.network == bindparam("network"),
        ChatRow.chat == bindparam("chat"),
        MessageRow.message == bindparam("message"),
    )
)


def chat_of(session: Session, network: str, chat: str) -> ChatRow | None:
    """The chat, where it has said anything that was kept before."""
    return session.scalar(_CHAT, {"network": network, "chat": chat})


def find(session: Session, network: str, chat: str, message: str) -> MessageRow | None:
    """The message, where it was journalled before."""
    return session.scalar(_MESSAGE, {"network": network, "chat": chat, "message": message})


def record(
    session: Session,
    message: Message,
    defaults: Preferences,
    received_at: datetime,
    version: Version | None = None,
) -> MessageRow | None:
    """Journal a message and commit it; None where it was there already.

    A chat that is heard for the first time gets a logbook of its own, with `defaults`. `version`
    tells what the message is a version of; of itself, where it names no other.
    """
    try:
        chat = chat_of(session, message.network, message.chat)
        if chat is None:
            chat = open_chat(session, message.network, message.chat, defaults, received_at)
        row = _row(session, chat, message, received_at)
        if version is not None:
            session.flush()
            of = row.id if version.of is None else version.of
            session.add(
                VersionRow(
                    message_id=row.id,
                    of=of,
                    act=version.act,
                    said_at=version.said_at,
                    ask=version.ask,
                )
            )
        session.commit()
    except IntegrityError:
        # Another worker was first with this message (or this chat); it sees to the effects.
        session.rollback()
        if find(session, message.network, message.chat, message.id) is not None:
            return None
        return record(session, message, defaults, received_at, version)
    return row


def note(session: Session, chat: ChatRow, message: Message, received_at: datetime) -> MessageRow:
    """Note that a message came and had its effect, without its text; not yet committed."""
    row = _row(session, chat, message, received_at)
    row.text, row.state = "", HANDLED
    session.flush()
    return row


def _row(session: Session, chat: ChatRow, message: Message, received_at: datetime) -> MessageRow:
    chat.title = message.title or chat.title
    row = MessageRow(
        chat_id=chat.id,
        message=message.id,
        person_id=_person(session, message).id,
        sent_at=message.sent_at,
        received_at=received_at,
        text=message.text,
        reply_to=message.reply_to,
        thread=message.thread,
        photo=message.photo.reference if message.photo else None,
        sure=message.photo is None or message.photo.sure,
        private=message.private,
        state=WAITING,
    )
    session.add(row)
    return row


def open_chat(
    session: Session, network: str, chat: str, defaults: Preferences, now: datetime
) -> ChatRow:
    """A new chat with a new logbook, which it keeps."""
    book = open_logbook(session, defaults, now)
    return open_chat_at(session, network, chat, book.id, KEEPER, now)


def open_chat_at(
    session: Session, network: str, chat: str, logbook_key: int, role: str, now: datetime
) -> ChatRow:
    """A new chat that keeps or reads a logbook which is there already."""
    row = ChatRow(network=network, chat=chat, logbook_id=logbook_key, role=role, created_at=now)
    session.add(row)
    session.flush()
    return row


def open_logbook(session: Session, defaults: Preferences, now: datetime) -> LogbookRow:
    """A new logbook that no chat has yet."""
    book = LogbookRow(
        units=defaults.units,
        currency=defaults.currency,
        time_zone=defaults.time_zone,
        created_at=now,
    )
    session.add(book)
    session.flush()
    return book


def _person(session: Session, message: Message) -> PersonRow:
    identity = session.scalar(
        select(IdentityRow).where(
            IdentityRow.network == message.network, IdentityRow.identity == message.author
        )
    )
    if identity is not None:
        person = session.get_one(PersonRow, identity.person_id)
        if not person.named:
            person.name = message.name
        return person
    person = PersonRow(name=message.name)
    session.add(person)
    session.flush()
    session.add(IdentityRow(network=message.network, identity=message.author, person_id=person.id))
    return person


@dataclass(frozen=True, slots=True)
class Claimed:
    """A waiting message with its chat and logbook, for as long as the transaction lasts.

    `version` says of what it is a version, where it is one.
    """

    message: MessageRow
    chat: ChatRow
    book: LogbookRow
    version: VersionRow | None


def claim(session: Session, key: int, but: Sequence[int] = (), wait: bool = True) -> Claimed | None:
    """The chat's oldest waiting message up to this one, and the sole right to change its logbook.

    None where nothing waits (another worker has handled it), or where `wait` is false and
    another worker is at that logbook now. Messages in `but` are passed over.
    """
    chat = session.scalars(_CHAT_OF_MESSAGE, {"message": key}).one()
    locked = _LOCKED if wait else _LOCKED_OR_SKIPPED
    book = session.scalar(locked, {"book": chat.logbook_id})
    if book is None:
        return None
    found = session.execute(
        _OLDEST, {"chat": chat.id, "up_to": key, "but": list(but) or [0]}
    ).one_or_none()
    return None if found is None else Claimed(found[0], chat, book, found[1])


_CHAT_OF_MESSAGE = select(ChatRow).join(MessageRow).where(MessageRow.id == bindparam("message"))
_BOOK = select(LogbookRow).where(LogbookRow.id == bindparam("book"))
_LOCKED = _BOOK.with_for_update()
_LOCKED_OR_SKIPPED = _BOOK.with_for_update(skip_locked=True)
_OLDEST = (
    select(MessageRow, VersionRow)
    .outerjoin(VersionRow, VersionRow.message_id == MessageRow.id)
    .where(
        MessageRow.state == WAITING,
        MessageRow.chat_id == bindparam("chat"),
        MessageRow.id <= bindparam("up_to"),
        MessageRow.id.not_in(bindparam("but", expanding=True)),
    )
    .order_by(MessageRow.id)
    .limit(1)
)


def waiting(session: Session) -> tuple[int, ...]:
    """The keys of the messages that were journalled and not handled, oldest first."""
    found = select(MessageRow.id).where(MessageRow.state == WAITING).order_by(MessageRow.id)
    return tuple(session.scalars(found))


def unread(session: Session) -> tuple[int, ...]:
    """The keys of the messages of which nothing could be made, oldest first."""
    found = select(MessageRow.id).where(MessageRow.state.in_((DOUBTED, STUCK)))
    return tuple(session.scalars(found.order_by(MessageRow.id)))


def count_failure(session: Session, key: int) -> MessageRow:
    """Note that handling a message failed; after MOST_FAILURES it is stuck."""
    row = session.get_one(MessageRow, key)
    row.failures += 1
    if row.failures >= MOST_FAILURES:
        row.state = STUCK
    return row


def preferences_of(logbook: LogbookRow) -> Preferences:
    """How a logbook wants its figures."""
    return Preferences(
        units=_UNITS[logbook.units], currency=logbook.currency, time_zone=logbook.time_zone
    )


def set_preferences(
    session: Session, chat: ChatRow, wanted: Preferences, names: Iterable[str]
) -> None:
    """Change how a chat's logbook wants its figures, in the preferences named. Commits."""
    logbook = session.get_one(LogbookRow, chat.logbook_id)
    for name in names:
        setattr(logbook, name, getattr(wanted, name))
    logbook.revision += 1
    session.commit()


_UNITS: dict[str, Any] = {name: name for name in ("us", "metric", "imperial")}


def open_question(session: Session, chat: ChatRow) -> OpenQuestionRow | None:
    """The question that a chat has not answered yet."""
    return session.get(OpenQuestionRow, chat.id)


def asked(row: OpenQuestionRow) -> Ask:
    """The question that a row keeps."""
    return ask_from_record(row.ask)


def put_question(
    session: Session,
    chat: ChatRow,
    message: MessageRow,
    ask: Ask,
    entry_key: int | None = None,
    *,
    held: bool = False,
) -> None:
    """Open a question in a chat, in place of the one that was open and stays unanswered.

    One that is `held` is put to the chat at the next stop.
    """
    _drop_question(session, chat)
    session.add(
        OpenQuestionRow(
            chat_id=chat.id,
            message_id=message.id,
            ask=ask_to_record(ask),
            entry_id=entry_key,
            held=held,
        )
    )
    session.flush()


def close_question(session: Session, chat: ChatRow) -> None:
    """Close the question that a chat has open, if any: its message is in doubt no more."""
    row = _drop_question(session, chat)
    if row is not None:
        doubted = session.get_one(MessageRow, row.message_id)
        if doubted.state == DOUBTED:
            doubted.state = HANDLED


def _drop_question(session: Session, chat: ChatRow) -> OpenQuestionRow | None:
    row = open_question(session, chat)
    if row is not None:
        session.delete(row)
        session.flush()
    return row
