"""Answers to 'what if': the weights as they would be, and the rating that binds first.

This file decides how a prediction is told. Where the statics lack a length or the question
lacks a place, it says which one and how to text it. The statics are `domain`'s.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import assert_never

from bot.answers.answer import Answer, Row
from bot.answers.limits import (
    CAUTION,
    kilograms_text,
    limit_name,
    margin_rows,
    mass_text,
    share_note,
    share_text,
    to_unit,
    verdict,
    with_doubt,
)
from bot.answers.weighed import NEEDS_SOLO, Weighed, tongue_name
from bot.answers.weights import NO_WEIGHING, last_weighed
from bot.answers.words import figure, number, rounded
from bot.reference import references
from domain.asked_load import HowMuch, Moved, Put, Taken, Unclear, WhereFor, asked
from domain.bounds import margins, tongue_share
from domain.context import MASS_UNIT, SHORT_LENGTH_UNIT
from domain.entries import SINGLE_AXLES
from domain.loading import (
    BehindCoupling,
    Effect,
    InBed,
    InCab,
    Lacks,
    Levers,
    OnTrailer,
    Place,
    Spread,
    effect,
    levers,
    place_for_share,
    predicted,
    room,
)
from domain.log import Log, Preferences
from domain.margins import Margin, Near, Over, governing
from domain.quantities import Quantity
from domain.uncertainty import spread
from domain.verdicts import Question
from domain.weighing import Weights

ASK_FOR = {
    "mass": "How heavy is it? Text it with the weight, such as: what if 600 lb in the bed.",
    "place": "Where would it stand? Such as: 4 ft ahead of the trailer axle.",
    "distance": "How far from the trailer axle is that? Such as: 4 ft ahead of the trailer axle.",
    "start": "Where does it stand now? Text it as cargo first: generator 210 lb in the bed.",
    "share": "For what tongue share? Such as: where must the skid go for 12 % tongue.",
    "coupler_to_axle": "That takes the length from coupler to trailer axle. "
    "Text it: trailer coupler to axle 16 ft.",
    "wheelbase": "That takes the truck's wheelbase. Text it: truck wheelbase 160 in.",
    "overhang": "That takes the hitch's lever. Weigh with the bars off and the truck alone, "
    "or text: truck wheelbase 160 in, overhang 52 in.",
    "tongue": NEEDS_SOLO,
}
"""What is asked back where something is lacking."""

WORKED_OUT = "Worked out, not weighed"
LEARNED = "the hitch's lever is from your own weighing"
BARS = "the bars are taken to stay as they are"
LEAVE_ROOM = "Leave some room: a scale is only good to its division."
FEW_MARGINS, MOST_MARGINS = 2, 3
"""Margins that are told: a few, and so many where they are over or near."""


def whatif_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The weights and margins after a change of load, how much fits, or where a load must go."""
    weighed = last_weighed(log, question.trailer)
    if weighed is None:
        return NO_WEIGHING
    arms = levers(weighed.rig, weighed.weights)
    request = asked(question, log)
    match request:
        case Put(item, mass, place) | Taken(item, mass, place):
            sign = -1.0 if isinstance(request, Taken) else 1.0
            amount = kilograms_text(mass, MASS_UNIT[preferences.units])
            title = f"{amount} {'less' if sign < 0 else 'more'} {_where(place, preferences)}"
            change = effect(place, arms, weighed.weights)
            return _changed(weighed, change, sign * mass, arms, title, preferences)
        case Moved(item, mass, start, end):
            title = f"{item.capitalize()} moved {_way(start, end, preferences)}"
            change = _difference(start, end, arms, weighed.weights)
            return _changed(weighed, change, mass, arms, title, preferences)
        case HowMuch(place):
            return _room(weighed, place, arms, preferences)
        case WhereFor():
            return _spot(weighed, request, arms, preferences)
        case Unclear(lacks):
            return Answer(headline=ASK_FOR[lacks])
    assert_never(request)


def _difference(start: Place, end: Place, arms: Levers, weights: Weights) -> Effect | Lacks:
    there, here = effect(end, arms, weights), effect(start, arms, weights)
    if isinstance(there, Lacks):
        return there
    return here if isinstance(here, Lacks) else there - here


def _changed(
    weighed: Weighed,
    change: Effect | Lacks,
    mass: float,
    arms: Levers,
    title: str,
    preferences: Preferences,
) -> Answer:
    if isinstance(change, Lacks):
        return Answer(headline=ASK_FOR[change.what])
    unit = MASS_UNIT[preferences.units]
    after = predicted(weighed.weights, change, mass)
    found = governing(margins(weighed.rig, after, references().load_index))
    said = verdict(found, unit, derived=True)
    headline = f"{title}: {said[0].lower() + said[1:]}" if said else f"{title}."
    return Answer(
        headline=headline,
        rows=(
            *_load_rows(weighed, after, unit),
            *_tight_rows(found, unit),
        ),
        notes=_notes(weighed, after, change, arms),
    )


def _load_rows(weighed: Weighed, after: Weights, unit: str) -> tuple[Row, ...]:
    rows = [
        Row(
            label,
            mass_text(after.loads[name], unit, derived=True),
            _step(weighed.weights, after, name, unit),
        )
        for name, label in (
            ("gross", "Gross"),
            ("steer", "Steer"),
            ("drive", "Drive"),
            ("trailer", "Trailer axles"),
        )
        if name in after.loads
    ]
    if after.tongue is not None:
        of = f"{share_text(after.share)} of the trailer" if after.share is not None else ""
        rows.append(Row(tongue_name(weighed.rig), with_doubt(after.tongue.load, unit), of))
    return tuple(rows)


