"""Water is no fuel, however it is said that it was filled."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Fill
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "water's full, 30 gallons in the tank",
        "water's full, 30 gallons",
        "water is full, 30 gal",
        "water full 30 gal",
        "filled up with water, 30 gal",
        "topped the fresh water off, 30 gallons",
        "topped off the fresh water with 30 gallons",
        "fresh tank full 30 gal",
        "fresh tank is full, 30 gal",
        "water tank's full, 30 gallons",
    ],
)
def test_water_that_was_filled_is_cargo(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (cargo,) = verdict.entries
    assert isinstance(cargo, Cargo)
    assert (cargo.item, cargo.value) == ("water", Quantity(30, "gal"))
    assert cargo.position in (None, "tank", "water tank", "fresh tank")


@pytest.mark.parametrize(
    "text",
    [
        "filled up, water was free, 30 gal",
        "filled up 30 gal, water's full too",
        "grabbed water and filled up, 30.2 gal",
        "tank full, 30 gal",
    ],
)
def test_fuel_beside_water_is_a_fill(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert isinstance(verdict.entries[0], Fill)


def test_what_a_waste_tank_holds_is_neither(reads: Reader) -> None:
    assert reads("grey tank full 40 gal", on_the_road()) == Silent()
