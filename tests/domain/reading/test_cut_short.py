"""Words that people shorten or slur, told beside what makes them plain, and what looks alike."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from domain.entries import Cargo, Check, Entry, Fill, Hitch, Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Question, Silent
from tests.domain.driving_log import gal, mi
from tests.domain.reading.chats import Reader, chat, on_the_road
from tests.domain.scale_house import lb

BRITISH = {
    "units": "imperial",
    "currency": "GBP",
    "time_zone": "Europe/London",
    "tank": Quantity(80, "L"),
}


def hub(value: float, position: str, trailer: str | None = None) -> Observation:
    return Observation(
        subject="hub", value=Quantity(value, "degF"), position=position, trailer=trailer
    )


def tyre(value: float, position: str) -> Observation:
    return Observation(subject="tyre", value=Quantity(value, "psi"), position=position)


def tank(value: float, unit: str) -> Rating:
    return Rating(subject="truck", rating="tank", value=Quantity(value, unit))


def done(*items: str) -> tuple[Check, ...]:
    return tuple(Check(item=each, state="done") for each in items)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("payld 2918 per sticker", (Rating(subject="truck", rating="payload", value=lb(2_918)),)),
        (
            "flatdeck hubs rt rear 171 lt rear 142",
            (
                hub(171, "trailer right rear", "flatdeck"),
                hub(142, "trailer left rear", "flatdeck"),
            ),
        ),
        ("tires lt frt 65 rt frt 66", (tyre(65, "left front"), tyre(66, "right front"))),
        ("put 60 lt in", (Fill(volume=Quantity(60, "L")),)),
        (
            "trk 8140 solo, 1/2 tk",
            (Weighing(loads={"gross": lb(8_140)}, rig="solo", fuel_level=0.5),),
        ),
        ("torqued the lug nuts and greased the ball", done("lug nuts", "ball")),
        ("greased the ball and coupler", done("ball", "coupler")),
        ("oil changed, fuel filter changed", done("oil", "fuel filter")),
        ("oil changed, fuel filter changed, tires rotated", done("oil", "fuel filter", "tires")),
        (
            "a set of ramps 190 lb in the bed and a welder 240 lb in the nose",
            (
                Cargo(item="ramps", value=lb(190), position="bed"),
                Cargo(item="welder", value=lb(240), position="nose"),
            ),
        ),
        ("pair of ramps 180 lb in the bed", (Cargo(item="ramps", value=lb(180), position="bed"),)),
        (
            "backed up n hooked on, leaving 48,298",
            (Hitch(action="hitched"), Odometer(odometer=mi(48_298), event="depart")),
        ),
        (
            "got there 48,298 and unhooked",
            (Odometer(odometer=mi(48_298), event="arrive"), Hitch(action="unhitched")),
        ),
        (
            "made it to the lake 48,466 unhooked n everything",
            (
                Odometer(odometer=mi(48_466), event="arrive", place="lake"),
                Hitch(action="unhitched", place="lake"),
            ),
        ),
        (
            "loaded three bred heifers they come to 3,600 pounds over the axles",
            (Cargo(item="bred heifers", value=lb(3_600), position="over axles"),),
        ),
        (
            "dropped the flatdeck, 48,350. put 2.5 gal def in",
            (
                Hitch(action="unhitched", trailer="flatdeck"),
                Odometer(odometer=mi(48_350)),
                Fill(product="def", volume=gal(2.5)),
            ),
        ),
        (
            "dropped the flatdeck, 48,350. 22.6 gal diesel",
            (
                Hitch(action="unhitched", trailer="flatdeck"),
                Fill(product="diesel", volume=gal(22.6), odometer=mi(48_350)),
            ),
        ),
        ("parked and everything 48,310", (Odometer(odometer=mi(48_310), event="arrive"),)),
        (
            "hitched and everything 18,400 on the scale",
            (Weighing(loads={"gross": lb(18_400)}, rig="hitched"),),
        ),
        (
            "truck, trailer n everything 18,400 on the scale",
            (Weighing(loads={"gross": lb(18_400)}),),
        ),
        ("the 80 L tank lasts us 900 km", (tank(80, "L"),)),
        ("80 litre tank", (tank(80, "L"),)),
        (
            "36 gallon tank on Juniper",
            (Rating(subject="truck", rating="tank", value=gal(36), truck="Juniper"),),
        ),
    ],
)
def test_what_is_shortened_is_read(reads: Reader, text: str, entries: tuple[Entry, ...]) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    if isinstance(entries[0], Weighing):
        (weighing,) = verdict.entries
        assert isinstance(weighing, Weighing)
        assert weighing.loads == entries[0].loads
        assert weighing.fuel_level == entries[0].fuel_level
    else:
        assert verdict.entries == entries


@pytest.mark.parametrize(
    "text",
    [
        "just tryna get this thing under 2k on the tongue one day",
        "tryin to keep it under 900 lb on the hitch",
        "the 80 L tank lasts uncle Pete 900 km",
        "that 50 gal tank would last Joe forever",
        "a 48 gallon tank takes him clear to Boise",
        "the kid's ball is flat",
        "had a ball at the lake",
        "need to change the filter",
        "he got there and unhooked",
        "hooked on that show, season two",
        "they come to 3,600 lb over the axles",
        "loaded the kids up, they weigh 200 lb",
        "came home and unhitched the horse from the buggy",
        "hows my buddy, any left?",
    ],
)
def test_what_looks_alike_is_talk(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("hows my payld, any left?", Question(topic="margin", rating="payload")),
        ("payload, any left?", Question(topic="margin", rating="payload")),
        ("yo bot whats my mpgs lookin like", Question(topic="economy")),
        ("mpgs?", Question(topic="economy")),
    ],
)
def test_what_is_asked_in_short_words(reads: Reader, text: str, question: Question) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), text
    assert replace(verdict, text="") == question


@pytest.mark.parametrize(
    ("text", "place", "clock"),
    [
        ("set off from Kelby 6.40 this morning, 48,212", "Kelby", (6, 40)),
        ("left the yard 7.10 this morning, 48,212", "yard", (7, 10)),
        ("left the yard in Pell 7.10 this morning, 48,212", "Pell", (7, 10)),
        ("departed farm 8.05 today, odo 48,212", "farm", (8, 5)),
        ("got to Pell 2.30 this afternoon, 48,212", "Pell", (14, 30)),
        ("left the farm six fifteen this morning odo 48,212", "farm", (6, 15)),
        ("away from Kelby 5.50 am, clock 48,212", "Kelby", (5, 50)),
        ("Off from Kelby 6.40 this morning, 48,212", "Kelby", (6, 40)),
        ("Kelby 6.40 this morning, 48,212", "Kelby", (6, 40)),
    ],
)
def test_an_hour_behind_a_place_is_no_volume(
    reads: Reader, text: str, place: str, clock: tuple[int, int]
) -> None:
    verdict = reads(text, on_the_road(**BRITISH))
    assert isinstance(verdict, Facts), text
    (reading,) = verdict.entries
    assert isinstance(reading, Odometer)
    assert reading.odometer == mi(48_212)
    assert reading.place == place
    assert isinstance(reading.at, datetime)
    local = reading.at.astimezone(ZoneInfo("Europe/London"))
    assert (local.hour, local.minute) == clock


@pytest.mark.parametrize(
    "text",
    [
        "arrived and put in 26.40 this morning, 48,212",
        "Kelby 26.40 this morning, 48,212",
        "Kelby pump 26.4 this morning, 48,212",
    ],
)
def test_a_volume_before_the_part_of_the_day_is_a_fill(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road(**BRITISH))
    assert isinstance(verdict, Facts), text
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.odometer) == (Quantity(26.4, "L"), mi(48_212))


def test_weather_told_twice_is_kept_whole(reads: Reader) -> None:
    text = "wind gusting 40 out of the west, 44 degrees outside, white knuckles"
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    told = [each.subject for each in verdict.entries if isinstance(each, Observation)]
    assert told == ["wind", "ambient"]
    assert reads("wind gusting 40, white knuckles", chat()) == Silent()


@pytest.mark.parametrize(
    ("units", "text", "size"),
    [
        ("us", "80 L tank", Quantity(80, "L")),
        ("metric", "36 gal tank", Quantity(36, "gal")),
        ("imperial", "18 gallon tank", Quantity(18, "gal_imp")),
    ],
)
def test_a_tank_has_the_unit_of_its_name(
    reads: Reader, units: str, text: str, size: Quantity
) -> None:
    verdict = reads(text, chat(units=units))
    assert verdict == Facts((Rating(subject="truck", rating="tank", value=size),))
