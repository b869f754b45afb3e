"""What people say in words of their own of money put in, of water, of places and of limits."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "stuck 25 bucks in at the Elk Fork services, wisnae a full tank",
            ["fill cost=25 full=False place=Elk Fork services"],
        ),
        ("stuck $40 in, not a full tank", ["fill cost=40 full=False"]),
        ("put $60 in at Elk Fork, didn't fill up", ["fill cost=60 full=False place=Elk Fork"]),
        ("saw her full again with 31.4 gallons", ["fill full=True volume=31.4"]),
        ("stuck 20 bucks in at the slots, bar was full", ["silent"]),
        ("put $25 in at church, hall wasn't full", ["silent"]),
    ],
)
def test_money_put_in_beside_how_full_it_is(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "ok got to Sagebrush Downs 48,340 ponies are good",
            ["odometer event=arrive odometer=48340 place=Sagebrush Downs"],
        ),
        ("got to Sagebrush Downs 300 ponies are good", ["silent"]),
        ("saw 48,340 ponies are good", ["silent"]),
    ],
)
def test_how_everybody_is_behind_a_place_counts_nothing(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "place was Transfer Lot 4, not Ledbetter mulch yard",
            ["correction action=amend field=place value=Transfer Lot 4 was=Ledbetter mulch yard"],
        ),
        (
            "the weighbridge was Pell, not Ledbetter",
            ["correction action=amend field=place value=Pell was=Ledbetter"],
        ),
        (
            "location was Pit 9 not Lot 4",
            ["correction action=amend field=place value=Pit 9 was=Lot 4"],
        ),
        ("the place was packed, not a seat left", ["silent"]),
        ("the place was Dad's idea, not mine", ["silent"]),
    ],
)
def test_a_place_that_is_called_one_has_all_of_its_name(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "door jamb sticker: occupants + cargo never over 1,684 lbs",
            ["rating rating=payload subject=truck value=1684"],
        ),
        (
            "door says occupants and cargo not over 1,500",
            ["rating rating=payload subject=truck value=1500"],
        ),
        ("2 people + cargo, 8,240 gross", ["weighing aboard=2 gross=8240"]),
        ("coolant never over 210 today", ["silent"]),
    ],
)
def test_no_more_of_occupants_and_cargo(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


def asked(reads: Reader, text: str) -> object:
    record = verdict_to_record(reads(text, on_the_road()))
    return record.get("question", record["verdict"])


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("Suppose we take on 60 gallons of fresh water, what happens to the pin?", "fresh water"),
        ("what does 60 gallons of water do to the pin", "water"),
        ("what would 60 gallons of water do to the pin", "water"),
    ],
)
def test_what_so_much_water_does_is_asked(reads: Reader, text: str, item: str) -> None:
    assert asked(reads, text) == {
        "topic": "whatif",
        "item": item,
        "value": {"value": 60, "unit": "gal"},
        "field": "tongue",
    }


@pytest.mark.parametrize(
    ("text", "question"),
    [
        (
            "what payload have I got left in Juniper?",
            {"topic": "margin", "rating": "payload", "truck": "Juniper"},
        ),
        ("what can you do anyhow", {"topic": "help"}),
        (
            "whit's Juniper rated tae tow again",
            {"topic": "ratings", "rating": "tow", "truck": "Juniper"},
        ),
        ("what did the hail do to the nose of the camper", "silent"),
        ("what did we have left in the fridge", "silent"),
    ],
)
def test_asked_in_words_of_ones_own(reads: Reader, text: str, question: object) -> None:
    assert asked(reads, text) == question
