"""Which load each rating bounds.

This file decides what stands against what: the steer axle against its GAWR, the trailer's
weight against the weakest part of the hitch, the trailer's axles against their tyres. Each
check is one small function of the rig, its weights and the load index table; adding one
touches the list and nothing else. It does not judge a margin (`margins.py`), nor know how a
load was come by, nor which ratings are wanted (`wanted.py`). Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from domain.carried import PERSON
from domain.countries import Country
from domain.couplings import d_fifth_wheel, d_value, dc_value, v_value
from domain.entries import SIDES, SINGLE_AXLES
from domain.margins import Limit, Margin, Over, Share, Unknown, judged, tightness
from domain.passes import Session
from domain.rig import HITCH_CHAIN, STANDS_FOR, Rig
from domain.tyres import LoadIndex, axle_load, tyre_load
from domain.uncertainty import Measured, exact
from domain.weighing import Weights

NEEDS_SOLO = "a pass of the truck alone"
NEEDS_HITCHED = "a hitched weighing"
NEEDS_EACH_AXLE = "each axle of the truck by itself"
NEEDS_CURB = "the truck's curb weight"
NEEDS_AXLES = "the number of trailer axles"
NEEDS_MASSES = "the GVWR of truck and trailer"
NEEDS_WHEELS = "what one rear tyre carries"
FACTS = (NEEDS_CURB, NEEDS_AXLES, NEEDS_MASSES, NEEDS_WHEELS)
"""What a person can text; anything else that a margin needs is another pass over the scale."""

Check = Callable[[Rig, Weights, LoadIndex], Iterable[Margin]]


def margins(rig: Rig, weights: Weights, load_index: LoadIndex) -> tuple[Margin, ...]:
    """Every rating given, against what loads it: tightest first, the unknown ones last."""
    found = [margin for check in CHECKS for margin in check(rig, weights, load_index)]
    if _apart(weights):
        found = [_hitched_first(each) for each in found]
    return tuple(sorted(found, key=tightness))


def _apart(weights: Weights) -> bool:
    """Whether truck and tongue were weighed each by itself, and never the rig."""
    passes = weights.session.passes
    return weights.session.road is None and "solo" in passes and weights.tongue is not None


def _hitched_first(margin: Margin) -> Margin:
    """The truck alone was weighed: what is still wanting is the rig."""
    if isinstance(margin, Unknown) and margin.needs == NEEDS_SOLO:
        return replace(margin, needs=NEEDS_HITCHED)
    return margin


def tongue_share(rig: Rig, weights: Weights, country: Country) -> Share | None:
    """The tongue's share beside what is customary; None where the tongue is not known."""
    return None if weights.share is None else Share(weights.share, country.share_of(rig.coupling))


ON_TRUCK = ("truck", "steer", "drive", "payload")
"""Loads of the truck itself, whatever is behind it."""


def unjudged(session: Session, found: Iterable[Margin]) -> tuple[Unknown, ...]:
    """Limits that bear on the rig as it stood, and that its passes can't be held to.

    A truck alone is not held to what a trailer would load, nor a trailer alone to the truck's;
    a truck and the tongue that it will carry are the rig, as far as they go.
    """
    solo = "solo" in session.passes
    road = session.road is not None or (solo and "trailer" in session.passes)
    return tuple(
        each
        for each in found
        if isinstance(each, Unknown) and (road or (each.limit.bounds in ON_TRUCK) is solo)
    )


@dataclass(frozen=True, slots=True)
class Rule:
    """A rating that bounds one load as it was weighed or derived, and what would give it."""

    subject: str
    rating: str
    bounds: str
    needs: str


