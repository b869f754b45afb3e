"""What no pump asks for fuel, in each currency: a figure above it is no price.

This file tells the bounds and nothing else; what is priced is decided where fills are read.
"""

from __future__ import annotations

from collections.abc import Mapping

PESOS: Mapping[str, float] = {
    "MXN": 60.0,
    "UYU": 200.0,
    "ARS": 6_000.0,
    "CLP": 3_500.0,
    "COP": 40_000.0,
}
"""Currencies whose sign is the dollar's too, and what no pump asks for a litre (a gallon, in
Colombia). Wide on purpose; from memory."""


SMALL_COINS: Mapping[str, float] = {
    "ZAR": 80.0,
    "NAD": 80.0,
    "BWP": 60.0,
    "SEK": 60.0,
    "NOK": 60.0,
    "DKK": 50.0,
    "PLN": 30.0,
    "CZK": 150.0,
    "TRY": 300.0,
    "INR": 400.0,
    "THB": 200.0,
    "PHP": 250.0,
    "HUF": 2_000.0,
    "JPY": 600.0,
    "KRW": 6_000.0,
    "BRL": 30.0,
    "PEN": 50.0,
    "GTQ": 100.0,
}
"""The same of other currencies whose unit buys less fuel than a dollar; from memory."""

DEAREST = 15.0
"""The same of dollars, pounds and euros, for a gallon."""


def dearest(currency: str) -> float:
    """What no pump asks for a unit of fuel."""
    return PESOS.get(currency) or SMALL_COINS.get(currency, DEAREST)
