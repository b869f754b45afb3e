"""A logbook written down hour by hour, for tests of driving: `Page()` and one line an entry."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from domain.driving import Driving, driving
from domain.entries import Entry, Fill, Hitch, Odometer
from domain.log import Log, Logged
from domain.quantities import Quantity

START = datetime(2026, 7, 4, 13, 0, tzinfo=UTC)


def mi(value: float) -> Quantity:
    return Quantity(value, "mi")


def gal(value: float) -> Quantity:
    return Quantity(value, "gal")


def usd(value: float) -> Quantity:
    return Quantity(value, "USD")


class Page:
    """Entries at so many hours after START, keyed in the order in which they were written."""

    def __init__(self) -> None:
        self.entries: list[Logged[Entry]] = []

    def add(self, hours: float, *entries: Entry) -> Logged[Entry]:
        """Entries of one message; gives the last."""
        for entry in entries:
            at = START + timedelta(hours=hours)
            key = len(self.entries) + 1
            self.entries.append(Logged(entry=entry, at=at, by="Ana", key=key))
        return self.entries[-1]

    def fill(
        self, hours: float, odometer: float | None, gallons: float, **said: object
    ) -> Logged[Fill]:
        """A fill, with the odometer where there is one."""
        shown = None if odometer is None else mi(odometer)
        entry = Fill(odometer=shown, volume=gal(gallons), **said)  # type: ignore[arg-type]
        self.add(hours, entry)
        logged = self.entries[-1]
        return Logged(entry=entry, at=logged.at, by=logged.by, key=logged.key)

    def reads(
        self, hours: float, odometer: float, event: str | None = None, place: str | None = None
    ) -> None:
        """An odometer reading."""
        self.add(hours, Odometer(odometer=mi(odometer), event=event, place=place))  # type: ignore[arg-type]

    def hitches(self, hours: float, trailer: str | None = None) -> None:
        self.add(hours, Hitch(action="hitched", trailer=trailer))

    def unhitches(self, hours: float, trailer: str | None = None, place: str | None = None) -> None:
        self.add(hours, Hitch(action="unhitched", trailer=trailer, place=place))

    @property
    def log(self) -> Log:
        return Log(self.entries)

    @property
    def driven(self) -> Driving:
        return driving(self.log)
