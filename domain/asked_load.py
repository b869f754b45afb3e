"""What a question about moving load means: what is put where, taken off, or moved.

This file decides how the fields of a `whatif` question and the verb in its words become
one of five requests, with places as the statics know them. The words themselves were read
elsewhere; a load that the question only names is looked up in the log's cargo. It works
nothing out. Masses are in kilograms, lengths in metres.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from domain.asked_figures import asked_lever, asked_share
from domain.entries import Cargo
from domain.loading import BehindCoupling, InBed, InCab, OnTrailer, Place, Spread
from domain.log import Log
from domain.quantities import Quantity
from domain.verdicts import Question
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

VERBS = (
    ("where", r"\bwhere\b|\bd[oó]nde\b"),
    ("how much", r"\bhow (?:much|heavy)\b|\broom for\b|\bcu[aá]nto m[aá]s\b"),
    ("take", r"\b(?:tak\w+|took|leav\w+|pull\w*) .*\b(?:off|out|behind|home)\b"),
    ("take", r"\b(?:remov|unload|dump|drain|drop)\w*|\bwithout\b|\bless\b"),
    ("take", r"\b(?:quit|sac|descarg|baj)(?:o|amos|ar)\b"),
    ("move", r"\b(?:mov|slid|shift|push|pull)(?:e|es|ed|ing)?\b"),
    ("move", r"\b(?:muevo|mov(?:emos|er)|corr(?:o|emos|er)|pas(?:o|amos|ar))\b"),
)
"""What a question's words ask for in any language that is read, the first that is found;
anything else puts load on."""

FORWARD = ("forward", "ahead", "adelante")
SHIFT = re.compile(rf"\b({'|'.join(FORWARD)}|back|rearward|aft|atr[aá]s)(?:s|wards?)?\b", re.I)
AXLE_OR_COUPLING = (
    r"\b(?:axles?|coupler|coupling|hitch|bed|nose|ejes?|acople|acoplador|enganche|caja|batea)\b"
)
AXLE = r"(?:the )?(?:trailer|trlr|rear|drive|back)?(?:'s)? ?axles?"
COUPLING = "coupler|coupling|hitch|ball|tongue|kingpin|acople|acoplador|enganche|bola|lanza"
BEHIND_EJE, BEFORE_EJE = (
    r"\b(?:detras|atras) (?:del?|de los) ejes?\b",
    r"\ba?delante (?:del?|de los) ejes?\b",
)


def asked(question: Question, log: Log) -> Asked:
    """The request in a question about moving load."""
    verb = next((name for name, words in VERBS if re.search(words, question.text, re.I)), "put")
    place = _place(question.position, asked_lever(question), question.trailer)
    if verb == "how much":
        return Unclear("distance") if place is None else HowMuch(place)
    known = _cargo(log, question)
    item = question.item or (known.item if known else "that")
    mass = _mass(question.value) or (_mass(known.value) if known else None)
    if mass is None:
        return Unclear("mass")
    standing = _standing(known)
    if verb == "where":
        return _where(question, item, mass, standing)
    shift = _shift(question)
    if shift is not None:
        return Moved(item, mass, OnTrailer(0.0), OnTrailer(shift))
    if verb == "take":
        there = place if question.position else standing or place
        return Unclear("distance") if there is None else Taken(item, mass, there)
    if place is None:
        return Unclear("distance")
    if standing is not None:
        return Moved(item, mass, standing, place)
    return Unclear("start") if verb == "move" else Put(item, mass, place)


def _where(question: Question, item: str, mass: float, standing: Place | None) -> Asked:
    share = asked_share(question)
    if share is None:
        return Unclear("share")
    return WhereFor(item, mass, share, standing.ahead if isinstance(standing, OnTrailer) else None)


def _mass(value: Quantity | float | None) -> float | None:
    mass = mass_of(value) if isinstance(value, Quantity) else None
    return mass.amount("kg") if mass else None


def _cargo(log: Log, question: Question) -> Cargo | None:
    """The last cargo whose name the question has in part: 'the skid' is the skid steer."""
    said = set(re.findall(r"\w{3,}", f"{question.item or ''} {question.text}".casefold()))
    for each in reversed(log.of(Cargo)):
        if said & set(re.findall(r"\w{3,}", each.entry.item.casefold())):
            return each.entry
    return None


def _standing(known: Cargo | None) -> Place | None:
    if known is None or not known.position:
        return None
    away = known.distance.amount("m") if known.distance else None
    return _place(known.position, away, known.trailer)


def _shift(question: Question) -> float | None:
    """How far forward (m) a load goes that is moved from wherever it stands."""
    length = asked_lever(question)
    way = SHIFT.search(question.position or question.text)
    if length is None or way is None or re.search(AXLE_OR_COUPLING, question.text, re.I):
        return None
    return length if way.group(1).casefold() in FORWARD else -length


def _place(position: str | None, away: float | None, trailer: str | None) -> Place | None:
    """A place in words as the statics know it, so far (m) from what it names.

    None where it wants a distance.
    """
    words = (position or "").casefold().strip()
    on_truck = re.search(r"\b(bed|box|tray|drive axle|rear axle|caja|batea|eje trasero)\b", words)
    if re.search(r"\b(cab|seats?|cabina|asientos?)\b", words):
        return InCab()
    if re.search(rf"\b(behind|back of|aft of) {AXLE}|{BEHIND_EJE}", words):
        return _ahead(None if away is None else -away, bool(on_truck))
    if re.search(rf"\b(ahead|in front|front|forward) of {AXLE}|{BEFORE_EJE}", words):
        return _ahead(away, bool(on_truck))
    if on_truck or words in ("truck", "in truck"):
        return InBed(away or 0.0)
    if re.search(rf"\b({COUPLING})\b", words):
        return BehindCoupling(away or 0.0)
    if re.search(r"\b(?:axles?|ejes?)\b", words):
        return OnTrailer(0.0)
    if not words or words in ("trailer", "remolque") or words == (trailer or "").casefold():
        return Spread()
    return None


def _ahead(metres: float | None, of_drive_axle: bool) -> Place | None:
    if metres is None:
        return None
    return InBed(metres) if of_drive_axle else OnTrailer(metres)
