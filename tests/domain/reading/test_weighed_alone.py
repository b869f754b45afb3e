"""A truck or a trailer that stood on the scale by itself, and what is told beside it."""

from __future__ import annotations

import pytest

from domain.entries import Check, Hitch, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


def weighing(text: str, reads: Reader) -> Weighing:
    """The one weighing that a message states, and nothing besides."""
    read = reads(text, on_the_road(hitched=False))
    assert isinstance(read, Facts), text
    (only,) = read.entries
    assert isinstance(only, Weighing)
    return only


@pytest.mark.parametrize(
    "text",
    [
        "unhooked from the truck the flatdeck weighs 3,120 lb",
        "unhitched from Juniper, flatdeck by itself is 3,120",
        "flatdeck unhooked from Juniper weighs 3,120 lb",
        "got the flatdeck weighed: unhooked from the truck it's 3,120 lb all by itself",
        "flatdeck alone on the pads, unhitched: 3,120 lb",
        "flatdeck by itself over the plates, unhooked, 3,120, tyres new, paint peeling, rust gone",
        "flatdeck on its own, unhitched, with two goats in it: 3,120 lb",
        "flatdeck on its own, two hives on the deck: 3,120 lb",
        "flatdeck by itself, nothing on it, 3,120 lb",
        "just the flatdeck, quad on it, 3,120 lb",
        "no truck, flatdeck 3,120 lb",
    ],
)
def test_a_trailer_that_is_weighed_unhooked_is_weighed_and_no_more(
    text: str, reads: Reader
) -> None:
    read = weighing(text, reads)
    assert (read.rig, read.trailer, read.loads) == (
        "trailer",
        "flatdeck",
        {"gross": Quantity(3_120, "lb")},
    )


@pytest.mark.parametrize(
    "text",
    [
        "Juniper without the boat, solo, 8,140",
        "Juniper without the flatdeck, 8,140",
        "truck without a trailer 8,140",
        "unhooked from the camper, Juniper alone is 8,140",
    ],
)
def test_a_truck_without_something_stood_alone(text: str, reads: Reader) -> None:
    read = weighing(text, reads)
    assert (read.rig, read.loads) == ("solo", {"gross": Quantity(8_140, "lb")})


@pytest.mark.parametrize(
    "text", ["unhooked the flatdeck from the truck", "dropped the flatdeck and went home"]
)
def test_a_trailer_that_is_taken_off_is_taken_off(text: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [type(each) for each in read.entries] == [Hitch]


@pytest.mark.parametrize(
    ("said", "aboard"),
    [
        ("missus and me in it so 2 in the truck", 2),
        ("me and Odile, 2 aboard", 2),
        ("two kids, wife and me, 4 in the cab", 4),
        ("3 kids + 2 aboard", 5),
    ],
)
def test_who_is_aboard_is_counted_once(said: str, aboard: int, reads: Reader) -> None:
    assert weighing(f"solo 8,140, {said}", reads).aboard == aboard


@pytest.mark.parametrize(
    "text",
    [
        "drive is 7,120, steers 5,200, trailer 9,840 with nine heifers in",
        "drive axle at 7,120, steer 5,200, trailer 9,840 and both bulls in there",
        "7,120 drive, 5,200 steer, 9,840 trailer, that's 14 calves",
    ],
)
def test_a_steer_axle_stays_one_where_cattle_ride_along(text: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (only,) = read.entries
    assert isinstance(only, Weighing)
    assert {at: load.value for at, load in only.loads.items()} == {
        "drive": 7_120,
        "steer": 5_200,
        "trailer": 9_840,
    }


@pytest.mark.parametrize(
    "text",
    [
        "the drive was 480 miles for 20 steers at 1,150 lb",
        "good drive home with 12 steers, 1,150 each",
        "not bad for a load of hives",
        "not a bad load of hay",
        "the guy was not bad on the pads",
    ],
)
def test_cattle_and_praise_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_praise_of_a_load_is_no_fault_of_it(reads: Reader) -> None:
    read = reads(
        "steer 5,300 drive 7,100 trailer 9,400, not bad for a load of hives", on_the_road()
    )
    assert isinstance(read, Facts)
    assert not any(isinstance(each, Check) for each in read.entries)


@pytest.mark.parametrize(
    "text",
    [
        "Truck, steer: 5,280. Truck, drive: 6,940. Trailer, front axle: 4,900. "
        "Trailer, rear axle: 5,040. Sum on the slip 22,160.",
        "truck, front: 5,280; truck, rear: 6,940; trailer, front: 4,900; trailer, rear: 5,040; "
        "total on the ticket 22,160",
    ],
)
def test_a_part_may_follow_its_vehicle_and_a_comma(text: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (only,) = read.entries
    assert isinstance(only, Weighing)
    assert {at: load.value for at, load in only.loads.items()} == {
        "steer": 5_280,
        "drive": 6_940,
        "trailer_1": 4_900,
        "trailer_2": 5_040,
        "gross": 22_160,
    }
    assert only.ticket is None


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("solo 8140, me and dad up front", {"gross": 8_140}),
        ("truck only 8,320 fuel 3/4 driver only", {"gross": 8_320}),
        ("Juniper's 5,200 up front, 6,900 in back", {"steer": 5_200, "drive": 6_900}),
    ],
)
def test_where_people_sit_is_no_axle(reads: Reader, text: str, loads: dict[str, float]) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    assert {at: load.value for at, load in weighing.loads.items()} == loads


@pytest.mark.parametrize(
    "text",
    [
        "the scale says 19,920 with the hay on",
        "scale says 8,420 with the dog in the cab",
        "weighed 19,920 with my cousin aboard",
    ],
)
def test_a_lone_load_is_asked_about_whatever_was_aboard(text: str, reads: Reader) -> None:
    asked = reads(text, on_the_road())
    assert isinstance(asked, Ask)
    meant = [entry for each in asked.choices for entry in each.entries]
    loads = [set(entry.loads) for entry in meant if isinstance(entry, Weighing)]
    assert loads == [{"gross"}, {"trailer"}]


@pytest.mark.parametrize(
    "text",
    [
        "weighed 140 with the dog",
        "the cat on the front seat weighs 12 lb",
        "the dog on the front seat weighs 60 lb",
    ],
)
def test_what_lies_in_the_cab_is_no_axles_load(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text", ["trailer axles 9,940 (4,900 and 5,040)", "trlr tandem 9,940 (4,900/5,040)"]
)
def test_what_two_axles_behind_it_make_is_the_trailers(text: str, reads: Reader) -> None:
    loads = weighing(text, reads).loads
    assert {at: load.value for at, load in loads.items()} == {
        "trailer": 9940,
        "trailer_1": 4900,
        "trailer_2": 5040,
    }


def test_three_axles_of_which_none_is_the_sum_are_three(reads: Reader) -> None:
    loads = weighing("trailer axles 4,900 5,040 5,000", reads).loads
    assert [*loads] == ["trailer_1", "trailer_2", "trailer_3"]


@pytest.mark.parametrize("text", ["did the walkaround happen", "did the pretrip happen yet"])
def test_whether_it_was_looked_at_is_no_check(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "left the trailer at home, gross 8,140",
        "left the trailer home, 8,140 on the scale",
        "trailer's at home, gross 8,140",
        "gross 8,140, trailer left at home",
    ],
)
def test_a_trailer_that_stayed_home_says_that_the_truck_was_alone(text: str, reads: Reader) -> None:
    read = weighing(text, reads)
    assert (read.rig, read.place, read.loads) == ("solo", None, {"gross": Quantity(8_140, "lb")})


