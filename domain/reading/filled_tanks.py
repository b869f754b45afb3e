"""Fuel that went into several tanks at once: one fill, of what went into each.

This file decides what the tanks of a fill took together, and what that cost where each tank has
a price of its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import VOLUME_UNIT
from domain.quantities import Quantity
from domain.reading.figures import MONEY, PRICE, VOLUME, Figure
from domain.reading.fill_entries import price_of
from domain.reading.fill_roles import COST_ROLE, PRICE_ROLE, VOLUME_ROLE, price_band
from domain.reading.scene import Scene
from domain.reading.tank_sizes import further_tanks


def add_tanks(scene: Scene, roles: dict[str, Figure], own: Sequence[Figure]) -> None:
    """'filled both tanks, 19 gal front and 18 rear': one fill, of what went into each."""
    volume = roles[VOLUME_ROLE]
    tanks = [volume]
    low, high = price_band(scene.context, volume.unit)
    for other in further_tanks(scene, volume):
        pumped = other.token.decimals < PUMPS_PRICE and not low <= other.value <= high
        volumes = other.dimension == VOLUME or pumped
        alike = other.unit in (None, volume.unit) and volume.value <= MOST_ALIKE * other.value
        alike = alike and other.value <= MOST_ALIKE * volume.value
        if other.claimed is None and other.role is None and alike and volumes:
            tanks.append(other)
            scene.claim(other, "what went into another tank")
    if len(tanks) > 1:
        tanks.sort(key=lambda tank: tank.start)
        _add_prices(scene, roles, tanks, own)
        volume.value = round(sum(tank.value for tank in tanks), 3)
        volume.foreign = None  # 'main' is a tank of its own, and no thing that is counted


def _add_prices(
    scene: Scene, roles: dict[str, Figure], tanks: Sequence[Figure], own: Sequence[Figure]
) -> None:
    """'front 19 gal at 3.89, rear 12 gal at 3.79': no one price, but what both cost together."""
    unit = tanks[0].unit or VOLUME_UNIT[scene.context.units]
    low, high = price_band(scene.context, unit)
    ends = [*(tank.start for tank in tanks[1:]), len(scene.tokens)]
    prices: list[Figure] = []
    paid, currency = 0.0, scene.context.currency
    for tank, end in zip(tanks, ends, strict=True):
        between = [each for each in own if tank.end <= each.start < end and each is not tank]
        said = between[0] if between else None
        price = price_of(scene.context, said, Quantity(1, unit)) if said else None
        priced = said is not None and said.dimension in (None, MONEY, PRICE)
        if said is None or price is None or not (priced and said.token.decimals >= CENTS):
            return
        if not low <= price.value <= high:
            return
        prices.append(said)
        paid, currency = paid + tank.value * price.value, price.unit.partition("/")[0]
    roles.pop(PRICE_ROLE, None)
    if COST_ROLE not in roles:
        total = prices[0]
        total.value, total.unit, total.dimension = round(paid, 2), currency, MONEY
        roles[COST_ROLE] = total
    for price_said in prices:
        if price_said is not roles[COST_ROLE]:
            scene.claim(price_said, "the price of one tank's fuel")


CENTS = 2
"""Decimals of a price, at least."""


PUMPS_PRICE = 3
"""Decimals of a price at a pump."""

MOST_ALIKE = 20
"""What goes into one tank is never so many times what goes into the other; odometers are."""
