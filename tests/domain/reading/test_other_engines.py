"""Fuel and fluids that go into something else than the truck's tank."""

from __future__ import annotations

import pytest

from domain.entries import Fill
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "filled the mower, 1.1 gal",
        "topped off the generator: 2.1 gal",
        "gas for the mower, 2.5 gallons",
        "mixed gas for the chainsaw, 2.5 gallons",
        "quad 3.1 gal",
        "washer fluid 2 gal 6.98",
        "2 gal of brake fluid, 31.50",
        "antifreeze 1 gal 18.99",
        "filled the boat, 20 gallons",
        "filled the boat's tank, 20 gallons, ouch. hers not ours",
        "boat took 20.6 gallons",
        "boat tank 21 gal",
        "the boat's tank holds 21 gal",
        "put 12 gal in the reefer",
        "put 12 gal in the generator",
        "put 12 gal in the zamboni",
        "reefer took 12 gal",
        "reefer fuel 12 gal",
    ],
)
def test_what_something_else_burns_or_holds_is_no_fill(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
    assert reads(text, on_the_road(trailers=("boat trailer",))) == Silent()


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("hauling the tractor, 31.2 gal, 48,300", 31.2),
        ("filled up with the quad on, 31.2 gal", 31.2),
        ("loaded the mower, filled up 28.4 gal", 28.4),
        ("towed the boat, 20.6 gal", 20.6),
        ("boat's on, took 20.6 gal", 20.6),
        ("picked up the tractor, 30.4 gal diesel", 30.4),
        ("def fluid 2.5 gal 14.99", 2.5),
        ("put 24.2 gal in the old girl", 24.2),
        ("put 24.2 gal in the beast", 24.2),
        ("put 24.2 gal in the morning", 24.2),
        ("put 12 gal in the reefer and 24.2 in the truck", 24.2),
    ],
)
def test_what_rides_along_burns_nothing(reads: Reader, text: str, volume: float) -> None:
    verdict = reads(text, on_the_road(trailers=("boat trailer",)))
    assert isinstance(verdict, Facts)
    (fill,) = [each for each in verdict.entries if isinstance(each, Fill)]
    assert fill.volume == Quantity(volume, "gal")
