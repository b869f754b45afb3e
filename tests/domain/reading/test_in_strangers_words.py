"""Weighings, gauges and checks as strangers put them, each beside a like that says otherwise."""

from __future__ import annotations

from typing import Any

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def told(text: str, reads: Reader) -> list[dict[str, Any]]:
    """The entries that a message states; none where it is silent, asks or is asked about."""
    return list(verdict_to_record(reads(text, on_the_road())).get("entries", ()))


def loads(text: str, reads: Reader) -> dict[str, float]:
    """The loads of the one weighing that a message states."""
    (only,) = told(text, reads)
    assert only["kind"] == "weighing"
    return {at: load["value"] for at, load in only["loads"].items()}


@pytest.mark.parametrize(
    ("text", "pressures"),
    [
        ("left rear tire is seventy won p s i and the right rear is seventy four", [71, 74]),
        ("left rear is seventy won and the right rear is seventy four", [71, 74]),
        ("left front tire sixty ate and right front sixty five psi", [68, 65]),
        ("trailer left rear seventy ate right rear eighty psi", [78, 80]),
        ("left rear is seventy to eighty psi", [80]),
    ],
)
def test_a_digit_is_heard_before_a_spelled_unit_and_and(
    text: str, pressures: list[float], reads: Reader
) -> None:
    assert [each["value"]["value"] for each in told(text, reads)] == pressures


