"""What every part of a report is worked out from.

This file decides how the log is seen from a report's last day: a report of a past year tells
what stood then. Fuel is the exception: a tank that was closed later still tells of the road
before it, in a report as in an answer.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.answers.language import date_text, say
from bot.answers.measures import local
from domain.context import MASS_UNIT
from domain.driving import Driving, driving
from domain.log import Log, Preferences
from domain.naming import names_in
from domain.summary import Span
from domain.trip import Trip


@dataclass(frozen=True, slots=True, kw_only=True)
class Grounds:
    """A truck's log in whole, `stood` as it stood at the last moment told of, `then`.

    `trucks` are all of the logbook's, `trailers` those that this one tows. `trip` is set where
    the report is of one trip, whose days they then are.
    """

    driven: Driving
    stood: Driving
    trucks: tuple[str, ...]
    trailers: tuple[str, ...]
    preferences: Preferences
    days: Span
    then: datetime
    trip: Trip | None = None

    @property
    def truck(self) -> str | None:
        """The truck that the report is of, where it has a name."""
        return self.driven.truck or next(iter(self.trucks), None)

    @property
    def mass(self) -> str:
        """The unit of its loads."""
        return MASS_UNIT[self.preferences.units]

    def day(self, at: datetime) -> str:
        """A moment's day as it is written in a report."""
        return day_of(local(at, self.preferences))


def grounds(
    log: Log,
    driven: Driving,
    preferences: Preferences,
    now: datetime,
    days: Span,
    trip: Trip | None = None,
) -> Grounds:
    """What a report of some days, or of a trip, is worked out from."""
    then = min(now, days.end - timedelta(microseconds=1))
    stood = driven if then == now else driving(driven.log.until(then), driven.truck)
    return Grounds(
        driven=driven,
        stood=stood,
        trucks=names_in(log).trucks,
        trailers=names_in(stood.log).trailers,
        preferences=preferences,
        days=days,
        then=then,
        trip=trip,
    )


def day_of(when: date) -> str:
    """A day with its year, as paper is looked at when nobody knows which year it was."""
    return date_text(when, say("d MMM y"))


def days_of(days: Span) -> str:
    """The days from first to last."""
    if days.first == days.last:
        return day_of(days.first)
    return say("{first} to {last}", first=day_of(days.first), last=day_of(days.last))
