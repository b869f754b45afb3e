"""What three in a row, a unit over a row, or the two ends of a truck are told of."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "FRONT 5180 MIDDLE 6900 BACK 9240",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9240"],
        ),
        (
            "WEIGH NUMBER 4471\nFRONT 5180\nMIDDLE 6900\nBACK 9240\nTOTAL 21320\nFEE 13.50 CASH",
            [
                "weighing cost=13.5 drive=6900 gross=21320 rig=hitched steer=5180"
                " ticket=4471 trailer=9240"
            ],
        ),
        (
            "front 3,140 middle 3,180 rear 3,120",
            ["weighing trailer_1=3140 trailer_2=3180 trailer_3=3120"],
        ),
        (
            "trailer axles 9,240 rated 5,080 each",
            ["weighing trailer=9240", "rating rating=gawr subject=trailer value=5080"],
        ),
        ("trailer 9,240 on the axles, rated for 10,160", ["weighing trailer=9240"]),
        ("trailer axles 5,080 each", ["rating rating=gawr subject=trailer value=5080"]),
    ],
)
def test_axles_are_of_what_they_bear_out(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("MASS kg: A1 1,340 A2 1,620 A3 2,140 TOTAL 5,100", "kg"),
        ("kg: front 1,340 rear 1,620", "kg"),
        ("A1 1,340 A2 1,620 A3 2,140 TOTAL 5,100", "lb"),
    ],
)
def test_a_unit_over_a_row_is_of_all_of_it(reads: Reader, text: str, unit: str) -> None:
    (weighing,) = verdict_to_record(reads(text))["entries"]
    assert {load["unit"] for load in weighing["loads"].values()} == {unit}


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "set the steers at 60 and the rears at 75",
            [
                "observation position=front subject=tyre value=60",
                "observation position=rear subject=tyre value=75",
            ],
        ),
        (
            "running 60 in the steers and 75 in the drives",
            [
                "observation position=front subject=tyre value=60",
                "observation position=rear subject=tyre value=75",
            ],
        ),
        ("steers 5,180 drives 6,900", ["weighing drive=6900 steer=5180"]),
        ("IR gun: LF 112 LR 115 RF 110 RR 151", ["silent"]),
        ("the steers weigh 75 and drives 80", ["ask"]),
    ],
)
def test_what_no_axle_weighs_is_no_load(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "yellow sticker on the trailer says 2,360 for cargo",
            ["rating rating=payload subject=trailer value=2360"],
        ),
        (
            "sticker on the trailer says 9,995",
            ["rating rating=gvwr subject=trailer value=9995"],
        ),
        (
            "max trailer 15,000 conv 20,000 5th wheel",
            [
                "rating rating=tow subject=truck value=15000",
                "rating note=5th wheel rating=tow subject=truck value=20000",
            ],
        ),
    ],
)
def test_what_a_sticker_says_it_is_for(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated
