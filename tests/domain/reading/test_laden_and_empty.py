"""One thing that was weighed laden and empty, and what lay between."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "with water full 21,740, with it empty 21,320",
            ["weighing gross=21740", "weighing gross=21320"],
        ),
        (
            "on the scale 21,720 loaded, 12,420 empty",
            ["weighing gross=21720", "weighing gross=12420"],
        ),
        (
            "empty we weighed 12,240 and loaded 21,480",
            ["weighing gross=12240", "weighing gross=21480"],
        ),
        (
            "weighed 21,320 gross, 21,100 after we dumped",
            ["weighing gross=21320", "weighing gross=21100"],
        ),
        (
            "tongue was 1,320 full fresh tank, 1,180 empty",
            ["weighing tongue=1320", "weighing tongue=1180"],
        ),
        (
            "camper tongue 860 loaded 720 empty",
            ["weighing tongue=860 trailer=camper", "weighing tongue=720 trailer=camper"],
        ),
        (
            "steer 5,180 loaded, 4,860 empty",
            ["weighing steer=5180", "weighing steer=4860"],
        ),
        (
            "towball weight came in at 245 with the van full, 210 empty",
            ["weighing tongue=245", "weighing tongue=210"],
        ),
        (
            "flatdeck by itself on the scale: empty 3,860, loaded 11,420",
            [
                "weighing gross=3860 rig=trailer trailer=flatdeck",
                "weighing gross=11420 rig=trailer trailer=flatdeck",
            ],
        ),
        (
            "unladen truck 8,240, laden 9,120",
            ["weighing gross=8240 rig=solo", "weighing gross=9120"],
        ),
        (
            "tongue 1,180 before, 900 after moving the quad",
            ["weighing tongue=1180", "weighing tongue=900"],
        ),
        ("21300 loaded with hives, 12,060 empty", ["weighing gross=21300", "weighing gross=12060"]),
        ("weighed 5,180 before lunch and 6,940 after", ["ask"]),
        # Two loads of one row are no two states.
        (
            "steer 5,180 drive 6,940 empty, 12,120",
            ["weighing drive=6940 gross=12120 steer=5180"],
        ),
        (
            "5,180 6,940 9,200 with the tanks empty",
            ["weighing drive=6940 rig=hitched steer=5180 trailer=9200"],
        ),
        ("weighed 5,240 and 9,100 with the tanks full", ["ask"]),
        ("the silo holds 21,740 full and 12,000 empty", ["silent"]),
        ("camper was 7,640 dry and 9,920 loaded", ["silent"]),
    ],
)
def test_two_states_are_two_weighings(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "truck empty 12,420 loaded 21,720 hay 9,300",
            [
                "weighing gross=12420 rig=solo",
                "weighing gross=21720",
                "cargo item=hay value=9300",
            ],
        ),
        (
            "loaded 21,480 empty 12,240 so 9,240 of honey",
            ["weighing gross=21480", "weighing gross=12240", "cargo item=honey value=9240"],
        ),
        (
            "loaded 21,480 empty 12,240 net 9,240",
            ["weighing gross=21480", "weighing gross=12240"],
        ),
        ("5,180 6,940 12,120 empty", ["weighing drive=6940 gross=12120 steer=5180"]),
    ],
)
def test_what_lies_between_is_the_load(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("after dumping the tanks she's down to 21,320", ["weighing gross=21320"]),
        ("dumped the grey and we're down to 21,320", ["weighing gross=21320"]),
        ("dumped the stock, down to 21,320", ["silent"]),
        ("dumped the tanks, down to 320", ["silent"]),
    ],
)
def test_what_it_came_down_to_is_all_of_it(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


def test_a_docket_of_in_and_out_tells_the_gross(reads: Reader) -> None:
    docket = "HILLTOP FEED\nTicket # 88213\nIn 21,480 lb\nOut 12,260 lb\nNet 9,220 lb\nFee $10.00"
    assert told(reads, docket) == ["weighing cost=10 gross=21480 place=HILLTOP FEED ticket=88213"]
