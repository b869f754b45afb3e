"""How distance, fuel and economy are written, with as many digits as they are worth.

This file decides the look of a worked-out driving figure in a logbook's own units: no
digit is quoted that the figure's uncertainty does not leave standing. It does not know
which figures an answer shows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from math import isinf
from zoneinfo import ZoneInfo

from bot.answers.answer import Row
from bot.answers.language import as_written, date_text, say, say_count
from bot.answers.terms import term
from bot.answers.words import (
    CURRENCY_SIGNS,
    about,
    day,
    figure,
    listed,
    number,
    sentence,
    unit_word,
)
from domain.context import (
    DISTANCE_UNIT,
    ECONOMY_UNIT,
    MASS_UNIT,
    SHORT_LENGTH_UNIT,
    VOLUME_UNIT,
)
from domain.fuel import NINETY, Rate, Tank
from domain.log import Preferences
from domain.modes import SOLO, UNNAMED, UNTOLD
from domain.money import Money
from domain.quantities import Quantity, economy, economy_to
from domain.uncertainty import worth


def distance(km: float, preferences: Preferences) -> str:
    """A distance in whole miles or kilometres: `412 mi`."""
    return figure(Quantity(km, "km").to(DISTANCE_UNIT[preferences.units]), 0)


def short_length(metres: float, preferences: Preferences) -> str:
    """A length on the rig, in feet or metres, to the tenth: `4.2 ft`."""
    unit = SHORT_LENGTH_UNIT[preferences.units]
    return figure(Quantity(round(Quantity(metres, "m").amount(unit), 1), unit))


def volume(litres: float, preferences: Preferences) -> str:
    """A volume of fuel to the tenth: `31.4 gal`."""
    return figure(Quantity(litres, "L").to(VOLUME_UNIT[preferences.units]), 1)


def economy_unit(preferences: Preferences) -> str:
    """The unit in which a logbook tells its economy, as people write it."""
    return unit_word(ECONOMY_UNIT[preferences.units])


def economy_value(rate: Rate, preferences: Preferences) -> str:
    """An economy with its 90 % interval, without the unit: `11.5 ± 0.7`, `about 11 ± 2`.

    A tenth is the finest digit; an interval wider than one unit leaves whole units.
    """
    unit = ECONOMY_UNIT[preferences.units]
    middle = _economy(rate.rate, unit)
    ends = [_economy(1 / end, unit) for end in (rate.low, rate.high) if not isinf(end)]
    half = max(abs(end - middle) for end in ends)
    if half >= 0.95:
        return about(f"{number(middle, 0)} ± {number(max(half, 1.0), 0)}")
    return f"{number(middle, 1)} ± {number(max(half, 0.1), 1)}"


def economy_figure(rate: Rate, preferences: Preferences) -> str:
    """An economy with its 90 % interval: `11.5 ± 0.7 mpg`."""
    return f"{economy_value(rate, preferences)} {economy_unit(preferences)}"


def dash_figure(stated: Quantity, preferences: Preferences) -> str:
    """What the dash shows, in the logbook's unit."""
    return figure(economy_to(stated, ECONOMY_UNIT[preferences.units]), 1)


def dash_reads(stated: Quantity, rate: Rate) -> str:
    """How the dash compares with the pump: `8% above the pump`, `agrees with the pump`.

    Within the interval of the pump's own figure, the two agree.
    """
    shown = economy_to(stated, "km/L").value
    if rate.low <= shown <= rate.high:
        return say("agrees with the pump")
    return beside_the_pump(shown * rate.rate - 1)


def beside_the_pump(share: float) -> str:
    """How far the dash is above or below the pump, by a share of the pump's figure."""
    percent = number(abs(share) * 100, 0)
    if share > 0:
        return say("{percent}% above the pump", percent=percent)
    return say("{percent}% below the pump", percent=percent)


def money(amounts: Money) -> str:
    """Amounts of money, each currency by itself: `$122.43 and €40.00`."""
    return listed([figure(amount, 2) for amount in amounts])


def per_distance(cost: Quantity, km: float, preferences: Preferences) -> str:
    """Money for distance, to the cent: `$0.30/mi`."""
    unit = DISTANCE_UNIT[preferences.units]
    each = cost.value / Quantity(km, "km").amount(unit)
    return figure(Quantity(each, f"{cost.unit}/{unit}"), 2)


LITTLE_MONEY = 10
"""A price below so many of any money is told to the thousandth."""


def price(stated: Quantity) -> str:
    """A unit price as pumps show it, to the tenth of a cent: `$3.899/gal`."""
    signed = stated.unit.partition("/")[0] in CURRENCY_SIGNS
    return figure(stated, 3 if signed or abs(stated.value) < LITTLE_MONEY else 2)


def the_trailer(name: str) -> str:
    """A trailer within a sentence: `the flatdeck`, and `Matilda` by a name of its own."""
    return name if name[:1].isupper() else say("the {trailer}", trailer=name)


def mode_name(mode: str) -> str:
    """A mode in a row's label: `Flatdeck`, `Solo`, `All driving`."""
    return sentence(mode_word(mode))


def mode_word(mode: str) -> str:
    """A mode by itself: a trailer's name, or how it goes without one."""
    return term(mode) if mode in (SOLO, UNNAMED, UNTOLD) else mode


