"""Answers about what lies ahead: how far the tank still reaches, and what a trip will take.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is in `domain/plans.py`; how a figure is written is in `measures.py`.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.examples import FILL, PLAN, TANK, texted
from bot.answers.language import marked, say
from bot.answers.measures import (
    about_distance,
    about_volume,
    distance,
    economy_figure,
    mode_phrase,
    price,
    volume,
)
from bot.answers.words import about, figure, sentence
from bot.phrasebook import asked_words
from domain.driving import Driving, driving
from domain.economy import RECENT, estimate
from domain.entries import Fill
from domain.fuel import DEF, NINETY, Tank
from domain.log import Log, Preferences
from domain.plans import RESERVE_SHARE, NotEnoughTold, Plan, Reach, goes, plan, reach, tank_of
from domain.quantities import Quantity
from domain.trip import last_distance_to
from domain.verdicts import Question

GROUNDS = {
    "own": marked("from your own tanks"),
    "others": marked("from your other driving"),
    "assumed": marked("assumed, too few tanks of yours yet"),
}
"""Where a rate comes from, in a row's remark."""


LACKING = {
    "tank": (marked("I need the tank's size for that."), marked("Text it like: {example}."), TANK),
    "full": (
        marked("I need one full fill with its odometer first."),
        marked("Text the next one like: {example}."),
        FILL,
    ),
}
"""What is asked for where a range lacks a fact, and how to text it."""


BY_THE_GAUGE = marked(
    "An estimate: go by the gauge, and fill early before a long grade or a headwind."
)


def range_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """How far the tank still reaches, or whether it reaches the distance asked about."""
    driven = driving(log, question.truck)
    if isinstance(question.value, Quantity):
        return _on_fuel(driven, preferences, now, question, question.value)
    try:
        told = reach(driven, estimate(_recent_tanks(driven, now)))
    except NotEnoughTold as error:
        return _lacks(error.lacks, preferences)
    how = mode_phrase(told.mode)
    behind = _lies_behind(question)
    if behind and question.distance is not None:
        told = _less(told, question.distance.amount("km") - _since_fill(driven))
    unsure = told.km - told.sure_km
    if question.distance is not None and not behind:
        headline = _reaches(
            told.sure_km, told.km, told.empty_km, question.distance.amount("km"), preferences
        )
    else:
        far = about(about_distance(told.km, unsure, preferences))
        headline = sentence(say("{distance} to the reserve", distance=far))
        headline = f"{headline}, {how}." if how else f"{headline}."
    return Answer(
        headline=headline,
        rows=(
            Row(
                say("In the tank"),
                about(about_volume(told.left, NINETY * told.left_sd, preferences)),
                say(
                    "of {tank}, at {reading}",
                    tank=figure(told.capacity),
                    reading=_reading(driven, preferences),
                ),
            ),
            Row(say("Count on"), about_distance(told.sure_km, unsure, preferences)),
            Row(say("Dry at about"), about_distance(told.empty_km, unsure, preferences)),
            Row(say("Economy"), economy_figure(told.rate, preferences), say(GROUNDS[told.grounds])),
            Row(say("Reserve"), volume(told.reserve, preferences), say("a tenth of the tank")),
        ),
        notes=(say(BY_THE_GAUGE),),
    )


def _lies_behind(question: Question) -> bool:
    """'we've gone 200 miles on this tank': the distance was driven, and is not to go."""
    return asked_words().driven["driven"].search(question.text) is not None


def _since_fill(driven: Driving) -> float:
    """How far (km) the odometer has gone since the last fill, as far as it was texted."""
    fills = [each for each in driven.log.of(Fill) if each.entry.product != DEF]
    at = driven.track.km_of(fills[-1]) if fills else None
    latest = driven.track.latest
    return 0.0 if at is None or latest is None else max(latest.km - at, 0.0)


def _less(told: Reach, km: float) -> Reach:
    """What is left after a distance (km) that the odometer has not told yet."""
    if km <= 0:
        return told
    return replace(
        told,
        left=max(told.left - km * told.rate.rate, 0.0),
        km=max(told.km - km, 0.0),
        sure_km=max(told.sure_km - km, 0.0),
        empty_km=max(told.empty_km - km, 0.0),
    )


def _lacks(fact: str, preferences: Preferences) -> Answer:
    lacking, text_it, like = LACKING[fact]
    example = texted(like, preferences)
    return Answer(headline=say(lacking), notes=(say(text_it, example=example),))


