"""The rig: which truck, which trailer, and every rating that was given for them.

This file decides whose a rating is and which statement of it counts (the latest). It
does not know what loads a rating, nor how a label reads.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from domain.entries import COUPLING, Hitch, Rating
from domain.log import Log
from domain.quantities import MASSES, Quantity

Coupling = Literal["conventional", "pin"]
"""A ball behind the bumper, or a kingpin or gooseneck ball over the drive axle."""

SAME_SUBJECT = {
    "receiver": "hitch",
    "hitch receiver": "hitch",
    "hitch ball": "ball",
    "ballmount": "ball mount",
    "drawbar": "ball mount",
    "pin": "pin box",
    "kingpin": "pin box",
    "safety chains": "chains",
    "chain": "chains",
    "tyre": "tyres",
    "tire": "tyres",
    "tires": "tyres",
    "truck tyres": "tyres",
    "trailer tyres": "tyres",
    "towball": "ball",
}
"""Other names of a subject of ratings."""

SAME_RATING = {
    "tyre_load": "load",
    "d_value": "d",
    "dc_value": "dc",
    "v_value": "v",
    "s_value": "s",
}
"""Other names of a rating."""

TRAILER_PARTS = ("trailer", "coupler", "pin box", "chains", "trailer tyres")
HITCH_CHAIN = ("hitch", "ball mount", "ball", "coupler", "pin box", "fifth wheel", "chains")
"""What hangs between truck and trailer, in the order in which the pull passes through."""

STANDS_FOR = {
    "load": ("load", "load_index"),
    "tow": ("tow", "gvwr"),
    "tongue": ("tongue", "s"),
    "gawr": ("gawr", "gtm"),
}
"""Ratings of a part that say the same thing in another form; S is R55's vertical mass."""

FIFTH_WHEEL_WORDS = ("fifth wheel", "5th wheel", "fiver", "5er", "quinta rueda", "5a rueda")
PIN_WORDS = (*FIFTH_WHEEL_WORDS, "gooseneck", "kingpin", "pin box", "cuello de ganso")
TRUCK_WORDS = frozenset(
    (
        *("truck", "trk", "pickup", "ute", "bakkie", "dually", "4x4", "4wd"),
        *("camioneta", "troca", "camión", "camion", "coche", "todoterreno"),
    )
)
TRAILER_WORDS = frozenset(
    (
        *("trailer", "camper", "caravan", "float", "flatdeck", "gooseneck", "rv", "toyhauler"),
        *("remolque", "caravana", "tráiler"),
    )
)
FRONT_WORDS = frozenset(("front", "steer", "steers", "delantero", "delanteros", "delanteras"))
REAR_WORDS = frozenset(("rear", "drive", "drives", "trasero", "traseros", "traseras"))
WORD = re.compile(r"\w+")
BARS_WORDS = ("distribut", "bars", "wd")
CARRYING_WORDS = ("carrying", "no bars", "without", "dead weight")

Key = tuple[str, str, str]
"""Subject, rating, and the condition under which it holds ('' where there is none)."""

TOW: Key = ("truck", "tow", "")
TOW_BY_PIN: Key = ("truck", "tow", "pin")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """One truck with one trailer, and the ratings given for both, the latest of each.

    `truck` and `trailer` are None where they were never named; `axles` is how many axles
    the trailer has, None where nobody said. A fifth wheel rests in a hitch in the bed, and is
    chained to nothing; a gooseneck is.
    """

    truck: str | None
    trailer: str | None
    ratings: Mapping[Key, Rating]
    coupling: Coupling = "conventional"
    axles: int | None = None
    is_fifth_wheel: bool = False

    def rating(self, subject: str, name: str, condition: str = "") -> Rating | None:
        """The rating that counts, as it was stated."""
        return self.ratings.get((subject, name, condition))

    def mass(self, subject: str, name: str, condition: str = "") -> float | None:
        """A rating in kilograms; None where it was not given, or is no mass."""
        found = self.rating(subject, name, condition)
        if found is None or not isinstance(found.value, Quantity):
            return None
        return found.value.amount("kg") if found.value.unit in MASSES else None

    def number(self, subject: str, name: str, condition: str = "") -> float | None:
        """A rating without a unit, such as a load index."""
        found = self.rating(subject, name, condition)
        if found is None or isinstance(found.value, Quantity):
            return None
        return float(found.value)

    def force(self, subject: str, name: str) -> float | None:
        """A rating in kilonewtons, bare or with its unit; None where it was not given."""
        found = self.rating(subject, name)
        match found.value if found else None:
            case Quantity(unit="kN") as force:
                return force.value
            case float() | int() as bare:
                return float(bare)
        return None

    def length(self, subject: str, name: str) -> float | None:
        """A rating in metres, such as a wheelbase; None where it was not given."""
        found = self.quantity(subject, name)
        return found.amount("m") if found else None

    def quantity(self, subject: str, name: str) -> Quantity | None:
        """A rating as a quantity, such as a tank's volume."""
        found = self.rating(subject, name)
        return found.value if found and isinstance(found.value, Quantity) else None

    @property
    def fuel(self) -> str | None:
        """What the truck burns, where it was said with the tank."""
        tank = self.rating("truck", "tank")
        note = (tank.note or "").casefold() if tank else ""
        return next((each for each in ("diesel", "gasoline") if each in note), None)


