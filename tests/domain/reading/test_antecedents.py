"""A thing is named, and then what it weighs and where it stands is told by pronoun."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "item", "value", "position"),
    [
        (
            "Smoker's aboard. It weighs 160 pounds and sits over the axles",
            "Smoker",
            160,
            "over axles",
        ),
        ("Loaded the generator. It's 210 lb and it's in the nose.", "generator", 210, "nose"),
        ("Put the quad on the deck. It weighs 690 pounds.", "quad", 690, "deck"),
        ("The compressor went in the bed. Weighs 94 kilos.", "compressor", 94, "bed"),
        ("New toolbox in the truck bed. 165 lb it weighs.", "toolbox", 165, "truck bed"),
        (
            "Took the forklift along. It weighs 2,900 pounds and stands over the trailer axles.",
            "forklift",
            2900,
            "over trailer axles",
        ),
        ("Generator's in. That one is 128 lb, in the bed.", "Generator", 128, "bed"),
        (
            "The splitter rides at the back of the trailer; it weighs 610 lb",
            "splitter",
            610,
            "back of trailer",
        ),
        ("The pump is aboard and it weighs 85 kg", "pump", 85, None),
        ("loaded Copper in the front stall, he's 1,140 lb", "Copper", 1140, "front stall"),
        ("put Belle in the rear stall. She's 1,090 lb", "Belle", 1090, "rear stall"),
        ("put 200 lb of feed in the back of the truck", "feed", 200, "back of truck"),
        ("80 lb of tools in the rear of the trailer", "tools", 80, "rear of trailer"),
    ],
)
def test_what_was_named_is_what_is_weighed(
    reads: Reader, text: str, item: str, value: float, position: str | None
) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == "cargo"
    assert (entry["item"], entry["value"]["value"]) == (item, value)
    assert entry.get("position") == position


@pytest.mark.parametrize(
    "text",
    [
        "Baby's here. She weighs 7 pounds 3",
        "My cat's fat. It weighs 18 pounds and sits on the couch",
        "Fridge arrived. It weighs 90 kg and sits in the hall",
        "Dog's on the couch. It weighs 40 pounds",
        "The washer is in the basement. It weighs 180 pounds",
        "Dave is in. He weighs 200 pounds",
        "loaded up on pizza, he's 240 lb",
        "loaded Dave in the back seat, he's 240 lb",
        "we loaded up and left, he's got 1,140 lb of feed",
        "The moose ran off. It weighs 900 pounds and lives in the woods",
    ],
)
def test_what_does_not_ride_along_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


def test_a_vehicle_is_weighed_and_not_carried(reads: Reader) -> None:
    text = "The trailer was weighed. It weighs 9,480 pounds over the axles"
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == "weighing"
