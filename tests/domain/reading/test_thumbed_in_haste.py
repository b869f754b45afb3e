"""Short, hurried messages: glued letters, bare weights of things, several facts in a line."""

from __future__ import annotations

import pytest

from domain.entries import (
    Cargo,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Observation,
    Odometer,
    Weighing,
)
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Question, Silent
from tests.domain.driving_log import mi
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.weighed import loads
from tests.domain.scale_house import lb

BED = "bed"


@pytest.mark.parametrize(
    ("text", "placed"),
    [
        (
            "9,260tr 6,640dr 5,020st 20,920gr",
            {"trailer": 9_260, "drive": 6_640, "steer": 5_020, "gross": 20_920},
        ),
        (
            "gr20920 tr9260 dr6640 st5020",
            {"gross": 20_920, "trailer": 9_260, "drive": 6_640, "steer": 5_020},
        ),
        ("fr 4720 rr 6910 tl 7240", {"steer": 4_720, "drive": 6_910, "trailer": 7_240}),
        ("front 4720 rear 6910 tl 7240", {"steer": 4_720, "drive": 6_910, "trailer": 7_240}),
        ("4720 steer 6910 drive 7240 tr", {"steer": 4_720, "drive": 6_910, "trailer": 7_240}),
        ("steer 4980 drive 3650 g 8630", {"steer": 4_980, "drive": 3_650, "gross": 8_630}),
        ("st4720 dr6910", {"steer": 4_720, "drive": 6_910}),
        ("4720st 6910 drive", {"steer": 4_720, "drive": 6_910}),
        ("no bars s4720 d6910", {"steer": 4_720, "drive": 6_910}),
        ("front lt 2510 rt 2490", {"steer_left": 2_510, "steer_right": 2_490}),
    ],
)
def test_letters_stand_before_or_behind_all_their_loads(
    reads: Reader, text: str, placed: dict[str, float]
) -> None:
    assert loads(text, reads) == placed


def test_corners_with_both_sides_stay_wheels(reads: Reader) -> None:
    assert loads("fl 2480 fr 2510 rl 3400 rr 3350 t 7080", reads) == {
        "steer_left": 2_480,
        "steer_right": 2_510,
        "drive_left": 3_400,
        "drive_right": 3_350,
        "trailer": 7_080,
    }


