"""What if: where a load goes when it is put down, taken off or moved.

This file decides the statics: how much of a kilogram at a place ends on each axle, what
the weights would then be, how much more fits, and where a load must stand for a wanted
tongue share. It does not know how the question was worded. Masses are in kilograms,
lengths in metres.

Lever rule: a load between two axles divides in inverse ratio to its distances (truck makers'
body-builder manuals print it). A tongue weight T at a distance b behind the drive axle of a
truck with wheelbase w takes T b / w off the steer axle and puts T (1 + b / w) on the drive
axle; a pin ahead of the drive axle has a negative b.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from domain.carried import STEER_SHARE
from domain.entries import SIDES, SINGLE_AXLES
from domain.margins import Margin, Unknown
from domain.passes import SIDED
from domain.rig import Rig
from domain.uncertainty import Measured, exact, measured, spread
from domain.weighing import Tongue, Weights


@dataclass(frozen=True, slots=True, kw_only=True)
class Levers:
    """The lengths that matter, as far as they are known.

    `overhang` is how far the coupling is behind the drive axle, over the wheelbase, and
    `learned` whether it was taken from the weighing rather than stated. `reach` is from the
    coupling to the middle of the trailer's axles, `wheelbase` the truck's.
    """

    overhang: Measured | None
    learned: bool
    reach: float | None
    wheelbase: float | None


@dataclass(frozen=True, slots=True)
class OnTrailer:
    """On the trailer, so far ahead of the middle of its axles (negative: behind)."""

    ahead: float


@dataclass(frozen=True, slots=True)
class BehindCoupling:
    """On the trailer, so far behind the coupling."""

    behind: float


@dataclass(frozen=True, slots=True)
class Spread:
    """On the trailer, placed so that the tongue share stays as it is."""


@dataclass(frozen=True, slots=True)
class InBed:
    """In the truck's bed, so far ahead of the drive axle."""

    ahead: float


@dataclass(frozen=True, slots=True)
class InCab:
    """On the seats."""


Place = OnTrailer | BehindCoupling | Spread | InBed | InCab


