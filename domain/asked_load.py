"""What a question about moving load means: what is put where, taken off, or moved.

This file decides how the fields of a `whatif` question and the verb in its words become
one of five requests, with places as the statics know them. The words themselves were read
elsewhere; a load that the question only names is looked up in the log's cargo. It works
nothing out. Masses are in kilograms, lengths in metres.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from domain.entries import Cargo
from domain.loading import BehindCoupling, InBed, InCab, OnTrailer, Place, Spread
from domain.log import Log
from domain.quantities import MASSES, Quantity
from domain.verdicts import Question


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

VERBS = (
    ("where", r"\bwhere\b"),
    ("how much", r"\bhow (?:much|heavy)\b|\broom for\b"),
    ("take", r"\b(?:tak\w+|took|leav\w+|pull\w*) .*\b(?:off|out|behind|home)\b"),
    ("take", r"\b(?:remov|unload|dump|drain|drop)\w*|\bwithout\b|\bless\b"),
    ("move", r"\b(?:mov|slid|shift|push|pull)(?:e|es|ed|ing)?\b"),
)
"""What a question's words ask for, the first that is found; anything else puts load on."""

AXLE = r"(?:the )?(?:trailer|trlr|rear|drive|back)?(?:'s)? ?axles?"


def asked(question: Question, log: Log) -> Asked:
    """The request in a question about moving load."""
    verb = next((name for name, words in VERBS if re.search(words, question.text, re.I)), "put")
    if verb == "how much":
        place = _place(question.position, question.distance, question.trailer)
        return Unclear("distance") if place is None else HowMuch(place)
    known = _cargo(log, question.item)
    mass = _mass(question.value) or (known.value.amount("kg") if known else None)
    item = question.item or "that"
    if mass is None:
        return Unclear("mass")
    standing = _place(known.position, known.distance, known.trailer) if known else None
    if verb == "where":
        return _where(question, item, mass, standing)
    shift = _shift(question)
    if shift is not None:
        return Moved(item, mass, OnTrailer(0.0), OnTrailer(shift))
    place = _place(question.position, question.distance, question.trailer)
    if place is None:
        return Unclear("distance")
    if verb == "take":
        return Taken(item, mass, place if question.position else standing or place)
    if verb == "move" or (standing is not None and known is not None):
        return Unclear("start") if standing is None else Moved(item, mass, standing, place)
    return Put(item, mass, place)


def _where(question: Question, item: str, mass: float, standing: Place | None) -> Asked:
    share = question.value if isinstance(question.value, Quantity) else None
    if share is None or share.unit != "%":
        return Unclear("share")
    ahead = standing.ahead if isinstance(standing, OnTrailer) else None
    return WhereFor(item, mass, share.value / 100, ahead)


def _mass(value: Quantity | float | None) -> float | None:
    if isinstance(value, Quantity) and value.unit in MASSES:
        return value.amount("kg")
    return None


def _cargo(log: Log, item: str | None) -> Cargo | None:
    """The last cargo of that name."""
    wanted = (item or "").casefold().removeprefix("the ")
    found = [
        each.entry
        for each in log.of(Cargo)
        if wanted and (wanted in each.entry.item.casefold() or each.entry.item.casefold() in wanted)
    ]
    return found[-1] if found else None


def _shift(question: Question) -> float | None:
    """How far forward (m) a load goes that is moved from wherever it stands."""
    words = (question.position or "").casefold().strip()
    if question.distance is None:
        return None
    if words in ("forward", "ahead", "forwards", "toward coupler", "towards coupler"):
        return question.distance.amount("m")
    if words in ("back", "backward", "backwards", "rearward", "aft"):
        return -question.distance.amount("m")
    return None


def _place(position: str | None, distance: Quantity | None, trailer: str | None) -> Place | None:
    """A place in words as the statics know it; None where it wants a distance."""
    words = (position or "").casefold().strip()
    away = distance.amount("m") if distance else None
    on_truck = re.search(r"\b(bed|box|tray|drive axle|rear axle)\b", words)
    if re.search(r"\b(cab|seats?)\b", words):
        return InCab()
    if re.search(rf"\b(behind|back of|aft of) {AXLE}", words):
        return _ahead(None if away is None else -away, bool(on_truck))
    if re.search(rf"\b(ahead|in front|front|forward) of {AXLE}", words):
        return _ahead(away, bool(on_truck))
    if on_truck or words in ("truck", "in truck"):
        return InBed(away or 0.0)
    if re.search(r"\b(coupler|coupling|hitch|ball|tongue|kingpin)\b", words):
        return BehindCoupling(away or 0.0)
    if re.search(r"\baxles?\b", words):
        return OnTrailer(0.0)
    if not words or words == "trailer" or words == (trailer or "").casefold():
        return Spread()
    return None


def _ahead(metres: float | None, of_drive_axle: bool) -> Place | None:
    if metres is None:
        return None
    return InBed(metres) if of_drive_axle else OnTrailer(metres)
