"""The kinds of entry that a logbook holds.

This file decides what can be recorded, one frozen record a kind, with the fields of the
`read` contract. It does not know how an entry was read, where it is kept, or what is
worked out from it. A field that the message left open is None.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Literal

from domain.frozen import soon_made
from domain.quantities import Quantity

AXLES = ("steer", "drive", "trailer")
SINGLE_AXLES = ("trailer_1", "trailer_2", "trailer_3")
WHOLE = ("gross", "truck", "tongue")
SIDES = ("left", "right")
POSITIONS: tuple[str, ...] = (
    *AXLES,
    *SINGLE_AXLES,
    *WHOLE,
    *(f"{axle}_{side}" for axle in (*AXLES, *SINGLE_AXLES) for side in SIDES),
)
"""Where a load can have been read off: axles, single trailer axles, wheels, and sums."""

KNOWN_POSITIONS = frozenset(POSITIONS)

SUM_TOLERANCE = 0.004
"""Tickets are rounded to 20 lb a platform; the axles make the gross to within this share."""

WordsOf = tuple[tuple[str, str], ...]
"""Field name and the words of the message that gave it, for each figure."""

COUPLING = "coupling"
"""The name of the words that say that a trailer rests on a pin: 'fifth wheel', 'pin weight'."""


EVERY_ONE = "every one"
"""The name of the words that say that all parts of a kind were looked at: 'all bearings'."""


MENDED = "mended"
"""The name of the words that say that what was at fault was put right: 'lights fixed'."""


DAY_SAID = "day"
"""The name of the words that say on what day an entry was, in a correction of its time."""


class ImpossibleEntry(ValueError):
    """A record was built that no message can state; the fault is ours, not the texter's."""


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """What every kind has: when, where and with what, as far as the message says."""

    at: datetime | date | None = None
    place: str | None = None
    truck: str | None = None
    trailer: str | None = None
    note: str | None = None
    words: WordsOf = field(default=(), compare=False, repr=False)


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing(Entry):
    """One pass over a scale: loads (mass) by position, and how the rig stood."""

    loads: Mapping[str, Quantity]
    rig: Literal["hitched", "solo", "trailer"] | None = None
    bars: Literal["on", "off"] | None = None
    aboard: int | None = None
    fuel_level: float | None = None
    ticket: str | None = None
    cost: Quantity | None = None

    def __post_init__(self) -> None:
        if not self.loads:
            raise ImpossibleEntry("a weighing has at least one load")
        if not KNOWN_POSITIONS.issuperset(self.loads):
            unknown = [position for position in self.loads if position not in KNOWN_POSITIONS]
            raise ImpossibleEntry(f"no such position: {unknown[0]}")


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Fill(Entry):
    """Fuel or diesel exhaust fluid bought: volume, money, and the distance it is set against."""

    product: str | None = None
    volume: Quantity | None = None
    odometer: Quantity | None = None
    distance: Quantity | None = None
    unit_price: Quantity | None = None
    cost: Quantity | None = None
    full: bool | None = None
    missed: bool | None = None
    dash_economy: Quantity | None = None


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Odometer(Entry):
    """An odometer reading, and what happened there."""

    odometer: Quantity
    event: Literal["depart", "arrive", "turnaround"] | None = None


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Hitch(Entry):
    """A trailer put on or taken off."""

    action: Literal["hitched", "unhitched"]


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Observation(Entry):
    """A reading off a gauge: a temperature, a pressure, a speed."""

    subject: str
    value: Quantity
    position: str | None = None


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Rating(Entry):
    """A maker's limit, off a label, a plate or a manual. `value` is bare for a load index."""

    subject: str
    rating: str
    value: Quantity | float


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Cargo(Entry):
    """Something loaded, its weight, and where it stands."""

    item: str
    value: Quantity
    position: str | None = None
    distance: Quantity | None = None


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Check(Entry):
    """A point of the walk-round: done, or found at fault."""

    item: str
    state: Literal["done", "fault"]


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Correction(Entry):
    """A change to what was texted before: an amended field, or an undo.

    A new time is a text in the form of ISO 8601. `about`, which no record has, is a figure or a
    place that says which entry is meant: 'the 51,402 fill should be 24.6 gal'.
    """

    about: Quantity | float | str | None = field(default=None, compare=False, repr=False)
    action: Literal["amend", "undo"]
    field: str | None = None
    value: Quantity | float | str | bool | None = None
    was: Quantity | float | str | bool | None = None


@soon_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Entry):
    """Words worth keeping that hold no figure the reader knows."""


KINDS: Mapping[str, type[Entry]] = {
    "weighing": Weighing,
    "fill": Fill,
    "odometer": Odometer,
    "hitch": Hitch,
    "observation": Observation,
    "rating": Rating,
    "cargo": Cargo,
    "check": Check,
    "correction": Correction,
    "note": Note,
}
"""Every kind under its name in the `read` contract."""

KIND_NAMES: Mapping[type[Entry], str] = {kind: name for name, kind in KINDS.items()}
