"""Answers about a span of days: the week, a month, what fuel cost, how far.

This file decides which of the worked-out figures an answer shows and in what order. What
counts for a span is worked out in `domain/summary.py`.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bot.answers.answer import Answer, Row
from bot.answers.journeys import (
    asked_span,
    away_to,
    gap_notes,
    heaviest_rows,
    over_first,
    over_notes,
    when_of,
)
from bot.answers.language import say, say_count
from bot.answers.measures import (
    carbon,
    cost_rows,
    dates,
    distance,
    economy_figure,
    fills,
    local,
    mode_name,
    money,
    tanks,
    the_trailer,
    volume,
)
from bot.answers.road_pictures import week_picture
from bot.answers.upkeep import attention
from bot.answers.words import day, figure, sentence
from bot.reference import fuel_facts, references
from domain.account import heaviest
from domain.driving import Driving, driving
from domain.economy import as_measured
from domain.entries import Fill
from domain.fuel import DEF, truck_fuel
from domain.log import Log, Preferences
from domain.modes import towing
from domain.rig import rig_of
from domain.summary import Poured, Span, Summary, anything_in, before, span, summary, week_to
from domain.verdicts import Question

MOST_MODES = 3
"""Trailers that a summary lists; the rest are one row."""


def week_answer(
    log: Log,
    preferences: Preferences,
    now: datetime,
    question: Question,
    *,
    unanswered: int = 0,
) -> Answer:
    """The seven days that end today; `unanswered` counts the questions that wait for a reply."""
    days = week_to(now, preferences.time_zone)
    return _span_answer(log, preferences, now, days, question, unanswered, on_a_card=True)


def period_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The days asked about; without any, the last thirty."""
    today = local(now, preferences).date()
    last = question.until if isinstance(question.until, date) else today
    first = question.since if isinstance(question.since, date) else last - timedelta(days=29)
    days = span(min(first, last), min(max(first, last), max(today, first)), preferences.time_zone)
    return _span_answer(log, preferences, now, days, question, 0)


def cost_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What fuel cost over a span, or over the last year: in all, and a mile."""
    asked = asked_span(question, preferences, now)
    days = asked or _last_year(preferences, now)
    when = when_of(asked, preferences, now)
    driven = driving(log, question.truck)
    told = summary(driven, days)
    if question.product == DEF:
        return _def_cost(told.exhaust_fluid, preferences, when)
    if not told.fills:
        return Answer(headline=say("No fuel bought {when}.", when=when))
    a_mile = cost_rows(told.tanks, preferences)
    rows = [_bought(told, preferences, fills(told.fills)), *a_mile]
    product = truck_fuel(driven.log) or rig_of(driven.log, truck=driven.truck).fuel
    kilograms = fuel_facts().co2_kg(told.litres, product)
    if kilograms:
        rows.append(Row("CO2", carbon(kilograms, preferences), say("EPA factor")))
    notes: list[str] = []
    if told.spent and not a_mile:
        notes.append(say("What the distance cost comes with the next full tank and its odometer."))
    notes += _unpriced_notes(told.unpriced)
    headline = (
        say("{money} on fuel {when}.", money=money(told.spent), when=when)
        if told.spent
        else say("No prices told on fuel {when}.", when=when)
    )
    return Answer(
        headline=headline,
        rows=tuple(rows),
        notes=tuple(notes),
    )


def _def_cost(poured: Poured, preferences: Preferences, when: str) -> Answer:
    """What exhaust fluid cost, which is no fuel."""
    if not poured.fills:
        return Answer(headline=say("No DEF bought {when}.", when=when))
    if not poured.spent:
        headline = say("No prices told on DEF {when}.", when=when)
    else:
        headline = say("{money} on DEF {when}.", money=money(poured.spent), when=when)
    rows = (Row(say("DEF"), volume(poured.litres, preferences), fills(poured.fills)),)
    notes = _unpriced_notes(poured.unpriced) if poured.spent else ()
    return Answer(headline=headline, rows=rows if poured.litres else (), notes=notes)


def _unpriced_notes(count: int) -> tuple[str, ...]:
    """How many fills the money leaves out."""
    if not count:
        return ()
    return (
        say_count(
            "{count} fill without a price left out of the money.",
            "{count} fills without a price left out of the money.",
            count,
        ),
    )


def distance_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """How far, over a span or over the last year."""
    asked = asked_span(question, preferences, now)
    days = asked or _last_year(preferences, now)
    when = when_of(asked, preferences, now)
    driven = driving(log, question.truck)
    told = summary(driven, days)
    if told.km is None:
        return Answer(headline=say("No odometer reading {when}.", when=when))
    if len(driven.track.marks) == 1:
        return Answer(headline=say("One odometer reading so far; the next one tells how far."))
    wanted = (question.trailer or "").casefold()
    towed = next((km for mode, km in told.split.items() if mode.casefold() == wanted), None)
    if towed is not None:
        return Answer(
            headline=say(
                "{distance} with {trailer} {when}.",
                distance=distance(towed, preferences),
                trailer=the_trailer(question.trailer or ""),
                when=when,
            )
        )
    rows = [Row(mode_name(mode), distance(km, preferences)) for mode, km in told.split.items()]
    return Answer(
        headline=f"{distance(told.km, preferences)} {when}.",
        rows=tuple(rows) if len(rows) > 1 else (),
    )


def since_fill_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """How far since the last fill of the truck's fuel, as far as the odometer was texted."""
    driven = driving(log, question.truck)
    fills_of_truck = [each for each in driven.log.of(Fill) if each.entry.product != DEF]
    latest = driven.track.latest
    if not fills_of_truck or latest is None:
        return Answer(headline=say("No fill in the log yet."))
    last = fills_of_truck[-1]
    when, km = day(local(last.at, preferences)), driven.track.km_of(last)
    if km is None:
        return Answer(headline=say("The last fill, on {day}, has no odometer reading.", day=when))
    if latest.km <= km:
        return Answer(
            headline=say("No odometer reading since the fill on {day}.", day=when),
            rows=_shown_rows(last.entry),
            notes=(say("Text what it reads now, and I tell how far."),),
        )
    return Answer(
        headline=say(
            "{distance} since the fill on {day}.",
            distance=distance(latest.km - km, preferences),
            day=when,
        ),
        rows=_shown_rows(last.entry),
    )


