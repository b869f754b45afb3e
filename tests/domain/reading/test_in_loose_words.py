"""What people tell in loose words, each beside a message alike that says otherwise."""

from __future__ import annotations

from typing import Any

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def told(text: str, reads: Reader, **known: Any) -> list[dict[str, Any]]:
    """The entries that a message states; none where it is silent, asks or is asked about."""
    return list(verdict_to_record(reads(text, on_the_road(**known))).get("entries", ()))


def loads(entry: dict[str, Any]) -> dict[str, float]:
    """The loads of a weighing."""
    assert entry["kind"] == "weighing"
    return {at: load["value"] for at, load in entry["loads"].items()}


BOTH_PASSES = [
    {"steer": 4_380, "drive": 6_420, "trailer": 9_210},
    {"steer": 4_760, "drive": 5_960, "trailer": 9_290},
]


@pytest.mark.parametrize(
    "text",
    [
        "bars off: fr 4380 rr 6420 tlr 9210. bars on: fr 4760 rr 5960 tlr 9290",
        "no bars fr 4,380 rr 6,420 trailer 9,210, with bars fr 4,760 rr 5,960 trailer 9,290",
    ],
)
def test_fr_and_rr_are_axles_in_both_passes(text: str, reads: Reader) -> None:
    assert [loads(each) for each in told(text, reads)] == BOTH_PASSES


@pytest.mark.parametrize("text", ["scale: fr 4380, rr 6420", "weighed fr 4,380 rr 6,420"])
def test_fr_and_rr_are_axles_where_only_a_scale_is_told(text: str, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert loads(only) == {"steer": 4_380, "drive": 6_420}


def test_corners_stay_corners_where_a_left_one_is_told(reads: Reader) -> None:
    (only,) = told("fl 2,590 fr 2,610 rl 3,420 rr 3,480, scale at Pell", reads)
    assert set(loads(only)) == {"steer_left", "steer_right", "drive_left", "drive_right"}


@pytest.mark.parametrize(
    ("text", "subjects"),
    [
        ("stamped on the ball is 20,000 lb and the coupler says max trailer 14,000", "bc"),
        ("the ball says 10000 and the coupler says max trailer 7000", "bc"),
        ("on the ball it says 10,000, on the coupler 7,000", "bc"),
        ("coupler is rated 14,000 and the ball 20,000 lbs", "cb"),
        ("number on the ball is 8000 and the receiver says max tongue 1,000", "bh"),
    ],
)
def test_each_stamp_is_of_the_part_named_with_it(text: str, subjects: str, reads: Reader) -> None:
    assert [each["subject"][0] for each in told(text, reads)] == list(subjects)


def test_on_the_ball_is_hitched_where_nothing_is_stamped(reads: Reader) -> None:
    hitched, left = told("got the camper on the ball and headed out 48,150", reads)
    assert (hitched["kind"], left["kind"]) == ("hitch", "odometer")


@pytest.mark.parametrize(
    ("text", "aboard"),
    [
        ("me plus my two cousins in the truck", 3),
        ("me and my two brothers", 3),
        ("me, my brother and two cousins", 4),
        ("me and the two helpers in the cab", 3),
        ("4 guys in the truck", 4),
        ("me plus 400 lb of feed", None),
        ("just me and the two dogs", 1),
    ],
)
def test_relations_are_counted(text: str, aboard: int | None, reads: Reader) -> None:
    (only,) = told(f"steer 4510 drive 5120 trailer 6380, {text}", reads)
    assert only.get("aboard") == aboard


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("38.6 gallons came to 142 and 82 cents", 142.82),
        ("twenty two gallons eighty one and forty cents", 81.4),
        ("thirty eight point six gallons came to one forty two and eighty two cents", 142.82),
    ],
)
def test_cents_follow_whole_money(text: str, cost: float, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert (only["kind"], only["cost"]["value"]) == ("fill", cost)


@pytest.mark.parametrize(
    "text", ["22 gallons, 81 and 10 cents off", "odo 48100 and 82 cents a litre"]
)
def test_cents_off_and_of_a_price_belong_to_no_sum(text: str, reads: Reader) -> None:
    assert all("cost" not in each for each in told(text, reads))


@pytest.mark.parametrize(
    ("text", "paid"),
    [
        ("threw a twenty in the tank, not a fill, 48,311 on the odo", 20),
        ("tossed a fifty in the tank, 48,340", 50),
        ("a fifty of diesel, odo 48,340", 50),
        ("$20 in the tank, 48,340", 20),
    ],
)
def test_a_note_of_money_in_the_tank_is_a_fill(text: str, paid: float, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert (only["kind"], only["cost"]["value"]) == ("fill", paid)
    assert "volume" not in only


@pytest.mark.parametrize(
    "text",
    [
        "put a twenty in the card for Nora, 48,340",
        "lost a twenty in the tank bag, 48,340",
        "lost $20 in the tank bag, 48,340",
        "threw a twenty in the hat, 48,340",
    ],
)
def test_a_note_of_money_elsewhere_is_no_fuel(text: str, reads: Reader) -> None:
    assert all(each["kind"] != "fill" for each in told(text, reads))


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("lugs tqd, straps chkd, breakaway pin in", ["lugs", "straps", "breakaway pin"]),
        ("gave the wheel nuts a once over, all tight", ["wheel nuts"]),
        ("ran a wrench over the lugs, all tight", ["lugs"]),
        ("i looked at the tires, all good", ["tires"]),
    ],
)
def test_what_was_looked_over_is_checked(text: str, items: list[str], reads: Reader) -> None:
    found = told(text, reads)
    assert [each["item"] for each in found] == items
    assert {each["state"] for each in found} == {"done"}


@pytest.mark.parametrize(
    "text",
    [
        "gave the chains a once over, one is cracked",
        "ran a wrench over the lugs, two were loose",
        "give the lugs a once over",
        "give the chains a once over, all good?",
        "i looked at the house, all good",
    ],
)
def test_looking_over_alone_says_nothing_is_good(text: str, reads: Reader) -> None:
    assert not any(each.get("state") == "done" for each in told(text, reads))


@pytest.mark.parametrize(
    "text",
    [
        "noseweight 92 kg with the gas bottles in",
        "noseweight 92 kg w/ the gas bottles in",
        "camper nose weight came to 92 kg with both gas bottles on",
        "noseweight 92 kg with the spare on and the gas bottles in",
    ],
)
def test_what_was_aboard_is_no_check(text: str, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert loads(only) == {"tongue": 92}


def test_a_part_told_for_itself_is_checked(reads: Reader) -> None:
    kinds = [each["kind"] for each in told("noseweight 92 kg, gas bottles on", reads)]
    assert kinds == ["weighing", "check"]


@pytest.mark.parametrize(
    "text",
    [
        "camper battery is cactus",
        "trailer brakes are rooted",
        "the camper battery has carked it",
        "the awning motor is cactus",
    ],
)
def test_a_part_past_use_is_at_fault(text: str, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert (only["kind"], only["state"]) == ("check", "fault")


@pytest.mark.parametrize(
    "text",
    ["drove past a cactus, lights on", "the old dog has had it", "i've had it with these lights"],
)
def test_words_of_ruin_are_talk_elsewhere(text: str, reads: Reader) -> None:
    assert told(text, reads) == []


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("Juniper tank = 34 gal, gcwr 22,800 per book", ["tank", "gcwr"]),
        ("tank 34 gal, payload 3,200 per the brochure", ["tank", "payload"]),
    ],
)
def test_a_limit_stands_in_the_book(text: str, ratings: list[str], reads: Reader) -> None:
    assert [each["rating"] for each in told(text, reads)] == ratings


def test_so_many_a_book_is_no_limit(reads: Reader) -> None:
    assert told("sold 200 copies, 12 per book", reads) == []


@pytest.mark.parametrize(
    ("text", "fee"),
    [
        ("they hit me for 4 bucks on the reweigh", 4),
        ("they dinged me 14 bucks", 14),
        ("they got lunch for 9 bucks", None),
    ],
)
def test_what_the_scale_charged(text: str, fee: float | None, reads: Reader) -> None:
    (only,) = told(f"steer 4900 drive 3500, {text}", reads)
    assert only.get("cost", {}).get("value") == fee


@pytest.mark.parametrize(
    "text",
    [
        "tlr axles frm frt: 4980 / 5040 / 5010, trk 13,720",
        "trailer axles starting at the front 4980, 5040, 5010, truck 13720",
    ],
)
def test_trailer_axles_in_order(text: str, reads: Reader) -> None:
    (only,) = told(text, reads)
    axles = {"trailer_1": 4_980, "trailer_2": 5_040, "trailer_3": 5_010}
    assert loads(only) == axles | {"truck": 13_720}


def test_from_the_front_axle_is_of_that_axle(reads: Reader) -> None:
    (only,) = told("4980 from front axle, 5210 rear", reads)
    assert loads(only) == {"steer": 4_980, "drive": 5_210}


