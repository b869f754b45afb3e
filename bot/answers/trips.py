"""Answers about a trip: the one under way, the last, or one asked about.

This file decides which of the worked-out figures an answer shows and in what order. What a
trip amounts to is worked out in `domain/account.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime

from bot.answers.answer import Answer, Row
from bot.answers.brief import gauge_name
from bot.answers.examples import HOME, TRIP, texted
from bot.answers.journeys import away_to, gap_notes, heaviest_rows, over_first, over_notes
from bot.answers.language import say
from bot.answers.measures import (
    dates,
    distance,
    economy_figure,
    elapsed,
    fuel_burnt,
    local,
    mode_name,
    mode_phrase,
    money,
    per_distance,
)
from bot.answers.spans import cost_answer, distance_answer
from bot.answers.terms import term
from bot.answers.upkeep import walked
from bot.answers.words import about, figure, listed, rounded, sentence
from bot.reference import references
from domain.account import Account, Burnt, account
from domain.context import TEMPERATURE_UNIT
from domain.driving import Driving, driving
from domain.economy import estimate
from domain.log import Log, Preferences
from domain.money import Money
from domain.summary import span
from domain.trip import Trip, open_trip, to_ask_about
from domain.verdicts import Question


def no_trip(preferences: Preferences) -> Answer:
    """What is said where no trip was begun yet."""
    return Answer(
        headline=say("No trip in the log yet."),
        notes=(
            say("A trip starts with a text like: {example}.", example=texted(TRIP, preferences)),
        ),
    )


def trip_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The trip under way or the last one, or the one of a trailer or a day asked about."""
    driven = driving(log, question.truck)
    trip = _asked_trip(driven, question, preferences)
    if trip is None:
        return no_trip(preferences)
    estimates = estimate(driven.chain.tanks)
    told = account(driven, trip, estimates, references())
    rows = [
        *_mode_rows(trip.split, preferences),
        *_burnt_rows(told.burnt, preferences),
        *heaviest_rows(told.heaviest, preferences),
        *_hottest_rows(told, preferences),
        *_walked_rows(driven, trip),
    ]
    return Answer(
        headline=over_first(told.heaviest, preferences)
        + _trip_headline(driven, trip, preferences, now),
        rows=tuple(rows),
        notes=(*_trip_notes(driven, trip, told, preferences, now), *told.notes[:2]),
    )


def trip_cost_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """What fuel a trip took and what that cost; over a span where there was no trip."""
    driven = driving(log, question.truck)
    trip = _asked_trip(driven, question, preferences)
    if trip is None:
        return cost_answer(log, preferences, now, question)
    told = account(driven, trip, estimate(driven.chain.tanks), references())
    if told.burnt is not None and told.burnt.cost:
        spent = about(whole_money(told.burnt.cost))
        headline = say("{money} on fuel for the trip.", money=sentence(spent))
    elif told.bought:
        headline = say("{money} of fuel bought on the trip.", money=money(told.bought))
    else:
        headline = say("No prices told for the fuel of the trip.")
    return Answer(
        headline=headline,
        rows=tuple(_burnt_rows(told.burnt, preferences)),
        notes=(_trip_headline(driven, trip, preferences, now),),
    )


def trip_distance_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """How far a trip has gone, by trailer; over a span where there was no trip."""
    driven = driving(log, question.truck)
    trip = _asked_trip(driven, question, preferences)
    if trip is None:
        return distance_answer(log, preferences, now, question)
    return Answer(
        headline=_trip_headline(driven, trip, preferences, now),
        rows=tuple(_mode_rows(trip.split, preferences)),
    )


def _asked_trip(driven: Driving, question: Question, preferences: Preferences) -> Trip | None:
    """The latest trip that the question means."""
    wanted = driven.trips
    if question.trailer:
        name = question.trailer.casefold()
        wanted = tuple(
            trip for trip in wanted if any(mode.casefold() == name for mode in trip.split)
        )
    if isinstance(question.since, date):
        last = question.until if isinstance(question.until, date) else question.since
        days = span(question.since, max(question.since, last), preferences.time_zone)
        wanted = tuple(trip for trip in wanted if trip.start < days.end and trip.last >= days.start)
    return wanted[-1] if wanted else None


