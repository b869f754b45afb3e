"""A load beside its limit, loads of no truck's two axles, and axles that are lacking."""

from __future__ import annotations

import pytest

from domain.entries import Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "trailer axles 9,240, rated 10,400",
        "we were 21,220 loaded and 11,980 without the trailer",
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
