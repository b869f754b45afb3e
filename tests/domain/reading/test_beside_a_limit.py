"""A load beside its limit, loads of no truck's two axles, and axles that are lacking."""

from __future__ import annotations

import pytest

from domain.entries import Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "gross 45,000 of 60,000 goal",
        "trailer 9,260 vs 10,400 rating",
        "scale guy said 21,220 but I didn't get the axles",
    ],
)
def test_what_is_not_understood_is_not_kept_as_something_else(reads: Reader, text: str) -> None:
    assert not isinstance(reads(text, on_the_road()), Facts)


def test_two_axles_of_a_truck_alone_are_kept(reads: Reader) -> None:
    read = reads("truck without the trailer 4,740 and 3,400", on_the_road())
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert set(entry.loads) == {"steer", "drive"}


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("hitch 10,000, rated 1,000 tongue", {"tow": 10_000, "tongue": 1_000}),
        ("receiver 12,500, max tongue 1,250", {"tow": 12_500, "tongue": 1_250}),
    ],
)
def test_a_hitchs_two_limits_are_both_limits(
    reads: Reader, text: str, ratings: dict[str, float]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    told = {each.rating: each.value for each in read.entries if isinstance(each, Rating)}
    assert told == {name: Quantity(value, "lb") for name, value in ratings.items()}


def weighed_and_rated(text: str, reads: Reader) -> tuple[dict[str, float], dict[str, float]]:
    """The loads and the ratings that a message states, in pounds."""
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    loads: dict[str, float] = {}
    ratings: dict[str, float] = {}
    for entry in read.entries:
        if isinstance(entry, Weighing):
            loads |= {at: load.value for at, load in entry.loads.items()}
        else:
            assert isinstance(entry, Rating)
            assert isinstance(entry.value, Quantity)
            ratings[entry.rating] = entry.value.value
    return loads, ratings


@pytest.mark.parametrize(
    "text",
    [
        "drive 6,820, rated 7,000",
        "drive 6,820 rated 7,000",
        "drive 6,820 (rated 7,000)",
        "drive 6,820 of 7,000",
        "drives 6,820 out of 7,000",
        "drives 6,820 / 7,000 max",
        "rear axle 6,820 against a 7,000 rating",
        "rear axle 6,820 and it's rated 7,000",
        "rear axle weighed 6,820, it's good for 7,000",
        "drive is 6,820, limit 7,000",
        "drive at 6,820, gawr is 7,000",
        "drive rated 7,000, weighed 6,820",
    ],
)
def test_a_load_and_its_limit_are_told_in_one_breath(text: str, reads: Reader) -> None:
    assert weighed_and_rated(text, reads) == ({"drive": 6_820}, {"gawr_rear": 7_000})


@pytest.mark.parametrize(
    ("text", "loads", "ratings"),
    [
        (
            "steer 5,160 of 5,250, drive 6,820 of 7,000",
            {"steer": 5_160, "drive": 6_820},
            {"gawr_front": 5_250, "gawr_rear": 7_000},
        ),
        ("tongue 1,180 of 1,200 allowed", {"tongue": 1_180}, {}),
        ("tongue 1,180, rated 1,200", {"tongue": 1_180}, {"tongue": 1_200}),
        ("tongue 1,180 and hitch rated 1,250", {"tongue": 1_180}, {"tongue": 1_250}),
        ("payload used 2,840 of 3,412", {}, {"payload": 3_412}),
        ("pin 2,260, truck payload 3,412", {"tongue": 2_260}, {"payload": 3_412}),
        ("rear came in at 6,880 on a 7,050 gawr", {"drive": 6_880}, {"gawr_rear": 7_050}),
        ("6,880 on the rear of a 7,050 gawr", {"drive": 6_880}, {"gawr_rear": 7_050}),
        ("truck weighed 11,940 on an 11,500 gvwr", {"truck": 11_940}, {"gvwr": 11_500}),
        ("rear GAWR 7,050 front GAWR 5,600", {}, {"gawr_rear": 7_050, "gawr_front": 5_600}),
        ("pin 2,140, max 2,500", {"tongue": 2_140}, {"tongue": 2_500}),
        ("trailer axle 4,620, rated 5,200", {"trailer": 4_620}, {"gawr": 5_200}),
        ("trailer axles 9,240, rated 10,400", {"trailer": 9_240}, {}),
        ("steer 5,160, 90 under the rating", {"steer": 5_160}, {}),
        (
            "steer 5,160 drive 6,820 trailer 9,240, drive is rated 7,000",
            {"steer": 5_160, "drive": 6_820, "trailer": 9_240},
            {"gawr_rear": 7_000},
        ),
        (
            "steer 5,160 drive 6,820 trailer 9,240 gross 21,220, gcwr 24,000",
            {"steer": 5_160, "drive": 6_820, "trailer": 9_240, "gross": 21_220},
            {"gcwr": 24_000},
        ),
        (
            "steer 5,160 drive 6,820, gvwr 12,300",
            {"steer": 5_160, "drive": 6_820},
            {"gvwr": 12_300},
        ),
    ],
)
def test_what_was_weighed_is_no_limit(
    text: str, loads: dict[str, float], ratings: dict[str, float], reads: Reader
) -> None:
    assert weighed_and_rated(text, reads) == (loads, ratings)


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("front tires rated 2680, rear axle 7000", {"tyre_load": 2_680, "gawr_rear": 7_000}),
        ("max 5,250 front, 7,000 rear", {"gawr_front": 5_250, "gawr_rear": 7_000}),
        ("drive axle limit of 7,000", {"gawr_rear": 7_000}),
        (
            "front axle 3,525, rear axle 3,915, gvwr 6,900",
            {"gawr_front": 3_525, "gawr_rear": 3_915, "gvwr": 6_900},
        ),
    ],
)
def test_what_is_rated_was_not_weighed(text: str, ratings: dict[str, float], reads: Reader) -> None:
    assert weighed_and_rated(text, reads) == ({}, ratings)


