"""Loads that are told beside each other: with the trailer and without, behind, from and to."""

from __future__ import annotations

import pytest

from domain.entries import Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.weighed import loads, weighings


@pytest.mark.parametrize(
    "text",
    [
        "we were 21,220 loaded and 11,980 without the trailer",
        "21,220 with the trailer and 11,980 without",
        "11,980 without the trailer and 21,220 with",
        "21,220 with the flatdeck, 11,980 without it",
        "weighed 21,220 with and 11,980 without the trailer",
        "21,220 hitched, 11,980 solo",
        "11,980 bobtail, 21,220 hooked up",
        "gross 21,220 hitched and 11,980 unhitched",
        "total 21,220 with the camper on and 11,980 with it off",
        "21,220 together, 11,980 truck alone",
        "hitched gross 21,220, unhitched truck 11,980",
        "truck by itself was 11,980, whole thing 21,220",
        "with trailer 21,220, without 11,980",
    ],
)
def test_the_rig_is_weighed_in_two_ways(text: str, reads: Reader) -> None:
    told = {each.rig: each.loads for each in weighings(text, reads)}
    assert told == {
        "hitched": {"gross": Quantity(21_220, "lb")},
        "solo": {"gross": Quantity(11_980, "lb")},
    }


@pytest.mark.parametrize(
    "text",
    [
        "salary 21,220 with bonus and 11,980 without",
        "the boat is 21,220 with the trailer and 11,980 without",
        "21,220 with the dog and 11,980 without",
        "ran 11,980 alone and 21,220 with the boys",
        "weighed 180 with boots and 176 without",
        "price is 21,220 loaded and 11,980 without leather",
    ],
)
def test_with_and_without_something_else_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("8,920 on the drives and 12,640 behind", {"drive": 8_920, "trailer": 12_640}),
        ("steer 5,160, drives 6,820, 9,240 behind", {"steer": 5_160, "drive": 6_820}),
        ("5,160 up front, 6,820 on the drives, 9,240 in tow", {"steer": 5_160, "drive": 6_820}),
        ("steer 5,160 drive 6,820 and behind 9,240", {"steer": 5_160, "drive": 6_820}),
        ("5,160 front, 6,820 rear, 9,240 out back", {"steer": 5_160, "drive": 6_820}),
        ("11,980 for the truck and 9,240 behind it", {"truck": 11_980}),
    ],
)
def test_what_is_behind_the_truck_is_the_trailer(
    text: str, told: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == {"trailer": 9_240, **told}


@pytest.mark.parametrize(
    "text",
    [
        "left 9,240 behind",
        "we have 9,240 pounds behind us",
        "he ran 8,920 behind",
        "12,640 people behind and 8,920 in front",
        "finished 8,920 of 12,640 behind the winner",
        "gained 8,920 on the day, 12,640 behind schedule",
    ],
)
def test_what_is_behind_something_else_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("tongue dropped from 1,340 to 1,180", {"tongue": 1_180}),
        ("moved the bikes, tongue went from 1,340 down to 1,180", {"tongue": 1_180}),
        ("tongue came down from 1,340 to 1,180", {"tongue": 1_180}),
        ("drive axle dropped from 7,120 to 6,820", {"drive": 6_820}),
        ("steer went up from 5,020 to 5,160", {"steer": 5_160}),
        ("trailer axles went from 9,640 to 9,240 after dumping water", {"trailer": 9_240}),
        ("gross fell from 21,640 to 21,220", {"gross": 21_220}),
    ],
)
def test_what_changed_is_what_it_came_to(text: str, told: dict[str, float], reads: Reader) -> None:
    assert loads(text, reads) == told


