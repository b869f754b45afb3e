"""Two passes over a scale, between which the trailer was taken off or put on."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road

HITCHED = "steer 5,240 drive 7,180 trailer 9,340"
SOLO = "steer 5,310 drive 4,120"


@pytest.mark.parametrize(
    ("text", "rigs"),
    [
        (f"{HITCHED}, dropped the trailer, {SOLO}", ["hitched", "solo"]),
        (f"{HITCHED}. dropped the trailer: front axle 5,310 rear 4,120", ["hitched", "solo"]),
        (f"{HITCHED}. Left the flatdeck in the lot and reweighed: {SOLO}", ["hitched", "solo"]),
        (f"{SOLO} then hooked the camper, {HITCHED}", ["solo", "hitched"]),
        (f"unhooked the camper: {SOLO}. hooked it back up: {HITCHED}", ["solo", "hitched"]),
        (f"{HITCHED}, then parked and dropped the trailer at the barn", ["hitched"]),
        (f"{HITCHED}, then {SOLO}", ["hitched", None]),
    ],
)
def test_the_truck_stood_alone_when_the_trailer_was_off(
    text: str, rigs: list[str | None], reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [each.rig for each in read.entries if isinstance(each, Weighing)] == rigs


def test_what_is_off_before_a_dash_is_not_the_trailer(reads: Reader) -> None:
    assert isinstance(reads("the lid is off - trailer is fine", on_the_road()), Silent)
    assert isinstance(reads("unhitched - flatdeck at home", on_the_road()), Facts)


@pytest.mark.parametrize("apart", ["alone", "not hooked up", "by itself"])
def test_axles_beside_a_tongue_are_those_of_the_trailer_that_stood_alone(
    apart: str, reads: Reader
) -> None:
    text = f"camper {apart}, front axle 2,460 rear axle 2,520 tongue 690"
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.rig, set(weighing.loads)) == ("trailer", {"trailer_1", "trailer_2", "tongue"})


def test_axles_without_a_tongue_are_the_trucks_where_the_trailer_was_off(reads: Reader) -> None:
    read = reads("camper not hooked up, steer 5,310 drive 4,120", on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    assert set(weighing.loads) == {"steer", "drive"}
