"""What stands so far from an axle or a coupler is carried; the axle that it is told from is not."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "item", "pounds", "position", "distance"),
    [
        (
            "the extractor sits 4 ft ahead of the rear axle, 310 lb",
            "extractor",
            310,
            "ahead of rear axle",
            Quantity(4, "ft"),
        ),
        (
            "put the tote on the deck 3 ft behind the nose, 1,850 lb",
            "tote",
            1850,
            "behind nose",
            Quantity(3, "ft"),
        ),
        (
            "digger's parked 20 inches forward of the axles, 3,400 lb",
            "digger",
            3400,
            "forward of axles",
            Quantity(20, "in"),
        ),
        (
            "the quad is 5 ft in front of the axles, 640 lb",
            "quad",
            640,
            "in front of axles",
            Quantity(5, "ft"),
        ),
        (
            "drums stand 6 feet behind the trailer axle, 1,900 lb",
            "drums",
            1900,
            "behind trailer axle",
            Quantity(6, "ft"),
        ),
        (
            "freezer 190 lb, four foot behind the coupler",
            "freezer",
            190,
            "behind coupler",
            Quantity(4, "ft"),
        ),
        (
            "put the smoker one metre behind the axle, 260 lb",
            "smoker",
            260,
            "behind axle",
            Quantity(1, "m"),
        ),
    ],
)
def test_a_thing_stands_so_far_from_a_place(
    reads: Reader, text: str, item: str, pounds: float, position: str, distance: Quantity
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert (entry.item, entry.value) == (item, Quantity(pounds, "lb"))
    assert (entry.position, entry.distance) == (position, distance)


@pytest.mark.parametrize(
    "text",
    [
        "it sits 3 ft ahead of the rear axle, 790 lb",
        "she's parked 20 inches forward of the axles, 3,600 lb",
        "it's two feet behind the axle, 1,150 lb",
    ],
)
def test_a_place_that_is_measured_from_bears_nothing(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text", ["20 ft trailer, rear axle 6,120 lb", "pulled 2 foot ahead, rear axle 6,120 lb"]
)
def test_a_length_elsewhere_leaves_an_axle_its_load(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert entry.loads == {"drive": Quantity(6120, "lb")}


def test_a_place_may_be_the_last_word(reads: Reader) -> None:
    read = reads("added a crate, 130 lb, bed", on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert entry.position == "bed"
