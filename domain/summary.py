"""A span of days: how far, on what fuel, for how much.

This file decides what counts for a span (a week, a month, a season) and sets it beside the
span before. Days are the logbook's own, in its time zone. It does not know how a span was
named, nor what of it is shown.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from domain.driving import Driving
from domain.entries import Fill, Hitch, Observation, Odometer, Weighing
from domain.fuel import DEF, Rate, Tank, is_fuel, pooled
from domain.log import Log, Logged
from domain.money import Money, fill_cost, fill_volume, total
from domain.odometer import Track
from domain.trip import Trip

ACTIVITY = (Fill, Odometer, Hitch, Weighing, Observation)
"""Kinds of entry without which nothing happened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Whole days, both included, and the moments between which they lie."""

    first: date
    last: date
    start: datetime
    end: datetime

    @property
    def days(self) -> int:
        """How many days."""
        return (self.last - self.first).days + 1

    def covers(self, moment: datetime) -> bool:
        """Whether a moment falls in it."""
        return self.start <= moment < self.end


def span(first: date, last: date, time_zone: str) -> Span:
    """The days from first to last in a time zone (IANA name); raises ZoneInfoNotFoundError."""
    zone = ZoneInfo(time_zone)
    return Span(
        first=first,
        last=last,
        start=datetime.combine(first, time(), zone),
        end=datetime.combine(last + timedelta(days=1), time(), zone),
    )


def week_to(now: datetime, time_zone: str) -> Span:
    """The seven days that end with today."""
    today = now.astimezone(ZoneInfo(time_zone)).date()
    return span(today - timedelta(days=6), today, time_zone)


def before(days: Span, time_zone: str) -> Span:
    """The span of as many days just before."""
    length = timedelta(days=days.days)
    return span(days.first - length, days.last - length, time_zone)


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured:
    """The exhaust fluid of a span, in litres, with what it cost."""

    litres: float = 0.0
    fills: int = 0
    spent: Money = ()
    unpriced: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """What a span amounts to. Distances in km, volumes in litres, money as stated.

    `tanks` are those that were closed in the span, though they may have begun before it;
    `spent` is every fill, whether or not a tank was closed by it.
    """

    days: Span
    km: float | None
    split: Mapping[str, float] = field(default_factory=dict)
    litres: float = 0.0
    fills: int = 0
    spent: Money = ()
    unpriced: int = 0
    exhaust_fluid: Poured = Poured()
    tanks: tuple[Tank, ...] = ()
    trips: tuple[Trip, ...] = ()
    weighings: tuple[Logged[Weighing], ...] = ()

    @property
    def economy(self) -> Rate | None:
        """All distance over all fuel of the tanks closed in the span."""
        return pooled(self.tanks)

    @property
    def best(self) -> Tank | None:
        """The tank that went furthest on its fuel; None without at least two to compare."""
        return min(self.tanks, key=_rate) if len(self.tanks) > 1 else None

    @property
    def worst(self) -> Tank | None:
        """The thirstiest tank; None without at least two to compare."""
        return max(self.tanks, key=_rate) if len(self.tanks) > 1 else None


def eventful_week(log: Log, now: datetime, time_zone: str) -> Span | None:
    """The seven days that end today; None where nothing was logged in them."""
    days = week_to(now, time_zone)
    return days if anything_in(log, days) else None


def anything_in(log: Log, days: Span) -> bool:
    """Whether the span has anything to tell."""
    return any(days.covers(each.at) and isinstance(each.entry, ACTIVITY) for each in log)


def summary(driven: Driving, days: Span) -> Summary:
    """What happened in a span."""
    fills = [each for each in driven.log.of(Fill) if days.covers(each.at)]
    fuel = [each.entry for each in fills if is_fuel(each.entry)]
    stretch = _stretch(driven.track, days)
    costs = [fill_cost(fill) for fill in fuel]
    return Summary(
        days=days,
        km=None if stretch is None else stretch[1] - stretch[0],
        split={} if stretch is None else driven.modes.split(*stretch),
        litres=sum(volume.amount("L") for fill in fuel if (volume := fill_volume(fill))),
        fills=len(fuel),
        spent=total(costs),
        unpriced=costs.count(None),
        exhaust_fluid=_poured([each.entry for each in fills if each.entry.product == DEF]),
        tanks=tuple(tank for tank in driven.chain.tanks if days.covers(tank.closed.at)),
        trips=tuple(trip for trip in driven.trips if days.covers(trip.end or trip.last)),
        weighings=tuple(each for each in driven.log.of(Weighing) if days.covers(each.at)),
    )


def _poured(fills: Sequence[Fill]) -> Poured:
    costs = [fill_cost(fill) for fill in fills]
    return Poured(
        litres=sum(fill.volume.amount("L") for fill in fills if fill.volume),
        fills=len(fills),
        spent=total(costs),
        unpriced=costs.count(None),
    )


def _stretch(track: Track, days: Span) -> tuple[float, float] | None:
    """The road of a span: from the last reading before it, or its first, to its last."""
    inside = track.between(days.start, days.end - timedelta(microseconds=1))
    if not inside:
        return None
    opening = track.before(days.start) or inside[0]
    return opening.km, inside[-1].km


def _rate(tank: Tank) -> float:
    return tank.litres / tank.km
