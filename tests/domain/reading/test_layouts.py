"""Facts in unusual layouts: lists of fields, forwarded notes, 'not X but Y', one after another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

import pytest

from domain.entries import Entry, Fill, Hitch, Observation, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import SENT_AT, Reader, on_the_road


def gallons(value: float, miles: float | None = None, **more: Any) -> Fill:
    odometer = None if miles is None else Quantity(miles, "mi")
    return Fill(volume=Quantity(value, "gal"), odometer=odometer, **more)


def read_at(miles: float, event: Any = None, at: datetime | None = None) -> Odometer:
    return Odometer(odometer=Quantity(miles, "mi"), event=event, at=at)


def dollars(value: float) -> Quantity:
    return Quantity(value, "USD")


def weighed(rig: Any = None, **loads: float) -> Weighing:
    return Weighing(rig=rig, loads={at: Quantity(load, "lb") for at, load in loads.items()})


MORNING, NOON = SENT_AT.replace(hour=7, minute=10), SENT_AT.replace(hour=12, minute=0)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("not 21.4 but 24.1 gal, 48,322", [gallons(24.1, 48_322)]),
        (
            "steer not 5,120 but 5,210, drive 6,880, trailer 8,940",
            [weighed("hitched", steer=5_210, drive=6_880, trailer=8_940)],
        ),
        ("steer 5,120, not bad, drive 6,880", [weighed(steer=5_120, drive=6_880)]),
        (
            "hooked up the flatdeck, then filled 21.4 gal, then left at 48,322",
            [
                Hitch(action="hitched", trailer="flatdeck"),
                gallons(21.4, full=True),
                read_at(48_322, "depart"),
            ],
        ),
        (
            "depart 48,112 arrive 48,322",
            [read_at(48_112, "depart"), read_at(48_322, "arrive")],
        ),
        (
            "left 7:10 at 48,112, arrived noon 48,322",
            [read_at(48_112, "depart", MORNING), read_at(48_322, "arrive", NOON)],
        ),
        (
            "fuel, 21.4 gal, 48,212. arrived, 48,322",
            [gallons(21.4, 48_212), read_at(48_322, "arrive")],
        ),
        (
            "21.4 gal diesel + 2.5 gal DEF, $83.25 + $9.75, 48,322",
            [
                gallons(21.4, 48_322, product="diesel", cost=dollars(83.25)),
                gallons(2.5, product="def", cost=dollars(9.75)),
            ],
        ),
        (
            "21.4 gal at 3.899, and a 2.5 gal jug of def for $21.99, 48,322",
            [
                gallons(21.4, 48_322, unit_price=Quantity(3.899, "USD/gal")),
                gallons(2.5, product="def", cost=dollars(21.99)),
            ],
        ),
        (
            "2.5 gal of def, 21.4 gal, 48,322",
            [gallons(2.5, product="def"), gallons(21.4, 48_322)],
        ),
        (
            "Odometer: 48,322\nGallons: 21.4\nCost: $83.25\nFull: yes\nTrip: 312 mi",
            [gallons(21.4, 48_322, cost=dollars(83.25), full=True, distance=Quantity(312, "mi"))],
        ),
        (
            "Miles: 48,322\nGallons: 21.4\nPaid: $83.25\nFull: no\nWhere: Larkfold",
            [gallons(21.4, 48_322, cost=dollars(83.25), full=False, place="Larkfold")],
        ),
        (
            "FW from Ned: steer 5,120, drive 6,880, trailer 8,940",
            [weighed("hitched", steer=5_120, drive=6_880, trailer=8_940)],
        ),
        ("21.4 gal but only got to half, 48,322", [gallons(21.4, 48_322)]),
    ],
)
def test_each_fact_is_read_in_its_layout(text: str, entries: list[Entry], reads: Reader) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    assert list(verdict.entries) == entries


def test_tyres_are_of_no_trailer_that_was_hitched_before(reads: Reader) -> None:
    verdict = reads("- hitched the camper\n- tires 65 front, 80 rear\n- leaving", on_the_road())
    assert isinstance(verdict, Facts), verdict
    positions = [each.position for each in verdict.entries if isinstance(each, Observation)]
    assert positions == ["front", "rear"]


@pytest.mark.parametrize(
    "text",
    [
        "not 5 but 6 people",
        "not monday but tuesday at 10, bring 40 chairs",
        "not bad, 12 out of 15",
        "left 40 here, arrived 12 there",
        "Where: the diner\nWhen: 7:30\nBring: 20 bucks",
        "From: mom. To: everyone. Dinner: 6:30",
        "first the cake, then 30 candles, then we left",
        "$83.25 + $9.75 for the pizzas",
        "FW from Ned: 40 people said yes",
        "Trip: canceled. Cost: 200",
    ],
)
def test_layouts_of_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(currency="USD")), Silent)


def passes(*rows: tuple[Mapping[str, float], Mapping[str, Any]]) -> Facts:
    """Weighings of so many pounds, one a row, with how the rig stood."""
    return Facts(
        tuple(
            Weighing(loads={at: Quantity(load, "lb") for at, load in loads.items()}, **said)
            for loads, said in rows
        )
    )


OFF = {"steer": 5_060, "drive": 6_340, "trailer": 8_720}, {"rig": "hitched", "bars": "off"}
ON = {"steer": 5_280, "drive": 6_020, "trailer": 8_820}, {"rig": "hitched", "bars": "on"}
SOLO = {"steer": 5_060, "drive": 4_180}, {"rig": "solo"}
HITCHED = {"steer": 4_920, "drive": 6_020}, {"rig": "hitched"}


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        (
            "          steer  drive  trailer\n"
            "bars off  5,060  6,340  8,720\n"
            "bars on   5,280  6,020  8,820",
            (OFF, ON),
        ),
        (
            "| | steer | drive | trailer |\n"
            "| no bars | 5060 | 6340 | 8720 |\n"
            "| with bars | 5280 | 6020 | 8820 |",
            (OFF, ON),
        ),
        (
            "axle, bars off, bars on\nsteer, 5060, 5280\ndrive, 6340, 6020\ntrailer, 8720, 8820",
            (OFF, ON),
        ),
        ("| | steer | drive |\n| solo | 5060 | 4180 |\n| hitched | 4920 | 6020 |", (SOLO, HITCHED)),
    ],
)
def test_a_table_of_how_the_rig_stood(
    text: str, rows: Sequence[tuple[Mapping[str, float], Mapping[str, Any]]], reads: Reader
) -> None:
    assert reads(text, on_the_road()) == passes(*rows)


def test_two_columns_with_a_comma(reads: Reader) -> None:
    table = "axle,lb\nsteer,5060\ndrive,6960\ntrailer 1,4580\ntrailer 2,4660\ngross,21260"
    verdict = reads(table, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert {at: load.value for at, load in entry.loads.items()} == {
        "steer": 5_060,
        "drive": 6_960,
        "trailer_1": 4_580,
        "trailer_2": 4_660,
        "gross": 21_260,
    }
