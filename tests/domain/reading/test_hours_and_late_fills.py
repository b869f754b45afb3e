"""What stands beside a fill and is no price, place or date of it; fills logged late, and sums."""

from __future__ import annotations

from datetime import date

import pytest

from domain.entries import Entry, Fill, Hitch, Odometer
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def gallons(value: float) -> Quantity:
    """So much fuel."""
    return Quantity(value, "gal")


def miles(value: float) -> Quantity:
    """A reading."""
    return Quantity(value, "mi")


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("filled up at 7, 24.2 gal", Fill(volume=gallons(24.2), full=True)),
        ("got fuel at 6, 20.1 gal", Fill(volume=gallons(20.1))),
        ("filled up 24.2 gal at 7", Fill(volume=gallons(24.2), full=True)),
        (
            "filled up at 6, 24.2 gal at 3.89",
            Fill(volume=gallons(24.2), full=True, unit_price=Quantity(3.89, "USD/gal")),
        ),
        (
            "diesel at 4, 24.2 gal",
            Fill(product="diesel", volume=gallons(24.2), unit_price=Quantity(4, "USD/gal")),
        ),
        ("24.2 gal at 4", Fill(volume=gallons(24.2), unit_price=Quantity(4, "USD/gal"))),
        (
            "Filled. 22.9. 48,366. $3.87.",
            Fill(
                volume=gallons(22.9),
                odometer=miles(48_366),
                full=True,
                unit_price=Quantity(3.87, "USD/gal"),
            ),
        ),
        ("24.2 gal and a wash 12 bucks", Fill(volume=gallons(24.2))),
        ("pump shut off early at 17.3 gal", Fill(volume=gallons(17.3))),
        ("was at 1/4, 26.1 gal", Fill(volume=gallons(26.1))),
        ("7/4 26.1 gal", Fill(volume=gallons(26.1), at=date(2026, 7, 4))),
    ],
)
def test_what_is_beside_a_volume(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((fill,))


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "forgot to log yesterday's fill: 24 gal at 47,950",
            Fill(volume=gallons(24), odometer=miles(47_950), at=date(2026, 7, 10)),
        ),
        (
            "friday: 24.1 gal 47,950",
            Fill(volume=gallons(24.1), odometer=miles(47_950), at=date(2026, 7, 10)),
        ),
        (
            "odo was 47,950 yesterday",
            Odometer(odometer=miles(47_950), at=date(2026, 7, 10)),
        ),
        (
            "missed the last fill: 24.1 gal now, 48,300",
            Fill(volume=gallons(24.1), odometer=miles(48_300), missed=True),
        ),
    ],
)
def test_what_was_read_on_an_earlier_day_may_be_less(
    text: str, entry: Entry, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        (
            "forgot to text when we filled up friday. this one is 22.1 gal",
            Fill(volume=gallons(22.1), missed=True),
        ),
        (
            "didnt log it when we topped off thursday. this one is 22.1 gal",
            Fill(volume=gallons(22.1), missed=True),
        ),
        (
            "never logged saturdays top off, this one is 19.8 gal",
            Fill(volume=gallons(19.8), missed=True),
        ),
        (
            "forgot to log that we filled up yesterday, 24 gal at 47,950",
            Fill(volume=gallons(24), odometer=miles(47_950), full=True, at=date(2026, 7, 10)),
        ),
    ],
)
def test_what_is_told_of_the_fill_that_was_missed_is_not_of_this_one(
    text: str, fill: Fill, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((fill,))


@pytest.mark.parametrize(
    "text", ["24.1 gal 47,950", "this morning 24.1 gal at 47,950", "yesterday 24.1 gal at 41,150"]
)
def test_a_reading_that_runs_backwards_today_is_asked_about(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Ask)
    assert verdict.about == "odometer"


@pytest.mark.parametrize(
    "text",
    [
        "4 stops, 96.2 gal total this week",
        "2 stops, 33.1 gal total",
        "96.2 gal total this week",
        "3 fills this trip, 71.4 gal in all",
        "mixed up 18.2 gal",
        "cows gave 18.2 gal",
        "we pulled 18.2 gal off the hives",
        "lost 3.1 gal to a leak",
        "the pool took 200 gal",
        "transfer tank got 20 gal",
        "40 gal into the slip tank $152",
        "mowed the back 40, took 3 hours and 4 gallons of gas",
        "mowing took 4 gal of gas today",
        "sprayed the field, 15 gal of diesel",
        "ran the generator all night, 3.2 gal gas",
    ],
)
def test_a_volume_that_nobody_pumped_at_once_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("24.2 gal total, trip 318", 24.2),
        ("gave her 18.2 gal", 18.2),
        ("pulled in, 24.2 gal", 24.2),
        ("transfer tank got 40 gal, truck 22.1", 22.1),
        ("put 40 in the transfer tank and 22.1 gal in the truck", 22.1),
        ("filled the slip tank 40 gal and the truck 22.1 gal", 22.1),
        ("40 gal in the aux and 22.1 in the truck", 62.1),
        ("first tank 22.1 gal, second tank 19.4 gal", 41.5),
        ("put 30 in the aux and 28.4 in the main", 58.4),
    ],
)
def test_one_fill_is_still_one(text: str, volume: float, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.volume == gallons(volume)


@pytest.mark.parametrize(
    "text", ["main tank 26.5 gal, aux 19 gal", "tanks are 26.2 gal and 19.7 gal"]
)
def test_sizes_of_tanks_are_no_fill(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert not any(isinstance(each, Fill) for each in verdict.entries)


@pytest.mark.parametrize("text", ["2.5 gal def every 900 miles", "5 gal per day"])
def test_how_fast_it_is_used_up_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_where_one_has_yet_to_get_is_no_place(reads: Reader) -> None:
    assert reads("added 5 gal to get to town 48,412", on_the_road()) == Facts(
        (Fill(volume=gallons(5), odometer=miles(48_412)),)
    )


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "fueled up 24.1 gal, hitched the camper, left at 48,402",
            (
                Fill(volume=gallons(24.1)),
                Hitch(action="hitched", trailer="camper"),
                Odometer(odometer=miles(48_402), event="depart"),
            ),
        ),
        ("got 11.2 towing on that tank, 25.3 gal", (Fill(volume=gallons(25.3)),)),
        ("odo's at 48,402 now not moving til monday", (Odometer(odometer=miles(48_402)),)),
        ("7-10 24.1 gal 48,302", (Fill(volume=gallons(24.1), odometer=miles(48_302)),)),
        (
            "windshield fluid 1 gal 4.99, diesel 24.1 gal 93.99",
            (Fill(product="diesel", volume=gallons(24.1), cost=Quantity(93.99, "USD")),),
        ),
    ],
)
def test_what_is_of_something_else(text: str, entries: tuple[Entry, ...], reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("fuel light came on at 48,488, put in 30.1 gal", None),
        ("low fuel light at 48,488, filled up 30.1 gal", None),
        ("def light came on at 48,402, added 2.5 gal", None),
        ("light came on at 48,488. put in 30.1 gal at 48,502", 48_502),
        ("def light on, put in 5 gal at 48,402", 48_402),
        ("low on fuel, 30.1 gal at 48,402", 48_402),
        ("plowed snow in Juniper, 22 gal diesel at 48,402", 48_402),
        ("mowed, then filled the truck 24.1 gal of diesel 48,402", 48_402),
    ],
)
def test_where_a_light_came_on_is_not_where_fuel_was_pumped(
    text: str, reading: float | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = [each for each in verdict.entries if not isinstance(each, Odometer)]
    assert isinstance(fill, Fill)
    assert fill.odometer == (None if reading is None else Quantity(reading, "mi"))
