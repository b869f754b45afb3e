"""Several weighings in one message, what was done with the bars, and axles that make another's."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def weighed(reads: Reader, text: str) -> list[Weighing]:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    return [each for each in read.entries if isinstance(each, Weighing)]


def loads(weighing: Weighing) -> dict[str, float]:
    return {at: load.value for at, load in weighing.loads.items()}


ROW = {"steer": 5_180, "drive": 6_720, "trailer": 9_010}


@pytest.mark.parametrize(
    ("text", "bars"),
    [
        ("hooked the bars back up and got steer 5,180 drive 6,720 trailer 9,010", "on"),
        ("tightened the bars one link steer 5,180 drive 6,720 trailer 9,010", "on"),
        ("dropped the bars and reweighed: 5,180 6,720 9,010", "off"),
        ("released the spring bars, 5,180 6,720 9,010", "off"),
        ("the bars are in the shed, steer 5,180 drive 6,720 trailer 9,010", None),
    ],
)
def test_what_was_done_with_the_bars(reads: Reader, text: str, bars: str | None) -> None:
    (weighing,) = weighed(reads, text)
    assert loads(weighing) == ROW
    assert weighing.bars == bars


@pytest.mark.parametrize(
    ("text", "bars"),
    [
        ("wd bars on frt 5040 rr 6180 trlr 6890, then off frt 4580 rr 6860 trlr 6670", "on off"),
        ("bars on: 5,040 6,180 6,890. Off: 4,580 6,860 6,670", "on off"),
        ("bars slack steer 4,580 and on steer 5,040", "off on"),
        ("bars off 4,580 6,860 6,670, on 5,040 6,180 6,890", "off on"),
        ("bars on 5,040 6,180 6,890, off the scale at 9", "on"),
        ("bars on 5,040 6,180 6,890. trailer off 5,280 4,620", "on None"),
        ("bars on 5,040 6,180 6,890, bars off 4,580 6,860 6,670", "on off"),
    ],
)
def test_the_bars_are_named_once_for_both_ways(reads: Reader, text: str, bars: str) -> None:
    assert " ".join([str(each.bars) for each in weighed(reads, text)]) == bars


def test_a_trailer_is_still_unhitched_beside_bars(reads: Reader) -> None:
    read = reads("dropped the bars and unhitched, 48,040", on_the_road())
    assert isinstance(read, Facts)
    assert [type(each).__name__ for each in read.entries] == ["Hitch", "Odometer"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("steer with bars 5,180, without 4,860", [("on", 5_180), ("off", 4_860)]),
        ("steer 5,180 with bars 4,860 without", [("on", 5_180), ("off", 4_860)]),
    ],
)
def test_one_place_with_bars_and_without(
    reads: Reader, text: str, told: list[tuple[str, float]]
) -> None:
    found = weighed(reads, text)
    assert [(each.bars, each.loads["steer"].value) for each in found] == told


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("gross 21,480, reweighed 21,320 after I dumped the grey", 21_480, 21_320),
        ("grossed 21,480, went back over, 21,320", 21_480, 21_320),
    ],
)
def test_one_place_that_was_weighed_again(
    reads: Reader, text: str, first: float, second: float
) -> None:
    assert [loads(each) for each in weighed(reads, text)] == [{"gross": first}, {"gross": second}]


@pytest.mark.parametrize(
    "text",
    [
        "Weighed 2x. 1st: 5240 6820 9060. 2nd: 5180 6720 9010.",
        "first 5240 6820 9060 second 5180 6720 9010",
        "1st run 5240/6820/9060, 2nd run 5180/6720/9010",
    ],
)
def test_rows_that_are_numbered(reads: Reader, text: str) -> None:
    first, second = weighed(reads, text)
    assert loads(first) == {"steer": 5_240, "drive": 6_820, "trailer": 9_060}
    assert loads(second) == ROW


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "tandems on the trailer 9,060, thats 4,500 front axle and 4,560 rear",
            {"trailer": 9_060, "trailer_1": 4_500, "trailer_2": 4_560},
        ),
        (
            "steer 4,500 drive 4,560 trailer 9,060",
            {"steer": 4_500, "drive": 4_560, "trailer": 9_060},
        ),
        (
            "first axle 4410 second axle 4660 on the flatdeck",
            {"trailer_1": 4_410, "trailer_2": 4_660},
        ),
        (
            "axle 1 2,240 axle 2 2,310 axle 3 2,280 on the trailer",
            {"trailer_1": 2_240, "trailer_2": 2_310, "trailer_3": 2_280},
        ),
        (
            "axle 1 5,180 axle 2 6,720 axle 3 9,010 on the trailer",
            ROW,
        ),
        (
            "first axle 5,180 second axle 6,940 with the camper on",
            {"steer": 5_180, "drive": 6_940},
        ),
        (
            "drives first 6,720 then steers 5,180 trailer came in at 9,010",
            {"drive": 6_720, "steer": 5_180, "trailer": 9_010},
        ),
        ("my axle weights were 5180 6720 and 9010 for the trailer", ROW),
        (
            "camper left wheels 2,440 2,470 right wheels 2,380 2,410",
            {
                "trailer_1_left": 2_440,
                "trailer_2_left": 2_470,
                "trailer_1_right": 2_380,
                "trailer_2_right": 2_410,
            },
        ),
    ],
)
def test_whose_axles_they_are(reads: Reader, text: str, told: dict[str, float]) -> None:
    (weighing,) = weighed(reads, text)
    assert loads(weighing) == told


@pytest.mark.parametrize(
    "text", ["added 300 lbs to the steer with the bars", "left 2,610 3,420 right 2,590 3,480"]
)
def test_what_was_added_and_sides_of_nothing_are_not_kept(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("dropped 180 lb of tongue by moving the generator back", None),
        ("lost 300 lb of tongue", None),
        ("got 1,180 lb of tongue", {"tongue": 1_180}),
        ("tongue 920 with the hives forward, 640 with them back", None),
        (
            "over gvwr on the truck by 240, steer 5,260 drive 6,980",
            {"steer": 5_260, "drive": 6_980},
        ),
    ],
)
def test_by_how_much_it_changed_or_is_over_was_not_weighed(
    reads: Reader, text: str, told: dict[str, float] | None
) -> None:
    read = reads(text, on_the_road())
    if told is None:
        assert isinstance(read, Silent)
    else:
        assert isinstance(read, Facts)
        assert [loads(each) for each in read.entries if isinstance(each, Weighing)] == [told]
        assert len(read.entries) == 1


def test_dogs_are_no_people(reads: Reader) -> None:
    (weighing,) = weighed(reads, "4 adults and 2 dogs aboard. 5,420 7,180 9,240")
    assert weighing.aboard == 4
    (weighing,) = weighed(reads, "me and 3 dogs, 5,420 7,180 9,240")
    assert weighing.aboard == 1


@pytest.mark.parametrize(
    ("text", "rig", "told"),
    [
        ("ute loaded no van 2,980", "solo", {"gross": 2_980}),
        ("no ute, van 2,980", "trailer", {"gross": 2_980}),
        ("ute 2.98 t, van 2.76 t on its wheels", "hitched", {"truck": 2.98, "trailer": 2.76}),
    ],
)
def test_a_van_is_a_caravan_and_no_cargo(
    reads: Reader, text: str, rig: str, told: dict[str, float]
) -> None:
    read = reads(text, on_the_road(units="metric"))
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.rig, loads(weighing)) == (rig, told)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("steer L 2,660 R 2,640", {"steer_left": 2_660, "steer_right": 2_640}),
        ("camper L 4,620 R 4,580", {"trailer_left": 4_620, "trailer_right": 4_580}),
        (
            "trailer: axle one left 2,300 right 2,280, axle two left 2,320 right 2,310",
            {
                "trailer_1_left": 2_300,
                "trailer_1_right": 2_280,
                "trailer_2_left": 2_320,
                "trailer_2_right": 2_310,
            },
        ),
        ("ball weight on the truck hitch 1,240 lbs", {"tongue": 1_240}),
        ("ball weight came up 285 lb on the ball scale", {"tongue": 285}),
        ("steer came up to 5,240", {"steer": 5_240}),
    ],
)
def test_sides_by_letter_and_where_a_tongue_rests(
    reads: Reader, text: str, told: dict[str, float]
) -> None:
    (weighing,) = weighed(reads, text)
    assert loads(weighing) == told


@pytest.mark.parametrize(
    "text",
    [
        "steer went up 240",
        "steer up 240, drive down 180",
        "front tires are carrying 2,650 each",
    ],
)
def test_how_much_a_place_changed_was_not_weighed(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "level"),
    [
        ("fresh tank full, grey empty, 5,180 6,720 9,010", None),
        ("full tank, grey empty, 5,180 6,720 9,010", 1),
        ("5,180 6,720 9,010 and we were at forty percent fuel", 0.4),
        ("steer 5,180 drive 6,720 trailer 9,010, diesel at about 60%", 0.6),
        ("steer 5,180 drive 6,720 trailer 9,010, 60% of our fuel left", 0.6),
        ("steer 5,180 drive 6,720 trailer 9,010, def at 40%", None),
        ("steer 5,180 drive 6,720 trailer 9,010, fuel is up 12% since may", None),
        ("steer 5,180 drive 6,720 trailer 9,010, grey tank 40%", None),
        ("steer 5,180 drive 6,720 trailer 9,010, tank about half", 0.5),
        ("steer 5,180 drive 6,720 trailer 9,010, tank was about three quarters", 0.75),
        ("steer 5,180 drive 6,720 trailer 9,010, qtr tank", 0.25),
        ("steer 5,180 drive 6,720 trailer 9,010, grey tank about half", None),
        ("steer 5,180 drive 6,720 trailer 9,010, good tank, half a day left", None),
    ],
)
def test_a_tank_of_water_is_no_fuel_level(reads: Reader, text: str, level: float | None) -> None:
    (weighing,) = weighed(reads, text)
    assert loads(weighing) == ROW
    assert weighing.fuel_level == level


def test_a_wd_hitch_that_is_hooked_has_its_bars_on(reads: Reader) -> None:
    (weighing,) = weighed(reads, "w/d hitch hooked 5,180 6,720 9,010")
    assert (loads(weighing), weighing.bars) == (ROW, "on")


@pytest.mark.parametrize(
    "text", ["steer 4,860, 5,210 solo", "steer 4860/5210 solo", "steer 4,860 and 5,210 truck only"]
)
def test_the_steer_axle_bears_more_without_the_trailer(reads: Reader, text: str) -> None:
    told = [(each.rig, loads(each)) for each in weighed(reads, text)]
    assert told == [(None, {"steer": 4_860}), ("solo", {"steer": 5_210})]


def test_less_may_be_the_drive_axle(reads: Reader) -> None:
    assert isinstance(reads("steer 4,980, 3,860 solo", on_the_road()), Ask)
