"""Facts in words that say more than a label: pairs of axles, nobody aboard, parts of parts."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import (
    Cargo,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


def lb(value: float) -> Quantity:
    """So many pounds."""
    return Quantity(value, "lb")


AXLES = "steer 5,120 drive 6,430 trailer 8,910"
PAIRED = {"steer": lb(5_120), "drive": lb(6_430), "trailer": lb(8_910)}


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "axle one 5,120 axle two 6,430 axles three and four 8,910",
            [Weighing(loads=PAIRED, rig="hitched")],
        ),
        (
            "axle 1 5,120 lb, axle 2 6,430 lb, axles 3+4 8,910 lb",
            [Weighing(loads=PAIRED, rig="hitched")],
        ),
        (
            "axles 1 and 2 11,550, axles 3 and 4 8,910",
            [Weighing(loads={"truck": lb(11_550), "trailer": lb(8_910)}, rig="hitched")],
        ),
        (
            "axles: 5,120 front, 6,430 rear",
            [Weighing(loads={"steer": lb(5_120), "drive": lb(6_430)})],
        ),
        (
            "just the truck, nobody in it, 8,130 lb",
            [Weighing(loads={"gross": lb(8_130)}, rig="solo", aboard=0)],
        ),
        (
            "bobtail 8,390 lb with me and the dog in it",
            [Weighing(loads={"gross": lb(8_390)}, rig="solo", aboard=1)],
        ),
        (
            "portable pads, flatdeck hitched. steer 5,120 drive 6,430 trailer 8,910",
            [Weighing(loads=PAIRED, rig="hitched", trailer="flatdeck")],
        ),
        (
            "swapped trailers: camper off, flatdeck on, 48,140",
            [
                Hitch(action="unhitched", trailer="camper"),
                Hitch(action="hitched", trailer="flatdeck"),
                Odometer(odometer=Quantity(48_140, "mi")),
            ],
        ),
        (
            "gross combined max is 16,500",
            [Rating(subject="truck", rating="gcwr", value=lb(16_500))],
        ),
        (
            "max pin weight on the fifth wheel hitch 4,800 lb",
            [Rating(subject="hitch", rating="tongue", value=lb(4_800))],
        ),
        (
            f"me plus the two lodgers in the truck. {AXLES}",
            [Weighing(loads=PAIRED, rig="hitched", aboard=3)],
        ),
        (
            "steer fifty one twenty drive sixty four thirty trailer eighty nine ten no wait "
            "I'm reading it right, yeah eight thousand nine hundred and ten",
            [Weighing(loads=PAIRED, rig="hitched")],
        ),
        (
            f"{AXLES}. then put in 18.6 gal, 48,233",
            [
                Weighing(loads=PAIRED, rig="hitched"),
                Fill(volume=Quantity(18.6, "gal"), odometer=Quantity(48_233, "mi")),
            ],
        ),
        (
            "6.8 gal of propane, $23.80",
            [Fill(volume=Quantity(6.8, "gal"), cost=Quantity(23.8, "USD"), product="propane")],
        ),
        (
            "weighed her without the trailer, 8,420",
            [Weighing(loads={"gross": lb(8_420)}, rig="solo")],
        ),
        (
            "rolled over the scale n got 5120 frt 6430 rear 8910 trlr",
            [Weighing(loads=PAIRED, rig="hitched")],
        ),
        (
            "28.2 gal, 48,310, trip meter 300 mi",
            [
                Fill(
                    volume=Quantity(28.2, "gal"),
                    odometer=Quantity(48_310, "mi"),
                    distance=Quantity(300, "mi"),
                )
            ],
        ),
        (
            "headed back at 48,302, that's our turnaround",
            [Odometer(odometer=Quantity(48_302, "mi"), event="turnaround")],
        ),
        (
            "holding 58 mph, headwind 25 mph",
            [
                Observation(subject="speed", value=Quantity(58, "mph")),
                Observation(subject="wind", value=Quantity(25, "mph")),
            ],
        ),
        (
            "wasn't a full tank actually",
            [Correction(action="amend", field="full", value=False)],
        ),
        (
            "gross 20,980 and the sticker says 20,500 gcwr",
            [
                Weighing(loads={"gross": lb(20_980)}),
                Rating(subject="truck", rating="gcwr", value=lb(20_500)),
            ],
        ),
        (
            "fllied up at 48,312, 19.2 gal, 71.02",
            [
                Fill(
                    volume=Quantity(19.2, "gal"),
                    odometer=Quantity(48_312, "mi"),
                    cost=Quantity(71.02, "USD"),
                )
            ],
        ),
        ("trailer gate hinge is bent", [Check(item="trailer gate hinge", state="fault")]),
        ("spare wheel bracket is cracked", [Check(item="spare wheel bracket", state="fault")]),
        ("honey drums 1,760 lb", [Cargo(item="honey drums", value=lb(1_760))]),
        (
            "fridge 92 lb and gas bottles 78 lb",
            [Cargo(item="fridge", value=lb(92)), Cargo(item="gas bottles", value=lb(78))],
        ),
    ],
)
def test_it_is_read_in_other_words(text: str, entries: list[Entry], reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(tuple(entries))


@pytest.mark.parametrize(
    "text",
    [
        "trailer's parked out back if you need it",
        "the fridge door hinge is broken",
        "my shelf bracket broke",
        "my fridge weighs 300 lb",
        "cooler 12 lb",
        "turkey 14 lb",
        "camper tyres made week 23 of 2019",
        "was it a full tank",
    ],
)
def test_a_house_and_its_things_are_talk(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("48,390 as we pull into Larkfold", "arrive"),
        ("48,390 rolling into Larkfold", "arrive"),
        ("odo 48,390 coming into Larkfold", "arrive"),
        ("48,390 as we get to Larkfold", "arrive"),
        ("48,390 as we leave Larkfold", "depart"),
        ("48,390 pulling out of Larkfold", "depart"),
        ("48,390 as we head out of Larkfold", "depart"),
    ],
)
def test_coming_and_going_as_it_happens(text: str, event: Any, reads: Reader) -> None:
    reading = Odometer(odometer=Quantity(48_390, "mi"), event=event, place="Larkfold")
    assert reads(text, on_the_road()) == Facts((reading,))


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "took the camper off and weighed her on her own, 6,240",
            [
                "hitch action=unhitched trailer=camper",
                "weighing gross=6240 rig=trailer trailer=camper",
            ],
        ),
        (
            "took the camper off, truck 8,140",
            ["hitch action=unhitched trailer=camper", "weighing gross=8140 rig=solo"],
        ),
        ("with the camper off 8,140", ["weighing gross=8140 rig=solo"]),
        (
            "unhitched her and weighed her by herself 6,240",
            ["hitch action=unhitched", "weighing gross=6240 rig=trailer"],
        ),
        ("they weighed the trailer on its own: 6,240", ["weighing gross=6240 rig=trailer"]),
        (
            "correct the volume from 31.4 to 34.1",
            ["correction action=amend field=volume value=34.1 was=31.4"],
        ),
        ("sorry to say it was 6,420 not 6,240", ["correction action=amend value=6420 was=6240"]),
        (
            "would you be so kind as to log 28.4 gallons at 3.899",
            ["fill unit_price=3.899 volume=28.4"],
        ),
        (
            "checked the propane locker and the steps",
            ["check item=propane locker state=done", "check item=steps state=done"],
        ),
        (
            "battery box latched, fuel door shut",
            ["check item=battery box state=done", "check item=fuel door state=done"],
        ),
        ("so embarrassed, take that last one out please", ["correction action=undo"]),
        ("sorry to say we are out of jam", ["silent"]),
        ("things you can do in Moab", ["silent"]),
    ],
)
def test_what_other_people_say_for_it(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries
