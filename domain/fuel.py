"""Full-to-full: which fuel carried the truck over which road.

This file decides where one tank ends and the next begins. Between two full tanks, all
that was pumped since the first has been burnt; a partial fill is carried over to the next
full one, and a fill that nobody logged breaks the chain. A fill counts as full unless it
is said to be partial. Diesel exhaust fluid is never fuel. What the tanks say together,
by trailer, is worked out in `economy.py`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import hypot, sqrt

from domain.entries import Fill
from domain.log import Log, Logged
from domain.modes import Modes
from domain.money import Money, fill_cost, fill_volume, total
from domain.odometer import Track
from domain.quantities import GALLON_L, MILE_KM

DEF = "def"

CLICK_OFF_LITRES = 0.3 * GALLON_L
"""How far one automatic click-off leaves the tank from another (common practice, no source)."""

DISPENSER = 0.005 / sqrt(3)
"""Standard deviation of a dispenser's reading, as a share: anywhere within the 0.5 % that
NIST Handbook 44 3.30 Table T.2 allows in service (the table was written down from memory)."""

READING_KM = MILE_KM / sqrt(12)
"""Standard deviation of an odometer read to the whole mile."""

TRIP_METER_KM = 0.1 * MILE_KM / sqrt(12)
"""Standard deviation of a trip meter read to the tenth."""

BELIEVABLE = (GALLON_L / (100 * MILE_KM), GALLON_L / (2 * MILE_KM))
"""Litres a kilometre that a car or truck can burn, alone or with the heaviest trailer: 100 to 2 mpg
(common practice, no source)."""

SLIVER = 0.02
"""A mode that was driven for less of a tank's road than this is not told from the rest of it: at
half the fuel or twice, that moves the tank's rate by no more than its own scatter does (no source).
"""

NINETY = 1.6449
"""Standard deviations either side that hold nine tenths of a normal distribution."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Fuel for distance, in litres a kilometre, with its standard deviation and its grounds."""

    rate: float
    sd: float
    tanks: int
    km: float

    @property
    def low(self) -> float:
        """The thirsty end of the 90 % interval, in kilometres a litre."""
        return 1.0 / (self.rate + NINETY * self.sd)

    @property
    def high(self) -> float:
        """The thrifty end of the 90 % interval, in kilometres a litre; infinite if unbounded."""
        least = self.rate - NINETY * self.sd
        return 1.0 / least if least > 0 else float("inf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tank:
    """The road between two full tanks and every fill that paid for it, the closing one last."""

    opened: Logged[Fill]
    fills: tuple[Logged[Fill], ...]
    km: float
    litres: float
    start_km: float | None = None
    end_km: float | None = None
    split: Mapping[str, float] = field(default_factory=dict)

    @property
    def closed(self) -> Logged[Fill]:
        """The fill that made the tank full again."""
        return self.fills[-1]

    @property
    def cost(self) -> Money | None:
        """What the fuel cost; None where a fill has no price."""
        costs = [fill_cost(fill.entry) for fill in self.fills]
        return total(costs) if all(costs) else None

    @property
    def is_believable(self) -> bool:
        """Whether a truck can have burnt the fuel on the road; else a fill is missing, or wrong."""
        least, most = BELIEVABLE
        rate, doubt = self.rate.rate, NINETY * self.rate.sd
        return rate - doubt <= most and rate + doubt >= least

    @property
    def km_sd(self) -> float:
        """Standard deviation of the distance, from how it was read."""
        if self.start_km is None:
            return TRIP_METER_KM * sqrt(len(self.fills))
        return READING_KM * sqrt(2)

    @property
    def dispensed_sd(self) -> float:
        """Standard deviation of the fuel, from the dispensers' own errors."""
        volumes = (fill_volume(fill.entry) for fill in self.fills)
        return DISPENSER * sqrt(sum(each.amount("L") ** 2 for each in volumes if each))

    @property
    def litres_sd(self) -> float:
        """Standard deviation of the fuel: one click-off at either end, and the dispensers."""
        return hypot(CLICK_OFF_LITRES * sqrt(2), self.dispensed_sd)

    @property
    def rate(self) -> Rate:
        """Litres a kilometre over this tank."""
        rate = self.litres / self.km
        return Rate(
            rate=rate, sd=hypot(self.litres_sd, rate * self.km_sd) / self.km, tanks=1, km=self.km
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Every tank of a log, oldest first, and what is in the tank that is still open.

    `since_full` are the fills after the last full one; `full` is that one, or None where
    the chain has just been broken and nothing has closed since. `unbelievable` are full fills
    whose fuel and road since the full one before can't belong together; the chain starts anew
    with each.
    """

    tanks: tuple[Tank, ...]
    full: Logged[Fill] | None
    since_full: tuple[Logged[Fill], ...]
    other: tuple[Logged[Fill], ...]
    unbelievable: tuple[Logged[Fill], ...]

    def closed_by(self, fill: Logged[Fill]) -> Tank | None:
        """The tank that a fill closed."""
        return next((tank for tank in reversed(self.tanks) if tank.closed == fill), None)


def is_fuel(fill: Fill) -> bool:
    """Whether a fill went into the fuel tank."""
    return fill.product != DEF


def is_full(fill: Fill) -> bool:
    """Full unless said to be partial."""
    return fill.full is not False


def truck_fuel(log: Log) -> str | None:
    """What the truck burns: the fuel that its fills name most often."""
    named = Counter(
        fill.entry.product for fill in log.of(Fill) if is_fuel(fill.entry) and fill.entry.product
    )
    return named.most_common(1)[0][0] if named else None


def chain(log: Log, track: Track, modes: Modes) -> Chain:
    """The tanks of one truck's log."""
    burns = truck_fuel(log)
    tanks: list[Tank] = []
    other: list[Logged[Fill]] = []
    unbelievable: list[Logged[Fill]] = []
    full: Logged[Fill] | None = None
    pending: list[Logged[Fill]] = []
    for fill in sorted(log.of(Fill), key=lambda each: (track.when(each), each.key)):
        if not is_fuel(fill.entry):
            continue
        if fill.entry.product not in (None, burns):
            other.append(fill)
            continue
        if fill.entry.missed or fill_volume(fill.entry) is None:
            full, pending = (fill if is_full(fill.entry) else None), []
            continue
        pending.append(fill)
        if not is_full(fill.entry):
            continue
        tank = None if full is None else _tank(full, pending, track, modes)
        if tank is not None and not tank.is_believable:
            unbelievable.append(fill)
        elif tank is not None:
            tanks.append(tank)
        elif full is not None and (track.km_of(fill) is None or track.km_of(full) is not None):
            continue
        full, pending = fill, []
    return Chain(
        tanks=tuple(tanks),
        full=full,
        since_full=tuple(pending),
        other=tuple(other),
        unbelievable=tuple(unbelievable),
    )


def _tank(
    opened: Logged[Fill], fills: Sequence[Logged[Fill]], track: Track, modes: Modes
) -> Tank | None:
    """The tank between two full fills; None where nothing says how far it went, or on what."""
    litres = sum(volume.amount("L") for fill in fills if (volume := fill_volume(fill.entry)))
    if litres <= 0:
        return None
    start, end = track.km_of(opened), track.km_of(fills[-1])
    if start is not None and end is not None and end > start:
        return Tank(
            opened=opened,
            fills=tuple(fills),
            km=end - start,
            litres=litres,
            start_km=start,
            end_km=end,
            split=_without_slivers(modes.split(start, end)),
        )
    legs = [fill.entry.distance for fill in fills]
    km = track.factor * sum(leg.amount("km") for leg in legs if leg is not None)
    if None in legs or km <= 0:
        return None
    return Tank(
        opened=opened,
        fills=tuple(fills),
        km=km,
        litres=litres,
        split=_by_time(opened, fills[-1], km, modes),
    )


def _without_slivers(split: Mapping[str, float]) -> Mapping[str, float]:
    """The modes that a tank tells of: the few miles to the yard and back count with the rest."""
    main, *others = split
    least = SLIVER * sum(split.values())
    slivers = [mode for mode in others if split[mode] < least]
    kept = {mode: km for mode, km in split.items() if mode not in slivers}
    kept[main] += sum(split[mode] for mode in slivers)
    return kept


def _by_time(
    opened: Logged[Fill], closed: Logged[Fill], km: float, modes: Modes
) -> Mapping[str, float]:
    """Without readings, a stretch in one mode throughout counts for it; a mixed one for none."""
    mode = modes.at(opened.at)
    changed = any(
        opened.at < change.at < closed.at and change.mode != mode for change in modes.changes
    )
    return {} if changed else {mode: km}


def pooled(tanks: Sequence[Tank]) -> Rate | None:
    """All distance over all fuel, never the mean of economies (40 CFR 600.206, harmonic).

    Tanks that follow on share a click-off, so only the ends of an unbroken run count.
    """
    if not tanks:
        return None
    km, litres = sum(tank.km for tank in tanks), sum(tank.litres for tank in tanks)
    ends = 2 * len(tanks) - 2 * sum(
        before.closed == after.opened for before, after in pairwise(tanks)
    )
    rate = litres / km
    dispensed = sqrt(sum(tank.dispensed_sd**2 for tank in tanks))
    at_ends = hypot(CLICK_OFF_LITRES, rate * READING_KM) * sqrt(ends)
    sd = hypot(at_ends, dispensed) / km
    return Rate(rate=rate, sd=sd, tanks=len(tanks), km=km)


def only_mode(tank: Tank) -> str | None:
    """The mode of a tank that was driven in one, told or not; None where it mixes them."""
    return next(iter(tank.split)) if len(tank.split) == 1 else None
