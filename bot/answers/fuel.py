"""Answers about fuel: a fill just logged, economy, cost, distance, range and a plan.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is the domain's; how a figure is written is in `measures.py` and `words.py`.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from bot.answers.answer import Answer, Row
from bot.answers.measures import (
    dash_figure,
    dash_reads,
    distance,
    economy_figure,
    mode_name,
    mode_phrase,
    money,
    per_distance,
    price,
    shares,
    tanks,
    volume,
)
from bot.answers.words import counted, day, figure, sentence
from domain.context import VOLUME_UNIT
from domain.driving import Driving, driving
from domain.economy import Estimates, estimate
from domain.entries import Fill
from domain.fuel import DEF, Tank, is_full, only_mode, pooled
from domain.log import Log, Logged, Preferences
from domain.money import fill_cost, fill_volume, total, unit_price
from domain.plans import NotEnoughTold, Reach, plan, reach
from domain.quantities import Quantity
from domain.summary import Span, span, summary
from domain.verdicts import Question

WINDOW = timedelta(days=400)
"""Economy speaks of the last year or so: tyres, loads and the truck itself change."""


def fill_answer(
    log: Log, preferences: Preferences, now: datetime, logged_fill: Logged[Fill]
) -> Answer:
    """What is said when a fill has been kept."""
    fill = logged_fill.entry
    if fill.product == DEF:
        return _def_answer(fill, preferences)
    driven = driving(_recent(log, now), fill.truck)
    tank = driven.chain.closed_by(logged_fill)
    if tank is not None:
        return _tank_answer(driven, tank, preferences)
    bought = fill_volume(fill)
    amount = "Fill" if bought is None else figure(_in_unit(bought, preferences), 1)
    rows = _cost_rows(fill, preferences)
    if logged_fill in driven.chain.other:
        return Answer(
            headline=f"{amount} of {fill.product} kept, apart from the truck's fuel.", rows=rows
        )
    if not is_full(fill):
        return Answer(
            headline=f"{amount} kept as a partial fill.",
            rows=rows,
            notes=("It counts with the next full tank.",),
        )
    return Answer(
        headline=f"{amount} kept.",
        rows=rows,
        notes=(_why_no_economy(driven, logged_fill),),
    )


def economy_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The last tank, then each mode's economy over the span asked about, or the last year."""
    days = _asked_span(question, preferences, now)
    driven = driving(_recent(log, now) if days is None else log, question.truck)
    chosen = [tank for tank in driven.chain.tanks if days is None or days.covers(tank.closed.at)]
    if not chosen:
        return Answer(
            headline="No full tank to work from yet.",
            notes=("Economy needs two full fills with the odometer at each.",),
        )
    estimates = estimate(chosen)
    asked = next(
        (
            mode
            for mode in estimates.rates
            if question.trailer and mode.casefold() == question.trailer.casefold()
        ),
        None,
    )
    rows = [
        Row(
            mode_name(mode),
            economy_figure(rate, preferences),
            _grounds(rate.tanks, rate.km, preferences),
        )
        for mode, rate in estimates.rates.items()
    ]
    last = chosen[-1]
    if asked is not None:
        headline = f"{economy_figure(estimates.rates[asked], preferences)} {mode_phrase(asked)}"
        rows = [row for row in rows if row.label != mode_name(asked)]
    else:
        headline = f"Last tank {economy_figure(last.rate, preferences)} {_tank_phrase(last)}"
    everything = pooled(chosen)
    if everything is not None and len(rows) > 1:
        rows.append(Row("All driving", economy_figure(everything, preferences), tanks(len(chosen))))
    return Answer(
        headline=headline.strip() + ".",
        rows=tuple(rows),
        notes=_estimate_notes(estimates, question.trailer if asked is None else None),
    )


