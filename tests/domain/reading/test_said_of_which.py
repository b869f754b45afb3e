"""Which entry, field or thing a message is about where more than one word could say it."""

from __future__ import annotations

from typing import Any

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def read(reads: Reader, text: str) -> list[dict[str, Any]]:
    """The entries that are read of a message on the road; none where it is no entry."""
    entries: list[dict[str, Any]] = verdict_to_record(reads(text, on_the_road())).get("entries", [])
    return entries


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("set the gallons to 24.2 on that last fill", "volume", {"value": 24.2, "unit": "gal"}),
        ("make the gallons 24.2 on my last fill ta", "volume", {"value": 24.2, "unit": "gal"}),
        ("set the odo to 48,320 on that last fill", "odometer", {"value": 48_320, "unit": "mi"}),
        ("make the steer 5,210 on that last weighing", "steer", {"value": 5210, "unit": "lb"}),
        ("no, volume was 24.6 gallons", "volume", {"value": 24.6, "unit": "gal"}),
        (
            "no no the volume was twenty four point six gallons",
            "volume",
            {"value": 24.6, "unit": "gal"},
        ),
        ("no the fuel was 24.6 gallons", "volume", {"value": 24.6, "unit": "gal"}),
        ("gross is wrong on that ticket. 24,210", "gross", {"value": 24_210, "unit": "lb"}),
        ("Drive is wrong on the slip. 6,290.", "drive", {"value": 6290, "unit": "lb"}),
        ("ticket is wrong. 40771", "ticket", 40_771),
    ],
)
def test_a_field_of_the_last_entry_is_put_right(
    reads: Reader, text: str, field: str, value: object
) -> None:
    assert read(reads, text) == [
        {"kind": "correction", "action": "amend", "field": field, "value": value}
    ]


@pytest.mark.parametrize("text", ["no, we put in 24.6 gallons", "make the gallons 24.2 next fill"])
def test_what_was_pumped_or_is_to_be_is_no_correction(reads: Reader, text: str) -> None:
    assert all(entry["kind"] != "correction" for entry in read(reads, text))


@pytest.mark.parametrize(
    "text",
    [
        "get rid of that arrival",
        "get rid of that arrival, we're not actually there yet",
        "delete the departure please",
        "scrap the departure entry, wrong truck",
        "take that hitch entry back out",
        "take that hitch entry back out, we never coupled up",
        "take the hitch entry out",
        "strike the hitch entry",
        "take that fill back out",
    ],
)
def test_an_arrival_or_a_hitch_up_is_taken_out_by_its_name(reads: Reader, text: str) -> None:
    assert read(reads, text) == [{"kind": "correction", "action": "undo"}]


def test_a_figure_names_the_arrival_that_goes(reads: Reader) -> None:
    (entry,) = read(reads, "remove the arrival at 48,300")
    assert entry == {"kind": "correction", "action": "undo", "was": 48_300}


@pytest.mark.parametrize(
    "text",
    [
        "delete the hitch",
        "took the hitch out",
        "get rid of that hitch, its bent",
        "forget the arrival party",
        "take the trash back out",
    ],
)
def test_a_hitch_itself_and_talk_are_no_entry_that_goes(reads: Reader, text: str) -> None:
    assert read(reads, text) == []


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("ours is the 9,900 gvwr one", "truck"),
        ("camper is the 9,900 gvwr one", "trailer"),
        ("the 9,900 gvwr is on the truck", "truck"),
    ],
)
def test_a_rating_is_told_of_one_s_own(reads: Reader, text: str, subject: str) -> None:
    (entry,) = read(reads, text)
    assert (entry["subject"], entry["rating"]) == (subject, "gvwr")


@pytest.mark.parametrize(
    "text",
    [
        "almost bought the 9,900 gvwr one",
        "we liked the 14,000 gcwr one better",
        "neighbor went for the 9,900 gvwr one but its red",
    ],
)
def test_one_picked_by_its_rating_is_not_ours(reads: Reader, text: str) -> None:
    assert read(reads, text) == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("holding 56 mph in fifth, revs 2100", {"speed": 56, "engine_speed": 2100}),
        ("sat at 62 mph in top gear, revs 1900", {"speed": 62, "engine_speed": 1900}),
        ("sign says 55 mph, revs 2100", {"engine_speed": 2100}),
        (
            "the sign said 9 percent grade, and we crawled up it at 28 mph with oil at 231",
            {"grade": 9, "speed": 28, "oil": 231},
        ),
        ("sign says 55 mph limit, we crawled by at 28 mph with oil 231", {"speed": 28, "oil": 231}),
        ("sign says 55 mph, oil 231", {"oil": 231}),
    ],
)
def test_own_speed_beside_another_gauge_or_a_sign(
    reads: Reader, text: str, told: dict[str, int]
) -> None:
    assert {each["subject"]: each["value"]["value"] for each in read(reads, text)} == told


@pytest.mark.parametrize(
    ("text", "costs"),
    [
        ("$96.11 diesel, $14.20 for 3.1 gal def", {"diesel": 96.11, "def": 14.2}),
        ("diesel $96.11, 3.1 gal def $14.20", {"diesel": 96.11, "def": 14.2}),
        (
            "spent 88 bucks on diesel and got 2.5 gal of def for 12.99",
            {"diesel": 88, "def": 12.99},
        ),
        ("diesel is $3.89 here, put in 3.1 gal def $14.20", {"def": 14.2}),
    ],
)
def test_fuel_that_was_only_paid_for_beside_a_fluid_that_was_poured(
    reads: Reader, text: str, costs: dict[str, float]
) -> None:
    assert {each["product"]: each["cost"]["value"] for each in read(reads, text)} == costs


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("wheel bearings, when are they next due", {"topic": "upkeep", "item": "wheel bearings"}),
        ("our rego, when is it due", {"topic": "upkeep", "item": "rego"}),
        ("the brakes, when do they next need doing", {"topic": "upkeep", "item": "brakes"}),
        ("how many k's till I'm dry", {"topic": "range"}),
        ("how many ks till were empty", {"topic": "range"}),
        ("how would you like us to text a weighing", {"topic": "help"}),
        ("how do you need me to log a fill", {"topic": "help"}),
        ("how do you want me to send a fill to you?", {"topic": "help"}),
    ],
)
def test_what_is_asked_behind_its_thing_or_of_drawbar(
    reads: Reader, text: str, question: dict[str, str]
) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {
        "verdict": "question",
        "question": question,
    }


@pytest.mark.parametrize(
    "text", ["kids, when are they due", "how would you like me to send the money to you"]
)
def test_talk_in_the_same_shape_is_no_question_to_the_log(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}
