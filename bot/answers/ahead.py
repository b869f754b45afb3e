"""Answers about what lies ahead: how far the tank still reaches, and what a trip will take.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is in `domain/plans.py`; how a figure is written is in `measures.py`.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.measures import (
    about_distance,
    about_volume,
    distance,
    economy_figure,
    mode_phrase,
    price,
    volume,
)
from bot.answers.words import figure
from domain.driving import Driving, driving
from domain.economy import RECENT, estimate
from domain.fuel import NINETY, Tank
from domain.log import Log, Preferences
from domain.plans import NotEnoughTold, Plan, Reach, plan, reach
from domain.quantities import Quantity
from domain.trip import last_distance_to
from domain.verdicts import Question

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
    return [tank for tank in driven.chain.tanks if tank.closed.at >= now - RECENT]
