"""Each kind of entry in one line.

This file decides how an entry is named where it is quoted: in a confirmation, a correction,
an undo, a list. What it prints reads back to the same entry. A full answer to an entry is
another file's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from bot.answers.language import marked, say, say_count, say_of
from bot.answers.measures import interval
from bot.answers.terms import term
from bot.answers.words import figure, number
from domain.entries import (
    POSITIONS,
    Cargo,
    Check,
    Entry,
    Fill,
    Hitch,
    Note,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.quantities import Quantity
from domain.rig import subject_of
from domain.tyres import code_digits
from domain.upkeep import DONE_AT, DUE_IN, DUE_IN_DAYS

EVERY_DAYS = "every_days"
"""A reminder by the calendar, which has no unit of its own."""

RATING_WORDS = {
    "gvwr": marked("GVWR"),
    "gcwr": marked("GCWR"),
    "gawr": marked("GAWR"),
    "gtm": marked("GTM"),
    "gawr_front": marked("front GAWR"),
    "gawr_rear": marked("rear GAWR"),
    "tow": marked("max trailer"),
    "tongue": marked("max tongue"),
    "load_index": marked("load index"),
    "curb": marked("curb weight"),
    "d_value": marked("D value"),
    "d": marked("D value"),
    "dc": marked("Dc value"),
    "v": marked("V value"),
    "s": marked("S value"),
    EVERY_DAYS: marked("every"),
    DONE_AT: marked("last done at"),
    DUE_IN: marked("due in"),
    DUE_IN_DAYS: marked("due in"),
}
"""What each rating is called; one that is not listed goes by its own name."""

LOAD_WORDS = {"trailer": marked("trailer axles"), "truck": marked("truck as one")}
EVENT_WORDS = {
    "depart": marked("leaving"),
    "arrive": marked("arrived"),
    "turnaround": marked("turned around"),
}


def brief(entry: Entry) -> str:
    """The entry in one line: `steer 5,280 lb, drive 6,940 lb`, `hitched flatdeck`."""
    text = _BRIEFS[type(entry)](entry)
    if not entry.place or isinstance(entry, Note | Odometer):
        return text
    return at_place(text, entry.place)


def at_place(text: str, place: str) -> str:
    """What happened, with where it did."""
    return say("{entry} at {place}", entry=text, place=_place(place))


def _place(place: str) -> str:
    return say("home") if place == HOME else place


def on_the_way(reading: str, entry: Odometer) -> str:
    """An odometer reading with what happened there, and where: `odometer 48,011 mi, arrived`."""
    if entry.event == "depart" and entry.place:
        return say("{reading}, leaving {place}", reading=reading, place=_place(entry.place))
    told = f"{reading}, {say(EVENT_WORDS[entry.event])}" if entry.event else reading
    return at_place(told, entry.place) if entry.place else told


HOME = "home"
"""The one place that is no name."""


def load_name(position: str) -> str:
    """What a position on the scale is called: `trailer axles`, `steer left`."""
    return term(LOAD_WORDS.get(position, position))


def rating_name(rating: str, subject: str = "") -> str:
    """What a rating is called: `GVWR`, `max tongue`; a trailer's may have a name of its own."""
    if (subject, rating) == ("trailer", "gvwr"):
        return say_of("trailer", "GVWR")
    if (subject, rating) == ("trailer", "curb"):
        return say("empty weight")
    return term(RATING_WORDS.get(rating, rating))


def field_name(field: str, entry: Entry | None = None) -> str:
    """What a field of an entry is called in a sentence: a scale's tongue is no rating's."""
    rated = isinstance(entry, Rating) or field not in POSITIONS
    return rating_name(field) if rated and field in RATING_WORDS else load_name(field)


def bare_or_figure(value: Quantity | float | str | bool | None) -> str:
    """A value of any field, as it is quoted."""
    match value:
        case None:
            return say("nothing")
        case bool():
            return say("yes") if value else say("no")
        case Quantity():
            return figure(value)
        case str():
            return value
    return number(value)


def _weighing(entry: Weighing) -> str:
    loads = ", ".join(f"{load_name(name)} {figure(load)}" for name, load in entry.loads.items())
    parts = [
        loads,
        _rig(entry),
        say(BARS_WORDS[entry.bars]) if entry.bars else "",
        say("{people} aboard", people=entry.aboard) if entry.aboard else "",
        say("ticket {number}", number=entry.ticket) if entry.ticket else "",
    ]
    return ", ".join(part for part in parts if part)


BARS_WORDS = {"on": marked("bars on"), "off": marked("bars off")}
RIG_WORDS = {
    "hitched": marked("hitched"),
    "solo": marked("solo"),
    "trailer": marked("trailer alone"),
}


