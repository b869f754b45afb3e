"""One trip's account: its fuel, its money, its heaviest weighing, its hottest gauge.

This file decides how much of a tank a trip is charged with when the tank began before it
or was filled after it: by the distance in each mode, at that mode's own rate. Road that no
full tank covers yet is reckoned at the mode's rate and said to be so. It does not know
where trips begin and end (`trip.py`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import hypot, sqrt

from domain.bounds import margins
from domain.driving import Driving
from domain.economy import STRETCH_KM, Estimates
from domain.entries import Check, Fill, Note, Observation
from domain.fuel import CLICK_OFF_LITRES, Rate, Tank, is_fuel
from domain.log import Logged
from domain.margins import Margin, Over, Unknown, governing, tightness
from domain.money import Money, fill_cost, total
from domain.passes import sessions, with_axles
from domain.plans import rate_ahead, recent_price
from domain.quantities import Quantity
from domain.reference import References
from domain.rig import HITCH_CHAIN, rig_of
from domain.trip import Trip
from domain.uncertainty import Measured
from domain.weighing import weigh

TEMPERATURES = ("degF", "degC")


@dataclass(frozen=True, slots=True, kw_only=True)
class Burnt:
    """Fuel for a stretch of road: litres and their standard deviation, and how they were paid.

    `reckoned_km` is the part of the road that no full tank covers; `cost` is None where a
    fill has no price.
    """

    litres: float
    sd: float
    km: float
    reckoned_km: float
    cost: Money | None

    @property
    def rate(self) -> Rate:
        """Litres a kilometre over the stretch."""
        return Rate(rate=self.litres / self.km, sd=self.sd / self.km, tanks=0, km=self.km)

    @property
    def measured(self) -> bool:
        """Whether most of the road is covered by full tanks."""
        return self.reckoned_km < self.km / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Heaviest:
    """The heaviest weighing in a stretch of time, the tightest margin, and what is still over.

    `tightest_at` is when the tightest was weighed. `standing` are the ratings that were over, the
    worst first, at the weighing of `standing_at`, and were not seen inside since: a weighing that
    could not judge a rating says nothing of it. Where there are none, every one was put right.
    """

    gross: Measured | None
    at: datetime
    tightest: Margin | None
    tightest_at: datetime
    standing: tuple[Over, ...]
    standing_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """What a trip amounted to. `hottest` is the highest temperature of each subject."""

    trip: Trip
    burnt: Burnt | None
    bought: Money
    heaviest: Heaviest | None
    hottest: tuple[Logged[Observation], ...]
    checks: tuple[Logged[Check], ...]
    notes: tuple[str, ...]


def account(driven: Driving, trip: Trip, estimates: Estimates, references: References) -> Account:
    """The account of one trip; the tables serve its weighings."""
    during = driven.log.since(trip.start).until(trip.last)
    return Account(
        trip=trip,
        burnt=(
            burnt(driven, estimates, trip.start_km, trip.end_km)
            if trip.start_km is not None and trip.end_km is not None
            else None
        ),
        bought=total(fill_cost(each.entry) for each in during.of(Fill) if is_fuel(each.entry)),
        heaviest=heaviest(driven, trip.start, trip.last, references),
        hottest=hottest(during.of(Observation)),
        checks=during.of(Check),
        notes=tuple(each.entry.note for each in during.of(Note) if each.entry.note),
    )


def burnt(driven: Driving, estimates: Estimates, start_km: float, end_km: float) -> Burnt | None:
    """The fuel for a stretch of road; None where it is no distance."""
    if end_km <= start_km:
        return None
    litres, variance, covered = 0.0, 0.0, 0.0
    costs: list[Money | None] = []
    for tank in driven.chain.tanks:
        if tank.start_km is None or tank.end_km is None:
            continue
        low, high = max(tank.start_km, start_km), min(tank.end_km, end_km)
        if high <= low:
            continue
        share = _share(driven, estimates, tank, low, high)
        part = share * tank.litres
        litres += part
        covered += high - low
        if share < 1:
            stretches = max((high - low) / STRETCH_KM, 1.0)
            variance += (estimates.scatter * part) ** 2 / stretches * (1 - share)
        costs.append(_scaled(tank.cost, share))
    if covered:
        variance += 2 * CLICK_OFF_LITRES**2
    rest = _uncovered(driven, start_km, end_km)
    price = recent_price(driven) if rest else None
    for mode, km in rest.items():
        rate, _ = rate_ahead(estimates, mode, km)
        litres += km * rate.rate
        variance = hypot(sqrt(variance), km * rate.sd) ** 2
        costs.append(_priced(km * rate.rate, price))
    return Burnt(
        litres=litres,
        sd=sqrt(variance),
        km=end_km - start_km,
        reckoned_km=sum(rest.values()),
        cost=total(each for cost in costs if cost for each in cost) if all(costs) else None,
    )


def heaviest(
    driven: Driving,
    start: datetime,
    end: datetime,
    references: References,
    trailer: str | None = None,
) -> Heaviest | None:
    """The heaviest gross and the tightest margin of the weighings in a stretch of time.

    Of those with one trailer where it is named.
    """
    grosses: list[tuple[Measured, datetime]] = []
    tightest: list[tuple[Margin, datetime]] = []
    last: dict[tuple[bool, str | None, str, str], tuple[Margin, datetime]] = {}
    for each in sessions(driven.log):
        if each.ended < start:
            break
        other = trailer and (each.trailer or "").casefold() != trailer.casefold()
        if each.started > end or other:
            continue
        session, at = with_axles(driven.log, each), each.ended
        rig = rig_of(driven.log, at, truck=driven.truck, trailer=session.trailer)
        weights, _ = weigh(driven.log, session, rig, references.densities)
        if "gross" in weights.loads and session.axles_at is None:
            grosses.append((weights.loads["gross"], at))
        found = governing(margins(rig, weights, references.load_index))
        tightest += [(margin, at) for margin in found[:1]]
        for margin in found:
            if not isinstance(margin, Unknown):
                # A pass of the truck alone says nothing of the load that was over.
                of = (session.road is not None, session.trailer, *_rating_of(margin))
                last.setdefault(of, (margin, at))
    if not grosses and not tightest:
        return None
    gross, at = max(grosses, key=lambda each: each[0].nominal_value, default=(None, end))
    least, least_at = min(tightest, key=lambda each: tightness(each[0]), default=(None, at))
    over = [(each, when) for each, when in last.values() if isinstance(each, Over)]
    over.sort(key=lambda each: tightness(each[0]))
    standing_at = over[0][1] if over else at
    return Heaviest(
        gross=gross,
        at=at,
        tightest=least,
        tightest_at=least_at,
        standing=tuple(each for each, when in over if when == standing_at),
        standing_at=standing_at,
    )


def _rating_of(margin: Margin) -> tuple[str, str]:
    """Whose rating a margin is of; the parts of the hitch are one chain."""
    limit = margin.limit
    return "hitch" if limit.subject in HITCH_CHAIN else limit.subject, limit.rating


def hottest(seen: Sequence[Logged[Observation]]) -> tuple[Logged[Observation], ...]:
    """The highest temperature of each subject, the hottest first; the weather is none."""
    top: dict[str, Logged[Observation]] = {}
    for each in seen:
        if each.entry.value.unit not in TEMPERATURES or each.entry.subject == "ambient":
            continue
        before = top.get(each.entry.subject)
        if before is None or _celsius(each) > _celsius(before):
            top[each.entry.subject] = each
    return tuple(sorted(top.values(), key=_celsius, reverse=True))


def _celsius(seen: Logged[Observation]) -> float:
    return seen.entry.value.amount("degC")


def _share(driven: Driving, estimates: Estimates, tank: Tank, low: float, high: float) -> float:
    """How much of a tank's fuel a part of its road took, by the rates of its modes."""
    start, end = tank.start_km, tank.end_km
    if start is None or end is None or (start, end) == (low, high):
        return 1.0
    # By every mode that was driven, those too that the tank itself is too long to tell.
    whole = driven.modes.split(start, end)
    known = all(mode in estimates.rates for mode in whole)

    def weight(split: Mapping[str, float]) -> float:
        return sum(
            km * (estimates.rates[mode].rate if known else 1.0) for mode, km in split.items()
        )

    return weight(driven.modes.split(low, high)) / weight(whole)


def _uncovered(driven: Driving, start_km: float, end_km: float) -> dict[str, float]:
    """Kilometres by mode that no full tank covers."""
    rest: dict[str, float] = {}
    at = start_km
    stretches = [
        (tank.start_km, tank.end_km)
        for tank in driven.chain.tanks
        if tank.start_km is not None and tank.end_km is not None
    ]
    for low, high in (*stretches, (end_km, end_km)):
        gap = min(low, end_km)
        if gap > at:
            for mode, km in driven.modes.split(at, gap).items():
                rest[mode] = rest.get(mode, 0.0) + km
        at = max(at, min(high, end_km))
    return rest


def _scaled(cost: Money | None, share: float) -> Money | None:
    if not cost:
        return None
    return tuple(Quantity(each.value * share, each.unit) for each in cost)


def _priced(litres: float, price: Quantity | None) -> Money | None:
    if price is None:
        return None
    currency, _, volume = price.unit.partition("/")
    return (Quantity(price.value * Quantity(litres, "L").amount(volume), currency),)
