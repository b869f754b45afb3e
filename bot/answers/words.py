"""How figures, names and times are written in an answer.

This file decides the look of a quantity, an amount of money, a date and a list of names,
in every answer and on every network. What it writes of a quantity reads back to the same
quantity. It does not know what a figure is of, nor which figures an answer shows.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from zoneinfo import ZoneInfo

from domain.context import Units
from domain.log import Preferences
from domain.quantities import Quantity, is_currency

CURRENCY_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£"}
"""Signs that mean one currency; the others are written as their ISO 4217 code."""

UNIT_WORDS = {
    "gal_imp": "imp gal",
    "degF": "°F",
    "degC": "°C",
    "mi/gal": "mpg",
    "mi/gal_imp": "mpg imp",
    "L/100km": "L/100 km",
    "%": "%",
}
"""How a unit is written where its symbol in the records is not what people write."""

PLACES = {
    "lb": 0,
    "kg": 0,
    "mi": 0,
    "km": 0,
    "psi": 0,
    "kPa": 0,
    "rpm": 0,
    "mph": 0,
    "km/h": 0,
    "degF": 0,
    "degC": 0,
    "t": 2,
    "ton": 2,
    "gal": 1,
    "gal_imp": 1,
    "L": 1,
    "mi/gal": 1,
    "mi/gal_imp": 1,
    "km/L": 1,
    "L/100km": 1,
    "%": 1,
}
"""Decimal places of a worked-out figure in each unit; a scale reads no finer than these."""


def figure(quantity: Quantity, places: int | None = None) -> str:
    """A quantity as people write it: `5,280 lb`, `31.4 gal`, `$3.899/gal`, `190-205 °F`.

    Without `places` every digit that was stated is kept; `rounded` is for what was worked out.
    """
    unit, _, per = quantity.unit.partition("/")
    if is_currency(unit):
        return _money(quantity, unit, per, places)
    written = UNIT_WORDS.get(quantity.unit, quantity.unit)
    value = number(quantity.value, places)
    if quantity.low is not None:
        value = f"{number(quantity.low, places)}-{value}"
    return f"{value}{written}" if written == "%" else f"{value} {written}"


def rounded(quantity: Quantity) -> str:
    """A worked-out quantity, to the places that its unit is worth."""
    unit = quantity.unit
    return figure(quantity, None if is_currency(unit[:3]) else PLACES.get(unit, 1))


def number(value: float, places: int | None = None) -> str:
    """A bare number with thousands separators; as stated, or to so many decimal places."""
    if places is not None:
        return f"{value + 0.0:,.{places}f}" if round(value, places) else f"{0.0:.{places}f}"
    if float(value).is_integer():
        return f"{int(value):,}"
    return f"{value:,.10f}".rstrip("0")


def _money(quantity: Quantity, currency: str, per: str, places: int | None) -> str:
    stated = number(quantity.value).partition(".")[2]
    if places is None:
        # An amount has cents; a price keeps the tenth of a cent that pumps show.
        places = min(max(len(stated), 2), 3 if per else 2)
    amount = f"{abs(quantity.value):,.{places}f}"
    sign = "-" if quantity.value < 0 else ""
    symbol = CURRENCY_SIGNS.get(currency)
    text = f"{sign}{symbol}{amount}" if symbol else f"{sign}{amount} {currency}"
    return f"{text}/{UNIT_WORDS.get(per, per)}" if per else text


def signed(quantity: Quantity) -> str:
    """A change, with its sign: `+320 lb`, `-1,040 lb`."""
    text = rounded(quantity)
    return text if text.startswith("-") else f"+{text}"


def listed(names: Sequence[str], last: str = "and") -> str:
    """Names in a row: `steer, drive and trailer axles`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"


def counted(count: int, one: str, many: str | None = None) -> str:
    """A number of things: `1 fill`, `3 fills`."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def day(when: date) -> str:
    """A date without its year: `Sat 11 Jul`."""
    return f"{when:%a} {when.day} {when:%b}"


def clock(when: datetime, units: Units = "us") -> str:
    """A time of day, in twelve hours where people count so: `2:22 pm`, `14:22`."""
    if units != "us":
        return f"{when:%H:%M}"
    return f"{when.hour % 12 or 12}:{when:%M} {'am' if when.hour < 12 else 'pm'}"


def moment(at: datetime, preferences: Preferences) -> str:
    """A point in time as the logbook's people would say it: `Sat 11 Jul 2:22 pm`."""
    local = at.astimezone(ZoneInfo(preferences.time_zone))
    return f"{day(local)} {clock(local, preferences.units)}"


def sentence(text: str) -> str:
    """A phrase with its first letter raised, for a headline."""
    return text[:1].upper() + text[1:]
