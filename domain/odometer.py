"""The road as one line: odometer readings turned into distance truly driven.

This file decides how far along its life the truck was at each reading: it mends a
rollover and a replaced cluster, applies the odometer's factor, and sets aside readings
that no order of driving explains. It knows nothing of fuel, trailers or trips.

Three facts about the odometer are told as ratings whose subject is `odometer`:
`factor` (true distance over shown, 0.982 where 100 shown are 98.2 driven), `digits`
(5 where 99,999 is followed by 00,000) and `replaced` (what the new cluster showed when
it went in).
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import pairwise

from domain.entries import Entry, Fill, Odometer, Rating
from domain.log import Log, Logged
from domain.quantities import Quantity

SAME_STOP = timedelta(minutes=10)
"""A reading and an event texted this close together belong to one stop."""

A_DAY = timedelta(days=1)

BELIEVABLE_FACTOR = (0.8, 1.25)
"""No tyre or gear change puts an odometer further out than this (common practice, no source)."""

BELIEVABLE_DIGITS = (4, 7)

USUAL_DIGITS = (5, 6)
"""Wheels on an odometer where nobody has said how many (49 CFR 580.5: whole miles)."""

NEAR_THE_END = 0.95
"""A rollover is taken as read from this share of the last figure to as little past zero."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A place on the road: kilometres truly driven, when, and the entry that says so."""

    km: float
    at: datetime
    logged: Logged[Entry]


@dataclass(frozen=True, slots=True)
class Reversal:
    """A reading that does not fit between its neighbours in time."""

    logged: Logged[Entry]
    shown: Quantity


class Track:
    """Readings of one truck as marks on one line, oldest first, and those that do not fit.

    `factor` is true distance over shown, for the trip meter as for the odometer.
    """

    def __init__(
        self, marks: Sequence[Mark], reversals: Sequence[Reversal] = (), factor: float = 1.0
    ) -> None:
        self.marks = tuple(marks)
        self.reversals = tuple(reversals)
        self.factor = factor
        self._times = [mark.at for mark in self.marks]
        self._of: Mapping[Logged[Entry], Mark] = {mark.logged: mark for mark in self.marks}

    @property
    def latest(self) -> Mark | None:
        """The newest mark."""
        return self.marks[-1] if self.marks else None

    def km_of(self, logged: Logged[Entry]) -> float | None:
        """Where the truck was at an entry that carries a reading."""
        mark = self._of.get(logged)
        return None if mark is None else mark.km

    def when(self, logged: Logged[Entry]) -> datetime:
        """When an entry happened; where only its day is known, when its reading fits."""
        mark = self._of.get(logged)
        return logged.at if mark is None else mark.at

    def before(self, moment: datetime) -> Mark | None:
        """The last mark up to a moment."""
        index = bisect_right(self._times, moment)
        return self.marks[index - 1] if index else None

    def after(self, moment: datetime) -> Mark | None:
        """The first mark from a moment on."""
        index = bisect_left(self._times, moment)
        return self.marks[index] if index < len(self.marks) else None

    def near(self, moment: datetime) -> Mark | None:
        """The mark of the same stop: the closest within SAME_STOP."""
        sides = [mark for mark in (self.before(moment), self.after(moment)) if mark]
        close = [mark for mark in sides if abs(mark.at - moment) <= SAME_STOP]
        return min(close, key=lambda mark: abs(mark.at - moment), default=None)

    def between(self, start: datetime, end: datetime) -> Sequence[Mark]:
        """Every mark from start to end, both included."""
        return self.marks[bisect_left(self._times, start) : bisect_right(self._times, end)]


def of_truck(log: Log, truck: str | None = None) -> Log:
    """The entries of one truck; without a name, of the first that the log names.

    Entries that name no truck are the first truck's.
    """
    names = list(dict.fromkeys(each.entry.truck for each in log if each.entry.truck))
    if len(names) < 2:
        return log
    wanted = next((name for name in names if truck and _same(name, truck)), names[0])
    unnamed_too = wanted == names[0]
    return Log(
        each
        for each in log
        if (unnamed_too if each.entry.truck is None else each.entry.truck == wanted)
    )


def last_shown(log: Log, truck: str | None, moment: datetime) -> Quantity | None:
    """What the odometer of a truck last showed by a moment, off a fill or by itself.

    A reading that names no truck counts for any.
    """
    shown = [
        next(
            (each for each in reversed(events) if _reading(each.entry) and _may_be(each, truck)),
            None,
        )
        for events in (log.upto(Fill, moment), log.upto(Odometer, moment))
    ]
    last = max(filter(None, shown), key=lambda each: (each.at, each.key), default=None)
    return None if last is None else _reading(last.entry)


def _may_be(logged: Logged[Entry], truck: str | None) -> bool:
    return logged.entry.truck is None or logged.entry.truck == truck


