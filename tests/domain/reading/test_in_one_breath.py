"""What is said in one breath: figures with points, money without gallons, who was in the truck."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "distance", "volume"),
    [
        ("trip meter two seventy one point four twenty two point six gallons", 271.4, 22.6),
        ("trip meter three oh six point one thirty point two gallons full", 306.1, 30.2),
    ],
)
def test_a_point_belongs_to_the_number_before_it(
    reads: Reader, text: str, distance: float, volume: float
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Fill)
    assert (entry.distance, entry.volume) == (Quantity(distance, "mi"), Quantity(volume, "gal"))


def test_a_price_has_three_decimals_and_then_comes_the_odometer(reads: Reader) -> None:
    read = reads(
        "twenty six point one gallons at three point eight four nine forty eight two eleven",
        on_the_road(),
    )
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Fill)
    assert entry.unit_price == Quantity(3.849, "USD/gal")
    assert entry.odometer == Quantity(48_211, "mi")


@pytest.mark.parametrize(
    "text",
    [
        "put 65 bucks in, odo 48,211",
        "65 bucks worth, stopped short of full, odo 48,211",
        "put $65 in the truck, 48,211",
    ],
)
def test_money_and_a_reading_are_a_fill(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Fill)
    assert entry.cost == Quantity(65, "USD")
    assert entry.odometer == Quantity(48_211, "mi")


@pytest.mark.parametrize(
    "text", ["put $40 in the collection plate, odo 48,211", "paid 20 bucks for parking, odo 48,211"]
)
def test_money_for_something_else_is_none(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Odometer)


def test_those_in_the_truck_are_aboard_and_nobody_elses(reads: Reader) -> None:
    read = reads("4 guys in the truck 5,210 steer 6,990 drive", on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert entry.aboard == 4


@pytest.mark.parametrize(
    "text",
    ["those new trucks tow 37,000 lb", "2 guys in the truck behind us weighed 5,210"],
)
def test_other_trucks_are_not_ours(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_a_number_behind_named_axles_is_no_number_of_an_axle(reads: Reader) -> None:
    read = reads(
        "four one oh oh on the steer four one oh oh on the drive axle one two eight oh oh on the"
        " trailer axles two one oh oh oh on the gross",
        on_the_road(),
    )
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    loads = {"steer": 4_100, "drive": 4_100, "trailer": 12_800, "gross": 21_000}
    assert entry.loads == {at: Quantity(load, "lb") for at, load in loads.items()}


@pytest.mark.parametrize(
    "text", ["It took 33 of the 36 gallons she holds", "took 33 of 36 gal, 48,211"]
)
def test_of_so_much_that_there_could_be_a_part_was_bought(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Fill)
    assert entry.volume == Quantity(33, "gal")


@pytest.mark.parametrize("text", ["the generator took 5 gallons", "the mower took 2 gallons"])
def test_what_another_engine_took_is_no_fill(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
