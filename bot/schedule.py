"""Weekly summaries: when one is due, and that it is queued once.

This file decides what a logbook's week is (the seven whole days before the day on which the
summary leaves, so that no entry falls between two weeks or into both), which chats get it
(keepers and readers alike), and that a week in which nothing was logged is passed over in
silence. The next time is a row: one worker claims it, and queues the answer and moves the row
on in one transaction, so that a summary whose hour passed while the server was down is sent
once, later. It does not know what a summary says. The time is an argument.

Local times that the clocks skip in spring fall an hour later, and one that comes twice in
autumn means the first (PEP 495, `fold=0`).
"""

from __future__ import annotations

import logging
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import func, or_, select
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from bot.answers import spans
from bot.answers.language import language_of, speaking
from bot.store import journal, outbox, standing
from bot.store.database import Store
from bot.store.tables import ChatRow, LogbookRow, OpenQuestionRow, WeeklyRow
from domain.summary import eventful_week
from domain.verdicts import Question

logger = logging.getLogger(__name__)
WEEK = timedelta(days=7)
WEEK_QUESTION = Question(topic="week")
PLANNED_AT_ONCE = 500
FEW = 20
"""Summaries that are queued in one go: some tenth of a second."""


def next_time(after: datetime, day: int, hour: int, time_zone: str) -> datetime:
    """The first moment later than `after` at that hour of that weekday (Monday is 0).

    The result is aware, in the zone; `day` is 0 to 6, `hour` 0 to 23.
    """
    zone = ZoneInfo(time_zone)
    today = after.astimezone(zone).date()
    first = today + timedelta(days=(day - today.weekday()) % 7)
    local = datetime.combine(first, time(hour), zone)
    # Compared as moments: within one zone Python would compare wall clocks.
    while local.astimezone(UTC) <= after.astimezone(UTC):
        local += WEEK
    return local


def plan(store: Store, now: datetime) -> None:
    """Give a time to every logbook that has none.

    Any number of workers may call this and `queue_some` at once and as often as they like.
    """
    while True:
        with store.work() as session:
            planned = _plan(session, now)
            session.commit()
        if planned < PLANNED_AT_ONCE:
            return


def queue_some(store: Store, now: datetime) -> int | None:
    """Queue a few of the summaries whose time has come; None where there is none left.

    How many of those weeks had something to tell. Few at a time, so that messages which come in
    while a hundred thousand logbooks are due are answered in between.
    """
    with store.work() as session:
        outcomes = [settle_one(session, now)]
        while outcomes[-1] is not None and len(outcomes) < FEW:
            outcomes.append(settle_one(session, now))
        session.commit()
    settled = [each for each in outcomes if each is not None]
    return sum(settled) if settled else None


def next_due(store: Store) -> datetime | None:
    """When the next summary is due, as far as is planned."""
    with store.look() as session:
        return session.scalar(select(func.min(WeeklyRow.due_at)))


def replan(session: Session, logbook_key: int, now: datetime) -> None:
    """Give a logbook its next time anew, once its day or hour was changed. Commits."""
    book = session.get_one(LogbookRow, logbook_key)
    _put(session, book, _next_for(book, now))
    session.commit()


def _plan(session: Session, now: datetime) -> int:
    """Give a time to logbooks that have none; a zone that was changed moves the moment only.

    How many were planned, PLANNED_AT_ONCE at the most.

    A logbook whose program did not run since it was begun has its last week told still.
    """
    rows = session.execute(
        select(LogbookRow, WeeklyRow)
        .outerjoin(WeeklyRow, WeeklyRow.logbook_id == LogbookRow.id)
        .where(or_(WeeklyRow.logbook_id.is_(None), WeeklyRow.time_zone != LogbookRow.time_zone))
        .order_by(LogbookRow.id)
        .limit(PLANNED_AT_ONCE)
        .with_for_update(of=LogbookRow, skip_locked=True)
    ).all()
    for book, row in rows:
        if row is None:
            _put(session, book, _next_for(book, max(book.created_at, now - WEEK)))
        else:
            local = datetime.fromisoformat(row.local_time)
            _put(session, book, local.replace(tzinfo=ZoneInfo(book.time_zone)))
    return len(rows)


def _next_for(book: LogbookRow, after: datetime) -> datetime:
    return next_time(after, book.week_day, book.week_hour, book.time_zone)


def _put(session: Session, book: LogbookRow, due: datetime) -> None:
    row = session.get(WeeklyRow, book.id)
    if row is None:
        row = WeeklyRow(logbook_id=book.id)
        session.add(row)
    row.local_time = due.replace(tzinfo=None).isoformat(timespec="minutes")
    row.time_zone = book.time_zone
    row.due_at = due
    session.flush()


def settle_one(session: Session, now: datetime) -> bool | None:
    """Claim one summary that is due and queue it; None where there is none left to claim.

    Whether its week had anything to tell. Holds from the session's commit; until then other
    workers pass it over, and should this one die, they find it due.
    """
    row = session.scalar(
        select(WeeklyRow)
        .where(WeeklyRow.due_at <= now)
        .order_by(WeeklyRow.due_at, WeeklyRow.logbook_id)
        .limit(1)
        .with_for_update(skip_locked=True)
    )
    if row is None:
        return None
    book = session.get_one(LogbookRow, row.logbook_id)
    due = row.due_at
    told = False
    try:
        with session.begin_nested():
            told = _tell(session, book, due, now)
    except DBAPIError:
        raise
    except Exception:
        # One logbook's week must not keep all the others from theirs.
        logger.exception("the week of logbook %s can't be told", book.id)
    _put(session, book, _next_for(book, due))
    return told


def _tell(session: Session, book: LogbookRow, due: datetime, now: datetime) -> bool:
    preferences = journal.preferences_of(book)
    zone = ZoneInfo(preferences.time_zone)
    morning = datetime.combine(due.astimezone(zone).date(), time(), zone)
    eve = (morning.astimezone(UTC) - timedelta(microseconds=1)).astimezone(zone)
    log = standing.log(session, book.id).until(eve)
    if eventful_week(log, eve, preferences.time_zone) is None:
        return False
    chats = session.scalars(
        select(ChatRow)
        .where(ChatRow.logbook_id == book.id, ChatRow.role != journal.OUT)
        .order_by(ChatRow.id)
    ).all()
    unanswered = session.scalar(
        select(func.count()).where(OpenQuestionRow.chat_id.in_([chat.id for chat in chats]))
    )
    with speaking(language_of(preferences)):
        answer = spans.week_answer(log, preferences, eve, WEEK_QUESTION, unanswered=unanswered or 0)
    for chat in chats:
        outbox.queue(session, chat.id, answer, now)
    return bool(chats)
