"""What a question about moving load means: what is put where, taken off, or moved.

This file decides how the fields of a `whatif` question and the verb in its words become
one of five requests, with places as the statics know them. The words themselves were read
elsewhere; a load that the question only names is looked up in the log's cargo. It works
nothing out. Masses are in kilograms, lengths in metres.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from domain.asked_figures import asked_lever, asked_share
from domain.asked_words import AskedWords, first_said
from domain.entries import Cargo
from domain.loading import BehindCoupling, InBed, InCab, OnTrailer, Place, Spread
from domain.log import Log
from domain.quantities import Quantity
from domain.verdicts import MORE, Question
from domain.water import mass_of


@dataclass(frozen=True, slots=True)
class Put:
    """So much more at a place."""

    item: str
    mass: float
    place: Place


@dataclass(frozen=True, slots=True)
class Taken:
    """So much less from a place."""

    item: str
    mass: float
    place: Place


@dataclass(frozen=True, slots=True)
class Moved:
    """So much from one place to another."""

    item: str
    mass: float
    start: Place
    end: Place


@dataclass(frozen=True, slots=True)
class HowMuch:
    """How much more fits at a place."""

    place: Place


@dataclass(frozen=True, slots=True)
class WhereFor:
    """Where a load must stand for a tongue share; `standing` is where it is (m ahead of axle)."""

    item: str
    mass: float
    share: float
    standing: float | None


@dataclass(frozen=True, slots=True)
class Unclear:
    """What the question leaves open: `mass`, `place`, `start` or `distance`."""

    lacks: str


Asked = Put | Taken | Moved | HowMuch | WhereFor | Unclear


def asked(question: Question, log: Log, words: AskedWords) -> Asked:
    """The request in a question about moving load; what says nothing else puts it on."""
    said = first_said(words.verb, question.text) or "put"
    verb = "how much" if question.form == MORE else said
    if verb == "how much" and _mass(question.value) is not None:
        verb = "put"  # 'is there room for a 200 lb cooler', 'how much does it go up with 300 lb'
    lever = asked_lever(question, words)
    rides = question.position is None and words.place["riding"].search(question.text) is not None
    position = question.position or _beside_axle(question.text, words)
    position = position or _on_truck(question, words)
    felt = verb != "how much" and first_said(words.felt, question.text) is not None
    place = None if position or felt else OVER.get(question.field or "")
    place = InCab() if rides else place
    place = place or _place(position, lever, question.trailer, words)
    if verb == "how much":
        return Unclear("distance") if place is None else HowMuch(place)
    known = _cargo(log, question)
    item = question.item or (known.item if known else "that")
    mass = _mass(question.value) or (_mass(known.value) if known else None)
    if mass is None:
        return Unclear("mass")
    standing = _standing(known, words)
    if verb == "where":
        return _where(question, item, mass, standing, words)
    shift = _shift(question, words)
    if shift is not None:
        return Moved(item, mass, OnTrailer(0.0), OnTrailer(shift))
    if verb == "take":
        there = place if position else standing or place
        return Unclear("distance") if there is None else Taken(item, mass, there)
    if place is None:
        return Unclear("distance")
    anew = known is None or (question.value is not None and not _is_of(known, mass))
    if standing is not None and (verb == "move" or not anew):
        return Moved(item, mass, standing, place)
    return Unclear("start") if verb == "move" else Put(item, mass, place)


OVER: Mapping[str, Place] = {
    "drive": InBed(0.0),
    "trailer": OnTrailer(0.0),
    "tongue": BehindCoupling(0.0),
}
"""Where a load is put of which only the axle, or the tongue, is named."""


def _beside_axle(text: str, words: AskedWords) -> str | None:
    """'in front of the axle', 'behind the rear axle': a place that also names an axle."""
    for name in ("before_axle", "behind_axle"):
        found = words.place[name].search(text)
        if found is not None:
            return found.group()
    return None


def _on_truck(question: Question, words: AskedWords) -> str | None:
    """'the quad on the ute': the truck, where it is all that is named."""
    if question.trailer or question.field or words.place["trailer"].search(question.text):
        return None
    onto = words.place["onto_truck"].search(question.text)
    return "truck" if onto is not None or question.truck else None


def _where(
    question: Question, item: str, mass: float, standing: Place | None, words: AskedWords
) -> Asked:
    share = asked_share(question, words)
    if share is None:
        return Unclear("share")
    return WhereFor(item, mass, share, standing.ahead if isinstance(standing, OnTrailer) else None)


def _mass(value: Quantity | float | None) -> float | None:
    mass = mass_of(value) if isinstance(value, Quantity) else None
    return mass.amount("kg") if mass else None


def _is_of(known: Cargo, mass: float) -> bool:
    """Whether a mass that is told is what the log has of a load, and no more of the same."""
    own = _mass(known.value)
    return own is not None and abs(own - mass) < 0.01 * own


def _cargo(log: Log, question: Question) -> Cargo | None:
    """The last cargo whose name the question has in part: 'the skid' is the skid steer."""
    said = set(re.findall(r"\w{3,}", f"{question.item or ''} {question.text}".casefold()))
    for each in reversed(log.of(Cargo)):
        if said & set(re.findall(r"\w{3,}", each.entry.item.casefold())):
            return each.entry
    return None


def _standing(known: Cargo | None, words: AskedWords) -> Place | None:
    if known is None or not known.position:
        return None
    away = known.distance.amount("m") if known.distance else None
    return _place(known.position, away, known.trailer, words)


def _shift(question: Question, words: AskedWords) -> float | None:
    """How far forward (m) a load goes that is moved from wherever it stands."""
    length = asked_lever(question, words)
    way = first_said(words.way, question.position or question.text)
    if length is None or way is None or words.place["marks"].search(question.text):
        return None
    return length if way == "forward" else -length


def _place(
    position: str | None, away: float | None, trailer: str | None, words: AskedWords
) -> Place | None:
    """A place in words as the statics know it, so far (m) from what it names.

    None where it wants a distance.
    """
    said = (position or "").casefold().strip()
    places = words.place
    on_truck = places["bed"].search(said)
    if places["cab"].search(said):
        return InCab()
    if places["behind_axle"].search(said):
        return _ahead(None if away is None else -away, bool(on_truck))
    if places["before_axle"].search(said):
        return _ahead(away, bool(on_truck))
    if on_truck or places["truck"].fullmatch(said):
        return InBed(away or 0.0)
    if places["coupling"].search(said):
        return BehindCoupling(away or 0.0)
    if places["axle"].search(said):
        return OnTrailer(0.0)
    if not said or places["trailer"].fullmatch(said) or said == (trailer or "").casefold():
        return Spread()
    return None


def _ahead(metres: float | None, of_drive_axle: bool) -> Place | None:
    if metres is None:
        return None
    return InBed(metres) if of_drive_axle else OnTrailer(metres)
