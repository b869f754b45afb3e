"""The journal of messages, and who and where they came from.

This file decides when a message counts as new (network, chat and id together), what state it
is in, and which chat, logbook and person it belongs to. It does not know what a message says.

States: `waiting` until its effects are committed, then `handled`, or `doubted` while the question
that it raised has no answer; `stuck` once handling it has failed so often that only a change of
the program will help. What is doubted or stuck can be read again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import and_, bindparam, insert, select, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session, aliased, contains_eager

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


@dataclass(frozen=True, slots=True)
class Heard:
    """What is known already of a message that arrives; None of what was never heard of.

    `key` and `state` are its own, where it came before; `author` is the key of who sent it, by
    the `name` that they have here.
    """

    chat: ChatRow | None = None
    book: LogbookRow | None = None
    key: int | None = None
    state: str | None = None
    author: int | None = None
    name: str = ""

    def is_as_told(self, message: Message) -> bool:
        """Whether chat and author are there, and are called what the message calls them."""
        return (
            self.chat is not None
            and self.author is not None
            and self.chat.title == (message.title or self.chat.title)
            and self.name == message.name
        )


# Statements are built once each: building one costs more than running it.
_IS_CHAT = (ChatRow.network == bindparam("network"), ChatRow.chat == bindparam("chat"))
_CHAT = select(ChatRow).where(*_IS_CHAT)
_MESSAGE = (
    select(MessageRow).join(ChatRow).where(*_IS_CHAT, MessageRow.message == bindparam("message"))
)
_HEARD = (
    select(ChatRow, LogbookRow, MessageRow.id, MessageRow.state, PersonRow.id, PersonRow.name)
    .join(LogbookRow, LogbookRow.id == ChatRow.logbook_id)
    .outerjoin(ChatRow.question)
    .outerjoin(
        MessageRow,
        and_(MessageRow.chat_id == ChatRow.id, MessageRow.message == bindparam("message")),
    )
    .outerjoin(
        IdentityRow,
        and_(IdentityRow.network == ChatRow.network, IdentityRow.identity == bindparam("author")),
    )
    .outerjoin(PersonRow, PersonRow.id == IdentityRow.person_id)
    .options(contains_eager(ChatRow.question))
    .where(*_IS_CHAT)
)


def hear(session: Session, message: Message) -> Heard:
    """What is known of a message when it arrives."""
    found = session.execute(
        _HEARD,
        {
            "network": message.network,
            "chat": message.chat,
            "message": message.id,
            "author": message.author,
        },
    ).one_or_none()
    return Heard() if found is None else Heard(*found)


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
    heard: Heard | None = None,
) -> int | None:
    """Journal a message and commit it; its key, None where it was there already.

    A chat that is heard for the first time gets a logbook of its own, with `defaults`. `version`
    tells what the message is a version of; of itself, where it names no other. `heard` is what
    was known of it a moment ago.
    """
    try:
        if heard is None or not heard.is_as_told(message):
            heard = _introduced(session, message, defaults, received_at)
        key = _write(session, heard, message, received_at)
        if version is not None:
            of = key if version.of is None else version.of
            session.add(
                VersionRow(
                    message_id=key, of=of, act=version.act, said_at=version.said_at, ask=version.ask
                )
            )
        session.commit()
    except IntegrityError:
        # Another worker was first with this message (or this chat), and sees to the effects; or
        # the chat was deleted since it was heard.
        session.rollback()
        if find(session, message.network, message.chat, message.id) is not None:
            return None
        return record(session, message, defaults, received_at, version)
    return key


def note(session: Session, chat: ChatRow, message: Message, received_at: datetime) -> int:
    """Note that a message came and had its effect, without its text; not yet committed."""
    heard = Heard(chat=chat, author=_person(session, message).id)
    return _write(session, heard, replace(message, text=""), received_at, HANDLED)


def _introduced(session: Session, message: Message, defaults: Preferences, now: datetime) -> Heard:
    """The chat and the author of a message, as it calls them; new ones, where there are none."""
    chat = chat_of(session, message.network, message.chat)
    if chat is None:
        chat = open_chat(session, message.network, message.chat, defaults, now)
    chat.title = message.title or chat.title
    heard = Heard(chat=chat, author=_person(session, message).id)
    session.flush()
    return heard


def _write(
    session: Session, heard: Heard, message: Message, received_at: datetime, state: str = WAITING
) -> int:
    if heard.chat is None or heard.author is None:
        raise ValueError("a message has a chat and an author")
    key: int = session.execute(
        _INSERT,
        {
            "chat_id": heard.chat.id,
            "message": message.id,
            "person_id": heard.author,
            "sent_at": message.sent_at,
            "received_at": received_at,
            "text": message.text,
            "reply_to": message.reply_to,
            "thread": message.thread,
            "photo": message.photo.reference if message.photo else None,
            "sure": message.photo is None or message.photo.sure,
            "private": message.private,
            "state": state,
        },
    ).scalar_one()
    return key


_INSERT = insert(MessageRow.rows()).returning(MessageRow.rows().c.id)


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
        language=defaults.language,
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
        if not person.named and person.name != message.name:
            rename(session, person, message.name)
        return person
    person = PersonRow(name=message.name)
    session.add(person)
    session.flush()
    session.add(IdentityRow(network=message.network, identity=message.author, person_id=person.id))
    return person


def rename(session: Session, person: PersonRow, name: str) -> None:
    """Call a person by another name from now on, in every logbook that they text to."""
    person.name = name
    books = select(ChatRow.logbook_id).join(MessageRow).where(MessageRow.person_id == person.id)
    moved_on = update(LogbookRow).where(LogbookRow.id.in_(books))
    session.execute(moved_on.values(revision=LogbookRow.revision + 1))


@dataclass(frozen=True, slots=True)
class Claimed:
    """A waiting message with its author, chat and logbook, as long as the transaction lasts.

    `version` says of what it is a version, where it is one.
    """

    message: MessageRow
    chat: ChatRow
    book: LogbookRow
    author: PersonRow
    version: VersionRow | None


def claim(session: Session, key: int, but: Sequence[int] = (), wait: bool = True) -> Claimed | None:
    """The chat's oldest waiting message up to this one, and the sole right to change its logbook.

    None where nothing waits (another worker has handled it), or where `wait` is false and
    another worker is at that logbook now. Messages in `but` are passed over.
    """
    lock = _LOCKED if wait else _LOCKED_OR_SKIPPED
    locked = session.execute(lock, {"message": key}).scalar_one_or_none()
    if locked is None:
        return None
    # Read once the logbook is locked: until then another worker may be changing all of it.
    found = session.execute(_OLDEST, {"up_to": key, "but": list(but) or [0]}).one_or_none()
    if found is None:
        return None
    claimed = Claimed(*found)
    # The chat may have joined another logbook while this one was waited for.
    return claimed if claimed.book.id == locked else claim(session, key, but, wait)


_BOOKS, _CHATS, _MESSAGES = LogbookRow.rows(), ChatRow.rows(), MessageRow.rows()
_BOOK_OF_MESSAGE = (
    select(_BOOKS.c.id)
    .join(_CHATS, _CHATS.c.logbook_id == _BOOKS.c.id)
    .join(_MESSAGES, _MESSAGES.c.chat_id == _CHATS.c.id)
    .where(_MESSAGES.c.id == bindparam("message"))
)
_LOCKED = _BOOK_OF_MESSAGE.with_for_update(of=_BOOKS)
_LOCKED_OR_SKIPPED = _BOOK_OF_MESSAGE.with_for_update(of=_BOOKS, skip_locked=True)
_SAME = aliased(MessageRow)
_OLDEST = (
    select(MessageRow, ChatRow, LogbookRow, PersonRow, VersionRow)
    .join(_SAME, _SAME.chat_id == MessageRow.chat_id)
    .join(ChatRow, ChatRow.id == MessageRow.chat_id)
    .join(LogbookRow, LogbookRow.id == ChatRow.logbook_id)
    .join(PersonRow, PersonRow.id == MessageRow.person_id)
    .outerjoin(VersionRow, VersionRow.message_id == MessageRow.id)
    .outerjoin(ChatRow.question)
    .options(contains_eager(ChatRow.question))
    .where(
        _SAME.id == bindparam("up_to"),
        MessageRow.state == WAITING,
        MessageRow.id <= bindparam("up_to"),
        MessageRow.id.not_in(bindparam("but", expanding=True)),
    )
    .order_by(MessageRow.id)
    .limit(1)
)


def settle(session: Session, claimed: Claimed) -> None:
    """A message has had its effects, and its logbook has moved on."""
    if claimed.message.state == WAITING:
        session.execute(_HANDLED, {"key": claimed.message.id})
    session.execute(_MOVED_ON, {"key": claimed.book.id})


_HANDLED = update(_MESSAGES).where(_MESSAGES.c.id == bindparam("key")).values(state=HANDLED)
_MOVED_ON = (
    update(_BOOKS).where(_BOOKS.c.id == bindparam("key")).values(revision=_BOOKS.c.revision + 1)
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
        units=_UNITS[logbook.units],
        currency=logbook.currency,
        time_zone=logbook.time_zone,
        language=logbook.language,
    )


def preferences_in(session: Session, chat_key: int) -> Preferences:
    """How a chat's logbook wants its figures."""
    chat = session.get_one(ChatRow, chat_key)
    return preferences_of(session.get_one(LogbookRow, chat.logbook_id))


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
    chat.question = OpenQuestionRow(
        message_id=message.id, ask=ask_to_record(ask), entry_id=entry_key, held=held
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
    row = chat.question
    if row is not None:
        chat.question = None
        session.flush()
    return row
