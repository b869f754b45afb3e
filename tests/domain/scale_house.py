"""A rig and its tickets written down for tests: `Ticket()` and one line an entry.

The rig is invented: the diesel pickup Juniper and the trailer flatdeck.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from domain.entries import Cargo, Entry, Fill, Hitch, Odometer, Rating, Weighing
from domain.log import Log, Logged
from domain.quantities import Quantity

START = datetime(2026, 7, 11, 14, 0, tzinfo=UTC)
POUND = 0.45359237


def lb(value: float) -> Quantity:
    return Quantity(value, "lb")


def pounds(kilograms: float) -> float:
    return kilograms / POUND


JUNIPER = {
    "gvwr": 11500,
    "gcwr": 27000,
    "gawr_front": 5600,
    "gawr_rear": 7000,
    "curb": 8000,
    "payload": 3500,
    "tow": 15000,
}


def truck_ratings(**ratings: float) -> list[Rating]:
    return [
        Rating(subject="truck", truck="Juniper", rating=name, value=lb(value))
        for name, value in ratings.items()
    ]


def juniper() -> list[Rating]:
    """Every rating of the truck and its hitch."""
    tank = Rating(
        subject="truck", truck="Juniper", rating="tank", value=Quantity(34, "gal"), note="diesel"
    )
    hitch = [
        Rating(subject="hitch", rating="tow", value=lb(14000)),
        Rating(subject="hitch", rating="tongue", value=lb(1400)),
        Rating(subject="ball", rating="tow", value=lb(20000)),
        Rating(subject="tyres", truck="Juniper", rating="load_index", value=121.0),
    ]
    return [*truck_ratings(**JUNIPER), tank, *hitch]


def flatdeck() -> list[Rating]:
    """Every rating of the trailer."""
    return [
        Rating(subject="trailer", trailer="flatdeck", rating="gvwr", value=lb(12000)),
        Rating(
            subject="trailer", trailer="flatdeck", rating="gawr", value=lb(6000), note="2 axles"
        ),
        Rating(subject="tyres", trailer="flatdeck", rating="load_index", value=121.0),
    ]


class Ticket:
    """Entries ten minutes apart, ratings first; keyed in the order in which they were written."""

    def __init__(self, *ratings: Rating) -> None:
        self._entries: list[Logged[Entry]] = []
        self._at = START
        for rating in ratings:
            self._add(rating)

    def _add(self, entry: Entry) -> None:
        self._entries.append(Logged(entry=entry, at=self._at, key=len(self._entries) + 1))

    def later(self, **time: float) -> Ticket:
        self._at += timedelta(**time)
        return self

    def add(self, *entries: Entry) -> Ticket:
        for entry in entries:
            self.later(minutes=10)._add(entry)
        return self

    def hitched(self, trailer: str | None = "flatdeck") -> Ticket:
        return self.add(Hitch(action="hitched", trailer=trailer))

    def weighs(
        self,
        rig: str | None = "hitched",
        *,
        bars: str | None = None,
        aboard: int | None = None,
        fuel_level: float | None = None,
        place: str | None = None,
        of: str | None = None,
        unit: str = "lb",
        **loads: float,
    ) -> Ticket:
        """One pass over the scale, of the trailer of that name."""
        return self.add(
            Weighing(
                rig=rig,  # type: ignore[arg-type]
                bars=bars,  # type: ignore[arg-type]
                aboard=aboard,
                fuel_level=fuel_level,
                place=place,
                trailer=of,
                loads={name: Quantity(value, unit) for name, value in loads.items()},
            )
        )

    def fills(self, gallons: float | None, product: str | None = "diesel") -> Ticket:
        volume = None if gallons is None else Quantity(gallons, "gal")
        return self.add(Fill(product=product, volume=volume))

    def reads(self, miles: float) -> Ticket:
        return self.add(Odometer(odometer=Quantity(miles, "mi")))

    def loads(self, item: str, pounds: float, position: str, feet: float | None = None) -> Ticket:
        distance = None if feet is None else Quantity(feet, "ft")
        return self.add(Cargo(item=item, value=lb(pounds), position=position, distance=distance))

    @property
    def log(self) -> Log:
        return Log(self._entries)
