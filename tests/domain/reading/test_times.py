"""When it happened, as people write and say a clock time, and numbers that only look like one."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from domain.entries import Odometer
from domain.verdicts import Facts
from tests.domain.reading.chats import SENT_AT, Reader, on_the_road

AXLES = "steer 5,220 drive 6,940 trailer 9,310"


def at(reads: Reader, text: str) -> date | datetime | None:
    """The moment that a message of one entry gives it."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    (entry,) = verdict.entries
    moment: date | datetime | None = entry.at
    return moment


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [
        (f"scaled at 7.50 this morning: {AXLES}", 7, 50),
        (f"{AXLES}, 7.50am", 7, 50),
        (f"{AXLES} 7.50 am", 7, 50),
        (f"this morning at seven thirty {AXLES}", 7, 30),
        (f"weighed this morning at eight {AXLES}", 8, 0),
        (f"scaled at eight this morning {AXLES}", 8, 0),
        (f"nine fifteen this morning {AXLES}", 9, 15),
        (f"weighed at 0650, {AXLES}", 6, 50),
        (f"weighed at 0650 hrs, {AXLES}", 6, 50),
        (f"scaled at 1310: {AXLES}", 13, 10),
        (f"at ten past eight {AXLES}", 8, 10),
        (f"weighed at five to nine: {AXLES}", 8, 55),
        (f"weighed at half seven: {AXLES}", 7, 30),
        (f"weighed about half seven: {AXLES}", 7, 30),
        (f"weighed around half seven: {AXLES}", 7, 30),
        (f"at seven thirty a m {AXLES}", 7, 30),
        (f"at two in the afternoon {AXLES}", 14, 0),
        ("5,220 on the steers and 6,940 on the drives around eight this morning", 8, 0),
        ("weighed at twelve fifteen, gross 21,470", 12, 15),
        (f"at eight forty {AXLES}", 8, 40),
        (f"{AXLES}, ten minutes ago", 14, 12),
        ("left home 7.15am, 48,030", 7, 15),
        ("left at 7.15, odo 48,030", 7, 15),
        ("rolled out at seven fifteen odometer forty eight oh thirty", 7, 15),
        ("this morning at six fifteen filled up thirty point six gallons", 6, 15),
        ("left at eight fifteen trans one ninety", 8, 15),
        ("dep 0640 odo 48,030", 6, 40),
    ],
)
def test_a_clock_time_in_many_forms(text: str, hour: int, minute: int, reads: Reader) -> None:
    assert at(reads, text) == SENT_AT.replace(hour=hour, minute=minute)


@pytest.mark.parametrize(
    "text",
    [
        "31.2 gal at 3.59 today",
        "filled up at 3.50 this morning, 30 gal",
        "trans at two ten this morning",
        "today at 3.59 got 31 gal, 48,300",
        "egt at 1140 this morning",
        "tires at 80 this morning",
        "paid 12.50 this morning for the weigh, gross 21,300",
    ],
)
def test_a_price_or_a_gauge_beside_a_day_is_no_hour(text: str, reads: Reader) -> None:
    assert at(reads, text) == SENT_AT.date()


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [
        (f"{AXLES} 2:15", 14, 15),
        ("filled at 1:30, 24.1 gal", 13, 30),
        (f"{AXLES} 02:15", 2, 15),
        (f"{AXLES} 2:15 am", 2, 15),
        (f"{AXLES} at 9:15", 9, 15),
        (f"{AXLES} 3:15", 3, 15),
        ("got in quarter past two, 48,310", 14, 15),
        ("got in ten to two, 48,310", 13, 50),
        ("left at half six, 48,310", 6, 30),
    ],
)
def test_of_an_early_hour_alone_it_was_the_last(
    text: str, hour: int, minute: int, reads: Reader
) -> None:
    assert SENT_AT.hour == 14
    assert at(reads, text) == SENT_AT.replace(hour=hour, minute=minute)


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [
        ("got home quarter to six, 48,310", 17, 45),
        ("got in at 8:10, 48,310", 8, 10),
        ("got in at 08:10, 48,310", 8, 10),
        ("left at 6:10, 48,310", 18, 10),
        ("left at 6:10 am, 48,310", 6, 10),
    ],
)
def test_in_the_evening_too_it_was_the_last(
    text: str, hour: int, minute: int, reads: Reader
) -> None:
    evening = on_the_road(sent_at=SENT_AT.replace(hour=19, minute=20))
    verdict = reads(text, evening)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert entry.at == SENT_AT.replace(hour=hour, minute=minute)