RULES = (
    Rule("truck", "gcwr", "gross", NEEDS_HITCHED),
    Rule("truck", "gvwr", "truck", "steer and drive axles"),
    Rule("truck", "gawr_front", "steer", NEEDS_EACH_AXLE),
    Rule("truck", "gawr_rear", "drive", NEEDS_EACH_AXLE),
    Rule("trailer", "gvwr", "trailer weight", NEEDS_SOLO),
    Rule("trailer", "gtm", "trailer", "the trailer's axles"),
    Rule("truck", "tongue", "tongue", NEEDS_SOLO),
    Rule("trailer", "tongue", "tongue", NEEDS_SOLO),
)
"""Ratings and what loads them, in the order of a door label and a data plate.

GTM is what all axles of a coupled trailer may put on the ground (Australian Design Rules,
Definitions and Vehicle Categories; from memory).
"""


def load_of(weights: Weights, name: str) -> Measured | None:
    """A load by its name; the trailer's weight and the tongue's are derived ones."""
    match name:
        case "tongue":
            return weights.tongue.load if weights.tongue else None
        case "trailer weight":
            return weights.trailer
        case "gross":
            return weights.loads.get("gross") if weights.session.road else None
        case _:
            return weights.loads.get(name)


def towing(weights: Weights, name: str) -> Measured | None:
    """A load of the truck as it tows: the tongue is still to come on one that was weighed alone.

    It comes on behind the drive axle, which bears more than the tongue's weight of it.
    """
    load = weights.loads.get(name)
    if load is None or weights.tongue is None or not _apart(weights):
        return load
    return {"truck": load + weights.tongue.load, "drive": None}.get(name, load)


def _named(limit: Limit, weights: Weights, needs: str) -> Margin:
    """The margin of a named load; a trailer whose axles alone are too heavy is over for sure."""
    load = load_of(weights, limit.bounds)
    if limit.bounds in ON_TRUCK:
        load, needs = towing(weights, limit.bounds), NEEDS_HITCHED if _apart(weights) else needs
    axles = weights.loads.get("trailer")
    if load is None and limit.bounds == "trailer weight" and axles is not None:
        at_least = judged(limit, axles)
        return at_least if isinstance(at_least, Over) else Unknown(limit, needs)
    return judged(limit, load, needs)


