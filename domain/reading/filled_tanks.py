"""Fuel that went into several tanks: one fill, or one for each that was paid for by itself.

This file decides which tanks were paid for apart, what the tanks of one fill took together, and
what that cost where each tank has a price of its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import VOLUME_UNIT
from domain.quantities import Quantity
from domain.reading.figures import MONEY, PRICE, VOLUME, Figure
from domain.reading.fill_entries import price_of
from domain.reading.fill_roles import COST_ROLE, PRICE_ROLE, VOLUME_ROLE, price_band
from domain.reading.scene import Scene
from domain.reading.tank_sizes import (
    further_tanks,
    is_one_of_tanks,
    other_sort_of_tank,
    pays_for,
)
from domain.reading.tokens import CENTS


def paid_apart(scene: Scene) -> list[int]:
    """'main tank 22.4 gal for $87.14, aux 40 gal for $155.60': where each further fill begins.

    None does where a tank has no total of its own.
    """
    if other_sort_of_tank(scene):
        return []
    ends: list[int] = []
    poured: Figure | None = None
    tanks: list[Figure] = []
    for figure in scene.live:
        if poured is not None and pays_for(scene, poured, figure):
            poured = None
            ends.append(figure.end)
        elif figure.dimension in (None, VOLUME) and is_one_of_tanks(scene, figure):
            if poured is not None:
                return []
            poured = figure
            tanks.append(figure)
    told = [tank.unit for tank in tanks if tank.dimension == VOLUME]
    if poured is not None or len(tanks) < FEWEST or not told:
        return []
    for tank in tanks:
        tank.unit, tank.dimension = tank.unit or told[0], VOLUME
    return ends[:-1]


FEWEST = 2
"""Tanks that are paid for apart."""


def add_tanks(scene: Scene, roles: dict[str, Figure], own: Sequence[Figure]) -> bool:
    """'filled both tanks, 19 gal front and 18 rear': one fill, of what went into each.

    Whether there were several. Only the fill's `own` figures are of its tanks.
    """
    volume = roles[VOLUME_ROLE]
    tanks = [volume]
    low, high = price_band(scene.context, volume.unit)
    for other in further_tanks(scene, volume):
        pumped = other.token.decimals < PUMPS_PRICE and not low <= other.value <= high
        volumes = other.dimension == VOLUME or pumped
        alike = other.unit in (None, volume.unit) and volume.value <= MOST_ALIKE * other.value
        alike = alike and other.value <= MOST_ALIKE * volume.value
        if other in own and other.claimed is None and other.role is None and alike and volumes:
            tanks.append(other)
            scene.claim(other, "what went into another tank")
    if len(tanks) < FEWEST:
        return False
    for role in [role for role, figure in roles.items() if figure in tanks[1:]]:
        del roles[role]  # 'put 30 in the aux and 28.4 in the main': 30 is no money
    tanks.sort(key=lambda tank: tank.start)
    _add_prices(scene, roles, tanks, own)
    volume.value = round(sum(tank.value for tank in tanks), 3)
    volume.foreign = None  # 'main' is a tank of its own, and no thing that is counted
    return True


def _add_prices(
    scene: Scene, roles: dict[str, Figure], tanks: Sequence[Figure], own: Sequence[Figure]
) -> None:
    """'front 19 gal at 3.89, rear 12 gal at 3.79': no one price, but what both cost together."""
    ends = [*(tank.start for tank in tanks[1:]), len(scene.tokens)]
    said: list[Figure] = []
    paid: list[Quantity] = []
    for tank, end in zip(tanks, ends, strict=True):
        behind = next((each for each in own if tank.end <= each.start < end), None)
        cost = _cost(scene, tank, behind) if behind is not None else None
        if behind is None or cost is None:
            return
        said.append(behind)
        paid.append(cost)
    roles.pop(PRICE_ROLE, None)
    if roles.get(COST_ROLE) in (None, *said):
        total = roles[COST_ROLE] = said[0]
        total.value = round(sum(each.value for each in paid), 2)
        total.unit, total.dimension = paid[0].unit, MONEY
    for each in said:
        if each is not roles[COST_ROLE]:
            scene.claim(each, "what one tank's fuel cost")


def _cost(scene: Scene, tank: Figure, said: Figure) -> Quantity | None:
    """What a tank's fuel cost, by the price or the total behind its volume; None where neither."""
    unit = tank.unit or VOLUME_UNIT[scene.context.units]
    low, high = price_band(scene.context, unit)
    price = price_of(scene.context, said, Quantity(1, unit))
    if said.dimension not in (None, MONEY, PRICE) or said.token.decimals < CENTS:
        return None
    currency = price.unit.partition("/")[0]
    if low <= price.value <= high:
        return Quantity(tank.value * price.value, currency)
    if said.dimension != PRICE and low <= said.value / tank.value <= high:
        return Quantity(said.value, currency)  # 'rear 14.1 gal $53.57'
    return None


PUMPS_PRICE = 3
"""Decimals of a price at a pump."""

MOST_ALIKE = 20
"""What goes into one tank is never so many times what goes into the other; odometers are."""
