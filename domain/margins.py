"""Every rating against what loads it.

This file decides which load stands against which rating, when a margin is over, near or
clear, and which ratings are wanted but were never given. It does not know how a load was
come by, nor how a margin is worded. Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from domain.rig import HITCH_CHAIN, Rig
from domain.uncertainty import Measured, spread
from domain.weighing import Weights

NEAR = 0.05
"""A margin within this share of its rating is near."""

SAME = 1e-6
"""Masses (kg) closer than this are equal; converting from pounds and back is no overload."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One maker's limit (kg): whose, which, and the load that it bounds, by name.

    `count` is over how many equal axles the rating was multiplied; `basis` names what a
    load was counted from where it was not weighed as such.
    """

    subject: str
    rating: str
    bounds: str
    value: float
    count: int = 1
    basis: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Over:
    """The load is above the limit; `left` (kg) is negative."""

    limit: Limit
    load: Measured
    left: Measured


@dataclass(frozen=True, slots=True)
class Near:
    """The load is inside the limit by at most a twentieth of it, or by less than is certain."""

    limit: Limit
    load: Measured
    left: Measured


@dataclass(frozen=True, slots=True)
class Clear:
    """The load is inside the limit with room."""

    limit: Limit
    load: Measured
    left: Measured


@dataclass(frozen=True, slots=True)
class Unknown:
    """The limit was given, but the load has not been weighed; `needs` says what would do."""

    limit: Limit
    needs: str


Margin = Over | Near | Clear | Unknown


@dataclass(frozen=True, slots=True)
class Missing:
    """A rating that would bound something weighed, and was never given."""

    subject: str
    rating: str


def too_close(margin: Margin) -> bool:
    """Whether the margin is smaller than its uncertainty, so that the scale can't tell."""
    match margin:
        case Over() | Near() | Clear():
            return abs(margin.left.nominal_value) < spread(margin.left)
        case Unknown():
            return False


def judged(limit: Limit, load: Measured | None, needs: str = "") -> Margin:
    """The margin of a load under a limit; what it needs where there is no load."""
    if load is None:
        return Unknown(limit, needs)
    left = limit.value - load
    if left.nominal_value < -SAME:
        return Over(limit, load, left)
    if left.nominal_value <= NEAR * limit.value + SAME or left.nominal_value < spread(left):
        return Near(limit, load, left)
    return Clear(limit, load, left)


def margins(rig: Rig, weights: Weights) -> tuple[Margin, ...]:
    """Every rating given, against what loads it: tightest first, the unknown ones last."""
    found = [margin for check in CHECKS for margin in check(rig, weights)]
    return tuple(sorted(found, key=_tightness))


def _tightness(margin: Margin) -> tuple[bool, float]:
    """Sorts by what is left as a share of the limit; the unknown come after all others."""
    match margin:
        case Unknown():
            return True, 0.0
        case Over() | Near() | Clear():
            return False, margin.left.nominal_value / margin.limit.value


@dataclass(frozen=True, slots=True)
class _Rule:
    """A rating that bounds one load as it was weighed or derived."""

    subject: str
    rating: str
    bounds: str
    needs: str


RULES = (
    _Rule("truck", "gcwr", "gross", "a hitched weighing"),
    _Rule("truck", "gvwr", "truck", "steer and drive axles"),
    _Rule("truck", "gawr_front", "steer", "the steer axle by itself"),
    _Rule("truck", "gawr_rear", "drive", "the drive axle by itself"),
    _Rule("trailer", "gvwr", "trailer weight", "a pass of the truck alone"),
    _Rule("truck", "tongue", "tongue", "a pass of the truck alone"),
)
"""Ratings and what loads them, in the order of a door label and a data plate."""

Check = Callable[[Rig, Weights], Iterable[Margin]]


def _plain(rig: Rig, weights: Weights) -> Iterator[Margin]:
    for rule in RULES:
        value = rig.mass(rule.subject, rule.rating)
        if value:
            limit = Limit(subject=rule.subject, rating=rule.rating, bounds=rule.bounds, value=value)
            yield judged_load(limit, weights, rule.needs)


def _tow(rig: Rig, weights: Weights) -> Iterator[Margin]:
    condition = "pin" if rig.coupling == "pin" else ""
    value = rig.mass("truck", "tow", condition) or rig.mass("truck", "tow")
    if value:
        limit = Limit(subject="truck", rating="tow", bounds="trailer weight", value=value)
        yield judged_load(limit, weights, "a pass of the truck alone")


def _hitch(rig: Rig, weights: Weights) -> Iterator[Margin]:
    """The lowest rating of the chain governs, so that one part speaks for all."""
    for rating, bounds in (("tow", "trailer weight"), ("tongue", "tongue")):
        rated = [
            (value, part)
            for part in HITCH_CHAIN
            if (value := hitch_rating(rig, part, rating, weights)) is not None
        ]
        if rated:
            value, part = min(rated, key=lambda each: each[0])
            limit = Limit(subject=part, rating=rating, bounds=bounds, value=value)
            yield judged_load(limit, weights, "a pass of the truck alone")