def cost_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What fuel cost over a span, or over the last year: in all, and a mile."""
    days = _asked_span(question, preferences, now) or _last_year(preferences, now)
    driven = driving(log, question.truck)
    told = summary(driven, days)
    if not told.fills:
        return Answer(headline=f"No fuel bought {_span_phrase(days)}.")
    paid = [tank for tank in told.tanks if tank.cost]
    rows = [Row("Fuel", volume(told.litres, preferences), counted(told.fills, "fill"))]
    for amount in told.spent:
        km, cost = _priced(paid, amount.unit)
        if km:
            rows.append(
                Row(
                    "A mile" if _miles(preferences) else "A km",
                    per_distance(cost, km, preferences),
                    f"over {distance(km, preferences)}",
                )
            )
    notes: tuple[str, ...] = ()
    if told.unpriced:
        notes = (f"{counted(told.unpriced, 'fill')} without a price left out of the money.",)
    return Answer(
        headline=f"{money(told.spent) or 'No prices told'} on fuel {_span_phrase(days)}.",
        rows=tuple(rows),
        notes=notes,
    )


def distance_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """How far, over a span or since the last full tank."""
    days = _asked_span(question, preferences, now) or _last_year(preferences, now)
    driven = driving(log, question.truck)
    told = summary(driven, days)
    latest = driven.track.latest
    if told.km is None or latest is None:
        return Answer(headline=f"No odometer reading {_span_phrase(days)}.")
    rows = [Row(mode_name(mode), distance(km, preferences)) for mode, km in told.split.items()]
    return Answer(
        headline=f"{distance(told.km, preferences)} {_span_phrase(days)}.",
        rows=tuple(rows) if len(rows) > 1 else (),
    )


def _tank_answer(driven: Driving, tank: Tank, preferences: Preferences) -> Answer:
    fill = tank.closed.entry
    rows = []
    if len(tank.split) > 1:
        rows.append(
            Row("Miles" if _miles(preferences) else "Distance", shares(tank.split, preferences))
        )
    if len(tank.fills) > 1:
        rows.append(Row("Fuel", volume(tank.litres, preferences), f"over {len(tank.fills)} fills"))
    if tank.cost:
        remark = per_distance(tank.cost[0], tank.km, preferences) if len(tank.cost) == 1 else ""
        rows.append(Row("Cost", money(tank.cost), remark))
    if fill.dash_economy is not None:
        rows.append(
            Row(
                "Dash",
                dash_figure(fill.dash_economy, preferences),
                dash_reads(fill.dash_economy, tank.rate),
            )
        )
    mode = only_mode(tank)
    usual = estimate(driven.chain.tanks).rates.get(mode) if mode else None
    if usual is not None and usual.tanks > 1:
        rows.append(Row("Usual", economy_figure(usual, preferences), tanks(usual.tanks)))
    went = f"{distance(tank.km, preferences)} on {volume(tank.litres, preferences)}"
    return Answer(
        headline=f"{economy_figure(tank.rate, preferences)} {_tank_phrase(tank)}".strip()
        + f": {went}.",
        rows=tuple(rows),
    )


def _def_answer(fill: Fill, preferences: Preferences) -> Answer:
    amount = (
        "DEF" if fill.volume is None else f"{figure(_in_unit(fill.volume, preferences), 1)} of DEF"
    )
    return Answer(
        headline=f"{amount} kept, apart from the fuel.", rows=_cost_rows(fill, preferences)
    )


def _cost_rows(fill: Fill, preferences: Preferences) -> tuple[Row, ...]:
    cost = fill_cost(fill)
    if cost is None:
        return ()
    each = unit_price(fill, VOLUME_UNIT[preferences.units])
    return (Row("Cost", figure(cost, 2), price(each) if each else ""),)


def _why_no_economy(driven: Driving, fill: Logged[Fill]) -> str:
    if driven.track.km_of(fill) is None and fill.entry.distance is None:
        return "Without the odometer it has no economy; its fuel counts with the next full tank."
    if fill.entry.missed:
        return "A fill before it was not logged, so economy starts anew with the next full tank."
    if any(each.logged == fill for each in driven.track.reversals):
        return "The odometer does not follow from the readings around it, so it has no economy."
    return "This sets the start; economy comes with the next full tank."


def _tank_phrase(tank: Tank) -> str:
    mode = only_mode(tank)
    return mode_phrase(mode) if mode else "towing and solo mixed"


def _grounds(count: int, km: float, preferences: Preferences) -> str:
    return f"{tanks(count)}, {distance(km, preferences)}"


def _estimate_notes(estimates: Estimates, missing: str | None) -> tuple[str, ...]:
    notes: list[str] = []
    if estimates.unclear:
        names = ", ".join(estimates.unclear)
        notes.append(f"Too few tanks to tell {names} apart yet.")
    elif missing:
        notes.append(f"No full tank with the {missing} yet.")
    if estimates.set_aside:
        when = day(estimates.set_aside[0].closed.at)
        notes.append(f"Left out as unlikely: the tank of {when}; a fill may be missing.")
    return tuple(notes)


def _priced(paid: list[Tank], currency: str) -> tuple[float, Quantity]:
    """Distance and cost of the tanks that were paid in one currency throughout."""
    own = [tank for tank in paid if tank.cost and [each.unit for each in tank.cost] == [currency]]
    cost = total(amount for tank in own for amount in tank.cost or ())
    return sum(tank.km for tank in own), cost[0] if cost else Quantity(0.0, currency)


def _recent(log: Log, now: datetime) -> Log:
    return log.since(now - WINDOW)


def _last_year(preferences: Preferences, now: datetime) -> Span:
    today = now.astimezone(ZoneInfo(preferences.time_zone)).date()
    return span(today - timedelta(days=365), today, preferences.time_zone)


def _asked_span(question: Question, preferences: Preferences, now: datetime) -> Span | None:
    today = now.astimezone(ZoneInfo(preferences.time_zone)).date()
    if not isinstance(question.since, date):
        return None
    last = question.until if isinstance(question.until, date) else today
    return span(question.since, max(question.since, last), preferences.time_zone)


def _span_phrase(days: Span) -> str:
    if days.first == days.last:
        return f"on {day(days.first)}"
    return f"from {day(days.first)} to {day(days.last)}"


def _in_unit(stated: Quantity, preferences: Preferences) -> Quantity:
    return stated.to(VOLUME_UNIT[preferences.units])


def _miles(preferences: Preferences) -> bool:
    return preferences.units != "metric"


def range_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """How far the tank still reaches, or whether it reaches the distance asked about."""
    driven = driving(log, question.truck)
    estimates = estimate(_recent_tanks(driven, now))
    try:
        told = reach(driven, estimates)
    except NotEnoughTold as error:
        return _LACKING[error.lacks]
    latest = driven.track.latest
    reading = "" if latest is None else f" as of {distance(latest.km, preferences)}"
    rows = (
        Row(
            "In the tank", f"about {volume(told.left, preferences)}", f"of {figure(told.capacity)}"
        ),
        Row("Count on", distance(told.sure_km, preferences), "with the reserve untouched"),
        Row("Dry at about", distance(told.empty_km, preferences)),
        Row("Economy", economy_figure(told.rate, preferences), _GROUNDS[told.grounds]),
    )
    how = mode_phrase(told.mode)
    headline = (
        f"About {distance(told.km, preferences)} to the reserve{' ' if how else ''}{how}{reading}."
    )
    if question.distance is not None:
        headline = _reaches(told, question.distance.amount("km"), preferences)
    return Answer(
        headline=headline,
        rows=rows,
        notes=(
            f"Reserve {volume(told.reserve, preferences)}, a tenth of the tank. "
            "An estimate: go by the gauge, and fill early on a long grade or in a headwind.",
        ),
    )


def plan_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What a trip ahead will take in fuel, money and stops."""
    driven = driving(log, question.truck)
    estimates = estimate(_recent_tanks(driven, now))
    asked = question.distance
    if asked is None:
        return Answer(
            headline="How far is it?", notes=("Text it like: plan 420 miles with the camper.",)
        )
    told = plan(driven, estimates, asked.amount("km"), _planned_mode(driven, question, now))
    cost = told.cost(told.litres)
    rows = [
        Row("Fuel", f"{volume(told.low, preferences)} to {volume(told.high, preferences)}"),
    ]
    low, high = told.cost(told.low), told.cost(told.high)
    if low is not None and high is not None and told.price is not None:
        rows.append(
            Row("Cost", f"{figure(low, 0)} to {figure(high, 0)}", f"at {price(told.price)}")
        )
    if told.stops is not None:
        rows.append(Row("Fuel stops", str(told.stops), "setting out full, a tenth left"))
    rows.append(Row("Economy", economy_figure(told.rate, preferences), _GROUNDS[told.grounds]))
    how = mode_phrase(told.mode)
    money_part = "" if cost is None else f", about {figure(cost, 0)}"
    return Answer(
        headline=f"{distance(told.km, preferences)}{' ' if how else ''}{how}: about "
        f"{volume(told.litres, preferences)}{money_part}.",
        rows=tuple(rows),
        notes=("Nine trips in ten should fall inside; wind and grades can take more.",),
    )


