"""The path of one message, from the network's hand to the queued reply.

This file decides the order: read, and stay still where people talk among themselves; journal
before anything else; then in one transaction keep, compute, answer, queue the reply and mark
the message handled, or nothing of it. It does not know how words are read, what answers say,
nor how they are sent.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import assert_never

from sqlalchemy.orm import Session

from bot.answers import asking, correcting, dispatch
from bot.answers.answer import Answer, joined
from bot.messages import Message
from bot.store import journal, logbook, outbox
from bot.store.database import Store
from bot.store.tables import ChatRow, LogbookRow, MessageRow
from domain.context import Context
from domain.corrections import Amended, Unclear, Withdrawn, bind
from domain.doubts import answers_doubt, kinds_in_doubt, picked
from domain.entries import Correction, Entry, Fill, Hitch, Rating, Weighing
from domain.fuel import truck_fuel
from domain.log import Logged, Preferences
from domain.naming import Names, names_in, settled, which_trailer_is_open
from domain.plausible import doubt_of
from domain.rig import rig_of
from domain.verdicts import Ask, Choice, Facts, Question, Silent, Verdict

Reader = Callable[[str, Context], Verdict]
LATEST_FILLS = 20
"""Fills that tell what the truck burns, where its tank's rating does not."""

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Known:
    """What a chat knew at a revision of its logbook; None where it had none yet."""

    context: Context
    names: Names
    revision: int | None = None


@dataclass(frozen=True, slots=True)
class _Desk:
    """What handling one message works with: its rows, and how its logbook wants figures."""

    session: Session
    chat: ChatRow
    message: MessageRow
    preferences: Preferences
    names: Names

    @property
    def book(self) -> int:
        return self.chat.logbook_id


class Conversation:
    """Takes messages in and queues replies; synchronous, one message at a time a thread."""

    def __init__(
        self, store: Store, reader: Reader, clock: Callable[[], datetime], defaults: Preferences
    ) -> None:
        self._store = store
        self._reader = reader
        self._clock = clock
        self._defaults = defaults

    def receive(self, message: Message) -> bool:
        """Take a message through; whether it was meant for Drawbar and is new.

        A failure while handling raises, with the message kept for another try.
        """
        with self._store.look() as session:
            if journal.is_known(session, message):
                return False
            chat = journal.chat_of(session, message.network, message.chat)
            known = self._known(session, chat, message.sent_at)
        verdict = self._reader(message.text, known.context)
        if isinstance(verdict, Silent):
            return False
        with self._store.work() as session:
            row = journal.record(session, message, self._defaults, self._clock())
        if row is None:
            return False
        self._handle(row.id, (known, verdict))
        return True

    def resume(self) -> int:
        """Handle what was journalled and not handled before; how many messages that were.

        One that fails again does not keep the others waiting; its failure is logged.
        """
        with self._store.look() as session:
            keys = journal.waiting(session)
        done = 0
        for key in keys:
            try:
                self._handle(key)
                done += 1
            except Exception:
                logger.exception("message %s could not be handled and is kept", key)
        return done

    def _handle(self, key: int, earlier: tuple[_Known, Verdict] | None = None) -> None:
        """Handle a journalled message; `earlier` still holds if the logbook has not moved on."""
        try:
            with self._store.work() as session:
                row = journal.claim(session, key)
                if row is None:
                    return
                chat = session.get_one(ChatRow, row.chat_id)
                book = session.get_one(LogbookRow, chat.logbook_id)
                if earlier is not None and earlier[0].revision == book.revision:
                    known, verdict = earlier
                else:
                    known = self._known(session, chat, row.sent_at)
                    verdict = self._reader(row.text, known.context)
                desk = _Desk(session, chat, row, journal.preferences_of(book), known.names)
                answer = _act(desk, verdict)
                if answer is not None:
                    outbox.queue(session, chat.id, answer, self._clock(), row.id)
                row.state = journal.HANDLED
                book.revision += 1
                session.commit()
        except Exception:
            with self._store.work() as session:
                journal.count_failure(session, key)
            raise

    def _known(self, session: Session, chat: ChatRow | None, sent_at: datetime) -> _Known:
        """What the chat knows by now."""
        if chat is None:
            return _Known(
                Context(
                    sent_at=sent_at,
                    units=self._defaults.units,
                    currency=self._defaults.currency,
                    time_zone=self._defaults.time_zone,
                ),
                Names(),
            )
        book = session.get_one(LogbookRow, chat.logbook_id)
        preferences = journal.preferences_of(book)
        told = logbook.log(session, chat.logbook_id, (Rating, Hitch), dispatch.LATELY)
        names = names_in(told)
        rig = rig_of(told)
        fuel = rig.fuel or truck_fuel(logbook.log(session, chat.logbook_id, (Fill,), LATEST_FILLS))
        question = journal.open_question(session, chat)
        context = Context(
            sent_at=sent_at,
            units=preferences.units,
            currency=preferences.currency,
            time_zone=preferences.time_zone,
            odometer=logbook.latest_odometer(session, chat.logbook_id, names.truck),
            tank=rig.quantity("truck", "tank"),
            fuel=fuel,
            hitched=told.hitched_to() is not None if told.of(Hitch) else None,
            truck=names.truck,
            trailers=names.trailers,
            asked=journal.asked(question) if question else None,
        )
        return _Known(context, names, book.revision)