def mode_phrase(mode: str) -> str:
    """A mode within a sentence: `towing the flatdeck`, `towing Wren`, `solo`; empty if unsaid."""
    if mode == UNTOLD:
        return ""
    if mode == SOLO:
        return say("solo")
    if mode == UNNAMED:
        return say("towing the trailer")
    return say("towing {trailer}", trailer=the_trailer(mode))


def tanks(count: int) -> str:
    """How many tanks: `1 tank`, `6 tanks`."""
    return say_count("{count} tank", "{count} tanks", count)


def days(count: int) -> str:
    """How many days: `1 day`, `12 days`."""
    return say_count("{count} day", "{count} days", count)


def interval(days_between: float) -> str:
    """How often something is due: `12 months` where that is what was said, else in days."""
    months = round(days_between * 12 / DAYS_A_YEAR)
    if months > 1 and abs(days_between - months * DAYS_A_YEAR / 12) < 0.5:
        return say_count("{count} month", "{count} months", months)
    return days(round(days_between))


DAYS_A_YEAR = 365.25


def fills(count: int) -> str:
    """How many fills: `1 fill`, `3 fills`."""
    return say_count("{count} fill", "{count} fills", count)


def shares(split: Mapping[str, float], preferences: Preferences) -> str:
    """Distance by mode in a row: `flatdeck 288 mi, solo 121 mi`."""
    return ", ".join(f"{mode_word(mode)} {distance(km, preferences)}" for mode, km in split.items())


def _economy(rate: float, unit: str) -> float:
    return economy(Quantity(1.0, "km"), Quantity(rate, "L"), unit).value


def carbon(kilograms: float, preferences: Preferences) -> str:
    """A mass of carbon dioxide, to three figures: `702 kg`, `1,550 lb`."""
    mass = Quantity(kilograms, "kg").to(MASS_UNIT[preferences.units])
    digits = 3 - len(f"{mass.value:.0f}")
    return figure(Quantity(round(mass.value, min(digits, 0)), mass.unit), 0)


def elapsed(start: datetime, end: datetime) -> str:
    """A length of time to five minutes, or to the day: `6 h 10 min`, `3 days`."""
    minutes = 5 * round((end - start).total_seconds() / 300)
    if minutes >= 36 * 60:
        return days(round(minutes / 1440))
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{max(rest, 5)} min"
    return f"{hours} h {rest} min" if rest and hours < 10 else f"{hours} h"


def dates(first: date, last: date, today: date) -> str:
    """Days in a row: `Sat 4 to Sun 5 Jul`, `1 Jun to 5 Jul`; with years where not this year."""
    if first == last:
        return day(first) if first.year == today.year else f"{day(first)} {first.year}"
    # Patterns are Unicode's (UTS 35): weekday and day; day and month; day, month and year.
    if first.year != last.year:
        whole = say("d MMM y")
        return _from_to(date_text(first, whole), date_text(last, whole))
    if (last - first).days < 7 and first.month == last.month:
        text = _from_to(date_text(first, say("EEE d")), day(last))
    else:
        text = _from_to(date_text(first, say("d MMM")), date_text(last, say("d MMM")))
    return text if last.year == today.year else f"{text} {last.year}"


def _from_to(first: str, last: str) -> str:
    return say("{first} to {last}", first=first, last=last)


def cost_rows(closed: Sequence[Tank], preferences: Preferences) -> list[Row]:
    """Money for distance, over the tanks that were priced throughout, a row a currency."""
    label = say("A mile") if DISTANCE_UNIT[preferences.units] == "mi" else say("A km")
    by_currency: dict[str, tuple[float, float]] = {}
    for tank in closed:
        if tank.cost and len(tank.cost) == 1:
            spent, km = by_currency.get(tank.cost[0].unit, (0.0, 0.0))
            by_currency[tank.cost[0].unit] = (spent + tank.cost[0].value, km + tank.km)
    return [
        Row(label, per_distance(Quantity(spent, currency), km, preferences))
        for currency, (spent, km) in by_currency.items()
    ]


def about_distance(km: float, spread_km: float, preferences: Preferences) -> str:
    """A distance to the step that its uncertainty leaves standing: `410 mi`."""
    return _about(km, spread_km, "km", DISTANCE_UNIT[preferences.units])


def fuel_burnt(litres: float, sd: float, preferences: Preferences) -> str:
    """Fuel for a stretch of road, as far as it is known: `about 35 gal`."""
    return about(about_volume(litres, NINETY * sd, preferences))


def about_volume(litres: float, spread_litres: float, preferences: Preferences) -> str:
    """A volume to the step that its uncertainty leaves standing: `35 gal`."""
    return _about(litres, spread_litres, "L", VOLUME_UNIT[preferences.units])


def per_thousand(rate: float, preferences: Preferences) -> str:
    """Litres a kilometre as volume for a thousand miles or kilometres: `2.1 gal/1,000 mi`."""
    unit = DISTANCE_UNIT[preferences.units]
    litres = rate * Quantity(1000.0, unit).amount("km")
    return f"{volume(litres, preferences)}/{as_written('1,000')} {unit}"


def _about(value: float, spread: float, unit: str, written: str) -> str:
    whole = Quantity(spread, unit).amount(written)
    return figure(Quantity(worth(Quantity(value, unit).amount(written), whole), written), 0)


def local(at: datetime, preferences: Preferences) -> datetime:
    """A moment on the logbook's own clock."""
    return at.astimezone(ZoneInfo(preferences.time_zone))
