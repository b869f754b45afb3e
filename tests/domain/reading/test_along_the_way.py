"""What is told along the way: where one is, what a wheel shows, what was looked at and carried."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, chat, on_the_road


def stated(text: str, reads: Reader) -> list[dict[str, object]]:
    """The entries that a message states."""
    entries = verdict_to_record(reads(text, on_the_road())).get("entries", [])
    assert isinstance(entries, list)
    return entries


@pytest.mark.parametrize(
    "text",
    ["hit 48,312 on the way home", "almost home 48,312", "halfway home, 48,312"],
)
def test_who_is_on_the_way_home_has_not_come_there(reads: Reader, text: str) -> None:
    assert stated(text, reads) == [{"kind": "odometer", "odometer": {"value": 48312, "unit": "mi"}}]


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("RR tire 62 psi", "right rear"),
        ("rr 62 psi", "right rear"),
        ("rr tire on the trailer 62", "trailer right rear"),
        ("RR trailer tire 62 psi", "trailer right rear"),
        ("rr hub 180 F", "right rear"),
    ],
)
def test_a_wheel_has_its_side(reads: Reader, text: str, position: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], entry["position"]) == ("observation", position)


def test_an_axle_has_none(reads: Reader) -> None:
    (entry,) = stated("frnt 5,020 rr 6,310", reads)
    loads = entry["loads"]
    assert isinstance(loads, dict)
    assert list(loads) == ["steer", "drive"]


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("brakes tested at the gate", ["brakes"]),
        ("chocks out, lights good", ["chocks", "lights"]),
        ("gate latched, lights checked at the ramp", ["gate", "lights"]),
    ],
)
def test_where_it_was_looked_at_was_not_looked_at(
    reads: Reader, text: str, items: list[str]
) -> None:
    assert [(each["item"], each["state"]) for each in stated(text, reads)] == [
        (item, "done") for item in items
    ]


@pytest.mark.parametrize(
    ("text", "item", "pounds"),
    [
        ("3 heifers loaded, 650 lb a head", "heifers", 1950),
        ("loaded 4 ewes, 160 lb a head", "ewes", 640),
        ("loaded 12 hives at 90 lb apiece", "hives", 1080),
        ("loaded 24 supers at 45 lb", "supers", 1080),
        ("loaded 20 sacks of feed at 50 lb", "feed", 1000),
    ],
)
def test_so_much_a_head_is_of_all_of_them(
    reads: Reader, text: str, item: str, pounds: float
) -> None:
    (entry,) = stated(text, reads)
    assert (entry["item"], entry["value"]) == (item, {"value": pounds, "unit": "lb"})


@pytest.mark.parametrize(
    "text",
    [
        "20 gal of diesel in cans",
        "filled 4 jerry cans, 20 gal",
        "5 gal gas can in the bed",
        "spare fuel 20 gal in jerry cans in the bed",
    ],
)
def test_fuel_in_cans_is_in_no_tank(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    "text", ["put in 10 gal from the cans", "two jerry cans of diesel went in, 10 gal"]
)
def test_fuel_out_of_cans_is_a_fill(reads: Reader, text: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], entry["volume"]) == ("fill", {"value": 10, "unit": "gal"})


@pytest.mark.parametrize("text", ["swapped the fuel filter 51,300", "switched the diesel 48,300"])
def test_no_tank_takes_thousands_of_gallons(reads: Reader, text: str) -> None:
    assert all(each["kind"] != "correction" for each in stated(text, reads))


ARRIVED = {"event": "arrive"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("stopped for lunch at Harlow, 48,330", {"place": "Harlow"}),
        ("lunch stop, 48,330", {}),
        ("48,330, pit stop at Harlow", {"place": "Harlow"}),
        ("stopped overnight at Pine Flats, 48,330", {**ARRIVED, "place": "Pine Flats"}),
        ("overnight in Bluff Park 48,330", {**ARRIVED, "place": "Bluff Park"}),
        ("spent the night at Harlow, 48,330", {**ARRIVED, "place": "Harlow"}),
        ("camped at Harlow 48,330", {**ARRIVED, "place": "Harlow"}),
        ("back in the barn 48,330", ARRIVED),
        ("stopped to let the horses drink 48,330", {}),
        ("pulled over for coffee 48,330", {}),
        (
            "turned the rig around at the closed bridge, 48,330",
            {"event": "turnaround"},
        ),
    ],
)
def test_where_one_stops_the_odometer_is_read(
    reads: Reader, text: str, told: dict[str, str]
) -> None:
    reading = {"kind": "odometer", "odometer": {"value": 48330, "unit": "mi"}}
    assert stated(text, reads) == [{**reading, **told}]


@pytest.mark.parametrize(
    "text",
    [
        "day 2: 48,120 to 48,418",
        "day 3 48,120-48,418",
        "leg 1: 48,120 to 48,418",
        "went 48,120 - 48,418",
        "drove from 48,120 to 48,418",
    ],
)
def test_a_day_is_told_by_its_two_readings(reads: Reader, text: str) -> None:
    assert [each["odometer"] for each in stated(text, reads)] == [
        {"value": 48120, "unit": "mi"},
        {"value": 48418, "unit": "mi"},
    ]


@pytest.mark.parametrize(
    "text",
    [
        "house numbers 48,120 to 48,418",
        "tickets 48120-48418",
        "raised 48,120 to 48,418 dollars",
        "the night shift pays 48,330",
        "lunch is 48,330 calories",
        "day 2 of 5",
        "stopped at 48330 Elm for the couch",
        "check out these lights",
        "day 2: 48,418 to 48,120",
    ],
)
def test_what_looks_like_a_day_on_the_road_is_talk(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    ("text", "item", "state"),
    [
        ("check engine light came on", "check engine light", "fault"),
        ("engine light's on", "engine light", "fault"),
        ("oil light's on", "oil light", "fault"),
        ("marker lights on", "marker lights", "done"),
        ("tpms light is on", "tpms light", "fault"),
        ("propane off", "propane", "done"),
        ("trailer hubs cool", "trailer hubs", "done"),
        ("did my walk around, all good", "walk around", "done"),
        ("checked the straps at Orchard Hill, tight", "straps", "done"),
        ("wheel bearing growling on the trailer", "wheel bearing", "fault"),
        ("slide wont come in", "slide", "fault"),
        ("swapped the trailer battery", "trailer battery", "done"),
        ("replaced the blown tire with the spare", "tire", "done"),
        ("the blown tire is on the trailer", "tire", "fault"),
        ("left rear inner dual is losing air", "left rear inner dual", "fault"),
        ("left trailer brake light is out", "left trailer brake light", "fault"),
    ],
)
def test_parts_and_how_they_are(reads: Reader, text: str, item: str, state: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], entry["item"], entry["state"]) == ("check", item, state)


@pytest.mark.parametrize(
    "text",
    [
        "did a walk around the block",
        "my phone is vibrating",
        "the stove is making a racket",
        "straps broke on my bag",
        "the low fuel light came on",
        "the check engine light came on in Dave's truck",
    ],
)
def test_parts_of_other_things_are_talk(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    ("text", "cargo"),
    [
        ("filled the fresh water, 45 gal", ("water", 45, "gal", None)),
        ("topped up the water, 90 L", ("water", 90, "L", None)),
        ("fresh tank full, 48 gal", ("water", 48, "gal", "fresh tank")),
        ("fresh water 60 gal", ("water", 60, "gal", None)),
        ("took on 60 gallons of water", ("water", 60, "gal", None)),
        ("30 gal of water in the tack room", ("water", 30, "gal", "tack room")),
        ("load is 5,400 lb of alfalfa", ("alfalfa", 5400, "lb", None)),
        ("side by side 1,650 lb over the axles", ("side by side", 1650, "lb", "over axles")),
        ("bikes on the back rack 90 lb", ("bikes", 90, "lb", "back rack")),
        ("someone left 200 lb of feed in the bed", ("feed", 200, "lb", "bed")),
        ("left 200 lb of feed in the bed", ("feed", 200, "lb", "bed")),
        ("Hank put 200 lb of feed in the bed", ("feed", 200, "lb", "bed")),
    ],
)
def test_what_rides_along(
    reads: Reader, text: str, cargo: tuple[str, float, str, str | None]
) -> None:
    (entry,) = stated(text, reads)
    value = entry["value"]
    assert isinstance(value, dict)
    assert (entry["item"], value["value"], value["unit"], entry.get("position")) == cargo


@pytest.mark.parametrize(
    "text",
    [
        "someone left 200 lb of feed in the barn",
        "Hank put 200 lb of feed in his truck",
        "filled the pool, 4,500 gal of water",
        "the load is too much for me",
    ],
)
def test_what_rides_elsewhere_is_talk(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    ("text", "action"),
    [("trailer on, lights tested", "hitched"), ("trailer off", "unhitched")],
)
def test_a_trailer_is_on_or_off_in_a_clause_of_its_own(
    reads: Reader, text: str, action: str
) -> None:
    first, *_ = stated(text, reads)
    assert first == {"kind": "hitch", "action": action}


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("lights, brakes, chains all good", ["lights", "brakes", "chains"]),
        ("awning in, jacks up, antenna down", ["awning", "jacks", "antenna"]),
        ("safety chains on, lights check out", ["safety chains", "lights"]),
        ("lights check out, all good", ["lights"]),
    ],
)
def test_all_that_is_listed_is_done(reads: Reader, text: str, items: list[str]) -> None:
    assert [(each["item"], each["state"]) for each in stated(text, reads)] == [
        (item, "done") for item in items
    ]


def test_oil_press_is_a_pressure(reads: Reader) -> None:
    (entry,) = stated("oil press 38 hot idle", reads)
    assert entry["value"] == {"value": 38, "unit": "psi"}


def test_what_turns_is_the_engine(reads: Reader) -> None:
    (entry,) = stated("2,400 rpm on the climb", reads)
    assert entry["subject"] == "engine_speed"
    assert stated("1,200 rpm on the blender", reads) == []


def test_which_of_two_weighs_so_much_is_not_made_up(reads: Reader) -> None:
    assert stated("Dusty and Belle loaded, 1,100 and 1,050", reads) == []


def test_the_spare_is_a_tyre(reads: Reader) -> None:
    (entry,) = stated("spare is at 50", reads)
    assert (entry["subject"], entry["position"]) == ("tyre", "spare")
    assert stated("a spare room at 50 a night", reads) == []


def test_a_shop_with_somebodys_name_is_where_one_filled_up(reads: Reader) -> None:
    (entry,) = stated("Molly's fuel stop, 21.4 gal", reads)
    assert (entry["kind"], entry["place"]) == ("fill", "Molly's")
    assert stated("Molly's fueled up, 21.4 gal", reads) == []


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("112 450 leaving Wattle Flat", "depart"),
        ("left Wattle Flat 112 450", "depart"),
        ("pulled up at Emu Soak for the night 112 870", "arrive"),
    ],
)
def test_the_first_reading_of_a_chat_may_have_a_space(reads: Reader, text: str, event: str) -> None:
    (entry,) = verdict_to_record(reads(text, chat(units="metric")))["entries"]
    assert entry["odometer"]["value"] in (112_450, 112_870)
    assert entry["event"] == event


@pytest.mark.parametrize(
    "text", ["room 204 450 made it", "left 200 450 ml bottles", "arrived, code 45 300"]
)
def test_two_figures_side_by_side_are_no_reading(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, chat(units="metric"))) == {"verdict": "silent"}


def test_what_is_told_in_psi_is_a_pressure_in_a_metric_chat(reads: Reader) -> None:
    text = "tyres 36 front 44 rear 45 van"
    found = verdict_to_record(reads(text, chat(units="metric")))["entries"]
    assert [(each["position"], each["value"]) for each in found] == [
        ("front", {"value": 36, "unit": "psi"}),
        ("rear", {"value": 44, "unit": "psi"}),
        ("trailer", {"value": 45, "unit": "psi"}),
    ]


def test_a_box_on_the_tongue_is_no_tongue(reads: Reader) -> None:
    assert stated("tongue box full of chains 180 lb", reads) == []
    assert stated("trailer brake gain set to 6.5", reads) == []
    (entry,) = stated("tongue 180 lb", reads)
    assert entry["loads"] == {"tongue": {"value": 180, "unit": "lb"}}


WARM_TYRES = "right side trailer tires ran hot, front 118 and rear 131 degrees"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        (WARM_TYRES, [("trailer right front", 118, "degF"), ("trailer right rear", 131, "degF")]),
        (
            "left side hubs front 120 rear 131",
            [("left front", 120, "degF"), ("left rear", 131, "degF")],
        ),
        (
            "driver side tires: front 64, rear 78",
            [("left front", 64, "psi"), ("left rear", 78, "psi")],
        ),
        (
            "tires front 65 and rear 80, trans 190 degrees",
            [("front", 65, "psi"), ("rear", 80, "psi"), (None, 190, "degF")],
        ),
        ("2 300 rpm at 65", [(None, 2300, "rpm"), (None, 65, "mph")]),
    ],
)
def test_a_heading_says_of_which_side_and_the_last_of_a_row_in_what_unit(
    reads: Reader, text: str, shown: list[tuple[str | None, float, str]]
) -> None:
    found = [(each.get("position"), each["value"]) for each in stated(text, reads)]
    told = [(where, {"value": value, "unit": unit}) for where, value, unit in shown]
    assert found == told


def test_frost_beside_a_reading_is_of_the_air(reads: Reader) -> None:
    frost, reading = stated("-12 out and 48,240", reads)
    assert frost["subject"] == "ambient"
    assert frost["value"] == {"value": -12, "unit": "degF"}
    assert reading["kind"] == "odometer"


def test_frost_beside_a_part_of_the_rig_is_of_the_air(reads: Reader) -> None:
    (frost,) = stated("minus 31 out there, block heater earned its keep", reads)
    assert frost["subject"] == "ambient"
    assert frost["value"] == {"value": -31, "unit": "degF"}


@pytest.mark.parametrize(
    "text", ["it's -12 out", "minus 31 out there", "-12 out of 20 on the quiz"]
)
def test_frost_that_people_talk_of_is_not_kept(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("for the record, steer was 5,180", "weighing"),
        ("for the record: left rear tire was plugged", "note"),
        ("dropd the trailer", "hitch"),
        ("filed up 24.1 gal", "fill"),
        ("8390 sorry cant read my own writing", "correction"),
        ("bobtailed it across, 5,120 / 4,460", "weighing"),
        ("took 300 lb out of the bed, drives down to 6,640", "weighing"),
        ("hang on, trans is at 201", "observation"),
        ("hang on, drive is 7,210", "correction"),
        ("trans at 190 as always", "observation"),
        ("trip 311.2 gal 26.1", "fill"),
        ("st 5310 dr 6920 trl 9580", "weighing"),
        ("scale says S 5120 D 6480 T 7640 G 19240 with the car hauler", "weighing"),
        ("towball weight with everything packed: 212 kg", "weighing"),
        ("tongue weight came in 1,050 to 1,080, scale kept wobbling", "weighing"),
        ("sold honey all day, $412 in the tin lol. odo's at 48,233", "odometer"),
        ("guess who let the def run low... ok 3.2 gal of def in now", "fill"),
    ],
)
def test_it_is_told_as_what_it_is(reads: Reader, text: str, kind: str) -> None:
    (entry,) = stated(text, reads)
    assert entry["kind"] == kind


@pytest.mark.parametrize(
    "text",
    [
        "for the record, the neighbours' pool would weigh about 32 t",
        "filed up the paperwork, 24 pages",
        "the lads' ute was parked over by the trailer park, left at 9",
        "the trans always sits around 190 on that hill",
        "guess who is 51",
    ],
)
def test_and_talk_as_none(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("trip 311.2 gal 26.1", {"distance": (311.2, "mi"), "volume": (26.1, "gal")}),
        (
            "filled to the top, 33.1 gal, cashier talked my ear off. 48,290 btw",
            {"volume": (33.1, "gal"), "odometer": (48_290, "mi")},
        ),
    ],
)
def test_a_heading_and_an_aside_leave_each_figure_its_own(
    reads: Reader, text: str, fill: dict[str, tuple[float, str]]
) -> None:
    (entry,) = stated(text, reads)
    assert {key: entry.get(key) for key in fill} == {
        key: {"value": value, "unit": unit} for key, (value, unit) in fill.items()
    }


def test_what_was_read_where_the_trailer_was_dropped_is_no_later_fills(reads: Reader) -> None:
    text = "dropped the camper at Willow Flat, 48,402. then ran into town and got 22.6 gal"
    kinds = [(entry["kind"], "odometer" in entry) for entry in stated(text, reads)]
    assert kinds == [("hitch", False), ("odometer", True), ("fill", False)]


def test_which_stop_it_was_is_no_axle(reads: Reader) -> None:
    check, reading = stated("lug nuts checked at the first stop, 48,250", reads)
    assert (check["kind"], reading["kind"]) == ("check", "odometer")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("tires are load range E 80 psi max", "rating"),
        ("trailer tires: 80 psi max cold", "rating"),
        ("left front tire 65 psi, max was yesterday", "observation"),
    ],
)
def test_the_most_that_a_tyre_may_hold_is_no_reading(reads: Reader, text: str, kind: str) -> None:
    (entry,) = stated(text, reads)
    assert entry["kind"] == kind


@pytest.mark.parametrize(
    ("text", "volumes"),
    [
        ("5 gal for the tractor, 22.4 gal for Juniper", [22.4]),
        ("22.4 gal for Juniper, 5 gal for the tractor", [22.4]),
        ("gas for the mower, 2.5 gal", []),
    ],
)
def test_what_is_for_another_leaves_the_trucks_alone(
    reads: Reader, text: str, volumes: list[float]
) -> None:
    poured = [entry["volume"] for entry in stated(text, reads)]
    assert poured == [{"value": volume, "unit": "gal"} for volume in volumes]
