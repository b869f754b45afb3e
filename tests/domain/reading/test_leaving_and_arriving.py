"""When and where a reading was taken: on leaving, on the way, at a stop, at a scale."""

from __future__ import annotations

from datetime import datetime

import pytest

from domain.entries import Entry, Fill, Hitch, Note, Odometer
from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Ask, Facts
from tests.domain.reading.chats import SENT_AT, Reader, chat, on_the_road


def entries(reads: Reader, text: str) -> tuple[Entry, ...]:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    stated: tuple[Entry, ...] = verdict.entries
    return stated


def clock(hour: int, minute: int = 0) -> datetime:
    return SENT_AT.replace(hour=hour, minute=minute)


@pytest.mark.parametrize(
    ("text", "event", "place"),
    [
        ("driving home 48,402", None, None),
        ("limping home, 48,402", None, None),
        ("arrived home 48,402", "arrive", "home"),
        ("on our way home 48,402", "depart", None),
        ("off home 48,402", "depart", None),
        ("home safe 48,402 ponies all fine", "arrive", "home"),
        ("made it 48,402 dogs are happy", "arrive", None),
        ("set off from home, 48,230 on the clock", "depart", "home"),
        ("we're off to bed, odo 48,362", None, None),
        ("heading off to bed, odo 48,362", None, None),
        ("we're off to church, odo 48,362", "depart", None),
        ("left at 6:45, stopped for coffee, 48,240", None, None),
        ("stopped for lunch and left again 48,300", "depart", None),
        ("Day 3 start 48,470", "depart", None),
        ("Leg 2 start 48,470", "depart", None),
        ("left Dubbleton 7.15, 48,470", "depart", "Dubbleton"),
    ],
)
def test_what_happened_where(
    reads: Reader, text: str, event: str | None, place: str | None
) -> None:
    (entry,) = entries(reads, text)
    assert isinstance(entry, Odometer)
    assert (entry.event, entry.place) == (event, place)


@pytest.mark.parametrize(
    ("text", "moments"),
    [
        ("set off 7.15, 48,230", [clock(7, 15)]),
        ("hitched up 6.30, away 7.15, 48,240", [clock(6, 30), clock(7, 15)]),
        ("hitched around 7 and left at 7:30, 48,205", [clock(7), clock(7, 30)]),
        ("hitched up at 6, left at 6:45, 48,205", [clock(6), clock(6, 45)]),
        ("hooked up 5.45 rolled out 6.20 48,215", [clock(5, 45), clock(6, 20)]),
    ],
)
def test_a_clock_behind_what_happened(reads: Reader, text: str, moments: list[datetime]) -> None:
    stated = entries(reads, text)
    assert all(isinstance(each, Hitch | Odometer) for each in stated)
    assert [each.at for each in stated] == moments


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("left at 6, filled up, 48,240", None),
        ("left at 6 with 30 gal, 48,240", Quantity(30, "gal")),
        ("left at 6 filled up 31.2 gal", Quantity(31.2, "gal")),
    ],
)
def test_an_hour_is_neither_pumped_nor_paid(
    reads: Reader, text: str, volume: Quantity | None
) -> None:
    (fill,) = entries(reads, text)
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.unit_price) == (volume, None)


@pytest.mark.parametrize(
    "text", ["48,301 at the scale house", "at the scale 48,301", "stopped at the scales, 48,301"]
)
def test_no_rig_weighs_what_the_odometer_shows(reads: Reader, text: str) -> None:
    (entry,) = entries(reads, text)
    assert isinstance(entry, Odometer)
    assert entry.odometer == Quantity(48_301, "mi")


@pytest.mark.parametrize(
    "text",
    [
        "hitched the flatdeck, tractor weighs 9600 lb, leaving 48,301",
        "hay weighs 9600 lb, left at 48,301",
        "pavers weigh 3600 lb, arrived 48,301",
        "hay weighs 9600 lb arrived 48,301",
    ],
)
def test_what_it_read_on_leaving_is_no_load_beside_one(reads: Reader, text: str) -> None:
    *_, reading = entries(reads, text)
    assert isinstance(reading, Odometer)
    assert reading.odometer == Quantity(48_301, "mi")


