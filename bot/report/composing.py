"""A logbook's days as a report: which sections, of which days, under which title.

This file decides what a report is of: a trip, the days asked for, a year, or the last twelve
months, and in which order it tells. What a section holds is decided in the files beside it. It
knows no store and no page.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.answers.answer import Answer
from bot.answers.journeys import away_to
from bot.answers.language import marked, say
from bot.answers.limits import CAUTION
from bot.answers.measures import local
from bot.answers.spans import period_answer
from bot.answers.trips import trip_answer
from bot.answers.words import sentence
from bot.report.care import faults_section, notes_section, people_section, upkeep_section
from bot.report.grounds import Grounds, day_of, days_of, grounds
from bot.report.road import economy_section, fuel_section, trips_section
from bot.report.scale import rig_section, weighings_section
from bot.report.value import Column, Report, Section, table
from domain.driving import Driving, driving
from domain.log import Log, Preferences
from domain.naming import names_in
from domain.summary import Span, span
from domain.trip import Trip
from domain.verdicts import Question

NO_PROMISE = marked(
    "Every figure was texted to the logbook or worked out from what was. 'Inside every rating "
    "given' is no promise: a rating that was never given is held against nothing, and a load may "
    "have changed since it was weighed."
)
SECTIONS = (
    rig_section,
    weighings_section,
    trips_section,
    economy_section,
    fuel_section,
    upkeep_section,
    faults_section,
    notes_section,
    people_section,
)
"""What a report tells after its summary, in this order; one that has nothing is left out."""


class NothingToReport(Exception):
    """There is nothing of what was asked for; the sentence says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a report is asked to be of: the last trip, or the days from first to last.

    Without either it is of the last twelve months; with one end alone, up to today or the
    twelve months before. `truck` is the logbook's first where none is named.
    """

    trip: bool = False
    first: date | None = None
    last: date | None = None
    truck: str | None = None


def days_of_year(year: int) -> tuple[date, date]:
    """The first and the last day of a calendar year."""
    return date(year, 1, 1), date(year, 12, 31)


def report(log: Log, preferences: Preferences, now: datetime, asked: Asked) -> Report:
    """The report of what was asked for, as the log stands; raises NothingToReport."""
    driven = driving(log, _truck(log, asked.truck))
    if asked.trip:
        return _of_trip(log, driven, preferences, now)
    return _of_days(log, driven, preferences, now, _days(asked, preferences, now))


def _truck(log: Log, wanted: str | None) -> str | None:
    """The truck asked for, as it is spelled; raises NothingToReport where the log has none such."""
    if wanted is None:
        return None
    trucks = names_in(log).trucks
    found = next((name for name in trucks if name.casefold() == wanted.casefold()), None)
    if found is None:
        raise NothingToReport(say("No truck called {truck} in the log.", truck=wanted))
    return found


def _of_trip(log: Log, driven: Driving, preferences: Preferences, now: datetime) -> Report:
    if not driven.trips:
        raise NothingToReport(say("No trip in the log yet."))
    trip = driven.trips[-1]
    first, last = (local(at, preferences).date() for at in (trip.start, trip.last))
    # Whole days: the load is weighed and the tank filled before setting out, too.
    days = span(first, last, preferences.time_zone)
    told = grounds(log, driven, preferences, now, days, trip)
    question = Question(topic="trip", truck=driven.truck)
    return _report(
        told, now, _trip_title(trip), trip_answer(driven.log, preferences, now, question)
    )


def _trip_title(trip: Trip) -> str:
    away = away_to(trip)
    return sentence(say("{place} trip", place=away)) if away else say("Trip")


def _of_days(
    log: Log, driven: Driving, preferences: Preferences, now: datetime, days: Span
) -> Report:
    told = grounds(log, driven, preferences, now, days)
    if not any(days.covers(each.at) for each in driven.log):
        raise NothingToReport(say("{dates}: nothing logged.", dates=days_of(days)))
    question = Question(topic="period", truck=driven.truck, since=days.first, until=days.last)
    title = say("Logbook of {truck}", truck=told.truck) if told.truck else say("Logbook")
    return _report(told, now, title, period_answer(driven.log, preferences, now, question))


def _days(asked: Asked, preferences: Preferences, now: datetime) -> Span:
    today = local(now, preferences).date()
    last = asked.last or today
    first = asked.first or last - timedelta(days=365)
    first, last = min(first, last), max(first, last)
    return span(first, min(last, max(today, first)), preferences.time_zone)


def _report(told: Grounds, now: datetime, title: str, glance: Answer) -> Report:
    sections = (_glance(glance), *(each(told) for each in SECTIONS))
    return Report(
        language=told.preferences.language,
        title=title,
        span=days_of(told.days),
        made=say("Made on {day}", day=day_of(local(now, told.preferences))),
        page=say("Page {number} of {all}"),
        # What is in the printers where people weigh in pounds, and elsewhere (ISO 216).
        paper="letter" if told.preferences.units == "us" else "a4",
        sections=tuple(each for each in sections if not each.empty),
        caution=say(CAUTION),
    )


def _glance(answer: Answer) -> Section:
    """The answer to the same question in a chat, so that both tell the same."""
    return Section(
        title=say("At a glance"),
        paragraphs=(answer.headline, *answer.notes, f"{say(NO_PROMISE)} {say(CAUTION)}"),
        tables=table(
            say("Figures"),
            (Column(say("What")), Column(say("Figure"), "right"), Column(say("Remark"))),
            [(row.label, row.figure, row.remark) for row in answer.rows],
        ),
    )
