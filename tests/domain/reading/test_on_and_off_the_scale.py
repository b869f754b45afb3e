"""The rig weighed with its trailer and without, told in one breath."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "just Juniper 9060, Juniper and camper 19140",
            [
                "weighing gross=9060 rig=solo truck=Juniper",
                "weighing gross=19140 rig=hitched trailer=camper truck=Juniper",
            ],
        ),
        (
            "only juniper 9,060, juniper with flatdeck 16,420",
            [
                "weighing gross=9060 rig=solo truck=Juniper",
                "weighing gross=16420 rig=hitched trailer=flatdeck truck=Juniper",
            ],
        ),
        (
            "camper alone 7,260, truck and camper 18,940",
            [
                "weighing gross=7260 rig=trailer trailer=camper",
                "weighing gross=18940 rig=hitched trailer=camper",
            ],
        ),
        (
            "dropped the camper, truck alone 8,900. hooked back up, 21,600 gross",
            [
                "hitch action=unhitched trailer=camper",
                "weighing gross=8900 rig=solo",
                "weighing gross=21600 rig=hitched trailer=camper",
            ],
        ),
        (
            "truck alone 8,900, then hooked up, 21,600 gross",
            ["weighing gross=8900 rig=solo", "weighing gross=21600 rig=hitched"],
        ),
        (
            "gross 21,600 then unhitched and the truck was 8,900",
            ["weighing gross=21600 rig=hitched", "weighing gross=8900 rig=solo"],
        ),
        # Who paid for both weighed nothing.
        ("paid 8,900 for the truck alone, then hooked up with a guy for 21,600", ["silent"]),
        ("just Ned 1,200, Ned and Ray 2,300", ["silent"]),
    ],
)
def test_the_whole_of_it_is_told_twice(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "steer 5,180 hitched, 5,260 not",
            ["weighing rig=hitched steer=5180", "weighing rig=solo steer=5260"],
        ),
        (
            "front axle 5,260 unhooked, 5,180 hooked up",
            ["weighing rig=solo steer=5260", "weighing rig=hitched steer=5180"],
        ),
        (
            "drive 6,900 with the trailer, 3,900 without",
            ["weighing drive=6900 rig=hitched", "weighing drive=3900 rig=solo"],
        ),
        (
            "rear axle 1,910 kg with the van on, 1,540 without",
            ["weighing drive=1910 rig=hitched", "weighing drive=1540 rig=solo"],
        ),
        (
            "hitched: 5,060 / 7,180. unhitched: 5,340 / 4,120",
            [
                "weighing drive=7180 rig=hitched steer=5060",
                "weighing drive=4120 rig=solo steer=5340",
            ],
        ),
        # No axle bears so much more without the trailer: it is all of the truck.
        (
            "steer 5,180 hitched, 9,060 unhitched",
            ["weighing rig=hitched steer=5180", "weighing gross=9060 rig=solo"],
        ),
        ("hitched: 9,060 / 9,240. unhitched: 5,340 / 4,120", ["ask"]),
    ],
)
def test_an_axle_is_told_twice(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated
