"""A rig that is weighed whole, and what one axle of it bears of that."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told
from tests.domain.reading.weighed import loads


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "truck an trailer 25,460, an 7,900 of that on the drives",
            ["weighing drive=7900 gross=25460 rig=hitched"],
        ),
        (
            "truck & trailer 25,460 lb of which 7,900 lb on the drives",
            ["weighing drive=7900 gross=25460 rig=hitched"],
        ),
        (
            "truck and trailer came in at 25,460, drive axle 7,900",
            ["weighing drive=7900 gross=25460 rig=hitched"],
        ),
        (
            "scale at Oxby: rig 18,940, drive axle 6,390",
            ["weighing drive=6390 gross=18940 place=Oxby rig=hitched"],
        ),
        ("outfit 18,940 all up", ["weighing gross=18940"]),
        ("scale says 17,200 for the lot", ["weighing gross=17200"]),
        (
            "scale gave 15,120 for the lot and 9,010 with the camper off",
            ["weighing gross=15120 rig=hitched trailer=camper", "weighing gross=9010 rig=solo"],
        ),
    ],
)
def test_all_of_it_and_a_part(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    "text",
    [
        "bought the outfit 25,460 all in",
        "a combo like that 25,460 all in",
        "paid 4,500 for the lot",
        "sold it for 14,500 all in",
        "they're asking 14,500 for the lot",
        "truck and trailer 12,400 9,800",
        "my buddy's rig 25,460, drives 7,900",
    ],
)
def test_what_was_paid_is_no_load(text: str, reads: Reader) -> None:
    assert told(reads, text) == ["silent"]


@pytest.mark.parametrize(
    "text",
    [
        "Juniper and the camper 21,460 with 9,100 of it on the camper axles",
        "truck and camper scaled 21,460, 9,100 of that is the camper axles",
        "outfit 21,460 all up, camper axles 9,100",
    ],
)
def test_all_of_it_and_what_the_trailer_bears(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"gross": 21_460, "trailer": 9_100}


def test_loads_of_both_in_turn_are_of_each(reads: Reader) -> None:
    of_each = {"truck": 12_400, "trailer": 9_800}
    assert loads("Juniper and the camper 12,400 and 9,800", reads) == of_each


@pytest.mark.parametrize(
    "text", ["got 3,200 for the lot at the sale", "1,850 for the whole lot, not bad"]
)
def test_so_much_for_the_lot_is_a_price_where_nothing_weighs(text: str, reads: Reader) -> None:
    assert told(reads, text) == ["silent"]


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("Juniper with Clover behind came to 8,640", {"gross": 8_640}),
        ("Juniper with Clover on 3.98 tonnes", {"gross": 3.98}),
        (
            "Juniper with Clover behind came to 3.98 tonnes, and 1.44 tonnes of it was on her axle",
            {"gross": 3.98, "trailer": 1.44},
        ),
        ("Juniper with Clover on 5,540, Clover's axle 3,440", {"truck": 5_540, "trailer": 3_440}),
        (
            "Juniper with Clover behind: front 2,640, rear 2,860, axle 3,170",
            {"steer": 2_640, "drive": 2_860, "trailer": 3_170},
        ),
        ("Juniper without Clover came to 5,540", {"gross": 5_540}),
    ],
)
def test_a_truck_with_a_trailer_by_its_name(
    text: str, loads: dict[str, float], reads: Reader
) -> None:
    verdict = reads(text, on_the_road(trailers=("Clover",)))
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert {place: load.value for place, load in entry.loads.items()} == loads
