"""What is said to be allowed is a rating, and was not weighed."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


def entries(text: str, reads: Reader) -> list[tuple[str, ...]]:
    """What a message states, each as its kind, what it is of and how much."""
    told: list[tuple[str, ...]] = []
    for entry in verdict_to_record(reads(text, on_the_road())).get("entries", []):
        if entry["kind"] == "rating":
            told.append((entry["subject"], entry["rating"], str(entry["value"]["value"])))
        else:
            loads = entry.get("loads", {})
            told += [(entry["kind"], each, str(loads[each]["value"])) for each in loads]
    return told


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "The pickup's rated to tow 12,800 pounds at most, with 1,280 allowed on the tongue",
            [("truck", "tow", "12800"), ("truck", "tongue", "1280")],
        ),
        ("we're allowed 5,600 on the steer axle", [("truck", "gawr_front", "5600")]),
        ("towball download 310kg max", [("hitch", "tongue", "310")]),
        ("nose weight 100 kg max", [("hitch", "tongue", "100")]),
        ("tongue 1,180 maxed out", [("weighing", "tongue", "1180")]),
        (
            "maximum load 2,830 lb, tires 65 psi",
            [("tyres", "tyre_load", "2830"), ("tyres", "pressure", "65")],
        ),
        (
            "tires max load 2,830 lb, 65 psi",
            [("tyres", "tyre_load", "2830"), ("tyres", "pressure", "65")],
        ),
        (
            "max load 3,195 lb, max pressure 80 psi",
            [("tyres", "tyre_load", "3195"), ("tyres", "pressure", "80")],
        ),
        (
            "camper tyres 2,830 lb max at 65 psi cold",
            [("tyres", "tyre_load", "2830"), ("tyres", "pressure", "65")],
        ),
        ("max load 3,480 lb", [("truck", "payload", "3480")]),
        ("not more than 7,050 on the rear axle", [("truck", "gawr_rear", "7050")]),
        (
            "the door says 11,500 gross with 7,000 allowed on the rear axle",
            [("truck", "gvwr", "11500"), ("truck", "gawr_rear", "7000")],
        ),
        ("rear axle came in at 6,840, 7,050 allowed", [("weighing", "drive", "6840")]),
        ("tongue came to 1,340 today with 1,400 allowed", [("weighing", "tongue", "1340")]),
        (
            "they allowed us 20 minutes on the scale, steer 5,240 drive 6,840",
            [("weighing", "steer", "5240"), ("weighing", "drive", "6840")],
        ),
        (
            "drive 6,840 is heavier than steer 5,240",
            [("weighing", "drive", "6840"), ("weighing", "steer", "5240")],
        ),
    ],
)
def test_allowed_is_rated_and_not_weighed(
    reads: Reader, text: str, stated: list[tuple[str, ...]]
) -> None:
    assert entries(text, reads) == stated


@pytest.mark.parametrize(
    "text",
    [
        "they only allowed 1,200 people on the bridge",
        "no more than 400 on the front lawn, said the town",
        "kids are allowed 2 hours of tv at most",
        "allowed 3,500 for the old sofa",
    ],
)
def test_what_people_are_allowed_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("took 21.4 gallons at most", None),
        ("trans 195 at the top of the grade", None),
        ("trans 195 at the top of Harrow Pass", "Harrow Pass"),
        ("21.4 gal at Top Hat Fuel", "Top Hat Fuel"),
        ("Radiator's happy, trans 195", None),
        ("Molly's, 21.4 gal", "Molly's"),
        ("Molly's Fuel, 21.4 gal", "Molly's Fuel"),
    ],
)
def test_a_part_or_a_measure_is_no_place(reads: Reader, text: str, place: str | None) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry.get("place") == place


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "The owner's manual says Juniper may tow no more than 9,200 pounds",
            ["rating rating=tow subject=truck truck=Juniper value=9200"],
        ),
        (
            "sticker on the door: people and cargo no more than 1,620 lb",
            ["rating rating=payload subject=truck value=1620"],
        ),
        ("it weighs no more than 9,000", ["silent"]),
        ("the tongue should be no more than 1,200", ["silent"]),
    ],
)
def test_no_more_than_is_a_limit_of_what_is_rated(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "the weight of people and cargo should never be more than 1,620 pounds",
            ["rating rating=payload subject=truck value=1620"],
        ),
        ("the trailer should not be more than 7,000 lb", ["silent"]),
    ],
)
def test_what_should_never_be_more_is_a_limit_of_what_is_rated(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries
