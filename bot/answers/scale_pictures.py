"""What the pictures of a weighing show: the rig from the side, and the margins as bars.

This file decides which limit stands beside which load (the lowest governs) and when a weighing
is whole enough for a picture to help. The arithmetic is `domain`'s, the words `limits.py`'s.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from bot.answers.alt_text import alt_text
from bot.answers.brief import rating_name
from bot.answers.language import marked, say, say_of
from bot.answers.limits import (
    CAUTION,
    DERIVED,
    left_text,
    limit_name,
    limit_text,
    mass_text,
    missing_note,
    unknown_note,
)
from bot.answers.pictures import Bar, MarginsPicture, RigPicture, State
from bot.answers.weighed import Weighed, headline, tongue_name
from bot.answers.words import moment, number, sentence
from domain.bounds import load_of
from domain.context import MASS_UNIT
from domain.entries import SINGLE_AXLES
from domain.log import Preferences
from domain.margins import Clear, Margin, Near, Over, Unknown
from domain.uncertainty import spread

STATES: dict[type[Over | Near | Clear], State] = {Over: "over", Near: "near", Clear: "inside"}

LEFT: dict[type[Over | Near | Clear], str] = {
    Over: marked("{mass} over"),
    Near: marked("{mass} left, near"),
    Clear: marked("{mass} left"),
}
"""What remains of a limit; in words, so that no state is told by its look alone."""

MOST_BARS = 8
"""Margins that one picture shows; the rest have more room."""

MOST_MISSING = 4
"""Missing ratings that a picture names; the rest are counted."""

ASSUMED_AXLES = 2
"""Axles that a trailer is drawn with where nobody said (common practice, no source)."""

OWN_RATING = {
    ("truck", "gawr_front"): marked("GAWR"),
    ("truck", "gawr_rear"): marked("GAWR"),
    ("truck tyres", "front"): marked("tyres"),
    ("truck tyres", "rear"): marked("tyres"),
    ("trailer tyres", "load"): marked("tyres"),
}
"""What a limit is called beside the load that it bounds, where that is not the rating's name."""

BY_RATING = ("gvwr", "gcwr", "gawr", "gtm")
"""Ratings that are called by their name beside their load; other limits by the limit's own."""


def is_complete(told: Weighed) -> bool:
    """Whether every load of the rig is known, the tongue's too, and some rating to hold it to."""
    loads, judged = told.weights.loads, [m for m in told.governing if not isinstance(m, Unknown)]
    axles = all(name in loads for name in ("steer", "drive", "trailer"))
    return bool(axles and told.weights.session.road and told.weights.tongue and judged)


def rig_picture(told: Weighed, preferences: Preferences) -> RigPicture:
    """The rig at the scale, each load beside its tightest limit."""
    unit, rig, loads = MASS_UNIT[preferences.units], told.rig, told.weights.loads
    behind = any(name in loads for name in ("trailer", *SINGLE_AXLES)) or told.weights.tongue
    singles = [name for name in SINGLE_AXLES if name in loads]
    axles = [
        _load_bar(told, name, say("Axle {number}", number=name[-1]), unit)
        for name in singles
        if len(singles) > 1
    ] or [_load_bar(told, "trailer", say_of("picture", "Trailer axles"), unit)]
    sums = [
        _load_bar(told, "truck", say("Truck"), unit),
        _load_bar(told, "trailer weight", say("Trailer"), unit),
        _load_bar(told, "gross", say("Gross"), unit),
    ]
    picture = RigPicture(
        title=say("At the scale"),
        verdict=headline(told, unit),
        when=moment(told.weights.session.ended, preferences),
        truck=rig.truck or say("truck"),
        trailer_name=(rig.trailer or say("trailer")) if behind else "",
        pin=rig.coupling == "pin",
        axles=max(rig.axles or ASSUMED_AXLES, len(singles)) if behind else 0,
        steer=_load_bar(told, "steer", say("Steer"), unit),
        drive=_load_bar(told, "drive", say("Drive"), unit),
        tongue=_load_bar(told, "tongue", tongue_name(rig), unit),
        trailer=tuple(each for each in axles if each) if behind else (),
        sums=tuple(each for each in sums if each),
        caution=say(CAUTION),
    )
    return replace(picture, alt=alt_text(picture))


def margins_picture(told: Weighed, preferences: Preferences) -> MarginsPicture:
    """Every margin that can be judged, the tightest first; then what is missing."""
    unit = MASS_UNIT[preferences.units]
    judged = [each for each in told.governing if not isinstance(each, Unknown)]
    more = len(judged) - MOST_BARS
    notes = (
        say("{count} more with more room.", count=number(more, 0)) if more > 0 else "",
        unknown_note(told.governing),
        missing_note(told.missing, MOST_MISSING),
    )
    picture = MarginsPicture(
        title=say("Margins"),
        verdict=headline(told, unit),
        when=moment(told.weights.session.ended, preferences),
        bars=tuple(margin_bar(each, unit) for each in judged[:MOST_BARS]),
        inside=say_of("margin", "left"),
        outside=say_of("margin", "over"),
        line=say_of("margin", "rating"),
        notes=tuple(filter(None, notes)),
        caution=say(CAUTION),
    )
    return replace(picture, alt=alt_text(picture))


def _own_rating(margin: Margin) -> str:
    """What a limit is called beside the load that it bounds."""
    subject, rating = margin.limit.subject, margin.limit.rating
    if rating in BY_RATING:
        return rating_name(rating, subject)
    by = OWN_RATING.get((subject, rating))
    return say(by) if by else limit_name(margin)


def margin_bar(margin: Over | Near | Clear, unit: str, name: str = "") -> Bar:
    """A margin as a bar, by the limit's name, or by that of its load with the limit's beside it."""
    limit, doubt = margin.limit, spread(margin.left)
    derived = limit.bounds in DERIVED
    load = (
        f"{number(margin.load.nominal_value, 1)} kN"
        if limit.unit == "kN"
        else mass_text(margin.load, unit, derived=derived)
    )
    against = say("of {limit}", limit=limit_text(margin, unit))
    return Bar(
        name=name or sentence(limit_name(margin)),
        load=load,
        against=f"{against} {_own_rating(margin)}" if name else against,
        left=say(LEFT[type(margin)], mass=left_text(margin, unit)),
        state=STATES[type(margin)],
        used=margin.load.nominal_value / limit.value,
        doubt=doubt / limit.value,
    )


def _load_bar(told: Weighed, name: str, label: str, unit: str) -> Bar | None:
    """A load beside the limit that leaves it the least; None where it was not weighed."""
    load = load_of(told.weights, name)
    if load is None:
        return None
    tightest = _tightest(told.governing, name)
    if tightest is not None:
        return margin_bar(tightest, unit, label)
    written = mass_text(load, unit, derived=name in DERIVED)
    return Bar(name=label, load=written, left=say("no rating given"))


def _tightest(found: Iterable[Margin], name: str) -> Over | Near | Clear | None:
    return next(
        (each for each in found if each.limit.bounds == name and not isinstance(each, Unknown)),
        None,
    )
