"""What a message's verdict does to the logbook, and the answer to it.

This file decides what is kept, amended, withdrawn or asked about, on the desk of one message,
inside its transaction. It does not know how messages arrive, how words are read, nor what
answers say.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import assert_never
from zoneinfo import ZoneInfo

from sqlalchemy import Connection
from sqlalchemy.orm import Session

from bot import inviting
from bot.answers import asking, correcting, dispatch, shared
from bot.answers.answer import Answer, joined
from bot.knowing import RIG
from bot.language_choice import language_answer
from bot.store import journal, logbook, questions, replies, standing, versions
from bot.store.seen import Chat, Journalled, OpenQuestion
from bot.store.shelf import Book
from bot.store.tables import MessageRow
from domain.corrections import Amended, Change, Redated, Unclear, Withdrawn, bind
from domain.doubts import answers_doubt, kinds_in_doubt, picked
from domain.entries import KIND_NAMES, Correction, Entry, Fill, Odometer, Rating, Weighing
from domain.log import Logged, Preferences, Reach
from domain.motion import STOPS, is_moving, is_stop
from domain.naming import Names, settled, which_trailer_is_open
from domain.plausible import FAR_OVER, doubt_of
from domain.rig import rig_of
from domain.verdicts import (
    LANGUAGE_TOPICS,
    SHARING_TOPICS,
    Ask,
    Choice,
    Facts,
    Question,
    Silent,
    Verdict,
)


@dataclass(frozen=True, slots=True)
class Desk:
    """What handling one message works with: its records, and how its logbook wants figures."""

    chat: Chat
    message: Journalled
    preferences: Preferences
    names: Names
    book: Book

    @property
    def session(self) -> Session:
        """The transaction in which all of it happens."""
        return self.book.session

    @property
    def plain(self) -> Connection:
        """Its connection, for plain rows."""
        return self.book.plain


def act(desk: Desk, verdict: Verdict) -> Answer | None:
    """What a verdict does to the logbook, and the answer to it."""
    if desk.chat.role == journal.READER and isinstance(verdict, Facts | Ask):
        return shared.reader_answer()
    match verdict:
        case Silent():
            # It read as meant for the log a moment ago; talk leaves no text behind.
            journal.drop_text(desk.plain, desk.message)
            return None
        case Question():
            return answer_question(desk, verdict)
        case Ask():
            return ask_back(desk, verdict)
        case Facts(entries):
            question = desk.chat.question
            doubt = against_the_rig(desk, entries, questions.asked(question) if question else None)
            return keep(desk, entries, question) if doubt is None else ask_back(desk, doubt)
        case _:
            assert_never(verdict)


def answer_question(desk: Desk, question: Question) -> Answer:
    """The answer to a question, from as much of the logbook as it needs."""
    if question.topic in SHARING_TOPICS:
        return inviting.sharing_answer(desk.session, desk.chat, desk.message, question)
    if question.topic in LANGUAGE_TOPICS:
        return language_answer(desk.session, desk.chat, question)
    log = desk.book.log(dispatch.reach_of_question(question))
    return dispatch.question_answer(log, desk.preferences, desk.message.sent_at, question)


def ask_back(desk: Desk, doubt: Ask) -> Answer:
    """Put a doubt to the chat; nothing is kept of its message until it is settled.

    While the rig is on the move a question waits for the next stop, unless a limit may be
    exceeded, or what is in doubt is itself done standing.
    """
    held = doubt.why != FAR_OVER and _is_on_the_road(desk, doubt)
    questions.put(desk.plain, desk.chat, desk.message, doubt, held=held)
    desk.message.state = journal.DOUBTED
    return asking.held_answer() if held else asking.ask_answer(doubt)


def _is_on_the_road(desk: Desk, doubt: Ask) -> bool:
    if kinds_in_doubt(doubt) & set(STOPS):
        return False
    lately = desk.book.log(Reach(kinds=(Odometer, *STOPS), latest=dispatch.LATELY))
    return is_moving(lately, desk.message.sent_at)


def _held_question(desk: Desk, entries: tuple[Entry, ...]) -> Answer | None:
    """At a stop: the question that waited for it."""
    question = desk.chat.question
    if question is None or not question.held or not is_stop(entries):
        return None
    questions.release(desk.plain, desk.chat)
    return asking.ask_answer(questions.asked(question), kept=question.entry_id is not None)


def against_the_rig(desk: Desk, entries: tuple[Entry, ...], asked: Ask | None) -> Ask | None:
    """A weighing that the rig's ratings say can't be right, unless that was asked already."""
    weighings = [each for each in entries if isinstance(each, Weighing)]
    if not weighings or (asked is not None and picked(entries, asked)):
        return None
    told = desk.book.log(RIG)
    return doubt_of(entries, rig_of(told, trailer=weighings[-1].trailer))


def keep(desk: Desk, entries: tuple[Entry, ...], question: OpenQuestion | None) -> Answer:
    """Keep what a message states and do what it corrects; a doubt that it settles is closed."""
    ask = questions.asked(question) if question else None
    at: datetime = desk.message.sent_at
    completes: int | None = None
    settles: OpenQuestion | None = None
    if question is not None and ask is not None and answers_doubt(entries, ask):
        if picked(entries, ask):
            # The figures were texted with the question, and happened then.
            at = desk.session.get_one(MessageRow, question.message_id).sent_at
            completes = question.entry_id
        settles = question if question.entry_id is None else None
        questions.close(desk.plain, desk.chat)
    if completes is not None:
        return _complete(desk, completes, entries)
    plain = settled_all(desk, entries)
    kept = [
        desk.book.keep(desk.message, entry, logbook.happened_at(entry, at, desk.preferences))
        for entry in plain
    ]
    if settles is not None and ask is not None:
        reading = [versions.Read(each.entry, each.key) for each in kept]
        versions.note_answer(desk.session, desk.message, settles.message_id, ask, reading)
    answers = correct_all(desk, entries)
    if kept:
        answers.insert(0, answer_to(desk, kept))
    doubt = trailer_doubt(desk, kept) or _held_question(desk, entries)
    return joined([*answers, doubt] if doubt else answers)


def settled_all(desk: Desk, entries: tuple[Entry, ...]) -> list[Entry]:
    """What a message states, corrections left out, each entry with its names settled."""
    names, found = desk.names, []
    for entry in entries:
        if not isinstance(entry, Correction):
            known = settled(entry, names)
            names = names.after(known)
            found.append(known)
    return found


def correct_all(desk: Desk, entries: tuple[Entry, ...]) -> list[Answer]:
    """Carry out what a message corrects, in the order stated.

    What follows from an entry is told once, when all that the message says of it is mended.
    """
    done = [_correct(desk, entry) for entry in entries if isinstance(entry, Correction)]
    mended_again = {each.before.key for each in done if isinstance(each, Mended)}
    return [
        _mended_answer(desk, each, further=each.after.key in mended_again)
        if isinstance(each, Mended)
        else each
        for each in done
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A weighing or a fill that says something else now: as it was, as it is, and what changed."""

    before: Logged[Entry]
    after: Logged[Entry]
    amended: Amended