@pytest.mark.parametrize(
    "text",
    [
        "downball on the camper is 265 kg",
        "downweight on the ball 265 kg",
        "download on the hitch 265 kilos",
        "tongue 265 kg, reckon that's bang on",
        "nose weight on the camper's 265 kilos, reckon that's good",
    ],
)
def test_what_bears_down_is_the_tongues(text: str, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert loads(only) == {"tongue": 265}


@pytest.mark.parametrize("text", ["tongue 265 kg, i think", "tongue 265 kg, reckon that's it"])
def test_a_guess_of_the_figure_is_kept_out(text: str, reads: Reader) -> None:
    assert told(text, reads) == []


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("we're hitched and headed out forty eight one fifty", ["hitch", "odometer"]),
        ("we're hooked up and gone, 48,150", ["hitch", "odometer"]),
        ("we're hooked on this truck, 48,150", ["odometer"]),
        ("we were hitched in 1998, odo 48,150", ["odometer"]),
        ("we're hitched at last! married 10 years today", []),
    ],
)
def test_we_are_hitched_at_a_reading(text: str, kinds: list[str], reads: Reader) -> None:
    assert [each["kind"] for each in told(text, reads, hitched=False)] == kinds


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("bobtail 8,460, brimmed w/ gas", True),
        ("bobtail 8,460, topped up with diesel", True),
        ("bobtail 8,460, topped off with def", False),
        ("bobtail 8,460 then topped off w/ gas", False),
    ],
)
def test_brimmed_with_fuel_is_a_full_tank(text: str, full: bool, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert only.get("fuel_level") == (1 if full else None)


@pytest.mark.parametrize(
    ("text", "event", "place"),
    [
        ("rocked up at Gumbo Creek, 48,388", "arrive", "Gumbo Creek"),
        ("pitched up at Hazel Farm 48,388", "arrive", "Hazel Farm"),
        ("shot through at 48,302", "depart", None),
    ],
)
def test_other_words_of_coming_and_going(
    text: str, event: str, place: str | None, reads: Reader
) -> None:
    (only,) = told(text, reads)
    assert (only["event"], only.get("place")) == (event, place)


def question(text: str, reads: Reader) -> dict[str, Any] | None:
    """The question that a message asks, if any."""
    return verdict_to_record(reads(text, on_the_road())).get("question")


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        (
            "oi what'd the steer come in at last time on the bridge?",
            {"topic": "weight", "field": "steer"},
        ),
        ("how'd that trip stack up then", {"topic": "trip"}),
        ("how'd the interview pan out", None),
        (
            "whats it gonna take to run 640 mi Tulley to Bluffton w flatdeck",
            {
                "topic": "plan",
                "trailer": "flatdeck",
                "distance": {"value": 640, "unit": "mi"},
                "from": "Tulley",
                "to": "Bluffton",
            },
        ),
        ("whats it take to run a business", None),
        (
            "whats it gonna take to haul the camper 320 mi to Bluffton",
            {
                "topic": "plan",
                "trailer": "camper",
                "distance": {"value": 320, "unit": "mi"},
                "to": "Bluffton",
            },
        ),
        ("how long will it take to get to Bluffton, 320 mi", None),
        ("how'd the run to Bluffton stack up", {"topic": "trip"}),
        (
            "is the nose weight on the camper within reason?",
            {"topic": "tongue", "trailer": "camper"},
        ),
        ("is the nose weight within limits?", {"topic": "margin", "field": "tongue"}),
        ("yo bot how do u work", {"topic": "help"}),
        ("how do u work tomorrow", None),
        ("when did i last grease the tow ball?", {"topic": "upkeep", "item": "tow ball"}),
        ("when did we last do the grease", {"topic": "upkeep", "item": "grease"}),
    ],
)
def test_asked_in_loose_words(text: str, asked: dict[str, Any] | None, reads: Reader) -> None:
    found = question(text, reads)
    assert (found and {key: said for key, said in found.items() if key != "form"}) == asked


@pytest.mark.parametrize(
    "text",
    [
        "diesel was $96.30, 48,404 on the odo",
        "paid 96.30 for diesel, 48,404 on the odo",
        "diesel came to ninety six and thirty cents, odo 48,404",
    ],
)
def test_fuel_and_its_cost_at_a_reading_are_a_fill(text: str, reads: Reader) -> None:
    (only,) = told(text, reads)
    assert (only["kind"], only["cost"]["value"], only["product"]) == ("fill", 96.3, "diesel")


@pytest.mark.parametrize(
    "text",
    [
        "diesel $4.29, odo 48,404",
        "diesel generator $150, odo 48,404",
        "gas can $25, odo 48,404",
        "propane $22, odo 48,404",
        "diesel would be $96.30, odo 48,404",
    ],
)
def test_what_else_costs_money_at_a_reading_is_no_fill(text: str, reads: Reader) -> None:
    assert [each["kind"] for each in told(text, reads)] == ["odometer"]


@pytest.mark.parametrize(
    "text",
    ["stamp on the coupler says 8,000 and on the ball 6,000", "coupler 8,000, on the ball 10,000"],
)
def test_so_much_on_the_ball_is_its_stamp(text: str, reads: Reader) -> None:
    assert [each["subject"] for each in told(text, reads)] == ["coupler", "ball"]


def test_little_on_the_ball_rests_there(reads: Reader) -> None:
    _, rests = told("hitch sticker says 12,000 on the ball 1,200", reads)
    assert (rests["subject"], rests["rating"]) == ("hitch", "tongue")
