"""Weighings told amid a story: whose figures they are, and what else cost money."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts
from tests.domain.reading.chats import Reader, on_the_road


def _weighing(text: str, reads: Reader) -> Weighing:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    return weighing


def _loads(text: str, reads: Reader) -> dict[str, float]:
    return {at: load.value for at, load in _weighing(text, reads).loads.items()}


@pytest.mark.parametrize(
    "text",
    [
        "Only got the truck axles on the platform: 5,580 steer and 9,340 drive",
        "truck axles: 5,580 steer, 9,340 drive",
        "the truck's axles on the scale: 5,580 steer, 9,340 drive",
        "truck axles on the platform: 5,580 front and 9,340 rear",
        "axles: 5,580 steer, 9,340 drive",
    ],
)
def test_axles_over_their_loads_name_none_of_them(text: str, reads: Reader) -> None:
    assert _loads(text, reads) == {"steer": 5580, "drive": 9340}


@pytest.mark.parametrize("against", ["against", "vs", "and", "versus", ","])
def test_one_side_stands_against_the_other(against: str, reads: Reader) -> None:
    loads = _loads(f"trailer 5,220 left {against} 5,480 right", reads)
    assert loads == {"trailer_left": 5220, "trailer_right": 5480}
    assert _weighing(f"drive 3,220 left {against} 3,480 right", reads).place is None


@pytest.mark.parametrize(
    "who", ["and he wrote gross", "the guy wrote gross", "the lady put down gross"]
)
def test_a_gross_that_somebody_writes_down_is_of_our_axles(who: str, reads: Reader) -> None:
    axles = "steer 5,210, drive 6,840, trailer 9,330"
    read = reads(f"{axles}, {who} 23,180 on the slip", on_the_road())
    assert isinstance(read, Ask)
    assert read.why == "does_not_sum"
    assert _loads(f"{axles}, {who} 21,380 on the slip", reads)["gross"] == 21380


def test_a_gross_of_his_own_is_his(reads: Reader) -> None:
    text = "steer 5,210, drive 6,840, trailer 9,330, his gross was 24,000"
    assert "gross" not in _loads(text, reads)


@pytest.mark.parametrize(
    ("told", "fee"),
    [
        ("got pie, 14 dollars", None),
        ("Ray bought a hat, 14 dollars", None),
        ("14 dollars", Quantity(14, "USD")),
        ("over at the mill, 14 dollars", Quantity(14, "USD")),
        ("ticket was 14 dollars", Quantity(14, "USD")),
    ],
)
def test_what_a_thing_cost_is_no_fee(told: str, fee: Quantity | None, reads: Reader) -> None:
    weighing = _weighing(f"5,460 steer 8,120 drive 12,040 trailer, {told}", reads)
    assert weighing.cost == fee
    assert weighing.place in (None, "mill")