@pytest.mark.parametrize(
    ("text", "weighed"),
    [
        (
            "steer is fifty two eighty no sorry fifty two sixty drive is sixty six forty",
            {"steer": 5_260, "drive": 6_640},
        ),
        ("steer is 5280 no wait 5260 drive is 6640", {"steer": 5_260, "drive": 6_640}),
        ("drive was 6840 no hang on 6480 trailer was 7700", {"drive": 6_480, "trailer": 7_700}),
        ("5,360 steer, wait, 7,200 drive", {"steer": 5_360, "drive": 7_200}),
        (
            "stare axle fifty one twenty dive axle sixty nine hundred",
            {"steer": 5_120, "drive": 6_900},
        ),
    ],
)
def test_a_name_and_is_belong_to_the_figure_behind(
    text: str, weighed: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == weighed


@pytest.mark.parametrize(
    ("text", "weighed"),
    [
        (
            "12,140 / 33,820 / 33,640 / 79,600",
            {"steer": 12_140, "drive": 33_820, "trailer": 33_640, "gross": 79_600},
        ),
        (
            "steers 12.1k drives 33.6k trailer 32.9k",
            {"steer": 12_100, "drive": 33_600, "trailer": 32_900},
        ),
        ("steer 11,900 drives 33,100", {"steer": 11_900, "drive": 33_100}),
    ],
)
def test_a_heavy_truck_drives_on_two_axles(
    text: str, weighed: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == weighed


@pytest.mark.parametrize(
    "text",
    [
        "steer 5,210 drive 33,400 trailer 7,700",
        "steer 5,210 drive 66,400 trailer 7,700",
        "steer 12,100 drive 67,000 trailer 34,100",
    ],
)
def test_what_no_drive_axle_bears_is_asked_about(text: str, reads: Reader) -> None:
    asked = verdict_to_record(reads(text, on_the_road()))
    assert (asked["verdict"], asked["ask"]["about"]) == ("ask", "drive")


@pytest.mark.parametrize(
    ("text", "weight"),
    [
        ("half a tonne of firewood in the tray", {"value": 0.5, "unit": "t"}),
        ("put half a ton of gravel in the bed", {"value": 0.5, "unit": "ton"}),
        ("half a ton of hay on the flatdeck", {"value": 0.5, "unit": "ton"}),
        ("one and a half tonnes of gravel in the tray", {"value": 1.5, "unit": "t"}),
    ],
)
def test_half_a_ton_is_a_weight(text: str, weight: dict[str, Any], reads: Reader) -> None:
    (cargo,) = told(text, reads)
    assert (cargo["kind"], cargo["value"]) == ("cargo", weight)


@pytest.mark.parametrize(
    "text",
    [
        "got a half a ton pickup",
        "half a ton of fun",
        "weighs half a ton more than I thought",
        "must be half a ton of mud on this truck",
        "trailer is half a ton over",
    ],
)
def test_half_a_ton_is_talk_where_nothing_was_loaded(text: str, reads: Reader) -> None:
    assert told(text, reads) == []


@pytest.mark.parametrize(
    ("text", "weighed"),
    [
        (
            "I'm dead chuffed, 1,450 kg on the front, 1,830 on the back and 1,390 on the trailer "
            "axles",
            {"steer": 1_450, "drive": 1_830, "trailer": 1_390},
        ),
        (
            "over the moon, 1,210 kg up front, rear axle 1,640",
            {"steer": 1_210, "drive": 1_640},
        ),
        (
            "well pleased. 3,310 lb front, 4,120 lb rear, 5,100 lb on the trailer axles",
            {"steer": 3_310, "drive": 4_120, "trailer": 5_100},
        ),
    ],
)
def test_what_is_at_an_end_beside_an_axle_is_a_load(
    text: str, weighed: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == weighed


def test_what_is_carried_at_an_end_is_cargo(reads: Reader) -> None:
    cargo, weighing = told("sand, 450 kg on the front, trailer axles 2,310 kg", reads)
    assert (cargo["kind"], cargo["item"]) == ("cargo", "sand")
    assert [*weighing["loads"]] == ["trailer"]


@pytest.mark.parametrize(
    "text",
    [
        "that camper is only putting 6,240 on its axles, front of the truck is 4,610 and the back "
        "is 5,380",
        "camper only 6,240 on its axles, front of the truck is 4,610 and the back is 5,380",
        "camper only 6,240, steers 4,610 drives 5,380",
        "camper axles only 6,240, steer 4,610, drive 5,380",
    ],
)
def test_only_may_say_how_little_it_was(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"trailer": 6_240, "steer": 4_610, "drive": 5_380}


def test_only_says_what_stood_alone(reads: Reader) -> None:
    assert loads("camper only 6,240", reads) == {"gross": 6_240}
    assert loads("camper alone: front axle 3,100, rear axle 3,140", reads) == {
        "trailer_1": 3_100,
        "trailer_2": 3_140,
    }


@pytest.mark.parametrize(
    "text",
    [
        "camper by itself 7,100, truck front 4,610 truck rear 5,380",
        "camper alone 7,100, drive 5,380 steer 4,610",
    ],
)
def test_a_trucks_axles_are_not_of_a_trailer_alone(text: str, reads: Reader) -> None:
    assert verdict_to_record(reads(text, on_the_road()))["verdict"] == "ask"


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("wheel nuts retorqued, gas off, hatches shut", ["wheel nuts", "gas off", "hatches"]),
        ("gas off and jack up", ["gas off", "jack"]),
        ("pretrip done, gladhands good, kingpin locked", ["pretrip", "gladhands", "kingpin"]),
        ("the gas is off limits", []),
        ("turned the gas off under the beans", []),
        ("is the gas off?", []),
    ],
)
def test_gas_that_is_off_is_checked(text: str, parts: list[str], reads: Reader) -> None:
    assert [each["item"] for each in told(text, reads)] == parts


@pytest.mark.parametrize(
    ("text", "undone"),
    [
        ("throw that last one out I read the wrong line", True),
        ("chuck that last one, wrong trailer", True),
        ("throw the leftovers out", False),
        ("throw that old one out", False),
    ],
)
def test_the_last_one_is_thrown_out(text: str, undone: bool, reads: Reader) -> None:
    assert [each["action"] for each in told(text, reads)] == ["undo"] * undone


@pytest.mark.parametrize(
    "text",
    [
        "how many more miles before I run dry",
        "how many more miles till I run dry",
        "how many km before we run dry",
    ],
)
def test_how_far_it_is_until_dry_asks_for_the_range(text: str, reads: Reader) -> None:
    asked = verdict_to_record(reads(text, on_the_road()))
    assert asked["question"]["topic"] == "range"


def test_a_head_wind_is_written_short(reads: Reader) -> None:
    ambient, wind = told("amb 97F hdwind 20", reads)
    assert (ambient["subject"], wind["subject"]) == ("ambient", "wind")


def test_what_trucks_may_drive_is_no_load(reads: Reader) -> None:
    text = "on Sunday the trucks may not drive from 0 to 22 o'clock"
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


@pytest.mark.parametrize(
    ("text", "paid"),
    [
        ("I put in 21.4 gallons, came to 68.27", 68.27),
        ("I put in 21.4 gal for 68.27", 68.27),
        ("I put in 21.4 gallons, 68.27", 68.27),
        (
            "we stopped at that cute little store with the pie again, and while she was inside I "
            "put in 21.4 gallons, came to 68.27",
            68.27,
        ),
    ],
)
def test_what_i_put_in_is_paid_for(text: str, paid: float, reads: Reader) -> None:
    (fill,) = told(text, reads)
    assert (fill["kind"], fill["volume"]["value"], fill["cost"]["value"]) == ("fill", 21.4, paid)


@pytest.mark.parametrize(
    ("text", "was", "value"),
    [
        ("I put in 21.4 gallons, was 24.1", 21.4, 24.1),
        ("I put 21.4 gallons but it was 26", 21.4, 26),
        ("oops I put in 5,280 for steer, should be 5,820", 5_280, 5_820),
    ],
)
def test_what_i_put_in_by_mistake_is_put_right(
    text: str, was: float, value: float, reads: Reader
) -> None:
    (amended,) = told(text, reads)
    assert amended["action"] == "amend"
    assert (amended["was"]["value"], amended["value"]["value"]) == (was, value)


@pytest.mark.parametrize(
    "text",
    [
        "weighed with everyone in: steer 5,180, drive 6,220",
        "with everyone in: steer 5,180 drive 6,220",
        "weighed with kids in: steer 5,180, drive 6,220",
    ],
)
def test_who_sat_in_it_is_no_owner(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5_180, "drive": 6_220}


@pytest.mark.parametrize(
    "text",
    [
        "everyone in bed by 10, 5,180 steps",
        "he loaded: 5,180 6,900 9,840",
    ],
)
def test_what_others_do_stays_theirs(text: str, reads: Reader) -> None:
    assert told(text, reads) == []


@pytest.mark.parametrize(
    ("text", "state"),
    [
        ("I checked the safety chains before we pulled out and they're good", "done"),
        ("figured I'd mention, I checked the safety chains", "done"),
        ("checked the straps and they're loose", "fault"),
        ("tested the brakes and they all work", "done"),
        ("checked the tires on his rig and they're bald", None),
        ("the neighbors checked the lights and they're out", None),
        ("saw the brakes and they were out of stock", None),
    ],
)
def test_they_are_parts_that_were_looked_at(text: str, state: str | None, reads: Reader) -> None:
    assert [each["state"] for each in told(text, reads)] == ([state] if state else [])


@pytest.mark.parametrize(
    ("text", "gross"),
    [
        ("he swears we're over but nope, gross 12,440", [12_440]),
        ("my brother swears it'd be over but nope, gross 12,440", [12_440]),
        ("he swears, gross 12,440", []),
    ],
)
def test_a_guess_ends_where_it_is_refused(text: str, gross: list[float], reads: Reader) -> None:
    assert [each["loads"]["gross"]["value"] for each in told(text, reads)] == gross


@pytest.mark.parametrize(
    ("text", "state"),
    [
        ("road train was 53 m long mate, blew the awning near off", None),
        ("blew the awning nearly off", None),
        ("the wind blew the awning off", "fault"),
        ("blew a tire on the camper", "fault"),
    ],
)
def test_what_nearly_went_is_there(text: str, state: str | None, reads: Reader) -> None:
    assert [each["state"] for each in told(text, reads)] == ([state] if state else [])


@pytest.mark.parametrize(
    ("text", "product"),
    [
        ("Stony Lick Gas\nGal 17.95\nPPG 4.199\nAmt $75.37", None),
        ("STONY LICK GAS\nGAL 17.95\nPPG 4.199", None),
        ("31.2 gal at Stony Lick Gas, 48,300", None),
        ("Stony Lick Gas\nDiesel\nGal 17.95\nPPG 4.199", "diesel"),
        ("REGULAR GAS\nGAL 17.95\nPPG 4.199", "gasoline"),
        ("Gas 31.2 gal, 48,300", "gasoline"),
        ("Gazole\n47,15 L\n1,712 €/L\n80,72 €", "diesel"),
        ("Super 95\n47,15 L\n1,612 EUR/L\n76,01 EUR", "gasoline"),
    ],
)
def test_a_station_is_called_after_what_it_sells(
    text: str, product: str | None, reads: Reader
) -> None:
    (fill,) = told(text, reads)
    assert (fill["kind"], fill.get("product")) == ("fill", product)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("odo should read 47 512", 47_512),
        ("odometer should be 148 512", 148_512),
        ("odo ought to be 48 520", 48_520),
    ],
)
def test_digits_in_two_groups_are_what_it_should_read(
    text: str, value: float, reads: Reader
) -> None:
    (amended,) = told(text, reads)
    assert (amended["field"], amended["value"]["value"]) == ("odometer", value)


@pytest.mark.parametrize(
    ("text", "rig"),
    [
        ("Gross (truck + horsebox) 4,180 kg", "hitched"),
        ("Gross (truck and trailer) 4,180 kg", "hitched"),
        ("Gross (truck only, no trailer) 4,180 kg", "solo"),
        ("Gross (trailer) 1,480 kg", None),
    ],
)
def test_what_stood_there_is_told_in_brackets(text: str, rig: str | None, reads: Reader) -> None:
    (weighing,) = told(text, reads)
    assert weighing.get("rig") == rig


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("put 15 litres of diesel in from the cans", [15]),
        ("put 15 litres of diesel in the truck from the jerry cans", [15]),
        ("put 15 litres of diesel in the cans", []),
        ("put 15 litres in the mower from the can", []),
    ],
)
def test_a_can_that_is_poured_from_takes_nothing(
    text: str, litres: list[float], reads: Reader
) -> None:
    assert [each["volume"]["value"] for each in told(text, reads)] == litres


def test_who_hauls_up_somewhere_arrives(reads: Reader) -> None:
    (arrived,) = told(
        "hauled up at Sallow Bay with the missus grumbling, 48,290 on the speedo", reads
    )
    assert (arrived["event"], arrived["place"]) == ("arrive", "Sallow Bay")
    assert told("hauled up 20 bales", reads) == []


@pytest.mark.parametrize(
    ("text", "verdict"),
    [
        ("5180/6920/9460/31560", "ask"),
        ("5180/6920/9460/21560", "entry"),
        ("5180 6920 9460 37420", "silent"),
    ],
)
def test_a_gross_with_one_wrong_digit_is_asked_about(
    text: str, verdict: str, reads: Reader
) -> None:
    assert verdict_to_record(reads(text, on_the_road()))["verdict"] == verdict
