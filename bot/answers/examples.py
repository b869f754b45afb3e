"""What a chat is shown as something to text, in its own units and money.

This file decides every example that an answer gives. Its words stand here once, with named places
for figures; the figures are of one invented rig, as its American labels have them, and are
rounded elsewhere to what somebody would text. It does not know which answer gives which example.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from string import Formatter

from bot.answers.language import as_written, marked, say
from bot.answers.words import unit_word
from domain.context import DISTANCE_UNIT, MASS_UNIT, SHORT_LENGTH_UNIT, VOLUME_UNIT, Units
from domain.log import Preferences
from domain.quantities import Quantity
from domain.wanted import Wanted


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as an American label has it, and to what step it is texted in other units.

    `with_unit` where the unit is texted too; a bare figure is in the chat's own.
    """

    stated: Quantity
    step: float
    with_unit: bool = False

    def in_units(self, units: Units) -> Quantity:
        """The figure as it is texted in a chat with these units."""
        unit = UNITS[self.stated.unit][units]
        if units == "us" or unit == self.stated.unit:
            return self.stated
        steps = round(self.stated.amount(unit) / self.step)
        return Quantity(round(steps * self.step, 2), unit)


UNITS: Mapping[str, Mapping[str, str]] = {
    "lb": MASS_UNIT,
    "gal": VOLUME_UNIT,
    "mi": DISTANCE_UNIT,
    "ft": SHORT_LENGTH_UNIT,
    "in": SHORT_LENGTH_UNIT,
}
"""In what a figure is texted, by the unit in which it is stated here."""


def _rated(pounds: float) -> Figure:
    return Figure(Quantity(pounds, "lb"), 50)


def _scaled(pounds: float) -> Figure:
    return Figure(Quantity(pounds, "lb"), 10)


def _said(value: float, unit: str, step: float) -> Figure:
    return Figure(Quantity(value, unit), step, with_unit=True)


FIGURES: Mapping[str, Figure] = {
    "truck_gvwr": _rated(11500),
    "gcwr": _rated(27000),
    "front_axle": _rated(5600),
    "rear_axle": _rated(7000),
    "payload": _rated(3180),
    "tow": _rated(16000),
    "trailer_gvwr": _rated(12000),
    "trailer_axle": _rated(6000),
    "hitch": _rated(14000),
    "tongue": _rated(1400),
    "steer": _scaled(5280),
    "drive": _scaled(6940),
    "trailer": _scaled(9840),
    "steer_alone": _scaled(4980),
    "drive_alone": _scaled(3860),
    "steer_put_right": _scaled(5230),
    "wheel": _scaled(2490),
    "other_wheel": _scaled(2640),
    "tank": _said(34, "gal", 5),
    "def_tank": _said(5, "gal", 1),
    "fuel": _said(31.4, "gal", 0.1),
    "load": _said(600, "lb", 10),
    "skid_steer": _said(4000, "lb", 100),
    "generator": _said(210, "lb", 5),
    "tractor": _said(9200, "lb", 50),
    "ahead": _said(4, "ft", 0.1),
    "coupler_to_axle": _said(16, "ft", 0.1),
    "wheelbase": _said(160, "in", 0.01),
    "overhang": _said(52, "in", 0.01),
    "drive_ahead": _said(420, "mi", 10),
    "interval": _said(5000, "mi", 1000),
}
"""The figures, by the names of their places."""

SPELLED = {"mi": marked("miles")}
"""Units that are texted as words."""

PRICES: Mapping[str, Quantity] = {
    "USD": Quantity(3.899, "USD/gal"),
    "CAD": Quantity(1.659, "CAD/L"),
    "MXN": Quantity(25.49, "MXN/L"),
    "EUR": Quantity(1.599, "EUR/L"),
    "GBP": Quantity(1.459, "GBP/L"),
    "AUD": Quantity(1.899, "AUD/L"),
    "NZD": Quantity(1.999, "NZD/L"),
}
"""What a pump may show, in money of which people in these countries think; no source."""

