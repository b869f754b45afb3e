"""Weekly summaries leave once, at the logbook's own hour, through every change of the clocks."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import delete, func, select

from bot import schedule
from bot.answers import spans
from bot.answers.answer import Answer
from bot.schedule import next_time, settle_some
from bot.store import journal, outbox, sharing
from bot.store.database import Store
from bot.store.tables import EntryRow, LogbookRow, OutboxRow, WeeklyRow
from domain.entries import Odometer
from domain.log import Log
from tests.store.logbooks import HOME, START, as_told, mi, queue_due, replies, told

BOISE = "America/Boise"
MONDAY = datetime(2026, 7, 13, 13, 0, tzinfo=UTC)
"""Seven o'clock on the Monday after START, a Saturday, in the hives' own zone."""


def next_due(store: Store) -> datetime | None:
    """When the next summary is due, as far as is planned."""
    with store.look() as session:
        return session.scalar(select(func.min(WeeklyRow.due_at)))


def driven(store: Store, *readings: tuple[float, float], chat: str = "barn") -> None:
    told(store, *(as_told(f"odo {miles}", at=at, chat=chat) for at, miles in readings))
    replies(store)


def test_a_week_is_told_once_at_its_hour_and_not_before(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    assert queue_due(store, MONDAY - timedelta(seconds=1)) == 0
    assert replies(store) == []
    assert queue_due(store, MONDAY) == 1
    assert queue_due(store, MONDAY) == 0
    (headline,) = replies(store)
    assert "200 mi" in headline


def test_a_server_that_was_down_at_the_hour_sends_it_once_later(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    queue_due(store, MONDAY - timedelta(days=1))
    assert queue_due(store, MONDAY + timedelta(days=3)) == 1
    assert len(replies(store)) == 1
    assert next_due(store) == MONDAY + timedelta(days=7)


def test_weeks_slept_through_are_told_each_and_the_empty_ones_not(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211), (15 * 24 * 60, 48900))
    queue_due(store, START)
    assert queue_due(store, MONDAY + timedelta(days=29)) == 2
    first, second = replies(store)
    assert "200 mi" in first
    assert "689 mi" in second


def test_a_week_with_nothing_logged_sends_nothing(store: Store) -> None:
    driven(store, (0, 48011))
    assert queue_due(store, MONDAY) == 1
    replies(store)
    assert queue_due(store, MONDAY + timedelta(days=7)) == 0
    assert replies(store) == []


def test_no_entry_falls_between_two_weeks_or_into_both(store: Store) -> None:
    last_minute = (datetime(2026, 7, 13, 5, 59, tzinfo=UTC) - START) / timedelta(minutes=1)
    driven(store, (0, 48000), (last_minute, 48100), (last_minute + 2, 48300))
    queue_due(store, START)
    assert queue_due(store, MONDAY + timedelta(days=7)) == 2
    first, second = replies(store)
    assert "100 mi" in first
    assert "200 mi" in second


def test_keepers_and_readers_alike_get_the_summary(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    with store.work() as session:
        barn = sharing.chat_named(session, "barn")
        office = journal.open_chat(session, "elsewhere", "office", HOME, START)
        sharing.join(session, office, barn.logbook_id, "reader")
    queue_due(store, MONDAY)
    with store.look() as session:
        assert session.query(OutboxRow.chat_id).filter_by(state="queued").count() == 2


def test_several_workers_at_once_queue_each_summary_once(store: Store) -> None:
    for number in range(6):
        driven(store, (0, 48011), (60, 48211), chat=f"barn {number}")
    with ThreadPoolExecutor(4) as pool:
        told_by = list(pool.map(lambda _: queue_due(store, MONDAY), range(8)))
    assert sum(told_by) == 6
    assert len(replies(store)) == 6


def test_several_workers_at_once_plan_each_logbook_once(store: Store) -> None:
    """A worker may look before another commits, and lock what that one has let go of."""
    for number in range(10):
        driven(store, (0, 48011), chat=f"barn {number}")
    with ThreadPoolExecutor(4) as pool:
        for _ in range(25):
            with store.work() as session:
                session.execute(delete(WeeklyRow))
                session.commit()
            list(pool.map(lambda _: schedule.plan(store, START), range(8)))
    with store.look() as session:
        assert session.scalar(select(func.count()).select_from(WeeklyRow)) == 10


def test_a_worker_that_dies_with_a_summary_in_hand_leaves_it_to_the_next(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    queue_due(store, START)
    with store.work() as session:
        assert settle_some(session, MONDAY) == 1
        if store.engine.dialect.name == "postgresql":
            assert queue_due(store, MONDAY) == 0, "others pass over what is in hand"
    assert replies(store) == []
    assert queue_due(store, MONDAY) == 1
    assert len(replies(store)) == 1


def test_another_hour_moves_the_next_summary(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    queue_due(store, START)
    with store.work() as session:
        book = sharing.chat_named(session, "barn").logbook_id
        sharing.set_week(session, book, 6, 18)
        schedule.replan(session, book, START)
    assert next_due(store) == datetime(2026, 7, 13, 0, 0, tzinfo=UTC), "Sunday at six"


def test_a_logbook_that_moves_to_another_zone_keeps_its_hour_there(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    queue_due(store, START)
    with store.work() as session:
        session.query(LogbookRow).one().time_zone = "America/New_York"
        session.commit()
    queue_due(store, START)
    assert next_due(store) == datetime(2026, 7, 13, 11, 0, tzinfo=UTC)


def test_a_logbook_begun_between_two_runs_has_its_week_told_at_the_next(store: Store) -> None:
    driven(store, (0, 48011), (60, 48211))
    assert queue_due(store, MONDAY + timedelta(days=1)) == 1


def test_the_next_time_is_kept_as_local_time_in_its_zone(store: Store) -> None:
    driven(store, (0, 48011))
    queue_due(store, START)
    with store.look() as session:
        row = session.query(WeeklyRow).one()
        assert (row.local_time, row.time_zone) == ("2026-07-13T07:00", BOISE)
        assert row.due_at == MONDAY


# When clocks change: tz database 2025b, file northamerica, rule US (second Sunday in March,
# first Sunday in November, at 2:00); file australasia for Lord Howe's half hour and for Apia's
# skipped 30 December 2011.
@pytest.mark.parametrize(
    ("after", "day", "hour", "zone", "due"),
    [
        ("2026-03-02T00:00-07:00", 6, 2, BOISE, "2026-03-08T09:00+00:00"),
        ("2026-03-08T03:00-06:00", 6, 2, BOISE, "2026-03-15T08:00+00:00"),
        ("2026-03-02T12:00-07:00", 0, 7, BOISE, "2026-03-09T13:00+00:00"),
        ("2026-10-26T12:00-06:00", 6, 1, BOISE, "2026-11-01T07:00+00:00"),
        ("2026-11-01T01:00-06:00", 6, 1, BOISE, "2026-11-08T08:00+00:00"),
        ("2026-11-01T01:30-07:00", 6, 1, BOISE, "2026-11-08T08:00+00:00"),
        ("2026-10-26T12:00-06:00", 0, 7, BOISE, "2026-11-02T14:00+00:00"),
        ("2026-09-30T12:00+10:30", 6, 2, "Australia/Lord_Howe", "2026-10-03T15:30+00:00"),
        ("2011-12-26T12:00-10:00", 4, 9, "Pacific/Apia", "2011-12-30T19:00+00:00"),
    ],
)
def test_the_hour_holds_when_the_clocks_change(
    after: str, day: int, hour: int, zone: str, due: str
) -> None:
    found = next_time(datetime.fromisoformat(after), day, hour, zone)
    assert found.astimezone(UTC) == datetime.fromisoformat(due)


@given(
    st.integers(0, 36 * 365 * 24 * 60).map(
        lambda minutes: datetime(2000, 1, 1, tzinfo=UTC) + timedelta(minutes=minutes)
    ),
    st.integers(0, 6),
    st.integers(0, 23),
    st.sampled_from([BOISE, "Europe/London", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC"]),
)
def test_a_year_of_weeks_has_each_week_once(
    start: datetime, day: int, hour: int, zone: str
) -> None:
    due = start
    dates = []
    for _ in range(53):
        following = next_time(due, day, hour, zone)
        assert following.astimezone(UTC) > due.astimezone(UTC)
        due = following
        dates.append(due.replace(tzinfo=None))
    assert all(later - earlier == timedelta(days=7) for earlier, later in pairwise(dates))
    assert {(each.weekday(), each.hour) for each in dates} == {(day, hour)}
    assert due.tzinfo == ZoneInfo(zone)


def test_a_week_that_cannot_be_told_keeps_no_other_from_being_told(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    driven(store, (0, 48001), (60, 48101))
    driven(store, (0, 30000), (60, 30100), chat="orchard")
    queue_due(store, START)
    whole = spans.week_answer

    def broken(log: Log, *rest: Any, **more: Any) -> Answer:
        if any(each.entry == Odometer(odometer=mi(48001)) for each in log):
            raise ZeroDivisionError("a bug")
        return whole(log, *rest, **more)

    monkeypatch.setattr(spans, "week_answer", broken)
    assert queue_due(store, MONDAY) == 1
    assert queue_due(store, MONDAY) == 0, "it is not tried again and again"


def test_an_entry_that_cannot_be_read_keeps_no_other_logbook_from_its_week(store: Store) -> None:
    driven(store, (0, 48001), (60, 48101))
    driven(store, (0, 30000), (60, 30100), chat="orchard")
    queue_due(store, START)
    with store.work() as session:
        first = session.query(EntryRow).order_by(EntryRow.id).first()
        assert first is not None
        first.stated_at = "no time"
        session.commit()
    assert queue_due(store, MONDAY) == 1
    assert [text for text in replies(store) if "100 mi" in text]
    assert queue_due(store, MONDAY + timedelta(days=6)) == 0, "and is told no week either"


def test_many_logbooks_are_told_each_its_own_week(store: Store) -> None:
    many = 2 * schedule.FEW + 1
    for number in range(many):
        driven(store, (0, 48000), (60, 48101 + number), chat=f"barn {number}")
    driven(store, (-30 * 24 * 60, 48000), chat="quiet")
    replies(store)
    assert queue_due(store, MONDAY) == many
    with store.look() as session:
        told = {
            parcel.chat: parcel.answer.headline
            for turn in outbox.turns(session, {"test"}, MONDAY)
            if (parcel := outbox.parcel(session, turn.key)) is not None
        }
    assert len(told) == many
    for number in range(many):
        assert f"{101 + number} mi" in told[f"barn {number}"]


@pytest.mark.parametrize("most", [1, 2, 100])
def test_logbooks_with_many_entries_are_read_a_few_at_a_time(
    store: Store, monkeypatch: pytest.MonkeyPatch, most: int
) -> None:
    for number in range(3):
        driven(store, (0, 48000), (60, 48101 + number), chat=f"barn {number}")
    monkeypatch.setattr(schedule, "MOST_ENTRIES", most)
    assert queue_due(store, MONDAY) == 3
