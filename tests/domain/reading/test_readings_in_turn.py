"""Several readings of one thing in a message: each has its own event and its own place."""

from __future__ import annotations

from typing import Literal

import pytest

from domain.entries import Fill, Observation, Odometer, Rating
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road

Told = tuple[float, str | None, str | None]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("left at 48,100, now at 48,210", [(48_100, "depart", None), (48_210, None, None)]),
        (
            "left home at 48,100 and rolled in at 48,210",
            [(48_100, "depart", "home"), (48_210, "arrive", None)],
        ),
        (
            "left home 48,100, got to the lake 48,210",
            [(48_100, "depart", "home"), (48_210, "arrive", "lake")],
        ),
        (
            "48,100 leaving home, 48,210 at the lake",
            [(48_100, "depart", "home"), (48_210, None, "lake")],
        ),
        (
            "left 48,100 back home 48,210",
            [(48_100, "depart", None), (48_210, "arrive", "home")],
        ),
    ],
)
def test_a_truck_is_at_one_place_at_each_reading(
    reads: Reader, text: str, told: list[Told]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    entries = [each for each in read.entries if isinstance(each, Odometer)]
    assert [(each.odometer.value, each.event, each.place) for each in entries] == told


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("left front trailer tire was at 58, aired it back up to 80", "trailer left front"),
        ("LR trailer tire 62 psi, topped it up to 80", "trailer left rear"),
        ("left rear tire low at 48, aired up to 80", "left rear"),
    ],
)
def test_a_tyre_that_is_aired_up_is_where_it_was(reads: Reader, text: str, position: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    seen = [each for each in read.entries if isinstance(each, Observation)]
    assert seen[-1].value == Quantity(80, "psi")
    assert {each.position for each in seen} == {position}


@pytest.mark.parametrize(
    "text", ["tires ST235/80R16 E 80 psi", "tires ST235/80R16 load range E at 80 psi cold"]
)
def test_what_stands_behind_a_tyres_size_is_on_its_wall(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (rating,) = read.entries
    assert isinstance(rating, Rating)
    assert (rating.subject, rating.rating, rating.place) == ("tyres", "pressure", None)
    assert rating.value == Quantity(80, "psi")


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("arrived 48,210, then topped off, 19.8 gal", "arrive"),
        ("got there 48,210 then topped off 19.8 gal", "arrive"),
        ("left 48,210, then topped off, 19.8 gal", "depart"),
        ("arrived 48,210 and topped off there, 19.8 gal", "arrive"),
    ],
)
def test_what_was_read_before_the_fill_stays_with_what_happened(
    text: str, event: Literal["arrive", "depart"], reads: Reader
) -> None:
    reading = Odometer(odometer=Quantity(48_210, "mi"), event=event)
    filled = Fill(volume=Quantity(19.8, "gal"), full=True)
    assert reads(text, on_the_road()) == Facts((reading, filled))


def test_a_reading_at_the_pump_is_the_fills(reads: Reader) -> None:
    filled = Fill(volume=Quantity(19.8, "gal"), odometer=Quantity(48_210, "mi"), full=True)
    assert reads("arrived, then topped off 19.8 gal at 48,210", on_the_road()) == Facts((filled,))