def _act(desk: _Desk, verdict: Verdict) -> Answer | None:
    """What a verdict does to the logbook, and the answer to it."""
    match verdict:
        case Silent():
            # It read as meant for the log a moment ago; talk leaves no text behind.
            desk.message.text = ""
            return None
        case Question():
            reach = dispatch.reach_of_question(verdict)
            log = logbook.log(desk.session, desk.book, latest=reach)
            now = desk.message.sent_at
            return dispatch.question_answer(log, desk.preferences, now, verdict)
        case Ask():
            journal.put_question(desk.session, desk.chat, desk.message, verdict)
            return asking.ask_answer(verdict)
        case Facts(entries):
            doubt = _against_the_rig(desk, entries)
            if doubt is not None:
                journal.put_question(desk.session, desk.chat, desk.message, doubt)
                return asking.ask_answer(doubt)
            return _keep(desk, entries)
        case _:
            assert_never(verdict)


def _against_the_rig(desk: _Desk, entries: tuple[Entry, ...]) -> Ask | None:
    """A weighing that the rig's ratings say can't be right, unless that was asked already."""
    weighings = [each for each in entries if isinstance(each, Weighing)]
    if not weighings:
        return None
    question = journal.open_question(desk.session, desk.chat)
    if question is not None and picked(entries, journal.asked(question)):
        return None
    told = logbook.log(desk.session, desk.book, (Rating, Hitch), dispatch.LATELY)
    return doubt_of(entries, rig_of(told, trailer=weighings[-1].trailer))


def _keep(desk: _Desk, entries: tuple[Entry, ...]) -> Answer:
    question = journal.open_question(desk.session, desk.chat)
    ask = journal.asked(question) if question else None
    at: datetime = desk.message.sent_at
    completes: int | None = None
    if question is not None and ask is not None and answers_doubt(entries, ask):
        if picked(entries, ask):
            # The figures were texted with the question, and happened then.
            at = desk.session.get_one(MessageRow, question.message_id).sent_at
            completes = question.entry_id
        journal.close_question(desk.session, desk.chat)
    if completes is not None:
        return _complete(desk, completes, entries)
    kept: list[Logged[Entry]] = []
    answers: list[Answer] = []
    names = desk.names
    for entry in entries:
        if isinstance(entry, Correction):
            answers.append(_correct(desk, entry))
            continue
        known = settled(entry, names)
        names = names.after(known)
        when = logbook.happened_at(known, at, desk.preferences)
        kept.append(logbook.keep(desk.session, desk.book, desk.message, known, when))
    if kept:
        answers.insert(0, _answer(desk, kept))
    doubt = _trailer_doubt(desk, kept, names)
    return joined([*answers, doubt] if doubt else answers)


