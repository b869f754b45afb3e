"""Quantities as people state them, and their conversion.

This file decides which unit symbols Drawbar knows and how one becomes another. A
quantity keeps the value and the unit in which it was stated; nothing is converted
until it is computed with, and then once. It does not know what a quantity is of.

Conversions are pint's, by its own definitions of the units that Drawbar knows, which follow NIST
SP 811. A pint operation costs about 60 µs, so each pair of symbols asks pint once per process;
and pint is loaded when it is first asked, as half of what people text needs none of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

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

DEFINITIONS = (
    "kilo- = 1e3 = k-",
    "deci- = 1e-1 = d-",
    "centi- = 1e-2 = c-",
    "milli- = 1e-3 = m-",
    "meter = [length] = m",
    "second = [time] = s",
    "gram = [mass] = g",
    "kelvin = [temperature]; offset: 0 = K",
    "radian = [] = rad",
    "turn = 2 * 3.1415926535897932384626433832795028841971693993751 * radian = _ = revolution",
    "percent = 0.01",
    "minute = 60 * second",
    "hour = 60 * minute",
    "revolutions_per_minute = revolution / minute",
    "yard = 0.9144 * meter",
    "foot = yard / 3",
    "inch = yard / 36",
    "mile = 1760 * yard",
    "liter = decimeter ** 3",
    "gallon = 231 * inch ** 3",
    "imperial_gallon = 4.54609 * liter",
    "metric_ton = 1e3 * kilogram",
    "grain = 64.79891 * milligram",
    "pound = 7e3 * grain",
    "short_ton = 2e3 * pound",
    "degree_Celsius = kelvin; offset: 273.15",
    "degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9",
    "newton = kilogram * meter / second ** 2",
    "pascal = newton / meter ** 2",
    "bar = 1e5 * pascal",
    "psi = 9.80665 * meter / second ** 2 * pound / inch ** 2",
)
"""Those units in pint's own definitions; of its thousand, which take half a second to read, these
and no others. A test holds each conversion to that of pint's whole registry."""

POUND_KG, MILE_KM, FOOT_M, GALLON_L = 0.45359237, 1.609344, 0.3048, 3.785411784
"""Exact by definition (NIST HB 44, appendix C): for bounds, which are made before pint is asked."""

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
    import pint

    given, wanted = _pint_name(source), _pint_name(target)
    try:
        # Both ends of a straight line fix it; temperatures have an offset.
        start = _registry().Quantity(0.0, given).to(wanted).magnitude
        end = _registry().Quantity(1.0, given).to(wanted).magnitude
    except pint.DimensionalityError as error:
        raise MixedDimensions(f"{source} and {target} measure different things") from error
    return float(end - start), float(start)


@cache
def _registry() -> pint.UnitRegistry[float]:
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None, cache_folder=None)
    registry.load_definitions(DEFINITIONS)
    return registry


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
