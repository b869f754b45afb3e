"""Quantities as people state them, and their conversion.

This file decides which unit symbols Drawbar knows and how one becomes another. A
quantity keeps the value and the unit in which it was stated; nothing is converted
until it is computed with, and then once. It does not know what a quantity is of.

Conversion factors come from pint's registry, which follows NIST SP 811. A pint
operation costs about 60 µs, so each pair of symbols asks pint once per process.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import pint

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)

PINT_NAMES = {
    "lb": "pound",
    "kg": "kilogram",
    "t": "metric_ton",
    "ton": "short_ton",
    "mi": "mile",
    "km": "kilometer",
    "m": "meter",
    "cm": "centimeter",
    "mm": "millimeter",
    "ft": "foot",
    "in": "inch",
    "gal": "gallon",
    "gal_imp": "imperial_gallon",
    "L": "liter",
    "degF": "degree_Fahrenheit",
    "degC": "degree_Celsius",
    "psi": "psi",
    "kPa": "kilopascal",
    "bar": "bar",
    "mph": "mile / hour",
    "km/h": "kilometer / hour",
    "rpm": "revolutions_per_minute",
    "h": "hour",
    "min": "minute",
    "%": "percent",
    "kN": "kilonewton",
}
"""Each symbol of the `read` contract, and what pint calls it."""

VOLUMES = ("gal", "gal_imp", "L")
DISTANCES = ("mi", "km")
MASSES = ("lb", "kg", "t", "ton")


class UnknownUnit(ValueError):
    """A unit symbol that this file does not list."""


class MixedDimensions(ValueError):
    """Two quantities that measure different things."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure with its unit, as stated: `Quantity(5280, "lb")`.

    `unit` is a symbol of `PINT_NAMES`, an ISO 4217 currency code, or a quotient of two
    (`USD/gal`, `mi/gal`, `L/100km`). `low` is the lower end where a range was stated
    (190-205); `value` is then the upper.
    """

    value: float
    unit: str
    low: float | None = None

    def to(self, unit: str) -> Quantity:
        """The same amount in another unit; raises UnknownUnit or MixedDimensions."""
        if unit == self.unit:
            return self
        scale, offset = _conversion(self.unit, unit)
        low = None if self.low is None else self.low * scale + offset
        return Quantity(self.value * scale + offset, unit, low)

    def amount(self, unit: str) -> float:
        """The bare value in `unit`; raises UnknownUnit or MixedDimensions."""
        return self.value if unit == self.unit else converted(self.value, self.unit, unit)


def converted(value: float, source: str, target: str) -> float:
    """A value in one unit as one in another; raises UnknownUnit or MixedDimensions."""
    if source == target:
        return value
    scale, offset = _conversion(source, target)
    return value * scale + offset


@lru_cache(maxsize=1024)
def _conversion(source: str, target: str) -> tuple[float, float]:
    """Scale and offset that take a value in `source` to one in `target`."""
    try:
        # Both ends of a straight line fix it; temperatures have an offset.
        start = REGISTRY.Quantity(0.0, _pint_name(source)).to(_pint_name(target)).magnitude
        end = REGISTRY.Quantity(1.0, _pint_name(source)).to(_pint_name(target)).magnitude
    except pint.DimensionalityError as error:
        raise MixedDimensions(f"{source} and {target} measure different things") from error
    return float(end - start), float(start)


def _pint_name(symbol: str) -> str:
    if symbol in PINT_NAMES:
        return PINT_NAMES[symbol]
    raise UnknownUnit(f"{symbol!r} is not a unit that Drawbar knows")


def is_currency(symbol: str) -> bool:
    """Whether a symbol has the form of an ISO 4217 code."""
    return len(symbol) == 3 and symbol.isalpha() and symbol.isupper()


LITRES_PER_100_KM = "L/100km"


def economy(distance: Quantity, volume: Quantity, unit: str) -> Quantity:
    """Distance driven on a volume of fuel, as `mi/gal`, `mi/gal_imp`, `km/L` or `L/100km`.

    Raises ZeroDivisionError where the volume (for L/100km, the distance) is zero,
    UnknownUnit for another unit.
    """
    if unit == LITRES_PER_100_KM:
        return Quantity(100 * volume.amount("L") / distance.amount("km"), unit)
    over, _, under = unit.partition("/")
    if over not in DISTANCES or under not in VOLUMES:
        raise UnknownUnit(f"{unit!r} is not a unit of economy")
    return Quantity(distance.amount(over) / volume.amount(under), unit)


def economy_to(stated: Quantity, unit: str) -> Quantity:
    """An economy figure in another unit of economy (NIST SP 811 B.5: 24 mpg is 9.8 L/100 km)."""
    if stated.unit == unit:
        return stated
    if stated.unit == LITRES_PER_100_KM:
        return economy(Quantity(100.0, "km"), Quantity(stated.value, "L"), unit)
    over, _, under = stated.unit.partition("/")
    return economy(Quantity(stated.value, over), Quantity(1.0, under), unit)
