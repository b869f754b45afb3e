"""Answers about fuel: a fill just logged, economy, cost, distance, range and a plan.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is the domain's; how a figure is written is in `measures.py` and `words.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from bot.answers.answer import Answer, Row
from bot.answers.measures import (
    about_distance,
    about_volume,
    carbon,
    cost_rows,
    dash_figure,
    dash_reads,
    dates,
    distance,
    economy_figure,
    mode_name,
    mode_phrase,
    money,
    per_thousand,
    price,
    shares,
    tanks,
    volume,
)
from bot.answers.words import counted, day, figure, number, sentence
from bot.reference import fuel_facts
from domain.context import VOLUME_UNIT
from domain.driving import Driving, driving
from domain.economy import Estimates, dash_bias, estimate
from domain.entries import Fill
from domain.exhaust_fluid import exhaust_fluid
from domain.fuel import DEF, NINETY, Tank, is_full, only_mode, pooled, truck_fuel
from domain.log import Log, Logged, Preferences
from domain.modes import UNNAMED, towing
from domain.money import fill_cost, fill_volume, unit_price
from domain.plans import NotEnoughTold, Plan, Reach, plan, reach
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.summary import Span, span, summary
from domain.trip import last_distance_to
from domain.verdicts import Question

WINDOW = timedelta(days=400)
"""Economy speaks of the last year or so: tyres, loads and the truck itself change."""

NO_TANK = Answer(
    headline="No full tank to work from yet.",
    notes=("Economy needs two full fills with the odometer at each.",),
)

GROUNDS = {
    "own": "from your own tanks",
    "others": "from your other driving",
    "assumed": "assumed, no tanks of yours yet",
}
"""Where a rate comes from, in a row's remark."""

LACKING = {
    "tank": Answer(
        headline="I need the tank's size for that.", notes=("Text it like: truck tank 34 gal.",)
    ),
    "full": Answer(
        headline="I need one full fill with its odometer first.",
        notes=("Text the next one like: odo 48211, 31.4 gal, full.",),
    ),
}
"""What is asked for where a range lacks a fact."""

BY_THE_GAUGE = "An estimate: go by the gauge, and fill early before a long grade or a headwind."


def fill_answer(
    log: Log, preferences: Preferences, now: datetime, logged_fill: Logged[Fill]
) -> Answer:
    """What is said when a fill has been kept."""
    fill = logged_fill.entry
    driven = driving(_recent(log, now), fill.truck)
    if fill.product == DEF:
        return _def_filled(driven, fill, preferences)
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
        headline=f"{amount} kept.", rows=rows, notes=(_why_no_economy(driven, logged_fill),)
    )


def economy_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The last tank, or the trailer asked about; then each mode, over the last year or a span."""
    days = _asked_span(question, preferences, now)
    driven = driving(_recent(log, now) if days is None else log, question.truck)
    if question.product == DEF:
        return _def_answer(driven, preferences)
    chosen = [tank for tank in driven.chain.tanks if days is None or days.covers(tank.closed.at)]
    if not chosen:
        return NO_TANK
    estimates = estimate(chosen)
    wanted = (question.trailer or "").casefold()
    asked = next((mode for mode in estimates.rates if mode.casefold() == wanted), None)
    rows = [
        Row(
            mode_name(mode),
            economy_figure(rate, preferences),
            f"{tanks(rate.tanks)}, {distance(rate.km, preferences)}",
        )
        for mode, rate in estimates.rates.items()
    ]
    if asked is not None:
        rate = estimates.rates[asked]
        over = f"{tanks(rate.tanks)} and {distance(rate.km, preferences)}"
        headline = f"{economy_figure(rate, preferences)} {mode_phrase(asked)}, over {over}"
        rows = [row for row in rows if row.label != mode_name(asked)]
    elif wanted:
        headline = f"Too few tanks with the {question.trailer} to tell yet"
    else:
        headline = f"Last tank {economy_figure(chosen[-1].rate, preferences)}"
        headline = f"{headline} {_tank_phrase(chosen[-1])}".strip()
    everything = pooled(chosen)
    if everything is not None and len(estimates.rates) > 1:
        rows.append(Row("Altogether", economy_figure(everything, preferences), tanks(len(chosen))))
    rows += _dash_rows(chosen)
    return Answer(
        headline=headline + ".",
        rows=tuple(rows),
        notes=_estimate_notes(estimates, wanted, preferences),
    )


def cost_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What fuel cost over a span, or over the last year: in all, and a mile."""
    asked = _asked_span(question, preferences, now)
    days = asked or _last_year(preferences, now)
    when = _span_phrase(asked, preferences, now)
    driven = driving(log, question.truck)
    told = summary(driven, days)
    if not told.fills:
        return Answer(headline=f"No fuel bought {when}.")
    rows = [
        Row("Fuel", volume(told.litres, preferences), counted(told.fills, "fill")),
        *cost_rows(told.tanks, preferences),
    ]
    product = truck_fuel(driven.log) or rig_of(driven.log, truck=driven.truck).fuel
    kilograms = fuel_facts().co2_kg(told.litres, product)
    if kilograms:
        rows.append(Row("CO2", carbon(kilograms, preferences), "EPA factor"))
    notes: tuple[str, ...] = ()
    if told.unpriced:
        notes = (f"{counted(told.unpriced, 'fill')} without a price left out of the money.",)
    return Answer(
        headline=f"{money(told.spent) or 'No prices told'} on fuel {when}.",
        rows=tuple(rows),
        notes=notes,
    )


def distance_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """How far, over a span or over the last year."""
    asked = _asked_span(question, preferences, now)
    days = asked or _last_year(preferences, now)
    when = _span_phrase(asked, preferences, now)
    driven = driving(log, question.truck)
    told = summary(driven, days)
    if told.km is None:
        return Answer(headline=f"No odometer reading {when}.")
    wanted = (question.trailer or "").casefold()
    towed = next((km for mode, km in told.split.items() if mode.casefold() == wanted), None)
    if towed is not None:
        return Answer(
            headline=f"{distance(towed, preferences)} with the {question.trailer} {when}."
        )
    rows = [Row(mode_name(mode), distance(km, preferences)) for mode, km in told.split.items()]
    return Answer(
        headline=f"{distance(told.km, preferences)} {when}.",
        rows=tuple(rows) if len(rows) > 1 else (),
    )


def range_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """How far the tank still reaches, or whether it reaches the distance asked about."""
    driven = driving(log, question.truck)
    try:
        told = reach(driven, estimate(_recent_tanks(driven, now)))
    except NotEnoughTold as error:
        return LACKING[error.lacks]
    how = mode_phrase(told.mode)
    unsure = told.km - told.sure_km
    headline = f"About {about_distance(told.km, unsure, preferences)} to the reserve"
    if question.distance is not None:
        headline = _reaches(told, question.distance, preferences)
    elif how:
        headline = f"{headline}, {how}"
    return Answer(
        headline=f"{headline}.",
        rows=(
            Row(
                "In the tank",
                f"about {about_volume(told.left, NINETY * told.left_sd, preferences)}",
                f"of {figure(told.capacity)}, at {_reading(driven, preferences)}",
            ),
            Row("Count on", about_distance(told.sure_km, unsure, preferences)),
            Row("Dry at about", about_distance(told.empty_km, unsure, preferences)),
            Row("Economy", economy_figure(told.rate, preferences), GROUNDS[told.grounds]),
            Row("Reserve", volume(told.reserve, preferences), "a tenth of the tank"),
        ),
        notes=(BY_THE_GAUGE,),
    )