def _rig(entry: Weighing) -> str:
    """How the rig stood, where the loads do not show it."""
    shown = any(position.startswith("trailer") for position in entry.loads)
    if entry.rig is None or (entry.rig == "hitched" and shown):
        return ""
    return say(RIG_WORDS[entry.rig])


def _fill(entry: Fill) -> str:
    parts = [
        _bought(entry),
        say("odometer {figure}", figure=figure(entry.odometer)) if entry.odometer else "",
        say("trip {figure}", figure=figure(entry.distance)) if entry.distance else "",
        figure(entry.unit_price) if entry.unit_price else "",
        say("total {figure}", figure=figure(entry.cost)) if entry.cost else "",
        say(FULL_WORDS[entry.full]) if entry.full is not None else "",
        say("dash {figure}", figure=figure(entry.dash_economy)) if entry.dash_economy else "",
    ]
    return ", ".join(part for part in parts if part) or say("a fill")


FULL_WORDS = {True: marked("full"), False: marked("partial")}


def _bought(entry: Fill) -> str:
    """How much went in, and of what."""
    product = term(entry.product or "")
    if entry.volume is None:
        return product
    volume = figure(entry.volume)
    return say("{volume} {product}", volume=volume, product=product) if product else volume


def _odometer(entry: Odometer) -> str:
    return on_the_way(say("odometer {figure}", figure=figure(entry.odometer)), entry)


def _hitch(entry: Hitch) -> str:
    action = say(HITCH_WORDS[entry.action])
    return f"{action} {entry.trailer}" if entry.trailer else action


HITCH_WORDS = {"hitched": marked("hitched"), "unhitched": marked("unhitched")}


def _observation(entry: Observation) -> str:
    return f"{gauge_name(entry.subject, entry.position)} {figure(entry.value)}"


def gauge_name(subject: str, position: str | None) -> str:
    """What a gauge is called, with where on the rig it was read: `left front tyre`."""
    name = term(subject)
    if not position:
        return name
    return say("{place} {gauge}", place=term(position), gauge=name)


def _rating(entry: Rating) -> str:
    return f"{rated_name(entry)} {rating_name(entry.rating, entry.subject)} {rating_value(entry)}"


def rated_name(entry: Rating) -> str:
    """What a rating is of, by name where it has one: `Juniper`, `flatdeck hitch`."""
    owner = entry.trailer or entry.truck
    if entry.subject in ("truck", "trailer"):
        return owner or term(entry.subject)
    if owner is None:
        return term(subject_of(entry))
    return say("{owner} {part}", owner=owner, part=term(entry.subject))


def rating_value(entry: Rating) -> str:
    """A rating's figure, with the remark that belongs to it: `6,000 lb (2 axles)`."""
    value = rating_figure(entry)
    note = rating_note(entry)
    return f"{value} ({note})" if note else value


def rating_note(entry: Rating) -> str:
    """What belongs to a rating's figure, if anything: a tank's fuel, a number of axles."""
    count, _, counted = (entry.note or "").partition(" ")
    if counted == "axles" and count.isdigit():
        return say_count("{count} axle", "{count} axles", int(count))
    return term(entry.note or "")


def rating_figure(entry: Rating) -> str:
    """A rating's figure by itself: `6,000 lb`, `121`, a tyre's date code as it is moulded."""
    if isinstance(entry.value, Quantity):
        return figure(entry.value)
    if entry.rating in (EVERY_DAYS, DUE_IN_DAYS):
        return interval(entry.value)
    return code_digits(entry.value) if entry.rating == "date_code" else number(entry.value)


def _cargo(entry: Cargo) -> str:
    away = figure(entry.distance) if entry.distance else ""
    where = " ".join(part for part in (away, _placed(entry.position or "")) if part)
    words = f"{entry.item} {figure(entry.value)}"
    return f"{words}, {where}" if where else words


def _placed(position: str) -> str:
    """Where something stands, with the article that its record leaves out: `behind the axles`."""
    return LED.sub(lambda led: f"{led[0]}the ", term(position))


LED = re.compile(r"\A(?:in front of|ahead of|forward of|behind|over|above|under) (?=[a-z ]+\Z)")
"""A lead, and behind it a part that has neither a name nor a number."""


def _check(entry: Check) -> str:
    return say(CHECK_WORDS[entry.state], item=term(entry.item))


CHECK_WORDS = {"done": marked("{item} done"), "fault": marked("{item} at fault")}


def _note(entry: Note) -> str:
    return say("note: {words}", words=entry.note)


_BRIEFS: Mapping[type[Entry], Callable[[Any], str]] = {
    Weighing: _weighing,
    Fill: _fill,
    Odometer: _odometer,
    Hitch: _hitch,
    Observation: _observation,
    Rating: _rating,
    Cargo: _cargo,
    Check: _check,
    Note: _note,
}