@pytest.mark.parametrize(
    ("text", "value"),
    [("coolant went from 230 to 198", 198), ("trans climbed from 190 to 224", 224)],
)
def test_so_it_is_with_a_gauge(text: str, value: float, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert isinstance(entry, Observation)
    assert entry.value == Quantity(value, "degF")


@pytest.mark.parametrize(
    "text",
    [
        "attendance dropped from 1,340 to 1,180",
        "rent went from 1,180 to 1,340",
        "followers went from 5,020 to 5,160",
        "my steer went from 1,340 to 1,180 lb",
        "my steer weighed 1,284",
    ],
)
def test_what_else_changed_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "odometer rolled 48k on the way in, 48,304 right now",
        "odo hit 48k on the way, 48,304 now",
        "odo rolled past 48k, reads 48,304",
    ],
)
def test_a_round_number_that_was_passed_gives_way_to_what_it_is_now(
    text: str, reads: Reader
) -> None:
    read = reads(text, on_the_road(odometer=Quantity(47_900, "mi")))
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert isinstance(entry, Odometer)
    assert entry.odometer == Quantity(48_304, "mi")


def test_about_so_much_gives_way_to_what_is_told_exactly(reads: Reader) -> None:
    assert loads("gross about 21k, 21,220 on the ticket", reads) == {"gross": 21_220}
    read = reads("about 31 gal, 31.4 on the pump", on_the_road())
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert getattr(entry, "volume", None) == Quantity(31.4, "gal")


