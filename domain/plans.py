"""What lies ahead: fuel left, range, and what a trip will take.

This file decides how far the tank still reaches and what a distance will cost, from this
rig's own history. Where history is short it says what it assumes. It does not know the
road ahead: grades, wind and detours are not in it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, hypot, sqrt
from statistics import median
from typing import Literal

from domain.driving import Driving
from domain.economy import STRETCH_KM, Estimates, towing_rate
from domain.entries import Fill
from domain.fuel import CLICK_OFF_LITRES, NINETY, Rate, is_fuel, is_full
from domain.modes import UNTOLD, towing
from domain.money import fill_cost, fill_volume, unit_price
from domain.quantities import Quantity, economy_to
from domain.rig import rig_of

RESERVE_SHARE = 0.10
"""The share of a tank that a plan leaves in it (common practice, no source)."""

ASSUMED = {True: Quantity(10.0, "mi/gal"), False: Quantity(16.0, "mi/gal")}
"""Economy of a pickup with and without a trailer where the log tells none (no source)."""

ASSUMED_SPREAD = 0.2
"""Standard deviation of an assumed economy, as a share."""

Grounds = Literal["own", "others", "assumed"]
"""Where a rate comes from: this mode's tanks, other trailers', or neither."""


class NotEnoughTold(ValueError):
    """A range lacks a fact; `lacks` names it: the size of the `tank`, or a `full` fill."""

    def __init__(self, lacks: Literal["tank", "full"]) -> None:
        super().__init__(lacks)
        self.lacks = lacks


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far the tank still goes, from the last reading on.

    `left` is the fuel in it, in litres, with its standard deviation; `km` goes down to the
    reserve, `sure_km` is the distance that nineteen tanks in twenty would exceed, and
    `empty_km` the best estimate of running dry.
    """

    capacity: Quantity
    left: float
    left_sd: float
    reserve: float
    km: float
    sure_km: float
    empty_km: float
    mode: str
    rate: Rate
    grounds: Grounds


@dataclass(frozen=True, slots=True, kw_only=True)
class Goes:
    """How far some fuel goes: the best estimate, and what nineteen times in twenty it exceeds."""

    km: float
    sure_km: float
    mode: str
    rate: Rate
    grounds: Grounds


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What a distance will take: litres with the 90 % interval, its cost, and stops for fuel.

    `price` is the one it reckons with; `stops` is None where the tank's size is not known.
    """

    km: float
    mode: str
    rate: Rate
    grounds: Grounds
    litres: float
    low: float
    high: float
    price: Quantity | None
    stops: int | None

    def cost(self, litres: float) -> Quantity | None:
        """What so many litres cost at the price reckoned with."""
        if self.price is None:
            return None
        currency, _, per = self.price.unit.partition("/")
        return Quantity(self.price.value * Quantity(litres, "L").amount(per), currency)


def rate_ahead(estimates: Estimates, mode: str, km: float) -> tuple[Rate, Grounds]:
    """The rate to reckon with over so much road, its scatter included, and where it comes from."""
    own = estimates.ahead(mode, km)
    if own is not None:
        return own, "own"
    others = towing_rate(estimates) if towing(mode) else estimates.ahead(UNTOLD, km)
    if others is not None:
        return others, "others"
    rate = 1 / economy_to(ASSUMED[towing(mode)], "km/L").value
    return Rate(rate=rate, sd=ASSUMED_SPREAD * rate, tanks=0, km=0.0), "assumed"


def tank_of(driven: Driving) -> Quantity | None:
    """The size of the truck's tank, where it was told."""
    told = rig_of(driven.log, truck=driven.truck).quantity("truck", "tank")
    return told if told is not None and told.value > 0 else None


def reach(driven: Driving, estimates: Estimates) -> Reach:
    """How far the fuel goes in the present mode; raises NotEnoughTold."""
    tank = tank_of(driven)
    if tank is None:
        raise NotEnoughTold("tank")
    capacity = tank.amount("L")
    fills = [each for each in (driven.chain.full, *driven.chain.since_full) if each is not None]
    full = next((each for each in reversed(fills) if is_full(each.entry)), None)
    latest = driven.track.latest
    start = None if full is None else driven.track.km_of(full)
    if full is None or start is None or latest is None:
        raise NotEnoughTold("full")
    left, variance = capacity, CLICK_OFF_LITRES**2
    for mode, km in driven.modes.split(start, max(start, latest.km)).items():
        rate, _ = rate_ahead(estimates, mode, km)
        left -= km * rate.rate
        variance += (km * rate.sd) ** 2
    later = fills[fills.index(full) + 1 :]
    left += sum(volume.amount("L") for each in later if (volume := fill_volume(each.entry)))
    left = min(max(left, 0.0), capacity)
    mode = driven.modes.at(latest.at)
    reserve = RESERVE_SHARE * capacity
    usable = left - reserve
    rate, _ = rate_ahead(estimates, mode, STRETCH_KM)
    rate, grounds = rate_ahead(estimates, mode, usable / rate.rate)
    spread = NINETY * hypot(sqrt(variance), usable * rate.sd / rate.rate)
    return Reach(
        capacity=tank,
        left=left,
        left_sd=sqrt(variance),
        reserve=reserve,
        km=max(usable, 0.0) / rate.rate,
        sure_km=max(usable - spread, 0.0) / rate.rate,
        empty_km=left / rate.rate,
        mode=mode,
        rate=rate,
        grounds=grounds,
    )


def goes(estimates: Estimates, litres: float, mode: str) -> Goes:
    """How far so much fuel goes in a mode, to the last drop."""
    rate, _ = rate_ahead(estimates, mode, STRETCH_KM)
    rate, grounds = rate_ahead(estimates, mode, litres / rate.rate)
    km = litres / rate.rate
    return Goes(
        km=km,
        sure_km=max(km - NINETY * km * rate.sd / rate.rate, 0.0),
        mode=mode,
        rate=rate,
        grounds=grounds,
    )


def plan(driven: Driving, estimates: Estimates, km: float, mode: str) -> Plan:
    """What so many kilometres will take in a mode, setting out on a full tank."""
    rate, grounds = rate_ahead(estimates, mode, km)
    litres, spread = km * rate.rate, NINETY * km * rate.sd
    tank = tank_of(driven)
    stops = None
    if tank is not None:
        usable = (1 - RESERVE_SHARE) * tank.amount("L")
        stops = max(0, ceil((litres + spread) / usable) - 1)
    return Plan(
        km=km,
        mode=mode,
        rate=rate,
        grounds=grounds,
        litres=litres,
        low=max(litres - spread, 0.0),
        high=litres + spread,
        price=recent_price(driven),
        stops=stops,
    )


def recent_price(driven: Driving, fills: int = 3) -> Quantity | None:
    """The middle price of the last few fills, in the currency and volume of the newest."""
    priced = [
        each.entry
        for each in driven.log.of(Fill)
        if is_fuel(each.entry) and each not in driven.chain.other and fill_cost(each.entry)
    ]
    if not priced:
        return None
    volume = priced[-1].volume.unit if priced[-1].volume else "gal"
    prices = [price for each in priced if (price := unit_price(each, volume))]
    own = [price.value for price in prices[-fills:] if price.unit == prices[-1].unit]
    return Quantity(median(own), prices[-1].unit) if own else None