def _shown_rows(fill: Fill) -> tuple[Row, ...]:
    """What the odometer read at a fill."""
    if fill.odometer is None:
        return ()
    return (Row(say("At the fill"), figure(fill.odometer, 0)),)


def odometer_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """What the odometer read last."""
    latest = driving(log, question.truck).track.latest
    shown = getattr(latest.logged.entry, "odometer", None) if latest else None
    if latest is None or shown is None:
        return Answer(headline=say("No odometer reading in the log yet."))
    when = day(local(latest.at, preferences))
    return Answer(headline=say("{reading} on {day}.", reading=figure(shown, 0), day=when))


def _span_answer(
    log: Log,
    preferences: Preferences,
    now: datetime,
    days: Span,
    question: Question,
    unanswered: int,
    *,
    on_a_card: bool = False,
) -> Answer:
    driven = driving(log, question.truck)
    today = local(now, preferences).date()
    name = sentence(dates(days.first, days.last, today))
    if not anything_in(driven.log, days):
        return Answer(headline=say("{dates}: nothing logged.", dates=name))
    told = summary(driven, days)
    prior = summary(driven, before(days, preferences.time_zone))
    wants = attention(driven, preferences, now, unanswered) if days.last == today else ()
    top = heaviest(driven, days.start, days.end, references())
    rows = [
        *_span_mode_rows(told, preferences),
        *_fuel_rows(driven, told, preferences),
        *_tank_rows(told, preferences),
        *_trips_rows(told, preferences),
        *heaviest_rows(top, preferences),
        *_before_rows(days, prior, preferences),
    ]
    return Answer(
        headline=over_first(top, preferences) + f"{name}: {_span_phrase(told, preferences)}.",
        rows=tuple(rows),
        notes=(
            *over_notes(top, preferences),
            *wants[:3],
            *gap_notes(told.trips, preferences),
        ),
        picture=week_picture(driven, told, top, wants[:3], preferences) if on_a_card else None,
    )


