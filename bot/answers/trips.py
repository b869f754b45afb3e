"""Answers about trips, the week and any span of days.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is the domain's; how a figure is written is in `measures.py` and `words.py`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from bot.answers.answer import Answer, Row
from bot.answers.limits import limit_name
from bot.answers.measures import (
    carbon,
    cost_rows,
    dates,
    distance,
    economy_figure,
    elapsed,
    mode_name,
    mode_phrase,
    money,
    per_distance,
    tanks,
    volume,
)
from bot.answers.upkeep import attention, walked
from bot.answers.words import counted, day, figure, listed, rounded, sentence
from bot.reference import fuel_facts, references
from domain.account import Account, Burnt, Heaviest, account, heaviest
from domain.context import MASS_UNIT, TEMPERATURE_UNIT
from domain.driving import Driving, driving
from domain.economy import as_measured, estimate
from domain.fuel import truck_fuel
from domain.log import Log, Preferences
from domain.margins import Clear, Near, Over, Unknown
from domain.modes import towing
from domain.money import Money
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.summary import Span, Summary, anything_in, before, span, summary, week_to
from domain.trip import Trip, gaps, is_home, open_trip, to_ask_about
from domain.verdicts import Question

MOST_MODES = 3
"""Trailers that a summary lists; the rest are one row."""

NO_TRIP = Answer(
    headline="No trip in the log yet.",
    notes=("A trip starts with a text like: hitched flatdeck, leaving, 48011.",),
)


def trip_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The trip under way or the last one, or the one of a trailer or a day asked about."""
    driven = driving(log, question.truck)
    trip = _asked_trip(driven, question, preferences)
    if trip is None:
        return NO_TRIP
    estimates = estimate(driven.chain.tanks)
    told = account(driven, trip, estimates, references())
    rows = [
        *_mode_rows(trip.split, preferences),
        *_burnt_rows(told.burnt, preferences),
        *_heaviest_rows(told.heaviest, preferences),
        *_hottest_rows(told, preferences),
        *_walked_rows(driven, trip),
    ]
    return Answer(
        headline=_over_first(told.heaviest, preferences)
        + _trip_headline(driven, trip, preferences, now),
        rows=tuple(rows),
        notes=(*_trip_notes(driven, trip, told, preferences, now), *told.notes[:2]),
    )


def open_trip_question(log: Log, preferences: Preferences, now: datetime) -> Answer | None:
    """What to ask about a trip that has been silent for days; None where there is none."""
    trip = to_ask_about(driving(log).trips, now)
    if trip is None:
        return None
    began = day(_local(trip.start, preferences))
    silent = counted(round((now - trip.last) / timedelta(days=1)), "day")
    return Answer(
        headline=f"Is the trip that began {began} over? Nothing for {silent}.",
        notes=("Text the odometer where it ended, like: home 48655.",),
    )


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
    return _span_answer(log, preferences, now, days, question, unanswered)