def rig_of(
    log: Log,
    moment: datetime | None = None,
    *,
    truck: str | None = None,
    trailer: str | None = None,
) -> Rig:
    """The rig as the log knows it: the named truck and trailer, else those last in use.

    `moment` picks which trailer was on then (the one last hitched, even where it has come
    off since); ratings count whenever they were stated, because a label does not change.
    """
    stated, known = _owned_ratings(log)
    which_truck = truck or known.truck
    which_trailer = trailer or trailer_at(log, moment) or known.trailer
    ratings: dict[Key, Rating] = {}
    words = [which_trailer or ""]
    for owner, each_rating in stated:
        wanted = which_trailer if _is_of_trailer(each_rating) else which_truck
        if owner is None or wanted is None or owner.casefold() == wanted.casefold():
            key = key_of(each_rating)
            ratings[key] = each_rating
            # What the truck may tow by a pin does not say that this trailer has one.
            words += [each_rating.subject, each_rating.note or ""] if key != TOW_BY_PIN else []
    only_by_pin = TOW_BY_PIN in ratings and TOW not in ratings
    only_by_pin = only_by_pin or any(
        part == COUPLING for each in ratings.values() for part, _ in each.words
    )
    return Rig(
        truck=which_truck,
        trailer=which_trailer,
        ratings=ratings,
        coupling="pin" if only_by_pin or _any_in(PIN_WORDS, words) else "conventional",
        axles=_axles(ratings),
        is_fifth_wheel=_any_in(FIFTH_WHEEL_WORDS, words),
    )


def trailer_at(log: Log, moment: datetime | None) -> str | None:
    """The name of the trailer that was last hitched by then (or by now), where it was said."""
    for each in reversed(log.upto(Hitch, moment)):
        if each.entry.action == "hitched" and each.entry.trailer:
            return each.entry.trailer
    return None


def tyres_owner(rating: Rating) -> Literal["truck", "trailer"]:
    """Whose tyres a rating is of: as named, as the words say, else the trailer's.

    Tyres of one end are a truck's: those of a trailer's axles are alike.
    """
    if rating.truck and not rating.trailer:
        return "truck"
    said = _said_of(rating)
    if not TRUCK_WORDS.isdisjoint(said):
        return "truck"
    trailers = rating.trailer or not TRAILER_WORDS.isdisjoint(said)
    return "trailer" if trailers or (FRONT_WORDS | REAR_WORDS).isdisjoint(said) else "truck"


def _said_of(rating: Rating) -> frozenset[str]:
    """The words that tell whose tyres a rating is of, and where they are."""
    said = " ".join((rating.subject, rating.note or "", *(each for _, each in rating.words)))
    return frozenset(WORD.findall(said.casefold()))


def key_of(rating: Rating) -> Key:
    """What a rating is of, which it is, and for what it holds, by one name each."""
    subject, name = subject_of(rating), rating.rating.casefold()
    return subject, SAME_RATING.get(name, name), _condition(subject, rating)


def _condition(subject: str, rating: Rating) -> str:
    note = (rating.note or "").casefold()
    if subject in ("hitch", "ball mount"):
        if _any_in(CARRYING_WORDS, [note]):
            return "carrying"
        return "bars" if _any_in(BARS_WORDS, [note]) else ""
    if subject == "truck tyres":
        said = _said_of(rating)
        front, rear = not FRONT_WORDS.isdisjoint(said), not REAR_WORDS.isdisjoint(said)
        if front is not rear:
            return "front" if front else "rear"
    if subject in ("truck tyres", "trailer tyres"):
        return "dual" if "dual" in note else ""
    if subject == "truck" and rating.rating == "tow":
        return "pin" if _any_in(PIN_WORDS, [note]) else ""
    return ""


def _axles(ratings: Mapping[Key, Rating]) -> int | None:
    """How many axles the trailer has: stated as such, or in the note of its GAWR."""
    stated = ratings.get(("trailer", "axles", ""))
    if stated is not None and not isinstance(stated.value, Quantity):
        return int(stated.value)
    gawr = ratings.get(("trailer", "gawr", ""))
    head = (gawr.note or "").split() if gawr else []
    return int(head[0]) if len(head) > 1 and head[0].isdigit() and "axle" in head[1] else None


@dataclass(frozen=True, slots=True)
class _Names:
    """The truck and the trailer that were named last."""

    truck: str | None = None
    trailer: str | None = None


def _owned_ratings(log: Log) -> tuple[list[tuple[str | None, Rating]], _Names]:
    """Each rating with its truck's or trailer's name, its own or the one last named.

    Beside them the names that were last in use.
    """
    stated: list[tuple[str | None, Rating]] = []
    truck: str | None = None
    trailer: str | None = None
    for each in log.naming:
        entry = each.entry
        truck, trailer = entry.truck or truck, entry.trailer or trailer
        if isinstance(entry, Rating):
            stated.append((trailer if _is_of_trailer(entry) else truck, entry))
    return stated, _Names(truck, trailer)


def _is_of_trailer(rating: Rating) -> bool:
    return subject_of(rating) in TRAILER_PARTS


def subject_of(rating: Rating) -> str:
    """What a rating is of, by one name: `truck`, `ball`, `trailer tyres`."""
    subject = SAME_SUBJECT.get(rating.subject.casefold(), rating.subject.casefold())
    return f"{tyres_owner(rating)} tyres" if subject == "tyres" else subject


def _any_in(words: Iterable[str], texts: Iterable[str]) -> bool:
    said = " ".join(texts).casefold()
    return any(word in said for word in words)
