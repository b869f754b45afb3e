"""How figures, names and times are written in an answer.

This file decides the look of a quantity, an amount of money, a date and a list of names,
in every answer and on every network. What it writes of a quantity reads back to the same
quantity. It does not know what a figure is of, nor which figures an answer shows.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.answers.language import as_written, date_text, half_of_day, marked, money_leads, say
from domain.context import Units
from domain.log import Preferences
from domain.quantities import Quantity, is_currency

CURRENCY_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£"}
"""Signs that mean one currency; the others are written as their ISO 4217 code."""

UNIT_WORDS = {
    "gal_imp": marked("imp gal"),
    "degF": "°F",
    "degC": "°C",
    "mi/gal": marked("mpg"),
    "mi/gal_imp": marked("mpg imp"),
    "L/100km": "L/100 km",
    "%": "%",
    "ft": marked("ft"),
    "in": marked("in"),
    "ton": marked("ton"),
}
"""How a unit is written where that is not its symbol in the records, in one language or other."""

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
    value = number(quantity.value, places)
    if quantity.low is not None:
        value = f"{number(quantity.low, places)}-{value}"
    written = unit_word(quantity.unit)
    return f"{value}{written}" if written == "%" else f"{value} {written}"


def unit_word(unit: str) -> str:
    """A unit as people write it: `lb`, `mpg`, `L/100 km`."""
    return say(UNIT_WORDS[unit]) if unit in UNIT_WORDS else unit


def rounded(quantity: Quantity) -> str:
    """A worked-out quantity, to the places that its unit is worth."""
    unit = quantity.unit
    return figure(quantity, None if is_currency(unit[:3]) else PLACES.get(unit, 1))


def number(value: float, places: int | None = None) -> str:
    """A bare number with thousands separators; as stated, or to so many decimal places."""
    return as_written(_digits(value, places))


def _digits(value: float, places: int | None) -> str:
    if places is not None:
        return f"{value + 0.0:,.{places}f}" if round(value, places) else f"{0.0:.{places}f}"
    if float(value).is_integer():
        return f"{int(value):,}"
    return f"{value:,.10f}".rstrip("0")


def _money(quantity: Quantity, currency: str, per: str, places: int | None) -> str:
    stated = _digits(quantity.value, None).partition(".")[2]
    if places is None:
        # An amount has cents; a price keeps the tenth of a cent that pumps show.
        places = min(max(len(stated), 2), 3 if per else 2)
    amount = as_written(f"{abs(quantity.value):,.{places}f}")
    sign = "-" if quantity.value < 0 else ""
    symbol = CURRENCY_SIGNS.get(currency)
    if symbol and money_leads():
        text = f"{sign}{symbol}{amount}"
    else:
        text = f"{sign}{amount} {symbol or currency}"
    return f"{text}/{unit_word(per)}" if per else text


def signed(quantity: Quantity) -> str:
    """A change, with its sign: `+320 lb`, `-1,040 lb`."""
    text = rounded(quantity)
    return text if text.startswith("-") else f"+{text}"


def listed(names: Sequence[str]) -> str:
    """Names in a row: `steer, drive and trailer axles`."""
    if len(names) < 2:
        return "".join(names)
    return say("{names} and {last}", names=", ".join(names[:-1]), last=names[-1])


def either(names: Sequence[str]) -> str:
    """Names of which one is meant: `1, 2 or 3`."""
    if len(names) < 2:
        return "".join(names)
    return say("{names} or {last}", names=", ".join(names[:-1]), last=names[-1])


def about(text: str) -> str:
    """A figure that is no more than a good guess: `about 35 gal`."""
    return say("about {figure}", figure=text)


def counted(count: int, one: str, many: str | None = None) -> str:
    """A number of things, in English: `1 fill`, `3 fills`."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def day(when: date) -> str:
    """A date without its year: `Sat 11 Jul`."""
    # The pattern is Unicode's (UTS 35): weekday, day and month in the language's own order.
    return date_text(when, say("EEE d MMM"))


def clock(when: datetime, units: Units = "us") -> str:
    """A time of day, in twelve hours where people count so: `2:22 pm`, `14:22`."""
    if units != "us":
        return f"{when:%H:%M}"
    return f"{when.hour % 12 or 12}:{when:%M} {half_of_day(when.hour)}"


def moment(at: datetime, preferences: Preferences) -> str:
    """A point in time as the logbook's people would say it: `Sat 11 Jul 2:22 pm`."""
    local = at.astimezone(ZoneInfo(preferences.time_zone))
    return f"{day(local)} {clock(local, preferences.units)}"


def sentence(text: str) -> str:
    """A phrase with its first letter raised, for a headline."""
    return text[:1].upper() + text[1:]
