"""Loads told in a row behind a name, at both ends, or side by side in brackets."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "trailer 9,240, 5,180, 6,900",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9240"],
        ),
        # A row in the order of rolling over a scale, with what it is of before it.
        ("rig 5,180 6,900 9,240", ["weighing drive=6900 rig=hitched steer=5180 trailer=9240"]),
        (
            "trailer 9,240, truck 5,180 6,900",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9240"],
        ),
        (
            "truck 5,180/6,900 trailer 9,240",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9240"],
        ),
        (
            "truck 8,900 trailer 9,240 18,140",
            ["weighing gross=18140 rig=hitched trailer=9240 truck=8900"],
        ),
        ("scaled 9,240 5,180 6,900", ["silent"]),
    ],
)
def test_the_name_before_a_row_is_of_it_or_of_the_first(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "front 5,180 (L 2,610 R 2,570)",
            ["weighing steer=5180 steer_left=2610 steer_right=2570"],
        ),
        (
            "rear 6,900 (L 3,490 / R 3,410)",
            ["weighing drive=6900 drive_left=3490 drive_right=3410"],
        ),
        ("gross 21,320, legal to 26,000", ["weighing gross=21320"]),
        ("we're legal for 26,000, grossed 21,320", ["weighing gross=21320"]),
        ("is 21,320 legal", ["question"]),
        (
            "dead chuffed, 1,450 kg on the front, 1,830 on the back",
            ["weighing drive=1830 steer=1450"],
        ),
        (
            "right pleased, 1,450 kg on the front and 1,830 kg on the rear",
            ["weighing drive=1830 steer=1450"],
        ),
        ("hay, 1,450 kg on the front", ["cargo item=hay position=front value=1450"]),
    ],
)
def test_what_bears_on_an_end_or_a_side_was_weighed(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "flatdeck loaded with hives 9,140 on the axles, tongue 1,020",
            ["weighing tongue=1020 trailer=flatdeck"],
        ),
        ("loaded 1,680 lb of hives on the axles", ["cargo item=hives value=1680"]),
        (
            "threw the quad on, 690 lb, right over the axles",
            ["cargo item=quad position=over axles value=690"],
        ),
        ("hay on the deck straw 300 lb", ["silent"]),
        ("hay on the deck, straw 300 lb", ["silent"]),
        ("generator on the deck, 128 lb", ["cargo item=generator position=deck value=128"]),
        ("bikes on the tongue rack, 90 lb", ["cargo item=bikes position=tongue value=90"]),
    ],
)
def test_where_one_thing_lies_is_not_of_another(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated
