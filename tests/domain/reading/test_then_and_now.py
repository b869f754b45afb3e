"""What a place weighed another day, beside what it weighs now."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


def weighed(reads: Reader, text: str) -> list[dict[str, float]]:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    assert all(isinstance(each, Weighing) for each in read.entries)
    return [
        {at: load.value for at, load in each.loads.items()}
        for each in read.entries
        if isinstance(each, Weighing)
    ]


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("tongue 1,180, last time 1,340", {"tongue": 1_180}),
        ("tongue 1,180 (last time 1,340)", {"tongue": 1_180}),
        ("steer 5,180, last trip it was 5,240", {"steer": 5_180}),
        ("with the bars hooked steer went up to 5,010 from 4,620", {"steer": 5_010}),
        ("tongue down to 1,040 from 1,280", {"tongue": 1_040}),
        ("gross is 21,340, up from 20,980", {"gross": 21_340}),
        ("steer 4,860 lb from 5,210 lb, drive 6,880", {"steer": 4_860, "drive": 6_880}),
        ("steer 4860 (was 5210 solo)", {"steer": 4_860}),
        ("steer 4,860, was 5,210", {"steer": 4_860}),
        # Two places, and no one as it was.
        ("rear was 6,180, front was 4,920", {"drive": 6_180, "steer": 4_920}),
        ("tongue 1,040, trailer was 9,860", {"tongue": 1_040, "trailer": 9_860}),
        ("tongue 1,180 -> 1,240", {"tongue": 1_240}),
        ("trailer axles 9,340 -> 8,980 after dumping water", {"trailer": 8_980}),
        ("steer 4,860 -> 5,180, drive 7,180 -> 6,720", {"steer": 5_180, "drive": 6_720}),
    ],
)
def test_a_load_of_another_day_is_none_of_today(
    reads: Reader, text: str, loads: dict[str, float]
) -> None:
    assert weighed(reads, text) == [loads]


def test_an_arrow_from_place_to_place_leaves_each_its_load(reads: Reader) -> None:
    assert weighed(reads, "steer 5,180 -> drive 6,880 -> trailer 9,040") == [
        {"steer": 5_180, "drive": 6_880, "trailer": 9_040}
    ]
