"""Who is let in.

This file decides what becomes of an event before it is read: that of a chat which shares a
logbook goes on, a code that fits lets a chat in, and a stranger gets one sentence and then
silence. Nothing that a stranger texts is kept. It does not know what a message says otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from bot.answers import shared
from bot.answers.answer import Answer
from bot.answers.language import language_of, speaking
from bot.messages import Deleted, Edited, Event, Message, Moved
from bot.store import codes, journal, outbox, sharing
from bot.store.codes import DAY
from bot.store.database import Store
from bot.store.tables import ChatRow, CodeRow, EntryRow, IdentityRow, LogbookRow, MessageRow
from domain.log import Preferences


@dataclass(frozen=True, slots=True)
class Dismissed:
    """An event that goes no further; what its sender is told, past the outbox, if anything."""

    answer: Answer | None = None


class Door:
    """Stands before the conversation. Events of networks that are not `guarded` pass."""

    def __init__(
        self,
        store: Store,
        clock: Callable[[], datetime],
        defaults: Preferences,
        guarded: Collection[str],
        *,
        open_to_all: bool,
    ) -> None:
        self._store = store
        self._clock = clock
        self._defaults = defaults
        self._guarded = frozenset(guarded)
        self._open_to_all = open_to_all

    def meet(self, event: Event) -> Dismissed | None:
        """Look at an event; None where it may go on."""
        with speaking(language_of(self._defaults)):
            return self._look_at(event)

    def _look_at(self, event: Event) -> Dismissed | None:
        if isinstance(event, Moved | Deleted):
            return None
        message = event.message if isinstance(event, Edited) else event
        if message.network not in self._guarded:
            return None
        code = codes.code_in(message.text)
        with self._store.look() as session:
            chat = journal.chat_of(session, message.network, message.chat)
            known = chat is not None and chat.role != journal.OUT
            if code is None and (known or (chat is None and self._open_to_all)):
                return None
            if journal.find(session, message.network, message.chat, message.id) is not None:
                return Dismissed() if code else None
        if code is not None and not isinstance(event, Edited):
            return self._try(message, code, known=known)
        return None if known else self._turn_away(message)

    def _try(self, message: Message, code: str, *, known: bool) -> Dismissed | None:
        """Let a chat in by a code that fits; a wrong one from a known chat is just a text."""
        now = self._clock()
        with self._store.work() as session:
            row, _ = codes.stranger(session, message.network, message.chat, now)
            if not known and row.waits_until is not None and row.waits_until > now:
                session.commit()
                return Dismissed()
            found = codes.take(session, code, now)
            if found is not None:
                try:
                    self._let_in(session, message, found, now)
                except sharing.NotShared:
                    return Dismissed(shared.has_its_own_answer())
                session.commit()
                return Dismissed()
            if known:
                return None
            codes.count_wrong(row, now)
            quiet = row.failures > codes.FREE_TRIES
            session.commit()
        return Dismissed(None if quiet else shared.wrong_code_answer())

    def _turn_away(self, message: Message) -> Dismissed:
        with self._store.work() as session:
            _, new = codes.stranger(session, message.network, message.chat, self._clock())
            session.commit()
        return Dismissed(shared.stranger_answer() if new else None)

    def _let_in(self, session: Session, message: Message, code: CodeRow, now: datetime) -> None:
        """Give a chat its part in a logbook, and welcome it; the code itself is not journalled."""
        book = code.logbook_id or self._first_logbook(session, now)
        chat = journal.chat_of(session, message.network, message.chat)
        if chat is None:
            chat = journal.open_chat_at(
                session, message.network, message.chat, book, code.role, now
            )
        else:
            sharing.join(session, chat, book, sharing.role_of(code.role), commit=False)
        chat.title = message.title or message.name
        codes.forget_stranger(session, message.network, message.chat)
        key = journal.note(session, chat, message, now)
        entries = select(func.count()).where(EntryRow.logbook_id == book)
        preferences = journal.preferences_in(session, chat.id)
        with speaking(language_of(preferences)):
            welcome = shared.welcome_answer(
                preferences, keeps=chat.role == journal.KEEPER, empty=not session.scalar(entries)
            )
        outbox.queue(session, chat.id, welcome, now, key)

    def _first_logbook(self, session: Session, now: datetime) -> int:
        """The owner's: the only one there is, as of a terminal chat before, else a new one."""
        books = session.scalars(select(LogbookRow.id).limit(2)).all()
        if len(books) == 1:
            return books[0]
        return journal.open_logbook(session, self._defaults, now).id

    def knows(self, network: str, author: str) -> bool:
        """Whether someone has texted in a chat that shares a logbook."""
        with self._store.look() as session:
            found = session.scalar(
                select(IdentityRow.id)
                .join(MessageRow, MessageRow.person_id == IdentityRow.person_id)
                .join(ChatRow, ChatRow.id == MessageRow.chat_id)
                .where(
                    IdentityRow.network == network,
                    IdentityRow.identity == author,
                    ChatRow.role != journal.OUT,
                )
                .limit(1)
            )
        return found is not None

    def owners_code(self) -> str | None:
        """A new one-time code for the owner, where no guarded chat was let in yet."""
        if self._open_to_all:
            return None
        with self._store.work() as session:
            let_in = session.scalar(
                select(ChatRow.id)
                .where(ChatRow.network.in_(self._guarded), ChatRow.role != journal.OUT)
                .limit(1)
            )
            if let_in is not None:
                return None
            codes.drop_unused(session)
            code = codes.make(session, None, journal.KEEPER, self._clock(), None)
            session.commit()
        return code


def invite(session: Session, logbook_key: int, role: str, now: datetime) -> str:
    """A code for one more chat on a logbook, good for a day; not yet committed."""
    return codes.make(session, logbook_key, role, now, DAY)