def _on_fuel(
    driven: Driving, preferences: Preferences, now: datetime, question: Question, fuel: Quantity
) -> Answer:
    """How far so much fuel goes: a volume, or a share of the tank in percent."""
    tank = tank_of(driven)
    if fuel.unit == "%" and tank is None:
        return _lacks("tank", preferences)
    litres = (
        fuel.amount("L")
        if tank is None or fuel.unit != "%"
        else (tank.amount("L") * fuel.value / 100)
    )
    told = goes(estimate(_recent_tanks(driven, now)), litres, _planned_mode(driven, question, now))
    far = about(about_distance(told.km, told.km - told.sure_km, preferences))
    how = f"{far} {mode_phrase(told.mode)}".strip()
    headline = say(
        "{distance} on {fuel}.", distance=sentence(how), fuel=volume(litres, preferences)
    )
    if question.distance is not None:
        kept = 0.0 if tank is None else min(RESERVE_SHARE * tank.amount("L") / litres, 1.0)
        usable, asked = 1.0 - kept, question.distance.amount("km")
        reaches = _reaches(usable * told.sure_km, usable * told.km, told.km, asked, preferences)
        headline = f"{reaches} {headline}"
    return Answer(
        headline=headline,
        rows=(
            Row(say("Count on"), about_distance(told.sure_km, told.km - told.sure_km, preferences)),
            Row(say("Economy"), economy_figure(told.rate, preferences), say(GROUNDS[told.grounds])),
        ),
        notes=(say(BY_THE_GAUGE),),
    )


def plan_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What a trip ahead will take in fuel, money and stops."""
    driven = driving(log, question.truck)
    km, whence = _planned_km(driven, question)
    if km is None:
        return Answer(
            headline=say("How far is it?"),
            notes=(say("Text it like: {example}.", example=texted(PLAN, preferences)),),
        )
    told = plan(
        driven, estimate(_recent_tanks(driven, now)), km, _planned_mode(driven, question, now)
    )
    spread = (told.high - told.low) / 2
    fuel = about_volume(told.litres, spread, preferences)
    cost = told.cost(told.litres)
    takes = about(fuel) if cost is None else f"{about(fuel)}, {about(figure(cost, 0))}"
    drive = f"{distance(told.km, preferences)} {mode_phrase(told.mode)}".strip()
    return Answer(
        headline=f"{drive}: {takes}.",
        rows=tuple(_plan_rows(told, preferences)),
        notes=(
            *whence,
            say("Nine trips in ten like yours fall inside; wind and grades can take more."),
        ),
    )


def _plan_rows(told: Plan, preferences: Preferences) -> list[Row]:
    spread = (told.high - told.low) / 2
    low, high = told.cost(told.low), told.cost(told.high)
    rows = [
        Row(
            say("Fuel"),
            _from_to(
                about_volume(told.low, spread, preferences),
                about_volume(told.high, spread, preferences),
            ),
        )
    ]
    if low is not None and high is not None and told.price is not None:
        rows.append(
            Row(
                say("Cost"),
                _from_to(figure(low, 0), figure(high, 0)),
                say("at {price}", price=price(told.price)),
            )
        )
    if told.stops is not None:
        rows.append(Row(say("Fuel stops"), str(told.stops), say("from a full tank, a tenth left")))
    rows.append(
        Row(say("Economy"), economy_figure(told.rate, preferences), say(GROUNDS[told.grounds]))
    )
    return rows


def _from_to(low: str, high: str) -> str:
    return say("{first} to {last}", first=low, last=high)


def _reaches(
    sure_km: float, likely_km: float, empty_km: float, km: float, preferences: Preferences
) -> str:
    """Whether a distance is inside what is sure, likely, or possible at all."""
    far = distance(km, preferences)
    if km <= sure_km:
        return say("Yes: {distance} should leave the reserve untouched.", distance=far)
    if km <= likely_km:
        return say(
            "Close: {distance} is likely, but it may take some of the reserve.", distance=far
        )
    if km < empty_km:
        return say("No: {distance} would run into the reserve; fill on the way.", distance=far)
    return say("No: {distance} is more than is in the tank; fill first.", distance=far)


def _reading(driven: Driving, preferences: Preferences) -> str:
    """The last odometer reading as it was texted."""
    latest = driven.track.latest
    shown = getattr(latest.logged.entry, "odometer", None) if latest else None
    return say("the last reading") if shown is None else figure(shown, 0)


def _planned_km(driven: Driving, question: Question) -> tuple[float | None, tuple[str, ...]]:
    """The distance planned: as asked, else as it was driven to that place before."""
    if question.distance is not None:
        twice = asked_words().driven["both ways"].search(question.text)
        return question.distance.amount("km") * (2 if twice else 1), ()
    place = question.until if isinstance(question.until, str) else None
    before = None if place is None else last_distance_to(driven.trips, place)
    if before is None:
        return None, ()
    return before, (say("As far as the last trip to {place} was.", place=place),)


def _planned_mode(driven: Driving, question: Question, now: datetime) -> str:
    if question.trailer is None:
        return driven.modes.at(now)
    known = {change.mode.casefold(): change.mode for change in driven.modes.changes}
    return known.get(question.trailer.casefold(), question.trailer)


def _recent_tanks(driven: Driving, now: datetime) -> list[Tank]:
    return [tank for tank in driven.chain.tanks if tank.closed.at >= now - RECENT]
