"""Limits of two axles under one word, and a gross that stands behind its figure on a label."""

from __future__ import annotations

import pytest

from domain.entries import Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Verdict
from tests.domain.reading.chats import Reader, on_the_road

TRUCK = {"gawr_front": 5_150, "gawr_rear": 6_800}


def assert_rated(read: Verdict, subject: str, ratings: dict[str, float]) -> None:
    """That a message states these ratings in pounds, and all of one vehicle."""
    assert isinstance(read, Facts), read
    told = {each.rating: each.value for each in read.entries if isinstance(each, Rating)}
    assert told == {name: Quantity(value, "lb") for name, value in ratings.items()}
    assert {each.subject for each in read.entries if isinstance(each, Rating)} == {subject}


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        (
            "the sticker on the door says gross 11,200 and the two axles 5,150 and 6,800",
            {"gvwr": 11_200, **TRUCK},
        ),
        ("door label gvwr 11200 axles 5150/6800", {"gvwr": 11_200, **TRUCK}),
        ("gvwr 11,200, both axles 5,150 and 6,800", {"gvwr": 11_200, **TRUCK}),
        ("gawr 5,150 and 6,800", TRUCK),
        ("axle ratings are 5,150 / 6,800", TRUCK),
        ("front and rear gawr 5,150 and 6,800", TRUCK),
        ("gawr front/rear 5150/6800", TRUCK),
        ("front gawr and rear gawr 5,150 and 6,800", TRUCK),
        ("truck sticker 11,200 gross", {"gvwr": 11_200}),
    ],
)
def test_unlike_axles_are_a_trucks_front_and_rear(
    reads: Reader, text: str, ratings: dict[str, float]
) -> None:
    assert_rated(reads(text, on_the_road()), "truck", ratings)


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("trailer plate 7,000 gross, axles 3,500 each", {"gvwr": 7_000, "gawr": 3_500}),
        ("trailer plate gvwr 14,000, axles 7,000 and 7,000", {"gvwr": 14_000, "gawr": 7_000}),
        ("plate on the trailer says 7,000 gross", {"gvwr": 7_000}),
    ],
)
def test_like_axles_and_the_plate_on_it_are_a_trailers(
    reads: Reader, text: str, ratings: dict[str, float]
) -> None:
    assert_rated(reads(text, on_the_road()), "trailer", ratings)


@pytest.mark.parametrize(
    "text",
    [
        "drive plate 6,940 trailer plate 9,340 gross 21,420",
        "trailer plate 9,340, gross 20,100",
        "steer plate 5,140 drive plate 6,940 trailer plate 9,340",
    ],
)
def test_what_stands_on_a_scales_plates_was_weighed(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