def test_a_lone_letter_with_a_mark_is_no_place(reads: Reader) -> None:
    ticket = "Ticket: T-88213\nSteer axle 4,980 lb\nDrive axle 5,310 lb\nGross weight 10,290 lb"
    assert loads(ticket, reads) == {"steer": 4_980, "drive": 5_310, "gross": 10_290}


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("18.6k gross 4 aboard", (Weighing(loads={"gross": lb(18_600)}, aboard=4),)),
        (
            "61mph, trans 201",
            (
                Observation(subject="speed", value=Quantity(61, "mph")),
                Observation(subject="transmission", value=Quantity(201, "degF")),
            ),
        ),
        (
            "61 mph coolant 208",
            (
                Observation(subject="speed", value=Quantity(61, "mph")),
                Observation(subject="coolant", value=Quantity(208, "degF")),
            ),
        ),
        (
            "posted 55 mph, coolant 208",
            (Observation(subject="coolant", value=Quantity(208, "degF")),),
        ),
        (
            "fuel 24.8 gal, trans 201, arrived 48102",
            (
                Fill(volume=Quantity(24.8, "gal")),
                Observation(subject="transmission", value=Quantity(201, "degF")),
                Odometer(odometer=mi(48_102), event="arrive"),
            ),
        ),
        (
            "arrived 48102, trans 201, fuel 24.8 gal",
            (
                Odometer(odometer=mi(48_102), event="arrive"),
                Observation(subject="transmission", value=Quantity(201, "degF")),
                Fill(volume=Quantity(24.8, "gal")),
            ),
        ),
        (
            "fuel 24.8 gal, arrived 48102",
            (Fill(volume=Quantity(24.8, "gal"), odometer=mi(48_102)),),
        ),
        (
            "24.8 gal, trans 201, 48102",
            (
                Fill(volume=Quantity(24.8, "gal"), odometer=mi(48_102)),
                Observation(subject="transmission", value=Quantity(201, "degF")),
            ),
        ),
        (
            "48102 24.8 gal trans 201",
            (
                Fill(volume=Quantity(24.8, "gal"), odometer=mi(48_102)),
                Observation(subject="transmission", value=Quantity(201, "degF")),
            ),
        ),
        (
            "24.8 gal diesel coolant 208",
            (
                Fill(product="diesel", volume=Quantity(24.8, "gal")),
                Observation(subject="coolant", value=Quantity(208, "degF")),
            ),
        ),
        (
            "5010 steer 3720 drive solo, then hooked up",
            (
                Weighing(loads={"steer": lb(5_010), "drive": lb(3_720)}, rig="solo"),
                Hitch(action="hitched"),
            ),
        ),
        (
            "5010 steer 3720 drive solo, then hooked bars up",
            (Weighing(loads={"steer": lb(5_010), "drive": lb(3_720)}, rig="solo", bars="on"),),
        ),
        (
            "29.3g48377$108.12",
            (
                Fill(
                    volume=Quantity(29.3, "gal"),
                    odometer=mi(48_377),
                    cost=Quantity(108.12, "USD"),
                ),
            ),
        ),
        (
            "lugs torqued 48066",
            (Check(item="lugs", state="done"), Odometer(odometer=mi(48_066))),
        ),
        ("lugs torqued 140", (Check(item="lugs", state="done"),)),
        (
            "place shoulda been Larkfold",
            (Correction(action="amend", field="place", value="Larkfold"),),
        ),
        (
            "town shouldve been Larkfold",
            (Correction(action="amend", field="place", value="Larkfold"),),
        ),
    ],
)
def test_several_facts_in_a_short_line(
    reads: Reader, text: str, entries: tuple[Entry, ...]
) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "feed 420 salt 160 both in bed",
            (
                Cargo(item="feed", value=lb(420), position=BED),
                Cargo(item="salt", value=lb(160), position=BED),
            ),
        ),
        (
            "hay 940 generator 220 on deck",
            (
                Cargo(item="hay", value=lb(940)),
                Cargo(item="generator", value=lb(220), position="deck"),
            ),
        ),
        (
            "digger loaded on flatdeck 2650",
            (Cargo(item="digger", value=lb(2_650), trailer="flatdeck"),),
        ),
        ("quad 710 on flatdeck", (Cargo(item="quad", value=lb(710), trailer="flatdeck"),)),
        ("put the quad in the bed 710", (Cargo(item="quad", value=lb(710), position=BED),)),
        ("loaded the mower 620", (Cargo(item="mower", value=lb(620)),)),
        (
            "loaded the mower 620 lb, 3ft behind axle",
            (
                Cargo(
                    item="mower", value=lb(620), position="behind axle", distance=Quantity(3, "ft")
                ),
            ),
        ),
        ("bales 9600 on deck", (Cargo(item="bales", value=lb(9_600), position="deck"),)),
    ],
)
def test_things_and_what_they_weigh_without_a_unit(
    reads: Reader, text: str, entries: tuple[Entry, ...]
) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    "text",
    [
        "feed 420 salt 160",  # what it cost, perhaps
        "bought feed 420 salt 160",
        "hives 120 on the flatdeck",  # so many
        "loaded 1200 bales on flatdeck",
        "hay loaded 48102",
        "loaded up, 640 miles to go",
        "loaded the dishwasher 640",
        "sold the mower 640",
        "gonna load the quad 710",
        "didnt load the quad 710",
        "he loaded the mower 620 lb",
        "flatdeck loaded with hay 9180",  # the hay or all of it
        "packed the cooler 100",
        "quad 1600 in the garage",
        "got a quad 2019 on the flatdeck",
        "chain 5400 on deck",  # what it holds
        "5 gal trans fluid",
        "20 gal trans fluid 240",
        "2 gal coolant 18.99",
        "we shoulda been in Larkfold",
        "place shoulda been cheaper",
        "pin 8200",
        "mother tongue 11800 speakers",
        "s 4720 d 6910",
        "Elm St 4720 Oak Dr 6910",
        "my new D7000",
    ],
)
def test_what_is_as_short_and_states_nothing(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize("text", ["tongue 11600", "tongue weight 11,600", "tongue is 11600"])
def test_a_tongue_that_none_bears_is_asked_about(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Ask)
    assert (read.about, read.why) == ("tongue", "implausible")


@pytest.mark.parametrize(
    ("text", "start", "end"),
    [
        ("planning Alder Flat to Marlby 310mi, how many fuel stops?", "Alder Flat", "Marlby"),
        ("Plan Elk Fork to Marlby, 310 miles", "Elk Fork", "Marlby"),
        ("plan Kettle Station to Dry Lake 210 mi", "Kettle Station", "Dry Lake"),
        ("Trip to Marlby, 145 miles, how much fuel will we need?", None, "Marlby"),
    ],
)
def test_places_of_a_plan_may_have_known_words_in_their_names(
    reads: Reader, text: str, start: str | None, end: str
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Question)
    assert (read.topic, read.since, read.until) == ("plan", start, end)


def test_a_week_may_be_short(reads: Reader) -> None:
    whole = reads("fuel cost last week", on_the_road())
    short = reads("fuel cost last wk", on_the_road())
    assert isinstance(whole, Question)
    assert isinstance(short, Question)
    assert (short.topic, short.since, short.until) == ("cost", whole.since, whole.until)
    assert short.since is not None
