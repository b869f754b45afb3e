"""Fields of a list that are answered with yes or no, and goods that were not bought."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Entry, Fill, Hitch, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road


def gallons(value: float, miles: float | None = None, **more: Any) -> Fill:
    odometer = None if miles is None else Quantity(miles, "mi")
    return Fill(volume=Quantity(value, "gal"), odometer=odometer, **more)


def weighed(**more: Any) -> Weighing:
    loads = {"steer": 5_120.0, "drive": 6_880.0, "trailer": 8_940.0}
    return Weighing(
        rig="hitched", loads={at: Quantity(load, "lb") for at, load in loads.items()}, **more
    )


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("Gallons: 21.4. Full: no. Odo: 48,322", False),
        ("Gallons: 21.4. Full: yes. Odo: 48,322", True),
        ("odo = 48,322, gal = 21.4, full = n", False),
        ("Full? nope. 21.4 gal. 48,322", False),
        ("full tank: no, 21.4 gal, 48,322", False),
        ("Filled up - no, 21.4 gal, 48,322", False),
        ("Topped off: y\nGallons: 21.4\nMiles: 48,322", True),
        ("partial: no, 21.4 gal, 48,322", True),
        ("48,322 / 21.4 gal / full no", False),
        ("Full: not quite. 21.4 gal. 48,322", False),
        ("full: almost, 21.4 gal, 48,322", False),
    ],
)
def test_a_field_for_full_is_answered(text: str, full: bool, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((gallons(21.4, 48_322, full=full),))


@pytest.mark.parametrize(
    ("text", "bars"),
    [
        ("Bars: on. Steer: 5,120. Drive: 6,880. Trailer: 8,940", "on"),
        ("steer 5,120, drive 6,880, trailer 8,940, bars: no", "off"),
        ("WDH: off\nSteer 5,120\nDrive 6,880\nTrailer 8,940", "off"),
        ("Bars on: no, steer 5,120, drive 6,880, trailer 8,940", "off"),
        ("Bars: not hooked. Steer 5,120, drive 6,880, trailer 8,940", "off"),
        ("WD bars - off - steer 5,120 - drive 6,880 - trailer 8,940", "off"),
        ("spring bars = yes, steer 5,120, drive 6,880, trailer 8,940", "on"),
    ],
)
def test_a_field_for_the_bars_is_answered(text: str, bars: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((weighed(bars=bars),))


def test_a_field_for_the_hitch_and_one_for_a_missed_fill(reads: Reader) -> None:
    at = Odometer(odometer=Quantity(48_322, "mi"))
    assert reads("Hitched: no. Odo: 48,322", on_the_road()) == Facts(
        (Hitch(action="unhitched"), at)
    )
    assert reads("Missed fill: yes. 21.4 gal. 48,322", on_the_road()) == Facts(
        (gallons(21.4, 48_322, missed=True),)
    )
    assert reads("Missed fill: no. 21.4 gal. 48,322", on_the_road()) == Facts(
        (gallons(21.4, 48_322),)
    )


def test_a_field_for_the_trailer(reads: Reader) -> None:
    alone = Weighing(
        rig="solo", loads={"steer": Quantity(5_060, "lb"), "drive": Quantity(4_120, "lb")}
    )
    assert reads("Trailer: none. Steer: 5,060. Drive: 4,120.", on_the_road()) == Facts((alone,))


def test_a_line_for_full_is_of_the_fuel(reads: Reader) -> None:
    text = "Topped off: yes\nDEF: 2.6 gal\nDiesel: 21.4 gal\nOdo: 48,322"
    stated = (gallons(2.6, product="def"), gallons(21.4, 48_322, product="diesel", full=True))
    assert reads(text, on_the_road()) == Facts(stated)


def test_a_unit_that_heads_its_own_figure_makes_no_price(reads: Reader) -> None:
    assert reads("Odo: 48,322 / Gal: 21.4 / Full: yes", on_the_road()) == Facts(
        (gallons(21.4, 48_322, full=True),)
    )


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "21.4 gal of diesel, not the def this time, 48,322",
            gallons(21.4, 48_322, product="diesel"),
        ),
        ("no def, 21.4 gal diesel, 48,322", gallons(21.4, 48_322, product="diesel")),
        ("48,322, 21.4 gal diesel, skipped the def", gallons(21.4, 48_322, product="diesel")),
        ("21.4 gal diesel. DEF: none. 48,322", gallons(21.4, 48_322, product="diesel")),
        ("2.6 gal of def, not diesel, 48,322", gallons(2.6, 48_322, product="def")),
        ("21.4 gal regular instead of premium, 48,322", gallons(21.4, 48_322, product="gasoline")),
        ("21.4 gal diesel, def can wait, 48,322", gallons(21.4, 48_322, product="diesel")),
        ("didn't need any def, 21.4 gal of diesel", gallons(21.4, product="diesel")),
        ("diesel yes, def no: 21.4 gal, 48,322", gallons(21.4, 48_322, product="diesel")),
    ],
)
def test_what_was_not_bought_is_no_fill(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    "text",
    [
        "Full: no",
        "is the tank full? no, keep going",
        "are the bars on? no",
        "Full? yes thanks, great pie",
        "Bars: none open before 11",
        "no def in town",
        "not the def again lol",
        "we need def not diesel",
        "dont buy gas there",
        "not gas, 5 gal of milk",
        "missed: yes, very much",
        "hungry? no, full",
        "Trailer: no idea, ask Ned",
        "trailer: none of your business",
        "full: not my problem",
    ],
)
def test_answers_between_people_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_an_equals_sign_behind_a_price_heads_no_field(reads: Reader) -> None:
    verdict = reads("52,4 L diesel at 1,659 €/L = 86,93 €", chat(units="metric", currency="EUR"))
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.unit_price, fill.cost) == (Quantity(1.659, "EUR/L"), Quantity(86.93, "EUR"))