_GROUNDS = {
    "own": "from your own tanks",
    "others": "from your other driving",
    "assumed": "assumed; no tanks of yours to go by yet",
}

_LACKING = {
    "tank": Answer(
        headline="I need the tank's size for that.", notes=("Text it like: truck tank 34 gal.",)
    ),
    "full": Answer(
        headline="I need one full fill with its odometer first.",
        notes=("Text the next one like: odo 48211, 31.4 gal, full.",),
    ),
}


def _reaches(told: Reach, km: float, preferences: Preferences) -> str:
    asked = distance(km, preferences)
    if km <= told.sure_km:
        return f"Yes, {asked} should leave the reserve untouched."
    if km <= told.km:
        return f"{sentence(asked)} is close: likely, but it may take some of the reserve."
    if km < told.empty_km:
        return f"No, {asked} would run into the reserve. Fill on the way."
    return f"No, {asked} is beyond the tank. Fill first."


def _planned_mode(driven: Driving, question: Question, now: datetime) -> str:
    if question.trailer is None:
        return driven.modes.at(now)
    known = {change.mode.casefold(): change.mode for change in driven.modes.changes}
    return known.get(question.trailer.casefold(), question.trailer)


def _recent_tanks(driven: Driving, now: datetime) -> list[Tank]:
    return [tank for tank in driven.chain.tanks if tank.closed.at >= now - WINDOW]