def _plates(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    for rule in RULES:
        value = rig.mass(rule.subject, rule.rating)
        if value:
            limit = Limit(
                subject=rule.subject,
                rating=rule.rating,
                bounds=rule.bounds,
                value=value,
                pin=_is_of_pin(rig, rule.bounds),
            )
            yield _named(limit, weights, rule.needs)


def _is_of_pin(rig: Rig, bounds: str) -> bool:
    """Whether what a limit bounds rests on the truck by a pin."""
    return bounds == "tongue" and rig.coupling == "pin"


def _tow(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    condition = "pin" if rig.coupling == "pin" else ""
    value = rig.mass("truck", "tow", condition) or rig.mass("truck", "tow")
    if value:
        limit = Limit(subject="truck", rating="tow", bounds="trailer weight", value=value)
        yield _named(limit, weights, NEEDS_SOLO)


def _hitch(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    """The lowest rating of the chain governs, so that one part speaks for all."""
    road = weights.session.road
    condition = "bars" if road is not None and road.bars == "on" else "carrying"
    for name, bounds in (("tow", "trailer weight"), ("tongue", "tongue")):
        rated = [
            (value, part)
            for part in HITCH_CHAIN
            for rating in STANDS_FOR.get(name, (name,))
            for value in (rig.mass(part, rating, condition) or rig.mass(part, rating),)
            if value
        ]
        if rated:
            value, part = min(rated, key=lambda each: each[0])
            limit = Limit(
                subject=part,
                rating=name,
                bounds=bounds,
                value=value,
                pin=_is_of_pin(rig, bounds),
            )
            yield _named(limit, weights, NEEDS_SOLO)


def _trailer_axles(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    value = rig.mass("trailer", "gawr")
    if value:
        yield from _per_axle(rig, weights, "trailer", "gawr", value)


def _trailer_tyres(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    one, tyres = _tyres_of(rig, "trailer tyres", "", "gawr", load_index)
    if one:
        value = axle_load(
            one,
            tyres or 2,
            car_tyre=_said(rig, "trailer tyres", "", CAR_TYRES),
        )
        yield from _per_axle(rig, weights, "trailer tyres", "load", value)


def _per_axle(
    rig: Rig, weights: Weights, subject: str, rating: str, value: float
) -> Iterator[Margin]:
    """A limit of one trailer axle, against each axle that was weighed, else against all."""
    singles = [name for name in SINGLE_AXLES if name in weights.loads]
    for name in singles:
        limit = Limit(subject=subject, rating=rating, bounds=name, value=value)
        yield judged(limit, weights.loads[name])
        if subject == "trailer tyres":
            yield from _heavier_side(limit, weights)
    if singles:
        return
    count = rig.axles or 1
    limit = Limit(
        subject=subject, rating=rating, bounds="trailer", value=value * count, count=count
    )
    load = weights.loads.get("trailer")
    if rig.axles is None and load is not None and load.nominal_value > value:
        yield Unknown(limit, NEEDS_AXLES)
    else:
        yield judged(limit, load, "the trailer's axles")


def _truck_tyres(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    front = one_tyre(rig, "truck tyres", "front", load_index)
    front = front or one_tyre(rig, "truck tyres", "dual", load_index)
    rear, tyres = _tyres_of(rig, "truck tyres", "rear", "gawr_rear", load_index)
    for axle, bounds, value in (
        ("front", "steer", axle_load(front, 2) if front else None),
        ("rear", "drive", axle_load(rear, tyres or 2) if rear else None),
    ):
        if value:
            limit = Limit(subject="truck tyres", rating=axle, bounds=bounds, value=value)
            if axle == "rear" and tyres is None:
                yield Unknown(limit, NEEDS_WHEELS)
            else:
                needs = NEEDS_HITCHED if _apart(weights) else f"the {bounds} axle by itself"
                yield judged(limit, towing(weights, bounds), needs)
                yield from _heavier_side(limit, weights)


def _heavier_side(limit: Limit, weights: Weights) -> Iterator[Margin]:
    """The half of an axle's tyres that bears more than the other, where each was weighed.

    What two sides carry together says nothing of the one that is loaded more.
    """
    sides = [f"{limit.bounds}_{side}" for side in SIDES]
    if not all(each in weights.loads for each in sides) or _apart(weights):
        return
    heavier = max(sides, key=lambda each: weights.loads[each].nominal_value)
    yield judged(replace(limit, bounds=heavier, value=limit.value / 2), weights.loads[heavier])


def _tyres_of(
    rig: Rig, subject: str, axle: str, gawr: str, load_index: LoadIndex
) -> tuple[float | None, int | None]:
    """What one tyre of an axle carries (kg), and how many there are; None where nobody can tell.

    A light truck's tyre is marked for both, single and dual, and does not say which it is. The
    GAWR does: the tyres of an axle carry it together (49 CFR 571.120 S5.1.2; V2).
    """
    one = one_tyre(rig, subject, axle, load_index)
    dual = one_tyre(rig, subject, "dual", load_index, alone=True)
    if one is None or _said(rig, subject, axle, DUAL):
        return dual or one, 4
    single = _said(rig, subject, axle, SINGLE)
    if single is (dual is None):
        return (one, 2) if dual is None else (dual, 4)
    rated = rig.mass(subject.partition(" ")[0], gawr)
    if rated is None:
        return one, 2 if dual is None else None
    if rated <= axle_load(one, 2) * SHORT_OF_GAWR:
        return one, 2
    return (one, None) if dual is None else (dual, 4)


SHORT_OF_GAWR = 1.2
"""A rear GAWR so far above two tyres is of four. Trucks with single wheels whose owner fitted
weaker tyres stay below, those with dual wheels are at 1.3 and more; common practice, no source."""


def one_tyre(
    rig: Rig, subject: str, axle: str, load_index: LoadIndex, *, alone: bool = False
) -> float | None:
    """What one tyre carries (kg): as stated at its pressure, else by its load index.

    `alone` leaves out what was stated without a place.
    """
    for condition in (axle,) if alone else (axle, ""):
        stated = rig.mass(subject, "load", condition)
        if stated:
            return stated
        index = rig.number(subject, "load_index", condition)
        if index is not None:
            return tyre_load(load_index, index)
    return None


DUAL, SINGLE = ("dual",), ("single",)
CAR_TYRES = ("passenger", "car tyre", "car tire")


def _said(rig: Rig, subject: str, axle: str, words: tuple[str, ...]) -> bool:
    """Whether the note of a tyre's load, or of its index, has one of the words."""
    notes = [
        (found.note or "").casefold()
        for rating in STANDS_FOR["load"]
        for condition in (axle, "")
        if (found := rig.rating(subject, rating, condition)) is not None
    ]
    return any(word in note for note in notes for word in words)


def _payload(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    """The placard bounds people, cargo and tongue: the truck as weighed less its curb weight.

    A placard is the GVWR less the truck's weight as it was built (49 CFR 571.110 S4.3), so
    that without a curb weight what is left of it is what is left of the GVWR. Without either
    only people and tongue can be counted, which can show an overload, but never that there
    is none.
    """
    value = rig.mass("truck", "payload")
    if not value:
        return
    limit = Limit(subject="truck", rating="payload", bounds="payload", value=value)
    gvwr, curb = rig.mass("truck", "gvwr"), rig.mass("truck", "curb")
    empty = curb or (gvwr - value if gvwr else None)
    truck = towing(weights, "truck")
    if empty is not None:
        load = None if truck is None else truck - empty
        yield judged(replace(limit, by_label=not curb), load, "steer and drive axles")
        return
    road = weights.session.road
    people = PERSON * (road.aboard or 0) if road else 0.0
    on_hitch = exact(0.0) if weights.on_hitch is None else weights.on_hitch
    counted = judged(limit, people + on_hitch)
    yield counted if isinstance(counted, Over) else Unknown(limit, NEEDS_CURB)


def _metric_coupling(rig: Rig, weights: Weights, load_index: LoadIndex) -> Iterator[Margin]:
    """D, Dc, S and V as stamped, against what the rated masses ask for (UN Regulation 55)."""
    truck = _tonnes(rig.mass("truck", "gvwr"), weights.loads.get("truck"))
    trailer = _tonnes(rig.mass("trailer", "gvwr"), weights.trailer)
    gawr = rig.mass("trailer", "gawr")
    rated_axles = gawr * rig.axles if gawr and rig.axles else None
    axles = _tonnes(rated_axles, weights.loads.get("trailer"))
    pin = weights.tongue.load.nominal_value / 1000 if weights.tongue else 0.0
    deck, drawbar = rig.length("trailer", "deck"), rig.length("trailer", "coupler_to_axle")
    asked: dict[str, float | None] = {
        "d": None,
        "dc": dc_value(truck, axles) if truck and axles else None,
        "v": v_value(axles, deck, drawbar, "other") if axles and deck and drawbar else None,
    }
    if truck and trailer:
        fifth = rig.coupling == "pin"
        asked["d"] = d_fifth_wheel(truck, trailer, pin) if fifth else d_value(truck, trailer)
    for part in HITCH_CHAIN:
        for rating, load in asked.items():
            value = rig.force(part, rating)
            if value:
                limit = Limit(
                    subject=part, rating=rating, bounds="coupling", value=value, unit="kN"
                )
                yield judged(limit, None if load is None else exact(load), NEEDS_MASSES)


def _tonnes(rated: float | None, weighed: Measured | None) -> float | None:
    """The rated mass, else the weighed one, in tonnes."""
    if rated:
        return rated / 1000
    return weighed.nominal_value / 1000 if weighed is not None else None


CHECKS: tuple[Check, ...] = (
    _plates,
    _tow,
    _payload,
    _trailer_axles,
    _trailer_tyres,
    _truck_tyres,
    _hitch,
    _metric_coupling,
)
"""Each looks at the rig and its weights and returns the margins that it found."""
