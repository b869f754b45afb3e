"""Messages cut short, dictated or in slang: what was heard, left out or said for something else."""

from __future__ import annotations

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
    Weighing,
)
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.driving_log import mi
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.scale_house import lb

UNDO = (Correction(action="undo"),)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("the tongue wait came to 940", (Weighing(loads={"tongue": lb(940)}),)),
        (
            "deaf fluid two and a half gallons fourteen ninety nine",
            (Fill(product="def", volume=Quantity(2.5, "gal"), cost=Quantity(14.99, "USD")),),
        ),
        (
            "30gal even at 3.60, 108 bux",
            (
                Fill(
                    volume=Quantity(30, "gal"),
                    unit_price=Quantity(3.6, "USD/gal"),
                    cost=Quantity(108, "USD"),
                ),
            ),
        ),
        ("breaks checked", (Check(item="brakes", state="done"),)),
        ("lites chkd", (Check(item="lights", state="done"),)),
        (
            "tandem camper: first axle 3,310, second axle 3,345",
            (Weighing(loads={"trailer_1": lb(3_310), "trailer_2": lb(3_345)}, trailer="camper"),),
        ),
        (
            "6% grde spd 41mph",
            (
                Observation(subject="grade", value=Quantity(6, "%")),
                Observation(subject="speed", value=Quantity(41, "mph")),
            ),
        ),
        (
            "it's eighty eight degrees out and there's a thirty mile an hour wind",
            (
                Observation(subject="ambient", value=Quantity(88, "degF")),
                Observation(subject="wind", value=Quantity(30, "mph")),
            ),
        ),
        (
            "41 F outside, a westerly at 35 mph",
            (
                Observation(subject="ambient", value=Quantity(41, "degF")),
                Observation(subject="wind", value=Quantity(35, "mph")),
            ),
        ),
        (
            "tier pressures on the truck left front sixty right front sixty two psi",
            (
                Observation(subject="tyre", value=Quantity(60, "psi"), position="left front"),
                Observation(subject="tyre", value=Quantity(62, "psi"), position="right front"),
            ),
        ),
        (
            "the kiln is on the flatdeck now, 310 lb",
            (Cargo(item="kiln", value=lb(310), trailer="flatdeck"),),
        ),
        ("scrap my previous entry please", UNDO),
        ("yeet that last entry", UNDO),
        ("del the prior entry", UNDO),
        ("mile count 48,388", (Odometer(odometer=mi(48_388)),)),
        (
            "hung a uey, 48,312",
            (Odometer(odometer=mi(48_312), event="turnaround"),),
        ),
        (
            "my uncle forgot the hay so we flipped a u-ey, 48,133",
            (Odometer(odometer=mi(48_133), event="turnaround"),),
        ),
        ("wagons ho, 48,019", (Odometer(odometer=mi(48_019), event="depart"),)),
        (
            "scale guy says 5,160 steer, drive 6,740, trailer 9,420",
            (
                Weighing(
                    loads={"steer": lb(5_160), "drive": lb(6_740), "trailer": lb(9_420)},
                    rig="hitched",
                ),
            ),
        ),
        (
            "shook the camper loose around the corner",
            (Hitch(action="unhitched", trailer="camper"),),
        ),
        ("cut the camper loose", (Hitch(action="unhitched", trailer="camper"),)),
        (
            "the thirsty brute drank its supper, 29.4 gal, $112.10, 48,366",
            (
                Fill(
                    volume=Quantity(29.4, "gal"),
                    cost=Quantity(112.10, "USD"),
                    odometer=mi(48_366),
                ),
            ),
        ),
    ],
)
def test_what_is_cut_short_or_heard_wrong(
    reads: Reader, text: str, entries: tuple[Entry, ...]
) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    "text",
    [
        "the mower is on the camper",
        "wait on me at the trailer, 20 minutes",
        "the truck way 20 miles off",
        "coffee breaks checked off",
        "junk that last couch",
        "tell the previous owner to scrap it",
        "westerly winds forecast 20 mph",
        "my aunt weighs 210",
        "the dog got loose at the camper",
        "he pulled a uey at the lights",
        "put down the phone and wait 5",
    ],
)
def test_what_sounds_alike_is_talk(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