def _step(before: Weights, after: Weights, name: str, unit: str) -> str:
    step = to_unit((after.loads[name] - before.loads[name]).nominal_value, unit)
    return f"{step:+,.0f}" if round(step) else "unchanged"


def _tight_rows(found: Sequence[Margin], unit: str) -> tuple[Row, ...]:
    pressing = sum(isinstance(each, Over | Near) for each in found)
    most = min(MOST_MARGINS, max(FEW_MARGINS, pressing))
    return margin_rows(found, unit, most, derived=True)


def _room(weighed: Weighed, place: Place, arms: Levers, preferences: Preferences) -> Answer:
    change = effect(place, arms, weighed.weights)
    if isinstance(change, Lacks):
        return Answer(headline=ASK_FOR[change.what])
    unit = MASS_UNIT[preferences.units]
    axles = sum(name in weighed.weights.loads for name in SINGLE_AXLES)
    found = room(weighed.governing, change, axles)
    if found is None:
        return Answer(headline="No rating given bounds that.", notes=(CAUTION,))
    if isinstance(found.binds, Over):
        over = verdict(weighed.governing, unit)
        return Answer(headline=f"Nothing more. {over}", notes=(CAUTION,))
    most = Quantity(_down(to_unit(found.mass, unit)), unit)
    after = predicted(weighed.weights, change, most.amount("kg"))
    left = governing(margins(weighed.rig, after, references().load_index))
    return Answer(
        headline=f"About {rounded(most)} more {_where(place, preferences)}; "
        f"{limit_name(found.binds)} binds first.",
        rows=(
            *_load_rows(weighed, after, unit),
            *_tight_rows(left, unit),
        ),
        notes=(LEAVE_ROOM, *_notes(weighed, after, change, arms)),
    )


def _down(amount: float) -> float:
    """To the ten below, so that what is said to fit does fit."""
    return max(0.0, amount // 10 * 10)


def _spot(weighed: Weighed, request: WhereFor, arms: Levers, preferences: Preferences) -> Answer:
    spot = place_for_share(weighed.weights, arms, request.share, request.mass, request.standing)
    if isinstance(spot, Lacks):
        return Answer(headline=ASK_FOR[spot.what])
    unit = SHORT_LENGTH_UNIT[preferences.units]
    ahead = Quantity(spot.nominal_value, "m").amount(unit)
    doubt = Quantity(spread(spot), "m").amount(unit)
    share = f"{100 * request.share:g} %"
    reach = arms.reach or 0.0
    if abs(spot.nominal_value) > reach:
        return Answer(
            headline=f"That load alone can't bring the tongue to {share}; it would have to stand "
            f"{number(abs(ahead), 1)} {unit} {_side(ahead)} of the axle.",
            notes=(CAUTION,),
        )
    place = OnTrailer(spot.nominal_value)
    start = None if request.standing is None else OnTrailer(request.standing)
    change = (
        effect(place, arms, weighed.weights)
        if start is None
        else _difference(start, place, arms, weighed.weights)
    )
    title = (
        f"For {share} tongue: {number(abs(ahead), 1)} {unit} ±{number(max(doubt, 0.1), 1)} "
        f"{_side(ahead)} of the trailer axle"
    )
    if isinstance(change, Lacks):
        return Answer(headline=f"{title}.", notes=(ASK_FOR[change.what], CAUTION))
    return _changed(weighed, change, request.mass, arms, title, preferences)


def _side(ahead: float) -> str:
    return "ahead" if ahead >= 0 else "back"


def _notes(weighed: Weighed, after: Weights, change: Effect, arms: Levers) -> tuple[str, ...]:
    uses_lever = bool(change.tongue.nominal_value)
    basis = [
        WORKED_OUT,
        LEARNED if uses_lever and arms.learned else "",
        BARS if uses_lever and _bars_on(weighed.weights) else "",
    ]
    notes = (
        share_note(tongue_share(weighed.rig, after)),
        f"{'; '.join(filter(None, basis))}.",
        CAUTION,
    )
    return tuple(filter(None, notes))


def _bars_on(weights: Weights) -> bool:
    road = weights.session.road
    return road is not None and road.bars == "on"


def _length(metres: float, preferences: Preferences) -> str:
    unit = SHORT_LENGTH_UNIT[preferences.units]
    return figure(Quantity(round(Quantity(metres, "m").amount(unit), 1), unit))


def _where(place: Place, preferences: Preferences) -> str:
    match place:
        case OnTrailer(0.0):
            return "over the trailer's axles"
        case OnTrailer(ahead):
            side = "ahead of" if ahead > 0 else "behind"
            return f"{_length(abs(ahead), preferences)} {side} the trailer axle"
        case BehindCoupling(0.0):
            return "on the coupling"
        case BehindCoupling(behind):
            return f"{_length(behind, preferences)} behind the coupling"
        case Spread():
            return "on the trailer, placed to keep its tongue share"
        case InBed(0.0):
            return "in the bed over the drive axle"
        case InBed(ahead):
            side = "ahead of" if ahead > 0 else "behind"
            return f"{_length(abs(ahead), preferences)} {side} the drive axle"
        case InCab():
            return "in the cab"
    assert_never(place)


def _way(start: Place, end: Place, preferences: Preferences) -> str:
    """A move in words; from the axle, it is a shift from wherever the load stands."""
    if start == OnTrailer(0.0) and isinstance(end, OnTrailer):
        way = "forward" if end.ahead >= 0 else "back"
        return f"{_length(abs(end.ahead), preferences)} {way}"
    return f"to {_where(end, preferences)}"