def _mended_answer(desk: Desk, mended: Mended, *, further: bool) -> Answer:
    """What changed, and what follows from it unless the same message changes `further` of it."""
    if further:
        return correcting.changed_answer(mended.amended)
    return correcting.amended_answer(mended.amended, answer_to(desk, [mended.after]))


def answer_to(desk: Desk, kept: list[Logged[Entry]]) -> Answer:
    """The reply to what was kept, from as much of the logbook as it needs."""
    now = desk.message.sent_at
    log = desk.book.log(dispatch.reach_of_kept(kept, now))
    return dispatch.kept_answer(log, desk.preferences, now, kept)


def trailer_doubt(desk: Desk, kept: list[Logged[Entry]]) -> Answer | None:
    """Asks once which trailer went on, where it could be one of several."""
    names = desk.names
    for each in kept:
        names = names.after(each.entry)
    open_ones = [each for each in kept if which_trailer_is_open(each.entry, names)]
    if not open_ones:
        return None
    hitch = open_ones[-1]
    choices = tuple(
        Choice(name, (replace(hitch.entry, trailer=name, words=()),)) for name in names.trailers
    )
    ask = Ask("trailer", choices, asking.WHICH_TRAILER)
    questions.put(desk.plain, desk.chat, desk.message, ask, hitch.key)
    return asking.ask_answer(ask, kept=True)