def _trip_headline(driven: Driving, trip: Trip, preferences: Preferences, now: datetime) -> str:
    away = away_to(trip)
    name = sentence(say("{place} trip", place=away)) if away else say("Trip")
    under_way = trip is driven.trips[-1] and open_trip(driven.trips, now) is not None
    start, last = local(trip.start, preferences).date(), local(trip.last, preferences).date()
    km = say("no odometer told") if trip.km is None else distance(trip.km, preferences)
    how = mode_phrase(next(iter(trip.split))) if len(trip.split) == 1 else ""
    what = f"{km} {how}".strip()
    if under_way:
        return say(
            "{trip} so far: {driven} in {time}.",
            trip=name,
            driven=what,
            time=elapsed(trip.start, max(trip.last, trip.start)),
        )
    return say(
        "{trip}, {dates}: {driven} in {time}.",
        trip=name,
        dates=dates(start, last, local(now, preferences).date()),
        driven=what,
        time=elapsed(trip.start, trip.last),
    )


def _mode_rows(split: Mapping[str, float], preferences: Preferences) -> list[Row]:
    if len(split) < 2:
        return []
    return [Row(mode_name(mode), distance(km, preferences)) for mode, km in split.items()]


def _burnt_rows(spent: Burnt | None, preferences: Preferences) -> list[Row]:
    if spent is None:
        return []
    remark = ""
    if not spent.measured:
        wholly = spent.reckoned_km >= spent.km
        remark = say("reckoned, no full tank yet") if wholly else say("reckoned, for the most part")
    rows = [Row(say("Fuel"), fuel_burnt(spent.litres, spent.sd, preferences), remark)]
    if spent.measured:
        rows.append(Row(say("Economy"), economy_figure(spent.rate, preferences)))
    if spent.cost:
        remark = ""
        if len(spent.cost) == 1:
            remark = per_distance(spent.cost[0], spent.km, preferences)
        rows.append(Row(say("Cost"), about(whole_money(spent.cost)), remark))
    return rows


def _hottest_rows(told: Account, preferences: Preferences) -> list[Row]:
    unit = TEMPERATURE_UNIT[preferences.units]
    return [
        Row(
            say("Hottest") if index == 0 else "",
            rounded(each.entry.value.to(unit)),
            gauge_name(each.entry.subject, each.entry.position),
        )
        for index, each in enumerate(told.hottest[:2])
    ]


def _walked_rows(driven: Driving, trip: Trip) -> list[Row]:
    stands = walked(driven, trip.start, trip.last)
    if not stands.begun:
        return []
    total = len(stands.ticked) + len(stands.left)
    names = list(dict.fromkeys(each.by for each in stands.ticked.values() if each.by))
    ticked = say("{some} of {all}", some=len(stands.ticked), all=total)
    return [Row(say("Walk-round"), ticked, listed(names))]


def _trip_notes(
    driven: Driving, trip: Trip, told: Account, preferences: Preferences, now: datetime
) -> tuple[str, ...]:
    notes = over_notes(told.heaviest, preferences)
    faults = walked(driven, trip.start, trip.last).faults
    if faults:
        items = listed([term(each.entry.item) for each in faults[:3]])
        notes.append(say("Not put right on it: {items}.", items=items))
    if trip is driven.trips[-1] and to_ask_about(driven.trips, now):
        notes.append(
            say(
                "If it is over, text the odometer where it ended, like: {example}.",
                example=texted(HOME, preferences),
            )
        )
    elif trip.ending == "untold":
        notes.append(
            say("Its end was never texted; taken at the last reading before the next trip.")
        )
    position = driven.trips.index(trip)
    notes += gap_notes(driven.trips[max(position - 1, 0) : position + 1], preferences)
    return tuple(notes)


def whole_money(amounts: Money) -> str:
    """Amounts of money that were reckoned, without cents."""
    return listed([figure(amount, 0) for amount in amounts])