TRUCK = marked("truck Juniper gvwr {truck_gvwr} front axle {front_axle} rear axle {rear_axle}")
TRAILER = marked("trailer flatdeck gvwr {trailer_gvwr} axles 2x{trailer_axle}")
A_TRUCK = marked("truck NAME gvwr {truck_gvwr} front axle {front_axle} rear axle {rear_axle}")
A_TRAILER = marked("trailer NAME gvwr {trailer_gvwr} axles 2x{trailer_axle}")
WEIGHING = marked("steer {steer} drive {drive} trailer {trailer}")
WHEELS = marked("steer left {wheel} right {other_wheel}")
TRUCK_ALONE = marked("solo: steer {steer_alone} drive {drive_alone}")
PRICED_FILL = marked("48211, {fuel} at {price}, full")
FILL = marked("odo 48211, {fuel}, full")
TRIP = marked("hitched flatdeck, leaving, 48011")
HOME = marked("home 48655")
PUT_RIGHT = marked("make that {steer_put_right}")
PUT_RIGHT_BY_NAME = marked("drive should be {drive}")
TAKEN_BACK = marked("undo")
PICTURE = marked("show me the rig")
MEANING = marked("what is GVWR")
TANK = marked("tank {tank} diesel")
DEF_TANK = marked("def tank {def_tank}")
PLAN = marked("plan {drive_ahead} with the camper")
REMINDER = marked("{upkeep} every {interval}")
TIES = marked("are 4 chains 3/8 grade 70 enough for {tractor}?")
CARGO = marked("generator {generator} in the bed")
WHAT_IF = marked("what if {load} in the bed")
WHAT_IF_AHEAD = marked("what if {load} {ahead} ahead of the trailer axle")
WHERE_FOR = marked("where must {skid_steer} go for 12 % tongue")
COUPLER_TO_AXLE = marked("trailer coupler to axle {coupler_to_axle}")
WHEELBASE = marked("truck wheelbase {wheelbase}")
LEVER = marked("truck wheelbase {wheelbase}, overhang {overhang}")
TYRE_DATE = marked("trailer tyres dot 2319")
DUAL_TYRES = marked("truck tyres load index 118 dual")
RATED: Mapping[Wanted, str] = {
    ("truck", "gvwr"): marked("truck gvwr {truck_gvwr}"),
    ("truck", "gcwr"): marked("gcwr {gcwr}"),
    ("truck", "gawr_front"): marked("front gawr {front_axle}"),
    ("truck", "gawr_rear"): marked("rear gawr {rear_axle}"),
    ("truck", "payload"): marked("payload {payload}"),
    ("truck", "tow"): marked("tow rating {tow}"),
    ("trailer", "gvwr"): marked("trailer gvwr {trailer_gvwr}"),
    ("trailer", "gawr"): marked("trailer axles 2x{trailer_axle}"),
    ("hitch", "tow"): marked("hitch rating {hitch}"),
    ("hitch", "tongue"): marked("hitch tongue rating {tongue}"),
    ("trailer tyres", "load"): marked("trailer tyres load index 121"),
    ("truck tyres", "load"): marked("truck tyres load index 121"),
}
"""How each rating that is wanted is texted."""


def texted(example: str, preferences: Preferences, **named: str) -> str:
    """An example as a chat would text it; `named` are its places that are no figures."""
    places = {
        name: _written(FIGURES[name], preferences.units)
        for name in _places(example)
        if name in FIGURES
    }
    return say(example, **places, **named) if places or named else say(example)


def fill_texted(preferences: Preferences) -> str:
    """A fill as a chat would text it: with its price, where prices in its money are known."""
    price = PRICES.get(preferences.currency)
    if price is None:
        return texted(FILL, preferences)
    per = price.unit.partition("/")[2]
    each = price.value * Quantity(1.0, VOLUME_UNIT[preferences.units]).amount(per)
    return texted(PRICED_FILL, preferences, price=_digits(round(each, 3 if each < 10 else 2)))


@cache
def _places(example: str) -> tuple[str, ...]:
    return tuple(name for _, name, _, _ in Formatter().parse(example) if name)


def _written(figure: Figure, units: Units) -> str:
    quantity = figure.in_units(units)
    if not figure.with_unit:
        return _digits(quantity.value)
    word = say(SPELLED[quantity.unit]) if quantity.unit in SPELLED else unit_word(quantity.unit)
    return f"{_digits(quantity.value)} {word}"


def _digits(value: float) -> str:
    """A number as thumbs type it: without separators of thousands."""
    return as_written(f"{value:.10g}")
