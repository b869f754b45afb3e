"""What the dash shows beside a fill, and a full tank that was pumped."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Entry, Fill, Odometer
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road


def gallons(value: float, miles: float | None = 48_322, **more: Any) -> Fill:
    odometer = None if miles is None else Quantity(miles, "mi")
    return Fill(volume=Quantity(value, "gal"), odometer=odometer, **more)


@pytest.mark.parametrize(
    "text",
    [
        "11.8 mpg on the dash, 21.4 gal, 48,322",
        "21.4 gal, 48,322, 11.8 mpg on the dash",
        "on the dash 11.8 mpg, 21.4 gal at 48,322",
        "21.4 gal, 11.8 on the dash, 48,322",
        "11.8 on the computer, 21.4 gal, 48,322",
        "48,322 on the dash, 21.4 gal, 11.8 mpg on the dash",
        "according to the dash 11.8 mpg, 21.4 gal, 48,322",
        "12.4 mpg by hand, 11.8 mpg on the dash, 21.4 gal, 48,322",
    ],
)
def test_the_dash_shows_what_is_burned(text: str, reads: Reader) -> None:
    burned = Quantity(11.8, "mi/gal")
    assert reads(text, on_the_road()) == Facts((gallons(21.4, dash_economy=burned),))


@pytest.mark.parametrize(
    "text",
    [
        "15.7 L/100 on the dash, 62.3 litres, 118 444",
        "62.3 L, 15.7 per hundred km on the computer, 118 444",
        "15.7 to the hundred by the dash, 62.3 L at 118 444",
        "on the display 15.7 l per 100, 62.3 litres, odo 118 444",
    ],
)
def test_the_dash_shows_litres_to_the_hundred(text: str, reads: Reader) -> None:
    metric = chat(
        units="metric", currency="CAD", odometer=Quantity(118_020, "km"), tank=Quantity(98, "L")
    )
    stated = Fill(
        volume=Quantity(62.3, "L"),
        odometer=Quantity(118_444, "km"),
        dash_economy=Quantity(15.7, "L/100km"),
    )
    assert reads(text, metric) == Facts((stated,))


def test_the_dash_shows_miles(reads: Reader) -> None:
    assert reads("21.4 gal, 48,322 on the dash", on_the_road()) == Facts((gallons(21.4),))
    assert reads("48,322 on the dash", on_the_road()) == Facts(
        (Odometer(odometer=Quantity(48_322, "mi")),)
    )


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("full tank of diesel, 21.4 gal, 48,322", gallons(21.4, product="diesel", full=True)),
        (
            "got a full tank of gas at Elk Fork, 21.4 gallons",
            gallons(21.4, None, product="gasoline", full=True, place="Elk Fork"),
        ),
        ("48,322, full of diesel, 21.4 gal", gallons(21.4, product="diesel", full=True)),
        ("bought a full tank of fuel, 21.4 gal, 48,322", gallons(21.4, full=True)),
        ("half a tank of diesel, 14.2 gal, 48,322", gallons(14.2, product="diesel")),
        ("21.4 gallons, full of gas, 48,322", gallons(21.4, product="gasoline", full=True)),
        ("21.4 gal, both tanks full, 48,322", gallons(21.4, full=True)),
    ],
)
def test_a_full_tank_of_something_was_pumped(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


def test_on_the_scale_a_full_tank_is_how_the_rig_stood(reads: Reader) -> None:
    verdict = reads("weighed with a full tank of diesel, 19,420 gross", on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert getattr(entry, "fuel_level", None) == 1


@pytest.mark.parametrize(
    "text",
    [
        "12 on the dash",
        "two on the dash, lol",
        "11.8 mpg on the dash",
        "a full tank of gas costs 90 bucks",
        "full tank of diesel is about 36 gal",
        "full tank of gas and half a pack of smokes",
        "full of gas after those beans",
        "nothing like a full tank of gas",
        "left my glasses on the dash",
        "two per hundred on the test",
        "15 per hundred head",
    ],
)
def test_dashes_and_tanks_of_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
