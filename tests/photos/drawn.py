"""What a drawn ticket is: a sheet, and the entries that a careful person would keep of it."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from PIL import Image

from domain.entries import Entry, Fill, Weighing
from domain.quantities import Quantity

ZONE = ZoneInfo("America/Boise")


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sheet, and what a careful person would keep of it."""

    sheet: Image.Image
    entries: tuple[Entry, ...]
    units: str = "us"
    currency: str = "USD"
    language: str = "en"


PLACES = (
    "CLOVER GRADE", "WILLOW BEND", "TWO ELDERS", "PINE HOLLOW", "STONY FORD", "HEATHER FLAT",
    "LARK MEADOW", "OLD ORCHARD",
)  # fmt: skip


def axles_of(chance: random.Random) -> tuple[int, int, int]:
    """The loads of a pickup and its trailer, as a platform rounds them."""
    return (
        chance.randrange(4600, 5600, 20),
        chance.randrange(4800, 7600, 20),
        chance.randrange(3800, 13800, 20),
    )


def moment_of(chance: random.Random) -> datetime:
    """When it was printed: a minute of the summer of 2026."""
    return datetime(
        2026, chance.randint(5, 9), chance.randint(1, 28), chance.randint(6, 20),
        chance.randint(0, 59), tzinfo=ZONE,
    )  # fmt: skip


def hitched(axles: tuple[int, int, int], unit: str, at: datetime) -> Weighing:
    """A pass of the whole rig."""
    names = ("steer", "drive", "trailer", "gross")
    loads = (*axles, sum(axles))
    return Weighing(
        rig="hitched", at=at,
        loads={name: Quantity(float(load), unit) for name, load in zip(names, loads, strict=True)},
    )  # fmt: skip


def bought(
    product: str, volume: float, price: float, at: datetime, money: str = "USD", unit: str = "gal",
    odometer: Quantity | None = None,
) -> Fill:  # fmt: skip
    """A fill whose total is what volume and price make."""
    return Fill(
        product=product, at=at, volume=Quantity(volume, unit), odometer=odometer,
        unit_price=Quantity(price, f"{money}/{unit}"),
        cost=Quantity(round(volume * price + 1e-9, 2), money),
    )  # fmt: skip


Layout = Callable[[random.Random], Drawn]
