"""What stood on the scale and how, told around its figures, and put right or asked behind them."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "parked just the flatdeck on the scale, no truck. 4,380",
            ["weighing gross=4380 rig=trailer trailer=flatdeck"],
        ),
        (
            "parked the camper on the weighbridge by itself, 6,240",
            ["weighing gross=6240 rig=trailer trailer=camper"],
        ),
        (
            "parked the flatdeck on the scale and unhooked, 4,380",
            [
                "hitch action=unhitched trailer=flatdeck",
                "weighing gross=4380 rig=trailer trailer=flatdeck",
            ],
        ),
        (
            "parked the flatdeck, Juniper bobtail 7,410",
            [
                "hitch action=unhitched trailer=flatdeck truck=Juniper",
                "weighing gross=7410 rig=solo truck=Juniper",
            ],
        ),
        (
            "parked the flatdeck and weighed the truck alone 7,410",
            ["hitch action=unhitched trailer=flatdeck", "weighing gross=7410 rig=solo"],
        ),
        (
            "parked the flatdeck. Juniper by herself 7,410",
            [
                "hitch action=unhitched trailer=flatdeck truck=Juniper",
                "weighing gross=7410 rig=solo truck=Juniper",
            ],
        ),
    ],
)
def test_a_trailer_parked_on_the_scale_is_weighed(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "correct the last weigh, steer left is 2,195",
            ["correction action=amend field=steer_left value=2195"],
        ),
        (
            "correct that last weighing, steer is 5,195",
            ["correction action=amend field=steer value=5195"],
        ),
        (
            "please correct the weigh, drive 6,640",
            ["correction action=amend field=drive value=6640"],
        ),
        (
            "steer left is 2,640, correct the last weigh",
            ["correction action=amend field=steer_left value=2640"],
        ),
        (
            "correct our ticket drive is sixty six forty",
            ["correction action=amend field=drive value=6640"],
        ),
        ("correct the price to 3.549", ["correction action=amend field=unit_price value=3.549"]),
        (
            "correct the steer left to 2,195",
            ["correction action=amend field=steer_left value=2195"],
        ),
        ("trailer left should be 4,195", ["correction action=amend field=trailer_left value=4195"]),
        ("the scale is correct the drive is 6,640", ["weighing drive=6640"]),
        ("correct weight is 5,195 on the steer", ["weighing steer=5195"]),
        ("steer left to Elm Creek", ["silent"]),
    ],
)
def test_to_correct_is_to_bid(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "front end forty eight seventy with the trailer behind us back axle "
            "fifty nine thirty and the trailer tandems seventy six sixty",
            ["weighing drive=5930 rig=hitched steer=4870 trailer=7660"],
        ),
        (
            "drives sixty one forty hitched steers forty nine ten trailer axles eighty two twenty",
            ["weighing drive=6140 rig=hitched steer=4910 trailer=8220"],
        ),
        (
            "steer 4,870 bars off drive 5,930 trailer 7,660",
            ["weighing bars=off drive=5930 rig=hitched steer=4870 trailer=7660"],
        ),
        (
            "steer 4,860 drive 3,300, with the trailer steer 4,300 drive 5,100 trailer 7,300",
            [
                "weighing drive=3300 steer=4860",
                "weighing drive=5100 rig=hitched steer=4300 trailer=7300",
            ],
        ),
        (
            "steer with bars 5,180, without 4,860",
            ["weighing bars=on steer=5180", "weighing bars=off steer=4860"],
        ),
    ],
)
def test_a_word_between_two_axles_parts_no_passes(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "solo me and denise up front three quarter tank 7,310",
            ["weighing aboard=2 fuel_level=0.75 gross=7310 rig=solo"],
        ),
        (
            "Juniper solo me and Denise up front, 7,310",
            ["weighing aboard=2 gross=7310 rig=solo truck=Juniper"],
        ),
        ("gross 7,310 with me and sal aboard", ["weighing aboard=2 gross=7310"]),
        ("Juniper solo with me and luggage 7,310", ["weighing gross=7310 rig=solo truck=Juniper"]),
        ("steer and drive 4,310 up front 5,200", ["weighing drive=4310 steer=5200"]),
        (
            "three quarter tank me and tom in the cab, gross 7,310",
            ["weighing aboard=2 fuel_level=0.75 gross=7310"],
        ),
    ],
)
def test_who_sits_up_front_is_no_axle(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "spring bars off S 4,360 D 6,480 T 5,940\nspring bars back on S 4,720 D 5,980 T 6,080",
            [
                "weighing bars=off drive=6480 rig=hitched steer=4360 trailer=5940",
                "weighing bars=on drive=5980 rig=hitched steer=4720 trailer=6080",
            ],
        ),
        (
            "spring bars back off S 4,720 D 5,980 T 6,080",
            ["weighing bars=off drive=5980 rig=hitched steer=4720 trailer=6080"],
        ),
        (
            "so this is without the weight distribution bars steer forty one "
            "hundred drive sixty three fifty and the trailer is fifty five eighty",
            ["weighing bars=off drive=6350 rig=hitched steer=4100 trailer=5580"],
        ),
        (
            "no weight distribution bars 4,100 6,350 5,580",
            ["weighing bars=off drive=6350 rig=hitched steer=4100 trailer=5580"],
        ),
        (
            "with the weight distribution hitch steer 4,100 drive 6,350 trailer 5,580",
            ["weighing bars=on drive=6350 rig=hitched steer=4100 trailer=5580"],
        ),
        (
            "without the weight distributing hitch steer 4,100 drive 6,350 trailer 5,580",
            ["weighing bars=off drive=6350 rig=hitched steer=4100 trailer=5580"],
        ),
        (
            "receiver is 10,000 with the weight distribution hitch, 5,000 without",
            [
                "rating note=with bars rating=tow subject=hitch value=10000",
                "rating note=carrying rating=tow subject=hitch value=5000",
            ],
        ),
        ("without the bars she sags", ["silent"]),
        ("no bars on my phone", ["silent"]),
    ],
)
def test_bars_are_on_or_off_whatever_they_are_called(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "outfit 16,180, truck 8,040, trailer 8,140",
            ["weighing gross=16180 rig=hitched trailer=8140 truck=8040"],
        ),
        (
            "rig 16,180, front 4,310 rear 3,730 trailer wheels 8,140",
            ["weighing drive=3730 gross=16180 rig=hitched steer=4310 trailer=8140"],
        ),
        ("saw an outfit 16,180, truck 8,040 trailer 8,140", ["ask"]),
        (
            "put 20.5 gal in her, weighed w/o trailer after: 3,300 steer 2,540 drive 5,840 total",
            ["fill volume=20.5", "weighing drive=2540 gross=5840 rig=solo steer=3300"],
        ),
        ("31.4 gal, total 118.90", ["fill cost=118.9 volume=31.4"]),
        (
            "filled up 31.4 gal total 122.40, steer 5,180 drive 6,900 trailer 9,240",
            [
                "fill cost=122.4 full=True volume=31.4",
                "weighing drive=6900 rig=hitched steer=5180 trailer=9240",
            ],
        ),
    ],
)
def test_what_the_parts_make_is_the_whole(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "L/R split... steer 2440/2390, drive 3320/3405, trailer 3990/4060",
            [
                "weighing drive_left=3320 drive_right=3405 rig=hitched steer_left=2440 "
                "steer_right=2390 trailer_left=3990 trailer_right=4060",
            ],
        ),
        (
            "steer L/R 2440/2390, drive L/R 3320/3405",
            ["weighing drive_left=3320 drive_right=3405 steer_left=2440 steer_right=2390"],
        ),
        (
            "wheel weights L/R: steer 2440/2390 drive 3320/3405",
            ["weighing drive_left=3320 drive_right=3405 steer_left=2440 steer_right=2390"],
        ),
        (
            "L/F 2,440 L/R 3,320 R/F 2,390 R/R 3,405",
            ["weighing drive_left=3320 drive_right=3405 steer_left=2440 steer_right=2390"],
        ),
        ("l/r tire 62", ["observation position=left rear subject=tyre value=62"]),
    ],
)
def test_two_figures_of_a_place_are_its_sides(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "steer fifty ten drive sixty six thirty and then the tandem one at a "
            "time lead axle forty one twenty trailing axle forty two sixty",
            ["weighing drive=6630 rig=hitched steer=5010 trailer_1=4120 trailer_2=4260"],
        ),
        (
            "steer 5,010 drive 6,630 then the trailer one at a time front axle "
            "4,120 rear axle 4,260",
            ["weighing drive=6630 rig=hitched steer=5010 trailer_1=4120 trailer_2=4260"],
        ),
        (
            "steer 5,010 drive 6,630, tandem: front 4,120 back 4,260",
            ["weighing drive=6630 rig=hitched steer=5010 trailer_1=4120 trailer_2=4260"],
        ),
        (
            "steer 5,010 drive 6,630 first axle 4,120 second axle 4,260",
            ["weighing drive=6630 rig=hitched steer=5010 trailer_1=4120 trailer_2=4260"],
        ),
        (
            "steer 5,010 drive 6,630 axle 3 4,120 axle 4 4,260",
            ["weighing drive=6630 rig=hitched steer=5010 trailer_1=4120 trailer_2=4260"],
        ),
        # No two axles bear more than all of them.
        (
            "hitched to camper front 5,060 rear 6,880 trailer axles 8,960",
            ["weighing drive=6880 rig=hitched steer=5060 trailer=camper"],
        ),
        (
            "trailer front axle 4,400 rear axle 4,500 trailer axles 8,900",
            ["weighing trailer=8900 trailer_1=4400 trailer_2=4500"],
        ),
        (
            "trailer axle 1 2,900 axle 2 2,950 all three axles 8,900",
            ["weighing trailer=8900 trailer_1=2900 trailer_2=2950"],
        ),
        (
            "the plate gives an m t p l m of two thousand three hundred kilos for the trailer",
            ["rating rating=gvwr subject=trailer value=2300"],
        ),
        (
            "trailer lead axle 3,880 middle 3,940 trailing 3,860",
            ["weighing trailer_1=3880 trailer_2=3940 trailer_3=3860"],
        ),
        (
            "4980 frnt 6110 reer 8230 trlr",
            ["weighing drive=6110 rig=hitched steer=4980 trailer=8230"],
        ),
    ],
)
def test_behind_the_trucks_axles_stand_the_trailers(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        ("gross on the last ticket was what again", ["question"]),
        ("the tongue weight was what", ["question"]),
        ("the tongue weight was what again", ["question"]),
        ("our mpg was what again", ["question"]),
        ("the gross is what it is", ["silent"]),
        ("guess what", ["silent"]),
        ("mom said the gross was what", ["silent"]),
        ("the rig was what 20,180", ["silent"]),
    ],
)
def test_what_stands_last_asks(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


def _with_bars(way: str) -> Weighing:
    return Weighing(loads={"steer": Quantity(4810, "lb")}, bars=way)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "answers"),
    [
        ("they were off that time", True),
        ("bars were off that pass", True),
        ("those were off", True),
        ("the kids were off that time", False),
        ("they took the exit", False),
    ],
)
def test_they_are_the_bars_that_were_asked_about(reads: Reader, text: str, answers: bool) -> None:
    choices = [Choice(f"bars {way}", (_with_bars(way),)) for way in ("on", "off")]
    answer = reads(text, on_the_road(asked=Ask("bars", tuple(choices))))
    assert (answer == Facts((_with_bars("off"),))) is answers