def hitch_rating(rig: Rig, part: str, rating: str, weights: Weights) -> float | None:
    """What one part of the hitch is good for (kg), with bars or without, as it was weighed."""
    road = weights.session.road
    condition = "bars" if road is not None and road.bars == "on" else "carrying"
    stated = rig.mass(part, rating, condition) or rig.mass(part, rating)
    if rating == "tow" and stated is None:
        return rig.mass(part, "gvwr")
    return stated


def _trailer_axles(rig: Rig, weights: Weights) -> Iterator[Margin]:
    value = rig.mass("trailer", "gawr")
    if value:
        yield from per_axle(rig, weights, "trailer", "gawr", value)


def per_axle(
    rig: Rig, weights: Weights, subject: str, rating: str, value: float
) -> Iterator[Margin]:
    """A limit of one trailer axle, against each axle that was weighed, else against all."""
    singles = [name for name in ("trailer_1", "trailer_2", "trailer_3") if name in weights.loads]
    for name in singles:
        limit = Limit(subject=subject, rating=rating, bounds=name, value=value)
        yield judged(limit, weights.loads[name])
    if singles:
        return
    count = rig.axles or 1
    limit = Limit(
        subject=subject, rating=rating, bounds="trailer", value=value * count, count=count
    )
    load = weights.loads.get("trailer")
    if rig.axles is None and load is not None and load.nominal_value > value:
        yield Unknown(limit, "how many axles the trailer has")
    else:
        yield judged(limit, load, "the trailer's axles")


OCCUPANT = 68.0
"""A person on the placard, in kg: 150 lb (49 CFR 571.110)."""


def _payload(rig: Rig, weights: Weights) -> Iterator[Margin]:
    """The placard bounds people, cargo and tongue: the truck as weighed less its curb weight."""
    value = rig.mass("truck", "payload")
    if not value:
        return
    limit = Limit(subject="truck", rating="payload", bounds="payload", value=value)
    curb, truck = rig.mass("truck", "curb"), weights.loads.get("truck")
    if curb and truck is not None and weights.session.passes.keys() != {"trailer"}:
        yield judged(limit, truck - curb)
    else:
        yield Unknown(limit, "the truck's curb weight")


CHECKS: tuple[Check, ...] = (_plain, _tow, _payload, _trailer_axles, _hitch)
"""Each looks at the rig and its weights and returns the margins that it found."""


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


def judged_load(limit: Limit, weights: Weights, needs: str) -> Margin:
    """The margin of a named load; a trailer whose axles alone are too heavy is over for sure."""
    load = load_of(weights, limit.bounds)
    axles = weights.loads.get("trailer")
    if load is None and limit.bounds == "trailer weight" and axles is not None:
        at_least = judged(limit, axles)
        return at_least if isinstance(at_least, Over) else Unknown(limit, needs)
    return judged(limit, load, needs)


WANTED: tuple[tuple[str, str, str], ...] = (
    ("truck", "gvwr", "truck"),
    ("truck", "gcwr", "gross"),
    ("truck", "gawr_front", "steer"),
    ("truck", "gawr_rear", "drive"),
    ("truck", "payload", "truck"),
    ("truck", "tow", "trailer"),
    ("trailer", "gvwr", "trailer"),
    ("trailer", "gawr", "trailer"),
    ("hitch", "tow", "trailer"),
    ("hitch", "tongue", "trailer"),
    ("trailer tyres", "load", "trailer"),
    ("truck tyres", "load", "truck"),
)
"""Ratings that a careful weighmaster wants, and the load without which each is idle."""

STANDS_FOR = {"load": ("load", "load_index"), "tow": ("tow", "gvwr")}
"""Ratings that say the same thing in another form."""


def missing(rig: Rig, weights: Weights) -> tuple[Missing, ...]:
    """The ratings that bound something weighed and were never given."""
    return tuple(
        Missing(subject, rating)
        for subject, rating, loaded_by in WANTED
        if loaded_by in weights.loads and not _given(rig, subject, rating)
    )


def _given(rig: Rig, subject: str, rating: str) -> bool:
    subjects = HITCH_CHAIN if subject == "hitch" else (subject,)
    names = STANDS_FOR.get(rating, (rating,)) if subject != "truck" else (rating,)
    return any(key[0] in subjects and key[1] in names for key in rig.ratings)


@dataclass(frozen=True, slots=True)
class Share:
    """Tongue or pin share of the trailer's weight, and the customary range for its kind."""

    share: Measured
    low: float
    high: float

    @property
    def outside(self) -> bool:
        """Whether the share is out of the range by more than its uncertainty."""
        doubt = spread(self.share)
        value = self.share.nominal_value
        return value + doubt < self.low or value - doubt > self.high


CUSTOMARY = {"conventional": (0.10, 0.15), "pin": (0.15, 0.25)}
"""Tongue and pin shares that makers' manuals and extension notes print (common practice)."""


def tongue_share(rig: Rig, weights: Weights) -> Share | None:
    """The share with its customary range; None where the tongue is not known."""
    share = weights.share
    return None if share is None else Share(share, *CUSTOMARY[rig.coupling])
