"""A pump that cuts off, receipts of two products, and fuel that is for somebody else."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Odometer
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.fills_told import Told, told


@pytest.mark.parametrize(
    ("text", "fills"),
    [
        (
            "pump cut off at $100, 25.6 gal, then another 8.2 gal on the other card",
            [(None, 25.6, 100), (None, 8.2, None)],
        ),
        (
            "$100 limit, 25.6 gal, swiped again and got 8.2 gal for $31.98",
            [(None, 25.6, 100), (None, 8.2, 31.98)],
        ),
        (
            "25.6 gal on one card, 8.2 gal on the other card",
            [(None, 25.6, None), (None, 8.2, None)],
        ),
        (
            "first card 25.6 gal 100.00 second card 8.2 gal 31.98",
            [(None, 25.6, 100), (None, 8.2, 31.98)],
        ),
        ("first card 25.6 gal, second card 8.2 gal", [(None, 25.6, None), (None, 8.2, None)]),
        ("one card 25.6 gal other card 8.2 gal", [(None, 25.6, None), (None, 8.2, None)]),
        ("25.6 on one card, 8.2 gal on the other", [(None, 25.6, None), (None, 8.2, None)]),
        ("one transaction 25.6 gal the other 8.2 gal", [(None, 25.6, None), (None, 8.2, None)]),
        (
            "25.6 gal then the pump cut off at 100 bucks so did another 8.2 on the second card",
            [(None, 25.6, 100), (None, 8.2, None)],
        ),
        ("first tank 25.6 gal, second tank 8.2 gal", [(None, 33.8, None)]),
        ("24.6 gal then another 1.2 gal", [(None, 25.8, None)]),
        ("put 25.6 gal on the card", [(None, 25.6, None)]),
        ("aux tank 20 gal main 18 gal at 3.89", [(None, 38, None)]),
        ("18.4 @ 48300, 21.2 @ 48510", [(None, 18.4, None), (None, 21.2, None)]),
        ("Odette filled Juniper, 31.2 gal 118.25", [(None, 31.2, 118.25)]),
        ("put in 28 diesel and 2.5 def", [("diesel", 28, None), ("def", 2.5, None)]),
        (
            "ULSD 24.118G @ $4.019/G $96.93 DEF 2.500G @ 4.499 $11.25 GRAND TOTAL $108.18",
            [("diesel", 24.118, 96.93), ("def", 2.5, 11.25)],
        ),
    ],
)
def test_each_sale_is_a_fill(text: str, fills: list[Told], reads: Reader) -> None:
    assert told(text, reads) == fills


@pytest.mark.parametrize("line", ["THANK YOU", "*** REPRINT ***", "CUSTOMER COPY"])
def test_what_a_receipt_says_to_everybody_is_no_place(line: str, reads: Reader) -> None:
    text = f"DIESEL 24.118 gal 96.93\nDEF 2.500 gal 11.25\nGRAND TOTAL 108.18\n{line}"
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.place for each in verdict.entries if isinstance(each, Fill)] == [None, None]


@pytest.mark.parametrize(
    "text",
    [
        "dave put 24 gal in his truck at 3.79",
        "missus put 60 gal in hers",
        "put 18.2 gal in the rental",
        "Jonas's quad took 4 gal",
        "Odette filled up, 31.2 gal 118.25",
        "add 2 gal to that last fill",
        "gonna put 30 gal in when we get there",
        "fixing to put 20 gal in",
        "20 bucks of gas for the generator",
        "put $20 of gas in the mower",
        "bought 2 steers at 1,100 each",
        "got 4 new tires for the camper 680",
        "filled the propane at home, 85 gal at 2.19",
    ],
)
def test_what_is_bought_for_others_or_to_come_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "fills"),
    [
        ("put 24.6 gal in the truck", [(None, 24.6, None)]),
        ("put 24 gal in the truck for mom", [(None, 24, None)]),
        ("22.8 gal and a coffee, 89.13 total", [(None, 22.8, None)]),
        ("22.8 gal at 3.799, 86.61 total", [(None, 22.8, 86.61)]),
        ("gonna put 24.6 gal for that fill", [(None, 24.6, None)]),
        ("20 bucks of gas for the truck", [("gasoline", None, 20)]),
        ("propane 7.2 gal", [("propane", 7.2, None)]),
    ],
)
def test_what_went_into_the_truck_is_kept(text: str, fills: list[Told], reads: Reader) -> None:
    assert told(text, reads) == fills


def test_where_one_wants_to_get_and_who_filled_up_are_no_places(reads: Reader) -> None:
    for text in (
        "only put 10 gal in til i get to the cheap place",
        "Odette filled Juniper, 31.2 gal 118.25",
    ):
        verdict = reads(text, on_the_road())
        assert isinstance(verdict, Facts), text
        assert [each.place for each in verdict.entries if isinstance(each, Fill)] == [None]


@pytest.mark.parametrize(
    ("text", "missed"),
    [
        ("forgot to log it when we gassed up Thursday, but today it took 19.2 gallons", True),
        ("didn't log it when we fueled in Pell, today 19.2 gal", True),
        ("forgot to log it when we filled yesterday: 24.6 gal", None),
        ("forgot to text you when I filled up, 24.6 gal 48,402", None),
    ],
)
def test_a_fill_that_nobody_logged_is_missing_before_this_one(
    text: str, missed: bool | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.missed for each in verdict.entries if isinstance(each, Fill)] == [missed]


def test_no_hitch_is_rated_for_what_the_odometer_shows(reads: Reader) -> None:
    verdict = reads("camper on the hitch, 48,240", on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.odometer.value for each in verdict.entries if isinstance(each, Odometer)] == [
        48_240
    ]
    assert isinstance(reads("hitch on 48,240", on_the_road()), Silent)