def plan_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What a trip ahead will take in fuel, money and stops."""
    driven = driving(log, question.truck)
    km, whence = _planned_km(driven, question)
    if km is None:
        return Answer(
            headline="How far is it?", notes=("Text it like: plan 420 miles with the camper.",)
        )
    told = plan(
        driven, estimate(_recent_tanks(driven, now)), km, _planned_mode(driven, question, now)
    )
    spread = (told.high - told.low) / 2
    fuel = about_volume(told.litres, spread, preferences)
    cost = told.cost(told.litres)
    paid = "" if cost is None else f", about {figure(cost, 0)}"
    how = mode_phrase(told.mode)
    return Answer(
        headline=f"{distance(told.km, preferences)} {how}".strip() + f": about {fuel}{paid}.",
        rows=tuple(_plan_rows(told, preferences)),
        notes=(
            *whence,
            "Nine trips in ten like yours fall inside; wind and grades can take more.",
        ),
    )


def _plan_rows(told: Plan, preferences: Preferences) -> list[Row]:
    spread = (told.high - told.low) / 2
    low, high = told.cost(told.low), told.cost(told.high)
    rows = [
        Row(
            "Fuel",
            f"{about_volume(told.low, spread, preferences)} to "
            f"{about_volume(told.high, spread, preferences)}",
        )
    ]
    if low is not None and high is not None and told.price is not None:
        rows.append(
            Row("Cost", f"{figure(low, 0)} to {figure(high, 0)}", f"at {price(told.price)}")
        )
    if told.stops is not None:
        rows.append(Row("Fuel stops", str(told.stops), "from a full tank, a tenth left"))
    rows.append(Row("Economy", economy_figure(told.rate, preferences), GROUNDS[told.grounds]))
    return rows


def _tank_answer(driven: Driving, tank: Tank, preferences: Preferences) -> Answer:
    fill = tank.closed.entry
    rows = []
    if len(tank.split) > 1:
        rows.append(Row("Driven", shares(tank.split, preferences)))
    if len(tank.fills) > 1:
        last = fill_volume(fill)
        now_in = f"{figure(_in_unit(last, preferences), 1)} now, " if last else ""
        rows.append(
            Row("Fuel", volume(tank.litres, preferences), f"{now_in}{len(tank.fills)} fills")
        )
    if tank.cost:
        rows.append(Row("Cost", money(tank.cost)))
    rows += cost_rows([tank], preferences)
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
    economy = f"{economy_figure(tank.rate, preferences)} {_tank_phrase(tank)}".strip()
    return Answer(headline=f"{sentence(economy)}: {went}.", rows=tuple(rows))


def _def_filled(driven: Driving, fill: Fill, preferences: Preferences) -> Answer:
    amount = "DEF"
    if fill.volume is not None:
        amount = f"{figure(_in_unit(fill.volume, preferences), 1)} of DEF"
    return Answer(
        headline=f"{amount} kept, apart from the fuel.",
        rows=(*_cost_rows(fill, preferences), *_def_rows(driven, preferences)),
    )


def _def_answer(driven: Driving, preferences: Preferences) -> Answer:
    rows = _def_rows(driven, preferences)
    if not rows:
        return Answer(
            headline="Too little DEF logged to tell.",
            notes=("Two DEF fills with odometer readings around them will do.",),
        )
    return Answer(
        headline=f"DEF: about {rows[0].figure}.",
        rows=rows[1:],
        notes=() if rows[1:] else ("Text the tank's size (def tank 5 gal) and a full DEF fill.",),
    )


def _def_rows(driven: Driving, preferences: Preferences) -> tuple[Row, ...]:
    told = exhaust_fluid(driven)
    if told is None:
        return ()
    rows = [Row("DEF use", per_thousand(told.rate, preferences), counted(told.fills, "fill"))]
    if told.left is not None:
        rows.append(Row("DEF left", f"about {volume(told.left, preferences)}"))
    return tuple(rows)


def _cost_rows(fill: Fill, preferences: Preferences) -> tuple[Row, ...]:
    cost = fill_cost(fill)
    if cost is None:
        return ()
    each = unit_price(fill, VOLUME_UNIT[preferences.units])
    return (Row("Cost", figure(cost, 2), price(each) if each else ""),)


def _why_no_economy(driven: Driving, fill: Logged[Fill]) -> str:
    if any(each.logged == fill for each in driven.track.reversals):
        return "Its odometer does not follow from the readings around it, so it has no economy."
    if fill.entry.missed:
        return "A fill before it was not logged, so economy starts anew with the next full tank."
    if driven.track.km_of(fill) is None and fill.entry.distance is None:
        return "Without the odometer it has no economy; its fuel counts with the next full tank."
    return "This sets the start; economy comes with the next full tank."


def _tank_phrase(tank: Tank) -> str:
    mode = only_mode(tank)
    if mode is not None:
        return mode_phrase(mode)
    if all(towing(each) for each in tank.split):
        return "towing, trailers mixed" if tank.split else ""
    return "towing and solo mixed"


def _dash_rows(chosen: Sequence[Tank]) -> list[Row]:
    """How the dash compares over the tanks that have a dash figure."""
    bias = dash_bias(chosen)
    if bias is None:
        return []
    if abs(bias.share) < NINETY * bias.sd:
        return [Row("Dash", "agrees with the pump", tanks(bias.tanks))]
    word = "above" if bias.share > 0 else "below"
    return [Row("Dash", f"{number(abs(bias.share) * 100, 0)}% {word} the pump", tanks(bias.tanks))]


def _estimate_notes(estimates: Estimates, wanted: str, preferences: Preferences) -> tuple[str, ...]:
    notes: list[str] = []
    unclear = [mode for mode in estimates.unclear if mode.casefold() != wanted]
    if unclear:
        notes.append(f"Too few tanks yet to tell {' from '.join(unclear)}.")
    if UNNAMED in estimates.rates or UNNAMED in estimates.unclear:
        notes.append("Name the trailer when you hitch up, and I keep them apart.")
    if estimates.set_aside:
        at = estimates.set_aside[-1].closed.at.astimezone(ZoneInfo(preferences.time_zone))
        notes.append(f"Left out as unlikely: the tank of {day(at)}; a fill may be missing.")
    return tuple(notes)


def _reaches(told: Reach, asked: Quantity, preferences: Preferences) -> str:
    km = asked.amount("km")
    far = distance(km, preferences)
    if km <= told.sure_km:
        return f"Yes: {far} should leave the reserve untouched"
    if km <= told.km:
        return f"Close: {far} is likely, but it may take some of the reserve"
    if km < told.empty_km:
        return f"No: {far} would run into the reserve; fill on the way"
    return f"No: {far} is more than is in the tank; fill first"


def _reading(driven: Driving, preferences: Preferences) -> str:
    """The last odometer reading as it was texted."""
    latest = driven.track.latest
    shown = getattr(latest.logged.entry, "odometer", None) if latest else None
    return "the last reading" if shown is None else figure(shown, 0)


def _planned_km(driven: Driving, question: Question) -> tuple[float | None, tuple[str, ...]]:
    """The distance planned: as asked, else as it was driven to that place before."""
    if question.distance is not None:
        return question.distance.amount("km"), ()
    place = question.until if isinstance(question.until, str) else None
    before = None if place is None else last_distance_to(driven.trips, place)
    return before, () if before is None else (f"As far as the last trip to {place} was.",)


def _planned_mode(driven: Driving, question: Question, now: datetime) -> str:
    if question.trailer is None:
        return driven.modes.at(now)
    known = {change.mode.casefold(): change.mode for change in driven.modes.changes}
    return known.get(question.trailer.casefold(), question.trailer)


def _recent_tanks(driven: Driving, now: datetime) -> list[Tank]:
    return [tank for tank in driven.chain.tanks if tank.closed.at >= now - WINDOW]


def _recent(log: Log, now: datetime) -> Log:
    return log.since(now - WINDOW)


def _last_year(preferences: Preferences, now: datetime) -> Span:
    today = now.astimezone(ZoneInfo(preferences.time_zone)).date()
    return span(today - timedelta(days=365), today, preferences.time_zone)


def _asked_span(question: Question, preferences: Preferences, now: datetime) -> Span | None:
    if not isinstance(question.since, date):
        return None
    today = now.astimezone(ZoneInfo(preferences.time_zone)).date()
    last = question.until if isinstance(question.until, date) else today
    return span(question.since, max(question.since, last), preferences.time_zone)


def _span_phrase(days: Span | None, preferences: Preferences, now: datetime) -> str:
    if days is None:
        return "in the last 12 months"
    today = now.astimezone(ZoneInfo(preferences.time_zone)).date()
    if days.last == today and days.first < today:
        return f"since {day(days.first)}"
    return (
        f"on {dates(days.first, days.last, today)}"
        if days.days == 1
        else (f"from {dates(days.first, days.last, today)}")
    )


def _in_unit(stated: Quantity, preferences: Preferences) -> Quantity:
    return stated.to(VOLUME_UNIT[preferences.units])
