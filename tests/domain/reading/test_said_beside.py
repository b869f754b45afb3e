"""Small matters said in other words: whose plate or tank it is, round sums, thin pads, a place."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Weighing
from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Ask, Choice, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def entries(text: str, reads: Reader) -> list[dict[str, Any]]:
    """What a message states, as plain data."""
    record = verdict_to_record(reads(text, on_the_road()))
    assert record["verdict"] == "entry", record
    stated: list[dict[str, Any]] = record["entries"]
    return stated


@pytest.mark.parametrize(
    ("text", "trailer", "value", "unit"),
    [
        ("MTPLM off the camper's plate is 1,495 kg", "camper", 1495, "kg"),
        ("GVWR from the flatdeck's plate: 9,990", "flatdeck", 9990, "lb"),
        ("gvwr off the camper plate 7,500 lb", "camper", 7500, "lb"),
        ("GVM from the plate on the camper, 2,400 kg", "camper", 2400, "kg"),
    ],
)
def test_a_limit_is_read_off_a_plate(
    text: str, trailer: str, value: float, unit: str, reads: Reader
) -> None:
    (entry,) = entries(text, reads)
    assert (entry["rating"], entry["trailer"]) == ("gvwr", trailer)
    assert entry["value"] == {"value": value, "unit": unit}


@pytest.mark.parametrize(
    "text",
    [
        "tank on the truck is 60 gallons",
        "the tank in Juniper is 60 gal",
        "fuel tank on the truck was 60 gallons",
    ],
)
def test_how_big_the_tank_on_the_truck_is(text: str, reads: Reader) -> None:
    (entry,) = entries(text, reads)
    assert (entry["rating"], entry["value"]) == ("tank", {"value": 60, "unit": "gal"})


@pytest.mark.parametrize(
    ("text", "item", "value"),
    [
        ("skid steer on board, 6,400 lb", "skid steer", 6400),
        ("generator aboard, 128 lb", "generator", 128),
        ("hay bales loaded, 1,150 lb", "hay bales", 1150),
    ],
)
def test_a_thing_that_is_on_board(text: str, item: str, value: float, reads: Reader) -> None:
    (entry,) = entries(text, reads)
    assert (entry["kind"], entry["item"], entry["value"]["value"]) == ("cargo", item, value)


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("pads look thin on the rear axle", "pads"),
        ("brake pads are getting thin", "brake pads"),
        ("front pads down to the metal", "front pads"),
    ],
)
def test_thin_pads_are_a_fault(text: str, item: str, reads: Reader) -> None:
    (entry,) = entries(text, reads)
    assert (entry["kind"], entry["item"], entry["state"]) == ("check", item, "fault")


@pytest.mark.parametrize(
    "text",
    [
        "headwind twenty-five to thirty miles an hour, holding fifty-five",
        "crosswind 20 to 30 mph, doing 55",
        "wind gusting to 30 mph, sitting at 55",
        "wind 30, holding 55",
    ],
)
def test_how_fast_one_drives_in_the_wind(text: str, reads: Reader) -> None:
    wind, speed = entries(text, reads)
    assert (wind["subject"], wind["value"]["value"]) == ("wind", 30)
    assert (speed["subject"], speed["value"]) == ("speed", {"value": 55, "unit": "mph"})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("threw sixty bucks at it, not a fill, price was 3.999. 48,266", {"full": False}),
        ("48,380, not a full fill, 12.2 gal", {"full": False}),
        (
            "48,380 on the odo, thirty-one point two gallons, a hundred eighteen even",
            {"cost": {"value": 118, "unit": "USD"}},
        ),
        ("31.2 gal, 118 flat, 48,380", {"cost": {"value": 118, "unit": "USD"}}),
        ("put 40 bucks in at the corner, 48,290", {"place": None}),
        ("31 gal at the crossroads, 48,290", {"place": None}),
        ("31 gal at Corner Store, 48,290", {"place": "Corner Store"}),
    ],
)
def test_what_is_said_of_a_fill(text: str, said: dict[str, Any], reads: Reader) -> None:
    (entry,) = entries(text, reads)
    assert entry["kind"] == "fill"
    assert {key: entry.get(key) for key in said} == said


@pytest.mark.parametrize(
    ("text", "meant", "was"),
    [
        ("we were in Cobblewick for that one, not Saltlick", "Cobblewick", "Saltlick"),
        (
            "the place on that fill was Pinto Flats, I'd put Harrow Pass",
            "Pinto Flats",
            "Harrow Pass",
        ),
        ("that fill was at Larkfold, I said Elk Fork", "Larkfold", "Elk Fork"),
        ("the town was Larkfold for that fill, not Elk Fork", "Larkfold", "Elk Fork"),
        ("that weigh was at Larkfold, I said Elk Fork", "Larkfold", "Elk Fork"),
        ("that last stop was Larkfold, I typed Elk Fork", "Larkfold", "Elk Fork"),
    ],
)
def test_a_place_is_put_right(text: str, meant: str, was: str, reads: Reader) -> None:
    (entry,) = entries(text, reads)
    assert (entry["field"], entry["value"], entry["was"]) == ("place", meant, was)


@pytest.mark.parametrize(
    ("text", "question"),
    [
        (
            "Before I load the last pallet: how much payload have we got left?",
            {"topic": "margin", "rating": "payload"},
        ),
        ("quick one before we hitch: what's our gross?", {"topic": "weight", "field": "gross"}),
        ("how do I log a fill when I only know the dollars?", {"topic": "help"}),
        ("how do I log a fill without the price?", {"topic": "help"}),
        ("how do we log diesel cost", {"topic": "help"}),
        ("whats it cost us to pull to Harlan and back", {"topic": "plan", "to": "Harlan"}),
        ("what will it cost to haul to Harlan", {"topic": "plan", "to": "Harlan"}),
    ],
)
def test_what_is_asked_in_passing(text: str, question: dict[str, str], reads: Reader) -> None:
    record = verdict_to_record(reads(text, on_the_road()))
    assert record == {"verdict": "question", "question": question}


STEERS = [Weighing(loads={"steer": Quantity(load, "lb")}) for load in (53_200, 5_320)]
TOO_MUCH = Ask(
    "steer",
    (Choice("53,200 lb steer", (STEERS[0],)), Choice("5,320 lb steer", (STEERS[1],))),
)


@pytest.mark.parametrize("text", ["5,320, extra zero", "5320, an extra zero", "extra zero, 5,320"])
def test_the_zero_too_many_is_no_figure(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=TOO_MUCH)) == Facts((STEERS[1],))


TALK = [
    "over GVWR, camper plate 9,340",
    "tank on the boat is 60 gallons",
    "boys on board, 240 lb",
    "cat on board, 12 lb",
    "this soup is thin",
    "my notepads look thin",
    "problem 9: one train going 60 mph and the other doing 45",
    "that's not a fill, that's a puddle",
    "Jenny was in Ohio for that one, not Denver",
    "he was in Denver for that one, not Boise",
    "I put Denver, she said Boise",
    "we were in Ohio that time, not Denver",
    "whats it cost to ship to Boise",
    "what did the movers cost to get to Boise",
    "not bad for a load of old rope",
]


@pytest.mark.parametrize("text", TALK)
def test_talk_that_looks_like_it_gets_silence(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "rating"),
    [
        ("tongue rating off the camper plate is 750", "tongue"),
        ("GAWR from the camper's plate is 3,500", "gawr"),
    ],
)
def test_what_is_read_off_a_plate_is_what_it_is_called(
    text: str, rating: str, reads: Reader
) -> None:
    (entry,) = entries(text, reads)
    assert (entry["rating"], entry["trailer"]) == (rating, "camper")
