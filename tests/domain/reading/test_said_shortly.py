"""Facts that are said in few words, in words of their own or beside a word of something else."""

from __future__ import annotations

import pytest

from domain.entries import Check, Entry, Hitch, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def miles(reading: float, **said: str) -> Odometer:
    """An odometer reading, with what else was said of it."""
    return Odometer(odometer=Quantity(reading, "mi"), **said)  # type: ignore[arg-type]


def hitched(**said: str) -> Hitch:
    """A trailer put on, with what else was said of it."""
    return Hitch(action="hitched", **said)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("hooked the pop up", [hitched()]),
        ("got the camper on behind Juniper", [hitched(trailer="camper", truck="Juniper")]),
        ("got the flatdeck on", [hitched(trailer="flatdeck")]),
        ("camper's on the towbar", [hitched(trailer="camper")]),
        ("camper is on the ball now", [hitched(trailer="camper")]),
        ("flatdeck on the hitch, 48,211", [hitched(trailer="flatdeck"), miles(48_211)]),
        (
            "dropped the trailer at the job site forty eight two oh four",
            [Hitch(action="unhitched", place="job site"), miles(48_204, place="job site")],
        ),
        ("left front tire ok", [Check(item="left front tire", state="done")]),
        ("spare is flat", [Check(item="spare", state="fault")]),
        ("lights good", [Check(item="lights", state="done")]),
        ("trailer lights are all good", [Check(item="trailer lights", state="done")]),
        (
            "oil changed at 48,211, filter too",
            [Check(item="oil", state="done"), miles(48_211)],
        ),
        (
            "only caught the rear axle of the truck this time, 5,620",
            [Weighing(loads={"drive": Quantity(5_620, "lb")})],
        ),
        (
            "camper on the ball 1,090",
            [Weighing(loads={"tongue": Quantity(1_090, "lb")}, trailer="camper")],
        ),
        (
            "stamp on the towball says 3,500 kg",
            [Rating(subject="ball", rating="tow", value=Quantity(3_500, "kg"))],
        ),
        (
            "rear axle 1,840 front axle 1,310 trailer 1,690 all in kg",
            [
                Weighing(
                    rig="hitched",
                    loads={
                        "drive": Quantity(1_840, "kg"),
                        "steer": Quantity(1_310, "kg"),
                        "trailer": Quantity(1_690, "kg"),
                    },
                )
            ],
        ),
    ],
)
def test_what_is_said_shortly(text: str, entries: list[Entry], reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(tuple(entries))


@pytest.mark.parametrize(
    "text",
    [
        "closed the pop up window",
        "gonna pop up to the shop for 5",
        "got the camper on craigslist",
        "got the camper on behind the barn",
        "bike rack on the towbar",
        "gate code 48204",
        "my battery is flat",
        "that light is good",
        "lights good?",
        "lights good at your place",
    ],
)
def test_talk_that_is_near_it(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_no_walk_round_where_nothing_is_towed(reads: Reader) -> None:
    assert reads("lights good", on_the_road(hitched=False)) == Silent()


def test_a_site_has_a_number_of_its_own(reads: Reader) -> None:
    read = reads("dropped the camper at site 12", on_the_road())
    assert read == Facts((Hitch(action="unhitched", trailer="camper"),))
