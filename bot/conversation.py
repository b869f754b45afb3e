"""The path of one message, from the network's hand to the queued reply.

This file decides the order: read, and stay still where people talk among themselves; journal
before anything else; then in one transaction keep, compute, answer, queue the reply and mark
the message handled, or nothing of it. A chat's messages are handled in the order in which they
were journalled, whichever worker does it. It does not know how words are read, what a message
does to the logbook, what answers say, nor how they are sent.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from typing import assert_never

from bot.acts import Desk, act
from bot.answers import asking
from bot.answers.answer import Answer
from bot.answers.language import Language, language_of, speaking
from bot.knowing import Known, known, nothing_known
from bot.messages import Deleted, Edited, Event, Message, Moved, Photo
from bot.revising import revise
from bot.store import journal, outbox, sharing, versions
from bot.store.database import TROUBLE, Store, Unit
from bot.store.journal import Found
from bot.store.seen import Chat, Journalled
from bot.store.shelf import Book, Shelf
from bot.store.tables import MessageRow, VersionRow
from domain.context import Context
from domain.log import Preferences
from domain.pictured import of_photo
from domain.verdicts import Ask, Silent, Verdict

Reader = Callable[[str, Context], Verdict]

logger = logging.getLogger(__name__)


class Conversation:
    """Takes messages in and queues replies; synchronous, one message at a time a thread."""

    def __init__(
        self, store: Store, reader: Reader, clock: Callable[[], datetime], defaults: Preferences
    ) -> None:
        self._store = store
        self._reader = reader
        self._clock = clock
        self._defaults = defaults
        self._shelf = Shelf()

    def take(self, event: Event) -> bool:
        """Take through whatever a network hands over; whether it was for Drawbar and is new."""
        match event:
            case Message():
                return self.receive(event)
            case Edited():
                return self.edit(event)
            case Deleted():
                return self.delete(event)
            case Moved():
                return self.follow(event)
            case _:
                assert_never(event)

    def receive(self, message: Message, edited_at: datetime | None = None) -> bool:
        """Take a message through; whether it was meant for Drawbar and is new.

        Raises NotHandled where handling fails; the message is kept for another try.
        """
        with self._store.reading() as unit:
            heard = journal.hear(unit.plain, message)
            if heard.key is not None:
                unit.rollback()
                return self._finish(unit, heard.key, heard.state)
            knows = self._known(unit, heard.chat, message)
            unit.rollback()
            verdict = self._read(message.text, knows.context, sure_of(message.photo))
            if isinstance(verdict, Silent):
                return False
            version = None if edited_at is None else journal.Version(versions.EDITED, edited_at)
            now = self._clock()
            key = journal.record(unit, message, self._defaults, now, version, heard)
            if key is None:
                return False
            self._handle(unit, key, (knows, verdict))
            return True

    def was_taken(self, message: Message) -> bool:
        """Whether a message is in the journal."""
        with self._store.look() as session:
            return journal.find(session, message.network, message.chat, message.id) is not None

    def language_in(self, network: str, chat_id: str) -> Language:
        """The language of a chat's logbook; that of new ones, where it has none."""
        with self._store.look() as session:
            chat = journal.chat_of(session, network, chat_id)
            wants = journal.preferences_in(session, chat.id) if chat else self._defaults
        return language_of(wants)

    @property
    def language(self) -> Language:
        """The language of new logbooks."""
        return language_of(self._defaults)

    def is_for_log(self, message: Message) -> bool:
        """Whether a message would be taken for Drawbar by a chat that knows nothing."""
        context = nothing_known(message.sent_at, self._defaults).context
        return not isinstance(self._read(message.text, context, sure_of(message.photo)), Silent)

    def edit(self, edited: Edited) -> bool:
        """Take an edit through; that of a message which was never journalled is a new message."""
        message = edited.message
        with self._store.look() as session:
            found = journal.find(session, message.network, message.chat, message.id)
        if found is None and self.receive(message, edited.at):
            return True
        name = versions.name_of(message.id, edited.id)
        return self._revise(replace(message, id=name), message.id, versions.EDITED, edited.at)

    def delete(self, deleted: Deleted) -> bool:
        """Take a deletion through; that of a message which was never journalled is nothing."""
        message = Message(
            network=deleted.network,
            chat=deleted.chat,
            id=versions.name_of(deleted.id, versions.DELETED),
            author=deleted.author,
            name=deleted.name,
            sent_at=deleted.at,
            text="",
        )
        return self._revise(message, deleted.id, versions.DELETED, deleted.at)

    def follow(self, moved: Moved) -> bool:
        """Let a chat that the network knows by another id keep its logbook."""
        with self._store.work() as session:
            sharing.follow(session, moved.network, moved.chat, moved.to)
        return True

    def _revise(self, message: Message, original_id: str, act: str, at: datetime) -> bool:
        with self._store.writing() as unit:
            original = journal.find(unit.session, message.network, message.chat, original_id)
            if original is None:
                return False
            key = versions.record(unit, original, message, act, at, self._clock(), self._defaults)
            before = journal.find(unit.session, message.network, message.chat, message.id)
            unit.rollback()
            if key is None:
                return before is not None and self._finish(unit, before.id, before.state)
            self._handle(unit, key)
            return True

    def _finish(self, unit: Unit, key: int, state: str | None) -> bool:
        """See to a message that came before, in case the worker that took it is gone."""
        if state == journal.WAITING:
            self._handle(unit, key)
        return False

    def resume(self, wait: bool = True) -> int:
        """Handle what was journalled and not handled before; how many messages that were.

        One that fails again does not keep the others waiting; its failure is logged. Without
        `wait`, what another worker is at is left to it.
        """
        with self._store.look() as session:
            keys = journal.waiting(session)
        done = 0
        failed: list[int] = []
        for key in keys:
            try:
                with self._store.writing() as unit:
                    done += self._handle_next(unit, key, None, failed, wait) is not None
            except NotHandled as error:
                logger.exception("%s", error)
                failed.append(error.key)
        return done

    def read_again(self, key: int) -> tuple[Journalled, Verdict]:
        """What a message that could not be read would be read as by now; changes nothing."""
        with self._store.reading() as unit:
            found = journal.find_by_key(unit.plain, key)
            return found.message, self._read_apart(unit, found)[1]

    def _read_apart(self, unit: Unit, found: Found) -> tuple[Known, Verdict]:
        """A message as of its own time, as if nothing had been asked."""
        row = found.message
        knows = self._known(unit, found.chat, row)
        return knows, self._read(row.text, replace(knows.context, asked=None), sure_of_row(row))

    def handle_again(self, key: int) -> None:
        """Let a message that could not be read take the effect that it is read to have by now."""
        with self._store.writing() as unit:
            earlier = self._read_apart(unit, journal.find_by_key(unit.plain, key))
            row = unit.session.get_one(MessageRow, key)
            row.state, row.failures = journal.WAITING, 0
            unit.commit()
            self._handle(unit, key, earlier)

    def _handle(self, unit: Unit, key: int, earlier: tuple[Known, Verdict] | None = None) -> None:
        """Handle a journalled message, and before it what waits in its chat.

        Each is a transaction of its own; none is open yet.
        """
        failed: list[int] = []
        while True:
            try:
                done = self._handle_next(unit, key, earlier, failed)
            except NotHandled as error:
                if error.key == key:
                    raise
                logger.exception("%s", error)
                failed.append(error.key)
                continue
            if done is None or done == key:
                return

    def _handle_next(
        self,
        unit: Unit,
        key: int,
        earlier: tuple[Known, Verdict] | None,
        but: list[int],
        wait: bool = True,
    ) -> int | None:
        """Handle the chat's oldest waiting message up to this one; its key, None if none waits.

        `earlier` still holds if it is this one and the logbook has not moved on.
        """
        found = journal.claim(unit.plain, key, but, wait)
        if found is None:
            return None
        row, chat = found.message, found.chat
        try:
            book = self._shelf.take(unit, chat.logbook.id, chat.logbook.revision)
            with speaking(language_of(journal.preferences_of(chat.logbook))):
                answer = self._answer(book, found, earlier if row.id == key else None)
            if answer is not None:
                # With nobody else in the chat a line disturbs no one, and tells more.
                answer = replace(answer, quiet=answer.quiet and not row.private)
                outbox.queue(unit.plain, chat.id, answer, self._clock(), row.id)
            journal.settle(unit.plain, found)
            unit.commit()
        except TROUBLE:
            # The database's, not the message's.
            raise
        except Exception as error:
            unit.rollback()
            self._count_failure(unit, row.id)
            raise NotHandled(row.id) from error
        self._shelf.put_back(book, book.revision + 1)
        return row.id

    def _answer(
        self, book: Book, found: Found, earlier: tuple[Known, Verdict] | None
    ) -> Answer | None:
        row, chat = found.message, found.chat
        version = book.session.get_one(VersionRow, row.id) if found.is_version else None
        preferences = journal.preferences_of(chat.logbook)

        def as_of_now(reply_to: str | None = None) -> Known:
            return known(book, chat, preferences, row.sent_at, reply_to)

        if version is not None and version.of != row.id:

            def reread(asked: Ask | None) -> tuple[Known, Verdict]:
                knows = as_of_now()
                context = replace(knows.context, asked=asked)
                return knows, self._read(row.text, context, sure_of_row(row))

            return revise(Desk(chat, row, preferences, as_of_now().names, book), version, reread)
        if earlier is not None and earlier[0].revision == book.revision:
            knows, verdict = earlier
        else:
            knows = as_of_now(row.reply_to)
            verdict = self._read(row.text, knows.context, sure_of_row(row))
        return act(Desk(chat, row, preferences, knows.names, book), verdict)

    def _count_failure(self, unit: Unit, key: int) -> None:
        row = journal.count_failure(unit.session, key)
        if row.state == journal.STUCK:
            with speaking(language_of(journal.preferences_in(unit.session, row.chat_id))):
                stuck = asking.stuck_answer(row.text)
            outbox.queue(unit.plain, row.chat_id, stuck, self._clock(), key)
        unit.commit()

    def _read(self, text: str, context: Context, sure: bool | None) -> Verdict:
        """What a text is read as; `sure` is None for one that was typed."""
        verdict = self._reader(text, context)
        return verdict if sure is None else of_photo(verdict, sure, context)

    def _known(self, unit: Unit, chat: Chat | None, message: Message | Journalled) -> Known:
        if chat is None:
            return nothing_known(message.sent_at, self._defaults)
        book = self._shelf.take(unit, chat.logbook.id, chat.logbook.revision)
        preferences = journal.preferences_of(chat.logbook)
        knows = known(book, chat, preferences, message.sent_at, message.reply_to)
        self._shelf.put_back(book, book.revision)
        return knows


def sure_of(photo: Photo | None) -> bool | None:
    """Whether a photo's lines are beyond doubt; None where there is no photo."""
    return None if photo is None else photo.sure


def sure_of_row(row: Journalled) -> bool | None:
    """The same of a message that was journalled."""
    return None if row.photo is None else row.sure


class NotHandled(Exception):
    """Handling a message failed; it is kept for another try."""

    def __init__(self, key: int) -> None:
        super().__init__(f"message {key} could not be handled and is kept")
        self.key = key
