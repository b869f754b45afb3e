"""Upkeep as it is told: what was done, at which reading, and when it is due again."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "changed oil 48,640 next at 53,640",
            ["check oil", "odometer 48640", "rating oil due_in 5000"],
        ),
        (
            "oil change done 48,640, due again at 53,640",
            ["check oil change", "odometer 48640", "rating oil change due_in 5000"],
        ),
        ("oil done 48 640", ["check oil", "odometer 48640"]),
        ("next oil change at 53,010", ["rating oil change due_in 5000"]),
        ("fuel filter is due at 50,010", ["rating fuel filter due_in 2000"]),
        ("rotated the tires today", ["check tire rotation"]),
        ("rotated the tyres 48,640", ["check tyre rotation", "odometer 48640"]),
        ("put new tires on the camper", ["check new tires"]),
        ("swapped the fuel filter 48,640", ["check fuel filter", "odometer 48640"]),
        ("had the oil changed at 48,640", ["check oil", "odometer 48640"]),
        ("log oil change at 48,640", ["check oil change", "odometer 48640"]),
        ("did an oil change 48,640", ["check oil change", "odometer 48640"]),
        ("did an oil change today", ["check oil change"]),
        ("flushed the coolant", ["check coolant"]),
        ("flushed the coolant 48,640", ["check coolant", "odometer 48640"]),
        ("oil change was at 47,300", ["rating oil done_at 47300"]),
        ("oil changed yesterday at 48,010", ["check oil", "odometer 48010"]),
        ("tire rotation 48,640", ["check tire rotation", "odometer 48640"]),
        ("oil service light on at 48,640", ["odometer 48640"]),
    ],
)
def test_what_was_done_and_when_it_is_due_again(
    reads: Reader, text: str, entries: list[str]
) -> None:
    told = []
    for each in verdict_to_record(reads(text, on_the_road()))["entries"]:
        said = [each["kind"], each.get("item") or each.get("subject"), each.get("rating")]
        value = each.get("value") or each.get("odometer")
        told.append(" ".join([*filter(None, said), *([str(value["value"])] if value else [])]))
    assert told == entries


@pytest.mark.parametrize(
    "text",
    [
        "my next oil change is tuesday",
        "next oil change at 3",
        "rotated the couch",
        "flushed the toilet",
        "tires were 1,200",
        "put new tires on Dave's truck",
        "next oil change at 40,000",
        "next tire rotation 53,310",
        "need an oil change 48,640",
        "5 gal hydraulic oil at 22",
    ],
)
def test_what_sounds_like_upkeep_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}