def track(log: Log) -> Track:
    """Every odometer reading of a log on one line of true distance.

    A fill without a reading takes that of its stop, or its trip meter's distance beyond
    the fill before it.
    """
    factor = _fact(log, "factor", BELIEVABLE_FACTOR) or 1.0
    readings = [(logged, shown) for logged in log if (shown := _reading(logged.entry))]
    along = _unrolled(readings, _fact(log, "digits", BELIEVABLE_DIGITS), _replacements(log))
    marks = [
        Mark(km=km * factor, at=logged.at, logged=logged)
        for (logged, _), km in zip(readings, along, strict=True)
    ]
    timed = [index for index, mark in enumerate(marks) if not _only_dated(mark)]
    fitting = _longest_rise([marks[index].km for index in timed])
    kept = [marks[index] for place, index in enumerate(timed) if place in fitting]
    for mark in marks:
        if _only_dated(mark) and (placed := _within_its_day(mark, kept)) is not None:
            insort(kept, placed, key=_along)
    fits = {mark.logged for mark in kept}
    reversals = [Reversal(logged, shown) for logged, shown in readings if logged not in fits]
    return Track(_with_bare_fills(log, Track(kept, factor=factor)), reversals, factor)


def _along(mark: Mark) -> tuple[datetime, float]:
    return mark.at, mark.km


def _only_dated(mark: Mark) -> bool:
    """Whether the message told the day and no time of it."""
    stated = mark.logged.entry.at
    return stated is not None and not isinstance(stated, datetime)


def _within_its_day(dated: Mark, kept: Sequence[Mark]) -> Mark | None:
    """A reading of which only the day is known, at the time of day where it fits."""
    low = bisect_left(kept, dated.at - A_DAY, key=_when)
    high = bisect_right(kept, dated.at + A_DAY, key=_when)
    near: list[Mark | None] = list(kept[max(low - 1, 0) : high + 1])
    near = [*([None] if low == 0 else []), *near, *([None] if high == len(kept) else [])]
    for before, after in pairwise(near):
        if (before is None or before.km <= dated.km) and (after is None or dated.km <= after.km):
            at = dated.at if before is None else max(dated.at, before.at)
            return replace(dated, at=at if after is None else min(at, after.at))
    return None


def _when(mark: Mark) -> datetime:
    return mark.at


def _reading(entry: Entry) -> Quantity | None:
    return entry.odometer if isinstance(entry, Fill | Odometer) else None


def _fact(log: Log, rating: str, believable: tuple[float, float]) -> float | None:
    """The latest bare figure told about the odometer, of those that can be true."""
    low, high = believable
    told = [
        each.entry.value
        for each in log.of(Rating)
        if each.entry.subject == "odometer"
        and each.entry.rating == rating
        and not isinstance(each.entry.value, Quantity)
        and low <= each.entry.value <= high
    ]
    return told[-1] if told else None


def _replacements(log: Log) -> Sequence[tuple[datetime, Quantity]]:
    return [
        (each.at, each.entry.value)
        for each in log.of(Rating)
        if each.entry.subject == "odometer"
        and each.entry.rating == "replaced"
        and isinstance(each.entry.value, Quantity)
    ]


def _unrolled(
    readings: Sequence[tuple[Logged[Entry], Quantity]],
    digits: float | None,
    replacements: Sequence[tuple[datetime, Quantity]],
) -> Sequence[float]:
    """Readings in km, with what a rollover or a new cluster swallowed added back."""
    wheels = (round(digits),) if digits else USUAL_DIGITS
    waiting = list(replacements)
    offset = 0.0
    previous: Quantity | None = None
    along: list[float] = []
    for logged, shown in readings:
        while waiting and waiting[0][0] <= logged.at:
            started_at = waiting.pop(0)[1].amount("km")
            offset = (along[-1] if along else 0.0) - started_at
            previous = None
        if previous is not None and previous.unit == shown.unit:
            offset += _swallowed(previous.value, shown.value, wheels, sure=digits is not None) * (
                Quantity(1.0, shown.unit).amount("km")
            )
        previous = shown
        along.append(shown.amount("km") + offset)
    return along


def _swallowed(before: float, after: float, wheels: Iterable[int], *, sure: bool) -> float:
    """What a rollover between two readings took off the second, in the odometer's own unit."""
    for count in wheels:
        turn = 10.0**count
        share = 0.5 if sure else NEAR_THE_END
        if share * turn <= before < turn and after < (1 - share) * turn:
            return turn
    return 0.0


def _longest_rise(values: Sequence[float]) -> frozenset[int]:
    """Indices of the longest run that never falls: the readings that explain each other."""
    tops: list[float] = []
    ends: list[int] = []
    previous: list[int] = []
    for index, value in enumerate(values):
        place = bisect_right(tops, value)
        previous.append(ends[place - 1] if place else -1)
        if place == len(tops):
            tops.append(value)
            ends.append(index)
        else:
            tops[place] = value
            ends[place] = index
    kept: list[int] = []
    at = ends[-1] if ends else -1
    while at >= 0:
        kept.append(at)
        at = previous[at]
    return frozenset(kept)


def _with_bare_fills(log: Log, known: Track) -> Sequence[Mark]:
    """The marks, with those added that fills without a reading can be given."""
    added: list[Mark] = []
    last_fill_km: float | None = None
    for fill in log.of(Fill):
        km = known.km_of(fill)
        if km is None and fill.entry.odometer is None:
            stop = known.near(fill.at)
            if stop is not None:
                km = stop.km
            elif fill.entry.distance is not None and last_fill_km is not None:
                km = last_fill_km + fill.entry.distance.amount("km") * known.factor
            if km is not None:
                added.append(Mark(km=km, at=fill.at, logged=fill))
        if fill.entry.product != "def":
            last_fill_km = km
    return sorted([*known.marks, *added], key=_along)


def _same(one: str, other: str) -> bool:
    return one.casefold() == other.casefold()
