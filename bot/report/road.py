"""What a report tells of the road: trips, economy by trailer, fuel and its cost.

This file decides what a trip's row holds, and whether fuel is told by the month or fill by
fill. Figures are worked out and written as they are in the answers to the same questions.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from bot.answers.answer import Row
from bot.answers.fuel import economy_shown
from bot.answers.journeys import away_to
from bot.answers.language import date_text, say, say_count
from bot.answers.measures import (
    dates,
    distance,
    economy_figure,
    fuel_burnt,
    local,
    mode_word,
    money,
    price,
    volume,
)
from bot.answers.trips import whole_money
from bot.answers.words import about, figure, listed
from bot.report.grounds import Grounds
from bot.report.value import Column, Section, Table, table
from domain.account import burnt
from domain.context import VOLUME_UNIT
from domain.economy import Estimates, estimate
from domain.entries import Fill
from domain.fuel import is_fuel
from domain.log import Logged
from domain.modes import towing
from domain.money import fill_cost, fill_volume, unit_price
from domain.summary import Span, Summary, span, summary
from domain.trip import Trip
from domain.verdicts import PICTURE, Question

NEVER = date.min
"""A day in none of the years told of, so that each is written with its year."""

MOST_FILLS = 45
"""Days up to which fuel is told fill by fill; beyond, by the month."""


def trips_section(told: Grounds) -> Section:
    """Every trip that ended in the days, or the one that the report is of."""
    found = (told.trip,) if told.trip else summary(told.driven, told.days).trips
    estimates = estimate(told.driven.chain.tanks)
    rows = [_trip(told, each, estimates) for each in found]
    return Section(
        title=say("Trips"),
        tables=table(
            say("Trips, fuel and cost reckoned from the full tanks around them"),
            (
                Column(say("Dates")),
                Column(say("To")),
                Column(say("Trailer")),
                Column(say("Distance"), "right"),
                Column(say("Fuel"), "right"),
                Column(say("Economy"), "right"),
                Column(say("Cost"), "right"),
                Column(say("Remark")),
            ),
            rows,
        ),
        paragraphs=(say("Economy is given with the interval that holds nine times in ten."),)
        if rows
        else (),
    )


def _trip(told: Grounds, trip: Trip, estimates: Estimates) -> tuple[str, ...]:
    preferences = told.preferences
    spent = (
        burnt(told.driven, estimates, trip.start_km, trip.end_km)
        if trip.start_km is not None and trip.end_km is not None
        else None
    )
    measured = spent is not None and spent.measured
    first, last = (local(at, preferences).date() for at in (trip.start, trip.last))
    towed = [mode_word(mode) for mode in trip.split if towing(mode)]
    return (
        dates(first, last, NEVER),
        away_to(trip) or "",
        listed(towed or [mode_word(mode) for mode in trip.split]),
        "" if trip.km is None else distance(trip.km, preferences),
        "" if spent is None else fuel_burnt(spent.litres, spent.sd, preferences),
        economy_figure(spent.rate, preferences) if spent and measured else "",
        about(whole_money(spent.cost)) if spent and spent.cost else "",
        _remark(trip, measured=measured or spent is None),
    )


def _remark(trip: Trip, *, measured: bool) -> str:
    """What a reader must know to take a trip's figures for what they are."""
    remarks = (
        "" if measured else say("reckoned, no full tank yet"),
        say("still open") if trip.ending is None else "",
        say("end never texted") if trip.ending == "untold" else "",
    )
    return ", ".join(filter(None, remarks))


def economy_section(told: Grounds) -> Section:
    """Each way of driving over the tanks closed in the days, as the answer has it."""
    question = Question(
        topic="economy",
        form=PICTURE,
        truck=told.driven.truck,
        since=told.days.first,
        until=told.days.last,
    )
    answer = economy_shown(told.driven.log, told.preferences, told.then, question)
    if not answer.rows:
        return Section(title=say("Economy by trailer"))
    return Section(
        title=say("Economy by trailer"),
        paragraphs=answer.notes,
        pictures=(answer.picture,) if answer.picture else (),
        tables=_as_table(say("Over the full tanks of these days"), answer.rows),
    )


def _as_table(caption: str, rows: Sequence[Row]) -> tuple[Table, ...]:
    return table(
        caption,
        (Column(say("Driving")), Column(say("Economy"), "right"), Column(say("From"), "right")),
        [(row.label, row.figure, row.remark) for row in rows],
    )


def fuel_section(told: Grounds) -> Section:
    """Fuel and its cost: fill by fill over some weeks, else by the month."""
    days, whole = told.days, summary(told.driven, told.days)
    title = say("Fuel and cost")
    if days.days <= MOST_FILLS:
        return Section(title=title, tables=_fills(told, whole))
    months = [summary(told.driven, each) for each in _months(days, told.preferences.time_zone)]
    rows = [
        (date_text(each.days.first, say("LLLL y")), *_sums(told, each))
        for each in months
        if each.fills or each.km
    ]
    return Section(
        title=title,
        tables=table(
            say("By month"),
            (
                Column(say("Month")),
                Column(say("Distance"), "right"),
                Column(say("Fuel"), "right"),
                Column(say("Fills"), "right"),
                Column(say("Spent"), "right"),
                Column(say("Economy"), "right"),
            ),
            rows,
            (say("Altogether"), *_sums(told, whole)),
        ),
        paragraphs=_unpriced(whole),
    )


def _months(days: Span, time_zone: str) -> list[Span]:
    """The calendar months of the days, the first and last as far as the days go."""
    found: list[Span] = []
    first = days.first
    while first <= days.last:
        following = (first.replace(day=1) + timedelta(days=32)).replace(day=1)
        found.append(span(first, min(following - timedelta(days=1), days.last), time_zone))
        first = following
    return found


def _sums(told: Grounds, of: Summary) -> tuple[str, ...]:
    preferences = told.preferences
    return (
        "" if of.km is None else distance(of.km, preferences),
        volume(of.litres, preferences) if of.fills else "",
        str(of.fills) if of.fills else "",
        money(of.spent),
        "" if of.economy is None else economy_figure(of.economy, preferences),
    )


def _fills(told: Grounds, whole: Summary) -> tuple[Table, ...]:
    fills = [
        each
        for each in told.driven.log.of(Fill)
        if told.days.covers(each.at) and is_fuel(each.entry)
    ]
    return table(
        say("Fill by fill"),
        (
            Column(say("Date")),
            Column(say("Place")),
            Column(say("Odometer"), "right"),
            Column(say("Fuel"), "right"),
            Column(say("Price"), "right"),
            Column(say("Cost"), "right"),
        ),
        [_fill(told, each) for each in fills],
        (
            say("Altogether"),
            "",
            "",
            volume(whole.litres, told.preferences),
            "",
            money(whole.spent),
        ),
    )


def _fill(told: Grounds, each: Logged[Fill]) -> tuple[str, ...]:
    fill, unit = each.entry, VOLUME_UNIT[told.preferences.units]
    bought, cost, price_of_one = fill_volume(fill), fill_cost(fill), unit_price(fill, unit)
    return (
        told.day(each.at),
        fill.place or "",
        figure(fill.odometer) if fill.odometer else "",
        volume(bought.amount("L"), told.preferences) if bought else "",
        price(price_of_one) if price_of_one else "",
        figure(cost, 2) if cost else "",
    )


def _unpriced(whole: Summary) -> tuple[str, ...]:
    if not whole.unpriced:
        return ()
    return (
        say_count(
            "{count} fill without a price left out of the money.",
            "{count} fills without a price left out of the money.",
            whole.unpriced,
        ),
    )