@pytest.mark.parametrize(
    ("text", "day", "hour", "minute"),
    [
        ("got in at 11:40 last nite, 48,310", 10, 23, 40),
        ("got in at 1 last night, 48,310", 11, 1, 0),
        ("got in at 12:30 last night, 48,310", 11, 0, 30),
        ("unhooked the camper about half six last night", 10, 18, 30),
        ("half seven last evening, odo 48,310", 10, 19, 30),
        ("parked up noon Tuesday, odo 48,310", 7, 12, 0),
        ("midday Saturday, odo 48,310", 4, 12, 0),
        ("parked up at noon yesterday, odo 48,310", 10, 12, 0),
        ("parked up at noon, odo 48,310", 11, 12, 0),
        ("got in Friday night at 11:40, 48,310", 10, 23, 40),
        ("got in Friday night at 1, 48,310", 11, 1, 0),
        ("filled 21 gal Tuesday afternoon at 4:15", 7, 16, 15),
        ("filled 21 gal Tuesday at 2:15", 7, 14, 15),
        ("left Friday morning at 4:15, 48,310", 10, 4, 15),
        ("left at 7 sharp, 48,310", 11, 7, 0),
        ("left home at 6 on the dot, 48,310", 11, 6, 0),
        ("set off half six, 48,310 on the clock", 11, 6, 30),
        ("parked up around half 7, 48,310", 11, 7, 30),
    ],
)
def test_the_day_and_its_half_as_they_are_told(
    text: str, day: int, hour: int, minute: int, reads: Reader
) -> None:
    assert at(reads, text) == SENT_AT.replace(day=day, hour=hour, minute=minute)


def test_noon_that_is_still_to_come_was_yesterdays(reads: Reader) -> None:
    morning = on_the_road(sent_at=SENT_AT.replace(hour=9, minute=0))
    verdict = reads("parked up at noon, odo 48,310", morning)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert entry.at == SENT_AT.replace(day=10, hour=12, minute=0)


@pytest.mark.parametrize(
    "text",
    [
        "fuel half, 6 hives on: steer 5,220 drive 6,940",
        "tank about half, steer 5,220 drive 6,940",
        "left 7 sharp stakes in the box: steer 5,220 drive 6,940",
    ],
)
def test_half_of_something_and_what_is_sharp_tell_no_hour(text: str, reads: Reader) -> None:
    assert at(reads, text) is None


@pytest.mark.parametrize("clock", ["around nine last night", "around 9:15", "around noon"])
def test_what_stands_around_an_hour_is_of_no_place(clock: str, reads: Reader) -> None:
    verdict = reads(f"unhitched at the lower barn {clock}", on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert entry.place == "lower barn"


def test_an_early_hour_that_is_still_to_come_was_in_the_afternoon_before(reads: Reader) -> None:
    night = on_the_road(sent_at=SENT_AT.replace(hour=0, minute=51))
    verdict = reads(f"{AXLES} 2:15", night)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert entry.at == SENT_AT.replace(hour=14, minute=15) - timedelta(days=1)


def test_an_hour_later_than_now_was_yesterdays(reads: Reader) -> None:
    evening = SENT_AT.replace(day=10, hour=21, minute=0)
    assert at(reads, f"{AXLES} at 9 last night") == evening
    assert at(reads, f"{AXLES} at 9 last nite") == evening
    assert at(reads, f"{AXLES} at six pm") == evening.replace(hour=18)


@pytest.mark.parametrize("size", ["2 5/16", "2-5/16", "1 7/8"])
def test_the_size_of_a_ball_is_no_day(size: str, reads: Reader) -> None:
    assert at(reads, f"ball {size} rated 12,000") is None


@pytest.mark.parametrize(
    "text",
    [
        "so we left at 6:10 this morning, 48,050 showing, and pulled in at 11:45, 48,318",
        "left at 6:10 with 48,050, arrived at 11:45 with 48,318",
        "left at six ten with forty eight oh fifty arrived at eleven forty five with "
        "forty eight three eighteen",
    ],
)
def test_each_reading_has_the_event_and_the_clock_beside_it(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    told = [
        (entry.event, entry.odometer.value, entry.at)
        for entry in verdict.entries
        if isinstance(entry, Odometer)
    ]
    assert told == [
        ("depart", 48_050, SENT_AT.replace(hour=6, minute=10)),
        ("arrive", 48_318, SENT_AT.replace(hour=11, minute=45)),
    ]


def test_a_day_said_once_is_that_of_both_clocks(reads: Reader) -> None:
    text = "yesterday left at 6:10 with 48,050, arrived at 11:45 with 48,318"
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [entry.at for entry in verdict.entries] == [
        SENT_AT.replace(day=10, hour=6, minute=10),
        SENT_AT.replace(day=10, hour=11, minute=45),
    ]


def test_a_fill_and_a_weighing_at_two_clocks(reads: Reader) -> None:
    text = "filled 22 gal at 7:15, weighed steer 5,240 drive 6,880 at 8:40"
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [entry.at for entry in verdict.entries] == [
        SENT_AT.replace(hour=7, minute=15),
        SENT_AT.replace(hour=8, minute=40),
    ]


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("got in an hour and a half ago, 48,310", 1.5),
        ("odo 48,310 two and a half hours ago", 2.5),
        ("fueled an hour and a quarter ago, 21 gal", 1.25),
        ("got in an hour and 20 minutes ago, 48,310", 4 / 3),
        ("fueled 1.5 hours ago, 21 gal", 1.5),
        ("fueled 1 hr 40 min ago, 21 gal", 5 / 3),
        ("fueled 1h40 ago, 21 gal", 5 / 3),
        ("fueled 3h ago, 21 gal", 3),
        ("odo 48,310 three quarters of an hour ago", 0.75),
        ("fueled 1 1/2 hours ago, 21 gal", 1.5),
        ("fueled 1½ hours ago, 21 gal", 1.5),
        (f"weighed a good hour ago, {AXLES}", 1),
        (f"weighed twenty five minutes ago, {AXLES}", 25 / 60),
    ],
)
def test_how_long_ago_it_was(text: str, hours: float, reads: Reader) -> None:
    then = at(reads, text)
    assert isinstance(then, datetime)
    assert SENT_AT - then == timedelta(hours=hours)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("filled up a day and a half ago, 21 gal", date(2026, 7, 10)),
        ("filled up 21 gal two days ago", date(2026, 7, 9)),
        ("fueled a week ago, 21 gal", date(2026, 7, 4)),
    ],
)
def test_how_many_days_ago(text: str, day: date, reads: Reader) -> None:
    assert at(reads, text) == day


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("last week tuesday", date(2026, 6, 30)),
        ("tuesday of last week", date(2026, 6, 30)),
        ("last week on thursday", date(2026, 7, 2)),
        ("the tuesday before last", date(2026, 6, 30)),
        ("last tuesday", date(2026, 7, 7)),
        ("on tuesday", date(2026, 7, 7)),
    ],
)
def test_a_day_of_last_week_is_of_that_week(said: str, day: date, reads: Reader) -> None:
    """Weeks begin on Monday (ISO 8601); it was texted on Saturday 11 July."""
    assert at(reads, f"{said}: {AXLES}") == day
    assert at(reads, f"{AXLES} {said}") == day


def test_each_reading_has_the_day_that_stands_beside_it(reads: Reader) -> None:
    verdict = reads("left friday 48,030, got home saturday 48,390", on_the_road())
    assert isinstance(verdict, Facts)
    assert [entry.at for entry in verdict.entries] == [date(2026, 7, 10), date(2026, 7, 11)]


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("11.07.2026", date(2026, 7, 11)),
        ("07.10.2026", date(2026, 7, 10)),
        ("07/10/2026", date(2026, 7, 10)),
    ],
)
def test_a_day_with_dots_that_is_still_to_come_is_told_day_first(
    written: str, day: date, reads: Reader
) -> None:
    assert at(reads, f"Date: {written} / Gross: 21,320 lb") == day


@pytest.mark.parametrize("written", ["2026/07/10", "2026.07.10", "2026-07-10"])
def test_a_day_may_begin_with_its_year(written: str, reads: Reader) -> None:
    assert at(reads, f"{written} gross 21,320 lb") == date(2026, 7, 10)
    assert at(reads, f"{written} 06:55 gross 21,320 lb") == datetime(
        2026, 7, 10, 6, 55, tzinfo=SENT_AT.tzinfo
    )
