"""How far a load is from the last one, how the rig stood, and what only looks like a fill."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from domain.entries import Fill, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road

SOLO = {"steer": 5_160, "drive": 6_880}
HITCHED = {"steer": 4_980, "drive": 7_060, "trailer": 9_420}


def weighings(text: str, reads: Reader) -> list[tuple[str | None, Mapping[str, float]]]:
    """How the rig stood at each weighing of a message that has nothing else, and its pounds."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert all(isinstance(entry, Weighing) for entry in verdict.entries), verdict
    return [
        (entry.rig, {at: load.value for at, load in entry.loads.items()})
        for entry in verdict.entries
        if isinstance(entry, Weighing)
    ]


@pytest.mark.parametrize(
    "text",
    [
        "5160/6880 truck only then 4980/7060/9420 hooked up",
        "5160/6880 truck only, 4980/7060/9420 hooked up",
        "5160 6880 unhooked, 4980 7060 9420 hooked",
        "truck only 5160/6880 then hooked up 4980/7060/9420",
    ],
)
def test_how_it_stood_may_be_said_behind_each_row(text: str, reads: Reader) -> None:
    assert weighings(text, reads) == [("solo", SOLO), ("hitched", HITCHED)]


def test_each_load_is_of_its_own_side(reads: Reader) -> None:
    alone, together = {"gross": 8_560}, {"gross": 16_980}
    for text in (
        "truck by itself was 8,560 and 16,980 with the camper",
        "just the truck 8,560 then 16,980 with the camper on",
    ):
        assert weighings(text, reads) == [("solo", alone), ("hitched", together)], text
    off = "solo 5,160 6,880 with the trailer off"
    assert weighings(off, reads) == [("solo", SOLO)]


def test_two_odometers_are_no_rig_weighed_twice(reads: Reader) -> None:
    verdict = reads("48,240 unhooked, 48,260 hooked", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert not any(isinstance(entry, Weighing) for entry in verdict.entries)


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("steer's 240 lighter than last time, 4,920", {"steer": 4_920}),
        ("drive is 300 lighter now, 7,020", {"drive": 7_020}),
        ("tongue is 120 heavier than last time, 960", {"tongue": 960}),
        ("steer 4,920, 240 lighter", {"steer": 4_920}),
        ("we're 600 heavier than last trip, 21,900 gross", {"gross": 21_900}),
        ("steer 4,920 heavier than expected, drive 6,880", {"steer": 4_920, "drive": 6_880}),
    ],
)
def test_how_much_lighter_it_is_was_not_weighed(
    text: str, loads: dict[str, float], reads: Reader
) -> None:
    assert [each for _, each in weighings(text, reads)] == [loads]


def test_what_a_trailer_rests_on_makes_all_of_it(reads: Reader) -> None:
    (told,) = weighings("trailer axle weight 9,260 tongue weight 1,140 = 10,400", reads)
    assert told == (None, {"trailer": 9_260, "tongue": 1_140, "gross": 10_400})


def test_no_rig_was_weighed_where_goods_were_left(reads: Reader) -> None:
    for text, place in (
        ("left the hives home today, 12,960 gross", None),
        ("left the trailer at the orchard, 12,960 gross", "orchard"),
    ):
        verdict = reads(text, on_the_road())
        assert isinstance(verdict, Facts), text
        assert {entry.place for entry in verdict.entries} == {place}, text


@pytest.mark.parametrize(
    "text",
    [
        "truck (2 axles) ...... 12,180\ntrailer (2 axles) .... 8,760",
        "truck ...... 12,180\ntrailer (3 axle) .... 8,760",
    ],
)
def test_axles_counted_in_brackets_name_no_load(text: str, reads: Reader) -> None:
    assert weighings(text, reads) == [("hitched", {"truck": 12_180, "trailer": 8_760})]


@pytest.mark.parametrize(
    "text",
    [
        "need a bigger tank, 24.6 gal is nothing",
        "24.6 gal isn't enough",
        "24.6 gallons is plenty",
        "24.6 gal won't do",
        "the drive's 300 lighter than his",
    ],
)
def test_a_remark_of_so_much_fuel_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "odometer"),
    [
        ("trailer 9.7k and 28.3 gal", None),
        ("camper 9,700 and 28.3 gal", None),
        ("with the camper 48,240, 28.3 gal", Quantity(48_240, "mi")),
    ],
)
def test_what_a_trailer_weighs_is_no_odometer(
    text: str, odometer: Quantity | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert (entry.volume, entry.odometer) == (Quantity(28.3, "gal"), odometer)


def test_a_fill_that_is_told_stays_one(reads: Reader) -> None:
    for text in ("24.6 gal was all it took", "24.6 gal is what it took"):
        assert isinstance(reads(text, on_the_road()), Facts), text
