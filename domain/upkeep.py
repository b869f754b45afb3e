"""What is due: by distance, by time, and the tyres by age.

This file decides when upkeep falls due from the intervals that the owner set and from when
it was last done. What a trailer needs is counted over the distance that it was towed. It
prescribes no interval of its own but the re-torque of wheel nuts, which comes with its
table (`shared/reference/upkeep.toml`).

An interval is told as a rating whose subject is the item: `every`, a distance, or
`every_days`, a bare number; what is due once, from where and when it is told, as `due_in` or
`due_in_days`. Having done it is a check with the state `done`; where only the
odometer's reading of then is told, another rating, `done_at`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from domain.driving import Driving
from domain.entries import Check, Rating
from domain.log import Logged
from domain.quantities import MILE_KM, Quantity
from domain.rig import tyres_owner
from domain.tyres import OLD_YEARS, Made, code_digits, date_code

DONE_AT = "done_at"
"""The rating that tells at which reading something was done last, before it was logged."""

DUE_IN, DUE_IN_DAYS = "due_in", "due_in_days"
"""The ratings that tell how far from here, or how many days from now, something is due once."""

SOON = 0.1
"""Upkeep is due soon once less than this share of its interval is left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chore:
    """A kind of upkeep: its name, what people call it, and what it follows within how far (km).

    `asked` are words by which it is asked for, and never set.
    """

    name: str
    words: frozenset[str]
    asked: frozenset[str] = frozenset()
    after: frozenset[str] = frozenset()
    after_km: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class UpkeepTable:
    """The kinds of upkeep."""

    chores: tuple[Chore, ...]

    def chore(self, item: str) -> Chore:
        """The kind of upkeep that an item's name means; one of its own where none is listed."""
        name = item.casefold()
        listed = (
            each
            for each in self.chores
            if name == each.name or name in each.words or name in each.asked
        )
        return next(listed, Chore(name=name, words=frozenset({name})))


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One reminder: of what, for which trailer, and how much is left (negative: overdue).

    `done_km` is the reading at which it was done, where no more than that was told. `km_left` and
    `days_left` are None where the interval is of the other kind; both are
    None where it was never logged as done, so that nothing can be counted from.
    """

    chore: str
    trailer: str | None
    done: datetime | None
    done_km: float | None = None
    km_left: float | None = None
    days_left: float | None = None
    interval_km: float | None = None
    interval_days: float | None = None

    @property
    def is_counted(self) -> bool:
        """Whether it is known from when, or from where, to count."""
        return self.km_left is not None or self.days_left is not None

    @property
    def left(self) -> float:
        """What is left as a share of the interval, of whichever kind is shorter."""
        shares = [
            left / interval
            for left, interval in (
                (self.km_left, self.interval_km),
                (self.days_left, self.interval_days),
            )
            if left is not None and interval
        ]
        return min(shares, default=1.0)

    @property
    def overdue(self) -> bool:
        """Whether its time has passed."""
        return self.left < 0

    @property
    def soon(self) -> bool:
        """Whether it is due before long, and not yet overdue."""
        return 0 <= self.left < SOON


@dataclass(frozen=True, slots=True)
class OldTyres:
    """Tyres whose date code makes them old: whose, when they were made, and their age in years."""

    owner: str
    made: Made
    years: float


def upkeep_table_from(table: Mapping[str, Any]) -> UpkeepTable:
    """The kinds of upkeep from their table; raises KeyError where a field lacks."""
    return UpkeepTable(
        chores=tuple(
            Chore(
                name=row["name"],
                words=frozenset(row["words"]),
                asked=frozenset(row.get("asked", ())),
                after=frozenset(row.get("after", ())),
                after_km=row["after_miles"] * MILE_KM if "after_miles" in row else None,
            )
            for row in table["upkeep"]
        ),
    )


def due(driven: Driving, table: UpkeepTable, now: datetime) -> tuple[Due, ...]:
    """Every reminder, the most pressing first; those that nothing can be counted from come last."""
    done = _last_done(driven, table)
    found = [
        *_set_by_owner(driven, table, done, now),
        *_set_once(driven, table, done, now),
        *_following(driven, table),
    ]
    return tuple(sorted(found, key=lambda each: (not each.is_counted, each.left)))


def old_tyres(driven: Driving, today: date) -> tuple[OldTyres, ...]:
    """Tyres past the age at which they want a look, the oldest first.

    Their date code is told as the rating `date_code`, a bare number.
    """
    latest: dict[str, Made] = {}
    for each in driven.log.of(Rating):
        if each.entry.rating != "date_code" or isinstance(each.entry.value, Quantity):
            continue
        made = date_code(code_digits(each.entry.value), today)
        if isinstance(made, Made):
            owner = each.entry.trailer or each.entry.truck or tyres_owner(each.entry)
            latest[owner] = made
    aged = [OldTyres(owner, made, made.age(today)) for owner, made in latest.items()]
    return tuple(
        sorted((each for each in aged if each.years >= OLD_YEARS), key=lambda each: -each.years)
    )


@dataclass(frozen=True, slots=True)
class Last:
    """When something was done last, and where on the road if only the reading was told.

    `at` is None where that reading is from before the log.
    """

    at: datetime | None
    km: float | None = None


Done = Mapping[tuple[str, str | None], Last]
"""The last time that a kind of upkeep was done, by its name and trailer."""


def _last_done(driven: Driving, table: UpkeepTable) -> Done:
    found: dict[tuple[str, str | None], Last] = {}
    for each in driven.log:
        match each.entry:
            case Check(item=item, state="done", trailer=trailer):
                found[table.chore(item).name, trailer] = Last(each.at)
            case Rating(subject=item, rating=rating, value=Quantity() as shown, trailer=trailer):
                if rating == DONE_AT:
                    km = shown.amount("km") * driven.track.factor
                    passed = _passed(driven, km, each.at)
                    found[table.chore(item).name, trailer] = Last(passed, km)
    return found


def _passed(driven: Driving, km: float, told: datetime) -> datetime | None:
    """When the truck was last known to be no further than a place; None where it never was."""
    marks = reversed(driven.track.marks)
    return next((mark.at for mark in marks if mark.km <= km and mark.at <= told), None)


def _set_by_owner(driven: Driving, table: UpkeepTable, done: Done, now: datetime) -> Iterable[Due]:
    intervals: dict[tuple[str, str | None], dict[str, float]] = {}
    for each in driven.log.of(Rating):
        interval = _interval(each.entry)
        if interval is not None:
            owner = (table.chore(each.entry.subject).name, each.entry.trailer)
            kind, amount = interval
            intervals.setdefault(owner, {})[kind] = amount
    for (name, trailer), every in intervals.items():
        last = done.get((name, trailer)) or done.get((name, None))
        yield _due(driven, name, trailer, every, last, now)


def _set_once(driven: Driving, table: UpkeepTable, done: Done, now: datetime) -> Iterable[Due]:
    """What the owner set for one time; it is settled once it was done after that."""
    told: dict[tuple[str, str | None], Logged[Rating]] = {}
    for each in driven.log.of(Rating):
        if each.entry.rating in (DUE_IN, DUE_IN_DAYS):
            told[table.chore(each.entry.subject).name, each.entry.trailer] = each
    for (name, trailer), each in told.items():
        last = done.get((name, trailer)) or done.get((name, None))
        if last is not None and last.at is not None and last.at > each.at:
            continue
        ahead = each.entry.value
        km = ahead.amount("km") if isinstance(ahead, Quantity) else None
        days = None if isinstance(ahead, Quantity) else float(ahead)
        yield Due(
            chore=name,
            trailer=trailer,
            done=last.at if last else None,
            done_km=last.km if last else None,
            km_left=None if km is None else km - km_since(driven, Last(each.at), trailer),
            days_left=None if days is None else days - (now - each.at) / timedelta(days=1),
            interval_km=km,
            interval_days=days,
        )


def _interval(rating: Rating) -> tuple[str, float] | None:
    match rating.rating, rating.value:
        case "every", Quantity() as distance:
            return "km", distance.amount("km")
        case "every_days", int() | float() as days:
            return "days", float(days)
    return None


def _due(
    driven: Driving,
    name: str,
    trailer: str | None,
    every: Mapping[str, float],
    last: Last | None,
    now: datetime,
) -> Due:
    driven_km = None if last is None else km_since(driven, last, trailer)
    km, days = every.get("km"), every.get("days")
    return Due(
        chore=name,
        trailer=trailer,
        done=last.at if last else None,
        done_km=last.km if last else None,
        km_left=None if km is None or driven_km is None else km - driven_km,
        days_left=(
            None
            if days is None or last is None or last.at is None
            else days - (now - last.at) / timedelta(days=1)
        ),
        interval_km=km,
        interval_days=days,
    )


def _following(driven: Driving, table: UpkeepTable) -> Iterable[Due]:
    """What falls due once, so far after other work: the re-torque after a wheel was off."""
    checks: Sequence[Logged[Check]] = [
        each for each in driven.log.of(Check) if each.entry.state == "done"
    ]
    for chore in table.chores:
        work = [each for each in checks if each.entry.item.casefold() in chore.after]
        if chore.after_km is None or not work:
            continue
        last = work[-1]
        again = [
            each
            for each in checks
            if each.at > last.at
            and table.chore(each.entry.item) == chore
            and km_since(driven, Last(last.at), last.entry.trailer, each.at) >= chore.after_km / 2
        ]
        if not again:
            yield Due(
                chore=chore.name,
                trailer=last.entry.trailer,
                done=last.at,
                km_left=chore.after_km - km_since(driven, Last(last.at), last.entry.trailer),
                interval_km=chore.after_km,
            )


def km_since(
    driven: Driving, last: Last, trailer: str | None, until: datetime | None = None
) -> float:
    """Distance (km) since something was done, of a trailer only while it was on."""
    start = _place(driven, last)
    end = driven.track.latest if until is None else driven.track.before(until)
    if start is None or end is None or end.km <= start:
        return 0.0
    if trailer is None:
        return end.km - start
    split = driven.modes.split(start, end.km)
    return sum(km for mode, km in split.items() if mode.casefold() == trailer.casefold())


def _place(driven: Driving, last: Last) -> float | None:
    """Where on the road something was done, in km; None before any reading."""
    if last.km is not None or last.at is None:
        return last.km
    track = driven.track
    mark = track.near(last.at) or track.before(last.at) or track.after(last.at)
    return None if mark is None else mark.km
