"""Facts told in clauses: behind 'which', 'where', 'what' or 'when'."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def stated(text: str, reads: Reader) -> list[dict[str, object]]:
    """The entries that a message states."""
    entries = verdict_to_record(reads(text, on_the_road())).get("entries", [])
    assert isinstance(entries, list)
    return entries


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "It had the steers at 5,260, which left 6,910 for the drives",
            {"steer": 5260, "drive": 6910},
        ),
        (
            "When the tank was down to a quarter we weighed 5,120 on the front and 6,640 on the "
            "back.",
            {"steer": 5120, "drive": 6640},
        ),
        (
            "The bloke at the weighbridge read out 5,460 front, 6,890 rear and 9,310 for the "
            "camper.",
            {"steer": 5460, "drive": 6890, "trailer": 9310},
        ),
    ],
)
def test_loads(reads: Reader, text: str, loads: dict[str, int]) -> None:
    (entry,) = stated(text, reads)
    found = entry["loads"]
    assert isinstance(found, dict)
    assert {place: load["value"] for place, load in found.items()} == loads


@pytest.mark.parametrize(
    ("text", "volume", "cost", "place"),
    [
        ("Stopped at Molly's where she took 24.6 gallons, 95.60.", 24.6, 95.6, "Molly's"),
        ("What I paid was 88.40 and for that I got 22.7 gallons.", 22.7, 88.4, None),
        (
            "She was near enough empty, so it took the lot: 33.2 gallons, 129 dollars.",
            33.2,
            129,
            None,
        ),
        ("Half a tank, that's all I bought, 16 gallons, 60 dollars", 16, 60, None),
    ],
)
def test_fills(reads: Reader, text: str, volume: float, cost: float, place: str | None) -> None:
    (entry,) = stated(text, reads)
    assert entry["kind"] == "fill"
    told, paid = entry["volume"], entry["cost"]
    assert isinstance(told, dict)
    assert isinstance(paid, dict)
    assert (told["value"], paid["value"], entry.get("place")) == (volume, cost, place)


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("DEF: two jugs, 2.5 gallons each.", 5),
        ("two 2.5 gallon jugs of def", 5),
        ("def 2 x 2.5 gal", 5),
        ("diesel, four cans of 20 litres each", 80),
        ("three 20 litre jerry cans of diesel", 60),
        ("poured in two jugs of def at 2.5 gallons", 5),
        ("poured in two jugs of def, 5 gallons", 5),
        ("a 2.5 gallon jug of def", 2.5),
        ("2 of us, diesel 24.6 gallons", 24.6),
        ("pump 3, 24.6 gal", 24.6),
    ],
)
def test_so_many_containers_hold_so_much(reads: Reader, text: str, volume: float) -> None:
    (entry,) = stated(text, reads)
    told = entry["volume"]
    assert isinstance(told, dict)
    assert told["value"] == volume


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("The receiver's stamped 12,000 and 1,200.", {"tow": 12000, "tongue": 1200}),
        (
            "The plate by the door gives 11,400 for the truck, 5,600 of it up front and 7,000 at "
            "the back.",
            {"gawr_front": 5600, "gawr_rear": 7000},
        ),
    ],
)
def test_ratings(reads: Reader, text: str, ratings: dict[str, int]) -> None:
    found: dict[object, object] = {}
    for entry in stated(text, reads):
        assert entry["kind"] == "rating"
        value = entry["value"]
        assert isinstance(value, dict)
        found[entry["rating"]] = value["value"]
    assert found.items() >= ratings.items()


def test_turning_for_home_is_no_arrival(reads: Reader) -> None:
    (entry,) = stated("Turned for home at 48,340.", reads)
    assert entry["event"] == "turnaround"


@pytest.mark.parametrize(
    "text",
    [
        "The bloke at the weighbridge had a truck that weighed 9,310",
        "which left 300 for the rent",
        "what he paid was 88.40",
        "had him down as 40 when he was 52",
        "wind out of my sails",
        "31 climbing plants",
        "what we need is 400 people",
        "two 2.5 gallon jugs of milk",
        "when the pub shut we went on, 20 of us at the front",
    ],
)
def test_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


def test_who_asks_with_the_verb_first_is_answered(reads: Reader) -> None:
    verdict = verdict_to_record(reads("what was our gross last time", on_the_road()))
    assert verdict["verdict"] == "question"


def test_two_places_have_a_load_each(reads: Reader) -> None:
    text = "we had three aboard when it weighed 5,310 up front and 6,930 on the rear"
    (entry,) = stated(text, reads)
    loads = entry["loads"]
    assert isinstance(loads, dict)
    assert {place: load["value"] for place, load in loads.items()} == {"steer": 5310, "drive": 6930}
    assert entry["aboard"] == 3


@pytest.mark.parametrize(
    ("text", "subject", "value"),
    [
        ("trans got as hot as 214 coming down the pass", "transmission", 214),
        ("trans hit 214 while we crawled up the grade", "transmission", 214),
        ("wind out of the north at 30", "wind", 30),
        ("wind's from the west at 20", "wind", 20),
    ],
)
def test_gauges_and_wind(reads: Reader, text: str, subject: str, value: float) -> None:
    (entry,) = stated(text, reads)
    told = entry["value"]
    assert isinstance(told, dict)
    assert (entry["subject"], told["value"]) == (subject, value)


@pytest.mark.parametrize(
    "text",
    [
        "I had the steer down as 5,420, it's 5,240",
        "I had the steer down as 5,420 when it was 5,240",
        "we'd got the steer down as 5,420, should be 5,240",
    ],
)
def test_what_was_had_down_is_put_right(reads: Reader, text: str) -> None:
    (entry,) = stated(text, reads)
    value, was = entry["value"], entry["was"]
    assert isinstance(value, dict)
    assert isinstance(was, dict)
    assert (entry["field"], value["value"], was["value"]) == ("steer", 5240, 5420)


@pytest.mark.parametrize(
    ("text", "kind", "field", "value"),
    [
        ("The gradient was one in eight.", "observation", "subject", "grade"),
        ("Mower in the tub, 210 pounds all up", "cargo", "item", "Mower"),
        ("Awning's 92 pounds and it's over the axle.", "cargo", "item", "Awning"),
        ("the towbar's plated at 3,500 kg", "rating", "subject", "hitch"),
        ("hitch ball plated at 3,500 kg", "rating", "subject", "ball"),
        ("camper plated at 9,800 lb", "rating", "subject", "trailer"),
    ],
)
def test_whose_it_is(reads: Reader, text: str, kind: str, field: str, value: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], entry[field]) == (kind, value)


def test_one_in_eight_is_a_share(reads: Reader) -> None:
    (entry,) = stated("The gradient was one in eight.", reads)
    assert entry["value"] == {"value": 12.5, "unit": "%"}


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("It'd done 312 since the last fill when I put the 21 gallons in", None),
        ("Pulling 2,600 revs at 55 up the range.", None),
        ("O'Neil's, 21.4 gal", "O'Neil's"),
    ],
)
def test_a_verb_is_no_place(reads: Reader, text: str, place: str | None) -> None:
    assert stated(text, reads)[0].get("place") == place


@pytest.mark.parametrize(
    "text",
    [
        "Everything's checked except the breakaway.",
        "all checked but the breakaway",
        "all good except for the chains",
    ],
)
def test_what_is_excepted_was_not_done(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    "text",
    [
        "Weighed 12,060 without the camper and 21,540 with it.",
        "weighed 21,540 with the camper and 12,060 without it",
        "12,060 without the camper, 21,540 with it",
    ],
)
def test_with_it_and_without_it(reads: Reader, text: str) -> None:
    rigs = {}
    for entry in stated(text, reads):
        loads = entry["loads"]
        assert isinstance(loads, dict)
        rigs[entry["rig"]] = loads["gross"]["value"]
    assert rigs == {"solo": 12060, "hitched": 21540}


@pytest.mark.parametrize(
    ("text", "left_out"),
    [
        ("Bought 24.6 gallons and a gallon of milk.", "product"),
        ("Dash reckons we've 40 miles to go, so I put 24.6 gallons in.", "distance"),
    ],
)
def test_what_is_of_something_else_is_left_out(reads: Reader, text: str, left_out: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], left_out in entry) == ("fill", False)


def test_another_volume_puts_nothing_right(reads: Reader) -> None:
    (entry,) = stated("I put in 20 gallons, then another 4.6 to top it off.", reads)
    assert entry["kind"] == "fill"


def test_a_difference_is_no_reading(reads: Reader) -> None:
    text = "The right rear hub's 20 degrees hotter than the left, which is 140."
    assert stated(text, reads) == []


def test_full_is_no_thing(reads: Reader) -> None:
    text = "Both propane bottles are full, 20 pounds each, on the tongue."
    assert [entry["item"] for entry in stated(text, reads)] == ["propane bottles"]
