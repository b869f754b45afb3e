"""Diesel exhaust fluid: how fast it goes, and what is left.

This file decides the rate from fills alone: what was poured in after the first fill has
replaced what went since. It is good to about the size of one fill, because the level at
either end is seldom known. The tank's size is told as the truck's `def_tank`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from domain.driving import Driving
from domain.entries import Fill
from domain.fuel import DEF
from domain.log import Logged
from domain.rig import rig_of


@dataclass(frozen=True, slots=True, kw_only=True)
class ExhaustFluid:
    """Litres a kilometre, the distance behind that (km), and litres left where they can be told."""

    rate: float
    km: float
    fills: int
    left: float | None


def exhaust_fluid(driven: Driving) -> ExhaustFluid | None:
    """The truck's use of exhaust fluid; None before two fills with a reading at or near each."""
    poured = [
        (each, km)
        for each in driven.log.of(Fill)
        if each.entry.product == DEF and each.entry.volume and (km := _km(driven, each)) is not None
    ]
    if len(poured) < 2 or poured[-1][1] <= poured[0][1]:
        return None
    km = poured[-1][1] - poured[0][1]
    rate = sum(each.entry.volume.amount("L") for each, _ in poured[1:] if each.entry.volume) / km
    return ExhaustFluid(rate=rate, km=km, fills=len(poured), left=_left(driven, poured, rate))


def _km(driven: Driving, fill: Logged[Fill]) -> float | None:
    """Where the truck was: at the fill's own reading, else where it last was."""
    known = driven.track.km_of(fill)
    if known is not None:
        return known
    mark = driven.track.before(fill.at) or driven.track.after(fill.at)
    return mark.km if mark else None


def _left(
    driven: Driving, poured: Sequence[tuple[Logged[Fill], float]], rate: float
) -> float | None:
    """From the last time it was filled to the top, what went since and what was added."""
    tank = rig_of(driven.log, truck=driven.truck).quantity("truck", "def_tank")
    latest = driven.track.latest
    full = [index for index, (each, _) in enumerate(poured) if each.entry.full]
    if tank is None or latest is None or not full:
        return None
    _, start = poured[full[-1]]
    added = sum(
        each.entry.volume.amount("L") for each, _ in poured[full[-1] + 1 :] if each.entry.volume
    )
    return min(max(tank.amount("L") - rate * (latest.km - start) + added, 0.0), tank.amount("L"))
