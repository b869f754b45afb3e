"""Axles that are counted on: 'trailer axle one 5,910, two 6,020'."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.weighed import loads

THREE = {"trailer_1": 5_910, "trailer_2": 6_020, "trailer_3": 5_870}


@pytest.mark.parametrize(
    "text",
    [
        "trailer axle one 5,910, two 6,020, three 5,870",
        "trailer axles 1: 5910 2: 6020 3: 5870",
        "trailer axle 1 5,910 / 2 6,020 / 3 5,870",
        "trailer axle one 5,910, two 6,020 and three 5,870",
        "trailer axle one 5,910, trailer axle two 6,020, three 5,870",
    ],
)
def test_a_number_behind_an_axles_load_counts_the_next(text: str, reads: Reader) -> None:
    assert loads(text, reads) == THREE
    assert loads(f"steer 5,290 drive 8,630 {text}", reads) == {
        "steer": 5_290,
        "drive": 8_630,
        **THREE,
    }


def test_a_number_that_does_not_follow_counts_no_axle(reads: Reader) -> None:
    text = "steer 5,290 drive 8,630 trailer axle 1 5,910, axle 2 6,020, 2 aboard"
    assert loads(text, reads) == {
        "steer": 5_290,
        "drive": 8_630,
        "trailer_1": 5_910,
        "trailer_2": 6_020,
    }
