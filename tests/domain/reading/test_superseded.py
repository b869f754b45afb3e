"""What was guessed, feared or so before gives way to what is, in one and the same message."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Entry, Fill, Observation, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def weighed(rig: Any = None, **loads: float) -> Weighing:
    return Weighing(loads={at: Quantity(load, "lb") for at, load in loads.items()}, rig=rig)


def gauge(subject: Any, value: float) -> Observation:
    return Observation(subject=subject, value=Quantity(value, "degF"))


def miles(value: float) -> Odometer:
    return Odometer(odometer=Quantity(value, "mi"))


def gallons(value: float, **more: Any) -> Fill:
    return Fill(volume=Quantity(value, "gal"), **more)


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("guessed 19,000 gross, actual 20,340", weighed(gross=20_340)),
        (
            "steer 5,120 drive 6,420, figured the trailer at 9,000, it was 9,520",
            weighed("hitched", steer=5_120, drive=6_420, trailer=9_520),
        ),
        (
            "trailer 9,520, looked like 9,250 on the wet slip but its 9,520, steer 5,120",
            weighed("hitched", trailer=9_520, steer=5_120),
        ),
        ("was hoping for 24 gal, pump says 27.3 gal", gallons(27.3)),
    ],
)
def test_a_guess_gives_way_to_what_it_was(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("if coolant goes past 225 we stop, its at 209", gauge("coolant", 209)),
        ("gonna stop when egt hits 1300, its sitting at 1180", gauge("exhaust", 1_180)),
        ("pulling over once the trans reads 225, reading 212 so far", gauge("transmission", 212)),
    ],
)
def test_what_is_feared_gives_way_to_what_is(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("last time it was 48,010, now its 48,190", miles(48_190)),
        ("48,010 last I checked, 48,190 now", miles(48_190)),
        ("trans was 188 earlier, its 203 now", gauge("transmission", 203)),
        ("trans was 188 an hour ago, its 203 now", gauge("transmission", 203)),
        ("odo was 48,010, just rolled 48,190", miles(48_190)),
        ("coolant's usually 190, it's 207 on this hill", gauge("coolant", 207)),
        ("last fill was 30 gal, this ones 27.6", gallons(27.6)),
    ],
)
def test_what_was_before_gives_way_to_what_is(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("gross twenty one thousand, well, 21,180 to be exact", weighed(gross=21_180)),
        ("put in 28 gal, 28.4 to be precise, full", gallons(28.4, full=True)),
        ("coolant 200, well, 203 exactly", gauge("coolant", 203)),
    ],
)
def test_a_rounder_figure_gives_way_to_the_exact_one(
    text: str, entry: Entry, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    "text",
    [
        "guessed 300 beans in the jar, actual 352",
        "if it hits 100 im staying in, its at 97",
        "was 40 when I last looked, its 52 now",
        "thought 200 people would come, actual 240",
        "if the score hits 20 we're leaving, its at 17",
        "see you at 6, well, 6:30 exactly",
        "guessed 20,000 for the roof",
        "coolant usually runs 195",
        "his odo was 48,010, its 51,000 now",
    ],
)
def test_people_guess_too(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_two_axles_are_no_guess_and_what_it_was(reads: Reader) -> None:
    both = weighed(steer=5_120, drive=6_420)
    assert reads("steer 5,120, the drives now 6,420", on_the_road()) == Facts((both,))


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("48,210 on the clock, well 48,214 to be exact", miles(48_214)),
        ("48,210 on the dial, 48,214 spot on", miles(48_214)),
        ("48,210 odo, being exact 48,214", miles(48_214)),
        ("roughly 19,400 gross, 19,460 to the pound", weighed(gross=19_460)),
        ("tongue about 900, 960 precisely", weighed(tongue=960)),
        ("24 gal of diesel, 24.3 to be precise", gallons(24.3, product="diesel")),
        ("steer 5,120, call it 5,160", weighed(steer=5_160)),
        ("gross 19,400, more like 19,480", weighed(gross=19_480)),
        ("trans 190, well that's more like 196", gauge("transmission", 196)),
        ("drive 6,840, lets call it 6,860", weighed(drive=6_860)),
        ("about 24 gal, well 24.3", gallons(24.3)),
        ("gross 19,400, well 19,460", weighed(gross=19_460)),
    ],
)
def test_what_is_said_anew_stands(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize("text", ["weighed the truck before: {}", "earlier: {}", "was {}"])
def test_another_load_with_a_name_before_it_supersedes_nothing(text: str, reads: Reader) -> None:
    stated = weighed(steer=5_240, drive=6_700)
    assert reads(text.format("steer 5,240 drive 6,700"), on_the_road()) == Facts((stated,))


def test_what_is_exact_of_another_load_supersedes_nothing(reads: Reader) -> None:
    stated = weighed(steer=5_120, drive=6_841)
    assert reads("steer 5,120, drive 6,841 exactly", on_the_road()) == Facts((stated,))
    assert reads("5,120 steer, 6,841 drive to the pound", on_the_road()) == Facts((stated,))


@pytest.mark.parametrize(
    "text",
    [
        "call it a day, 48 to go",
        "8 or 9, call it 10 people",
        "it was 30, more like 40 people",
        "there were 200, 212 to be exact",
        "about 40 bucks, 42 exactly",
        "500 miles away, more like 520",
        "he is 30, more like 35",
        "call it 12 bucks",
        "bang on, see you at 6",
        "meeting at 5, make it 6",
    ],
)
def test_people_put_their_own_figures_right(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