@pytest.mark.parametrize(
    "text", ["got home with the trailer, gross 21,340", "left home with the trailer, gross 21,340"]
)
def test_a_trailer_that_came_along_did_not(text: str, reads: Reader) -> None:
    read = weighing(text, reads)
    assert (read.rig, read.place) == ("hitched", "home")


@pytest.mark.parametrize(
    "text",
    [
        "just the trailer 9,640 and 1,080 tongue",
        "just the trailer 9,640, tongue 1,080",
        "trailer alone 9,640 tongue 1,080",
    ],
)
def test_a_trailer_alone_and_its_tongue(text: str, reads: Reader) -> None:
    read = weighing(text, reads)
    loads = {"gross": Quantity(9_640, "lb"), "tongue": Quantity(1_080, "lb")}
    assert (read.rig, read.loads) == ("trailer", loads)


@pytest.mark.parametrize(
    "text",
    ["21,340 hooked up", "21,340 all hooked up", "21,340 hitched", "21,340 with the trailer"],
)
def test_so_much_and_how_it_stood_is_a_weighing(text: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert read == Facts((Weighing(loads={"gross": Quantity(21_340, "lb")}, rig="hitched"),))


@pytest.mark.parametrize("text", ["48,340 hooked up", "340 hooked up", "21,340 hooked up, leaving"])
def test_what_no_rig_weighs_is_none(text: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert not (isinstance(read, Facts) and any(isinstance(e, Weighing) for e in read.entries))


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "weighed the camper steer 5,280 drive 7,140 gross 23,620",
            ["weighing drive=7140 gross=23620 rig=hitched steer=5280 trailer=camper"],
        ),
        (
            "towing the flatdeck steers 5,280 drives 7,140",
            ["weighing drive=7140 rig=hitched steer=5280 trailer=flatdeck"],
        ),
        (
            "camper front axle 2,210, rear axle 2,340",
            ["weighing trailer=camper trailer_1=2210 trailer_2=2340"],
        ),
        (
            "camper off the truck and on the scales by itself, 5,020",
            ["weighing gross=5020 rig=trailer trailer=camper"],
        ),
        (
            "camper off Juniper, on the scale alone 5,020",
            ["weighing gross=5020 rig=trailer trailer=camper truck=Juniper"],
        ),
        ("truck with the camper off 8,140", ["weighing gross=8140 rig=solo"]),
        (
            "we unhooked the camper and weighed her alone, and the total was 5,020",
            [
                "hitch action=unhitched trailer=camper",
                "weighing gross=5020 rig=trailer trailer=camper",
            ],
        ),
        (
            "we unhooked the camper and weighed the truck alone, the total was 8,140",
            ["hitch action=unhitched trailer=camper", "weighing gross=8140 rig=solo"],
        ),
    ],
)
def test_whose_axle_it_is_and_what_stood_alone(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries
