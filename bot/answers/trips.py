"""Answers about trips, the week, any span of days, and upkeep.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is the domain's; how a figure is written is in `measures.py` and `words.py`.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from bot.answers.answer import Answer, Row
from bot.answers.measures import distance, economy_figure, money, shares, tanks, volume
from bot.answers.words import counted, day
from domain.driving import driving
from domain.log import Log, Preferences
from domain.modes import towing
from domain.summary import Span, Summary, anything_in, before, span, summary, week_to
from domain.trip import open_trip
from domain.verdicts import Question


def trip_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The trip under way, or the last one."""
    driven = driving(log, question.truck)
    if not driven.trips:
        return Answer(
            headline="No trip in the log yet.",
            notes=("A trip starts with: hitched up, leaving, 48011.",),
        )
    trip = driven.trips[-1]
    under_way = open_trip(driven.trips, now) is not None
    zone = ZoneInfo(preferences.time_zone)
    rows = []
    if trip.split:
        rows.append(Row("Driven", shares(trip.split, preferences)))
    days = span(
        trip.start.astimezone(zone).date(), trip.last.astimezone(zone).date(), preferences.time_zone
    )
    told = summary(driven, days)
    rows += _fuel_rows(told, preferences)
    km = "distance not told" if trip.km is None else distance(trip.km, preferences)
    where = f" to {trip.places[-1]}" if trip.places else ""
    word = "so far" if under_way else _dates(days)
    return Answer(headline=f"Trip{where}: {km}, {word}.", rows=tuple(rows))


def week_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The seven days that end today."""
    return _span_answer(
        log, preferences, week_to(now, preferences.time_zone), question, "This week"
    )


def period_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The days asked about; without any, the last thirty."""
    today = now.astimezone(ZoneInfo(preferences.time_zone)).date()
    last = question.until if isinstance(question.until, date) else today
    first = question.since if isinstance(question.since, date) else last - timedelta(days=29)
    days = span(min(first, last), last, preferences.time_zone)
    return _span_answer(log, preferences, days, question, _dates(days))


def anything_this_week(log: Log, preferences: Preferences, now: datetime) -> bool:
    """Whether the week that ends today has anything worth sending a summary for."""
    return anything_in(log, week_to(now, preferences.time_zone))


def upkeep_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is due, as the owner set it."""
    return Answer(headline="No reminders set yet.", notes=("Text: oil every 5,000 miles.",))


def _span_answer(
    log: Log, preferences: Preferences, days: Span, question: Question, name: str
) -> Answer:
    driven = driving(log, question.truck)
    told = summary(driven, days)
    if not anything_in(driven.log, days):
        return Answer(headline=f"{name}: nothing logged.")
    prior = summary(driven, before(days, preferences.time_zone))
    km = "no odometer" if told.km is None else distance(told.km, preferences)
    towed = sum(km for mode, km in told.split.items() if towing(mode))
    rows = []
    if towed:
        rows.append(Row("By trailer", shares(told.split, preferences)))
    rows += _fuel_rows(told, preferences)
    if told.trips:
        rows.append(Row("Trips", str(len(told.trips))))
    if told.weighings:
        rows.append(Row("Weighings", str(len(told.weighings))))
    notes: tuple[str, ...] = ()
    if prior.km:
        notes = (f"The {counted(days.days, 'day')} before: {distance(prior.km, preferences)}.",)
    return Answer(headline=f"{name}: {km}.", rows=tuple(rows), notes=notes)


def _fuel_rows(told: Summary, preferences: Preferences) -> list[Row]:
    rows = []
    if told.fills:
        spent = money(told.spent)
        rows.append(
            Row("Fuel", volume(told.litres, preferences), spent or counted(told.fills, "fill"))
        )
    if told.economy is not None:
        rows.append(
            Row("Economy", economy_figure(told.economy, preferences), tanks(len(told.tanks)))
        )
    return rows


def _dates(days: Span) -> str:
    if days.first == days.last:
        return day(days.first)
    return f"{day(days.first)} to {day(days.last)}"
