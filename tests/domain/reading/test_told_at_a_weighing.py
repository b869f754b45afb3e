"""What people say of one weighing: its bars, its axles by number, its tank and what rides."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Check, Fill, Hitch, Observation, Rating, Weighing
from domain.verdicts import Ask, Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.weighed import loads, weighings


@pytest.mark.parametrize(
    "text",
    [
        "no bars steer 4,310 drive 7,020 trailer 7,940, with em tight steer 4,760 drive 6,480 "
        "trailer 8,120",
        "bars off: 4,310 7,020 7,940. with them on: 4,760 6,480 8,120",
        "first pass no spring bars steer 4,310 drive 7,020 trailer 7,940 second pass with them "
        "hooked up steer 4,760 drive 6,480 trailer 8,120",
        "without bars steer 4,310 drive 7,020, with them steer 4,760 drive 6,480",
        "spring bars slack: 4,310 steer, 7,020 drive. then em snugged down: 4,760 steer 6,480 "
        "drive",
    ],
)
def test_with_them_is_of_the_bars(reads: Reader, text: str) -> None:
    first, second = weighings(text, reads)
    assert (first.bars, second.bars) == ("off", "on")
    assert first.loads["steer"].value == 4310
    assert second.loads["steer"].value == 4760


def test_without_them_is_of_the_bars_too(reads: Reader) -> None:
    first, second = weighings(
        "bars on steer 4,760 drive 6,480, without them steer 4,310 drive 7,020", reads
    )
    assert (first.bars, second.bars) == ("on", "off")


def test_people_may_be_meant_with_them(reads: Reader) -> None:
    text = "bars off steer 4,310 drive 7,020. people aboard: 2, with them in the truck"
    (only,) = weighings(text, reads)
    assert (only.bars, only.aboard) == ("off", 2)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "tri axle: lead 3,240, middle 3,380, tail 3,460. steers 4,980, drives 7,300",
            {"trailer_1": 3240, "trailer_2": 3380, "trailer_3": 3460, "steer": 4980, "drive": 7300},
        ),
        (
            "steer 4,980, drive 7,300, tandems: front 3,240 back 3,380",
            {"steer": 4980, "drive": 7300, "trailer_1": 3240, "trailer_2": 3380},
        ),
        (
            "triple axle trailer: lead 3,240, middle 3,380, tail 3,460",
            {"trailer_1": 3240, "trailer_2": 3380, "trailer_3": 3460},
        ),
        # A group with a load of its own is told whole.
        (
            "steers 4,980, drives 7,300, tandem 6,760",
            {"steer": 4980, "drive": 7300, "trailer": 6760},
        ),
        ("steer 4,980, tandem drives 9,800", {"steer": 4980, "drive": 9800}),
    ],
)
def test_a_group_beside_both_axles_of_the_truck_is_the_trailers(
    reads: Reader, text: str, found: dict[str, float]
) -> None:
    assert loads(text, reads) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("um axle one of the trailer was 4,130 axle two 4,290", [4130, 4290]),
        ("axle 1 on the camper 3,810, axle 2 3,890, axle 3 3,850", [3810, 3890, 3850]),
        ("axle one on the flatdeck thirty eight ten, axle two thirty nine forty", [3810, 3940]),
    ],
)
def test_whose_a_numbered_axle_is_may_stand_behind_its_number(
    reads: Reader, text: str, found: list[float]
) -> None:
    assert loads(text, reads) == {f"trailer_{at}": load for at, load in enumerate(found, 1)}


def test_axles_are_counted_through_where_no_vehicle_is_named(reads: Reader) -> None:
    text = "axle one 4,900 axle two 6,200 axle three 4,100 axle four 4,200"
    assert list(loads(text, reads)) == ["steer", "drive", "trailer_1", "trailer_2"]


@pytest.mark.parametrize(
    "text",
    [
        "trailer axles six four hundred sorry six thousand four hundred steer forty eight ten",
        "trailer axles 6,400, no wait, 6400, steer 4810",
        "trailer axles six four hundred I mean sixty four hundred, steer 4,810",
    ],
)
def test_a_load_said_again_in_other_words_is_one_load(reads: Reader, text: str) -> None:
    assert loads(text, reads) == {"trailer": 6400, "steer": 4810}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("4,380 front 3,110 rear 7,490", {"steer": 4380, "drive": 3110, "gross": 7490}),
        (
            "4,880 steer 6,040 drive 8,310 trailer 19,230",
            {"steer": 4880, "drive": 6040, "trailer": 8310, "gross": 19230},
        ),
        ("7,490 front 4,380 rear 3,110", {"steer": 4380, "drive": 3110, "gross": 7490}),
        ("front 4,380 rear 3,110 7,490", {"steer": 4380, "drive": 3110, "gross": 7490}),
    ],
)
def test_names_stand_behind_loads_that_make_the_last(
    reads: Reader, text: str, found: dict[str, float]
) -> None:
    assert loads(text, reads) == found


def test_loads_that_make_no_sum_are_asked_about(reads: Reader) -> None:
    assert isinstance(reads("4,380 front 3,110 rear 7,900", on_the_road()), Ask)


@pytest.mark.parametrize(
    "said",
    ["tank brimming", "tank topped off", "tank to the brim", "tank chock full", "tank was full"],
)
def test_a_tank_filled_to_the_last_was_full_on_the_scale(reads: Reader, said: str) -> None:
    (only,) = weighings(f"{said}, steer 4,830 drive 5,690", reads)
    assert only.fuel_level == 1


def test_a_tank_of_water_says_nothing_of_the_fuel(reads: Reader) -> None:
    (only,) = weighings("fresh tank topped off, steer 4,830 drive 5,690", reads)
    assert only.fuel_level is None


@pytest.mark.parametrize("said", ["tank brimming", "tank topped off", "tank brim full"])
def test_a_tank_filled_to_the_last_at_the_pump_is_a_full_fill(reads: Reader, said: str) -> None:
    read = reads(f"{said}, 24.1 gal", on_the_road())
    assert isinstance(read, Facts)
    (only,) = read.entries
    assert isinstance(only, Fill)
    assert only.full is True


def test_a_load_that_was_sorted_and_weighed_is_no_check(reads: Reader) -> None:
    text = "got the load sorted. steer 4,640 drive 6,010 trailer 7,380"
    assert loads(text, reads) == {"steer": 4640, "drive": 6010, "trailer": 7380}
    read = reads("load sorted", on_the_road())
    assert isinstance(read, Facts)
    assert [type(each) for each in read.entries] == [Check]


def _cargo(text: str, reads: Reader) -> list[str]:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    found = [each for each in read.entries if isinstance(each, Cargo)]
    assert len(found) == len(read.entries)
    return [f"{each.item} {each.value.value:g} {each.position}" for each in found]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "loaded the tractor four thousand one hundred pounds three feet ahead of the axles",
            ["tractor 4100 ahead of axles"],
        ),
        ("loaded the mower 880 lb two feet behind the axles", ["mower 880 behind axles"]),
        # Each place before the weight of what stands there.
        (
            "hay is loaded over the axles 940 kg and the tack up front 65 kg",
            ["hay 940 over axles", "tack 65 front"],
        ),
        (
            "hay 940 kg over the axles and tack 65 kg up front",
            ["hay 940 over axles", "tack 65 front"],
        ),
        ("put 30 gallons in the fresh tank that's 250 lb", ["water 30 fresh tank"]),
        (
            "fresh tank 40 gal which is 334 lb, generator 128 lb in the bed",
            ["water 40 fresh tank", "generator 128 bed"],
        ),
        (
            "loaded 40 gal of water and a generator, 330 lb, in the bed",
            ["water 40 bed", "generator 330 bed"],
        ),
        ("loaded 40 gal of water and 330 lb of feed in the bed", ["water 40 bed", "feed 330 bed"]),
    ],
)
def test_what_is_loaded_stands_where_it_is_said(reads: Reader, text: str, found: list[str]) -> None:
    assert sorted(_cargo(text, reads)) == sorted(found)


@pytest.mark.parametrize("text", ["loaded the boat 3,200 lb", "the boat is 4,300 lb"])
def test_a_vehicle_of_which_no_place_is_said_is_no_cargo(reads: Reader, text: str) -> None:
    assert not isinstance(reads(text, on_the_road()), Facts)


@pytest.mark.parametrize(
    ("text", "load"),
    [
        ("put the coupler on the bathroom scale again. 580-610 lb", 610),
        ("put the coupler on the scale, 610 lb", 610),
        ("hitch on the bathroom scale: 540 lb", 540),
        ("dropped the camper, its tongue was 610 on the little scale", 610),
        ("unhooked the camper and its pin was eleven eighty", 1180),
    ],
)
def test_what_rests_on_a_scale_by_its_coupler_is_the_tongue(
    reads: Reader, text: str, load: float
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    (only,) = [each for each in read.entries if isinstance(each, Weighing)]
    assert {at: each.value for at, each in only.loads.items()} == {"tongue": load}


@pytest.mark.parametrize("text", ["coupler 10,000 lb", "coupler on the plate says 8,000 lb"])
def test_a_coupler_on_no_scale_is_rated(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [type(each) for each in read.entries] == [Rating]


def test_a_ball_on_a_scale_bears_no_tongue(reads: Reader) -> None:
    assert isinstance(reads("ball on the scale 2 lb", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("tie downs for the mower its nine hundred pounds how many do i need", "mower"),
        ("chains for a skid steer 8,200 lb how many", "skid steer"),
        ("how many straps for a 4,200 lb tractor", "tractor"),
        ("how many chains for 6,800 lb of steel", "steel"),
    ],
)
def test_how_many_is_nothing_to_tie_down(reads: Reader, text: str, item: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Question)
    assert (read.topic, read.item) == ("tiedown", item)


@pytest.mark.parametrize(
    "text",
    [
        "left front 270 kPa, right front 275, left rear 330 and right rear 340, all cold",
        "LF 270, RF 275, LR 330 and RR 340 kPa, all cold",
    ],
)
def test_kilopascals_are_so_all_round(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road(units="metric"))
    assert isinstance(read, Facts)
    assert all(isinstance(each, Observation) for each in read.entries)
    assert [each.value.value for each in read.entries if isinstance(each, Observation)] == [
        270,
        275,
        330,
        340,
    ]


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("hitched the camper, ponies are in, 640 kg", "ponies"),
        ("hitched the flatdeck, cattle on, 3,400 lb", "cattle"),
        ("hitched the flatdeck, tractor on, 4,300 lb", "tractor"),
    ],
)
def test_what_went_into_what_was_hitched_rides_on_it(reads: Reader, text: str, item: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    hitched, carried = read.entries
    assert isinstance(hitched, Hitch)
    assert isinstance(carried, Cargo)
    assert carried.item == item


@pytest.mark.parametrize(
    "text",
    [
        "hitched the camper, lights on, 640 kg",
        "hitched the flatdeck, trailer on, 9,400 lb",
        "hitched the flatdeck, pin in, 640 lb",
        "hitched the camper, everyone in, 640 kg",
        "ponies are in, 640 kg",
    ],
)
def test_parts_and_people_that_are_in_are_no_cargo(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    entries = read.entries if isinstance(read, Facts) else ()
    assert not any(isinstance(each, Cargo) for each in entries)


@pytest.mark.parametrize(
    "text",
    [
        "got the hay stacked, trailer 7,400",
        "got the load sorted, trailer now 7,400 lb",
        "loaded the hay, trailer 7,400 lb",
    ],
)
def test_what_a_trailer_weighs_in_its_own_clause_is_no_cargo(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    entries = read.entries if isinstance(read, Facts) else ()
    assert not any(isinstance(each, Cargo) for each in entries)


def test_what_lies_on_a_trailer_is_cargo(reads: Reader) -> None:
    assert _cargo("loaded hay on the trailer 7,400 lb", reads) == ["hay 7400 trailer"]