def _span_phrase(told: Summary, preferences: Preferences) -> str:
    parts = []
    if told.km:
        towed = sum(km for mode, km in told.split.items() if towing(mode))
        part = distance(told.km, preferences)
        if towed and told.km - towed > 1:
            towing_part = say("{distance} of it towing", distance=distance(towed, preferences))
            part = f"{part}, {towing_part}"
        elif towed:
            part = say("{distance} towing", distance=part)
        parts.append(part)
    if told.spent:
        parts.append(say("{money} on fuel", money=money(told.spent)))
    if not parts:
        weighings = len(told.weighings)
        parts.append(
            say_count("{count} weighing", "{count} weighings", weighings)
            if weighings
            else say("no driving")
        )
    return "; ".join(parts)


def _span_mode_rows(told: Summary, preferences: Preferences) -> list[Row]:
    """Distance by trailer, with its economy where the span's own tanks tell it."""
    rates = as_measured(told.tanks)
    if len(told.split) < 2:
        return []
    shown = list(told.split.items())[:MOST_MODES]
    rest = list(told.split.items())[MOST_MODES:]
    rows = [
        Row(
            mode_name(mode),
            distance(km, preferences),
            economy_figure(rates[mode], preferences) if mode in rates else "",
        )
        for mode, km in shown
    ]
    if rest:
        rows.append(Row(say("Others"), distance(sum(km for _, km in rest), preferences)))
    return rows


def _bought(told: Summary, preferences: Preferences, remark: str) -> Row:
    """The fuel bought; where only its price was texted, how many times."""
    if not told.litres:
        return Row(say("Fuel"), fills(told.fills), say("no volume given"))
    return Row(say("Fuel"), volume(told.litres, preferences), remark)


def _fuel_rows(driven: Driving, told: Summary, preferences: Preferences) -> list[Row]:
    rows = []
    if told.fills:
        remark = (
            say_count("{count} without a price", "{count} without a price", told.unpriced)
            if told.unpriced
            else fills(told.fills)
        )
        rows.append(_bought(told, preferences, remark))
    if told.economy is not None:
        rows.append(
            Row(say("Economy"), economy_figure(told.economy, preferences), tanks(len(told.tanks)))
        )
    rows += cost_rows(told.tanks, preferences)
    poured = told.exhaust_fluid
    if poured.litres:
        rows.append(Row(say("DEF"), volume(poured.litres, preferences), money(poured.spent)))
    product = truck_fuel(driven.log) or rig_of(driven.log, truck=driven.truck).fuel
    carbon_kg = fuel_facts().co2_kg(told.litres, product)
    if carbon_kg and told.days.days > 7:
        rows.append(Row("CO2", carbon(carbon_kg, preferences)))
    return rows


def _tank_rows(told: Summary, preferences: Preferences) -> list[Row]:
    """Best and worst tank, where they differ by more than their uncertainty."""
    best, worst = told.best, told.worst
    if best is None or worst is None or best.rate.low <= worst.rate.high:
        return []
    return [
        Row(
            label,
            economy_figure(tank.rate, preferences),
            day(local(tank.closed.at, preferences)),
        )
        for label, tank in ((say("Best tank"), best), (say("Worst tank"), worst))
    ]


def _trips_rows(told: Summary, preferences: Preferences) -> list[Row]:
    if not told.trips:
        return []
    longest = max(told.trips, key=lambda trip: trip.km or 0.0)
    km = "" if longest.km is None else distance(longest.km, preferences)
    where = away_to(longest) or ""
    if len(told.trips) == 1:
        return [Row(say("Trip"), km or "1", where)]
    farthest = say("longest {distance}", distance=km) if km else ""
    remark = ", ".join(part for part in (farthest, where) if part)
    return [Row(say("Trips"), str(len(told.trips)), remark)]


def _before_rows(days: Span, prior: Summary, preferences: Preferences) -> list[Row]:
    if not prior.km and not prior.fills:
        return []
    label = (
        say("Week before")
        if days.days == 7
        else say_count("{count} day before", "{count} days before", days.days)
    )
    driven_km = distance(prior.km, preferences) if prior.km else say("no odometer")
    return [Row(label, driven_km, money(prior.spent))]


def _last_year(preferences: Preferences, now: datetime) -> Span:
    today = local(now, preferences).date()
    return span(today - timedelta(days=365), today, preferences.time_zone)
