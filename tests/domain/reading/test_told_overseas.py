"""Who was aboard, when it was and what came between, as towers overseas tell it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from domain.entries import Fill, Observation, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road

GROSS = {"gross": Quantity(12_310, "lb")}
SOLO, HITCHED = Weighing(loads=GROSS, rig="solo"), Weighing(loads=GROSS, rig="hitched")
WHICH_RIG = Ask("rig", (Choice("with the camper", (HITCHED,)), Choice("alone", (SOLO,))))


@pytest.mark.parametrize(
    ("text", "picked"),
    [
        ("just the truck, no camper on it", SOLO),
        ("without the camper on", SOLO),
        ("the camper wasnt hitched up", SOLO),
        ("no the camper was on", HITCHED),
        ("camper on", HITCHED),
    ],
)
def test_a_trailer_that_was_not_on_answers(text: str, picked: Weighing, reads: Reader) -> None:
    assert reads(text, replace(on_the_road(), asked=WHICH_RIG)) == Facts((picked,))


@pytest.mark.parametrize(
    ("who", "aboard"),
    [
        ("2 adults and a toddler in", 3),
        ("me, the wife and a baby in the cab", 3),
        ("me and the nipper aboard", 2),
        ("two adults and 3 kids aboard", 5),
        ("4 grown ups plus the dog in", 4),
        ("me, Jo and the baby aboard", 3),
        ("my two boys (9 and 12) and me in the truck", 3),
        ("two girls aged 4 and 7 aboard", 2),
        ("me, Jo (41) and a baby aboard", 3),
        ("2 kids (6, 8) in the truck", 2),
        ("me and the kids aboard", None),
        ("a baby goat in the back", None),
    ],
)
def test_the_smallest_are_counted(who: str, aboard: int | None, reads: Reader) -> None:
    read = reads(f"{who}, steer 5,240 drive 7,180 trailer 9,340", on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = (each for each in read.entries if isinstance(each, Weighing))
    assert weighing.aboard == aboard


@pytest.mark.parametrize(
    ("when", "hour"),
    [
        ("half past three in the arvo", 15),
        ("three in the afternoon", 15),
        ("3 in the morning", 3),
        ("quarter past two in the arvo", 14),
    ],
)
def test_the_arvo_is_the_afternoon(when: str, hour: int, reads: Reader) -> None:
    read = reads(f"weighed yesterday {when}, steer 5,240 drive 7,180", on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing.at, datetime)
    assert weighing.at.hour == hour


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("28.3 gal to full, gearbox 194, rolling again at 48,310", [Fill, Observation, Odometer]),
        ("fuel 26.2 gal, trans 197, arrived 48,311", [Fill, Observation, Odometer]),
        ("26.2 gal at 48,311, trans 197", [Fill, Observation]),
    ],
)
def test_a_gauge_between_parts_the_reading_from_the_fill(
    text: str, kinds: list[type], reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [type(each) for each in read.entries] == kinds
    (fill,) = (each for each in read.entries if isinstance(each, Fill))
    assert (fill.odometer is None) == (Odometer in kinds)


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("20 gal, pulled the nozzle before it was full", False),
        ("20 gal, stopped the pump before it was full", False),
        ("20 gal, brimmed it", True),
    ],
)
def test_a_pump_stopped_before_is_not_full(text: str, full: bool, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [each.full for each in read.entries if isinstance(each, Fill)] == [full]


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("wheel bearings when were they last done", "upkeep"),
        ("anything due on the servicing side", "upkeep"),
        ("how far can she go before I need a servo", "range"),
    ],
)
def test_it_is_asked_in_their_words(text: str, topic: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Question)
    assert read.topic == topic


def test_the_brakes_of_his_are_his(reads: Reader) -> None:
    assert isinstance(reads("when were his brakes last done", on_the_road()), Silent)
