"""Ends of a truck where no axle is meant: seats, and what a trailer is hitched to."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "weighed Juniper by herself, two of us in the front and half a tank: 8,140",
            ["weighing aboard=2 fuel_level=0.5 gross=8140 rig=solo truck=Juniper"],
        ),
        (
            "Juniper alone, three kids in the back 8,260",
            ["weighing aboard=3 gross=8260 rig=solo truck=Juniper"],
        ),
        (
            "Juniper by herself, the dog in the back: 8,180",
            ["weighing gross=8180 rig=solo truck=Juniper"],
        ),
        (
            "two up in the front, half a tank, Juniper by herself 8,200 lb",
            ["weighing aboard=2 fuel_level=0.5 gross=8200 rig=solo truck=Juniper"],
        ),
        (
            "two of us aboard, in the front 5,180, in the rear 6,240",
            ["weighing aboard=2 drive=6240 steer=5180"],
        ),
        ("4 of us in front 5180 rear 6240", ["weighing aboard=4 drive=6240 steer=5180"]),
    ],
)
def test_where_somebody_sits_is_no_axle(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "camper's on the back and we're away, 48,040",
            ["hitch action=hitched trailer=camper", "odometer event=depart odometer=48040"],
        ),
        ("the camper is on the back", ["hitch action=hitched trailer=camper"]),
        ("the camper is on the back now", ["hitch action=hitched trailer=camper"]),
        ("flatdeck on the back and off we go", ["hitch action=hitched trailer=flatdeck"]),
        (
            "with the camper on the back: front axle 5,240, rear 6,690, trailer axles 7,860",
            ["weighing drive=6690 rig=hitched steer=5240 trailer=camper"],
        ),
        ("the camper's on the back lawn", ["silent"]),
        ("the camper is on the back burner", ["silent"]),
        ("the sticker's on the back", ["silent"]),
    ],
)
def test_a_trailer_on_the_back_is_hitched(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text, hitched=False) == entries


def test_who_left_with_a_trailer_on_the_back_did_not_leave_it(reads: Reader) -> None:
    text = "left with the camper on the back, 48,040"
    assert told(reads, text) == ["odometer event=depart odometer=48040"]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("740 lb on the ball with the camper", ["weighing tongue=740 trailer=camper"]),
        ("measured 74 kg on the towball, flatdeck", ["weighing tongue=74 trailer=flatdeck"]),
        ("85 kilos on the tow ball", ["weighing tongue=85"]),
        ("1,120 lb on the ball with the camper hooked", ["weighing tongue=1120 trailer=camper"]),
        ("camper on the ball", ["hitch action=hitched trailer=camper"]),
        ("loaded the bikes, 60 kg on the towbar", ["cargo item=bikes value=60"]),
    ],
)
def test_so_much_on_the_ball_bears_down_there(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text, hitched=False) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "camper all by its lonesome, not hooked up, 4,980",
            ["weighing gross=4980 rig=trailer trailer=camper"],
        ),
        (
            "flatdeck on its own not hitched 4980",
            ["weighing gross=4980 rig=trailer trailer=flatdeck"],
        ),
        ("not hitched, steer 5,200 drive 3,900", ["weighing drive=3900 rig=solo steer=5200"]),
        ("camper's not hitched yet", ["silent"]),
        ("camper's no hooked up yet", ["silent"]),
        ("no, hitched up the camper", ["hitch action=hitched trailer=camper"]),
        ("not hooked up yet, 48,060", ["silent"]),
    ],
)
def test_what_is_not_hitched_stood_without(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text, hitched=False) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "unhooked from the camper and ran Juniper over again: 4,920 up front, 3,980 out back",
            [
                "hitch action=unhitched trailer=camper truck=Juniper",
                "weighing drive=3980 rig=solo steer=4920 truck=Juniper",
            ],
        ),
        (
            "unhooked from the camper and put Juniper on the scale: 4,920 front, 3,980 rear",
            [
                "hitch action=unhitched trailer=camper truck=Juniper",
                "weighing drive=3980 rig=solo steer=4920 truck=Juniper",
            ],
        ),
        (
            "unhooked from the camper: steer 4,920 drive 3,980",
            ["weighing drive=3980 rig=solo steer=4920"],
        ),
    ],
)
def test_unhitched_and_weighed_again_are_two_things(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "docket 55172: Juniper + flatdeck 5.91 t gross",
            ["weighing gross=5.91 rig=hitched ticket=55172 trailer=flatdeck truck=Juniper"],
        ),
        (
            "Juniper and the camper came in at 6.12 t",
            ["weighing gross=6.12 rig=hitched trailer=camper truck=Juniper"],
        ),
        (
            "Juniper and the camper: 3.1 t and 2.8 t",
            ["weighing rig=hitched trailer=camper truck=Juniper"],
        ),
    ],
)
def test_one_load_in_tonnes_behind_both_is_the_gross(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text, units="metric") == entries
