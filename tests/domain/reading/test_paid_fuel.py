"""Fuel that is told by what it came to, and exhaust fluid by the jug."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Odometer
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road

PAID = Quantity(118.53, "USD")


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("$118.53 diesel", Fill(product="diesel", cost=PAID)),
        ("diesel 118.53", Fill(product="diesel", cost=PAID)),
        ("spent 118.53 on diesel", Fill(product="diesel", cost=PAID)),
        ("diesel 118.53 at Dorset", Fill(product="diesel", cost=PAID, place="Dorset")),
        ("$118.53 for fuel", Fill(cost=PAID)),
        ("fuel 118.53", Fill(cost=PAID)),
        ("diesel 24.61", Fill(product="diesel", volume=Quantity(24.61, "gal"))),
        ("ice 4.99, diesel 118.53", Fill(product="diesel", cost=PAID)),
        ("diesel $118.53 and ice 4.99", Fill(product="diesel", cost=PAID)),
        ("tolls 14.50, camping 42, diesel 118.53", Fill(product="diesel", cost=PAID)),
        ("spent 118.53 on fuel and 14.50 in tolls", Fill(cost=PAID)),
        ("snacks 12.40 fuel 118.53", Fill(cost=PAID)),
        ("put 100 in", Fill(cost=Quantity(100, "USD"))),
        ("put 24.2 in", Fill(volume=Quantity(24.2, "gal"))),
        (
            "put 24.2 in, 48,102",
            Fill(volume=Quantity(24.2, "gal"), odometer=Quantity(48_102, "mi")),
        ),
        ("$50 in at 48,102", Fill(cost=Quantity(50, "USD"), odometer=Quantity(48_102, "mi"))),
        (
            "chucked 60 bucks in, 48,102",
            Fill(cost=Quantity(60, "USD"), odometer=Quantity(48_102, "mi")),
        ),
        (
            "dash says 12.4 mpg, pumped 23.9, trip 291",
            Fill(
                volume=Quantity(23.9, "gal"),
                distance=Quantity(291, "mi"),
                dash_economy=Quantity(12.4, "mi/gal"),
            ),
        ),
        (
            "diesel 28.2 gal $118.53 trip 231.8",
            Fill(
                product="diesel",
                volume=Quantity(28.2, "gal"),
                cost=PAID,
                distance=Quantity(231.8, "mi"),
            ),
        ),
    ],
)
def test_what_fuel_came_to(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((fill,))


@pytest.mark.parametrize(
    "text",
    [
        "fuel bill 118.53",
        "$50 in change",
        "$50 in the plate at 48,102",
        "put 60 in the meter",
        "put 2 in on the hitch",
        "pumped 23.9 on trip 3",
        "gas 84.20",
        "Dad paid 118.53 for diesel",
        "diesel 118.53?",
        "need 118.53 for diesel",
        "diesel heater 118.53",
        "diesel additive 18.99",
        "diesel conditioner 12.50",
        "fuel $118.53, hotel $92.00",
        "diesel 4.19",
        "bread 2.19 diesel 3.89",
        "gas 40, groceries 200, phone 60",
        "budget: fuel 400, food 300, camping 250",
    ],
)
def test_money_for_something_else_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("Milk 2 gal, Bread 2.19, Diesel 21.2 gal", {"volume": 21.2}),
        ("2 gal milk, 1 gal oj, 21.2 gal diesel", {"volume": 21.2}),
        ("milk 2 gal 7.98, diesel 21.2 gal 82.68", {"volume": 21.2, "cost": 82.68}),
        ("eggs 4.20, milk 1 gal 3.99, diesel 24.1 gal 93.99", {"volume": 24.1, "cost": 93.99}),
        ("dorset 3.89, diesel 24.1 gal", {"volume": 24.1, "unit_price": 3.89}),
        ("PUMP 11 DIESEL 21.2 GAL $82.68 THANK YOU", {"volume": 21.2, "cost": 82.68}),
        ("Diesel 21.2 gal\nTotal inc GST $82.68", {"volume": 21.2, "cost": 82.68}),
        ("Diesel 21.2 gal\nTOTAL INCL. VAT 82.68", {"volume": 21.2, "cost": 82.68}),
        (
            "Diesel 21.2 gal\nTotal ex GST $75.16\nTotal inc GST $82.68",
            {"volume": 21.2, "cost": 82.68},
        ),
        ("Diesel 21.2 gal\nTotal $82.68 inc GST $7.52", {"volume": 21.2, "cost": 82.68}),
        ("Diesel 21.2 gal\nincludes GST 7.52", {"volume": 21.2}),
    ],
)
def test_what_else_was_bought_is_left_out(text: str, fill: dict[str, float], reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (told,) = read.entries
    assert isinstance(told, Fill)
    assert told.product == "diesel"
    said = (told.volume, told.unit_price, told.cost)
    assert [each.value for each in said if each] == [
        fill[name] for name in ("volume", "unit_price", "cost") if name in fill
    ]


@pytest.mark.parametrize(
    ("text", "volume", "cost"),
    [
        ("def jug 2.5 gal 14.99", 2.5, 14.99),
        ("two jugs of def today 2.5 each", 5, None),
        ("3 jugs of def 2.5 each at 14.99", 7.5, None),
    ],
)
def test_a_jug_of_exhaust_fluid_is_poured(
    text: str, volume: float, cost: float | None, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (fill,) = read.entries
    assert isinstance(fill, Fill)
    assert (fill.product, fill.volume) == ("def", Quantity(volume, "gal"))
    assert (fill.cost and fill.cost.value, fill.unit_price) == (cost, None)


@pytest.mark.parametrize("text", ["2 jugs of cider 2.5 each", "gas can 5 gal", "diesel can 5 gal"])
def test_other_jugs_and_cans_are_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("two cans, 5 gal each, into the truck", 10),
        ("poured a 5 gal can in to get us to town", 5),
        ("poured both cans in, 10 gal", 10),
        ("put 5 gal in the can and 24.1 in the truck", 24.1),
        ("put in to and a half gallons of def", 2.5),
        ("added too and a half gallons def", 2.5),
        ("added one and a half gallons of def", 1.5),
    ],
)
def test_cans_and_halves_that_were_poured_in(text: str, volume: float, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (fill,) = read.entries
    assert isinstance(fill, Fill)
    assert fill.volume == Quantity(volume, "gal")


@pytest.mark.parametrize(
    "text",
    [
        "loaded two 5 gal cans into the truck",
        "two 5 gal cans in the bed of the truck",
        "poured 5 gallons of sealer from the can",
        "emptied a 5 gal jug of water",
        "a 5 gal can gets us to town",
        "went to and a half hours later came back",
    ],
)
def test_cans_that_nobody_poured_in_are_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize("odometer", ["51,260", "51,260 miles", "51,260 mi"])
def test_a_sum_its_price_and_a_reading_are_a_fill(odometer: str, reads: Reader) -> None:
    assert reads(f"$98.20 at 3.599 a gallon, {odometer}", on_the_road()) == Facts(
        (
            Fill(
                cost=Quantity(98.20, "USD"),
                unit_price=Quantity(3.599, "USD/gal"),
                odometer=Quantity(51_260, "mi"),
            ),
        )
    )


def test_a_sum_and_a_price_alone_are_talk(reads: Reader) -> None:
    assert reads("$98.20 at 3.599 a gallon", on_the_road()) == Silent()


@pytest.mark.parametrize("ware", ["diesel additive", "fuel treatment", "diesel mechanic"])
def test_what_is_called_by_its_fuel_is_none(ware: str, reads: Reader) -> None:
    verdict = reads(f"{ware} 18.99, odo 48,102", on_the_road())
    assert verdict == Facts((Odometer(odometer=Quantity(48_102, "mi")),))


def test_a_word_for_the_figure_is_no_ware(reads: Reader) -> None:
    fill = Fill(product="diesel", volume=Quantity(24.6, "gal"))
    assert reads("diesel gallns 24.6", on_the_road()) == Facts((fill,))