@pytest.mark.parametrize(
    ("text", "subject", "trailer", "value"),
    [
        ("flatdeck weighs 2,460 empty", "trailer", "flatdeck", 2_460),
        ("our camper is 7,800 dry", "trailer", "camper", 7_800),
        ("the trailer is 2,460 unladen", "trailer", None, 2_460),
        ("Juniper weighs 7,480 empty", "truck", None, 7_480),
    ],
)
def test_what_a_vehicle_weighs_empty_is_its_curb_weight(
    text: str, subject: str, trailer: str | None, value: float, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert isinstance(entry, Rating)
    assert (entry.subject, entry.rating, entry.trailer) == (subject, "curb", trailer)
    assert entry.value == Quantity(value, "lb")


@pytest.mark.parametrize(
    "text",
    [
        "Mike's camper is 7,800 dry and he tows it with a V6",
        "my water bottle weighs 460 empty",
        "the tank is empty, 2,460 miles",
    ],
)
def test_what_else_is_empty_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "a cattle hauler in front got 5,340 steer",
        "a cattle hauler in front got 5,340 steer, 6,900 drive",
        "the hay truck ahead weighed 24,600 gross",
        "24,980 on the hay truck, not ours",
        "my fitbit says 11,140 lol, gross",
        "my watch says 11,140, gross",
        "my step counter says 11,140, do I get a gross weight",
    ],
)
def test_what_others_weighed_or_walked_is_no_load(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_hooked_and_unhooked_over_rows_of_loads_are_how_it_stood(reads: Reader) -> None:
    solo, hitched = weighings("unhooked: 5,020 6,120. hooked: 4,880 6,990 9,330", reads)
    assert (solo.rig, [*solo.loads]) == ("solo", ["steer", "drive"])
    assert (hitched.rig, [*hitched.loads]) == ("hitched", ["steer", "drive", "trailer"])


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("12,130 + 9,330 = 21,460", {"truck": 12_130, "trailer": 9_330, "gross": 21_460}),
        ("5,020 + 6,120 = 11,140", {"steer": 5_020, "drive": 6_120, "gross": 11_140}),
    ],
)
def test_what_no_front_axle_bears_is_the_truck(
    text: str, told: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("tongue came in at 910 with the water tank full", {"tongue": 910}),
        ("tongue was 910 after we moved the cooler", {"tongue": 910}),
        ("front axle reads 5,340 when the bed is empty", {"steer": 5_340}),
        ("moved the quad back, steer is 5,180 now", {"steer": 5_180}),
        ("after we shifted the tractor forward, tongue reads 1,240", {"tongue": 1_240}),
        ("got the water out, camper axles are 8,400", {"trailer": 8_400}),
        ("now steer is 5,180", {"steer": 5_180}),
        (
            "9,020 lb on the bridge all hooked up, camper axles 5,400",
            {"gross": 9_020, "trailer": 5_400},
        ),
    ],
)
def test_how_the_rig_stood_is_told_beside_a_load(
    text: str, told: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == told


@pytest.mark.parametrize(
    "text",
    [
        "Odette's camper is 9,400 lb and she pulls it with a hatchback",
        "dave's camper is 9,400 lb",
        "bob's camper weighs 7,800 he says",
        "thinking about a bigger truck, something with a 48 gallon tank",
        "shopping for a camper, gvwr 14,000",
        "the drive is 300 miles with stops",
        "long day, drive was 5000",
        "tires are 10 ply",
    ],
)
def test_what_others_have_and_what_only_sounds_so_is_no_matter_of_the_log(
    text: str, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_a_boat_on_our_boat_trailer_is_nobody_elses(reads: Reader) -> None:
    context = on_the_road(trailers=("boat trailer",), hitched=False)
    read = reads("boat trailer by itself on the scale, boat on it: 6,380", context)
    loads = {"gross": Quantity(6_380, "lb")}
    assert read == Facts((Weighing(loads=loads, rig="trailer", trailer="boat trailer"),))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("drive 7,120 up 200", {"drive": 7_120}),
        ("drive 7,120, up 200 from last time", {"drive": 7_120}),
        ("drive up 200 lb to 7,120", {"drive": 7_120}),
        ("steer dropped 160 to 5,180", {"steer": 5_180}),
        ("tongue 1,180, up 60", {"tongue": 1_180}),
        ("gross vehicle 21,740, tare 8,860, net 12,880", {"gross": 21_740}),
    ],
)
def test_by_how_much_it_changed_is_no_load(
    text: str, told: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == told


@pytest.mark.parametrize("text", ["trans up 20 to 218", "trans 218, up 20"])
def test_nor_is_it_what_a_gauge_shows(text: str, reads: Reader) -> None:
    shown = Observation(subject="transmission", value=Quantity(218, "degF"))
    assert reads(text, on_the_road()) == Facts((shown,))


@pytest.mark.parametrize("fee", ["cost 13.50", "paid 14", "fee 14", "$14"])
def test_a_lone_load_is_asked_about_whatever_the_scale_cost(fee: str, reads: Reader) -> None:
    asked = reads(f"weighed 21,300, {fee}", on_the_road())
    assert isinstance(asked, Ask)
    assert asked.figures == (Quantity(21_300, "lb"),)


@pytest.mark.parametrize("lead", ["ok no more guessing", "not guessing this time", "no guesswork"])
def test_what_is_no_more_guessed_was_weighed(lead: str, reads: Reader) -> None:
    assert loads(f"{lead}: trailer axles 5,640, truck 7,310", reads) == {
        "trailer": 5_640,
        "truck": 7_310,
    }


@pytest.mark.parametrize(
    "said", ["w/o the camper", "w/out the camper", "without the camper", "weighed w/o the camper"]
)
def test_a_rig_without_its_trailer_is_the_truck(said: str, reads: Reader) -> None:
    (only,) = weighings(f"{said}: front 4,920 rear 3,640", reads)
    assert only.rig == "solo"
    assert only.loads.keys() == {"steer", "drive"}


def test_axles_one_at_a_time_are_no_load_of_one(reads: Reader) -> None:
    assert loads("camper axles one at a time, front 3,180 rear 3,160", reads) == {
        "trailer_1": 3_180,
        "trailer_2": 3_160,
    }


def test_bars_that_are_abbreviated_are_off_and_then_on(reads: Reader) -> None:
    text = "no w/d bars: 4,640 7,380 9,140. bars hooked up: 5,020 6,880 9,260"
    assert [each.bars for each in weighings(text, reads)] == ["off", "on"]