@dataclass(frozen=True, slots=True)
class Lacks:
    """A length or a load without which the statics can't be done: `reach`, `wheelbase` ..."""

    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What one kilogram at a place adds to each load, in kilograms."""

    steer: Measured
    drive: Measured
    trailer: Measured
    tongue: Measured

    def on(self, load: str) -> Measured:
        """What it adds to a load by the name that a limit bounds."""
        match load:
            case "steer":
                return self.steer
            case "drive":
                return self.drive
            case "truck" | "payload":
                return self.steer + self.drive
            case "tongue":
                return self.tongue
            case "trailer":
                return self.trailer
            case "trailer weight":
                return self.trailer + self.tongue
            case "gross":
                return self.steer + self.drive + self.trailer
        return exact(0.0)

    def __sub__(self, other: Effect) -> Effect:
        return Effect(
            steer=self.steer - other.steer,
            drive=self.drive - other.drive,
            trailer=self.trailer - other.trailer,
            tongue=self.tongue - other.tongue,
        )


def levers(rig: Rig, weights: Weights) -> Levers:
    """Lengths as stated; the overhang else from what the tongue took off the steer axle."""
    wheelbase, behind = rig.length("truck", "wheelbase"), rig.length("truck", "overhang")
    if wheelbase and behind is not None:
        overhang: Measured | None = exact(behind / wheelbase)
        learned = False
    else:
        overhang, learned = _learned(weights), True
    return Levers(
        overhang=overhang,
        learned=learned,
        reach=rig.length("trailer", "coupler_to_axle"),
        wheelbase=wheelbase,
    )


def _learned(weights: Weights) -> Measured | None:
    """Overhang over wheelbase: (F3 - F2) / tongue, of the passes without bars."""
    slack, alone = weights.session.slack, weights.session.passes.get("solo")
    tongue = weights.tongue
    if slack is None or alone is None or tongue is None or tongue.reads_low:
        return None
    if "steer" not in slack.loads or "steer" not in alone.loads:
        return None
    if tongue.load.nominal_value <= spread(tongue.load):
        return None
    return (alone.loads["steer"] - slack.loads["steer"]) / tongue.load


def effect(place: Place, arms: Levers, weights: Weights) -> Effect | Lacks:
    """What one kilogram at a place adds to each load, or the length that is lacking."""
    match place:
        case InCab():
            share = measured(*STEER_SHARE)
            return Effect(steer=share, drive=1 - share, trailer=exact(0), tongue=exact(0))
        case InBed(ahead):
            if ahead and not arms.wheelbase:
                return Lacks("wheelbase")
            forward = ahead / arms.wheelbase if arms.wheelbase else 0.0
            return Effect(
                steer=exact(forward),
                drive=exact(1 - forward),
                trailer=exact(0),
                tongue=exact(0),
            )
        case Spread():
            return _on_tongue(weights.share, arms) if weights.share is not None else Lacks("tongue")
        case OnTrailer(0.0):
            return _on_tongue(exact(0.0), arms)
        case OnTrailer(ahead):
            if not arms.reach:
                return Lacks("coupler_to_axle")
            return _on_tongue(exact(ahead / arms.reach), arms)
        case BehindCoupling(0.0):
            return _on_tongue(exact(1.0), arms)
        case BehindCoupling(behind):
            if not arms.reach:
                return Lacks("coupler_to_axle")
            return _on_tongue(exact(1 - behind / arms.reach), arms)


def _on_tongue(share: Measured, arms: Levers) -> Effect | Lacks:
    """A kilogram on the trailer, that share of it on the coupling."""
    if share.nominal_value == 0 and share.std_dev == 0:
        return Effect(steer=exact(0), drive=exact(0), trailer=exact(1), tongue=exact(0))
    if arms.overhang is None:
        return Lacks("overhang")
    return Effect(
        steer=-(share * arms.overhang),
        drive=share * (1 + arms.overhang),
        trailer=1 - share,
        tongue=share,
    )


def predicted(weights: Weights, change: Effect, mass: float) -> Weights:
    """The weights with so many kilograms more (or fewer) of that effect.

    Single trailer axles take equal parts of what the trailer's axles take, the sides of an axle
    stay in proportion, and the bars as they are.
    """
    loads = {
        name: load + mass * change.on(name)
        for name, load in weights.loads.items()
        if name in ("steer", "drive", "truck", "trailer", "gross")
    }
    singles = [name for name in SINGLE_AXLES if name in weights.loads]
    for name in singles:
        loads[name] = weights.loads[name] + mass * change.trailer / len(singles)
    for axle, sides in SIDED:
        if axle in loads and all(side in weights.loads for side in sides):
            before = weights.loads[axle].nominal_value
            for side in sides if before else ():
                share = weights.loads[side].nominal_value / before
                loads[side] = weights.loads[side] + share * (loads[axle] - weights.loads[axle])
    tongue, trailer, on_hitch = weights.tongue, weights.trailer, weights.on_hitch
    if tongue is not None:
        tongue = Tongue(
            load=tongue.load + mass * change.tongue, by=tongue.by, reads_low=tongue.reads_low
        )
    return replace(
        weights,
        loads=loads,
        tongue=tongue,
        trailer=None if trailer is None else trailer + mass * change.on("trailer weight"),
        on_hitch=None if on_hitch is None else on_hitch + mass * change.tongue,
        bars=None,
    )


@dataclass(frozen=True, slots=True)
class Room:
    """How many kilograms more fit at a place, and the margin that binds first."""

    mass: float
    binds: Margin


def room(found: Sequence[Margin], change: Effect, axles: int) -> Room | None:
    """The most that fits without exceeding a rating that is known; None where none binds.

    `axles` is over how many single axles the trailer's load divides. Nothing fits, and the
    mass is zero, where a rating that the load bears on is exceeded already.
    """
    rooms = [
        Room(max(0.0, margin.left.nominal_value / per_kilogram), margin)
        for margin in found
        if not isinstance(margin, Unknown)
        and (per_kilogram := _bearing(margin.limit.bounds, change, axles)) > 1e-9
    ]
    return min(rooms, key=lambda each: each.mass, default=None)


def _bearing(load: str, change: Effect, axles: int) -> float:
    axle, _, side = load.rpartition("_")
    if side in SIDES:
        return _bearing(axle, change, axles) / len(SIDES)
    if load in SINGLE_AXLES:
        return change.trailer.nominal_value / max(axles, 1)
    return change.on(load).nominal_value


def place_for_share(
    weights: Weights, arms: Levers, share: float, mass: float, standing: float | None
) -> Measured | Lacks:
    """How far ahead of the trailer's axles (m) a load must stand for a tongue share.

    `standing` is where it stands now, None where it is not aboard yet. Moments about the
    axles: tongue x reach = sum of the loads x their distances ahead of the axles.
    """
    if weights.tongue is None or weights.trailer is None:
        return Lacks("tongue")
    if not arms.reach:
        return Lacks("coupler_to_axle")
    aboard = standing is not None
    trailer = weights.trailer if aboard else weights.trailer + mass
    there = standing if standing is not None else 0.0
    return (share * trailer - weights.tongue.load) * arms.reach / mass + there