def _complete(desk: Desk, key: int, entries: tuple[Entry, ...]) -> Answer:
    """Put what an answer adds into the entry that was kept with a question open."""
    before = standing.entries(desk.plain, [key])[key]
    after = desk.book.keep(desk.message, entries[0], before.at, key)
    return answer_to(desk, [after])


def _correct(desk: Desk, correction: Correction) -> Answer | Mended:
    last = _last_doubt(desk)
    named = {kind for kind, _ in correction.words} if correction.action == "undo" else set()
    doubted = {KIND_NAMES[kind] for kind in kinds_in_doubt(last)} if last is not None else set()
    told_apart = correction.action == "undo" and (correction.was, correction.at) != (None, None)
    if told_apart or (named and not named & doubted):
        last = None  # 'scratch the fill', with a weighing in doubt
    if last is not None and correction.action == "undo":
        questions.close(desk.plain, desk.chat)
        return correcting.dropped_answer()
    if last is not None:
        # It corrects what was just texted, not an older entry that happens to look alike.
        return asking.still_open_answer(last)
    zone = ZoneInfo(desk.preferences.time_zone)
    outcome = bind(correction, _correctable(desk), zone)
    match outcome:
        case Amended(before, after, _):
            after = settled(after, desk.names)
            question = desk.chat.question
            asked = questions.asked(question) if question else None
            doubt = against_the_rig(desk, (after,), asked)
            if doubt is not None:
                questions.put(desk.plain, desk.chat, desk.message, doubt, before.key)
                return asking.ask_answer(doubt)
            new = desk.book.keep(desk.message, after, before.at, before.key)
            if isinstance(after, Rating):
                lately = desk.book.log(Reach(latest=dispatch.LATELY))
                said = correcting.amended_answer(outcome)
                return dispatch.rating_answer(lately, desk.preferences, [after], said)
            if not isinstance(after, Weighing | Fill):
                return correcting.amended_answer(outcome)
            return Mended(before=before, after=new, amended=outcome)
        case Redated(entries):
            return _redated(desk, entries)
        case Withdrawn(entries, restored):
            keys = [each.key for each in entries]
            _drop_question_about(desk, keys)
            again = [each.key for each in restored]
            versions.undo(desk.session, desk.book.take_back(desk.message, keys, again))
            return correcting.withdrawn_answer(outcome)
        case Unclear(_, choices) if choices:
            ask = correcting.which_figure(choices)
            questions.put(desk.plain, desk.chat, desk.message, ask)
            return asking.ask_answer(ask, kept=True)
        case Unclear():
            return correcting.unclear_answer(outcome, desk.preferences)
        case _:
            assert_never(outcome)


def _redated(desk: Desk, entries: tuple[tuple[Logged[Entry], Entry], ...]) -> Answer:
    """Keep entries at the time when they happened, and say what follows from it."""
    kept = [
        desk.book.keep(
            desk.message,
            after,
            logbook.happened_at(after, before.at, desk.preferences),
            before.key,
        )
        for before, after in entries
    ]
    said = correcting.redated_answer(entries[0][0], kept[0], desk.preferences)
    return joined([said, answer_to(desk, kept)])


def _correctable(desk: Desk) -> tuple[Change, ...]:
    """What a correction can be about: the message that it replies to, else the last ones."""
    key = replies.about(desk.session, desk.chat.id, desk.message.reply_to)
    lines = () if key is None else versions.lines(desk.session, key)
    meant = tuple(line.standing for line in lines if line.standing is not None)
    return (Change(kept=meant),) if meant else logbook.recent(desk.session, desk.book.key)


def _last_doubt(desk: Desk) -> Ask | None:
    """The open question, where the last thing that was texted is a doubt and nothing was kept."""
    question = desk.chat.question
    if question is None or question.entry_id is not None:
        return None
    ask = questions.asked(question)
    if Correction in kinds_in_doubt(ask):
        return None
    last = logbook.last_message(desk.session, desk.book.key)
    return ask if last is None or question.message_id > last else None


def _drop_question_about(desk: Desk, keys: list[int]) -> None:
    question = desk.chat.question
    if question is not None and question.entry_id in keys:
        questions.close(desk.plain, desk.chat)