def test_tyres_of_both_ends_are_rated(reads: Reader) -> None:
    read = reads("front tires rated 2680 each, rears 3195 each", on_the_road())
    assert isinstance(read, Facts)
    told = [each.value for each in read.entries if isinstance(each, Rating)]
    assert told == [Quantity(2_680, "lb"), Quantity(3_195, "lb")]


def test_a_hitchs_pull_told_twice_is_one_rating(reads: Reader) -> None:
    read = reads("tow bar 3500 kg, towball 350 kg, tow 3500", on_the_road(units="metric"))
    assert isinstance(read, Facts)
    told = [(each.rating, each.value) for each in read.entries if isinstance(each, Rating)]
    assert told == [("tow", Quantity(3_500, "kg")), ("tongue", Quantity(350, "kg"))]


@pytest.mark.parametrize(
    "text",
    [
        "he scored 6,820 of 7,000",
        "finished 6,820 of 7,000 tickets",
        "total 3,200 of 5,000",
        "bought 5 gal of hydraulic oil",
        "drive 682 of 700 miles",
        "this hotel is rated 4.5, 2,300 reviews",
        "front row 1,820 of 2,000 seats sold",
        "my steer placed 12 of 40",
        "price of the trailer 5,200, rated 7,000",
    ],
)
def test_so_many_of_so_many_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "loads", "ratings"),
    [
        ("drive axle rated 7,000 and we scaled 6,820", {"drive": 6_820}, {"gawr_rear": 7_000}),
        ("front gawr 5,600, we were at 5,240", {"steer": 5_240}, {"gawr_front": 5_600}),
        ("rear axle limit 7,050 we were at 6,880", {"drive": 6_880}, {"gawr_rear": 7_050}),
        (
            "rear is good for 7,050 but we're only at 6,880",
            {"drive": 6_880},
            {"gawr_rear": 7_050},
        ),
        ("front gawr 5,600, rear gawr 7,050", {}, {"gawr_front": 5_600, "gawr_rear": 7_050}),
    ],
)
def test_a_limit_may_stand_before_its_load(
    reads: Reader, text: str, loads: dict[str, float], ratings: dict[str, float]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    weighed = [each for each in read.entries if isinstance(each, Weighing)]
    told = {at: load.value for each in weighed for at, load in each.loads.items()}
    assert told == loads
    rated = [each for each in read.entries if isinstance(each, Rating)]
    limits = {e.rating: e.value.value for e in rated if isinstance(e.value, Quantity)}
    assert limits == ratings


def test_a_gross_that_is_so_much_of_a_limit_is_kept(reads: Reader) -> None:
    read = reads("gross 21,220 of 24,000", on_the_road())
    assert isinstance(read, Facts)
    assert [each.loads for each in read.entries if isinstance(each, Weighing)] == [
        {"gross": Quantity(21_220, "lb")}
    ]
    assert len(read.entries) == 1


@pytest.mark.parametrize(
    ("text", "load", "rated"),
    [
        ("camper 9,240, axles rated 5,080 each", {"trailer": 9_240}, {"gawr": 5_080}),
        ("hitch rated 12,000, tongue 1,140 today", {"tongue": 1_140}, {"tow": 12_000}),
        ("coupler rated 14,000, pin 1,940", {"tongue": 1_940}, {"tow": 14_000}),
        ("ball good for 8,000, tongue weighs 930", {"tongue": 930}, {"tow": 8_000}),
        ("hitch says 1,500 lb max tongue, ours is 1,040", {"tongue": 1_040}, {"tongue": 1_500}),
        ("rear is 7,250 gawr, ours is 6,940", {"drive": 6_940}, {"gawr_rear": 7_250}),
        ("front 5,200 gawr, we have 5,160", {"steer": 5_160}, {"gawr_front": 5_200}),
        ("front 5,200 gawr rear 7,250 gawr", {}, {"gawr_front": 5_200, "gawr_rear": 7_250}),
        # In the steps of makers it is a limit, too.
        ("hitch rated 12,000 tongue 1,200", {}, {"tow": 12_000, "tongue": 1_200}),
        ("camper 9,500, axles rated 5,080 each", {}, {"gvwr": 9_500, "gawr": 5_080}),
    ],
)
def test_a_load_as_a_scale_shows_it_is_none_of_the_limits_beside_it(
    reads: Reader, text: str, load: dict[str, float], rated: dict[str, float]
) -> None:
    read = reads(text, on_the_road(trailers=("camper", "flatdeck")))
    assert isinstance(read, Facts)
    weighed = [entry.loads for entry in read.entries if isinstance(entry, Weighing)]
    assert {at: each.value for loads in weighed for at, each in loads.items()} == load
    ratings = [entry for entry in read.entries if isinstance(entry, Rating)]
    values = {entry.rating: entry.value for entry in ratings}
    assert {name: getattr(value, "value", value) for name, value in values.items()} == rated
