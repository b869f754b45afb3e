"""The journal of messages, and who and where they came from.

This file decides when a message counts as new (network, chat and id together), what state it
is in, and which chat, logbook and person it belongs to. It does not know what a message says,
nor what a chat is asked.

States: `waiting` until its effects are committed, then `handled`, or `doubted` while the question
that it raised has no answer; `stuck` once handling it has failed so often that only a change of
the program will help. What is doubted or stuck can be read again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Select, and_, bindparam, insert, select, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from bot.messages import Message
from bot.store.database import Unit
from bot.store.seen import (
    BOOKS,
    CHATS,
    MESSAGES,
    OF_CHAT,
    OF_MESSAGE,
    PEOPLE,
    QUESTIONS,
    Chat,
    Journalled,
    Logbook,
    Plain,
    chat_in,
)
from bot.store.tables import (
    ChatRow,
    IdentityRow,
    LogbookRow,
    MessageRow,
    PersonRow,
    VersionRow,
)
from domain.log import Preferences

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

    chat: Chat | None = None
    key: int | None = None
    state: str | None = None
    author: int | None = None
    name: str = ""

    def source_of(self, message: Message) -> tuple[int, int] | None:
        """The keys of chat and author, if they are there by what the message calls them."""
        if self.chat is None or self.author is None or self.name != message.name:
            return None
        as_titled = self.chat.title == (message.title or self.chat.title)
        return (self.chat.id, self.author) if as_titled else None


# Statements are built once each: building one costs more than running it.
_IS_CHAT = (ChatRow.network == bindparam("network"), ChatRow.chat == bindparam("chat"))
_CHAT = select(ChatRow).where(*_IS_CHAT)
_MESSAGE = (
    select(MessageRow).join(ChatRow).where(*_IS_CHAT, MessageRow.message == bindparam("message"))
)
_IDENTITIES, _VERSIONS = IdentityRow.rows(), VersionRow.rows()
_HEARD = (
    select(MESSAGES.c.id, MESSAGES.c.state, PEOPLE.c.id, PEOPLE.c.name, *OF_CHAT)
    .join_from(CHATS, BOOKS, BOOKS.c.id == CHATS.c.logbook_id)
    .outerjoin(QUESTIONS, QUESTIONS.c.chat_id == CHATS.c.id)
    .outerjoin(
        MESSAGES,
        and_(MESSAGES.c.chat_id == CHATS.c.id, MESSAGES.c.message == bindparam("message")),
    )
    .outerjoin(
        _IDENTITIES,
        and_(
            _IDENTITIES.c.network == CHATS.c.network,
            _IDENTITIES.c.identity == bindparam("author"),
        ),
    )
    .outerjoin(PEOPLE, PEOPLE.c.id == _IDENTITIES.c.person_id)
    .where(CHATS.c.network == bindparam("network"), CHATS.c.chat == bindparam("chat"))
)


def hear(plain: Plain, message: Message) -> Heard:
    """What is known of a message when it arrives."""
    found = plain.execute(
        _HEARD,
        {
            "network": message.network,
            "chat": message.chat,
            "message": message.id,
            "author": message.author,
        },
    ).one_or_none()
    if found is None:
        return Heard()
    key, state, author, name, *chat = found
    return Heard(chat_in(chat), key, state, author, name)


def chat_of(session: Session, network: str, chat: str) -> ChatRow | None:
    """The chat, where it has said anything that was kept before."""
    return session.scalar(_CHAT, {"network": network, "chat": chat})


def find(session: Session, network: str, chat: str, message: str) -> MessageRow | None:
    """The message, where it was journalled before."""
    return session.scalar(_MESSAGE, {"network": network, "chat": chat, "message": message})


def record(
    unit: Unit,
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
        source = heard.source_of(message) if heard else None
        if source is None:
            source = _introduced(unit.session, message, defaults, received_at)
        key = _write(unit.plain, source, message, received_at)
        if version is not None:
            of = key if version.of is None else version.of
            unit.session.add(
                VersionRow(
                    message_id=key, of=of, act=version.act, said_at=version.said_at, ask=version.ask
                )
            )
        unit.commit()
    except IntegrityError:
        # Another worker was first with this message (or this chat), and sees to the effects; or
        # the chat was deleted since it was heard.
        unit.rollback()
        if find(unit.session, message.network, message.chat, message.id) is not None:
            return None
        return record(unit, message, defaults, received_at, version)
    return key


def note(session: Session, chat: ChatRow, message: Message, received_at: datetime) -> int:
    """Note that a message came and had its effect, without its text; not yet committed."""
    author = _person(session, message)
    source = chat.id, author.id
    return _write(session, source, replace(message, text=""), received_at, HANDLED)


def _introduced(
    session: Session, message: Message, defaults: Preferences, now: datetime
) -> tuple[int, int]:
    """The keys of the chat and the author of a message, as it calls them; new ones if need be."""
    chat = chat_of(session, message.network, message.chat)
    if chat is None:
        chat = open_chat(session, message.network, message.chat, defaults, now)
    chat.title = message.title or chat.title
    author = _person(session, message)
    session.flush()
    return chat.id, author.id


def _write(
    plain: Plain,
    source: tuple[int, int],
    message: Message,
    received_at: datetime,
    state: str = WAITING,
) -> int:
    chat_key, author_key = source
    key: int = plain.execute(
        _INSERT,
        {
            "chat_id": chat_key,
            "message": message.id,
            "person_id": author_key,
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


_INSERT = insert(MESSAGES).returning(MESSAGES.c.id)


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
class Found:
    """A message with its chat, as its transaction sees them; whether it is a version."""

    message: Journalled
    chat: Chat
    is_version: bool


def claim(plain: Connection, key: int, but: Sequence[int] = (), wait: bool = True) -> Found | None:
    """The chat's oldest waiting message up to this one, and the sole right to change its logbook.

    None where nothing waits (another worker has handled it), or where `wait` is false and
    another worker is at that logbook now. Messages in `but` are passed over.
    """
    if plain.dialect.name == "sqlite":
        # A transaction that writes has the whole database to itself.
        return _oldest(plain, key, but)
    lock = _LOCKED if wait else _LOCKED_OR_SKIPPED
    locked = plain.execute(lock, {"message": key}).scalar_one_or_none()
    if locked is None:
        return None
    # Read once the logbook is locked: until then another worker may be changing all of it.
    found = _oldest(plain, key, but)
    if found is None or found.chat.logbook.id == locked:
        return found
    # The chat joined another logbook while this one was waited for.
    return claim(plain, key, but, wait)


def find_by_key(plain: Plain, key: int) -> Found:
    """A message that is there, whatever its state; raises LookupError where it is not."""
    found = _found(plain, _BY_KEY, {"message": key})
    if found is None:
        raise LookupError(f"there is no message {key}")
    return found


def _oldest(plain: Plain, up_to: int, but: Sequence[int]) -> Found | None:
    if but:
        return _found(plain, _OLDEST_BUT, {"up_to": up_to, "but": but})
    return _found(plain, _OLDEST, {"up_to": up_to})


def _found(plain: Plain, query: Select[Any], values: dict[str, Any]) -> Found | None:
    found = plain.execute(query, values).one_or_none()
    if found is None:
        return None
    version, *rest = found
    of_message = len(OF_MESSAGE)
    return Found(Journalled(*rest[:of_message]), chat_in(rest[of_message:]), version is not None)


_BOOK_OF_MESSAGE = (
    select(BOOKS.c.id)
    .join(CHATS, CHATS.c.logbook_id == BOOKS.c.id)
    .join(MESSAGES, MESSAGES.c.chat_id == CHATS.c.id)
    .where(MESSAGES.c.id == bindparam("message"))
)
_LOCKED = _BOOK_OF_MESSAGE.with_for_update(of=BOOKS)
_LOCKED_OR_SKIPPED = _BOOK_OF_MESSAGE.with_for_update(of=BOOKS, skip_locked=True)
_FOUND = (
    select(_VERSIONS.c.message_id, *OF_MESSAGE, *OF_CHAT)
    .join_from(MESSAGES, CHATS, CHATS.c.id == MESSAGES.c.chat_id)
    .join(BOOKS, BOOKS.c.id == CHATS.c.logbook_id)
    .join(PEOPLE, PEOPLE.c.id == MESSAGES.c.person_id)
    .outerjoin(_VERSIONS, _VERSIONS.c.message_id == MESSAGES.c.id)
    .outerjoin(QUESTIONS, QUESTIONS.c.chat_id == CHATS.c.id)
)
_BY_KEY = _FOUND.where(MESSAGES.c.id == bindparam("message"))
_SAME = MESSAGES.alias()
_OLDEST = (
    _FOUND.join(_SAME, _SAME.c.chat_id == CHATS.c.id)
    .where(
        _SAME.c.id == bindparam("up_to"),
        MESSAGES.c.state == WAITING,
        MESSAGES.c.id <= bindparam("up_to"),
    )
    .order_by(MESSAGES.c.id)
    .limit(1)
)
_OLDEST_BUT = _OLDEST.where(MESSAGES.c.id.not_in(bindparam("but", expanding=True)))


def drop_text(plain: Plain, message: Journalled) -> None:
    """Leave nothing of what a message says: it is talk, and was taken for something else."""
    plain.execute(_NO_TEXT, {"key": message.id})
    message.text = ""


def settle(plain: Plain, found: Found) -> None:
    """A message has had its effects, and its logbook has moved on."""
    message = found.message
    if message.state == WAITING:
        message.state = HANDLED
    plain.execute(_SETTLED, {"key": message.id, "its_state": message.state})
    plain.execute(_MOVED_ON, {"key": found.chat.logbook.id})


_IS_MESSAGE = MESSAGES.c.id == bindparam("key")
_NO_TEXT = update(MESSAGES).where(_IS_MESSAGE).values(text="")
_SETTLED = update(MESSAGES).where(_IS_MESSAGE).values(state=bindparam("its_state"))
_MOVED_ON = (
    update(BOOKS).where(BOOKS.c.id == bindparam("key")).values(revision=BOOKS.c.revision + 1)
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


def preferences_of(logbook: LogbookRow | Logbook) -> Preferences:
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
