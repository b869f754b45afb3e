"""What was paid, each currency by itself.

This file decides what a fill cost and adds money up. Currencies are never converted: a
rate belongs to a day and a bank, and the log knows neither.
"""

from __future__ import annotations

from collections.abc import Iterable

from domain.entries import Fill
from domain.quantities import Quantity, UnknownUnit

Money = tuple[Quantity, ...]
"""An amount in each currency, the largest number first."""


def fill_cost(fill: Fill) -> Quantity | None:
    """What a fill cost: the total as stated, else the unit price times the volume."""
    if fill.cost is not None:
        return fill.cost
    if fill.unit_price is None or fill.volume is None:
        return None
    currency, volume = _price_units(fill.unit_price)
    return Quantity(fill.unit_price.value * fill.volume.amount(volume), currency)


def fill_volume(fill: Fill) -> Quantity | None:
    """How much went in: the volume as stated, else what the total buys at the unit price."""
    if fill.volume is not None:
        return fill.volume
    if fill.unit_price is None or fill.cost is None or fill.unit_price.value == 0:
        return None
    currency, volume = _price_units(fill.unit_price)
    if currency != fill.cost.unit:
        return None
    return Quantity(fill.cost.value / fill.unit_price.value, volume)


def unit_price(fill: Fill, volume: str) -> Quantity | None:
    """The price of one `volume` (`gal`, `L`, ...) as stated or as the total works out."""
    cost, bought = fill_cost(fill), fill_volume(fill)
    if cost is None or bought is None or bought.value == 0:
        return None
    return Quantity(cost.value / bought.amount(volume), f"{cost.unit}/{volume}")


def total(amounts: Iterable[Quantity | None]) -> Money:
    """Amounts added up within each currency; what is not known is left out."""
    sums: dict[str, float] = {}
    for amount in amounts:
        if amount is not None:
            sums[amount.unit] = sums.get(amount.unit, 0.0) + amount.value
    return tuple(
        Quantity(value, currency) for currency, value in sorted(sums.items(), key=lambda s: -s[1])
    )


def _price_units(price: Quantity) -> tuple[str, str]:
    """`USD/gal` as its currency and its volume; raises UnknownUnit."""
    currency, _, volume = price.unit.partition("/")
    if not volume:
        raise UnknownUnit(f"{price.unit!r} is not a price per volume")
    return currency, volume
