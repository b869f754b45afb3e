"""Fuel that was paid for in another currency than the chat's own."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Fill
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def litres(value: float, paid: float, currency: str, **more: Any) -> Fill:
    return Fill(volume=Quantity(value, "L"), cost=Quantity(paid, currency), **more)


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("paid in pesos, 61.2 liters, MXN 1,468.80", litres(61.2, 1_468.8, "MXN")),
        ("61.2 liters, MXN 1,468.80", litres(61.2, 1_468.8, "MXN")),
        ("1468.80 MXN for 61.2 L", litres(61.2, 1_468.8, "MXN")),
        ("61.2 L, 1,468.80 pesos", litres(61.2, 1_468.8, "MXN")),
        ("61.2 L, $1,468.80, paid in pesos", litres(61.2, 1_468.8, "MXN")),
        ("paid in Canadian dollars, 61.2 L, 97.92", litres(61.2, 97.92, "CAD")),
        ("61.2 litres, PLN 391.68", litres(61.2, 391.68, "PLN")),
        ("61.2 L, $97.92 CAD", litres(61.2, 97.92, "CAD")),
        ("paid in cash, 61.2 L, 97.92", litres(61.2, 97.92, "USD")),
        ("SEK 1,101.60, 61.2 L diesel", litres(61.2, 1_101.6, "SEK", product="diesel")),
        (
            "61.2 L in Nogales, paid in pesos, 1,468.80",
            litres(61.2, 1_468.8, "MXN", place="Nogales"),
        ),
    ],
)
def test_another_currency_is_no_place(text: str, entry: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road(currency="USD")) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "currency"),
    [
        ("61.2 L, 97.92 dollars", "CAD"),
        ("61.2 L, 97.92 USD", "USD"),
        ("paid in US dollars, 61.2 L, 97.92", "USD"),
        ("61.2 L, $97.92", "CAD"),
    ],
)
def test_dollars_are_the_chats_own_and_a_code_is_not(
    text: str, currency: str, reads: Reader
) -> None:
    abroad = on_the_road(currency="CAD", units="metric")
    assert reads(text, abroad) == Facts((litres(61.2, 97.92, currency),))


@pytest.mark.parametrize(
    "text",
    [
        "paid in quarters lol",
        "got 200 pesos for the tacos",
        "dinner was MXN 480",
        "he only takes yen",
        "send me 50 euros",
        "we are in pesos country",
        "20 bucks in pesos is what",
        "paid in full",
        "cabin is CAD 140 a night",
        "in pounds or in dollars",
    ],
)
def test_money_of_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(currency="USD")), Silent)


@pytest.mark.parametrize(
    ("price", "unit"),
    [
        ("EUR/L 1.600", "EUR/L"),
        ("\u20ac/l 1.600", "EUR/L"),
        ("\u00a3/L 1.600", "GBP/L"),
        ("CAD/L 1.600", "CAD/L"),
        ("R/L 22.35", "ZAR/L"),
    ],
)
def test_a_price_has_the_currency_that_it_is_printed_under(
    price: str, unit: str, reads: Reader
) -> None:
    value = float(price.split(" ")[1])
    said = Fill(volume=Quantity(61.2, "L"), unit_price=Quantity(value, unit))
    assert reads(f"61.20 L\n{price}", on_the_road(currency=unit[:3])) == Facts((said,))


def test_a_price_before_its_currency_leaves_the_next_figure_alone(reads: Reader) -> None:
    said = Fill(volume=Quantity(61.2, "L"), unit_price=Quantity(1.6, "EUR/L"))
    assert reads("1.600 EUR/L 61.2", on_the_road(currency="EUR", units="metric")) == Facts((said,))