def period_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The days asked about; without any, the last thirty."""
    today = _local(now, preferences).date()
    last = question.until if isinstance(question.until, date) else today
    first = question.since if isinstance(question.since, date) else last - timedelta(days=29)
    days = span(min(first, last), min(max(first, last), max(today, first)), preferences.time_zone)
    return _span_answer(log, preferences, now, days, question, 0)


def _span_answer(
    log: Log,
    preferences: Preferences,
    now: datetime,
    days: Span,
    question: Question,
    unanswered: int,
) -> Answer:
    driven = driving(log, question.truck)
    today = _local(now, preferences).date()
    name = dates(days.first, days.last, today)
    if not anything_in(driven.log, days):
        return Answer(headline=f"{name}: nothing logged.")
    told = summary(driven, days)
    prior = summary(driven, before(days, preferences.time_zone))
    wants = attention(driven, preferences, now, unanswered) if days.last == today else ()
    top = heaviest(driven, days.start, days.end, references())
    rows = [
        *_span_mode_rows(told, preferences),
        *_fuel_rows(driven, told, preferences),
        *_tank_rows(told, preferences),
        *_trips_rows(told, preferences),
        *_heaviest_rows(top, preferences),
        *_before_rows(days, prior, preferences),
    ]
    return Answer(
        headline=_over_first(top, preferences) + f"{name}: {_span_phrase(told, preferences)}.",
        rows=tuple(rows),
        notes=(
            *_over_notes(top, preferences),
            *wants[:3],
            *_gap_notes(told.trips, preferences),
        ),
    )


def _span_phrase(told: Summary, preferences: Preferences) -> str:
    parts = []
    if told.km:
        towed = sum(km for mode, km in told.split.items() if towing(mode))
        part = distance(told.km, preferences)
        if towed and told.km - towed > 1:
            part += f", {distance(towed, preferences)} of it towing"
        elif towed:
            part += " towing"
        parts.append(part)
    if told.spent:
        parts.append(f"{money(told.spent)} on fuel")
    if not parts:
        parts.append(counted(len(told.weighings), "weighing") if told.weighings else "no driving")
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
        rows.append(Row("Others", distance(sum(km for _, km in rest), preferences)))
    return rows


def _fuel_rows(driven: Driving, told: Summary, preferences: Preferences) -> list[Row]:
    rows = []
    if told.fills:
        remark = f"{told.unpriced} without a price" if told.unpriced else ""
        rows.append(
            Row("Fuel", volume(told.litres, preferences), remark or counted(told.fills, "fill"))
        )
    if told.economy is not None:
        rows.append(
            Row("Economy", economy_figure(told.economy, preferences), tanks(len(told.tanks)))
        )
    rows += cost_rows(told.tanks, preferences)
    if told.def_litres:
        rows.append(Row("DEF", volume(told.def_litres, preferences)))
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
            day(_local(tank.closed.at, preferences)),
        )
        for label, tank in (("Best tank", best), ("Worst tank", worst))
    ]


def _trips_rows(told: Summary, preferences: Preferences) -> list[Row]:
    if not told.trips:
        return []
    longest = max(told.trips, key=lambda trip: trip.km or 0.0)
    km = "" if longest.km is None else distance(longest.km, preferences)
    where = _away(longest) or ""
    if len(told.trips) == 1:
        return [Row("Trip", km or "1", where)]
    remark = ", ".join(part for part in (f"longest {km}" if km else "", where) if part)
    return [Row("Trips", str(len(told.trips)), remark)]


def _before_rows(days: Span, prior: Summary, preferences: Preferences) -> list[Row]:
    if not prior.km and not prior.fills:
        return []
    label = "Week before" if days.days == 7 else f"{days.days} days before"
    driven_km = distance(prior.km, preferences) if prior.km else "no odometer"
    return [Row(label, driven_km, money(prior.spent))]


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
    away = _away(trip)
    name = sentence(f"{away} trip") if away else "Trip"
    under_way = trip is driven.trips[-1] and open_trip(driven.trips, now) is not None
    start, last = _local(trip.start, preferences).date(), _local(trip.last, preferences).date()
    km = "no odometer told" if trip.km is None else distance(trip.km, preferences)
    how = mode_phrase(next(iter(trip.split))) if len(trip.split) == 1 else ""
    what = f"{km} {how}".strip()
    if under_way:
        return f"{name} so far: {what} in {elapsed(trip.start, max(trip.last, trip.start))}."
    when = dates(start, last, _local(now, preferences).date())
    return f"{name}, {when}: {what} in {elapsed(trip.start, trip.last)}."


def _mode_rows(split: Mapping[str, float], preferences: Preferences) -> list[Row]:
    if len(split) < 2:
        return []
    return [Row(mode_name(mode), distance(km, preferences)) for mode, km in split.items()]


def _burnt_rows(spent: Burnt | None, preferences: Preferences) -> list[Row]:
    if spent is None:
        return []
    about = "" if spent.measured else "reckoned, no full tank yet"
    rows = [Row("Fuel", f"about {volume(spent.litres, preferences)}", about)]
    if spent.measured:
        rows.append(Row("Economy", economy_figure(spent.rate, preferences)))
    if spent.cost:
        remark = ""
        if len(spent.cost) == 1:
            remark = per_distance(spent.cost[0], spent.km, preferences)
        rows.append(Row("Cost", f"about {_whole_money(spent.cost)}", remark))
    return rows


def _heaviest_rows(top: Heaviest | None, preferences: Preferences) -> list[Row]:
    if top is None:
        return []
    unit = MASS_UNIT[preferences.units]
    rows = []
    if top.gross is not None:
        gross = Quantity(top.gross.nominal_value, "kg").to(unit)
        rows.append(Row("Heaviest", rounded(gross), day(_local(top.at, preferences))))
    if top.tightest is not None and not isinstance(top.tightest, Unknown):
        word = "over" if isinstance(top.tightest, Over) else "left"
        left = _left(top.tightest, preferences)
        rows.append(Row("Tightest", f"{left} {word}", limit_name(top.tightest)))
    return rows


def _hottest_rows(told: Account, preferences: Preferences) -> list[Row]:
    unit = TEMPERATURE_UNIT[preferences.units]
    return [
        Row(
            "Hottest" if index == 0 else "",
            rounded(each.entry.value.to(unit)),
            " ".join(part for part in (each.entry.position, each.entry.subject) if part),
        )
        for index, each in enumerate(told.hottest[:2])
    ]


def _walked_rows(driven: Driving, trip: Trip) -> list[Row]:
    stands = walked(driven, trip.start, trip.last)
    if not stands.begun:
        return []
    total = len(stands.ticked) + len(stands.left)
    names = list(dict.fromkeys(each.by for each in stands.ticked.values() if each.by))
    return [Row("Walk-round", f"{len(stands.ticked)} of {total}", listed(names))]


def _trip_notes(
    driven: Driving, trip: Trip, told: Account, preferences: Preferences, now: datetime
) -> tuple[str, ...]:
    notes = _over_notes(told.heaviest, preferences)
    faults = walked(driven, trip.start, trip.last).faults
    if faults:
        notes.append(f"Not put right on it: {listed([each.entry.item for each in faults[:3]])}.")
    if trip is driven.trips[-1] and to_ask_about(driven.trips, now):
        notes.append("If it is over, text the odometer where it ended, like: home 48655.")
    elif trip.ending == "untold":
        notes.append("Its end was never texted; taken at the last reading before the next trip.")
    position = driven.trips.index(trip)
    notes += _gap_notes(driven.trips[max(position - 1, 0) : position + 1], preferences)
    return tuple(notes)


def _over_first(top: Heaviest | None, preferences: Preferences) -> str:
    """What was over at its last weighing comes before anything else."""
    if top is None or top.standing is None:
        return ""
    return f"Over: {limit_name(top.standing)} by {_left(top.standing, preferences)}. "


def _over_notes(top: Heaviest | None, preferences: Preferences) -> list[str]:
    if top is None or not isinstance(top.tightest, Over):
        return []
    if top.standing is not None:
        return ["Don't tow it like that. Door label, maker's manual and local law govern."]
    when = day(_local(top.tightest_at, preferences))
    return [f"Over on the {limit_name(top.tightest)} on {when}; inside it at the last weighing."]


def _left(margin: Over | Near | Clear, preferences: Preferences) -> str:
    left = Quantity(abs(margin.left.nominal_value), "kg")
    return rounded(left.to(MASS_UNIT[preferences.units]))


def _gap_notes(found: Sequence[Trip], preferences: Preferences) -> list[str]:
    """Distance that no trip accounts for, the latest first."""
    return [
        f"{distance(gap.km, preferences)} between the trips of "
        f"{day(_local(gap.after, preferences))} and {day(_local(gap.before, preferences))} "
        "are in no trip."
        for gap in reversed(gaps(found)[-1:])
    ]


def _away(trip: Trip) -> str | None:
    """The place that a trip went to: the last one named that is not home."""
    return next((place for place in reversed(trip.places) if not is_home(place)), None)


def _whole_money(amounts: Money) -> str:
    return listed([figure(amount, 0) for amount in amounts])


def _local(at: datetime, preferences: Preferences) -> datetime:
    return at.astimezone(ZoneInfo(preferences.time_zone))