@pytest.mark.parametrize(
    "text",
    [
        "31,301 at the scales",
        "scale says 48,301",
        "weighed 19,600 lb, leaving 48,301",
        "weighed 19,600 lb leaving, 48,301",
    ],
)
def test_what_a_scale_could_say_is_asked_about(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Ask)


def test_what_a_business_does_is_no_part_of_its_name(reads: Reader) -> None:
    (note,) = entries(reads, "remember the scale at Dunmore closes at 5")
    assert isinstance(note, Note)
    assert note.place == "Dunmore"


def test_instead_is_no_part_of_a_towns_name(reads: Reader) -> None:
    (fill,) = entries(reads, "31.2 gal, did it in Cobblewick instead")
    assert fill.place == "Cobblewick"


def test_who_one_has_it_from_is_no_place(reads: Reader) -> None:
    stated = entries(reads, "picked up the trailer from Dad at 48,212")
    assert [each.place for each in stated] == [None, None]
    (hitch,) = entries(reads, "unhitched at Mom's place")
    assert hitch.place == "Mom's place"


def test_how_full_a_water_tank_is_is_no_day(reads: Reader) -> None:
    (water,) = entries(reads, "water tank 3/4, about 30 gal")
    assert water.at is None


@pytest.mark.parametrize(
    "text",
    [
        "118 640 on the clock",
        "118 640 on the odo",
        "clock says 118 640",
        "odo is 118 640",
        "118 640 km",
        "left home, 118 640",
    ],
)
def test_a_first_reading_may_be_written_in_two_groups(reads: Reader, text: str) -> None:
    """No reading is known yet that it could follow."""
    verdict = reads(text, chat(units="metric"))
    assert isinstance(verdict, Facts), text
    (reading,) = verdict.entries
    assert isinstance(reading, Odometer)
    assert reading.odometer == Quantity(118_640, "km")


def test_a_place_is_of_the_reading_in_its_clause(reads: Reader) -> None:
    left, fill = entries(reads, "left 48,402, got to pell 48,690, 22.3 gal")
    assert left == Odometer(odometer=Quantity(48_402, "mi"), event="depart")
    assert isinstance(fill, Fill)
    assert (fill.odometer, fill.place) == (Quantity(48_690, "mi"), "pell")


def test_what_happened_is_of_the_reading_behind_its_word(reads: Reader) -> None:
    out, fill = entries(reads, "out at 48,402 back at 48,544, 11.2 gal")
    assert out == Odometer(odometer=Quantity(48_402, "mi"))
    assert isinstance(fill, Fill)
    assert fill.odometer == Quantity(48_544, "mi")


@pytest.mark.parametrize(
    ("text", "hour"),
    [
        ("off 6.40 48,312", "06:40"),
        ("off at 6.40, 48,312", "06:40"),
        ("off 06:40 48,312", "06:40"),
        ("off 6.40am 48,312", "06:40"),
        ("off at half six, 48,312", "06:30"),
        ("Off 7.15 with the caravan, 48,312", "07:15"),
        ("off 7.15 to the coast, 48,312", "07:15"),
    ],
)
def test_off_when_and_where(reads: Reader, text: str, hour: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["kind"], entry["event"]) == ("odometer", "depart")
    assert (entry["odometer"]["value"], entry["at"][11:16]) == (48_312, hour)


@pytest.mark.parametrize("end", ["and off, 48,312", "and off at 48,312", "and off to Pell, 48,312"])
def test_who_hitched_up_and_is_off_left(reads: Reader, end: str) -> None:
    told = verdict_to_record(reads(f"hitched the flatdeck {end}", on_the_road(hitched=False)))
    assert (told["entries"][-1]["event"], len(told["entries"])) == ("depart", 2)


@pytest.mark.parametrize(
    "text",
    [
        "off 6.40 litres 48,312",
        "off work 6.40",
        "10 off 6.40 48,312",
        "flatdeck unhooked and off, 48,312",
        "hitched the flatdeck on and off, 48,312",
        "hooked up the flatdeck and off the phone, 48,312",
    ],
)
def test_off_without_an_hour_sets_nobody_off(reads: Reader, text: str) -> None:
    told = verdict_to_record(reads(text, on_the_road())).get("entries", ())
    assert all("event" not in each for each in told)
