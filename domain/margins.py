"""What is left of a limit under a load.

This file decides when a margin is over, near or clear, when it is too close to call, and
whether a tongue share is in its customary range. Which load stands against which rating is
decided in `bounds.py`; how a margin is worded, elsewhere. Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf
from typing import Literal

from domain.countries import Custom
from domain.uncertainty import Measured, spread

NEAR = 0.05
"""A margin within this share of its rating is near."""

SAME = 1e-6
"""Loads closer than this are equal; converting from pounds and back is no overload."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One maker's limit: whose, which, and the load that it bounds, by name.

    `value` is in kilograms, for the metric coupling values in kilonewtons; `count` is over
    how many equal axles the rating was multiplied. `by_label` where the load was worked out
    from another rating, so that the margin is that rating's over again; `pin` where what rests on
    the truck is a pin and no tongue.
    """

    subject: str
    rating: str
    bounds: str
    value: float
    unit: Literal["kg", "kN"] = "kg"
    count: int = 1
    by_label: bool = False
    pin: bool = False


@dataclass(frozen=True, slots=True)
class Over:
    """The load is above the limit; `left` is negative."""

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
    """The limit was given, but the load is not known; `needs` says what would give it."""

    limit: Limit
    needs: str


Margin = Over | Near | Clear | Unknown


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


def governing(found: Iterable[Margin]) -> tuple[Margin, ...]:
    """The margins without those that only say another rating's over again."""
    return tuple(each for each in found if not each.limit.by_label)


def too_close(margin: Margin) -> bool:
    """Whether the margin is smaller than its uncertainty, so that the scale can't tell."""
    if isinstance(margin, Unknown):
        return False
    return abs(margin.left.nominal_value) < spread(margin.left)


def tightness(margin: Margin) -> tuple[bool, float]:
    """Sorts by what is left as a share of the limit; the unknown come after all others."""
    if isinstance(margin, Unknown):
        return True, 0.0
    return False, margin.left.nominal_value / margin.limit.value


@dataclass(frozen=True, slots=True)
class Share:
    """Tongue or pin share of the trailer's weight, and what is customary where it is towed."""

    share: Measured
    custom: Custom

    @property
    def outside(self) -> bool:
        """Whether the share is too low or too high by more than its uncertainty."""
        return self.is_low or self.is_high

    @property
    def is_low(self) -> bool:
        """Whether the share is below the customary one by more than its uncertainty."""
        return self.share.nominal_value + spread(self.share) < self.custom.low

    @property
    def is_high(self) -> bool:
        """Whether the share is above what is customary at most by more than its uncertainty."""
        return self.share.nominal_value - spread(self.share) > self.custom.most


def share_allowed(share: Share, found: Iterable[Margin]) -> float:
    """The share at which the tongue would be at the lowest of its ratings; inf without any."""
    loads = [
        each.limit.value / (each.limit.value - each.left.nominal_value)
        for each in found
        if not isinstance(each, Unknown)
        and each.limit.bounds == "tongue"
        and each.limit.unit == "kg"
    ]
    return share.share.nominal_value * min(loads, default=inf)
