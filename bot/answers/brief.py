"""Each kind of entry in one line.

This file decides how an entry is named where it is quoted: in a confirmation, a correction,
an undo, a list. What it prints reads back to the same entry. A full answer to an entry is
another file's.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from bot.answers.words import figure, number
from domain.entries import (
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
from domain.tyres import code_digits

RATING_WORDS = {
    "gvwr": "GVWR",
    "gcwr": "GCWR",
    "gawr": "GAWR",
    "gawr_front": "front GAWR",
    "gawr_rear": "rear GAWR",
    "tow": "max trailer",
    "tongue": "max tongue",
    "load_index": "load index",
    "curb": "curb weight",
}
"""What each rating is called; one that is not listed goes by its own name."""

LOAD_WORDS = {"trailer": "trailer axles", "truck": "truck as one"}
EVENT_WORDS = {"depart": "leaving", "arrive": "arrived", "turnaround": "turned around"}


def brief(entry: Entry) -> str:
    """The entry in one line: `steer 5,280 lb, drive 6,940 lb`, `hitched flatdeck`."""
    text = _BRIEFS[type(entry)](entry)
    return f"{text} at {entry.place}" if entry.place and not isinstance(entry, Note) else text


def load_name(position: str) -> str:
    """What a position on the scale is called: `trailer axles`, `steer left`."""
    return LOAD_WORDS.get(position, position.replace("_", " "))


def rating_name(rating: str) -> str:
    """What a rating is called: `GVWR`, `max tongue`."""
    return RATING_WORDS.get(rating, rating.replace("_", " "))


def field_name(field: str) -> str:
    """What a field of an entry is called in a sentence."""
    return RATING_WORDS.get(field, load_name(field))


def bare_or_figure(value: Quantity | float | str | bool | None) -> str:
    """A value of any field, as it is quoted."""
    match value:
        case None:
            return "nothing"
        case bool():
            return "yes" if value else "no"
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
        f"bars {entry.bars}" if entry.bars else "",
        f"{entry.aboard} aboard" if entry.aboard else "",
        f"ticket {entry.ticket}" if entry.ticket else "",
    ]
    return ", ".join(part for part in parts if part)


RIG_WORDS = {"hitched": "hitched", "solo": "solo", "trailer": "trailer alone"}


def _rig(entry: Weighing) -> str:
    """How the rig stood, where the loads do not show it."""
    shown = any(position.startswith("trailer") for position in entry.loads)
    if entry.rig is None or (entry.rig == "hitched" and shown):
        return ""
    return RIG_WORDS[entry.rig]


def _fill(entry: Fill) -> str:
    volume = figure(entry.volume) if entry.volume else ""
    parts = [
        " ".join(part for part in (volume, entry.product or "") if part),
        f"odometer {figure(entry.odometer)}" if entry.odometer else "",
        f"trip {figure(entry.distance)}" if entry.distance else "",
        figure(entry.unit_price) if entry.unit_price else "",
        f"total {figure(entry.cost)}" if entry.cost else "",
        {True: "full", False: "partial", None: ""}[entry.full],
        f"dash {figure(entry.dash_economy)}" if entry.dash_economy else "",
    ]
    return ", ".join(part for part in parts if part) or "a fill"


def _odometer(entry: Odometer) -> str:
    words = f"odometer {figure(entry.odometer)}"
    return f"{words}, {EVENT_WORDS[entry.event]}" if entry.event else words


def _hitch(entry: Hitch) -> str:
    return f"{entry.action} {entry.trailer}" if entry.trailer else entry.action


def _observation(entry: Observation) -> str:
    name = entry.subject.replace("_", " ")
    where = f"{entry.position} {name}" if entry.position else name
    return f"{where} {figure(entry.value)}"


def _rating(entry: Rating) -> str:
    owner = entry.trailer or entry.truck or entry.subject
    if entry.subject not in ("truck", "trailer") and owner != entry.subject:
        owner = f"{owner} {entry.subject}"
    return f"{owner} {rating_name(entry.rating)} {rating_value(entry)}"


def rating_value(entry: Rating) -> str:
    """A rating's figure, with the remark that belongs to it: `6,000 lb (2 axles)`."""
    value = rating_figure(entry)
    return f"{value} ({entry.note})" if entry.note else value


def rating_figure(entry: Rating) -> str:
    """A rating's figure by itself: `6,000 lb`, `121`, a tyre's date code as it is moulded."""
    if isinstance(entry.value, Quantity):
        return figure(entry.value)
    return code_digits(entry.value) if entry.rating == "date_code" else number(entry.value)


def _cargo(entry: Cargo) -> str:
    away = figure(entry.distance) if entry.distance else ""
    where = " ".join(part for part in (away, entry.position or "") if part)
    words = f"{entry.item} {figure(entry.value)}"
    return f"{words}, {where}" if where else words


def _check(entry: Check) -> str:
    return f"{entry.item} {'done' if entry.state == 'done' else 'at fault'}"


def _note(entry: Note) -> str:
    return f"note: {entry.note}"


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
