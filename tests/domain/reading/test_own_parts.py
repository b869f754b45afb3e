"""Of several places or clock times each entry takes the one of its own part of the message."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

import pytest

from domain.entries import Hitch
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


def told(text: str, field: str, reads: Reader) -> list[object]:
    """What a field says of each entry that a message states."""
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    return [getattr(entry, field) for entry in read.entries]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "fuelled at Moss Gap 29.4 gal 48,211, weighed at Larkfold steer 5220 drive 6940",
            ["Moss Gap", "Larkfold"],
        ),
        (
            "weighed at Larkfold, steer 5220, drive 6940, fuelled at Moss Gap 29.4 gal 48,211",
            ["Larkfold", "Moss Gap"],
        ),
        (
            "steer 5220 drive 6940 at Larkfold then 29.4 gal, 48,211, at Moss Gap",
            ["Larkfold", "Moss Gap"],
        ),
        ("29.4 gal at Moss Gap, 5220 6940 12160 at Larkfold", ["Moss Gap", "Larkfold"]),
        ("31.2 gal 48,211 home 48,340", [None, "home"]),
        ("left home 6:15am 48,211, back home 48,340", ["home", "home"]),
        ("212 mi from home, 48,211", [None]),
        (
            "dropped the camper in Moss Gap 48,188, fueled in Larkfold 24.1 gal",
            ["Moss Gap", "Moss Gap", "Larkfold"],
        ),
        ("filled up 48,211 31.2 gal, home 48,340", [None, "home"]),
        ("got to Larkfold 48,211, filled 31.2 gal at 48,211", ["Larkfold", "Larkfold"]),
        ("left home 48,100, arrived Larkfold 48,211, 24.1 gal", ["home", "Larkfold"]),
        (
            "Left Moss Gap 48,211. 29.4 gal at Larkfold, 48,340",
            ["Moss Gap", "Larkfold"],
        ),
        (
            "dropped the camper at Moss Gap and fuelled at Larkfold 29.4 gal 48,211",
            ["Moss Gap", "Larkfold"],
        ),
        ("left Moss Gap, arrived Larkfold 48,340", ["Larkfold"]),
        ("arrived safely at Larkfold, 48,340", ["Larkfold"]),
        # One place is of all that is stated.
        ("at Larkfold, 29.4 gal 48,211, dropped the camper", ["Larkfold", "Larkfold"]),
        ("29.4 gal 48,211 at Moss Gap, no, Larkfold", ["Larkfold"]),
    ],
)
def test_each_entry_has_the_place_of_its_part(
    reads: Reader, text: str, places: Sequence[str]
) -> None:
    assert told(text, "place", reads) == places


@pytest.mark.parametrize(
    ("text", "clocks"),
    [
        (
            "hooked the camper at 6:40, weighed at 7:50 steer 5220 drive 6940 trailer 9310",
            ["11 06:40", "11 07:50"],
        ),
        (
            "camper dropped 7:10, lights checked at 7:30, left at 8:05 48,211",
            ["11 07:10", "11 07:30", "11 08:05"],
        ),
        (
            "29.4 gal 48,211 at 9:20 and dropped the camper at 10:15",
            ["11 09:20", "11 10:15"],
        ),
        (
            "left yesterday at 3pm 48,211, arrived this morning at 7:30 48,420",
            ["10 15:00", "11 07:30"],
        ),
        (
            "yesterday we left at 6:10, 48,211, and pulled in at 11:45, 48,420",
            ["10 06:10", "10 11:45"],
        ),
    ],
)
def test_each_entry_has_the_clock_of_its_part(
    reads: Reader, text: str, clocks: Sequence[str]
) -> None:
    moments = told(text, "at", reads)
    assert [f"{at:%d %H:%M}" for at in moments if isinstance(at, datetime)] == clocks


def test_a_moment_and_a_place_keep_together(reads: Reader) -> None:
    text = (
        "hooked the camper at Moss Gap at 6:40, weighed at Larkfold at 7:50 steer 5220 drive 6940"
    )
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    first, second = read.entries
    assert isinstance(first, Hitch)
    assert [(each.place, f"{each.at:%H:%M}") for each in (first, second)] == [
        ("Moss Gap", "06:40"),
        ("Larkfold", "07:50"),
    ]


@pytest.mark.parametrize(
    ("text", "hour"),
    [
        ("left 7am, got in at 2, 48,340", 14),
        ("left at 9:30, home at 1:40, 48,340", 13),
        ("left at 6:10am and got in at 11:45, 48,340", 11),
    ],
)
def test_an_hour_without_its_half_of_the_day_comes_behind_the_one_before(
    reads: Reader, text: str, hour: int
) -> None:
    (moment,) = told(text, "at", reads)
    assert isinstance(moment, datetime)
    assert moment.hour == hour


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("filled 26.4 gal at the grain co-op", "grain co-op"),
        ("filled 26.4 gal at the Dry Fork co-op", "Dry Fork co-op"),
        ("trans 212 at idle", None),
        ("oil 55 psi at startup", None),
        ("coolant 198 at highway speed", None),
        ("trans 190 at Rest Haven", "Rest Haven"),
    ],
)
def test_a_place_is_named_whole_and_how_an_engine_runs_is_none(
    text: str, place: str | None, reads: Reader
) -> None:
    assert told(text, "place", reads) == [place]


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("left at 6:10, 48,211, arrived 48,340", [6, None]),
        ("left 48,211, arrived 48,340 at 11:45", [None, 11]),
        ("left 6:10am, 48,211, fuel 24.1 gal 48,310", [6, None]),
        ("left at 6:10 48,211, fuel 24.1 gal", [6]),
    ],
)
def test_a_truck_is_at_one_place_at_each_hour(
    text: str, hours: Sequence[int | None], reads: Reader
) -> None:
    told = told_hours(text, reads)
    assert told == hours


def test_a_day_is_told_of_all_readings(reads: Reader) -> None:
    first, second = told("yesterday left at 6:10 48,211, arrived 48,340", "at", reads)
    assert isinstance(first, datetime)
    assert second == first.date()


@pytest.mark.parametrize(
    "text", ["trip meter says 212.4, 48,211", "did 212 miles, now at 48,211", "48,211 trip 212"]
)
def test_how_far_one_came_beside_the_reading(text: str, reads: Reader) -> None:
    assert told(text, "odometer", reads) == [Quantity(48_211, "mi")]


def told_hours(text: str, reads: Reader) -> list[int | None]:
    """The hour that each entry of a message was at."""
    return [each.hour if isinstance(each, datetime) else None for each in told(text, "at", reads)]