def _answer(desk: _Desk, kept: list[Logged[Entry]]) -> Answer:
    """The reply to what was kept, from as much of the logbook as it needs."""
    kinds, latest = dispatch.reach_of_kept([each.entry for each in kept])
    until = max(each.at for each in kept)
    log = logbook.log(desk.session, desk.book, kinds, latest, until)
    return dispatch.kept_answer(log, desk.preferences, desk.message.sent_at, kept)


def _trailer_doubt(desk: _Desk, kept: list[Logged[Entry]], names: Names) -> Answer | None:
    """Asks once which trailer went on, where it could be one of several."""
    open_ones = [each for each in kept if which_trailer_is_open(each.entry, names)]
    if not open_ones:
        return None
    hitch = open_ones[-1]
    choices = tuple(
        Choice(name, (replace(hitch.entry, trailer=name, words=()),)) for name in names.trailers
    )
    ask = Ask("trailer", choices, asking.WHICH_TRAILER)
    journal.put_question(desk.session, desk.chat, desk.message, ask, hitch.key)
    return asking.ask_answer(ask, kept=True)


def _complete(desk: _Desk, key: int, entries: tuple[Entry, ...]) -> Answer:
    """Put what an answer adds into the entry that was kept with a question open."""
    before = logbook.entries(desk.session, [key])[key]
    after = logbook.keep(desk.session, desk.book, desk.message, entries[0], before.at, key)
    return _answer(desk, [after])


def _correct(desk: _Desk, correction: Correction) -> Answer:
    last = _last_doubt(desk)
    if last is not None and correction.action == "undo":
        journal.close_question(desk.session, desk.chat)
        return correcting.dropped_answer()
    if last is not None:
        # It corrects what was just texted, not an older entry that happens to look alike.
        return asking.still_open_answer(last)
    outcome = bind(correction, logbook.recent(desk.session, desk.book))
    match outcome:
        case Amended(before, after, _):
            after = settled(after, desk.names)
            doubt = _against_the_rig(desk, (after,))
            if doubt is not None:
                journal.put_question(desk.session, desk.chat, desk.message, doubt, before.key)
                return asking.ask_answer(doubt)
            new = logbook.keep(desk.session, desk.book, desk.message, after, before.at, before.key)
            if not isinstance(after, Weighing | Fill):
                return correcting.amended_answer(outcome)
            return correcting.amended_answer(outcome, _answer(desk, [new]))
        case Withdrawn(entries, restored):
            keys = [each.key for each in entries]
            _drop_question_about(desk, keys)
            logbook.withdraw(desk.session, desk.message, keys)
            if restored:
                logbook.restore(desk.session, desk.message, [each.key for each in restored])
            return correcting.withdrawn_answer(outcome)
        case Unclear(_, choices) if choices:
            ask = correcting.which_figure(choices)
            journal.put_question(desk.session, desk.chat, desk.message, ask)
            return asking.ask_answer(ask, kept=True)
        case Unclear():
            return correcting.unclear_answer(outcome)
        case _:
            assert_never(outcome)


def _last_doubt(desk: _Desk) -> Ask | None:
    """The open question, where the last thing that was texted is a doubt and nothing was kept."""
    question = journal.open_question(desk.session, desk.chat)
    if question is None or question.entry_id is not None:
        return None
    ask = journal.asked(question)
    if Correction in kinds_in_doubt(ask):
        return None
    last = logbook.last_message(desk.session, desk.book)
    return ask if last is None or question.message_id > last else None


def _drop_question_about(desk: _Desk, keys: list[int]) -> None:
    question = journal.open_question(desk.session, desk.chat)
    if question is not None and question.entry_id in keys:
        journal.close_question(desk.session, desk.chat)
