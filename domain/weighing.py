"""What the scale says: the arithmetic between the passes of one weighing.

This file decides what follows from which passes: the tongue and how it was come by, the
whole trailer, what the bars moved, which side is heavier. How passes are gathered is
decided in `passes.py`. It knows no rating and no limit. Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from domain.carried import Change, Densities, corrected
from domain.entries import SINGLE_AXLES, SUM_TOLERANCE
from domain.log import Log
from domain.passes import ROAD, SIDED, WHOLE, Kind, Pass, Session, total
from domain.rig import Rig
from domain.uncertainty import Measured, spread

ROUNDED = 20.0
"""Kilograms: axles read one by one are each rounded to the scale's step; common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """Tongue or pin weight (kg) and how it was come by.

    `reads_low` where the bars were on, which moves part of it to the trailer's axles; `scaled`
    what a scale of its own read, where the difference is believed before that.
    """

    load: Measured
    by: Literal["difference", "tongue scale", "trailer alone"]
    reads_low: bool = False
    scaled: Measured | None = None

    @property
    def at_odds(self) -> bool:
        """Whether its own scale read another load, by more than the scales explain."""
        if self.scaled is None:
            return False
        off = self.scaled - self.load
        return abs(off.nominal_value) > spread(off)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """What the bars did (kg): brought back to the steer axle, moved to the trailer's axles.

    `restored` is the share of the steer axle's loss that came back, 1 for all of it; None
    without a solo pass.
    """

    to_steer: Measured
    off_drive: Measured
    to_trailer: Measured
    restored: Measured | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """Everything that one weighing gives; a figure is None where its passes don't exist.

    `loads` are those of the rig on the road (else of the truck or trailer by itself), by
    position. `on_hitch` is what the truck carries of the trailer, bars as they are on the
    road; `drift` is the change of gross between the two hitched passes where it is more
    than the scale explains. `misfit` is what the truck weighs less hitched than alone, where
    that is more than the scale explains: those passes are not of one load, and give no tongue.
    """

    session: Session
    loads: Mapping[str, Measured]
    tongue: Tongue | None = None
    on_hitch: Measured | None = None
    trailer: Measured | None = None
    bars: Bars | None = None
    drift: Measured | None = None
    misfit: Measured | None = None

    @property
    def at_odds(self) -> tuple[Measured, Measured] | None:
        """What the axles make, and the gross that was read, where no scale explains both."""
        standing = self.session.standing
        parts = WHOLE[standing.kind]
        if not all(each in self.loads for each in ("gross", *parts)):
            return None
        axles, gross = total(self.loads[each] for each in parts), self.loads["gross"]
        off = axles - gross
        apart = abs(off.nominal_value) > max(SUM_TOLERANCE * gross.nominal_value, ROUNDED)
        return (axles, gross) if apart else None

    @property
    def share(self) -> Measured | None:
        """Tongue weight over trailer weight; None too of a trailer that weighs nothing."""
        if self.tongue is None or self.trailer is None or self.trailer.nominal_value <= 0:
            return None
        return self.tongue.load / self.trailer


def weigh(
    log: Log, session: Session, rig: Rig, densities: Densities
) -> tuple[Weights, tuple[Change, ...]]:
    """What one weighing gives, with its passes brought to one load, and by how much they were.

    Where bars on and bars off differ in gross by more than the scale explains, the load was
    changed between them: the later of the two counts, and `drift` says so.
    """
    together, changes = corrected(log, session, rig, densities)
    drift = _drift(together)
    if drift is None:
        return weights_of(together), changes
    stale = min(ROAD, key=lambda kind: session.passes[kind].order)
    passes = {kind: each for kind, each in session.passes.items() if kind != stale}
    together, changes = corrected(log, replace(session, passes=passes), rig, densities)
    return replace(weights_of(together), drift=drift), changes


def _drift(session: Session) -> Measured | None:
    """Gross with the bars on less gross with them off, where the scale does not explain it."""
    on, off = session.passes.get("hitched"), session.passes.get("bars off")
    if on is None or off is None or not ("gross" in on.loads and "gross" in off.loads):
        return None
    drift = on.loads["gross"] - off.loads["gross"]
    return drift if abs(drift.nominal_value) > spread(drift) else None


def weights_of(session: Session) -> Weights:
    """What a session's passes give, brought to one load beforehand (see `weigh`).

    Three-pass algebra: tongue = (F2 + R2) - (F3 + R3); restored = (F1 - F2) / (F3 - F2);
    moved = T1 - T2, with 1 bars on, 2 bars off, 3 truck alone.
    """
    misfit = _misfit(session)
    if misfit is not None:
        kept: dict[Kind, Pass] = {
            kind: each for kind, each in session.passes.items() if kind != "solo"
        }
        return replace(weights_of(replace(session, passes=kept)), session=session, misfit=misfit)
    tongue = _tongue(session)
    return Weights(
        session=session,
        loads=session.standing.loads,
        tongue=tongue,
        on_hitch=_over_solo("truck", session.road, session.passes.get("solo")),
        trailer=_trailer(session, tongue),
        bars=_bars(session),
    )


def _misfit(session: Session) -> Measured | None:
    slack, alone = session.slack, session.passes.get("solo")
    tongue, trailer = _over_solo("truck", slack, alone), _over_solo("gross", slack, alone)
    if tongue is not None and tongue.nominal_value + spread(tongue) < 0:
        return -tongue
    if trailer is not None and trailer.nominal_value < spread(trailer):
        return -trailer
    return None


def _over_solo(load: str, hitched: Pass | None, alone: Pass | None) -> Measured | None:
    """What a load of the rig weighs more than the truck alone."""
    if hitched is None or alone is None:
        return None
    if load not in hitched.loads or "truck" not in alone.loads:
        return None
    return hitched.loads[load] - alone.loads["truck"]


def _tongue(session: Session) -> Tongue | None:
    slack = session.slack
    difference = _over_solo("truck", slack, session.passes.get("solo"))
    low = slack is not None and slack.bars == "on"
    read = [each for each in session.passes.values() if "tongue" in each.loads]
    newest = max(read, key=lambda each: each.order, default=None)
    scaled = newest.loads["tongue"] if newest else None
    if difference is not None and not low:
        return Tongue(load=difference, by="difference", scaled=scaled)
    if scaled is not None:
        return Tongue(load=scaled, by="tongue scale")
    trailer_alone = session.passes.get("trailer")
    whole = trailer_alone.loads.get("gross") if trailer_alone else None
    if slack and whole is not None and not low and "trailer" in slack.loads:
        return Tongue(load=whole - slack.loads["trailer"], by="trailer alone")
    if difference is not None:
        return Tongue(load=difference, by="difference", reads_low=True)
    return None


def _trailer(session: Session, tongue: Tongue | None) -> Measured | None:
    """The whole trailer: gross less the truck alone, else axles and tongue, else by itself."""
    slack = session.slack
    difference = _over_solo("gross", slack, session.passes.get("solo"))
    if difference is not None:
        return difference
    if slack and tongue and "trailer" in slack.loads:
        return slack.loads["trailer"] + tongue.load
    trailer_alone = session.passes.get("trailer")
    return trailer_alone.loads.get("gross") if trailer_alone else None


def _bars(session: Session) -> Bars | None:
    on, off = session.passes.get("hitched"), session.passes.get("bars off")
    if on is None or off is None:
        return None
    if not all(name in each.loads for each in (on, off) for name in ("steer", "drive", "trailer")):
        return None
    to_steer = on.loads["steer"] - off.loads["steer"]
    return Bars(
        to_steer=to_steer,
        off_drive=off.loads["drive"] - on.loads["drive"],
        to_trailer=on.loads["trailer"] - off.loads["trailer"],
        restored=_restored(to_steer, off, session.passes.get("solo")),
    )


def _restored(to_steer: Measured, off: Pass, alone: Pass | None) -> Measured | None:
    if alone is None or "steer" not in alone.loads:
        return None
    lost = alone.loads["steer"] - off.loads["steer"]
    return to_steer / lost if lost.nominal_value > spread(lost) else None


@dataclass(frozen=True, slots=True)
class Imbalance:
    """Two places that ought to carry alike: the heavier, the lighter, by how much (kg, share).

    The share is of what both carry together.
    """

    heavy: str
    light: str
    by: Measured
    share: float


def imbalances(weights: Weights) -> tuple[Imbalance, ...]:
    """Side to side on every axle that was weighed wheel by wheel, and trailer axle to axle."""
    sides = [parts for _, parts in SIDED]
    axles = list(pairwise(SINGLE_AXLES))
    return tuple(
        _imbalance(weights.loads, *pair)
        for pair in (*sides, *axles)
        if all(each in weights.loads for each in pair)
        and any(weights.loads[each].nominal_value for each in pair)
    )


def _imbalance(loads: Mapping[str, Measured], one: str, other: str) -> Imbalance:
    heavy, light = sorted((one, other), key=lambda name: -loads[name].nominal_value)
    by, both = loads[heavy] - loads[light], loads[heavy] + loads[light]
    return Imbalance(heavy, light, by, by.nominal_value / both.nominal_value)
