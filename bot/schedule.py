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
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from bot.answers import spans
from bot.answers.answer import Answer
from bot.answers.language import language_of, speaking
from bot.store import journal, outbox, questions, sharing, standing
from bot.store.database import Store
from bot.store.tables import LogbookRow, WeeklyRow
from domain.log import Log
from domain.summary import eventful_week
from domain.verdicts import Question

logger = logging.getLogger(__name__)
WEEK = timedelta(days=7)
WEEK_QUESTION = Question(topic="week")
PLANNED_AT_ONCE = 500
FEW = 20
"""Summaries that are queued in one go: less than a tenth of a second."""

MOST_ENTRIES = 5_000
"""Entries that are read at once for them, unless one logbook alone has more."""


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
        told = settle_some(session, now)
        session.commit()
    return told


def replan(session: Session, logbook_key: int, now: datetime) -> None:
    """Give a logbook its next time anew, once its day or hour was changed. Commits."""
    book = session.get_one(LogbookRow, logbook_key)
    _put(session, session.get(WeeklyRow, logbook_key), book, _next_for(book, now))
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
    # A row that another worker put in between this look and its lock shows only now.
    begun = _begun(session, [book.id for book, _ in rows])
    for book, row in rows:
        if row is None and book.id in begun:
            continue
        if row is None:
            due = _next_for(book, max(book.created_at, now - WEEK))
        else:
            local = datetime.fromisoformat(row.local_time)
            due = local.replace(tzinfo=ZoneInfo(book.time_zone))
        _put(session, row, book, due)
    return len(rows)


def _begun(session: Session, logbooks: Sequence[int]) -> set[int]:
    """Those of the logbooks that have a time already."""
    if not logbooks:
        return set()
    has_time = select(WeeklyRow.logbook_id).where(WeeklyRow.logbook_id.in_(logbooks))
    return set(session.scalars(has_time))


def _next_for(book: LogbookRow, after: datetime) -> datetime:
    return next_time(after, book.week_day, book.week_hour, book.time_zone)


def _put(session: Session, row: WeeklyRow | None, book: LogbookRow, due: datetime) -> None:
    if row is None:
        row = WeeklyRow(logbook_id=book.id)
        session.add(row)
    row.local_time = due.replace(tzinfo=None).isoformat(timespec="minutes")
    row.time_zone = book.time_zone
    row.due_at = due


def settle_some(session: Session, now: datetime) -> int | None:
    """Claim a few summaries that are due and queue them; None where there is none left to claim.

    How many of their weeks had anything to tell. Holds from the session's commit; until then
    other workers pass them over, and should this one die, they find them due.
    """
    claimed = session.execute(
        select(WeeklyRow, LogbookRow)
        .join(LogbookRow, LogbookRow.id == WeeklyRow.logbook_id)
        .where(WeeklyRow.due_at <= now)
        .order_by(WeeklyRow.due_at, WeeklyRow.logbook_id)
        .limit(FEW)
        .with_for_update(of=WeeklyRow, skip_locked=True)
    ).all()
    if not claimed:
        return None
    # What all of them need is read at once: asking for each by itself costs more than the answer.
    books = {book.id: (book, _eve_of(row.due_at, book.time_zone)) for row, book in claimed}
    chats = sharing.chats_of(session, books)
    unanswered = questions.open_in(session, books)
    earliest = min(eve for _, eve in books.values()) - WEEK
    lively = standing.lively(session, chats, earliest)
    told: list[tuple[Answer, list[int]]] = []
    for some in _a_few_entries(lively):
        log_of = standing.logs(session, some)
        for key in some:
            answer = _week(*books[key], log_of, unanswered.get(key, 0))
            if answer is not None:
                told.append((answer, chats[key]))
    outbox.queue_all(session, told, now)
    for row, book in claimed:
        _put(session, row, book, _next_for(book, row.due_at))
    return len(told)


def _eve_of(due: datetime, time_zone: str) -> datetime:
    """The last moment before the day on which a summary is due, in the zone."""
    zone = ZoneInfo(time_zone)
    morning = datetime.combine(due.astimezone(zone).date(), time(), zone)
    return (morning.astimezone(UTC) - timedelta(microseconds=1)).astimezone(zone)


def _a_few_entries(sizes: Mapping[int, int]) -> Iterator[list[int]]:
    """Logbooks, given how many entries each has: together as long as they are not many."""
    some: list[int] = []
    entries = 0
    for key, size in sizes.items():
        if some and entries + size > MOST_ENTRIES:
            yield some
            some, entries = [], 0
        some.append(key)
        entries += size
    if some:
        yield some


def _week(
    book: LogbookRow, eve: datetime, log_of: Callable[[int], Log], unanswered: int
) -> Answer | None:
    """What the week that ends with an eve was; None where there is nothing to tell."""
    preferences = journal.preferences_of(book)
    try:
        log = log_of(book.id).until(eve)
        if eventful_week(log, eve, preferences.time_zone) is None:
            return None
        with speaking(language_of(preferences)):
            return spans.week_answer(log, preferences, eve, WEEK_QUESTION, unanswered=unanswered)
    except Exception:
        # One logbook's week must not keep all the others from theirs.
        logger.exception("the week of logbook %s can't be told", book.id)
        return None
