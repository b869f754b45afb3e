"""The rig weighed with its trailer and without, told in one breath."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road
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


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "truck and flatdeck 16,420, then just the flatdeck 7,200",
            [
                "weighing gross=16420 rig=hitched trailer=flatdeck",
                "weighing gross=7200 rig=trailer trailer=flatdeck",
            ],
        ),
        (
            "whole rig 16,420, only the flatdeck 7,200",
            [
                "weighing gross=16420 rig=hitched trailer=flatdeck",
                "weighing gross=7200 rig=trailer trailer=flatdeck",
            ],
        ),
        (
            "weighed twice, once hooked 21,320 once solo 8,960",
            ["weighing gross=21320 rig=hitched", "weighing gross=8960 rig=solo"],
        ),
        (
            "first hooked up 21,320, then solo 8,960",
            ["weighing gross=21320 rig=hitched", "weighing gross=8960 rig=solo"],
        ),
        (
            "once with the camper, 18,200, and once without, 8,960",
            [
                "weighing gross=18200 rig=hitched trailer=camper",
                "weighing gross=8960 rig=solo",
            ],
        ),
        ("just the tires were 1,240 and 1,180", ["silent"]),
    ],
)
def test_the_one_time_may_be_counted_or_told_of_one_vehicle(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("car and van 3,700 kg together, car alone 2,180", {"kg"}),
        ("the whole lot 7.42 t, the van on its own 2.38", {"t"}),
        ("with the van on 7.42 t, without it 4.9", {"t"}),
        ("weighed at 5.2, 6.9 and 9.7 tonnes", {"t"}),
        ("bobtail 3.1, hooked 7.42 tonnes", {"t"}),
        # Feed is weighed on another scale.
        ("fed the horses 200 kg, truck solo 8,960 and hooked 18,200", {"lb"}),
    ],
)
def test_a_unit_is_said_once_for_every_load(reads: Reader, text: str, units: set[str]) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    weighed = [entry.loads for entry in read.entries if isinstance(entry, Weighing)]
    loads = [load for each in weighed for load in each.values()]
    assert len(loads) > 1
    assert {load.unit for load in loads} == units


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "the lot is 21,320, of that 9,240 is on the trailer",
            "weighing gross=21320 rig=hitched trailer=9240",
        ),
        (
            "21,320 in all and 9,240 is on the trailer",
            "weighing gross=21320 rig=hitched trailer=9240",
        ),
        ("the camper is on, 51,230", "hitch action=hitched trailer=camper"),
    ],
)
def test_what_is_on_the_trailer_rests_there(reads: Reader, text: str, stated: str) -> None:
    assert told(reads, text)[0] == stated


def test_a_trailer_that_was_hooked_up_heads_no_row(reads: Reader) -> None:
    assert told(reads, "hooked up the camper, tongue 1,140, leaving 48,102") == [
        "hitch action=hitched trailer=camper",
        "weighing tongue=1140 trailer=camper",
        "odometer event=depart odometer=48102",
    ]
