"""Places of which a rig has several, and vehicles that are carried there."""

from __future__ import annotations

import pytest

from domain.entries import Cargo
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def _carried(text: str, reads: Reader) -> list[tuple[str | None, float, str, str | None]]:
    """What a message says is carried: each item, its weight, unit and place; and nothing else."""
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    found = [each for each in read.entries if isinstance(each, Cargo)]
    assert len(found) == len(read.entries)
    return [(each.item, each.value.value, each.value.unit, each.position) for each in found]


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("compressor 180 lb on the top rack", "top rack"),
        ("compressor 180 lb in the left stall", "left stall"),
        ("compressor 180 lb in the front stall", "front stall"),
        ("compressor 180 lb in the rear garage", "rear garage"),
        ("compressor 180 lb over the second axle", "over second axle"),
        ("compressor 180 lb in the right bay", "right bay"),
    ],
)
def test_which_of_several_places_is_kept(text: str, position: str, reads: Reader) -> None:
    assert _carried(text, reads) == [("compressor", 180, "lb", position)]


@pytest.mark.parametrize(
    ("text", "item", "position"),
    [
        ("mower 740 lb, 30 in ahead of the trailer axle", "mower", "ahead of trailer axle"),
        ("the tractor is 740 lb in the bed", "tractor", "bed"),
        ("car, 740 lb, over the axles", "car", "over axles"),
    ],
)
def test_a_vehicle_at_a_place_of_the_rig_is_carried(
    text: str, item: str, position: str, reads: Reader
) -> None:
    assert _carried(text, reads) == [(item, 740, "lb", position)]


@pytest.mark.parametrize(
    "text",
    [
        "his mower is 740 lb in the bed",
        "the car is 3,400 lb in the driveway",
        "the mower is 740 lb",
        "cod 20 kg in the bay",
    ],
)
def test_a_vehicle_elsewhere_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_a_bare_mass_has_the_unit_of_its_row(reads: Reader) -> None:
    assert _carried("grey 510 kg in the left bay, roan 465 in the right bay", reads) == [
        ("grey", 510, "kg", "left bay"),
        ("roan", 465, "kg", "right bay"),
    ]
