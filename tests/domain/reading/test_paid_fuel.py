"""Fuel that is told by what it came to, and exhaust fluid by the jug."""

from __future__ import annotations

import pytest

from domain.entries import Fill
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
    ],
)
def test_what_fuel_came_to(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((fill,))


@pytest.mark.parametrize(
    "text",
    [
        "fuel bill 118.53",
        "gas 84.20",
        "Dad paid 118.53 for diesel",
        "diesel 118.53?",
        "need 118.53 for diesel",
        "diesel heater 118.53",
        "fuel $118.53, hotel $92.00",
        "diesel 4.19",
    ],
)
def test_money_for_something_else_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


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
